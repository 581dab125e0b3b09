//! Sources of near and far, and how much focusing is sure to be there at an age.

use crate::evidence::Citation;

/// The formula was read in the encyclopedia, not in the paper.
pub(super) static HOFSTETTER: Citation = Citation {
    short: "Hofstetter 1950",
    place: "least amplitude of accommodation, 15 minus a quarter of the age in dioptres; built on two older surveys",
    link: "en.wikipedia.org/wiki/Amplitude_of_accommodation",
};

pub(super) static ANDERSON: Citation = Citation {
    short: "Anderson et al. 2008",
    place: "focusing measured by an instrument in 140 people of 3 to 40 years, Invest Ophthalmol Vis Sci",
    link: "pubmed.ncbi.nlm.nih.gov/18326693",
};

pub(super) static DIPLOPIA: Citation = Citation {
    short: "emergency teaching on double vision",
    place: "with both eyes open, recent and persistent: urgent",
    link: "accessworldmed.mhmedical.com/content.aspx?bookid=1684&sectionid=124228356",
};

/// Source of the test of two counts.
pub(super) static TWO_COUNTS: Citation =
    Citation { short: "Przyborowski & Wilenski 1940", place: "Biometrika 31:313", link: "" };

/// The lower of two published figures, in dioptres, with its source. They disagree: measured by the person's own report
/// the least is 15 - 0.25 × age (Hofstetter 1950, never below none); measured by an instrument focusing reaches 7.33 -
/// 0.0035 (age - 3)² on average from 3 to 40 years (Anderson et al. 2008), and no more than at 40 later.
pub(super) fn least_focusing(years: u8) -> (f64, &'static Citation) {
    let reported = (15.0 - 0.25 * f64::from(years)).max(0.0);
    let since_three = f64::from(years.clamp(3, 40)) - 3.0;
    let measured = 7.33 - 0.0035 * since_three * since_three;
    if measured < reported { (measured, &ANDERSON) } else { (reported, &HOFSTETTER) }
}
