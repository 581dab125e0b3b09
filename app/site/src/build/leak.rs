//! Refuses a module that carries a folder name of the machine it was built on. Panic messages hold source paths, and a
//! path under a home folder holds a person's name.

use std::path::MAIN_SEPARATOR;

use anyhow::{Result, bail};

use super::compile::private_folders;
use crate::workspace::Workspace;

/// An error when one of this machine's private folders is named in the module.
pub fn refuse(wasm: &[u8], workspace: &Workspace) -> Result<()> {
    for folder in private_folders(workspace) {
        let inside = format!("{}{MAIN_SEPARATOR}", folder.path.display());
        if contains(wasm, inside.as_bytes()) {
            bail!(
                "the built module names a folder of this machine (the one shown as {}); \
                 build again without extra compiler flags, or add the folder to `private_folders`",
                folder.shown_as
            );
        }
    }
    Ok(())
}

fn contains(haystack: &[u8], needle: &[u8]) -> bool {
    !needle.is_empty() && haystack.windows(needle.len()).any(|window| window == needle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    #[test]
    fn a_module_naming_the_workspace_is_refused() {
        let workspace =
            Workspace { root: PathBuf::from("/somewhere/private"), target: PathBuf::from("/somewhere/private/target") };
        let clean = b"\0asm src/main.rs";
        let leaking = b"\0asm /somewhere/private/app/src/main.rs";
        assert!(refuse(clean, &workspace).is_ok());
        assert!(refuse(leaking, &workspace).is_err());
    }
}
