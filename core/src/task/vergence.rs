//! Turning in and out: a target that comes and goes slowly, then jumps between near and far, counted.
//!
//! Neither grades nor counts have a published limit. A count is set against the person's own earlier one, and its two
//! halves against each other. Blur is kept apart from double: it tells of focusing, not of how the eyes turn.

mod evidence;
mod handed_on;

use self::evidence::{DIPLOPIA, TWO_COUNTS, least_focusing};
use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::Eye;
use crate::capture::answer::Answer;
use crate::capture::form::{Choice, Form, Kind, Pace, Usual, UsualAnswer, asked, choice, detail, hinted, optional};
use crate::capture::record::Record;
use crate::capture::showing::{Showing, Told, program};
use crate::evidence::number;
use crate::finding::{Finding, Gap, Grade, Place, Reading, Value, Why};
use crate::quantity::Quantity;
use crate::side_by_side::{COMPARABLE, LEVEL, frequency};
use crate::statistics::exact::rates_two_sided;

/// The task.
pub static TASK: Task = Task {
    id: "vergence",
    title: "Near and far",
    term: "vergence, slow and in jumps",
    setup: Setup {
        position: "Facing you, head still, in the glasses they use for reading.",
        target: "A small face in the midline, and behind it something small at 3 m or more, such as a letter on a wall.",
        motion: "Slowly from arm's length to about 10 cm from the nose, five seconds, and back as slowly, twice. Then \
                 hold it at 30 cm: near, far, near for 30 s. Count every “now”, each 15 s by itself.",
        say: "Keep it single as it comes and goes. — Then: look near, look far, and so on. Say “now” each time it is \
              single and clear.",
        watch: "Whether both eyes turn in and out together, or one lets go; and whether it blurs or doubles.",
    },
    form: &FORM,
    provokes: true,
    pace: Some(HALVES),
    seconds: 65,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

/// Three beats, at the start, at the half and at the end of the 30 s, so that nobody needs a stopwatch.
static HALVES: Pace = Pace { bpm: 4.0, beats: 3, alternates: false };

/// Seconds of one half.
const HALF: f64 = 15.0;

/// Common practice, no source.
static CAUTIONS: &[Caution] = &[
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on, let them sit, go slowly, and stop when it grows.",
    },
    Caution {
        when: &["surgery"],
        below_age: None,
        says: "After recent eye surgery: only if the surgeon agrees, and never touch the face with the target.",
    },
];

static GRADES: &[Choice] = &[
    choice("smooth", "Smooth, both eyes"),
    hinted("broken", "Broken", "in steps, or one eye lets go"),
    hinted("cannot", "Not possible", "the eyes do not turn"),
];

static EYES: &[Choice] = &[
    choice("right", "Their right"),
    choice("left", "Their left"),
    choice("both", "Both"),
    choice("not_seen", "Not seen"),
];

static WAY: &[Choice] = &[
    choice("blur_near", "Blurred, near"),
    choice("blur_far", "Blurred, far"),
    hinted("double", "Double", "the one they look at is two"),
];

static GLASSES: &[Choice] =
    &[choice("worn", "Worn, for this distance"), choice("none", "None needed"), choice("not_worn", "Needed, not worn")];

/// More than two and a half landings a second are not looked at one by one (common practice).
static FIRST: Quantity =
    Quantity { name: "jumps in the first 15 s", unit: "", min: 0.0, max: 40.0, step: 1.0, decimals: 0 };
static SECOND: Quantity =
    Quantity { name: "jumps in the second 15 s", unit: "", min: 0.0, max: 40.0, step: 1.0, decimals: 0 };
static NEAR: Quantity =
    Quantity { name: "distance of the near target", unit: "cm", min: 10.0, max: 60.0, step: 5.0, decimals: 0 };
static FAR: Quantity =
    Quantity { name: "distance of the far target", unit: "cm", min: 100.0, max: 1000.0, step: 50.0, decimals: 0 };

/// Where the near target is held unless something else is noted, in centimetres (common practice).
const USUAL_NEAR: f64 = 30.0;

