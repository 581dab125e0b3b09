//! The harness tried out on a page of its own: each means that specs rely on works in every engine, and each check
//! that specs rely on can fail.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail, ensure};
use fantoccini::key::Key;
use serde_json::{Value, json};

use super::{boots, policy};
use crate::browser::Browser;
use crate::engine::Engine;
use crate::files::{copy, edit};
use crate::page::{Page, css, role};
use crate::spec::{Skip, Stage};
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE, TABLET};
use crate::wait::{PATIENCE, poll};

/// Taps are counted, awaited and real: a tap on something covered fails.
pub async fn taps(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    page.tap_times("count", 2).await?;
    page.wait_state("counted", "count", "2").await?;
    page.wait_text("counted", "2").await?;
    page.tap("late").await?;
    page.wait_gone("late").await?;
    page.tap(role("button", "Count")).await?;
    page.tap(css("button[data-test=count]")).await?;
    ensure!(page.attribute("counted", "data-count").await?.as_deref() == Some("4"), "four taps do not make 4");
    ensure!(page.taps() == 5, "5 taps were counted as {}", page.taps());
    ensure!(page.count("late").await? == 0, "the late button is still there");
    ensure!(page.find(role("heading", "Harness page")).await?.tag_name().await? == "h1", "the heading is no h1");
    page.touch("count").await?;
    page.wait_state("counted", "count", "5").await?;
    let pointer = page.attribute("counted", "data-pointer").await?.unwrap_or_default();
    let finger = if stage.engine == Engine::Webkit { "mouse" } else { "touch" };
    ensure!(pointer == finger, "a finger arrived as {pointer:?}");
    page.tap("cover").await?;
    let covered = page.tap("count").await;
    ensure!(covered.is_err(), "a covered button could be tapped");
    ensure!(
        page.value("document.querySelector('[data-test=counted]').dataset.count").await? == "5",
        "a tap went through"
    );
    Ok(())
}

/// Fields are typed into, files are handed over and downloaded.
pub async fn fields(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    page.fill(role("textbox", "Name"), "old").await?;
    page.fill("name", "Zoë 👁 <b>").await?;
    page.press(Key::Tab).await?;
    ensure!(page.field("name").await? == "Zoë 👁 <b>", "the field holds {:?}", page.field("name").await?);
    ensure!(page.text("echo").await? == "Hello Zoë 👁 <b>", "the page says {:?}", page.text("echo").await?);
    ensure!(page.keys() == 13, "13 keys were counted as {}", page.keys());

    let folder = tempfile::tempdir()?;
    let file = folder.path().join("handed.txt");
    fs::write(&file, "from a file")?;
    page.choose_file("file", &file).await?;
    page.wait_text("file-text", "from a file").await?;

    page.tap("save").await?;
    let saved = stage.browser.wait_for_download("harness.txt").await?;
    ensure!(fs::read_to_string(&saved)? == "saved by the harness page\n", "the download has another content");
    Ok(())
}

/// The view takes each size exactly, also after a reload and in a second tab.
pub async fn views(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    expect_size(&page, (TABLET.width.into(), TABLET.height.into())).await?;
    for viewport in [SMALL_PHONE, DESKTOP, PHONE, SMALL_PHONE] {
        stage.browser.resize(viewport).await?;
        expect_size(&page, (viewport.width.into(), viewport.height.into())).await?;
    }
    page.reload().await?;
    expect_size(&page, (360, 640)).await?;
    page.open("#/elsewhere").await?;
    ensure!(page.value("location.hash").await? == "#/elsewhere", "the page did not go elsewhere");
    let first = page.new_tab().await?;
    page.open("").await?;
    boots::is_up(&page).await?;
    expect_size(&page, (360, 640)).await?;
    page.close_tab(&first).await?;
    expect_size(&page, (360, 640)).await?;
    let picture = fs::read(stage.shoot("harness view").await?)?;
    let (width, height) = png_size(&picture).context("the picture is no PNG")?;
    ensure!(width * 640 == height * 360, "the picture is {width}x{height}, not of the shape of the view");
    stage.note(format!("picture {width}x{height}"));
    Ok(())
}

/// A script that throws is found in the console.
pub async fn console(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    let errors = stage.browser.console_errors().await?;
    ensure!(errors.is_empty(), "errors before anything broke: {}", errors.join(" | "));
    page.tap("break").await?;
    page.run("console.error('said on purpose');").await?;
    for part in ["broken on purpose", "said on purpose"] {
        poll(&format!("{part:?} in the console"), PATIENCE, async || {
            let errors = stage.browser.console_errors().await?;
            Ok(errors.iter().any(|error| error.contains(part)).then_some(()))
        })
        .await?;
    }
    Ok(())
}

/// The accessibility check passes a good page and finds a button without a name and a pale text.
pub async fn audit(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    let faults = page.audit().await?;
    if let Some(fault) = faults.first() {
        bail!("the page has a fault: {fault}");
    }
    page.run("document.querySelector('[data-test=count]').textContent = '';").await?;
    page.run("document.querySelector('p').style.color = '#767676';").await?;
    let faults = page.audit().await?;
    for rule in ["button-name", "color-contrast-enhanced"] {
        ensure!(faults.iter().any(|fault| fault.rule == rule), "{rule} was not found among {faults:?}");
    }
    Ok(())
}

/// A print has the pages it should have.
pub async fn print(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    let short = page.print().await?;
    page.run("document.body.append(...Array.from({ length: 120 }, () => document.createElement('p')).map(p => (p.textContent = 'line', p)));")
        .await?;
    let long = page.print().await?;
    ensure!(short.pages == 1 && long.pages > 2, "{} and {} pages were printed", short.pages, long.pages);
    ensure!(short.pdf.starts_with(b"%PDF"), "the print is no PDF file");
    Ok(())
}

