//! Drives the built site in Chromium, Firefox and WebKit, the way a person would: real taps, real keys, a server that
//! is really stopped. Each spec gets a browser with fresh data and a server of its own.

mod bench;
mod browser;
mod command;
mod engine;
mod examine;
mod files;
mod page;
mod process;
mod profile;
mod runner;
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
    /// The engines to run in.
    #[arg(long, value_delimiter = ',', default_value = "chromium,firefox,webkit")]
    engines: Vec<Engine>,
    /// Where pictures go, and the evidence of failures.
    #[arg(long, value_name = "DIR", default_value = "target/e2e-shots")]
    shots: PathBuf,
    /// Only specs whose name contains this.
    #[arg(long, value_name = "SUBSTRING", default_value = "")]
    only: String,
    /// Try out the harness itself on a page of its own, in place of the built site.
    #[arg(long)]
    harness: bool,
    /// Times the sites below this folder in place of running specs; `cargo site bench` builds them.
    #[arg(long, value_name = "DIR")]
    bench: Option<PathBuf>,
    /// How many browsers run at the same time.
    #[arg(long, default_value_t = 2)]
    jobs: usize,
}

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let arguments = Arguments::parse();
    if let Some(folder) = &arguments.bench {
        return match bench::run(folder).await {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => {
                eprintln!("error: {error:#}");
                ExitCode::FAILURE
            }
        };
    }
    let (list, dist) =
        if arguments.harness { (specs::HARNESS, specs::TINY.into()) } else { (specs::SITE, arguments.dist) };
    let specs: Vec<_> = arguments
        .engines
        .iter()
        .flat_map(|engine| list.iter().map(move |spec| (*engine, spec)))
        .filter(|(engine, spec)| spec.engines.contains(engine) && spec.name.contains(&arguments.only))
        .collect();
    if specs.is_empty() {
        eprintln!("No spec is named like {:?}; leave --only out to run all.", arguments.only);
        return ExitCode::FAILURE;
    }
    let plan = Plan { specs, dist, shots: arguments.shots, jobs: arguments.jobs };
    let tasks = LocalSet::new();
    // When the run is interrupted, leaving this function drops the tasks, and with it every browser.
    let count = tokio::select! {
        count = tasks.run_until(plan.run()) => count,
        () = interrupted() => {
            eprintln!("Interrupted; all browsers were ended.");
            return ExitCode::FAILURE;
        }
    };
    println!("{count}");
    if count.failed > 0 { ExitCode::FAILURE } else { ExitCode::SUCCESS }
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
