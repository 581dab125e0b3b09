//! Turning the whole body to a beat with the eyes on the own thumb: how many turns were done, whether gaze and feet held.
//! What it does to the symptoms is read with the symptoms.

mod evidence;

use self::evidence::{LAY, PROTOCOL};
use super::{Caution, Context, Setup, Task};
use crate::capture::form::{
    Choice, Form, Kind, Pace, Usual, UsualAnswer, asked, choice, detail, hinted, label, never_fills, optional,
};
use crate::capture::record::Record;
use crate::capture::{safety, symptoms};
use crate::evidence::capital;
use crate::finding::{Finding, Gap, Grade, Place, Reading, Value, Why};
use crate::measure::{Amount, Better, Measure};
use crate::quantity::Quantity;
use crate::turning::{Done, Early, STOPPED};

/// The task.
pub static TASK: Task = Task {
    id: "whole_body_turn",
    title: "Turning with the arm out",
    term: "visual motion sensitivity",
    setup: Setup {
        // The width of the stance and that the 80° lie to each side are from memory of Mucha et al. 2014.
        position: "Standing, feet a shoulder's width apart (from memory), a wall or corner behind, you within reach.",
        target: "Their own thumb, arm straight out at eye level.",
        motion: "Head, arm and trunk turn as one, 80° to each side (to each side: from memory), the other way at every \
                 beat: five times there and back. Wait ten seconds, then ask how they feel.",
        say: "Keep your eyes on your thumb and turn all in one piece with the beat. Stop whenever you want.",
        watch: "Whether the eyes stay on the thumb and the feet stay put. Be ready to hold them.",
    },
    form: &FORM,
    provokes: true,
    pace: Some(PACE),
    seconds: 45,
    barred,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

/// 50 beats a minute, the other way at every beat (clinic protocol of the symptom screen): five there and back take ten
/// beats and 12 s.
const PACE: Pace = Pace { bpm: 50.0, beats: 10, alternates: false };

/// There and back (clinic protocol of the symptom screen).
const WANTED: f64 = 5.0;

/// A fall is the examiner's to prevent, and a neck that may turn with the trunk is spared: both get a caution, so that who
/// is unsteady can still be examined with a hand at hand. All cautions here are common practice, from memory.
static CAUTIONS: &[Caution] = &[
    Caution {
        when: &["falls"],
        below_age: None,
        says: "Only with your hands ready and a wall or corner behind, shoes on, firm floor. In doubt leave it out.",
    },
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on: a wall behind, a bowl near, stop when it grows; leave it out from 7 of 10 on, or with \
               vomiting (convention, from memory).",
    },
    Caution {
        when: &["neck"],
        below_age: None,
        says: "The head must not turn on the trunk: head, arm and chest as one, or leave it out. Stop at any neck pain.",
    },
    Caution { when: &["surgery"], below_age: None, says: "After recent surgery only if the surgeon agrees." },
    Caution { when: &["migraine"], below_age: None, says: "Can bring on headache or nausea. Stop when these grow." },
];

/// Nobody whose neck must be held still, who vomits or is very dizzy is made to stand and turn (convention, from memory).
fn barred(context: &Context<'_>) -> Option<&'static str> {
    let visit = context.visit;
    if safety::holds_the_neck(visit) {
        return Some("the neck is to be held still: no turning");
    }
    if safety::vomits(visit) {
        return Some("vomiting: no turning");
    }
    symptoms::too_dizzy(visit, TASK.id).then_some("dizziness of 7 or more: no turning")
}

static AMOUNT: &[Choice] = &[choice("all", "All five"), choice("fewer", "Fewer"), choice("none", "Not done")];

static GAZE: &[Choice] = &[choice("kept", "Stayed on the thumb"), choice("lost", "Left the thumb")];

static FEET: &[Choice] = &[
    choice("steady", "Steady"),
    choice("swayed", "Swayed"),
    hinted("stepped", "Stepped or held on", "or had to be held"),
];

static REASONS: &[Choice] = &[
    choice("dizziness", "Dizziness"),
    choice("nausea", "Nausea"),
    choice("headache", "Headache"),
    choice("neck", "Neck pain"),
    choice("unsteady", "Unsteady"),
    choice("pace", "Could not keep the pace"),
    choice("other", "Other"),
];

static EARLY: Early = Early {
    task: TASK.id,
    headline: "Stopped before five turns",
    reasons: REASONS,
    symptoms: &["dizziness", "nausea", "headache", "unsteady"],
    no_more: "turns",
    borne: "Five turns",
    turned: "the body",
};

static PACES: &[Choice] = &[
    hinted("beat", "To a beat", "50 a minute"),
    choice("slower", "Slower"),
    choice("faster", "Faster"),
    choice("uneven", "Uneven"),
];

static TURNS: Quantity =
    Quantity { name: "turns there and back", unit: "", min: 1.0, max: 4.0, step: 1.0, decimals: 0 };

static FORM: Form = Form {
    id: "whole_body_turn",
    fields: &[
        asked("turns", "Five there and back", Kind::One(AMOUNT)),
        optional("turns_done", "How many", Kind::Number(&TURNS)).only_if("turns", &["fewer"]),
        asked("gaze", "The eyes", Kind::One(GAZE)).only_if("turns", &["all", "fewer"]),
        asked("feet", "On the feet", Kind::One(FEET)).only_if("turns", &["all", "fewer"]),
        asked(STOPPED, "Stopped early because of", Kind::Many { choices: REASONS, none: "Not stopped early" }),
        detail("pace", "Pace", Kind::One(PACES)),
    ],
    usual: &[
        Usual { key: "turns", answer: UsualAnswer::One("all") },
        Usual { key: "gaze", answer: UsualAnswer::One("kept") },
        Usual { key: "feet", answer: UsualAnswer::One("steady") },
        Usual { key: STOPPED, answer: UsualAnswer::NoneOf },
    ],
    usual_label: "All five, steady, eyes on the thumb",
    fills: never_fills,
};

fn read(context: &Context<'_>, record: &Record) -> Reading {
    if record.skipped() || record.answers.is_empty() {
        return Reading::default();
    }
    let seen = Turned::of(record);
    Reading {
        findings: [turns(&seen), feet(&seen), EARLY.finding(record)].into_iter().flatten().collect(),
        gaps: gaps(&seen, record),
        flags: EARLY.neck_after_a_knock(context.visit, record).into_iter().collect(),
        measures: steadiness(&seen, record).into_iter().collect(),
        ..Reading::default()
    }
}

/// How the person stood, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Feet {
    Steady,
    Swayed,
    Stepped,
}

