//! Invented people behind golden visits, written down tap by tap. The other golden visits are files of the demo.

mod home;
mod received;

use sidelight_core::archive;
use sidelight_core::calendar::{Born, Moment, parse_date};
use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};

use crate::script::{Script, person};

/// A golden visit: its folder, who was examined, and their visits, the one that is read last.
pub struct Scenario {
    /// Name of the folder in `tests/visits`.
    pub folder: &'static str,
    /// Who.
    pub person: Person,
    /// Visits, oldest first.
    pub visits: Vec<Visit>,
    /// What was corrected after closing.
    pub addenda: Vec<Addendum>,
}

/// 2 March 2026, 15:00 at two hours east.
const MONDAY: i64 = 1_772_456_400_000;
const DAY: i64 = 86_400_000;

/// Every scenario.
pub fn all() -> Vec<Scenario> {
    vec![
        scenario("child-of-six", born("M-06", "2019-09-15"), vec![child_of_six()]),
        scenario("attention-complaint-normal", person("A-11", 2014), vec![attention_complaint()]),
        scenario("two-tasks-only", person("T-34", 1991), vec![two_tasks()]),
        corrected(),
        scenario("vertigo-steady-impulse", person("V-58", 1967), vec![vertigo()]),
        scenario("knock-after-baseline", person("B-15", 2010), vec![baseline(), knock_after_baseline()]),
        scenario("slow-inner-eye", person("I-31", 1994), vec![slow_inner_eye()]),
        scenario("worse-both-ways-after-a-party", person("D-24", 2001), vec![after_a_party()]),
        scenario("stroke-full-one-side-worse", person("W-61", 1964), vec![stroke_in_full()]),
        scenario("reading-tires-convergence", person("C-10", 2015), vec![convergence_insufficiency()]),
        scenario("knock-full-head-turns", person("H-15", 2010), vec![knock_in_full()]),
        scenario("followed-on-a-phone", person("F-22", 2003), vec![home::on_a_phone()]),
        scenario("practised-at-home", person("P-10", 2015), home::practised(&person("P-10", 2015))),
        scenario("everything-long-known", person("E-50", 1976), vec![received::everything()]),
        scenario("worse-side-changed", person("B-29", 1996), received::better_and_worse()),
    ]
}

/// Someone whose day of birth is known.
fn born(label: &str, day: &str) -> Person {
    Person { born: parse_date(day).map(Born::On), ..person(label, 0) }
}

fn scenario(folder: &'static str, person: Person, visits: Vec<Visit>) -> Scenario {
    Scenario { folder, person, visits, addenda: Vec::new() }
}

/// Two tasks, closed with their digest; the next morning and a day later something is set right.
fn corrected() -> Scenario {
    let visit = two_tasks();
    let closed = visit.closed.unwrap_or(visit.started);
    let visit = archive::closed(Visit { id: "corrected".into(), ..visit }, closed);
    let addendum = |id: &str, days: i64, text: &str| Addendum {
        id: id.into(),
        visit: visit.id.clone(),
        person: visit.person.clone(),
        written: Moment { unix_ms: closed.unix_ms + days * DAY - 7 * 3_600_000, ..closed },
        text: text.into(),
        program: visit.program.clone(),
        unread: Unread::default(),
    };
    let addenda = vec![
        addendum("addendum-1", 1, "The glasses were the old pair, not those for near."),
        addendum("addendum-2", 2, "The near point was measured from the bridge of the nose, דנה noted."),
    ];
    Scenario { addenda, ..scenario("corrected-after-closing", person("K-34", 1991), vec![visit]) }
}

