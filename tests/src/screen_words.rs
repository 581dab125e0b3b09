//! What the practitioner's screens say stands in the catalogue's reach: no text outside `say!`, and no language is offered
//! that lacks one.

mod exceptions;
mod registry;
mod source;

use std::collections::BTreeSet;

use sidelight_core::catalogue::screens::{OFFERED, table};
use sidelight_core::catalogue::{Language, placeholders};

use self::exceptions::NOT_TEXTS;
use self::source::{Loose, Stands};
use crate::repository::{files_ending, text};

/// Sources of the app that put something on a screen.
fn sources() -> Vec<String> {
    let is_test = |path: &str| path.contains("/tests/") || path.ends_with("tests.rs");
    files_ending(".rs").into_iter().filter(|path| path.starts_with("app/src/") && !is_test(path)).collect()
}

/// Everything the screens say.
fn texts() -> BTreeSet<String> {
    let said = sources().into_iter().flat_map(|path| source::read(&text(&path)).texts);
    said.chain(registry::words().into_iter().map(String::from)).chain(reasons()).collect()
}

/// Why an answer leaves a task out, from the function that says so.
fn reasons() -> Vec<String> {
    let is_task = |path: &str| path.starts_with("core/src/task/");
    let bodies = files_ending(".rs").into_iter().filter(|path| is_task(path)).filter_map(|path| {
        let text = text(&path);
        let from = text.find("fn barred(")?;
        let body = text[from..].split_once("\n}\n")?.0;
        Some(format!("{body}\n}}"))
    });
    bodies.flat_map(|body| source::read(&body).loose).map(|loose| loose.says).collect()
}

#[test]
fn no_text_of_a_screen_stands_outside_say() {
    let mut faults = Vec::new();
    let mut used = BTreeSet::new();
    for path in sources() {
        for loose in source::read(&text(&path)).loose {
            let known = NOT_TEXTS.iter().position(|(start, says, _)| path.starts_with(start) && loose.says == *says);
            used.extend(known);
            if known.is_none() {
                faults.push(format!("{path}:{}: “{}”", loose.line, loose.says));
            }
        }
    }
    assert!(faults.is_empty(), "texts outside say!, text! and counted!:\n{}", faults.join("\n"));
    let unused: Vec<&str> = (0..NOT_TEXTS.len()).filter(|at| !used.contains(at)).map(|at| NOT_TEXTS[at].1).collect();
    assert!(unused.is_empty(), "exceptions that nothing needs: {unused:?}");
}

