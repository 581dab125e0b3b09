//! Whole examinations of people in whom nothing differs between the sides: how often a side is named all the same.

use sidelight_core::assess::assess;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::answer::{Answer, Cell, Made, Series, Tap};
use sidelight_core::capture::record::State;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::side::Outcome;

use crate::dice::Dice;

const VISITS: u64 = 600;
const START: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// How the events of one task hang together in time.
#[derive(Debug, Clone, Copy)]
struct Healthy {
    first: f64,
    last: f64,
    sticks: f64,
}

impl Healthy {
    fn series(self, n: usize, dice: &mut Dice) -> Vec<bool> {
        let mut series: Vec<bool> = Vec::new();
        for at in 0..n {
            let rate = self.first + (self.last - self.first) * at as f64 / n as f64;
            let event = match series.last() {
                Some(&before) if dice.event(self.sticks) => before,
                Some(_) | None => dice.event(rate),
            };
            series.push(event);
        }
        series
    }
}

#[test]
fn healthy_examinations_name_a_side_in_at_most_five_of_a_hundred() {
    for healthy in [
        Healthy { first: 0.3, last: 0.3, sticks: 0.0 },
        Healthy { first: 0.3, last: 0.3, sticks: 0.5 },
        Healthy { first: 0.05, last: 0.7, sticks: 0.0 },
        Healthy { first: 0.1, last: 0.6, sticks: 0.6 },
    ] {
        let mut dice = Dice::new(17);
        let (mut named, mut compared) = (0, 0);
        for _ in 0..VISITS {
            match assess(&person(), &visit(healthy, 0.0, &mut dice)).side.outcome {
                Outcome::TooFew { .. } => {}
                Outcome::NoSide(_) | Outcome::NotNamed(_) => compared += 1,
                Outcome::Worse(..) => named += 1,
            }
        }
        assert_eq!(compared + named, VISITS, "{healthy:?}: not every visit was compared");
        assert!(named * 100 <= 5 * VISITS, "{healthy:?}: {named} of {VISITS}");
    }
}

/// The law would hold of a program that never names a side: with every second movement to the left going wrong on top, it
/// names the left in most visits, and the right in none.
#[test]
fn a_plain_difference_is_named_in_most_visits() {
    let healthy = Healthy { first: 0.1, last: 0.1, sticks: 0.0 };
    let mut dice = Dice::new(3);
    let (mut left, mut right) = (0, 0);
    for _ in 0..VISITS {
        if let Outcome::Worse(toward, _) = assess(&person(), &visit(healthy, 0.6, &mut dice)).side.outcome {
            let of_side = if toward.word() == "left" { &mut left } else { &mut right };
            *of_side += 1;
        }
    }
    assert!(left * 2 > VISITS && right == 0, "left {left}, right {right} of {VISITS}");
}

/// Jumps in turn, following by grade, stripes to the right and then to the left. `more` is the chance that a movement to
/// the left goes wrong besides.
fn visit(healthy: Healthy, more: f64, dice: &mut Dice) -> Visit {
    let mut visit = Visit::begin("v", "p", "sideline", START, "test");
    let also = |event: bool, left: bool, dice: &mut Dice| event || (left && dice.event(more));
    let jumps = healthy.series(20, dice).into_iter().enumerate().map(|(at, off)| {
        let left = at % 2 == 1;
        let off = also(off, left, dice);
        tap(at, left, if off { "short" } else { "on" }, 1500)
    });
    let jumps = jumps.collect();
    answer(&mut visit, "saccade", "jumps", Answer::Series(Series { runs: Vec::new(), taps: jumps }));
    let stripes = healthy.series(20, dice).into_iter().enumerate().map(|(at, missed)| {
        let left = at >= 10;
        let missed = also(missed, left, dice);
        tap(at, left, if missed { "missed" } else { "beat" }, 1000)
    });
    let stripes = stripes.collect();
    answer(&mut visit, "optokinetic", "stripes", Answer::Series(Series { runs: Vec::new(), taps: stripes }));
    let mut cells = Vec::new();
    for (row, left) in [("right", false), ("left", true)] {
        let broken = also(dice.event(healthy.first), left, dice);
        for column in ["slow", "fast"] {
            let grade = if broken { "many" } else { "smooth" }.to_string();
            cells.push(Cell { row: row.to_string(), column: column.to_string(), grade, from_cycle: None });
        }
    }
    answer(&mut visit, "pursuit", "follow", Answer::Grid(cells));
    visit
}

fn tap(at: usize, left: bool, mark: &str, apart_ms: u32) -> Tap {
    Tap {
        at_ms: at as u32 * apart_ms,
        pad: if left { "left" } else { "right" }.to_string(),
        mark: mark.to_string(),
        also: Vec::new(),
        made: Made::Tapped,
    }
}

fn answer(visit: &mut Visit, slot: &str, key: &str, answer: Answer) {
    let record = visit.record_mut(slot, START);
    record.answers.set(key, Some(answer));
    record.state = State::Done;
}

fn person() -> Person {
    Person {
        id: "p".into(),
        label: "R-21".into(),
        born: None,
        invented: true,
        changed: None,
        unread: Unread::default(),
    }
}
