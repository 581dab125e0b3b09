//! Where things lie, asked from cargo itself, and how cargo is called from inside a cargo command.

use std::env;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

/// The folders every command works with.
#[derive(Clone, Debug)]
pub struct Workspace {
    pub root: PathBuf,
    pub target: PathBuf,
}

impl Workspace {
    /// Finds the workspace around the current folder.
    pub fn find() -> Result<Self> {
        let output = cargo()
            .args(["metadata", "--no-deps", "--format-version", "1"])
            .stderr(Stdio::inherit())
            .output()
            .context("cargo could not be started; install Rust through rustup")?;
        if !output.status.success() {
            bail!("no workspace here; run this command inside the project's folder");
        }
        let metadata: serde_json::Value =
            serde_json::from_slice(&output.stdout).context("cargo metadata was unreadable")?;
        let folder = |key: &str| {
            let path = metadata[key].as_str().map(PathBuf::from);
            path.with_context(|| format!("cargo metadata has no {key}"))
        };
        Ok(Self { root: folder("workspace_root")?, target: folder("target_directory")? })
    }
}

/// A cargo command. What `cargo run` tells a program about its own package is taken out, because build scripts of the
/// inner build would take it for theirs.
pub fn cargo() -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    for (key, _) in env::vars_os() {
        let name = key.to_string_lossy();
        let about_package =
            ["CARGO_PKG_", "CARGO_MANIFEST_", "CARGO_BIN_"].iter().any(|prefix| name.starts_with(prefix));
        if about_package {
            command.env_remove(&key);
        }
    }
    command
}

/// The program that cargo built for a target of this name, read from its JSON messages.
pub fn executable(messages: &str, target_name: &str) -> Option<PathBuf> {
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| message["reason"] == "compiler-artifact")
        .filter(|message| message["target"]["name"] == target_name)
        .find_map(|message| message["executable"].as_str().map(PathBuf::from))
}

/// Adds a part of the toolchain that cargo calls by this name when it is missing.
pub fn ensure_component(name: &str) -> Result<()> {
    let command = if name == "rustfmt" { "fmt" } else { name };
    let answer = cargo().args([command, "--version"]).output();
    if answer.is_ok_and(|output| output.status.success()) { Ok(()) } else { rustup_add("component", name) }
}

/// Adds a target or component through rustup, which picks the toolchain that the project is pinned to.
pub fn rustup_add(kind: &str, name: &str) -> Result<()> {
    println!("Adding what the toolchain lacks: rustup {kind} add {name}");
    match Command::new("rustup").args([kind, "add", name]).status() {
        Ok(status) if status.success() => Ok(()),
        Ok(_) => bail!("rustup could not add the {kind} {name}; its message above says why"),
        Err(_) => bail!(
            "the toolchain lacks the {kind} {name} and rustup was not found; \
             install Rust through rustup, or add the {kind} with your own package manager"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_workspace_around_this_crate_is_found() {
        let workspace = Workspace::find().expect("a workspace");
        assert!(workspace.root.join("app/site/Cargo.toml").is_file());
        assert!(workspace.target.is_absolute());
    }

    #[test]
    fn an_inner_cargo_is_not_told_about_this_package() {
        let removed = cargo().get_envs().any(|(key, value)| key == "CARGO_PKG_NAME" && value.is_none());
        // Cargo sets this variable for every test it runs.
        assert!(env::var_os("CARGO_PKG_NAME").is_some());
        assert!(removed);
    }

    #[test]
    fn a_program_is_read_from_cargos_messages() {
        let messages = concat!(
            r#"{"reason":"compiler-artifact","target":{"name":"leptos"},"executable":null}"#,
            "\nnot json\n",
            r#"{"reason":"compiler-artifact","target":{"name":"sidelight-app"},"executable":"/t/sidelight-app.wasm"}"#,
            "\n",
            r#"{"reason":"build-finished","success":true}"#,
        );
        assert_eq!(executable(messages, "sidelight-app"), Some(PathBuf::from("/t/sidelight-app.wasm")));
        assert_eq!(executable(messages, "leptos"), None);
    }
}
