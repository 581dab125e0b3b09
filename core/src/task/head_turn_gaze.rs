//! Head turns to a beat with the eyes on a target that stays still: how many were done, and whether the target stayed
//! clear. What they do to the symptoms is read with the symptoms.
//!
//! No bedside limit of blur was found, so blur is told without a grade.

mod evidence;

use self::evidence::{PROTOCOL, REPEATS};
use super::{Caution, Context, Setup, Task};
use crate::capture::answer::Answer;
use crate::capture::form::{
    Choice, Field, Form, Kind, Pace, Usual, UsualAnswer, asked, choice, detail, hinted, label, optional,
};
use crate::capture::record::Record;
use crate::capture::showing::{Showing, Told, key, program};
use crate::capture::{frame, safety, symptoms};
use crate::finding::{Finding, Flag, Gap, Grade, Place, Reading, Value, Why};
use crate::measure::{Amount, Better, Measure};
use crate::quantity::Quantity;
use crate::turning::{Done, Early, STOPPED};

/// The task.
pub static TASK: Task = Task {
    id: "head_turn_gaze",
    title: "Head turns",
    term: "vestibulo-ocular reflex, head turns to a beat",
    setup: Setup {
        position: "Seated, facing you, in the glasses they use for this distance.",
        target: "A small face at eye level, about 1 m (3 ft) away.",
        // The 20° are from memory of Mucha et al. 2014; pace and number were read in a clinic's protocol of the screen.
        motion: "They turn the head side to side, one side at each beat, a small turn (about 20° each way, from memory), \
                 ten times there and back. Then the same up and down. Wait ten seconds, then ask how they feel.",
        say: "Keep your eyes on its nose while you turn your head with the beat. Stop at once if your neck hurts.",
        watch: "Whether the turns keep up with the beat; ask whether the face stays clear; stop when they ask for it.",
    },
    form: &FORM,
    provokes: true,
    pace: Some(PACE),
    seconds: 60,
    barred,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

/// 180 beats a minute, one side at each beat: 1.5 turns there and back a second, so ten take twenty beats and 6.7 s.
const PACE: Pace = Pace { bpm: 180.0, beats: 20, alternates: false };

/// There and back, each way (clinic protocol of the symptom screen).
const WANTED: f64 = 10.0;

static CAUTIONS: &[Caution] = &[
    // Common practice.
    Caution {
        when: &[],
        below_age: None,
        says: "No turning when the neck hurts or was hurt. First let them turn slowly by themselves; stop at any pain.",
    },
    // Convention, from memory.
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on: seated, a bowl near, one direction at a time; leave it out from 7 of 10 on, or with \
               vomiting (convention, from memory).",
    },
    Caution { when: &["migraine"], below_age: None, says: "Can bring on headache or nausea. Stop when these grow." },
];

