//! A person over the visits: what changed last, every visit in a line, values drawn over time.

use super::words::{counted, lower};
use super::{NOT_A_DIAGNOSIS, Options, compared, heading};
use crate::assess::{assess, overview};
use crate::calendar::{long_date, short_date};
use crate::capture::form::{Kind, label};
use crate::capture::frame;
use crate::capture::visit::{Person, Visit};
use crate::change::{Changes, since_earlier};
use crate::document::{Block, Document, Said, foreign};
use crate::evidence::{Citation, capital};
use crate::routine;
use crate::sorted;
use crate::task;
use crate::trend::{self, Series};

/// Most visits told in one table; the latest stand in it.
const COLUMNS: usize = 4;

/// Writes a person's visits as one page. The title carries no name: browsers offer it as a file name.
#[must_use]
pub fn compose(person: &Person, visits: &[Visit], options: &Options<'_>) -> Document {
    let own = of(person, visits);
    let mut blocks = vec![facts(person, &own)];
    blocks.extend(over_time(person, visits).blocks);
    if !own.is_empty() {
        let line = |visit: &&Visit| Said::new(line(person, visit), &[visit.id.as_str()]);
        blocks.extend([heading("Visits"), Block::List(own.iter().map(line).collect())]);
    }
    blocks.extend(notes(person, visits, options));
    Document { title: "Eye movement examinations over time".to_string(), blocks }
}

/// The latest changes and the values over time, without the list of visits: what a screen shows beside its own list.
#[must_use]
pub fn over_time(person: &Person, visits: &[Visit]) -> Document {
    let mut blocks = latest(person, visits).iter().flat_map(compared::blocks).collect::<Vec<_>>();
    let series = trend::of(person, visits);
    let (drawn, listed): (Vec<&Series>, Vec<&Series>) = series.iter().partition(|series| is_drawn(series));
    let (moved, still): (Vec<&Series>, Vec<&Series>) = drawn.into_iter().partition(|series| series.moved());
    let figures: Vec<Block> = moved.iter().filter_map(|series| trend::drawing(series)).map(Block::Figure).collect();
    if !figures.is_empty() {
        blocks.push(heading("Over time"));
        blocks.push(Block::Note(Said::new(KEY, &[])));
        blocks.extend(figures);
    }
    let (in_table, also_still): (Vec<&Series>, Vec<&Series>) = listed.into_iter().partition(|series| series.moved());
    blocks.extend(table(&in_table));
    let still: Vec<&Series> = still.into_iter().chain(also_still).collect();
    if !still.is_empty() {
        let text = format!("The same at every visit: {}.", unmoved(&still).join("; "));
        blocks.push(Block::Paragraph(Said::new(text, &["trend"])));
    }
    Document { title: "Over time".to_string(), blocks }
}

/// How the drawings are read.
const KEY: &str = "Bars: 95 % error of one measurement or interval of a share. The pale band is the published range. A \
                   dashed way: measured differently than before.";

/// The visits of a person, the latest first.
#[must_use]
pub fn of<'a>(person: &Person, visits: &'a [Visit]) -> Vec<&'a Visit> {
    let mut own: Vec<&Visit> = visits.iter().filter(|visit| visit.person == person.id).collect();
    sorted::by_key(&mut own, |visit| std::cmp::Reverse(visit.started));
    own
}

/// "Knock to the head or body; sideline routine, 5 of 5 tasks done; 2 outside".
#[must_use]
pub fn line(person: &Person, visit: &Visit) -> String {
    let assessment = assess(person, visit);
    let (done, all) = (assessment.tasks.iter().filter(|task| task.done).count(), assessment.tasks.len());
    let routine = lower(routine::title_of(visit));
    let open = if visit.closed.is_none() { "; still open" } else { "" };
    let why = reason(visit).map(|reason| format!("{reason}; ")).unwrap_or_default();
    format!(
        "{}: {why}{routine} routine, {done} of {}; {}{open}.",
        long_date(visit.started.date()),
        counted(all, "task", "tasks"),
        overview(&assessment).text
    )
}

/// Why the person came, by the label of the frame.
#[must_use]
pub fn reason(visit: &Visit) -> Option<String> {
    let id = visit.filled(frame::SLOT)?.answers.one("reason")?;
    let Kind::One(choices) = &frame::FORM.field("reason")?.kind else { return None };
    Some(foreign(label(choices, id)))
}

/// What changed at the latest closed visit.
fn latest(person: &Person, visits: &[Visit]) -> Option<Changes> {
    let last = of(person, visits).into_iter().find(|visit| visit.closed.is_some())?;
    since_earlier(person, last, &assess(person, last), visits)
}

fn facts(person: &Person, own: &[&Visit]) -> Block {
    let label = Some(foreign(&person.label)).filter(|label| !label.is_empty());
    let mut who = label.unwrap_or_else(|| "no code or name".to_string());
    who.push_str(&person.born.map_or_else(|| ", age not known".to_string(), |born| format!(", born {}", born.text())));
    if person.invented {
        who.push_str("; an invented person");
    }
    let day = |visit: Option<&&Visit>| visit.map(|visit| long_date(visit.started.date()));
    let visits = match (day(own.last()), day(own.first())) {
        (Some(first), Some(last)) if own.len() > 1 => format!("{}, {first} to {last}", own.len()),
        (Some(only), _) => format!("1, {only}"),
        (None, _) => "none yet".to_string(),
    };
    let fact = |name: &str, text: String| (name.to_string(), Said::new(text, &["person"]));
    Block::Facts(vec![
        fact("Person", who),
        fact("Visits", visits),
        fact("Sides", "Right and left are the person's own.".to_string()),
    ])
}

