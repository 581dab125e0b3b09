//! A spec: a name, the engines and the view it runs in, and what it does.

use std::fmt;
use std::future::Future;
use std::path::{Path, PathBuf};
use std::pin::Pin;
use std::time::Duration;

use anyhow::Result;

use crate::browser::Browser;
use crate::engine::{ALL, Engine};
use crate::page::Page;
use crate::site::Site;
use crate::viewport::{PHONE, Viewport};

/// One thing that must hold in a real browser.
pub struct Spec {
    /// What must hold, in a few words.
    pub name: &'static str,
    /// Where it must hold.
    pub engines: &'static [Engine],
    /// Where the everyday check runs it, of these: not in an engine whose part in it other specs show already.
    pub everyday: &'static [Engine],
    /// The size of the view it starts in.
    pub viewport: Viewport,
    /// How long it may take, or something hangs.
    pub limit: Duration,
    /// What is done to show it.
    pub run: Run,
}

/// What a spec does.
pub type Run = for<'s> fn(&'s mut Stage) -> Pin<Box<dyn Future<Output = Result<()>> + 's>>;

/// What a spec works with: a site and a browser of its own.
pub struct Stage {
    /// The browser, dropped before the site it shows.
    pub browser: Browser,
    /// The site and its server.
    pub site: Site,
    /// The engine of the browser.
    pub engine: Engine,
    shots: PathBuf,
    notes: Vec<String>,
}

/// The error of a spec that cannot run here. It is counted as skipped, never as passed.
#[derive(Debug)]
pub struct Skip(pub String);

/// A spec for every engine on a phone, made from an async function.
#[macro_export]
macro_rules! spec {
    ($name:literal, $function:path) => {
        $crate::spec::Spec::new($name, |stage| Box::pin($function(stage)))
    };
}

impl Spec {
    /// A spec for every engine on a phone.
    pub const fn new(name: &'static str, run: Run) -> Self {
        Self { name, engines: ALL, everyday: ALL, viewport: PHONE, limit: Duration::from_secs(240), run }
    }

    /// The same, only for some engines.
    pub const fn on(mut self, engines: &'static [Engine]) -> Self {
        self.engines = engines;
        self
    }

    /// The same, run every day only there; elsewhere when all is asked for.
    pub const fn everyday(mut self, engines: &'static [Engine]) -> Self {
        self.everyday = engines;
        self
    }

    /// Whether it is run in this engine.
    pub fn runs_in(&self, engine: Engine, everyday: bool) -> bool {
        self.engines.contains(&engine) && (!everyday || self.everyday.contains(&engine))
    }

    /// The same, with so many seconds of time.
    pub const fn within(mut self, seconds: u64) -> Self {
        self.limit = Duration::from_secs(seconds);
        self
    }

    /// The same, in another view.
    pub const fn sized(mut self, viewport: Viewport) -> Self {
        self.viewport = viewport;
        self
    }
}

impl Stage {
    /// Serves `dist` and opens a browser for it.
    pub async fn set(spec: &Spec, engine: Engine, dist: &Path, shots: &Path) -> Result<Self> {
        let site = Site::start(dist)?;
        let browser = Browser::start(engine, spec.viewport, &site.url()).await?;
        Ok(Self { browser, site, engine, shots: shots.to_path_buf(), notes: Vec::new() })
    }

    /// The page of the browser.
    pub fn page(&self) -> Result<Page> {
        self.browser.page()
    }

    /// Opens the start of the site and waits until the service worker can serve it without the network.
    pub async fn install(&self) -> Result<Page> {
        let page = self.page()?;
        page.open("").await?;
        page.wait_until(
            "the service worker to control the page",
            "!!navigator.serviceWorker.controller && navigator.serviceWorker.controller.state === 'activated'",
        )
        .await?;
        Ok(page)
    }

    /// Says something about a run that passed, such as a count.
    pub fn note(&mut self, note: impl Into<String>) {
        self.notes.push(note.into());
    }

    /// What was said, in order.
    pub fn notes(&self) -> &[String] {
        &self.notes
    }

    /// Saves a picture of the view as `{engine}-{name}.png` among the shots.
    pub async fn shoot(&self, name: &str) -> Result<PathBuf> {
        let picture = self.page()?.screenshot().await?;
        let path = self.shots.join(format!("{}-{}.png", self.engine, file_name(name)));
        std::fs::create_dir_all(&self.shots)?;
        std::fs::write(&path, picture)?;
        Ok(path)
    }

    /// Saves all that may explain a failure: picture, source and console.
    pub async fn save_evidence(&self, name: &str) -> Result<&Path> {
        self.shoot(name).await?;
        let stem = self.shots.join(format!("{}-{}", self.engine, file_name(name)));
        let page = self.page()?;
        std::fs::write(stem.with_extension("html"), page.client().source().await?)?;
        let console = self.browser.console_errors().await?.join("\n");
        std::fs::write(stem.with_extension("console.txt"), console)?;
        Ok(&self.shots)
    }
}

impl fmt::Display for Skip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Skip {}

/// Words with dashes between them, fit for a file on every system.
fn file_name(name: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    name.chars().map(plain).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_are_plain() {
        assert_eq!(file_name("Offline: reload & tab"), "offline--reload---tab");
    }
}
