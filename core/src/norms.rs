//! Every published figure on one page: ranges, how often healthy people lie outside, and what two visits must differ by.

use crate::document::{Block, Document, Said};
use crate::evidence::{BaseRate, ChangeLimit, Citation, Norm, Status};
use crate::measure::with_unit;
use crate::provocation::{self, limits};
use crate::task::{self, Task, balance, further_measures, gaze_range, near_point, resting_gaze};

/// Limits of change beyond error, by task: what they are limits of, and the limits.
static CHANGE_LIMITS: &[(&str, &str, &[ChangeLimit])] = &[
    ("near_point", "near point of convergence, break or recovery", near_point::CHANGE_LIMITS),
    ("balance", "errors in the three stances", balance::CHANGE_LIMITS),
    ("further_measures", "symptom survey, children", further_measures::CHILD_CHANGE),
    ("further_measures", "symptom survey, adults", further_measures::ADULT_CHANGE),
    ("further_measures", "base-out reserve near, break", further_measures::BASE_OUT_CHANGE),
    ("further_measures", "base-in reserve near, break", further_measures::BASE_IN_CHANGE),
];

/// Rates in healthy people that belong to no range, by task.
static RATES: &[(&str, &[&[BaseRate]])] = &[("resting_gaze", resting_gaze::RATES), ("gaze_range", gaze_range::RATES)];

/// The page, task by task in exam order, symptoms last.
#[must_use]
pub fn page() -> Document {
    let mut blocks = vec![paragraph(
        "What a value is read against, who was examined, where it was published, and how often healthy people lie outside. \
         A figure recalled and not seen in its source says “from memory”. Outside a range is no diagnosis, and within it is \
         no clearance.",
    )];
    for task in task::ALL {
        blocks.push(heading(&format!("{}: {}", task.title, task.term)));
        blocks.extend(of_task(task));
    }
    blocks.push(heading("Symptoms after the tasks"));
    blocks.extend([&limits::TOTAL, &limits::CHANGE, &limits::OVERALL].map(norm));
    blocks.extend(provocation::LIMITS.iter().map(|(what, limits)| change(what, limits)));
    Document { title: "Ranges and sources".to_string(), blocks }
}

fn of_task(task: &Task) -> Vec<Block> {
    let mut blocks: Vec<Block> = task.norms.iter().map(|each| norm(each)).collect();
    let rates = RATES.iter().filter(|(id, _)| *id == task.id).flat_map(|(_, rates)| *rates);
    for each in rates.copied().flatten() {
        let block = rate(each);
        if !blocks.contains(&block) {
            blocks.push(block);
        }
    }
    let limits = CHANGE_LIMITS.iter().filter(|(id, _, _)| *id == task.id);
    blocks.extend(limits.map(|(_, what, limits)| change(what, limits)));
    if blocks.is_empty() {
        blocks.push(paragraph("No published range is used. What is seen is told as it was recorded."));
    }
    blocks
}

/// One range: the range, then who and where.
fn norm(norm: &'static Norm) -> Block {
    let remark = match norm.status.remark() {
        Some(remark) => format!(" ({remark})"),
        None => String::new(),
    };
    let ages = match norm.ages {
        Some((from, to)) if to >= 100 => format!(" For {from} years and older."),
        Some((from, to)) => format!(" For {from} to {to} years."),
        None => String::new(),
    };
    let mut details = vec![format!("From {}.{ages}", norm.population)];
    if norm.status != Status::CommonPractice || !norm.source.short.is_empty() {
        details.push(source(norm.source));
    }
    if let Some(error) = norm.error {
        details.push(format!(
            "Error of measuring carries a value within {} of the limit across.",
            with_unit(error, norm.unit)
        ));
    }
    details.extend(norm.healthy.iter().map(healthy));
    folded(format!("{}: {}{remark}", norm.what, norm.range()), &details, norm.id)
}

fn rate(rate: &'static BaseRate) -> Block {
    let details = vec![format!("Healthy people: {}.", rate.population), source(rate.source)];
    folded(format!("{}: {} healthy people", rate.rule, rate.share()), &details, "healthy")
}

fn change(what: &str, limits: &'static [ChangeLimit]) -> Block {
    let values: Vec<String> = limits.iter().map(|limit| with_unit(limit.value, limit.unit)).collect();
    let line = |limit: &ChangeLimit| {
        format!("{}: {}. {}", with_unit(limit.value, limit.unit), limit.population, source(limit.source))
    };
    let details: Vec<String> = limits.iter().map(line).collect();
    folded(format!("{what}: a change counts from {}", values.join(", ")), &details, "change")
}

fn healthy(rate: &BaseRate) -> String {
    format!("Healthy people with {}: {} ({}; {}).", rate.rule, rate.share(), rate.population, rate.source.short)
}

fn source(source: &Citation) -> String {
    match source.link {
        "" => format!("{}, {}.", source.short, source.place),
        link => format!("{}, {} ({link}).", source.short, source.place),
    }
}

fn folded(headline: String, details: &[String], from: &str) -> Block {
    // All of it stands in sight: who looks here wants the source.
    Block::Folded { headline: Said::new(headline, &[from]), details: vec![Said::new(details.join(" "), &[from])] }
}

fn heading(text: &str) -> Block {
    Block::Heading { level: 2, text: text.to_string() }
}

fn paragraph(text: &str) -> Block {
    Block::Paragraph(Said::new(text, &[]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::evidence::Limit;
    use crate::export::text;

    static SOURCE: Citation = Citation { short: "A 2000", place: "B 1:2", link: "c.org" };
    static READ: Norm = Norm { ages: Some((5, 12)), error: Some(1.5), status: Status::Found, ..RECALLED };
    const RECALLED: Norm = Norm {
        id: "x",
        what: "width",
        unit: "cm",
        limit: Limit::AtMost(6.0),
        error: None,
        ages: None,
        population: "20 people",
        source: &SOURCE,
        status: Status::FromMemory,
        healthy: &[],
    };

    #[test]
    fn a_figure_from_memory_is_marked_and_one_that_was_read_is_not() {
        static FROM_MEMORY: Norm = RECALLED;
        let said = |norm: &'static Norm| match super::norm(norm) {
            Block::Folded { headline, details } => {
                format!("{} | {}", headline.text, details[0].text)
            }
            other => format!("{other:?}"),
        };
        assert_eq!(
            said(&READ),
            "width: at most 6 cm | From 20 people. For 5 to 12 years. A 2000, B 1:2 (c.org). Error of measuring carries a \
             value within 1.5 cm of the limit across."
        );
        assert_eq!(said(&FROM_MEMORY), "width: at most 6 cm (from memory) | From 20 people. A 2000, B 1:2 (c.org).");
    }

    #[test]
    fn every_task_has_its_place_on_the_page() {
        let page = text::render(&page());
        for task in task::ALL {
            assert!(page.to_lowercase().contains(&task.title.to_lowercase()), "{} is not on the page", task.id);
        }
    }
}