/// A killed browser finds its data again; another browser does not.
pub async fn kill(stage: &mut Stage) -> Result<()> {
    open(stage).await?;
    stage.browser.kill();
    ensure!(stage.page().is_err(), "a killed browser has a page");
    let page = stage.browser.reopen().await?;
    page.open("").await?;
    page.wait_state("kept", "visits", "2").await?;
    let stranger = Browser::start(stage.engine, PHONE, &stage.site.url()).await?;
    stranger.page()?.open("").await?;
    stranger.page()?.wait_state("kept", "visits", "1").await
}

/// The server can be stopped, started again and given other files.
pub async fn server(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    ensure!(stage.site.requests().iter().any(|path| path.contains("app.js")), "the script was not asked for");
    stage.site.stop()?;
    ensure!(stage.site.requests().iter().any(|path| path.contains("app.js")), "a stop forgot what was asked for");
    let changed = tempfile::tempdir()?;
    copy(Path::new(TINY), changed.path())?;
    edit(changed.path(), "index.html", "Harness page", "Changed page")?;
    stage.site.serve(changed.path())?;
    page.run("return navigator.serviceWorker.getRegistration().then(worker => worker?.unregister()).then(() => null)")
        .await?;
    page.reload().await?;
    page.wait_text(css("h1"), "Changed page").await
}

/// Chromium's debugging protocol answers, and its emulation makes a phone with touch.
pub async fn devtools(stage: &mut Stage) -> Result<()> {
    let page = open(stage).await?;
    let version = page.devtools("Browser.getVersion", json!({})).await?;
    ensure!(version["product"].as_str().is_some_and(|product| product.contains("Chrome")), "odd answer: {version}");
    ensure!(page.value("navigator.maxTouchPoints > 0").await? == Value::Bool(true), "the phone has no touch");
    ensure!(page.value("window.devicePixelRatio").await?.as_f64() == Some(3.0), "the phone is not at ratio 3");
    Ok(())
}

/// An injected script is noticed where nothing forbids it.
pub async fn injection(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.client().goto("data:text/html,<title>open</title><p>No policy here.</p>").await?;
    let injected = policy::inject(&page).await?;
    ensure!(injected.ran.is_some(), "a script that ran was not noticed");
    ensure!(injected.blocked.is_empty(), "something blocked it: {:?}", injected.blocked);
    Ok(())
}

/// Each spec of the list that holds for any site fails on a site with the fault it is there to find.
pub async fn faults(stage: &mut Stage) -> Result<()> {
    for fault in FAULTS {
        if fault.engines.is_some_and(|engine| engine != stage.engine) {
            continue;
        }
        let site = tempfile::tempdir()?;
        copy(Path::new(TINY), site.path())?;
        edit(site.path(), fault.file, fault.sound, fault.broken)?;
        let spec = super::SITE.iter().find(|spec| spec.name == fault.spec).context("no such spec")?;
        let mut broken = Stage::set(spec, stage.engine, site.path(), site.path()).await?;
        match (spec.run)(&mut broken).await {
            Ok(()) => bail!("{:?} passed although {:?} was taken out of {}", fault.spec, fault.sound, fault.file),
            Err(error) if error.is::<Skip>() => return Err(error),
            Err(error) => stage.note(format!("{}: {error:#}", fault.spec)),
        }
    }
    Ok(())
}

/// The page of the harness.
pub const TINY: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/tiny");

/// A fault put into the page of the harness, and the spec that must find it.
struct Fault {
    spec: &'static str,
    engines: Option<Engine>,
    file: &'static str,
    sound: &'static str,
    broken: &'static str,
}

const FAULTS: &[Fault] = &[
    Fault {
        spec: "boots",
        engines: None,
        file: "app.js",
        sound: "let counted = 0;",
        broken: "throw new Error('on load');",
    },
    Fault { spec: "boots", engines: None, file: "index.html", sound: "<title>Sidelight", broken: "<title>Other" },
    Fault {
        spec: "can be installed",
        engines: Some(Engine::Chromium),
        file: "manifest.webmanifest",
        sound: "\"standalone\"",
        broken: "\"browser\"",
    },
    Fault {
        spec: "can be installed",
        engines: Some(Engine::Chromium),
        file: "manifest.webmanifest",
        sound: "image/svg+xml",
        broken: "image/none",
    },
    Fault { spec: "offline: reload", engines: None, file: "sw.js", sound: "kept ?? ", broken: "" },
    Fault { spec: "offline: new tab", engines: None, file: "sw.js", sound: "kept ?? ", broken: "" },
    Fault {
        spec: "policy: stated by header and page",
        engines: None,
        file: "index.html",
        sound: "script-src 'self'",
        broken: "script-src 'self' 'unsafe-inline'",
    },
];

async fn open(stage: &Stage) -> Result<Page> {
    let page = stage.install().await?;
    page.wait_state("kept", "visits", "1").await?;
    Ok(page)
}

async fn expect_size(page: &Page, wanted: (u64, u64)) -> Result<()> {
    let size = page.size().await?;
    ensure!(size == wanted, "the view is {size:?}, not {wanted:?}");
    Ok(())
}

/// Width and height from the header of a PNG file.
fn png_size(picture: &[u8]) -> Option<(u32, u32)> {
    let word = |from: usize| Some(u32::from_be_bytes(picture.get(from..from + 4)?.try_into().ok()?));
    picture.starts_with(b"\x89PNG").then_some(())?;
    word(16).zip(word(20))
}
