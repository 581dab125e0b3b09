//! What is published on the range of gaze and on beats at its end.

use crate::evidence::{BaseRate, Citation};

pub(super) static RANGE: Citation = Citation {
    short: "Lee et al. 2019",
    place: "range of eye movement by age and direction, 261 healthy people of 5 to 91 years, Eye 33:1145",
    link: "pubmed.ncbi.nlm.nih.gov/30837710",
};
pub(super) static WHYTE: Citation = Citation {
    short: "Whyte et al. 2010",
    place: "Invest Ophthalmol Vis Sci 51:2476",
    link: "doi.org/10.1167/iovs.08-3241",
};
pub(super) static SHALLO: Citation = Citation {
    short: "Shallo-Hoffmann et al. 1990",
    place: "Invest Ophthalmol Vis Sci 31:388",
    link: "hdl.handle.net/1765/40334",
};
static YOUNG: Citation = Citation {
    short: "Young et al. 2020",
    place: "J Vestib Res 30:345",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC9249309",
};
pub(super) static KATTAH: Citation = Citation {
    short: "Kattah et al. 2009",
    place: "Stroke 40:3504; eye signs of a central cause in continuous vertigo",
    link: "doi.org/10.1161/STROKEAHA.109.551234",
};
pub(super) static KISSEL: Citation = Citation {
    short: "Kissel et al. 1983",
    place: "pupil in third nerve palsy from aneurysm, Ann Neurol 13:149",
    link: "pubmed.ncbi.nlm.nih.gov/6830174",
};
pub(super) static STRUPP: Citation = Citation {
    short: "Strupp et al. 2014",
    place: "acute gaze palsy, downbeat and upbeat nystagmus; J Neurol 261 Suppl 2:S542",
    link: "doi.org/10.1007/s00415-014-7385-9",
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
pub(super) static BOTH_OUTWARD: Citation = Citation {
    short: "family medicine teaching on acute eye signs",
    place: "both sixth nerves: raised pressure in the head, thiamine lack, botulism",
    link: "fpnotebook.com/Eye/Sx/ActEySymptmsSgstvOfCntrlNrvsSystmCs.htm",
};
pub(super) static BUNDLE: Citation = Citation {
    short: "Dartmouth teaching on gaze",
    place: "side of the slow inward eye in internuclear ophthalmoplegia, figure 4-5",
    link: "dartmouth.edu/~dons/figures/chapt_4/Fig_4-5.htm",
};
/// No published list was found that names a new internuclear ophthalmoplegia; a new gaze palsy is named.
pub(super) static INTERNUCLEAR: Citation = Citation {
    short: "standard teaching, from memory",
    place: "a new internuclear ophthalmoplegia is taken as an emergency",
    link: "",
};

/// Recorded nystagmus of any length; how many of these beats an examiner would see by eye is not published.
pub(super) static BEATS: [BaseRate; 2] = [
    rate("beats on a recording when looking 30° to the side", 43.0, "56 healthy adults", &WHYTE),
    rate("beats on a recording at the far end of gaze", 93.0, "56 healthy adults", &WHYTE),
];
/// 9 of 20.
pub(super) static LASTING: [BaseRate; 2] = [
    rate("beats on a recording when looking 30° to the side", 43.0, "56 healthy adults", &WHYTE),
    rate("beats that last 15 to 25 s when looking 40 to 50° to the side", 45.0, "20 healthy people", &SHALLO),
];
pub(super) static UP: [BaseRate; 1] = [rate("upbeat nystagmus on video goggles", 7.9, GOGGLES, &YOUNG)];
pub(super) static DOWN: [BaseRate; 1] = [rate("downbeat nystagmus on video goggles", 5.9, GOGGLES, &YOUNG)];

/// Every rate in healthy people that a finding can carry.
pub static RATES: &[&[BaseRate]] = &[&BEATS, &LASTING, &UP, &DOWN];

const GOGGLES: &str = "101 adults, looking ahead";

const fn rate(rule: &'static str, percent: f64, population: &'static str, source: &'static Citation) -> BaseRate {
    BaseRate { rule, low_percent: percent, high_percent: percent, population, source }
}
