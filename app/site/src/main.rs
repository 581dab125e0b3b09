//! `cargo site`: build, serve and check from one program.

use std::path::PathBuf;
use std::process::ExitCode;

use anyhow::{Context as _, Result, bail};
use lexopt::prelude::{Long, Value, ValueExt as _};
use sidelight_core::{export::html, norms};
use sidelight_site::bench::bench;
use sidelight_site::build::{BuildOptions, build};
use sidelight_site::check::{CheckOptions, check};
use sidelight_site::serve::{self, ServeOptions};

const HELP: &str = "\
Usage: cargo site <command>

  build [--debug] [--out DIR]                  build the site into a folder (dist)
  serve [--port N] [--debug] [--no-build]      build, then serve on 127.0.0.1 (port 8180)
  norms [--out FILE]                           write every published range as one page (norms.html)
  bench                                        sizes and times as ratios, each beside a reference
  check [--allow-missing] [--only STEP,..] [--skip STEP,..]
                                               run everything the continuous integration runs
";

fn main() -> ExitCode {
    match run() {
        Ok(code) => code,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<ExitCode> {
    let mut arguments = lexopt::Parser::from_env();
    let Some(Value(command)) = arguments.next()? else {
        print!("{HELP}");
        return Ok(ExitCode::SUCCESS);
    };
    match command.to_str() {
        Some("build") => build_command(arguments),
        Some("serve") => serve_command(arguments),
        Some("check") => check_command(arguments),
        Some("norms") => norms_command(arguments),
        Some("bench") => bench().map(|()| ExitCode::SUCCESS),
        _ => bail!("there is no command {}; run `cargo site` for the list", command.display()),
    }
}

fn build_command(mut arguments: lexopt::Parser) -> Result<ExitCode> {
    let mut options = BuildOptions::default();
    while let Some(argument) = arguments.next()? {
        match argument {
            Long("debug") => options.debug = true,
            Long("out") => options.out = PathBuf::from(arguments.value()?),
            other => return Err(other.unexpected().into()),
        }
    }
    build(&options)?;
    Ok(ExitCode::SUCCESS)
}

fn norms_command(mut arguments: lexopt::Parser) -> Result<ExitCode> {
    let mut out = PathBuf::from("norms.html");
    while let Some(argument) = arguments.next()? {
        match argument {
            Long("out") => out = PathBuf::from(arguments.value()?),
            other => return Err(other.unexpected().into()),
        }
    }
    std::fs::write(&out, html::render(&norms::page())).with_context(|| format!("cannot write {}", out.display()))?;
    println!("Wrote {}.", out.display());
    Ok(ExitCode::SUCCESS)
}

fn serve_command(mut arguments: lexopt::Parser) -> Result<ExitCode> {
    let mut options = ServeOptions::default();
    while let Some(argument) = arguments.next()? {
        match argument {
            Long("port") => {
                options.port = arguments.value()?.parse().context("--port takes a number from 1 to 65535")?;
            }
            Long("debug") => options.debug = true,
            Long("no-build") => options.build = false,
            other => return Err(other.unexpected().into()),
        }
    }
    serve::serve(&options)?;
    Ok(ExitCode::SUCCESS)
}

fn check_command(mut arguments: lexopt::Parser) -> Result<ExitCode> {
    let mut options = CheckOptions::default();
    while let Some(argument) = arguments.next()? {
        match argument {
            Long("allow-missing") => options.allow_missing = true,
            Long("only") => options.only.extend(names(&arguments.value()?.string()?)),
            Long("skip") => options.skip.extend(names(&arguments.value()?.string()?)),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(if check(&options)? { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn names(list: &str) -> Vec<String> {
    list.split(',').map(str::trim).filter(|name| !name.is_empty()).map(str::to_owned).collect()
}
