//! Looking away from a target that comes up: at once, after a glance at it, or not at all, by the side of the target.
//!
//! Healthy people make errors too: young men in about a quarter of the trials, children in most. So the share of errors
//! is read with its interval and by age, and without a limit where none is published.

mod drawing;
mod evidence;
mod handed_on;

use self::evidence::{
    CONSTANTINIDIS, EVDOKIMIDIS, FISCHER, LIMIT, MUNOZ, NEARER, OLINCY, ORDINARY, ORDINARY_WORDS, SMYRNIS,
    beyond_by_chance,
};
use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::Direction;
use crate::capture::answer::{Answer, Series};
use crate::capture::form::{
    Choice, Form, Kind, MarkChoice, Pace, SeriesForm, Shape, asked, choice, detail, hinted, label,
};
use crate::capture::record::Record;
use crate::capture::showing::{Showing, Told, program};
use crate::evidence::Citation;
use crate::finding::{Comparison, Finding, Gap, Grade, Place, Reading, Why};
use crate::quantity::{Degrees, Quantity};
use crate::score;
use crate::side_by_side::{self, COMPARABLE, interval_words, of, value_of};
use crate::statistics::proportion::Proportion;

/// The task.
pub static TASK: Task = Task {
    id: "antisaccade",
    title: "Look away",
    term: "antisaccades",
    setup: Setup {
        position: "Facing you, head still, glasses on.",
        target: "Your nose in the middle. To one side, one finger that comes up from below to eye level: 28 cm to the \
                 side at 60 cm away is 25°.",
        motion: "Bring the finger up on one side, wait until they look at your nose again, then the next. Ten to each \
                 side in mixed order, about three seconds apart. Try it twice first.",
        say: "Look at my nose. When the finger comes up, look as far to the other side, not at the finger.",
        watch: "The first movement: away at once, a glance at the finger and then away, or only at the finger.",
    },
    form: &FORM,
    provokes: true,
    pace: Some(PACE),
    seconds: 65,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: &[&LIMIT],
    read,
};

/// Three seconds leave time to look away, to come back and to tap (common practice). The beat gives the time only: if it
/// called the sides in turn, the person would know where the next target comes, and nothing would be left to suppress.
static PACE: Pace = Pace { bpm: 20.0, beats: 20, alternates: false };

static CAUTIONS: &[Caution] = &[
    Caution {
        when: &[],
        below_age: Some(9),
        says: "Below 9 years most errors are ordinary. Play it as a game, and read little into it.",
    },
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on, let them sit, and stop when it grows.",
    },
];

static PADS: &[Choice] = &[
    hinted("right", "on their right", "the finger came up on their right"),
    hinted("left", "on their left", "the finger came up on their left"),
];

static MARKS: &[MarkChoice] = &[
    MarkChoice { choice: choice("correct", "away"), shape: Shape::Disc },
    MarkChoice { choice: hinted("glanced", "glanced", "then away"), shape: Shape::Ring },
    MarkChoice { choice: hinted("wrong", "only at it", "stayed there"), shape: Shape::Cross },
];

/// A published bedside protocol has three to each side; five are the fewest that can be compared, ten tell more.
static TRIALS: SeriesForm =
    SeriesForm { pads: PADS, marks: MARKS, also: &[], run_by_pad: false, pace: None, wanted: 10, most: 120 };

static STIMULI: &[Choice] = &[
    hinted("finger", "a finger that comes up", "nothing on the other side"),
    hinted("two_fingers", "one of two fingers that moves", "a finger on each side"),
    choice("screen", "a dot on a screen"),
];

static PRACTICE: &[Choice] = &[choice("none", "none"), choice("few", "one or two"), choice("more", "more")];

static DISTANCE: Quantity =
    Quantity { name: "distance of the targets", unit: "cm", min: 20.0, max: 200.0, step: 5.0, decimals: 0 };
static OFFSET: Quantity =
    Quantity { name: "distance from the middle", unit: "cm", min: 2.0, max: 150.0, step: 1.0, decimals: 0 };

static FORM: Form = Form {
    id: "antisaccade",
    fields: &[
        asked("trials", "Where do the eyes go first?", Kind::Series(&TRIALS)),
        detail("stimulus", "They looked away from", Kind::One(STIMULI)),
        detail("practice", "Trials before it counted", Kind::One(PRACTICE)),
        detail("distance", "From the eyes to the targets", Kind::Number(&DISTANCE)),
        detail("offset", "From the middle to one target", Kind::Number(&OFFSET)),
    ],
    usual: &[],
    usual_label: "",
    fills,
};

