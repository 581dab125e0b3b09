//! The examination as a list of tasks. One task is one file; adding one is that file and one line here.

use crate::calendar::Age;
use crate::capture::form::{Form, Pace};
use crate::capture::record::Record;
use crate::capture::visit::{Person, Visit};
use crate::evidence::Norm;
use crate::finding::Reading;

/// A unit of the examination: its words, form, norms, cautions and reading rule.
#[derive(Debug)]
pub struct Task {
    /// Stable id: the file name, the slot of its record and the anchor of its help.
    pub id: &'static str,
    /// Title on the screen: one or two plain words.
    pub title: &'static str,
    /// The field's term, for print: "near point of convergence".
    pub term: &'static str,
    /// How it is done.
    pub setup: Setup,
    /// What is asked.
    pub form: &'static Form,
    /// Whether the four symptoms are asked again after it.
    pub provokes: bool,
    /// A beat the app can play while it is done; `None` when it has none or the taps carry their own.
    pub pace: Option<Pace>,
    /// Usual time in seconds.
    pub seconds: u16,
    /// Why the task is left out of this visit, from its answers so far; [`never_barred`] for most.
    pub barred: fn(&Context<'_>) -> Option<&'static str>,
    /// When it can hurt.
    pub cautions: &'static [Caution],
    /// Published ranges it is read against.
    pub norms: &'static [&'static Norm],
    /// The reading rule. It never fails: what is missing comes back as gaps.
    pub read: fn(&Context<'_>, &Record) -> Reading,
}

/// A task is known by its id.
impl PartialEq for Task {
    fn eq(&self, other: &Task) -> bool {
        self.id == other.id
    }
}

/// How a task is done, in own words.
#[derive(Debug)]
pub struct Setup {
    /// The person's position.
    pub position: &'static str,
    /// Target and where it is held.
    pub target: &'static str,
    /// How it is moved, how far, at what pace, how often.
    pub motion: &'static str,
    /// What to say to the person.
    pub say: &'static str,
    /// What to watch for.
    pub watch: &'static str,
}

/// A caution, shown when one of the frame's cautions applies (or always, when the list is empty).
#[derive(Debug)]
pub struct Caution {
    /// Ids of the frame's cautions; empty for always.
    pub when: &'static [&'static str],
    /// Youngest age in completed years for which it does not apply; `None` for all ages.
    pub below_age: Option<u8>,
    /// What it says.
    pub says: &'static str,
}

/// What a reading rule may look at besides its own record.
#[derive(Debug)]
pub struct Context<'a> {
    /// The whole visit.
    pub visit: &'a Visit,
    /// The person's age on the day of the visit.
    pub age: Option<Age>,
}

impl<'a> Context<'a> {
    /// The context of this person's visit.
    #[must_use]
    pub fn of(person: &Person, visit: &'a Visit) -> Context<'a> {
        Context { visit, age: person.born.and_then(|born| born.age(visit.started.date())) }
    }

    /// Completed years, when the birth is known.
    #[must_use]
    pub fn years(&self) -> Option<u8> {
        self.age.map(|age| age.years)
    }
}

/// For a task that no answer leaves out.
#[must_use]
pub fn never_barred(_: &Context<'_>) -> Option<&'static str> {
    None
}

macro_rules! tasks {
    ($($name:ident),+ $(,)?) => {
        $(pub mod $name;)+
        /// Every task, in exam order.
        pub static ALL: &[&Task] = &[$(&$name::TASK),+];
    };
}

tasks! {
    resting_gaze,
    gaze_range,
    near_point,
    vergence,
    pursuit,
    saccade,
    antisaccade,
    optokinetic,
    head_turn_gaze,
    whole_body_turn,
    head_impulse,
    balance,
    body_sides,
    further_measures,
}

/// A task by id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static Task> {
    ALL.iter().copied().find(|task| task.id == id)
}
