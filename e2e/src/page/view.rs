//! The size of the view, exact in every engine.

use anyhow::{Result, bail};
use serde_json::{Value, json};

use super::Page;
use crate::engine::Engine;
use crate::viewport::Viewport;
use crate::wait::{PATIENCE, poll};

impl Page {
    /// Gives the view the size `viewport`.
    pub async fn resize(&self, viewport: Viewport) -> Result<()> {
        self.record.set_viewport(viewport);
        self.keep_view().await
    }

    /// Gives the tab spoken to the size that all are to have. Chromium's emulation is one of each tab; the windows
    /// of the others lose height to the bar that comes with a second tab.
    pub(super) async fn keep_view(&self) -> Result<()> {
        let viewport = self.record.viewport();
        match self.engine {
            Engine::Chromium => self.emulate(viewport).await,
            Engine::Firefox | Engine::Webkit => self.fit_window(viewport).await,
        }
    }

    async fn emulate(&self, viewport: Viewport) -> Result<()> {
        let metrics = json!({
            "width": viewport.width,
            "height": viewport.height,
            "deviceScaleFactor": viewport.ratio,
            "mobile": viewport.handheld,
        });
        self.devtools("Emulation.setDeviceMetricsOverride", metrics).await?;
        let touch = json!({ "enabled": viewport.handheld });
        self.devtools("Emulation.setTouchEmulationEnabled", touch).await?;
        Ok(())
    }

    /// The width and height of the view in CSS pixels.
    pub async fn size(&self) -> Result<(u64, u64)> {
        poll("the page to have a size", PATIENCE, async || {
            // A page that loads itself anew, as a tab does that takes over, has none between its two documents.
            let size = self.value("[window.innerWidth, window.innerHeight]").await.unwrap_or_default();
            let side = |index: usize| size.get(index).and_then(Value::as_u64);
            Ok(side(0).zip(side(1)))
        })
        .await
    }

    /// Sets the window so that what is inside it has the size wanted. The frame around it is known only
    /// after the first try.
    async fn fit_window(&self, viewport: Viewport) -> Result<()> {
        let wanted = (u64::from(viewport.width), u64::from(viewport.height));
        let (mut width, mut height) = (viewport.width, viewport.height);
        for _ in 0..TRIES {
            self.client.set_window_rect(0, 0, width, height).await?;
            // The new size reaches the page a moment after the command has returned.
            for _ in 0..PATIENCE_STEPS {
                if self.size().await? == wanted {
                    return Ok(());
                }
                tokio::time::sleep(STEP).await;
            }
            let (inner_width, inner_height) = self.size().await?;
            width = corrected(width, wanted.0, inner_width)?;
            height = corrected(height, wanted.1, inner_height)?;
        }
        bail!("the view cannot be made {viewport}; it is {:?}", self.size().await?)
    }
}

const TRIES: u32 = 4;
const PATIENCE_STEPS: u32 = 8;
const STEP: std::time::Duration = std::time::Duration::from_millis(50);

/// The outer length that gives the inner length `wanted`, when `outer` gave `inner`.
fn corrected(outer: u32, wanted: u64, inner: u64) -> Result<u32> {
    let corrected = i64::from(outer) + i64::try_from(wanted)? - i64::try_from(inner)?;
    Ok(u32::try_from(corrected)?)
}
