//! Beats while gaze is held aside. A few that stop are ordinary, and healthy people often have more; beats to both sides
//! that go on have a meaning of their own in someone dizzy.

use super::evidence::{BEATS, DOWN, KATTAH, LASTING, SHALLO, STRUPP, UP, WHYTE};
use super::{Case, TASK, listed, notice};
use crate::anatomy::Direction;
use crate::capture::{frame, symptoms};
use crate::finding::{Grade, Place};
use crate::notice::Notice;
use crate::sign::{Sign, What};

/// What was seen in one direction of gaze.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Held {
    None,
    Few,
    Wearing,
    Sustained,
}

pub(super) fn held(case: &Case<'_>, direction: Direction) -> Option<Held> {
    match case.record.answers.cell("beats", direction.word(), "held")?.grade.as_str() {
        "none" => Some(Held::None),
        "few" => Some(Held::Few),
        "wearing" => Some(Held::Wearing),
        "sustained" => Some(Held::Sustained),
        _ => None,
    }
}

/// What is not as expected, or only recorded.
pub(super) fn read(case: &Case<'_>) -> Vec<Notice> {
    let seen = |wanted: Held| -> Vec<Direction> {
        Direction::ALL.into_iter().filter(|direction| held(case, *direction) == Some(wanted)).collect()
    };
    let (few, wearing, lasting) = (seen(Held::Few), seen(Held::Wearing), seen(Held::Sustained));
    let mut notices = Vec::new();
    if !lasting.is_empty() {
        notices.push(sustained(case, &lasting));
    }
    if !wearing.is_empty() {
        notices.push(
            notice("wearing", Place::Both, format!("Beats {} that wear off while gaze is held", listed(&wearing)))
                .grade(Grade::NoRange)
                .says("Watch whether they turn round when the eyes come back to the middle (from memory).")
                .healthy(&BEATS)
                .cites(&WHYTE),
        );
    }
    if !few.is_empty() {
        let headline = format!("A few beats on looking {}, which stop", listed(&few));
        notices.push(
            notice("few", place(&few), headline)
                .grade(Grade::WithinRange)
                .says("Ordinary (common practice).")
                .healthy(&BEATS)
                .cites(&WHYTE),
        );
    }
    if few.len() + wearing.len() + lasting.len() > 0 {
        notices.extend(aslant(case));
    }
    notices
}

fn sustained(case: &Case<'_>, seen: &[Direction]) -> Notice {
    let since = case.since("beats_new");
    let both_sides = [Direction::Right, Direction::Left].iter().all(|side| seen.contains(side));
    let sided = seen.iter().any(|direction| direction.side().is_some());
    let notice = notice("sustained", place(seen), format!("Beats that go on while looking {}", listed(seen)))
        .grade(Grade::NearLimit)
        .since(since)
        .healthy(if sided { LASTING.as_slice() } else { &[] })
        .cites(&SHALLO);
    // Drugs and the meaning of one side alone are from memory.
    if !both_sides {
        let one_side = sided && Direction::ALL.iter().all(|direction| held(case, *direction).is_some());
        let says = if one_side {
            "To one side only: nystagmus at rest that grows when looking its way does the same; look again at the eyes \
             at rest."
        } else {
            "Compatible with gaze-evoked nystagmus, also seen with alcohol, sedatives and medicines against seizures."
        };
        return notice.says(says).by_common_practice();
    }
    let notice = notice.says(
        "To both sides, it changes direction with gaze: compatible with gaze-evoked nystagmus, also seen with alcohol, \
         sedatives and medicines against seizures.",
    );
    let drugs = frame::has_influence(case.visit, &["medicines", "alcohol"]);
    if !symptoms::dizzy(case.visit) || !since.counts_as_new() {
        let notice =
            notice.says("With vertigo going on it would be a danger sign (Kattah et al. 2009).").cites(&KATTAH);
        return notice.by_common_practice();
    }
    // Vertigo going on now is often treated with medicines that sedate, so they never hold the danger sign back there.
    if drugs && !frame::has_caution(case.visit, &["vertigo"]) {
        let says = "Dizzy, but with medicines or alcohol noted today, which do the same: have it seen the same day.";
        return notice.says_first(says).cites(&KATTAH).by_common_practice();
    }
    notice.says("In someone with vertigo going on it points to a cause that needs emergency care.").danger(
        "changing_nystagmus",
        since.phrase("nystagmus that changes direction with gaze, in someone dizzy"),
        &KATTAH,
    )
}

