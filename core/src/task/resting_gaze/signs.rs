//! What gaze at rest hands on to patterns. Of each list one answer is kept, so it speaks only for its own kind: beats to
//! the right were seen and not to the left, but nobody said that nothing twisted.

use super::{Case, TASK, on_video};
use crate::anatomy::{Direction, Eye};
use crate::capture::symptoms;
use crate::finding::Place;
use crate::notice::Since;
use crate::sign::{Sign, What};

/// Every sign that was looked for.
pub(super) fn signs(case: &Case<'_>) -> Vec<Sign> {
    [nystagmus(case), lid(case), height(case), double(case)].concat()
}

/// What only a video shows is left out unless it is new in someone dizzy, as for the danger sign: 30.7 % of healthy
/// adults have it (Young et al. 2020, J Vestib Res 30:345).
fn nystagmus(case: &Case<'_>) -> Vec<Sign> {
    let counts = case.since("nystagmus_new") == Since::New && symptoms::dizzy(case.visit);
    if on_video(case) && !counts {
        return Vec::new();
    }
    let toward = |seen: Direction| {
        let what = match seen {
            Direction::Right | Direction::Left => What::RestingNystagmus,
            Direction::Up | Direction::Down => What::VerticalNystagmus,
        };
        let found = |direction| Sign::new(what, Place::Toward(direction), direction == seen, "resting_gaze.nystagmus");
        vec![found(seen), found(opposite(seen))]
    };
    let found = |what| vec![Sign::new(what, Place::Both, true, "resting_gaze.nystagmus")];
    match case.one("nystagmus") {
        Some("none") => {
            let along = [
                (What::RestingNystagmus, Direction::Right),
                (What::RestingNystagmus, Direction::Left),
                (What::VerticalNystagmus, Direction::Up),
                (What::VerticalNystagmus, Direction::Down),
            ];
            let along = along.map(|(what, direction)| absent(what, Place::Toward(direction)));
            let any = [What::TorsionalNystagmus, What::ChangingNystagmus].map(|what| absent(what, Place::Both));
            along.into_iter().chain(any).collect()
        }
        Some("right") => toward(Direction::Right),
        Some("left") => toward(Direction::Left),
        Some("up") => toward(Direction::Up),
        Some("down") => toward(Direction::Down),
        Some("torsional") => found(What::TorsionalNystagmus),
        Some("changes") => found(What::ChangingNystagmus),
        // Without a fast phase there is no direction.
        Some(_) | None => Vec::new(),
    }
}

fn lid(case: &Case<'_>) -> Vec<Sign> {
    let low = match case.one("lid") {
        Some("level") => [false, false],
        Some("right") => [true, false],
        Some("left") => [false, true],
        Some("both") => [true, true],
        Some(_) | None => return Vec::new(),
    };
    by_eye(What::Ptosis, low, "resting_gaze.lid")
}

/// An eye that moves up to take up the target stood low, so the other one stands higher. Of both eyes the form asks the
/// way of the right one.
fn height(case: &Case<'_>) -> Vec<Sign> {
    let higher = match (case.one("alignment"), case.one("alignment_way")) {
        (Some("still"), _) => [false, false],
        (Some("right" | "both"), Some("up")) | (Some("left"), Some("down")) => [false, true],
        (Some("right" | "both"), Some("down")) | (Some("left"), Some("up")) => [true, false],
        _ => return Vec::new(),
    };
    by_eye(What::Skew, higher, "resting_gaze.alignment")
}

/// Double vision of one eye is not the sign that is meant, and does not tell whether that one is there.
fn double(case: &Case<'_>) -> Vec<Sign> {
    match case.one("double") {
        Some("single") => vec![absent(What::DoubleVision, Place::Both)],
        Some("two_eyes" | "not_covered") => {
            vec![Sign::new(What::DoubleVision, Place::Both, true, "resting_gaze.double")]
        }
        Some(_) | None => Vec::new(),
    }
}

/// The sign in the right and in the left eye. Absent in both, it stands with what was as expected.
fn by_eye(what: What, seen: [bool; 2], key: &str) -> Vec<Sign> {
    if seen == [false, false] {
        return [Eye::Right, Eye::Left].map(|eye| absent(what, Place::In(eye))).to_vec();
    }
    let eyes = [Eye::Right, Eye::Left].into_iter().zip(seen);
    eyes.map(|(eye, seen)| Sign::new(what, Place::In(eye), seen, key)).collect()
}

fn absent(what: What, place: Place) -> Sign {
    Sign::new(what, place, false, &format!("{}.as_expected", TASK.id))
}

fn opposite(direction: Direction) -> Direction {
    match direction {
        Direction::Right => Direction::Left,
        Direction::Left => Direction::Right,
        Direction::Up => Direction::Down,
        Direction::Down => Direction::Up,
    }
}
