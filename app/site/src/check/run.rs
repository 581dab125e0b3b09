//! Runs the programs of a step with their output on the terminal.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::{Command, Stdio};

use anyhow::{Context as _, Result};

use super::Outcome;

/// Passed or failed, as the program says.
pub fn run(command: &mut Command) -> Result<Outcome> {
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command.status().with_context(|| format!("{name} could not be started"))?;
    Ok(if status.success() { Outcome::Passed } else { Outcome::Failed("see the messages above".to_owned()) })
}

/// As [`run`], and gives what the program printed. A few characters cannot be read back, so nothing is lost by
/// replacing them.
pub fn run_and_read(command: &mut Command) -> Result<(Outcome, String)> {
    let name = command.get_program().to_string_lossy().into_owned();
    let mut child = command.stdout(Stdio::piped()).spawn().with_context(|| format!("{name} could not be started"))?;
    let mut printed = String::new();
    if let Some(stdout) = child.stdout.take() {
        let mut stdout = BufReader::new(stdout);
        let mut line = Vec::new();
        while stdout.read_until(b'\n', &mut line)? > 0 {
            std::io::stdout().write_all(&line)?;
            printed.push_str(&String::from_utf8_lossy(&line));
            line.clear();
        }
    }
    let passed = child.wait()?.success();
    let outcome = if passed { Outcome::Passed } else { Outcome::Failed("see the messages above".to_owned()) };
    Ok((outcome, printed))
}
