//! Range of gaze: how far each eye goes in eight directions, where the target looks double, and what beats at the end.
//!
//! What is long known is a finding. What is new, or not known to be old, is a danger sign where published signs say so.

mod across;
mod beats;
mod double;
mod drawing;
mod evidence;
mod form;
mod reach;

pub use evidence::RATES;

use super::{Caution, Context, Setup, Task, never_barred};
use crate::anatomy::{Direction, Eye};
use crate::capture::form::Need;
use crate::capture::record::{Record, State};
use crate::capture::visit::Visit;
use crate::finding::{Finding, Gap, Grade, Place, Reading, Why};
use crate::notice::{Notice, Since};
use form::FORM;
use reach::Range;

/// The task. Sideways the eyes go about 45° (Lee et al. 2019, Eye 33:1145); 30 cm aside at 50 cm is atan(30/50) = 31°.
pub static TASK: Task = Task {
    id: "gaze_range",
    title: "Range of gaze",
    term: "range of eye movements",
    setup: Setup {
        position: "Facing you at the same height, head held still, in their glasses.",
        target: "A small face, 50 cm from the eyes.",
        motion: "Slowly along a large H, as far as the eyes go, about four seconds each way. Then 30 cm to each side, up \
                 and down, and hold it there for five seconds. If an eye seems to lag: three quick looks from side to \
                 side.",
        say: "Keep your head still and follow with your eyes. Tell me when it turns double.",
        watch: "How much white is left at the corner of each eye; beats while gaze is held; and the eye that turns to the \
                nose.",
    },
    form: &FORM,
    provokes: false,
    pace: None,
    seconds: 60,
    barred: never_barred,
    cautions: CAUTIONS,
    norms: &[],
    read,
};

/// Common practice, but for the first: Whyte et al. 2010, Invest Ophthalmol Vis Sci 51:2476.
static CAUTIONS: &[Caution] = &[
    Caution {
        when: &[],
        below_age: None,
        says: "Look for beats 30 cm aside, not at the far end: there 93 of 100 healthy adults have them on a recording.",
    },
    Caution {
        when: &["vertigo"],
        below_age: None,
        says: "With vertigo going on, let them sit and go slowly. Beats that change direction with gaze are a danger sign.",
    },
    Caution {
        when: &["surgery"],
        below_age: None,
        says: "After eye surgery, ask the surgeon before the eyes are turned as far as they go.",
    },
];

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let case = Case { visit: context.visit, record };
    let ranges = [Eye::Right, Eye::Left].map(|eye| Range::of(eye, &case));
    let reach = reach::read(&case, &ranges);
    let mut reading =
        Reading { gaps: gaps(&case, &ranges), flags: reach.flag.into_iter().collect(), ..Reading::default() };
    let others = [across::read(&case), double::read(&case).into_iter().collect(), beats::read(&case)];
    for notice in reach.notices.into_iter().chain(others.into_iter().flatten()) {
        reading.flags.extend(notice.flag);
        reading.findings.push(notice.finding);
    }
    reading.findings.extend(as_expected(&case, &ranges));
    reading.findings.extend(
        record.answers.text("note").map(|note| Finding::new(TASK.id, "note", Place::Both, format!("Note: “{note}”"))),
    );
    reading.signs = [reach.signs, across::signs(&case), double::signs(&case), beats::signs(&case)].concat();
    reading.measures = ranges.iter().filter_map(reach::measure).collect();
    if ranges.iter().any(Range::any) {
        reading.figures.push(drawing::stars(&ranges));
    }
    reading
}

/// The record together with its visit.
struct Case<'a> {
    visit: &'a Visit,
    record: &'a Record,
}

impl Case<'_> {
    fn since(&self, key: &str) -> Since {
        Since::of(self.visit, self.record, key)
    }

    /// Directions in which it is double; empty when single everywhere, `None` when not asked.
    fn doubles(&self) -> Option<&[String]> {
        self.record.answers.many("double")
    }
}

