//! Head impulse: whether the eyes stay on the target when the head is turned quickly.
//!
//! It is read in one situation only: vertigo without a break, with nystagmus, in trained hands. There a NORMAL impulse is
//! the danger sign, and an abnormal one is never a clearance. In anyone else a steady impulse is what healthy people show
//! and says nothing, so it is recorded and not read.

mod evidence;

use super::{Caution, Context, Setup, Task};
use crate::anatomy::Side;
use crate::capture::form::{Choice, Form, GridForm, Kind, Need, asked, choice, detail, hinted, never_fills};
use crate::capture::record::{Record, State};
use crate::capture::visit::Visit;
use crate::capture::{frame, safety};
use crate::finding::{Finding, Gap, Grade, Place, Reading, Why};
use crate::notice::Notice;
use crate::quantity::Quantity;
use crate::sign::{Sign, What};
use evidence::{COCHRANE, EARLY_SCAN, GUIDELINE, KATTAH, KERBER, OHLE, TARNUTZER, YIP};

/// The task. Size and number of turns are from memory of standard teaching.
pub static TASK: Task = Task {
    id: "head_impulse",
    title: "Head impulse",
    term: "head impulse test",
    setup: Setup {
        position: "Seated, facing you, glasses off, neck loose. First let them turn their head slowly to both sides: any \
                   pain ends the test.",
        target: "Your nose, 50 to 100 cm from their eyes.",
        motion: "Hold the head with both hands. From the middle, turn it 10 to 20° to one side, small, quick and without \
                 warning, and stop (from memory). Three times to each side, mixed.",
        say: "Look at my nose, whatever I do with your head. Tell me at once if your neck hurts.",
        watch: "At the stop: eyes still on your nose, or a jump back to it. A jump on turning to one side belongs to that \
                side.",
    },
    form: &FORM,
    provokes: true,
    pace: None,
    seconds: 60,
    barred,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

/// Care with the neck was read on a teaching page; the list of whom to leave out and the rest are from memory.
static CAUTIONS: &[Caution] = &[
    Caution {
        when: &[],
        below_age: None,
        says: "Only if you are trained in it and your local rules allow it. Leave it out with neck pain, injury or stiffness, \
               a suspected torn neck artery, a rheumatoid neck, Down syndrome, or a detached retina.",
    },
    Caution {
        when: &[],
        below_age: None,
        says: "A steady result is the danger sign here; a jump does not make it safe. Neither ends the search for a stroke.",
    },
    Caution { when: &["neck"], below_age: None, says: "Neck pain, injury or disease: no quick head turns." },
    Caution {
        when: &["surgery"],
        below_age: None,
        says: "Recent eye, ear, brain or neck surgery: not until the surgeon agrees.",
    },
    Caution {
        when: &["falls", "vertigo"],
        below_age: None,
        says: "Seated with a back rest and someone beside them, a bowl near. Let them rest after each side.",
    },
];

/// Whom quick head turns can hurt (common practice, from memory), and who has no vertigo, where nothing can be read
/// (emergency guideline on acute dizziness 2023).
fn barred(context: &Context<'_>) -> Option<&'static str> {
    let visit = context.visit;
    if frame::has_caution(visit, &["neck"]) || safety::holds_the_neck(visit) {
        return Some("neck pain or injury: no quick head turns");
    }
    if fresh_knock(visit) {
        return Some("after a knock: no quick head turns until the neck has been examined");
    }
    if frame::has_caution(visit, &["surgery"]) {
        return Some("recent surgery: no quick head turns until the surgeon agrees");
    }
    (!frame::has_caution(visit, &["vertigo"])).then_some("read only with vertigo going on now")
}

/// A knock within a month, or at a time that was not noted. The month is common practice.
fn fresh_knock(visit: &Visit) -> bool {
    let since = visit.filled(frame::SLOT).and_then(|record| record.answers.one("since"));
    frame::reason(visit) == Some("knock") && since != Some("longer")
}

static VERTIGO: &[Choice] = &[
    hinted("day", "Without a break", "for more than 24 h"),
    hinted("hours", "Without a break", "for less than 24 h"),
    choice("spells", "In spells"),
    choice("position", "Only when they move the head"),
    choice("none", "None now"),
];

static NYSTAGMUS: &[Choice] = &[choice("seen", "Seen"), choice("none", "None"), choice("unknown", "Not looked for")];

static TRAINED: &[Choice] = &[choice("yes", "Yes"), choice("no", "No")];

static SIDES: &[Choice] = &[choice("right", "to their right"), choice("left", "to their left")];

static TURN: &[Choice] = &[choice("turn", "quick turn")];

static OUTCOMES: &[Choice] = &[
    hinted("steady", "steady", "eyes stay on your nose"),
    hinted("catch_up", "catch-up jump", "off, then back"),
    hinted("unclear", "not clear", "blinks, stiff neck, helped along"),
];

static IMPULSE: GridForm = GridForm { rows: SIDES, columns: TURN, grades: OUTCOMES, cycles: 0 };

static TURNS: Quantity = Quantity { name: "turns to each side", unit: "", min: 1.0, max: 20.0, step: 1.0, decimals: 0 };

/// No tap says "all as expected": a steady impulse is expected in health and a danger sign here.
static FORM: Form = Form {
    id: "head_impulse",
    fields: &[
        asked("vertigo", "The vertigo is there", Kind::One(VERTIGO)),
        asked("nystagmus", "Nystagmus today", Kind::One(NYSTAGMUS)),
        asked("trained", "Are you trained in this test?", Kind::One(TRAINED)),
        asked("impulse", "At the stop of the turn, the eyes are", Kind::Grid(&IMPULSE)),
        detail("turns", "Turns to each side", Kind::Number(&TURNS)),
        detail("note", "Note", Kind::Text { max: 400, long: true }),
    ],
    usual: &[],
    usual_label: "",
    fills: never_fills,
};

fn read(_: &Context<'_>, record: &Record) -> Reading {
    let seen = SIDES_BOTH.map(|side| Impulse::toward(side, record));
    let mut reading = Reading { gaps: gaps(record, &seen), ..Reading::default() };
    if seen.iter().any(Option::is_some) {
        let validity = Validity::of(record);
        let notice = match validity {
            Validity::Read { early } => {
                reading.signs = signs(&seen);
                told(&seen, early)
            }
            Validity::Untrained => not_read(&seen, UNTRAINED).grade(Grade::OutsideRange).cites(&GUIDELINE),
            Validity::NoNystagmus => not_read(&seen, NO_NYSTAGMUS).cites(&GUIDELINE),
            Validity::NotContinuous => not_read(&seen, NOT_CONTINUOUS).cites(&GUIDELINE),
            Validity::NotKnown => not_read(&seen, NOT_KNOWN).cites(&GUIDELINE),
        };
        reading.flags.extend(notice.flag);
        reading.findings.push(notice.finding);
    }
    reading.findings.extend(
        record.answers.text("note").map(|note| Finding::new(TASK.id, "note", Place::Both, format!("Note: “{note}”"))),
    );
    reading
}

const SIDES_BOTH: [Side; 2] = [Side::Right, Side::Left];

/// What the eyes did on turns to one side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Impulse {
    Steady,
    CatchUp,
    Unclear,
}

impl Impulse {
    fn toward(side: Side, record: &Record) -> Option<Impulse> {
        match record.answers.cell("impulse", side.word(), "turn")?.grade.as_str() {
            "steady" => Some(Impulse::Steady),
            "catch_up" => Some(Impulse::CatchUp),
            "unclear" => Some(Impulse::Unclear),
            _ => None,
        }
    }

    fn words(self) -> &'static str {
        match self {
            Impulse::Steady => "steady",
            Impulse::CatchUp => "catch-up jump",
            Impulse::Unclear => "not clear",
        }
    }
}

