//! Builds the site: compile the app, its second module and the family's page to WebAssembly, make their JavaScript bindings, name files by their content, list
//! them for the service worker, and write one folder that works from any static host and any base path.

mod bind;
mod bundle;
pub(crate) mod compile;
pub(crate) mod fingerprint;
mod folder;
mod leak;
mod sheet;

pub use self::fingerprint::integrity;

use std::iter;
use std::path::PathBuf;
use std::time::Instant;

use anyhow::{Context as _, Result};

use crate::workspace::Workspace;

/// What to build and where to put it.
#[derive(Clone, Debug)]
pub struct BuildOptions {
    /// Unoptimised, with readable names in stack traces.
    pub debug: bool,
    /// The folder to write; relative paths start at the workspace root.
    pub out: PathBuf,
    /// The package that is the app.
    pub package: String,
    /// The package that is its second module, if it has one.
    pub second: Option<String>,
    /// The package that is the family's page, if there is one.
    pub sheet: Option<String>,
    /// The folder of files that are copied as they are.
    pub public: PathBuf,
}

impl Default for BuildOptions {
    fn default() -> Self {
        Self {
            debug: false,
            out: "dist".into(),
            package: "sidelight-app".into(),
            second: Some("sidelight-worker".into()),
            sheet: Some("sidelight-sheet".into()),
            public: "public".into(),
        }
    }
}

/// A finished site.
#[derive(Clone, Debug)]
pub struct Site {
    /// The folder it was written to.
    pub dir: PathBuf,
    /// Names the content: equal content, equal version.
    pub version: String,
}

/// Builds the site and says on the terminal what it is doing.
pub fn build(options: &BuildOptions) -> Result<Site> {
    let workspace = Workspace::find()?;
    let dir = workspace.root.join(&options.out);
    folder::refuse_foreign(&dir)?;

    let started = Instant::now();
    let profile = if options.debug { "debug" } else { "release" };
    println!("Building the app for WebAssembly ({profile}).");
    let packages = iter::once(&options.package).chain(&options.second).chain(&options.sheet);
    let packages: Vec<&str> = packages.map(String::as_str).collect();
    let modules = compile::modules(&workspace, &packages, options.debug)?;

    println!("Making the JavaScript bindings.");
    let bindings = modules.iter().map(|module| bind::bindings(module, options.debug));
    let mut bindings = bindings.collect::<Result<Vec<_>>>()?.into_iter();
    // While debugging, the library that embeds the age library's texts names their folder; such a site stays at home.
    if !options.debug {
        for made in bindings.as_slice() {
            leak::refuse(&made.wasm, &workspace)?;
        }
    }

    let public = folder::read(&workspace.root.join(&options.public))?;
    let first = bindings.next().context("the app has no module")?;
    let second = options.second.as_ref().and_then(|_| bindings.next());
    let sheet = options.sheet.as_ref().and_then(|_| bindings.next());
    let bundle = bundle::bundle(bundle::Modules { first, second, sheet }, public)?;
    folder::write(&dir, &bundle)?;

    let second = bundle.second_bytes.map(|bytes| format!(", {} kB in the second module", bytes / 1000));
    let sheet = bundle.sheet_bytes.map(|bytes| format!(", {} kB in the family's page", bytes / 1000));
    println!(
        "Built {} in {:.1} s: {} files, {} kB of WebAssembly{}{}, build {}.",
        dir.display(),
        started.elapsed().as_secs_f32(),
        bundle.files.len(),
        bundle.wasm_bytes / 1000,
        second.unwrap_or_default(),
        sheet.unwrap_or_default(),
        bundle.version
    );
    Ok(Site { dir, version: bundle.version })
}
