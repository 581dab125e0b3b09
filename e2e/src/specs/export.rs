//! Other formats: what leaves as FHIR and as tables is read back from the downloads; nothing is written unwarned.

use std::collections::BTreeMap;
use std::fs;
use std::io::{Cursor, Read as _};
use std::path::Path;
use std::time::Duration;

use anyhow::{Context, Result, ensure};
use serde_json::Value;
use sidelight_core::archive;
use sidelight_core::calendar::Moment;
use sidelight_core::demo;
use sidelight_core::export::fhir::check;
use sidelight_core::export::table;

use super::looks::{audit, focus_and_press, no_overflow};
use super::take_in::{WATCH, many_visits, to_take_in, watched};
use crate::examine::screen;
use crate::page::Page;
use crate::spec::Stage;
use crate::viewport::{DESKTOP, PHONE, SMALL_PHONE};

/// One visit from its summary, as a transaction and as a collection; then everyone's.
pub async fn bundle(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.tap("visit-row").await?;
    screen(&page, "summary").await?;
    page.tap("export").await?;
    screen(&page, "export").await?;
    page.wait_text("selected", "1 visit of R-21.").await?;
    page.wait_text("unsealed", "names and findings").await?;
    page.tap("how-to-post").await?;
    page.wait_text("command", "curl -fsS").await?;
    seen(stage, &page, "other formats").await?;
    page.tap("make").await?;
    page.wait_text("refused", "Tick").await?;
    ensure!(page.count("file-ready").await? == 0, "a file was written unwarned");
    page.tap("understood").await?;
    page.tap("make").await?;
    let name = page.text("file-name").await?;
    page.wait_text("command", &format!("--data-binary @{name}")).await?;
    seen(stage, &page, "other formats, bundle").await?;
    page.tap("save-file").await?;
    let saved = stage.browser.wait_for_download("-fhir-transaction.json").await?;
    ensure!(saved.file_name().is_some_and(|file| file.to_string_lossy() == name), "{saved:?} is not {name}");
    let transaction = read_bundle(&saved, "transaction")?;
    ensure!(of_kind(&transaction, "Encounter") == 1 && of_kind(&transaction, "Patient") == 1, "not one visit");

    page.tap("again").await?;
    page.tap("form-program").await?;
    page.tap("what-person").await?;
    page.wait_text("selected", "of R-21.").await?;
    page.tap("what-people").await?;
    page.wait_text("selected", "Nothing").await?;
    page.tap("make").await?;
    page.wait_text("refused", "no closed visit").await?;
    page.tap("what-all").await?;
    page.wait_text("selected", "of 6 people").await?;
    let all = page.text("selected").await?;
    page.tap("make").await?;
    page.tap("save-file").await?;
    let saved = stage.browser.wait_for_download("-fhir-collection.json").await?;
    let collection = read_bundle(&saved, "collection")?;
    let visits = of_kind(&collection, "Encounter");
    ensure!(all.starts_with(&format!("{visits} visits")), "{visits} visits are written, chosen were {all}");
    ensure!(of_kind(&collection, "Patient") == 6, "not everyone");
    stage.note(format!("{visits} visits: {} entries, {} bytes", entries(&collection), fs::metadata(&saved)?.len()));
    page.tap("back").await?;
    screen(&page, "summary").await?;
    page.open("#/safe").await?;
    let never = page.text("never").await?;
    ensure!(never.trim() == visits.to_string(), "{never} of {visits} visits count as never handed over");
    Ok(())
}

