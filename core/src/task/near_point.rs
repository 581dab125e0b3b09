//! Near point of convergence: how near a target can come before it is seen double, over several trials.

mod drawing;
mod evidence;
mod handed_on;

use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::Eye;
use crate::capture::answer::Trial;
use crate::capture::form::{
    Choice, Field, Form, Kind, TrialForm, asked, choice, detail, hinted, label, never_fills, optional,
};
use crate::capture::record::{Record, State};
use crate::evidence::{BaseRate, ChangeLimit, Citation, Norm, number};
use crate::finding::{Finding, Gap, Grade, Place, Reading, Value, Why};
use crate::quantity::{Centimetres, Millimetres, Quantity};
use crate::score;
use crate::vergence;

use drawing::drawing;
pub use evidence::CHANGE_LIMITS;
use evidence::{
    ADLER, ADULT, ADULT_RATES, AJREZO, ANY_AGE_RATES, CHILD, CHILD_RATES, DRAWING_BACK, ERNST, GROWN, HASHEMI, HAYES,
    HEICK, LONG_TERM, MAPLES, MARUSIC, MASHHAD, MCGINNIS, OLDER, OLDER_SPREAD, PHILLIPS, RECOVERY, SCHEIMAN, STUDENTS,
    TEEN, TEEN_RATES, TEHRAN,
};

/// The task.
pub static TASK: Task = Task {
    id: "near_point",
    title: "Near point",
    term: "near point of convergence",
    setup: Setup {
        position: "Facing you, head still, in the glasses they use for reading.",
        target: "A small face with eyes and a nose, at eye level, midway between the eyes.",
        motion: "From arm's length straight toward the bridge of the nose, about two fingers' width (3 cm) a second. \
                 Three trials.",
        say: "Keep looking at its nose. Say “two” when you see two, and “one” when it is one again.",
        watch: "The distance at “two”, or where an eye lets go even if nothing is said; and which eye lets go first.",
    },
    form: &FORM,
    provokes: true,
    pace: None,
    seconds: 40,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: evidence::NORMS,
    read,
};

/// Common practice, no source.
static CAUTIONS: &[Caution] = &[
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on: seat the person, keep a bowl near, and stop as soon as it grows.",
    },
    Caution {
        when: &["surgery"],
        below_age: None,
        says: "After recent eye surgery: only if the surgeon agrees, and never touch the face with the target.",
    },
];

static BREAK: Quantity = Quantity { name: "near point", unit: "cm", min: 1.0, max: 60.0, step: 0.5, decimals: 1 };
static RECOVERS: Quantity =
    Quantity { name: "recovery distance", unit: "cm", min: 1.0, max: 60.0, step: 0.5, decimals: 1 };
/// Nearly all adults lie between 45 and 80 mm, children of 5 years from about 40 (Dodgson 2004, Proc SPIE 5291:36).
static PUPILLARY_DISTANCE: Quantity =
    Quantity { name: "pupillary distance", unit: "mm", min: 40.0, max: 80.0, step: 1.0, decimals: 0 };

static END: &[Choice] = &[
    choice("double", "Double"),
    choice("blurred", "Blurred"),
    hinted("no_break", "Single to the nose", "no distance needed"),
];

static EYES: &[Choice] = &[
    choice("right", "Their right"),
    choice("left", "Their left"),
    choice("both", "Both"),
    choice("not_seen", "Not seen"),
];

static ZERO: &[Choice] = &[
    choice("brow", "Brow or forehead"),
    choice("spectacles", "Spectacle plane"),
    choice("bridge", "Bridge of the nose"),
    choice("canthus", "Outer corner of the eye"),
];

static APPROACH: &[Choice] = &[
    choice("1", "About 1 cm a second"),
    choice("3", "About 3 cm a second"),
    choice("5", "About 5 cm a second"),
    choice("own", "At the person's own pace"),
];

static TARGETS: &[Choice] =
    &[choice("face", "Small face"), choice("letter", "Letter"), choice("pen", "Pen tip"), choice("light", "Light")];

