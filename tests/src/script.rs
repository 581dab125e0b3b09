//! A visit written down as it is examined: each line one thing a practitioner taps, made through the same edits as in the
//! app, a second apart. An edit that its form does not take stops the test.

use sidelight_core::calendar::{Born, Moment};
use sidelight_core::capture::answer::{Answer, Cell};
use sidelight_core::capture::edit::{self, Edit};
use sidelight_core::capture::record::State;
use sidelight_core::capture::showing::Showing;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::capture::{decision, exchange, frame, safety, symptoms};
use sidelight_core::flow;
use sidelight_core::quantity::Centimetres;
use sidelight_core::stimulus::program::Program;
use sidelight_core::stimulus::run::{Frames, Run};
use sidelight_core::stimulus::safety as guard;
use sidelight_core::stimulus::screen::{Calibration, CardEdge, Px, Scale, Screen};

/// A visit being written down.
pub struct Script {
    visit: Visit,
    now: Moment,
}

/// An invented person born in this year.
pub fn person(label: &str, year: i32) -> Person {
    Person {
        id: "person".into(),
        label: label.into(),
        born: Some(Born::Year(year)),
        invented: true,
        changed: None,
        unread: Unread::default(),
    }
}

impl Script {
    /// A visit of the person of [`person`] that begins at `at`, in milliseconds of the clock at two hours east.
    pub fn begin(id: &str, routine: &str, at: i64) -> Script {
        let now = Moment { unix_ms: at, offset_minutes: 120 };
        Script { visit: Visit::begin(id, "person", routine, now, "Sidelight 0.1.0"), now }
    }

    /// The tasks of a routine of the practice's own.
    pub fn plan(mut self, tasks: &[&str]) -> Script {
        self.visit.plan = tasks.iter().map(|task| (*task).to_string()).collect();
        self
    }

    /// Reason, since when, glasses, what else can change eye movements, what to take care with; consent by the person.
    pub fn frame(self, reason: &str, since: &str, glasses: &str, influences: &[&str], cautions: &[&str]) -> Script {
        let told = [("reason", reason), ("since", since), ("consent", "self"), ("glasses", glasses)];
        told.iter()
            .fold(self, |script, (key, id)| script.one(frame::SLOT, key, id))
            .many(frame::SLOT, "influences", influences)
            .many(frame::SLOT, "cautions", cautions)
            .done(frame::SLOT)
    }

    /// Every danger sign asked for; these are there.
    pub fn dangers(self, yes: &[&str]) -> Script {
        let script = self.edit(safety::SLOT, Edit::Usual);
        yes.iter().fold(script, |script, key| script.one(safety::SLOT, key, "yes")).done(safety::SLOT)
    }

    /// The four symptoms before the tasks ("before") or after a task.
    pub fn symptoms(self, occasion: &str, values: [u8; 4]) -> Script {
        let slot = format!("symptoms.{occasion}");
        let ratings = symptoms::ITEMS.iter().zip(values).map(|(item, value)| (item.id.to_string(), value)).collect();
        self.answer(&slot, "now", Answer::Ratings(ratings)).done(&slot)
    }

    /// "All as expected", and done.
    pub fn usual(self, slot: &str) -> Script {
        self.edit(slot, Edit::Usual).done(slot)
    }

    /// One of a list.
    pub fn one(self, slot: &str, key: &str, id: &str) -> Script {
        self.answer(slot, key, Answer::One(id.into()))
    }

    /// Any of a list.
    pub fn many(self, slot: &str, key: &str, ids: &[&str]) -> Script {
        self.answer(slot, key, Answer::Many(ids.iter().map(|id| (*id).to_string()).collect()))
    }

    /// A number.
    pub fn number(self, slot: &str, key: &str, value: f64) -> Script {
        self.answer(slot, key, Answer::Number(value))
    }

    /// Words.
    pub fn text(self, slot: &str, key: &str, words: &str) -> Script {
        self.answer(slot, key, Answer::Text(words.into()))
    }

    /// One cell of a table, and from which cycle on it was so.
    pub fn grade(self, slot: &str, key: &str, cell: [&str; 3], from: Option<u8>) -> Script {
        let [row, column, grade] = cell;
        let script = self.graded_so_far(slot, key, row, column, grade);
        match from {
            Some(_) => script.edit(slot, Edit::FromCycle(key.into(), row.into(), column.into(), from)),
            None => script,
        }
    }

    /// Near points in centimetres that ended double, with where it was one again.
    pub fn near_point(self, trials: &[(f64, f64)]) -> Script {
        let slot = "near_point";
        let script = trials.iter().enumerate().fold(self, |script, (at, (breaks, recovers))| {
            script
                .edit(slot, Edit::AddTrial("trials".into()))
                .trial(slot, "trials", at, "break", Answer::Number(*breaks))
                .trial(slot, "trials", at, "end", Answer::One("double".into()))
                .trial(slot, "trials", at, "recovery", Answer::Number(*recovers))
        });
        script.one(slot, "zero", "brow").one(slot, "approach", "3").one(slot, "target", "face").done(slot)
    }

    /// Adds an answer to a trial.
    pub fn trial(self, slot: &str, key: &str, at: usize, of: &str, answer: Answer) -> Script {
        self.edit(slot, Edit::TrialAnswer(key.into(), at, of.into(), Some(answer)))
    }

