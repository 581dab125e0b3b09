//! Where a figure comes from and what it may be used for: citations, norms, rates in healthy people, change limits.

/// How sure we are that the cited figure says what we print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// The figure was read in a copy of the cited source.
    Found,
    /// Recalled and not seen in the source; printed as "from memory".
    FromMemory,
    /// Plain arithmetic from cited figures.
    Derived,
    /// What the trade does; there is no source.
    CommonPractice,
}

impl Status {
    /// What is printed behind a figure; nothing for a found one.
    #[must_use]
    pub fn remark(self) -> Option<&'static str> {
        match self {
            Status::Found => None,
            Status::FromMemory => Some("from memory"),
            Status::Derived => Some("worked out from cited figures"),
            Status::CommonPractice => Some("common practice, no source"),
        }
    }
}

/// How well a statement about side or region is supported.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Repeated human lesion studies agree.
    A,
    /// Human cases together with animal data.
    B,
    /// Mixed or contradicted.
    C,
    /// Working model of a practice school, not established.
    M,
}

impl Level {
    /// The letter.
    #[must_use]
    pub fn letter(self) -> &'static str {
        match self {
            Level::A => "A",
            Level::B => "B",
            Level::C => "C",
            Level::M => "M",
        }
    }

    /// What the letter means, in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Level::A => "repeated human lesion studies agree",
            Level::B => "human cases and animal data",
            Level::C => "mixed or contradicted evidence",
            Level::M => "working model of a practice school, not established",
        }
    }

    /// "grade B: human cases and animal data", as it is printed beside a reading.
    #[must_use]
    pub fn in_words(self) -> String {
        format!("grade {}: {}", self.letter(), self.words())
    }
}

/// One published source.
#[derive(Debug, PartialEq)]
pub struct Citation {
    /// Authors and year as printed in a sentence: "Mucha et al. 2014".
    pub short: &'static str,
    /// Journal, volume and page.
    pub place: &'static str,
    /// Address of the source, without "https://"; empty when none is known.
    pub link: &'static str,
}

/// The share of healthy people who meet a rule.
#[derive(Debug, PartialEq)]
pub struct BaseRate {
    /// The rule, in words: "a near point of 5 cm or more".
    pub rule: &'static str,
    /// Lowest published share in percent.
    pub low_percent: f64,
    /// Highest published share in percent; equal to `low_percent` for a single figure.
    pub high_percent: f64,
    /// Who was examined: "78 high-school athletes, three sessions".
    pub population: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
}

impl BaseRate {
    /// "21 to 32 in 100"; "up to 15 in 100" where only the highest share is known.
    #[must_use]
    pub fn share(&self) -> String {
        let low = number(self.low_percent);
        if (self.low_percent - self.high_percent).abs() < f64::EPSILON {
            return format!("{low} in 100");
        }
        if self.low_percent == 0.0 {
            return format!("up to {} in 100", number(self.high_percent));
        }
        format!("{low} to {} in 100", number(self.high_percent))
    }
}

/// What counts as within range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// Within range up to and including this value.
    AtMost(f64),
    /// Within range below this value.
    Below(f64),
    /// Within range from this value on.
    AtLeast(f64),
}

/// A published range.
#[derive(Debug, PartialEq)]
pub struct Norm {
    /// Stable id: "near_point.break.child".
    pub id: &'static str,
    /// What is measured: "near point of convergence, break".
    pub what: &'static str,
    /// Unit of `limit`.
    pub unit: &'static str,
    /// The range.
    pub limit: Limit,
    /// Half-width around the limit within which measurement error alone may carry a value across; `None` when unknown.
    pub error: Option<f64>,
    /// Ages in completed years the range is for, ends included; `None` for any.
    pub ages: Option<(u8, u8)>,
    /// Who was examined.
    pub population: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
    /// How sure the figure is.
    pub status: Status,
    /// How often healthy people fall outside.
    pub healthy: &'static [BaseRate],
}

impl Norm {
    /// The range in words: "6 cm or nearer" is the task's own wording; this is "at most 6 cm".
    #[must_use]
    pub fn range(&self) -> String {
        let (word, value) = match self.limit {
            Limit::AtMost(v) => ("at most", v),
            Limit::Below(v) => ("below", v),
            Limit::AtLeast(v) => ("at least", v),
        };
        if self.unit.is_empty() {
            return format!("{word} {}", number(value));
        }
        format!("{word} {} {}", number(value), self.unit)
    }

    /// Whether the range is meant for this age; an unknown age fits only a range for any age.
    #[must_use]
    pub fn fits(&self, age: Option<u8>) -> bool {
        match (self.ages, age) {
            (None, _) => true,
            (Some((from, to)), Some(age)) => (from..=to).contains(&age),
            (Some(_), None) => false,
        }
    }
}

/// The smallest change between two measurements that one study would call more than error.
#[derive(Debug, PartialEq)]
pub struct ChangeLimit {
    /// The limit, in `unit`.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
    /// Who was examined and how far apart: "91 healthy, 12 to 17.5 years, 90 days".
    pub population: &'static str,
    /// Where it was published.
    pub source: &'static Citation,
}

/// The words with a capital first letter.
#[must_use]
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A number without trailing zeros: 6, 2.5, 11.17. A little below zero is 0, never "-0".
#[must_use]
pub fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_string() } else { short.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_lose_trailing_zeros_only() {
        assert_eq!(number(6.0), "6");
        assert_eq!(number(2.5), "2.5");
        assert_eq!(number(100.0), "100");
        assert_eq!(number(11.17), "11.17");
        assert_eq!(number(-11.17), "-11.17");
        assert_eq!((number(-0.004), number(-0.0), number(-0.01)), ("0".into(), "0".into(), "-0.01".into()));
    }
}
