//! The browser is ended without warning, again and again, while a visit is tapped through at random: what was on the
//! screen for more than a second is there afterwards, nothing is there twice, and the visit stands at its step.

mod hand;
mod history;

use std::collections::BTreeMap;
use std::fmt;
use std::path::Path;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, ensure};
use fastrand::Rng;
use serde_json::json;

use self::hand::Writing;
use self::history::{History, SAFE, State, Unseen, Verdict};
use crate::browser::Browser;
use crate::engine::Engine;
use crate::examine::{PASSPHRASE, begin, frame, make_passphrase, no_danger, screen, slot, unlock, unlock_if_locked};
use crate::page::Page;
use crate::site::Site;
use crate::viewport::PHONE;

/// The longest that is tapped before the end, in milliseconds.
const LONGEST_MS: u64 = 4_000;

/// What came of it.
#[derive(Debug, Default)]
pub struct Tally {
    pub kills: u32,
    pub visits: u32,
    /// Taps whose outcome was seen.
    pub taps: usize,
    /// Of these, younger than a second and gone, which may be.
    pub young: usize,
    /// Taps that were sent as the browser ended, so that nobody saw their outcome, and that are there.
    pub unseen: usize,
    /// Taps older than a second that are gone since the browser itself was busy with one write for longer than that: each
    /// in one sentence. No fault of the program, but told.
    pub stalled: Vec<String>,
    /// The longest write that was seen.
    pub longest_write: Duration,
    /// Faults, each in one sentence.
    pub lost: Vec<String>,
    pub doubled: Vec<String>,
    pub unlike: Vec<String>,
}

/// Starts a browser and ends it `kills` times. Progress is printed.
pub async fn run(engine: Engine, dist: &Path, kills: u32, seed: u64) -> Result<()> {
    println!("{engine}: {kills} kills, seed {seed}.");
    let site = Site::start(dist)?;
    let mut browser = Browser::start(engine, PHONE, &site.url()).await?;
    let page = browser.page()?;
    page.open("").await?;
    make_passphrase(&page, PASSPHRASE).await?;
    let begun = Instant::now();
    let tally = kill_and_look(&mut browser, kills, seed, |tally| {
        if tally.kills.is_multiple_of(20) {
            println!("  {} s: {tally}", begun.elapsed().as_secs());
        }
    })
    .await?;
    println!("{engine}: {tally}");
    tally.check()
}

/// Taps, ends the browser and looks, `kills` times, from the home screen of an app that has no open visit.
pub async fn kill_and_look(browser: &mut Browser, kills: u32, seed: u64, tell: impl Fn(&Tally)) -> Result<Tally> {
    let mut random = Rng::with_seed(seed);
    let mut tally = Tally::default();
    let mut history = History::default();
    let mut over = true;
    while tally.kills < kills {
        let page = browser.page()?;
        if over {
            begin_visit(&page, tally.visits).await?;
            tally.visits += 1;
            history = History::default();
            over = false;
        }
        let end = Duration::from_millis(random.u64(100..LONGEST_MS));
        let mut writing = (Instant::now(), Writing::default());
        let tapped = tokio::time::timeout(end, tap_on(&page, &mut random, &mut history, &mut writing)).await;
        let ended = Instant::now();
        browser.kill();
        tally.kills += 1;
        // Tapping ends by itself when the visit has no more steps to tap on, or something is wrong.
        if let Ok(reached) = tapped {
            reached?;
            over = true;
        }
        tally.taps += history.len().saturating_sub(1);
        let page = browser.reopen().await?;
        open_again(&page).await.with_context(|| format!("after kill {}; {}", tally.kills, browser.database_log()))?;
        let found = look_at_all(&page, &history).await?;
        let (looked, writing) = writing;
        tally.longest_write = tally.longest_write.max(writing.longest);
        let stalled_for = if writing.open.is_zero() { writing.open } else { writing.open + (ended - looked) };
        tally.add(&history.judge(ended, &found), stalled_for);
        history.begin_from(Instant::now(), found);
        tell(&tally);
        if over {
            page.open("").await?;
            unlock_if_locked(&page).await?;
            screen(&page, "home").await?;
        }
    }
    every_visit_is_listed(&browser.page()?, tally.visits).await?;
    Ok(tally)
}

