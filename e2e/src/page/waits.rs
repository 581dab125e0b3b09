//! Waiting for what a page is to become.

use std::time::Duration;

use anyhow::{Context, Result};
use serde_json::Value;

use super::{Page, Target, is_stale};
use crate::wait::{PATIENCE, poll};

impl Page {
    /// Waits until there is none left.
    pub async fn wait_gone<'t>(&self, target: impl Into<Target<'t>>) -> Result<()> {
        let target = target.into();
        poll(&format!("{target} to go"), PATIENCE, async || Ok((self.count(target).await? == 0).then_some(()))).await
    }

    /// Waits until `data-{name}` of the thing meant is `value`: the page's own word for its state.
    pub async fn wait_state<'t>(&self, target: impl Into<Target<'t>>, name: &str, value: &str) -> Result<()> {
        let target = target.into();
        let attribute = format!("data-{name}");
        let mut last = None;
        poll(&format!("{target} to have {attribute}={value:?}"), PATIENCE, async || {
            for element in self.candidates(&target).await? {
                match element.attr(&attribute).await {
                    Ok(seen) if seen.as_deref() == Some(value) => return Ok(Some(())),
                    Ok(seen) => last = seen,
                    Err(error) if is_stale(&error) => {}
                    Err(error) => return Err(error.into()),
                }
            }
            Ok(None)
        })
        .await
        .with_context(|| format!("last seen: {last:?}"))
    }

    /// Waits until the text of the thing meant contains `part`.
    pub async fn wait_text<'t>(&self, target: impl Into<Target<'t>>, part: &str) -> Result<()> {
        let target = target.into();
        poll(&format!("{target} to say {part:?}"), PATIENCE, async || {
            Ok(self.text(target).await?.contains(part).then_some(()))
        })
        .await
    }

    /// Waits until a JavaScript expression is true; `what` names it for the reader.
    pub async fn wait_until(&self, what: &str, expression: &str) -> Result<()> {
        self.wait_until_within(what, expression, PATIENCE).await
    }

    /// Like `wait_until`, with a limit of its own.
    pub async fn wait_until_within(&self, what: &str, expression: &str, patience: Duration) -> Result<()> {
        poll(what, patience, async || Ok((self.value(expression).await? == Value::Bool(true)).then_some(()))).await
    }
}
