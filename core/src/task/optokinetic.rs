//! Moving stripes: one tap for each stripe the eyes catch or miss, timed, by the direction the stripes move in.
//!
//! A tape, a drum or a small screen tests following the stripe and jumping back to the next one. No bedside limit was
//! validated, so misses are graded by common practice, rates not at all, and both are set right against left.

mod drawing;
mod evidence;
mod handed_on;
mod sensitive;

use self::evidence::{BOTH_WAYS, CONTROLS, DISTURBED, HALE, HARDING, JENKINS, KNAPP, MISSES, VALMAGGIA};
use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::Direction;
use crate::capture::answer::{Answer, Made, Series};
use crate::capture::form::{
    Choice, Form, GridForm, Kind, MarkChoice, Pace, SeriesForm, Shape, asked, choice, detail, hinted, label,
};
use crate::capture::record::Record;
use crate::capture::showing::{Showing, Told, key, program};
use crate::evidence::{Citation, number};
use crate::finding::{Comparison, Finding, Gap, Grade, Place, Reading, Value, Why};
use crate::quantity::Quantity;
use crate::side_by_side::{self, COMPARABLE, LEVEL, frequency, grade_share, interval_words, of, value_of};
use crate::statistics::exact::rates_two_sided;
use crate::statistics::order::tap_rate;
use crate::statistics::proportion::Proportion;

/// The task.
pub static TASK: Task = Task {
    id: "optokinetic",
    title: "Stripes",
    term: "optokinetic response",
    setup: Setup {
        position: "Facing you, head still, glasses for near on.",
        target: "A striped tape or drum at eye level, about 40 cm away and filling as much of the view as it can.",
        motion: "Steadily to one side, about one stripe a second, ten seconds. A rest, then to the other side.",
        say: "Look at each stripe as it passes. Let it go and take the next one.",
        watch: "A slow turn with the stripe and a quick jump back, every time. Tap each one, and each one missed.",
    },
    form: &FORM,
    provokes: true,
    pace: None,
    seconds: 40,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: &[&MISSES],
    read,
};

static CAUTIONS: &[Caution] = &[
    // Common practice, from memory; the limits for stripes on a screen are the display's own.
    Caution {
        when: sensitive::CAUTIONS,
        below_age: None,
        says: "No stripes on a screen: use a tape or passing fingers, briefly, or leave it out. At any odd feeling, \
               cover one eye and look away.",
    },
    // Of 228 routine EEGs of children 12 showed pattern sensitivity, all aged 5 to 12, 2 of them without flash
    // sensitivity (paediatric EEG series, Neuropsychiatr Dis Treat, doi 10.2147/NDT.S32161).
    Caution {
        when: &[],
        below_age: Some(13),
        says: "Some children react to stripes though flashes do not trouble them. Keep it short and stop at any odd \
               feeling.",
    },
    Caution {
        when: &["migraine", "vertigo"],
        below_age: None,
        says: "Stripes can bring on headache, dizziness or nausea. Keep it short, and stop when these grow.",
    },
];

static PADS: &[Choice] = &[
    hinted("right", "to their right", "stripes move to their right"),
    hinted("left", "to their left", "stripes move to their left"),
];

static MARKS: &[MarkChoice] = &[
    MarkChoice { choice: choice("beat", "beat"), shape: Shape::Disc },
    MarkChoice { choice: choice("missed", "missed"), shape: Shape::Cross },
];

/// One stripe a second can be counted by eye and hand; ten of them are ten seconds a direction (common practice).
static PACE: Pace = Pace { bpm: 60.0, beats: 10, alternates: false };

static STRIPES: SeriesForm =
    SeriesForm { pads: PADS, marks: MARKS, also: &[], run_by_pad: true, pace: Some(PACE), wanted: 10, most: 240 };

static STIMULI: &[Choice] = &[choice("tape", "tape"), choice("drum", "drum"), choice("screen", "screen")];

static INSTRUCTIONS: &[Choice] = &[choice("follow", "“look at each stripe”"), choice("middle", "“look at the middle”")];

static PHASES: &[Choice] =
    &[hinted("slow", "slow turn", "with the stripes"), hinted("quick", "quick jump back", "against the stripes")];

static PHASE_GRADES: &[Choice] = &[choice("full", "full"), choice("weak", "weak"), choice("absent", "absent")];

static PHASE_GRID: GridForm = GridForm { rows: PADS, columns: PHASES, grades: PHASE_GRADES, cycles: 0 };

