//! Sources on following.

use crate::evidence::Citation;

/// Author from memory; the figures were read in the abstract.
pub(super) static TRACKING: Citation = Citation {
    short: "Schalén 1980",
    place: "20 healthy adults, 10 to 60° a second: jumps of 3 to 10° at every speed, Acta Otolaryngol 90:404",
    link: "pubmed.ncbi.nlm.nih.gov/7211334",
};
pub(super) static KE: Citation = Citation {
    short: "Ke et al. 2013",
    place: "20 and 22 adults; fewer catch-ups side to side and downward, Invest Ophthalmol Vis Sci 54:4409",
    link: "doi.org/10.1167/iovs.12-11369",
};
pub(super) static GILLIGAN: Citation = Citation {
    short: "Gilligan et al. 1981",
    place: "489 healthy children aged 3 to 11, Am J Occup Ther 35:249",
    link: "doi.org/10.5014/ajot.35.4.249",
};
pub(super) static ACCARDO: Citation = Citation {
    short: "Accardo et al. 1995",
    place: "children over 7 against adults",
    link: "pubmed.ncbi.nlm.nih.gov/7900294",
};
pub(super) static EGO: Citation = Citation {
    short: "Ego et al. 2013",
    place: "58 children aged 5 to 16 and 16 adults, J Neurophysiol (journal from memory)",
    link: "",
};
pub(super) static KING: Citation = Citation {
    short: "King et al. 2024",
    place: "70 people, three clinicians, four grades: fair agreement, Mil Med",
    link: "",
};