/// Whether the test can be read in this person by this examiner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Validity {
    /// Vertigo without a break, with nystagmus, in trained hands; `early` before 24 h.
    Read {
        early: bool,
    },
    Untrained,
    NoNystagmus,
    NotContinuous,
    /// One of the questions was not answered.
    NotKnown,
}

impl Validity {
    /// The conditions are those of the emergency guideline on acute dizziness 2023, but for the first 24 h: there a
    /// danger sign counts already (own caution), and nothing else is eased by it. Training that was not asked about
    /// counts as given, so that a danger sign is not lost.
    fn of(record: &Record) -> Validity {
        let one = |key| record.answers.one(key);
        let early = match one("vertigo") {
            Some("day") => false,
            Some("hours") => true,
            Some("spells" | "position" | "none") => return Validity::NotContinuous,
            Some(_) | None => return Validity::NotKnown,
        };
        match (one("nystagmus"), one("trained")) {
            (Some("none"), _) => Validity::NoNystagmus,
            (Some("seen"), Some("no")) => Validity::Untrained,
            (Some("seen"), _) => Validity::Read { early },
            (Some(_) | None, _) => Validity::NotKnown,
        }
    }
}

const UNTRAINED: &str = "Not read: it needs an examiner trained in it. Vertigo without a break, with nystagmus, needs such an \
                         examiner or imaging the same day.";
