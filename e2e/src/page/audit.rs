//! Accessibility faults, found by axe-core in the page as it stands: WCAG 2.2 at level AA, and contrast at AAA.

use std::fmt;
use std::fs;
use std::path::PathBuf;
use std::process::Command;
use std::sync::OnceLock;

use anyhow::{Context, Result, anyhow, ensure};
use serde_json::{Value, json};

use super::Page;
use crate::spec::Skip;
use crate::tools;

/// A rule that the page breaks, and where.
#[derive(Debug)]
pub struct Fault {
    /// The id of the rule.
    pub rule: String,
    /// What the rule asks for.
    pub help: String,
    /// The selectors of the elements that break it.
    pub places: Vec<String>,
}

impl Page {
    /// Every fault of the page as it stands. Without npm the spec counts as skipped.
    pub async fn audit(&self) -> Result<Vec<Fault>> {
        let checker = SOURCE
            .get_or_init(|| install().map_err(|error| format!("{error:#}")))
            .as_ref()
            .map_err(|reason| Skip(reason.clone()))?;
        // A script of the driver's own is not under the page's content security policy.
        self.run(checker).await.context("cannot load axe-core into the page")?;
        let found = self.run_with(RUN, vec![options()]).await?;
        let checked = found["checked"].as_u64().unwrap_or_default();
        ensure!(checked > 0, "axe-core checked nothing");
        let faults = found["faults"].as_array().context("axe-core gave no list of faults")?;
        Ok(faults.iter().map(Fault::read).collect())
    }
}

impl Fault {
    fn read(fault: &Value) -> Self {
        let text = |name: &str| fault[name].as_str().unwrap_or_default().to_owned();
        let places = fault["places"].as_array().into_iter().flatten();
        Self {
            rule: text("rule"),
            help: text("help"),
            places: places.filter_map(Value::as_str).map(str::to_owned).collect(),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {} at {}", self.rule, self.help, self.places.join(", "))
    }
}

static SOURCE: OnceLock<Result<String, String>> = OnceLock::new();

const RUN: &str = "
    return axe.run(document, arguments[0]).then(found => ({
        checked: found.passes.length + found.violations.length,
        faults: found.violations.map(fault => ({
            rule: fault.id,
            help: fault.help,
            places: fault.nodes.map(node => node.target.flat().join(' ')),
        })),
    }));
";

fn options() -> Value {
    json!({
        "runOnly": {
            "type": "tag",
            "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"],
        },
        // The look asks for 7:1 throughout.
        "rules": { "color-contrast-enhanced": { "enabled": true } },
        "resultTypes": ["violations", "passes"],
    })
}

/// Installs the version that the lock file names beside this program, and reads it.
fn install() -> Result<String> {
    let npm = tools::NPM.find().context("the accessibility checker comes by npm")?;
    let folder = folder()?;
    let script = folder.join("node_modules/axe-core/axe.min.js");
    for (name, content) in FILES {
        fs::write(folder.join(name), content)?;
    }
    if !script.is_file() || !is_locked_version(&folder)? {
        let run = Command::new(npm).arg("ci").current_dir(&folder).output()?;
        let printed = String::from_utf8_lossy(&run.stderr).into_owned();
        ensure!(run.status.success(), "npm could not install axe-core: {printed}");
    }
    fs::read_to_string(&script).with_context(|| format!("cannot read {}", script.display()))
}

const FILES: [(&str, &str); 3] = [
    ("package.json", include_str!("../../audit/package.json")),
    ("package-lock.json", include_str!("../../audit/package-lock.json")),
    (".npmrc", include_str!("../../audit/.npmrc")),
];

fn folder() -> Result<PathBuf> {
    let program = std::env::current_exe()?;
    let folder = program.parent().ok_or_else(|| anyhow!("this program lies in no folder"))?.join("sidelight-e2e-audit");
    fs::create_dir_all(&folder)?;
    Ok(folder)
}

fn is_locked_version(folder: &std::path::Path) -> Result<bool> {
    let lock: Value = serde_json::from_str(FILES[1].1)?;
    let installed = fs::read_to_string(folder.join("node_modules/axe-core/package.json"))?;
    let installed: Value = serde_json::from_str(&installed)?;
    Ok(lock["packages"]["node_modules/axe-core"]["version"] == installed["version"])
}
