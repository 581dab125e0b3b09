//! Every static word of core that a screen shows through `words::of`: tasks, forms, routines, danger signs, steps, targets, exercises.

use std::collections::BTreeSet;

use sidelight_core::capture::form::{Choice, Field, Form, Kind};
use sidelight_core::capture::{decision, frame, safety, stop, symptoms};
use sidelight_core::exercise::Exercise;
use sidelight_core::export::table::PSEUDONYMISED;
use sidelight_core::finding::{Flag, Grade};
use sidelight_core::flow::Step;
use sidelight_core::stage::asked::{Asked, Question, Verdict};
use sidelight_core::stage::ended::Ended;
use sidelight_core::summary::NOT_A_DIAGNOSIS;
use sidelight_core::{advice, exercise, red_flag, routine, stage, task};

/// All of them, each once.
pub fn words() -> BTreeSet<&'static str> {
    let mut words = Words(BTreeSet::from([NOT_A_DIAGNOSIS, PSEUDONYMISED]));
    for task in task::ALL {
        let setup = &task.setup;
        words.add([task.title, task.term, setup.position, setup.target, setup.motion, setup.say, setup.watch]);
        words.add(task.cautions.iter().map(|caution| caution.says));
        words.form(task.form);
    }
    for form in [&frame::FORM, &safety::FORM, &symptoms::FORM, &decision::FORM, &stop::FORM] {
        words.form(form);
    }
    words.add(routine::ALL.iter().flat_map(|routine| [routine.title, routine.about]));
    words.add(safety::DANGERS.iter().map(|danger| danger.seen));
    let steps = [Step::Frame, Step::Safety, Step::Before, Step::Findings, Step::Decision, Step::Summary];
    words.add(steps.iter().map(Step::title));
    words.add([Step::After(task::ALL[0]).title()]);
    words.add(red_flag::what_to_do(&[neck()]));
    for offer in stage::ALL {
        words.add([offer.title, offer.care, offer.limits]);
        for dial in offer.dials {
            words.add([dial.ask]);
            words.choices(dial.options);
        }
    }
    for exercise in exercise::ALL {
        let Exercise { title, aim, setup, supervision, harder, easier, stop, .. } = exercise;
        words.add([*title, aim, setup, supervision, harder, easier, stop]);
        words.add(exercise.cautions.iter().copied());
    }
    words.add(advice::ALL.iter().map(|advice| advice.title));
    words.add(Question::ALL.map(Question::asks));
    words.add(verdicts());
    words.add([Ended::Finished, Ended::Stopped, Ended::Changed, Ended::Hidden].map(Ended::says));
    let grades = [Grade::NoRange, Grade::WithinRange, Grade::NearLimit, Grade::OutsideRange, Grade::Urgent];
    words.add(grades.map(Grade::word));
    words.0
}

/// Everything that can follow from the answers before stripes.
fn verdicts() -> Vec<&'static str> {
    let bits = |at: usize| Asked { answers: [0, 1, 2].map(|bit| Some(at >> bit & 1 == 1)), despite: String::new() };
    let said = (0..8).map(|at| match bits(at).verdict() {
        Verdict::Refused(says) | Verdict::SayWhy(says) => says,
        Verdict::Unasked | Verdict::Go => "",
    });
    said.collect()
}

/// The sign that asks for most steps.
fn neck() -> Flag {
    let danger = safety::DANGERS.iter().find(|danger| danger.neck).expect("one is of the neck");
    Flag { id: danger.key.to_string(), seen: danger.seen.to_string(), neck: true, source: danger.source }
}

struct Words(BTreeSet<&'static str>);

impl Words {
    fn add(&mut self, all: impl IntoIterator<Item = &'static str>) {
        self.0.extend(all.into_iter().filter(|word| word.chars().any(char::is_alphabetic)));
    }

    fn form(&mut self, form: &'static Form) {
        self.add([form.usual_label]);
        self.fields(form.fields);
    }

    fn fields(&mut self, fields: &'static [Field]) {
        for field in fields {
            self.add([field.ask, field.help]);
            self.kind(&field.kind);
        }
    }

    fn kind(&mut self, kind: &'static Kind) {
        match kind {
            Kind::One(choices) | Kind::Ratings(choices) => self.choices(choices),
            Kind::Many { choices, none } => {
                self.choices(choices);
                self.add([*none]);
            }
            Kind::Number(quantity) => self.add([quantity.unit]),
            Kind::Text { .. } | Kind::Day => {}
            Kind::Trials(form) => self.fields(form.fields),
            Kind::Series(form) => {
                self.choices(form.pads);
                form.marks.iter().for_each(|mark| self.choice(&mark.choice));
                self.choices(form.also);
            }
            Kind::Grid(form) => [form.rows, form.columns, form.grades].into_iter().for_each(|all| self.choices(all)),
        }
    }

    fn choices(&mut self, choices: &'static [Choice]) {
        choices.iter().for_each(|choice| self.choice(choice));
    }

    fn choice(&mut self, choice: &'static Choice) {
        self.add([choice.label, choice.hint]);
    }
}
