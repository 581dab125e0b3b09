//! What stands out, what is as expected, and right against left.

use super::heading;
use super::words::{counted, lower, sentence};
use crate::assess::Assessment;
use crate::document::{Block, Said};
use crate::evidence::{BaseRate, Norm};
use crate::finding::{Comparison, Finding, Grade};
use crate::statistics::proportion::Proportion;
use crate::task::{self, Task};

/// Findings near the limit or beyond, the gravest first.
pub fn standing_out(assessment: &Assessment) -> Vec<Block> {
    let mut blocks = vec![heading("What stands out")];
    let outside = assessment.outside();
    if outside.is_empty() {
        let graded = assessment.findings().any(|finding| finding.grade == Grade::WithinRange);
        let text = match (assessment.stopped, graded) {
            (true, _) => "The examination was stopped before anything was found outside a published range.",
            (false, true) => "Nothing that was recorded stands outside its published range.",
            (false, false) => "Nothing was recorded that has a published range.",
        };
        let missing = assessment.tasks.iter().filter(|task| !task.done).count();
        let missing = match missing {
            0 => String::new(),
            n => format!(
                " {}, so this is not the whole picture.",
                counted(n, "task was not done", "tasks were not done")
            ),
        };
        blocks.push(Block::Paragraph(Said::new(format!("{text}{missing}"), &["findings"])));
    }
    blocks.extend(outside.into_iter().map(graded));
    blocks
}

/// The first sentences of what stands out, for a reader with one minute: how much, the range, how often in health.
pub fn in_brief(assessment: &Assessment) -> Vec<Block> {
    let mut blocks = standing_out(assessment);
    for block in &mut blocks {
        if let Block::Graded { details, .. } = block {
            details.truncate(1);
        }
    }
    blocks
}

/// What the brief leaves out: compared with what, how sure, what else it could be.
pub fn behind(assessment: &Assessment) -> Vec<Block> {
    let mut blocks = Vec::new();
    for finding in assessment.outside() {
        let rest = rest(finding);
        if !rest.is_empty() {
            let said: Vec<&str> = rest.iter().map(|said| said.text.as_str()).collect();
            let text = format!("{}: {}", finding.headline, said.join(" "));
            blocks.push(Block::Note(Said::new(text, &[finding.key.as_str()])));
        }
    }
    if !blocks.is_empty() {
        blocks.insert(0, heading("Behind what stands out"));
    }
    blocks
}

/// Rates in healthy people told with the finding: the first of each rule. Further samples of a rule are told behind it.
pub fn first_rates(finding: &Finding) -> Vec<&'static BaseRate> {
    let mut rates: Vec<&'static BaseRate> = Vec::new();
    for rate in &finding.healthy {
        if rates.iter().all(|known| known.rule != rate.rule) && rates.len() < 2 {
            rates.push(rate);
        }
    }
    rates
}

/// Findings within range, and those without one, one line for each task.
pub fn as_expected(assessment: &Assessment) -> Vec<Block> {
    let mut blocks = Vec::new();
    for (title, grade) in [("As expected", Grade::WithinRange), ("Also recorded", Grade::NoRange)] {
        let lines = by_task(assessment, grade);
        if !lines.is_empty() {
            blocks.extend([heading(title), Block::List(lines)]);
        }
    }
    blocks
}

/// The comparisons as one table; nothing when there are none.
pub fn right_against_left(assessment: &Assessment) -> Vec<Block> {
    let rows: Vec<Vec<String>> = assessment.comparisons().map(row).collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let head = ["What", "Right", "Left", "Exact p"].map(String::from).to_vec();
    let caption = "Exact p: how often chance alone gives a difference at least this large \
                   (two-sided, mid-p), each line by itself";
    vec![heading("Right against left"), Block::Table { caption: caption.to_string(), head, rows }]
}

fn graded(finding: &Finding) -> Block {
    let mut details = vec![brief(finding)];
    details.extend(rest(finding));
    details.retain(|said| !said.text.is_empty());
    let headline = Said::new(finding.headline.as_str(), &[finding.key.as_str()]);
    Block::Graded { grade: finding.grade, headline, details }
}

