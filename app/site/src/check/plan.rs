//! The list of steps, cheap ones first, and the choice among them.

use anyhow::{Result, bail};

use super::run::{run, run_and_read};
use super::tools::{CHROMEDRIVER, CHROMIUM, FIREFOX, FIREFOX_DRIVER, MINI_BROWSER, Tool, WEBKIT_DRIVER, XVFB};
use super::{CheckOptions, Context, Outcome, Step, peers, rust_files, wasm};
use crate::build::compile::{TARGET, ensure_target};
use crate::build::{BuildOptions, build};
use crate::workspace::{Workspace, cargo, ensure_component};

/// Everything but the app and the family's page, which compile to WebAssembly only.
const NATIVE: [&str; 7] =
    ["--workspace", "--exclude", "sidelight-app", "--exclude", "sidelight-sheet", "--exclude", "sidelight-empty"];
/// What runs in the browser; the worker's jobs and the timing are native as well.
const WASM: [&str; 5] = ["sidelight-app", "sidelight-sheet", "sidelight-worker", "sidelight-empty", "sidelight-timing"];
const DENY_WARNINGS: [&str; 3] = ["--", "-D", "warnings"];

/// An engine of the end-to-end tests and what it needs.
type Engine = (&'static str, &'static [&'static Tool]);

const ENGINES: [Engine; 3] = [
    ("chromium", &[&CHROMIUM, &CHROMEDRIVER]),
    ("firefox", &[&FIREFOX, &FIREFOX_DRIVER]),
    ("webkit", &[&WEBKIT_DRIVER, &MINI_BROWSER, &XVFB]),
];

/// Every step there is in this workspace.
pub fn steps(workspace: &Workspace) -> Result<Vec<Step>> {
    let mut steps = vec![
        step("fmt", "every Rust file is formatted", |context| {
            ensure_component("rustfmt")?;
            rust_files::check_format(&context.workspace.root)
        }),
        step("clippy", "lints of the native crates, warnings denied", |context| {
            ensure_component("clippy")?;
            // The feature brings in the runner of WebAssembly tests, which is linted with the rest.
            let runner = ["--features", "sidelight-site/wasm-tests"];
            in_workspace(context, &[&["clippy"], &NATIVE, &["--all-targets"], &runner, &DENY_WARNINGS])
        }),
        step("clippy-wasm", "lints of the app, warnings denied", |context| {
            ensure_component("clippy")?;
            ensure_target()?;
            let apps = WASM.map(|package| ["--package", package]);
            in_workspace(
                context,
                &[&["clippy"], apps.as_flattened(), &["--target", TARGET, "--all-targets"], &DENY_WARNINGS],
            )
        }),
        step("test", "native tests and the examples in the documentation", |context| {
            let mut tests = cargo();
            tests.current_dir(&context.workspace.root).arg("test").args(NATIVE);
            Ok(run_and_read(&mut tests)?.0)
        }),
        step("docs", "documentation of the core, warnings denied", |context| {
            let mut doc = cargo();
            doc.current_dir(&context.workspace.root).args(["doc", "--no-deps", "--package", "sidelight-core"]);
            run(doc.env("RUSTDOCFLAGS", "-D warnings"))
        }),
    ];
    for package in wasm_tested(workspace)? {
        let name = package.replace("sidelight-", "wasm-");
        let what = format!("tests of {package} compiled to WebAssembly");
        steps.push(step(&name, &what, move |context| wasm::test(context, &package)));
    }
    for peer in peers::list(&workspace.root)? {
        let what = format!("outside libraries agree: tests/peers/{peer}");
        steps.push(step(&format!("peer-{peer}"), &what, move |context| peers::check(context, &peer)));
    }
    steps.push(step("site", "the site as it is published", |_| {
        build(&BuildOptions::default())?;
        Ok(Outcome::Passed)
    }));
    for (engine, needs) in ENGINES {
        let what = format!("the published site, end to end in {engine}");
        steps.push(step(&format!("e2e-{engine}"), &what, move |context| end_to_end(context, engine, needs)));
    }
    Ok(steps)
}

/// Leaves the steps that the options ask for. A name that fits no step is an error, or a typing error would pass for a
/// check.
pub fn choose(steps: Vec<Step>, options: &CheckOptions) -> Result<Vec<Step>> {
    for wanted in options.only.iter().chain(&options.skip) {
        if !steps.iter().any(|step| fits(&step.name, wanted)) {
            let names: Vec<&str> = steps.iter().map(|step| step.name.as_str()).collect();
            bail!("there is no step {wanted}; the steps are {}", names.join(", "));
        }
    }
    let asked = |names: &[String], step: &Step| names.iter().any(|name| fits(&step.name, name));
    let chosen: Vec<Step> = steps
        .into_iter()
        .filter(|step| options.only.is_empty() || asked(&options.only, step))
        .filter(|step| !asked(&options.skip, step))
        .collect();
    if chosen.is_empty() {
        bail!("no step is left to run");
    }
    Ok(chosen)
}

fn step(name: &str, what: &str, run: impl Fn(&Context) -> Result<Outcome> + 'static) -> Step {
    Step { name: name.to_owned(), what: what.to_owned(), run: Box::new(run) }
}

/// A step answers to its name and to the word before its dash.
fn fits(name: &str, wanted: &str) -> bool {
    name == wanted || name.split_once('-').is_some_and(|(group, _)| group == wanted)
}

fn in_workspace(context: &Context, arguments: &[&[&str]]) -> Result<Outcome> {
    run(cargo().current_dir(&context.workspace.root).args(arguments.concat()))
}

/// The app always; the core once it has tests for WebAssembly.
fn wasm_tested(workspace: &Workspace) -> Result<Vec<String>> {
    let core = std::fs::read_to_string(workspace.root.join("core/Cargo.toml"))?;
    let core = core.contains("wasm-bindgen-test").then_some("sidelight-core");
    Ok(core.into_iter().chain(["sidelight-app"]).map(str::to_owned).collect())
}

fn end_to_end(context: &Context, engine: &str, needs: &[&Tool]) -> Result<Outcome> {
    if let Some(missing) = context.tools.missing(needs) {
        return Ok(Outcome::Skipped(missing));
    }
    // Chromium's specs wait more than they work; the other two engines keep two cores busy with two browsers.
    let jobs = if engine == "chromium" { "3" } else { "2" };
    let mut specs = cargo();
    specs
        .current_dir(&context.workspace.root)
        .args(["run", "--bin", "sidelight-e2e", "--", "--everyday", "--engines", engine, "--jobs", jobs, "--dist"])
        .arg(context.dist())
        .arg("--shots")
        .arg(context.workspace.target.join("shots"));
    context.tools.tell(&mut specs);
    let (outcome, printed) = run_and_read(&mut specs)?;
    let closing = printed.lines().rev().find(|line| !line.trim().is_empty()).unwrap_or_default();
    Ok(match outcome {
        Outcome::Passed if closing.contains(" skipped") => Outcome::Skipped(format!("in part: {closing}")),
        outcome => outcome,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all() -> Vec<Step> {
        steps(&Workspace::find().expect("a workspace")).expect("steps")
    }

    fn chosen(only: &[&str], skip: &[&str]) -> Result<Vec<String>> {
        let strings = |names: &[&str]| names.iter().map(|&name| name.to_owned()).collect();
        let options = CheckOptions { allow_missing: false, only: strings(only), skip: strings(skip) };
        Ok(choose(all(), &options)?.into_iter().map(|step| step.name).collect())
    }

    #[test]
    fn groups_and_single_steps_can_be_chosen() {
        assert_eq!(chosen(&["e2e"], &["e2e-webkit"]).expect("steps"), ["e2e-chromium", "e2e-firefox"]);
        assert_eq!(chosen(&["clippy"], &[]).expect("steps"), ["clippy", "clippy-wasm"]);
        assert_eq!(chosen(&[], &[]).expect("steps").len(), all().len());
        assert!(chosen(&["e2"], &[]).is_err());
        assert!(chosen(&["fmt"], &["fmt"]).is_err());
    }

    #[test]
    fn the_site_is_built_before_it_is_driven() {
        let names: Vec<String> = all().into_iter().map(|step| step.name).collect();
        let at = |name: &str| names.iter().position(|it| it == name).expect("listed");
        assert!(at("site") < at("e2e-chromium"));
        assert_eq!(at("fmt"), 0);
    }
}
