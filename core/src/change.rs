//! Change between two visits of one person: each value against the error of measuring it, before anyone calls it better.

mod judge;
mod method;

use crate::anatomy::{Direction, Place};
use crate::assess::{Assessment, assess};
use crate::calendar::Moment;
use crate::capture::form::label;
use crate::capture::frame;
use crate::capture::visit::{Person, Visit};
use crate::evidence::{ChangeLimit, Citation};
use crate::measure::{Amount, Better, Measure};
use crate::side_by_side::NEWCOMBE;
use crate::sorted;
use crate::statistics::Interval;
use crate::task;

pub use judge::off_by;
pub use method::Differs;

/// A visit together with what it says.
#[derive(Debug, Clone, Copy)]
pub struct Occasion<'a> {
    /// The visit.
    pub visit: &'a Visit,
    /// What it says.
    pub assessment: &'a Assessment,
}

/// What changed between two visits, in exam order.
#[derive(Debug, Clone, PartialEq)]
pub struct Changes {
    /// The id of the earlier visit.
    pub earlier: String,
    /// When the earlier visit was begun.
    pub since: Moment,
    /// What the earlier visit is to the later one.
    pub relation: Relation,
    /// Every value that both visits have.
    pub all: Vec<Change>,
    /// Values that only the earlier visit has, in words.
    pub only_then: Vec<String>,
    /// Values that only the later visit has, in words.
    pub only_now: Vec<String>,
    /// What else differed between the visits, as sentences.
    pub circumstances: Vec<String>,
    /// The direction in which movements were worse over several tasks then, and the other one in which they are now.
    pub turned: Option<(Direction, Direction)>,
}

/// What the earlier visit is to the later one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// The person's own baseline.
    OwnBaseline,
    /// The later visit is the person's own baseline: the follow-up is dated before it.
    BeforeBaseline,
    /// An earlier visit like any other.
    Earlier,
}

/// One value then and now.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Key of the measure.
    pub key: String,
    /// The task, or "symptoms".
    pub task: &'static str,
    /// What is measured, with its place: "jumps to the left not on target".
    pub what: String,
    /// Where.
    pub place: Place,
    /// At the earlier visit.
    pub then: Amount,
    /// At the later visit.
    pub now: Amount,
    /// Which way it went.
    pub way: Way,
    /// How sure that is.
    pub verdict: Verdict,
    /// Published limits of error, smallest first.
    pub limits: Vec<&'static ChangeLimit>,
    /// 95 % interval of the difference now minus then, for shares.
    pub difference: Option<Interval>,
    /// In what the ways of measuring differed.
    pub method: Vec<Differs>,
    /// Parts of the way of measuring that were noted at one visit only.
    pub not_noted: Vec<&'static str>,
}

/// Which way a value went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// For the better.
    Better,
    /// For the worse.
    Worse,
    /// Up, where neither is better.
    Up,
    /// Down, where neither is better.
    Down,
    /// The same, as printed.
    Same,
}

/// How sure a change is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Beyond every published limit of error; for shares, the interval of the difference leaves out zero.
    Certain,
    /// Beyond some published limits of error, not all.
    SomeLimits,
    /// No more than the error of measuring.
    WithinError,
    /// No limit of error is published: told as seen, not tested.
    Untested,
    /// The way of measuring differed, so the difference is not tested.
    OtherMethod,
    /// Too few repetitions at one of the visits.
    TooFew,
    /// The two values are not of one kind or unit.
    NotAlike,
}

impl Verdict {
    /// Whether the difference was set against an error of measuring.
    #[must_use]
    pub fn tested(self) -> bool {
        match self {
            Verdict::Certain | Verdict::SomeLimits | Verdict::WithinError => true,
            Verdict::Untested | Verdict::OtherMethod | Verdict::TooFew | Verdict::NotAlike => false,
        }
    }

    /// Whether it is more than the error of measuring, by all or some of the limits.
    #[must_use]
    pub fn beyond_error(self) -> bool {
        match self {
            Verdict::Certain | Verdict::SomeLimits => true,
            Verdict::WithinError | Verdict::Untested | Verdict::OtherMethod | Verdict::TooFew | Verdict::NotAlike => {
                false
            }
        }
    }
}

