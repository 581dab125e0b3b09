//! The family's page as a static page of the same content, served by the same worker: what its speed and size are set beside.

use std::fs;
use std::path::Path;

use anyhow::{Context as _, Result};
use sidelight_core::catalogue::Language;
use sidelight_core::sheet::{Entry, Sheet};
use sidelight_core::tolerance::Limits;
use sidelight_core::{advice, exercise, family};

use crate::build::fingerprint::integrity;

/// The sheet that both show: four exercises and all advice.
pub fn example() -> Sheet {
    let four = ["head_turn_seated", "near_point_practice", "stance_steps", "steady_walk"];
    let exercises = four.into_iter().filter_map(exercise::by_id);
    Sheet {
        entries: exercises.map(|exercise| Entry { exercise, dose: exercise.start }).collect(),
        advice: advice::ALL.to_vec(),
        limits: Limits::CONSENSUS,
        emergency: "112".to_owned(),
        helper: true,
        language: Language::English,
    }
}

/// Writes the static page below `to/sheet`, with the style, icon and worker of the page below `from/sheet`.
pub fn write(from: &Path, to: &Path) -> Result<()> {
    let (from, to) = (from.join("sheet"), to.join("sheet"));
    if to.exists() {
        fs::remove_dir_all(&to)?;
    }
    fs::create_dir_all(&to)?;
    let page = fs::read_to_string(from.join("index.html"))?;
    let style = between(&page, "<link rel=\"stylesheet\" href=\"", "\"").context("the page names no style")?;
    let body = family::page(&example(), Language::English);
    let head = page.lines().take_while(|line| !line.starts_with("</head>"));
    let head: String = head
        .filter(|line| !line.contains("preload") && !line.contains("<script"))
        .map(|line| format!("{line}\n"))
        .collect();
    let index = format!("{head}</head>\n<body>\n<div id=\"family\">\n{body}\n</div>\n</body>\n</html>\n");
    let mut listed = serde_json::Map::new();
    for (name, bytes) in [
        ("index.html", index.into_bytes()),
        (style, fs::read(from.join(style))?),
        ("icon.svg", fs::read(from.join("icon.svg"))?),
    ] {
        listed.insert(name.to_owned(), integrity(&bytes).into());
        fs::write(to.join(name), bytes)?;
    }
    let worker = fs::read_to_string(from.join("sw.js"))?;
    let (before, rest) = worker.split_once("const FILES = ").context("the worker has no list")?;
    let (_, after) = rest.split_once(";\n").context("the worker's list has no end")?;
    let list = serde_json::Value::Object(listed);
    fs::write(to.join("sw.js"), format!("{before}const FILES = {list};\n{after}"))?;
    Ok(())
}

fn between<'t>(text: &'t str, start: &str, end: &str) -> Option<&'t str> {
    text.split_once(start)?.1.split_once(end).map(|(inside, _)| inside)
}