/// Stripes of 4 to 12 degrees and speeds of 7 to 60 degrees per second are in use in studies; the bounds leave room.
static WIDTH: Quantity = Quantity { name: "stripe width", unit: "°", min: 0.5, max: 30.0, step: 0.5, decimals: 1 };
static SPEED: Quantity = Quantity { name: "stripe speed", unit: "°/s", min: 1.0, max: 100.0, step: 1.0, decimals: 0 };

static FORM: Form = Form {
    id: "optokinetic",
    fields: &[
        asked("stripes", "Each stripe: taken up, or missed?", Kind::Series(&STRIPES)),
        asked("stimulus", "Stripes on a", Kind::One(STIMULI)),
        detail("width", "Width of one stripe", Kind::Number(&WIDTH)),
        detail("speed", "Speed", Kind::Number(&SPEED)),
        detail("instruction", "What was said", Kind::One(INSTRUCTIONS)),
        detail("phases", "How the two movements look", Kind::Grid(&PHASE_GRID)),
    ],
    usual: &[],
    usual_label: "",
    fills,
};

/// More taps in a second than a hand makes (about 6 to 7 are the fastest; from memory), so they were not counted stripes.
const FASTEST: f64 = 10.0;

/// The gain of the response falls from this age on (Valmaggia et al. 2004).
const OLDER: u8 = 50;

/// Stripe pairs passing a point in a second, from which on a bright pattern counts as flashing (Harding et al. 2005).
const FLASHING: f64 = 3.0;

/// What stripes on a screen answer by themselves.
fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    let told = |says: fn(&Showing) -> Option<f64>| Told::by(showings, program::STRIPES, says);
    let chosen = Told::by(showings, program::STRIPES, |showing| {
        INSTRUCTIONS.iter().find(|choice| choice.id == showing.instruction).map(|choice| choice.id)
    });
    let fills = [
        Told::by(showings, program::STRIPES, |_| Some("screen")).fills("stimulus", one),
        told(|showing| showing.number(key::STRIPE)).fills("width", Answer::Number),
        told(Showing::speed).fills("speed", Answer::Number),
        chosen.fills("instruction", one),
    ];
    fills.into_iter().flatten().collect()
}

fn one(id: &str) -> Answer {
    Answer::One(id.to_string())
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    if record.skipped() || record.answers.is_empty() {
        return Reading::default();
    }
    let nothing = Series::default();
    let series = record.answers.series("stripes").unwrap_or(&nothing);
    let seen = [Direction::Right, Direction::Left].map(|direction| Stripes::toward(direction, series));
    let mut reading = Reading { gaps: gaps(&seen, series, record), ..Reading::default() };
    reading.gaps.extend(sensitive::left_out(context.visit, record));
    if seen.iter().any(|stripes| stripes.n() > 0) {
        reading.figures.push(drawing::order(&seen));
    }
    let counted = seen.each_ref().map(|stripes| stripes.n() > 0 && !stripes.too_fast());
    let told = seen.iter().zip(counted).filter(|(_, counted)| *counted);
    reading.findings.extend(told.map(|(stripes, _)| misses(stripes)));
    if counted.contains(&true) {
        reading.findings.extend(how(record, series));
        if !seen.iter().any(Stripes::too_fast) {
            reading.figures.push(drawing::shares(&seen));
            reading.comparisons.push(comparison(&seen));
            reading.findings.extend(uneven(uneven_misses(&reading.comparisons[0]), rates(&seen)));
            reading.findings.extend(order(&seen));
        }
    }
    reading.findings.extend(phases(record));
    reading.findings.extend(sensitive::shown_all_the_same(context.visit, record));
    // Said once, with the first finding it bears on.
    if let Some(finding) = reading.findings.iter_mut().find(|finding| finding.grade >= Grade::NearLimit) {
        skews(context).tell(finding);
    }
    handed_on::hand_on(&mut reading, &seen, series, record);
    reading
}

/// The stripes of one direction, in order.
#[derive(Debug)]
struct Stripes {
    direction: Direction,
    /// Whether each one was missed.
    missed: Vec<bool>,
    rate: Option<Rate>,
    /// Median seconds between taps, when stripes cannot be counted so fast.
    too_fast: Option<f64>,
    paced: bool,
}

/// How many stripes were taken up, in how many seconds.
#[derive(Debug, Clone, Copy)]
struct Rate {
    taken: u32,
    seconds: f64,
}

impl Rate {
    fn per_second(self) -> f64 {
        f64::from(self.taken) / self.seconds
    }
}

