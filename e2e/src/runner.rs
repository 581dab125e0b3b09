//! Runs specs, some at the same time, and reports each in one line.

use std::collections::VecDeque;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::{Duration, Instant};

use anyhow::{Error, anyhow};
use tokio::task::JoinSet;

use crate::engine::Engine;
use crate::spec::{Skip, Spec, Stage};

/// What a run is made of.
pub struct Plan {
    /// The specs with the engine each is to run in.
    pub specs: Vec<(Engine, &'static Spec)>,
    /// The folder to serve.
    pub dist: PathBuf,
    /// Where pictures and evidence go.
    pub shots: PathBuf,
    /// How many browsers run at the same time.
    pub jobs: usize,
}

/// How many specs ended in each way.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Count {
    /// The spec held.
    pub passed: usize,
    /// It did not.
    pub failed: usize,
    /// It could not run here.
    pub skipped: usize,
}

impl Plan {
    /// Runs every spec, in a `LocalSet`. A report is printed as soon as one ends; those of failures are given as well.
    pub async fn run(self) -> (Count, Vec<String>) {
        let mut waiting = VecDeque::from(self.specs);
        let mut running = JoinSet::new();
        let mut count = Count::default();
        let mut failures = Vec::new();
        let folders = Arc::new((self.dist, self.shots));
        loop {
            while running.len() < self.jobs.max(1)
                && let Some((engine, spec)) = waiting.pop_front()
            {
                running.spawn_local(run_one(engine, spec, Arc::clone(&folders)));
            }
            match running.join_next().await {
                None => return (count, failures),
                Some(Ok((ending, report))) => {
                    println!("{report}");
                    count.add(&ending);
                    if matches!(ending, Ending::Failed) {
                        failures.push(report);
                    }
                }
                // Each spec catches its own panics; this is the harness itself going wrong.
                Some(Err(error)) => {
                    let report = format!("harness · FAILED ({error})");
                    println!("{report}");
                    count.failed += 1;
                    failures.push(report);
                }
            }
        }
    }
}

impl Count {
    fn add(&mut self, ending: &Ending) {
        match ending {
            Ending::Passed => self.passed += 1,
            Ending::Failed => self.failed += 1,
            Ending::Skipped => self.skipped += 1,
        }
    }
}

impl std::fmt::Display for Count {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} passed, {} failed", self.passed, self.failed)?;
        if self.skipped > 0 {
            write!(f, ", {} skipped", self.skipped)?;
        }
        Ok(())
    }
}

enum Ending {
    Passed,
    Failed,
    Skipped,
}

/// What a driver says when the process of a page is gone. WebKitGTK ends one of some hundreds by itself, in a library of its
/// own and not always at the same place; a page that brings it about does so twice.
const CRASHED: &str = "page crash or hang";

/// How its evidence begins where its driver answers nothing any more, in which case it says no more than that.
const GONE: &str = "no evidence: webdriver returned error";

async fn run_one(engine: Engine, spec: &'static Spec, folders: Arc<(PathBuf, PathBuf)>) -> (Ending, String) {
    let begun = Instant::now();
    let (mut result, mut notes) = perform(engine, spec, Arc::clone(&folders)).await;
    let gone = |note: &String| engine == Engine::Webkit && note.starts_with(GONE);
    if notes.iter().any(|note| note.contains(CRASHED) || gone(note)) {
        let first = result.err().map(|error| format!("{error:#}")).unwrap_or_default();
        (result, notes) = perform(engine, spec, folders).await;
        notes.push(format!("the second run: in the first the browser's process of the page ended by itself ({first})"));
    }
    let seconds = begun.elapsed().as_secs_f64();
    let (ending, word) = match result {
        Ok(()) => (Ending::Passed, "ok".to_owned()),
        Err(error) => match error.downcast_ref::<Skip>() {
            Some(reason) => (Ending::Skipped, format!("skipped ({reason})")),
            None => (Ending::Failed, format!("FAILED ({error:#})")),
        },
    };
    let mut report = format!("{engine} · {} · {word} · {seconds:.1} s", spec.name);
    for note in notes {
        report += &format!("\n    {note}");
    }
    (ending, report)
}

/// Runs one spec in a task of its own, so that a panic or a hang in it is a failure like any other.
async fn perform(
    engine: Engine,
    spec: &'static Spec,
    folders: Arc<(PathBuf, PathBuf)>,
) -> (Result<(), Error>, Vec<String>) {
    let mut task = JoinSet::new();
    task.spawn_local(async move {
        let (dist, shots) = &*folders;
        let mut stage = match Stage::set(spec, engine, dist, shots).await {
            Ok(stage) => stage,
            Err(error) => return (Err(error), Vec::new()),
        };
        let held = (spec.run)(&mut stage).await;
        let mut notes = stage.notes().to_vec();
        match &held {
            Err(error) if !error.is::<Skip>() => notes.push(evidence(&stage, spec).await),
            _ => {}
        }
        (held, notes)
    });
    match tokio::time::timeout(spec.limit, task.join_next()).await {
        Ok(Some(Ok(result))) => result,
        Ok(Some(Err(error))) => (Err(anyhow!("{error}")), Vec::new()),
        Ok(None) => (Err(anyhow!("the spec did not run")), Vec::new()),
        // Dropping the set ends the task, and with it the browser.
        Err(_) => (Err(anyhow!("not finished after {} s", spec.limit.as_secs())), Vec::new()),
    }
}

/// Saves the evidence of a failure, as far as the browser still answers, and says where.
async fn evidence(stage: &Stage, spec: &Spec) -> String {
    match tokio::time::timeout(Duration::from_secs(20), stage.save_evidence(spec.name)).await {
        Ok(Ok(folder)) => format!("evidence in {}", folder.display()),
        Ok(Err(error)) => format!("no evidence: {error:#}"),
        Err(_) => "no evidence: the browser does not answer".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn skipped_is_only_mentioned_when_it_happened() {
        let mut count = Count::default();
        count.add(&Ending::Passed);
        assert_eq!(count.to_string(), "1 passed, 0 failed");
        count.add(&Ending::Failed);
        count.add(&Ending::Skipped);
        assert_eq!(count.to_string(), "1 passed, 1 failed, 1 skipped");
    }
}
