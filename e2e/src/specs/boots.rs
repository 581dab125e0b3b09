//! The start page comes up, whole and quiet.

use anyhow::{Context, Result, ensure};

use crate::page::Page;
use crate::spec::Stage;

/// The page comes up at the exact size, without one error in the console.
pub async fn boots(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.open("").await?;
    is_up(&page).await?;
    let (width, height) = page.size().await?;
    ensure!((width, height) == (390, 844), "the view is {width}x{height}, not 390x844");
    let errors = stage.browser.console_errors().await?;
    ensure!(errors.is_empty(), "the console has errors: {}", errors.join(" | "));
    Ok(())
}

/// Waits until the page shows Sidelight, not an error page of the browser or a blank.
pub async fn is_up(page: &Page) -> Result<()> {
    page.wait_until(
        "Sidelight to come up",
        "document.title.includes('Sidelight') && location.protocol === 'http:' \
         && document.readyState === 'complete' && document.body.innerText.trim().length > 0",
    )
    .await
    .with_context(|| "the page shows no app")
}
