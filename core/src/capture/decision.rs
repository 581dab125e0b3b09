//! What the practitioner decides at the end. The program proposes nothing here.

use super::form::{Choice, Form, Kind, asked, choice, detail, never_fills, optional};

/// The slot and form id.
pub const SLOT: &str = "decision";

static ACTIONS: &[Choice] = &[
    choice("emergency", "Emergency care"),
    choice("refer", "Refer"),
    choice("retest", "Re-test on a date"),
    choice("advice", "Advice only"),
];

static SOON: &[Choice] = &[
    choice("today", "Today"),
    choice("days", "Within days"),
    choice("weeks", "Within weeks"),
    choice("routine", "Routine"),
];

static PLAY: &[Choice] = &[
    choice("removed", "Removed from play"),
    choice("not_removed", "Not removed"),
    choice("no_play", "Does not apply"),
];

static TOLD: &[Choice] = &[
    choice("person", "The person"),
    choice("guardian", "Parent or guardian"),
    choice("coach", "Coach"),
    choice("teacher", "Teacher"),
    choice("doctor", "Doctor"),
];

/// The form.
pub static FORM: Form = Form {
    id: SLOT,
    fields: &[
        asked("action", "What happens now", Kind::One(ACTIONS)),
        asked("refer_to", "Refer to", Kind::Text { max: 160, long: false }).only_if("action", &["refer", "emergency"]),
        asked("refer_soon", "How soon", Kind::One(SOON)).only_if("action", &["refer"]),
        asked("retest_on", "Re-test on", Kind::Day).only_if("action", &["retest"]),
        asked("play", "Sport or activity today", Kind::One(PLAY)),
        asked("told", "Who was told", Kind::Many { choices: TOLD, none: "Nobody yet" }),
        detail("told_name", "Names or numbers of those told", Kind::Text { max: 200, long: false }),
        optional("note", "Note for the summary", Kind::Text { max: 1200, long: true }),
    ],
    usual: &[],
    usual_label: "",
    fills: never_fills,
};
