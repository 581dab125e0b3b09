//! Compared with an earlier visit: what changed by more than error first, what did not in one line, detail in place.

use super::heading;
use super::words::{and, counted, lower, sentence};
use crate::calendar::long_date;
use crate::change::{Change, Changes, Differs, Relation, Verdict, Way, off_by};
use crate::document::{Block, Said};
use crate::evidence::{ChangeLimit, capital};
use crate::measure::{Amount, with_unit};
use crate::side_by_side::NEWCOMBE;
use crate::task;

/// Everything on the changes, with its detail.
pub fn blocks(changes: &Changes) -> Vec<Block> {
    let mut blocks = vec![heading(&title(changes))];
    blocks.extend(dated_before_baseline(changes).map(paragraph));
    blocks.extend(turned(changes).map(paragraph));
    let beyond = beyond_error(changes);
    if beyond.is_empty() {
        blocks.push(paragraph(nothing_beyond(changes)));
    }
    blocks.extend(beyond);
    blocks.extend(within_error(changes).map(paragraph));
    blocks.extend(as_seen(changes).map(paragraph));
    blocks.extend(measured_otherwise(changes));
    blocks.extend(changes.circumstances.iter().cloned().map(paragraph));
    blocks.extend(not_compared(changes).map(paragraph));
    blocks.extend(false_alarms(changes).map(|text| Block::Note(Said::new(text, &[]))));
    blocks
}

/// The same for a reader with one minute: of what changed, only the first sentence.
pub fn in_brief(changes: &Changes) -> Vec<Block> {
    let mut blocks = blocks(changes);
    for block in &mut blocks {
        if let Block::Folded { details, .. } = block {
            details.truncate(1);
        }
    }
    blocks
}

/// What the brief leaves out: the limits with their samples, and what else to mind.
pub fn behind(changes: &Changes) -> Vec<Block> {
    let rest = |block: Block| match block {
        Block::Folded { headline, details } if details.len() > 1 => {
            let said: Vec<&str> = details.iter().skip(1).map(|said| said.text.as_str()).collect();
            let text = format!("{} {}", sentence(&headline.text), said.join(" "));
            Some(Block::Note(Said { text, from: headline.from }))
        }
        _ => None,
    };
    let mut notes: Vec<Block> = blocks(changes).into_iter().filter_map(rest).collect();
    if !notes.is_empty() {
        notes.insert(0, heading("More on what changed"));
    }
    notes
}

fn title(changes: &Changes) -> String {
    let day = long_date(changes.since.date());
    match changes.relation {
        Relation::OwnBaseline => format!("Compared with the own baseline of {day}"),
        Relation::BeforeBaseline | Relation::Earlier => format!("Compared with {day}"),
    }
}

fn dated_before_baseline(changes: &Changes) -> Option<String> {
    let before = changes.relation == Relation::BeforeBaseline;
    before.then(|| "The later visit is the own baseline; the visit compared with it is dated before it.".to_string())
}

/// That a lesion keeps its side is our own inference; the sentence asks, and names nothing.
fn turned(changes: &Changes) -> Option<String> {
    let (then, now) = changes.turned?;
    Some(format!(
        "Does not go together: movements {} were worse then, movements {} now. A lasting lesion would keep its side (our own \
         reasoning). Ask about effort, attention, tiring and the order of the tasks, and whether something is new.",
        then.phrase(),
        now.phrase()
    ))
}

fn nothing_beyond(changes: &Changes) -> String {
    let untested = changes.all.iter().any(|change| change.verdict == Verdict::Untested);
    let text = match (changes.tested(), untested) {
        (0, false) => "Nothing was measured alike at both visits.",
        (0, true) => "Nothing that was measured has a published limit of error.",
        _ => "Nothing changed by more than the error of measuring.",
    };
    text.to_string()
}

/// What changed by more than error: what is certain first, what got worse before what got better. The sums and rises of
/// symptoms that went one way are told together.
fn beyond_error(changes: &Changes) -> Vec<Block> {
    let mut blocks = Vec::new();
    for verdict in [Verdict::Certain, Verdict::SomeLimits] {
        for way in [Way::Worse, Way::Better, Way::Up, Way::Down] {
            let these: Vec<&Change> =
                changes.all.iter().filter(|change| change.verdict == verdict && change.way == way).collect();
            let (symptoms, others): (Vec<&Change>, Vec<&Change>) =
                these.into_iter().partition(|change| change.task == SYMPTOMS);
            blocks.extend(others.into_iter().map(changed));
            blocks.extend(symptoms_changed(&symptoms, verdict, way));
        }
    }
    blocks
}

const SYMPTOMS: &str = "symptoms";

fn changed(change: &Change) -> Block {
    let key = change.key.as_str();
    let sure = way_words(change.way, change.verdict);
    let headline = format!("{}: {}, {sure}", capital(&change.what), then_and_now(change));
    let mut details = vec![how_much(change)];
    details.extend(limits_told(change));
    details.extend(not_noted(change));
    folded(headline, details, &[key])
}