const NO_NYSTAGMUS: &str =
    "Not read: without nystagmus the test is not valid. Look at how they stand and walk instead.";
const NOT_CONTINUOUS: &str = "Not read: it says something only while vertigo goes on without a break. In anyone else a steady \
                              impulse is ordinary. Spells, or vertigo on moving, call for other tests.";
const NOT_KNOWN: &str = "Not read: whether vertigo goes on without a break, and with nystagmus, was not noted. Where both hold, a \
                         steady impulse is a danger sign, and a jump does not make it safe.";

/// What was seen, where nothing may be read from it.
fn not_read(seen: &[Option<Impulse>; 2], why: &str) -> Notice {
    let headline = format!("Head impulse {}; not read", words(seen));
    Notice::new(TASK.id, "not_read", Place::Both, headline).grade(Grade::NoRange).says(why)
}

/// The reading, where the test is valid.
fn told(seen: &[Option<Impulse>; 2], early: bool) -> Notice {
    use Impulse::{CatchUp, Steady, Unclear};
    let notice = |what: &str, place: Place, headline: String| {
        let notice = Notice::new(TASK.id, what, place, headline);
        if early {
            notice.says("The test was studied from about 24 h on; sooner it is less sure.").cites(&GUIDELINE)
        } else {
            notice.cites(&GUIDELINE)
        }
    };
    let jump = |side: Side| {
        let to = side.direction();
        let headline = format!("Catch-up jump on turning {}", to.phrase());
        not_safe(notice("catch_up", Place::Toward(to), headline))
    };
    match seen {
        [Some(Steady), Some(Steady)] => central(notice(
            "central",
            Place::Both,
            "Head impulse steady to both sides, in vertigo with nystagmus".to_string(),
        )),
        [Some(CatchUp), Some(CatchUp)] => {
            not_safe(notice("catch_up", Place::Both, "Catch-up jumps on turning to both sides".to_string()))
        }
        [Some(CatchUp), Some(Steady)] => jump(Side::Right),
        [Some(Steady), Some(CatchUp)] => jump(Side::Left),
        [Some(CatchUp), Some(Unclear) | None] => jump(Side::Right).says("The other side is open."),
        [Some(Unclear) | None, Some(CatchUp)] => jump(Side::Left).says("The other side is open."),
        [Some(Steady | Unclear) | None, Some(Steady | Unclear) | None] => {
            let headline = format!("Head impulse {}", words(seen));
            notice("open", Place::Both, headline)
                .says("Unclear counts as not ruled out: a trained examiner or imaging the same day.")
        }
    }
}

/// Both sides steady: the danger sign.
fn central(notice: Notice) -> Notice {
    notice
        .says_first(
            "In vertigo that goes on, with nystagmus, a steady impulse points away from the ear: have a stroke ruled out \
             by emergency care now.",
        )
        .says(
            "By itself it finds 68.8 % of central causes and is absent in 92.5 % of the others (Gottlieb et al. 2023). \
             Without vertigo every healthy person shows it.",
        )
        .says(AGREEMENT)
        .cites(&COCHRANE)
        .cites(&KERBER)
        .cites(&YIP)
        .danger("central", "a steady head impulse to both sides, in vertigo with nystagmus".to_string(), &KATTAH)
}

/// A catch-up jump never clears anyone.
fn not_safe(notice: Notice) -> Notice {
    notice
        .says_first("This does not make it safe: have it examined the same day by someone trained, or by imaging.")
        .says(
            "Compatible with a loss of the balance organ or its nerve, also seen with strokes of the artery that feeds \
             both, above all with new deafness on one side: there all three signs together found only 84 % (Tarnutzer \
             et al. 2023).",
        )
        .says(
            "A skew, or nystagmus that is vertical, twists or changes direction, is a danger sign beside it. All three \
             signs found 100 % of strokes in experts' hands (Kattah et al. 2009); over 12 studies 94 % (82 to 98), with \
             87 % (75 to 94) of the others recognised (Gottlieb et al. 2023, low certainty).",
        )
        .says(
            "In the one study with mixed examiners it was 83 % and 44 % (Ohle et al. 2020). An early scan does not settle \
             it: the first was falsely clear in 12 % (Kattah et al. 2009), within 48 h in 20 to 50 % (BMJ Neurol Open 2022).",
        )
        .says(AGREEMENT)
        .cites(&KATTAH)
        .cites(&COCHRANE)
        .cites(&TARNUTZER)
        .cites(&OHLE)
        .cites(&EARLY_SCAN)
        .cites(&KERBER)
        .cites(&YIP)
}

