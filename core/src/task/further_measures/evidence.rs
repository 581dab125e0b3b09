//! What is published on the further measures: cut-offs, averages, rates in healthy people, limits of change.

use crate::evidence::{BaseRate, ChangeLimit, Citation, Limit, Norm, Status};
use crate::near_vision;

/// The cut-off of children with its sensitivity and specificity.
static CHILD_RULE: Citation = cite(
    "the entry rule of the treatment trials",
    "children of 9 to 18 years; sensitivity 95.7 %, specificity 87.5 %",
    "childrenseyewiki.org/doku.php?do=diff&id=convergence_insufficiency",
);
pub(super) static BORSTING: Citation = cite(
    "Borsting et al. 2003",
    "47 children with and 56 without insufficiency, Optom Vis Sci 80:832",
    "scribd.com/document/294105323",
);
pub(super) static ROUSE: Citation = cite(
    "Rouse et al. 2004",
    "46 adults with and 46 without insufficiency, 19 to 30 years",
    "pubmed.ncbi.nlm.nih.gov/15315652",
);
pub(super) static HORWOOD: Citation = cite(
    "Horwood et al. 2014",
    "167 students not seeking care, Br J Ophthalmol 98:679",
    "bjo.bmj.com/cgi/content/full/98/5/679",
);
/// The copy read shows no authors.
pub(super) static SCHOOL: Citation =
    cite("a study of 100 healthy children, 2017", "survey by task asked about, J AAPOS", "qxmd.com/r/28890076");
/// How much better a treatment trial asked for.
pub(super) static TRIAL: Citation = cite(
    "a registered treatment trial",
    "9 points better and below 16",
    "meddatax.com/clinical-trials/NCT01515943/results",
);
pub(super) static ADLER: Citation =
    cite("Adler et al. 2013", "137 children of 4 to 12 years, Br J Ophthalmol 97:592", "bjo.bmj.com/content/97/5/592");
/// Two below the lowest line.
pub(super) static INSUFFICIENT: Citation = cite(
    "two textbook tables of accommodative insufficiency",
    "2 D or more below the lowest line",
    "pmc.ncbi.nlm.nih.gov/articles/PMC5777927/table/tbl0005",
);
pub(super) static MORGAN: Citation =
    cite("Morgan 1944", "expected values, as tabled in a teaching copy", "scribd.com/document/459688843");
static LONG_TERM: Citation =
    cite("Scheiman et al. 2025", "Ophthalmic Physiol Opt, long-term reliability", "doi.org/10.1111/opo.70022");

/// Error of one survey: SD 8.4 x the root of (1 - 0.77) (Borsting et al. 2003).
const CHILD_ERROR: f64 = 4.03;
/// Error of one survey: SD 9.3 x the root of (1 - 0.885) (Rouse et al. 2004).
const ADULT_ERROR: f64 = 3.15;

pub(super) static SURVEY_CHILD: Norm = Norm {
    id: "further_measures.survey.child",
    what: "symptom survey",
    unit: "",
    // 16 or more counts: entry rule of the treatment trials.
    limit: Limit::Below(16.0),
    error: Some(CHILD_ERROR),
    ages: Some((9, 18)),
    population: "47 children with and 56 without insufficiency",
    source: &CHILD_RULE,
    status: Status::Found,
    healthy: &CHILD_RATES,
};
pub(super) static SURVEY_ADULT: Norm = Norm {
    id: "further_measures.survey.adult",
    what: "symptom survey",
    unit: "",
    // 21 or more counts: Rouse et al. 2004.
    limit: Limit::Below(21.0),
    error: Some(ADULT_ERROR),
    // Set for 19 to 30 years; taken on beyond, with a remark.
    ages: Some((19, u8::MAX)),
    population: "46 adults with and 46 without insufficiency, 19 to 30 years",
    source: &ROUSE,
    status: Status::Found,
    healthy: &ADULT_RATES,
};
/// Oldest age the adult cut-off was set for (Rouse et al. 2004).
pub(super) const ADULT_TO: u8 = 30;

