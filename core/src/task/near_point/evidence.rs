//! What is published on the near point: sources, ranges, rates in healthy people, limits of change.

use crate::evidence::{BaseRate, ChangeLimit, Citation, Limit, Norm, Status};

pub(super) static HAYES: Citation = cite("Hayes et al. 1998", "Optom Vis Sci 75:506", "");
pub(super) static SCHEIMAN: Citation = cite("Scheiman et al. 2003", "Optom Vis Sci 80:214", "");
static MUCHA: Citation =
    cite("Mucha et al. 2014", "Am J Sports Med 42:2479", "pmc.ncbi.nlm.nih.gov/articles/PMC4209316");
pub(super) static MAPLES: Citation =
    cite("Maples & Hoenes 2007", "Optom Vis Sci 84, near point norms in schoolchildren", "");
static ELBIN: Citation =
    cite("Elbin et al. 2022", "147 concussed and 147 healthy, 13 to 18 years", "pubmed.gov/33896282");
static MOON: Citation = cite("Moon et al. 2020", "PLoS One", "pmc.ncbi.nlm.nih.gov/articles/PMC6980576");
/// The copy read shows no authors.
static HIGH_SCHOOL: Citation = cite(
    "a high-school sideline study",
    "78 athletes, mean age 15.8 years, before the season, before and after practice; abstract without authors in the copy read",
    "",
);
static IVERSON: Citation =
    cite("Iverson et al. 2021", "Clin J Sport Med, online 2019", "ouci.dntb.gov.ua/en/works/lDNAaEG7");
static KONTOS: Citation = cite("Kontos et al. 2016", "Am J Sports Med", "ouci.dntb.gov.ua/works/4MyyAWz4");
pub(super) static ERNST: Citation =
    cite("Ernst et al. 2020", "J Athl Train 55:850", "nata.kglmeridian.com/view/journals/attr/55/8/article-p850.xml");
pub(super) static LONG_TERM: Citation =
    cite("Scheiman et al. 2025", "Ophthalmic Physiol Opt, long-term reliability", "doi.org/10.1111/opo.70022");
static CARE: Citation = cite("CARE consortium 2021", "Brain Inj 35:1563", "doi.org/10.1080/02699052.2021.1973561");
pub(super) static MASHHAD: Citation = cite(
    "a survey of 2,433 people in Mashhad",
    "10 to 86 years; no authors in the copy read",
    "mendeley.com/catalogue/ef45f505-03b8-36a2-b6c5-958e04715fe9",
);
pub(super) static TEHRAN: Citation =
    cite("a survey in Tehran 2021", "people over 60; Eye", "nature.com/articles/s41433-021-01428-x");
pub(super) static HASHEMI: Citation = cite(
    "Hashemi et al.",
    "5,444 children in Iran, 6 to 12 years; as reviewed in Eye News",
    "eyenews.uk.com/reviews/journal-reviews/post/iranian-values-for-childhood-convergence",
);
pub(super) static AJREZO: Citation =
    cite("Ajrezo et al. 2016", "68 children in France, 5 to 16 years", "scidoc.org/IJOES-2332-290X-04-102.php");
pub(super) static STUDENTS: Citation = cite(
    "a survey of 1,357 students in Iran",
    "no authors in the copy read",
    "pmc.ncbi.nlm.nih.gov/articles/PMC6815340",
);
pub(super) static PHILLIPS: Citation =
    cite("Phillips & Tierney 2015", "J Eye Mov Res 8(3)", "bop.unibe.ch/JEMR/article/view/2403");
pub(super) static MCGINNIS: Citation =
    cite("McGinnis et al. 2019", "J Eye Mov Res 12(4):5", "doi.org/10.16910/jemr.12.4.5");
pub(super) static MARUSIC: Citation = cite("Marusic et al.", "Ophthalmic Physiol Opt", "doi.org/10.1111/opo.13344");
pub(super) static HEICK: Citation =
    cite("Heick & Bay 2021", "Int J Sports Phys Ther 16(1)", "doaj.org/article/4184923f4d034690bb50d42845955b84");
pub(super) static ADLER: Citation = cite("Adler et al. 2007", "Ophthalmic Physiol Opt, rule against free space", "");

const TEENS: BaseRate = BaseRate {
    rule: "a near point of 5 cm or more",
    low_percent: 21.0,
    high_percent: 32.0,
    population: "78 athletes, three sessions",
    source: &HIGH_SCHOOL,
};
const BOYS: BaseRate = BaseRate {
    rule: "a near point of 5 cm or more",
    low_percent: 22.0,
    high_percent: 22.0,
    population: "387 boys who play ice hockey, 8 to 17 years",
    source: &IVERSON,
};
/// Published as "at least 85 % of every grade broke at 6 cm or nearer", so this is the most in any grade.
const PUPILS: BaseRate = BaseRate {
    rule: "a near point beyond 6 cm",
    low_percent: 0.0,
    high_percent: 15.0,
    population: "297 schoolchildren, kindergarten to grade 6",
    source: &HAYES,
};
/// The share for the near point alone is not in the abstract; it cannot be more than this.
const STUDENT_ATHLETES: BaseRate = BaseRate {
    rule: "a near point of 5 cm or more, or a symptom sum of 2 or more",
    low_percent: 11.0,
    high_percent: 11.0,
    population: "263 college athletes",
    source: &KONTOS,
};
pub(super) static CHILD_RATES: [BaseRate; 2] = [PUPILS, BOYS];
pub(super) static TEEN_RATES: [BaseRate; 2] = [TEENS, BOYS];
pub(super) static ADULT_RATES: [BaseRate; 1] = [STUDENT_ATHLETES];
/// For an age that is not known.
pub(super) static ANY_AGE_RATES: [BaseRate; 2] = [TEENS, STUDENT_ATHLETES];
static RATES_BY_RULE: [BaseRate; 3] = [PUPILS, TEENS, BOYS];

