//! QR codes for an outside decoder and from an outside encoder:
//! `codes write OUT` writes pictures of every code of ours with `given.json`, which names each picture and its text;
//! `codes read FOLDER` reads the pictures (*.pgm) of a folder and prints what each says as JSON.

use std::fs;
use std::path::Path;
use std::process::ExitCode;

use serde_json::{Map, Value, json};
use sidelight_tests::codes::{Picture, Shot};
use sidelight_tests::sheets;
use sidelight_worker::qr;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let done = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["write", out] => write(Path::new(out)),
        ["read", folder] => read(Path::new(folder)),
        _ => Err("Usage: codes write OUT | codes read FOLDER".into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::from(2)
        }
    }
}

type Done = Result<(), String>;

fn write(out: &Path) -> Done {
    fs::create_dir_all(out).map_err(|error| error.to_string())?;
    let mut given = Vec::new();
    for (what, text) in sheets::texts() {
        let code = qr::make(&text)?;
        for (name, shot) in &Shot::ALL {
            let file = format!("{}.pgm", given.len());
            fs::write(out.join(&file), shot.of(&code, 0).pgm()).map_err(|error| error.to_string())?;
            given.push(json!({ "file": file, "what": what, "shot": name, "version": code.version, "text": text }));
        }
    }
    fs::write(out.join("given.json"), Value::from(given).to_string()).map_err(|error| error.to_string())
}

fn read(folder: &Path) -> Done {
    let mut said = Map::new();
    for entry in fs::read_dir(folder).map_err(|error| error.to_string())?.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if !name.ends_with(".pgm") {
            continue;
        }
        let file = fs::read(entry.path()).map_err(|error| error.to_string())?;
        let Picture { width, height, grey } = Picture::from_pgm(&file).ok_or_else(|| format!("{name}: no PGM"))?;
        said.insert(name, qr::read(width, height, &grey)?.map_or(Value::Null, Value::from));
    }
    println!("{}", Value::from(said));
    Ok(())
}
