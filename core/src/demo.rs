//! Invented people and visits, to look around with. Every person, place and number here is made up.

mod over_time;

use crate::archive;
use crate::calendar::{Born, Moment};
use crate::capture::answer::Answer;
use crate::capture::edit::{self, Edit};
use crate::capture::record::State;
use crate::capture::unread::Unread;
use crate::capture::visit::{Person, Visit};
use crate::capture::{decision, frame, safety, symptoms};
use crate::flow;

const HOUR: i64 = 3_600_000;
const DAY: i64 = 24 * HOUR;

/// The invented people and their closed visits, dated before `now`.
#[must_use]
pub fn people(now: Moment) -> (Vec<Person>, Vec<Visit>) {
    let mut visits = vec![
        after_a_knock(before(now, 2 * HOUR)),
        stopped(before(now, 5 * HOUR)),
        reading_tires(before(now, DAY)),
        after_a_stroke(before(now, 3 * DAY)),
        baseline(before(now, 60 * DAY)),
        over_time::after_the_baseline(now),
    ];
    visits.extend(over_time::nearer_over_weeks(now));
    let year = now.date().year();
    let people = vec![
        person("demo-person-1", "R-21", year - 14),
        person("demo-person-2", "S-16", year - 12),
        person("demo-person-3", "L-09", year - 9),
        person("demo-person-4", "W-52", year - 67),
        person("demo-person-5", "B-33", year - 16),
        person("demo-person-6", "N-14", year - 14),
    ];
    (people, visits)
}

/// A teenager minutes after a knock: the near point draws back, jumps to the left go astray, the head begins to ache.
fn after_a_knock(at: Moment) -> Visit {
    let mut demo = Demo::begin("demo-visit-1", "demo-person-1", at);
    demo.frame("knock", "minutes", "guardian", "none");
    demo.no_danger();
    demo.symptoms(symptoms::BEFORE, [1, 0, 0, 1]);
    demo.usual("resting_gaze");
    demo.near_point(&[(8.0, 10.0), (9.5, 11.5), (12.0, 14.5)]);
    demo.symptoms("symptoms.near_point", [3, 1, 0, 1]);
    demo.usual("pursuit");
    demo.symptoms("symptoms.pursuit", [3, 1, 0, 1]);
    let left = ["on", "short", "on", "past", "short", "past", "short", "past", "past", "short"];
    demo.jumps(&["on"; 10], &left);
    demo.symptoms("symptoms.saccade", [4, 2, 0, 2]);
    demo.stripes("tape", &[true; 10], &[true; 10]);
    demo.symptoms("symptoms.optokinetic", [4, 2, 1, 2]);
    demo.decide(&[("action", "refer"), ("refer_soon", "today"), ("play", "removed")], &["guardian", "coach"]);
    demo.text(decision::SLOT, "refer_to", "family doctor");
    demo.close()
}

/// A child with a sore neck after a fall: stopped before the first task.
fn stopped(at: Moment) -> Visit {
    let mut demo = Demo::begin("demo-visit-2", "demo-person-2", at);
    demo.frame("knock", "minutes", "guardian", "none");
    demo.no_danger();
    demo.one(safety::SLOT, "neck", "yes");
    demo.many("stop.1", "done", &["called", "not_alone", "neck_held"]);
    demo.text("stop.1", "note", "Ambulance crew took over after twelve minutes.");
    demo.text("stop.1", "seen", "neck");
    demo.done("stop.1");
    demo.decide(&[("action", "emergency"), ("play", "removed")], &["guardian"]);
    demo.text(decision::SLOT, "refer_to", "ambulance");
    demo.close()
}

/// A child of nine whose reading tires: the near point lies far out, everything else is as expected.
fn reading_tires(at: Moment) -> Visit {
    let mut demo = Demo::begin("demo-visit-3", "demo-person-3", at);
    demo.frame("reading", "longer", "guardian", "not_worn");
    demo.no_danger();
    demo.symptoms(symptoms::BEFORE, [0, 0, 0, 0]);
    demo.usual("resting_gaze");
    demo.near_point(&[(13.0, 17.0), (14.0, 18.0), (14.5, 18.5)]);
    demo.symptoms("symptoms.near_point", [1, 0, 0, 0]);
    demo.usual("pursuit");
    demo.symptoms("symptoms.pursuit", [1, 0, 0, 0]);
    demo.jumps(&["on", "on", "short", "on", "on", "on", "on"], &["on", "on", "on", "short", "on", "on", "on"]);
    demo.symptoms("symptoms.saccade", [1, 0, 0, 0]);
    demo.skip("optokinetic", "No time");
    demo.decide(&[("action", "refer"), ("refer_soon", "weeks"), ("play", "no_play")], &["guardian", "teacher"]);
    demo.text(decision::SLOT, "refer_to", "orthoptist");
    demo.close()
}

