//! Everything that can be typed is typed once, under a passphrase; then none of it stands anywhere on the disk.

use std::fs;
use std::time::Duration;

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};

use super::{Found, churn, expect};
use crate::examine::{all_as_expected, choose, make_passphrase, screen, skip, slot, try_passphrase};
use crate::page::{Page, css};
use crate::spec::Stage;

/// A passphrase of words that no list holds, so that each can be searched alone.
const PASSPHRASE: &str = "brolfentik quansomer zilpatrude";
const WRONG: &str = "brolfentik wrimstolage";

const LABEL: &str = "Vantriskel Örbund";
const RENAMED: &str = "Vantriskel Ömsolde";
const BORN: &str = "2009-02-27";

const ROUTINE: &str = "womtrelsibad routine";
const IN_FILE: &str = "hulbrikanteso in a file";
const IN_WORDS: &str = "drospelkanti in their words";
const CONSENT: &str = "Aunt Gilvertrud Pranz";
const MEDICINES: &str = "velostrapimin 20 mg";
const EXAMINER: &str = "Dr Klimsorvath";
const GO_ON: &str = "brustelmanko reason to go on";
const TOOK_OVER: &str = "ambrostelik took over";
const NOTE: &str = "krelmuvantis note";
const LEFT_OUT: &str = "pfostrabaline reason";
const REFERRED: &str = "Clinic Zwelbarunt";
const TOLD: &str = "coach Frimbelstorg";
const DECISION: &str = "quenzibarut decision";
const CORRECTION: &str = "stolgimarent correction";
const SEARCHED: &str = "vantrisk";
const FILE_WORDS: &str = "plimtarvos gendrifal";

/// Parts of them too, and the birth as it is spoken of: each must be found nowhere.
const WORDS: &[&str] = &[
    PASSPHRASE,
    "brolfentik",
    "quansomer",
    "zilpatrude",
    "wrimstolage",
    LABEL,
    "Vantriskel",
    "Örbund",
    "Ömsolde",
    BORN,
    "27 February 2009",
    ROUTINE,
    "womtrelsibad",
    IN_FILE,
    "hulbrikanteso",
    "drospelkanti",
    "Gilvertrud",
    "velostrapimin",
    "Klimsorvath",
    "brustelmanko",
    "ambrostelik",
    "krelmuvantis",
    "pfostrabaline",
    "Zwelbarunt",
    "Frimbelstorg",
    "quenzibarut",
    "stolgimarent",
    SEARCHED,
    FILE_WORDS,
    "plimtarvos",
    "gendrifal",
];

/// Written in clear by the spec itself, beside the records and in local storage, so that a search that finds nothing is
/// known to have looked.
const CONTROLS: &[&str] = &["zimtorbalek-control", "ostrivumpel-control"];

/// Two visits, a correction, a routine, a search, a file taken in and one handed over, all under a passphrase: nothing that
/// was typed stands anywhere on the disk, in its names, in an address, a title, the history or the console, neither when
/// the browser is killed nor when it is closed.
pub async fn nothing_readable(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    make_passphrase(&page, PASSPHRASE).await?;
    page.run_with(IN_CLEAR, vec![json!(CONTROLS)]).await?;
    let mut shown = String::new();
    make_routine(&page).await?;
    shown += &told(&page).await?;
    take_in(&page).await?;
    shown += &told(&page).await?;
    shown += &whole_visit(&page).await?;
    stopped_visit(&page).await?;
    shown += &told(&page).await?;
    search_and_rename(&page).await?;
    shown += &told(&page).await?;
    hand_over(&page).await?;
    shown += &told(&page).await?;
    page.open("#/").await?;
    page.tap("lock").await?;
    try_passphrase(&page, WRONG).await?;
    page.wait_text("refused", "not the passphrase").await?;
    shown += &told(&page).await?;
    shown += &stage.browser.console_errors().await?.join("\n");
    for word in WORDS {
        ensure!(!shown.contains(word), "{word:?} is in an address, a title or the console");
    }
    // Chromium holds local storage back for up to five seconds.
    tokio::time::sleep(Duration::from_secs(7)).await;
    stage.browser.kill();
    only_the_controls(stage, "killed, locked")?;
    for (when, lock) in [("closed, unlocked", false), ("closed, locked, after compaction", true)] {
        let page = stage.browser.reopen().await?;
        page.open("").await?;
        try_passphrase(&page, PASSPHRASE).await?;
        page.wait_text("visit-row", "Vantriskel").await?;
        page.tap("visit-row").await?;
        page.wait_text(css("[data-test=summary]"), "Vantriskel").await?;
        if lock {
            page.tap("home").await?;
            page.tap("lock").await?;
            screen(&page, "unlock").await?;
            churn(&page).await?;
        }
        stage.browser.close().await?;
        only_the_controls(stage, when)?;
    }
    Ok(())
}

