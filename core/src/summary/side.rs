//! The tested side in words: a direction of worse movement, or that none stands out, always with effect, interval and p.

use super::words::{and, counted};
use crate::anatomy::Direction;
use crate::assess::Assessment;
use crate::document::{Block, Said};
use crate::evidence::{Citation, capital};
use crate::finding::Grade;
use crate::side::{COMMON, Compared, Outcome, PAIRS, RESTRICTED, SideReading, TASKS, TaskSide};
use crate::side_by_side::{frequency, of};
use crate::statistics::proportion::Proportion;

const FROM: &[&str] = &["side"];

/// The whole of it, for the screen; nothing when no task had both sides.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    told(&assessment.side, true)
}

/// The sentences with the figures, for print.
pub fn in_brief(assessment: &Assessment) -> Vec<Block> {
    told(&assessment.side, false)
}

/// What the brief leaves out: how it was worked out, and what it is not; nothing when no side stands out.
pub fn behind(assessment: &Assessment) -> Vec<Block> {
    let how = how(&assessment.side);
    if how.is_empty() { Vec::new() } else { vec![Block::Note(Said::new(how.join(" "), FROM))] }
}

/// Published sources behind this part.
pub fn sources(assessment: &Assessment) -> Vec<&'static Citation> {
    match &assessment.side.outcome {
        Outcome::TooFew { .. } | Outcome::NoSide(_) => Vec::new(),
        Outcome::NotNamed(_) | Outcome::Worse(..) => vec![&RESTRICTED, &COMMON],
    }
}

fn told(side: &SideReading, whole: bool) -> Vec<Block> {
    if side.tasks.is_empty() {
        return Vec::new();
    }
    let paragraph = |text: String| vec![Block::Paragraph(Said::new(text, FROM))];
    match &side.outcome {
        Outcome::TooFew { pairs } => paragraph(too_few(side, *pairs)),
        Outcome::NoSide(compared) => {
            let held = held(side, true).map(|said| format!(" {said}"));
            // What differs but cannot decide must not read as if it were alike.
            let says = if held.is_some() { "No side can be named" } else { "No side stands out" };
            let held = held.unwrap_or_default();
            paragraph(format!("{says} over {}. {}{held}", tasks(side), figures(side, compared)))
        }
        Outcome::NotNamed(compared) => paragraph(format!(
            "Right and left differ by more than chance, but no side is named: {}. {}",
            not_named(side),
            figures(side, compared)
        )),
        Outcome::Worse(toward, compared) => {
            let headline =
                Said::new(format!("Movements {} are worse, over {}", toward.phrase(), worse_in(side, *toward)), FROM);
            let mut details = vec![Said::new(figures(side, compared), FROM)];
            if whole {
                details.extend(how(side).into_iter().map(|text| Said::new(text, FROM)));
            }
            vec![Block::Graded { grade: Grade::NearLimit, headline, details }]
        }
    }
}

fn too_few(side: &SideReading, pairs: usize) -> String {
    let done = match side.tasks.len() {
        1 => format!("only {} to both sides", tasks(side)),
        _ => counted(pairs, "pair done in turn", "pairs done in turn"),
    };
    format!(
        "Right and left over several tasks: too few to compare ({done}). {TASKS} tasks and {PAIRS} pairs done in turn are \
         needed."
    )
}

/// Why a difference beyond chance names no side.
fn not_named(side: &SideReading) -> String {
    let ways = [Direction::Right, Direction::Left]
        .map(|toward| side.tasks.iter().filter(|task| task.worse == Some(toward)).count());
    if ways.contains(&0) {
        let words: Vec<String> =
            side.tasks.iter().filter(|task| task.worse.is_some()).map(|task| task.word.to_string()).collect();
        return format!("only {} differ, and one task is not enough", and(&words));
    }
    "the tasks point different ways".to_string()
}

/// "Not smooth or off target: 1 of 12 to the right, 9 of 12 to the left; ..."
fn figures(side: &SideReading, compared: &Compared) -> String {
    let counted: Vec<&TaskSide> = side.tasks.iter().filter(|task| !task.held).collect();
    let sum = |share: fn(&TaskSide) -> Proportion| {
        let shares = counted.iter().map(|task| share(task));
        let (events, n) = shares.fold((0, 0), |(events, n), share| (events + share.events(), n + share.n()));
        Proportion::new(events, n)
    };
    let events: Vec<&str> = counted.iter().map(|task| task.event).collect();
    let counts = sum(|task| task.right).zip(sum(|task| task.left)).map_or_else(String::new, |(right, left)| {
        format!("{}: {} to the right, {} to the left; ", capital(&events.join(" or ")), of(right), of(left))
    });
    let chance = match compared.p {
        p if p >= 0.995 => "That is no more than chance brings (p = 1, permutation test)".to_string(),
        p => format!(
            "If both sides were alike, so large a difference would still come up in {} (permutation test)",
            frequency(p)
        ),
    };
    format!("{counts}{}. {chance}.", difference(compared))
}

/// "41 in 100 more to the left, 95 % interval 12 to 63".
fn difference(compared: &Compared) -> String {
    let (size, low, high) = (compared.difference, compared.interval.low, compared.interval.high);
    // Less than half of one in a hundred is printed as none.
    if size.abs() < 0.005 {
        return format!("no difference, 95 % interval {:.0} either way", 100.0 * high.max(-low));
    }
    let (toward, low, high) = if size > 0.0 { (Direction::Right, low, high) } else { (Direction::Left, -high, -low) };
    format!(
        "{:.0} in 100 more {}, 95 % interval {:.0} to {:.0}",
        100.0 * size.abs(),
        toward.phrase(),
        100.0 * low,
        100.0 * high
    )
}

/// How it was worked out, and what it is not.
fn how(side: &SideReading) -> Vec<String> {
    let (worse, compared) = match &side.outcome {
        Outcome::TooFew { .. } | Outcome::NoSide(_) => return Vec::new(),
        Outcome::NotNamed(compared) => (false, compared),
        Outcome::Worse(_, compared) => (true, compared),
    };
    let mut said = Vec::new();
    if worse {
        said.push(
            "This is a direction, not a side of the brain; poor attention, glasses not worn, a weak eye muscle and alcohol \
             or drugs can do the same. No limit is published."
                .to_string(),
        );
    }
    said.push(format!(
        "One exact test over all tasks, in which only neighbours in time change places (permutation; {} that can, {} that \
         differ); difference weighted by repetitions (Mantel-Haenszel), its interval takes repetitions for independent.",
        counted(compared.pairs, "pair", "pairs"),
        compared.telling
    ));
    said.extend(held(side, false));
    said
}

/// That some tasks cannot decide; with `differing`, only when they differ.
fn held(side: &SideReading, differing: bool) -> Option<String> {
    let tasks = side.tasks.iter().filter(|task| task.held && (!differing || task.worse.is_some()));
    let words: Vec<String> = tasks.map(|task| task.word.to_string()).collect();
    (!words.is_empty()).then(|| {
        format!(
            "{} went all one way and then all the other, so tiring can look like a side. They add to the test, cannot \
             decide it, and are left out of the counts.",
            capital(&and(&words))
        )
    })
}

fn tasks(side: &SideReading) -> String {
    and(&side.tasks.iter().map(|task| task.word.to_string()).collect::<Vec<_>>())
}

fn worse_in(side: &SideReading, toward: Direction) -> String {
    let words = side.tasks.iter().filter(|task| task.worse == Some(toward)).map(|task| task.word.to_string());
    and(&words.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests;