/// An adult weeks after a stroke: following and stripes to the left are worse.
fn after_a_stroke(at: Moment) -> Visit {
    let mut demo = Demo::begin("demo-visit-4", "demo-person-4", at);
    demo.frame("illness", "month", "self", "worn");
    demo.no_danger();
    demo.symptoms(symptoms::BEFORE, [0, 1, 0, 1]);
    demo.usual("resting_gaze");
    demo.near_point(&[(9.0, 11.0), (9.0, 11.5), (9.5, 11.5)]);
    demo.symptoms("symptoms.near_point", [0, 1, 0, 1]);
    demo.usual("pursuit");
    for (speed, grade, from) in [("slow", "few", Some(2)), ("fast", "many", None)] {
        demo.grade("left", speed, grade, from);
    }
    demo.symptoms("symptoms.pursuit", [0, 1, 0, 1]);
    demo.jumps(
        &["on", "short", "on", "on", "on", "short", "on", "on"],
        &["on", "on", "short", "on", "on", "on", "on", "on"],
    );
    demo.symptoms("symptoms.saccade", [0, 1, 0, 1]);
    let left = [true, true, false, true, false, false, true, false, false, false];
    demo.stripes("drum", &[true; 10], &left);
    demo.symptoms("symptoms.optokinetic", [0, 2, 1, 1]);
    demo.decide(&[("action", "refer"), ("refer_soon", "days"), ("play", "no_play")], &["person", "doctor"]);
    demo.text(decision::SLOT, "refer_to", "stroke clinic");
    demo.close()
}

/// A teenager who is well: the own baseline for later.
fn baseline(at: Moment) -> Visit {
    let mut demo = Demo::begin("demo-visit-5", "demo-person-5", at);
    demo.frame("baseline", "none", "guardian", "none");
    demo.no_danger();
    demo.symptoms(symptoms::BEFORE, [0, 0, 0, 0]);
    demo.usual("resting_gaze");
    demo.near_point(&[(3.5, 5.0), (4.0, 5.0), (4.0, 5.5)]);
    demo.symptoms("symptoms.near_point", [0, 0, 0, 0]);
    demo.usual("pursuit");
    demo.symptoms("symptoms.pursuit", [0, 0, 0, 0]);
    demo.jumps(&["on"; 10], &["on", "on", "on", "on", "short", "on", "on", "on", "on", "on"]);
    demo.symptoms("symptoms.saccade", [0, 0, 0, 0]);
    demo.stripes("tape", &[true; 10], &[true; 10]);
    demo.symptoms("symptoms.optokinetic", [0, 0, 0, 0]);
    demo.decide(&[("action", "advice"), ("play", "not_removed")], &["person", "guardian"]);
    demo.close()
}

/// A visit being filled through the same edits a practitioner makes, some seconds apart.
struct Demo {
    visit: Visit,
    now: Moment,
}

impl Demo {
    fn begin(id: &str, person: &str, at: Moment) -> Demo {
        Demo { visit: Visit::begin(id, person, "sideline", at, "demo"), now: at }
    }

    /// Applies an edit; one that a form does not accept is left out, which the tests would show as a gap.
    fn edit(&mut self, slot: &str, edit: Edit) {
        self.now.unix_ms += 1000;
        if let Some(form) = flow::form_of(slot) {
            let applied = edit::apply(&mut self.visit, form, slot, edit, self.now);
            debug_assert!(applied.is_ok(), "{slot}: {applied:?}");
        }
    }

    fn one(&mut self, slot: &str, key: &str, id: &str) {
        self.edit(slot, Edit::Answer(key.into(), Some(Answer::One(id.into()))));
    }

    fn many(&mut self, slot: &str, key: &str, ids: &[&str]) {
        let ids = ids.iter().map(|id| (*id).to_string()).collect();
        self.edit(slot, Edit::Answer(key.into(), Some(Answer::Many(ids))));
    }

    fn text(&mut self, slot: &str, key: &str, text: &str) {
        self.edit(slot, Edit::Answer(key.into(), Some(Answer::Text(text.into()))));
    }

    fn done(&mut self, slot: &str) {
        self.edit(slot, Edit::State(State::Done));
    }

    fn usual(&mut self, slot: &str) {
        self.edit(slot, Edit::Usual);
        self.done(slot);
    }

    fn skip(&mut self, slot: &str, reason: &str) {
        self.edit(slot, Edit::State(State::NotDone(reason.into())));
    }

    fn frame(&mut self, reason: &str, since: &str, consent: &str, glasses: &str) {
        for (key, id) in [("reason", reason), ("since", since), ("consent", consent), ("glasses", glasses)] {
            self.one(frame::SLOT, key, id);
        }
        self.many(frame::SLOT, "influences", &[]);
        self.many(frame::SLOT, "cautions", &[]);
        self.done(frame::SLOT);
    }

