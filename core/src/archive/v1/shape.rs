//! The shapes of version 1: every name, whether it must be there, and what may stand under it. The reader looks its names
//! up here, and the JSON Schema is written from here.

use super::word;

/// An object of the form.
pub(in super::super) struct Shape {
    /// Its name in the schema.
    pub name: &'static str,
    /// What it is.
    pub says: &'static str,
    /// Its members, in the order they are written.
    pub members: &'static [Member],
}

/// One member of an object.
pub(in super::super) struct Member {
    /// Its name.
    pub name: &'static str,
    /// Whether it must be there.
    pub must: bool,
    /// What may stand there.
    pub kind: Kind,
    /// What it means.
    pub says: &'static str,
}

/// What may stand under a name.
#[derive(Clone, Copy)]
pub(in super::super) enum Kind {
    /// This word and no other.
    Exactly(&'static str),
    /// The version of the form.
    Version,
    /// Any text.
    Text,
    /// A short plain text that can be a key or an address.
    Id,
    /// A SHA-256 digest.
    Digest,
    /// A moment with its offset from UTC.
    Moment,
    /// A day.
    Day,
    /// A year or a day.
    Born,
    /// True or false.
    Flag,
    /// A whole number from 0.
    Whole(u64),
    /// Any number a double can hold.
    Number,
    /// One of these words.
    Word(&'static [&'static str]),
    /// Texts.
    Texts,
    /// Ids, each once, at most so many.
    Ids(usize),
    /// A list of objects.
    List(&'static Shape),
    /// One object.
    Object(&'static Shape),
    /// Answers by field key.
    Answers,
}

const fn must(name: &'static str, kind: Kind, says: &'static str) -> Member {
    Member { name, must: true, kind, says }
}

const fn may(name: &'static str, kind: Kind, says: &'static str) -> Member {
    Member { name, must: false, kind, says }
}

/// Most tasks of a plan; far more than an examination has.
pub(super) const LONGEST_PLAN: usize = 200;

/// Largest rating.
pub(super) const HIGHEST_RATING: u64 = 10;

/// States of a record that come with a reason.
pub(in super::super) const WITH_REASON: [&str; 2] = [word::NOT_DONE, word::NOT_TESTABLE];

const MS: Kind = Kind::Whole(u32::MAX as u64);

pub(in super::super) static ARCHIVE: Shape = Shape {
    name: "archive",
    says: "People, visits and what belongs to them, in one file.",
    members: &[
        must("format", Kind::Exactly("sidelight-archive"), "The name of the form."),
        must("version", Kind::Version, "The version of the form."),
        may("people", Kind::List(&PERSON), "The people, each id once."),
        may("visits", Kind::List(&VISIT), "Their visits; each names one of the people."),
        may("addenda", Kind::List(&ADDENDUM), "Corrections of closed visits; each names one of the people."),
        may("routines", Kind::List(&ROUTINE), "Routines of the practice's own, each id once."),
        may("receipts", Kind::List(&RECEIPT), "Receipts for visits taken in, each id once."),
        may("joins", Kind::List(&JOIN), "Entries that are the same person, each id once."),
    ],
};

pub(in super::super) static PERSON: Shape = Shape {
    name: "person",
    says: "An examined person.",
    members: &[
        must("id", Kind::Id, "Random id."),
        must("label", Kind::Text, "A code or a name, as the practice likes."),
        may("born", Kind::Born, "What is known of the birth."),
        may("invented", Kind::Flag, "Whether the person is invented; written only when true."),
        may("changed", Kind::Moment, "When the entry was last changed; the later entry prevails."),
    ],
};

pub(in super::super) static VISIT: Shape = Shape {
    name: "visit",
    says: "One visit of one person. A closed one is not changed any more.",
    members: &[
        must("id", Kind::Id, "Random id. Two closings of one visit have the same id and differ in what they say."),
        must("person", Kind::Id, "The person's id."),
        must("routine", Kind::Text, "The routine's id."),
        may("plan", Kind::Ids(LONGEST_PLAN), "Ids of its tasks in order; absent for the routine's own list."),
        must("started", Kind::Moment, "When it was begun."),
        may("closed", Kind::Moment, "When it was closed; absent while it is open."),
        may("at", Kind::Text, "The slot that was in sight last."),
        may("program", Kind::Text, "Name and version of the program that wrote it."),
        may("sha256", Kind::Digest, "SHA-256 of the closed visit as canonical JSON (RFC 8785) without this member."),
        may("records", Kind::List(&RECORD), "The filled forms in the order they were opened, each slot once."),
        may("sheets", Kind::List(&GIVEN), "Sheets given to take home, in order."),
        may("logs", Kind::List(&RETURNED), "Logs of earlier sheets that came back, in order."),
    ],
};

pub(in super::super) static GIVEN: Shape = Shape {
    name: "given",
    says: "A sheet that was signed off and given to take home.",
    members: &[
        must("at", Kind::Moment, "When it was signed off."),
        may("by", Kind::Text, "Who signed it off."),
        may("language", Kind::Text, "The code of the language it opens in."),
        must("text", Kind::Text, "The sheet, as the text of its link."),
        may("despite", Kind::List(&DESPITE), "Exercises something speaks against."),
    ],
};

pub(in super::super) static DESPITE: Shape = Shape {
    name: "despite",
    says: "Why an exercise is given although something speaks against it.",
    members: &[must("exercise", Kind::Text, "The exercise's id."), must("why", Kind::Text, "The reason.")],
};

pub(in super::super) static RETURNED: Shape = Shape {
    name: "returned",
    says: "A log of practice at home that came back.",
    members: &[
        must("at", Kind::Moment, "When it was taken in."),
        must("how", Kind::Word(&word::HOW), "How it came."),
        must("text", Kind::Text, "The text of the log, or six numbers."),
    ],
};

pub(in super::super) static RECORD: Shape = Shape {
    name: "record",
    says: "One form as it was filled in.",
    members: &[
        must("slot", Kind::Text, "The form's id; for a form asked more than once, with the occasion behind a point."),
        must("state", Kind::Word(&word::STATES), "How far it came. Not done is not normal."),
        may("reason", Kind::Text, "Why it was not done or could not be tested; only with these states."),
        may("started", Kind::Moment, "When it was opened."),
        may("ended", Kind::Moment, "When it was ended."),
        may("answers", Kind::Answers, "Answers by field key. Absent fields are absent answers, never zero."),
        may("showings", Kind::List(&SHOWING), "What was shown on a screen meanwhile, in order."),
    ],
};

pub(in super::super) static SHOWING: Shape = Shape {
    name: "showing",
    says: "Something that was shown on a screen during a task.",
    members: &[
        must("at", Kind::Moment, "When it began."),
        must("program", Kind::Text, "The program's id."),
        may("settings", Kind::List(&SETTING), "Its settings in order, each key once."),
        may("instruction", Kind::Text, "What the person was told: the id of the task's own choice, or the words."),
        must("seconds", Kind::Number, "Seconds it was shown."),
        may("stopped", Kind::Flag, "Whether it was stopped before its end; written only when true."),
        may("elsewhere", Kind::Flag, "Whether another device showed it; written only when true."),
        may("screen", Kind::Object(&SCREEN), "The screen it was shown on; absent when that was another device's."),
    ],
};

pub(in super::super) static SETTING: Shape = Shape {
    name: "setting",
    says: "One setting. One with neither a number nor a word is of a newer program and is kept.",
    members: &[
        must("key", Kind::Text, "Its key."),
        may("number", Kind::Number, "Its value, when it is a number."),
        may("word", Kind::Text, "Its value, when it is a word; beside a number it is kept and not read."),
        may("unit", Kind::Text, "The unit of a number."),
    ],
};

pub(in super::super) static SCREEN: Shape = Shape {
    name: "screen",
    says: "A screen, and how well it drew.",
    members: &[
        must("px_per_mm", Kind::Number, "CSS pixels in a millimetre."),
        must("distance_cm", Kind::Number, "From the eyes to the screen, as it was said."),
        must("pixel_ratio", Kind::Number, "Device pixels in a CSS pixel."),
        must("zoom", Kind::Number, "Pinch zoom; 1 for none."),
        must("width_px", Kind::Number, "Width of what was drawn on, in CSS pixels."),
        must("height_px", Kind::Number, "Height of what was drawn on, in CSS pixels."),
        may(
            "frames_a_second",
            Kind::Number,
            "Frames a second the display draws; absent when too few were drawn to tell.",
        ),
        must("drawn", Kind::Whole(u32::MAX as u64), "Frames drawn."),
        must("dropped", Kind::Whole(u32::MAX as u64), "Frames dropped."),
        must("held", Kind::Flag, "Whether the scale held to the end."),
    ],
};

/// The kinds of answers; an answer has exactly one of them. One with none of them is of a newer program and is kept.
pub(in super::super) static ANSWER: Shape = Shape {
    name: "answer",
    says: "One answer: an object with one member, which names its kind. Other kinds are kept as they are.",
    members: &[
        may("one", Kind::Text, "One of a list, by its id."),
        may("many", Kind::Texts, "Any of a list, by their ids; an empty list says that none applies."),
        may("number", Kind::Number, "A number in the unit of the field."),
        may("text", Kind::Text, "Free text."),
        may("day", Kind::Day, "A day."),
        may("ratings", Kind::List(&RATING), "Ratings by item."),
        may("trials", Kind::List(&TRIAL), "Repeated trials in the order they were done."),
        may("series", Kind::Object(&SERIES), "Taps in the order they were made, with the runs they belong to."),
        may("grid", Kind::List(&CELL), "A table of grades."),
    ],
};

pub(in super::super) static RATING: Shape = Shape {
    name: "rating",
    says: "One rating.",
    members: &[must("item", Kind::Text, "The item's id."), must("value", Kind::Whole(HIGHEST_RATING), "0 to 10.")],
};

pub(in super::super) static TRIAL: Shape = Shape {
    name: "trial",
    says: "One trial of a repeated measurement.",
    members: &[
        must("at_ms", MS, "Milliseconds after the record was started."),
        may("answers", Kind::Answers, "Answers to the trial's own fields."),
    ],
};

pub(in super::super) static SERIES: Shape = Shape {
    name: "series",
    says: "Runs and taps of one field.",
    members: &[
        may("runs", Kind::List(&RUN), "Stretches of time in which taps were made."),
        may("taps", Kind::List(&TAP), "The taps."),
    ],
};

pub(in super::super) static RUN: Shape = Shape {
    name: "run",
    says: "A stretch of time in which taps were made on one pad, or on all.",
    members: &[
        may("pad", Kind::Text, "The pad's id; empty or absent for all pads."),
        must("from_ms", MS, "Its start, in milliseconds after the record was started."),
        may("to_ms", MS, "Its end, if it was ended."),
        may("bpm", Kind::Number, "Beats a minute when the program gave the pace."),
    ],
};

pub(in super::super) static TAP: Shape = Shape {
    name: "tap",
    says: "One tap on a pad.",
    members: &[
        must("at_ms", MS, "Milliseconds after the record was started."),
        must("pad", Kind::Text, "The pad: a direction, by its id."),
        must("mark", Kind::Text, "What was seen, by the mark's id."),
        may("also", Kind::Texts, "What was seen besides, by their ids."),
        must("made", Kind::Word(&word::MADE), "How the tap came about."),
    ],
};

pub(in super::super) static CELL: Shape = Shape {
    name: "cell",
    says: "One cell of a table of grades.",
    members: &[
        must("row", Kind::Text, "The row's id."),
        must("column", Kind::Text, "The column's id."),
        must("grade", Kind::Text, "The grade's id."),
        may("from_cycle", Kind::Whole(u8::MAX as u64), "The cycle from which on this grade was seen, from 1."),
    ],
};

pub(in super::super) static ADDENDUM: Shape = Shape {
    name: "addendum",
    says: "What is corrected or added after a visit was closed.",
    members: &[
        must("id", Kind::Id, "Random id."),
        must("visit", Kind::Id, "The visit's id; the visit itself need not be in the file."),
        must("person", Kind::Id, "The id of the visit's person."),
        must("written", Kind::Moment, "When it was written."),
        must("text", Kind::Text, "Its words."),
        may("program", Kind::Text, "Name and version of the program that wrote it."),
    ],
};

pub(in super::super) static ROUTINE: Shape = Shape {
    name: "routine",
    says: "A routine of the practice's own.",
    members: &[
        must("id", Kind::Id, "Random id."),
        must("title", Kind::Text, "Its name."),
        may("tasks", Kind::Ids(LONGEST_PLAN), "Ids of its tasks in order."),
        may("changed", Kind::Moment, "When it was last changed; the later one prevails."),
    ],
};

pub(in super::super) static VISIT_REF: Shape = Shape {
    name: "visit_ref",
    says: "One closing of a visit, or one correction.",
    members: &[must("id", Kind::Id, "Its id."), must("sha256", Kind::Digest, "Its digest.")],
};

pub(in super::super) static RECEIPT: Shape = Shape {
    name: "receipt",
    says: "What the taking side says it has.",
    members: &[
        must("id", Kind::Id, "Random id."),
        must("issued", Kind::Moment, "When it was given."),
        may("visits", Kind::List(&VISIT_REF), "The visits it is for."),
        may("addenda", Kind::List(&VISIT_REF), "The corrections it is for."),
    ],
};

pub(in super::super) static JOIN: Shape = Shape {
    name: "join",
    says: "Two entries that somebody said are the same person.",
    members: &[
        must("id", Kind::Id, "Random id."),
        must("keep", Kind::Id, "The person whose entry stands for both."),
        must("other", Kind::Id, "The other one."),
        must("made", Kind::Moment, "When they were joined."),
        may("undone", Kind::Moment, "When that was taken back."),
    ],
};

pub(in super::super) static HANDED_OVER: Shape = Shape {
    name: "handed_over",
    says: "A device's note of one hand over.",
    members: &[
        must("id", Kind::Id, "Random id."),
        must("made", Kind::Moment, "When it was made."),
        must("word", Kind::Text, "The random word in the file's name."),
        may("visits", Kind::List(&VISIT_REF), "The visits in it."),
        may("addenda", Kind::List(&VISIT_REF), "The corrections in it."),
        may("confirmed", Kind::Moment, "When its receipt was entered."),
    ],
};

pub(in super::super) static TOMBSTONE: Shape = Shape {
    name: "tombstone",
    says: "A person was erased on this device.",
    members: &[must("person", Kind::Id, "The person's id."), must("erased", Kind::Moment, "When.")],
};

pub(in super::super) static ENTRY: Shape = Shape {
    name: "entry",
    says: "What a device's lists know of a visit.",
    members: &[
        must("id", Kind::Id, "The visit's id."),
        must("person", Kind::Id, "The person's id."),
        must("started", Kind::Moment, "When it was begun."),
        may("closed", Kind::Moment, "When it was closed."),
        must("routine", Kind::Text, "The routine's id."),
        may("retest_on", Kind::Day, "The day of the re-test that was decided."),
        may("sha256", Kind::Digest, "The digest of a closed visit."),
        may("handed_over", Kind::Flag, "Whether a receipt says so; written only when true."),
    ],
};