/// The eyes alone need about 0.275 s to look away (mean of 200 men, Constantinidis et al. 1999), so a series tapped
/// faster was not watched one by one.
const FASTEST: f64 = 0.275;

/// What targets on a screen answer by themselves.
fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    let told = |says: fn(&Showing) -> Option<f64>| Told::by(showings, program::ANTISACCADE, says);
    let on_screen = Told::by(showings, program::ANTISACCADE, |_| Some("screen".to_string()));
    let fills = [
        on_screen.fills("stimulus", Answer::One),
        told(Showing::distance).fills("distance", Answer::Number),
        told(Showing::offset).fills("offset", Answer::Number),
    ];
    fills.into_iter().flatten().collect()
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let Some(series) = record.answers.series("trials").filter(|_| !record.skipped()) else {
        return Reading::default();
    };
    let seen = [Direction::Right, Direction::Left].map(|side| Trials::with_target(side, series));
    let mut reading = Reading { gaps: unread(series).into_iter().collect(), ..Reading::default() };
    if seen.iter().all(|trials| trials.n() == 0) {
        reading.gaps.push(gap("looking away", Why::NotRecorded));
        return reading;
    }
    reading.figures.push(drawing::order(&seen));
    if let Some(apart) = too_fast(series) {
        let why = format!("tapped {apart:.2} s apart, faster than eyes can look away; tap them again");
        reading.gaps.push(gap("looking away", Why::NotTestable(why)));
        return reading;
    }
    reading.figures.push(drawing::shares(&seen));
    reading.gaps.extend(seen.iter().filter_map(Trials::gap));
    reading.findings.push(errors(&seen, context.years(), record));
    reading.comparisons.push(comparison(&seen));
    reading.findings.extend(uneven(&reading.comparisons[0]));
    reading.findings.extend(order(&seen));
    reading.findings.extend(how(record));
    handed_on::hand_on(&mut reading, &seen, series, record);
    reading
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Response {
    /// Away at once.
    Correct,
    /// A glance at the target, then away: an error, corrected.
    Glanced,
    /// Only at the target: an error, not corrected.
    Wrong,
}

impl Response {
    fn from_id(id: &str) -> Option<Response> {
        match id {
            "correct" => Some(Response::Correct),
            "glanced" => Some(Response::Glanced),
            "wrong" => Some(Response::Wrong),
            _ => None,
        }
    }

    fn is_error(self) -> bool {
        match self {
            Response::Correct => false,
            Response::Glanced | Response::Wrong => true,
        }
    }
}

/// The trials with the target on one side, in order.
#[derive(Debug)]
struct Trials {
    side: Direction,
    responses: Vec<Response>,
}

impl Trials {
    fn with_target(side: Direction, series: &Series) -> Trials {
        let responses = series.on(side.word()).filter_map(|tap| Response::from_id(&tap.mark));
        Trials { side, responses: responses.collect() }
    }

    fn n(&self) -> usize {
        self.responses.len()
    }

    fn are_errors(&self) -> Vec<bool> {
        self.responses.iter().map(|response| response.is_error()).collect()
    }

    fn errors(&self) -> Proportion {
        Proportion::counting(self.are_errors())
    }

    fn gap(&self) -> Option<Gap> {
        let what = format!("looking away from targets {}", self.side.phrase());
        match self.n() {
            0 => Some(gap(&what, Why::NotRecorded)),
            n if n < COMPARABLE as usize => Some(gap(&format!("{what} ({n} recorded)"), Why::TooFew)),
            _ => None,
        }
    }
}

/// What is published for an age.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Band {
    /// Errors in most trials are ordinary (Munoz et al. 1998).
    Small,
    /// Errors fall year by year; averages are known for a harder version only (Fischer et al. 1997).
    Child,
    /// As many errors as adults, but the limit was not set for them (Fischer et al. 1997).
    Teen,
    /// The men the limit was set in (Constantinidis et al. 1999).
    Young,
    /// More errors than the young, and no limit (Olincy et al. 1997).
    Older,
    /// Not known.
    Unknown,
}

impl Band {
    fn of(years: Option<u8>) -> Band {
        match years {
            None => Band::Unknown,
            Some(..9) => Band::Small,
            Some(9..15) => Band::Child,
            Some(15..18) => Band::Teen,
            Some(18..=25) => Band::Young,
            Some(26..) => Band::Older,
        }
    }