/// Specificity 87.5 % is 7 of 56.
static CHILD_RATES: [BaseRate; 1] = [BaseRate {
    rule: "a survey of 16 or more",
    low_percent: 12.5,
    high_percent: 12.5,
    population: "56 children without insufficiency",
    source: &CHILD_RULE,
}];
static ADULT_RATES: [BaseRate; 2] = [
    BaseRate {
        rule: "a survey of 21 or more",
        low_percent: 25.0,
        high_percent: 25.0,
        population: "167 students not seeking care",
        source: &HORWOOD,
    },
    // Specificity 87 %.
    BaseRate {
        rule: "a survey of 21 or more",
        low_percent: 13.0,
        high_percent: 13.0,
        population: "46 adults without insufficiency",
        source: &ROUSE,
    },
];

/// The reserve at least twice the deviation.
pub(super) static SHEARD: Norm =
    comfort("further_measures.sheard", "opposing reserve over deviation", 2.0, &near_vision::SHEARD);
/// The smaller reserve at least half the larger, which is the same as zero demand in the middle third.
pub(super) static PERCIVAL: Norm =
    comfort("further_measures.percival", "smaller reserve over larger one", 0.5, &near_vision::PERCIVAL);

/// Every range of the task.
pub(super) static NORMS: &[&Norm] = &[&SURVEY_CHILD, &SURVEY_ADULT, &SHEARD, &PERCIVAL];

/// Children: 1.96 x the root of 2 x the error of one survey.
pub static CHILD_CHANGE: &[ChangeLimit] = &[ChangeLimit {
    value: 11.2,
    unit: "",
    population: "children, worked out from SD 8.4 and ICC 0.77; 9 points, as one trial asked for, are less",
    source: &BORSTING,
}];
/// Adults: 1.96 x the root of 2 x the error of one survey.
pub static ADULT_CHANGE: &[ChangeLimit] = &[ChangeLimit {
    value: 8.7,
    unit: "",
    population: "adults of 19 to 30 years, worked out from SD 9.3 and ICC 0.885",
    source: &ROUSE,
}];
/// Half the width of the limits of agreement over 90 days (Scheiman et al. 2025).
pub static BASE_OUT_CHANGE: &[ChangeLimit] = &[ChangeLimit {
    value: 17.8,
    unit: "PD",
    population: "91 healthy, 12 to 17.5 years, 90 days apart",
    source: &LONG_TERM,
}];
/// The same for base-in (Scheiman et al. 2025).
pub static BASE_IN_CHANGE: &[ChangeLimit] = &[ChangeLimit {
    value: 5.9,
    unit: "PD",
    population: "91 healthy, 12 to 17.5 years, 90 days apart",
    source: &LONG_TERM,
}];

const fn comfort(id: &'static str, what: &'static str, at_least: f64, source: &'static Citation) -> Norm {
    Norm {
        id,
        what,
        unit: "",
        limit: Limit::AtLeast(at_least),
        error: None,
        ages: None,
        population: "a rule for comfort, not taken from a sample",
        source,
        status: Status::Found,
        healthy: &[],
    }
}

const fn cite(short: &'static str, place: &'static str, link: &'static str) -> Citation {
    Citation { short, place, link }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statistics::change::{error_of_measurement, minimal_detectable_change};

    /// SD and ICC as published; half the width of the published limits of agreement is 11.15 for children (-10.2 to 12.1)
    /// and 8.3 for adults (-9.0 to 7.6).
    #[test]
    fn errors_and_limits_of_the_survey_follow_from_what_is_published() {
        for (sd, icc, error, limit, half_width) in
            [(8.4, 0.77, CHILD_ERROR, &CHILD_CHANGE[0], 11.15), (9.3, 0.885, ADULT_ERROR, &ADULT_CHANGE[0], 8.3)]
        {
            let sem = error_of_measurement(sd, icc).expect("usable");
            assert!((sem - error).abs() < 0.005, "{sem}");
            let change = minimal_detectable_change(sem, 0.95).expect("usable");
            assert!((change - limit.value).abs() < 0.05, "{change}");
            assert!((change - half_width).abs() < 0.5, "{change}");
        }
        // Adults to two decimals.
        let sem = error_of_measurement(9.3, 0.885).expect("usable");
        assert!((minimal_detectable_change(sem, 0.95).expect("usable") - 8.74).abs() < 0.005);
    }
}
