//! The log of frames of each program, held against where its own time puts the target: worked out here from the geometry of
//! a flat screen and the words of the settings alone. What chance decides is held against what chance may decide.

use std::f64::consts::{PI, TAU};
use std::time::Duration;

use anyhow::{Context, Result, ensure};
use serde_json::Value;

use super::demo;
use crate::examine::{choose, screen};
use crate::frames::{self, Frame, degrees, missed, pixels};
use crate::page::{Page, css};
use crate::spec::Stage;

/// Half the width and the height of the phone of the specs.
const HALF: (f64, f64) = (195.0, 422.0);
/// Slow following, in degrees a second.
const SPEED: f64 = 15.0;

/// One program, as it is chosen and shown.
struct Run {
    name: &'static str,
    task: &'static str,
    /// Dials and what is chosen of them.
    chosen: &'static [(&'static str, &'static str)],
    /// Seconds until it is stopped.
    seconds: f64,
    /// What is wrong with its frames, if anything.
    check: fn(&[Frame]) -> Result<f64>,
}

/// As far as the screen shows along a side, less half a degree of target, cut to a tenth.
fn fits(half: f64) -> f64 {
    (10.0 * (degrees(half) - 0.5)).floor() / 10.0
}

static RUNS: &[Run] = &[
    Run {
        name: "constant",
        task: "pursuit",
        chosen: &[("way", "horizontal"), ("seconds", "10")],
        seconds: 10.0,
        check: |frames| at(frames, |seconds| (pixels(to_and_fro(seconds, fits(HALF.0))), 0.0)),
    },
    Run {
        name: "swinging",
        task: "pursuit",
        chosen: &[("speed", "swing")],
        seconds: 2.6,
        check: |frames| at(frames, |seconds| (pixels(fits(HALF.0) * (TAU * 0.4 * seconds).sin()), 0.0)),
    },
    Run {
        name: "vertical",
        task: "pursuit",
        chosen: &[("way", "vertical")],
        seconds: 2.6,
        check: |frames| at(frames, |seconds| (0.0, -pixels(to_and_fro(seconds, fits(HALF.1))))),
    },
    Run {
        name: "circle",
        task: "pursuit",
        // A face that goes round so fast is refused, as a dot is not.
        chosen: &[("way", "clockwise"), ("target", "dot")],
        seconds: 2.0,
        check: |frames| {
            // The line of sight goes round a cone: one round is 360° times the sine of its half angle.
            let radius = fits(HALF.0);
            let round = 360.0 * radius.to_radians().sin() / SPEED;
            at(frames, |seconds| {
                let turned = TAU * seconds / round;
                (pixels(radius) * turned.sin(), -pixels(radius) * turned.cos())
            })
        },
    },
    Run {
        name: "jumps",
        task: "saccade",
        chosen: &[("when", "1")],
        seconds: 3.2,
        check: |frames| {
            let side = |seconds: f64| if seconds.floor() % 2.0 == 0.0 { 1.0 } else { -1.0 };
            at(frames, |seconds| (side(seconds) * pixels(fits(HALF.0)), 0.0))
        },
    },
    Run {
        name: "jumps unforeseen",
        task: "saccade",
        chosen: &[("when", "unforeseen")],
        // Two waits of 2.5 s at most have to end, however chance draws them, and a loaded machine begins late.
        seconds: 7.0,
        check: unforeseen,
    },
    // The third change comes after 6 s at most: two waits of 2 s, one of a second for the target and one for bare ground.
    Run { name: "looking away", task: "antisaccade", chosen: &[], seconds: 8.0, check: looking_away },
    Run {
        name: "still",
        task: "resting_gaze",
        chosen: &[("way", "right")],
        seconds: 1.0,
        check: |frames| at(frames, |_| (pixels(fits(HALF.0)), 0.0)),
    },
    Run {
        name: "beat",
        task: "head_turn_gaze",
        chosen: &[("pace", "180")],
        seconds: 2.4,
        check: |frames| {
            // A degree to each side and back in two beats, two degrees below the middle.
            at(frames, |seconds| {
                let aside = (PI * 3.0 * seconds).cos();
                let far = aside.hypot(2.0);
                (pixels(far) * aside / far, pixels(far) * 2.0 / far)
            })
        },
    },
    Run {
        name: "near and far",
        task: "vergence",
        chosen: &[],
        seconds: 2.4,
        check: |frames| at(frames, |_| (0.0, 0.0)),
    },
    Run { name: "stripes", task: "optokinetic", chosen: &[], seconds: 3.0, check: stripes },
];

