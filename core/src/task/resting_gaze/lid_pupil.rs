//! Lids and pupils: one danger sign for what may be new in either.

use super::evidence::{KISSEL, SMALL_PUPIL, UNEQUAL};
use super::{Case, TASK, notice};
use crate::anatomy::Eye;
use crate::finding::{Flag, Grade, Place};
use crate::notice::{Notice, Since};

pub(super) fn lid(case: &Case<'_>) -> Option<Notice> {
    let since = case.since("lid_new");
    let (place, headline) = match case.one("lid")? {
        "right" => (Place::In(Eye::Right), "Right upper lid hangs lower"),
        "left" => (Place::In(Eye::Left), "Left upper lid hangs lower"),
        "both" => (Place::Both, "Both upper lids hang low"),
        _ => return None,
    };
    // That it grows with tiring in muscle weakness is from memory.
    let sign = notice("lid", place, headline)
        .since(since)
        .says("Ask whether it grows over the day, and for double vision, pain and trouble swallowing.");
    let sign = urgent_if_new(sign, since);
    if !since.counts_as_new() {
        return Some(sign);
    }
    Some(match pupil_beside(case) {
        Beside::Equal => sign.says(
            "Equal pupils exclude nothing: 7 of 51 with an aneurysm began so, and 4 of the 7 changed within five days \
             (Kissel et al. 1983).",
        ),
        Beside::LargerHere => sign.says(
            "The pupil is affected on the same side: an aneurysm has to be excluded at once (Kissel et al. 1983).",
        ),
        Beside::SmallerHere => sign
            .says(
                "The smaller pupil is on the same side: above all with head or neck pain, a torn neck artery has to be \
                   excluded at once.",
            )
            .cites(&SMALL_PUPIL),
        Beside::Otherwise => sign,
    })
}

/// How the pupil on the side of a drooping lid stands to the other one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Beside {
    Equal,
    /// Larger, or without reaction.
    LargerHere,
    SmallerHere,
    /// Not noted, or not to be told from what was noted.
    Otherwise,
}

fn pupil_beside(case: &Case<'_>) -> Beside {
    match (case.one("lid"), case.one("pupils")) {
        (_, Some("equal")) => Beside::Equal,
        (Some("right" | "both"), Some("right_larger" | "right_fixed"))
        | (Some("left" | "both"), Some("left_larger" | "left_fixed"))
        | (_, Some("both_fixed")) => Beside::LargerHere,
        (Some("right"), Some("left_larger")) | (Some("left"), Some("right_larger")) => Beside::SmallerHere,
        _ => Beside::Otherwise,
    }
}

pub(super) fn pupils(case: &Case<'_>) -> Option<Notice> {
    let since = case.since("pupils_new");
    let (place, headline) = match case.one("pupils")? {
        "right_larger" => (Place::In(Eye::Right), "Right pupil larger than the left, both react"),
        "left_larger" => (Place::In(Eye::Left), "Left pupil larger than the right, both react"),
        "right_fixed" => (Place::In(Eye::Right), "Right pupil does not react to light"),
        "left_fixed" => (Place::In(Eye::Left), "Left pupil does not react to light"),
        "both_fixed" => (Place::Both, "Neither pupil reacts to light"),
        _ => return None,
    };
    // Drops, surgery and old injury as other causes: from memory.
    let sign =
        notice("pupils", place, headline).since(since).says("Also seen after eye drops, eye surgery or an old injury.");
    let larger = matches!(case.one("pupils"), Some("right_larger" | "left_larger"));
    Some(urgent_if_new(if larger { sign.healthy(&UNEQUAL) } else { sign }, since))
}

/// A lid or a pupil that may be new is urgent; the flag is raised for both together.
fn urgent_if_new(sign: Notice, since: Since) -> Notice {
    if since.counts_as_new() { sign.grade(Grade::Urgent).cites(&KISSEL) } else { sign.by_common_practice() }
}

/// One flag for what is new in lids and pupils, worded by what goes with what.
pub(super) fn lid_and_pupil(case: &Case<'_>, lid: Option<&Notice>, pupils: Option<&Notice>) -> Option<Flag> {
    let fresh = |sign: Option<&Notice>| sign.is_some_and(|sign| sign.finding.grade == Grade::Urgent);
    let (lid, pupils) = (fresh(lid), fresh(pupils));
    let lid_words = match case.one("lid") {
        Some("right") if lid => Some("a drooping right lid"),
        Some("left") if lid => Some("a drooping left lid"),
        Some("both") if lid => Some("drooping of both lids"),
        _ => None,
    };
    let pupil_words = match case.one("pupils") {
        Some("right_larger") if pupils => Some("a larger right pupil"),
        Some("left_larger") if pupils => Some("a larger left pupil"),
        Some("right_fixed") if pupils => Some("a right pupil that does not react"),
        Some("left_fixed") if pupils => Some("a left pupil that does not react"),
        Some("both_fixed") if pupils => Some("pupils that do not react"),
        _ => None,
    };
    let (lid_since, pupil_since) = (case.since("lid_new"), case.since("pupils_new"));
    let seen = match (lid_words, pupil_words) {
        (Some(lid), Some(pupil)) if lid_since == pupil_since => lid_since.phrase(&format!("{lid} with {pupil}")),
        (Some(lid), Some(pupil)) => format!("{}; {}", lid_since.phrase(lid), pupil_since.phrase(pupil)),
        (Some(lid), None) => lid_since.phrase(lid),
        (None, Some(pupil)) => pupil_since.phrase(pupil),
        (None, None) => return None,
    };
    let both = lid_words.is_some() && pupil_words.is_some();
    let source = if both && pupil_beside(case) == Beside::SmallerHere { &SMALL_PUPIL } else { &KISSEL };
    Some(Flag { id: format!("{}.lid_pupil", TASK.id), seen, neck: false, source })
}
