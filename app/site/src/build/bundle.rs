//! From bindings and static files to the complete list of files of the site. Pure: bytes in, bytes out.

use std::collections::BTreeMap;

use anyhow::{Result, bail};

use super::bind::Bindings;
use super::{fingerprint, sheet};
use crate::csp;

/// A file that is in no list: the browser fetches it by itself to look for a new build.
pub const SERVICE_WORKER: &str = "sw.js";

const INDEX: &str = include_str!("../../assets/index.html");
const BOOT: &str = include_str!("../../assets/boot.js");
const WORKER: &str = include_str!("../../assets/sw.js");
const SECOND: &str = include_str!("../../assets/second.js");

/// File paths, with `/` on every system, and their bytes.
pub type Files = BTreeMap<String, Vec<u8>>;

/// A site ready to be written.
#[derive(Debug)]
pub struct Bundle {
    pub files: Files,
    pub version: String,
    /// Of the first module, which every start loads.
    pub wasm_bytes: usize,
    /// Of the second module, which is loaded on demand.
    pub second_bytes: Option<usize>,
    /// Of the family's page.
    pub sheet_bytes: Option<usize>,
}

/// The bindings of each module of a site.
pub struct Modules {
    /// The app.
    pub first: Bindings,
    /// Its second module.
    pub second: Option<Bindings>,
    /// The family's page.
    pub sheet: Option<Bindings>,
}

/// Names files by content, fills in the page and lists everything for the service worker.
pub fn bundle(modules: Modules, public: Files) -> Result<Bundle> {
    let Modules { first: bindings, second, sheet } = modules;
    let wasm_bytes = bindings.wasm.len();
    let sheet_bytes = sheet.as_ref().map(|sheet| sheet.wasm.len());
    let second_bytes = second.as_ref().map(|second| second.wasm.len());
    let mut files = Files::new();
    let mut styles = Vec::new();
    for (path, bytes) in public {
        if path.ends_with(".css") && !path.contains('/') {
            let name = add(&mut files, &path, bytes);
            styles.push(format!("<link rel=\"stylesheet\" href=\"{name}\">"));
        } else {
            files.insert(path, bytes);
        }
    }

    let js = with_snippets(&mut files, bindings.js, bindings.snippets);
    let app_js = add(&mut files, "app.js", js.into_bytes());
    let app_wasm = add(&mut files, "app.wasm", bindings.wasm);
    let boot = fill(BOOT, &[("app_js", &app_js), ("app_wasm", &app_wasm)])?;
    let boot_js = add(&mut files, "boot.js", boot.into_bytes());

    let second = second.map(|bindings| with_second(&mut files, bindings)).transpose()?.unwrap_or_default();

    if let Some(bindings) = sheet {
        sheet::add(&mut files, bindings)?;
    }

    let styles = styles.join("\n");
    let csp = csp::meta();
    let page = |version: &str| {
        fill(
            INDEX,
            &[
                ("csp", &csp),
                ("version", version),
                ("second", &second),
                ("styles", &styles),
                ("app_js", &app_js),
                ("app_wasm", &app_wasm),
                ("boot_js", &boot_js),
            ],
        )
    };
    // The page names the version, so the version is taken from everything else and from the page without it.
    files.insert("index.html".to_owned(), page("")?.into_bytes());
    let version = version(&files);
    files.insert("index.html".to_owned(), page(&version)?.into_bytes());

    let worker = fill(WORKER, &[("version", &version), ("files", &precache_list(&files))])?;
    if files.contains_key(SERVICE_WORKER) {
        bail!("public/ holds a file named {SERVICE_WORKER}, which the builder makes itself; rename it");
    }
    files.insert(SERVICE_WORKER.to_owned(), worker.into_bytes());
    Ok(Bundle { files, version, wasm_bytes, second_bytes, sheet_bytes })
}

fn add(files: &mut Files, plain: &str, bytes: Vec<u8>) -> String {
    let name = fingerprint::name(plain, &bytes);
    files.insert(name.clone(), bytes);
    name
}

