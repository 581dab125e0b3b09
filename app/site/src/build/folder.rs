//! Reads the static files and writes the site. Never deletes what another program put into a folder.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

use super::bundle::{Bundle, Files, SERVICE_WORKER};
use super::sheet::is_worker;

/// The first line of our service worker; a folder that holds it was written by this builder.
const MARK: &str = "// Sidelight service worker.";

/// Every file below a folder, hidden ones left out. A missing folder is an empty one.
pub fn read(root: &Path) -> Result<Files> {
    let mut files = Files::new();
    if root.is_dir() {
        collect(root, "", &mut files)?;
    }
    Ok(files)
}

/// An error when the folder holds something that is not a site of ours.
pub fn refuse_foreign(dir: &Path) -> Result<()> {
    if !dir.exists() {
        return Ok(());
    }
    let entries = fs::read_dir(dir).with_context(|| format!("{} is not a folder that can be read", dir.display()))?;
    let ours = fs::read_to_string(dir.join(SERVICE_WORKER)).is_ok_and(|text| text.starts_with(MARK));
    if !ours && entries.count() > 0 {
        bail!(
            "{} holds files that are not a built site, and they would be lost; give another folder with --out",
            dir.display()
        );
    }
    Ok(())
}

/// Writes the site over an older one: first what is new, the worker last, then away with what is left over, so that a
/// server can hand out the folder meanwhile.
pub fn write(dir: &Path, bundle: &Bundle) -> Result<()> {
    refuse_foreign(dir)?;
    let (worker, others): (Vec<_>, Vec<_>) = bundle.files.iter().partition(|(path, _)| is_worker(path));
    for (path, bytes) in others.into_iter().chain(worker) {
        let file = dir.join(path);
        if let Some(parent) = file.parent() {
            fs::create_dir_all(parent).with_context(|| format!("cannot make {}", parent.display()))?;
        }
        fs::write(&file, bytes).with_context(|| format!("cannot write {}", file.display()))?;
    }
    let present = read(dir)?;
    for path in present.keys().filter(|path| !bundle.files.contains_key(*path)) {
        fs::remove_file(dir.join(path)).with_context(|| format!("cannot remove {path}"))?;
    }
    remove_empty_folders(dir)?;

    let written: BTreeSet<String> = read(dir)?.into_keys().collect();
    let wanted: BTreeSet<String> = bundle.files.keys().cloned().collect();
    if written != wanted {
        bail!("{} changed while it was written; build again", dir.display());
    }
    Ok(())
}

fn collect(folder: &Path, prefix: &str, files: &mut Files) -> Result<()> {
    let entries = fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    for entry in entries {
        let entry = entry?;
        let name = entry.file_name();
        let Some(name) = name.to_str() else {
            bail!("{} has a name that is not Unicode; rename it", entry.path().display());
        };
        if name.starts_with('.') {
            continue;
        }
        let path = format!("{prefix}{name}");
        if entry.path().is_dir() {
            collect(&entry.path(), &format!("{path}/"), files)?;
        } else {
            let bytes = fs::read(entry.path()).with_context(|| format!("cannot read {path}"))?;
            files.insert(path, bytes);
        }
    }
    Ok(())
}

fn remove_empty_folders(folder: &Path) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            remove_empty_folders(&path)?;
            if fs::read_dir(&path)?.next().is_none() {
                fs::remove_dir(&path)?;
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    struct Scratch(PathBuf);

    impl Scratch {
        fn new(name: &str) -> Self {
            let dir = std::env::temp_dir().join(format!("sidelight-{name}-{}", std::process::id()));
            let _ = fs::remove_dir_all(&dir);
            Self(dir)
        }
    }

    impl Drop for Scratch {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    fn site(files: &[(&str, &str)]) -> Bundle {
        let mut files: Files =
            files.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect();
        files.insert(SERVICE_WORKER.to_owned(), MARK.as_bytes().to_vec());
        Bundle { files, version: String::new(), wasm_bytes: 0, second_bytes: None, sheet_bytes: None }
    }

    #[test]
    fn a_new_site_replaces_an_old_one_whole() {
        let scratch = Scratch::new("replace");
        write(&scratch.0, &site(&[("old/app-1.js", "1"), ("index.html", "1")])).expect("first");
        let second = site(&[("app-2.js", "2"), ("index.html", "2")]);
        write(&scratch.0, &second).expect("second");
        assert_eq!(read(&scratch.0).expect("files"), second.files);
        assert!(!scratch.0.join("old").exists());
    }

    #[test]
    fn a_folder_of_somebody_elses_is_left_alone() {
        let scratch = Scratch::new("foreign");
        fs::create_dir_all(&scratch.0).expect("a folder");
        fs::write(scratch.0.join("notes.txt"), "keep").expect("a file");
        assert!(write(&scratch.0, &site(&[("index.html", "")])).is_err());
        let kept = fs::read_to_string(scratch.0.join("notes.txt"));
        assert_eq!(kept.expect("the file"), "keep");
    }

    #[test]
    fn the_worker_template_begins_with_the_mark() {
        assert!(include_str!("../../assets/sw.js").starts_with(MARK));
    }
}
