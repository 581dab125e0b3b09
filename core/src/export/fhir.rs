//! Visits as HL7 FHIR R4 (4.0.1): one writer, two kinds of bundle.
//!
//! A *collection* is a file a clinic keeps or converts. A *transaction* is posted to the root of any FHIR R4 server. Both
//! hold, once each: the people (Patient), the programs (Device) and the code list (CodeSystem); and for each visit: the
//! visit (Encounter), every finding, measure, rating, danger sign and gap (Observation), the filled forms as recorded
//! (QuestionnaireResponse), what was decided (CarePlan or CommunicationRequest), exercises given to take home (CarePlan)
//! and what came back of them (QuestionnaireResponse), the report with the summary as its text
//! (DiagnosticReport) and who made it (Provenance).
//!
//! - Every entry is named by a UUID made from stored ids alone, so that a second export mints nothing new, and every
//!   entry of a transaction is created only where its identifier is not yet known: a second POST creates nothing. A report
//!   with addenda is the one exception: it takes the place of the earlier one and is marked as amended.
//! - An open visit can still change, and a server would keep what it got first. So a transaction takes closed visits only
//!   (see [`takes`]); a collection holds open ones too, marked as preliminary.
//! - Codes are our own ([`codes`]) and stand beside a public one only where that one was read in a public source and means
//!   the same. Their address ends in `.invalid`, a domain that nobody can own (RFC 2606): it is a name, not a link.
//! - "Not done" is `not-performed` with its reason, "not testable" is `unknown` with a code of our own, and neither is
//!   ever a value.

mod answers;
pub mod check;
pub mod codes;
mod danger;
mod gaps;
mod home;
mod ids;
mod object;
mod observation;
mod parts;
mod people;
mod plan;
mod report;
mod scene;
mod symptoms;
mod units;
mod visit;

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use super::Case;
use crate::assess::assess;
use crate::calendar::Moment;
use crate::capture::addendum::Addendum;
use crate::capture::visit::Visit;
use ids::Named;
use object::Object;
use scene::Scene;

/// How it is written.
#[derive(Debug, Clone, Copy)]
pub struct Options<'a> {
    /// For a server or for a file.
    pub mode: Mode,
    /// When it is written.
    pub written: Moment,
    /// Name and version of the program, as in "Sidelight 0.1.0".
    pub program: &'a str,
    /// Addenda of these visits; those of other visits are left out.
    pub addenda: &'a [Addendum],
}

/// For a server or for a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// To be posted to a server, all or nothing.
    Transaction,
    /// To be kept or converted.
    Collection,
}

/// Whether a visit is part of a bundle of this kind.
#[must_use]
pub fn takes(mode: Mode, visit: &Visit) -> bool {
    mode == Mode::Collection || visit.closed.is_some()
}

