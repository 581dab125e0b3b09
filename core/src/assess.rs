//! The assessment: everything a visit says, worked out again each time from what is stored. This is the spine.

mod caveats;
mod gaps;

use crate::calendar::Age;
use crate::capture::stop;
use crate::capture::visit::{Person, Visit};
use crate::contradiction::{self, Contradiction};
use crate::figure::Figure;
use crate::finding::{Comparison, Finding, Flag, Gap, Grade, Reading};
use crate::how_common::{self, HowCommon};
use crate::measure::{Course, Measure};
use crate::pattern::{self, Case, Pattern};
use crate::provocation::{self, Provocation};
use crate::red_flag;
use crate::routine;
use crate::side::{self, SideReading};
use crate::sign::Sign;
use crate::sorted;
use crate::task::{self, Context, Task};
use crate::tiring::{self, Tiring};
use crate::working_model;

/// Everything a visit says.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Age on the day of the visit.
    pub age: Option<Age>,
    /// Danger signs, those of the safety check first.
    pub flags: Vec<Flag>,
    /// Those of them that no stop record answers yet.
    pub open_flags: Vec<Flag>,
    /// Whether an emergency stop ended the examination.
    pub stopped: bool,
    /// The tasks of the routine and every other recorded task, in exam order.
    pub tasks: Vec<TaskReading>,
    /// Symptoms before and after the tasks.
    pub symptoms: Provocation,
    /// Right against left over all tasks.
    pub side: SideReading,
    /// What grows worse on the way, by task.
    pub tiring: Vec<Tiring>,
    /// How often healthy people have as much outside the range.
    pub how_common: HowCommon,
    /// The working model of the practice school beside this visit; shown only where it is asked for.
    pub working_model: Vec<working_model::Reading>,
    /// Named combinations of signs, read by lesion evidence.
    pub patterns: Vec<Pattern>,
    /// What does not go together.
    pub contradictions: Vec<Contradiction>,
    /// What was not done, not testable, not asked or not readable.
    pub gaps: Vec<Gap>,
    /// What else can change eye movements or ratings today.
    pub caveats: Vec<Caveat>,
}

/// What one task says.
#[derive(Debug, Clone, PartialEq)]
pub struct TaskReading {
    /// The task.
    pub task: &'static Task,
    /// Whether anything was recorded and it was not skipped.
    pub done: bool,
    /// Its reading; empty when it was not done.
    pub reading: Reading,
}

/// Something about this visit that the findings have to be read with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caveat {
    /// The answer behind it: "frame.influences.tired".
    pub from: String,
    /// One sentence.
    pub says: String,
}

/// One line for a list of visits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overview {
    /// The worst grade.
    pub grade: Grade,
    /// "2 outside", "in range, 1 task not done", "stopped: emergency sign".
    pub text: String,
}

/// Assesses a visit, however incomplete.
#[must_use]
pub fn assess(person: &Person, visit: &Visit) -> Assessment {
    let context = Context::of(person, visit);
    let order = tasks_of(visit);
    let read: Vec<TaskReading> = order.iter().map(|task| read_task(&context, task)).collect();
    let side = side::read(read.iter().flat_map(|task| &task.reading.sided));
    let told = Told::by(&read);
    let case = Case { worse: side.worse(), ..told.case(visit, context.years(), &read) };
    let patterns = pattern::read(&case);
    let of_tasks = red_flag::raised(visit, read.iter().flat_map(|task| &task.reading.flags));
    let of_patterns = pattern::flags(&patterns, &case.findings, &of_tasks);
    let flags = red_flag::raised(visit, of_tasks.iter().chain(&of_patterns));
    let symptoms = provocation::read(visit, context.years(), &order);
    Assessment {
        age: context.age,
        open_flags: red_flag::open(visit, &flags),
        stopped: stop::ended(visit),
        gaps: gaps::of(person, &context, &read, &symptoms),
        caveats: caveats::of(visit, context.years()),
        tiring: tiring::read(told.courses.iter()),
        how_common: how_common::read(case.findings.iter().copied(), &symptoms, context.years()),
        working_model: working_model::read(&told.signs, &told.courses),
        side,
        contradictions: contradiction::found(&case, &patterns),
        patterns,
        flags,
        tasks: read,
        symptoms,
    }
}

