//! Sources and the one range of the stripes.

use crate::evidence::{Citation, Norm};
use crate::side_by_side;

pub(super) static HALE: Citation = Citation {
    short: "review by Hale",
    place: "optokinetic testing at the bedside; a tape tests following and jumps, not the full-field reflex",
    link: "proquest.com/docview/2969006461",
};
/// The figures were read in the table itself; the copy showed neither authors nor year.
pub(super) static CONTROLS: Citation = Citation {
    short: "vestibular tests in dizzy people and controls",
    place: "27 controls: optokinetic difference median 0.10, quartiles 0.04 and 0.15; J Neurol Neurosurg Psychiatry, table 4",
    link: "jnnp.bmj.com/highwire/markup/163295/expansion",
};
pub(super) static KNAPP: Citation = Citation {
    short: "Knapp et al. 2008",
    place: "15 healthy adults: no difference between right and left as a group, Invest Ophthalmol Vis Sci 49:581",
    link: "pubmed.ncbi.nlm.nih.gov/18235002",
};
pub(super) static VALMAGGIA: Citation = Citation {
    short: "Valmaggia et al. 2004",
    place: "249 people from birth to 89 years, Br J Ophthalmol 88:1577",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC1772432",
};
pub(super) static JENKINS: Citation = Citation {
    short: "Jenkins et al. 1979",
    place: "nystagmus of 20 to 30° a second in the dark is needed, Arch Otolaryngol 105:132",
    link: "doi.org/10.1001/archotol.1979.00790150022006",
};
pub(super) static DISTURBED: Citation = Citation {
    short: "optokinetic response with nystagmus at rest",
    place: "8 patients with fresh loss of one labyrinth: differences up to 70 %",
    link: "scilit.net/publications/dad47a814c7f123e711c19e0c7d317c9",
};
pub(super) static HARDING: Citation = Citation {
    short: "Harding et al. 2005",
    place: "photic and pattern-induced seizures, consensus, Epilepsia 46:1423",
    link: "doi.org/10.1111/j.1528-1167.2005.31305.x",
};
/// Source of the test of two rates.
pub(super) static BOTH_WAYS: Citation =
    Citation { short: "Przyborowski & Wilenski 1940", place: "Biometrika 31:313", link: "" };

/// No validated limit exists; the review only says what the task is.
pub(super) static MISSES: Norm = side_by_side::not_in_most("optokinetic.missed.most", "stripes missed", &HALE);
