//! The four symptoms, rated before the examination and after each provoking task.

use super::form::{Choice, Form, Kind, Usual, UsualAnswer, asked, choice, never_fills};
use super::frame;
use super::visit::Visit;

/// The rated symptoms. Ratings of these four after each task are the common core of vestibular and ocular screening
/// (Mucha et al. 2014, Am J Sports Med 42:2479).
pub static ITEMS: &[Choice] = &[
    choice("headache", "Headache"),
    choice("dizziness", "Dizziness"),
    choice("nausea", "Nausea"),
    choice("fogginess", "Fogginess"),
];

/// The form; slots are `symptoms.before` and `symptoms.` with the id of a task.
pub static FORM: Form = Form {
    id: "symptoms",
    fields: &[asked("now", "How strong is each, right now? 0 is none, 10 the worst.", Kind::Ratings(ITEMS))],
    usual: &[Usual { key: "now", answer: UsualAnswer::Zeros }],
    usual_label: "None: all 0",
    fills: never_fills,
};

/// The slot before the first task.
pub const BEFORE: &str = "symptoms.before";

/// The slot after a task.
#[must_use]
pub fn after(task: &str) -> String {
    format!("symptoms.{task}")
}

/// Ratings in one slot; `None` when they were not asked.
#[must_use]
pub fn rated<'a>(visit: &'a Visit, slot: &str) -> Option<&'a [(String, u8)]> {
    visit.filled(slot)?.answers.ratings("now").filter(|ratings| !ratings.is_empty())
}

/// The ratings given last before this slot, in the order they were recorded; `None` when there are none yet.
#[must_use]
pub fn last_rated(visit: &Visit, slot: &str) -> Option<Vec<(String, u8)>> {
    let earlier = visit.records.iter().take_while(|record| record.slot != slot);
    let rated = earlier.filter(|record| record.form() == FORM.id).filter_map(|record| rated(visit, &record.slot));
    rated.last().map(<[_]>::to_vec)
}

/// The rating of one item.
#[must_use]
pub fn rating(ratings: &[(String, u8)], item: &str) -> Option<u8> {
    ratings.iter().find(|(id, _)| id == item).map(|(_, value)| *value)
}

/// These ratings with the ones that were not touched: as they were last, and 0 where nothing was rated before. `None`
/// when there is none to add, because all were touched or the last ratings lack the same ones.
#[must_use]
pub fn with_the_rest(now: &[(String, u8)], last: Option<&[(String, u8)]>) -> Option<Vec<(String, u8)>> {
    let value = |item: &str| rating(now, item).or_else(|| last.map_or(Some(0), |last| rating(last, item)));
    let all: Vec<_> = ITEMS.iter().filter_map(|item| Some((item.id.to_string(), value(item.id)?))).collect();
    (now.len() < all.len()).then_some(all)
}

/// Whether the person is dizzy today: vertigo going on, come for it, or dizziness rated before the tasks.
#[must_use]
pub fn dizzy(visit: &Visit) -> bool {
    let rated = rated(visit, BEFORE).and_then(|ratings| rating(ratings, "dizziness")).is_some_and(|rating| rating > 0);
    rated || frame::reason(visit) == Some("dizzy") || frame::has_caution(visit, &["vertigo"])
}

/// Dizziness from which on tasks that turn the head or the body are left out (convention, from memory: 7 to 8).
pub const TOO_DIZZY: u8 = 7;

/// Whether dizziness was too strong for tasks that turn the head or the body, before the tasks or after any but this one.
///
/// Any such rating counts, not the last one alone: who was that dizzy today is not turned again, and the order in which
/// tasks are stored plays no part.
#[must_use]
pub fn too_dizzy(visit: &Visit, task: &str) -> bool {
    let (own, of_form) = (after(task), |slot: &str| slot.split('.').next() == Some(FORM.id));
    let others = visit.records.iter().map(|record| &record.slot).filter(|slot| of_form(slot) && **slot != own);
    let rated = others.filter_map(|slot| rating(rated(visit, slot)?, "dizziness"));
    rated.max().is_some_and(|rating| rating >= TOO_DIZZY)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratings(given: &[(&str, u8)]) -> Vec<(String, u8)> {
        given.iter().map(|(item, value)| ((*item).to_string(), *value)).collect()
    }

    #[test]
    fn what_was_not_touched_is_zero_before_the_tasks_and_as_it_was_after_them() {
        let headache = ratings(&[("headache", 2)]);
        let before = with_the_rest(&headache, None);
        let all = ratings(&[("headache", 2), ("dizziness", 0), ("nausea", 0), ("fogginess", 0)]);
        assert_eq!(before, Some(all));

        let last = ratings(&[("headache", 2), ("dizziness", 1), ("nausea", 0), ("fogginess", 3)]);
        let after = with_the_rest(&ratings(&[("nausea", 4)]), Some(&last));
        assert_eq!(after, Some(ratings(&[("headache", 2), ("dizziness", 1), ("nausea", 4), ("fogginess", 3)])));
    }

    #[test]
    fn a_rating_that_was_never_asked_is_not_made_up() {
        let last = ratings(&[("headache", 2)]);
        assert_eq!(with_the_rest(&ratings(&[("headache", 3)]), Some(&last)), None);
        let both = with_the_rest(&ratings(&[("nausea", 1)]), Some(&last));
        assert_eq!(both, Some(ratings(&[("headache", 2), ("nausea", 1)])));
        let all = ratings(&[("headache", 0), ("dizziness", 0), ("nausea", 0), ("fogginess", 0)]);
        assert_eq!(with_the_rest(&all, None), None);
    }
}
