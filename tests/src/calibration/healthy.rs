//! Healthy people and their visits, drawn from published distributions where there are any.
//!
//! | what | distribution | source |
//! |---|---|---|
//! | stripes, right against left | each person's gain differs by 0.10 in the median, quartiles 0.04 and 0.15; read as a share of stripes missed more on one side | 120 adults of 18 to 55 years, PMC10246429 |
//! | antisaccade errors | mean 23 %, spread 17 %; beta distribution | about 2,000 young men, Evdokimidis et al. 2002 |
//! | near point | mean 7.1 cm, spread 3.7 cm; a person's mean of one session lies off by a standard error of 1.44 cm, a trial by 0.72 cm | Heick & Bay 2021; CARE consortium 2021 and Ernst et al. 2020 (changes of 4 and 2 cm, divided by 1.96 times the root of 2) |
//! | jumps not on target | 2 to 45 % of a person's jumps, evenly | none found; "on target is the most frequent landing, short the next" is Hopf et al. 2018 |
//! | following by eye | slow: one person in seven shows a few catch-ups; fast: one step worse in two of three | none found for grades by direction; that catch-ups occur in health is Schalén 1980 |
//! | lapses of attention | begin at one tap in twelve and last three, and double what is missed meanwhile | assumed, so that neighbouring taps are alike |
//!
//! What is assumed is chosen to be hard on the test: neighbouring taps are alike, and healthy people differ a little
//! between their sides.

use sidelight_core::anatomy::Side;
use sidelight_core::calendar::{Born, Moment};
use sidelight_core::capture::answer::{Answer, Cell, Made, Run, Series, Tap, Trial};
use sidelight_core::capture::record::State;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};

use crate::dice::Dice;

/// When every simulated visit begins.
const BEGUN: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Taps to each side in each task.
const TAPS: usize = 10;

/// What is true of one person, the same in every visit.
#[derive(Debug, Clone)]
pub struct Healthy {
    years: u8,
    near_point: f64,
    off_target: f64,
    missed: f64,
    /// What is missed more toward `weaker` than the other way.
    asymmetry: f64,
    weaker: Side,
    errors: f64,
    catches_up: bool,
}

/// A true deficit of movements toward one side: so much is missed there in addition.
#[derive(Debug, Clone, Copy)]
pub struct Deficit {
    /// Toward which side.
    pub side: Side,
    /// Added share of repetitions, 0 to 1.
    pub added: f64,
}

impl Healthy {
    /// A person.
    #[must_use]
    pub fn draw(dice: &mut Dice) -> Healthy {
        Healthy {
            years: 16 + dice.below(40) as u8,
            near_point: dice.normal(7.11, 3.67).clamp(2.0, 25.0),
            off_target: 0.02 + 0.43 * dice.unit(),
            missed: 0.02 + 0.18 * dice.unit(),
            asymmetry: gain_difference(dice.unit()),
            weaker: dice.pick(&[Side::Right, Side::Left]),
            errors: beta(dice, 0.23, 0.17),
            catches_up: dice.chance(14),
        }
    }

    /// Who it is, as a record.
    #[must_use]
    pub fn person(&self) -> Person {
        let born = Some(Born::Year(2026 - i32::from(self.years)));
        Person {
            id: "p".into(),
            label: "simulated".into(),
            born,
            invented: true,
            changed: None,
            unread: Unread::default(),
        }
    }

    /// One visit with every task that compares sides, drawn anew each time.
    #[must_use]
    pub fn visit(&self, dice: &mut Dice, deficit: Option<Deficit>) -> Visit {
        let mut visit = Visit::begin("v", "p", "full", BEGUN, "simulation");
        let added = |side: Side| deficit.filter(|deficit| deficit.side == side).map_or(0.0, |deficit| deficit.added);
        let gain = |side: Side| if side == self.weaker { self.asymmetry } else { 0.0 };
        self.near_point(dice, &mut visit);
        self.follow(dice, &mut visit, added);
        let off = |side: Side| self.off_target + added(side);
        put(&mut visit, "saccade", "jumps", in_turn(dice, off, ["on", "short"]));
        let wrong = |side: Side| self.errors + added(side);
        put(&mut visit, "antisaccade", "trials", in_turn(dice, wrong, ["correct", "glanced"]));
        let missed = |side: Side| self.missed + gain(side) + added(side);
        put(&mut visit, "optokinetic", "stripes", one_after_the_other(dice, missed, ["beat", "missed"]));
        visit
    }

