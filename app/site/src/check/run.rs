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
    Ok((if passed { Outcome::Passed } else { Outcome::Failed(ending(&printed)) }, printed))
}

/// How many lines of a failure the closing account repeats.
const KEPT: usize = 30;

/// The last lines, which say what failed: who reads a long record often has no more than its end.
fn ending(printed: &str) -> String {
    let lines: Vec<&str> = printed.lines().filter(|line| !line.trim().is_empty()).collect();
    let kept = lines.get(lines.len().saturating_sub(KEPT)..).unwrap_or_default();
    if kept.is_empty() { "see the messages above".to_owned() } else { format!("\n    {}", kept.join("\n    ")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_is_told_by_its_last_lines() {
        let (outcome, printed) =
            run_and_read(Command::new("sh").args(["-c", "seq 40; echo; echo why; exit 1"])).expect("a shell");
        let Outcome::Failed(reason) = outcome else { panic!("it exits with 1") };
        assert!(reason.ends_with("40\n    why") && !reason.contains(" 5\n"), "{reason}");
        assert!(printed.starts_with("1\n2\n"));
        let silent = run_and_read(&mut Command::new("false")).expect("a program").0;
        assert_eq!(silent, Outcome::Failed("see the messages above".to_owned()));
    }
}
