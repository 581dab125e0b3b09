//! People with odd visits and odd text in every place that can hold any, for whatever writes or reads records.

use std::collections::{BTreeMap, BTreeSet};

use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::answer::{Answer, Answers, Cell, Series, Trial};
use sidelight_core::capture::record::{Record, State};
use sidelight_core::capture::showing::Value;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};

use crate::dice::Dice;
use crate::odd_visit::{Oddness, odd};

/// Four people with some odd visits each.
pub fn some(seed: u64) -> Vec<(Person, Visit)> {
    let mut dice = Dice::new(seed);
    let mut all = Vec::new();
    for who in 0..4_u64 {
        let (person, _) = odd(seed * 31 + who, Oddness::Anything);
        for number in 0..=dice.below(3) {
            let (_, mut visit) = odd(seed * 101 + who * 7 + number, Oddness::Anything);
            let person = Person { id: format!("p{who}"), ..person.clone() };
            visit.id = format!("v{who}-{number}");
            visit.person.clone_from(&person.id);
            all.push((person, visit));
        }
    }
    all
}

/// An addendum to every other visit, with made text in it.
pub fn addenda(all: &[(Person, Visit)], make: &mut dyn FnMut(&mut Dice) -> String) -> Vec<Addendum> {
    let mut dice = Dice::new(all.len() as u64);
    let mut say = || make(&mut dice);
    let addendum = |(person, visit): &(Person, Visit)| Addendum {
        id: say(),
        visit: visit.id.clone(),
        person: person.id.clone(),
        written: visit.started,
        text: say(),
        program: say(),
        unread: Unread(vec![(say(), "1".into())]),
    };
    all.iter().step_by(2).map(addendum).collect()
}

/// A study code for everybody.
pub fn codes(all: &[(Person, Visit)]) -> BTreeMap<String, String> {
    let people: BTreeSet<&String> = all.iter().map(|(person, _)| &person.id).collect();
    people.into_iter().zip(0..).map(|(id, number)| (id.clone(), format!("C0DE{number}"))).collect()
}

/// Puts made text into every place of a record that can hold any, known to the forms or not.
pub fn fill_with_text(all: &mut [(Person, Visit)], make: &mut dyn FnMut(&mut Dice) -> String, seed: u64) {
    let mut dice = Dice::new(seed ^ 0xA5A5);
    for (at, (person, visit)) in all.iter_mut().enumerate() {
        let mut say = || make(&mut dice);
        let unread = |text: String| Unread(vec![(text.clone(), format!("\"{text}\""))]);
        person.label = say();
        person.id = format!("{} {}", person.id, MARK);
        person.unread = unread(say());
        visit.id = format!("{} {at}", say());
        visit.person.clone_from(&person.id);
        (visit.routine, visit.at, visit.program) = (say(), say(), say());
        visit.plan.push(say());
        visit.unread = unread(say());
        let slots = [say(), format!("stop.{}", say()), format!("symptoms.{}", say()), format!("saccade.{}", say())];
        visit.records.extend(slots.iter().map(|slot| Record::open(slot, Some(visit.started))));
        for given in &mut visit.sheets {
            (given.by, given.language, given.unread) = (say(), say(), unread(say()));
            given.despite.iter_mut().for_each(|despite| (despite.exercise, despite.why) = (say(), say()));
        }
        for returned in &mut visit.logs {
            (returned.text, returned.unread) = (say(), unread(say()));
        }
        for showing in visit.records.iter_mut().flat_map(|record| &mut record.showings) {
            (showing.program, showing.instruction, showing.unread) = (say(), say(), unread(say()));
            for setting in &mut showing.settings {
                (setting.value, setting.unit) = (Value::Word(say()), say());
            }
        }
        for record in &mut visit.records {
            record.unread = unread(say());
            record.state = match &record.state {
                State::NotDone(_) => State::NotDone(say()),
                State::NotTestable(_) => State::NotTestable(say()),
                state @ (State::Open | State::Done) => state.clone(),
            };
            let filled = record.answers.iter().map(|(key, answer)| (key.to_string(), with_text(answer, &mut say)));
            let mut answers: Answers = filled.collect::<Vec<_>>().into_iter().collect();
            answers.set(&say(), Some(Answer::Text(say())));
            record.answers = answers;
        }
        // What a form does ask in free text.
        for (slot, keys) in [
            ("frame", &["reason_note", "consent_by", "medicines", "examiner"][..]),
            ("decision", &["refer_to", "told_name", "note"]),
            ("saccade", &["note"]),
            ("balance", &["note"]),
            ("stop.1", &["note", "go_on", "seen"]),
        ] {
            let record = visit.record_mut(slot, visit.started);
            for key in keys {
                record.answers.set(key, Some(Answer::Text(say())));
            }
        }
    }
}

/// Text is replaced; what has ids gets, by turns, an unknown one.
fn with_text(answer: &Answer, say: &mut dyn FnMut() -> String) -> Answer {
    match answer {
        Answer::Text(_) => Answer::Text(say()),
        Answer::Series(series) => {
            let mut series: Series = series.clone();
            if let Some(run) = series.runs.first_mut() {
                run.pad = say();
            }
            if series.taps.len() % 5 == 4 {
                series.taps[0].also.push(say());
                series.taps[1].pad = say();
                series.taps[2].mark = say();
            }
            Answer::Series(series)
        }
        Answer::Trials(trials) if trials.len() % 4 == 3 => {
            let mut trials: Vec<Trial> = trials.clone();
            trials[0].answers.set(&say(), Some(Answer::Text(say())));
            Answer::Trials(trials)
        }
        Answer::Grid(cells) if cells.len() % 3 == 2 => {
            let mut cells: Vec<Cell> = cells.clone();
            (cells[0].row, cells[1].grade) = (say(), say());
            Answer::Grid(cells)
        }
        Answer::Many(ids) if ids.len() % 3 == 2 => Answer::Many(vec![say()]),
        Answer::Ratings(ratings) if ratings.iter().any(|(_, value)| *value == 7) => Answer::Ratings(vec![(say(), 3)]),
        Answer::One(_) | Answer::Many(_) | Answer::Number(_) | Answer::Day(_) => answer.clone(),
        Answer::Ratings(_) | Answer::Trials(_) | Answer::Grid(_) => answer.clone(),
    }
}

/// Quotes, separators, line ends, formulas, marks of direction, NUL, and anything else.
pub fn odd_text(dice: &mut Dice) -> String {
    const PARTS: [&str; 24] = [
        "=", "+", "-", "@", "'", "\"", ",", ";", "|", "\t", "\r\n", "\n", "\r", " ", "\0", "\u{202e}", "\u{2066}",
        "＝", "\u{feff}", "דנה", "👁️", "1+1", "cmd", "none",
    ];
    (0..dice.below(9)).map(|_| dice.pick(&PARTS)).collect()
}

/// Stands for a name, a place, a number or an address.
pub const MARK: &str = "Zebulon";