/// Every frame of each program stands where its own time puts it. How many were missed is told beside a bare canvas that
/// draws a disc in the same run.
pub async fn frames(stage: &mut Stage) -> Result<()> {
    let page = demo(stage).await?;
    let mut told = Vec::new();
    for run in RUNS {
        let log = logged(&page, run).await.with_context(|| format!("no log of {}", run.name))?;
        let off =
            (run.check)(&log).with_context(|| format!("{}: frames that are not where they should be", run.name))?;
        ensure!(log.len() as f64 > 15.0 * run.seconds, "{}: only {} frames", run.name, log.len());
        let (missed, of) = missed(&times(&log));
        told.push(format!("{} {off:.0e}, {missed} of {of}", run.name));
        if run.name == "constant" {
            let (speed, lasted) = frames::speed(&log, 10.0);
            let error = 100.0 * (speed / SPEED - 1.0);
            stage.note(format!("speed {error:+.4} %, over {lasted:.1} s"));
            ensure!(error.abs() < 0.5, "the speed is {error} % off");
        }
    }
    let bare: Vec<f64> = serde_json::from_value(page.run(BARE).await?).context("the bare canvas gave no times")?;
    let (missed, of) = missed(&bare);
    stage.note(format!("farthest from its place in px, and frames missed: {}", told.join("; ")));
    stage.note(format!("bare canvas: {missed} of {of} frames missed"));
    Ok(())
}

/// Shows one program and stops it, unless it ends before, and gives its frames.
async fn logged(page: &Page, run: &Run) -> Result<Vec<Frame>> {
    page.open(&format!("#/show/{}", run.task)).await?;
    // The rest after the last run ends with the page it was counted on; the specs do not wait for it.
    page.reload().await?;
    screen(page, "stage").await?;
    let folded = css("[data-test=stage-more]:not([open]) summary");
    if page.value("!!document.querySelector('[data-test=stage-more]')").await? == Value::Bool(true) {
        page.tap(folded).await?;
    }
    for (dial, choice) in run.chosen {
        choose(page, &format!("dial-{dial}"), choice).await?;
    }
    page.tap("stage-next").await?;
    if run.task == "optokinetic" {
        for question in ["seizures", "migraine", "motion_sickness"] {
            choose(page, question, "no").await?;
        }
        page.tap("stage-next").await?;
    }
    screen(page, "stage-ready").await?;
    frames::ask(page).await?;
    page.tap("stage-start").await?;
    // Nothing asks the page anything meanwhile.
    tokio::time::sleep(Duration::from_secs_f64(run.seconds)).await;
    // It may have come to its end by itself, even now.
    page.run("document.querySelector('[data-test=stage-view]')?.click();").await?;
    frames::told(page).await
}

/// The farthest that a frame stands from where the seconds since the start put it.
fn at(frames: &[Frame], place: impl Fn(f64) -> (f64, f64)) -> Result<f64> {
    let mut off: f64 = 0.0;
    for (frame, seconds) in since_the_start(frames)? {
        let (right, down) = place(seconds);
        off = off.max((frame.right - right).hypot(frame.down - down));
    }
    ensure!(off < 0.01, "a frame was drawn {off} px from where its time puts it");
    Ok(off)
}

/// Each frame that was drawn while the program ran, with the seconds since its start by the browser's time of the frame. The
/// start has to be the same for all.
fn since_the_start(frames: &[Frame]) -> Result<Vec<(Frame, f64)>> {
    let (first, last) = (frames.first().context("no frame was drawn")?, frames.last().context("no frame was drawn")?);
    // Most begin with their first frame, to the last bit, as a jump falls on a frame. What is heard begins between two
    // frames, and one that is drawn before stands at 0.
    let start = last.time - 1000.0 * last.seconds;
    let start = if (start - first.time).abs() < 1e-6 { first.time } else { start };
    let mut all = Vec::new();
    for frame in frames {
        let seconds = ((frame.time - start) / 1000.0).max(0.0);
        ensure!((seconds - frame.seconds).abs() < 1e-6, "{} s are drawn {seconds} s after the start", frame.seconds);
        // The frame that ends a run shows the ground alone.
        if seconds < 10.0 {
            all.push((*frame, seconds));
        }
    }
    Ok(all)
}

/// Where a target is that goes from the middle to one side, to the other, and so on, at one speed.
fn to_and_fro(seconds: f64, half: f64) -> f64 {
    let turned = (SPEED * seconds / half + 1.0).rem_euclid(4.0);
    half * if turned < 2.0 { turned - 1.0 } else { 3.0 - turned }
}

