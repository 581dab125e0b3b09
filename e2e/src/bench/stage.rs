//! The stage beside a bare canvas that draws the same size of thing: frames that were missed, what each frame costs, and the
//! speed, in a browser that is at leisure and in one that is held up.

use std::path::Path;
use std::time::{Duration, Instant};

use anyhow::{Context, Result};
use serde_json::{Value, json};

use super::{aim, median};
use crate::browser::Browser;
use crate::engine::Engine;
use crate::examine::{choose, screen};
use crate::frames::{self, MEASURED};
use crate::page::{Page, css};
use crate::site::Site;
use crate::viewport::PHONE;

/// How many times longer everything takes on the main thread of a browser that is held up.
const LOADED: f64 = 4.0;
/// Runs of each, in turn.
const ROUNDS: usize = 3;
/// Seconds of each run.
const SECONDS: u64 = 10;
/// The speed of slow following, in degrees a second.
const SPEED: f64 = 15.0;

/// What is measured of the runs of one.
#[derive(Default)]
struct Tally {
    missed: u32,
    of: u32,
    rounds: Vec<u32>,
    /// The part of its time for which the main thread was busy, of each run.
    busy: Vec<f64>,
}

impl Tally {
    fn add(&mut self, times: &[f64], busy: f64) {
        let (missed, of) = frames::missed(times);
        self.missed += missed;
        self.of += of;
        self.rounds.push(missed);
        self.busy.push(busy);
    }

    fn share(&self) -> f64 {
        f64::from(self.missed) / f64::from(self.of)
    }

    fn says(&self) -> String {
        let rounds: Vec<String> = self.rounds.iter().map(u32::to_string).collect();
        format!(
            "{} of {} missed ({}), busy {:.0} %",
            self.missed,
            self.of,
            rounds.join(", "),
            100.0 * median(&self.busy)
        )
    }
}

/// Following and stripes, first at leisure, then held up; each beside the bare canvas in a browser of its own.
pub async fn run(folder: &Path) -> Result<()> {
    println!("Timing the stage beside a bare canvas: {ROUNDS} runs of {SECONDS} s of each, in turn.");
    let (site, plain) = (Site::start(&folder.join("app"))?, Site::start(&folder.join("static"))?);
    let browser = Browser::start(Engine::Chromium, PHONE, &site.url()).await?;
    let beside = Browser::start(Engine::Chromium, PHONE, &plain.url()).await?;
    let (page, bare) = (browser.page()?, beside.page()?);
    page.open("").await?;
    page.run(MEASURED).await?;
    page.tap("demo").await?;
    screen(&page, "home").await?;
    bare.open("").await?;
    for rate in [1.0, LOADED] {
        for what in ["following", "stripes"] {
            hold_up(&page, 1.0).await?;
            if what == "stripes" {
                to_stripes(&page).await?;
            } else {
                to_following(&page).await?;
            }
            hold_up(&page, rate).await?;
            hold_up(&bare, rate).await?;
            side_by_side(&page, &bare, what, rate).await?;
        }
    }
    Ok(())
}

async fn side_by_side(page: &Page, bare: &Page, what: &str, rate: f64) -> Result<()> {
    let (mut stage, mut canvas) = (Tally::default(), Tally::default());
    let mut speed: f64 = 0.0;
    for _ in 0..ROUNDS {
        let (log, busy) = shown(page).await?;
        let times: Vec<f64> = log.iter().map(|frame| frame.time).collect();
        stage.add(&times, busy);
        let (found, _) = frames::speed(&log, SECONDS as f64);
        let error = 100.0 * (found / SPEED - 1.0);
        speed = if error.abs() > speed.abs() { error } else { speed };
        bare.run(&BARE.replace("WHAT", what)).await?;
        let busy = busy_meanwhile(bare).await?;
        bare.wait_until("the bare canvas", "!!window.bare").await?;
        let times = bare.value("window.bare").await?;
        let times: Vec<f64> = serde_json::from_value(times).context("the bare canvas gave no times")?;
        canvas.add(&times, busy);
    }
    let name = if rate == 1.0 { format!("stage {what}") } else { format!("stage {what}, held up {rate} times") };
    println!(
        "{name}: {}; bare canvas: {} (aim: no more than the bare canvas: {})",
        stage.says(),
        canvas.says(),
        verdict(&stage, &canvas)
    );
    if what == "following" {
        println!("{name}: speed error of the worst run {speed:+.4} % (aim 0.5 %: {})", aim(speed.abs() < 0.5));
    }
    Ok(())
}

