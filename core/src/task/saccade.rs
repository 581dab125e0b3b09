//! Jumps between two targets: where each one lands, in order and by direction.
//!
//! Healthy eyes reach the target at once or with one correction. So landing short is ordinary until most jumps of a
//! direction do it, while landing past in most of them, or needing more than one correction, is not. No landing names a
//! side.

mod evidence;
mod handed_on;

use self::evidence::{AWAY, CORRECTIONS, IRVING, PAST, PRABLANC, SHORT, TOWARD, WEBER};
use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::Direction;
use crate::capture::answer::{Answer, Made, Series};
use crate::capture::form::{Choice, Form, Kind, MarkChoice, Pace, SeriesForm, Shape, asked, choice, detail, hinted};
use crate::capture::record::Record;
use crate::capture::showing::{Showing, Told, program};
use crate::evidence::number;
use crate::figure::{Figure, MarkKind};
use crate::finding::{Comparison, Finding, Gap, Grade, Place, Reading, Why};
use crate::quantity::{Degrees, Quantity};
use crate::side_by_side::drawing::{Bar, Dot, Row, intervals, strip};
use crate::side_by_side::{self, COMPARABLE, grade_share, interval_words, of, value_of};
use crate::statistics::proportion::Proportion;

/// The task.
pub static TASK: Task = Task {
    id: "saccade",
    title: "Jumps",
    term: "saccades, horizontal",
    setup: Setup {
        position: "Facing you, head still, glasses for near on.",
        target: "Two small targets at eye level, about 20 cm apart and 60 cm away: a face each, told apart by a name.",
        motion: "The targets stay still. Call one, then the other: ten jumps to each side, or follow the beat.",
        say: "Keep your head still. Look at the one I name, and stay there until I name the other.",
        watch: "Where the eyes land first: on target, short with a second jump on, or past and back. Then a late start.",
    },
    form: &FORM,
    provokes: true,
    pace: None,
    seconds: 35,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: &[&PAST, &CORRECTIONS, &SHORT],
    read,
};

static CAUTIONS: &[Caution] = &[Caution {
    when: &["vertigo"],
    below_age: None,
    says: "With vertigo going on, let them sit, and stop when it grows.",
}];

static PADS: &[Choice] = &[choice("right", "their right"), choice("left", "their left")];

static MARKS: &[MarkChoice] = &[
    MarkChoice { choice: choice("on", "on target"), shape: Shape::Disc },
    MarkChoice { choice: hinted("short", "short", "a second jump on"), shape: Shape::Wedge },
    MarkChoice { choice: hinted("past", "past", "and back"), shape: Shape::Arrow },
];

static ALSO: &[Choice] = &[choice("late", "late start"), choice("second", "second correction")];

/// One jump every 1.5 s lies in the middle of the 1 to 2 s at which targets are usually alternated (from memory): a jump
/// of 20° with its start and one correction is over in about half a second, which leaves a second to see and to tap.
static PACE: Pace = Pace { bpm: 40.0, beats: 20, alternates: true };

/// Ten to each side is what the published symptom screen asks for (Mucha et al. 2014).
static JUMPS: SeriesForm =
    SeriesForm { pads: PADS, marks: MARKS, also: ALSO, run_by_pad: false, pace: Some(PACE), wanted: 10, most: 120 };

static DISTANCE: Quantity =
    Quantity { name: "distance of the targets", unit: "cm", min: 20.0, max: 200.0, step: 5.0, decimals: 0 };
static SEPARATION: Quantity =
    Quantity { name: "distance between the targets", unit: "cm", min: 5.0, max: 200.0, step: 5.0, decimals: 0 };

static FORM: Form = Form {
    id: "saccade",
    fields: &[
        asked("jumps", "Where do the eyes land?", Kind::Series(&JUMPS)),
        detail("distance", "From the eyes to the targets", Kind::Number(&DISTANCE)),
        detail("separation", "From one target to the other", Kind::Number(&SEPARATION)),
    ],
    usual: &[],
    usual_label: "",
    fills,
};

/// A jump starts about 0.18 to 0.2 s after its call (means of several studies in a review, J Vis 2013), so a series
/// tapped faster than one in 0.2 s was not watched jump by jump.
const FASTEST: f64 = 0.2;

