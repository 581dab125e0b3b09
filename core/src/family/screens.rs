//! The other screens: one exercise step by step, the danger signs, what to do now, what was done, and a page without a plan.

use super::act::Act;
use super::course::Course;
use super::html::{Words, button, emergency, escape, list};
use super::page::head;
use super::round::{Held, Round, Stage};
use super::view::{Other, View, time_left};
use crate::catalogue::{Language, text};
use crate::drawing::{self, face};
use crate::sheet::{Phase, Spoken, dose_lines, qr_version};
use crate::tolerance::{DANGERS, Rating, Reason};

/// Exercises whose target stays still in front of the eyes, so that a phone propped up can be it.
static STILL_TARGET: &[&str] = &["head_turn_seated", "head_turn_standing"];

/// One exercise going on.
pub(super) fn round(round: &Round, course: &Course, sound: bool) -> String {
    let words = Words(course.language);
    let inside = match round.stage() {
        Stage::Before => rating(words, "rating.before", true),
        Stage::Ready => ready(round, words, sound),
        Stage::Lead { .. } => lead(round, words),
        Stage::Work { .. } => work(round, words),
        Stage::After => rating(words, "rating.after", false),
        Stage::Told(_, reason) => return told(reason, &besides(round, reason), course),
    };
    let title = head(words, None, round.entry().exercise.family.title);
    let wrong = words.button("wrong", Act::Wrong, "page.wrong");
    format!("{title}<main class=\"round\">{inside}<p class=\"row\">{wrong}</p></main>")
}

/// What there is to say of a round besides what to do: that it was stopped early, and that a small rise is waited for.
fn besides(round: &Round, reason: Reason) -> Vec<&'static str> {
    let Some(outcome) = round.outcome().filter(|_| matches!(reason, Reason::Within | Reason::AtLimit)) else {
        return Vec::new();
    };
    let rose = outcome.after > outcome.before;
    let keys = [rose.then_some("felt.settle"), (!outcome.whole).then_some("felt.part")];
    keys.into_iter().flatten().collect()
}

fn rating(words: Words, key: &str, may_leave: bool) -> String {
    let choices = (0..=10).filter_map(Rating::new);
    let choices: String =
        choices.map(|rating| button("rating", Act::Rate(rating), &rating.value().to_string())).collect();
    let back = if may_leave {
        format!("<p class=\"row\">{}</p>", words.button("plain", Act::Back, "page.back"))
    } else {
        String::new()
    };
    format!(
        "<p class=\"ask\" id=\"ask\">{}</p><p id=\"ends\">{}</p>\
         <div class=\"ratings\" role=\"group\" aria-labelledby=\"ask\" aria-describedby=\"ends\">{choices}</div>{back}",
        words.say(key),
        words.say("rating.ends"),
    )
}

fn ready(round: &Round, words: Words, sound: bool) -> String {
    let (exercise, family) = (round.entry().exercise, &round.entry().exercise.family);
    let dose = dose_lines(words.0, &round.entry().dose).iter().map(|line| escape(line)).collect::<Vec<_>>().join(" ");
    let sound_key = if sound { "timer.sound_on" } else { "timer.sound_off" };
    let sound = format!(
        "<button type=\"button\" class=\"plain\" data-act=\"{}\" aria-pressed=\"{sound}\">{}</button>",
        Act::Sound,
        words.say(sound_key)
    );
    format!(
        "<div class=\"picture\">{}</div><p><b>{}:</b> {}</p>{}<p class=\"dose\">{dose}</p><p><b>{}:</b> {}</p>\
         <p class=\"stops\"><b>{}:</b> {}</p><p>{}</p><p class=\"bar\">{}</p><p class=\"row\">{}{sound}{}</p>",
        drawing::svg(exercise, words.0),
        words.say("page.need"),
        words.say(family.need),
        list("ol", family.steps.iter().map(|key| words.say(key))),
        words.say("page.easier"),
        words.say(family.easier),
        words.say("page.stop"),
        words.say(family.stop),
        words.say("timer.look"),
        words.button("main", Act::Begin, "timer.start"),
        words.button("plain", Act::Alone, "timer.alone"),
        words.button("plain", Act::Back, "page.back"),
    )
}

fn lead(round: &Round, words: Words) -> String {
    format!(
        "<p class=\"phase\" role=\"status\">{}</p>{}{}",
        words.say("timer.ready"),
        clock(round),
        work_buttons(round, words)
    )
}

