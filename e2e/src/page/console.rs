//! The errors of a page. Chromium's driver logs them and Firefox prints them; WebKitGTK keeps silent under
//! automation, so there the page itself is watched, from the end of its loading on.

use anyhow::Result;
use serde_json::json;

use super::Page;
use crate::command::Command;
use crate::engine::Engine;

/// A script that notes the errors of the page it stands in. A spec can place it first in a page, so that errors
/// while loading are noted too.
pub const WATCH: &str = include_str!("watch.js");

impl Page {
    /// The errors so far of every page of the session, as far as the engine does not print them.
    pub async fn logged_errors(&self) -> Result<Vec<String>> {
        self.collect_errors().await?;
        Ok(self.record.logged())
    }

    /// Begins to note the errors of a page that has just loaded.
    pub(super) async fn watch(&self) -> Result<()> {
        if self.engine == Engine::Webkit {
            self.run(WATCH).await?;
        }
        Ok(())
    }

    /// Takes out what was noted, which is forgotten with the page.
    pub(super) async fn collect_errors(&self) -> Result<()> {
        match self.engine {
            Engine::Chromium => {
                let body = json!({ "type": "browser" });
                let entries = self.client.issue_cmd(Command::post("se/log", body)).await?;
                let entries = entries.as_array().into_iter().flatten();
                let severe = entries.filter(|entry| entry["level"] == "SEVERE");
                self.record.log(severe.map(|entry| entry["message"].as_str().unwrap_or_default().to_owned()));
            }
            Engine::Firefox => {}
            Engine::Webkit => {
                let noted = self.value("window.harnessErrors?.splice(0) ?? []").await?;
                let noted = noted.as_array().into_iter().flatten();
                self.record.log(noted.map(|error| error.as_str().unwrap_or_default().to_owned()));
            }
        }
        Ok(())
    }
}
