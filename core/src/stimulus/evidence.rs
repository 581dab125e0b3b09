//! Sources of the guard's rules.

use crate::evidence::Citation;

/// Flash, red flash, and the area below which flashes do not count.
pub static FLASHES: Citation = Citation {
    short: "W3C 2023, WCAG 2.2, SC 2.3.1",
    place: "three flashes or below threshold; definition of general flash and red flash thresholds",
    link: "w3.org/TR/WCAG22/#dfn-general-flash-and-red-flash-thresholds",
};

/// What may provoke a seizure: flashes, saturated red, and how many stripes.
pub static CONSENSUS: Citation = Citation {
    short: "Harding et al. 2005",
    place: "photic and pattern-induced seizures, consensus, Epilepsia 46:1423",
    link: "pubmed.ncbi.nlm.nih.gov/16146438",
};

/// How long stripes move until a rest, and how long that is.
pub static SETS: Citation = Citation {
    short: "vertical stripes on a wide screen",
    place: "stripes for 20 s each time, a blank screen for 10 s between, Invest Ophthalmol Vis Sci",
    link: "iovs.arvojournals.org/article.aspx?articleid=2124240",
};
