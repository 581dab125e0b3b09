//! Sizes and times as ratios, each beside a reference that was built and measured in the same run.
//!
//! A measurement, not a test: it says whether an aim was met and never fails because of it.

mod plain;

use std::fs;
use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::build::{BuildOptions, build};
use crate::workspace::{Workspace, cargo};

/// Brotli at its strongest, as a static host would store it.
const QUALITY: i32 = 11;

/// What the size of the app is meant to stay under.
const MOST_BYTES: usize = 450_000;

/// Builds the app and its references, then measures and prints one line for each figure.
pub fn bench() -> Result<()> {
    let workspace = Workspace::find()?;
    let folder = workspace.target.join("bench");
    fs::create_dir_all(&folder)?;
    for (name, package, public) in [
        ("app", "sidelight-app", "public"),
        ("empty", "sidelight-empty", "e2e/empty/public"),
        ("timing", "sidelight-timing", "e2e/empty/public"),
    ] {
        println!("\nBuilding {name}.");
        let out = folder.join(name);
        build(&BuildOptions { out, package: package.into(), public: public.into(), ..BuildOptions::default() })?;
    }
    plain::write(&folder.join("empty"), &folder.join("static"))?;

    println!("\nFigures:");
    let (app, empty) = (download(&folder.join("app"))?, download(&folder.join("empty"))?);
    let ratio = app as f64 / empty as f64;
    let met = |met: bool| if met { "met" } else { "missed" };
    println!("size app/empty: {app} B / {empty} B = {ratio:.2} (aim 2.5: {})", met(ratio <= 2.5));
    println!("size app: {app} B of brotli (aim {MOST_BYTES} B: {})", met(app < MOST_BYTES));
    native(&workspace)?;
    run(cargo()
        .current_dir(&workspace.root)
        .args(["run", "--quiet", "-p", "sidelight-e2e", "--", "--bench"])
        .arg(&folder))
}

/// The assessment natively, at full speed, beside the reading of the same file.
fn native(workspace: &Workspace) -> Result<()> {
    let output = cargo()
        .current_dir(&workspace.root)
        .args(["run", "--quiet", "--profile", "bench", "-p", "sidelight-timing"])
        .output()?;
    let told = String::from_utf8_lossy(&output.stdout);
    let numbers: Vec<f64> = told.split_whitespace().filter_map(|word| word.parse().ok()).collect();
    let [assess, read] = numbers[..] else {
        bail!("the native timing printed no two numbers: {}", String::from_utf8_lossy(&output.stderr));
    };
    println!("assess native: {assess:.0} µs, reading the file {read:.0} µs, ratio {:.2}", assess / read);
    Ok(())
}

/// Bytes that a first visit downloads for code and style: pictures and the manifest are the same for both.
fn download(folder: &Path) -> Result<usize> {
    let mut total = 0;
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        // The worker is fetched by the browser on its own, after the page works.
        let counted = path.extension().is_some_and(|ending| ["wasm", "js", "css", "html"].iter().any(|e| ending == *e))
            && path.file_name().is_some_and(|name| name != "sw.js");
        if counted {
            total += compressed(&fs::read(&path)?)?;
        }
    }
    Ok(total)
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
