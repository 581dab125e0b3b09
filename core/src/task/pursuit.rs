//! Following a slow target in four directions at two speeds: how smooth, from which cycle on not, and what the head did.
//!
//! Grades by eye have no published limit, so the rule is common practice and says so: what is one step worse than
//! ordinary at this speed and age is near the limit, two steps are outside it.

mod drawing;
mod evidence;
mod handed_on;

use self::evidence::{ACCARDO, EGO, GILLIGAN, KE, KING, TRACKING};
use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::Direction;
use crate::capture::answer::Answer;
use crate::capture::form::{Choice, Form, GridForm, Kind, Usual, UsualAnswer, asked, choice, detail, hinted};
use crate::capture::record::Record;
use crate::capture::showing::{Showing, Told, program};
use crate::finding::{Finding, Gap, Grade, Place, Reading, Why};
use crate::quantity::Quantity;

/// The task.
pub static TASK: Task = Task {
    id: "pursuit",
    title: "Following",
    term: "smooth pursuit",
    setup: Setup {
        position: "Facing you, head still, glasses for near on.",
        target: "One small face target at eye level, about 60 cm away.",
        motion: "Over about 50 cm, there and back, side to side, then up and down. Slow: three seconds each way. \
                 Fast: half that. Up to four times each.",
        say: "Keep your head still. Follow it with your eyes only.",
        watch: "Smooth, or small jumps to catch up; in which direction; from which time on; whether the head helps.",
    },
    form: &FORM,
    provokes: true,
    pace: None,
    seconds: 40,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

static CAUTIONS: &[Caution] = &[
    Caution {
        when: &[],
        below_age: Some(7),
        says: "Many healthy children do not follow smoothly before 6 to 7 years. Catch-ups alone mean little.",
    },
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on, let them sit, go slowly, and stop when it grows.",
    },
];

static DIRECTIONS: &[Choice] =
    &[choice("right", "to their right"), choice("left", "to their left"), choice("up", "up"), choice("down", "down")];

static SPEEDS: &[Choice] = &[choice("slow", "slow"), choice("fast", "fast")];

/// The words are common practice; no published limit was found that separates few from many by eye.
static GRADES: &[Choice] = &[
    choice("smooth", "smooth"),
    hinted("few", "few catch-ups", "one or two a sweep"),
    hinted("many", "many catch-ups", "three or more a sweep"),
    hinted("cannot", "cannot follow", "jumps only, or loses it"),
];

static GRID: GridForm = GridForm { rows: DIRECTIONS, columns: SPEEDS, grades: GRADES, cycles: 4 };

static HEAD: &[Choice] =
    &[choice("still", "still"), choice("little", "moved a little"), choice("with_eyes", "moved with the eyes")];

static TARGETS: &[Choice] = &[
    choice("face", "small face"),
    choice("letter", "letter"),
    choice("tip", "pen or finger tip"),
    choice("screen", "target on a screen"),
];

static PACES: &[Choice] = &[
    hinted("as_said", "as described", "3 s slow, 1.5 s fast"),
    choice("slower", "slower"),
    choice("faster", "faster"),
    choice("uneven", "uneven"),
];

static DISTANCE: Quantity =
    Quantity { name: "distance of the target", unit: "cm", min: 20.0, max: 200.0, step: 5.0, decimals: 0 };

static FORM: Form = Form {
    id: "pursuit",
    fields: &[
        asked("follow", "How do the eyes follow?", Kind::Grid(&GRID)),
        asked("head", "The head", Kind::One(HEAD)),
        detail("target", "Target", Kind::One(TARGETS)),
        detail("distance", "From the eyes to the target", Kind::Number(&DISTANCE)),
        detail("speed", "Speed", Kind::One(PACES)),
    ],
    usual: &[
        Usual { key: "follow", answer: UsualAnswer::BestGrade },
        Usual { key: "head", answer: UsualAnswer::One("still") },
    ],
    usual_label: "All smooth, head still",
    fills,
};

/// Catch-up jumps are ordinary below this age in completed years (Gilligan et al. 1981).
const YOUNG: u8 = 7;

/// Following goes on improving up to this age (Accardo et al. 1995; Ego et al. 2013).
const GROWN: u8 = 17;

/// Degrees a second of the slow and the fast movement as described: 50 cm at 60 cm are about 45°, in 3 s and in 1.5 s.
const DESCRIBED: [f64; 2] = [15.0, 30.0];

/// What following on a screen answers by itself.
fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    let on_screen = Told::by(showings, program::FOLLOWING, |_| Some("screen".to_string()));
    let fills = [
        on_screen.fills("target", Answer::One),
        Told::by(showings, program::FOLLOWING, Showing::distance).fills("distance", Answer::Number),
        Told::by(showings, program::FOLLOWING, pace).fills("speed", Answer::One),
    ];
    fills.into_iter().flatten().collect()
}

