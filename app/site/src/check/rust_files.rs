//! The format check. `cargo fmt` follows module declarations, so a file that only a macro names escapes it; here every
//! Rust file of the project is named outright.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Result, bail};

use super::Outcome;
use super::run::run;
use crate::workspace::cargo;

/// Command lines have a limit on some systems.
const FILES_A_CALL: usize = 50;

/// Checks the format of every file.
pub fn check_format(root: &Path) -> Result<Outcome> {
    let known_to_cargo = run(cargo().current_dir(root).args(["fmt", "--all", "--check"]))?;
    if known_to_cargo != Outcome::Passed {
        return Ok(Outcome::Failed("run `cargo fmt --all`".to_owned()));
    }
    let files = rust_files(root)?;
    for some in files.chunks(FILES_A_CALL) {
        let mut rustfmt = Command::new("rustfmt");
        rustfmt.current_dir(root).args(["--check", "--edition", "2024"]).args(some);
        if run(&mut rustfmt)? != Outcome::Passed {
            return Ok(Outcome::Failed("run `rustfmt --edition 2024` on the files above".to_owned()));
        }
    }
    println!("{} files are formatted.", files.len());
    Ok(Outcome::Passed)
}

/// Every Rust file that is in the repository or would be added to it; without git, every one outside build folders.
fn rust_files(root: &Path) -> Result<Vec<PathBuf>> {
    let files = from_git(root).map_or_else(|| from_folders(root), Ok)?;
    if files.is_empty() {
        bail!("no Rust file was found in {}", root.display());
    }
    Ok(files)
}

fn from_git(root: &Path) -> Option<Vec<PathBuf>> {
    let output = Command::new("git")
        .current_dir(root)
        .args(["ls-files", "--cached", "--others", "--exclude-standard", "-z", "--", "*.rs"])
        .stderr(Stdio::null())
        .output()
        .ok()?;
    if !output.status.success() {
        return None;
    }
    let names = String::from_utf8(output.stdout).ok()?;
    // A file that was deleted but not yet committed is still listed.
    Some(names.split_terminator('\0').map(|name| root.join(name)).filter(|path| path.is_file()).collect())
}

fn from_folders(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        let is_built = name.starts_with('.') || ["target", "dist", "node_modules"].contains(&name);
        if path.is_dir() && !is_built {
            files.extend(from_folders(&path)?);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
    Ok(files)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_ways_find_this_file() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let this = root.join("src/check/rust_files.rs");
        assert!(from_folders(root).expect("a folder").contains(&this));
        assert!(rust_files(root).expect("files").contains(&this));
    }
}
