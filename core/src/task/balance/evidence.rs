//! What is published on balance errors and the heel-to-toe walk: averages that disagree, and one limit of change of
//! another form.

use crate::evidence::{ChangeLimit, Citation};

/// The three stances, what counts as an error, and the cap of ten.
pub(super) static STANCES: Citation = cite(
    "common data elements of NINDS, balance error test, short form",
    "firm floor, eyes closed, 20 s for each of three stances",
    "commondataelements.ninds.nih.gov",
);
/// The copy read shows no authors.
pub(super) static COLLEGE: Citation =
    cite("a study of 39 college athletes", "short form", "soar.wichita.edu/items/58eae0d0-2b05-469e-b8be-d5ed3043ba34");
/// The copy read shows no authors.
pub(super) static CONTROLS: Citation = cite(
    "a study of 93 controls and 90 ice players",
    "Br J Sports Med",
    "bjsm.bmj.com/highwire/markup/120226/expansion",
);
pub(super) static BREEN: Citation =
    cite("Breen et al. 2016", "389 athletes of 10 to 18 years", "pubmedcentralcanada.ca/pmcc/articles/PMC4981067");
/// The copy read shows no authors.
static CHILDREN: Citation =
    cite("a reliability study of 373 children, 2016", "six stances", "pmc.ncbi.nlm.nih.gov/articles/PMC4955616");
/// The copy read shows no authors.
pub(super) static FEET_TOGETHER: Citation = cite(
    "a study of 184 healthy people, 20 to 79 years",
    "1984, Phys Ther 64:1067",
    "academic.oup.com/ptj/article-pdf/64/7/1067/10757260/ptj1067.pdf",
);
pub(super) static SCHNEIDERS: Citation =
    cite("Schneiders et al. 2010", "172 people of 16 to 37 years, J Sci Med Sport 13:196", "");
pub(super) static SHUMSKI: Citation =
    cite("Shumski et al. 2025", "2,137 college athletes, Sports Med", "doi.org/10.1007/s40279-025-02306-2");
pub(super) static PYNDIURA: Citation =
    cite("Pyndiura et al.", "103 university athletes", "synapsesocial.com/de/papers/696b25cfd2a12237a9349232");
/// The copy read shows no authors.
pub(super) static HIGH_SCHOOL: Citation = cite(
    "a study of 200 high-school athletes",
    "J Athl Train 52:1096",
    "meridian.allenpress.com/jat/article/52/12/1096/112952",
);

/// Mean errors on one foot by age (Breen et al. 2016).
pub(super) static ONE_FOOT: &[((u8, u8), f64)] = &[((10, 12), 3.8), ((13, 15), 3.0), ((16, 18), 2.5)];

/// No limit was found for three stances. That of the six-stance form is shown as what it is; its sums run up to 60, so it
/// rather overstates the error of three.
pub static CHANGE_LIMITS: &[ChangeLimit] = &[ChangeLimit {
    value: 7.3,
    unit: "",
    population: "373 children of 5 to 14 years, another form with six stances, so no more than a hint",
    source: &CHILDREN,
}];

const fn cite(short: &'static str, place: &'static str, link: &'static str) -> Citation {
    Citation { short, place, link }
}