/// Adds the second module and gives the line of the page that names the script it is started by. Nothing loads it ahead.
fn with_second(files: &mut Files, bindings: Bindings) -> Result<String> {
    let js = with_snippets(files, bindings.js, bindings.snippets);
    let worker_js = add(files, "worker.js", js.into_bytes());
    let worker_wasm = add(files, "worker.wasm", bindings.wasm);
    let script = fill(SECOND, &[("worker_js", &worker_js), ("worker_wasm", &worker_wasm)])?;
    let second_js = add(files, "second.js", script.into_bytes());
    Ok(format!("<meta name=\"sidelight-second\" content=\"{second_js}\">"))
}

/// Snippets import each other by relative path, so their folder as a whole gets the fingerprint.
fn with_snippets(files: &mut Files, js: String, snippets: BTreeMap<String, String>) -> String {
    if snippets.is_empty() {
        return js;
    }
    let all: Vec<u8> =
        snippets.iter().flat_map(|(path, text)| [path.as_bytes(), b"\0", text.as_bytes(), b"\0"].concat()).collect();
    let folder = format!("snippets-{}", fingerprint::short(&all));
    for (path, text) in snippets {
        files.insert(format!("{folder}/{path}"), text.into_bytes());
    }
    js.replace("./snippets/", &format!("./{folder}/"))
}

fn version(files: &Files) -> String {
    let listed = format!("{WORKER}{}", precache_list(files));
    fingerprint::short(listed.as_bytes())
}

pub(super) fn precache_list(files: &Files) -> String {
    let listed = files.iter().filter(|(path, _)| !sheet::is_worker(path));
    let entries: serde_json::Map<String, serde_json::Value> =
        listed.map(|(path, bytes)| (path.clone(), fingerprint::integrity(bytes).into())).collect();
    format!("{:#}", serde_json::Value::Object(entries))
}