static TRIAL: &[Field] = &[
    asked("break", "Breaks at", Kind::Number(&BREAK)),
    optional("end", "It turned", Kind::One(END)),
    optional("eye", "Which eye let go first", Kind::One(EYES)),
    optional("recovery", "One again at", Kind::Number(&RECOVERS)),
];

static FORM: Form = Form {
    id: "near_point",
    fields: &[
        asked("trials", "Near point, trial by trial", Kind::Trials(&TrialForm { fields: TRIAL, wanted: 3, most: 10 }))
            .help("Three trials; up to ten when you look for tiring."),
        detail("zero", "The ruler's zero lies at", Kind::One(ZERO)),
        detail("approach", "How fast the target came", Kind::One(APPROACH)),
        detail("target", "Target", Kind::One(TARGETS)),
        detail("pd", "Pupillary distance", Kind::Number(&PUPILLARY_DISTANCE))
            .help("Between the pupils, looking far. With it the angle between the eyes is worked out."),
    ],
    usual: &[],
    usual_label: "",
    fills: never_fills,
};

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let trials = Seen::all(record);
    let mut reading = Reading { gaps: gap(record, &trials).into_iter().collect(), ..Reading::default() };
    if trials.iter().all(|trial| !trial.counts()) {
        return reading;
    }
    let years = context.years();
    let (breaks, back) = (break_point(record, &trials, years), drawing_back(&trials));
    if let Some(norm) = breaks.norm {
        reading.figures.extend(drawing(&trials, years, norm, back.as_ref().and_then(|back| back.value.as_ref())));
    }
    reading.findings.push(breaks);
    reading.findings.extend(back);
    reading.findings.extend(recovery(&trials, years));
    reading.findings.extend(angle(record, &trials));
    reading.findings.extend(first_to_let_go(&trials));
    reading.findings.extend(measured(record));
    handed_on::hand_on(&mut reading, record, &trials);
    reading
}

/// How a trial ended.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Outcome {
    /// It broke at this distance in centimetres.
    Broke(f64),
    /// The target came to the nose and stayed single: nearer than the ruler reaches, so there is no number.
    Single,
    /// A distance and "single to the nose" at once.
    Contradicts,
    /// Something was noted, but neither a distance nor that it stayed single.
    Missing,
}

/// One trial as it is read.
#[derive(Debug)]
struct Seen {
    number: usize,
    outcome: Outcome,
    /// Whether it blurred rather than doubled; `None` when not noted.
    blurred: Option<bool>,
    recovery: Option<f64>,
    eye: Option<LetGo>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum LetGo {
    One(Eye),
    Both,
}

impl Seen {
    fn all(record: &Record) -> Vec<Seen> {
        let trials = record.answers.trials("trials").iter().enumerate();
        trials.filter(|(_, trial)| !trial.answers.is_empty()).map(|(at, trial)| Seen::read(at + 1, trial)).collect()
    }

    fn read(number: usize, trial: &Trial) -> Seen {
        let distance = |key: &str, quantity: &Quantity| trial.answers.number(key).and_then(|v| quantity.check(v).ok());
        let end = trial.answers.one("end");
        let outcome = match (distance("break", &BREAK), end == Some("no_break")) {
            (Some(_), true) => Outcome::Contradicts,
            (Some(cm), false) => Outcome::Broke(cm),
            (None, true) => Outcome::Single,
            (None, false) => Outcome::Missing,
        };
        let blurred = match end {
            Some("blurred") => Some(true),
            Some("double") => Some(false),
            _ => None,
        };
        let eye = match trial.answers.one("eye") {
            Some("right") => Some(LetGo::One(Eye::Right)),
            Some("left") => Some(LetGo::One(Eye::Left)),
            Some("both") => Some(LetGo::Both),
            _ => None,
        };
        Seen { number, outcome, blurred, recovery: distance("recovery", &RECOVERS), eye }
    }

    fn broke(&self) -> Option<f64> {
        match self.outcome {
            Outcome::Broke(cm) => Some(cm),
            Outcome::Single | Outcome::Contradicts | Outcome::Missing => None,
        }
    }

    fn counts(&self) -> bool {
        match self.outcome {
            Outcome::Broke(_) | Outcome::Single => true,
            Outcome::Contradicts | Outcome::Missing => false,
        }
    }

