//! What the near point hands on: the sign, both distances for the next visit, and the trials in their order.

use super::{APPROACH, CHANGE_LIMITS, END, Outcome, Seen, TARGETS, TASK, ZERO, mean};
use crate::anatomy::Place;
use crate::capture::form::label;
use crate::capture::record::Record;
use crate::evidence::ChangeLimit;
use crate::finding::{Finding, Grade, Reading};
use crate::measure::{Amount, Better, Course, Measure, Values};
use crate::sign::{Sign, What};

pub(super) fn hand_on(reading: &mut Reading, record: &Record, trials: &[Seen]) {
    let counted = || trials.iter().filter(|trial| trial.counts());
    let broke: Vec<f64> = counted().filter_map(Seen::broke).collect();
    let recovered: Vec<f64> = trials.iter().filter_map(|trial| trial.recovery).collect();
    let tells = |what: &str| reading.findings.iter().find(|finding| finding.key == format!("{}.{what}", TASK.id));
    let measure = |what: &str, words: &str, values: &[f64], limits| {
        Some(measure(tells(what)?, words, mean(values)?, method(record, trials), limits))
    };
    let measures = [
        measure("break", "near point, break", &broke, CHANGE_LIMITS),
        // The published limits are those of the break; none was found for the recovery.
        measure("recovery", "near point, recovery", &recovered, &[]),
    ];
    reading.signs = tells("break").and_then(far).into_iter().collect();
    reading.measures = measures.into_iter().flatten().collect();
    // A trial that stayed single has no number, and leaving it out would look like tiring or hide it.
    if broke.len() > 1 && broke.len() == counted().count() {
        reading.courses.push(Course {
            key: format!("{}.break", TASK.id),
            task: TASK.id,
            what: "near point, break".to_string(),
            place: Place::Both,
            values: Values::Numbers(broke, "cm"),
            better: Better::Lower,
        });
    }
}

/// Near the limit is neither: measurement error or the way of measuring could have put it on either side.
fn far(finding: &Finding) -> Option<Sign> {
    let seen = match finding.grade {
        Grade::OutsideRange | Grade::Urgent => true,
        Grade::WithinRange => false,
        Grade::NearLimit | Grade::NoRange => return None,
    };
    Some(Sign::new(What::FarNearPoint, Place::Both, seen, &finding.key))
}

fn measure(
    finding: &Finding,
    words: &str,
    value: f64,
    method: Vec<(&'static str, String)>,
    limits: &'static [ChangeLimit],
) -> Measure {
    Measure {
        key: finding.key.clone(),
        task: TASK.id,
        what: words.to_string(),
        place: Place::Both,
        amount: Amount::Number { value, unit: "cm" },
        better: Better::Lower,
        method,
        limits,
        norm: finding.norm,
    }
}

/// What moves the number: the end point by 4.1 cm, the ruler's zero by 1.8 cm, the approach by 1.3 cm, and the target.
fn method(record: &Record, trials: &[Seen]) -> Vec<(&'static str, String)> {
    let noted = |name, key: &str, choices| record.answers.one(key).map(|id| (name, label(choices, id).to_lowercase()));
    let single = trials.iter().any(|trial| trial.outcome == Outcome::Single);
    let parts = [
        end_point(trials).map(|words| ("end point", words)),
        noted("ruler's zero", "zero", ZERO),
        noted("target", "target", TARGETS),
        noted("approach", "approach", APPROACH),
        single.then(|| ("left out", "trials that stayed single".to_string())),
    ];
    parts.into_iter().flatten().collect()
}

/// "double", "blurred", or that the trials differ.
fn end_point(trials: &[Seen]) -> Option<String> {
    let mut ends = trials.iter().filter(|trial| trial.broke().is_some()).filter_map(|trial| trial.blurred);
    let first = ends.next()?;
    let alike = ends.all(|blurred| blurred == first);
    let id = if first { "blurred" } else { "double" };
    Some(if alike { label(END, id).to_lowercase() } else { "double and blurred".to_string() })
}
