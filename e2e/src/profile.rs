//! The folder of one browser: its data, its downloads and what it printed. It outlives the browser, so that
//! a killed browser can be started again on the same data.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use tempfile::TempDir;

/// A fresh folder, removed when the value is dropped.
pub struct Profile {
    folder: TempDir,
}

impl Profile {
    /// Makes the folder with its parts.
    pub fn new() -> Result<Self> {
        let folder = tempfile::Builder::new()
            .prefix("sidelight-e2e-")
            .tempdir()
            .context("cannot make a folder for the browser")?;
        let profile = Self { folder };
        fs::create_dir(profile.data())?;
        fs::create_dir(profile.downloads())?;
        fs::create_dir(profile.outputs())?;
        fs::create_dir(profile.scratch())?;
        Ok(profile)
    }

    /// All of it.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// Where the browser keeps what it stores.
    pub fn data(&self) -> PathBuf {
        self.folder.path().join("data")
    }

    /// Where the browser puts downloaded files.
    pub fn downloads(&self) -> PathBuf {
        self.folder.path().join("downloads")
    }

    /// Where the browser and its driver put temporary files, which killed ones leave behind.
    pub fn scratch(&self) -> PathBuf {
        self.folder.path().join("scratch")
    }

    /// What the camera shows: raw video (y4m), read when a page first asks for the camera.
    pub fn camera(&self) -> PathBuf {
        self.folder.path().join("camera.y4m")
    }

    /// A file for what the program `name` prints; a program started again gets a new one.
    pub fn output(&self, name: &str) -> PathBuf {
        let folder = self.outputs();
        (1..).map(|run| folder.join(format!("{name}-{run}.txt"))).find(|path| !path.exists()).unwrap_or(folder)
    }

    fn outputs(&self) -> PathBuf {
        self.folder.path().join("outputs")
    }
}
