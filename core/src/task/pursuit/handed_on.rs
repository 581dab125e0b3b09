//! What following hands on: signs by direction, grades for the next visit, grades by side, and from which cycle on it broke.

use super::{Cell, DISTANCE, Followed, GRID, PACES, Quality, Rule, Speed, TARGETS, TASK};
use crate::anatomy::{Direction, Place};
use crate::capture::form::label;
use crate::capture::record::Record;
use crate::capture::showing::{self, program};
use crate::finding::{Finding, Grade, Reading};
use crate::measure::{Amount, Better, Course, Measure, Repetition, Sided, Values};
use crate::sign::{Sign, What};

pub(super) fn hand_on(reading: &mut Reading, seen: &[Followed; 4], rule: &Rule, record: &Record) {
    let uneven = reading.findings.iter().find(|finding| finding.key == format!("{}.right_left", TASK.id));
    reading.signs = seen.iter().filter_map(|followed| reduced(followed, rule)).collect();
    reading.signs.extend(uneven.into_iter().flat_map(worse));
    for followed in seen {
        for (speed, cell) in followed.cells() {
            let words = format!("following {}, {}", followed.direction.phrase(), speed.word());
            reading.measures.push(measure(followed.direction, speed, cell, &words, record));
            reading.courses.push(course(followed.direction, speed, cell, words));
        }
    }
    reading.sided.extend(sided(&seen[0], &seen[1]));
}

/// Less smooth than ordinary at this age, at one speed or both.
fn reduced(followed: &Followed, rule: &Rule) -> Option<Sign> {
    let seen = match rule.worst(followed) {
        Grade::NoRange => return None,
        Grade::WithinRange => false,
        Grade::NearLimit | Grade::OutsideRange | Grade::Urgent => true,
    };
    let finding = format!("{}.{}", TASK.id, followed.direction.word());
    Some(Sign::new(What::PursuitReduced, Place::Toward(followed.direction), seen, &finding))
}

/// Worse to one side by the rule of the comparison, which does not count one step at one speed.
fn worse(finding: &Finding) -> [Sign; 2] {
    [Direction::Right, Direction::Left].map(|toward| {
        let seen = finding.place == Place::Toward(toward) && finding.grade >= Grade::NearLimit;
        Sign::new(What::PursuitWorse, Place::Toward(toward), seen, &finding.key)
    })
}

/// The words of the grades, best first.
static STEPS: [&str; 4] =
    [Quality::Smooth.words(), Quality::Few.words(), Quality::Many.words(), Quality::Cannot.words()];

fn measure(toward: Direction, speed: Speed, cell: Cell, words: &str, record: &Record) -> Measure {
    Measure {
        key: format!("{}.{}.{}", TASK.id, toward.word(), speed.word()),
        task: TASK.id,
        what: words.to_string(),
        place: Place::Toward(toward),
        amount: Amount::Step { step: cell.quality as u8, words: &STEPS },
        better: Better::Lower,
        method: method(record),
        limits: &[],
        norm: None,
    }
}

/// A head that goes along hides what the eyes cannot do, so it is part of how it was done.
fn method(record: &Record) -> Vec<(&'static str, String)> {
    let noted = |name, key: &str, choices| record.answers.one(key).map(|id| (name, label(choices, id).to_lowercase()));
    let distance = record.answers.number("distance").and_then(|cm| DISTANCE.check(cm).ok());
    let head = record.answers.one("head").map(|id| if id == "with_eyes" { "moved with the eyes" } else { "held" });
    let parts = [
        noted("target", "target", TARGETS),
        distance.map(|cm| (DISTANCE.name, DISTANCE.show(cm))),
        noted("speed", "speed", PACES),
        head.map(|words| ("head", words.to_string())),
        showing::method(&record.showings, program::FOLLOWING),
    ];
    parts.into_iter().flatten().collect()
}

fn course(toward: Direction, speed: Speed, cell: Cell, words: String) -> Course {
    Course {
        key: format!("{}.broke.{}.{}", TASK.id, toward.word(), speed.word()),
        task: TASK.id,
        what: words,
        place: Place::Toward(toward),
        values: Values::BrokeAt(cell.from, GRID.cycles),
        better: Better::Lower,
    }
}

/// The grades of the speeds that were done to both sides; one done to one side only would weigh the speed, not the side.
fn sided(right: &Followed, left: &Followed) -> Option<Sided> {
    let pairs = Speed::BOTH.into_iter().filter_map(|speed| Some((right.at(speed)?, left.at(speed)?)));
    let score = |toward, cell: Cell| Repetition { toward, score: i32::from(cell.quality as u8) };
    let repetitions: Vec<Repetition> =
        pairs.flat_map(|(r, l)| [score(Direction::Right, r), score(Direction::Left, l)]).collect();
    // There and back is one sweep: right and left take turns.
    let sided = Sided { task: TASK.id, what: "grades of following", repetitions, in_turn: true };
    (!sided.repetitions.is_empty()).then_some(sided)
}
