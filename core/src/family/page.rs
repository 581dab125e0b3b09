//! The page of a sheet: when to call and when to stop first, then today's exercises, how to do them, advice, and a table for
//! paper. Without a running program it is complete and has no buttons; with one it has them, and folds away what was read.
//! Print always shows all of it.

use super::act::Act;
use super::course::{Course, Hold, Now, Settled};
use super::html::{Words, button, emergency, escape, list, toggle};
use super::paper::{Fit, Paper, fit, left_out};
use super::view::Other;
use crate::advice::Advice;
use crate::catalogue::{Language, text};
use crate::drawing;
use crate::sheet::{Entry, Sheet, dose_lines, rules, stop_lines};
use crate::tolerance::DANGERS;

/// Days of the table for paper: two weeks fit across a small sheet.
const PAPER_DAYS: u8 = 14;

/// What a running program adds.
pub(super) struct Live<'a> {
    pub course: &'a Course,
    pub now: Now,
    pub lists_open: bool,
    pub steps_open: &'a [bool],
    pub others: &'a [Other],
    pub kept: bool,
    pub removing: bool,
    pub wait: bool,
}

/// The page as it is read and printed without any program.
#[must_use]
pub fn page(sheet: &Sheet, language: Language) -> String {
    written(sheet, Words(language), None)
}

/// The same to stand inside another page: without the title, and without landmarks of a page of its own.
#[must_use]
pub fn inside(sheet: &Sheet, language: Language) -> String {
    let parts = parts(sheet, Words(language), None);
    format!("<div class=\"{}\">{parts}</div>", letters(sheet, language))
}

/// How it lies on paper.
#[must_use]
pub fn on_paper(sheet: &Sheet, language: Language, paper: Paper) -> Fit {
    fit(sheet, language, &parts(sheet, Words(language), None), paper)
}

/// The page's title.
#[must_use]
pub fn title(language: Language) -> &'static str {
    text(language, "page.title")
}

/// The page of a course going on.
pub(super) fn live(live: &Live<'_>) -> String {
    written(&live.course.sheet, Words(live.course.language), Some(live))
}

fn written(sheet: &Sheet, words: Words, live: Option<&Live<'_>>) -> String {
    let unread = live.is_some_and(|live| !live.course.read);
    format!(
        "{}<main class=\"{}\">{}</main>{}",
        head(words, live.map(|_| words.0), "page.title"),
        letters(sheet, words.0),
        parts(sheet, words, live),
        live.filter(|_| !unread).map(|live| foot(words, live)).unwrap_or_default(),
    )
}

fn parts(sheet: &Sheet, words: Words, live: Option<&Live<'_>>) -> String {
    let unread = live.is_some_and(|live| !live.course.read);
    let fold = if unread { " class=\"fold\"" } else { "" };
    format!(
        "{}<div{fold}>{}{}{}</div>",
        safety(sheet, words, live),
        today(sheet, words, live),
        advised(sheet, words),
        paper(sheet, words),
    )
}

/// Title and the choice of language, which every screen has.
pub(super) fn head(words: Words, live: Option<Language>, title: &str) -> String {
    let languages = live.map(|now| languages(words, now)).unwrap_or_default();
    format!("<header><h1 tabindex=\"-1\" data-focus>{}</h1>{languages}</header>", words.say(title))
}

/// How large the letters are on either paper.
fn letters(sheet: &Sheet, language: Language) -> String {
    let html = parts(sheet, Words(language), None);
    let [a4, a5] = [Paper::A4, Paper::A5].map(|paper| fit(sheet, language, &html, paper));
    format!("sheet-page a4-{} a5-{}{}", a4.points, a5.points, if a5.short { " a5-short" } else { "" })
}

fn languages(words: Words, now: Language) -> String {
    let choice = |language: Language| {
        let (tag, pressed) = (language.tag(), language == now);
        format!(
            "<button type=\"button\" class=\"plain\" lang=\"{tag}\" data-act=\"{}\" aria-pressed=\"{pressed}\">{}</button>",
            Act::Language(language),
            escape(language.name())
        )
    };
    let choices: String = Language::ALL.into_iter().map(choice).collect();
    format!("<div class=\"languages\" role=\"group\" aria-label=\"{}\">{choices}</div>", words.say("page.language"))
}

fn safety(sheet: &Sheet, words: Words, live: Option<&Live<'_>>) -> String {
    let dangers = list("ul", DANGERS.iter().map(|danger| words.say(danger.key)));
    let stops = list("ul", stop_lines(words.0).into_iter().map(escape));
    let (open, buttons) = match live {
        None => (true, String::new()),
        Some(live) if !live.course.read => {
            (true, format!("<p class=\"bar\">{}</p>", words.button("main", Act::Read, "page.read_it")))
        }
        Some(live) => {
            let key = if live.lists_open { "page.hide_list" } else { "page.show_list" };
            let wrong = words.button("wrong", Act::Wrong, "page.wrong");
            let lists = toggle(Act::Lists, live.lists_open, &words.say(key));
            (live.lists_open, format!("<p class=\"row\">{wrong}{lists}</p>"))
        }
    };
    let fold = if open { "" } else { " fold" };
    format!(
        "<section class=\"safety\"><h2>{}</h2>{}<div class=\"lists{fold}\"><section class=\"danger\"><h3>{}</h3>{dangers}\
         </section><section class=\"stop\"><h3>{}</h3>{stops}<p>{}</p></section></div><div class=\"{fold}\">{}</div>{buttons}\
         </section>",
        words.say("page.emergency"),
        emergency(words, &sheet.emergency),
        words.say("page.call"),
        words.say("page.stop"),
        words.say("call.practice"),
        how(sheet, words),
    )
}