/// The choice for a speed; a fifth more or less than described is as described (design choice). Between the two
/// described ones none is true, and an empty id is no choice.
fn pace(showing: &Showing) -> Option<String> {
    let speed = showing.speed()?;
    let [slow, fast] = DESCRIBED;
    let about = |described: f64| (0.8 * described..=1.2 * described).contains(&speed);
    let id = if about(slow) || about(fast) {
        "as_said"
    } else if speed < slow {
        "slower"
    } else if speed > fast {
        "faster"
    } else {
        ""
    };
    Some(id.to_string())
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    if record.skipped() || record.answers.is_empty() {
        return Reading::default();
    }
    let seen = Direction::ALL.map(|direction| Followed::toward(direction, record));
    let mut reading = Reading { gaps: gaps(&seen, record), ..Reading::default() };
    if seen.iter().any(Followed::any) {
        let speed = record.answers.one("speed");
        let rule = Rule { years: context.years(), hurried: matches!(speed, Some("faster" | "uneven")) };
        let found = |followed: &Followed| followed.any().then(|| finding(followed, &rule));
        reading.findings.extend(seen.iter().filter_map(found));
        // Said in full once, with the first direction that stands out.
        let mut outstanding = reading.findings.iter_mut().filter(|finding| finding.grade >= Grade::NearLimit);
        if let Some(first) = outstanding.next() {
            caution(first, &rule);
            first.details.iter_mut().take(1).for_each(|said| said.push_str(drawn_badly(record)));
        }
        outstanding.for_each(|finding| finding.details.insert(0, "Judged by the same common practice.".to_string()));
        reading.findings.extend(right_left(&seen[0], &seen[1]));
        reading.findings.extend(tiring(&seen));
        reading.figures.push(drawing::compass(&seen, &rule));
        handed_on::hand_on(&mut reading, &seen, &rule, record);
    }
    reading.findings.extend(head(record, context.years()));
    reading
}

/// How the eyes followed, from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Quality {
    Smooth,
    Few,
    Many,
    Cannot,
}

impl Quality {
    fn from_id(id: &str) -> Option<Quality> {
        match id {
            "smooth" => Some(Quality::Smooth),
            "few" => Some(Quality::Few),
            "many" => Some(Quality::Many),
            "cannot" => Some(Quality::Cannot),
            _ => None,
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Quality::Smooth => "smooth",
            Quality::Few => "few catch-ups",
            Quality::Many => "many catch-ups",
            Quality::Cannot => "cannot follow",
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Speed {
    Slow,
    Fast,
}

impl Speed {
    const BOTH: [Speed; 2] = [Speed::Slow, Speed::Fast];

    fn word(self) -> &'static str {
        match self {
            Speed::Slow => "slow",
            Speed::Fast => "fast",
        }
    }
}

/// One graded cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Cell {
    quality: Quality,
    /// The cycle from which on it was so, when that was not the first.
    from: Option<u8>,
}

impl Cell {
    /// "few catch-ups when fast (from the 3rd time on)".
    fn words(self, when: &str) -> String {
        match self.from {
            Some(cycle) => format!("{}{when} (from the {} time on)", self.quality.words(), ordinal(cycle)),
            None => format!("{}{when}", self.quality.words()),
        }
    }
}

/// What was seen in one direction.
#[derive(Debug)]
struct Followed {
    direction: Direction,
    slow: Option<Cell>,
    fast: Option<Cell>,
}

impl Followed {
    fn toward(direction: Direction, record: &Record) -> Followed {
        let cell = |speed: Speed| {
            let cell = record.answers.cell("follow", direction.word(), speed.word())?;
            let quality = Quality::from_id(&cell.grade)?;
            // Smooth from a later cycle on says nothing about breaking, and the first cycle is no change.
            let from = cell.from_cycle.filter(|cycle| *cycle > 1 && quality > Quality::Smooth);
            Some(Cell { quality, from })
        };
        Followed { direction, slow: cell(Speed::Slow), fast: cell(Speed::Fast) }
    }

    fn at(&self, speed: Speed) -> Option<Cell> {
        match speed {
            Speed::Slow => self.slow,
            Speed::Fast => self.fast,
        }
    }

    fn any(&self) -> bool {
        self.slow.is_some() || self.fast.is_some()
    }

    fn cells(&self) -> impl Iterator<Item = (Speed, Cell)> + '_ {
        Speed::BOTH.into_iter().filter_map(|speed| Some((speed, self.at(speed)?)))
    }

