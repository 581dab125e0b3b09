//! Calls cargo for the WebAssembly target, adding the target first when it is missing.

use std::env;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

use crate::workspace::{Workspace, cargo, executable, rustup_add};

pub const TARGET: &str = "wasm32-unknown-unknown";

/// Leptos then draws every part of a view by one piece of code for its kind instead of one for each place it stands at,
/// which takes a sixth off the module.
const ONE_FOR_ALL: [&str; 2] = ["--cfg", "erase_components"];

/// A folder whose name must not get into the module, and what stands there instead.
pub struct PrivateFolder {
    pub path: PathBuf,
    pub shown_as: &'static str,
}

/// Compiles packages together and gives the path of each one's module, in order, before bindings are made.
pub fn modules(workspace: &Workspace, packages: &[&str], debug: bool) -> Result<Vec<PathBuf>> {
    ensure_target()?;
    let mut command = cargo();
    command.current_dir(&workspace.root).args(["build", "--target", TARGET]);
    for package in packages {
        command.args(["--package", package]);
    }
    command
        .arg("--message-format=json-render-diagnostics")
        .env("CARGO_ENCODED_RUSTFLAGS", rust_flags(workspace))
        .stdout(Stdio::piped());
    if !debug {
        command.arg("--release");
    }
    let output = command.spawn()?.wait_with_output()?;
    if !output.status.success() {
        bail!("the app did not compile; the messages above say where");
    }
    let messages = String::from_utf8_lossy(&output.stdout);
    let module = |package: &&str| {
        executable(&messages, package)
            .with_context(|| format!("cargo built the app but named no module; is {package} still a binary?"))
    };
    packages.iter().map(module).collect()
}

/// Adds the WebAssembly target when the toolchain lacks it.
pub fn ensure_target() -> Result<()> {
    if target_is_installed()? { Ok(()) } else { rustup_add("target", TARGET) }
}

/// Longest path first, so that a folder inside another one gets its own replacement.
pub fn private_folders(workspace: &Workspace) -> Vec<PrivateFolder> {
    let home = env::home_dir();
    let under_home = |name: &str| home.as_ref().map(|home| home.join(name));
    let from_env = |key: &str| env::var_os(key).map(PathBuf::from);
    let candidates = [
        (from_env("CARGO_HOME").or_else(|| under_home(".cargo")), "cargo"),
        (from_env("RUSTUP_HOME").or_else(|| under_home(".rustup")), "rustup"),
        (Some(workspace.target.clone()), "target"),
        (Some(workspace.root.clone()), "sidelight"),
        (home.clone(), "home"),
    ];
    let registries = candidates[0].0.iter().flat_map(|cargo_home| registries(cargo_home));
    let mut folders: Vec<PrivateFolder> = registries
        .map(|path| (Some(path), "crates"))
        .chain(candidates.clone())
        .filter_map(|(path, shown_as)| path.map(|path| PrivateFolder { path, shown_as }))
        // A root folder as home would match every path and says nothing about anyone.
        .filter(|folder| folder.path.parent().is_some())
        .collect();
    folders.sort_by_key(|folder| std::cmp::Reverse(folder.path.as_os_str().len()));
    folders
}

/// Sources are kept in a folder named after the registry they came from, which differs between machines while the
/// sources do not.
fn registries(cargo_home: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(cargo_home.join("registry").join("src"));
    entries.into_iter().flatten().flatten().map(|entry| entry.path()).collect()
}

fn target_is_installed() -> Result<bool> {
    let rustc = env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let output = Command::new(rustc)
        .args(["--print", "target-libdir", "--target", TARGET])
        .output()
        .context("rustc could not be started; install Rust through rustup")?;
    let folder = String::from_utf8_lossy(&output.stdout);
    Ok(output.status.success() && Path::new(folder.trim()).is_dir())
}

/// Flags are joined by the unit separator, which unlike a blank may not occur in a path. Later remappings win, so the
/// longest path comes last.
fn rust_flags(workspace: &Workspace) -> String {
    let own = env::var("CARGO_ENCODED_RUSTFLAGS").ok().or_else(|| {
        let plain = env::var("RUSTFLAGS").ok()?;
        Some(plain.split_whitespace().collect::<Vec<_>>().join("\u{1f}"))
    });
    let remaps = private_folders(workspace)
        .into_iter()
        .rev()
        .map(|folder| format!("--remap-path-prefix={}={}", folder.path.display(), folder.shown_as));
    let ours = ONE_FOR_ALL.map(String::from).into_iter().chain(remaps);
    own.filter(|flags| !flags.is_empty()).into_iter().chain(ours).collect::<Vec<_>>().join("\u{1f}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn workspace() -> Workspace {
        Workspace { root: PathBuf::from("/projects/site one"), target: PathBuf::from("/projects/site one/target") }
    }

    #[test]
    fn flags_keep_blanks_in_paths_and_put_the_innermost_folder_last() {
        let flags = rust_flags(&workspace());
        let root = flags.find("=/projects/site one=sidelight").expect("root");
        let target = flags.find("=/projects/site one/target=target").expect("target");
        assert!(root < target);
    }
}