#[test]
fn a_text_outside_say_is_found_wherever_it_stands() {
    let found =
        |body: &str| source::read(body).loose.into_iter().map(|loose: Loose| (loose.says, loose.stands)).collect();
    let one = |says: &str, stands: Stands| vec![(says.to_string(), stands)];
    let cases: [(&str, Vec<(String, Stands)>); 14] = [
        (r#"fn a() { view! { <p>"Hand over"</p> } }"#, one("Hand over", Stands::Node)),
        (r#"fn a() { view! { <p>"of "{count}</p> } }"#, one("of ", Stands::Node)),
        (r#"fn a() { view! { <b aria-label="back"></b> } }"#, one("back", Stands::Attribute)),
        (r#"fn a() { view! { <Pick label="This one" /> } }"#, one("This one", Stands::Attribute)),
        (r#"fn a() { view! { <p>{move || if on { "Stop" } else { "Go" }}</p> } }"#, {
            vec![("Stop".to_string(), Stands::Code), ("Go".to_string(), Stands::Code)]
        }),
        (r#"fn a() { view! { <p>{view! { <b>"no"</b> }}</p> } }"#, one("no", Stands::Node)),
        (r#"fn a() { Some("Not kept.".to_string()) }"#, one("Not kept.", Stands::Code)),
        (r#"fn a() { match n { 1 => "one visit", _ => "" } }"#, one("one visit", Stands::Code)),
        (r#"fn a() { format!("{n} visits") }"#, one("{n} visits", Stands::Code)),
        (r#"const A: &str = r"Not a key";"#, one("Not a key", Stands::Code)),
        (r#"fn a() { say!("{who} came", who = "Nobody here") }"#, one("Nobody here", Stands::Code)),
        // What no reader meets.
        (r#"fn a() { view! { <p class="a b" data-test="A b">{say!("Hand over")}" · "</p> } }"#, Vec::new()),
        (
            r#"#[allow(lint, reason = "A reason")] fn a() { b.expect("Is there"); c("data-test", "some-key") }"#,
            Vec::new(),
        ),
        (r#"/// A comment "with Words". \n#[cfg(test)] mod tests { fn a() { b("Hand over") } }"#, Vec::new()),
    ];
    for (body, expected) in cases {
        let body = body.replace("\\n", "\n");
        let found: Vec<(String, Stands)> = found(&body);
        assert_eq!(found, expected, "{body}");
    }
}

#[test]
fn words_of_tasks_and_forms_are_put_into_the_language() {
    let untold = |path: String| {
        let found = source::read(&text(&path)).untold;
        found.into_iter().map(move |(line, field)| format!("{path}:{line}: {field}")).collect::<Vec<_>>()
    };
    let shows = |path: &String| path.starts_with("app/src/screens/") || path.starts_with("app/src/widgets/");
    let faults: Vec<String> = sources().into_iter().filter(shows).flat_map(untold).collect();
    assert!(faults.is_empty(), "words outside words::of:\n{}", faults.join("\n"));
    let found = |body: &str| source::read(body).untold.len();
    assert_eq!(found("fn a() { view! { <p>{field.ask}</p> } }"), 1);
    assert_eq!(found("fn a() { b(choice.hint.to_lowercase()) }"), 1);
    assert_eq!(found("fn a() { view! { <p title=words::of(field.ask)>{words::of(field.help)}</p> } }"), 0);
    assert_eq!(found("fn a() { view! { <p title=field.ask></p> } }"), 1);
    assert_eq!(found("fn a() { !choice.hint.is_empty() && worker.ask(1) }"), 0);
}

#[test]
fn texts_are_collected_from_the_macros() {
    let body = r#"
        const A: &str = text!("kept for later");
        fn a(n: usize) { view! { <p title=say!("a title")>{counted!(n, "1 visit", "{count} visits")}</p> } }
        fn b() { say!("{who} of {all}, \
                       on two lines", who = c("no-text"), all) }
    "#;
    let source = source::read(body);
    let expected = ["kept for later", "a title", "1 visit", "{count} visits", "{who} of {all}, on two lines"];
    assert_eq!(source.texts, expected);
    assert!(source.loose.is_empty());
}

#[test]
fn a_language_is_offered_when_nothing_is_missing_in_its_table() {
    let texts = texts();
    let reasons = reasons();
    assert!(reasons.iter().any(|reason| reason.contains("no quick head turns")), "{reasons:?}");
    let from_core = registry::words().len() + reasons.len();
    println!("{} texts on the screens, {from_core} of them words of tasks and forms", texts.len());
    assert!(texts.len() > 1000, "only {} texts were found", texts.len());
    let mut complete = vec![Language::English];
    for language in Language::ALL {
        let table = table(language);
        if table.is_empty() {
            continue;
        }
        let faults = faults(&texts, table);
        assert!(faults.is_empty(), "{}:\n{}", language.name(), faults.join("\n"));
        complete.push(language);
    }
    assert_eq!(OFFERED, complete);
}

#[test]
fn each_fault_of_a_table_is_named() {
    let texts: BTreeSet<String> = ["Hand over", "{count} visits", "Stop", "Go on "].map(String::from).into();
    let whole =
        [("Hand over", "Übergeben"), ("{count} visits", "{count} Besuche"), ("Stop", "Halt"), ("Go on ", "Weiter ")];
    assert_eq!(faults(&texts, &whole), Vec::<String>::new());
    let changed = |at: usize, to: (&'static str, &'static str)| {
        let mut table = whole;
        table[at] = to;
        faults(&texts, &table)
    };
    assert_eq!(faults(&texts, &whole[1..]), ["missing: “Hand over”"]);
    assert_eq!(changed(0, ("Hand  over", "Übergeben")), ["missing: “Hand over”", "unknown: “Hand  over”"]);
    assert_eq!(changed(1, ("{count} visits", "{zahl} Besuche")), ["words in braces differ: “{count} visits”"]);
    assert_eq!(changed(2, ("Stop", " ")), ["empty: “Stop”"]);
    assert_eq!(changed(2, ("Hand over", "Geben")), ["missing: “Stop”", "twice: “Hand over”"]);
    assert_eq!(changed(3, ("Go on ", "Weiter")), ["blanks at the ends differ: “Go on ”"]);
}

/// What is wrong with a table: texts it lacks, texts nobody says, words in braces that differ.
fn faults(texts: &BTreeSet<String>, table: &[(&str, &str)]) -> Vec<String> {
    let missing = texts.iter().filter(|english| table.iter().all(|(known, _)| known != english));
    let mut faults: Vec<String> = missing.map(|english| format!("missing: “{english}”")).collect();
    let ends = |text: &str| (text.starts_with(' '), text.ends_with(' '));
    for (at, (english, text)) in table.iter().enumerate() {
        let fault = if !texts.contains(*english) {
            "unknown"
        } else if table[..at].iter().any(|(before, _)| before == english) {
            "twice"
        } else if text.trim().is_empty() {
            "empty"
        } else if placeholders(english) != placeholders(text) {
            "words in braces differ"
        } else if ends(english) != ends(text) {
            "blanks at the ends differ"
        } else {
            continue;
        };
        faults.push(format!("{fault}: “{english}”"));
    }
    faults
}