fn symptoms_changed(changes: &[&Change], verdict: Verdict, way: Way) -> Option<Block> {
    let first = changes.first()?;
    let headline = format!("Symptoms {}", way_words(way, verdict));
    let each: Vec<String> = changes.iter().map(|change| format!("{}: {}", change.what, then_and_now(change))).collect();
    let mut limits: Vec<&'static ChangeLimit> = Vec::new();
    for limit in changes.iter().flat_map(|change| &change.limits) {
        if limits.iter().all(|known| known.value.total_cmp(&limit.value).is_ne()) {
            limits.push(limit);
        }
    }
    let values: Vec<String> = limits.iter().map(|limit| with_unit(limit.value, limit.unit)).collect();
    let limit = first.limits.first()?;
    let seven = if changes.iter().any(|change| change.key.ends_with(".all")) {
        " The limits over all were set for seven tests."
    } else {
        ""
    };
    let from = format!(
        "Limits of error: {} by task and scoring ({}; {}).{seven}",
        and(&values),
        limit.population,
        limit.source.short
    );
    let keys: Vec<&str> = changes.iter().map(|change| change.key.as_str()).collect();
    Some(folded(headline, vec![format!("{}.", capital(&each.join("; "))), from], &keys))
}

fn way_words(way: Way, verdict: Verdict) -> String {
    let perhaps = if verdict == Verdict::SomeLimits { "perhaps " } else { "" };
    let word = match way {
        Way::Better => "better",
        Way::Worse => "worse",
        Way::Up => "more",
        Way::Down => "less",
        Way::Same => "the same",
    };
    format!("{perhaps}{word}")
}

/// The difference against its error, in one sentence.
fn how_much(change: &Change) -> String {
    match (&change.then, &change.now) {
        (Amount::Number { value: then, unit }, Amount::Number { value: now, .. }) => {
            let by = off_by(*then, *now).abs();
            let (reached, not): (Vec<&ChangeLimit>, Vec<&ChangeLimit>) =
                change.limits.iter().copied().partition(|limit| by >= limit.value);
            let by = with_unit(by, unit);
            if not.is_empty() {
                let every = if reached.len() > 1 { "every published limit" } else { "the published limit" };
                return format!("A difference of {by}, which reaches {every} of error ({}).", values(&reached));
            }
            format!(
                "A difference of {by}: beyond some published limits of error ({}), not all ({}), so not certain.",
                values(&reached),
                values(&not)
            )
        }
        _ => share_words(change),
    }
}

fn share_words(change: &Change) -> String {
    let (Amount::Share(then), Amount::Share(now), Some(interval)) = (&change.then, &change.now, change.difference)
    else {
        return String::new();
    };
    let by = 100.0 * (now.rate().unwrap_or_default() - then.rate().unwrap_or_default());
    let more = if by < 0.0 { "fewer" } else { "more" };
    let (low, high) = if by < 0.0 { (-interval.high, -interval.low) } else { (interval.low, interval.high) };
    format!(
        "{:.0} in 100 {more}, 95 % interval {:.0} to {:.0} ({}), so more than chance.",
        by.abs(),
        100.0 * low,
        100.0 * high,
        NEWCOMBE.short
    )
}

/// "2 cm and 2.5 cm".
fn values(limits: &[&ChangeLimit]) -> String {
    and(&limits.iter().map(|limit| with_unit(limit.value, limit.unit)).collect::<Vec<_>>())
}

/// Every limit with who was examined and where it was published.
fn limits_told(change: &Change) -> Option<String> {
    let told = change
        .limits
        .iter()
        .map(|limit| format!("{} ({}; {})", with_unit(limit.value, limit.unit), limit.population, limit.source.short));
    let told: Vec<String> = told.collect();
    let disagree = if told.len() > 1 { "Published limits of error disagree" } else { "Published limit of error" };
    (!told.is_empty()).then(|| format!("{disagree}: {}.", told.join(", ")))
}

fn not_noted(change: &Change) -> Option<String> {
    let parts: Vec<String> = change.not_noted.iter().map(|part| (*part).to_string()).collect();
    (!parts.is_empty()).then(|| format!("Noted at one of the visits only: {}.", and(&parts)))
}

fn within_error(changes: &Changes) -> Option<String> {
    let within: Vec<&Change> = changes.all.iter().filter(|change| change.verdict == Verdict::WithinError).collect();
    let told = listed(&within);
    (!told.is_empty()).then(|| format!("No change beyond measurement error in: {}.", told.join("; ")))
}

/// Values by name; the many sums and rises of symptoms as a number.
fn listed(changes: &[&Change]) -> Vec<String> {
    let (symptoms, others): (Vec<&Change>, Vec<&Change>) =
        changes.iter().copied().partition(|change| change.task == SYMPTOMS);
    let mut told: Vec<String> =
        others.iter().map(|change| format!("{} ({})", change.what, then_and_now(change))).collect();
    match symptoms.as_slice() {
        [] => {}
        [one] => told.push(format!("{} ({})", one.what, then_and_now(one))),
        many => told.push(format!("{} sums and rises of symptoms", many.len())),
    }
    told
}

