//! Both sides of the body set side by side: light touch, arms held out, finger to nose, quick hand turns.
//!
//! It is a cross-check of a side, never a way to find one. What is less and may be new is a danger sign.

mod evidence;

use self::evidence::{CONCUSSION, STROKE};
use super::{Context, Setup, Task, never_barred};
use crate::anatomy::Side;
use crate::capture::form::{
    Choice, Form, GridForm, Kind, Usual, UsualAnswer, asked, choice, detail, hinted, never_fills,
};
use crate::capture::frame;
use crate::capture::record::Record;
use crate::finding::{Finding, Flag, Gap, Grade, Place, Reading, Why};
use crate::measure::{Amount, Better, Measure};
use crate::notice::{Since, is_new};
use crate::sign::{Sign, What};

/// The task.
pub static TASK: Task = Task {
    id: "body_sides",
    title: "Both sides of the body",
    term: "touch, drift and coordination by side",
    setup: Setup {
        position: "Seated, facing you, sleeves up. Eyes closed for touch and for the arms held out.",
        target: "Your fingertip for touch; for finger to nose your finger, as far away as their arm reaches.",
        motion: "Touch both sides lightly: hand, arm, leg. Arms straight out, palms up, ten seconds. Finger from their \
                 nose to yours and back, five times each. Then quick turns of each hand on the thigh.",
        say: "Does this feel the same on both sides? Now hold both arms out, palms up, and keep them there.",
        watch: "The side that feels less; the palm that turns in and sinks; the finger that misses; the hand that is \
                slower or uneven.",
    },
    form: &FORM,
    provokes: false,
    pace: None,
    seconds: 75,
    barred: never_barred,
    cautions: &[],
    norms: &[],
    read,
};

static TESTS: &[Choice] = &[
    choice("touch_hand", "touch, hand"),
    choice("touch_arm", "touch, arm"),
    choice("touch_leg", "touch, leg"),
    choice("drift", "arm held out"),
    choice("finger_nose", "finger to nose"),
    choice("alternation", "quick hand turns"),
];

static SIDES: &[Choice] = &[choice("right", "their right"), choice("left", "their left")];

static GRADES: &[Choice] = &[
    choice("alike", "as expected"),
    hinted("little", "a little less", "or drifts, misses, lags a little"),
    hinted("clear", "clearly less", "or clearly drifts, misses, lags"),
];

static GRID: GridForm = GridForm { rows: TESTS, columns: SIDES, grades: GRADES, cycles: 0 };

static FORM: Form = Form {
    id: "body_sides",
    fields: &[
        is_new("new", "What is less is").only_if("sides", &["little", "clear"]),
        asked("sides", "Each side", Kind::Grid(&GRID)),
        detail("hand", "They write with", Kind::One(SIDES)),
        detail("note", "Note", Kind::Text { max: 400, long: true }),
    ],
    usual: &[Usual { key: "sides", answer: UsualAnswer::BestGrade }],
    usual_label: "As expected on both sides",
    fills: never_fills,
};

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let seen = [Side::Right, Side::Left].map(|side| Seen::on(side, record));
    let since = Since::of(context.visit, record, "new");
    // Seen before the rest was left out, it stays a danger sign.
    let flags: Vec<Flag> = danger(context, &seen, since).into_iter().collect();
    if record.skipped() || record.answers.is_empty() {
        return Reading { flags, ..Reading::default() };
    }
    let mut reading = Reading { gaps: gaps(&seen, record), flags, ..Reading::default() };
    reading.findings.extend(seen.iter().filter_map(|seen| less(seen, since)));
    reading.findings.extend(as_expected(&seen));
    reading.findings.extend(
        record.answers.text("note").map(|note| Finding::new(TASK.id, "note", Place::Both, format!("Note: “{note}”"))),
    );
    reading.signs = seen.iter().flat_map(signs).collect();
    reading.measures = seen.iter().filter_map(measure).collect();
    reading
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Test {
    TouchHand,
    TouchArm,
    TouchLeg,
    Drift,
    FingerNose,
    Alternation,
}

impl Test {
    const ALL: [Test; 6] =
        [Test::TouchHand, Test::TouchArm, Test::TouchLeg, Test::Drift, Test::FingerNose, Test::Alternation];

    fn id(self) -> &'static str {
        match self {
            Test::TouchHand => "touch_hand",
            Test::TouchArm => "touch_arm",
            Test::TouchLeg => "touch_leg",
            Test::Drift => "drift",
            Test::FingerNose => "finger_nose",
            Test::Alternation => "alternation",
        }
    }

    /// In a list of what was tested.
    fn words(self) -> &'static str {
        match self {
            Test::TouchHand => "touch of the hand",
            Test::TouchArm => "touch of the arm",
            Test::TouchLeg => "touch of the leg",
            Test::Drift => "arm held out",
            Test::FingerNose => "finger to nose",
            Test::Alternation => "quick hand turns",
        }
    }

    /// The sign it belongs to.
    fn what(self) -> What {
        match self {
            Test::TouchHand | Test::TouchArm | Test::TouchLeg => What::TouchLess,
            Test::Drift => What::ArmDrift,
            Test::FingerNose | Test::Alternation => What::ClumsyLimb,
        }
    }
}