static FORM: Form = Form {
    id: "vergence",
    fields: &[
        asked("convergence", "Turning in, slowly", Kind::One(GRADES)),
        optional("convergence_eye", "Which eye lets go", Kind::One(EYES)).only_if("convergence", &["broken", "cannot"]),
        asked("divergence", "Turning out, slowly", Kind::One(GRADES)),
        optional("divergence_eye", "Which eye lags", Kind::One(EYES)).only_if("divergence", &["broken", "cannot"]),
        asked("first", "“Now” in the first 15 s", Kind::Number(&FIRST)),
        asked("second", "“Now” in the second 15 s", Kind::Number(&SECOND)),
        asked("way", "On the way", Kind::Many { choices: WAY, none: "Clear and single" })
            .help("Blur is a matter of focusing or glasses, double of how the eyes turn."),
        detail("near", "From the eyes to the near target", Kind::Number(&NEAR)),
        detail("far", "From the eyes to the far target", Kind::Number(&FAR)),
        detail("glasses", "Glasses for near", Kind::One(GLASSES)),
    ],
    usual: &[
        Usual { key: "convergence", answer: UsualAnswer::One("smooth") },
        Usual { key: "divergence", answer: UsualAnswer::One("smooth") },
        Usual { key: "way", answer: UsualAnswer::NoneOf },
    ],
    usual_label: "Smooth, clear and single",
    fills,
};

/// What a near target on a screen answers by itself: how far away it was.
fn fills(showings: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    Told::by(showings, program::NEAR_FAR, Showing::distance).fills("near", Answer::Number).into_iter().collect()
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    if record.skipped() || record.answers.is_empty() {
        return Reading::default();
    }
    let turned = Way::BOTH.map(|way| (way, Turned::read(way, record)));
    let jumps = Jumps::read(record);
    let mut reading = Reading { gaps: gaps(record, &jumps), ..Reading::default() };
    reading.findings.extend(turned.iter().filter_map(|(way, turned)| Some(turning(*way, turned.as_ref()?))));
    reading.findings.extend(counted(&jumps));
    reading.findings.extend(halves(&jumps));
    reading.findings.extend(on_the_way(record, context.years()));
    handed_on::hand_on(&mut reading, &turned, &jumps, record);
    reading
}

/// Which way the eyes turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    In,
    Out,
}

impl Way {
    const BOTH: [Way; 2] = [Way::In, Way::Out];

