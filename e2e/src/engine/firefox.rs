//! Firefox by geckodriver, headless.

use std::fs;
use std::process::Command;

use anyhow::{Context, Result};
use serde_json::json;

use super::{Driver, session};
use crate::process::{OwnedProcess, free_port};
use crate::profile::Profile;
use crate::tools;
use crate::viewport::Viewport;

/// Starts geckodriver for a browser on `profile`.
pub async fn start(profile: &Profile, viewport: Viewport) -> Result<Driver> {
    narrow_windows(profile)?;
    let port = free_port()?;
    let mut command = Command::new(tools::GECKODRIVER.find()?);
    command
        .arg(format!("--port={port}"))
        // The default is one fixed port, which two browsers at once would fight over.
        .arg("--websocket-port=0")
        // A screen that holds every viewport at its pixel ratio.
        .env("MOZ_HEADLESS_WIDTH", "4000")
        .env("MOZ_HEADLESS_HEIGHT", "4000");
    let mut process = OwnedProcess::start(command, profile, "geckodriver")?;
    process.wait_for_port(port).await?;
    let capabilities = session(json!({
        "moz:firefoxOptions": {
            "binary": tools::FIREFOX.find()?,
            "args": ["-headless", "-profile", profile.data()],
            "prefs": {
                "browser.download.folderList": 2,
                "browser.download.dir": profile.downloads(),
                "browser.helperApps.neverAsk.saveToDisk":
                    "text/html,text/plain,text/csv,application/json,application/pdf,application/octet-stream",
                "browser.download.always_ask_before_handling_new_types": false,
                "browser.download.alwaysOpenPanel": false,
                "devtools.console.stdout.chrome": false,
                "devtools.console.stdout.content": true,
                "dom.storageManager.prompt.testing": true,
                "dom.storageManager.prompt.testing.allow": true,
                "dom.w3c_touch_events.enabled": i32::from(viewport.handheld),
                "layout.css.devPixelsPerPx": format!("{:.1}", viewport.ratio),
                "media.navigator.permission.disabled": true,
                "media.navigator.streams.fake": true,
                "toolkit.legacyUserProfileCustomizations.stylesheets": true,
            },
        },
    }));
    Ok(Driver { process, display: None, port, capabilities })
}

/// Whether a printed line tells of an error in a page; Firefox's own parts print errors too.
pub fn is_error(line: &str) -> bool {
    let by_script = line.starts_with("JavaScript error: http");
    by_script || line.starts_with("console.error:")
}

/// Firefox keeps its windows at least 500 px wide, unless the profile says otherwise.
fn narrow_windows(profile: &Profile) -> Result<()> {
    let chrome = profile.data().join("chrome");
    fs::create_dir_all(&chrome)?;
    fs::write(chrome.join("userChrome.css"), "* { min-width: 0 !important }\n")
        .context("cannot write the profile of Firefox")
}
