//! What looking away hands on: signs, shares for the next visit, and every trial in its order.

use super::{DISTANCE, OFFSET, PRACTICE, Response, STIMULI, TASK, Trials};
use crate::anatomy::{Direction, Place};
use crate::capture::answer::Series;
use crate::capture::form::label;
use crate::capture::record::Record;
use crate::capture::showing::{self, program};
use crate::evidence::Norm;
use crate::finding::{Finding, Grade, Reading};
use crate::measure::{Amount, Better, Measure};
use crate::quantity::Quantity;
use crate::side_by_side;
use crate::side_by_side::handed_on::{Counted, Method, sided, worse_signs};
use crate::sign::{Sign, What};
use crate::statistics::proportion::Proportion;

static ERRORS: Counted =
    Counted { task: "antisaccade", key: "errors", noun: "looking away from targets", event: "failed" };

pub(super) fn hand_on(reading: &mut Reading, seen: &[Trials; 2], series: &Series, record: &Record) {
    let method = method(record);
    reading.signs = reading.findings.iter().filter_map(many).chain(worse(reading)).collect();
    let norm = reading.findings.iter().find_map(|finding| finding.norm);
    reading.measures.extend(all(seen, &method, norm));
    for trials in seen {
        reading.measures.extend(ERRORS.share(trials.side, trials.errors(), method.clone()));
        reading.courses.extend(ERRORS.course(trials.side, trials.are_errors()));
    }
    let known = series.taps.iter().filter_map(|tap| {
        let response = Response::from_id(&tap.mark)?;
        Some((Direction::from_word(&tap.pad)?, response.is_error()))
    });
    reading.sided.extend(sided(TASK.id, "errors with the target on this side", known));
}

/// Errors beyond the range. Where the age has no range, many errors are no sign: neither seen nor not seen.
fn many(finding: &Finding) -> Option<Sign> {
    if finding.key != format!("{}.errors", TASK.id) {
        return None;
    }
    let seen = match finding.grade {
        Grade::OutsideRange | Grade::Urgent => true,
        Grade::WithinRange => false,
        Grade::NearLimit | Grade::NoRange => return None,
    };
    Some(Sign::new(What::AntisaccadeErrors, Place::Both, seen, &finding.key))
}

fn worse(reading: &Reading) -> Vec<Sign> {
    let Some(comparison) = reading.comparisons.first() else { return Vec::new() };
    let worse = side_by_side::worse(comparison);
    let finding = if worse.is_some() { "right_left" } else { "errors" };
    worse_signs(What::AntisaccadeWorse, comparison, worse, |_| format!("{}.{finding}", TASK.id))
}

/// Both sides together: what the limit is set for.
fn all(seen: &[Trials; 2], method: &Method, norm: Option<&'static Norm>) -> Option<Measure> {
    let share = Proportion::counting(seen.iter().flat_map(Trials::are_errors));
    (share.n() > 0).then(|| Measure {
        key: format!("{}.errors", TASK.id),
        task: TASK.id,
        what: "looking away failed".to_string(),
        place: Place::Both,
        amount: Amount::Share(share),
        better: Better::Lower,
        method: method.clone(),
        limits: &[],
        norm,
    })
}

fn method(record: &Record) -> Method {
    let chosen = |name, key: &str, choices| record.answers.one(key).map(|id| (name, label(choices, id).to_string()));
    let noted = |key: &str, quantity: &'static Quantity| {
        let value = record.answers.number(key).and_then(|value| quantity.check(value).ok())?;
        Some((quantity.name, quantity.show(value)))
    };
    let parts = [
        chosen("looking away from", "stimulus", STIMULI),
        noted("distance", &DISTANCE),
        noted("offset", &OFFSET),
        chosen("trials before it counted", "practice", PRACTICE),
        showing::method(&record.showings, program::ANTISACCADE),
    ];
    parts.into_iter().flatten().collect()
}
