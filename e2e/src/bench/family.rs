//! The family's page beside a static page of the same content: from the navigation to the first exercise on the screen.

use std::path::Path;
use std::time::Duration;

use anyhow::{Context as _, Result};
use serde_json::json;
use sidelight_site::bench::family::example;

use super::{LOADS, aim, median, register};
use crate::browser::Browser;
use crate::engine::Engine;
use crate::page::css;
use crate::site::Site;
use crate::viewport::PHONE;

/// Both with a warm worker and no server. The page has read its lists before, as it has on every day but the first.
pub async fn run(folder: &Path) -> Result<()> {
    println!("Timing the family's page: {LOADS} loads of each page, offline.");
    let mut opened = Vec::new();
    for name in ["app", "family-static"] {
        let mut site = Site::start(&folder.join(name))?;
        let browser = Browser::start(Engine::Chromium, PHONE, &site.url()).await?;
        let page = browser.page()?;
        page.open(&format!("sheet/#{}", example().encode())).await?;
        if name == "app" {
            page.tap(css("[data-act=read]")).await?;
            page.wait_until("the worker to take the page", "!!navigator.serviceWorker.controller").await?;
        } else {
            register(&page).await?;
        }
        site.stop()?;
        page.devtools("Page.addScriptToEvaluateOnNewDocument", json!({ "source": FIRST_EXERCISE })).await?;
        opened.push((browser, site, Vec::new()));
    }
    for _ in 0..LOADS {
        for (browser, _, times) in &mut opened {
            let page = browser.page()?;
            page.client().goto("about:blank").await?;
            // What the old page still has to do is not part of the start of the new one.
            tokio::time::sleep(Duration::from_millis(400)).await;
            page.open("sheet/").await?;
            page.wait_until("the first exercise", "typeof window.firstExercise === 'number'").await?;
            let time = page.value("window.firstExercise").await?;
            times.push(time.as_f64().context("no time of the first exercise")?);
        }
    }
    let [page, still] = [0, 1].map(|at: usize| median(&opened[at].2));
    println!(
        "first exercise, family's page/static page: {page:.0} ms / {still:.0} ms = {:.2} (aim 1.5: {})",
        page / still,
        aim(page / still <= 1.5)
    );
    Ok(())
}

/// The first frame that has the first exercise, and a button to begin it where there are buttons.
const FIRST_EXERCISE: &str = "
    const look = () => {
        const exercise = document.querySelector('.exercise');
        if (exercise && exercise.getBoundingClientRect().height > 0) {
            window.firstExercise = performance.now();
        } else {
            requestAnimationFrame(look);
        }
    };
    requestAnimationFrame(look);
";
