//! The visit's frame: why the person came, who agreed, and what else can change eye movements today.

use super::form::{Choice, Form, Kind, asked, choice, detail, hinted, never_fills, optional};
use super::visit::Visit;

/// The slot and form id.
pub const SLOT: &str = "frame";

static REASONS: &[Choice] = &[
    choice("knock", "Knock to the head or body"),
    choice("reading", "Reading or school work tires"),
    choice("dizzy", "Dizzy or unsteady"),
    choice("illness", "After a stroke or illness"),
    choice("attention", "Attention or learning"),
    hinted("baseline", "Own baseline", "well today; for later comparison"),
    choice("follow_up", "Follow-up"),
    choice("other", "Other"),
];

static SINCE: &[Choice] = &[
    choice("minutes", "Minutes ago"),
    choice("hours", "Hours ago"),
    choice("yesterday", "Since yesterday"),
    choice("week", "Days, up to a week"),
    choice("month", "Weeks, up to a month"),
    choice("longer", "Longer than a month"),
    choice("none", "No event"),
];

static CONSENT: &[Choice] = &[
    choice("self", "Given by the person"),
    choice("guardian", "Given by parent or guardian"),
    hinted("emergency", "Cannot be asked now", "acting in their interest"),
    choice("refused", "Not given"),
];

static GLASSES: &[Choice] = &[
    choice("none", "None needed"),
    choice("worn", "Worn now"),
    choice("contacts", "Contact lenses in"),
    choice("not_worn", "Has them, not worn now"),
];

static INFLUENCES: &[Choice] = &[
    choice("medicines", "Medicines that slow or sedate"),
    choice("alcohol", "Alcohol or drugs"),
    choice("tired", "Short of sleep, worn out"),
    choice("unwell", "Unwell or feverish"),
    choice("effort", "Hard exercise in the last half hour"),
];

static CAUTIONS: &[Choice] = &[
    choice("neck", "Neck pain, injury or disease"),
    choice("seizures", "Epilepsy or seizures"),
    choice("light", "Sensitive to flicker or stripes"),
    choice("migraine", "Migraine"),
    choice("surgery", "Recent eye, ear, brain or neck surgery"),
    choice("falls", "Falls or unsteady on the feet"),
    choice("vertigo", "Vertigo going on now"),
];

/// The form.
pub static FORM: Form = Form {
    id: SLOT,
    fields: &[
        asked("reason", "Why today?", Kind::One(REASONS)),
        optional("reason_note", "In their words", Kind::Text { max: 400, long: true }),
        asked("since", "When did it happen or begin?", Kind::One(SINCE)),
        detail("happened", "The day, if known", Kind::Day),
        asked("consent", "Consent to be examined and recorded", Kind::One(CONSENT)),
        detail("consent_by", "Who gave it", Kind::Text { max: 120, long: false }),
        asked("glasses", "Glasses for near", Kind::One(GLASSES)),
        asked(
            "influences",
            "What else could change eye movements today?",
            Kind::Many { choices: INFLUENCES, none: "Nothing known" },
        ),
        optional("medicines", "Which medicines", Kind::Text { max: 400, long: true })
            .only_if("influences", &["medicines"]),
        asked("cautions", "Take care with", Kind::Many { choices: CAUTIONS, none: "Nothing" }),
        detail("examiner", "Examined by", Kind::Text { max: 120, long: false }),
    ],
    usual: &[],
    usual_label: "",
    fills: never_fills,
};

/// Whether one of these cautions was ticked.
#[must_use]
pub fn has_caution(visit: &Visit, ids: &[&str]) -> bool {
    ticked(visit, "cautions", ids)
}

/// Whether one of these influences was ticked.
#[must_use]
pub fn has_influence(visit: &Visit, ids: &[&str]) -> bool {
    ticked(visit, "influences", ids)
}

/// Whether the visit is the person's own baseline.
#[must_use]
pub fn is_baseline(visit: &Visit) -> bool {
    reason(visit) == Some("baseline")
}

/// Why the person came, by the id of the choice.
#[must_use]
pub fn reason(visit: &Visit) -> Option<&str> {
    visit.filled(SLOT)?.answers.one("reason")
}

fn ticked(visit: &Visit, key: &str, ids: &[&str]) -> bool {
    let chosen = visit.filled(SLOT).and_then(|record| record.answers.many(key)).unwrap_or(&[]);
    chosen.iter().any(|id| ids.contains(&id.as_str()))
}
