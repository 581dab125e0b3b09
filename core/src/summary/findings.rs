//! What stands out, what is as expected, and right against left.

use super::words::{and, counted, lower, sentence};
use super::{heading, region, tiring};
use crate::assess::Assessment;
use crate::capture::frame;
use crate::capture::visit::Visit;
use crate::document::{Block, Said};
use crate::evidence::{BaseRate, Norm, Status, capital};
use crate::finding::{Comparison, Finding, Grade};
use crate::statistics::proportion::Proportion;
use crate::task::{self, Task};

/// Findings near the limit or beyond, the gravest first.
pub fn standing_out(visit: &Visit, assessment: &Assessment) -> Vec<Block> {
    let mut blocks = vec![heading("What stands out")];
    // That one task is worse to a side is told with the side or the pattern that rests on it.
    let outside: Vec<&Finding> =
        assessment.outside().into_iter().filter(|finding| !region::tells(assessment, finding)).collect();
    if outside.is_empty() && !assessment.outside().is_empty() {
        let only = "Only a difference between right and left, told under side and region.";
        blocks.push(Block::Paragraph(Said::new(only, &["findings"])));
    } else if outside.is_empty() {
        blocks.push(Block::Paragraph(Said::new(nothing_outside(visit, assessment), &["findings"])));
    }
    let mut told = Vec::new();
    blocks.extend(outside.into_iter().map(|finding| graded(finding, &mut told)));
    blocks.extend(long_known(assessment));
    blocks
}

/// What is not as expected but said to be long known: it has no grade, yet whoever reads on must not miss it.
fn long_known(assessment: &Assessment) -> Vec<Block> {
    let lines = by_task(assessment, |finding| finding.long_known);
    if lines.is_empty() {
        return Vec::new();
    }
    let says = "Said to be long known, so not graded; ask whether any of it has changed:";
    vec![Block::Paragraph(Said::new(says, &["findings"])), Block::List(lines)]
}

/// Tasks that what stands out calls by the screen's word alone, with the field's word.
pub fn terms(assessment: &Assessment) -> Option<String> {
    let outside: Vec<&str> = assessment.outside().iter().map(|finding| finding.task).collect();
    let told = |id: &str| assessment.findings().any(|finding| finding.task == id && listed(assessment, finding));
    let tasks = assessment.tasks.iter().map(|read| read.task);
    let apart = tasks.filter(|task| outside.contains(&task.id) && !told(task.id) && !one_word(task)).map(named);
    let apart: Vec<String> = apart.collect();
    (!apart.is_empty()).then(|| format!("In the words of the field: {}.", apart.join("; ")))
}

/// That nothing stands out, and what that does not mean.
fn nothing_outside(visit: &Visit, assessment: &Assessment) -> String {
    let graded = assessment.findings().any(|finding| finding.grade == Grade::WithinRange);
    let flagged = !assessment.flags.is_empty();
    let text = match (assessment.stopped, graded) {
        (true, true) => "The examination was stopped; nothing recorded before lies outside its range.",
        (true, false) => "The examination was stopped before anything could be read.",
        (false, true) if flagged => {
            "Apart from the emergency sign nothing that was recorded lies outside its range; that makes the sign no less \
             urgent."
        }
        (false, true) => "Nothing that was recorded lies outside its range.",
        (false, false) => "Nothing was recorded that has a range.",
    };
    // A normal eye examination rules out neither a concussion nor a stroke; someone well today need not be told.
    let meaning = if graded && !flagged && !assessment.stopped && !frame::is_baseline(visit) {
        " That rules out neither an injury nor an illness."
    } else {
        ""
    };
    let missing = match assessment.tasks.iter().filter(|task| !task.done).count() {
        0 => String::new(),
        n => format!(" {} not done.", counted(n, "task was", "tasks were")),
    };
    format!("{text}{meaning}{missing}")
}

/// The first sentences of what stands out, for a reader with one minute: how much, the range, how often in health. What
/// is urgent is told in full, because it says what to do.
pub fn in_brief(visit: &Visit, assessment: &Assessment) -> Vec<Block> {
    let mut blocks = standing_out(visit, assessment);
    for block in &mut blocks {
        if let Block::Graded { grade, details, .. } = block
            && *grade < Grade::Urgent
        {
            details.truncate(1);
        }
    }
    blocks
}

