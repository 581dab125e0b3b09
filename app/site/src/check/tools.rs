//! Finds the browsers, drivers and script engines that checks need, and installs what it may: by apt-get on Debian as
//! root, and geckodriver from its crate anywhere.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::Outcome;
use super::debian;
use super::run::run;
use crate::workspace::{Workspace, cargo};

/// Held fast, so that a run next year tests with the same driver.
const GECKODRIVER: [&str; 5] = ["install", "geckodriver", "--locked", "--version", "0.37.1"];

/// A program a check needs.
#[derive(Debug)]
pub struct Tool {
    /// How people call it.
    pub name: &'static str,
    /// Names its place, in the environment of this program and of the end-to-end tests.
    pub variable: &'static str,
    commands: &'static [&'static str],
    places: &'static [&'static str],
    pub debian_package: Option<&'static str>,
}

const NONE: &[&str] = &[];

pub const CHROMIUM: Tool = Tool {
    name: "Chromium or Chrome",
    variable: "SIDELIGHT_CHROMIUM",
    commands: &["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"],
    places: &[
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        "%ProgramFiles%/Google/Chrome/Application/chrome.exe",
        "%ProgramFiles(x86)%/Google/Chrome/Application/chrome.exe",
        "%LocalAppData%/Google/Chrome/Application/chrome.exe",
        "%LocalAppData%/Chromium/Application/chrome.exe",
    ],
    debian_package: Some("chromium"),
};

pub const CHROMEDRIVER: Tool = Tool {
    name: "chromedriver",
    variable: "SIDELIGHT_CHROMEDRIVER",
    commands: &["chromedriver"],
    places: &["/usr/lib/chromium/chromedriver", "/opt/homebrew/bin/chromedriver", "/usr/local/bin/chromedriver"],
    debian_package: Some("chromium-driver"),
};

pub const FIREFOX: Tool = Tool {
    name: "Firefox",
    variable: "SIDELIGHT_FIREFOX",
    commands: &["firefox-esr", "firefox"],
    places: &[
        "/Applications/Firefox.app/Contents/MacOS/firefox",
        "%ProgramFiles%/Mozilla Firefox/firefox.exe",
        "%ProgramFiles(x86)%/Mozilla Firefox/firefox.exe",
    ],
    debian_package: Some("firefox-esr"),
};

pub const FIREFOX_DRIVER: Tool = Tool {
    name: "geckodriver",
    variable: "SIDELIGHT_GECKODRIVER",
    commands: &["geckodriver"],
    places: &["/opt/homebrew/bin/geckodriver", "/usr/local/bin/geckodriver"],
    debian_package: None,
};

pub const WEBKIT_DRIVER: Tool = Tool {
    name: "WebKitWebDriver",
    variable: "SIDELIGHT_WEBKITDRIVER",
    commands: &["WebKitWebDriver"],
    places: &["/usr/libexec/webkit2gtk-4.1/WebKitWebDriver"],
    debian_package: Some("webkit2gtk-driver"),
};

pub const MINI_BROWSER: Tool = Tool {
    name: "WebKitGTK's MiniBrowser",
    variable: "SIDELIGHT_MINIBROWSER",
    commands: &["MiniBrowser"],
    places: &[
        "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
        "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
        "/usr/libexec/webkit2gtk-4.1/MiniBrowser",
        "/usr/lib/webkit2gtk-4.1/MiniBrowser",
    ],
    debian_package: Some("libwebkit2gtk-4.1-0"),
};

pub const XVFB: Tool =
    Tool { name: "Xvfb", variable: "SIDELIGHT_XVFB", commands: &["Xvfb"], places: NONE, debian_package: Some("xvfb") };

pub const NODE: Tool = Tool {
    name: "node",
    variable: "SIDELIGHT_NODE",
    commands: &["node"],
    places: &["%ProgramFiles%/nodejs/node.exe"],
    debian_package: Some("nodejs"),
};

pub const NPM: Tool = Tool {
    name: "npm",
    variable: "SIDELIGHT_NPM",
    commands: &["npm"],
    places: &["%ProgramFiles%/nodejs/npm.cmd"],
    debian_package: Some("npm"),
};

pub const PYTHON: Tool = Tool {
    name: "python3",
    variable: "SIDELIGHT_PYTHON",
    commands: &["python3", "python"],
    places: NONE,
    debian_package: Some("python3-venv"),
};

/// What has been looked for so far. Nothing is looked for, let alone installed, before a step needs it.
pub struct Tools {
    own: PathBuf,
    places: RefCell<BTreeMap<&'static str, Option<PathBuf>>>,
}

impl Tools {
    pub fn new(workspace: &Workspace) -> Self {
        Self { own: workspace.target.join("tools"), places: RefCell::default() }
    }

    /// Looks for programs, installs those it may, and gives one sentence naming what is still missing.
    pub fn missing(&self, needed: &[&Tool]) -> Option<String> {
        let new: Vec<&Tool> = needed.iter().copied().filter(|tool| !self.is_known(tool)).collect();
        self.install(&new);
        for tool in new {
            let place = find(tool, &self.own);
            let shown = place.as_ref().map_or("not found".to_owned(), |path| path.display().to_string());
            println!("  {:<24} {shown}", tool.name);
            self.places.borrow_mut().insert(tool.variable, place);
        }
        let lacking: Vec<String> = needed
            .iter()
            .filter(|tool| self.path(tool).is_none())
            .map(|tool| format!("{} ({} can name its place)", tool.name, tool.variable))
            .collect();
        if lacking.is_empty() { None } else { Some(format!("not found here: {}", lacking.join(", "))) }
    }

