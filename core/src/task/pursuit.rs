//! Placeholder while the rule is written.

use super::{Context, Setup, Task};
use crate::capture::form::Form;
use crate::capture::record::Record;
use crate::finding::Reading;

static FORM: Form = Form { id: "pursuit", fields: &[], usual: &[], usual_label: "" };

/// The task.
pub static TASK: Task = Task {
    id: "pursuit",
    title: "Following",
    term: "smooth pursuit",
    setup: Setup { position: "", target: "", motion: "", say: "", watch: "" },
    form: &FORM,
    provokes: true,
    seconds: 30,
    cautions: &[],
    norms: &[],
    read,
};

fn read(_context: &Context<'_>, _record: &Record) -> Reading {
    Reading::default()
}