const AGREEMENT: &str = "Examiners agree only fairly: kappa 0.29 in person, 0.40 from video (Kerber et al. 2015). By eye, \
                         a jump was seen in 14 of 100 with an intact reflex, and missed in 34 of 100 who had lost it \
                         (Yip et al. 2016).";

/// Signs, only where the test is valid: elsewhere a steady impulse is what everyone shows.
fn signs(seen: &[Option<Impulse>; 2]) -> Vec<Sign> {
    let key = match seen {
        [Some(Impulse::Steady), Some(Impulse::Steady)] => "central",
        [Some(Impulse::CatchUp), _] | [_, Some(Impulse::CatchUp)] => "catch_up",
        [Some(Impulse::Steady | Impulse::Unclear) | None, Some(Impulse::Steady | Impulse::Unclear) | None] => "open",
    };
    let of = |(side, impulse): (Side, Option<Impulse>)| {
        let steady = match impulse? {
            Impulse::Steady => true,
            Impulse::CatchUp => false,
            Impulse::Unclear => return None,
        };
        let sign = |what, seen| Sign::new(what, Place::Toward(side.direction()), seen, &format!("{}.{key}", TASK.id));
        Some([sign(What::SteadyImpulse, steady), sign(What::CatchUpImpulse, !steady)])
    };
    SIDES_BOTH.into_iter().zip(*seen).filter_map(of).flatten().collect()
}

/// "steady to the right, not clear to the left"; once when both are alike.
fn words(seen: &[Option<Impulse>; 2]) -> String {
    let word = |impulse: Option<Impulse>| impulse.map_or("not done", Impulse::words);
    if seen[0] == seen[1] {
        return format!("{} to both sides", word(seen[0]));
    }
    let each = SIDES_BOTH.into_iter().zip(*seen);
    let each = each.map(|(side, impulse)| format!("{} {}", word(impulse), side.direction().phrase()));
    each.collect::<Vec<_>>().join(", ")
}

fn gaps(record: &Record, seen: &[Option<Impulse>; 2]) -> Vec<Gap> {
    let gap = |what: String, why: Why| Gap { slot: record.slot.clone(), what, why };
    match &record.state {
        State::NotDone(reason) => return vec![gap(TASK.term.to_string(), Why::NotDone(reason.clone()))],
        State::NotTestable(reason) => return vec![gap(TASK.term.to_string(), Why::NotTestable(reason.clone()))],
        State::Open | State::Done if record.answers.is_empty() => {
            return vec![gap(TASK.term.to_string(), Why::NotRecorded)];
        }
        State::Open | State::Done => {}
    }
    let mut gaps = Vec::new();
    for field in FORM.shown(&record.answers).filter(|field| field.need == Need::Asked) {
        match record.answers.get(field.key) {
            Some(answer) if !field.accepts(answer) => gaps.push(gap(in_words(field.key).to_string(), Why::Unread)),
            None => gaps.push(gap(in_words(field.key).to_string(), Why::NotRecorded)),
            Some(_) if field.key == "impulse" => {
                let missing = SIDES_BOTH.into_iter().zip(seen).filter(|(_, impulse)| impulse.is_none());
                gaps.extend(
                    missing
                        .map(|(side, _)| gap(format!("head impulse {}", side.direction().phrase()), Why::NotRecorded)),
                );
            }
            Some(_) => {}
        }
    }
    gaps
}

fn in_words(key: &'static str) -> &'static str {
    match key {
        "vertigo" => "whether the vertigo goes on without a break",
        "nystagmus" => "whether there was nystagmus",
        "trained" => "whether the examiner is trained in the head impulse test",
        "impulse" => "head impulse to both sides",
        other => other,
    }
}

#[cfg(test)]
mod tests;