    /// Where a program is, once it was looked for.
    pub fn path(&self, tool: &Tool) -> Option<PathBuf> {
        self.places.borrow().get(tool.variable).cloned().flatten()
    }

    /// Tells a program where everything is.
    pub fn tell(&self, command: &mut Command) {
        for (variable, place) in self.places.borrow().iter() {
            if let Some(path) = place {
                command.env(variable, path);
            }
        }
    }

    fn is_known(&self, tool: &Tool) -> bool {
        self.places.borrow().contains_key(tool.variable)
    }

    fn install(&self, tools: &[&Tool]) {
        let lacking: Vec<&Tool> = tools.iter().copied().filter(|tool| find(tool, &self.own).is_none()).collect();
        let packages: Vec<&str> = lacking.iter().filter_map(|tool| tool.debian_package).collect();
        if !packages.is_empty() {
            debian::install(&packages);
        }
        // A driver without its browser would be built for nothing.
        let wants_driver = lacking.iter().any(|tool| tool.variable == FIREFOX_DRIVER.variable);
        if wants_driver && find(&FIREFOX, &self.own).is_some() {
            install_geckodriver(&self.own);
        }
    }
}

fn install_geckodriver(own: &Path) {
    println!("Building geckodriver from its crate; this takes some minutes once.");
    let mut install = cargo();
    install.args(GECKODRIVER).arg("--root").arg(own);
    match run(&mut install) {
        Ok(Outcome::Passed) => {}
        // The steps that need it say that it is missing.
        Ok(_) | Err(_) => println!("geckodriver could not be built; its messages above say why."),
    }
}

/// A place named by the environment counts alone, so that a typing error there is noticed.
fn find(tool: &Tool, own: &Path) -> Option<PathBuf> {
    if let Some(named) = env::var_os(tool.variable) {
        return Some(PathBuf::from(named)).filter(|path| path.is_file());
    }
    let endings: &[&str] = if cfg!(windows) { &[".exe", ".cmd", ""] } else { &[""] };
    let path = env::var_os("PATH").unwrap_or_default();
    let folders: Vec<PathBuf> = std::iter::once(own.join("bin")).chain(env::split_paths(&path)).collect();
    let by_name = tool.commands.iter().flat_map(|command| {
        let folders = &folders;
        endings.iter().flat_map(move |ending| folders.iter().map(move |it| it.join(format!("{command}{ending}"))))
    });
    by_name.chain(tool.places.iter().filter_map(|place| expand(place))).find(|path| path.is_file())
}

/// Puts the environment's value for a leading `%Name%`.
fn expand(place: &str) -> Option<PathBuf> {
    let Some(rest) = place.strip_prefix('%') else {
        return Some(PathBuf::from(place));
    };
    let (name, rest) = rest.split_once('%')?;
    Some(PathBuf::from(env::var_os(name)?).join(rest.trim_start_matches('/')))
}

#[cfg(test)]
mod tests {
    use super::*;

    const CARGO: Tool = Tool {
        name: "cargo",
        variable: "SIDELIGHT_TEST_NO_SUCH_VARIABLE",
        commands: &["no-such-command-here", "cargo"],
        places: NONE,
        debian_package: None,
    };

    const NOTHING: Tool = Tool {
        name: "nothing",
        variable: "SIDELIGHT_TEST_NOTHING",
        commands: &["no-such-command-here"],
        places: &["/no/such/folder/program"],
        debian_package: None,
    };

    #[test]
    fn a_program_on_the_path_is_found_and_an_absent_one_is_named() {
        let nowhere = Path::new("/no/such/folder");
        let cargo = find(&CARGO, nowhere).expect("cargo runs this test");
        assert!(cargo.is_file());
        let tools = Tools { own: nowhere.to_owned(), places: RefCell::default() };
        assert_eq!(tools.missing(&[&CARGO]), None);
        assert_eq!(tools.path(&CARGO), Some(cargo));
        let sentence = tools.missing(&[&CARGO, &NOTHING]).expect("there is no such program");
        assert_eq!(sentence, "not found here: nothing (SIDELIGHT_TEST_NOTHING can name its place)");

        let mut command = Command::new("env");
        tools.tell(&mut command);
        let told: Vec<_> = command.get_envs().map(|(name, _)| name.to_owned()).collect();
        assert_eq!(told, [CARGO.variable]);
    }

    #[test]
    fn places_with_a_variable_are_filled_in() {
        assert_eq!(expand("/usr/bin/x"), Some(PathBuf::from("/usr/bin/x")));
        assert_eq!(expand("%SIDELIGHT_TEST_NO_SUCH_VARIABLE%/x"), None);
        let path = env::var("PATH").expect("a search path");
        assert_eq!(expand("%PATH%/x"), Some(PathBuf::from(path).join("x")));
    }
}