impl Tally {
    /// Fails with what was lost or doubled, if anything was.
    pub fn check(&self) -> Result<()> {
        let faults: Vec<&str> = self.lost.iter().chain(&self.doubled).chain(&self.unlike).map(String::as_str).collect();
        ensure!(faults.is_empty(), "{self}: {}", faults.join("; "));
        ensure!(self.taps > self.kills as usize, "only {} taps were seen: {self}", self.taps);
        Ok(())
    }

    /// Counts a verdict; `write` is how long a write had been under way at the end.
    fn add(&mut self, verdict: &Verdict, write: Duration) {
        let kill = self.kills;
        match verdict {
            Verdict::Kept { young } => self.young += young,
            Verdict::KeptWithUnseen => self.unseen += 1,
            Verdict::Lost { states, oldest } => {
                let (oldest, for_ms) = (oldest.as_millis(), write.as_millis());
                let said = format!(
                    "kill {kill}: {states} taps older than a second gone, the oldest shown {oldest} ms before the end; \
                     a write had been under way for {for_ms} ms"
                );
                println!("  {said}");
                let list = if write >= SAFE { &mut self.stalled } else { &mut self.lost };
                list.push(said);
            }
            Verdict::Doubled(said) => self.doubled.push(format!("kill {kill}: {said}")),
            Verdict::Unlike(said) => self.unlike.push(format!("kill {kill}: {said}")),
        }
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} kills in {} visits, {} taps seen, {} younger than a second gone, {} unseen kept; {} lost, {} doubled, \
             {} otherwise unlike; {} times the browser was stalled, longest write {} ms",
            self.kills,
            self.visits,
            self.taps,
            self.young,
            self.unseen,
            self.lost.len(),
            self.doubled.len(),
            self.unlike.len(),
            self.stalled.len(),
            self.longest_write.as_millis()
        )
    }
}

/// A new visit of a new person, up to the first task.
async fn begin_visit(page: &Page, number: u32) -> Result<()> {
    begin(page, Some(&format!("K-{number}")), "2012").await?;
    frame(page).await?;
    no_danger(page).await?;
    slot(page, "resting_gaze").await
}

/// After a start: the home screen offers the open visit, and it opens at its step.
async fn open_again(page: &Page) -> Result<()> {
    page.open("").await?;
    unlock(page).await?;
    page.tap("go-on").await.context("no open visit is offered after the start")
}

/// Taps at random until there is nothing more to tap on.
async fn tap_on(page: &Page, random: &mut Rng, history: &mut History, writing: &mut (Instant, Writing)) -> Result<()> {
    hand::watch_writes(page).await?;
    loop {
        let asked = Instant::now();
        let look = hand::look(page).await?;
        history.note(asked, &look.step, look.shown());
        *writing = (asked, look.writing);
        let Some(touch) = look.choose(random) else {
            ensure!(["findings", "stop"].contains(&look.screen.as_str()), "nothing to tap on {}", look.screen);
            // The end comes at its own time here too.
            tokio::time::sleep(Duration::from_millis(random.u64(0..1_500))).await;
            return Ok(());
        };
        history.send(Unseen { slot: look.step.clone(), moves: touch.moves(), fills: touch.fills() });
        hand::touch(page, touch, random).await?;
    }
}

/// The step the visit stands at, and every record that was seen before, as it is shown now.
async fn look_at_all(page: &Page, history: &History) -> Result<State> {
    page.wait_until(
        "the visit",
        "/^#\\/step\\/./.test(location.hash) && !!document.querySelector('main[data-screen]:not([data-screen=home])')",
    )
    .await?;
    let first = hand::look(page).await?;
    let slots = history.slots();
    let mut found = State { step: first.step.clone(), slots: BTreeMap::new() };
    for look in hand::look_at(page, &slots).await? {
        let (slot, shown) = look.shown().context("a step shows nothing after the start")?;
        found.slots.insert(slot.to_owned(), shown);
    }
    // Back to where it stands, by its address, which changes nothing.
    page.run_with("location.hash = '#/step/' + arguments[0];", vec![json!(first.step)]).await?;
    Ok(found)
}

/// None of the visits of the whole run is missing or there twice.
async fn every_visit_is_listed(page: &Page, visits: u32) -> Result<()> {
    page.open("#/seen").await?;
    screen(page, "seen").await?;
    let rows = page.value("document.querySelectorAll('[data-test=visit-row]').length").await?;
    ensure!(rows == visits, "{visits} visits were begun and {rows} are listed");
    Ok(())
}
