//! Findings and measures: one observation for each key, the measure's value and repetitions with the finding's words.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::Entry;
use super::codes::SNOMED;
use super::object::{Object, clean};
use super::parts::{
    INTERPRETATION, absent, category, coding, component, component_quantity, concept, concept_saying, own, quantity,
};
use super::scene::Scene;
use super::units::{SCORE, UCUM};
use crate::anatomy::{Eye, Place};
use crate::capture::record::Record;
use crate::capture::showing;
use crate::evidence::{Limit, Norm, number};
use crate::finding::{Finding, Grade};
use crate::measure::{Amount, Course, Measure, Values};
use crate::statistics::Interval;
use crate::task;

/// Everything found and measured, in exam order.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let assessment = scene.assessment;
    let mut parts: BTreeMap<&str, Parts<'_>> = BTreeMap::new();
    for measure in assessment.measures() {
        parts.entry(&measure.key).or_default().measure.get_or_insert(measure);
    }
    let courses: Vec<(String, &Course)> =
        assessment.tasks.iter().flat_map(|task| &task.reading.courses).map(|course| (key_of(course), course)).collect();
    for (key, course) in &courses {
        parts.entry(key).or_default().course.get_or_insert(course);
    }
    let mut distinct = Distinct::default();
    let mut entries = Vec::new();
    for finding in assessment.findings() {
        // A key that comes twice takes its measure once.
        let told = Parts { finding: Some(finding), ..parts.remove(finding.key.as_str()).unwrap_or_default() };
        entries.push(told.entry(scene, &finding.key, &mut distinct));
    }
    // What no finding told, in exam order.
    let keys = assessment.measures().map(|measure| measure.key.as_str());
    for key in keys.chain(courses.iter().map(|(key, _)| key.as_str())) {
        if let Some(told) = parts.remove(key) {
            entries.push(told.entry(scene, key, &mut distinct));
        }
    }
    entries
}

/// Names that come twice are told apart by their number.
#[derive(Debug, Default)]
pub struct Distinct(BTreeMap<String, u32>);

impl Distinct {
    /// The name, with a number from the second time on.
    pub fn name(&mut self, name: &str) -> String {
        let times = self.0.entry(name.to_string()).or_default();
        *times += 1;
        if *times == 1 { name.to_string() } else { format!("{name}#{times}") }
    }
}

/// A course belongs to the measure of the same thing: where following broke, to how well it went.
fn key_of(course: &Course) -> String {
    course.key.replacen("pursuit.broke.", "pursuit.", 1)
}

/// What is known under one key.
#[derive(Debug, Default)]
struct Parts<'a> {
    finding: Option<&'a Finding>,
    measure: Option<&'a Measure>,
    course: Option<&'a Course>,
}