/// The visit that a visit is compared with: the person's own baseline if there is an earlier one, else the latest earlier
/// closed visit in which something was examined.
#[must_use]
pub fn earlier<'a>(visit: &Visit, all: &'a [Visit]) -> Option<&'a Visit> {
    let before = |other: &&Visit| {
        let same_person = other.person == visit.person && other.id != visit.id;
        same_person && other.closed.is_some() && other.started < visit.started && examined(other)
    };
    let latest = |visits: Vec<&'a Visit>| visits.into_iter().max_by_key(|other| other.started);
    let (baselines, others) = all.iter().filter(before).partition(|other| frame::is_baseline(other));
    latest(baselines).or_else(|| latest(others))
}

/// The changes since the visit that [`earlier`] chooses; `None` when there is none.
#[must_use]
pub fn since_earlier(person: &Person, visit: &Visit, assessment: &Assessment, all: &[Visit]) -> Option<Changes> {
    let before = earlier(visit, all)?;
    let then = assess(person, before);
    Some(between(Occasion { visit: before, assessment: &then }, Occasion { visit, assessment }))
}

/// Sets two visits of one person side by side, whichever is given first: the one dated earlier is the earlier one.
#[must_use]
pub fn between(one: Occasion<'_>, other: Occasion<'_>) -> Changes {
    let (then, now) = if other.visit.started < one.visit.started { (other, one) } else { (one, other) };
    let (before, after): (Vec<&Measure>, Vec<&Measure>) =
        (then.assessment.measures().collect(), now.assessment.measures().collect());
    let pair = |now: &&Measure| before.iter().find(|then| then.key == now.key).map(|then| compare(then, now));
    Changes {
        earlier: then.visit.id.clone(),
        since: then.visit.started,
        relation: relation(then.visit, now.visit),
        all: after.iter().filter_map(pair).collect(),
        only_then: missing_from(&after, &before),
        only_now: missing_from(&before, &after),
        circumstances: circumstances(then.visit, now.visit),
        turned: then.assessment.side.worse().zip(now.assessment.side.worse()).filter(|(then, now)| then != now),
    }
}

impl Changes {
    /// How many values were set against an error of measuring.
    #[must_use]
    pub fn tested(&self) -> usize {
        self.all.iter().filter(|change| change.verdict.tested()).count()
    }

    /// Sources of the limits, intervals and effects of method behind the changes, each once.
    #[must_use]
    pub fn sources(&self) -> Vec<&'static Citation> {
        let mut sources: Vec<&'static Citation> = Vec::new();
        for change in &self.all {
            let limits = change.limits.iter().map(|limit| limit.source);
            let method = change.method.iter().filter_map(|differs| differs.effect.map(|effect| effect.source));
            let interval = change.difference.map(|_| &NEWCOMBE);
            for source in limits.chain(method).chain(interval) {
                if sources.iter().all(|known| known.short != source.short) {
                    sources.push(source);
                }
            }
        }
        sources
    }
}

/// What is measured with its place, unless the words tell the place already.
#[must_use]
pub fn named(measure: &Measure) -> String {
    let place = match measure.place {
        Place::Both => return measure.what.clone(),
        Place::Toward(direction) => direction.phrase().to_string(),
        Place::In(eye) => format!("in the {} eye", eye.word()),
        Place::On(side) => format!("on the {}", side.word()),
    };
    let word = match measure.place {
        Place::Both => "",
        Place::Toward(direction) => direction.word(),
        Place::In(eye) => eye.word(),
        Place::On(side) => side.word(),
    };
    if measure.what.contains(word) { measure.what.clone() } else { format!("{} {place}", measure.what) }
}