    /// Few errors are in range at every age. Many are outside only where the limit was set; where people make more
    /// errors by their age, or the age is not known, they are only recorded.
    fn grade(self, share: Proportion) -> Grade {
        let Some(percent) = share.rate().map(|rate| 100.0 * rate).filter(|_| share.n() >= COMPARABLE) else {
            return Grade::NoRange;
        };
        if percent <= ORDINARY {
            return Grade::WithinRange;
        }
        match self {
            Band::Small | Band::Child | Band::Unknown => Grade::NoRange,
            Band::Teen | Band::Older => Grade::NearLimit,
            Band::Young => score::grade(percent, &LIMIT).max(Grade::NearLimit),
        }
    }

    /// What a reader must know of errors at this age before the number is believed.
    fn says(self) -> &'static str {
        match self {
            Band::Small => "Most errors are made from 5 to 8 years, in health too (Munoz et al. 1998).",
            Band::Child => {
                "Healthy children average 60 % errors at 9 years and 22 % at 15 in a harder version, with a gap before \
                 the target (Fischer et al. 1997); no figure was found for this one."
            }
            Band::Teen => {
                "From 15 years on errors are about as many as in adults (Fischer et al. 1997), but no limit was set at \
                 this age."
            }
            Band::Young => "",
            Band::Older => {
                "The one limit found, 58 %, was set in young men; older people make more errors (Olincy et al. 1997)."
            }
            Band::Unknown => "Age not known: in children this can be ordinary, in a young adult it stands out.",
        }
    }

    fn source(self) -> &'static Citation {
        match self {
            Band::Small => &MUNOZ,
            Band::Child | Band::Teen | Band::Unknown => &FISCHER,
            Band::Young => &CONSTANTINIDIS,
            Band::Older => &OLINCY,
        }
    }
}

/// All errors of both sides together: their share, how it stands to the age, and whether they were corrected.
fn errors(seen: &[Trials; 2], years: Option<u8>, record: &Record) -> Finding {
    let share = Proportion::counting(seen.iter().flat_map(Trials::are_errors));
    let headline = match share.events() {
        0 => format!("Looked away at once in all of {}", share.n()),
        _ => format!("Looking away failed in {}", of(share)),
    };
    let mut finding = Finding::new(TASK.id, "errors", Place::Both, headline);
    let band = Band::of(years);
    finding.grade = band.grade(share);
    finding.value = value_of(share);
    if share.n() >= COMPARABLE {
        finding.norm = (band == Band::Young).then_some(&LIMIT);
        finding.sources.push(&EVDOKIMIDIS);
    }
    let many = share.rate().is_some_and(|rate| 100.0 * rate > ORDINARY);
    if finding.sources.is_empty() || !many {
        finding.details.push(counts(seen, share));
        return finding;
    }
    finding.details.push(format!("{} {ORDINARY_WORDS} {}", counts(seen, share), band.says()).trim_end().to_string());
    finding.sources.push(band.source());
    finding.healthy = finding.norm.map_or_else(Vec::new, |norm| norm.healthy.iter().collect());
    if finding.grade == Grade::OutsideRange {
        let (n, beyond) = (share.n(), beyond_by_chance(share.n()));
        finding.details.push(format!(
            "With {n} trials about {beyond:.0} in 100 healthy young men would lie beyond (worked out from their mean \
             and spread)."
        ));
    }
    if let Some(said) = uncorrected(seen) {
        finding.details.push(said);
        finding.sources.push(&SMYRNIS);
    }
    // That these do it is common practice.
    finding.details.push("Tiredness, alcohol, sedatives and poor attention do the same.".to_string());
    if angle(record).is_some_and(|angle| angle.0 < NEARER) {
        finding.details.push("Targets near the middle bring more errors (Smyrnis et al. 2002).".to_string());
        finding.sources.push(&SMYRNIS);
    }
    finding
}

/// "95 % interval 9 to 49 in 100; 15 away at once, 4 after a glance, 1 only at it."
fn counts(seen: &[Trials; 2], share: Proportion) -> String {
    let [correct, glanced, wrong] =
        [Response::Correct, Response::Glanced, Response::Wrong].map(|kind| count(seen, kind));
    format!("{}; {correct} away at once, {glanced} after a glance, {wrong} only at it.", interval_words(share))
}

fn count(seen: &[Trials; 2], kind: Response) -> usize {
    seen.iter().flat_map(|trials| &trials.responses).filter(|response| **response == kind).count()
}

