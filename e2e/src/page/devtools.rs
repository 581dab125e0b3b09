//! What only a debugging protocol or an optional WebDriver command gives: Chromium's tools, prints.

use anyhow::{Context, Result, anyhow, ensure};
use fantoccini::wd::{PrintConfiguration, PrintSize};
use serde_json::{Value, json};

use super::{Page, Print};
use crate::command::Command;
use crate::engine::Engine;

impl Page {
    /// Calls a method of Chromium's debugging protocol.
    pub async fn devtools(&self, method: &str, parameters: Value) -> Result<Value> {
        ensure!(self.engine == Engine::Chromium, "{} does not speak Chromium's debugging protocol", self.engine);
        let body = json!({ "cmd": method, "params": parameters });
        self.client.issue_cmd(Command::post("goog/cdp/execute", body)).await.with_context(|| format!("{method} failed"))
    }

    /// The page as it would be printed on A4.
    pub async fn print(&self) -> Result<Print> {
        self.print_on(PrintSize::A4.width, PrintSize::A4.height).await
    }

    /// The page as it would be printed on paper of so many centimetres.
    pub async fn print_on(&self, width: f64, height: f64) -> Result<Print> {
        let size = PrintSize { width, height };
        let paper = PrintConfiguration::builder().size(size).build().map_err(|error| anyhow!("{error:?}"))?;
        Print::of(self.client.print(paper).await?)
    }
}