fn only_the_controls(stage: &mut Stage, when: &str) -> Result<()> {
    let words: Vec<&str> = WORDS.iter().chain(CONTROLS).copied().collect();
    let found: Found = stage.browser.search(&words)?;
    stage.note(format!("{when}: {} words, {found}", WORDS.len()));
    for control in CONTROLS {
        expect(&found, control)?;
    }
    let places = |word: &&str| found.of(word).into_iter().map(|hit| format!("{word:?} in {hit}")).collect::<Vec<_>>();
    let readable: Vec<String> = WORDS.iter().flat_map(places).collect();
    ensure!(readable.is_empty(), "{when}, readable on the disk: {}", readable.join("; "));
    Ok(())
}

/// What the browser itself shows and remembers of the page: its address and its title.
async fn told(page: &Page) -> Result<String> {
    let told = page.value("decodeURIComponent(location.href) + ' ' + document.title + '\\n'").await?;
    Ok(told.as_str().unwrap_or_default().to_owned())
}

async fn make_routine(page: &Page) -> Result<()> {
    page.tap("routines").await?;
    page.tap("make").await?;
    screen(page, "routine").await?;
    page.fill("routine-name", ROUTINE).await?;
    page.tap("add-saccade").await?;
    page.tap("keep").await?;
    page.wait_text("own", ROUTINE).await?;
    page.tap("back").await?;
    screen(page, "home").await
}

/// Takes in a file of one person whose name is a word to look for.
async fn take_in(page: &Page) -> Result<()> {
    let mut file: Value = serde_json::from_str(VISIT_FILE)?;
    let label = file.pointer_mut("/people/0/label").context("the file has no person")?;
    *label = json!(IN_FILE);
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("handed.json");
    fs::write(&path, file.to_string())?;
    page.tap("take-in").await?;
    page.choose_file("take-files", &path).await?;
    page.tap("go").await?;
    page.find("taken").await?;
    page.tap("back").await?;
    page.tap("back").await?;
    page.wait_text(css("main"), IN_FILE).await
}

const VISIT_FILE: &str = include_str!("../../../../tests/archives/v1/sideline.json");

/// A visit with every text there is, closed, and a correction beside it.
async fn whole_visit(page: &Page) -> Result<String> {
    begin(page, LABEL, BORN).await?;
    write(page, "reason_note", IN_WORDS).await?;
    choose(page, "influences", "medicines").await?;
    write(page, "medicines", MEDICINES).await?;
    page.tap(css("[data-test=details] summary")).await?;
    write(page, "consent_by", CONSENT).await?;
    write(page, "examiner", EXAMINER).await?;
    page.tap("next").await?;
    screen(page, "safety").await?;
    choose(page, "vomiting", "yes").await?;
    screen(page, "stop").await?;
    page.tap(css("[data-test=go-on-fold] summary")).await?;
    write(page, "go_on", GO_ON).await?;
    page.tap("go-on").await?;
    screen(page, "safety").await?;
    page.tap("next").await?;
    slot(page, "symptoms.before").await?;
    page.tap("no-change").await?;
    slot(page, "resting_gaze").await?;
    let mut shown = told(page).await?;
    all_as_expected(page).await?;
    page.tap(css("[data-test=details] summary")).await?;
    write(page, "note", NOTE).await?;
    page.tap("next").await?;
    slot(page, "near_point").await?;
    page.tap("skip").await?;
    page.fill("skip-other", LEFT_OUT).await?;
    page.tap("skip-typed").await?;
    for task in ["pursuit", "saccade", "optokinetic"] {
        skip(page, task).await?;
        shown += &told(page).await?;
    }
    screen(page, "findings").await?;
    page.tap("next").await?;
    screen(page, "decision").await?;
    choose(page, "action", "refer").await?;
    write(page, "refer_to", REFERRED).await?;
    write(page, "note", DECISION).await?;
    page.tap(css("[data-test=details] summary")).await?;
    write(page, "told_name", TOLD).await?;
    page.tap("close").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    for word in [LABEL, IN_WORDS, MEDICINES, EXAMINER, GO_ON, NOTE, LEFT_OUT, REFERRED, DECISION] {
        page.wait_text(css("[data-test=summary]"), word).await?;
    }
    page.tap(css("[data-test=correct] summary")).await?;
    page.fill("correction", CORRECTION).await?;
    page.tap("keep-correction").await?;
    page.wait_text("summary", CORRECTION).await?;
    shown += &told(page).await?;
    page.tap("home").await?;
    screen(page, "home").await?;
    Ok(shown)
}