    /// Taps to the right and to the left in turn, as a beat calls them.
    pub fn in_turn(self, slot: &str, key: &str, right: &[&str], left: &[&str]) -> Script {
        let script = right
            .iter()
            .zip(left)
            .fold(self, |script, (right, left)| script.tap(slot, key, "right", right).tap(slot, key, "left", left));
        script.done(slot)
    }

    /// A run of taps on one pad.
    pub fn run(self, slot: &str, key: &str, pad: &str, marks: &[&str]) -> Script {
        let script = self.edit(slot, Edit::StartRun(key.into(), pad.into(), None));
        let script = marks.iter().fold(script, |script, mark| script.tap(slot, key, pad, mark));
        script.edit(slot, Edit::StopRun(key.into()))
    }

    /// A program that was shown on a phone of 516 px along a card, held across 40 cm away.
    pub fn shown(self, slot: &str, program: &Program, told: &str, dropped: u32) -> Script {
        let scale = Scale::from_card(CardEdge::Long, Px(516.0)).expect("a phone");
        let screen = Screen::new(scale, Px(844.0), Px(390.0), Centimetres(40.0)).expect("a phone");
        let calibration = Calibration { scale, pixel_ratio: 3.0, zoom: 1.0 };
        let safe = guard::check(program, &screen).unwrap_or_else(|refused| panic!("{refused}"));
        let drawn = (60.0 * program.seconds()).round() as u32 - dropped;
        let frames = Frames { a_second: Some(60.0), drawn, dropped };
        let run = Run::new(&calibration, &screen, (3.0, 1.0), frames);
        let showing = Showing::of(&safe, &run, self.now, program.seconds(), false).told(told);
        self.edit(slot, Edit::Shown(showing))
    }

    /// A sheet to take home, or a log that came back.
    pub fn home(mut self, edit: exchange::Edit) -> Script {
        exchange::apply(&mut self.visit, edit).unwrap_or_else(|refused| panic!("{refused}"));
        self
    }

    /// Twenty seconds of a stance, with so many errors.
    pub fn stance(self, stance: &str, errors: usize) -> Script {
        let slot = "balance";
        let script = self.edit(slot, Edit::StartRun("errors".into(), stance.into(), None));
        let mut script = (0..errors).fold(script, |script, _| script.tap(slot, "errors", stance, "error"));
        let left = 19_i64.saturating_sub(i64::try_from(errors).unwrap_or(0));
        script.now.unix_ms += 1000 * left;
        script.edit(slot, Edit::StopRun("errors".into()))
    }

    /// Heel-to-toe walks in seconds, each as asked.
    pub fn walked(self, seconds: &[f64]) -> Script {
        let (slot, key) = ("balance", "walk");
        let script = seconds.iter().enumerate().fold(self, |script, (at, seconds)| {
            script
                .edit(slot, Edit::AddTrial(key.into()))
                .trial(slot, key, at, "seconds", Answer::Number(*seconds))
                .trial(slot, key, at, "went", Answer::One("clean".into()))
        });
        script.done(slot)
    }

    /// Left out.
    pub fn skip(self, slot: &str, reason: &str) -> Script {
        self.edit(slot, Edit::State(State::NotDone(reason.into())))
    }

    /// Tried and not possible.
    pub fn not_testable(self, slot: &str, reason: &str) -> Script {
        self.edit(slot, Edit::State(State::NotTestable(reason.into())))
    }

    /// Ended as done.
    pub fn done(self, slot: &str) -> Script {
        self.edit(slot, Edit::State(State::Done))
    }

    /// The decision, who was told, and the end of the visit.
    pub fn decide(self, answers: &[(&str, &str)], told: &[&str]) -> Script {
        let script = answers.iter().fold(self, |script, (key, id)| script.one(decision::SLOT, key, id));
        script.many(decision::SLOT, "told", told).done(decision::SLOT)
    }

    /// The closed visit.
    pub fn close(mut self) -> Visit {
        self.now.unix_ms += 20_000;
        self.visit.closed = Some(self.now);
        self.visit
    }

    /// Makes one edit.
    pub fn edit(mut self, slot: &str, edit: Edit) -> Script {
        self.now.unix_ms += 1000;
        let form = flow::form_of(slot).unwrap_or_else(|| panic!("no form {slot}"));
        let said = format!("{slot}: {edit:?}");
        if let Err(refused) = edit::apply(&mut self.visit, form, slot, edit, self.now) {
            panic!("{said}: {refused}");
        }
        self
    }

    fn answer(self, slot: &str, key: &str, answer: Answer) -> Script {
        self.edit(slot, Edit::Answer(key.into(), Some(answer)))
    }

    fn tap(self, slot: &str, key: &str, pad: &str, mark: &str) -> Script {
        self.edit(slot, Edit::Tap(key.into(), pad.into(), mark.into()))
    }

    /// The same grade again would clear the cell, so an equal one is left.
    fn graded_so_far(self, slot: &str, key: &str, row: &str, column: &str, grade: &str) -> Script {
        let same = |cell: &Cell| cell.grade == grade;
        let cell = self.visit.record(slot).and_then(|record| record.answers.cell(key, row, column));
        if cell.is_some_and(same) {
            return self;
        }
        self.edit(slot, Edit::Grade(key.into(), row.into(), column.into(), grade.into()))
    }
}
