//! Checks against outside libraries: each folder in `tests/peers` is a Python or Node program with packages of its own,
//! run in an environment of its own under the target folder.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context as _, Result};

use super::debian;
use super::run::run;
use super::tools::{NODE, NPM, PYTHON, Tools};
use super::{Context, Outcome};
use crate::workspace::Workspace;

/// Names of the folders that hold a program, in order.
pub fn list(root: &Path) -> Result<Vec<String>> {
    let folder = root.join("tests/peers");
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let has_program = path.join("run.py").is_file() || path.join("run.mjs").is_file();
        if let Some(name) = path.file_name().and_then(|name| name.to_str()).filter(|_| has_program) {
            names.push(name.to_owned());
        }
    }
    names.sort();
    Ok(names)
}

/// Where a folder's program lies, and where its environment is made.
pub fn places(workspace: &Workspace, name: &str) -> Result<(PathBuf, PathBuf)> {
    let place = workspace.target.join("peers").join(name);
    fs::create_dir_all(&place)?;
    Ok((workspace.root.join("tests/peers").join(name), place))
}

/// Runs what the folder holds.
pub fn check(context: &Context, name: &str) -> Result<Outcome> {
    let (source, place) = places(&context.workspace, name)?;
    if source.join("run.py").is_file() {
        let outcome = in_python(context, &source, &place)?;
        if outcome != Outcome::Passed {
            return Ok(outcome);
        }
    }
    if source.join("run.mjs").is_file() { in_node(context, &source, &place) } else { Ok(Outcome::Passed) }
}

fn in_python(context: &Context, source: &Path, place: &Path) -> Result<Outcome> {
    let python = match environment(&context.tools, source, place)? {
        Ok(python) => python,
        Err(outcome) => return Ok(outcome),
    };
    // -B keeps compiled files out of the source tree.
    run(Command::new(&python)
        .arg("-B")
        .arg("run.py")
        .current_dir(source)
        .env("SIDELIGHT_ROOT", &context.workspace.root))
}

/// The Python of an environment that has the packages of this folder, made if it is not there; or why there is none.
pub fn environment(tools: &Tools, source: &Path, place: &Path) -> Result<Result<PathBuf, Outcome>> {
    if let Some(missing) = tools.missing(&[&PYTHON]) {
        return Ok(Err(Outcome::Skipped(missing)));
    }
    let venv = place.join("venv");
    let python = venv.join(if cfg!(windows) { "Scripts/python.exe" } else { "bin/python" });
    if !python.is_file() {
        let system = tools.path(&PYTHON).context("python3 was found a moment ago")?;
        let make = || run(Command::new(&system).args(["-m", "venv"]).arg(&venv));
        // Debian keeps this part of Python in a package of its own.
        if make()? != Outcome::Passed {
            debian::install(&["python3-venv"]);
            if make()? != Outcome::Passed {
                let why = "no environment could be made with `python3 -m venv`".to_owned();
                return Ok(Err(Outcome::Failed(why)));
            }
        }
    }
    let requirements = source.join("requirements.txt");
    if requirements.is_file() {
        let mut pip = Command::new(&python);
        pip.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r"]).arg(&requirements);
        if run(&mut pip)? != Outcome::Passed {
            return Ok(Err(Outcome::Failed("its Python packages could not be installed".to_owned())));
        }
    }
    Ok(Ok(python))
}

/// Node looks for packages beside the program, so the program is copied to where they may be installed.
fn in_node(context: &Context, source: &Path, place: &Path) -> Result<Outcome> {
    if let Some(missing) = context.tools.missing(&[&NODE, &NPM]) {
        return Ok(Outcome::Skipped(missing));
    }
    let (Some(node), Some(npm)) = (context.tools.path(&NODE), context.tools.path(&NPM)) else {
        return Ok(Outcome::Failed("node was found a moment ago".to_owned()));
    };
    let copy = place.join("node");
    copy_files(source, &copy)?;
    if copy.join("package.json").is_file() {
        let how = if copy.join("package-lock.json").is_file() { "ci" } else { "install" };
        let mut install = Command::new(npm);
        install.args([how, "--no-audit", "--no-fund"]).current_dir(&copy);
        if run(&mut install)? != Outcome::Passed {
            return Ok(Outcome::Failed("its npm packages could not be installed".to_owned()));
        }
    }
    run(Command::new(node).arg("run.mjs").current_dir(&copy).env("SIDELIGHT_ROOT", &context.workspace.root))
}

fn copy_files(from: &Path, to: &PathBuf) -> Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            if entry.file_name() != "node_modules" {
                copy_files(&entry.path(), &target)?;
            }
        } else {
            fs::copy(entry.path(), &target).with_context(|| format!("cannot copy to {}", target.display()))?;
        }
    }
    Ok(())
}