impl Stripes {
    fn toward(direction: Direction, series: &Series) -> Stripes {
        let pad = direction.word();
        let known = || series.on(pad).filter_map(|tap| Some((tap, missed(&tap.mark)?)));
        let times: Vec<u32> = known().map(|(tap, _)| tap.at_ms).collect();
        Stripes {
            direction,
            missed: known().map(|(_, missed)| missed).collect(),
            rate: rate(series, pad),
            too_fast: side_by_side::faster_than(1.0 / FASTEST, &times),
            paced: known().any(|(tap, _)| tap.made != Made::Tapped),
        }
    }

    fn n(&self) -> usize {
        self.missed.len()
    }

    fn misses(&self) -> Proportion {
        Proportion::counting(self.missed.iter().copied())
    }

    fn too_fast(&self) -> bool {
        self.too_fast.is_some()
    }
}

fn missed(mark: &str) -> Option<bool> {
    match mark {
        "beat" => Some(false),
        "missed" => Some(true),
        _ => None,
    }
}

/// Stripes taken up over the ended runs on this pad; without one, over the intervals between their taps.
fn rate(series: &Series, pad: &str) -> Option<Rate> {
    let taken = || series.on(pad).filter(|tap| missed(&tap.mark) == Some(false));
    if let Some(seconds) = series.seconds(pad) {
        let runs: Vec<(u32, u32)> =
            series.runs.iter().filter(|run| run.pad == pad).filter_map(|run| Some((run.from_ms, run.to_ms?))).collect();
        let inside = taken().filter(|tap| runs.iter().any(|(from, to)| (*from..=*to).contains(&tap.at_ms)));
        return Some(Rate { taken: u32::try_from(inside.count()).ok()?, seconds });
    }
    let times: Vec<f64> = taken().map(|tap| f64::from(tap.at_ms) / 1000.0).collect();
    let intervals = u32::try_from(times.len().saturating_sub(1)).ok()?;
    Some(Rate { taken: intervals, seconds: tap_rate(&times)?.seconds })
}

/// How many stripes of one direction were missed, and how fast the others came.
fn misses(stripes: &Stripes) -> Finding {
    let (share, to) = (stripes.misses(), stripes.direction.phrase());
    let what = format!("missed_{}", stripes.direction.word());
    let headline = match share.events() {
        0 => format!("Stripes moving {to}: none of {} missed", share.n()),
        _ => format!("Stripes moving {to}: {} missed", of(share)),
    };
    let mut finding = Finding::new(TASK.id, &what, Place::Toward(stripes.direction), headline);
    finding.grade = grade_share(share, &MISSES);
    finding.value = value_of(share);
    finding.norm = (finding.grade != Grade::NoRange).then_some(&MISSES);
    finding.details.push(format!("Missed: {}.{}", interval_words(share), pace_words(stripes)));
    if finding.grade >= Grade::NearLimit {
        finding.details.push(
            "Poor attention, poor sight without glasses, tiredness, alcohol and sedatives do the same.".to_string(),
        );
    }
    finding
}

fn pace_words(stripes: &Stripes) -> String {
    match stripes.rate {
        Some(_) if stripes.paced => " The beat gave the pace, so the rate says nothing.".to_string(),
        Some(rate) => format!(
            " {} taken up in {} s, {} a second.",
            rate.taken,
            number((rate.seconds * 10.0).round() / 10.0),
            number(rate.per_second())
        ),
        None => String::new(),
    }
}

/// Sentences for a finding with their sources.
#[derive(Debug, Default)]
struct Said {
    details: Vec<String>,
    sources: Vec<&'static Citation>,
}

impl Said {
    fn tell(self, finding: &mut Finding) {
        finding.details.extend(self.details);
        finding.sources.extend(self.sources);
    }
}