/// From this size on, in degrees, ordinary undershoot grows (Weber & Daroff 1971: 10° usually on target; 20 to 30° less).
const LARGE: f64 = 20.0;

/// From this age on landings are ordinarily shorter and later (Irving et al. 2006: stable from 14 to 50 years).
const OLDER: u8 = 51;

/// What jumps on a screen answer by themselves: where the two places were.
fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    let told = |says: fn(&Showing) -> Option<f64>| Told::by(showings, program::JUMPS, says);
    let fills = [
        told(Showing::distance).fills("distance", Answer::Number),
        told(|showing| Some(2.0 * showing.offset()?)).fills("separation", Answer::Number),
    ];
    fills.into_iter().flatten().collect()
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let Some(series) = record.answers.series("jumps").filter(|_| !record.skipped()) else {
        return Reading::default();
    };
    let mut reading = Reading { gaps: unread(series).into_iter().collect(), ..Reading::default() };
    let seen = [Direction::Right, Direction::Left].map(|direction| Jumps::toward(direction, series));
    if seen.iter().all(|jumps| jumps.n() == 0) {
        reading.gaps.push(gap("where the jumps land", Why::NotRecorded));
        return reading;
    }
    reading.figures.push(order_drawing(&seen));
    if let Some(apart) = too_fast(series) {
        let why = format!("tapped {apart:.2} s apart, faster than eyes can jump to a call; tap them again");
        reading.gaps.push(gap("where the jumps land", Why::NotTestable(why)));
        return reading;
    }
    reading.figures.push(share_drawing(&seen));
    reading.gaps.extend(seen.iter().filter_map(Jumps::gap));
    let ordinary = ordinary(context, record);
    reading.findings.extend(seen.iter().filter(|jumps| jumps.n() > 0).map(|jumps| landing(jumps, &ordinary)));
    reading.comparisons = comparisons(&seen);
    let uneven = reading.comparisons.iter().find_map(|comparison| uneven(comparison, &reading.findings));
    reading.findings.extend(uneven);
    reading.findings.extend(order(&seen));
    reading.findings.extend(paced(series));
    handed_on::hand_on(&mut reading, &seen, series, record);
    reading
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Landing {
    On,
    Short,
    Past,
}

impl Landing {
    fn from_id(id: &str) -> Option<Landing> {
        match id {
            "on" => Some(Landing::On),
            "short" => Some(Landing::Short),
            "past" => Some(Landing::Past),
            _ => None,
        }
    }

    fn mark(self) -> MarkKind {
        match self {
            Landing::On => MarkKind::Disc,
            Landing::Short => MarkKind::Wedge,
            Landing::Past => MarkKind::Arrow,
        }
    }
}

#[derive(Debug)]
struct Jump {
    landing: Landing,
    late: bool,
    second: bool,
}

/// The jumps of one direction, in order.
#[derive(Debug)]
struct Jumps {
    direction: Direction,
    jumps: Vec<Jump>,
}

impl Jumps {
    fn toward(direction: Direction, series: &Series) -> Jumps {
        let jumps = series.on(direction.word()).filter_map(|tap| {
            let also = |id: &str| tap.also.iter().any(|a| a == id);
            Some(Jump { landing: Landing::from_id(&tap.mark)?, late: also("late"), second: also("second") })
        });
        Jumps { direction, jumps: jumps.collect() }
    }

    fn n(&self) -> usize {
        self.jumps.len()
    }

    fn share(&self, counts: impl Fn(&Jump) -> bool) -> Proportion {
        Proportion::counting(self.jumps.iter().map(counts))
    }

    fn landed(&self, landing: Landing) -> Proportion {
        self.share(|jump| jump.landing == landing)
    }

    fn off(&self) -> Proportion {
        self.share(|jump| jump.landing != Landing::On)
    }

    fn gap(&self) -> Option<Gap> {
        let what = format!("jumps {}", self.direction.phrase());
        match self.n() {
            0 => Some(gap(&what, Why::NotRecorded)),
            n if n < COMPARABLE as usize => Some(gap(&format!("{what} ({n} recorded)"), Why::TooFew)),
            _ => None,
        }
    }
}