/// A person's tables with codes and with names.
pub async fn tables(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.tap("people").await?;
    page.fill("find", "n-1").await?;
    page.tap("person-row").await?;
    page.tap("export").await?;
    page.wait_text("selected", "4 visits of N-14.").await?;
    page.tap("what-all").await?;
    page.wait_text("selected", "of 6 people").await?;
    page.tap("form-spreadsheet").await?;
    page.wait_text("pseudonymised", "not anonymous").await?;
    page.tap("understood").await?;
    seen(stage, &page, "other formats, tables").await?;
    page.tap("make").await?;
    page.wait_text("codes", "stays with the clinic").await?;
    seen(stage, &page, "other formats, codes").await?;
    page.tap("save-file").await?;
    let coded = unpacked(&stage.browser.wait_for_download("-tables-coded.zip").await?)?;
    page.tap("save-codes").await?;
    let list = fs::read(stage.browser.wait_for_download("-study-codes.csv").await?)?;
    ensure!(coded.values().all(|file| !file.is_empty()), "an empty file");
    for wanted in ["visits.csv", "measures.csv", "trials.csv", "symptoms.csv", "answers.csv", "datapackage.json"] {
        ensure!(coded.contains_key(wanted), "no {wanted} in {:?}", coded.keys());
    }
    ensure!(!coded.contains_key("people.csv"), "people stand in tables without names");
    let (people, _) = demo::people(Moment { unix_ms: 0, offset_minutes: 0 });
    for (name, bytes) in &coded {
        ensure!(!name.ends_with(".csv") || bytes.starts_with("\u{feff}".as_bytes()), "{name} is not marked");
        for person in &people {
            let text = String::from_utf8_lossy(bytes);
            ensure!(!text.contains(&person.label) && !text.contains(&person.id), "{name} names {}", person.label);
        }
    }
    let list = table::read(&list).map_err(|error| anyhow::anyhow!("{error}"))?;
    let visits = table::read(&coded["visits.csv"]).map_err(|error| anyhow::anyhow!("{error}"))?;
    ensure!(list.rows.len() == people.len(), "{} codes", list.rows.len());
    for row in &visits.rows {
        ensure!(list.rows.iter().any(|code| row.contains(&code[0])), "a visit of nobody on the list: {row:?}");
    }

    page.tap("again").await?;
    page.tap("what-person").await?;
    page.wait_text("selected", "4 visits").await?;
    page.tap("form-statistics").await?;
    page.tap("named").await?;
    page.wait_text("unsealed", "names and findings").await?;
    page.tap("make").await?;
    page.find("file-ready").await?;
    ensure!(page.count("codes").await? == 0, "tables with names have no codes");
    page.tap("save-file").await?;
    let named = unpacked(&stage.browser.wait_for_download("-tables-named.zip").await?)?;
    let people =
        table::read(named.get("people.csv").context("no people")?).map_err(|error| anyhow::anyhow!("{error}"))?;
    ensure!(people.rows.len() == 1 && people.rows[0].iter().any(|cell| cell == "N-14"), "not this person");
    ensure!(!named["visits.csv"].starts_with("\u{feff}".as_bytes()), "marked for spreadsheets");
    page.tap("back").await?;
    page.wait_text("person", "N-14").await
}

/// More visits than a bundle holds are refused in a sentence; their tables are written, and the page answers meanwhile.
pub async fn too_many(stage: &mut Stage) -> Result<()> {
    const COUNT: usize = 2_001;
    let folder = tempfile::tempdir()?;
    let path = folder.path().join("many.json");
    fs::write(&path, archive::write_compact(&many_visits(COUNT)))?;
    let page = to_take_in(stage).await?;
    let patience = Duration::from_secs(120);
    page.choose_file("take-files", &path).await?;
    page.wait_until_within("the plan", "!!document.querySelector('[data-test=plan]')", patience).await?;
    page.tap("go").await?;
    page.wait_until_within("the receipt", "!!document.querySelector('[data-test=receipt-words]')", patience).await?;
    page.open("#/export").await?;
    page.wait_text("selected", &format!("{COUNT} visits")).await?;
    page.tap("understood").await?;
    page.tap("make").await?;
    let refused = format!("document.querySelector('[data-test=refused]').textContent.includes('{COUNT} visits')");
    page.wait_until_within("a sentence about too many", &refused, patience).await?;
    no_overflow(&page, "too many visits").await?;
    stage.shoot("too many for a bundle").await?;
    page.tap("form-statistics").await?;
    page.run(WATCH).await?;
    page.tap("make").await?;
    page.wait_until_within("the tables", "!!document.querySelector('[data-test=file-ready]')", patience).await?;
    let (ms, gap) = watched(&page).await?;
    page.tap("save-file").await?;
    let saved = stage.browser.wait_for_download("-tables-coded.zip").await?;
    let bytes = fs::metadata(&saved)?.len();
    let visits = table::read(&unpacked(&saved)?["visits.csv"]).map_err(|error| anyhow::anyhow!("{error}"))?;
    ensure!(visits.rows.len() == COUNT, "{} visits in the table", visits.rows.len());
    stage.note(format!("tables of {COUNT} visits: {ms} ms (page still for {gap} ms at most), {bytes} bytes"));
    Ok(())
}

