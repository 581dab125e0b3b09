//! What a visit says as values, for another program: no words that are not in the summary, and no rule of its own.
//!
//! The form has a name and a version. Numbers are in the unit named beside them; absent is left out, never zero. Places
//! are "right", "left", "up", "down" (movements that way), "right eye", "left eye", "right side" and "left side".

use serde_json::{Map, Value, json};

use crate::anatomy::Place;
use crate::assess::Assessment;
use crate::calendar::iso_date;
use crate::capture::addendum::{self, Addendum};
use crate::capture::showing::{self, Showing};
use crate::capture::visit::Visit;
use crate::change::{Change, Changes, Verdict, Way};
use crate::finding::{Comparison, Finding, Gap, Grade, Why};
use crate::measure::Amount;
use crate::pattern::Pattern;
use crate::side::{Compared, Outcome, SideReading};
use crate::statistics::Interval;

/// Writes the assessment, the changes since an earlier visit if there is one, and the visit's own of these addenda, as JSON
/// with two-blank indents.
#[must_use]
pub fn render(visit: &Visit, assessment: &Assessment, changes: Option<&Changes>, addenda: &[Addendum]) -> String {
    let mut whole = json!({
        "format": "sidelight assessment",
        "version": 1,
        "visit": visit.id,
        "day": iso_date(visit.started.date()),
        "stopped": assessment.stopped,
        "flags": assessment.flags.iter().map(|flag| json!({ "id": flag.id, "seen": flag.seen })).collect::<Vec<_>>(),
        "findings": assessment.findings().map(finding).collect::<Vec<_>>(),
        "right_against_left": assessment.comparisons().map(comparison).collect::<Vec<_>>(),
        "side": side(&assessment.side),
        "patterns": assessment.patterns.iter().map(pattern).collect::<Vec<_>>(),
        "contradictions": assessment.contradictions.iter().map(|each| json!(each.from)).collect::<Vec<_>>(),
        "gaps": assessment.gaps.iter().map(gap).collect::<Vec<_>>(),
    });
    if let (Some(changes), Some(object)) = (changes, whole.as_object_mut()) {
        let all: Vec<Value> = changes.all.iter().map(change).collect();
        object.insert("changes".into(), json!({ "since": iso_date(changes.since.date()), "all": all }));
    }
    let shown: Vec<Value> =
        visit.records.iter().flat_map(|r| r.showings.iter().map(|each| shown(&r.slot, each))).collect();
    if let (false, Some(object)) = (shown.is_empty(), whole.as_object_mut()) {
        object.insert("shown".into(), json!(shown));
    }
    let own = addendum::of_visit(addenda, &visit.id);
    if let (false, Some(object)) = (own.is_empty(), whole.as_object_mut()) {
        let own: Vec<Value> =
            own.into_iter().map(|one| json!({ "written": one.written.iso(), "says": one.text })).collect();
        object.insert("addenda".into(), json!(own));
    }
    format!("{whole:#}\n")
}

/// What a screen showed, with the settings by their keys.
fn shown(slot: &str, showing: &Showing) -> Value {
    let mut settings = Map::new();
    for setting in &showing.settings {
        match &setting.value {
            showing::Value::Number(number) => settings.insert(setting.key.clone(), json!(tidy(*number))),
            showing::Value::Word(word) => settings.insert(setting.key.clone(), json!(word)),
            showing::Value::Newer => None,
        };
    }
    json!({
        "task": slot,
        "program": showing.program,
        "settings": settings,
        "seconds": tidy(showing.seconds),
        "says": showing::says(showing),
    })
}

fn finding(finding: &Finding) -> Value {
    let mut object = Map::new();
    object.insert("key".into(), json!(finding.key));
    object.insert("place".into(), json!(place(finding.place)));
    object.insert("grade".into(), json!(grade(finding.grade)));
    object.insert("says".into(), json!(finding.headline));
    if let Some(value) = &finding.value {
        object.insert("value".into(), json!(tidy(value.number)));
        object.insert("unit".into(), json!(value.unit));
        put_interval(&mut object, value.interval);
    }
    if let Some(norm) = finding.norm {
        object.insert("norm".into(), json!(norm.id));
    }
    Value::Object(object)
}

