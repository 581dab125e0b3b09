//! Placeholder while the rule is written.

use super::{Context, Setup, Task};
use crate::capture::form::Form;
use crate::capture::record::Record;
use crate::finding::Reading;

static FORM: Form = Form { id: "resting_gaze", fields: &[], usual: &[], usual_label: "" };

/// The task.
pub static TASK: Task = Task {
    id: "resting_gaze",
    title: "Eyes at rest",
    term: "gaze at rest",
    setup: Setup { position: "", target: "", motion: "", say: "", watch: "" },
    form: &FORM,
    provokes: false,
    seconds: 30,
    cautions: &[],
    norms: &[],
    read,
};

fn read(_context: &Context<'_>, _record: &Record) -> Reading {
    Reading::default()
}
