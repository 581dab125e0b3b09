//! Sources of the patterns. Where the copy read showed neither authors nor year, the source is named by what it is.

use crate::evidence::Citation;

// Following.
pub(super) static MORROW_1990: Citation = Citation {
    short: "Morrow & Sharpe 1990",
    place: "23 lesions of one hemisphere, following uneven in 10, always worse toward the lesion; Neurology 40:284 \
            (volume from memory)",
    link: "scilit.com/publications/1e0d0842b2fc1686bac122a89cc7c3a4",
};
pub(super) static POSTERIOR: Citation = Citation {
    short: "a series of 16 posterior lesions",
    place: "following uneven in 4; in 2 lost both ways in one half of the field",
    link: "scilit.net/publications/ef4117ba3d03384e812895cba976dae6",
};
pub(super) static MORROW_1995: Citation = Citation {
    short: "Morrow & Sharpe 1995",
    place: "7 frontal lesions: following worse toward the lesion in 5, both ways in 4; Ann Neurol 37:443 (volume from \
            memory)",
    link: "scilit.com/publications/1fa6b860355d99da2a44eb4f25fb6921",
};
pub(super) static FLOCCULUS: Citation = Citation {
    short: "a case of floccular infarct",
    place: "following worse toward the lesion; beside it a pontine case with loss both ways",
    link: "scilit.net/publications/50ca1d2d62dbcbee3b538d751cce3bb4",
};
pub(super) static BEH: Citation = Citation {
    short: "Beh et al. (review)",
    place: "the cerebellum and eye movements: flocculus, nodulus and uvula",
    link: "collections.lib.utah.edu/details?id=1353387",
};
pub(super) static TEXTBOOK: Citation = Citation {
    short: "a textbook figure on conjugate gaze",
    place: "gaze palsies by place; following lost away from occipital and pontine lesions, called variable",
    link: "dartmouth.edu/~dons/figures/chapt_4/Fig_4-5.htm",
};

// Stripes.
pub(super) static PARIETAL_TWO: Citation = Citation {
    short: "two parietal cases with stripes",
    place: "slow phase poor when stripes move toward the lesion",
    link: "scilit.com/publications/b6794104ca0e1269e39b702b4a690afc",
};
pub(super) static PARIETAL_33: Citation = Citation {
    short: "33 parietal cases with stripes",
    place: "slow phase toward the lesion poor; inferior parietal lesions affect both sides",
    link: "discovery.researcher.life/article/n-a/2532053dfbbd3ad1b8884087f318670c",
};
pub(super) static SMALL_FIELD: Citation = Citation {
    short: "small-field stripes and scans",
    place: "uneven response from the posterior hemisphere to the internal capsule",
    link: "discovery.researcher.life/article/the-cerebral-ocular-pursuit-pathways-a-clinicoradiological-study-of-small-\
           field-optokinetic-nystagmus/78eb7e2830e93cc9acf0cb57ed4ea4aa",
};
pub(super) static LEFT_PARIETAL: Citation = Citation {
    short: "9 left parietal cases with stripes",
    place: "no direction preferred; only loss of a whole hemisphere made it uneven",
    link: "discovery.researcher.life/article/analysis-of-optokinetic-nystagmus-in-patients-with-lesions-on-the-left-\
           unilateral-parietal-lobe-or-the-entire-left-hemisphere/2d52f2fc3ca731c2824fde15eb8e0789",
};
pub(super) static HALE: Citation = Citation {
    short: "review by Hale",
    place: "optokinetic testing at the bedside; a tape tests following and jumps, not the full-field reflex",
    link: "proquest.com/docview/2969006461",
};
pub(super) static SKEWED: Citation = Citation {
    short: "optokinetic response with nystagmus at rest",
    place: "8 patients with fresh loss of one labyrinth: differences up to 70 %",
    link: "scilit.net/publications/dad47a814c7f123e711c19e0c7d317c9",
};