/// What the brief leaves out: compared with what, how sure, what else it could be.
pub fn behind(assessment: &Assessment) -> Vec<Block> {
    let (mut blocks, mut told) = (Vec::new(), Vec::new());
    for finding in assessment.outside().into_iter().filter(|finding| finding.grade < Grade::Urgent) {
        let rest = rest(finding, &mut told);
        // What side and region tell in its stead stands here in full.
        let whole =
            region::tells(assessment, finding).then(|| brief(finding, &mut told)).filter(|text| !text.is_empty());
        if whole.is_some() || !rest.is_empty() {
            let said: Vec<&str> =
                whole.as_deref().into_iter().chain(rest.iter().map(|said| said.text.as_str())).collect();
            let text = format!("{} {}", sentence(&finding.headline), said.join(" "));
            blocks.push(Block::Note(Said::new(text, &[finding.key.as_str()])));
        }
    }
    if !blocks.is_empty() {
        blocks.insert(0, heading("More on what stands out"));
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
        let lines = by_task(assessment, |finding| finding.grade == grade && listed(assessment, finding));
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

fn graded(finding: &Finding, told: &mut Vec<String>) -> Block {
    let key = finding.key.as_str();
    let mut details = vec![Said::new(brief(finding, told), &[key])];
    details.extend(rest(finding, told));
    if finding.grade == Grade::Urgent {
        // What to do comes before how often healthy people show something like it.
        details.extend(healthy(finding).map(|text| Said::new(text, &[key])));
    }
    details.retain(|said| !said.text.is_empty());
    Block::Graded { grade: finding.grade, headline: Said::new(finding.headline.as_str(), &[key]), details }
}

/// How much, against which range, and how often healthy people show it.
fn brief(finding: &Finding, told: &mut Vec<String>) -> String {
    let first = finding.details.first().map(|text| sentence(text));
    if finding.grade == Grade::Urgent {
        return first.unwrap_or_default();
    }
    let first = first.map(|text| shortened(text, told));
    let range = shown_norm(finding).map(|norm| {
        let open = norm.status == Status::CommonPractice && !told.iter().any(|text| text == RATE_UNKNOWN);
        let rate = if open { format!(" {RATE_UNKNOWN}") } else { String::new() };
        told.extend(open.then(|| RATE_UNKNOWN.to_string()));
        format!("{}{rate}", self::range(norm))
    });
    [first, range, healthy(finding)].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// What an earlier finding began with in the same words is cut to its first sentence.
fn shortened(text: String, told: &mut Vec<String>) -> String {
    if !told.contains(&text) {
        told.push(text.clone());
        return text;
    }
    text.split_once(". ").map_or(text.clone(), |(first, _)| format!("{first}."))
}

/// The further sentences. What an earlier finding explained in the same words is not explained again.
fn rest(finding: &Finding, told: &mut Vec<String>) -> Vec<Said> {
    let mut said: Vec<String> = finding.details.iter().skip(1).map(|text| sentence(text)).collect();
    let first = first_rates(finding);
    let more: Vec<&BaseRate> = finding.healthy.iter().copied().filter(|rate| !first.contains(rate)).take(2).collect();
    if !more.is_empty() {
        said.push(format!("Other samples: {}.", shown(&more, None)));
    }
    said.retain(|text| !told.contains(text));
    told.extend(said.iter().cloned());
    said.into_iter().map(|text| Said::new(text, &[finding.key.as_str()])).collect()
}

/// The range, unless the first sentence names its source already.
fn shown_norm(finding: &Finding) -> Option<&'static Norm> {
    let told = |norm: &&Norm| finding.details.first().is_some_and(|text| text.contains(norm.source.short));
    finding.norm.filter(|norm| !told(norm))
}

/// Said once of the ranges without a source.
const RATE_UNKNOWN: &str = "How often healthy people lie beyond a range of common practice is not published.";

/// "Range: at most 6 cm (297 schoolchildren; Hayes et al. 1998)."
fn range(norm: &Norm) -> String {
    let range = norm.range();
    if norm.status == Status::CommonPractice {
        return format!("Range: {range}, by common practice.");
    }
    let remark = norm.status.remark().map(|remark| format!("; {remark}")).unwrap_or_default();
    format!("Range: {range} ({}; {}{remark}).", norm.population, norm.source.short)
}

/// "Among healthy people 21 to 32 in 100 show a near point of 5 cm or more (78 athletes; ...)."
fn healthy(finding: &Finding) -> Option<String> {
    let rates = first_rates(finding);
    (!rates.is_empty()).then(|| format!("Among healthy people {}.", shown(&rates, shown_norm(finding))))
}

/// Shares with their rules and samples, a sentence each; of the study the range comes from, only that it is the same.
fn shown(rates: &[&BaseRate], norm: Option<&Norm>) -> String {
    let told = rates.iter().enumerate().map(|(at, rate)| {
        let (share, rule, source) = (rate.share(), rate.rule, rate.source.short);
        if rates[..at].iter().any(|earlier| earlier.source.short == source) {
            return format!("In the same study {share} show {rule}");
        }
        let whose = if at == 0 { "" } else { "Of other healthy people " };
        let same = norm.is_some_and(|norm| norm.source.short == source);
        let sample = if same { "same study".to_string() } else { format!("{}; {source}", rate.population) };
        format!("{whose}{share} show {rule} ({sample})")
    });
    told.collect::<Vec<_>>().join(". ")
}

/// Whether a finding stands in the lists of what is as expected or only recorded, and not somewhere else.
fn listed(assessment: &Assessment, finding: &Finding) -> bool {
    // The symptoms before the tasks stand in the table, when there is one.
    let in_table = finding.key == "symptoms.before" && assessment.symptoms.any_symptom();
    let graded = finding.grade >= Grade::NearLimit;
    !graded && !finding.long_known && !in_table && !tiring::tells(finding)
}

fn by_task(assessment: &Assessment, wanted: impl Fn(&Finding) -> bool) -> Vec<Said> {
    let mut lines: Vec<(&str, Vec<&Finding>)> = Vec::new();
    for finding in assessment.findings().filter(|finding| wanted(finding)) {
        match lines.iter_mut().find(|(task, _)| *task == finding.task) {
            Some((_, findings)) => findings.push(finding),
            None => lines.push((finding.task, vec![finding])),
        }
    }
    let line = |(id, findings): (&str, Vec<&Finding>)| {
        let title = task::by_id(id).map_or("Symptoms".to_string(), named);
        let said: Vec<String> = findings.iter().map(|finding| without(id, &finding.headline)).collect();
        let keys: Vec<&str> = findings.iter().map(|finding| finding.key.as_str()).collect();
        Said::new(format!("{title}: {}.", merged(&said).join("; ")), &keys)
    };
    lines.into_iter().map(line).collect()
}

/// Neighbours that say the same of several directions, told once: "to the right and to the left: smooth".
fn merged(said: &[String]) -> Vec<String> {
    let mut groups: Vec<(Vec<String>, Option<&str>)> = Vec::new();
    for text in said {
        let (what, same) = text.split_once(": ").map_or((text.as_str(), None), |(what, same)| (what, Some(same)));
        match groups.last_mut() {
            Some((whats, known)) if same.is_some() && *known == same => whats.push(what.to_string()),
            _ => groups.push((vec![what.to_string()], same)),
        }
    }
    let told = groups.into_iter().map(|(whats, same)| {
        let what = and(&whats);
        same.map_or(what.clone(), |same| format!("{what}: {same}"))
    });
    told.collect()
}

/// "Following (smooth pursuit)": the screen's word, and the field's for a reader who knows it; the field's alone where it
/// begins with the screen's.
fn named(task: &Task) -> String {
    if one_word(task) {
        return capital(task.term);
    }
    format!("{} ({})", task.title, task.term)
}

/// Whether the field's word begins with the screen's.
fn one_word(task: &Task) -> bool {
    task.term.to_lowercase().starts_with(&task.title.to_lowercase())
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
        Some(p) if p < 0.1 => format!("{p:.3}"),
        Some(p) => format!("{p:.2}"),
    };
    vec![capital(comparison.what), side(comparison.right), side(comparison.left), p]
}
