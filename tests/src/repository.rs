//! The files of this repository, as the rules look at them.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The folder that holds everything.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the tests stand in the workspace").to_path_buf()
}

/// Every file that is tracked or about to be, by its path from the root, in order.
pub fn files() -> Vec<String> {
    let listed = Command::new("git")
        .args(["ls-files", "--cached", "--others", "--exclude-standard"])
        .current_dir(root())
        .output()
        .expect("git lists the files");
    assert!(listed.status.success(), "git cannot list the files: {}", String::from_utf8_lossy(&listed.stderr));
    let mut files: Vec<String> = String::from_utf8(listed.stdout)
        .expect("paths are UTF-8")
        .lines()
        .filter(|path| root().join(path).is_file())
        .map(String::from)
        .collect();
    files.sort();
    files.dedup();
    assert!(files.len() > 50, "only {} files were found", files.len());
    files
}

/// The files with this ending.
pub fn files_ending(ending: &str) -> Vec<String> {
    files().into_iter().filter(|path| path.ends_with(ending)).collect()
}

/// The text of a file.
pub fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}