// Jumps.
pub(super) static MIDLINE: Citation = Citation {
    short: "a review of midline lesions of the cerebellum",
    place: "vermis and fastigial nucleus give opposite landings",
    link: "discovery.researcher.life/article/the-effect-of-cerebellar-midline-lesions-on-eye-movements/\
           bd8969e3c9693030b567b6c306848722",
};
pub(super) static VAHEDI: Citation = Citation {
    short: "Vahedi et al. 1995",
    place: "19 cerebellar infarcts; of the posterior vermis: short both ways, following worse toward the lesion",
    link: "mendeley.com/catalogue/e8acd068-edbe-3370-b954-5bfe134212b2",
};
pub(super) static RANALLI: Citation = Citation {
    short: "Ranalli & Sharpe 1986",
    place: "landing past away from the cause, Ann Neurol 20:311 (volume from memory)",
    link: "scilit.com/publications/bf92d895a62124a16bc722721ba076bd",
};
pub(super) static PALIWAL: Citation = Citation {
    short: "Paliwal et al. 2015",
    place: "landing past toward the cause, Ann Indian Acad Neurol 18:284",
    link: "annalsofian.org/article.asp?issn=0972-2327;year=2015;volume=18;issue=3;spage=284",
};
pub(super) static XU_BARTON: Citation = Citation {
    short: "Xu & Barton 2020",
    place: "textbook chapter on the cortex: lone lesions of the frontal eye field leave jumps as fast or faster",
    link: "neuroophthalmology.ca/textbook/disorders-of-eye-movements/viii-cerbral-cortex",
};
pub(super) static HENIK: Citation = Citation {
    short: "Henik et al. 1994",
    place: "9 frontal lesions: reflexive jumps away from the lesion earlier, voluntary ones later",
    link: "cris.bgu.ac.il/en/publications/endogenously-generated-and-visually-guided-saccades-after-lesions",
};
pub(super) static RIVAUD: Citation = Citation {
    short: "Rivaud et al. 1994",
    place: "3 lesions of the frontal eye field: jumps away from the lesion short, errors in looking away ordinary",
    link: "alljournals.cn/view_abstract.aspx?aid=BDE2DE85F72CD10C7393D878274C97A6",
};
pub(super) static MAGNETIC: Citation = Citation {
    short: "magnetic stimulation of the frontal eye field 2009",
    place: "jumps toward the stimulated side fell short, PLoS One 4:e7278",
    link: "doi.org/10.1371/journal.pone.0007278",
};
pub(super) static HEMISPHERES: Citation = Citation {
    short: "74 cases of gaze turned by a hemisphere",
    place: "the frontal eye field mostly spared, the inferior parietal lobule involved",
    link: "discovery.researcher.life/topic/saccadic-palsy/8647528",
};
pub(super) static ANTI: Citation = Citation {
    short: "look-away errors with lesions of the cortex",
    place: "lesions of the frontal eye field: more errors with the target away from the lesion",
    link: "discovery.researcher.life/article/control-of-fixation-and-saccades-during-an-anti-saccade-task-an-\
           investigation-in-humans-with-chronic-lesions-of-oculomotor-cortex/2d7527a7517b34b0ab0df15b6c430da3",
};
pub(super) static FISCHER: Citation = Citation {
    short: "Fischer et al. 1997",
    place: "281 people aged 8 to 70, hard version of the task: 60 % errors at 9 years, 22 % at 15",
    link: "optomotorik.de/pubs/brain754.htm",
};
pub(super) static EVDOKIMIDIS: Citation = Citation {
    short: "Evdokimidis et al. 2002",
    place: "about 2,000 young men: 23 % errors, spread 17 %",
    link: "pure.johnshopkins.edu/en/publications/the-antisaccade-task-in-a-sample-of-2006-young-men-i-normal-popul-3",
};

