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
                // No background work of the browser's own on the network.
                "app.normandy.enabled": false,
                "messaging-system.rsexperimentloader.enabled": false,
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

/// Whether a printed line tells of an error in a page. Firefox's own parts print errors too: they have a file of
/// the browser as their place, or name themselves before they speak, where a page's text stands in quotes.
pub fn is_error(line: &str) -> bool {
    if line.starts_with("JavaScript error: http") {
        return true;
    }
    let Some(message) = line.strip_prefix("console.error: ") else {
        return false;
    };
    let speaker = message.split(": ").next().unwrap_or_default();
    let names_itself = message.contains(": ") && speaker.chars().all(|c| c.is_alphanumeric() || ".-_".contains(c));
    !names_itself
}

/// Firefox keeps its windows at least 500 px wide, unless the profile says otherwise.
fn narrow_windows(profile: &Profile) -> Result<()> {
    let chrome = profile.data().join("chrome");
    fs::create_dir_all(&chrome)?;
    fs::write(chrome.join("userChrome.css"), "* { min-width: 0 !important }\n")
        .context("cannot write the profile of Firefox")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_of_pages_are_told_from_those_of_the_browser() {
        assert!(is_error("JavaScript error: http://127.0.0.1:8180/app.js, line 7: Error: on load"));
        assert!(is_error("console.error: \"the store is full: try again\""));
        assert!(is_error("console.error: (new Error(\"late\", \"http://127.0.0.1:8180/app.js\", 3))"));
        assert!(!is_error("JavaScript error: resource://gre/modules/Some.sys.mjs, line 1: Error: closed"));
        assert!(!is_error("console.error: RSLoader: "));
        assert!(!is_error("console.log: \"fine\""));
    }
}