/// A child of six: catch-ups as they are ordinary at that age, and a task that was too hard to grasp.
fn child_of_six() -> Visit {
    Script::begin("child", "school", MONDAY)
        .frame("reading", "longer", "none", &[], &[])
        .one("frame", "consent", "guardian")
        .dangers(&[])
        .symptoms("before", [0; 4])
        .usual("resting_gaze")
        .near_point(&[(5.0, 6.5), (5.0, 7.0), (5.5, 7.0)])
        .symptoms("near_point", [0; 4])
        .usual("pursuit")
        .grade("pursuit", "follow", ["right", "fast", "many"], None)
        .grade("pursuit", "follow", ["left", "fast", "many"], None)
        .grade("pursuit", "follow", ["right", "slow", "few"], None)
        .grade("pursuit", "follow", ["left", "slow", "few"], None)
        .one("pursuit", "head", "little")
        .symptoms("pursuit", [0; 4])
        .in_turn(
            "saccade",
            "jumps",
            &["on", "short", "on", "on", "short", "on"],
            &["short", "on", "on", "on", "on", "short"],
        )
        .symptoms("saccade", [0; 4])
        .not_testable("antisaccade", "looked at the finger and laughed each time; too young for it")
        .decide(&[("action", "advice"), ("play", "no_play")], &["guardian", "teacher"])
        .close()
}

/// A boy of eleven with a complaint about attention, and nothing to see.
fn attention_complaint() -> Visit {
    let jumps = ["on", "on", "short", "on", "on", "on", "on", "on", "on", "on"];
    let away =
        ["correct", "glanced", "correct", "correct", "glanced", "correct", "correct", "correct", "glanced", "correct"];
    Script::begin("attention", "school", MONDAY)
        .frame("attention", "longer", "none", &[], &[])
        .one("frame", "consent", "guardian")
        .dangers(&[])
        .symptoms("before", [0; 4])
        .usual("resting_gaze")
        .usual("gaze_range")
        .near_point(&[(4.0, 5.5), (4.0, 5.5), (4.0, 6.0)])
        .symptoms("near_point", [0; 4])
        .usual("vergence")
        .number("vergence", "first", 6.0)
        .number("vergence", "second", 6.0)
        .usual("pursuit")
        .symptoms("pursuit", [0; 4])
        .in_turn("saccade", "jumps", &jumps, &["on"; 10])
        .symptoms("saccade", [0; 4])
        .in_turn("antisaccade", "trials", &away, &away)
        .decide(&[("action", "advice"), ("play", "no_play")], &["guardian"])
        .close()
}

/// Two tasks of a routine of the practice's own, and nothing else.
fn two_tasks() -> Visit {
    Script::begin("two", "of-this-practice", MONDAY)
        .plan(&["near_point", "saccade"])
        .frame("follow_up", "month", "worn", &[], &[])
        .dangers(&[])
        .near_point(&[(8.0, 10.0)])
        .in_turn("saccade", "jumps", &["on", "on", "on"], &["on", "short", "on"])
        .decide(&[("action", "advice"), ("play", "no_play")], &["person"])
        .close()
}

/// Vertigo for two days with nystagmus, and a head impulse that is steady both ways: the danger sign.
fn vertigo() -> Visit {
    Script::begin("vertigo", "dizzy-in-this-practice", MONDAY)
        .plan(&["resting_gaze", "head_impulse"])
        .frame("dizzy", "week", "none", &[], &["vertigo"])
        .dangers(&[])
        .symptoms("before", [2, 8, 5, 3])
        .usual("resting_gaze")
        .one("resting_gaze", "nystagmus", "left")
        .one("resting_gaze", "nystagmus_new", "new")
        .one("head_impulse", "vertigo", "day")
        .one("head_impulse", "nystagmus", "seen")
        .one("head_impulse", "trained", "yes")
        .grade("head_impulse", "impulse", ["right", "turn", "steady"], None)
        .grade("head_impulse", "impulse", ["left", "turn", "steady"], None)
        .done("head_impulse")
        .many("stop.1", "done", &["called", "not_alone"])
        .text("stop.1", "seen", "head_impulse.central")
        .decide(&[("action", "emergency"), ("play", "no_play")], &["person"])
        .text("decision", "refer_to", "emergency department")
        .close()
}