/// How the jumps of one direction land, graded by the gravest of three rules.
fn landing(jumps: &Jumps, ordinary: &Ordinary) -> Finding {
    let (on, short, past) = (jumps.landed(Landing::On), jumps.landed(Landing::Short), jumps.landed(Landing::Past));
    let second = jumps.share(|jump| jump.second);
    let to = jumps.direction.phrase();
    let short_grade = match grade_share(short, &SHORT) {
        Grade::NoRange => Grade::NoRange,
        Grade::OutsideRange | Grade::Urgent => Grade::NearLimit,
        Grade::WithinRange | Grade::NearLimit => Grade::WithinRange,
    };
    let rules = [
        (grade_share(past, &PAST), past, &PAST, format!("Jumps {to} go past the target and back")),
        (grade_share(second, &CORRECTIONS), second, &CORRECTIONS, format!("Jumps {to} need more than one correction")),
        (short_grade, short, &SHORT, format!("Jumps {to} fall short")),
    ];
    // The first rule wins a tie: it is the one with a described sign behind it.
    let gravest = rules.into_iter().rev().max_by_key(|rule| rule.0).filter(|rule| rule.0 >= Grade::NearLimit);
    let what = format!("landing_{}", jumps.direction.word());
    let mut finding = Finding::new(TASK.id, &what, Place::Toward(jumps.direction), String::new());
    finding.grade = if on.n() < COMPARABLE { Grade::NoRange } else { Grade::WithinRange };
    finding.headline = format!("Jumps {to}: {} on target", of(on));
    finding.value = value_of(on);
    let gravest_share = gravest.as_ref().map(|rule| rule.1);
    if let Some((grade, share, norm, headline)) = gravest {
        finding.grade = grade;
        finding.headline = format!("{headline}: {}", of(share));
        finding.value = value_of(share);
        finding.norm = Some(norm);
        finding.sources = vec![norm.source];
    }
    let graded = gravest_share.unwrap_or(on);
    finding.details.push(counts(jumps, graded));
    finding.details.extend(meaning(&finding, short, ordinary));
    if finding.grade >= Grade::NearLimit {
        finding.details.push(NO_SIDE.to_string());
        finding.sources.extend([&AWAY, &TOWARD]);
        if finding.norm.is_some_and(|norm| std::ptr::eq(norm, &SHORT)) {
            finding.sources.extend([&PRABLANC, &WEBER, &IRVING]);
        }
    }
    finding
}

const NO_SIDE: &str = "Which way jumps go wrong never tells on which side a cause lies: published cases go both ways.";

/// "95 % interval 17 to 69 in 100; 2 on target, 4 short, 4 past; late start in 2." The interval is that of the share the
/// headline tells.
fn counts(jumps: &Jumps, told: Proportion) -> String {
    let of_kind = |landing| jumps.landed(landing).events();
    let (on, short, past) = (of_kind(Landing::On), of_kind(Landing::Short), of_kind(Landing::Past));
    let mut said = format!("{}; {on} on target, {short} short, {past} past", interval_words(told));
    let late = jumps.share(|jump| jump.late).events();
    if late > 0 {
        said.push_str(&format!("; late start in {late}, for which no published limit by eye was found"));
    }
    let second = jumps.share(|jump| jump.second).events();
    if second > 0 {
        said.push_str(&format!("; more than one correction in {second}"));
    }
    said.push('.');
    said
}

/// What the landing means, and what else makes it so.
fn meaning(finding: &Finding, short: Proportion, ordinary: &Ordinary) -> Vec<String> {
    let Some(norm) = finding.norm else {
        let fine = "Landing short by about a tenth, with one jump on, is ordinary (Prablanc et al. 1978).";
        return (short.events() > 0).then(|| fine.to_string()).into_iter().collect();
    };
    if std::ptr::eq(norm, &SHORT) {
        let mut said = vec![
            "Short by about a tenth with one jump on is ordinary (Prablanc et al. 1978), but on target is the most \
             frequent landing (Hopf et al. 2018)."
                .to_string(),
        ];
        said.extend(ordinary.shorter());
        return said;
    }
    vec![
        "Healthy eyes reach the target at once or with one correction (Strupp et al. 2011); tiredness, alcohol, \
         sedatives and haste make them miss too."
            .to_string(),
    ]
}