/// What has no published limit: what moved by name, what did not as a number for each task.
fn as_seen(changes: &Changes) -> Option<String> {
    let untested = || changes.all.iter().filter(|change| change.verdict == Verdict::Untested);
    let moved: Vec<String> = untested()
        .filter(|change| change.way != Way::Same)
        .map(|change| format!("{} ({}, {})", change.what, then_and_now(change), way_words(change.way, change.verdict)))
        .collect();
    let mut same: Vec<(String, usize)> = Vec::new();
    for change in untested().filter(|change| change.way == Way::Same) {
        let title = title_of(change.task);
        match same.iter_mut().find(|(known, _)| *known == title) {
            Some((_, count)) => *count += 1,
            None => same.push((title, 1)),
        }
    }
    let same: Vec<String> =
        same.into_iter().map(|(title, n)| format!("{title}, {}", counted(n, "value", "values"))).collect();
    let moved = (!moved.is_empty())
        .then(|| format!("Told as seen, because no limit of error is published: {}.", moved.join("; ")));
    let same = (!same.is_empty()).then(|| format!("Seen as it was then: {}.", same.join("; ")));
    let said: Vec<String> = [moved, same].into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// Values whose way of measuring differed, those of one task and one difference together.
fn measured_otherwise(changes: &Changes) -> Vec<Block> {
    let mut groups: Vec<(&[Differs], &str, Vec<&Change>)> = Vec::new();
    for change in changes.all.iter().filter(|change| change.verdict == Verdict::OtherMethod) {
        match groups.iter_mut().find(|(method, task, _)| *method == change.method && *task == change.task) {
            Some((_, _, these)) => these.push(change),
            None => groups.push((&change.method, change.task, vec![change])),
        }
    }
    let block = |(method, task, these): (&[Differs], &str, Vec<&Change>)| {
        let differed: Vec<String> =
            method.iter().map(|part| format!("{}: {} then, {} now", part.part, part.then, part.now)).collect();
        let mut details = vec![format!("{}. The difference is not read as a change.", capital(&differed.join("; ")))];
        details.extend(these.iter().map(|change| format!("{}: {}.", capital(&change.what), then_and_now(change))));
        details.extend(method.iter().map(alone));
        let keys: Vec<&str> = these.iter().map(|change| change.key.as_str()).collect();
        folded(format!("{} measured in another way", capital(&title_of(task))), details, &keys)
    };
    groups.into_iter().map(block).collect()
}

/// What the way of measuring does by itself.
fn alone(differs: &Differs) -> String {
    match differs.effect {
        Some(effect) => format!("By itself, {} ({}).", effect.says, effect.source.short),
        None => format!("How much the {} moves it by itself is not known here.", differs.part),
    }
}

fn not_compared(changes: &Changes) -> Option<String> {
    let of = |verdict| changes.all.iter().filter(move |change| change.verdict == verdict);
    let names = |verdict| of(verdict).map(|change| change.what.clone()).collect::<Vec<String>>();
    let few: Vec<String> =
        of(Verdict::TooFew).map(|change| format!("{} ({})", change.what, then_and_now(change))).collect();
    let parts = [
        ("Too few repetitions to compare", few),
        ("Not of one kind, so not compared", names(Verdict::NotAlike)),
        ("Measured only then", changes.only_then.clone()),
        ("Measured only now", changes.only_now.clone()),
    ];
    let said: Vec<String> = parts
        .into_iter()
        .filter(|(_, names)| !names.is_empty())
        .map(|(lead, names)| format!("{lead}: {}.", shortened(&names)))
        .collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// The first names, and how many more.
fn shortened(names: &[String]) -> String {
    const MOST: usize = 6;
    match names.get(MOST + 1..) {
        Some(_) => format!("{}; and {} more", names[..MOST].join("; "), names.len() - MOST),
        None => names.join("; "),
    }
}

/// Many comparisons raise false alarms: limits and intervals are set so that one in twenty is one.
fn false_alarms(changes: &Changes) -> Option<String> {
    let tested = changes.tested();
    (tested > 1).then(|| {
        format!(
            "{tested} values were compared. Limits and intervals are 95 %: when nothing has changed, about 1 value in 20 \
             still goes beyond them."
        )
    })
}

fn then_and_now(change: &Change) -> String {
    let (then, now) = (change.then.words(), change.now.words());
    if then == now { format!("{then} both times") } else { format!("{then} then, {now} now") }
}

fn title_of(id: &str) -> String {
    task::by_id(id).map_or_else(|| id.to_string(), |task| lower(task.title))
}

fn folded(headline: String, details: Vec<String>, keys: &[&str]) -> Block {
    let details = details.into_iter().filter(|text| !text.is_empty()).map(|text| Said::new(text, keys));
    Block::Folded { headline: Said::new(headline, keys), details: details.collect() }
}

fn paragraph(text: String) -> Block {
    Block::Paragraph(Said::new(text, &["changes"]))
}

#[cfg(test)]
mod tests;