/// A player who is well, before the season.
fn baseline() -> Visit {
    Script::begin("baseline", "sideline", MONDAY - 60 * DAY)
        .frame("baseline", "none", "none", &[], &[])
        .dangers(&[])
        .symptoms("before", [0; 4])
        .usual("resting_gaze")
        .near_point(&[(4.0, 5.5), (4.0, 5.5), (4.5, 6.0)])
        .symptoms("near_point", [0; 4])
        .usual("pursuit")
        .symptoms("pursuit", [0; 4])
        .in_turn("saccade", "jumps", &["on"; 10], &["on"; 10])
        .symptoms("saccade", [0; 4])
        .one("optokinetic", "stimulus", "tape")
        .run("optokinetic", "stripes", "right", &["beat"; 10])
        .run("optokinetic", "stripes", "left", &["beat"; 10])
        .done("optokinetic")
        .symptoms("optokinetic", [0; 4])
        .decide(&[("action", "advice"), ("play", "not_removed")], &["person", "guardian"])
        .close()
}

/// The same player minutes after a knock: set beside the own baseline first.
fn knock_after_baseline() -> Visit {
    Script::begin("knock", "sideline", MONDAY)
        .frame("knock", "minutes", "none", &["effort"], &[])
        .dangers(&[])
        .symptoms("before", [2, 1, 0, 2])
        .usual("resting_gaze")
        .near_point(&[(8.5, 10.5), (9.0, 11.0), (10.0, 12.5)])
        .symptoms("near_point", [4, 2, 0, 2])
        .usual("pursuit")
        .grade("pursuit", "follow", ["right", "fast", "many"], Some(2))
        .symptoms("pursuit", [4, 3, 0, 2])
        .in_turn(
            "saccade",
            "jumps",
            &["on", "on", "short", "on", "on", "short", "short", "short", "short", "short"],
            &["on", "on", "on", "on", "short", "on", "on", "short", "on", "on"],
        )
        .symptoms("saccade", [4, 4, 1, 3])
        .skip("optokinetic", "no tape at hand")
        .decide(&[("action", "refer"), ("refer_soon", "today"), ("play", "removed")], &["person", "guardian", "coach"])
        .text("decision", "refer_to", "sports doctor")
        .close()
}

/// On a quick look to the left the right eye lags and the left one beats; not new.
fn slow_inner_eye() -> Visit {
    Script::begin("inner", "full", MONDAY)
        .frame("illness", "longer", "none", &[], &[])
        .dangers(&[])
        .symptoms("before", [0, 1, 0, 1])
        .usual("resting_gaze")
        .usual("gaze_range")
        .grade("gaze_range", "across", ["right", "look", "together"], None)
        .grade("gaze_range", "across", ["left", "look", "lags_beats"], None)
        .one("gaze_range", "across_new", "old")
        .near_point(&[(6.0, 8.0), (6.5, 8.0), (6.5, 8.5)])
        .symptoms("near_point", [0, 1, 0, 1])
        .usual("pursuit")
        .symptoms("pursuit", [0, 1, 0, 1])
        .decide(&[("action", "refer"), ("refer_soon", "weeks"), ("play", "no_play")], &["person"])
        .text("decision", "refer_to", "neurology clinic")
        .close()
}

/// Worse both ways in everything, with the reason in the frame.
fn after_a_party() -> Visit {
    let jumps = ["short", "on", "short", "short", "on", "short", "short", "on", "short", "short"];
    let stripes = ["beat", "missed", "missed", "beat", "missed", "missed", "missed", "beat", "missed", "missed"];
    Script::begin("party", "full", MONDAY)
        .frame("knock", "hours", "none", &["alcohol", "tired"], &[])
        .dangers(&[])
        .symptoms("before", [3, 2, 2, 3])
        .usual("resting_gaze")
        .usual("gaze_range")
        .grade("gaze_range", "beats", ["right", "held", "sustained"], None)
        .grade("gaze_range", "beats", ["left", "held", "sustained"], None)
        .one("gaze_range", "beats_way", "out")
        .usual("pursuit")
        .grade("pursuit", "follow", ["right", "slow", "many"], None)
        .grade("pursuit", "follow", ["right", "fast", "cannot"], None)
        .grade("pursuit", "follow", ["left", "slow", "many"], None)
        .grade("pursuit", "follow", ["left", "fast", "cannot"], None)
        .symptoms("pursuit", [3, 3, 2, 3])
        .in_turn("saccade", "jumps", &jumps, &jumps)
        .symptoms("saccade", [3, 3, 2, 3])
        .one("optokinetic", "stimulus", "tape")
        .run("optokinetic", "stripes", "right", &stripes)
        .run("optokinetic", "stripes", "left", &stripes)
        .done("optokinetic")
        .symptoms("optokinetic", [3, 3, 2, 3])
        .decide(&[("action", "retest"), ("play", "removed")], &["person"])
        .close()
}

