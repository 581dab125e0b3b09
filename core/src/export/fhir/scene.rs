//! One visit on its way into a bundle: what all its entries have in common, and the visit itself.

use serde_json::{Value, json};

use super::super::Case;
use super::ids::Named;
use super::object::{Object, time};
use super::parts::{coding, own};
use super::{Entry, Options, answers, danger, gaps, home, observation, people, plan, report, symptoms};
use crate::assess::Assessment;
use crate::calendar::Moment;
use crate::capture::addendum::Addendum;
use crate::capture::form::{Choice, Kind, label};
use crate::capture::visit::Visit;
use crate::capture::{decision, frame};

const ACT: &str = "http://terminology.hl7.org/CodeSystem/v3-ActCode";

/// What the entries of one visit share.
pub struct Scene<'a> {
    /// The visit.
    pub case: &'a Case<'a>,
    /// How it is written.
    pub options: &'a Options<'a>,
    /// The visit's own name.
    pub name: Named,
    /// What it says.
    pub assessment: &'a Assessment,
    /// Its addenda.
    pub addenda: &'a [Addendum],
    /// Visits of the person that may have given the sheets of its logs.
    pub before: &'a [Visit],
}

impl<'a> Scene<'a> {
    /// Every entry of the visit, what decides first.
    pub fn entries(&self) -> Vec<Entry> {
        let answers = answers::entries(self);
        let mut observations = danger::entries(self);
        observations.extend(observation::entries(self));
        observations.extend(symptoms::entries(self));
        observations.extend(gaps::entries(self));
        observations.extend(report::addenda(self));
        let report = report::entry(self, &observations);
        let provenance = report::provenance(self, &report, &answers);
        let plan = plan::entry(self);
        let mut entries = vec![self.encounter(), report];
        entries.extend(plan);
        entries.extend(home::entries(self));
        entries.extend(observations);
        entries.extend(answers);
        entries.extend(provenance);
        entries
    }

    /// The visit.
    pub fn visit(&self) -> &'a Visit {
        self.case.visit
    }

    /// A resource of this visit: named, about the person, within the visit.
    pub fn resource(&self, kind: &str, name: Named) -> Object {
        Object::of(kind)
            .put("identifier", json!([name.identifier()]))
            .put("subject", Named::of(&self.case.person.id).reference())
            .put("encounter", self.name.reference())
    }

    /// An observation of this visit.
    pub fn observation(&self, name: Named, at: Moment) -> Object {
        self.resource("Observation", name)
            .put("status", self.status())
            .maybe("effectiveDateTime", time(at))
            .list("performer", self.performer())
            .put("device", people::program_name(self.options.program).reference())
    }

    /// Final once the visit is closed.
    pub fn status(&self) -> &'static str {
        if self.visit().closed.is_some() { "final" } else { "preliminary" }
    }

    /// Who examined, when it was noted.
    pub fn performer(&self) -> Vec<Value> {
        let examiner = self.visit().filled(frame::SLOT).and_then(|record| record.answers.text("examiner"));
        let named = examiner.and_then(super::object::clean);
        named.map(|name| json!({ "display": name })).into_iter().collect()
    }

    /// When a part of the visit was begun.
    pub fn at(&self, slot: &str) -> Moment {
        self.visit().record(slot).and_then(|record| record.started).unwrap_or(self.visit().started)
    }

    fn encounter(&self) -> Entry {
        let visit = self.visit();
        let (code, display) = if visit.routine == "sideline" { ("FLD", "field") } else { ("AMB", "ambulatory") };
        let end = visit.closed.filter(|closed| closed.unix_ms >= visit.started.unix_ms).and_then(time);
        let period = Object::new().maybe("start", time(visit.started)).maybe("end", end).build();
        let period = Some(period).filter(|period| period.as_object().is_some_and(|members| !members.is_empty()));
        let reason = frame::reason(visit)
            .map(|id| (own(&super::codes::answer(frame::SLOT, "reason", id)), chosen(&frame::FORM, "reason", id)))
            .map(|(coding, words)| json!([{ "coding": [coding], "text": words }]));
        let resource = Object::of("Encounter")
            .put("identifier", json!([self.name.identifier()]))
            .put("status", if visit.closed.is_some() { "finished" } else { "in-progress" })
            .put("class", coding(ACT, code, display))
            .put("subject", Named::of(&self.case.person.id).reference())
            .maybe("period", period)
            .maybe("reasonCode", reason);
        Entry::new(self.name, resource)
    }

    /// The decision's answer to a one-of field, in words.
    pub fn decided(&self, key: &str) -> Option<(&'a str, &'a str)> {
        let id = self.visit().filled(decision::SLOT)?.answers.one(key)?;
        Some((id, chosen(&decision::FORM, key, id)))
    }

    /// The decision's text.
    pub fn decided_text(&self, key: &str) -> Option<&'a str> {
        self.visit().filled(decision::SLOT)?.answers.text(key)
    }
}

/// The label of a choice of a form.
pub fn chosen<'a>(form: &'static crate::capture::form::Form, key: &str, id: &'a str) -> &'a str {
    let choices: &'static [Choice] = match form.field(key).map(|field| &field.kind) {
        Some(Kind::One(choices) | Kind::Many { choices, .. }) => choices,
        Some(
            Kind::Number(_)
            | Kind::Text { .. }
            | Kind::Day
            | Kind::Ratings(_)
            | Kind::Trials(_)
            | Kind::Series(_)
            | Kind::Grid(_),
        )
        | None => &[],
    };
    label(choices, id)
}
