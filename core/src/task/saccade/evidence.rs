//! Sources and ranges of the jumps.

use crate::evidence::{Citation, Norm};
use crate::side_by_side;

/// Healthy people reach the target at once or with one correction; going past and back is the sign described there.
pub(super) static STRUPP: Citation = Citation {
    short: "Strupp et al. 2011",
    place: "central disorders of eye movement, Dtsch Arztebl Int 108:197",
    link: "doi.org/10.3238/arztebl.2011.0197",
};
/// On target was the most frequent landing, short the next; jumps are more precise when small. Latency falls through
/// childhood.
pub(super) static HOPF: Citation = Citation {
    short: "Hopf et al. 2018",
    place: "100 healthy people aged 6 to 76, reflexive saccades, PLoS One",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC6143243",
};
/// Authors and volume from memory; the figure was read in the abstract.
pub(super) static PRABLANC: Citation = Citation {
    short: "Prablanc et al. 1978",
    place: "error-correcting mechanisms in large saccades, Vision Res 18:557; short by 10 % is normal",
    link: "",
};
pub(super) static WEBER: Citation = Citation {
    short: "Weber & Daroff 1971",
    place: "25 adults; 10° usually on target, undershoot grows with size; Vision Res 11:921 (volume from memory)",
    link: "",
};
pub(super) static IRVING: Citation = Citation {
    short: "Irving et al. 2006",
    place: "195 people aged 3 to 86; shorter landings with age and size, Invest Ophthalmol Vis Sci 47:2478",
    link: "doi.org/10.1167/iovs.05-1311",
};
/// The same sign with a cause on the other side and on the same side: two of several series that disagree.
pub(super) static AWAY: Citation = Citation {
    short: "Ranalli & Sharpe 1986",
    place: "landing past away from the cause, Ann Neurol 20:311 (volume from memory)",
    link: "",
};
pub(super) static TOWARD: Citation = Citation {
    short: "Paliwal et al. 2015",
    place: "landing past toward the cause, Ann Indian Acad Neurol 18:284",
    link: "",
};

pub(super) static PAST: Norm = side_by_side::not_in_most("saccade.past.most", "jumps past the target", &STRUPP);
pub(super) static CORRECTIONS: Norm =
    side_by_side::not_in_most("saccade.second.most", "jumps with more than one correction", &STRUPP);
/// Short is the second most frequent landing in health, so more short jumps than others is unusual, but no more than
/// that: it is never graded beyond "near the limit".
pub(super) static SHORT: Norm = side_by_side::not_in_most("saccade.short.most", "jumps short of the target", &HOPF);