/// A second visit of the same person, ended at a danger sign.
async fn stopped_visit(page: &Page) -> Result<()> {
    page.tap("start").await?;
    page.fill("label", LABEL).await?;
    page.tap("known").await?;
    page.tap("begin").await?;
    screen(page, "frame").await?;
    answer_frame(page).await?;
    page.tap("next").await?;
    screen(page, "safety").await?;
    choose(page, "neck", "yes").await?;
    screen(page, "stop").await?;
    choose(page, "done", "called").await?;
    write(page, "note", TOOK_OVER).await?;
    page.tap("end-examination").await?;
    screen(page, "decision").await?;
    choose(page, "action", "emergency").await?;
    page.tap("close").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await?;
    page.wait_text(css("[data-test=summary]"), TOOK_OVER).await?;
    page.tap("home").await?;
    screen(page, "home").await
}

async fn search_and_rename(page: &Page) -> Result<()> {
    page.tap("people").await?;
    page.fill("find", SEARCHED).await?;
    page.tap("person-row").await?;
    page.tap(css("[data-test=edit] summary")).await?;
    page.fill("edit-label", RENAMED).await?;
    page.tap("keep").await?;
    page.wait_text("person", RENAMED).await?;
    page.open("#/").await?;
    screen(page, "home").await
}

/// A file sealed by words that go another way, saved to the downloads, which are searched with everything else.
async fn hand_over(page: &Page) -> Result<()> {
    page.open("#/hand-over").await?;
    page.tap("way-passphrase").await?;
    page.fill("passphrase", FILE_WORDS).await?;
    page.tap("make").await?;
    page.tap("save-file").await?;
    page.find("left").await.map(|_| ())
}

async fn begin(page: &Page, label: &str, born: &str) -> Result<()> {
    page.tap("start").await?;
    page.fill("label", label).await?;
    page.fill("born", born).await?;
    page.tap("begin").await?;
    screen(page, "frame").await?;
    answer_frame(page).await
}

async fn answer_frame(page: &Page) -> Result<()> {
    for (field, choice) in
        [("reason", "knock"), ("since", "minutes"), ("consent", "guardian"), ("glasses", "none"), ("cautions", "none")]
    {
        choose(page, field, choice).await?;
    }
    Ok(())
}

/// Types into a text of a form.
async fn write(page: &Page, field: &str, text: &str) -> Result<()> {
    let selector = format!("[data-test={field:?}] input, [data-test={field:?}] textarea");
    page.fill(css(&selector), text).await
}

const IN_CLEAR: &str = "
    const [beside, local] = arguments[0];
    localStorage.setItem('control', local);
    return new Promise((done, failed) => {
        const open = indexedDB.open('control', 1);
        open.onupgradeneeded = () => open.result.createObjectStore('visit');
        open.onerror = () => failed(open.error);
        open.onsuccess = () => {
            const transaction = open.result.transaction('visit', 'readwrite', { durability: 'strict' });
            transaction.objectStore('visit').put(new TextEncoder().encode(JSON.stringify({ label: beside })), 'row');
            transaction.oncomplete = () => { open.result.close(); done(true); };
            transaction.onabort = () => failed(transaction.error);
        };
    });
";