/// Weeks after a stroke: everything to the left is worse, in several tasks.
fn stroke_in_full() -> Visit {
    let left = ["short", "short", "on", "short", "short", "short", "on", "short", "short", "short"];
    let stripes = ["beat", "missed", "missed", "missed", "beat", "missed", "missed", "missed", "missed", "missed"];
    let away = ["correct", "glanced", "correct", "correct", "correct", "glanced", "correct", "correct"];
    let away_left = ["glanced", "correct", "glanced", "correct", "correct", "wrong", "correct", "correct"];
    Script::begin("stroke", "full", MONDAY)
        .frame("illness", "month", "worn", &["medicines"], &["falls"])
        .text("frame", "medicines", "one tablet for sleep")
        .dangers(&[])
        .symptoms("before", [0, 0, 0, 1])
        .usual("resting_gaze")
        .usual("gaze_range")
        .near_point(&[(7.0, 9.0), (7.5, 9.5), (7.5, 9.5)])
        .symptoms("near_point", [0, 0, 0, 1])
        .usual("vergence")
        .number("vergence", "first", 5.0)
        .number("vergence", "second", 4.0)
        .symptoms("vergence", [0, 0, 0, 1])
        .usual("pursuit")
        .grade("pursuit", "follow", ["left", "slow", "many"], Some(2))
        .grade("pursuit", "follow", ["left", "fast", "cannot"], None)
        .symptoms("pursuit", [0, 1, 0, 1])
        .in_turn("saccade", "jumps", &["on"; 10], &left)
        .symptoms("saccade", [0, 1, 0, 1])
        .in_turn("antisaccade", "trials", &away, &away_left)
        .symptoms("antisaccade", [0, 1, 0, 1])
        .one("optokinetic", "stimulus", "drum")
        .run("optokinetic", "stripes", "right", &["beat"; 10])
        .run("optokinetic", "stripes", "left", &stripes)
        .done("optokinetic")
        .symptoms("optokinetic", [0, 1, 1, 1])
        .skip("head_turn_gaze", "unsteady, and nobody to hold")
        .skip("whole_body_turn", "unsteady, and nobody to hold")
        .many("balance", "fell", &["single", "tandem"])
        .stance("double", 2)
        .done("balance")
        .usual("body_sides")
        .grade("body_sides", "sides", ["touch_hand", "left", "clear"], None)
        .grade("body_sides", "sides", ["touch_arm", "left", "little"], None)
        .one("body_sides", "new", "old")
        .decide(&[("action", "refer"), ("refer_soon", "days"), ("play", "no_play")], &["person", "doctor"])
        .text("decision", "refer_to", "stroke clinic")
        .close()
}

