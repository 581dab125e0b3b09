//! The family's page beside the app: a folder with a page, a module and a service worker of its own, and the template of the
//! single file, which needs no network at all.

use anyhow::{Context as _, Result, bail};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::bind::Bindings;
use super::bundle::{Files, SERVICE_WORKER, fill, precache_list};
use super::fingerprint;
use crate::csp;

const FOLDER: &str = "sheet/";
/// What the app makes a family's file from. The page itself never asks for it.
const TEMPLATE: &str = "file.html";

const INDEX: &str = include_str!("../../assets/sheet/index.html");
const BOOT: &str = include_str!("../../assets/sheet/boot.js");
const WORKER: &str = include_str!("../../assets/sheet/sw.js");
const FILE: &str = include_str!("../../assets/sheet/file.html");
const START: &str = include_str!("../../assets/sheet/start.js");
/// The style of the page, and that of the sheet on paper, which the app has too.
const STYLE: &str =
    concat!(include_str!("../../assets/sheet/sheet.css"), "\n", include_str!("../../../../public/paper.css"));

/// The icon is the app's.
const ICON: &str = "icon.svg";

/// Adds the folder to the files of a site.
pub fn add(files: &mut Files, bindings: Bindings) -> Result<()> {
    if !bindings.snippets.is_empty() {
        bail!("a crate of the family's page brings JavaScript of its own, which a single file cannot hold");
    }
    let template = file(&bindings)?;
    let mut own = Files::new();
    let mut named = |plain: &str, bytes: Vec<u8>| {
        let name = fingerprint::name(plain, &bytes);
        own.insert(name.clone(), bytes);
        name
    };
    let sheet_css = named("sheet.css", STYLE.as_bytes().to_vec());
    let sheet_js = named("sheet.js", bindings.js.into_bytes());
    let sheet_wasm = named("sheet.wasm", bindings.wasm);
    let boot = fill(BOOT, &[("sheet_js", &sheet_js), ("sheet_wasm", &sheet_wasm)])?;
    let boot_js = named("boot.js", boot.into_bytes());
    let page = fill(
        INDEX,
        &[
            ("csp", &csp::family_page()),
            ("sheet_css", &sheet_css),
            ("sheet_js", &sheet_js),
            ("sheet_wasm", &sheet_wasm),
            ("boot_js", &boot_js),
        ],
    )?;
    own.insert("index.html".to_owned(), page.into_bytes());
    if let Some(icon) = files.get(ICON) {
        own.insert(ICON.to_owned(), icon.clone());
    }
    let list = precache_list(&own);
    let version = fingerprint::short(format!("{WORKER}{list}").as_bytes());
    let worker = fill(WORKER, &[("version", &version), ("files", &list)])?;
    own.insert(SERVICE_WORKER.to_owned(), worker.into_bytes());
    own.insert(TEMPLATE.to_owned(), template.into_bytes());
    for (path, bytes) in own {
        let path = format!("{FOLDER}{path}");
        if files.insert(path.clone(), bytes).is_some() {
            bail!("public/ holds {path}, which the builder makes itself; rename it");
        }
    }
    Ok(())
}

/// Whether a file is fetched by the browser on its own, so that no list of files names it.
pub fn is_worker(path: &str) -> bool {
    path == SERVICE_WORKER || path.strip_prefix(FOLDER) == Some(SERVICE_WORKER)
}

/// The single file with its marks: style and module inside, and a policy that names both by their digests and no address.
fn file(bindings: &Bindings) -> Result<String> {
    let start = fill(START, &[("wasm", &STANDARD.encode(&bindings.wasm))])?;
    let script = format!("\n{}{start}", bindings.js);
    let style = format!("\n{STYLE}");
    for (what, text) in [("the module's JavaScript", &script), ("the style sheet", &style)] {
        let ends = text.to_ascii_lowercase();
        if ["</script", "</style", "<!--", "@@"].iter().any(|end| ends.contains(end)) {
            bail!("{what} holds a text that would end its place in a page");
        }
    }
    let csp = csp::family_file(&fingerprint::integrity(style.as_bytes()), &fingerprint::integrity(script.as_bytes()));
    // Filled in by position and not by marks: a module's JavaScript may hold anything.
    let head = fill(FILE.split("{{style}}").next().unwrap_or_default(), &[("csp", &csp)])?;
    let (_, behind) = FILE.split_once("{{style}}").context("the file's template has no place for its style")?;
    let (between, end) = behind.split_once("{{script}}").context("the file's template has no place for its script")?;
    Ok([head.as_str(), &style, between, &script, end].concat())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    fn bindings() -> Bindings {
        let js = "const a = `{{b}}`;\nexport { __wbg_init as default };\n".to_owned();
        Bindings { wasm: b"\0asm".to_vec(), js, snippets: BTreeMap::new() }
    }

    fn built() -> Files {
        let mut files = Files::from([(ICON.to_owned(), b"<svg/>".to_vec())]);
        add(&mut files, bindings()).expect("a page");
        files
    }

    fn text(files: &Files, path: &str) -> String {
        String::from_utf8(files[path].clone()).expect("text")
    }

    #[test]
    fn the_page_names_files_of_its_folder_and_its_worker_lists_them() {
        let files = built();
        let page = text(&files, "sheet/index.html");
        let addresses = page.split("href=\"").chain(page.split("src=\"")).filter_map(|part| part.split('"').next());
        let files_named: Vec<&str> =
            addresses.filter(|address| address.contains('.') && !address.contains('<')).collect();
        assert!(files_named.len() >= 5, "{files_named:?}");
        for name in files_named {
            assert!(files.contains_key(&format!("sheet/{name}")), "{name}");
        }
        let worker = text(&files, "sheet/sw.js");
        for path in files.keys().filter_map(|path| path.strip_prefix(FOLDER)) {
            let listed = worker.contains(&format!("\"{path}\""));
            assert_eq!(listed, path != SERVICE_WORKER && path != TEMPLATE, "{path}");
        }
    }

    #[test]
    fn the_file_holds_everything_and_its_policy_names_it() {
        let file = text(&built(), "sheet/file.html");
        for mark in sidelight_core::family::Marks::ALL {
            assert!(file.contains(mark), "{mark}");
        }
        let inside = |start: &str, end: &str| {
            let from = file.find(start).expect("a start") + start.len();
            file[from..].split(end).next().expect("an end").to_owned()
        };
        let style = fingerprint::integrity(inside("<style>", "</style>").as_bytes());
        let script = fingerprint::integrity(inside("<script type=\"module\">", "</script>").as_bytes());
        let policy = inside("Content-Security-Policy\" content=\"", "\"");
        assert!(policy.contains(&format!("'{style}'")) && policy.contains(&format!("'{script}'")), "{policy}");
        assert!(!policy.contains("connect-src") && policy.starts_with("default-src 'none'"));
        assert!(!file.contains(" src=") && !file.contains(" href="), "nothing is fetched");
        assert!(file.contains("AGFzbQ==") && file.contains("`{{b}}`"));
    }

    #[test]
    fn a_script_that_would_end_its_place_is_refused() {
        let js = "const a = '</script>';".to_owned();
        assert!(add(&mut Files::new(), Bindings { js, ..bindings() }).is_err());
    }
}