/// Something not as expected at this task.
fn notice(what: &str, place: Place, headline: impl Into<String>) -> Notice {
    Notice::new(TASK.id, what, place, headline)
}

/// What was as expected, in one finding.
fn as_expected(case: &Case<'_>, ranges: &[Range; 2]) -> Option<Finding> {
    let full = match ranges.each_ref().map(Range::all_full) {
        [true, true] => Some("both eyes full in all directions"),
        [true, false] => Some("right eye full in all directions"),
        [false, true] => Some("left eye full in all directions"),
        [false, false] if !ranges.iter().any(Range::some_full) => None,
        [false, false] if ranges.iter().any(Range::some_short) => Some("the other directions full"),
        [false, false] => Some("full where it was looked at"),
    };
    let single = case.doubles().filter(|ids| ids.is_empty()).map(|_| "single");
    let said = [full, across::as_expected(case), single].into_iter().flatten().map(String::from);
    let mut headline = said.chain(beats::as_expected(case)).collect::<Vec<_>>().join(", ");
    headline.get_mut(..1)?.make_ascii_uppercase();
    let mut finding = Finding::new(TASK.id, "as_expected", Place::Both, headline);
    finding.grade = Grade::WithinRange;
    Some(finding)
}

fn gaps(case: &Case<'_>, ranges: &[Range; 2]) -> Vec<Gap> {
    let record = case.record;
    let gap = |what: String, why: Why| Gap { slot: record.slot.clone(), what, why };
    match &record.state {
        State::NotDone(reason) => return vec![gap(TASK.term.to_string(), Why::NotDone(reason.clone()))],
        State::NotTestable(reason) => return vec![gap(TASK.term.to_string(), Why::NotTestable(reason.clone()))],
        State::Open | State::Done if record.answers.is_empty() => {
            return vec![gap(TASK.term.to_string(), Why::NotRecorded)];
        }
        State::Open | State::Done => {}
    }
    let mut gaps = Vec::new();
    let asked = FORM.shown(&record.answers).filter(|field| field.need == Need::Asked);
    for field in asked {
        match record.answers.get(field.key) {
            Some(answer) if !field.accepts(answer) => gaps.push(gap(in_words(field.key).to_string(), Why::Unread)),
            None => gaps.push(gap(in_words(field.key).to_string(), Why::NotRecorded)),
            // Of a table some cells may be missing.
            Some(_) if field.key == "reach" => {
                gaps.extend(ranges.iter().filter_map(unseen).map(|what| gap(what, Why::NotRecorded)));
            }
            Some(_) if field.key == "beats" => {
                let missing: Vec<Direction> =
                    Direction::ALL.into_iter().filter(|direction| beats::held(case, *direction).is_none()).collect();
                if !missing.is_empty() {
                    gaps.push(gap(format!("beats on looking {}", listed(&missing)), Why::NotRecorded));
                }
            }
            Some(_) => {}
        }
    }
    gaps
}

/// "range of the right eye", or "range of the right eye, 3 of 8 directions".
fn unseen(range: &Range) -> Option<String> {
    let of = format!("range of the {} eye", range.eye.word());
    match range.cells().filter(|(_, reach)| reach.is_none()).count() {
        0 => None,
        8 => Some(of),
        1 => Some(format!("{of}, 1 of 8 directions")),
        missing => Some(format!("{of}, {missing} of 8 directions")),
    }
}

fn in_words(key: &'static str) -> &'static str {
    match key {
        "reach" => "how far each eye goes",
        "reach_new" => "whether it is new that an eye falls short",
        "double" => "single or double by direction",
        "double_cover" => "whether the double vision goes when an eye is covered",
        "double_new" => "whether the double vision is new",
        "beats" => "beats at the end of gaze",
        "beats_new" => "whether the beats are new",
        "beats_way_new" => "whether the way they beat is new",
        "across_new" => "whether it is new that an eye lags",
        other => other,
    }
}

/// "to the right, to the left and upward".
fn listed(directions: &[Direction]) -> String {
    let words: Vec<&str> = directions.iter().map(|direction| direction.phrase()).collect();
    match words.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_string(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests;