/// Replaces each `{{key}}`. A key without a value, or a value without a key, is a mistake in the template.
pub(super) fn fill(template: &str, values: &[(&str, &str)]) -> Result<String> {
    let mut text = template.to_owned();
    for (key, value) in values {
        let mark = format!("{{{{{key}}}}}");
        if !text.contains(&mark) {
            bail!("a template of the site lacks {mark}");
        }
        text = text.replace(&mark, value);
    }
    if let Some((_, rest)) = text.split_once("{{") {
        let key = rest.split("}}").next().unwrap_or(rest);
        bail!("a template of the site asks for {{{{{key}}}}}, which nothing gives");
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bindings() -> Bindings {
        Bindings {
            wasm: b"\0asm".to_vec(),
            js: "import { a } from './snippets/crate-1/inline0.js';".to_owned(),
            snippets: BTreeMap::from([("crate-1/inline0.js".to_owned(), "export const a = 1;".to_owned())]),
        }
    }

    fn public(css: &str) -> Files {
        Files::from([
            ("app.css".to_owned(), css.as_bytes().to_vec()),
            ("icon.svg".to_owned(), b"<svg/>".to_vec()),
            ("manifest.webmanifest".to_owned(), b"{}".to_vec()),
        ])
    }

    fn built(css: &str) -> Bundle {
        let second = Bindings { wasm: b"\0asm2".to_vec(), js: "export {};".to_owned(), snippets: BTreeMap::new() };
        bundle(Modules { first: bindings(), second: Some(second), sheet: None }, public(css)).expect("a bundle")
    }

    fn text(bundle: &Bundle, path: &str) -> String {
        String::from_utf8(bundle.files[path].clone()).expect("text")
    }

    #[test]
    fn the_worker_lists_every_file_but_itself_with_its_digest() {
        let bundle = built("a{}");
        let worker = text(&bundle, SERVICE_WORKER);
        let list = worker.split("const FILES = ").nth(1).expect("a list");
        let list = list.split(";\n").next().expect("its end");
        let listed: BTreeMap<String, String> = serde_json::from_str(list).expect("json");
        let expected: BTreeMap<String, String> = bundle
            .files
            .iter()
            .filter(|(path, _)| *path != SERVICE_WORKER)
            .map(|(path, bytes)| (path.clone(), fingerprint::integrity(bytes)))
            .collect();
        assert_eq!(listed, expected);
        assert!(listed.contains_key("index.html"));
        assert_eq!(listed.len(), 11);
    }

    #[test]
    fn every_address_in_the_page_is_a_file_and_relative() {
        let bundle = built("a{}");
        let page = text(&bundle, "index.html");
        let addresses: Vec<&str> = page
            .split(['"', '\n'])
            .zip(page.split(['"', '\n']).skip(1))
            .filter(|(before, _)| before.ends_with("href=") || before.ends_with("src="))
            .map(|(_, address)| address)
            .collect();
        // The icons made from pictures are not among these test files.
        let missing: Vec<&&str> = addresses.iter().filter(|address| !bundle.files.contains_key(**address)).collect();
        assert_eq!(missing, [&"favicon.png", &"apple-touch-icon.png"]);
        assert!(addresses.len() >= 7);
    }

    #[test]
    fn the_page_carries_the_policy_and_no_inline_code() {
        let page = text(&built("a{}"), "index.html");
        assert!(page.contains(&format!("content=\"{}\"", csp::meta())));
        assert!(!page.contains("<style"));
        assert!(!page.contains("style="));
        assert!(page.contains("<script type=\"module\" async fetchpriority=\"high\" src=\"boot-"));
        assert_eq!(page.matches("<script").count(), 1);
    }

    #[test]
    fn the_page_names_the_second_module_and_loads_nothing_of_it() {
        let bundle = built("a{}");
        let page = text(&bundle, "index.html");
        let named = page.split("name=\"sidelight-second\" content=\"").nth(1).and_then(|it| it.split('"').next());
        let script = text(&bundle, named.expect("a script is named"));
        let parts: Vec<&String> = bundle.files.keys().filter(|path| path.starts_with("worker-")).collect();
        assert_eq!(parts.len(), 2);
        assert!(parts.iter().all(|part| script.contains(part.as_str()) && !page.contains(part.as_str())));
        assert_eq!(bundle.second_bytes, Some(5));
        let modules = Modules { first: bindings(), second: None, sheet: None };
        let alone = super::bundle(modules, public("a{}")).expect("a bundle");
        assert!(!text(&alone, "index.html").contains("sidelight-second"));
        assert_eq!(alone.second_bytes, None);
    }

    #[test]
    fn the_familys_page_is_kept_by_the_app_too_and_no_worker_is_listed() {
        let sheet = Bindings { wasm: b"\0asm3".to_vec(), js: "export {};".to_owned(), snippets: BTreeMap::new() };
        let modules = Modules { first: bindings(), second: None, sheet: Some(sheet) };
        let bundle = super::bundle(modules, public("a{}")).expect("a bundle");
        let worker = text(&bundle, SERVICE_WORKER);
        assert!(worker.contains("\"sheet/index.html\"") && worker.contains("\"sheet/file.html\""));
        assert!(bundle.files.contains_key("sheet/sw.js") && !worker.contains("sheet/sw.js"));
        assert_eq!(bundle.sheet_bytes, Some(5));
    }

    #[test]
    fn snippets_are_found_under_their_new_folder() {
        let bundle = built("a{}");
        let app = bundle.files.keys().find(|path| path.starts_with("app-") && path.ends_with(".js"));
        let js = text(&bundle, app.expect("app.js"));
        let address = js.split("'./").nth(1).and_then(|it| it.split('\'').next());
        assert!(bundle.files.contains_key(address.expect("an import")));
    }

    #[test]
    fn equal_content_gives_an_equal_build_and_a_change_a_new_one() {
        assert_eq!(built("a{}").files, built("a{}").files);
        assert_ne!(built("a{}").version, built("b{}").version);
    }

    #[test]
    fn templates_and_values_must_agree() {
        assert!(fill("{{a}}", &[("a", "1")]).is_ok());
        assert!(fill("{{a}} {{b}}", &[("a", "1")]).is_err());
        assert!(fill("{{a}}", &[("a", "1"), ("b", "2")]).is_err());
    }
}
