//! What is published on the head impulse test: what it means, for whom, how well it does and how well examiners agree.

use crate::evidence::Citation;

pub(super) static KATTAH: Citation = Citation {
    short: "Kattah et al. 2009",
    place: "Stroke 40:3504; figures as told by a page on the study",
    link: "doi.org/10.1161/STROKEAHA.109.551234",
};
pub(super) static COCHRANE: Citation = Citation {
    short: "Gottlieb et al. 2023",
    place: "head impulse, nystagmus and test of skew, 12 studies, Cochrane Database Syst Rev CD015089",
    link: "doi.org/10.1002/14651858.CD015089.pub2",
};
pub(super) static TARNUTZER: Citation = Citation {
    short: "Tarnutzer et al. 2023",
    place: "clinician training and stroke location, 800 people",
    link: "pure.johnshopkins.edu/en/publications/impact-of-clinician-training-background-and-stroke-location-on-be",
};
pub(super) static OHLE: Citation = Citation {
    short: "Ohle et al. 2020",
    place: "neurologists against emergency physicians",
    link: "metajournal.com/articles/970797",
};
pub(super) static KERBER: Citation = Citation {
    short: "Kerber et al. 2015",
    place: "agreement between examiners, three classes; supplement to Neurology 2015",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC4662702",
};
pub(super) static YIP: Citation = Citation {
    short: "Yip et al. 2016",
    place: "bedside against recorded head impulse in 500 outpatients, Front Neurol 7:58",
    link: "doi.org/10.3389/fneur.2016.00058",
};
pub(super) static EARLY_SCAN: Citation = Citation {
    short: "BMJ Neurol Open 2022",
    place: "4:e000284; early magnetic resonance imaging may miss 20 to 50 % of strokes at the back of the brain",
    link: "neurologyopen.bmj.com/content/4/1/e000284",
};
pub(super) static GUIDELINE: Citation = Citation {
    short: "emergency guideline on acute dizziness 2023",
    place: "continuous dizziness with nystagmus and a trained examiner; otherwise gait, other tests or imaging",
    link: "saem.org/publications/grace/grace-3",
};