impl Parts<'_> {
    fn entry(&self, scene: &Scene<'_>, key: &str, distinct: &mut Distinct) -> Entry {
        let name = scene.name.part(&distinct.name(&format!("found/{key}")));
        let task = self.task();
        let rated = task == "symptoms" || key == "further_measures.survey";
        let value = self.value();
        let headline = self.finding.and_then(|finding| clean(&finding.headline));
        let words = if value.is_none() { headline.clone() } else { None };
        let nystagmus = key == "resting_gaze.nystagmus";
        let grade = self.finding.map_or(Grade::NoRange, |finding| finding.grade);
        let norm = self.finding.and_then(|finding| finding.norm).or(self.measure.and_then(|measure| measure.norm));
        let derived = scene.visit().record(task).map(|_| scene.answers(task).reference());
        let resource = scene
            .observation(name, scene.at(task))
            .put("category", category(if rated { "survey" } else { "exam" }))
            .put("code", self.code(key))
            .maybe("bodySite", self.place().and_then(body_site))
            .maybe("method", task::by_id(task).map(|task| concept(&format!("method.{}", task.id))))
            .maybe("valueQuantity", value.and_then(|(value, unit)| quantity(value, unit)))
            .maybe("valueCodeableConcept", words.as_deref().filter(|_| nystagmus).map(nystagmus_present))
            .maybe("valueString", words.filter(|_| !nystagmus))
            .maybe("interpretation", self.finding.and_then(|_| interpretation(grade, norm.zip(value))))
            .list(
                "referenceRange",
                norm.and_then(|norm| range(norm, value.map(|(_, unit)| unit))).into_iter().collect(),
            )
            .list("note", self.notes(headline.filter(|_| value.is_some()), scene.visit().record(task)))
            .list("derivedFrom", derived.into_iter().collect())
            .list("component", self.components());
        Entry::new(name, resource)
    }

    fn task(&self) -> &'static str {
        let of_finding = self.finding.map(|finding| finding.task);
        of_finding.or(self.measure.map(|measure| measure.task)).or(self.course.map(|course| course.task)).unwrap_or("")
    }

    fn place(&self) -> Option<Place> {
        let of_finding = self.finding.map(|finding| finding.place);
        of_finding.or(self.measure.map(|measure| measure.place)).or(self.course.map(|course| course.place))
    }

    fn code(&self, key: &str) -> Value {
        let what = self.measure.map(|measure| measure.what.as_str()).or(self.course.map(|course| course.what.as_str()));
        match super::codes::display(key) {
            Some(_) => concept(key),
            None => concept_saying(key, what.unwrap_or(key)),
        }
    }

    /// The measure's value, which is the one that is compared between visits; else the finding's.
    fn value(&self) -> Option<(f64, &'static str)> {
        let Some(measure) = self.measure else {
            let value = self.finding?.value.as_ref()?;
            return value.number.is_finite().then(|| (value.number, unit_of(value.unit, self.task())));
        };
        match &measure.amount {
            Amount::Number { value, unit } => value.is_finite().then(|| (*value, unit_of(unit, measure.task))),
            Amount::Share(share) => {
                (share.n() > 0).then(|| (100.0 * f64::from(share.events()) / f64::from(share.n()), "%"))
            }
            Amount::Step { step, .. } => Some((f64::from(*step), SCORE)),
        }
    }

    fn notes(&self, headline: Option<String>, record: Option<&Record>) -> Vec<Value> {
        let mut notes: Vec<String> = headline.into_iter().collect();
        if let Some(record) = record.filter(|_| self.measure.is_some()) {
            for said in record.showings.iter().flat_map(showing::says) {
                if !notes.contains(&said) {
                    notes.push(said);
                }
            }
        }
        if let Some(Measure { amount: Amount::Step { words, .. }, .. }) = self.measure {
            notes.push(format!("Steps from 0, the best: {}.", words.join(", ")));
        }
        if let Some(finding) = self.finding {
            notes.extend(finding.details.iter().cloned());
            notes.extend(finding.healthy.iter().map(|rate| {
                let source = rate.source.short;
                format!("In healthy people {}: {} ({}; {source}).", rate.rule, rate.share(), rate.population)
            }));
        }
        notes.iter().filter_map(|note| clean(note)).map(|text| json!({ "text": text })).collect()
    }

    fn components(&self) -> Vec<Value> {
        let mut components = Vec::new();
        components.extend(self.place().and_then(toward));
        let interval = self
            .finding
            .and_then(|finding| finding.value.as_ref())
            .and_then(|value| Some((value.interval?, value.unit)));
        if let Some((Interval { low, high, .. }, unit)) = interval {
            let unit = unit_of(unit, self.task());
            components.extend(component_quantity(&concept("interval.low"), low, unit));
            components.extend(component_quantity(&concept("interval.high"), high, unit));
        }
        if let Some(measure) = self.measure {
            if let Amount::Share(share) = measure.amount {
                components.extend(component_quantity(&concept("events"), f64::from(share.events()), ""));
                components.extend(component_quantity(&concept("repetitions"), f64::from(share.n()), ""));
            }
            let how = measure.method.iter().filter_map(|(part, words)| {
                Some(component(&concept_saying("how", part), "valueString", clean(words)?))
            });
            components.extend(how);
        }
        components.extend(self.course.into_iter().flat_map(|course| repetitions(&course.values)));
        components
    }
}