    fn words(&self) -> String {
        match self.outcome {
            Outcome::Broke(cm) => BREAK.show(cm),
            Outcome::Single => "single to the nose".to_string(),
            Outcome::Contradicts | Outcome::Missing => "left out".to_string(),
        }
    }
}

fn gap(record: &Record, trials: &[Seen]) -> Option<Gap> {
    let gap = |what: &str, why: Why| Some(Gap { slot: record.slot.clone(), what: what.to_string(), why });
    match &record.state {
        State::NotDone(reason) => return gap(TASK.term, Why::NotDone(reason.clone())),
        State::NotTestable(reason) => return gap(TASK.term, Why::NotTestable(reason.clone())),
        State::Open | State::Done => {}
    }
    let mut counted = trials.iter().filter(|trial| trial.counts());
    match (counted.next(), counted.next()) {
        (None, _) => gap(TASK.term, Why::NotRecorded),
        (Some(only), None) if only.broke().is_some_and(|cm| !settled_by_one(cm)) => {
            gap("two more near point trials", Why::TooFew)
        }
        (Some(_), _) => None,
    }
}

/// Whether one trial tells as much as three: at 3 cm or nearer and at 7 cm or farther the first lay within 2 cm of the
/// mean of three in 99.6 % (Ernst et al. 2020).
fn settled_by_one(cm: f64) -> bool {
    cm <= 3.0 || cm >= 7.0
}

/// Grades a distance for an age, and names the range it was read against.
fn judge(cm: f64, years: Option<u8>) -> (Grade, &'static Norm) {
    let (child, adult) = (score::grade(cm, &CHILD), score::grade(cm, &ADULT));
    match years {
        Some(years) if years < GROWN => (child, &CHILD),
        Some(years) if years >= OLDER && adult == Grade::OutsideRange && cm <= OLDER_SPREAD => {
            (Grade::NearLimit, &ADULT)
        }
        Some(_) => (adult, &ADULT),
        // Only what both limits say is said of an unknown age.
        None if child == adult => (adult, if adult == Grade::OutsideRange { &CHILD } else { &ADULT }),
        None => (Grade::NearLimit, &ADULT),
    }
}

fn break_point(record: &Record, trials: &[Seen], years: Option<u8>) -> Finding {
    let broke: Vec<f64> = trials.iter().filter_map(Seen::broke).collect();
    let single = trials.iter().filter(|trial| trial.outcome == Outcome::Single).count();
    let place = Place::Both;
    let Some(mean) = mean(&broke) else {
        let headline = format!("Single to the nose in {}", counted(single, "trial"));
        let mut finding = Finding::new(TASK.id, "break", place, headline);
        (finding.grade, finding.norm) = (Grade::WithinRange, Some(judge(BREAK.min, years).1));
        finding.details.push("Nearer than the ruler reaches, so there is no distance to print.".to_string());
        finding.details.extend(left_out(trials));
        return finding;
    };
    let of = if broke.len() == 1 { "one trial".to_string() } else { format!("mean of {} trials", broke.len()) };
    let and =
        if single > 0 { format!("; single to the nose in {}", counted(single, "more trial")) } else { String::new() };
    let mut finding = Finding::new(TASK.id, "break", place, format!("Near point {}, {of}{and}", BREAK.show(mean)));
    let (grade, norm) = judge(mean, years);
    finding.value = Some(Value { number: mean, unit: "cm", interval: None });
    (finding.grade, finding.norm) = (grade, Some(norm));
    finding.healthy = healthy(years).iter().collect();
    let soft = soften(&mut finding, trials, single);
    let first = [in_order(trials, &broke, single), soft, by_age(&mut finding, years)];
    let first: Vec<String> = first.into_iter().flatten().collect();
    finding.details.extend((!first.is_empty()).then(|| first.join(" ")));
    finding.details.extend(left_out(trials));
    if finding.grade != Grade::WithinRange {
        surveys(&mut finding, years);
    }
    few_trials(&mut finding, &broke, single);
    method(&mut finding, record, trials);
    change_limits(&mut finding);
    finding
}

/// The trials as they came, or that there was one only.
fn in_order(trials: &[Seen], broke: &[f64], single: usize) -> Option<String> {
    if trials.len() > 1 {
        let words: Vec<String> = trials.iter().map(Seen::words).collect();
        return Some(format!("In order: {}.", words.join(", ")));
    }
    match (broke, single) {
        ([only], 0) if !settled_by_one(*only) => Some("One trial only: two more can change the picture.".to_string()),
        _ => None,
    }
}

/// What a reader must know of the limit at this age, before the number is believed.
fn by_age(finding: &mut Finding, years: Option<u8>) -> Option<String> {
    if finding.grade == Grade::WithinRange {
        return None;
    }
    match years {
        None => {
            finding.sources.extend([&HAYES, &SCHEIMAN]);
            Some(
                "Age not known: the limit is 6 cm for children (Hayes et al. 1998) and 5 cm for adults (Scheiman et al. \
                 2003); healthy people over 60 lie farther out."
                    .to_string(),
            )
        }
        Some(years) if years >= OLDER => {
            finding.sources.extend([&TEHRAN, &MASHHAD]);
            Some(
                "The limit was not set for this age; healthy people over 60 average 7.8 cm (Tehran 2021), beyond 70 years \
                 13.1 cm (Mashhad)."
                    .to_string(),
            )
        }
        Some(_) => None,
    }
}

/// Takes an "outside" back to "near the limit" where the way of measuring alone can have put it there.
fn soften(finding: &mut Finding, trials: &[Seen], single: usize) -> Option<String> {
    let ends: Vec<bool> = trials.iter().filter(|t| t.broke().is_some()).filter_map(|t| t.blurred).collect();
    let blurred = ends.iter().filter(|blurred| **blurred).count();
    let farther = "blur comes about 4.1 cm farther out than double vision (20 healthy adults, McGinnis et al. 2019)";
    let mut said = Vec::new();
    if single > 0 {
        said.push("The mean leaves out the trials that stayed single, so the true mean is nearer.".to_string());
    }
    if blurred > 0 {
        finding.sources.push(&MCGINNIS);
        said.push(if blurred == ends.len() {
            format!("The end point was blur, but the range is for double vision: {farther}.")
        } else {
            format!("End points are mixed, {blurred} of {} blurred, and {farther}.", ends.len())
        });
    }
    if finding.grade == Grade::OutsideRange && (single > 0 || (blurred > 0 && blurred == ends.len())) {
        finding.grade = Grade::NearLimit;
    }
    (!said.is_empty()).then(|| said.join(" "))
}

fn surveys(finding: &mut Finding, years: Option<u8>) {
    // That tiredness, attention and glasses move it is common practice.
    finding.details.push(
        "It decides nothing alone; tiredness, wandering attention and missing reading glasses move it.".to_string(),
    );
    let (averages, sources): (&str, &[&'static Citation]) = match years {
        Some(years) if years >= OLDER => (
            "Up to 18.2 cm, mean plus two standard deviations in the Mashhad survey, does not count as outside.",
            &[&MASHHAD],
        ),
        Some(years) if (TEEN..GROWN).contains(&years) => (
            "The range comes from younger schoolchildren; averages of healthy children run from 1.9 cm (Ajrezo et al. \
             2016) to 8.1 cm (Hashemi et al.).",
            &[&AJREZO, &HASHEMI],
        ),
        Some(years) if years < GROWN => (
            "Averages of healthy children run from 1.9 cm (Ajrezo et al. 2016) to 8.1 cm (Hashemi et al.).",
            &[&AJREZO, &HASHEMI],
        ),
        Some(_) => (
            "Averages of healthy adults run from 5.9 cm (Phillips & Tierney 2015) to 9.5 cm beyond 30 years (1,357 \
             students in Iran).",
            &[&PHILLIPS, &STUDENTS],
        ),
        None => (
            "Averages of healthy people run from 1.9 cm in children (Ajrezo et al. 2016) to 13.1 cm beyond 70 years \
             (Mashhad).",
            &[&AJREZO, &MASHHAD],
        ),
    };
    finding.details.push(averages.to_string());
    finding.sources.extend(sources);
}

fn few_trials(finding: &mut Finding, broke: &[f64], single: usize) {
    let said = match (broke, single) {
        ([only], 0) if settled_by_one(*only) => {
            "At 3 cm or nearer, or 7 cm or farther, the first trial lay within 2 cm of the mean of three in 99.6 % (380 \
             concussed people, Ernst et al. 2020)."
        }
        ([_], 0) => "Between 3 and 7 cm the first of three trials does not settle it (Ernst et al. 2020).",
        ([_, _], 0) => {
            "The mean of two trials fell on the same side of 5 cm as the mean of three in 379 of 380 concussed people \
             (Ernst et al. 2020)."
        }
        _ => return,
    };
    finding.details.push(said.to_string());
    finding.sources.push(&ERNST);
}

/// How it was measured, and what that does to the number.
fn method(finding: &mut Finding, record: &Record, trials: &[Seen]) {
    let noted = |key: &str| record.answers.one(key);
    let mut effects: Vec<(&str, &'static Citation)> = Vec::new();
    let mut open: Vec<&str> = Vec::new();
    match noted("zero") {
        Some("canthus") => effects.push((
            "Read from the outer corner of the eye, which gives about 1.8 cm more than from the forehead (Marusic et al.).",
            &MARUSIC,
        )),
        Some(_) => {}
        None => open.push("where the ruler's zero lay (1.8 cm between forehead and outer corner of the eye)"),
    }
    match noted("approach") {
        Some("5") => effects.push((
            "At 5 cm a second it reads about 1.3 cm nearer than at 1 cm a second (McGinnis et al. 2019).",
            &MCGINNIS,
        )),
        Some(_) => {}
        None => open.push("how fast the target came (1.3 cm between 1 and 5 cm a second)"),
    }
    match noted("target") {
        Some("pen") => {
            effects.push(("A pen tip reads farther out than a 12- or 14-point letter (Heick & Bay 2021).", &HEICK));
        }
        Some("light") => effects.push(("A penlight reads farther out than a finger (Adler et al. 2007).", &ADLER)),
        Some(_) | None => {}
    }
    if trials.iter().all(|trial| trial.blurred.is_none()) {
        open.push("whether it doubled or blurred (4.1 cm)");
    }
    if !open.is_empty() {
        finding.details.push(format!("Not noted, though it moves the number: {}.", open.join("; ")));
        finding.sources.extend([&MARUSIC, &MCGINNIS]);
    }
    for (says, source) in effects {
        finding.details.push(says.to_string());
        finding.sources.push(source);
    }
}

/// How it was measured, so that it can be measured so again.
fn measured(record: &Record) -> Option<Finding> {
    let known = [("zero", "ruler from the ", ZERO), ("approach", "", APPROACH), ("target", "", TARGETS)];
    let known = known.iter().filter_map(|(key, lead, choices)| {
        Some(format!("{lead}{}", label(choices, record.answers.one(key)?).to_lowercase()))
    });
    let known: Vec<String> = known.collect();
    let headline = format!("Measured so: {}", known.join(", "));
    (!known.is_empty()).then(|| Finding::new(TASK.id, "method", Place::Both, headline))
}

fn change_limits(finding: &mut Finding) {
    // In whom and how far apart is told where two visits are compared.
    let limit = |limit: &ChangeLimit| format!("{} {} ({})", number(limit.value), limit.unit, limit.source.short);
    let limits: Vec<String> = CHANGE_LIMITS.iter().map(limit).collect();
    let surest = CHANGE_LIMITS.iter().map(|limit| limit.value).fold(0.0, f64::max);
    finding.details.push(format!(
        "Call a later change certain only from {} cm on: published limits of error are {}.",
        number(surest),
        limits.join(", ")
    ));
    finding.sources.extend(CHANGE_LIMITS.iter().map(|limit| limit.source));
}

/// Last trial minus first, against the limits of measurement error: no number of centimetres that means tiring is
/// published.
fn drawing_back(trials: &[Seen]) -> Option<Finding> {
    let counted: Vec<&Seen> = trials.iter().filter(|trial| trial.counts()).collect();
    let [first, .., last] = counted.as_slice() else { return None };
    let n = counted.len();
    let (from, to) = match (first.outcome, last.outcome) {
        (Outcome::Broke(from), Outcome::Broke(to)) => (from, to),
        (Outcome::Single, Outcome::Broke(to)) => {
            let headline =
                format!("Single to the nose at first, broke at {} in the last of {n} trials", BREAK.show(to));
            let mut finding = Finding::new(TASK.id, "drawing_back", Place::Both, headline);
            finding
                .details
                .push("It draws back; how far cannot be said, because the first trial has no distance.".into());
            return Some(finding);
        }
        _ => return None,
    };
    let back = tidy(to - from);
    let moved = match back {
        back if back > 0.0 => format!("draws back {} over {n} trials", BREAK.show(back)),
        back if back < 0.0 => format!("comes nearer by {} over {n} trials", BREAK.show(-back)),
        _ => format!("stays the same over {n} trials"),
    };
    let mut finding = Finding::new(TASK.id, "drawing_back", Place::Both, format!("Near point {moved}"));
    finding.value = Some(Value { number: back, unit: "cm", interval: None });
    finding.sources.extend([&ERNST, &LONG_TERM]);
    if let (Some(first), Some(last)) = (first.blurred, last.blurred)
        && first != last
    {
        finding.details.push(
            "The first and the last trial ended differently, one double and one blurred, so their \
                              difference is not read."
                .to_string(),
        );
        return Some(finding);
    }
    finding.norm = Some(&DRAWING_BACK);
    let errors = "2 cm in one session, Ernst et al. 2020; 2.5 cm over 90 days, Scheiman et al. 2025";
    // Between the two published limits of error the answer depends on the study.
    let (grade, said) = match back {
        back if back <= 2.0 => (Grade::WithinRange, format!("No more than measurement error ({errors}).")),
        back if back <= 2.5 => (Grade::NearLimit, format!("Between two published limits of error ({errors}).")),
        _ => (Grade::OutsideRange, format!("More than measurement error ({errors}).")),
    };
    finding.grade = grade;
    if grade == Grade::WithinRange {
        finding.details.push(said);
    } else {
        finding.details.push(format!("{said} How many centimetres mean tiring is not published."));
        finding.sources.push(&MAPLES);
        finding.details.push(
            "In schoolchildren drawing back over three trials was real but judged unimportant (Maples & Hoenes 2007)."
                .to_string(),
        );
    }
    Some(finding)
}

fn recovery(trials: &[Seen], years: Option<u8>) -> Option<Finding> {
    let distances: Vec<f64> = trials.iter().filter_map(|trial| trial.recovery).collect();
    let mean = mean(&distances)?;
    let of = if distances.len() == 1 { "one trial".to_string() } else { format!("mean of {} trials", distances.len()) };
    let mut finding =
        Finding::new(TASK.id, "recovery", Place::Both, format!("Single again at {}, {of}", RECOVERS.show(mean)));
    finding.value = Some(Value { number: mean, unit: "cm", interval: None });
    if RECOVERY.fits(years) {
        (finding.grade, finding.norm) = (score::grade(mean, &RECOVERY), Some(&RECOVERY));
    } else if years.is_some_and(|years| years < GROWN) {
        finding.details.push(
            "No limit is published for children; averages by grade were 7.2 to 8.7 cm, with a spread of \
                              3.9 to 4.8 cm (Hayes et al. 1998)."
                .to_string(),
        );
        finding.sources.push(&HAYES);
    } else {
        finding
            .details
            .push("The published limit, 7 cm, is for adults up to middle age (Scheiman et al. 2003).".to_string());
        finding.sources.push(&SCHEIMAN);
    }
    for trial in trials {
        if let (Some(broke), Some(recovered)) = (trial.broke(), trial.recovery)
            && recovered < broke
        {
            finding.details.push(format!(
                "Trial {}: single again nearer than it broke; one of the two numbers may be mistyped.",
                trial.number
            ));
        }
    }
    Some(finding)
}

fn angle(record: &Record, trials: &[Seen]) -> Option<Finding> {
    let pupils = record.answers.number("pd").and_then(|mm| PUPILLARY_DISTANCE.check(mm).ok())?;
    let broke: Vec<f64> = trials.iter().filter_map(Seen::broke).collect();
    let mean = mean(&broke)?;
    let behind = vergence::CENTRES_BEHIND_SPECTACLES;
    let at = vergence::convergence(Millimetres(pupils), Centimetres(mean), behind)?;
    let rough = if record.answers.one("zero") == Some("spectacles") { "" } else { "about " };
    let prism = match at.prism {
        Some(prism) => format!("{:.1} prism dioptres (100 times the tangent)", prism.0),
        None => "no number of prism dioptres, since a right angle has no tangent".to_string(),
    };
    let headline = format!(
        "Eyes turned {rough}{:.1}° toward each other at the near point: {prism}, {:.1} by the ratio 100 PD / D",
        at.angle.0, at.ratio.0
    );
    let mut finding = Finding::new(TASK.id, "angle", Place::Both, headline);
    finding.value = Some(Value { number: at.angle.0, unit: "°", interval: None });
    finding
        .details
        .push(format!("True angle, 2 atan(PD / 2D), for {} between the pupils.", PUPILLARY_DISTANCE.show(pupils)));
    let zero = match record.answers.one("zero") {
        Some("spectacles") => "the ruler's zero, the spectacle plane",
        Some(_) => "the ruler's zero, which was not the spectacle plane, so the angle is rough",
        None => "the ruler's zero, whose place was not noted, so the angle is rough",
    };
    finding.details.push(format!("D counts from centres of rotation {} cm behind {zero}.", number(behind.0)));
    finding.sources.push(&vergence::CONVENTION);
    Some(finding)
}

fn first_to_let_go(trials: &[Seen]) -> Vec<Finding> {
    let seen: Vec<LetGo> = trials.iter().filter(|trial| trial.counts()).filter_map(|trial| trial.eye).collect();
    let kinds = [
        (LetGo::One(Eye::Right), Place::In(Eye::Right), "let_go_right", "Right eye let go first"),
        (LetGo::One(Eye::Left), Place::In(Eye::Left), "let_go_left", "Left eye let go first"),
        (LetGo::Both, Place::Both, "let_go_both", "Both eyes let go together"),
    ];
    let mut findings = Vec::new();
    for (kind, place, what, words) in kinds {
        let times = seen.iter().filter(|eye| **eye == kind).count();
        if times > 0 {
            let headline = format!("{words} in {times} of {}", counted(seen.len(), "trial"));
            let mut finding = Finding::new(TASK.id, what, place, headline);
            finding.details.push("By itself this does not tell where a cause lies.".to_string());
            findings.push(finding);
        }
    }
    findings
}

fn healthy(years: Option<u8>) -> &'static [BaseRate] {
    match years {
        Some(years) if years >= OLDER => &[],
        Some(years) if years >= GROWN => &ADULT_RATES,
        Some(years) if years < TEEN => &CHILD_RATES,
        Some(_) => &TEEN_RATES,
        None => &ANY_AGE_RATES,
    }
}

fn left_out(trials: &[Seen]) -> Option<String> {
    let reason = |trial: &Seen| match trial.outcome {
        Outcome::Broke(_) | Outcome::Single => None,
        Outcome::Contradicts => Some(format!("trial {} holds both a distance and “single to the nose”", trial.number)),
        Outcome::Missing => Some(format!("trial {} has no distance", trial.number)),
    };
    let reasons: Vec<String> = trials.iter().filter_map(reason).collect();
    (!reasons.is_empty()).then(|| format!("Left out: {}.", reasons.join("; ")))
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| tidy(values.iter().sum::<f64>() / values.len() as f64))
}

/// Rounds to a hundredth, so that binary fractions do not carry a value across a limit.
fn tidy(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

fn counted(n: usize, noun: &str) -> String {
    if n == 1 { format!("1 {noun}") } else { format!("{n} {noun}s") }
}

#[cfg(test)]
mod tests;