fn today(sheet: &Sheet, words: Words, live: Option<&Live<'_>>) -> String {
    let helper = if sheet.helper {
        format!("<p class=\"helper\"><strong>{}</strong></p>", words.say("page.helper"))
    } else {
        String::new()
    };
    let entries = sheet.entries.iter().enumerate().map(|(at, entry)| exercise(at, entry, words, live));
    let notes = live.map(|live| notes(words, live)).unwrap_or_default();
    format!(
        "<section class=\"today\"><h2>{}</h2>{helper}{notes}<ol class=\"exercises\">{}</ol></section>",
        words.say("page.today"),
        entries.collect::<String>(),
    )
}

/// What there is to say before any exercise: rest, a word to wait for, a rise to ask about.
fn notes(words: Words, live: &Live<'_>) -> String {
    let mut out = String::new();
    match live.course.held(live.now) {
        Some(Hold::UntilTold) => {
            let lines = [words.say("today.hold"), words.say("call.practice")].join(" ");
            let told = words.button("", Act::Told, "today.told");
            out.push_str(&format!("<div class=\"note hold\" role=\"status\"><p>{lines}</p><p>{told}</p></div>"));
        }
        Some(Hold::Day(_)) => {
            out.push_str(&format!("<p class=\"note hold\" role=\"status\">{}</p>", words.say("today.rest")));
        }
        None if live.course.done_for_today(live.now) => {
            out.push_str(&format!("<p class=\"note\" role=\"status\">{}</p>", words.say("today.over")));
        }
        None => {}
    }
    if live.course.number(live.now).is_none() {
        out.push_str(&format!("<p class=\"note\">{}</p>", words.say("today.full")));
    }
    // Who waits for a word is asked nothing else.
    let waits = live.course.held(live.now) == Some(Hold::UntilTold);
    if let Some(open) = live.course.settling.filter(|_| !waits) {
        out.push_str(&settling(words, live, open.exercise));
    }
    if !live.kept {
        out.push_str(&format!("<p class=\"note\">{}</p>", words.say("keep.not")));
    }
    out
}

fn settling(words: Words, live: &Live<'_>, exercise: usize) -> String {
    let sheet = &live.course.sheet;
    let name = sheet.entries.get(exercise).map_or("", |entry| text(words.0, entry.exercise.family.title));
    let minutes = sheet.limits.minutes.to_string();
    let choice = |settled, key: &str| button("", Act::Settled(settled), &words.fill(key, &[("minutes", &minutes)]));
    let choices = [
        choice(Settled::Under, "settle.under"),
        choice(Settled::Over, "settle.over"),
        choice(Settled::NotYet, "settle.not_yet"),
    ]
    .concat();
    let wait = if live.wait { format!("<p role=\"status\">{}</p>", words.say("settle.wait")) } else { String::new() };
    format!(
        "<div class=\"note\"><p>{}</p><p><strong>{}</strong></p><p class=\"column\">{choices}</p>{wait}</div>",
        words.fill("settle.again", &[("exercise", name)]),
        words.say("rating.settled"),
    )
}

fn exercise(at: usize, entry: &Entry, words: Words, live: Option<&Live<'_>>) -> String {
    let family = &entry.exercise.family;
    let dose = dose_lines(words.0, &entry.dose).iter().map(|line| escape(line)).collect::<Vec<_>>().join(" ");
    let open = live.is_none_or(|live| live.steps_open.get(at).copied().unwrap_or(false));
    let easier_now = live.is_some_and(|live| live.course.easier.get(at).copied().unwrap_or(false));
    let marked = if easier_now { " now" } else { "" };
    let buttons = live.map(|live| exercise_buttons(at, entry, words, live, open)).unwrap_or_default();
    format!(
        "<li class=\"exercise\" data-exercise=\"{at}\"><div class=\"what\"><div class=\"picture\">{picture}</div><h3>{title}</h3>\
         <p class=\"dose\">{dose}</p></div>{buttons}\
         <div class=\"more{fold}\"><p class=\"why\">{why}</p><p class=\"need\"><b>{need_title}:</b> {need}</p>{steps}</div>\
         <p class=\"easier{marked}{hide_easier}\"><b>{easier_title}:</b> {easier}</p>\
         <p class=\"stops{fold}\"><b>{stop_title}:</b> {stop}</p></li>",
        picture = drawing::svg(entry.exercise, words.0),
        title = words.say(family.title),
        fold = if open { "" } else { " fold" },
        hide_easier = if open || easier_now { "" } else { " fold" },
        why = words.say(family.why),
        need_title = words.say("page.need"),
        need = words.say(family.need),
        steps = list("ol", family.steps.iter().map(|key| words.say(key))),
        easier_title = words.say("page.easier"),
        easier = words.say(family.easier),
        stop_title = words.say("page.stop"),
        stop = words.say(family.stop),
    )
}