/// Sets one value now against the same value then.
#[must_use]
pub fn compare(then: &Measure, now: &Measure) -> Change {
    let method = method::differences(&now.key, &then.method, &now.method);
    let judged = judge::judge(&then.amount, &now.amount, now.limits);
    let verdict = if method.is_empty() { judged.verdict } else { judged.verdict.by_another_method() };
    let fits = |limit: &&ChangeLimit| matches!(now.amount, Amount::Number { unit, .. } if unit == limit.unit);
    let mut limits: Vec<&'static ChangeLimit> = now.limits.iter().filter(fits).collect();
    sorted::by(&mut limits, |a, b| a.value.total_cmp(&b.value));
    Change {
        key: now.key.clone(),
        task: now.task,
        what: named(now),
        place: now.place,
        then: then.amount.clone(),
        now: now.amount.clone(),
        way: way(judged.up, now.better),
        verdict,
        limits,
        difference: judged.difference,
        method,
        not_noted: method::noted_once(&now.key, &then.method, &now.method),
    }
}

impl Verdict {
    /// A difference in method leaves nothing to test; what could not be compared at all stays so.
    fn by_another_method(self) -> Verdict {
        match self {
            Verdict::Certain
            | Verdict::SomeLimits
            | Verdict::WithinError
            | Verdict::Untested
            | Verdict::OtherMethod => Verdict::OtherMethod,
            Verdict::TooFew => Verdict::TooFew,
            Verdict::NotAlike => Verdict::NotAlike,
        }
    }
}

fn way(up: std::cmp::Ordering, better: Better) -> Way {
    use std::cmp::Ordering::{Equal, Greater, Less};
    match (up, better) {
        (Equal, _) => Way::Same,
        (Greater, Better::Higher) | (Less, Better::Lower) => Way::Better,
        (Greater, Better::Lower) | (Less, Better::Higher) => Way::Worse,
        (Greater, Better::Neither) => Way::Up,
        (Less, Better::Neither) => Way::Down,
    }
}

fn relation(then: &Visit, now: &Visit) -> Relation {
    match (frame::is_baseline(then), frame::is_baseline(now)) {
        (true, _) => Relation::OwnBaseline,
        (false, true) => Relation::BeforeBaseline,
        (false, false) => Relation::Earlier,
    }
}

/// Names of those measures of the second list that the first lacks.
fn missing_from(these: &[&Measure], those: &[&Measure]) -> Vec<String> {
    let lacking = those.iter().filter(|that| these.iter().all(|this| this.key != that.key));
    lacking.map(|measure| named(measure)).collect()
}

/// What of the frame can move the values by itself and differed: glasses, and influences of one of the two days.
fn circumstances(then: &Visit, now: &Visit) -> Vec<String> {
    let glasses = |visit: &Visit| answered(visit, "glasses");
    let mut said = Vec::new();
    if let (Some(then), Some(now)) = (glasses(then), glasses(now))
        && then != now
    {
        said.push(format!("Glasses for near then: {}; now: {}.", then.to_lowercase(), now.to_lowercase()));
    }
    let (then, now) = (influences(then), influences(now));
    if then != now {
        let words = |list: &[String]| if list.is_empty() { "nothing known".to_string() } else { list.join(", ") };
        if let (Some(then), Some(now)) = (&then, &now) {
            said.push(format!("What else could change eye movements then: {}; now: {}.", words(then), words(now)));
        }
    }
    said
}

fn answered(visit: &Visit, key: &str) -> Option<String> {
    use crate::capture::form::Kind;
    let id = visit.filled(frame::SLOT)?.answers.one(key)?;
    match &frame::FORM.field(key)?.kind {
        Kind::One(choices) => Some(label(choices, id).to_string()),
        Kind::Many { .. }
        | Kind::Number(_)
        | Kind::Text { .. }
        | Kind::Day
        | Kind::Ratings(_)
        | Kind::Trials(_)
        | Kind::Series(_)
        | Kind::Grid(_) => None,
    }
}

/// The ticked influences in words; `None` when it was not asked.
fn influences(visit: &Visit) -> Option<Vec<String>> {
    use crate::capture::form::Kind;
    let ids = visit.filled(frame::SLOT)?.answers.many("influences")?;
    let Kind::Many { choices, .. } = &frame::FORM.field("influences")?.kind else { return None };
    Some(ids.iter().map(|id| label(choices, id).to_lowercase()).collect())
}

/// Whether any task holds an answer.
fn examined(visit: &Visit) -> bool {
    task::ALL.iter().any(|task| visit.filled(task.id).is_some_and(|record| !record.answers.is_empty()))
}

#[cfg(test)]
mod tests;
