//! The empty app's site with its program replaced by a few lines of JavaScript: a static page, served by the same worker.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

use crate::build::fingerprint::integrity;

const PROGRAM: &str =
    "if (!document.body) await new Promise((resolve) => addEventListener('DOMContentLoaded', resolve));
const button = document.createElement('button');
button.dataset.test = 'start';
let taps = 0;
button.addEventListener('click', () => { button.textContent = ++taps; });
document.body.append(button);
";

/// Copies `from` to `to`, with the boot script replaced and nothing loaded ahead, and mends the worker's list.
pub fn write(from: &Path, to: &Path) -> Result<()> {
    if to.exists() {
        fs::remove_dir_all(to)?;
    }
    fs::create_dir_all(to)?;
    let mut worker = fs::read_to_string(from.join("sw.js"))?;
    for entry in fs::read_dir(from)? {
        let path = entry?.path();
        let name = path.file_name().and_then(|name| name.to_str()).context("a file without a name")?.to_owned();
        if name == "sw.js" {
            continue;
        }
        let bytes = fs::read(&path)?;
        let changed = match name.as_str() {
            "index.html" => without_preloads(&String::from_utf8(bytes.clone())?).into_bytes(),
            boot if boot.starts_with("boot-") => PROGRAM.as_bytes().to_vec(),
            _ => bytes.clone(),
        };
        worker = worker.replace(&integrity(&bytes), &integrity(&changed));
        fs::write(to.join(&name), changed)?;
    }
    fs::write(to.join("sw.js"), worker)?;
    Ok(())
}

fn without_preloads(page: &str) -> String {
    page.lines().filter(|line| !line.contains("preload")).map(|line| format!("{line}\n")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_loaded_ahead() {
        let page =
            "<head>\n<link rel=\"modulepreload\" href=\"a.js\">\n<link rel=\"preload\" href=\"a.wasm\">\n</head>\n";
        assert_eq!(without_preloads(page), "<head>\n</head>\n");
    }
}