/// With what it was done, what a beat took for granted, and what that tests.
fn how(record: &Record, series: &Series) -> Option<Finding> {
    let known = |key: &str, quantity: &Quantity| record.answers.number(key).and_then(|v| quantity.check(v).ok());
    let (width, speed) = (known("width", &WIDTH), known("speed", &SPEED));
    let stimulus = record.answers.one("stimulus");
    let (assumed, all) = (
        series.taps.iter().filter(|tap| tap.made == Made::Paced && missed(&tap.mark) == Some(false)).count(),
        series.taps.len(),
    );
    let parts = [
        stimulus.map(|id| format!("on a {}", label(STIMULI, id))),
        width.map(|width| format!("{} wide", WIDTH.show(width))),
        speed.map(|speed| SPEED.show(speed)),
        record.answers.one("instruction").map(|id| format!("told {}", label(INSTRUCTIONS, id))),
        (assumed > 0)
            .then(|| format!("paced by a beat: {assumed} of {all} count as taken up because nothing was tapped")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() {
        return None;
    }
    let mut finding = Finding::new(TASK.id, "method", Place::Both, format!("Stripes {}", parts.join(", ")));
    let tests =
        "A tape, drum or small screen tests following and jumping back, not the full-field reflex (review by Hale).";
    finding.details.push(tests.to_string());
    finding.sources.push(&HALE);
    let pairs = width.zip(speed).map(|(width, speed)| speed / (2.0 * width));
    if let Some(pairs) = pairs.filter(|pairs| *pairs >= FLASHING && stimulus == Some("screen")) {
        finding.headline.push_str(&format!(
            "; {pairs:.1} stripe pairs a second reach the limit for flashing, {FLASHING:.0} a second (Harding et al. \
             2005), so use wider or slower stripes"
        ));
        finding.sources.push(&HARDING);
    }
    Some(finding)
}

fn comparison(seen: &[Stripes; 2]) -> Comparison {
    let [right, left] = seen.each_ref().map(Stripes::misses);
    side_by_side::compare(TASK.id, "missed", "stripes missed", right, left)
}

fn uneven_misses(comparison: &Comparison) -> Option<Finding> {
    let worse = side_by_side::worse(comparison)?;
    let headline = format!("More stripes missed moving {} than {}", worse.phrase(), worse.mirrored().phrase());
    let mut finding = Finding::new(TASK.id, "right_left", Place::Toward(worse), headline);
    finding.grade = Grade::NearLimit;
    finding.value = side_by_side::difference_of(comparison);
    finding.details = vec![format!("{} No limit is published.", comparison.says), EVEN_IN_HEALTH.to_string()];
    finding.sources = vec![&side_by_side::MID_P, &side_by_side::NEWCOMBE, &CONTROLS, &KNAPP];
    Some(finding)
}

const EVEN_IN_HEALTH: &str = "In recordings healthy people differ by about 10 % between right and left (half of 27 by 4 to \
                              15 %).";

/// Misses and rates that point the same way are one finding: a missed stripe is one fewer taken up. For the same reason
/// uneven misses leave nothing to say of rates that merely cannot be told apart.
fn uneven(misses: Option<Finding>, rates: Option<Finding>) -> Vec<Finding> {
    match (misses, rates) {
        (Some(misses), Some(rates)) if rates.place == Place::Both => vec![misses],
        (Some(mut misses), Some(rates)) if misses.place == rates.place => {
            misses.details.insert(1, rates.details[0].clone());
            misses.sources.push(&BOTH_WAYS);
            vec![misses]
        }
        (misses, rates) => misses.into_iter().chain(rates).collect(),
    }
}

/// The two rates against each other, when the hand gave the pace.
fn rates(seen: &[Stripes; 2]) -> Option<Finding> {
    if seen.iter().any(|stripes| stripes.paced) {
        return None;
    }
    let [right, left] = [seen[0].rate?, seen[1].rate?];
    let enough = right.taken.min(left.taken) >= COMPARABLE || right.taken + left.taken >= 2 * COMPARABLE;
    let p = rates_two_sided(right.taken, right.seconds, left.taken, left.seconds).filter(|_| enough)?;
    let (r, l) = (right.per_second(), left.per_second());
    let differ = p <= LEVEL;
    let slower = if r < l { Direction::Right } else { Direction::Left };
    let (headline, place) = if differ {
        let faster = slower.mirrored();
        (
            format!("Fewer stripes a second taken up moving {} than {}", slower.phrase(), faster.phrase()),
            Place::Toward(slower),
        )
    } else {
        ("No difference in rate between right and left beyond chance".to_string(), Place::Both)
    };
    let mut finding = Finding::new(TASK.id, "rate", place, headline);
    finding.grade = if differ { Grade::NearLimit } else { Grade::WithinRange };
    finding.value = Some(Value { number: 100.0 * (r - l) / (r + l), unit: "%", interval: None });
    let seen = format!("{} a second to the right, {} to the left.", number(r), number(l));
    let sure = format!(
        "If both rates were alike, so large a difference would still come up in {} (exact test of two rates).",
        frequency(p)
    );
    finding.details = vec![format!("{seen} {sure}")];
    if differ {
        finding.details[0].push_str(" No limit is published.");
        finding.details.push(EVEN_IN_HEALTH.to_string());
        finding.details.push("A hand that moved the stripes faster one way does the same.".to_string());
    }
    finding.sources = vec![&BOTH_WAYS, &CONTROLS, &KNAPP];
    Some(finding)
}

/// First half against second half, both directions in balance.
fn order(seen: &[Stripes; 2]) -> Option<Finding> {
    let halves = side_by_side::early_against_late(&[&seen[0].missed, &seen[1].missed])?;
    let tires = side_by_side::tires(&halves);
    let headline = if tires { "More stripes missed toward the end" } else { "No sign of tiring over the stripes" };
    let mut finding = Finding::new(TASK.id, "tiring", Place::Both, headline.to_string());
    finding.grade = if tires { Grade::NearLimit } else { Grade::WithinRange };
    finding.details = vec![side_by_side::order_words(&halves, "stripes missed")];
    if tires {
        finding.details[0].push_str(" No limit is published; wandering attention does the same.");
    }
    finding.sources = vec![&side_by_side::MID_P];
    Some(finding)
}

/// How the slow turn and the quick jump back looked, where they were not full.
fn phases(record: &Record) -> Vec<Finding> {
    let mut findings = Vec::new();
    for direction in [Direction::Right, Direction::Left] {
        for (phase, name, toward) in
            [("slow", "Slow turn with the stripes", direction), ("quick", "Quick jump back", direction.mirrored())]
        {
            let grade = record.answers.cell("phases", direction.word(), phase).map(|cell| cell.grade.as_str());
            let (word, grade) = match grade {
                Some("weak") => ("weak", Grade::NearLimit),
                Some("absent") => ("absent", Grade::OutsideRange),
                _ => continue,
            };
            let what = format!("{phase}_{}", toward.word());
            let headline = format!("{name}, {}: {word}", toward.phrase());
            let mut finding = Finding::new(TASK.id, &what, Place::Toward(toward), headline);
            finding.grade = grade;
            let moving = direction.phrase();
            finding.details = vec![format!("With stripes moving {moving}. No limit is published (common practice).")];
            findings.push(finding);
        }
    }
    findings
}

/// What else can make the response weak or uneven, as far as this visit shows it.
fn skews(context: &Context<'_>) -> Said {
    let mut said = Said::default();
    let at_rest = context.visit.filled("resting_gaze").and_then(|record| record.answers.one("nystagmus"));
    if at_rest.is_some_and(|seen| seen != "none") {
        said.details.push(
            "Nystagmus was seen at rest: it can skew stripes, by up to 70 % in fresh loss of one labyrinth (8 \
             patients), though elsewhere only fast nystagmus did (Jenkins et al. 1979)."
                .to_string(),
        );
        said.sources.extend([&DISTURBED, &JENKINS]);
    }
    if context.years().is_some_and(|years| years >= OLDER) {
        said.details
            .push("From 50 years on the response is 6 to 18 % weaker in health (Valmaggia et al. 2004).".into());
        said.sources.push(&VALMAGGIA);
    }
    said
}

fn gaps(seen: &[Stripes; 2], series: &Series, record: &Record) -> Vec<Gap> {
    let gap = |what: String, why| Gap { slot: TASK.id.to_string(), what, why };
    let mut gaps = Vec::new();
    if seen.iter().all(|stripes| stripes.n() == 0) {
        gaps.push(gap("stripes taken up or missed".to_string(), Why::NotRecorded));
    } else {
        for stripes in seen {
            let what = format!("stripes moving {}", stripes.direction.phrase());
            match (stripes.n(), stripes.too_fast) {
                (0, _) => gaps.push(gap(what, Why::NotRecorded)),
                (n, _) if n < COMPARABLE as usize => {
                    gaps.push(gap(format!("{what} ({n} recorded)"), Why::TooFew));
                }
                (_, Some(apart)) => {
                    let why = format!("tapped {apart:.2} s apart, faster than stripes can be counted; tap them again");
                    gaps.push(gap(what, Why::NotTestable(why)));
                }
                (_, None) => {}
            }
        }
    }
    let known = |pad: &str, mark: &str| PADS.iter().any(|p| p.id == pad) && missed(mark).is_some();
    let foreign = series.taps.iter().filter(|tap| !known(&tap.pad, &tap.mark)).count();
    if foreign > 0 {
        gaps.push(gap(format!("stripes with a direction or outcome unknown here: {foreign}"), Why::Unread));
    }
    if record.answers.one("stimulus").is_none() {
        gaps.push(gap("what the stripes were on".to_string(), Why::NotRecorded));
    }
    gaps
}

#[cfg(test)]
mod tests;