fn work(round: &Round, words: Words) -> String {
    let exercise = round.entry().exercise;
    let still = STILL_TARGET.contains(&exercise.id);
    let (now, count) = (round.set().to_string(), round.entry().dose.sets.to_string());
    let set = words.fill("timer.set", &[("now", &now), ("count", &count)]);
    let counted = |times: u16| match times {
        1 => words.say("dose.once"),
        times => words.fill("timer.times", &[("count", &times.to_string())]),
    };
    let (phase, shown) = match round.phase() {
        Some(Phase::Rest { .. }) => (words.say("timer.rest"), String::new()),
        Some(Phase::Counted { times, .. }) => (format!("{set}: {}", counted(times)), seen(round, words, still)),
        Some(Phase::Timed { .. }) | None => (set, seen(round, words, still)),
    };
    // While resting nothing swings.
    let beat = match round.phase() {
        Some(Phase::Timed { .. } | Phase::Counted { .. }) if round.entry().dose.beat > 0 => {
            "<p class=\"beat\" aria-hidden=\"true\"><span data-slot=\"beat\"></span></p>"
        }
        _ => "",
    };
    format!("<p class=\"phase\" role=\"status\">{phase}</p>{shown}{}{beat}{}", clock(round), work_buttons(round, words))
}

/// What is looked at: a face to keep the eyes on where the target stays still, else the drawing of what to do.
fn seen(round: &Round, words: Words, still: bool) -> String {
    if still {
        return format!(
            "<p aria-hidden=\"true\">{}</p><div class=\"face\">{}</div>",
            words.say("timer.face"),
            face::ALL[0].svg(text(words.0, "timer.face"))
        );
    }
    format!("<div class=\"picture\">{}</div>", drawing::svg(round.entry().exercise, words.0))
}

fn clock(round: &Round) -> String {
    let Some((seconds, over)) = time_left(round) else { return String::new() };
    format!(
        "<p class=\"clock\" role=\"timer\"><span data-slot=\"left\">{}</span></p>\
         <progress data-slot=\"over\" max=\"1\" value=\"{over:.3}\" aria-hidden=\"true\"></progress>",
        in_minutes(seconds)
    )
}

/// Seconds as a clock shows them: "45", and from a minute on "4:59".
#[must_use]
pub fn in_minutes(seconds: u32) -> String {
    match seconds {
        0..60 => seconds.to_string(),
        _ => format!("{}:{:02}", seconds / 60, seconds % 60),
    }
}

fn work_buttons(round: &Round, words: Words) -> String {
    let away = match round.held() {
        Some(Held::Away) => format!("<p class=\"note\" role=\"status\">{}</p>", words.say("timer.away")),
        Some(Held::Asked) => format!("<p class=\"note\" role=\"status\">{}</p>", words.say("timer.held")),
        None => String::new(),
    };
    let counted = matches!(round.phase(), Some(Phase::Counted { .. }));
    let main = match (round.held(), counted) {
        (Some(_), _) => words.button("main", Act::GoOn, "timer.go_on"),
        (None, true) => words.button("main", Act::Counted, "timer.done"),
        (None, false) => words.button("main", Act::Hold, "timer.pause"),
    };
    format!("{away}<p class=\"bar\">{}{main}</p>", words.button("", Act::Stop, "timer.stop"))
}

/// The danger signs, each a button.
pub(super) fn danger(course: &Course) -> String {
    let words = Words(course.language);
    let signs: String = DANGERS.iter().map(|danger| words.button("sign", Act::Danger, danger.key)).collect();
    format!(
        "{}<main class=\"round\">{}<p>{}</p><div class=\"column\">{signs}</div><p class=\"bar\">{}</p><p>{}</p></main>",
        head(words, None, "danger.ask"),
        emergency(words, &course.sheet.emergency),
        words.say("danger.tap"),
        words.button("main", Act::NoDanger, "danger.none"),
        words.say("danger.else"),
    )
}