    /// "smooth when slow, few catch-ups when fast"; one phrase when both are alike.
    fn words(&self) -> String {
        match (self.slow, self.fast) {
            (Some(slow), Some(fast)) if slow == fast => slow.words(", slow and fast"),
            _ => {
                let told = self.cells().map(|(speed, cell)| cell.words(&format!(" when {}", speed.word())));
                told.collect::<Vec<_>>().join(", ")
            }
        }
    }
}

/// What is ordinary for this person at this speed.
#[derive(Debug)]
struct Rule {
    years: Option<u8>,
    /// Whether the target was moved faster than described, or unevenly.
    hurried: bool,
}

impl Rule {
    fn young(&self) -> bool {
        self.years.is_some_and(|years| years < YOUNG)
    }

    /// The worst quality that is still ordinary.
    ///
    /// Slowly (about 15° a second) smooth; fast (about 30°) a few catch-ups, since jumps of 3 to 10° occur in health at
    /// every speed from 10 to 60° a second; one step more below seven years, and when the fast target went faster than
    /// described. Never so far that not following at all would be ordinary. Common practice.
    fn ordinary(&self, speed: Speed) -> Quality {
        let fast = speed == Speed::Fast;
        let steps = u8::from(fast) + u8::from(self.young()) + u8::from(fast && self.hurried);
        match steps {
            0 => Quality::Smooth,
            1 => Quality::Few,
            _ => Quality::Many,
        }
    }

    fn grade(&self, speed: Speed, quality: Quality) -> Grade {
        match quality as i8 - self.ordinary(speed) as i8 {
            ..=0 => Grade::WithinRange,
            1 => Grade::NearLimit,
            _ => Grade::OutsideRange,
        }
    }

    fn worst(&self, followed: &Followed) -> Grade {
        followed.cells().map(|(speed, cell)| self.grade(speed, cell.quality)).max().unwrap_or(Grade::NoRange)
    }
}

/// How one direction was followed.
fn finding(followed: &Followed, rule: &Rule) -> Finding {
    let direction = followed.direction;
    let headline = format!("Following {}: {}", direction.phrase(), followed.words());
    let mut finding = Finding::new(TASK.id, direction.word(), Place::Toward(direction), headline);
    finding.grade = rule.worst(followed);
    finding.sources = vec![&TRACKING];
    if finding.grade == Grade::WithinRange {
        return finding;
    }
    if matches!(direction, Direction::Up | Direction::Down) {
        let up = if direction == Direction::Up { ", and upward the least so" } else { "" };
        finding.details.push(format!("Up and down is less smooth than side to side in health{up} (Ke et al. 2013)."));
        finding.sources.push(&KE);
    }
    if followed.cells().any(|(_, cell)| cell.from.is_some()) {
        finding.details.push("Breaking only after a while may be tiring; looking away looks the same.".to_string());
    }
    if backwards(followed) {
        finding.details.push("Worse slow than fast is unusual: look again, attention may have slipped.".to_string());
    }
    finding
}

/// What the grades rest on, how sure they are, and what else does the same.
fn caution(finding: &mut Finding, rule: &Rule) {
    let (slow, fast) = (rule.ordinary(Speed::Slow).words(), rule.ordinary(Speed::Fast).words());
    let mut first = format!(
        "No limit is published; {slow} when slow and {fast} when fast count as ordinary here (common practice). \
         Recordings of healthy adults show catch-ups at every speed (Schalén 1980)."
    );
    if rule.young() {
        first.push_str(" Many healthy children do not follow smoothly before 6 or 7 years (Gilligan et al. 1981).");
        finding.sources.push(&GILLIGAN);
    }
    if !rule.young() && rule.years.is_some_and(|years| years <= GROWN) {
        first.push_str(" Following still improves up to the late teens (Accardo et al. 1995; Ego et al. 2013).");
        finding.sources.extend([&ACCARDO, &EGO]);
    }
    finding.details.insert(0, first);
    finding.details.push(
        "Tiredness, alcohol, sedatives and poor attention do the same; examiners agree only fairly (King et al. 2024)."
            .to_string(),
    );
    finding.sources.push(&KING);
}

/// Catch-ups may come from a display that left out frames.
fn drawn_badly(record: &Record) -> &'static str {
    let dropped = record.showings.iter().filter_map(|showing| showing.screen).any(|s| s.frames().too_many_dropped());
    if dropped { " The display dropped frames while it was followed: catch-ups may come from that." } else { "" }
}

fn backwards(followed: &Followed) -> bool {
    followed.slow.zip(followed.fast).is_some_and(|(slow, fast)| slow.quality > fast.quality)
}

