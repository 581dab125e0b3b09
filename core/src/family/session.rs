//! A family's time with the page: what is shown, what a tap does, and what the phone should do about it.

use super::act::Act;
use super::course::{Course, Now};
use super::going;
use super::page::{self, Live};
use super::round::{Cue, Held, Outcome, Round, Stage};
use super::screens;
use super::view::{Other, View, time_left};
use crate::catalogue::Language;
use crate::sheet::{Ended, Sheet, Unreadable, qr_version};
use crate::tolerance::Reason;

/// What the phone should do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Effect {
    /// Keep a text under a name.
    Keep(String, String),
    /// Forget what is kept under a name.
    Forget(String),
    /// Let a cue be heard and felt.
    Hear(Cue),
    /// Print the page.
    Print,
    /// Save the log as a file.
    Save(String),
    /// Send the log to another program.
    Share(String),
}

/// What passing time changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Passed {
    /// What is to be heard.
    pub cue: Option<Cue>,
    /// Whether the screen is another one now.
    pub redraw: bool,
    /// Seconds left, rounded up, and the share of the time that is over.
    pub left: Option<(u32, f64)>,
    /// What to keep, once a second: the phone may end the page without a word.
    pub keep: Option<Effect>,
}

/// A question before something is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Asking {
    Nothing,
    Clear,
    Remove,
}

/// The page as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    course: Option<Course>,
    others: Vec<Other>,
    /// Whether the phone keeps anything.
    kept: bool,
    /// Where there is no plan to say so.
    language: Language,
    view: View,
    lists_open: bool,
    steps_open: Vec<bool>,
    asking: Asking,
    wait: bool,
    sound: bool,
    /// The day of the last tap.
    day: i64,
}

impl Session {
    /// Opens what was given, a link's fragment or a file's own plan, beside the texts the phone kept; without anything given
    /// the plan that was opened last. An exercise that was going on today stands where it stood. `kept` says whether the phone keeps anything; `tag` is the phone's language.
    #[must_use]
    pub fn open(given: &str, kept_texts: &[String], kept: bool, tag: &str, now: Now) -> (Session, Vec<Effect>) {
        let mut courses: Vec<Course> = kept_texts.iter().filter_map(|text| Course::decode(text)).collect();
        courses.sort_by_key(|course| std::cmp::Reverse(course.opened));
        let given = given.trim().trim_start_matches('#');
        let (course, view) = match (given.is_empty(), Sheet::decode(given)) {
            (true, _) if courses.is_empty() => (None, View::Empty),
            (true, _) => (Some(courses.remove(0)), View::Today),
            (false, Ok(sheet)) => (Some(known(&mut courses, sheet)), View::Today),
            (false, Err(why)) => (None, View::Unreadable(why)),
        };
        let mut session = Session {
            course: None,
            language: Language::from_tag(tag).unwrap_or(Language::English),
            others: courses.into_iter().map(Other).collect(),
            kept,
            view,
            lists_open: false,
            steps_open: Vec::new(),
            asking: Asking::Nothing,
            wait: false,
            sound: true,
            day: now.day,
        };
        let Some(course) = course else { return (session, Vec::new()) };
        let going = kept_texts.iter().find_map(|text| going::view(text, &course, now));
        let effects = session.show(course, going.unwrap_or(View::Today), now);
        (session, effects)
    }

    /// What is shown.
    #[must_use]
    pub fn view(&self) -> &View {
        &self.view
    }

    /// The plan that is open.
    #[must_use]
    pub fn course(&self) -> Option<&Course> {
        self.course.as_ref()
    }

    /// The language it is read in.
    #[must_use]
    pub fn language(&self) -> Language {
        self.course.as_ref().map_or(self.language, |course| course.language)
    }

    /// Whether sounds are wanted.
    #[must_use]
    pub fn sound(&self) -> bool {
        self.sound
    }

    /// Whether a clock runs: then the screen stays awake and time is passed on.
    #[must_use]
    pub fn runs(&self) -> bool {
        matches!(&self.view, View::Round(_, round) if round.runs())
    }

    /// The beat to be heard, in beats a minute.
    #[must_use]
    pub fn beat(&self) -> Option<u16> {
        let View::Round(_, round) = &self.view else { return None };
        round.beat()
    }