    fn near_point(&self, dice: &mut Dice, visit: &mut Visit) {
        // What is left of the session's error when that of three trials is taken off.
        let today = self.near_point + dice.normal(0.0, (1.44_f64.powi(2) - 0.72_f64.powi(2) / 3.0).sqrt());
        let trial = |dice: &mut Dice, at: u32| {
            let cm = (2.0 * dice.normal(today, 0.72)).round() / 2.0;
            let answers = [
                ("break".to_string(), Answer::Number(cm.clamp(1.0, 60.0))),
                ("end".to_string(), Answer::One("double".into())),
            ];
            Trial { at_ms: at * 5000, answers: answers.into_iter().collect() }
        };
        let trials = (0..3).map(|at| trial(dice, at)).collect();
        put(visit, "near_point", "trials", Answer::Trials(trials));
        for (key, id) in [("zero", "brow"), ("approach", "3"), ("target", "face")] {
            put(visit, "near_point", key, Answer::One(id.into()));
        }
    }

    fn follow(&self, dice: &mut Dice, visit: &mut Visit, added: impl Fn(Side) -> f64) {
        let mut cells = Vec::new();
        for row in ["right", "left", "up", "down"] {
            let side = [Side::Right, Side::Left].into_iter().find(|side| side.word() == row);
            let extra = side.map_or(0.0, &added);
            for (column, worse) in [("slow", f64::from(u8::from(self.catches_up)) * 0.5), ("fast", 0.66)] {
                let steps =
                    usize::from(dice.event(worse)) + usize::from(dice.event(extra)) + usize::from(dice.event(extra));
                let grade = ["smooth", "few", "many", "cannot"][steps.min(3)];
                cells.push(Cell { row: row.into(), column: column.into(), grade: grade.into(), from_cycle: None });
            }
        }
        put(visit, "pursuit", "follow", Answer::Grid(cells));
    }
}

/// The difference of two directions' gain at this share of healthy people: 0.04, 0.10 and 0.15 at the quartiles, straight
/// in between, up to 0.30.
fn gain_difference(share: f64) -> f64 {
    let points = [(0.0, 0.0), (0.25, 0.04), (0.5, 0.10), (0.75, 0.15), (1.0, 0.30)];
    let between = |pair: &[(f64, f64)]| {
        let ((from, low), (to, high)) = (pair[0], pair[1]);
        (from..=to).contains(&share).then(|| low + (high - low) * (share - from) / (to - from))
    };
    points.windows(2).find_map(between).unwrap_or(0.30)
}

/// A draw from the beta distribution of this mean and spread, by rejection under its highest density.
fn beta(dice: &mut Dice, mean: f64, spread: f64) -> f64 {
    let size = mean * (1.0 - mean) / spread.powi(2) - 1.0;
    let (a, b) = (mean * size, (1.0 - mean) * size);
    let density = |x: f64| (a - 1.0) * x.ln() + (b - 1.0) * (1.0 - x).ln();
    let highest = density(((a - 1.0) / (a + b - 2.0)).clamp(1e-6, 1.0 - 1e-6));
    loop {
        let x = dice.unit().clamp(1e-9, 1.0 - 1e-9);
        if dice.unit().ln() <= density(x) - highest {
            return x;
        }
    }
}

/// Lapses of attention: neighbouring taps share them.
struct Attention {
    lapsed: u32,
}

