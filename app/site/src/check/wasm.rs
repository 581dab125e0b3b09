//! Tests compiled to WebAssembly: in node, or in headless Chromium where a test asks for a browser.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context as _, Result, bail};
use serde_json::{Value, json};

use super::run::run_and_read;
use super::tools::{CHROMEDRIVER, CHROMIUM, NODE};
use super::{Context, Outcome};
use crate::build::compile::{TARGET, ensure_target};
use crate::workspace::{cargo, executable};

/// A module of tests may take this long in the browser, on a machine that does other things as well.
const SECONDS: &str = "180";

/// Runs one package's tests. A run without a single test is a failure: it would say nothing.
pub fn test(context: &Context, package: &str) -> Result<Outcome> {
    if let Some(missing) = context.tools.missing(&[&NODE, &CHROMIUM, &CHROMEDRIVER]) {
        return Ok(Outcome::Skipped(missing));
    }
    ensure_target()?;
    let runner = runner(context)?;
    // A list, because a plain string would be cut at the blanks of a path.
    let config = format!("target.{TARGET}.runner=[{}]", Value::from(runner.to_string_lossy()));
    let mut tests = cargo();
    tests
        .current_dir(&context.workspace.root)
        .args(["test", "--package", package, "--target", TARGET, "--tests", "--config", &config])
        .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", capabilities(context)?)
        .env("WASM_BINDGEN_TEST_TIMEOUT", SECONDS)
        .env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "30");
    if let Some(driver) = context.tools.path(&CHROMEDRIVER) {
        tests.env("CHROMEDRIVER", driver);
    }
    let (outcome, printed) = run_and_read(&mut tests)?;
    let count = passed(&printed);
    Ok(match outcome {
        Outcome::Passed if count == 0 => Outcome::Failed(format!("{package} has no test that runs as WebAssembly")),
        outcome => outcome,
    })
}

/// Compiles the program that takes test modules from cargo.
fn runner(context: &Context) -> Result<PathBuf> {
    let mut build = cargo();
    build
        .current_dir(&context.workspace.root)
        .args(["build", "--package", "sidelight-site", "--features", "wasm-tests", "--bin", "wasm-test-runner"])
        .arg("--message-format=json-render-diagnostics");
    let output = build.stderr(std::process::Stdio::inherit()).output()?;
    if !output.status.success() {
        bail!("the runner of WebAssembly tests did not compile");
    }
    executable(&String::from_utf8_lossy(&output.stdout), "wasm-test-runner")
        .context("cargo built the runner of WebAssembly tests but named no program")
}

/// The app's own wishes for the browser, with the browser that was found.
fn capabilities(context: &Context) -> Result<PathBuf> {
    let wishes = fs::read(context.workspace.root.join("app/webdriver.json"));
    let mut capabilities: Value = match wishes {
        Ok(bytes) => serde_json::from_slice(&bytes).context("app/webdriver.json is not valid JSON")?,
        Err(_) => json!({ "goog:chromeOptions": { "args": ["--headless=new"] } }),
    };
    if let Some(browser) = context.tools.path(&CHROMIUM) {
        capabilities["goog:chromeOptions"]["binary"] = browser.to_string_lossy().into();
    }
    let folder = context.workspace.target.join("check");
    fs::create_dir_all(&folder)?;
    let file = folder.join("webdriver.json");
    fs::write(&file, capabilities.to_string())?;
    Ok(file)
}

/// Sums the counts in lines such as `test result: ok. 3 passed; 0 failed; ...`.
fn passed(printed: &str) -> usize {
    printed
        .lines()
        .filter_map(|line| line.split_once("test result: ok. "))
        .filter_map(|(_, rest)| rest.split(' ').next()?.parse::<usize>().ok())
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn passed_tests_are_counted_over_all_modules() {
        let printed = "test a ... ok\ntest result: ok. 3 passed; 0 failed; 0 ignored\n\
                       no tests to run!\ntest result: ok. 2 passed; 0 failed\n";
        assert_eq!(passed(printed), 5);
        assert_eq!(passed("no tests to run!\n"), 0);
        assert_eq!(passed("test result: FAILED. 1 passed; 1 failed\n"), 0);
    }
}