/// Beats that do not go the way the eyes look. Up or down on looking aside counts as vertical nystagmus does at rest.
fn aslant(case: &Case<'_>) -> Option<Notice> {
    let since = case.since("beats_way_new");
    let (way, thing, rates) = match case.record.answers.one("beats_way")? {
        "up" => (Direction::Up, "nystagmus that beats upward on looking aside", &UP),
        "down" => (Direction::Down, "nystagmus that beats downward on looking aside", &DOWN),
        "other" => {
            let headline = "The beats do not go the way they look";
            return Some(notice("beats_way", Place::Both, headline).since(since).by_common_practice());
        }
        _ => return None,
    };
    let headline = format!("Beats {} on looking aside", way.phrase());
    let notice = notice("beats_way", Place::Toward(way), headline).since(since).healthy(rates);
    if !since.counts_as_new() {
        return Some(notice.by_common_practice());
    }
    let notice = notice.says("Of recent onset it calls for admission without delay.");
    Some(notice.danger("vertical_nystagmus", since.phrase(thing), &STRUPP))
}

pub(super) fn signs(case: &Case<'_>) -> Vec<Sign> {
    let absent = |what, place| Sign::new(what, place, false, &format!("{}.as_expected", TASK.id));
    let mut signs = Vec::new();
    for direction in Direction::ALL {
        let toward = Place::Toward(direction);
        let of = |what, key: &str| Sign::new(what, toward, true, &format!("{}.{key}", TASK.id));
        match held(case, direction) {
            Some(Held::None) => {
                signs.extend([What::GazeEvokedNystagmus, What::EndPointNystagmus].map(|what| absent(what, toward)));
            }
            Some(Held::Few) => {
                signs.extend([absent_beside(toward), of(What::EndPointNystagmus, "few")]);
            }
            Some(Held::Sustained) => signs.push(of(What::GazeEvokedNystagmus, "sustained")),
            // Neither the one nor the other.
            Some(Held::Wearing) | None => {}
        }
    }
    signs.extend(changing(case));
    signs
}

/// Looked for beats that go on, and saw a few that stop.
fn absent_beside(toward: Place) -> Sign {
    Sign::new(What::GazeEvokedNystagmus, toward, false, &format!("{}.few", TASK.id))
}

/// Beats to the right on looking right and to the left on looking left change direction with gaze.
fn changing(case: &Case<'_>) -> Option<Sign> {
    let (right, left) = (held(case, Direction::Right)?, held(case, Direction::Left)?);
    let key = |what: &str| format!("{}.{what}", TASK.id);
    let sign = |seen, what: &str| Some(Sign::new(What::ChangingNystagmus, Place::Both, seen, &key(what)));
    match (right, left) {
        (Held::Sustained, Held::Sustained) => sign(true, "sustained"),
        (Held::None, Held::None) => sign(false, "as_expected"),
        (Held::None | Held::Few, Held::None | Held::Few) => sign(false, "few"),
        // Beats that go on to one side only do not change; those that wear off are neither the one nor the other.
        (Held::Sustained, Held::None | Held::Few) | (Held::None | Held::Few, Held::Sustained) => {
            sign(false, "sustained")
        }
        (Held::Wearing, Held::None | Held::Few | Held::Wearing | Held::Sustained)
        | (Held::None | Held::Few | Held::Sustained, Held::Wearing) => None,
    }
}

/// The words for what was as expected.
pub(super) fn as_expected(case: &Case<'_>) -> Option<String> {
    let none: Vec<Direction> =
        Direction::ALL.into_iter().filter(|direction| held(case, *direction) == Some(Held::None)).collect();
    match none.len() {
        0 => None,
        4 => Some("no beats at the end of gaze".to_string()),
        _ => Some(format!("no beats on looking {}", listed(&none))),
    }
}

/// One direction is the place; of several none is.
fn place(seen: &[Direction]) -> Place {
    match seen {
        [one] => Place::Toward(*one),
        _ => Place::Both,
    }
}