/// Right set against left, as seen: two grades to a side cannot be tested.
fn right_left(right: &Followed, left: &Followed) -> Option<Finding> {
    let steps = |speed| Some(left.at(speed)?.quality as i8 - right.at(speed)?.quality as i8);
    let steps: Vec<i8> = Speed::BOTH.into_iter().filter_map(steps).collect();
    let (most, least) = (*steps.iter().max()?, *steps.iter().min()?);
    let worse = match (least, most) {
        (0, 0) => return Some(alike()),
        (0.., _) => Direction::Left,
        (_, ..=0) => Direction::Right,
        _ => return Some(mixed()),
    };
    let headline = format!("Following {} is worse than {}", worse.phrase(), worse.mirrored().phrase());
    let mut finding = Finding::new(TASK.id, "right_left", Place::Toward(worse), headline);
    let both = steps.len() == 2 && steps.iter().all(|step| *step != 0);
    let large = most.max(-least) > 1;
    finding.grade = if both || large { Grade::NearLimit } else { Grade::NoRange };
    // Sign test: two differences of one sign have p = 2 / 2² = 0.5, one has 1.
    finding.details = vec![
        "Told as seen: two grades to a side are too few for a test (the smallest possible p is 0.5), and no limit is \
         published."
            .to_string(),
        "A difference at both speeds, or of two steps, counts here (common practice).".to_string(),
    ];
    Some(finding)
}

fn alike() -> Finding {
    let said = "Following to the right and to the left alike".to_string();
    let mut finding = Finding::new(TASK.id, "right_left", Place::Both, said);
    finding.grade = Grade::WithinRange;
    finding
}

fn mixed() -> Finding {
    let said = "Following worse to one side when slow, to the other when fast".to_string();
    let mut finding = Finding::new(TASK.id, "right_left", Place::Both, said);
    finding.details = vec!["That speaks for attention or grading rather than for a side; look again.".to_string()];
    finding
}

/// Where following broke only after some cycles. It has no grade of its own: the direction it was seen in is graded with
/// the same tap, and one tap must not count twice.
fn tiring(seen: &[Followed; 4]) -> Option<Finding> {
    let breaks = seen.iter().flat_map(|followed| followed.cells().map(move |(speed, cell)| (followed, speed, cell)));
    let breaks: Vec<_> = breaks.filter(|(_, _, cell)| cell.from.is_some()).collect();
    let first = breaks.iter().filter_map(|(_, _, cell)| cell.from).min()?;
    let told = breaks.iter().map(|(followed, speed, _)| format!("{}, {}", followed.direction.phrase(), speed.word()));
    let told = told.collect::<Vec<_>>().join("; ");
    let headline = format!("Following breaks from the {} time on ({told})", ordinal(first));
    Some(Finding::new(TASK.id, "tiring", Place::Both, headline))
}

/// What the head did.
fn head(record: &Record, years: Option<u8>) -> Option<Finding> {
    let (headline, grade, detail) = match record.answers.one("head")? {
        "still" => ("Head kept still", Grade::WithinRange, None),
        "little" => ("Head moved a little", Grade::NoRange, None),
        "with_eyes" => ("Head moved along with the eyes", Grade::NearLimit, Some(HEAD_HIDES)),
        _ => return None,
    };
    let mut finding = Finding::new(TASK.id, "head", Place::Both, headline.to_string());
    let young = years.is_some_and(|years| years < YOUNG);
    finding.grade = if young && grade == Grade::NearLimit { Grade::NoRange } else { grade };
    finding.details = detail.into_iter().map(str::to_string).collect();
    Some(finding)
}

const HEAD_HIDES: &str = "A moving head can hide what the eyes cannot do: look again with the head held. No limit is \
                          published (common practice).";

fn gaps(seen: &[Followed; 4], record: &Record) -> Vec<Gap> {
    let gap = |what: String| Gap { slot: TASK.id.to_string(), what, why: Why::NotRecorded };
    let mut gaps = Vec::new();
    if seen.iter().any(Followed::any) {
        for followed in seen {
            let to = followed.direction.phrase();
            let missing: Vec<_> = Speed::BOTH.into_iter().filter(|speed| followed.at(*speed).is_none()).collect();
            match missing[..] {
                [] => {}
                [one] => gaps.push(gap(format!("following {to}, {}", one.word()))),
                _ => gaps.push(gap(format!("following {to}"))),
            }
        }
    } else {
        gaps.push(gap("following in any direction".to_string()));
    }
    if record.answers.one("head").is_none() {
        gaps.push(gap("what the head did while following".to_string()));
    }
    gaps
}

/// "3rd"; cycles are few.
fn ordinal(cycle: u8) -> String {
    let ending = match (cycle % 10, cycle % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{cycle}{ending}")
}

#[cfg(test)]
mod tests;
