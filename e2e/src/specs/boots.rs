//! The start page comes up, whole and quiet.

use std::fs;

use anyhow::{Context, Result, ensure};

use crate::engine::Engine;
use crate::files::{copy, edit};
use crate::page::{Page, WATCH};
use crate::spec::Stage;

/// The page comes up at the exact size, without one error in the console.
pub async fn boots(stage: &mut Stage) -> Result<()> {
    let watched = tempfile::tempdir()?;
    if stage.engine == Engine::Webkit {
        // Its console cannot be read, so the errors of loading are noted by a script that stands before all others.
        copy(stage.site.dist(), watched.path())?;
        fs::write(watched.path().join("watch.js"), WATCH)?;
        edit(watched.path(), "index.html", "<head>", "<head><script src=\"watch.js\"></script>")?;
        stage.site.serve(watched.path())?;
    }
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
