//! Where browsers and drivers are: an environment variable first, then `PATH`, then the usual places.

use std::env;
use std::path::{Path, PathBuf};

use anyhow::{Result, bail};

/// A program that a run needs.
pub struct Tool {
    variable: &'static str,
    names: &'static [&'static str],
    places: &'static [&'static str],
}

/// The driver of Chromium.
pub const CHROMEDRIVER: Tool =
    Tool { variable: "SIDELIGHT_CHROMEDRIVER", names: &["chromedriver"], places: &["/usr/lib/chromium/chromedriver"] };

/// Chromium or a browser of its family.
pub const CHROMIUM: Tool = Tool {
    variable: "SIDELIGHT_CHROMIUM",
    names: &["chromium", "chromium-browser", "google-chrome", "chrome"],
    places: &[
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    ],
};

/// The driver of Firefox. `cargo site check` builds it into `target/tools`.
pub const GECKODRIVER: Tool = Tool {
    variable: "SIDELIGHT_GECKODRIVER",
    names: &["geckodriver"],
    places: &[
        concat!(env!("CARGO_MANIFEST_DIR"), "/../target/tools/bin/geckodriver"),
        concat!(env!("CARGO_MANIFEST_DIR"), "/../target/tools/bin/geckodriver.exe"),
    ],
};

/// Firefox, long-term support or current.
pub const FIREFOX: Tool = Tool {
    variable: "SIDELIGHT_FIREFOX",
    names: &["firefox-esr", "firefox"],
    places: &["/Applications/Firefox.app/Contents/MacOS/firefox", r"C:\Program Files\Mozilla Firefox\firefox.exe"],
};

/// The driver of WebKitGTK.
pub const WEBKITDRIVER: Tool = Tool {
    variable: "SIDELIGHT_WEBKITDRIVER",
    names: &["WebKitWebDriver"],
    places: &["/usr/libexec/webkit2gtk-4.1/WebKitWebDriver"],
};

/// The plain browser that comes with WebKitGTK; distributions keep it in a folder per architecture.
pub const MINIBROWSER: Tool = Tool {
    variable: "SIDELIGHT_MINIBROWSER",
    names: &["MiniBrowser"],
    places: &[
        "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
        "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
        "/usr/libexec/webkit2gtk-4.1/MiniBrowser",
        "/usr/lib/webkit2gtk-4.1/MiniBrowser",
    ],
};

/// A display without a screen, which WebKitGTK needs.
pub const XVFB: Tool =
    Tool { variable: "SIDELIGHT_XVFB", names: &["Xvfb"], places: &["/usr/bin/Xvfb", "/usr/X11/bin/Xvfb"] };

/// Node's package manager, which brings the accessibility checker.
pub const NPM: Tool =
    Tool { variable: "SIDELIGHT_NPM", names: &["npm"], places: &[r"C:\Program Files\nodejs\npm.cmd"] };

impl Tool {
    /// The path of the program, or a sentence that says how to make it known.
    pub fn find(&self) -> Result<PathBuf> {
        if let Some(named) = env::var_os(self.variable) {
            let named = PathBuf::from(named);
            if named.is_file() {
                return Ok(named);
            }
            bail!("{} names {}, which is not a file; correct or unset it", self.variable, named.display());
        }
        let folders = env::var_os("PATH").unwrap_or_default();
        let on_path = env::split_paths(&folders).flat_map(|folder| {
            self.names.iter().map(move |name| folder.join(name).with_extension(env::consts::EXE_EXTENSION))
        });
        let usual = self.places.iter().map(PathBuf::from);
        if let Some(found) = on_path.chain(usual).find(|path| is_program(path)) {
            return Ok(found);
        }
        bail!("{} was not found; install it or set {} to its path", self.names[0], self.variable)
    }
}

fn is_program(path: &Path) -> bool {
    path.is_absolute() && path.is_file()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_program_is_named_with_its_variable() {
        let missing =
            Tool { variable: "SIDELIGHT_NO_SUCH_TOOL", names: &["no-such-browser"], places: &["/no/such/place"] };
        let error = missing.find().expect_err("there is no such program");
        assert_eq!(
            error.to_string(),
            "no-such-browser was not found; install it or set SIDELIGHT_NO_SUCH_TOOL to its path"
        );
    }

    #[test]
    fn path_is_searched() {
        let cargo = Tool { variable: "SIDELIGHT_NO_SUCH_TOOL", names: &["cargo"], places: &[] };
        assert!(cargo.find().expect("cargo runs this test").is_file());
    }
}