/// How long each place was held that ended before the log did, with the longest wait for a frame at its ends.
fn held(frames: &[(Frame, f64)]) -> Vec<(f64, f64, f64)> {
    let (mut all, mut since, mut late) = (Vec::new(), 0.0, 0.0);
    for pair in frames.windows(2) {
        let (before, after) = (&pair[0], &pair[1]);
        if before.0.right != after.0.right {
            let wait = after.1 - before.1;
            all.push((before.0.right, after.1 - since, wait + late));
            (since, late) = (after.1, wait);
        }
    }
    all
}

/// One of two places, the right one first, each held for 0.8 to 2.5 s. That no two waits are alike is shown in core: two or
/// three of them may be, by chance.
fn unforeseen(frames: &[Frame]) -> Result<f64> {
    let frames = since_the_start(frames)?;
    let out = pixels(fits(HALF.0));
    let off = frames.iter().map(|(frame, _)| (frame.right.abs() - out).hypot(frame.down)).fold(0.0, f64::max);
    ensure!(off < 0.01, "a frame was drawn {off} px from both places");
    ensure!(frames.first().is_some_and(|(frame, _)| frame.right > 0.0), "it does not begin on the right");
    let held = held(&frames);
    ensure!(held.len() >= 2, "it jumped only {} times", held.len());
    for (_, seconds, late) in &held {
        ensure!((0.8 - late..=2.5 + late).contains(seconds), "a place was held for {seconds} s");
    }
    Ok(off)
}

/// The middle for 1 to 2 s, a target on one side for one, bare ground for one, and so on.
fn looking_away(frames: &[Frame]) -> Result<f64> {
    let frames = since_the_start(frames)?;
    let out = pixels(fits(HALF.0));
    let near = |right: f64| (right.abs() - out).abs().min(right.abs());
    let off = frames.iter().map(|(frame, _)| near(frame.right).hypot(frame.down)).fold(0.0, f64::max);
    ensure!(off < 0.01, "a frame was drawn {off} px from all places");
    let held = held(&frames);
    ensure!(held.len() >= 3, "there were only {} changes", held.len());
    for (at, (right, seconds, late)) in held.iter().enumerate() {
        let (least, most) = match (right.abs() > 1.0, at) {
            (true, _) => (1.0, 1.0),
            (false, 0) => (1.0, 2.0),
            (false, _) => (2.0, 3.0),
        };
        ensure!((least - late..=most + late).contains(seconds), "{right} px were held for {seconds} s");
    }
    Ok(off)
}

/// Stripes of 6° at 15° a second move on by two and a half periods a second, and fade in within half a second. How far they
/// are off is told in pixels of the middle.
fn stripes(frames: &[Frame]) -> Result<f64> {
    let mut off: f64 = 0.0;
    for (frame, seconds) in since_the_start(frames)? {
        let apart = (frame.right - 2.5 * seconds).rem_euclid(1.0);
        off = off.max(pixels(6.0 * apart.min(1.0 - apart)));
        let strength = (seconds / 0.5).min(1.0);
        ensure!((frame.down - strength).abs() < 1e-6, "strength {} after {seconds} s", frame.down);
    }
    ensure!(off < 0.01, "stripes were drawn {off} px from where their time puts them");
    Ok(off)
}

fn times(frames: &[Frame]) -> Vec<f64> {
    frames.iter().map(|frame| frame.time).collect()
}

/// Four seconds of a disc on a bare canvas of the whole view.
const BARE: &str = "return new Promise((done) => {
    const canvas = document.createElement('canvas');
    canvas.width = innerWidth * devicePixelRatio;
    canvas.height = innerHeight * devicePixelRatio;
    canvas.style.cssText = 'position:fixed;inset:0;width:100%;height:100%;z-index:99';
    document.body.append(canvas);
    const pen = canvas.getContext('2d');
    const times = [];
    const draw = (time) => {
        times.push(time);
        pen.fillStyle = '#fff';
        pen.fillRect(0, 0, canvas.width, canvas.height);
        pen.fillStyle = '#1a1a1a';
        pen.beginPath();
        pen.arc(canvas.width / 2 + Math.sin(time / 400) * canvas.width / 3, canvas.height / 2, 60, 0, 7);
        pen.fill();
        if (time - times[0] < 4000) requestAnimationFrame(draw);
        else { canvas.remove(); done(times); }
    };
    requestAnimationFrame(draw);
});";