impl Feet {
    /// Words of all steps, best first; the order is that of the variants.
    const WORDS: &'static [&'static str] = &["steady", "swayed", "stepped or held on"];

    fn from_id(id: &str) -> Option<Feet> {
        match id {
            "steady" => Some(Feet::Steady),
            "swayed" => Some(Feet::Swayed),
            "stepped" => Some(Feet::Stepped),
            _ => None,
        }
    }
}

#[derive(Debug)]
struct Turned {
    done: Option<Done>,
    /// Whether the eyes stayed on the thumb.
    kept: Option<bool>,
    feet: Option<Feet>,
}

impl Turned {
    fn of(record: &Record) -> Turned {
        let done = Done::of(record, "turns", "turns_done", &TURNS);
        let turned = done.is_some_and(Done::any);
        let seen = |key: &str| record.answers.one(key).filter(|_| turned);
        let kept = match seen("gaze") {
            Some("kept") => Some(true),
            Some("lost") => Some(false),
            Some(_) | None => None,
        };
        Turned { done, kept, feet: seen("feet").and_then(Feet::from_id) }
    }

    fn number(&self) -> Option<f64> {
        self.done?.number(WANTED)
    }
}

/// "Five turns, eyes stayed on the thumb".
fn turns(seen: &Turned) -> Option<Finding> {
    let turns = capital(&seen.done?.words("five", &TURNS)?);
    let gaze = match seen.kept {
        Some(true) => ", eyes stayed on the thumb",
        Some(false) => ", eyes left the thumb",
        None => "",
    };
    let mut finding = Finding::new(TASK.id, "turns", Place::Both, format!("{turns}{gaze}"));
    finding.value = seen.number().map(|number| Value { number, unit: "", interval: None });
    finding.sources = vec![&PROTOCOL, &LAY];
    if seen.kept == Some(false) {
        // Common practice.
        finding.details.push("Without the thumb in gaze the turns provoke something else: do them again.".to_string());
    }
    Some(finding)
}

fn feet(seen: &Turned) -> Option<Finding> {
    let (headline, grade) = match seen.feet? {
        Feet::Steady => ("Steady on the feet while turning", Grade::NoRange),
        Feet::Swayed => ("Swayed while turning", Grade::NoRange),
        Feet::Stepped => ("Stepped or held on while turning", Grade::NearLimit),
    };
    let mut finding = Finding::new(TASK.id, "feet", Place::Both, headline.to_string());
    finding.grade = grade;
    if grade == Grade::NearLimit {
        finding.details.push(
            "No limit is published (common practice); age, shoes, floor and fear of falling do the same. Set it beside \
             balance with the eyes closed."
                .to_string(),
        );
    }
    Some(finding)
}

/// How the person stood, for another visit to be set against.
fn steadiness(seen: &Turned, record: &Record) -> Option<Measure> {
    let step = seen.feet? as u8;
    let turns = seen.number().map(|turns| ("turns", turns.to_string()));
    let pace = record.answers.one("pace").map(|id| ("pace", label(PACES, id).to_lowercase()));
    Some(Measure {
        key: format!("{}.feet", TASK.id),
        task: TASK.id,
        what: "standing while turning".to_string(),
        place: Place::Both,
        amount: Amount::Step { step, words: Feet::WORDS },
        better: Better::Lower,
        method: turns.into_iter().chain(pace).collect(),
        limits: &[],
        norm: None,
    })
}

fn gaps(seen: &Turned, record: &Record) -> Vec<Gap> {
    let gap = |what: &str, why: Why| Gap { slot: TASK.id.to_string(), what: what.to_string(), why };
    let mut gaps = Vec::new();
    match seen.done {
        None => gaps.push(gap("turns with the arm out", Why::NotRecorded)),
        Some(Done::Nothing) => {
            gaps.push(gap("turns with the arm out", Why::NotDone(EARLY.why(record))));
        }
        Some(Done::All | Done::Fewer(_)) => {
            if seen.kept.is_none() {
                gaps.push(gap("whether the eyes stayed on the thumb", Why::NotRecorded));
            }
            if seen.feet.is_none() {
                gaps.push(gap("how steady they stood while turning", Why::NotRecorded));
            }
        }
    }
    if record.answers.many(STOPPED).is_none() {
        gaps.push(gap("whether the turns were stopped early", Why::NotRecorded));
    }
    gaps
}

#[cfg(test)]
mod tests;
