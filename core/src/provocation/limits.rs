//! Published cut-offs of the symptom screen, how far two ratings differ by themselves, and how often healthy people reach
//! the cut-offs.

use crate::evidence::{BaseRate, Citation, Limit, Norm, Status};
use crate::sorted;

/// The tasks that are tests of the published screen (Mucha et al. 2014); its cut-offs were not set for any other.
pub static SCREENED: &[&str] = &["near_point", "pursuit", "saccade", "head_turn_gaze", "whole_body_turn"];

static MUCHA: Citation = Citation {
    short: "Mucha et al. 2014",
    place: "vestibular and ocular motor symptom screen, Am J Sports Med 42:2479",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC4209316",
};
/// Change scoring.
pub static ELBIN: Citation = Citation {
    short: "Elbin et al. 2022",
    place: "change scoring of the symptom screen, 147 concussed and 147 uninjured of 13 to 18 years",
    link: "pubmed.gov/33896282",
};
/// Differences between two ratings a year apart.
pub static CONSORTIUM: Citation = Citation {
    short: "CARE consortium 2021",
    place: "test and retest over a year in 378 college athletes, Brain Inj 35:1563",
    link: "doi.org/10.1080/02699052.2021.1973561",
};
static ANDERSON: Citation = Citation {
    short: "Anderson et al. 2024",
    place: "symptom screen in 110 healthy children of 5 to 12 years",
    link: "ouci.dntb.gov.ua/works/ldwKORn4",
};
static MORAN: Citation = Citation {
    short: "Moran et al. 2018",
    place: "reference values of the symptom screen in 423 youth athletes of 8 to 14 years",
    link: "",
};
static WORTS: Citation = Citation {
    short: "Worts et al. 2018",
    place: "three sessions of the symptom screen in 45 high-school athletes, Orthop J Sports Med",
    link: "digitalcommons.georgefox.edu/gscp_fac/385",
};
static KONTOS: Citation = Citation {
    short: "Kontos et al. 2016",
    place: "symptom screen in 263 college athletes, Am J Sports Med",
    link: "ouci.dntb.gov.ua/works/4MyyAWz4",
};
/// Rises of the symptom screen in healthy athletes.
pub static HIGH_SCHOOL: Citation = Citation {
    short: "a high-school sideline study",
    place: "utility of the symptom screen during high-school sport participation, 78 athletes in season; authors not shown \
            in the copy read",
    link: "",
};

/// Total scoring: the four ratings after one task added up.
pub static TOTAL: Norm = Norm {
    id: "symptoms.total",
    what: "sum of the four symptoms after a task",
    unit: "",
    // Any test with a sum of 2 or more counts: Mucha et al. 2014, Am J Sports Med 42:2479.
    limit: Limit::Below(2.0),
    // Smallest detectable change 1 for the eye tests (CARE consortium 2021), divided by 1.96 times the root of 2.
    error: Some(0.36),
    ages: None,
    population: "64 concussed and 78 uninjured athletes of about 14 years",
    source: &MUCHA,
    status: Status::Found,
    healthy: &TOTAL_RATES,
};

/// Change scoring, one task: the sum after it minus the sum before all tasks.
pub static CHANGE: Norm = Norm {
    id: "symptoms.change",
    what: "rise of the four symptoms with a task",
    unit: "",
    // A rise of 1 or more counts: Elbin et al. 2022.
    limit: Limit::Below(1.0),
    // Smallest detectable change 1 for every test (CARE consortium 2021), divided by 1.96 times the root of 2.
    error: Some(0.36),
    ages: None,
    population: "147 concussed and 147 uninjured of 13 to 18 years",
    source: &ELBIN,
    status: Status::Found,
    healthy: &CHANGE_RATES,
};

/// Change scoring over all tests: the rises of the seven tests of the published screen added up.
pub static OVERALL: Norm = Norm {
    id: "symptoms.overall",
    what: "rises of the four symptoms over all tasks",
    unit: "",
    // A rise of 3 or more over the seven tests counts: Elbin et al. 2022.
    limit: Limit::Below(3.0),
    // Smallest detectable change 8 (CARE consortium 2021), divided by 1.96 times the root of 2.
    error: Some(2.89),
    ages: None,
    population: "147 concussed and 147 uninjured of 13 to 18 years",
    source: &ELBIN,
    status: Status::Found,
    healthy: &CHANGE_RATES,
};

static TOTAL_RATES: [BaseRate; 4] = [
    rate(
        "a sum of 2 or more, or a near point of 5 cm or more",
        (19.1, 19.1), // Anderson et al. 2024
        "110 children of 5 to 12 years",
        &ANDERSON,
    ),
    rate(
        "a sum of 2 or more, or a near point of 5 cm or more",
        (9.0, 13.0), // Moran et al. 2018
        "423 athletes of 8 to 14 years",
        &MORAN,
    ),
    rate(
        "a result beyond the screen's cut-offs",
        (2.0, 2.0), // Worts et al. 2018
        "45 athletes within 5 minutes of practice",
        &WORTS,
    ),
    rate(
        "a sum of 2 or more, or a near point of 5 cm or more",
        (11.0, 11.0), // Kontos et al. 2016
        "263 college athletes",
        &KONTOS,
    ),
];
/// Ages and sizes of the samples in `TOTAL_RATES`; where a paper says only "high school" or "college", the usual ages (14
/// to 18, 18 to 25) are set here to choose the nearest sample, and are not printed.
static TOTAL_SAMPLES: [Sample; 4] = [sample(5, 12, 110), sample(8, 14, 423), sample(14, 18, 45), sample(18, 25, 263)];