/// The sums and rises by task are many and small: their table says as much in less room.
fn is_drawn(series: &Series) -> bool {
    let by_task = ["symptoms.sum.", "symptoms.rise."].iter().any(|lead| series.key.starts_with(lead));
    !series.is_grade() && (!by_task || series.key.ends_with(".all"))
}

/// Grades and symptoms by task, the latest visits side by side.
fn table(series: &[&Series]) -> Option<Block> {
    let mut days: Vec<_> = series.iter().flat_map(|series| &series.points).map(|point| point.at).collect();
    sorted::by(&mut days, Ord::cmp);
    days.dedup();
    let days = days.split_off(days.len().saturating_sub(COLUMNS));
    let mut head = vec!["What".to_string()];
    head.extend(days.iter().map(|day| short_date(day.date())));
    let row = |series: &&Series| {
        let cell = |day: &_| series.points.iter().find(|point| point.at == *day).map(|point| point.words.clone());
        let mut row = vec![capital(&series.what)];
        row.extend(days.iter().map(|day| cell(day).unwrap_or_else(|| "not done".to_string())));
        row
    };
    let rows: Vec<Vec<String>> = series.iter().map(row).collect();
    let caption = "What was graded and rated, at the latest visits".to_string();
    (!rows.is_empty()).then_some(Block::Table { caption, head, rows })
}

/// Values by name; the many grades and symptoms of a task as a number.
fn unmoved(series: &[&Series]) -> Vec<String> {
    let (drawn, listed): (Vec<&Series>, Vec<&Series>) = series.iter().copied().partition(|series| is_drawn(series));
    let words = |series: &Series| series.points.first().map(|point| point.words.clone()).unwrap_or_default();
    let mut told: Vec<String> = drawn.iter().map(|series| format!("{} ({})", series.what, words(series))).collect();
    let mut tasks: Vec<(&str, usize)> = Vec::new();
    for series in listed {
        match tasks.iter_mut().find(|(task, _)| *task == series.task) {
            Some((_, count)) => *count += 1,
            None => tasks.push((series.task, 1)),
        }
    }
    let title = |id: &str| task::by_id(id).map_or_else(|| id.to_string(), |task| lower(task.title));
    told.extend(tasks.into_iter().map(|(id, n)| format!("{}, {}", title(id), counted(n, "value", "values"))));
    told
}

fn notes(person: &Person, visits: &[Visit], options: &Options<'_>) -> Vec<Block> {
    let changes = latest(person, visits);
    let mut sources: Vec<&'static Citation> = changes.iter().flat_map(Changes::sources).collect();
    let series = trend::of(person, visits);
    let of_series = series.iter().filter(|series| is_drawn(series) && series.moved()).flat_map(|series| {
        series.norm.map(|norm| norm.source).into_iter().chain(series.limit.map(|limit| limit.source))
    });
    for source in of_series {
        if sources.iter().all(|known| known.short != source.short) {
            sources.push(source);
        }
    }
    sorted::by_key(&mut sources, |source| source.short.to_lowercase());
    let mut blocks = vec![heading("How to read this")];
    if !sources.is_empty() {
        let told: Vec<String> =
            sources.iter().map(|source| format!("{}, {}", capital(source.short), source.place)).collect();
        blocks.push(Block::Note(Said::new(format!("Sources: {}.", told.join(". ")), &[])));
    }
    let when = options.printed.map(|at| format!(", {} at {}", long_date(at.date()), at.clock())).unwrap_or_default();
    blocks.push(Block::Note(Said::new(format!("Made with {}{when}.", foreign(options.program)), &[])));
    blocks.push(Block::Paragraph(Said::new(NOT_A_DIAGNOSIS, &[])));
    blocks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::demo;
    use crate::export::text;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn written(of: &str) -> String {
        let (people, visits) = demo::people(NOW);
        let one = people.iter().find(|person| person.label == of).expect("a demo person");
        let rendered = text::render(&compose(one, &visits, &Options::new("test")));
        rendered.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn four_visits_tell_what_changed_and_draw_the_way_there() {
        let said = written("N-14");
        assert!(said.contains("Visits: 4, "), "{said}");
        assert!(said.contains("Near point, break: 10.2 cm then, 6 cm now, better"), "{said}");
        assert!(said.contains("which reaches every published limit of error"), "{said}");
        assert!(said.contains("Near point, break (cm)"), "{said}");
        assert!(said.ends_with(NOT_A_DIAGNOSIS), "{said}");
        assert_eq!(said.matches("sideline routine").count(), 4);
    }

    #[test]
    fn a_follow_up_is_compared_with_the_own_baseline() {
        let said = written("B-33");
        assert!(said.contains("COMPARED WITH THE OWN BASELINE OF"), "{said}");
        assert!(said.contains("Visits: 2, "), "{said}");
    }

    #[test]
    fn one_visit_has_no_drawing_and_is_compared_with_nothing() {
        let said = written("R-21");
        assert!(said.contains("Visits: 1, ") && !said.contains("COMPARED") && !said.contains("OVER TIME"), "{said}");
    }
}
