//! Numbers many practitioners take besides: a symptom survey, focusing, deviations at far and near, reserves, and what
//! follows from them by published arithmetic. None is asked for, so none is missing.

mod alignment;
mod evidence;
mod focus;
mod form;
mod survey;

use self::form::FORM;
use super::{Context, Setup, Task, never_barred};
use crate::capture::record::Record;
use crate::evidence::{ChangeLimit, Norm};
use crate::finding::{Finding, Place, Reading, Value};
use crate::measure::{Amount, Better, Measure};
use crate::quantity::Quantity;

pub use self::evidence::{ADULT_CHANGE, BASE_IN_CHANGE, BASE_OUT_CHANGE, CHILD_CHANGE};

/// The task.
pub static TASK: Task = Task {
    id: "further_measures",
    title: "More measures",
    term: "further measures of near vision",
    setup: Setup {
        position: "In the glasses they use at each distance.",
        target: "As each of your own tests needs it.",
        motion: "Enter what you measured, and leave the rest empty: none of it is needed. Reserves as they come, base-in \
                 before base-out (common practice).",
        say: "For reserves: tell me when it blurs, when it is two, and when it is one again.",
        watch: "Distances and glasses: the numbers mean little without them.",
    },
    form: &FORM,
    provokes: false,
    pace: None,
    seconds: 60,
    barred: never_barred,
    cautions: &[],
    norms: evidence::NORMS,
    read,
};

fn read(context: &Context<'_>, record: &Record) -> Reading {
    if record.skipped() || record.answers.is_empty() {
        return Reading::default();
    }
    let entered = Entered { record };
    let mut reading = Reading::default();
    survey::read(&entered, context.years(), &mut reading);
    focus::read(&entered, context.years(), &mut reading);
    alignment::read(&entered, &mut reading);
    reading.findings.extend(
        record.answers.text("note").map(|note| Finding::new(TASK.id, "note", Place::Both, format!("Note: “{note}”"))),
    );
    reading
}

/// What was entered, each number within its bounds.
struct Entered<'a> {
    record: &'a Record,
}

impl Entered<'_> {
    fn number(&self, key: &str, quantity: &Quantity) -> Option<f64> {
        self.record.answers.number(key).and_then(|value| quantity.check(value).ok())
    }

    fn one(&self, key: &str) -> Option<&str> {
        self.record.answers.one(key)
    }
}

fn finding(what: &str, place: Place, headline: String, number: f64, unit: &'static str) -> Finding {
    let mut finding = Finding::new(TASK.id, what, place, headline);
    finding.value = Some(Value { number, unit, interval: None });
    finding
}

/// A value to be set against that of another visit; method, limits and range are added where there are any.
fn measure(key: &str, what: &str, value: f64, unit: &'static str, better: Better) -> Measure {
    Measure {
        key: format!("{}.{key}", TASK.id),
        task: TASK.id,
        what: what.to_string(),
        place: Place::Both,
        amount: Amount::Number { value, unit },
        better,
        method: Vec::new(),
        limits: &[],
        norm: None,
    }
}

fn limited(measure: Measure, limits: &'static [ChangeLimit], norm: Option<&'static Norm>) -> Measure {
    Measure { limits, norm, ..measure }
}

#[cfg(test)]
mod tests;