/// How much, against which range, and how often healthy people show it.
fn brief(finding: &Finding) -> Said {
    let first = finding.details.first().map(|text| sentence(text));
    let told = |short: &str| first.as_ref().is_some_and(|text| text.contains(short));
    let range = finding.norm.filter(|norm| !told(norm.source.short)).map(range);
    let rates = first_rates(finding);
    let healthy = (!rates.is_empty()).then(|| healthy(&rates));
    let text = [first.clone(), range, healthy].into_iter().flatten().collect::<Vec<_>>().join(" ");
    Said::new(text, &[finding.key.as_str()])
}

fn rest(finding: &Finding) -> Vec<Said> {
    let mut said: Vec<Said> =
        finding.details.iter().skip(1).map(|text| Said::new(sentence(text), &[finding.key.as_str()])).collect();
    let first = first_rates(finding);
    let more: Vec<&BaseRate> = finding.healthy.iter().copied().filter(|rate| !first.contains(rate)).take(2).collect();
    if !more.is_empty() {
        said.push(Said::new(format!("Other samples: {}.", shown(&more)), &[finding.key.as_str()]));
    }
    said
}

/// "Range: at most 6 cm (297 schoolchildren; Hayes et al. 1998)."
fn range(norm: &Norm) -> String {
    let remark = norm.status.remark().map(|remark| format!("; {remark}")).unwrap_or_default();
    format!("Range: {} ({}; {}{remark}).", norm.range(), norm.population, norm.source.short)
}

/// "Among healthy people 21 to 32 in 100 show a near point of 5 cm or more (78 athletes; ...)."
fn healthy(rates: &[&BaseRate]) -> String {
    format!("Among healthy people {}.", shown(rates))
}

fn shown(rates: &[&BaseRate]) -> String {
    let told = rates
        .iter()
        .map(|rate| format!("{} show {} ({}; {})", rate.share(), rate.rule, rate.population, rate.source.short));
    told.collect::<Vec<_>>().join(", and ")
}

fn by_task(assessment: &Assessment, grade: Grade) -> Vec<Said> {
    let mut lines: Vec<(&str, Vec<&Finding>)> = Vec::new();
    for finding in assessment.findings().filter(|finding| finding.grade == grade) {
        match lines.iter_mut().find(|(task, _)| *task == finding.task) {
            Some((_, findings)) => findings.push(finding),
            None => lines.push((finding.task, vec![finding])),
        }
    }
    let line = |(id, findings): (&str, Vec<&Finding>)| {
        let title = task::by_id(id).map_or("Symptoms".to_string(), named);
        let said: Vec<String> = findings.iter().map(|finding| without(id, &finding.headline)).collect();
        let keys: Vec<&str> = findings.iter().map(|finding| finding.key.as_str()).collect();
        Said::new(format!("{title}: {}.", said.join("; ")), &keys)
    };
    lines.into_iter().map(line).collect()
}

/// "Following (smooth pursuit)": the screen's word, and the field's for a reader who knows it.
fn named(task: &Task) -> String {
    let same = task.term.eq_ignore_ascii_case(task.title);
    if same { task.title.to_string() } else { format!("{} ({})", task.title, task.term) }
}

/// The headline in small letters, without the task's title when it begins with it: the line begins with it already.
fn without(id: &str, headline: &str) -> String {
    let title = task::by_id(id).map_or("Symptoms", |task| task.title);
    let rest = headline.strip_prefix(title).and_then(|rest| rest.strip_prefix(' '));
    rest.map_or_else(|| lower(headline), lower)
}

fn row(comparison: &Comparison) -> Vec<String> {
    let side = |proportion: Proportion| match proportion.n() {
        0 => "none recorded".to_string(),
        n => format!("{} of {n}", proportion.events()),
    };
    let p = match comparison.p {
        None => "too few".to_string(),
        Some(p) if p < 0.001 => "under 0.001".to_string(),
        Some(p) => format!("{p:.3}"),
    };
    vec![super::words::upper(comparison.what), side(comparison.right), side(comparison.left), p]
}
