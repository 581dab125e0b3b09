//! What is published on gaze at rest: sources of the danger signs, and how often healthy people show the same.

use crate::evidence::{BaseRate, Citation};

pub(super) static KISSEL: Citation = Citation {
    short: "Kissel et al. 1983",
    place: "pupil in third nerve palsy from aneurysm, Ann Neurol 13:149",
    link: "pubmed.ncbi.nlm.nih.gov/6830174",
};
pub(super) static SMALL_PUPIL: Citation = Citation {
    short: "a case report in J Optom",
    place: "drooping lid and small pupil from a torn neck artery",
    link: "journalofoptometry.org/en/horner-syndrome-secondary-internal-carotid/articulo/S1888429612000556",
};
pub(super) static MOVEMENT: Citation = Citation {
    short: "Movement Disorder Emergencies, chapter on the eyes",
    place: "bursts without a pause, downbeat and upbeat nystagmus of acute onset; Current Clinical Neurology",
    link: "doi.org/10.1007/978-3-030-75898-1_2",
};
pub(super) static STRUPP: Citation = Citation {
    short: "Strupp et al. 2014",
    place: "J Neurol 261 Suppl 2:S542",
    link: "doi.org/10.1007/s00415-014-7385-9",
};
pub(super) static KATTAH: Citation = Citation {
    short: "Kattah et al. 2009",
    place: "Stroke 40:3504; eye signs of a central cause in continuous vertigo",
    link: "doi.org/10.1161/STROKEAHA.109.551234",
};
pub(super) static VERTIGO_GUIDELINE: Citation = Citation {
    short: "emergency guideline on acute dizziness 2023",
    place: "continuous dizziness with nystagmus: a trained examiner, else imaging",
    link: "saem.org/publications/grace/grace-3",
};
pub(super) static DIPLOPIA: Citation = Citation {
    short: "emergency teaching on double vision",
    place: "with both eyes open, recent and persistent: urgent",
    link: "accessworldmed.mhmedical.com/content.aspx?bookid=1684&sectionid=124228356",
};
pub(super) static CONCUSSION: Citation = Citation {
    short: "Patricios et al. 2023",
    place: "consensus statement on concussion in sport, Br J Sports Med 57:695; signs as listed for sideline use",
    link: "bjsm.bmj.com/content/57/11/695",
};
pub(super) static MORGAN: Citation =
    Citation { short: "Morgan 1944", place: "expected values at near, from a table after Morgan", link: "" };
pub(super) static HERISHANU: Citation = Citation {
    short: "Herishanu & Sharpe 1981",
    place: "Invest Ophthalmol Vis Sci 20:268",
    link: "cris.bgu.ac.il/en/publications/normal-square-wave-jerks",
};
static SALMAN: Citation = Citation {
    short: "Salman et al. 2008",
    place: "Pediatr Neurol 38:16",
    link: "doi.org/10.1016/j.pediatrneurol.2007.08.011",
};
pub(super) static YOUNG: Citation = Citation {
    short: "Young et al. 2020",
    place: "J Vestib Res 30:345",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC9249309",
};
static LAM: Citation =
    Citation { short: "Lam et al. 1987", place: "Am J Ophthalmol 104:69", link: "pubmed.ncbi.nlm.nih.gov/3605282" };

pub(super) static JERKS: [BaseRate; 2] = [
    rate("small jerks off and back on a recording", 24.0, "29 adults, young and old", &HERISHANU),
    rate("small jerks off and back on a recording of one minute", 90.0, "38 people, 8 to 19 years", &SALMAN),
];
pub(super) static HORIZONTAL: [BaseRate; 1] = [rate("horizontal nystagmus on video goggles", 16.7, GOGGLES, &YOUNG)];
pub(super) static UP: [BaseRate; 1] = [rate("upbeat nystagmus on video goggles", 7.9, GOGGLES, &YOUNG)];
pub(super) static DOWN: [BaseRate; 1] = [rate("downbeat nystagmus on video goggles", 5.9, GOGGLES, &YOUNG)];
pub(super) static UNEQUAL: [BaseRate; 1] =
    [rate("pupils that differ by 0.4 mm or more at one look, in dim light", 19.0, "128 people, photographed", &LAM)];

/// Every rate in healthy people that a finding at rest can carry.
pub static RATES: &[&[BaseRate]] = &[&JERKS, &HORIZONTAL, &UP, &DOWN, &UNEQUAL];

const GOGGLES: &str = "101 adults, sitting upright";

const fn rate(rule: &'static str, percent: f64, population: &'static str, source: &'static Citation) -> BaseRate {
    BaseRate { rule, low_percent: percent, high_percent: percent, population, source }
}