/// Sums of ratings are scores, plain counts are counts.
fn unit_of(unit: &'static str, task: &str) -> &'static str {
    if unit.is_empty() && task == "symptoms" { SCORE } else { unit }
}

fn nystagmus_present(text: &str) -> Value {
    // The same meaning: the finding is only made when nystagmus was seen.
    json!({ "coding": [coding(SNOMED, "307699005", "Nystagmus present")], "text": text })
}

/// Every repetition in its order.
fn repetitions(values: &Values) -> Vec<Value> {
    let code = |at: usize| concept_saying("repetition", &format!("repetition {}", at + 1));
    match values {
        Values::Numbers(numbers, unit) => {
            numbers.iter().enumerate().filter_map(|(at, value)| component_quantity(&code(at), *value, unit)).collect()
        }
        Values::Events(events) => {
            let happened = |event: bool| concept(if event { "happened" } else { "did_not_happen" });
            let one = |(at, event): (usize, &bool)| component(&code(at), "valueCodeableConcept", happened(*event));
            events.iter().enumerate().map(one).collect()
        }
        Values::BrokeAt(at, of) => {
            let code = concept_saying("broke_at", &format!("worse from this repetition on, of {of}"));
            match at {
                Some(at) => component_quantity(&code, f64::from(*at), "").into_iter().collect(),
                None => {
                    let why = absent(("not-applicable", "Not Applicable"), "absent.never", None);
                    vec![component(&code, "dataAbsentReason", why)]
                }
            }
        }
    }
}

/// The eye, or the side of the body; a direction is no place of the body.
fn body_site(place: Place) -> Option<Value> {
    match place {
        Place::In(Eye::Right) => {
            Some(json!({ "coding": [coding(SNOMED, "362502000", "Entire right eye")], "text": "right eye" }))
        }
        Place::In(Eye::Left) => {
            Some(json!({ "coding": [coding(SNOMED, "362503005", "Entire left eye")], "text": "left eye" }))
        }
        Place::On(side) => Some(concept(&format!("side.{}", side.word()))),
        Place::Both | Place::Toward(_) => None,
    }
}

fn toward(place: Place) -> Option<Value> {
    match place {
        Place::Toward(direction) => {
            let value = concept(&format!("direction.{}", direction.word()));
            Some(component(&concept("toward"), "valueCodeableConcept", value))
        }
        Place::Both | Place::In(_) | Place::On(_) => None,
    }
}

/// How a finding stands to its range: the public code where there is one, and our own.
pub fn interpretation(grade: Grade, measured: Option<(&Norm, (f64, &'static str))>) -> Option<Value> {
    let (public, word) = match grade {
        Grade::NoRange => return None,
        Grade::WithinRange => (Some(("N", "Normal")), "in_range"),
        Grade::NearLimit => (None, "near_limit"),
        Grade::OutsideRange => (Some(beyond(measured)), "outside_range"),
        Grade::Urgent => (Some(("AA", "Critical abnormal")), "urgent"),
    };
    let public = public.map(|(code, display)| coding(INTERPRETATION, code, display));
    let codings: Vec<Value> = public.into_iter().chain([own(&format!("grade.{word}"))]).collect();
    Some(json!([{ "coding": codings, "text": grade.word() }]))
}

/// High or low where the value itself lies beyond the limit; otherwise abnormal.
fn beyond(measured: Option<(&Norm, (f64, &'static str))>) -> (&'static str, &'static str) {
    let Some((norm, (value, _))) = measured.filter(|(norm, (_, unit))| norm.unit == *unit) else {
        return ("A", "Abnormal");
    };
    match norm.limit {
        Limit::AtMost(limit) if value > limit => ("H", "High"),
        Limit::Below(limit) if value >= limit => ("H", "High"),
        Limit::AtLeast(limit) if value < limit => ("L", "Low"),
        Limit::AtMost(_) | Limit::Below(_) | Limit::AtLeast(_) => ("A", "Abnormal"),
    }
}

/// The range a value is read against. Its ends are given only where the value is in the same unit.
fn range(norm: &'static Norm, unit: Option<&'static str>) -> Option<Value> {
    let (name, limit) = match norm.limit {
        Limit::AtMost(limit) | Limit::Below(limit) => ("high", limit),
        Limit::AtLeast(limit) => ("low", limit),
    };
    let end = unit.filter(|unit| *unit == norm.unit).and_then(|unit| quantity(limit, unit));
    let age = norm.ages.and_then(|(from, to)| {
        let low = (from > 0).then(|| years(from));
        let high = (to < 120).then(|| years(to));
        (low.is_some() || high.is_some()).then(|| Object::new().maybe("low", low).maybe("high", high).build())
    });
    let remark = norm.status.remark().map(|remark| format!("; {remark}")).unwrap_or_default();
    let source = if norm.source.short.is_empty() { String::new() } else { format!("; {}", norm.source.short) };
    let text = format!("{}: {} ({}{source}{remark})", norm.what, norm.range(), norm.population);
    Some(Object::new().maybe(name, end).maybe("age", age).text("text", &text).build())
}

fn years(years: u8) -> Value {
    json!({ "value": years, "unit": number(f64::from(years)) + " years", "system": UCUM, "code": "a" })
}