/// What to do now.
pub(super) fn told(reason: Reason, besides: &[&str], course: &Course) -> String {
    let words = Words(course.language);
    let (class, call) = match reason {
        Reason::Danger => ("call-now", emergency(words, &course.sheet.emergency)),
        Reason::ADay => ("call-now", String::new()),
        Reason::Rose | Reason::Lasted | Reason::StrongBefore => ("rest-now", String::new()),
        Reason::Within | Reason::AtLimit => ("go-on", String::new()),
    };
    let wrong = match reason {
        Reason::Danger => String::new(),
        Reason::ADay | Reason::Rose | Reason::Lasted | Reason::StrongBefore | Reason::Within | Reason::AtLimit => {
            words.button("wrong", Act::Wrong, "page.wrong")
        }
    };
    let besides: String = besides.iter().map(|key| format!("<p>{}</p>", words.say(key))).collect();
    format!(
        "{}<main class=\"round {class}\">{call}{besides}<p class=\"bar\">{}</p><p class=\"row\">{wrong}</p></main>",
        head(words, None, reason.key()),
        words.button("main", Act::Back, "page.back"),
    )
}

/// What was done, and the three ways back to the practice.
pub(super) fn log(course: &Course, clearing: bool) -> String {
    let words = Words(course.language);
    let back = words.button("main", Act::Back, "page.back");
    let title = head(words, Some(course.language), "log.title");
    if course.log.days.is_empty() {
        return format!(
            "{title}<main class=\"round\"><p>{}</p><p class=\"bar\">{back}</p></main>",
            words.say("log.none")
        );
    }
    let spoken = Spoken::of(&course.log, &course.sheet);
    let active = words.fill("log.days", &[("count", &spoken.active.to_string())]);
    let code = match qr_version(&course.log.encode()) {
        Ok(_) => format!("<h2>{}</h2><div class=\"code\" data-slot=\"code\"></div>", words.say("log.code")),
        Err(_) => format!("<p>{}</p>", words.say("log.too_large")),
    };
    let numbers = list("ol", spoken.numbers());
    let days = list("ul", course.log.days.iter().map(|day| day_line(words, course, day)));
    let clear = if clearing {
        format!(
            "<p role=\"alert\">{}</p><p class=\"row\">{}{}</p>",
            words.say("log.clear_ask"),
            words.button("", Act::Keep, "log.clear_no"),
            words.button("", Act::ClearYes, "log.clear_yes"),
        )
    } else {
        format!("<p>{}</p>", words.button("plain", Act::Clear, "log.clear"))
    };
    format!(
        "{title}<main class=\"round log\"><p>{active}</p>{code}<h2>{}</h2><div class=\"numbers\">{numbers}</div>\
         <p>{}</p><p class=\"row\">{}{}</p>{days}{clear}<p class=\"bar\">{back}</p></main>",
        words.say("log.numbers"),
        words.say("log.alone"),
        words.button("", Act::Save, "log.save"),
        words.button("", Act::Share, "log.share"),
    )
}

fn day_line(words: Words, course: &Course, day: &crate::sheet::Day) -> String {
    let number = words.fill("log.day", &[("count", &day.number.to_string())]);
    let done = course.sheet.entries.iter().zip(&day.rounds).filter(|(_, rounds)| **rounds > 0);
    let mut parts: Vec<String> =
        done.map(|(entry, rounds)| format!("{} × {rounds}", words.say(entry.exercise.family.title))).collect();
    if let (Some(before), Some(after)) = (day.before, day.after) {
        let (before, after) = (before.value().to_string(), after.value().to_string());
        parts.push(words.fill("log.felt", &[("before", &before), ("after", &after)]));
    }
    if parts.is_empty() { format!("<b>{number}</b>") } else { format!("<b>{number}:</b> {}", parts.join("; ")) }
}

/// A page without a plan, or with one that cannot be read.
pub(super) fn without_plan(view: &View, language: Language, others: &[Other]) -> String {
    let words = Words(language);
    let lines = match view {
        View::Unreadable(why) => vec![text(language, why.key()), text(language, "empty.private")],
        View::Empty | View::Today | View::Round(..) | View::Danger(_) | View::Told(_) | View::Log => {
            vec![text(language, "empty.how"), text(language, "empty.private")]
        }
    };
    let lines: String = lines.into_iter().map(|line| format!("<p>{}</p>", escape(line))).collect();
    let plans = others.iter().enumerate().map(|(at, other)| {
        let titles: Vec<String> = other.titles(language).iter().map(|title| escape(title)).collect();
        button("plain", Act::Open(at), &titles.join(", "))
    });
    let plans = match others {
        [] => String::new(),
        _ => format!("<h2>{}</h2>{}", words.say("keep.others"), list("ul", plans)),
    };
    format!("{}<main class=\"round\" role=\"main\">{lines}{plans}</main>", head(words, Some(language), "empty.title"))
}