fn exercise_buttons(at: usize, entry: &Entry, words: Words, live: &Live<'_>, open: bool) -> String {
    let done = live.course.done(at, live.now);
    let (count, of) = (done.to_string(), entry.dose.a_day.to_string());
    let marks: String = (0..entry.dose.a_day).map(|nth| if nth < done { "●" } else { "○" }).collect();
    let done = words.fill("today.done", &[("count", &count), ("of", &of)]);
    let name = words.say(entry.exercise.family.title);
    let start = if live.course.held(live.now).is_some() {
        String::new()
    } else {
        let (act, start) = (Act::Start(at), words.say("timer.start"));
        format!(
            "<button type=\"button\" class=\"main\" data-act=\"{act}\" aria-label=\"{start}: {name}\">{start}</button>"
        )
    };
    let key = if open { "page.hide_steps" } else { "page.steps" };
    format!(
        "<p class=\"done\"><span aria-hidden=\"true\">{marks}</span> {done}</p><p class=\"row\">{start}{}</p>",
        toggle(Act::Steps(at), open, &words.say(key)),
    )
}

/// For whom it is, how sure it is, and the rules; that an adult stays with the child stands above the exercises already.
fn how(sheet: &Sheet, words: Words) -> String {
    let intro = ["page.for_whom", "page.how_sure"].map(|key| format!("<p>{}</p>", words.say(key))).concat();
    let rules = rules(words.0, sheet);
    let rules = list("ul", rules.iter().skip(usize::from(sheet.helper)).map(|line| escape(line)));
    let title = words.say("page.how");
    format!("<div class=\"intro\">{intro}</div><section class=\"rules\"><h3>{title}</h3>{rules}</section>")
}

fn advised(sheet: &Sheet, words: Words) -> String {
    // Steps carry their numbers in their words.
    let lines = |advice: &Advice| list("ul", advice.lines.iter().map(|key| words.say(key)));
    let pieces = sheet.advice.iter().map(|advice| section("advice", &words.say(advice.heading), &lines(advice)));
    let pieces: String = pieces.collect();
    if pieces.is_empty() {
        return pieces;
    }
    let told = left_out(sheet, words.0);
    format!("<div class=\"pieces\">{pieces}</div><p class=\"left-out\">{told}</p>")
}

fn paper(sheet: &Sheet, words: Words) -> String {
    if sheet.entries.is_empty() {
        return String::new();
    }
    let numbers: String = (1..=PAPER_DAYS).map(|day| format!("<th scope=\"col\">{day}</th>")).collect();
    let cells = "<td></td>".repeat(usize::from(PAPER_DAYS));
    let row = |name: String| format!("<tr><th scope=\"row\">{name}</th>{cells}</tr>");
    let exercises = sheet.entries.iter().map(|entry| row(words.say(entry.exercise.family.title)));
    let felt = ["paper.before", "paper.after"].into_iter().map(|key| row(words.say(key)));
    format!(
        "<section class=\"paper\"><h2>{}</h2><table><thead><tr><th scope=\"col\">{}</th>{numbers}</tr></thead>\
         <tbody>{}</tbody></table></section>",
        words.say("paper.title"),
        words.say("paper.day"),
        exercises.chain(felt).collect::<String>(),
    )
}

fn foot(words: Words, live: &Live<'_>) -> String {
    let mut out = format!(
        "<p class=\"row\">{}{}</p>",
        words.button("", Act::Log, "log.open"),
        words.button("plain", Act::Print, "page.print")
    );
    if !live.others.is_empty() {
        let others = live.others.iter().enumerate().map(|(at, other)| {
            let titles: Vec<String> = other.titles(words.0).iter().map(|title| escape(title)).collect();
            button("plain", Act::Open(at), &titles.join(", "))
        });
        out.push_str(&format!("<h2>{}</h2>{}", words.say("keep.others"), list("ul", others)));
    }
    if live.kept {
        out.push_str(&format!("<p>{}</p>", words.say("page.private")));
        out.push_str(&if live.removing {
            format!(
                "<p role=\"alert\">{}</p><p class=\"row\">{}{}</p>",
                words.say("keep.remove_ask"),
                words.button("", Act::Keep, "log.clear_no"),
                words.button("", Act::RemoveYes, "keep.remove_yes"),
            )
        } else {
            format!("<p>{}</p>", words.button("plain", Act::Remove, "keep.remove"))
        });
    }
    format!("<footer>{out}</footer>")
}

fn section(class: &str, title: &str, inside: &str) -> String {
    format!("<section class=\"{class}\"><h2>{title}</h2>{inside}</section>")
}