/// No quick head turns with a neck at risk, after recent surgery until the surgeon agrees, or with strong vertigo. All
/// three are common practice, from memory.
fn barred(context: &Context<'_>) -> Option<&'static str> {
    let visit = context.visit;
    if frame::has_caution(visit, &["neck"]) || safety::holds_the_neck(visit) {
        return Some("neck pain or injury: no quick head turns");
    }
    if frame::has_caution(visit, &["surgery"]) {
        return Some("recent surgery: no quick head turns until the surgeon agrees");
    }
    if safety::vomits(visit) {
        return Some("vomiting: no quick head turns");
    }
    symptoms::too_dizzy(visit, TASK.id).then_some("dizziness of 7 or more: no quick head turns")
}

static AMOUNT: &[Choice] = &[choice("all", "All ten"), choice("fewer", "Fewer"), choice("none", "Not done")];

static TARGET: &[Choice] =
    &[choice("clear", "Clear"), choice("blurred", "Blurred"), hinted("doubled", "Doubled", "two faces")];

static REASONS: &[Choice] = &[
    choice("dizziness", "Dizziness"),
    choice("nausea", "Nausea"),
    choice("headache", "Headache"),
    choice("neck", "Neck pain"),
    choice("sight", "Blurred or double sight"),
    choice("pace", "Could not keep the pace"),
    choice("other", "Other"),
];

static EARLY: Early = Early {
    task: TASK.id,
    headline: "Head turns stopped early",
    reasons: REASONS,
    symptoms: &["dizziness", "nausea", "headache", "sight"],
    no_more: "quick head turns",
    borne: "Ten turns",
    turned: "the head",
};

static PACES: &[Choice] = &[
    hinted("beat", "To a beat", "180 a minute"),
    choice("slower", "Slower"),
    choice("faster", "Faster"),
    choice("uneven", "Uneven"),
];

static TURNS: Quantity =
    Quantity { name: "turns there and back", unit: "", min: 1.0, max: 9.0, step: 1.0, decimals: 0 };
static DISTANCE: Quantity =
    Quantity { name: "distance of the target", unit: "cm", min: 30.0, max: 300.0, step: 5.0, decimals: 0 };

static FORM: Form = Form {
    id: "head_turn_gaze",
    fields: &[
        asked("horizontal", "Side to side, ten there and back", Kind::One(AMOUNT)),
        fewer("horizontal_turns", "horizontal"),
        target("horizontal_target", "The face meanwhile", "horizontal"),
        asked("vertical", "Up and down, ten there and back", Kind::One(AMOUNT)),
        fewer("vertical_turns", "vertical"),
        target("vertical_target", "The face meanwhile", "vertical"),
        asked(STOPPED, "Stopped early because of", Kind::Many { choices: REASONS, none: "Not stopped early" }),
        detail("pace", "Pace", Kind::One(PACES)),
        detail("distance", "From the eyes to the target", Kind::Number(&DISTANCE)),
    ],
    usual: &[
        Usual { key: "horizontal", answer: UsualAnswer::One("all") },
        Usual { key: "horizontal_target", answer: UsualAnswer::One("clear") },
        Usual { key: "vertical", answer: UsualAnswer::One("all") },
        Usual { key: "vertical_target", answer: UsualAnswer::One("clear") },
        Usual { key: STOPPED, answer: UsualAnswer::NoneOf },
    ],
    usual_label: "All done, face stayed clear",
    fills,
};

const fn fewer(key: &'static str, of: &'static str) -> Field {
    optional(key, "How many", Kind::Number(&TURNS)).only_if(of, &["fewer"])
}

const fn target(key: &'static str, ask: &'static str, of: &'static str) -> Field {
    asked(key, ask, Kind::One(TARGET)).only_if(of, &["all", "fewer"])
}

/// The beat the task asks for, a minute (Mucha et al. 2014; from memory).
const ASKED: f64 = 180.0;

/// What the beat on a screen answers by itself.
fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    let pace = Told::by(showings, program::HEAD_TURNS, |showing| {
        let pace = showing.number(key::PACE)?;
        let id = if pace < ASKED {
            "slower"
        } else if pace > ASKED {
            "faster"
        } else {
            "beat"
        };
        Some(id.to_string())
    });
    let distance = Told::by(showings, program::HEAD_TURNS, Showing::distance);
    [pace.fills("pace", Answer::One), distance.fills("distance", Answer::Number)].into_iter().flatten().collect()
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    // Seen before the rest was left out, it stays a danger sign.
    let flags: Vec<Flag> = EARLY.neck_after_a_knock(context.visit, record).into_iter().collect();
    if record.skipped() || record.answers.is_empty() {
        return Reading { flags, ..Reading::default() };
    }
    let seen = Axis::BOTH.map(|axis| Turned::about(axis, record));
    let mut reading = Reading { gaps: gaps(&seen, record), flags, ..Reading::default() };
    reading.findings.extend(seen.iter().filter_map(finding));
    explain(&mut reading.findings, &seen);
    reading.findings.extend(EARLY.finding(record));
    reading.measures.extend(seen.iter().filter_map(|turned| measure(turned, record)));
    reading
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Axis {
    Horizontal,
    Vertical,
}

impl Axis {
    const BOTH: [Axis; 2] = [Axis::Horizontal, Axis::Vertical];

    fn key(self) -> &'static str {
        match self {
            Axis::Horizontal => "horizontal",
            Axis::Vertical => "vertical",
        }
    }

    fn words(self) -> &'static str {
        match self {
            Axis::Horizontal => "side to side",
            Axis::Vertical => "up and down",
        }
    }

    fn headline(self) -> &'static str {
        match self {
            Axis::Horizontal => "Side to side",
            Axis::Vertical => "Up and down",
        }
    }
}

/// What the held target did, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sight {
    Clear,
    Blurred,
    Doubled,
}

impl Sight {
    /// Words of all steps, best first; the order is that of the variants.
    const WORDS: &'static [&'static str] = &["clear", "blurred", "doubled"];

    fn from_id(id: &str) -> Option<Sight> {
        match id {
            "clear" => Some(Sight::Clear),
            "blurred" => Some(Sight::Blurred),
            "doubled" => Some(Sight::Doubled),
            _ => None,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Sight::Clear => "target clear",
            Sight::Blurred => "target blurred",
            Sight::Doubled => "target doubled",
        }
    }
}

/// What was noted of the turns about one axis.
#[derive(Debug)]
struct Turned {
    axis: Axis,
    done: Option<Done>,
    sight: Option<Sight>,
}