/// How much less, from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Loss {
    None,
    Little,
    Clear,
}

impl Loss {
    /// Words of all steps, best first; the order is that of the variants.
    const WORDS: &'static [&'static str] = &["as expected", "a little less", "clearly less"];

    fn from_id(id: &str) -> Option<Loss> {
        match id {
            "alike" => Some(Loss::None),
            "little" => Some(Loss::Little),
            "clear" => Some(Loss::Clear),
            _ => None,
        }
    }

    /// "touch of the hand clearly less", "the arm drifts a little".
    fn of(self, test: Test) -> String {
        let (little, clearly) = match self {
            Loss::None => ("", ""),
            Loss::Little => ("a little ", "a little"),
            Loss::Clear => ("clearly ", "clearly"),
        };
        match test {
            Test::TouchHand | Test::TouchArm | Test::TouchLeg => format!("{} {little}less", test.words()),
            Test::Drift => format!("the arm drifts {clearly}"),
            Test::FingerNose => format!("finger to nose misses {clearly}"),
            Test::Alternation => format!("quick hand turns {little}slow or uneven"),
        }
    }
}

/// What was noted on one side, in the order of the tests.
#[derive(Debug)]
struct Seen {
    side: Side,
    tests: Vec<(Test, Loss)>,
    /// Whether they write with the hand of the other side.
    other_hand: bool,
}

impl Seen {
    fn on(side: Side, record: &Record) -> Seen {
        let other_hand = record.answers.one("hand").is_some_and(|hand| hand == side.other().word());
        let graded =
            |test: Test| Some((test, Loss::from_id(&record.answers.cell("sides", test.id(), side.word())?.grade)?));
        Seen { side, tests: Test::ALL.into_iter().filter_map(graded).collect(), other_hand }
    }

    fn loss(&self, test: Test) -> Option<Loss> {
        self.tests.iter().find(|(of, _)| *of == test).map(|(_, loss)| *loss)
    }

    fn less(&self) -> impl Iterator<Item = (Test, Loss)> + '_ {
        self.tests.iter().copied().filter(|(_, loss)| *loss > Loss::None)
    }

    /// What is less and counts: a little slower with the hand one does not write with is ordinary (common practice). It is
    /// told as it was seen, and never as expected.
    fn counting(&self) -> impl Iterator<Item = (Test, Loss)> + '_ {
        self.less().filter(|seen| !(self.other_hand && *seen == (Test::Alternation, Loss::Little)))
    }

    /// Whether it is more than one small difference of touch or skill: those come and go with attention, a sinking arm
    /// or a clear loss does not. Common practice; no rate in healthy people was found.
    fn stands_out(&self) -> bool {
        let grave = |(test, loss): (Test, Loss)| loss == Loss::Clear || test == Test::Drift;
        self.counting().any(grave) || self.counting().count() > 1
    }

    /// "touch of the hand clearly less, the arm drifts a little".
    fn words(&self) -> String {
        self.less().map(|(test, loss)| loss.of(test)).collect::<Vec<_>>().join(", ")
    }

    fn title(&self) -> &'static str {
        match self.side {
            Side::Right => "Right side",
            Side::Left => "Left side",
        }
    }
}

/// What is less on one side.
fn less(seen: &Seen, since: Since) -> Option<Finding> {
    seen.less().next()?;
    let mut finding =
        Finding::new(TASK.id, seen.side.word(), Place::On(seen.side), format!("{}: {}", seen.title(), seen.words()));
    if seen.counting().next().is_none() {
        finding.details = vec!["Ordinary with the hand they do not write with (common practice).".to_string()];
        return Some(finding);
    }
    let single = !seen.stands_out();
    finding.grade = match since {
        Since::Old => Grade::NoRange,
        _ if single => Grade::NearLimit,
        Since::New | Since::Unknown => Grade::Urgent,
        Since::Open => Grade::OutsideRange,
    };
    finding.long_known = since == Since::Old;
    let first = if single {
        "One small difference alone: test again in another order before it counts (common practice)."
    } else {
        "No limit is published (common practice)."
    };
    finding.details = match finding.grade {
        Grade::Urgent => {
            finding.sources.extend([&STROKE, &CONCUSSION]);
            vec![format!("{} New weakness, numbness or clumsiness of a side is a danger sign.", since_words(since))]
        }
        Grade::NoRange | Grade::WithinRange | Grade::NearLimit | Grade::OutsideRange => {
            vec![format!("{} {first}", since_words(since))]
        }
    };
    // What else makes a side less is common practice.
    finding.details.push(
        "It does not tell where the cause lies; also seen with a pressed nerve, pain, an old injury, cold hands and \
         wandering attention."
            .to_string(),
    );
    Some(finding)
}