/// Standard error of a near point in centimetres: limits of agreement of ±2.5 cm over 90 days (Scheiman et al. 2025)
/// divided by 1.96 √2. The year-long limit of 4 cm would give 1.44, but a year also holds true change.
const ERROR: f64 = 0.902;

/// From this age in years on, the adult limit. Common practice: the sources say "schoolchildren" and "adults".
pub(super) const GROWN: u8 = 18;
/// From this age in years on, the base rates of high-school athletes are the nearer ones. Common practice.
pub(super) const TEEN: u8 = 13;
/// From this age in years on, only what lies past [`OLDER_SPREAD`] counts as outside.
pub(super) const OLDER: u8 = 60;
/// Mean plus two standard deviations over all ages in the Mashhad survey, 8.59 + 2 × 4.82 cm. Beyond 60 the averages of
/// healthy people (7.8 cm in Tehran, 13.1 cm beyond 70 in Mashhad) lie past the adult limit themselves.
pub(super) const OLDER_SPREAD: f64 = 18.23;

/// The limit of Hayes et al., who examined schoolchildren up to grade 6. It is kept up to 17 years because the 5 cm of
/// the concussion screen would put 21 to 32 in 100 healthy teens outside; that limit is listed as well.
pub(super) static CHILD: Norm = Norm {
    status: Status::Found,
    error: Some(ERROR),
    healthy: &RATES_BY_RULE,
    ..listed("near_point.break.child", Limit::AtMost(6.0), Some((0, GROWN - 1)), "297 US schoolchildren", &HAYES)
};
pub(super) static ADULT: Norm = Norm {
    error: Some(ERROR),
    healthy: &ADULT_RATES,
    ..listed(
        "near_point.break.adult",
        Limit::AtMost(5.0),
        Some((GROWN, u8::MAX)),
        "adults, 175 healthy and 38 with convergence insufficiency",
        &SCHEIMAN,
    )
};
/// The published cut-off is for adults; none was found for children or for older people.
pub(super) static RECOVERY: Norm = Norm {
    what: "near point of convergence, recovery",
    ..listed(
        "near_point.recovery.adult",
        Limit::AtMost(7.0),
        Some((GROWN, OLDER - 1)),
        "adults, 175 healthy and 38 with convergence insufficiency",
        &SCHEIMAN,
    )
};
/// Listed, not graded against: it marks a fifth to a third of healthy teens.
static SCREEN: Norm = Norm {
    healthy: &TEEN_RATES,
    ..listed(
        "near_point.break.screen",
        Limit::Below(5.0),
        Some((9, 18)),
        "64 concussed and 78 healthy, about 14 years",
        &MUCHA,
    )
};
/// Listed, not graded against: it separates children with more from those with fewer symptoms.
static SYMPTOMS: Norm =
    listed("near_point.break.symptoms", Limit::AtMost(5.0), Some((6, 12)), "539 schoolchildren", &MAPLES);
/// Listed, not graded against: the best split of concussed from healthy teens in one study.
static CONCUSSED: Norm =
    listed("near_point.break.concussed", Limit::Below(3.0), Some((13, 18)), "147 concussed and 147 healthy", &ELBIN);
/// Listed, not graded against: the best split for convergence insufficiency among students.
static INSUFFICIENT: Norm =
    listed("near_point.break.insufficiency", Limit::AtMost(7.2), Some((18, 28)), "184 students", &MOON);
/// The error limit within one session, taken as the range of "no more than error". It is no range for tiring.
pub(super) static DRAWING_BACK: Norm = Norm {
    what: "near point of convergence, last trial minus first",
    ..listed(
        "near_point.drawing_back",
        Limit::AtMost(2.0),
        None,
        "measurement error in 380 concussed people, 10 to 22 years; no range for tiring is published",
        &ERNST,
    )
};

/// Every range, those graded against first.
pub(super) static NORMS: &[&Norm] =
    &[&CHILD, &ADULT, &RECOVERY, &SCREEN, &SYMPTOMS, &CONCUSSED, &INSUFFICIENT, &DRAWING_BACK];

/// Differences between two measurements that one study each would call more than error, smallest first. They disagree.
pub static CHANGE_LIMITS: &[ChangeLimit] = &[
    ChangeLimit {
        value: 2.0,
        unit: "cm",
        population: "380 concussed, 10 to 22 years, within one session",
        source: &ERNST,
    },
    ChangeLimit {
        value: 2.5,
        unit: "cm",
        population: "91 healthy, 12 to 17.5 years, 90 days apart",
        source: &LONG_TERM,
    },
    ChangeLimit { value: 4.0, unit: "cm", population: "378 at college, 17 to 25 years, a year apart", source: &CARE },
];

const fn cite(short: &'static str, place: &'static str, link: &'static str) -> Citation {
    Citation { short, place, link }
}

const fn listed(
    id: &'static str,
    limit: Limit,
    ages: Option<(u8, u8)>,
    population: &'static str,
    source: &'static Citation,
) -> Norm {
    let (what, unit) = ("near point of convergence, break", "cm");
    Norm { id, what, unit, limit, error: None, ages, population, source, status: Status::Found, healthy: &[] }
}