/// What makes short landings more frequent in health.
#[derive(Debug)]
struct Ordinary {
    size: Option<Degrees>,
    older: bool,
}

impl Ordinary {
    fn shorter(&self) -> Vec<String> {
        let large = self
            .size
            .filter(|size| size.0 > LARGE)
            .map(|size| format!("With jumps as large as these {:.0}° it is more so (Weber & Daroff 1971).", size.0));
        let older = self.older.then(|| "After 50 it is more so (Irving et al. 2006).".to_string());
        large.into_iter().chain(older).collect()
    }
}

fn ordinary(context: &Context<'_>, record: &Record) -> Ordinary {
    let known = |key: &str, quantity: &Quantity| record.answers.number(key).and_then(|v| quantity.check(v).ok());
    let size = known("distance", &DISTANCE).zip(known("separation", &SEPARATION)).map(|(far, apart)| size(far, apart));
    Ordinary { size, older: context.years().is_some_and(|years| years >= OLDER) }
}

/// The size of a jump between two targets `apart` cm from each other, `far` cm straight ahead of the eyes.
fn size(far: f64, apart: f64) -> Degrees {
    Degrees(2.0 * (apart / 2.0).atan2(far).to_degrees())
}

/// The comparison that leads; the rarer events below must differ more clearly, so that looking three times does not find
/// three times as much by chance.
const OFF: &str = "off_target";
const RARER: f64 = 0.01;

fn comparisons(seen: &[Jumps; 2]) -> Vec<Comparison> {
    let [right, left] = seen.each_ref();
    let compare = |key, what, right, left| side_by_side::compare(TASK.id, key, what, right, left);
    let mut comparisons = vec![compare(OFF, "jumps not on target", right.off(), left.off())];
    // Rarer events get a line only when there were any: a table of zeros hides the line that matters.
    let past = [right, left].map(|jumps| jumps.landed(Landing::Past));
    let late = [right, left].map(|jumps| jumps.share(|jump| jump.late));
    for (key, what, [right, left]) in [("past", "jumps past the target", past), ("late", "late starts", late)] {
        if right.events() + left.events() > 0 {
            comparisons.push(compare(key, what, right, left));
        }
    }
    comparisons
}

/// The finding that one direction is worse by more than chance.
fn uneven(comparison: &Comparison, so_far: &[Finding]) -> Option<Finding> {
    let worse = side_by_side::worse(comparison)?;
    if !comparison.key.ends_with(OFF) && comparison.p? > RARER {
        return None;
    }
    let headline = format!("More {} {} than {}", comparison.what, worse.phrase(), worse.mirrored().phrase());
    let mut finding = Finding::new(TASK.id, "right_left", Place::Toward(worse), headline);
    finding.grade = Grade::NearLimit;
    finding.value = side_by_side::difference_of(comparison);
    // p up to 0.05 is common practice.
    finding.details = vec![format!("{} No limit is published.", comparison.says)];
    finding.sources = vec![&side_by_side::MID_P, &side_by_side::NEWCOMBE];
    let said = so_far.iter().any(|other| other.details.iter().any(|detail| detail == NO_SIDE));
    if !said {
        finding.details.push(NO_SIDE.to_string());
        finding.sources.extend([&AWAY, &TOWARD]);
    }
    Some(finding)
}

/// Early against late jumps, both directions in balance.
fn order(seen: &[Jumps; 2]) -> Option<Finding> {
    let off = |jumps: &Jumps| jumps.jumps.iter().map(|jump| jump.landing != Landing::On).collect::<Vec<_>>();
    let [right, left] = [off(&seen[0]), off(&seen[1])];
    let halves = side_by_side::early_against_late(&[&right, &left])?;
    let tires = side_by_side::tires(&halves);
    let headline = if tires { "Jumps miss more toward the end" } else { "No sign of tiring over the jumps" };
    let mut finding = Finding::new(TASK.id, "tiring", Place::Both, headline.to_string());
    finding.grade = if tires { Grade::NearLimit } else { Grade::WithinRange };
    finding.details = vec![side_by_side::order_words(&halves, "jumps not on target")];
    if tires {
        finding.details[0].push_str(" No limit is published; wandering attention does the same.");
    }
    finding.sources = vec![&side_by_side::MID_P];
    Some(finding)
}