impl Turned {
    fn about(axis: Axis, record: &Record) -> Turned {
        let key = axis.key();
        let done = Done::of(record, key, &format!("{key}_turns"), &TURNS);
        let turned = done.is_some_and(Done::any);
        let sight = record.answers.one(&format!("{key}_target")).filter(|_| turned).and_then(Sight::from_id);
        Turned { axis, done, sight }
    }

    /// "ten turns"; nothing when none were done.
    fn turns(&self) -> Option<String> {
        self.done?.words("ten", &TURNS)
    }
}

/// "Side to side: ten turns, target clear".
fn finding(turned: &Turned) -> Option<Finding> {
    let turns = turned.turns()?;
    let sight = turned.sight.map(|sight| format!(", {}", sight.words())).unwrap_or_default();
    let headline = format!("{}: {turns}{sight}", turned.axis.headline());
    let mut finding = Finding::new(TASK.id, turned.axis.key(), Place::Both, headline);
    finding.value =
        turned.done.and_then(|done| done.number(WANTED)).map(|number| Value { number, unit: "", interval: None });
    finding.sources = vec![&PROTOCOL];
    if turned.sight == Some(Sight::Doubled) {
        finding.grade = Grade::NearLimit;
        finding.details.push(
            "Two faces during head turns: look at the eyes at rest again and cover each eye in turn. No limit is \
             published (common practice)."
                .to_string(),
        );
    }
    Some(finding)
}

/// What blur and few turns mean, said once with the first finding it belongs to.
fn explain(findings: &mut [Finding], seen: &[Turned; 2]) {
    let of = |turned: &Turned, findings: &mut [Finding]| {
        let key = format!("{}.{}", TASK.id, turned.axis.key());
        findings.iter().position(|finding| finding.key == key)
    };
    if let Some(at) = seen.iter().find(|t| t.sight == Some(Sight::Blurred)).and_then(|t| of(t, findings)) {
        // What else blurs a held target is common practice.
        findings[at].details.push(
            "Blur of a held target while the head turns has no published limit by eye; missing glasses, turns that are \
             too quick, and tiredness blur it too."
                .to_string(),
        );
    }
    if let Some(at) = seen.iter().find(|t| matches!(t.done, Some(Done::Fewer(_)))).and_then(|t| of(t, findings)) {
        // Horizontal 19, vertical 23 of 100 with up to ten repeats.
        findings[at].details.push(
            "With ten turns symptoms came in only 19 to 23 of 100 concussed adolescents, so fewer turns without symptoms \
             say little."
                .to_string(),
        );
        findings[at].sources.push(&REPEATS);
    }
}

/// Whether the target stayed clear, for another visit to be set against.
fn measure(turned: &Turned, record: &Record) -> Option<Measure> {
    let step = turned.sight? as u8;
    let part = |name, words: Option<String>| words.map(|words| (name, words));
    let pace = record.answers.one("pace").map(|id| label(PACES, id).to_lowercase());
    let distance = record.answers.number("distance").map(|cm| DISTANCE.show(cm));
    Some(Measure {
        key: format!("{}.{}", TASK.id, turned.axis.key()),
        task: TASK.id,
        what: format!("target during head turns, {}", turned.axis.words()),
        place: Place::Both,
        amount: Amount::Step { step, words: Sight::WORDS },
        better: Better::Lower,
        method: [part("turns", turned.turns()), part("pace", pace), part("distance", distance)]
            .into_iter()
            .flatten()
            .collect(),
        limits: &[],
        norm: None,
    })
}

fn gaps(seen: &[Turned; 2], record: &Record) -> Vec<Gap> {
    let gap = |what: String, why: Why| Gap { slot: TASK.id.to_string(), what, why };
    let mut gaps = Vec::new();
    for turned in seen {
        let axis = turned.axis.words();
        match (turned.done, turned.sight) {
            (None, _) => gaps.push(gap(format!("head turns {axis}"), Why::NotRecorded)),
            (Some(Done::Nothing), _) => {
                gaps.push(gap(format!("head turns {axis}"), Why::NotDone(EARLY.why(record))));
            }
            (Some(Done::All | Done::Fewer(_)), None) => {
                gaps.push(gap(format!("whether the target stayed clear {axis}"), Why::NotRecorded));
            }
            (Some(Done::All | Done::Fewer(_)), Some(_)) => {}
        }
    }
    if record.answers.many(STOPPED).is_none() {
        gaps.push(gap("whether the head turns were stopped early".to_string(), Why::NotRecorded));
    }
    gaps
}

#[cfg(test)]
mod tests;
