//! Drives the built site in Chromium, Firefox and WebKit, the way a person would: real taps, real keys, a server that
//! is really stopped. Each spec gets a browser with fresh data and a server of its own.

mod bench;
mod browser;
mod command;
mod engine;
mod examine;
mod files;
mod frames;
mod kills;
mod page;
mod process;
mod profile;
mod rows;
mod runner;
mod search;
mod site;
mod spec;
mod specs;
mod tools;
mod viewport;
mod wait;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::Parser;
use tokio::task::LocalSet;

use engine::Engine;
use runner::Plan;

#[derive(Parser)]
#[command(about = "Runs the end-to-end specs on a built site.")]
struct Arguments {
    /// The folder of the built site.
    #[arg(long, value_name = "DIR", default_value = "dist")]
    dist: PathBuf,
    /// The engines to run in; all three when none is named, and Chromium alone for kills.
    #[arg(long, value_delimiter = ',')]
    engines: Vec<Engine>,
    /// Where pictures go, and the evidence of failures.
    #[arg(long, value_name = "DIR", default_value = "target/e2e-shots")]
    shots: PathBuf,
    /// Only specs, or parts of the bench, whose name contains this.
    #[arg(long, value_name = "SUBSTRING", default_value = "")]
    only: String,
    /// Leave out what the everyday check leaves out: specs in an engine whose part in them others show already.
    #[arg(long)]
    everyday: bool,
    /// Try out the harness itself on a page of its own, in place of the built site.
    #[arg(long)]
    harness: bool,
    /// Times the sites below this folder in place of running specs; `cargo site bench` builds them.
    #[arg(long, value_name = "DIR")]
    bench: Option<PathBuf>,
    /// Ends the browser without warning this many times while a visit is tapped at random, in place of running specs.
    #[arg(long, value_name = "TIMES")]
    kills: Option<u32>,
    /// The beginning of the random taps; the same seed makes the same choices.
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// How many browsers run at the same time.
    #[arg(long, default_value_t = 2)]
    jobs: usize,
}

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let arguments = Arguments::parse();
    if let Some(folder) = &arguments.bench {
        return until_interrupted(bench::run(folder, &arguments.only)).await;
    }
    if let Some(times) = arguments.kills {
        return until_interrupted(kill(&arguments, times)).await;
    }
    let (list, dist) =
        if arguments.harness { (specs::HARNESS, specs::TINY.into()) } else { (specs::SITE, arguments.dist) };
    let engines = if arguments.engines.is_empty() { engine::ALL } else { &arguments.engines };
    let specs: Vec<_> = engines
        .iter()
        .flat_map(|engine| list.iter().map(move |spec| (*engine, spec)))
        .filter(|(engine, spec)| spec.runs_in(*engine, arguments.everyday) && spec.name.contains(&arguments.only))
        .collect();
    if specs.is_empty() {
        eprintln!("No spec is named like {:?}; leave --only out to run all.", arguments.only);
        return ExitCode::FAILURE;
    }
    let plan = Plan { specs, dist, shots: arguments.shots, jobs: arguments.jobs };
    let tasks = LocalSet::new();
    until_interrupted(async {
        let (count, failures) = tasks.run_until(plan.run()).await;
        if !failures.is_empty() {
            // Again, at the end: a record of a long run may keep no more than its last lines.
            println!("\ndid not hold:\n{}\n", failures.join("\n"));
        }
        println!("{count}");
        anyhow::ensure!(count.failed == 0, "{} did not hold", count.failed);
        Ok(())
    })
    .await
}

/// Runs it to its end, unless the run is interrupted: leaving this function drops the work, and with it every browser.
async fn until_interrupted(work: impl Future<Output = anyhow::Result<()>>) -> ExitCode {
    let result = tokio::select! {
        result = work => result,
        () = interrupted() => Err(anyhow::anyhow!("interrupted; all browsers were ended")),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Ends browsers of each engine asked for so many times.
async fn kill(arguments: &Arguments, times: u32) -> anyhow::Result<()> {
    let engines = if arguments.engines.is_empty() { engine::CHROMIUM } else { &arguments.engines };
    for engine in engines {
        kills::run(*engine, &arguments.dist, times, arguments.seed).await?;
    }
    Ok(())
}

/// Waits for the wish that this program end.
async fn interrupted() {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut terminated) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = terminated.recv() => {}
                _ = tokio::signal::ctrl_c() => {}
            }
            return;
        }
    }
    // Without a handler the system ends the program in its own way, which is all that can be done then.
    if tokio::signal::ctrl_c().await.is_err() {
        std::future::pending::<()>().await;
    }
}
