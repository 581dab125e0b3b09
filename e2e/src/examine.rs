//! A visit as a practitioner taps through it: what screens are called, so that specs need not know.

use anyhow::Result;
use serde_json::Value;

use crate::page::{Page, css};
use crate::spec::Stage;

/// The passphrase of every spec that needs none of its own.
pub const PASSPHRASE: &str = "velvet anchor museum tiger";

/// Opens the installed app, answers the first-run page with "start empty", makes a passphrase, and waits for the home
/// screen.
pub async fn start_empty(stage: &Stage) -> Result<Page> {
    let page = stage.install().await?;
    make_passphrase(&page, PASSPHRASE).await?;
    Ok(page)
}

/// From the first-run page over a new passphrase to the home screen.
pub async fn make_passphrase(page: &Page, passphrase: &str) -> Result<()> {
    page.tap("empty").await?;
    page.fill("passphrase", passphrase).await?;
    page.fill("passphrase-again", passphrase).await?;
    page.tap("seal").await?;
    screen(page, "home").await
}

/// Types a passphrase on the lock screen, whatever comes of it.
pub async fn try_passphrase(page: &Page, passphrase: &str) -> Result<()> {
    screen(page, "unlock").await?;
    page.fill("passphrase", passphrase).await?;
    page.tap("unlock").await
}

/// Opens the lock screen with the passphrase of the specs.
pub async fn unlock(page: &Page) -> Result<()> {
    try_passphrase(page, PASSPHRASE).await?;
    page.wait_gone(css("[data-screen=unlock]")).await
}

/// Waits for any screen, and unlocks if it is the locked one: the browser's way back may bring a page as it was left.
pub async fn unlock_if_locked(page: &Page) -> Result<()> {
    page.find(css("[data-screen]")).await?;
    if page.count(css("[data-screen=unlock]")).await? > 0 {
        unlock(page).await?;
    }
    Ok(())
}

/// Loads the page again and unlocks it.
pub async fn reload(page: &Page) -> Result<()> {
    page.reload().await?;
    unlock(page).await
}

/// From the home screen to the frame of a new visit of a new person.
pub async fn begin(page: &Page, label: Option<&str>, born: &str) -> Result<()> {
    page.tap("start").await?;
    if let Some(label) = label {
        page.fill("label", label).await?;
    }
    page.fill("born", born).await?;
    page.tap("begin").await?;
    screen(page, "frame").await
}

/// The same with another routine.
pub async fn begin_routine(page: &Page, routine: &str, born: &str) -> Result<()> {
    page.tap("start").await?;
    page.fill("born", born).await?;
    choose(page, "routine", routine).await?;
    page.tap("begin").await?;
    screen(page, "frame").await
}

/// Waits for a screen by its name.
pub async fn screen(page: &Page, name: &str) -> Result<()> {
    page.find(css(&format!("[data-screen={name:?}]"))).await.map(|_| ())
}

/// Waits for the screen of a task or of symptoms, by slot.
pub async fn slot(page: &Page, slot: &str) -> Result<()> {
    page.find(css(&format!("[data-slot={slot:?}]"))).await.map(|_| ())
}

/// Taps a choice of a field.
pub async fn choose(page: &Page, field: &str, choice: &str) -> Result<()> {
    page.tap(css(&format!("[data-test={field:?}] [data-test={choice:?}]"))).await
}

/// The frame of a child minutes after a knock, six taps, and on.
pub async fn frame(page: &Page) -> Result<()> {
    for (field, choice) in [
        ("reason", "knock"),
        ("since", "minutes"),
        ("consent", "guardian"),
        ("glasses", "none"),
        ("influences", "none"),
        ("cautions", "none"),
    ] {
        choose(page, field, choice).await?;
    }
    page.tap("next").await
}

/// No danger sign, no symptom: up to the first task.
pub async fn no_danger(page: &Page) -> Result<()> {
    screen(page, "safety").await?;
    page.tap("usual").await?;
    page.tap("next").await?;
    slot(page, "symptoms.before").await?;
    page.tap("no-change").await
}

/// From the home screen to the first task.
pub async fn to_first_task(page: &Page, label: Option<&str>, born: &str) -> Result<()> {
    begin(page, label, born).await?;
    frame(page).await?;
    no_danger(page).await?;
    slot(page, "resting_gaze").await
}

/// Leaves a task out for want of time.
pub async fn skip(page: &Page, task: &str) -> Result<()> {
    slot(page, task).await?;
    page.tap("skip").await?;
    page.tap(css("[data-test=skip-panel] [data-test=reason]")).await
}

/// "All as expected", then on.
pub async fn usual(page: &Page, task: &str) -> Result<()> {
    slot(page, task).await?;
    all_as_expected(page).await?;
    page.tap("next").await
}

/// "All as expected", and so long a wait that the next tap is not taken for a double tap.
pub async fn all_as_expected(page: &Page) -> Result<()> {
    page.tap("usual").await?;
    page.find("next").await?;
    tokio::time::sleep(std::time::Duration::from_millis(700)).await;
    Ok(())
}

/// Near point, three trials on the ruler, by taps at a share of its length.
pub async fn near_point(page: &Page, centimetres: [f64; 3]) -> Result<()> {
    slot(page, "near_point").await?;
    for (index, value) in centimetres.into_iter().enumerate() {
        if index > 0 {
            page.tap("another-trial").await?;
        }
        slide(page, value).await?;
    }
    page.tap("next").await?;
    slot(page, "symptoms.near_point").await?;
    page.tap("no-change").await
}

/// Moves the ruler as a thumb would leave it, and counts it as the one tap it is.
pub async fn slide(page: &Page, centimetres: f64) -> Result<()> {
    page.tap("ruler").await?;
    page.run_with(
        "const ruler = document.querySelector('[data-test=ruler]');
         ruler.value = arguments[0];
         ruler.dispatchEvent(new Event('input', { bubbles: true }));",
        vec![Value::from(centimetres)],
    )
    .await
    .map(|_| ())
}

/// Taps jumps one by one: pad and mark of each, such as "right-on".
pub async fn jumps(page: &Page, marks: &[&str]) -> Result<()> {
    slot(page, "saccade").await?;
    for mark in marks {
        page.tap(*mark).await?;
    }
    Ok(())
}

/// From the findings to the closed summary, advice only.
pub async fn decide_and_close(page: &Page) -> Result<()> {
    screen(page, "findings").await?;
    page.tap("next").await?;
    screen(page, "decision").await?;
    choose(page, "action", "advice").await?;
    choose(page, "play", "not_removed").await?;
    choose(page, "told", "guardian").await?;
    page.tap("close").await?;
    page.wait_state(css("[data-screen=summary]"), "closed", "true").await
}
