//! After one visit the site needs no server: the server is stopped, not simulated away.

use anyhow::{Result, ensure};

use super::boots::is_up;
use crate::spec::Stage;

/// The page reloads itself.
pub async fn reload(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    stage.site.stop()?;
    page.reload().await?;
    is_up(&page).await
}

/// The page is left and its address is opened again.
pub async fn goto(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    stage.site.stop()?;
    page.client().goto("about:blank").await?;
    page.open("").await?;
    is_up(&page).await
}

/// The address is opened in another tab.
pub async fn new_tab(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    stage.site.stop()?;
    let first = page.new_tab().await?;
    page.open("").await?;
    is_up(&page).await?;
    ensure!(page.current_tab().await? != first, "no other tab was opened");
    Ok(())
}

/// The browser is ended and started again with no server in reach.
pub async fn restart(stage: &mut Stage) -> Result<()> {
    stage.install().await?;
    stage.site.stop()?;
    stage.browser.close().await?;
    let page = stage.browser.reopen().await?;
    page.open("").await?;
    is_up(&page).await
}
