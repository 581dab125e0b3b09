//! The three engines: how each is started and what each can do.

mod chromium;
mod firefox;
mod webkit;

use std::fmt;

use anyhow::Result;
use clap::ValueEnum;
use fantoccini::wd::Capabilities;
use serde_json::{Value, json};

use crate::process::OwnedProcess;
use crate::profile::Profile;
use crate::viewport::Viewport;

/// A browser engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Engine {
    /// Chromium, which most Android phones use.
    Chromium,
    /// Firefox.
    Firefox,
    /// WebKitGTK: the WebKit engine on Linux. It is no iPhone: no touch, no iOS storage rules, no home screen.
    Webkit,
}

/// Every engine.
pub const ALL: &[Engine] = &[Engine::Chromium, Engine::Firefox, Engine::Webkit];

/// Chromium alone, for what only its debugging protocol can tell.
pub const CHROMIUM: &[Engine] = &[Engine::Chromium];

/// The two engines that most phones have, and the quicker ones to start.
pub const PHONES: &[Engine] = &[Engine::Chromium, Engine::Webkit];

/// The engines whose stored data outlive the browser under automation; that of WebKitGTK is forgotten.
pub const KEEPING: &[Engine] = &[Engine::Chromium, Engine::Firefox];

/// The engines that can print a page to PDF under automation.
pub const PRINTING: &[Engine] = &[Engine::Chromium, Engine::Firefox];

/// A driver that listens, and what to ask it for.
pub struct Driver {
    /// The driver and, below it, its browser.
    pub process: OwnedProcess,
    /// The display the browser draws on, where it needs one. It is dropped after the driver.
    pub display: Option<OwnedProcess>,
    /// Where the driver listens on this machine.
    pub port: u16,
    /// The session to ask for.
    pub capabilities: Capabilities,
}

impl Driver {
    /// Ends the driver, its browser and its display at once.
    pub fn kill(&mut self) {
        self.process.kill();
        if let Some(display) = &mut self.display {
            display.kill();
        }
    }
}

impl Engine {
    /// Starts the driver for a browser on `profile` that is to have `viewport`.
    pub async fn start(self, profile: &Profile, viewport: Viewport) -> Result<Driver> {
        match self {
            Self::Chromium => chromium::start(profile).await,
            Self::Firefox => firefox::start(profile, viewport).await,
            Self::Webkit => webkit::start(profile).await,
        }
    }

    /// The errors of pages that the programs of the engine printed, which only Firefox does.
    pub fn printed_errors(self, printed: &str) -> Vec<String> {
        match self {
            Self::Chromium | Self::Webkit => Vec::new(),
            Self::Firefox => printed.lines().filter(|line| firefox::is_error(line)).map(str::to_owned).collect(),
        }
    }
}

impl fmt::Display for Engine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::Webkit => "webkit",
        })
    }
}

/// Adds what every engine is asked for: bounded waits and no page that stops on a question.
fn session(specific: Value) -> Capabilities {
    let mut capabilities = Capabilities::new();
    capabilities.insert("timeouts".to_owned(), json!({ "script": 30_000, "pageLoad": 30_000, "implicit": 0 }));
    if let Value::Object(specific) = specific {
        capabilities.extend(specific);
    }
    capabilities
}
