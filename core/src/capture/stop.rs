//! The emergency stop: what was seen, what was done, and the written reason if the examination went on all the same.

use super::form::{Choice, Form, Kind, asked, choice, never_fills, optional};
use super::record::Record;
use super::visit::Visit;

/// Form id; slots are "stop.1", "stop.2" and so on.
pub const ID: &str = "stop";

static DONE: &[Choice] = &[
    choice("called", "Emergency number called"),
    choice("not_alone", "Someone stays with them"),
    choice("neck_held", "Neck held still"),
    choice("handed", "Handed over to medical staff"),
    choice("guardian", "Parent or guardian told"),
];

/// The form. `seen` holds the ids of the red flags it answers, separated by blanks; it is filled by the program.
pub static FORM: Form = Form {
    id: ID,
    fields: &[
        asked("done", "What was done", Kind::Many { choices: DONE, none: "Nothing yet" }),
        optional("note", "Who took over, when, anything else", Kind::Text { max: 600, long: true }),
        optional("go_on", "Reason to go on all the same", Kind::Text { max: 600, long: true }),
        optional("seen", "Signs", Kind::Text { max: 2000, long: false }),
    ],
    usual: &[],
    usual_label: "",
    fills: never_fills,
};

/// All stop records, in order.
pub fn all(visit: &Visit) -> impl Iterator<Item = &Record> {
    visit.records.iter().filter(|record| record.form() == ID)
}

/// The red flags a stop record answers.
pub fn seen(record: &Record) -> impl Iterator<Item = &str> {
    record.answers.text("seen").unwrap_or("").split_whitespace()
}

/// The written reason to go on; `None` when there is none, or only a blank one.
#[must_use]
pub fn reason_to_go_on(record: &Record) -> Option<&str> {
    record.answers.text("go_on")
}

/// Whether the visit was ended by a stop: one that answers a sign and gives no reason to go on.
#[must_use]
pub fn ended(visit: &Visit) -> bool {
    all(visit).any(|record| seen(record).next().is_some() && reason_to_go_on(record).is_none())
}

/// The slot of the stop record that is being filled: one that answers no sign yet, else the next new one.
#[must_use]
pub fn open_slot(visit: &Visit) -> String {
    match all(visit).find(|record| seen(record).next().is_none()) {
        Some(record) => record.slot.clone(),
        None => format!("{ID}.{}", all(visit).count() + 1),
    }
}
