//! A quick look across: whether the eye that turns to the nose lags, and the other beats outward meanwhile.

use super::evidence::{BUNDLE, INTERNUCLEAR};
use super::{Case, TASK, notice};
use crate::anatomy::{Eye, Side};
use crate::evidence::Level;
use crate::finding::{Grade, Place};
use crate::notice::Notice;
use crate::sign::{Sign, What};

/// How the two eyes went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Look {
    Together,
    Lags,
    LagsAndBeats,
}

fn look(case: &Case<'_>, side: Side) -> Option<Look> {
    match case.record.answers.cell("across", side.word(), "look")?.grade.as_str() {
        "together" => Some(Look::Together),
        "lags" => Some(Look::Lags),
        "lags_beats" => Some(Look::LagsAndBeats),
        _ => None,
    }
}

const SIDES: [Side; 2] = [Side::Right, Side::Left];

/// The eye that turns to the nose on a look to this side.
fn inner(side: Side) -> Eye {
    match side {
        Side::Right => Eye::Left,
        Side::Left => Eye::Right,
    }
}

pub(super) fn read(case: &Case<'_>) -> Vec<Notice> {
    SIDES.into_iter().filter_map(|side| lagging(case, side)).collect()
}

fn lagging(case: &Case<'_>, side: Side) -> Option<Notice> {
    let (eye, to) = (inner(side), side.direction().phrase());
    let (inner, outer) = (eye.word(), eye.other().word());
    let since = case.since("across_new");
    let told = |headline: String| notice(key(eye), Place::In(eye), headline).since(since);
    Some(match look(case, side)? {
        Look::Together => return None,
        // Other causes are from memory.
        Look::Lags => {
            let notice = told(format!("On a quick look {to} the {inner} eye lags"));
            let grade = notice.finding.grade.min(Grade::NearLimit);
            notice
                .grade(grade)
                .says("Alone it tells little: also seen with weak or tiring eye muscles and a partial nerve palsy.")
                .by_common_practice()
        }
        Look::LagsAndBeats => {
            let notice = told(format!("On a quick look {to} the {inner} eye lags and the {outer} beats"))
                .cites(&BUNDLE)
                .says(format!(
                    "Compatible with an internuclear ophthalmoplegia of the {inner} eye (grade {}: {}), also seen \
                         with muscles that tire.",
                    Level::A.letter(),
                    Level::A.words()
                ));
            if since.counts_as_new() {
                notice.says("That a new one needs emergency care is from memory.").danger(
                    "internuclear",
                    since.phrase("an eye that lags on looking across while the other beats"),
                    &INTERNUCLEAR,
                )
            } else {
                notice.by_common_practice()
            }
        }
    })
}

pub(super) fn signs(case: &Case<'_>) -> Vec<Sign> {
    let of = |side: Side| {
        let eye = inner(side);
        let (slow, beats) = match look(case, side)? {
            Look::Together => (false, false),
            Look::Lags => (true, false),
            Look::LagsAndBeats => (true, true),
        };
        let key = if slow { key(eye) } else { "as_expected" };
        let sign = |what, eye, seen| Sign::new(what, Place::In(eye), seen, &format!("{}.{key}", TASK.id));
        Some([sign(What::SlowAdduction, eye, slow), sign(What::AbductingNystagmus, eye.other(), beats)])
    };
    SIDES.into_iter().filter_map(of).flatten().collect()
}

/// The words for what was as expected.
pub(super) fn as_expected(case: &Case<'_>) -> Option<&'static str> {
    let together = |side| look(case, side) == Some(Look::Together);
    match (together(Side::Right), together(Side::Left)) {
        (true, true) => Some("both eyes together on a quick look across"),
        (true, false) => Some("both eyes together on a quick look to the right"),
        (false, true) => Some("both eyes together on a quick look to the left"),
        (false, false) => None,
    }
}

fn key(eye: Eye) -> &'static str {
    match eye {
        Eye::Right => "lag_right_eye",
        Eye::Left => "lag_left_eye",
    }
}