    /// Where the reader is; when it changes, reading begins at the top.
    #[must_use]
    pub fn place(&self) -> &'static str {
        match &self.view {
            View::Empty => "empty",
            // The start script keeps such a plan for the newer page.
            View::Unreadable(Unreadable::Newer) => "newer",
            View::Unreadable(_) => "unreadable",
            View::Today if self.course.as_ref().is_some_and(|course| !course.read) => "first",
            View::Today => "today",
            View::Round(_, round) => match round.stage() {
                Stage::Before => "before",
                Stage::Ready => "ready",
                // From one set to the next the buttons stay where they are.
                Stage::Lead { .. } | Stage::Work { .. } => "work",
                Stage::After => "after",
                Stage::Told(..) => "told",
            },
            View::Danger(_) => "danger",
            View::Told(_) => "told",
            View::Log => "log",
        }
    }

    /// The screen as HTML.
    #[must_use]
    pub fn html(&self, now: Now) -> String {
        let language = self.language();
        let Some(course) = &self.course else { return screens::without_plan(&self.view, language, &self.others) };
        match &self.view {
            View::Round(_, round) => screens::round(round, course, self.sound),
            View::Danger(_) => screens::danger(course),
            View::Told(reason) => screens::told(*reason, &[], course),
            View::Log => screens::log(course, self.asking == Asking::Clear),
            View::Empty | View::Unreadable(_) | View::Today => page::live(&Live {
                course,
                now,
                lists_open: self.lists_open,
                steps_open: &self.steps_open,
                others: &self.others,
                kept: self.kept,
                removing: self.asking == Asking::Remove,
                wait: self.wait,
            }),
        }
    }

    /// The log for a code, where the log is shown and small enough.
    #[must_use]
    pub fn code(&self) -> Option<String> {
        let course = self.course.as_ref().filter(|course| self.view == View::Log && !course.log.days.is_empty())?;
        Some(course.log.encode()).filter(|text| qr_version(text).is_ok())
    }

    /// What a tap does.
    pub fn act(&mut self, act: Act, now: Now) -> Vec<Effect> {
        self.day = now.day;
        // What was asked is answered by the next tap, whatever it is.
        let asking = std::mem::replace(&mut self.asking, Asking::Nothing);
        if let Act::Language(language) = act {
            self.language = language;
        }
        if let Act::Open(at) = act {
            return self.open_other(at, now);
        }
        let Some(course) = &mut self.course else { return Vec::new() };
        match act {
            Act::Language(language) => course.language = language,
            Act::Read => course.read = true,
            Act::Lists => self.lists_open = !self.lists_open,
            Act::Steps(at) => {
                if let Some(open) = self.steps_open.get_mut(at) {
                    *open = !*open;
                }
            }
            Act::Start(at) => {
                let may = self.view == View::Today && course.held(now).is_none();
                if let Some(entry) = course.sheet.entries.get(at).filter(|_| may) {
                    self.view = View::Round(at, Round::new(*entry, course.sheet.limits));
                }
            }
            Act::Back => self.back(),
            Act::Wrong => self.wrong(),
            Act::Danger => self.danger(now),
            Act::NoDanger => {
                if let View::Danger(round) = &mut self.view {
                    self.view = round.take().map_or(View::Today, |(at, round)| View::Round(at, round));
                }
            }
            Act::Settled(settled) => {
                let reason = course.settled(settled, now);
                self.wait = reason.is_none() && course.settling.is_some();
                self.view = reason.map_or(View::Today, View::Told);
            }
            Act::Told => course.told(),
            Act::Log => self.view = View::Log,
            Act::Clear => self.asking = Asking::Clear,
            Act::Remove => self.asking = Asking::Remove,
            Act::ClearYes if asking == Asking::Clear => course.clear(),
            Act::RemoveYes if asking == Asking::Remove => return self.remove(now),
            Act::ClearYes | Act::RemoveYes | Act::Keep | Act::Open(_) => {}
            Act::Print => return vec![Effect::Print],
            Act::Save => return vec![Effect::Save(course.log.encode())],
            Act::Share => return vec![Effect::Share(course.log.encode())],
            Act::Sound => self.sound = !self.sound,
            Act::Rate(_) | Act::Begin | Act::Alone | Act::Hold | Act::GoOn | Act::Counted | Act::Stop => {
                return self.go_on_with_round(act, now);
            }
        }
        self.keep()
    }

    /// Lets time pass.
    pub fn pass(&mut self, milliseconds: u32) -> Passed {
        let View::Round(_, round) = &mut self.view else {
            return Passed { cue: None, redraw: false, left: None, keep: None };
        };
        let before = (round.phase(), round.held(), std::mem::discriminant(&round.stage()));
        let second = time_left(round).map(|left| left.0);
        let cue = round.pass(milliseconds);
        let redraw = before != (round.phase(), round.held(), std::mem::discriminant(&round.stage()));
        let left = time_left(round);
        let keep = if redraw || second != left.map(|left| left.0) { self.keep().pop() } else { None };
        Passed { cue, redraw, left, keep }
    }

    /// The page was hidden. Whether the screen is another one now.
    pub fn hidden(&mut self) -> bool {
        let View::Round(_, round) = &mut self.view else { return false };
        let runs = round.runs();
        round.hold(Held::Away);
        runs
    }

    fn show(&mut self, mut course: Course, view: View, now: Now) -> Vec<Effect> {
        // Two plans opened in the same minute keep their order.
        let latest = self.others.iter().map(|other| other.0.opened).max().unwrap_or(i64::MIN);
        course.opened = now.minute.max(latest.saturating_add(1)).max(course.opened);
        self.steps_open = vec![false; course.sheet.entries.len()];
        self.lists_open = false;
        self.view = view;
        self.course = Some(course);
        self.keep()
    }

    fn open_other(&mut self, at: usize, now: Now) -> Vec<Effect> {
        if at >= self.others.len() {
            return Vec::new();
        }
        let Other(course) = self.others.remove(at);
        self.others.extend(self.course.take().map(Other));
        self.others.sort_by_key(|other| std::cmp::Reverse(other.0.opened));
        self.show(course, View::Today, now)
    }

    fn remove(&mut self, now: Now) -> Vec<Effect> {
        let Some(course) = self.course.take() else { return Vec::new() };
        let mut effects = vec![Effect::Forget(name(&course))];
        self.view = View::Empty;
        effects.extend(self.open_other(0, now));
        effects
    }

    fn keep(&self) -> Vec<Effect> {
        let Some(course) = self.course.as_ref().filter(|_| self.kept) else { return Vec::new() };
        let lines: Vec<String> = [course.encode()].into_iter().chain(going::line(&self.view, self.day)).collect();
        vec![Effect::Keep(name(course), lines.join("\n"))]
    }

    fn back(&mut self) {
        self.wait = false;
        self.view = match std::mem::replace(&mut self.view, View::Today) {
            // While a clock runs, "stop" is the way out: it still asks how it feels.
            View::Round(at, round) if matches!(round.stage(), Stage::Lead { .. } | Stage::Work { .. }) => {
                View::Round(at, round)
            }
            _ => View::Today,
        };
    }

    fn wrong(&mut self) {
        let round = match std::mem::replace(&mut self.view, View::Today) {
            View::Round(at, mut round) => {
                round.hold(Held::Asked);
                // A round that is over and noted does not come back.
                Some((at, round)).filter(|(_, round)| round.outcome().is_none())
            }
            _ => None,
        };
        self.view = View::Danger(round);
    }

    fn danger(&mut self, now: Now) {
        let View::Danger(round) = &mut self.view else { return };
        let (at, outcome) = match round.take() {
            Some((at, mut round)) => {
                round.danger();
                (at, round.outcome())
            }
            None => (usize::MAX, None),
        };
        let none = Outcome { before: None, after: None, whole: false, ended: Ended::Emergency, reason: Reason::Danger };
        if let Some(course) = &mut self.course {
            course.note(at, &outcome.unwrap_or(none), now);
        }
        self.view = View::Told(Reason::Danger);
    }

    fn go_on_with_round(&mut self, act: Act, now: Now) -> Vec<Effect> {
        let (View::Round(at, round), Some(course)) = (&mut self.view, &mut self.course) else { return Vec::new() };
        if round.outcome().is_some() {
            return Vec::new();
        }
        let mut cue = None;
        match act {
            Act::Rate(rating) => {
                if round.stage() == Stage::Before {
                    course.rated_before(rating);
                }
                round.rate(rating);
            }
            Act::Begin => round.begin(),
            Act::Alone => round.done_alone(),
            Act::Hold => round.hold(Held::Asked),
            Act::GoOn => round.go_on(),
            Act::Counted => cue = round.counted(),
            Act::Stop => round.stop(),
            // Named one by one, so that a new act has to find its place.
            Act::Language(_) | Act::Read | Act::Lists | Act::Steps(_) | Act::Start(_) | Act::Back | Act::Wrong => {}
            Act::Danger | Act::NoDanger | Act::Settled(_) | Act::Told | Act::Log | Act::Save | Act::Share => {}
            Act::Clear | Act::ClearYes | Act::Remove | Act::RemoveYes | Act::Keep | Act::Open(_) => {}
            Act::Print | Act::Sound => {}
        }
        if let Some(outcome) = round.outcome() {
            course.note(*at, &outcome, now);
        }
        let mut effects: Vec<Effect> = cue.map(Effect::Hear).into_iter().collect();
        effects.extend(self.keep());
        effects
    }
}

/// The course of a sheet that was given: the one this phone has, or a new one.
fn known(courses: &mut Vec<Course>, sheet: Sheet) -> Course {
    match courses.iter().position(|course| course.sheet == sheet) {
        Some(at) => courses.remove(at),
        None => Course::new(sheet),
    }
}

/// The name a course is kept under: the whole text of its sheet, so that no two share one.
fn name(course: &Course) -> String {
    course.sheet.encode()
}
