//! WebKitGTK's MiniBrowser by WebKitWebDriver, on a display of its own.

use std::fs;
use std::process::Command;
use std::time::Duration;

use anyhow::{Context, Result};
use serde_json::json;

use super::{Driver, session};
use crate::process::{OwnedProcess, free_port};
use crate::profile::Profile;
use crate::tools;
use crate::wait::poll;

/// Starts a display and WebKitWebDriver for a browser on `profile`.
pub async fn start(profile: &Profile) -> Result<Driver> {
    let (display, display_name) = start_display(profile).await?;
    let home = profile.data();
    fs::create_dir_all(home.join("config"))?;
    let downloads = format!("XDG_DOWNLOAD_DIR=\"{}\"\n", profile.downloads().display());
    fs::write(home.join("config/user-dirs.dirs"), downloads).context("cannot write the home of WebKit")?;
    let port = free_port()?;
    let mut command = Command::new(tools::WEBKITDRIVER.find()?);
    command
        .arg(format!("--port={port}"))
        .env("DISPLAY", display_name)
        .env_remove("WAYLAND_DISPLAY")
        .env("HOME", &home)
        .env("XDG_CONFIG_HOME", home.join("config"))
        .env("XDG_CACHE_HOME", home.join("cache"))
        .env("XDG_DATA_HOME", home.join("share"))
        .env("GSETTINGS_BACKEND", "memory")
        // There is no accessibility bus in a container, and waiting for one costs seconds.
        .env("NO_AT_BRIDGE", "1");
    let mut process = OwnedProcess::start(command, profile, "webkitdriver")?;
    process.wait_for_port(port).await?;
    let capabilities = session(json!({
        "browserName": "MiniBrowser",
        "webkitgtk:browserOptions": {
            "binary": tools::MINIBROWSER.find()?,
            "args": [
                "--automation",
                // Without it, a window is never narrower than its toolbar of 447 px.
                "--full-screen",
                "--features=+StorageAPI,+StorageAPIEstimate",
            ],
        },
    }));
    Ok(Driver { process, display: Some(display), port, capabilities })
}

/// Starts Xvfb, which picks a free display and prints its number.
async fn start_display(profile: &Profile) -> Result<(OwnedProcess, String)> {
    let mut command = Command::new(tools::XVFB.find()?);
    command.args(["-displayfd", "1", "-screen", "0", "1400x1400x24", "-nolisten", "tcp"]);
    let display = OwnedProcess::start(command, profile, "xvfb")?;
    let number = poll("Xvfb to name its display", Duration::from_secs(20), async || {
        let printed = display.printed();
        // A line without its end may be half a number.
        let whole_lines = printed.split_inclusive('\n').filter(|line| line.ends_with('\n'));
        Ok(whole_lines.filter_map(|line| line.trim().parse::<u32>().ok()).next())
    })
    .await?;
    Ok((display, format!(":{number}")))
}