/// A girl of ten whose reading tires: receding near point, exo near, weak base-out reserves, many complaints.
fn convergence_insufficiency() -> Visit {
    Script::begin("convergence", "school", MONDAY)
        .frame("reading", "longer", "none", &[], &[])
        .one("frame", "consent", "guardian")
        .text("frame", "reason_note", "Letters swim after ten minutes; closes one eye.")
        .dangers(&[])
        .symptoms("before", [1, 0, 0, 1])
        .usual("resting_gaze")
        .near_point(&[(9.5, 12.0), (11.0, 13.5), (12.5, 15.0)])
        .trial("near_point", "trials", 1, "eye", Answer::One("left".into()))
        .trial("near_point", "trials", 2, "eye", Answer::One("left".into()))
        .symptoms("near_point", [3, 0, 0, 2])
        .usual("vergence")
        .one("vergence", "convergence", "broken")
        .one("vergence", "convergence_eye", "left")
        .number("vergence", "first", 4.0)
        .number("vergence", "second", 2.0)
        .many("vergence", "way", &["double"])
        .symptoms("vergence", [3, 0, 0, 2])
        .usual("pursuit")
        .symptoms("pursuit", [3, 0, 0, 2])
        .in_turn("saccade", "jumps", &["on"; 10], &["on", "on", "short", "on", "on", "on", "on", "short", "on", "on"])
        .symptoms("saccade", [3, 0, 0, 2])
        .in_turn(
            "antisaccade",
            "trials",
            &["correct"; 6],
            &["correct", "glanced", "correct", "glanced", "correct", "correct"],
        )
        .symptoms("antisaccade", [3, 0, 0, 2])
        .number("further_measures", "survey", 31.0)
        .one("further_measures", "phoria_far_way", "exo")
        .number("further_measures", "phoria_far", 1.0)
        .one("further_measures", "phoria_near_way", "exo")
        .number("further_measures", "phoria_near", 9.0)
        .number("further_measures", "near_distance", 40.0)
        .number("further_measures", "pd", 56.0)
        .number("further_measures", "base_out_near_blur", 8.0)
        .number("further_measures", "base_out_near_break", 11.0)
        .number("further_measures", "base_out_near_recovery", 6.0)
        .number("further_measures", "base_in_near_blur", 12.0)
        .number("further_measures", "base_in_near_break", 20.0)
        .number("further_measures", "base_in_near_recovery", 13.0)
        .done("further_measures")
        .decide(&[("action", "refer"), ("refer_soon", "weeks"), ("play", "no_play")], &["guardian", "teacher"])
        .text("decision", "refer_to", "orthoptist")
        .close()
}

/// A player of fifteen two days after a knock, neck clear: head turns and turning bring on dizziness.
fn knock_in_full() -> Visit {
    let away = ["correct", "glanced", "correct", "correct", "glanced", "correct", "correct", "correct"];
    Script::begin("turns", "full", MONDAY)
        .frame("knock", "week", "none", &["tired"], &[])
        .dangers(&[])
        .symptoms("before", [2, 1, 0, 2])
        .usual("resting_gaze")
        .usual("gaze_range")
        .near_point(&[(6.5, 8.5), (7.0, 9.0), (7.5, 9.5)])
        .symptoms("near_point", [3, 1, 0, 2])
        .usual("vergence")
        .number("vergence", "first", 6.0)
        .number("vergence", "second", 5.0)
        .symptoms("vergence", [3, 1, 0, 2])
        .usual("pursuit")
        .symptoms("pursuit", [3, 2, 0, 2])
        .in_turn("saccade", "jumps", &["on", "on", "short", "on", "on", "on", "on", "on", "on", "short"], &["on"; 10])
        .symptoms("saccade", [3, 2, 0, 2])
        .in_turn("antisaccade", "trials", &away, &away)
        .symptoms("antisaccade", [3, 2, 0, 2])
        .one("optokinetic", "stimulus", "tape")
        .run("optokinetic", "stripes", "right", &["beat"; 10])
        .run("optokinetic", "stripes", "left", &["beat"; 10])
        .done("optokinetic")
        .symptoms("optokinetic", [3, 3, 1, 2])
        .usual("head_turn_gaze")
        .one("head_turn_gaze", "horizontal_target", "blurred")
        .one("head_turn_gaze", "vertical", "fewer")
        .number("head_turn_gaze", "vertical_turns", 6.0)
        .many("head_turn_gaze", "stopped", &["dizziness"])
        .symptoms("head_turn_gaze", [4, 6, 3, 3])
        .usual("whole_body_turn")
        .one("whole_body_turn", "feet", "swayed")
        .symptoms("whole_body_turn", [4, 7, 4, 4])
        .many("balance", "fell", &[])
        .stance("double", 0)
        .stance("single", 5)
        .stance("tandem", 3)
        .walked(&[14.2, 13.1, 12.8])
        .usual("body_sides")
        .decide(&[("action", "refer"), ("refer_soon", "days"), ("play", "removed")], &["person", "guardian", "coach"])
        .text("decision", "refer_to", "sports doctor")
        .close()
}
