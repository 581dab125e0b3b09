//! Line drawings of our own: one for each home exercise, and small faces to look at. They are SVG made from data, in the
//! ink of the page and one accent, with words beside and never inside them.

mod mark;
mod moving;
mod near;

pub mod face;

#[cfg(test)]
mod tests;

use self::mark::Mark;
use crate::catalogue::{self, Language};
use crate::exercise::Exercise;

/// Which drawing belongs to which exercise.
static DRAWN: &[(&str, &[Mark])] = &[
    ("near_point_practice", near::NEAR_POINT_PRACTICE),
    ("bead_string", near::BEAD_STRING),
    ("near_far_jumps", near::NEAR_FAR_JUMPS),
    ("slow_following", near::SLOW_FOLLOWING),
    ("two_target_jumps", near::TWO_TARGET_JUMPS),
    ("eyes_then_head", near::EYES_THEN_HEAD),
    ("head_turn_seated", moving::HEAD_TURN_SEATED),
    ("head_turn_standing", moving::HEAD_TURN_STANDING),
    ("whole_body_turn", moving::WHOLE_BODY_TURN),
    ("stance_steps", moving::STANCE_STEPS),
    ("heel_to_toe_walk", moving::HEEL_TO_TOE_WALK),
    ("familiar_movements", moving::FAMILIAR_MOVEMENTS),
    ("busy_scenes", moving::BUSY_SCENES),
    ("steady_walk", moving::STEADY_WALK),
];

/// The drawing of an exercise with its label. A test sees to it that every exercise has one.
#[must_use]
pub fn svg(exercise: &Exercise, language: Language) -> String {
    let marks = DRAWN.iter().find(|(id, _)| *id == exercise.id).map_or(&[][..], |(_, marks)| marks);
    let label = catalogue::text(language, &format!("picture.{}", exercise.id));
    picture("0 0 160 120", label, &mark::elements(marks))
}

fn picture(view_box: &str, label: &str, elements: &str) -> String {
    let label = [('&', "&amp;"), ('<', "&lt;"), ('>', "&gt;"), ('"', "&quot;")]
        .iter()
        .fold(label.to_string(), |label, (plain, escaped)| label.replace(*plain, escaped));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"drawing\" viewBox=\"{view_box}\" role=\"img\" \
         aria-label=\"{label}\" fill=\"none\" stroke=\"currentColor\" stroke-linecap=\"round\" \
         stroke-linejoin=\"round\">{elements}</svg>"
    )
}
