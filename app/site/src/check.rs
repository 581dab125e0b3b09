//! `cargo site check`: everything the continuous integration runs, step by step, with a closing account. A check that
//! could not be run is named and counts as a failure unless the caller said that the gap is intended.

mod debian;
mod peers;
mod plan;
mod report;
mod run;
mod rust_files;
mod tools;
mod wasm;

use std::path::PathBuf;
use std::time::Instant;

use anyhow::{Result, bail};

use crate::workspace::Workspace;
use tools::Tools;

/// A Python with the packages of this folder of `tests/peers`, made if it is not there; the folder stands beside it.
pub fn python_of(workspace: &Workspace, peer: &str) -> Result<(PathBuf, PathBuf)> {
    let (source, place) = peers::places(workspace, peer)?;
    match peers::environment(&Tools::new(workspace), &source, &place)? {
        Ok(python) => Ok((python, source)),
        Err(Outcome::Failed(why) | Outcome::Skipped(why)) => bail!("no Python for tests/peers/{peer}: {why}"),
        Err(Outcome::Passed) => bail!("no Python for tests/peers/{peer}"),
    }
}

/// Which steps to run, and whether a gap is intended.
#[derive(Clone, Debug, Default)]
pub struct CheckOptions {
    /// Steps that cannot run here do not make the check fail.
    pub allow_missing: bool,
    /// Only these steps; empty means all. `e2e` stands for `e2e-chromium` and its sisters.
    pub only: Vec<String>,
    /// Not these steps.
    pub skip: Vec<String>,
}

/// How a step ended.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Outcome {
    Passed,
    Failed(String),
    Skipped(String),
}

/// One thing that is checked.
struct Step {
    name: String,
    what: String,
    run: Box<Run>,
}

type Run = dyn Fn(&Context) -> Result<Outcome>;

/// What steps share.
struct Context {
    workspace: Workspace,
    tools: Tools,
}

impl Context {
    fn dist(&self) -> PathBuf {
        self.workspace.root.join("dist")
    }
}

/// Runs the chosen steps and says whether all is well.
pub fn check(options: &CheckOptions) -> Result<bool> {
    let workspace = Workspace::find()?;
    let context = Context { tools: Tools::new(&workspace), workspace };
    let steps = plan::choose(plan::steps(&context.workspace)?, options)?;
    let mut lines = Vec::new();
    for (number, step) in (1..).zip(&steps) {
        println!("\n[{number}/{}] {}: {}", steps.len(), step.name, step.what);
        let started = Instant::now();
        let outcome = (step.run)(&context).unwrap_or_else(|error| Outcome::Failed(format!("{error:#}")));
        let line = report::Line { name: step.name.clone(), outcome, seconds: started.elapsed().as_secs_f32() };
        println!("{line}");
        lines.push(line);
    }
    print!("\n{}", report::table(&lines));
    Ok(report::is_well(&lines, options.allow_missing))
}