/// From safe keeping to a saved file without the pointer.
pub async fn keyboard(stage: &mut Stage) -> Result<()> {
    let page = stage.install().await?;
    page.tap("demo").await?;
    page.find("visit-row").await?;
    page.open("#/safe").await?;
    screen(&page, "safe").await?;
    let taps = page.taps();
    focus_and_press(&page, "[data-test=export]").await?;
    screen(&page, "export").await?;
    page.wait_text("selected", "of 6 people").await?;
    reach(&page, "[data-test=form-server] input").await?;
    page.press(fantoccini::key::Key::Down).await?;
    page.wait_text("says", "collection").await?;
    reach(&page, "[data-test=understood] input").await?;
    page.press(fantoccini::key::Key::Space).await?;
    focus_and_press(&page, "[data-test=make]").await?;
    page.find("file-ready").await?;
    focus_and_press(&page, "[data-test=save-file]").await?;
    read_bundle(&stage.browser.wait_for_download("-fhir-collection.json").await?, "collection")?;
    ensure!(page.taps() == taps, "the pointer was used");
    Ok(())
}

/// Moves the focus by the tab key; the field of a choice is never shown itself.
async fn reach(page: &Page, selector: &str) -> Result<()> {
    for _ in 0..60 {
        if page.value(&format!("document.activeElement?.matches('{selector}') ?? false")).await? == Value::Bool(true) {
            return Ok(());
        }
        page.press(fantoccini::key::Key::Tab).await?;
    }
    anyhow::bail!("the keyboard does not reach {selector}")
}

/// A valid bundle of this kind, by our own checks, and a name that tells nothing of a person.
fn read_bundle(path: &Path, kind: &str) -> Result<Value> {
    let name = path.file_name().context("no name")?.to_string_lossy().into_owned();
    ensure!(name.starts_with("sidelight-20") && !name.contains("R-21") && !name.contains("N-14"), "{name}");
    let bundle: Value = serde_json::from_slice(&fs::read(path)?).context("no JSON")?;
    ensure!(bundle["resourceType"] == "Bundle" && bundle["type"] == kind, "no {kind}");
    ensure!(entries(&bundle) > 10, "{} entries", entries(&bundle));
    let faults: Vec<String> = check::faults(&bundle).iter().map(ToString::to_string).collect();
    ensure!(faults.is_empty(), "{faults:#?}");
    Ok(bundle)
}

fn entries(bundle: &Value) -> usize {
    bundle["entry"].as_array().map_or(0, Vec::len)
}

fn of_kind(bundle: &Value, kind: &str) -> usize {
    let entries = bundle["entry"].as_array().into_iter().flatten();
    entries.filter(|entry| entry["resource"]["resourceType"] == kind).count()
}

fn unpacked(path: &Path) -> Result<BTreeMap<String, Vec<u8>>> {
    let mut zip = zip::ZipArchive::new(Cursor::new(fs::read(path)?))?;
    let mut files = BTreeMap::new();
    for at in 0..zip.len() {
        let mut file = zip.by_index(at)?;
        let name = file.name()?.into_owned();
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes)?;
        files.insert(name, bytes);
    }
    Ok(files)
}

/// A screen passes the audit in both themes and fits on a phone, a small one and a desktop; pictures of it are kept.
async fn seen(stage: &mut Stage, page: &Page, name: &str) -> Result<()> {
    for viewport in [SMALL_PHONE, DESKTOP, PHONE] {
        stage.browser.resize(viewport).await?;
        no_overflow(page, &format!("{name} at {viewport}")).await?;
        audit(page, &format!("{name} at {viewport}")).await?;
        stage.shoot(&format!("{name} {viewport}")).await?;
    }
    for theme in ["dark", "light"] {
        page.run_with("document.documentElement.dataset.theme = arguments[0];", vec![Value::from(theme)]).await?;
        audit(page, &format!("{name}, {theme}")).await?;
    }
    Ok(())
}