/// Errors that were mostly left as they were; two at least (common practice).
fn uncorrected(seen: &[Trials; 2]) -> Option<String> {
    let (glanced, wrong) = (count(seen, Response::Glanced), count(seen, Response::Wrong));
    (wrong >= 2 && wrong > glanced).then(|| {
        format!(
            "{wrong} of {} errors were not corrected; young men nearly always correct them (Smyrnis et al. 2002), so ask \
             first whether the task was understood.",
            glanced + wrong
        )
    })
}

fn comparison(seen: &[Trials; 2]) -> Comparison {
    let [right, left] = seen.each_ref().map(Trials::errors);
    side_by_side::compare(TASK.id, "errors", "errors with the target", right, left)
}

/// The finding that targets on one side are worse by more than chance.
fn uneven(comparison: &Comparison) -> Option<Finding> {
    let worse = side_by_side::worse(comparison)?;
    let headline = format!("More errors with the target {} than {}", worse.phrase(), worse.mirrored().phrase());
    let mut finding = Finding::new(TASK.id, "right_left", Place::Toward(worse), headline);
    finding.grade = Grade::NearLimit;
    finding.value = side_by_side::difference_of(comparison);
    // p up to 0.05 is common practice.
    finding.details = vec![
        format!("{} No limit is published.", comparison.says),
        "By itself this does not tell on which side a cause lies.".to_string(),
    ];
    finding.sources = vec![&side_by_side::MID_P, &side_by_side::NEWCOMBE];
    Some(finding)
}

/// Early against late trials, both sides in balance.
fn order(seen: &[Trials; 2]) -> Option<Finding> {
    let [right, left] = seen.each_ref().map(Trials::are_errors);
    let halves = side_by_side::early_against_late(&[&right, &left])?;
    let tires = side_by_side::tires(&halves);
    let headline = if tires { "More errors toward the end" } else { "No sign of tiring over the trials" };
    let mut finding = Finding::new(TASK.id, "tiring", Place::Both, headline.to_string());
    finding.grade = if tires { Grade::NearLimit } else { Grade::WithinRange };
    finding.details = vec![side_by_side::order_words(&halves, "errors")];
    finding.sources = vec![&side_by_side::MID_P];
    if tires {
        finding.details[0].push_str(
            " No limit is published; young men too make more errors toward the end of five minutes (Smyrnis et al. \
             2002).",
        );
        finding.sources.push(&SMYRNIS);
    }
    Some(finding)
}

/// With what it was done, so that it can be done so again.
fn how(record: &Record) -> Option<Finding> {
    let chosen = |key: &str, choices| record.answers.one(key).map(|id| label(choices, id));
    let parts = [
        chosen("stimulus", STIMULI).map(|words| format!("looking away from {words}")),
        angle(record).map(|angle| format!("{:.0}° to each side", angle.0)),
        chosen("practice", PRACTICE).map(|words| format!("trials before it counted: {words}")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    let headline = format!("Done so: {}", parts.join(", "));
    (!parts.is_empty()).then(|| Finding::new(TASK.id, "method", Place::Both, headline))
}

/// How far a target stands from the middle, as the eyes see it.
fn angle(record: &Record) -> Option<Degrees> {
    let known = |key: &str, quantity: &Quantity| record.answers.number(key).and_then(|cm| quantity.check(cm).ok());
    let (far, aside) = (known("distance", &DISTANCE)?, known("offset", &OFFSET)?);
    Some(Degrees(aside.atan2(far).to_degrees()))
}

/// The median time between taps, when it is too short for trials that were watched one by one.
fn too_fast(series: &Series) -> Option<f64> {
    side_by_side::faster_than(FASTEST, &series.taps.iter().map(|tap| tap.at_ms).collect::<Vec<_>>())
}

/// Trials whose side or response a newer program wrote.
fn unread(series: &Series) -> Option<Gap> {
    let known = |pad: &str, mark: &str| PADS.iter().any(|p| p.id == pad) && Response::from_id(mark).is_some();
    let foreign = series.taps.iter().filter(|tap| !known(&tap.pad, &tap.mark)).count();
    let trials = if foreign == 1 { "1 trial".to_string() } else { format!("{foreign} trials") };
    (foreign > 0).then(|| gap(&format!("{trials} with a side or outcome unknown here"), Why::Unread))
}

fn gap(what: &str, why: Why) -> Gap {
    Gap { slot: TASK.id.to_string(), what: what.to_string(), why }
}

#[cfg(test)]
mod tests;
