//! Sizes and times as ratios, each beside a reference that was built and measured in the same run.
//!
//! A measurement, not a test: it says whether an aim was met and never fails because of it.

pub mod family;
mod plain;

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

use crate::build::{BuildOptions, build};
use crate::check::python_of;
use crate::workspace::{Workspace, cargo};

/// Brotli at its strongest, as a static host would store it.
const QUALITY: i32 = 11;

/// What the size of the app is meant to stay under.
const MOST_BYTES: usize = 450_000;

/// Closed visits of the largest practice that is timed.
const RECORDS: &str = "10000";

/// Builds the app and its references, then measures and prints one line for each figure.
pub fn bench() -> Result<()> {
    let workspace = Workspace::find()?;
    let folder = workspace.target.join("bench");
    fs::create_dir_all(&folder)?;
    for (name, package, second, public) in [
        ("app", "sidelight-app", Some("sidelight-worker"), "public"),
        ("empty", "sidelight-empty", None, "e2e/empty/public"),
        ("timing", "sidelight-timing", None, "e2e/empty/public"),
    ] {
        println!("\nBuilding {name}.");
        build(&BuildOptions {
            debug: false,
            out: folder.join(name),
            package: package.into(),
            second: second.map(str::to_owned),
            sheet: second.map(|_| "sidelight-sheet".to_owned()),
            public: public.into(),
        })?;
    }
    plain::write(&folder.join("empty"), &folder.join("static"))?;
    let still = folder.join("family-static");
    fs::create_dir_all(&still)?;
    fs::write(still.join("index.html"), "")?;
    family::write(&folder.join("app"), &still)?;

    println!("\nFigures:");
    let (app, empty) = (download(&folder.join("app"), is_first)?, download(&folder.join("empty"), is_first)?);
    let second = download(&folder.join("app"), |name| !is_first(name))?;
    let ratio = app as f64 / empty as f64;
    let met = |met: bool| if met { "met" } else { "missed" };
    println!("size app/empty: {app} B / {empty} B = {ratio:.2} (aim 2.5: {})", met(ratio <= 2.5));
    println!("size app: {app} B of brotli (aim {MOST_BYTES} B: {})", met(app < MOST_BYTES));
    println!("size second module: {second} B of brotli, loaded on demand");
    // The icon and the single file's template are no part of what a family's phone loads first.
    let page = download(&folder.join("app/sheet"), |name| name != "file.html")?;
    let still = download(&still.join("sheet"), |_| true)?;
    println!("size family's page/static page: {page} B / {still} B of brotli = {:.2}", page as f64 / still as f64);
    native(&workspace)?;
    print!("{}", timing(&workspace, &["--hand-over", RECORDS])?);
    run(cargo()
        .current_dir(&workspace.root)
        .args(["run", "--quiet", "-p", "sidelight-e2e", "--", "--bench"])
        .arg(&folder))
}

/// The assessment natively, at full speed, beside the reading of the same file and the same tests in Python.
fn native(workspace: &Workspace) -> Result<()> {
    let [reading, assessing, whole] = numbers(&timing(workspace, &[])?)?;
    println!("assess native: {assessing:.0} µs, reading the file {reading:.0} µs, ratio {:.2}", assessing / reading);
    let data = timing(workspace, &["--numbers"])?;
    let (python, folder) = python_of(workspace, "statistics")?;
    let mut script = Command::new(python);
    script.args(["-B", "timing.py"]).current_dir(folder).stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut script = script.spawn().context("Python could not be started")?;
    script.stdin.take().context("no input to Python")?.write_all(data.as_bytes())?;
    let told = script.wait_with_output()?;
    let [millis] = numbers(&String::from_utf8_lossy(&told.stdout))?;
    let ratio = 1000.0 * millis / whole;
    println!(
        "a visit with ten earlier ones, native: {:.2} ms; its tests alone with scipy and statsmodels: {millis:.1} ms, \
         {ratio:.0} times as long (aim 50: {})",
        whole / 1000.0,
        if ratio >= 50.0 { "met" } else { "missed" }
    );
    Ok(())
}

/// What the native timing prints.
fn timing(workspace: &Workspace, arguments: &[&str]) -> Result<String> {
    let output = cargo()
        .current_dir(&workspace.root)
        .args(["run", "--quiet", "--profile", "bench", "-p", "sidelight-timing", "--"])
        .args(arguments)
        .output()?;
    if !output.status.success() {
        bail!("the native timing failed: {}", String::from_utf8_lossy(&output.stderr));
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

fn numbers<const N: usize>(told: &str) -> Result<[f64; N]> {
    let numbers: Vec<f64> = told.split_whitespace().filter_map(|word| word.parse().ok()).collect();
    match numbers.try_into() {
        Ok(numbers) => Ok(numbers),
        Err(_) => bail!("a timing should print {N} numbers and printed: {told}"),
    }
}

/// Bytes of code and style in the files that are wanted: pictures and the manifest are the same for both.
fn download(folder: &Path, wanted: impl Fn(&str) -> bool) -> Result<usize> {
    let mut total = 0;
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        // The worker is fetched by the browser on its own, after the page works.
        let counted = path.extension().is_some_and(|ending| ["wasm", "js", "css", "html"].iter().any(|e| ending == *e))
            && path.file_name().and_then(|name| name.to_str()).is_some_and(|name| name != "sw.js" && wanted(name));
        if counted {
            total += compressed(&fs::read(&path)?)?;
        }
    }
    Ok(total)
}

/// Whether a file belongs to what every start loads.
fn is_first(name: &str) -> bool {
    !["worker-", "second-"].iter().any(|start| name.starts_with(start))
}

fn compressed(bytes: &[u8]) -> Result<usize> {
    let mut small = Vec::new();
    let parameters = brotli::enc::BrotliEncoderParams { quality: QUALITY, lgwin: 24, ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut small, &parameters)?;
    Ok(small.len())
}

fn run(command: &mut Command) -> Result<()> {
    let status = command.status().context("cargo could not be started")?;
    if !status.success() {
        bail!("a measurement in the browser failed; the lines above say which");
    }
    Ok(())
}