impl Attention {
    /// Whether the next tap is an event.
    fn event(&mut self, dice: &mut Dice, probability: f64) -> bool {
        self.lapsed = self.lapsed.saturating_sub(1);
        if self.lapsed == 0 && dice.event(1.0 / 12.0) {
            self.lapsed = 3;
        }
        let factor = if self.lapsed > 0 { 2.0 } else { 1.0 };
        dice.event((probability * factor).min(0.97))
    }
}

/// Right and left in turn, as jumps are called.
fn in_turn(dice: &mut Dice, probability: impl Fn(Side) -> f64, marks: [&str; 2]) -> Answer {
    let mut attention = Attention { lapsed: 0 };
    let sides = (0..2 * TAPS).map(|at| if at % 2 == 0 { Side::Right } else { Side::Left });
    let taps = sides.enumerate().map(|(at, side)| {
        let event = attention.event(dice, probability(side));
        tap(1500 * at as u32, side, marks[usize::from(event)])
    });
    Answer::Series(Series { runs: Vec::new(), taps: taps.collect() })
}

/// One run to each side, as stripes are drawn past; which comes first is drawn.
fn one_after_the_other(dice: &mut Dice, probability: impl Fn(Side) -> f64, marks: [&str; 2]) -> Answer {
    let first = dice.pick(&[Side::Right, Side::Left]);
    let mut series = Series::default();
    for (run, side) in [first, first.other()].into_iter().enumerate() {
        let mut attention = Attention { lapsed: 0 };
        let begun = 20_000 * run as u32;
        series.runs.push(Run { pad: side.word().into(), from_ms: begun, to_ms: Some(begun + 15_000), bpm: None });
        for at in 0..TAPS {
            let event = attention.event(dice, probability(side));
            series.taps.push(tap(begun + 1000 * at as u32, side, marks[usize::from(event)]));
        }
    }
    Answer::Series(series)
}

fn tap(at_ms: u32, side: Side, mark: &str) -> Tap {
    Tap { at_ms, pad: side.word().into(), mark: mark.into(), also: Vec::new(), made: Made::Tapped }
}

fn put(visit: &mut Visit, slot: &str, key: &str, answer: Answer) {
    let record = visit.record_mut(slot, BEGUN);
    record.state = State::Done;
    record.answers.set(key, Some(answer));
}

#[cfg(test)]
mod tests {
    use super::*;
    use sidelight_core::flow;

    #[test]
    fn every_answer_is_one_its_form_takes() {
        let mut dice = Dice::new(1);
        for _ in 0..200 {
            let visit = Healthy::draw(&mut dice).visit(&mut dice, Some(Deficit { side: Side::Left, added: 0.3 }));
            for record in &visit.records {
                let form = flow::form_of(&record.slot).expect("a form");
                for (key, answer) in record.answers.iter() {
                    let field = form.field(key).unwrap_or_else(|| panic!("{} has no {key}", record.slot));
                    assert!(field.accepts(answer), "{} {key}: {answer:?}", record.slot);
                }
            }
        }
    }

    #[test]
    fn the_published_moments_come_out() {
        let mut dice = Dice::new(2);
        let people: Vec<Healthy> = (0..20_000).map(|_| Healthy::draw(&mut dice)).collect();
        let mean = |value: fn(&Healthy) -> f64| people.iter().map(value).sum::<f64>() / people.len() as f64;
        let errors = mean(|person| person.errors);
        let spread = mean(|person| (person.errors - 0.23).powi(2)).sqrt();
        assert!((errors - 0.23).abs() < 0.005 && (spread - 0.17).abs() < 0.005, "{errors} {spread}");
        let mut differences: Vec<f64> = people.iter().map(|person| person.asymmetry).collect();
        differences.sort_by(f64::total_cmp);
        for (share, expected) in [(0.25, 0.04), (0.5, 0.10), (0.75, 0.15)] {
            let found = differences[(share * differences.len() as f64) as usize];
            assert!((found - expected).abs() < 0.005, "{found} at {share}");
        }
    }
}