fn comparison(comparison: &Comparison) -> Value {
    let mut object = Map::new();
    object.insert("key".into(), json!(comparison.key));
    for (name, share) in [("right", comparison.right), ("left", comparison.left)] {
        object.insert(name.into(), json!([share.events(), share.n()]));
    }
    if let Some(p) = comparison.p {
        object.insert("p".into(), json!(tidy(p)));
    }
    put_interval(&mut object, comparison.difference);
    Value::Object(object)
}

fn side(side: &SideReading) -> Value {
    let mut object = Map::new();
    let (outcome, compared): (&str, Option<&Compared>) = match &side.outcome {
        Outcome::TooFew { .. } => ("too few", None),
        Outcome::NoSide(compared) => ("none", Some(compared)),
        Outcome::NotNamed(compared) => ("not named", Some(compared)),
        Outcome::Worse(direction, compared) => (direction.word(), Some(compared)),
    };
    object.insert("worse".into(), json!(outcome));
    if let Some(compared) = compared {
        object.insert("p".into(), json!(tidy(compared.p)));
        object.insert("difference".into(), json!(tidy(compared.difference)));
        put_interval(&mut object, Some(compared.interval));
    }
    object.insert("tasks".into(), json!(side.tasks.iter().map(|task| task.task).collect::<Vec<_>>()));
    Value::Object(object)
}

fn pattern(pattern: &Pattern) -> Value {
    json!({
        "id": pattern.id,
        "says": pattern.headline,
        "evidence": pattern.level.letter(),
        "place": place(pattern.place),
        "from": pattern.from,
    })
}

fn gap(gap: &Gap) -> Value {
    let (why, reason) = match &gap.why {
        Why::NotDone(reason) => ("not done", Some(reason)),
        Why::NotTestable(reason) => ("not testable", Some(reason)),
        Why::Dropped(reason) => ("left out", Some(reason)),
        Why::NotRecorded => ("not recorded", None),
        Why::TooFew => ("too few", None),
        Why::Unread => ("not readable", None),
    };
    let mut object = Map::new();
    object.insert("slot".into(), json!(gap.slot));
    object.insert("what".into(), json!(gap.what));
    object.insert("why".into(), json!(why));
    if let Some(reason) = reason {
        object.insert("reason".into(), json!(reason));
    }
    Value::Object(object)
}

fn change(change: &Change) -> Value {
    let mut object = Map::new();
    object.insert("key".into(), json!(change.key));
    object.insert("then".into(), amount(&change.then));
    object.insert("now".into(), amount(&change.now));
    object.insert("way".into(), json!(way(change.way)));
    object.insert("verdict".into(), json!(verdict(change.verdict)));
    put_interval(&mut object, change.difference);
    Value::Object(object)
}

fn amount(amount: &Amount) -> Value {
    match amount {
        Amount::Number { value, unit } => json!({ "value": tidy(*value), "unit": unit }),
        Amount::Share(share) => json!({ "events": share.events(), "n": share.n() }),
        Amount::Step { step, words } => json!({ "step": step, "of": words.len() }),
    }
}

fn put_interval(object: &mut Map<String, Value>, interval: Option<Interval>) {
    if let Some(interval) = interval {
        object.insert("interval".into(), json!([tidy(interval.low), tidy(interval.high)]));
    }
}

fn place(place: Place) -> String {
    match place {
        Place::Both => "both".to_string(),
        Place::Toward(direction) => direction.word().to_string(),
        Place::In(eye) => format!("{} eye", eye.word()),
        Place::On(side) => format!("{} side", side.word()),
    }
}

fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::NoRange => "no range",
        Grade::WithinRange => "within range",
        Grade::NearLimit => "near the limit",
        Grade::OutsideRange => "outside the range",
        Grade::Urgent => "urgent",
    }
}

fn way(way: Way) -> &'static str {
    match way {
        Way::Better => "better",
        Way::Worse => "worse",
        Way::Up => "up",
        Way::Down => "down",
        Way::Same => "same",
    }
}

fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Certain => "beyond error",
        Verdict::SomeLimits => "beyond some limits",
        Verdict::WithinError => "within error",
        Verdict::Untested => "not tested",
        Verdict::OtherMethod => "other method",
        Verdict::TooFew => "too few",
        Verdict::NotAlike => "not alike",
    }
}

/// Six decimals are more than any bedside measure carries, and the same on every machine.
fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}
