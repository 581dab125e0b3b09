//! Tiring in words: which tasks grew worse on the way, which did not, and the trend over trials. Numbers that a finding
//! tells are not told again.

use super::heading;
use super::words::{and, sentence};
use crate::anatomy::Place;
use crate::assess::Assessment;
use crate::document::{Block, Said};
use crate::evidence::{Citation, capital, number};
use crate::finding::{Finding, Grade};
use crate::side_by_side::{COMPARABLE, frequency};
use crate::task;
use crate::tiring::{Over, RANKS, SLOPE, Tiring, Trials};

/// What a task's own finding on tiring is called, behind its id.
const OWN: [&str; 2] = ["tiring", "drawing_back"];

/// The part; nothing when no task was done often enough to look for tiring at all.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    let Some(sentence) = first(assessment) else { return Vec::new() };
    let mut blocks = vec![heading("Tiring"), Block::Paragraph(sentence)];
    let trends: Vec<Said> = assessment.tiring.iter().filter_map(trend).collect();
    if !trends.is_empty() {
        blocks.push(Block::List(trends));
    }
    blocks
}

/// Published sources behind this part.
pub fn sources(assessment: &Assessment) -> Vec<&'static Citation> {
    let any = assessment.tiring.iter().any(|tiring| trend(tiring).is_some());
    if any { vec![&SLOPE, &RANKS] } else { Vec::new() }
}

/// Whether this part tells the finding, so that the list of what is as expected need not.
pub fn tells(finding: &Finding) -> bool {
    let own = OWN.iter().any(|what| finding.key == format!("{}.{what}", finding.task));
    own && matches!(finding.grade, Grade::WithinRange | Grade::NoRange)
}

/// "Grows worse on the way: near point (+4 cm from first to last of 3). No sign of tiring: jumps (20) and stripes (20)."
fn first(assessment: &Assessment) -> Option<Said> {
    let (mut tires, mut steady, mut short, mut from) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for tiring in &assessment.tiring {
        let own = own(assessment, tiring.task);
        from.push(own.map_or_else(|| tiring.task.to_string(), |finding| finding.key.clone()));
        match verdict(tiring, own) {
            Some(true) => tires.push(named(tiring)),
            Some(false) => steady.push(named(tiring)),
            None => short.push(named(tiring)),
        }
    }
    let told = |list: &[String], says: &str| (!list.is_empty()).then(|| format!("{says}: {}.", and(list)));
    let parts =
        [told(&tires, "Grows worse on the way"), told(&steady, "No sign of tiring"), told(&short, "Too few to tell")];
    let text: Vec<String> = parts.into_iter().flatten().collect();
    let keys: Vec<&str> = from.iter().map(String::as_str).collect();
    (!text.is_empty()).then(|| Said::new(text.join(" "), &keys))
}

/// The task's own finding decides where it has one, because it knows the published error; a trend beyond chance, too.
fn verdict(tiring: &Tiring, own: Option<&Finding>) -> Option<bool> {
    let graded = own.and_then(|finding| match finding.grade {
        Grade::NoRange => None,
        Grade::WithinRange => Some(false),
        Grade::NearLimit | Grade::OutsideRange | Grade::Urgent => Some(true),
    });
    match (graded, tiring.tires()) {
        (Some(true), _) | (_, Some(true)) => Some(true),
        (graded, tires) => graded.or(tires),
    }
}

fn own<'a>(assessment: &'a Assessment, task: &str) -> Option<&'a Finding> {
    assessment
        .findings()
        .find(|finding| finding.task == task && OWN.iter().any(|what| finding.key == format!("{task}.{what}")))
}

/// "near point (+4 cm from first to last of 3)", "following (to the left from time 2 on)", "jumps (20)".
fn named(tiring: &Tiring) -> String {
    let title = task::by_id(tiring.task).map_or(tiring.task.to_string(), |task| task.title.to_lowercase());
    let n = tiring.n;
    let what = match &tiring.over {
        Over::Trials(Trials { change, unit, .. }) => format!("{} {unit} from first to last of {n}", signed(*change)),
        Over::Halves(_) => n.to_string(),
        Over::Broke(None) => "no break on the way".to_string(),
        Over::Broke(Some((from, Place::Toward(toward)))) => format!("{} from time {from} on", toward.phrase()),
        Over::Broke(Some((from, Place::Both | Place::In(_) | Place::On(_)))) => format!("from time {from} on"),
        Over::TooFew => format!("{n}; {} are needed", 2 * COMPARABLE),
    };
    format!("{title} ({})", what.replace("  ", " "))
}

/// "Near point, break: +0.8 cm from trial to trial over 6 trials (95 % interval +0.5 to +1.2; ..."
fn trend(tiring: &Tiring) -> Option<Said> {
    let Over::Trials(Trials { what, unit, trend: Some(trend), .. }) = &tiring.over else { return None };
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    let interval = trend
        .line
        .interval
        .map(|i| format!("95 % interval {} to {}; ", signed(i.low), signed(i.high)))
        .unwrap_or_default();
    let text = format!(
        "{}: {}{unit} from trial to trial over {} trials ({interval}median of slopes, Theil-Sen). Without any trend such an \
         order would come up in {} (Mann-Kendall, exact)",
        capital(what),
        signed(trend.line.slope),
        tiring.n,
        frequency(trend.p)
    );
    Some(Said::new(sentence(&text), &[tiring.task]))
}

fn signed(value: f64) -> String {
    let text = number(value);
    if value > 0.0 && text != "0" { format!("+{text}") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Better, Course, Values};
    use crate::tiring;

    fn numbers(values: &[f64]) -> Tiring {
        let values = Values::Numbers(values.to_vec(), "cm");
        let (key, what) = ("near_point.break".to_string(), "near point, break".to_string());
        let course = Course { key, task: "near_point", what, place: Place::Both, values, better: Better::Lower };
        tiring::read([course].iter()).remove(0)
    }

    #[test]
    fn a_trend_is_told_from_five_trials_on() {
        let told = trend(&numbers(&[6.0, 7.0, 8.0, 10.0, 11.0])).expect("five trials").text;
        assert_eq!(
            told,
            "Near point, break: +1.29 cm from trial to trial over 5 trials (95 % interval +1 to +2; median of slopes, \
             Theil-Sen). Without any trend such an order would come up in 1.7 of 100 (Mann-Kendall, exact)."
        );
        assert_eq!(trend(&numbers(&[6.0, 7.0, 8.0, 10.0])), None);
    }

    #[test]
    fn the_tasks_own_grade_decides_and_a_trend_adds() {
        let graded =
            |grade| Finding { grade, ..Finding::new("near_point", "drawing_back", Place::Both, String::new()) };
        let (short, rising) = (numbers(&[6.0, 7.0, 10.0]), numbers(&[6.0, 7.0, 8.0, 10.0, 11.0]));
        assert_eq!(verdict(&short, Some(&graded(Grade::OutsideRange))), Some(true));
        assert_eq!(verdict(&short, Some(&graded(Grade::WithinRange))), Some(false));
        assert_eq!(
            verdict(&rising, Some(&graded(Grade::WithinRange))),
            Some(true),
            "a trend within the error of one pair"
        );
        assert_eq!(verdict(&short, Some(&graded(Grade::NoRange))), None);
        assert_eq!(named(&short), "near point (+4 cm from first to last of 3)");
    }
}