    /// The field's key, and the word of the trade.
    fn word(self) -> &'static str {
        match self {
            Way::In => "convergence",
            Way::Out => "divergence",
        }
    }

    fn eye_key(self) -> &'static str {
        match self {
            Way::In => "convergence_eye",
            Way::Out => "divergence_eye",
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Quality {
    Smooth,
    Broken,
    Cannot,
}

impl Quality {
    fn from_id(id: &str) -> Option<Quality> {
        match id {
            "smooth" => Some(Quality::Smooth),
            "broken" => Some(Quality::Broken),
            "cannot" => Some(Quality::Cannot),
            _ => None,
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Quality::Smooth => "smooth",
            Quality::Broken => "broken",
            Quality::Cannot => "not possible",
        }
    }

    /// One step worse than smooth is near the limit, two are outside it: common practice.
    fn grade(self) -> Grade {
        match self {
            Quality::Smooth => Grade::WithinRange,
            Quality::Broken => Grade::NearLimit,
            Quality::Cannot => Grade::OutsideRange,
        }
    }
}

/// How the eyes turned one way, and which of them did not.
#[derive(Debug, Clone, Copy)]
struct Turned {
    quality: Quality,
    eye: Option<Eye>,
}

impl Turned {
    fn read(way: Way, record: &Record) -> Option<Turned> {
        let quality = Quality::from_id(record.answers.one(way.word())?)?;
        let eye = match record.answers.one(way.eye_key()) {
            Some("right") => Some(Eye::Right),
            Some("left") => Some(Eye::Left),
            _ => None,
        };
        // An eye noted before the answer was changed to smooth lets go of nothing.
        Some(Turned { quality, eye: eye.filter(|_| quality != Quality::Smooth) })
    }
}

/// The jumps counted in each half.
#[derive(Debug, Clone, Copy)]
struct Jumps {
    first: Option<f64>,
    second: Option<f64>,
}

impl Jumps {
    fn read(record: &Record) -> Jumps {
        let count = |key: &str, quantity: &Quantity| {
            let count = record.answers.number(key).and_then(|count| quantity.check(count).ok())?;
            Some(count.round())
        };
        Jumps { first: count("first", &FIRST), second: count("second", &SECOND) }
    }

    /// Both halves, when both were counted.
    fn both(&self) -> Option<(f64, f64)> {
        self.first.zip(self.second)
    }
}

/// How the eyes turned one way.
fn turning(way: Way, turned: &Turned) -> Finding {
    let eye = turned.eye.map_or_else(String::new, |eye| match way {
        Way::In => format!(", {} eye lets go", eye.word()),
        Way::Out => format!(", {} eye lags", eye.word()),
    });
    let headline = format!("Slow {} {}{eye}", way.word(), turned.quality.words());
    let place = turned.eye.map_or(Place::Both, Place::In);
    let mut finding = Finding::new(TASK.id, way.word(), place, headline);
    finding.grade = turned.quality.grade();
    if finding.grade == Grade::WithinRange {
        return finding;
    }
    finding.details = vec![
        "No limit is published (common practice). Tiredness, wandering attention and missing reading glasses do the same."
            .to_string(),
        "By itself this does not tell where a cause lies.".to_string(),
    ];
    finding
}

/// How many jumps between near and far became single and clear.
fn counted(jumps: &Jumps) -> Option<Finding> {
    let half = |count: f64, which: &str| format!("Near-far jumps: {} in the {which} 15 s", number(count));
    let (headline, all) = match (jumps.first, jumps.second) {
        (Some(first), Some(second)) => {
            let all = first + second;
            (format!("Near-far jumps: {} in 30 s", number(all)), Some((first, second)))
        }
        (Some(first), None) => (half(first, "first"), None),
        (None, Some(second)) => (half(second, "second"), None),
        (None, None) => return None,
    };
    let mut finding = Finding::new(TASK.id, "jumps", Place::Both, headline);
    let against = "No limit was found for this count: set it against the person's own count at the same distances.";
    finding.details = match all {
        Some((first, second)) => {
            finding.value = Some(Value { number: first + second, unit: "", interval: None });
            vec![format!("{} in the first 15 s, {} in the second. {against}", number(first), number(second))]
        }
        None => vec![against.to_string()],
    };
    Some(finding)
}

/// The second half against the first.
///
/// The test takes jumps to come independently. A steady rhythm makes it cautious, so fewer jumps within chance are told
/// as they are, and not as "no tiring".
fn halves(jumps: &Jumps) -> Option<Finding> {
    let (first, second) = jumps.both()?;
    // Both are whole numbers from 0 to 40.
    let (early, late) = (first as u32, second as u32);
    let p = rates_two_sided(early, HALF, late, HALF).filter(|_| early + late >= 2 * COMPARABLE)?;
    let fewer = second < first;
    let (headline, grade) = match (fewer, p <= LEVEL) {
        (true, true) => ("Fewer near-far jumps in the second half", Grade::NearLimit),
        (true, false) => ("Fewer near-far jumps in the second half, but within chance", Grade::NoRange),
        (false, _) => ("No sign of tiring over the near-far jumps", Grade::WithinRange),
    };
    let mut finding = Finding::new(TASK.id, "tiring", Place::Both, headline.to_string());
    finding.grade = grade;
    if fewer {
        finding.details = vec![format!(
            "{} in the first 15 s, {} in the second. If nothing changed on the way, so large a difference would still \
             come up in {} (exact test of two counts). No limit is published; wandering attention does the same.",
            number(first),
            number(second),
            frequency(p)
        )];
        finding.sources = vec![&TWO_COUNTS];
    }
    Some(finding)
}

/// What blurred and what doubled.
fn on_the_way(record: &Record, years: Option<u8>) -> Vec<Finding> {
    let Some(noted) = record.answers.many("way") else { return Vec::new() };
    if noted.is_empty() {
        let mut finding =
            Finding::new(TASK.id, "way", Place::Both, "Clear and single between near and far".to_string());
        finding.grade = Grade::WithinRange;
        return vec![finding];
    }
    let has = |id: &str| noted.iter().any(|noted| noted == id);
    let double = has("double").then(double);
    let near = has("blur_near").then(|| blurred_near(record, years));
    let far = has("blur_far").then(blurred_far);
    double.into_iter().chain(near).chain(far).collect()
}

fn double() -> Finding {
    let mut finding = Finding::new(TASK.id, "double", Place::Both, "Double between near and far".to_string());
    finding.grade = Grade::NearLimit;
    finding.details = vec![
        "No limit is published (common practice). The near point says from where on; tiredness and missing reading \
         glasses do the same."
            .to_string(),
        "New double vision that stays when they look far is a danger sign: cover each eye in turn (emergency teaching on \
         double vision)."
            .to_string(),
    ];
    finding.sources = vec![&DIPLOPIA];
    finding
}

const NOT_DOUBLE: &str =
    "Blur is another thing than double: it tells of focusing or glasses, not of how the eyes turn.";

/// Blur of the near target. It is ordinary where the target asks for more focusing than the age is sure to have.
fn blurred_near(record: &Record, years: Option<u8>) -> Finding {
    let mut finding = Finding::new(TASK.id, "blur_near", Place::Both, "Near target blurred".to_string());
    let near = record.answers.number("near").and_then(|cm| NEAR.check(cm).ok());
    let asked = 100.0 / near.unwrap_or(USUAL_NEAR);
    let least = years.map(least_focusing);
    let glasses = match record.answers.one("glasses") {
        Some("worn") => "Look whether the glasses worn are made for this distance.",
        Some("not_worn") => "The glasses for near were not worn: look again with them.",
        _ => "Look again with glasses for near, if there are any.",
    };
    let first = match (years, least) {
        (Some(years), Some((least, source))) if least < asked => {
            let at = NEAR.show(near.unwrap_or(USUAL_NEAR));
            finding.sources.push(source);
            format!(
                "At {years} years this is ordinary without glasses for near: {at} asks for {} dioptres of \
                 focusing, and at this age no more than {} are sure to be there ({}).",
                number(asked),
                number(least),
                source.short
            )
        }
        (Some(_), Some((_, source))) if record.answers.one("glasses") != Some("not_worn") => {
            finding.grade = Grade::NearLimit;
            finding.sources.push(source);
            format!(
                "At this age focusing should reach the near target ({}). No limit is published for this task (common \
                 practice).",
                source.short
            )
        }
        _ => "Recorded only: whether it is ordinary depends on age and glasses.".to_string(),
    };
    finding.details = vec![first, glasses.to_string(), NOT_DOUBLE.to_string()];
    finding
}

fn blurred_far() -> Finding {
    let mut finding = Finding::new(TASK.id, "blur_far", Place::Both, "Far target blurred".to_string());
    // That these do it is common practice.
    finding.details = vec![
        "Glasses for far may be missing, or focusing lets go slowly after near work.".to_string(),
        NOT_DOUBLE.to_string(),
    ];
    finding
}

fn gaps(record: &Record, jumps: &Jumps) -> Vec<Gap> {
    let gap = |what: &str, why| Gap { slot: TASK.id.to_string(), what: what.to_string(), why };
    let missing = |key: &str| if record.answers.get(key).is_some() { Why::Unread } else { Why::NotRecorded };
    let mut gaps = Vec::new();
    for way in Way::BOTH {
        if Turned::read(way, record).is_none() {
            gaps.push(gap(&format!("slow {}", way.word()), missing(way.word())));
        }
    }
    match (jumps.first, jumps.second) {
        (Some(_), Some(_)) => {}
        (None, None) => gaps.push(gap("near-far jumps", missing("first"))),
        (None, Some(_)) => gaps.push(gap("near-far jumps in the first 15 s", missing("first"))),
        (Some(_), None) => gaps.push(gap("near-far jumps in the second 15 s", missing("second"))),
    }
    match record.answers.many("way") {
        None => gaps.push(gap("blur or double between near and far", missing("way"))),
        Some(noted) if noted.iter().any(|id| WAY.iter().all(|choice| choice.id != id)) => {
            gaps.push(gap("something seen between near and far that is unknown here", Why::Unread));
        }
        Some(_) => {}
    }
    gaps
}

#[cfg(test)]
mod tests;
