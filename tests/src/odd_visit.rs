//! Visits as odd as they come: built from a number, so that a failing one can be built again.

use sidelight_core::calendar::{Born, Moment, parse_date};
use sidelight_core::capture::answer::{Answer, Answers, Cell, Made, Run, Series, Tap, Trial};
use sidelight_core::capture::form::{Choice, Field, Form, Kind, never_fills};
use sidelight_core::capture::record::{Record, State};
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::capture::{decision, frame, safety, stop, symptoms};
use sidelight_core::{flow, task};

use crate::dice::Dice;
use crate::odd_showing;

/// Whether answers may be of the wrong kind and slots unknown.
#[derive(Clone, Copy, PartialEq)]
pub enum Oddness {
    /// Incomplete, but every answer fits its field.
    Valid,
    /// Anything that can be stored at all.
    Anything,
}

/// A person and a visit made from a number.
pub fn odd(seed: u64, oddness: Oddness) -> (Person, Visit) {
    let mut dice = Dice::new(seed);
    let started = Moment { unix_ms: 1_700_000_000_000 + dice.below(1 << 40) as i64, offset_minutes: 60 };
    let person = Person {
        id: "p".into(),
        label: dice.pick(&["R-21", "", "<b>Zoë</b>", "שלום", "👁\u{202e}"]).to_string(),
        born: dice.maybe(|dice| Born::Year(1890 + dice.below(150) as i32)),
        invented: true,
        changed: None,
        unread: Unread::default(),
    };
    let mut visit = Visit::begin("v", "p", dice.pick(&["sideline", "unknown"]), started, "test");
    for slot in slots() {
        if dice.chance(75) {
            visit.records.push(record(&mut dice, &slot, oddness));
        }
    }
    if oddness == Oddness::Anything {
        if dice.chance(30) {
            visit.records.push(record(&mut dice, "of_a_newer_program.7", oddness));
        }
        visit.at = dice.pick(&["", "saccade", "nowhere"]).to_string();
    }
    // By dice of their own, so that the rest stays as it was.
    let mut showing = Dice::new(seed ^ 0x0005_C4EE);
    for record in &mut visit.records {
        if showing.chance(15) {
            record.showings = odd_showing::some(&mut showing, started);
        }
    }
    if showing.chance(20) {
        (visit.sheets, visit.logs) = odd_showing::home(&mut showing, started);
    }
    visit.closed = dice.maybe(|_| started);
    visit.plan = dice.maybe(plan).unwrap_or_default();
    (person, visit)
}

/// Some tasks in some order, one of them perhaps of a newer program.
fn plan(dice: &mut Dice) -> Vec<String> {
    let mut left: Vec<&str> = task::ALL.iter().map(|task| task.id).chain(["of_a_newer_program"]).collect();
    let number = dice.below(left.len() as u64 + 1);
    (0..number).map(|_| left.remove(dice.below(left.len() as u64) as usize).to_string()).collect()
}

/// Every slot that a visit can have, once.
fn slots() -> Vec<String> {
    let mut slots = vec![frame::SLOT.to_string(), safety::SLOT.to_string(), symptoms::BEFORE.to_string()];
    for task in task::ALL {
        slots.push(task.id.to_string());
        // After a task that provokes nothing no symptoms are asked.
        if task.provokes {
            slots.push(symptoms::after(task.id));
        }
    }
    slots.extend([decision::SLOT.to_string(), format!("{}.1", stop::ID)]);
    slots
}

fn record(dice: &mut Dice, slot: &str, oddness: Oddness) -> Record {
    let started = dice.maybe(|dice| Moment { unix_ms: 1_700_000_000_000 + dice.below(1000) as i64, offset_minutes: 0 });
    let mut record = Record::open(slot, started);
    record.state = match dice.below(6) {
        0 => State::Open,
        1 => State::NotDone("no time".into()),
        2 => State::NotTestable("crying".into()),
        _ => State::Done,
    };
    static NONE: Form = Form { id: "", fields: &[], usual: &[], usual_label: "", fills: never_fills };
    let form = flow::form_of(slot).unwrap_or(&NONE);
    for field in form.fields {
        if dice.chance(70) {
            let wrong = oddness == Oddness::Anything && dice.chance(15);
            let given = if wrong { wrong_answer(dice) } else { fitting(dice, field) };
            record.answers.set(field.key, Some(given));
        }
    }
    if oddness == Oddness::Anything && dice.chance(20) {
        let odd = wrong_answer(dice);
        record.answers.set("a key nobody knows", Some(odd));
    }
    record
}

