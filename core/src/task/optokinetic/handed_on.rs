//! What the stripes hand on: signs by the direction they moved in, misses and rates for the next visit, and every stripe
//! in its order.

use super::{INSTRUCTIONS, MISSES, SPEED, STIMULI, Stripes, TASK, WIDTH, missed};
use crate::anatomy::{Direction, Place};
use crate::capture::answer::Series;
use crate::capture::form::label;
use crate::capture::record::Record;
use crate::capture::showing::{self, program};
use crate::finding::{Finding, Grade, Reading};
use crate::measure::{Amount, Better, Measure, Sided};
use crate::quantity::Quantity;
use crate::side_by_side::handed_on::{Counted, Method, sided};
use crate::side_by_side::{self, COMPARABLE, grade_share};
use crate::sign::{Sign, What};

static MISSED: Counted = Counted { task: "optokinetic", key: "missed", noun: "stripes moving", event: "missed" };

pub(super) fn hand_on(reading: &mut Reading, seen: &[Stripes; 2], series: &Series, record: &Record) {
    let phases = |stripes| [reduced(stripes, record, &reading.findings), quick(stripes, record, &reading.findings)];
    reading.signs = seen.iter().flat_map(phases).flatten().collect();
    let method = method(record);
    for stripes in seen.iter().filter(|stripes| !stripes.too_fast()) {
        let toward = stripes.direction;
        let share = MISSED.share(toward, stripes.misses(), [method.clone(), vec![pace(stripes)]].concat());
        reading.measures.extend(share.map(|measure| Measure { norm: Some(&MISSES), ..measure }));
        reading.measures.extend(rate(stripes, &method));
        reading.courses.extend(MISSED.course(toward, stripes.missed.clone()));
    }
    if seen.iter().any(Stripes::too_fast) {
        return;
    }
    reading.signs.extend(worse(seen, &reading.findings));
    let known = series.taps.iter().filter_map(|tap| Some((Direction::from_word(&tap.pad)?, missed(&tap.mark)?)));
    // A tape is drawn to one side, then to the other, even when the runs were begun anew in between.
    let sided = sided(TASK.id, "stripes missed", known).map(|sided| Sided { in_turn: false, ..sided });
    reading.sided.extend(sided);
}

/// Weak or absent by the look of it, or most stripes missed.
fn reduced(stripes: &Stripes, record: &Record, findings: &[Finding]) -> Option<Sign> {
    let toward = stripes.direction.word();
    let told = |what: &str| findings.iter().find(|finding| finding.key == format!("{}.{what}_{toward}", TASK.id));
    let (slow, misses) = (told("slow"), told("missed"));
    let looked = record.answers.cell("phases", toward, "slow").is_some();
    let (counted, most) = missing(stripes);
    let finding = if most { misses.or(slow) } else { slow.or(misses) };
    let sign = |finding: &Finding| {
        let seen = most || slow.is_some();
        Sign::new(What::OptokineticReduced, Place::Toward(stripes.direction), seen, &finding.key)
    };
    finding.filter(|_| looked || counted).map(sign)
}

/// The jump back weak or absent by the look of it, or missing because most stripes were missed. It goes against the stripes.
fn quick(stripes: &Stripes, record: &Record, findings: &[Finding]) -> Option<Sign> {
    let toward = stripes.direction.mirrored();
    let told = |what: String| findings.iter().find(|finding| finding.key == format!("{}.{what}", TASK.id));
    let quick = told(format!("quick_{}", toward.word()));
    let misses = told(format!("missed_{}", stripes.direction.word()));
    let looked = record.answers.cell("phases", stripes.direction.word(), "quick").is_some();
    let (counted, most) = missing(stripes);
    let finding = if most { misses.or(quick) } else { quick.or(misses) };
    let seen = most || quick.is_some();
    let sign = |finding: &Finding| Sign::new(What::QuickPhaseReduced, Place::Toward(toward), seen, &finding.key);
    finding.filter(|_| looked || counted).map(sign)
}

/// Whether enough stripes were counted, and whether most of them were missed.
fn missing(stripes: &Stripes) -> (bool, bool) {
    let counted = !stripes.too_fast() && stripes.misses().n() >= COMPARABLE;
    (counted, counted && grade_share(stripes.misses(), &MISSES) == Grade::OutsideRange)
}

/// Worse one way by misses or by rate; when the two point different ways, nothing can be said.
fn worse(seen: &[Stripes; 2], findings: &[Finding]) -> Vec<Sign> {
    let told = |what: &str| findings.iter().find(|finding| finding.key == format!("{}.{what}", TASK.id));
    let (misses, rates) = (told("right_left"), told("rate"));
    let side = |finding: Option<&Finding>| match finding?.place {
        Place::Toward(direction) => Some(direction),
        Place::Both | Place::In(_) | Place::On(_) => None,
    };
    let worse = match (side(misses), side(rates)) {
        (Some(misses), Some(rates)) if misses != rates => return Vec::new(),
        (misses, rates) => misses.or(rates),
    };
    let [right, left] = seen.each_ref().map(Stripes::misses);
    let compared = side_by_side::compare(TASK.id, "missed", "stripes missed", right, left).p.is_some();
    if worse.is_none() && !compared && rates.is_none() {
        return Vec::new();
    }
    let tells = misses.filter(|finding| side(Some(finding)).is_some()).or(rates);
    let sign = |toward: Direction| {
        let own = format!("{}.missed_{}", TASK.id, toward.word());
        let finding = tells.map_or(own, |finding| finding.key.clone());
        Sign::new(What::OptokineticWorse, Place::Toward(toward), worse == Some(toward), &finding)
    };
    [Direction::Right, Direction::Left].map(sign).to_vec()
}

/// How many were taken up in a second. The hand that moves the stripes sets it too, so neither more nor less is better;
/// when a beat gave the pace there is none.
fn rate(stripes: &Stripes, method: &Method) -> Option<Measure> {
    let rate = stripes.rate.filter(|rate| !stripes.paced && rate.seconds > 0.0)?;
    Some(Measure {
        key: format!("{}.rate.{}", TASK.id, stripes.direction.word()),
        task: TASK.id,
        what: format!("stripes moving {} taken up in a second", stripes.direction.phrase()),
        place: Place::Toward(stripes.direction),
        amount: Amount::Number { value: rate.per_second(), unit: "/s" },
        better: Better::Neither,
        method: method.clone(),
        limits: &[],
        norm: None,
    })
}

fn pace(stripes: &Stripes) -> (&'static str, String) {
    ("pace", if stripes.paced { "by a beat" } else { "by hand" }.to_string())
}

fn method(record: &Record) -> Method {
    let chosen = |name, key: &str, choices| record.answers.one(key).map(|id| (name, label(choices, id).to_string()));
    let sized = |key: &str, quantity: &'static Quantity| {
        let value = record.answers.number(key).and_then(|value| quantity.check(value).ok())?;
        Some((quantity.name, quantity.show(value)))
    };
    let parts = [
        chosen("stripes on a", "stimulus", STIMULI),
        sized("width", &WIDTH),
        sized("speed", &SPEED),
        chosen("told", "instruction", INSTRUCTIONS),
        showing::method(&record.showings, program::STRIPES),
    ];
    parts.into_iter().flatten().collect()
}
