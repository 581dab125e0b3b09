//! Sites changed for one spec: copied, then edited.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};

/// Copies what is in the folder `from`, with all below it, into the folder `to`.
pub fn copy(from: &Path, to: &Path) -> Result<()> {
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let copied = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            fs::create_dir_all(&copied)?;
            copy(&entry.path(), &copied)?;
        } else {
            fs::copy(entry.path(), copied)?;
        }
    }
    Ok(())
}

/// Replaces `old` by `new` in a file, which must contain it.
pub fn edit(folder: &Path, file: &str, old: &str, new: &str) -> Result<()> {
    let path = folder.join(file);
    let text = fs::read_to_string(&path)?;
    ensure!(text.contains(old), "{file} does not contain {old:?}");
    fs::write(path, text.replace(old, new))?;
    Ok(())
}
