//! Invented people whose summaries are hard to write: everything abnormal and long known, better on one side and worse on
//! the other.

use sidelight_core::capture::visit::Visit;

use super::{DAY, MONDAY};
use crate::script::Script;

/// Jumps of which the first so many fall short.
fn short(count: usize) -> Vec<&'static str> {
    (0..10).map(|at| if at < count { "short" } else { "on" }).collect()
}

fn missed(count: usize) -> Vec<&'static str> {
    (0..10).map(|at| if at < count { "missed" } else { "beat" }).collect()
}

/// Everything that can be seen is seen, and what could be a danger sign is said to be long known.
pub fn everything() -> Visit {
    Script::begin("everything", "full", MONDAY)
        .frame("illness", "longer", "not_worn", &["medicines", "tired", "unwell"], &["falls", "migraine", "light"])
        .text("frame", "medicines", "two tablets against seizures")
        .text("frame", "examiner", "E. Example")
        .dangers(&[])
        .symptoms("before", [3, 3, 1, 4])
        .usual("resting_gaze")
        .one("resting_gaze", "fixation", "jerks")
        .one("resting_gaze", "nystagmus", "right")
        .one("resting_gaze", "nystagmus_new", "old")
        .one("resting_gaze", "lid", "left")
        .one("resting_gaze", "lid_new", "old")
        .one("resting_gaze", "pupils", "right_larger")
        .one("resting_gaze", "pupils_new", "old")
        .one("resting_gaze", "alignment", "left")
        .one("resting_gaze", "alignment_way", "in")
        .one("resting_gaze", "alignment_new", "old")
        .usual("gaze_range")
        .grade("gaze_range", "reach", ["left", "left", "clear"], None)
        .one("gaze_range", "reach_new", "old")
        .many("gaze_range", "double", &["left"])
        .one("gaze_range", "double_cover", "gone")
        .one("gaze_range", "double_new", "old")
        .grade("gaze_range", "beats", ["right", "held", "sustained"], None)
        .grade("gaze_range", "beats", ["left", "held", "sustained"], None)
        .one("gaze_range", "beats_way", "out")
        .one("gaze_range", "beats_new", "old")
        .grade("gaze_range", "across", ["right", "look", "lags"], None)
        .grade("gaze_range", "across", ["left", "look", "together"], None)
        .one("gaze_range", "across_new", "old")
        .near_point(&[(14.0, 17.0), (16.0, 19.0), (19.0, 24.0)])
        .symptoms("near_point", [5, 4, 2, 6])
        .usual("vergence")
        .one("vergence", "convergence", "cannot")
        .one("vergence", "divergence", "broken")
        .number("vergence", "first", 2.0)
        .number("vergence", "second", 0.0)
        .many("vergence", "way", &["double", "blur_near"])
        .symptoms("vergence", [5, 4, 2, 6])
        .usual("pursuit")
        .grade("pursuit", "follow", ["left", "slow", "cannot"], None)
        .grade("pursuit", "follow", ["left", "fast", "cannot"], None)
        .grade("pursuit", "follow", ["right", "slow", "many"], Some(2))
        .grade("pursuit", "follow", ["right", "fast", "cannot"], None)
        .grade("pursuit", "follow", ["up", "slow", "many"], None)
        .grade("pursuit", "follow", ["up", "fast", "cannot"], None)
        .grade("pursuit", "follow", ["down", "slow", "many"], None)
        .grade("pursuit", "follow", ["down", "fast", "many"], None)
        .one("pursuit", "head", "with_eyes")
        .symptoms("pursuit", [6, 5, 3, 6])
        .in_turn("saccade", "jumps", &short(9), &["past"; 10])
        .symptoms("saccade", [6, 5, 3, 7])
        .in_turn("antisaccade", "trials", &["wrong"; 10], &["glanced"; 10])
        .symptoms("antisaccade", [6, 6, 3, 7])
        .one("optokinetic", "stimulus", "tape")
        .run("optokinetic", "stripes", "right", &missed(6))
        .run("optokinetic", "stripes", "left", &missed(10))
        .done("optokinetic")
        .symptoms("optokinetic", [6, 6, 4, 7])
        .usual("head_turn_gaze")
        .one("head_turn_gaze", "horizontal", "fewer")
        .number("head_turn_gaze", "horizontal_turns", 3.0)
        .one("head_turn_gaze", "horizontal_target", "doubled")
        .one("head_turn_gaze", "vertical", "none")
        .many("head_turn_gaze", "stopped", &["nausea"])
        .symptoms("head_turn_gaze", [7, 6, 5, 7])
        .skip("whole_body_turn", "felt sick")
        .many("balance", "fell", &["double", "single", "tandem"])
        .done("balance")
        .usual("body_sides")
        .grade("body_sides", "sides", ["touch_hand", "right", "clear"], None)
        .grade("body_sides", "sides", ["finger_nose", "left", "clear"], None)
        .grade("body_sides", "sides", ["alternation", "left", "clear"], None)
        .grade("body_sides", "sides", ["drift", "right", "clear"], None)
        .one("body_sides", "new", "old")
        .decide(&[("action", "refer"), ("refer_soon", "days"), ("play", "no_play")], &["person"])
        .text("decision", "refer_to", "family doctor")
        .close()
}

/// A woman after a knock, twice: what was worse to the left is better, what was well to the right is worse.
pub fn better_and_worse() -> Vec<Visit> {
    let visit = |id: &str, at: i64, since: &str, left: usize, right: usize, rated: [u8; 4]| {
        let follow = |script: Script, side: &str, worse: bool| {
            let fast = if worse { "cannot" } else { "few" };
            let script = script.grade("pursuit", "follow", [side, "fast", fast], None);
            if worse { script.grade("pursuit", "follow", [side, "slow", "many"], None) } else { script }
        };
        let script = Script::begin(id, "sideline", at)
            .frame("knock", since, "none", &[], &[])
            .dangers(&[])
            .symptoms("before", [1, 1, 0, 1])
            .usual("resting_gaze")
            .near_point(&[(5.0, 7.0), (5.0, 7.0), (5.5, 7.0)])
            .symptoms("near_point", [1, 1, 0, 1])
            .usual("pursuit");
        let script = follow(script, "right", right > 5);
        follow(script, "left", left > 5)
            .symptoms("pursuit", rated)
            .in_turn("saccade", "jumps", &short(right), &short(left))
            .symptoms("saccade", rated)
            .one("optokinetic", "stimulus", "drum")
            .run("optokinetic", "stripes", "right", &missed(right))
            .run("optokinetic", "stripes", "left", &missed(left))
            .done("optokinetic")
            .symptoms("optokinetic", rated)
            .decide(&[("action", "refer"), ("refer_soon", "days"), ("play", "removed")], &["person"])
            .text("decision", "refer_to", "neuro-ophthalmologist")
            .close()
    };
    vec![
        visit("left-worse", MONDAY - 14 * DAY, "week", 9, 0, [3, 2, 1, 2]),
        visit("right-worse", MONDAY, "month", 0, 8, [1, 1, 0, 1]),
    ]
}