/// Writes visits as a bundle; those that the mode does not take are left out.
#[must_use]
pub fn bundle(cases: &[Case<'_>], options: &Options<'_>) -> Value {
    let mut entries = Vec::new();
    each_entry(cases, options, |entry| entries.push(entry));
    Object::of("Bundle")
        .put("type", options.mode.word())
        .maybe("timestamp", object::time(options.written))
        .list("entry", entries)
        .build()
}

/// The same as compact JSON, one entry a line, written visit by visit so that thousands need no second copy in memory.
#[must_use]
pub fn bytes(cases: &[Case<'_>], options: &Options<'_>) -> Vec<u8> {
    let mut out = format!("{{\"resourceType\":\"Bundle\",\"type\":\"{}\",", options.mode.word());
    if let Some(time) = object::time(options.written) {
        out.push_str(&format!("\"timestamp\":\"{time}\","));
    }
    out.push_str("\"entry\":[");
    let mut lead = "\n";
    each_entry(cases, options, |entry| {
        out.push_str(lead);
        out.push_str(&entry.to_string());
        lead = ",\n";
    });
    out.push_str("\n]}\n");
    out.into_bytes()
}

/// The one command that posts a transaction to the root of a FHIR R4 server. Posting it again creates nothing.
#[must_use]
pub fn post_command(file: &str) -> String {
    format!("curl -fsS -H 'Content-Type: application/fhir+json' --data-binary @{file} https://server.example/fhir")
}

impl Mode {
    fn word(self) -> &'static str {
        match self {
            Mode::Transaction => "transaction",
            Mode::Collection => "collection",
        }
    }
}

/// Hands on every entry in order: the code list, then people and programs just before the first visit that names them.
fn each_entry(cases: &[Case<'_>], options: &Options<'_>, mut hand_on: impl FnMut(Value)) {
    let mut once: BTreeSet<Named> = BTreeSet::new();
    let mut first = |entry: Entry, once: &mut BTreeSet<Named>| {
        if once.insert(entry.name) {
            hand_on(entry.written(options.mode));
        }
    };
    let mut addenda: BTreeMap<&str, Vec<Addendum>> = BTreeMap::new();
    for addendum in options.addenda {
        addenda.entry(&addendum.visit).or_default().push(addendum.clone());
    }
    first(codes::entry(), &mut once);
    first(people::program(options.program), &mut once);
    for case in cases.iter().filter(|case| takes(options.mode, case.visit)) {
        first(people::patient(case.person), &mut once);
        first(people::program(&case.visit.program), &mut once);
        // Two closings of one visit may stand side by side; each keeps its own entries.
        let mut name = Named::of(&case.visit.id);
        while once.contains(&name) {
            name = name.part("another closing");
        }
        let assessment = assess(case.person, case.visit);
        let own = addenda.get(case.visit.id.as_str()).map_or(&[][..], Vec::as_slice);
        let before = case.sheets_before(cases);
        let scene = Scene { case, options, name, assessment: &assessment, addenda: own, before: &before };
        visit::entries(&scene).into_iter().for_each(|entry| first(entry, &mut once));
    }
}

/// One entry before it is known in which kind of bundle it stands.
#[derive(Debug)]
struct Entry {
    name: Named,
    resource: Value,
    known_by: KnownBy,
}

/// How a server finds out that it has an entry already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum KnownBy {
    /// By its identifier.
    Identifier,
    /// By its identifier; what the server has is then replaced.
    Replacing,
    /// By a tag, for the kind of resource that has no identifier in R4.
    Tag,
    /// By address and version, for the code list.
    Version,
}

impl Entry {
    fn new(name: Named, resource: Object) -> Entry {
        Entry { name, resource: resource.build(), known_by: KnownBy::Identifier }
    }

    fn known_by(self, known_by: KnownBy) -> Entry {
        Entry { known_by, ..self }
    }

    fn written(self, mode: Mode) -> Value {
        let url = self.name.urn();
        match mode {
            Mode::Collection => json!({ "fullUrl": url, "resource": self.resource }),
            Mode::Transaction => {
                let request = self.request();
                json!({ "fullUrl": url, "resource": self.resource, "request": request })
            }
        }
    }

    fn request(&self) -> Value {
        let kind = self.resource["resourceType"].as_str().unwrap_or_default();
        let identifier = format!("identifier={}|{}", ids::SYSTEM, self.name.urn());
        match self.known_by {
            KnownBy::Identifier => json!({ "method": "POST", "url": kind, "ifNoneExist": identifier }),
            KnownBy::Replacing => json!({ "method": "PUT", "url": format!("{kind}?{identifier}") }),
            KnownBy::Tag => {
                let tag = format!("_tag={}|{}", ids::TAG, self.name);
                json!({ "method": "POST", "url": kind, "ifNoneExist": tag })
            }
            KnownBy::Version => {
                let version = format!("url={}&version={}", codes::SYSTEM, codes::version());
                json!({ "method": "POST", "url": kind, "ifNoneExist": version })
            }
        }
    }
}

#[cfg(test)]
mod tests;
