//! Two entries of one person: offered, joined when asked, shown as one, undone; and two who are not the same.

use std::fs;

use anyhow::{Result, ensure};
use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::demo;

use super::looks::{audit, no_overflow};
use super::people::fits;
use crate::examine::{reload, screen, start_empty};
use crate::page::{Page, css};
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Someone of the demo with four visits, and someone with one.
const FOUR: &str = "demo-person-6";
const ONCE: &str = "demo-person-2";

/// A twin of a person here comes with a file: offered, joined, one person with all visits, undone, joined again.
pub async fn joined(stage: &mut Stage) -> Result<()> {
    let page = taken_in(stage).await?;
    page.wait_text("likely-note", "2 pairs may be the same person.").await?;
    seen(stage, &page, "taken in with a twin").await?;
    page.tap("likely").await?;
    screen(&page, "likely").await?;
    ensure!(page.count("pair").await? == 2, "two pairs are offered");
    let said = page.text("pairs").await?;
    for part in ["N-14", "n-14", "2 visits: ", "1 of 2", "Same person: join", "Not the same"] {
        ensure!(said.contains(part), "the pairs lack {part:?}: {said}");
    }
    seen(stage, &page, "likely pairs").await?;
    page.tap(css("[data-test=pair]:nth-of-type(2) [data-test=join]")).await?;
    page.wait_text("said", "Joined. They show as N-14").await?;
    ensure!(page.count("pair").await? == 1, "the other pair waits");
    ensure!(in_use(&page).await? == "pair-0", "the keyboard goes on with the next pair");

    page.tap("people").await?;
    screen(&page, "people").await?;
    page.wait_text("likely-note", "1 pair may be the same person.").await?;
    found(&page, "n-14", "1 person.").await?;
    page.wait_text("people", "4 visits").await?;
    seen(stage, &page, "people with a joined one").await?;
    page.tap("person-row").await?;
    page.wait_text("person", "Compared with").await?;
    page.wait_text("joined", "Kept as one person").await?;
    visits_shown(&page, 4).await?;
    seen(stage, &page, "a joined person").await?;
    page.tap("erase-person").await?;
    page.wait_text("goes", "both entries that were joined as this person with 4 visits").await?;
    ensure!(page.count(css("[data-test=entries-going] li")).await? == 2, "both entries are named");
    seen(stage, &page, "a joined person to be erased").await?;
    page.tap("back").await?;
    reload(&page).await?;
    visits_shown(&page, 4).await?;

    page.tap("undo-join").await?;
    page.wait_text("said", "separate people again").await?;
    page.wait_gone("joined").await?;
    visits_shown(&page, 2).await?;
    ensure!(in_use(&page).await? == "apart-title", "the keyboard stays near");
    seen(stage, &page, "undone").await?;
    page.open("#/people").await?;
    found(&page, "n-14", "2 people.").await?;
    page.wait_text("likely-note", "1 pair").await?;
    page.tap("person-row").await?;
    page.tap("join-again").await?;
    page.wait_text("said", "Joined.").await?;
    visits_shown(&page, 4).await
}

/// Two who are not the same stay two and are not asked about again, after a reload too.
pub async fn kept_apart(stage: &mut Stage) -> Result<()> {
    let page = taken_in(stage).await?;
    page.tap("likely").await?;
    for left in ["1", "0"] {
        page.tap("apart").await?;
        page.wait_text("said", "Kept as two people").await?;
        page.wait_until("one pair less", &format!("document.querySelectorAll('[data-test=pair]').length === {left}"))
            .await?;
    }
    page.wait_text("none", "No two entries").await?;
    ensure!(in_use(&page).await? == "likely-none", "the keyboard stays on the page");
    seen(stage, &page, "no pairs").await?;
    page.tap("back").await?;
    reload(&page).await?;
    found(&page, "n-14", "2 people.").await?;
    ensure!(page.count("likely-note").await? == 0, "they were answered");
    page.tap("person-row").await?;
    page.wait_text("kept-apart", "Same person after all").await?;
    visits_shown(&page, 2).await
}

/// One file after the other: the demo, then twins of two of its people.
async fn taken_in(stage: &mut Stage) -> Result<Page> {
    let folder = tempfile::tempdir()?;
    let (here, twins) = files();
    let page = start_empty(stage).await?;
    page.tap("take-in").await?;
    for (name, file, pairs) in [("here.json", here, 0), ("twins.json", twins, 1)] {
        let path = folder.path().join(name);
        fs::write(&path, archive::write(&file))?;
        page.choose_file("take-files", &path).await?;
        page.find("plan").await?;
        page.tap("go").await?;
        page.find("taken").await?;
        page.wait_until(name, &format!("document.querySelectorAll('[data-test=likely-note]').length === {pairs}"))
            .await?;
        if pairs == 0 {
            page.tap("more").await?;
            page.wait_gone("taken").await?;
        }
    }
    Ok(page)
}

/// The demo without the earlier two of those four visits, and those two with twins of two people.
fn files() -> (Archive, Archive) {
    let (people, mut visits) = demo::people(NOW);
    visits.sort_by_key(|visit| visit.started);
    let closed = |visit: Visit| archive::closed(Visit { sha256: None, ..visit }, NOW);
    let mut theirs = Vec::new();
    for visit in visits.iter_mut().filter(|visit| visit.person == FOUR).take(2) {
        visit.person = twin_of(FOUR);
        theirs.push(closed(visit.clone()));
    }
    let here = visits.into_iter().filter(|visit| visit.person != twin_of(FOUR)).map(closed).collect();
    let twin = |person: &Person| {
        let label = person.label.to_lowercase();
        Person { id: twin_of(&person.id), label, ..person.clone() }
    };
    let twins = people.iter().filter(|person| [FOUR, ONCE].contains(&person.id.as_str())).map(twin).collect();
    (Archive::of(people, here), Archive::of(twins, theirs))
}

fn twin_of(id: &str) -> String {
    format!("{id}-twin")
}

async fn found(page: &Page, wanted: &str, said: &str) -> Result<()> {
    page.fill("find", wanted).await?;
    page.wait_text("found", said).await
}

async fn visits_shown(page: &Page, count: usize) -> Result<()> {
    let rows = "document.querySelectorAll('[data-test=person] [data-test=visit-row]').length";
    page.wait_until(&format!("{count} visits of the person"), &format!("{rows} === {count}")).await
}

async fn in_use(page: &Page) -> Result<String> {
    page.wait_until("something to have the focus", "document.activeElement?.tagName !== 'BODY'").await?;
    Ok(page.value("document.activeElement.id").await?.as_str().unwrap_or_default().to_owned())
}

async fn seen(stage: &mut Stage, page: &Page, name: &str) -> Result<()> {
    for viewport in [SMALL_PHONE, DESKTOP, PHONE] {
        let place = format!("{name} at {viewport}");
        stage.browser.resize(viewport).await?;
        fits(page, &place).await?;
        no_overflow(page, &place).await?;
        audit(page, &place).await?;
        stage.shoot(&place).await?;
    }
    Ok(())
}
