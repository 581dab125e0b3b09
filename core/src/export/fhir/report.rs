//! The report: what decides in a few lines, every observation, and the summary as its text; and who made it.

use serde_json::{Value, json};

use super::super::{escape, text};
use super::ids::Named;
use super::object::{Object, clean, time};
use super::parts::{category, coding, concept};
use super::scene::Scene;
use super::{Entry, KnownBy, ids, people, plan};
use crate::assess;
use crate::calendar::long_date;
use crate::capture::addendum::{self, Addendum};
use crate::summary::{self, NOT_A_DIAGNOSIS};

const LOINC: &str = "http://loinc.org";

/// The report of the visit on these observations.
pub fn entry(scene: &Scene<'_>, observations: &[Entry]) -> Entry {
    let visit = scene.visit();
    let name = scene.name.part("report");
    let amended = visit.closed.is_some() && !scene.addenda.is_empty();
    let told = summary::Options::new(scene.options.program).with_addenda(scene.addenda).with_visits(scene.before);
    let document = summary::compose(scene.case.person, visit, scene.assessment, &told);
    let words = text::render(&document);
    let issued = visit.closed.max(scene.addenda.iter().map(|addendum| addendum.written).max().filter(|_| amended));
    let resource = scene
        .resource("DiagnosticReport", name)
        .put("text", narrative(&words))
        .put("status", if amended { "amended" } else { scene.status() })
        .put(
            "code",
            json!({
                "coding": [coding(LOINC, "70942-8", "Ocular alignment and motility Narrative")],
                "text": "Eye-movement examination at the bedside",
            }),
        )
        .maybe("effectiveDateTime", time(visit.started))
        .maybe("issued", issued.and_then(time))
        .list("performer", scene.performer())
        .list("result", observations.iter().map(|entry| entry.name.reference()).collect())
        .text("conclusion", &conclusion(scene))
        .put(
            "presentedForm",
            json!([{
                "contentType": "text/plain; charset=utf-8",
                "language": "en",
                "data": base64(words.as_bytes()),
                "title": "Summary of the visit",
            }]),
        );
    // A server keeps what it got first, so what was added later has to take its place.
    let known_by = if amended { KnownBy::Replacing } else { KnownBy::Identifier };
    Entry::new(name, resource).known_by(known_by)
}

/// Addenda, each as an observation of its own that the amended report names.
pub fn addenda(scene: &Scene<'_>) -> Vec<Entry> {
    let entry = |addendum: &Addendum| {
        let name = Named::of(&addendum.id);
        let words = clean(&addendum.text)?;
        let resource = scene
            .observation(name, addendum.written)
            .put("category", category("exam"))
            .put("code", concept("addendum"))
            .put("valueString", words);
        Some(Entry::new(name, resource))
    };
    addendum::of_visit(scene.addenda, &scene.visit().id).into_iter().filter_map(entry).collect()
}

/// Who and what made the entries of this visit.
pub fn provenance(scene: &Scene<'_>, report: &Entry, answers: &[Entry]) -> Option<Entry> {
    let name = scene.name.part("provenance");
    let agent = |kind: &str, words: &str, who: Value| {
        let kind = coding("http://terminology.hl7.org/CodeSystem/provenance-participant-type", kind, words);
        json!({ "type": { "coding": [kind] }, "who": who })
    };
    let device = |program: &str| people::program_name(program).reference();
    let examiners = scene.performer().into_iter().map(|who| agent("performer", "Performer", who));
    let programs = [
        agent("enterer", "Enterer", device(&scene.visit().program)),
        agent("assembler", "Assembler", device(scene.options.program)),
    ];
    let targets = [scene.name, report.name].into_iter().chain(answers.iter().map(|entry| entry.name));
    let resource = Object::of("Provenance")
        .put("meta", json!({ "tag": [{ "system": ids::TAG, "code": name.to_string() }] }))
        .list("target", targets.map(|name| name.reference()).collect())
        .put("recorded", time(scene.options.written)?)
        .list("agent", examiners.chain(programs).collect());
    Some(Entry::new(name, resource).known_by(KnownBy::Tag))
}

/// Danger signs, a stop and the decision first; then how it stands; never a diagnosis.
fn conclusion(scene: &Scene<'_>) -> String {
    let assessment = scene.assessment;
    let mut lines: Vec<String> = assessment.flags.iter().map(|flag| format!("URGENT: {}.", flag.seen)).collect();
    if assessment.stopped {
        lines.push("The examination was stopped at an emergency sign.".to_string());
    }
    let addenda = addendum::of_visit(scene.addenda, &scene.visit().id);
    lines.extend(addenda.iter().map(|each| format!("Added {}: {}", long_date(each.written.date()), each.text)));
    lines.extend(plan::says(scene).map(|says| format!("Decided: {says}.")));
    lines.push(format!("In short: {}.", assess::overview(assessment).text));
    lines.push(NOT_A_DIAGNOSIS.to_string());
    lines.join("\n")
}

/// The summary as the one element a narrative is: text that keeps its lines.
fn narrative(words: &str) -> Value {
    let words = escape(&clean(words).unwrap_or_default());
    let div = format!("<div xmlns=\"http://www.w3.org/1999/xhtml\"><pre>{words}</pre></div>");
    json!({ "status": "generated", "div": div })
}

/// Base64 as RFC 4648 has it, padded.
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let three = [chunk[0], chunk.get(1).copied().unwrap_or(0), chunk.get(2).copied().unwrap_or(0)];
        let all = u32::from(three[0]) << 16 | u32::from(three[1]) << 8 | u32::from(three[2]);
        for at in 0..4 {
            let letter = LETTERS[(all >> (18 - 6 * at) & 63) as usize];
            out.push(if at <= chunk.len() { char::from(letter) } else { '=' });
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The vectors of RFC 4648, section 10.
    #[test]
    fn base64_is_as_the_standard_has_it() {
        let vectors =
            [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foob", "Zm9vYg=="), ("foobar", "Zm9vYmFy")];
        for (plain, coded) in vectors {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
