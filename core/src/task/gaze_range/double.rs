//! Double vision by direction of gaze.

use super::evidence::{CONCUSSION, DIPLOPIA};
use super::reach::{GAZES, toward};
use super::{Case, TASK, notice};
use crate::anatomy::Direction;
use crate::capture::frame;
use crate::finding::Place;
use crate::notice::Notice;
use crate::sign::{Sign, What};

pub(super) fn read(case: &Case<'_>) -> Option<Notice> {
    let ids = case.doubles().filter(|ids| !ids.is_empty())?;
    let since = case.since("double_new");
    let looks: Vec<&str> =
        GAZES.iter().filter(|gaze| ids.iter().any(|id| id == gaze.id)).map(|gaze| gaze.phrase).collect();
    let headline = match looks[..] {
        [] => return None,
        [one] => format!("Double on looking {one}"),
        [one, other] => format!("Double on looking {one}, and {other}"),
        _ => format!("Double on looking in {} directions", looks.len()),
    };
    let place = match &main_of(ids)[..] {
        [one] => Place::Toward(*one),
        _ => Place::Both,
    };
    let mut notice = notice("double", place, headline);
    if looks.len() > 2 {
        notice = notice.says(format!("On looking {}.", looks.join(", ")));
    }
    let notice = notice.since(since);
    let knock = frame::reason(case.visit) == Some("knock");
    Some(match (case.record.answers.one("double_cover"), since.counts_as_new()) {
        (Some("stays"), true) if knock => notice
            .says("After a knock, double vision of any kind is a danger sign (Patricios et al. 2023).")
            .danger("double", since.phrase("double vision after a knock"), &CONCUSSION),
        // From memory: double vision of one eye mostly comes from that eye's own optics.
        (Some("stays"), _) => notice
            .says("It stays with one eye covered: mostly from the eye itself (from memory); an eye examination settles it.")
            .by_common_practice(),
        (Some("gone"), true) => {
            notice.danger("double", since.phrase("double vision with both eyes open on looking aside"), &DIPLOPIA)
        }
        (Some(_) | None, true) => notice
            .says("It is taken as double vision of both eyes together until each eye has been covered.")
            .danger("double", since.phrase("double vision on looking aside, covering not tried"), &DIPLOPIA),
        (Some(_) | None, false) => notice.by_common_practice(),
    })
}

/// Double vision of one eye is not the sign that is meant, and does not tell whether that one is there.
pub(super) fn signs(case: &Case<'_>) -> Vec<Sign> {
    let Some(ids) = case.doubles() else { return Vec::new() };
    if case.record.answers.one("double_cover") == Some("stays") && !ids.is_empty() {
        return Vec::new();
    }
    let seen = main_of(ids);
    let key = if seen.is_empty() { "as_expected" } else { "double" };
    let sign = |direction: Direction| {
        Sign::new(
            What::DoubleVision,
            Place::Toward(direction),
            seen.contains(&direction),
            &format!("{}.{key}", TASK.id),
        )
    };
    Direction::ALL.map(sign).to_vec()
}

/// Main directions in which it is double. A slanting one beside a main one is explained by it.
fn main_of(ids: &[String]) -> Vec<Direction> {
    let main = |direction: Direction| ids.iter().any(|id| id == direction.word());
    let explained = |id: &str| {
        GAZES.iter().any(|gaze| gaze.id == id && gaze.parts.len() > 1 && gaze.parts.iter().any(|part| main(*part)))
    };
    let told = |direction: &Direction| ids.iter().any(|id| !explained(id) && toward(id, *direction));
    Direction::ALL.into_iter().filter(told).collect()
}