fn since_words(since: Since) -> &'static str {
    match since {
        Since::New => "New.",
        Since::Old => "Long known; ask whether it has changed.",
        Since::Unknown => "Not known whether new, so it counts as new.",
        Since::Open => "Whether it is new is not answered yet.",
    }
}

/// One danger sign for what may be new on either side or on both.
fn danger(context: &Context<'_>, seen: &[Seen; 2], since: Since) -> Option<Flag> {
    let grave: Vec<&Seen> = seen.iter().filter(|seen| seen.stands_out()).collect();
    if grave.is_empty() || !since.counts_as_new() {
        return None;
    }
    let told: Vec<String> =
        grave.iter().map(|seen| format!("{}, {}", seen.title().to_lowercase(), seen.words())).collect();
    let knock = frame::reason(context.visit) == Some("knock");
    let both = grave.len() > 1;
    Some(Flag {
        id: format!("{}.loss", TASK.id),
        seen: since.phrase(&format!("weak, numb or clumsy: {}", told.join("; "))),
        // After a knock, and when both sides are less, the neck is held still until it is cleared.
        neck: knock || both,
        source: if knock || both { &CONCUSSION } else { &STROKE },
    })
}

/// What was as expected on both sides; nothing when nothing was.
fn as_expected(seen: &[Seen; 2]) -> Option<Finding> {
    let alike = |test: &Test| seen.iter().all(|seen| seen.loss(*test) == Some(Loss::None));
    let tests: Vec<&str> = Test::ALL.into_iter().filter(alike).map(Test::words).collect();
    if tests.is_empty() {
        return None;
    }
    let told = if tests.len() == Test::ALL.len() {
        "touch, arms held out, finger to nose, quick hand turns".to_string()
    } else {
        tests.join(", ")
    };
    let mut finding = Finding::new(TASK.id, "as_expected", Place::Both, format!("As expected on both sides: {told}"));
    finding.grade = Grade::WithinRange;
    Some(finding)
}

/// Each sign whose tests were done on this side, seen or not.
fn signs(seen: &Seen) -> Vec<Sign> {
    let sign = |what: What| {
        seen.tests.iter().find(|(test, _)| test.what() == what)?;
        let of_it = |(test, _): &(Test, Loss)| test.what() == what;
        let less = seen.counting().any(|seen| of_it(&seen));
        let told = if seen.less().any(|seen| of_it(&seen)) { seen.side.word() } else { "as_expected" };
        Some(Sign::new(what, Place::On(seen.side), less, &format!("{}.{told}", TASK.id)))
    };
    [What::TouchLess, What::ArmDrift, What::ClumsyLimb].into_iter().filter_map(sign).collect()
}

/// The worst step of a side, for another visit to be set against.
fn measure(seen: &Seen) -> Option<Measure> {
    let worst = seen.tests.iter().map(|(_, loss)| *loss).max()?;
    let tests: Vec<&str> = seen.tests.iter().map(|(test, _)| test.words()).collect();
    Some(Measure {
        key: format!("{}.{}", TASK.id, seen.side.word()),
        task: TASK.id,
        what: format!("touch, drift and coordination, {} side", seen.side.word()),
        place: Place::On(seen.side),
        amount: Amount::Step { step: worst as u8, words: Loss::WORDS },
        better: Better::Lower,
        method: vec![("tests", tests.join(", "))],
        limits: &[],
        norm: None,
    })
}

fn gaps(seen: &[Seen; 2], record: &Record) -> Vec<Gap> {
    let gap = |what: String| Gap { slot: TASK.id.to_string(), what, why: Why::NotRecorded };
    let missing = |test: Test| {
        let without: Vec<&str> =
            seen.iter().filter(|seen| seen.loss(test).is_none()).map(|seen| seen.side.word()).collect();
        match without[..] {
            [] => None,
            [side] => Some(gap(format!("{} on the {side}", test.words()))),
            _ => Some(gap(test.words().to_string())),
        }
    };
    let mut gaps: Vec<Gap> = Test::ALL.into_iter().filter_map(missing).collect();
    if gaps.len() == Test::ALL.len() && seen.iter().all(|seen| seen.tests.is_empty()) {
        gaps = vec![gap("touch, drift and coordination on either side".to_string())];
    }
    if FORM.field("new").is_some_and(|field| field.applies(&record.answers)) && record.answers.one("new").is_none() {
        gaps.push(gap("whether what is less on a side is new".to_string()));
    }
    gaps
}

#[cfg(test)]
mod tests;