static CHANGE_RATES: [BaseRate; 2] = [
    rate(
        "a rise of 1 or more, or a near point of 3 cm or more",
        (36.4, 36.4), // Anderson et al. 2024
        "110 children of 5 to 12 years",
        &ANDERSON,
    ),
    rate(
        "a rise of 2 or more",
        (21.0, 21.0), // high-school sideline study; 14 in 100 with two tests, 10 in 100 with three
        "78 athletes in season",
        &HIGH_SCHOOL,
    ),
];
/// Ages and sizes of the samples in `CHANGE_RATES`.
static CHANGE_SAMPLES: [Sample; 2] = [sample(5, 12, 110), sample(14, 18, 78)];

/// A sample's ages in years, ends included, and how many people were in it.
struct Sample {
    from: u8,
    to: u8,
    people: u16,
}

/// Rates of total scoring, the sample nearest in age first, the larger one where two are equally near; all of them, the
/// largest first, when the age is not known.
#[must_use]
pub fn total_rates(age: Option<u8>) -> Vec<&'static BaseRate> {
    nearest_first(&TOTAL_RATES, &TOTAL_SAMPLES, age)
}

/// Rates of change scoring, in the same order.
#[must_use]
pub fn change_rates(age: Option<u8>) -> Vec<&'static BaseRate> {
    nearest_first(&CHANGE_RATES, &CHANGE_SAMPLES, age)
}

/// Whether every sample is more than five years away from this age, so that the nearest says little.
#[must_use]
pub fn no_sample_near(age: u8) -> bool {
    TOTAL_SAMPLES.iter().chain(&CHANGE_SAMPLES).all(|sample| sample.away(age) > 5)
}

/// Samples that do not hold the age are left out, but for the nearest.
fn nearest_first(rates: &'static [BaseRate], samples: &[Sample], age: Option<u8>) -> Vec<&'static BaseRate> {
    let mut order: Vec<(&BaseRate, &Sample)> = rates.iter().zip(samples).collect();
    let Some(age) = age else {
        sorted::by_key(&mut order, |(_, sample)| std::cmp::Reverse(sample.people));
        return order.into_iter().map(|(rate, _)| rate).collect();
    };
    sorted::by_key(&mut order, |(_, sample)| (sample.away(age), std::cmp::Reverse(sample.people)));
    let told = order.into_iter().enumerate().filter(|(at, (_, sample))| *at == 0 || sample.away(age) == 0);
    told.map(|(_, (rate, _))| rate).collect()
}

impl Sample {
    /// Years between this age and the sample's ages; 0 within them.
    fn away(&self, age: u8) -> u8 {
        self.from.saturating_sub(age).max(age.saturating_sub(self.to))
    }
}

const fn sample(from: u8, to: u8, people: u16) -> Sample {
    Sample { from, to, people }
}

const fn rate(
    rule: &'static str,
    percent: (f64, f64),
    population: &'static str,
    source: &'static Citation,
) -> BaseRate {
    BaseRate { rule, low_percent: percent.0, high_percent: percent.1, population, source }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sample_nearest_in_age_stands_first() {
        let first = |age| total_rates(Some(age))[0].source.short;
        assert_eq!(first(3), "Anderson et al. 2024");
        assert_eq!(first(7), "Anderson et al. 2024");
        assert_eq!(first(9), "Moran et al. 2018");
        assert_eq!(first(14), "Moran et al. 2018");
        assert_eq!(first(12), "Moran et al. 2018");
        assert_eq!(first(16), "Worts et al. 2018");
        assert_eq!(first(67), "Kontos et al. 2016");
        assert_eq!(change_rates(Some(67))[0].low_percent, 21.0);
        assert_eq!(change_rates(Some(8))[0].low_percent, 36.4);
        assert!(no_sample_near(67) && !no_sample_near(30) && !no_sample_near(4));
        assert_eq!(total_rates(None).len(), 4);
        assert_eq!(total_rates(Some(9)).len(), 2, "two samples hold the age of 9");
    }

    /// Smallest detectable change = 1.96 times the root of 2 times the standard error of measurement.
    #[test]
    fn errors_are_worked_out_from_the_detectable_changes() {
        let of = |detectable: f64| detectable / (1.96 * 2.0_f64.sqrt());
        assert!((of(1.0) - 0.36).abs() < 0.005);
        assert!((of(8.0) - 2.89).abs() < 0.005);
    }
}
