//! One visit on its way into a bundle: what all its entries have in common.

use serde_json::{Value, json};

use super::super::Case;
use super::ids::Named;
use super::object::{Object, time};
use super::{Options, people};
use crate::assess::Assessment;
use crate::calendar::Moment;
use crate::capture::addendum::Addendum;
use crate::capture::form::{Choice, Kind, label};
use crate::capture::visit::Visit;
use crate::capture::{decision, frame};

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
    /// The visit.
    pub fn visit(&self) -> &'a Visit {
        self.case.visit
    }

    /// The name of the answers of a record, from which what was found is derived.
    pub fn answers(&self, slot: &str) -> Named {
        self.name.part(&format!("answers/{slot}"))
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
