//! Chromium by chromedriver, headless. The view is set later by the debugging protocol, see `browser`.

use std::process::Command;

use anyhow::Result;
use serde_json::json;

use super::{Driver, session};
use crate::process::{OwnedProcess, free_port};
use crate::profile::Profile;
use crate::tools;

/// Starts chromedriver for a browser on `profile`.
pub async fn start(profile: &Profile) -> Result<Driver> {
    let port = free_port()?;
    let mut command = Command::new(tools::CHROMEDRIVER.find()?);
    command.arg(format!("--port={port}"));
    let mut process = OwnedProcess::start(command, profile, "chromedriver")?;
    process.wait_for_port(port).await?;
    let capabilities = session(json!({
        "goog:chromeOptions": {
            "binary": tools::CHROMIUM.find()?,
            "args": [
                "--headless=new",
                // Chromium refuses its sandbox to root, and containers run as root.
                "--no-sandbox",
                "--disable-dev-shm-usage",
                "--disable-gpu",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                // A headless window gives no sound anyway; without this, sound waits for a gesture in some modes.
                "--mute-audio",
                // A camera that shows a file, once a spec has written one, and a user who allows it.
                "--use-fake-device-for-media-stream",
                "--use-fake-ui-for-media-stream",
                format!("--use-file-for-fake-video-capture={}", profile.camera().display()),
                format!("--user-data-dir={}", profile.data().display()),
            ],
            "prefs": {
                "download.default_directory": profile.downloads(),
                "download.prompt_for_download": false,
            },
        },
        "goog:loggingPrefs": { "browser": "ALL" },
    }));
    Ok(Driver { process, display: None, port, capabilities })
}
