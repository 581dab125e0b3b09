//! The closing account of a check.

use std::fmt::{self, Write as _};

use super::Outcome;

/// One finished step.
pub struct Line {
    pub name: String,
    pub outcome: Outcome,
    pub seconds: f32,
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (word, reason) = self.outcome.parts();
        write!(f, "{:<20} {word:<8} {:>7.1} s", self.name, self.seconds)?;
        if reason.is_empty() { Ok(()) } else { write!(f, "  {reason}") }
    }
}

impl Outcome {
    fn parts(&self) -> (&'static str, &str) {
        match self {
            Self::Passed => ("passed", ""),
            Self::Failed(reason) => ("FAILED", reason),
            Self::Skipped(reason) => ("skipped", reason),
        }
    }
}

/// Every step with its result, and the count as the last line.
pub fn table(lines: &[Line]) -> String {
    let mut text = String::new();
    for line in lines {
        let _ = writeln!(text, "{line}");
    }
    let (passed, failed, skipped) = count(lines);
    let _ = write!(text, "\n{passed} passed, {failed} failed");
    if skipped > 0 {
        let _ = write!(text, ", {skipped} skipped");
    }
    text.push('\n');
    text
}

/// Nothing failed, and nothing was left out without leave.
pub fn is_well(lines: &[Line], allow_missing: bool) -> bool {
    let (_, failed, skipped) = count(lines);
    failed == 0 && (skipped == 0 || allow_missing)
}

fn count(lines: &[Line]) -> (usize, usize, usize) {
    let of = |wanted| lines.iter().filter(|line| line.outcome.parts().0 == wanted).count();
    (of("passed"), of("FAILED"), of("skipped"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(outcomes: &[Outcome]) -> Vec<Line> {
        let line = |outcome: &Outcome| Line { name: "step".to_owned(), outcome: outcome.clone(), seconds: 1.0 };
        outcomes.iter().map(line).collect()
    }

    #[test]
    fn the_last_line_counts() {
        let all = lines(&[Outcome::Passed, Outcome::Failed("why".into()), Outcome::Skipped("no node".into())]);
        let table = table(&all);
        assert!(table.ends_with("\n1 passed, 1 failed, 1 skipped\n"));
        assert!(table.contains("why") && table.contains("no node"));
        assert!(super::table(&lines(&[Outcome::Passed])).ends_with("\n1 passed, 0 failed\n"));
    }

    #[test]
    fn a_gap_is_a_failure_unless_it_was_allowed() {
        let gap = lines(&[Outcome::Passed, Outcome::Skipped(String::new())]);
        assert!(!is_well(&gap, false));
        assert!(is_well(&gap, true));
        let failure = lines(&[Outcome::Failed(String::new())]);
        assert!(!is_well(&failure, true));
        assert!(is_well(&lines(&[Outcome::Passed]), false));
    }
}