/// An answer the field takes.
pub fn fitting(dice: &mut Dice, field: &Field) -> Answer {
    match &field.kind {
        Kind::One(choices) => Answer::One(dice.choice(choices)),
        Kind::Many { choices, .. } => {
            let some: Vec<String> = choices.iter().filter(|_| dice.chance(30)).map(|choice| choice.id.into()).collect();
            Answer::Many(some)
        }
        Kind::Number(quantity) => {
            let share = dice.below(1001) as f64 / 1000.0;
            Answer::Number(quantity.min + share * (quantity.max - quantity.min))
        }
        Kind::Text { .. } => Answer::Text(dice.pick(&["", "  ", "a note", "<img src=x onerror=alert(1)>"]).into()),
        Kind::Day => Answer::Day(parse_date("2026-05-31").expect("a day")),
        Kind::Ratings(items) => {
            Answer::Ratings(items.iter().filter(|_| true).map(|item| (item.id.into(), dice.below(11) as u8)).collect())
        }
        Kind::Trials(form) => {
            let number = dice.below(form.most as u64 + 1) as u32;
            let trial = |dice: &mut Dice, at: u32| Trial {
                at_ms: at * 4000,
                answers: form
                    .fields
                    .iter()
                    .filter_map(|field| dice.maybe(|dice| (field.key.to_string(), fitting(dice, field))))
                    .collect::<Answers>(),
            };
            Answer::Trials((0..number).map(|at| trial(dice, at)).collect())
        }
        Kind::Series(form) => {
            let most = dice.pick(&[1_u64, 4, 30, 400]);
            let number = dice.below(most);
            let mut at_ms = 0;
            let mut taps = Vec::new();
            for _ in 0..number {
                at_ms += dice.below(3000) as u32;
                let also = form.also.iter().filter(|_| dice.chance(15)).map(|remark| remark.id.to_string()).collect();
                let mark = &form.marks[dice.below(form.marks.len() as u64) as usize];
                let made = dice.pick(&[Made::Tapped, Made::Paced, Made::PacedThenTapped]);
                taps.push(Tap { at_ms, pad: dice.choice(form.pads), mark: mark.choice.id.into(), also, made });
            }
            let run = |dice: &mut Dice, pad: &Choice| Run {
                pad: pad.id.into(),
                from_ms: dice.below(100) as u32,
                to_ms: dice.maybe(|dice| dice.below(40_000) as u32),
                bpm: None,
            };
            let runs = form.pads.iter().filter_map(|pad| dice.maybe(|dice| run(dice, pad))).collect();
            Answer::Series(Series { runs, taps })
        }
        Kind::Grid(form) => {
            let mut cells = Vec::new();
            for row in form.rows {
                for column in form.columns {
                    if dice.chance(70) {
                        let from_cycle = dice.maybe(|dice| dice.below(u64::from(form.cycles.max(1)) + 1) as u8);
                        let (row, column) = (row.id.into(), column.id.into());
                        cells.push(Cell { row, column, grade: dice.choice(form.grades), from_cycle });
                    }
                }
            }
            Answer::Grid(cells)
        }
    }
}

/// An answer of any kind, with ids nobody knows.
fn wrong_answer(dice: &mut Dice) -> Answer {
    match dice.below(8) {
        0 => Answer::One("unheard of".into()),
        1 => Answer::Many(vec!["unheard of".into(), "twice".into(), "twice".into()]),
        2 => Answer::Number(dice.pick(&[0.0, -5.0, 1e12, 400.0])),
        3 => Answer::Text("text where none was asked".into()),
        4 => Answer::Ratings(vec![("headache".into(), 10), ("unheard of".into(), 3)]),
        5 => Answer::Trials(vec![Trial::default(); dice.below(40) as usize]),
        6 => {
            let tap =
                Tap { at_ms: 7, pad: "up".into(), mark: "vanished".into(), also: vec!["?".into()], made: Made::Tapped };
            let run = Run { pad: "right".into(), from_ms: 90, to_ms: Some(10), bpm: Some(0.0) };
            Answer::Series(Series { runs: vec![run; 3], taps: vec![tap; dice.below(90) as usize] })
        }
        _ => {
            let cell =
                Cell { row: "right".into(), column: "slow".into(), grade: "unheard of".into(), from_cycle: Some(200) };
            Answer::Grid(vec![cell; 3])
        }
    }
}

impl Dice {
    fn maybe<T>(&mut self, make: impl FnOnce(&mut Dice) -> T) -> Option<T> {
        self.chance(60).then(|| make(self))
    }

    fn choice(&mut self, from: &[Choice]) -> String {
        from[self.below(from.len() as u64) as usize].id.to_string()
    }
}
