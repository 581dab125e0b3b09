//! Sources of the comparison of the body's sides.

use crate::evidence::Citation;

/// Weakness or numbness of a side as a stroke sign, with balance and eyes beside face, arm and speech.
pub(super) static STROKE: Citation = Citation {
    short: "Aroor et al. 2017",
    place: "balance and eyes added to face, arm, speech, time; Stroke 48:479",
    link: "scholars.duke.edu/display/pub1277824",
};
/// Weakness, tingling or burning of arms or legs after a knock.
pub(super) static CONCUSSION: Citation = Citation {
    short: "Patricios et al. 2023",
    place: "consensus statement on concussion in sport, Br J Sports Med 57:695; signs as listed for sideline use",
    link: "bjsm.bmj.com/content/57/11/695",
};