/// What else the computer does falls on one run and not on the next, so a few frames more are told for what they are.
fn verdict(stage: &Tally, canvas: &Tally) -> &'static str {
    let (best, worst) = (stage.rounds.iter().min(), canvas.rounds.iter().max());
    if stage.share() > canvas.share() && best <= worst {
        return "not told apart, as runs of one differ by more";
    }
    aim(stage.share() <= canvas.share())
}

/// One run of the stage: its frames, and the part of its time for which the main thread was busy.
async fn shown(page: &Page) -> Result<(Vec<frames::Frame>, f64)> {
    frames::ask(page).await?;
    page.tap("stage-start").await?;
    let busy = busy_meanwhile(page).await?;
    if page.value("!document.documentElement.dataset.frames").await? == Value::Bool(true) {
        page.tap("stage-view").await?;
    }
    let mut log = frames::told(page).await?;
    let zero = log.first().context("no frame was drawn")?.time;
    log.retain(|frame| frame.time - zero <= 1000.0 * SECONDS as f64);
    Ok((log, busy))
}

/// The part of the time for which the main thread is busy, from the second second to the last but one. Apart from that
/// nothing asks the page anything.
async fn busy_meanwhile(page: &Page) -> Result<f64> {
    let wait = async |seconds: u64| tokio::time::sleep(Duration::from_secs(seconds)).await;
    wait(1).await;
    let (from, before) = (Instant::now(), busy_so_far(page).await?);
    wait(SECONDS - 2).await;
    let busy = busy_so_far(page).await? - before;
    let part = busy / from.elapsed().as_secs_f64();
    wait(1).await;
    tokio::time::sleep(Duration::from_millis(300)).await;
    Ok(part)
}

/// Seconds for which the main thread was busy since the page began.
async fn busy_so_far(page: &Page) -> Result<f64> {
    page.devtools("Performance.enable", json!({})).await?;
    let told = page.devtools("Performance.getMetrics", json!({})).await?;
    let metrics = told["metrics"].as_array().context("no metrics")?;
    let busy =
        metrics.iter().find(|metric| metric["name"] == "TaskDuration").and_then(|metric| metric["value"].as_f64());
    busy.context("no time of tasks")
}

async fn hold_up(page: &Page, rate: f64) -> Result<()> {
    page.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": rate })).await.map(|_| ())
}

async fn to_following(page: &Page) -> Result<()> {
    page.open("#/show/pursuit").await?;
    page.reload().await?;
    page.tap(css("[data-test=stage-more] summary")).await?;
    choose(page, "dial-seconds", "10").await?;
    page.tap("stage-next").await?;
    screen(page, "stage-ready").await
}

async fn to_stripes(page: &Page) -> Result<()> {
    page.open("#/show/optokinetic").await?;
    page.reload().await?;
    choose(page, "dial-toward", "right").await?;
    page.tap("stage-next").await?;
    for question in ["seizures", "migraine", "motion_sickness"] {
        choose(page, question, "no").await?;
    }
    page.tap("stage-next").await?;
    screen(page, "stage-ready").await
}

/// Ten seconds of a disc that swings, or of stripes of the stage's width, colours and speed without their soft ends, on a
/// bare canvas of the whole view in the device's pixels.
const BARE: &str = "delete window.bare;
    const canvas = document.createElement('canvas');
    const ratio = devicePixelRatio, wide = innerWidth, high = innerHeight;
    canvas.width = Math.round(wide * ratio);
    canvas.height = Math.round(high * ratio);
    canvas.style.cssText = 'position:fixed;inset:0;width:100%;height:100%;z-index:99';
    document.body.append(canvas);
    const pen = canvas.getContext('2d');
    pen.setTransform(ratio, 0, 0, ratio, canvas.width / 2, canvas.height / 2);
    const disc = (time) => {
        pen.fillStyle = '#fff';
        pen.fillRect(-wide / 2, -high / 2, wide, high);
        pen.fillStyle = '#1a1a1a';
        pen.beginPath();
        pen.arc(Math.sin(time / 400) * wide / 3, 0, 21, 0, 7);
        pen.fill();
    };
    const stripes = (time) => {
        pen.fillStyle = '#000';
        pen.fillRect(-wide / 2, -high / 2, wide, high);
        pen.fillStyle = '#595959';
        const period = 252;
        for (let from = -wide / 2 - period + (time * 0.63) % period; from < wide / 2; from += period)
            pen.fillRect(from, -high / 2, period / 2, high);
    };
    const paint = 'WHAT' === 'stripes' ? stripes : disc;
    const times = [];
    const draw = (time) => {
        times.push(time);
        paint(time - times[0]);
        if (time - times[0] < 10000) requestAnimationFrame(draw);
        else { canvas.remove(); window.bare = times; }
    };
    requestAnimationFrame(draw);";
