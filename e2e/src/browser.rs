//! A browser on a profile of its own: started, ended politely, killed, started again on the same data.

use std::fs;
use std::io::Write as _;
use std::path::PathBuf;
use std::sync::Arc;

use anyhow::{Context, Result, anyhow, ensure};
use fantoccini::ClientBuilder;
use hyper_util::client::legacy::connect::HttpConnector;

use crate::engine::{Driver, Engine};
use crate::page::{Page, Record};
use crate::profile::Profile;
use crate::search::{Found, count_of_bytes, search};
use crate::viewport::Viewport;
use crate::wait::{PATIENCE, poll};

/// A browser that belongs to one spec. Dropping it ends every process it started.
pub struct Browser {
    engine: Engine,
    viewport: Viewport,
    site: String,
    record: Arc<Record>,
    // Fields are dropped in this order: first the processes, then the folder they write to.
    running: Option<Running>,
    profile: Profile,
    printed_before: String,
}

struct Running {
    page: Page,
    driver: Driver,
}

impl Browser {
    /// Starts a browser with fresh data and a view of exactly `viewport`, for the site at `site`.
    pub async fn start(engine: Engine, viewport: Viewport, site: &str) -> Result<Self> {
        let mut browser = Self {
            engine,
            viewport,
            site: site.to_owned(),
            record: Arc::default(),
            running: None,
            profile: Profile::new()?,
            printed_before: String::new(),
        };
        browser.reopen().await?;
        Ok(browser)
    }

    /// The page of the running browser.
    pub fn page(&self) -> Result<Page> {
        let running = self.running.as_ref().ok_or_else(|| anyhow!("the browser is not running"))?;
        Ok(running.page.clone())
    }

    /// Ends the browser as its user would, so that it may write what it holds.
    pub async fn close(&mut self) -> Result<()> {
        if let Some(running) = self.running.take() {
            let ended = running.page.client().clone().close().await;
            self.printed_before += &running.driver.process.printed();
            ended?;
        }
        Ok(())
    }

    /// Ends the browser without warning, as a crash would.
    pub fn kill(&mut self) {
        if let Some(mut running) = self.running.take() {
            running.driver.kill();
            self.printed_before += &running.driver.process.printed();
        }
    }

    /// Starts the browser on the data it had. It must have been closed or killed before.
    pub async fn reopen(&mut self) -> Result<Page> {
        ensure!(self.running.is_none(), "the browser is still running");
        let driver = self.engine.start(&self.profile, self.viewport).await?;
        let client = ClientBuilder::new(HttpConnector::new())
            .capabilities(driver.capabilities.clone())
            .connect(&format!("http://127.0.0.1:{}", driver.port))
            .await
            .with_context(|| format!("{} did not start: {}", self.engine, driver.process.printed()))?;
        let page = Page::new(client, self.engine, self.site.clone(), Arc::clone(&self.record));
        self.running = Some(Running { page: page.clone(), driver });
        page.resize(self.viewport).await?;
        Ok(page)
    }

    /// Leaves half a record at the end of Chromium's log, as a kill in the middle of a write does: the head of a record of
    /// 100 bytes, and 20 of them.
    pub fn tear_database_log(&self) -> Result<()> {
        let mut torn = [0; 27];
        (torn[4], torn[6]) = (100, 1);
        let mut count = 0;
        for folder in fs::read_dir(self.profile.data().join("Default/IndexedDB"))?.flatten() {
            for file in fs::read_dir(folder.path())?.flatten().map(|file| file.path()) {
                if file.extension().is_some_and(|ending| ending == "log") {
                    fs::OpenOptions::new().append(true).open(file)?.write_all(&torn)?;
                    count += 1;
                }
            }
        }
        ensure!(count > 0, "Chromium has no log: {}", self.database_log());
        Ok(())
    }

    /// What Chromium's database says of its last two openings, and which files it has: whether it was found as it was left.
    pub fn database_log(&self) -> String {
        let databases = self.profile.data().join("Default/IndexedDB");
        let mut told = Vec::new();
        for folder in fs::read_dir(databases).into_iter().flatten().flatten() {
            for file in fs::read_dir(folder.path()).into_iter().flatten().flatten() {
                let name = file.file_name().to_string_lossy().into_owned();
                let size = file.metadata().map(|it| it.len()).unwrap_or_default();
                let text = if name.starts_with("LOG") {
                    fs::read_to_string(file.path()).unwrap_or_default()
                } else {
                    String::new()
                };
                told.push(format!("{name} ({size} bytes) {}", text.trim()));
            }
        }
        told.sort();
        told.join("\n")
    }

    /// Gives the view another size.
    pub async fn resize(&mut self, viewport: Viewport) -> Result<()> {
        self.viewport = viewport;
        self.page()?.resize(viewport).await
    }

    /// The error messages of all pages so far, of this and of earlier runs on the profile.
    pub async fn console_errors(&self) -> Result<Vec<String>> {
        let Some(running) = &self.running else {
            return Ok(self.engine.printed_errors(&self.printed_before));
        };
        let printed = format!("{}{}", self.printed_before, running.driver.process.printed());
        let mut errors = self.engine.printed_errors(&printed);
        errors.extend(running.page.logged_errors().await?);
        Ok(errors)
    }

    /// Looks for words in everything the browser and its driver have left on the disk. It must have ended before.
    pub fn search(&self, words: &[&str]) -> Result<Found> {
        ensure!(self.running.is_none(), "the browser is still running");
        search(self.profile.folder(), words)
    }

    /// How many of these strings of bytes stand somewhere on the disk. The browser must have ended before.
    pub fn search_bytes(&self, all: &[Vec<u8>]) -> Result<usize> {
        ensure!(self.running.is_none(), "the browser is still running");
        count_of_bytes(self.profile.folder(), all)
    }

    /// Where a spec writes what the camera is to show, before the page asks for it.
    pub fn camera(&self) -> PathBuf {
        self.profile.camera()
    }

    /// Waits until a file whose name ends in `suffix` has been downloaded whole, and gives its path.
    pub async fn wait_for_download(&self, suffix: &str) -> Result<PathBuf> {
        let folder = self.profile.downloads();
        poll(&format!("a download ending in {suffix}"), PATIENCE, async || {
            let mut names = Vec::new();
            for entry in fs::read_dir(&folder)? {
                names.push(entry?.path());
            }
            let partial = |path: &PathBuf| {
                let name = path.to_string_lossy();
                name.ends_with(".part") || name.ends_with(".crdownload") || name.ends_with(".wkdownload")
            };
            if names.iter().any(partial) {
                return Ok(None);
            }
            let whole = |path: &PathBuf| {
                let filled = fs::metadata(path).is_ok_and(|data| data.len() > 0);
                filled && path.to_string_lossy().ends_with(suffix)
            };
            Ok(names.into_iter().find(whole))
        })
        .await
    }
}