    fn no_danger(&mut self) {
        self.usual(safety::SLOT);
    }

    fn symptoms(&mut self, slot: &str, values: [u8; 4]) {
        let ratings = symptoms::ITEMS.iter().zip(values).map(|(item, value)| (item.id.to_string(), value)).collect();
        self.edit(slot, Edit::Answer("now".into(), Some(Answer::Ratings(ratings))));
        self.done(slot);
    }

    fn near_point(&mut self, trials: &[(f64, f64)]) {
        let slot = "near_point";
        for (index, (breaks, recovers)) in trials.iter().enumerate() {
            self.edit(slot, Edit::AddTrial("trials".into()));
            for (key, answer) in [
                ("break", Answer::Number(*breaks)),
                ("end", Answer::One("double".into())),
                ("recovery", Answer::Number(*recovers)),
            ] {
                self.edit(slot, Edit::TrialAnswer("trials".into(), index, key.into(), Some(answer)));
            }
        }
        for (key, id) in [("zero", "brow"), ("approach", "3"), ("target", "face")] {
            self.one(slot, key, id);
        }
        self.done(slot);
    }

    fn grade(&mut self, row: &str, column: &str, grade: &str, from: Option<u8>) {
        self.edit("pursuit", Edit::Grade("follow".into(), row.into(), column.into(), grade.into()));
        self.edit("pursuit", Edit::FromCycle("follow".into(), row.into(), column.into(), from));
    }

    fn jumps(&mut self, right: &[&str], left: &[&str]) {
        for index in 0..right.len().max(left.len()) {
            for (pad, marks) in [("right", right), ("left", left)] {
                if let Some(mark) = marks.get(index) {
                    self.edit("saccade", Edit::Tap("jumps".into(), pad.into(), (*mark).into()));
                }
            }
        }
        self.done("saccade");
    }

    fn stripes(&mut self, stimulus: &str, right: &[bool], left: &[bool]) {
        let slot = "optokinetic";
        self.one(slot, "stimulus", stimulus);
        for (pad, taken) in [("right", right), ("left", left)] {
            self.edit(slot, Edit::StartRun("stripes".into(), pad.into(), None));
            for taken in taken {
                let mark = if *taken { "beat" } else { "missed" };
                self.edit(slot, Edit::Tap("stripes".into(), pad.into(), mark.into()));
            }
            self.edit(slot, Edit::StopRun("stripes".into()));
        }
        self.done(slot);
    }

    fn decide(&mut self, answers: &[(&str, &str)], told: &[&str]) {
        for (key, id) in answers {
            self.one(decision::SLOT, key, id);
        }
        self.many(decision::SLOT, "told", told);
        self.done(decision::SLOT);
    }

    fn close(mut self) -> Visit {
        self.now.unix_ms += 20_000;
        archive::closed(self.visit, self.now)
    }
}

fn before(now: Moment, ms: i64) -> Moment {
    Moment { unix_ms: now.unix_ms - ms, ..now }
}

fn person(id: &str, label: &str, year: i32) -> Person {
    Person {
        id: id.to_string(),
        label: label.to_string(),
        born: Some(Born::Year(year)),
        invented: true,
        changed: None,
        unread: Unread::default(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::{assess, overview};
    use crate::capture::entry::Entry;
    use crate::finding::Grade;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    #[test]
    fn every_answer_is_one_its_form_takes() {
        let (_, visits) = people(NOW);
        for record in visits.iter().flat_map(|visit| &visit.records) {
            let form = flow::form_of(&record.slot).expect("a form");
            assert!(!record.answers.is_empty() || record.skipped(), "{} is empty", record.slot);
            for (key, answer) in record.answers.iter() {
                let field = form.field(key).expect("a field");
                assert!(field.accepts(answer), "{} {key}: {answer:?}", record.slot);
            }
        }
    }

    #[test]
    fn the_scenario_shows_what_it_is_meant_to_show() {
        let (people, visits) = people(NOW);
        let grade = |label: &str| {
            let person = people.iter().find(|person| person.label == label).expect("a person");
            let visit = visits.iter().find(|visit| visit.person == person.id).expect("a visit");
            overview(&assess(person, visit)).grade
        };
        assert_eq!(grade("R-21"), Grade::OutsideRange);
        assert_eq!(grade("S-16"), Grade::Urgent);
        assert_eq!(grade("L-09"), Grade::OutsideRange);
        assert_eq!(grade("W-52"), Grade::OutsideRange);
        assert!(grade("B-33") <= Grade::WithinRange);
        assert!(people.iter().all(|person| person.invented));
        let due: Vec<String> = crate::due::list(&visits.iter().map(Entry::of).collect::<Vec<_>>(), NOW.date())
            .into_iter()
            .map(|due| due.person)
            .collect();
        assert_eq!(due, ["demo-person-5"], "one re-test was set for yesterday");
    }
}