/// The line for a list: a stop first, then the worst grade and how many tasks are missing.
#[must_use]
pub fn overview(assessment: &Assessment) -> Overview {
    let grades: Vec<Grade> = assessment.findings().map(|finding| finding.grade).collect();
    let count = |grade| grades.iter().filter(|g| **g == grade).count();
    let done = assessment.tasks.iter().filter(|task| task.done).count();
    let missing = match assessment.tasks.len() - done {
        0 => String::new(),
        1 => ", 1 task not done".to_string(),
        n => format!(", {n} tasks not done"),
    };
    let (grade, text) = if assessment.stopped {
        (Grade::Urgent, "stopped: emergency sign".to_string())
    } else if !assessment.flags.is_empty() {
        (Grade::Urgent, "emergency sign".to_string())
    } else if count(Grade::Urgent) > 0 {
        (Grade::Urgent, "urgent".to_string())
    } else if count(Grade::OutsideRange) > 0 {
        (Grade::OutsideRange, format!("{} outside{missing}", count(Grade::OutsideRange)))
    } else if count(Grade::NearLimit) > 0 {
        (Grade::NearLimit, format!("{} near the limit{missing}", count(Grade::NearLimit)))
    } else if count(Grade::WithinRange) > 0 {
        (Grade::WithinRange, format!("in range{missing}"))
    } else if done > 0 || !grades.is_empty() {
        (Grade::NoRange, format!("recorded{missing}"))
    } else {
        (Grade::NoRange, "nothing recorded".to_string())
    };
    Overview { grade, text }
}

impl Assessment {
    /// Every finding in exam order, those on symptoms last.
    pub fn findings(&self) -> impl Iterator<Item = &Finding> {
        self.tasks.iter().flat_map(|task| &task.reading.findings).chain(&self.symptoms.findings)
    }

    /// Findings near the limit or beyond, the gravest first, equal ones in exam order.
    #[must_use]
    pub fn outside(&self) -> Vec<&Finding> {
        let mut outside: Vec<&Finding> = self.findings().filter(|finding| finding.grade >= Grade::NearLimit).collect();
        sorted::by_key(&mut outside, |finding| std::cmp::Reverse(finding.grade));
        outside
    }

    /// Right against left, in exam order.
    pub fn comparisons(&self) -> impl Iterator<Item = &Comparison> {
        self.tasks.iter().flat_map(|task| &task.reading.comparisons)
    }

    /// Values to compare with another visit, in exam order, those of symptoms last.
    pub fn measures(&self) -> impl Iterator<Item = &Measure> {
        self.tasks.iter().flat_map(|task| &task.reading.measures).chain(&self.symptoms.measures)
    }

    /// Drawings in exam order.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        self.tasks.iter().flat_map(|task| &task.reading.figures)
    }
}

/// What all tasks hand on, as one list each.
struct Told {
    signs: Vec<Sign>,
    measures: Vec<Measure>,
    courses: Vec<Course>,
}

impl Told {
    fn by(read: &[TaskReading]) -> Told {
        Told {
            signs: read.iter().flat_map(|task| &task.reading.signs).cloned().collect(),
            measures: read.iter().flat_map(|task| &task.reading.measures).cloned().collect(),
            courses: read.iter().flat_map(|task| &task.reading.courses).cloned().collect(),
        }
    }

    fn case<'a>(&'a self, visit: &'a Visit, years: Option<u8>, read: &'a [TaskReading]) -> Case<'a> {
        let findings = read.iter().flat_map(|task| &task.reading.findings).collect();
        Case { visit, years, signs: &self.signs, measures: &self.measures, findings, worse: None }
    }
}

/// The visit's tasks and every other recorded one, in exam order.
fn tasks_of(visit: &Visit) -> Vec<&'static Task> {
    let planned = routine::planned(visit);
    let wanted = |task: &&Task| planned.contains(task) || visit.record(task.id).is_some();
    task::ALL.iter().copied().filter(wanted).collect()
}

/// Reads a task. Of a skipped one only the danger signs are kept: they were seen before it was skipped.
fn read_task(context: &Context<'_>, task: &'static Task) -> TaskReading {
    match context.visit.record(task.id).filter(|record| !record.answers.is_empty()) {
        None => TaskReading { task, done: false, reading: Reading::default() },
        Some(record) if record.skipped() => {
            let flags = (task.read)(context, record).flags;
            TaskReading { task, done: false, reading: Reading { flags, ..Reading::default() } }
        }
        Some(record) => TaskReading { task, done: true, reading: (task.read)(context, record) },
    }
}

#[cfg(test)]
mod tests;
