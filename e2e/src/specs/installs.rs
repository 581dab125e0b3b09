//! The browser itself finds that the site can be installed.

use anyhow::{Result, ensure};
use serde_json::json;

use crate::spec::Stage;

/// No installability error, no manifest error, and a manifest that is really there.
pub async fn installs(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    let manifest = page.devtools("Page.getAppManifest", json!({})).await?;
    let text = manifest["data"].as_str().unwrap_or_default();
    ensure!(text.contains("Sidelight"), "the manifest does not name Sidelight: {manifest}");
    let faults = manifest["errors"].as_array();
    ensure!(faults.is_some_and(Vec::is_empty), "the manifest has errors: {faults:?}");
    let answer = page.devtools("Page.getInstallabilityErrors", json!({})).await?;
    let faults = answer["installabilityErrors"].as_array();
    ensure!(faults.is_some_and(Vec::is_empty), "not installable: {faults:?}");
    Ok(())
}