// Range of gaze.
pub(super) static INTERNUCLEAR: Citation = Citation {
    short: "a general practice notebook on internuclear palsy",
    place: "the lesion lies on the side of the eye that turns in slowly",
    link: "gpnotebook.co.uk/simplepage.cfm?ID=1611005961",
};
pub(super) static VERTICAL: Citation = Citation {
    short: "a clinical manual on gaze palsies",
    place: "vertical gaze palsy: rostral midbrain",
    link: "msdmanuals.com/professional",
};
pub(super) static BILATERAL_SIXTH: Citation = Citation {
    short: "a family practice notebook on acute eye symptoms",
    place: "both sixth nerves: raised pressure, thiamine deficiency, botulism; pupil in third nerve palsy",
    link: "fpnotebook.com/Eye/Sx/ActEySymptmsSgstvOfCntrlNrvsSystmCs.htm",
};
pub(super) static KISSEL: Citation = Citation {
    short: "Kissel et al. 1983",
    place: "pupil in third nerve palsy from aneurysm, Ann Neurol 13:149",
    link: "pubmed.ncbi.nlm.nih.gov/6830174",
};
pub(super) static THIRD_145: Citation = Citation {
    short: "145 third nerve palsies",
    place: "pupil involved in 64 % of compressive and 17 % of microvascular ones",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC5462106",
};
pub(super) static STRUPP_2014: Citation = Citation {
    short: "Strupp et al. 2014",
    place: "J Neurol 261 Suppl 2:S542",
    link: "doi.org/10.1007/s00415-014-7385-9",
};
pub(super) static YOUNG: Citation = Citation {
    short: "Young et al. 2020",
    place: "J Vestib Res 30:345",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC9249309",
};

// Continuous vertigo.
pub(super) static KATTAH: Citation = Citation {
    short: "Kattah et al. 2009",
    place: "Stroke 40:3504; eye signs of a central cause in continuous vertigo",
    link: "doi.org/10.1161/STROKEAHA.109.551234",
};
pub(super) static SIGNS: Citation = Citation {
    short: "a teaching page on vestibular signs",
    place: "which eye signs and which loss of hearing count as central in continuous vertigo",
    link: "neuro.wiki/wiki/clinical/others/vestibular-exam",
};
pub(super) static GOTTLIEB: Citation = Citation {
    short: "Gottlieb et al. 2023",
    place: "12 studies, any examiner, low certainty: sensitivity 94.0 % (82.0 to 98.2), specificity 86.9 % (75.3 to 93.6)",
    link: "apps.asha.org/EvidenceMaps/Articles/ArticleSummary/db0b5794-9485-ee11-814b-005056834e2b",
};
pub(super) static OHLE: Citation = Citation {
    short: "Ohle et al. 2020",
    place: "sensitivity and specificity of neurologists 96.7 and 94.8 %; with emergency physicians 83.3 and 43.8 %",
    link: "emdocs.net/journal-feed-weekly-wrap-up-39",
};
pub(super) static TARNUTZER: Citation = Citation {
    short: "Tarnutzer et al. 2023",
    place: "800 people; of strokes of the anterior inferior cerebellar artery 84.0 % found unless hearing is tested",
    link: "pure.johnshopkins.edu/en/publications/impact-of-clinician-training-background-and-stroke-location-on-be",
};
pub(super) static SCANS: Citation = Citation {
    short: "a review of early scans in posterior strokes 2022",
    place: "20 to 50 % missed within 48 hours, BMJ Neurol Open 4:e000284",
    link: "neurologyopen.bmj.com/content/4/1/e000284",
};
pub(super) static GUIDELINE: Citation = Citation {
    short: "emergency guideline on acute dizziness 2023",
    place: "continuous dizziness with nystagmus: a trained examiner, else imaging",
    link: "saem.org/publications/grace/grace-3",
};

// Convergence.
pub(super) static TRIAL: Citation = Citation {
    short: "a treatment trial of convergence insufficiency",
    place: "entry rules, 9 to 17 years",
    link: "bjo.bmj.com/highwire/markup/170676/expansion",
};
pub(super) static TRIAL_RESERVE: Citation = Citation {
    short: "a table of criteria after the treatment trials",
    place: "base-out reserve at most 15 prism dioptres instead of twice the deviation; BMC Ophthalmol 2021",
    link: "bmcophthalmol.biomedcentral.com/articles/10.1186/s12886-021-01855-0/tables/1",
};
pub(super) static SCHEIMAN_WICK: Citation = Citation {
    short: "criteria after Scheiman & Wick 2014",
    place: "textbook, as tabled in a later study",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC5777927",
};
pub(super) static STRICT: Citation = Citation {
    short: "a study with stricter criteria",
    place: "near exophoria over 6, near point from 10 cm on, ratio below 3",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC5602136",
};
pub(super) static HORWOOD: Citation = Citation {
    short: "Horwood et al. 2014",
    place: "167 students, none seeking care: 17 with signs, 65 % of those without symptoms; Br J Ophthalmol 98:679",
    link: "bjo.bmj.com/cgi/content/full/98/5/679",
};
