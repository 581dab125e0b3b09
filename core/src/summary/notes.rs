//! The small print: how to read it, the ranges and sources used, the program, and what the summary is not.

use super::{NOT_A_DIAGNOSIS, Options, findings, heading, how_common, side, tiring, working_model};
use crate::assess::Assessment;
use crate::calendar::long_date;
use crate::capture::visit::Visit;
use crate::change::Changes;
use crate::document::{Block, Said, foreign};
use crate::evidence::{Citation, Norm, Status, capital};
use crate::provocation::limits;
use crate::sorted;

/// The closing blocks.
pub fn blocks(visit: &Visit, assessment: &Assessment, options: &Options<'_>) -> Vec<Block> {
    let mut blocks = vec![heading("How to read this")];
    blocks.push(Block::Note(Said::new(
        "Outside the range: beyond the limit named with it; some healthy people are there too. Near the limit: ordinary \
         error could carry it across, or no limit is published and it is told as seen. Not done is never counted as \
         normal. Intervals are 95 %.",
        &[],
    )));
    blocks.extend(findings::terms(assessment).map(|text| Block::Note(Said::new(text, &["findings"]))));
    let norms = norms(assessment);
    if !norms.is_empty() {
        let told: Vec<String> = norms.iter().map(|norm| told(norm)).collect();
        let ids: Vec<&str> = norms.iter().map(|norm| norm.id).collect();
        blocks.push(Block::Note(Said::new(format!("Ranges used: {}.", told.join("; ")), &ids)));
    }
    let sources = sources(assessment, &norms, options);
    if !sources.is_empty() {
        let told: Vec<String> =
            sources.iter().map(|source| format!("{}, {}", capital(source.short), source.place)).collect();
        blocks.push(Block::Note(Said::new(format!("Sources: {}.", told.join(". ")), &[])));
    }
    blocks.push(Block::Note(Said::new(made_with(visit, options), &["visit.program"])));
    blocks.push(Block::Paragraph(Said::new(NOT_A_DIAGNOSIS, &[])));
    blocks
}

/// Every range a finding was graded against, each once.
fn norms(assessment: &Assessment) -> Vec<&'static Norm> {
    let mut norms: Vec<&'static Norm> = Vec::new();
    let of_symptoms = [&limits::TOTAL, &limits::CHANGE, &limits::OVERALL];
    let rated = assessment.symptoms.findings.iter().any(|finding| finding.norm.is_some());
    let used = assessment.tasks.iter().flat_map(|task| &task.reading.findings).filter_map(|finding| finding.norm);
    for norm in used.chain(of_symptoms.into_iter().filter(|_| rated)) {
        if norms.iter().all(|known| known.id != norm.id) {
            norms.push(norm);
        }
    }
    norms
}

fn told(norm: &Norm) -> String {
    if norm.status == Status::CommonPractice {
        return format!("{} {} (common practice, no source)", norm.what, norm.range());
    }
    let remark = norm.status.remark().map(|remark| format!(", {remark}")).unwrap_or_default();
    format!("{} {} ({}{remark})", norm.what, norm.range(), norm.source.short)
}

/// Every source behind a range, an emergency sign or what stands out, each once, by name.
fn sources(assessment: &Assessment, norms: &[&'static Norm], options: &Options<'_>) -> Vec<&'static Citation> {
    let of_findings = assessment
        .outside()
        .into_iter()
        .flat_map(|finding| finding.sources.iter().copied().chain(finding.healthy.iter().map(|rate| rate.source)));
    let of_patterns = assessment.patterns.iter().flat_map(|pattern| pattern.sources.iter().copied());
    let of_flags = assessment.flags.iter().map(|flag| flag.source);
    let mut sources: Vec<&'static Citation> = Vec::new();
    let published = norms.iter().filter(|norm| norm.status != Status::CommonPractice).map(|norm| norm.source);
    let of_parts = [side::sources(assessment), tiring::sources(assessment), how_common::sources(assessment)].concat();
    let of_changes = options.changes.map(Changes::sources).unwrap_or_default();
    let of_model = working_model::sources().into_iter().filter(|_| options.working_model);
    for source in published
        .chain(of_findings)
        .chain(of_patterns)
        .chain(of_flags)
        .chain(of_parts)
        .chain(of_model)
        .chain(of_changes)
    {
        if sources.iter().all(|known| known.short != source.short) {
            sources.push(source);
        }
    }
    sorted::by_key(&mut sources, |source| source.short.to_lowercase());
    sources
}

fn made_with(visit: &Visit, options: &Options<'_>) -> String {
    let when = options.printed.map(|at| format!(", {} at {}", long_date(at.date()), at.clock())).unwrap_or_default();
    let made = format!("Made with {}{when}", foreign(options.program));
    if visit.program == options.program || visit.program.is_empty() {
        return format!("{made}.");
    }
    format!("{made}; recorded with {}.", foreign(&visit.program))
}
