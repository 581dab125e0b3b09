//! Makes the JavaScript bindings of the compiled module.

use std::collections::BTreeMap;
use std::path::Path;

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

/// What the browser loads.
pub struct Bindings {
    pub wasm: Vec<u8>,
    pub js: String,
    /// JavaScript brought by crates: path under `snippets/` and text.
    pub snippets: BTreeMap<String, String>,
}

/// Runs the binding generator on a module built by cargo.
pub fn bindings(module: &Path, debug: bool) -> Result<Bindings> {
    let mut output = Bindgen::new()
        .input_path(module)
        .web(true)?
        .typescript(false)
        .debug(debug)
        .keep_debug(false)
        .remove_name_section(!debug)
        .remove_producers_section(true)
        .generate_output()
        .context("the JavaScript bindings could not be made")?;
    if let Some(package) = output.npm_dependencies().keys().next() {
        bail!("a crate asks for the npm package {package}; the site has no bundler, so use another crate");
    }
    let inline = output.snippets().iter().flat_map(|(folder, texts)| {
        let numbered = texts.iter().enumerate();
        numbered.map(move |(number, text)| (format!("{folder}/inline{number}.js"), text.clone()))
    });
    let local = output.local_modules().iter();
    let snippets = inline.chain(local.map(|(path, text)| (path.clone(), text.clone()))).collect();
    Ok(Bindings { snippets, js: output.js().to_owned(), wasm: output.wasm_mut().emit_wasm() })
}