/// Says what a beat took for granted.
fn paced(series: &Series) -> Option<Finding> {
    let assumed = series.taps.iter().filter(|tap| tap.made == Made::Paced).count();
    let bpm = series.runs.iter().find_map(|run| run.bpm);
    let pace = bpm.map_or_else(String::new, |bpm| format!(", {} a minute", number(bpm)));
    let all = series.taps.len();
    let headline =
        format!("Jumps called by a beat{pace}: {assumed} of {all} count as on target because nothing was tapped");
    (assumed > 0).then(|| Finding::new(TASK.id, "paced", Place::Both, headline))
}

/// The median time between taps, when it is too short for jumps that were watched one by one.
fn too_fast(series: &Series) -> Option<f64> {
    side_by_side::faster_than(FASTEST, &series.taps.iter().map(|tap| tap.at_ms).collect::<Vec<_>>())
}

/// Jumps whose direction or landing a newer program wrote.
fn unread(series: &Series) -> Option<Gap> {
    let known = |pad: &str, mark: &str| PADS.iter().any(|p| p.id == pad) && Landing::from_id(mark).is_some();
    let foreign = series.taps.iter().filter(|tap| !known(&tap.pad, &tap.mark)).count();
    let jumps = if foreign == 1 { "1 jump".to_string() } else { format!("{foreign} jumps") };
    (foreign > 0).then(|| gap(&format!("{jumps} with a direction or landing unknown here"), Why::Unread))
}

fn gap(what: &str, why: Why) -> Gap {
    Gap { slot: TASK.id.to_string(), what: what.to_string(), why }
}

fn order_drawing(seen: &[Jumps; 2]) -> Figure {
    let row = |jumps: &Jumps| {
        let dot = |jump: &Jump| Dot { kind: jump.landing.mark(), underlined: jump.late || jump.second };
        let tally = format!("{} on target", of(jumps.landed(Landing::On)));
        Row { label: jumps.direction.phrase(), tally, dots: jumps.jumps.iter().map(dot).collect() }
    };
    let rows = seen.each_ref().map(row);
    let occurs = |counts: fn(&Jump) -> bool| seen.iter().any(|jumps| jumps.share(counts).events() > 0);
    let legend: Vec<(Option<MarkKind>, &str)> = [
        (occurs(|j| j.landing == Landing::On), Some(Landing::On.mark()), "on target"),
        (occurs(|j| j.landing == Landing::Short), Some(Landing::Short.mark()), "short"),
        (occurs(|j| j.landing == Landing::Past), Some(Landing::Past.mark()), "past"),
        (occurs(|j| j.late || j.second), None, "late, or corrected twice"),
    ]
    .into_iter()
    .filter(|entry| entry.0)
    .map(|(_, kind, words)| (kind, words))
    .collect();
    let said = seen.each_ref().map(|jumps| format!("{}: {}", jumps.direction.phrase(), counts_in_order(jumps)));
    let says = format!("Every jump in its order. {}.", said.join(". "));
    strip("saccade.order", "Jumps in their order", says, &rows, &legend)
}

/// "on target, short, short": what the strip shows, for those who cannot see it.
fn counts_in_order(jumps: &Jumps) -> String {
    if jumps.n() == 0 {
        return "none recorded".to_string();
    }
    let words = jumps.jumps.iter().map(|jump| match jump.landing {
        Landing::On => "on target",
        Landing::Short => "short",
        Landing::Past => "past",
    });
    words.collect::<Vec<_>>().join(", ")
}

fn share_drawing(seen: &[Jumps; 2]) -> Figure {
    let bar =
        |jumps: &Jumps| Bar { label: jumps.direction.word(), share: jumps.landed(Landing::On), kind: MarkKind::Disc };
    let said = seen.each_ref().map(|jumps| {
        let on = jumps.landed(Landing::On);
        let interval = interval_words(on);
        format!("{}: {} on target, {interval}", jumps.direction.phrase(), of(on))
    });
    let says = format!("Share of jumps on target with its 95 % interval. {}.", said.join(". "));
    intervals("saccade.shares", "Jumps on target", says, &seen.each_ref().map(bar), "all on target")
}

#[cfg(test)]
mod tests;
