//! Text that no spreadsheet takes for a formula, and back.
//!
//! A cell that begins with `=`, `+`, `-`, `@`, a tab or a line break can be run as a formula (OWASP, CSV Injection), and
//! so can what follows a separator or a quote when a program splits the line at another place than we do. An apostrophe
//! is put before each such character; an apostrophe that already stands there gets one too, so that it can be undone.

/// Guards text for a cell. The character NUL, at which many readers end, becomes the replacement character.
#[must_use]
pub fn write_text(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut at_start = true;
    for c in text.chars() {
        let c = if c == '\0' { char::REPLACEMENT_CHARACTER } else { c };
        if at_start && needs_guard(c) {
            out.push(GUARD);
        }
        out.push(c);
        at_start = starts(at_start, c);
    }
    out
}

/// Takes the guard off the text of a cell.
#[must_use]
pub fn read_text(cell: &str) -> String {
    let mut out = String::with_capacity(cell.len());
    let mut at_start = true;
    let mut chars = cell.chars().peekable();
    while let Some(c) = chars.next() {
        let c = match chars.peek() {
            Some(next) if at_start && c == GUARD && needs_guard(*next) => chars.next().unwrap_or(c),
            Some(_) | None => c,
        };
        out.push(c);
        at_start = starts(at_start, c);
    }
    out
}

const GUARD: char = '\'';

/// With the full-width forms, which some programs take for the plain ones.
fn needs_guard(c: char) -> bool {
    matches!(c, '=' | '+' | '-' | '@' | '\t' | '\r' | '\n' | '＝' | '＋' | '－' | '＠' | GUARD)
}

/// Whether a cell may be taken to begin behind this character; blanks before it change nothing.
fn starts(at_start: bool, c: char) -> bool {
    matches!(c, ',' | ';' | '|' | '"' | '\t' | '\r' | '\n') || (at_start && c == ' ')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_be_run_is_guarded_and_nothing_else() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            ("-3 since Monday", "'-3 since Monday"),
            ("  @SUM(A1)", "  '@SUM(A1)"),
            ("a;=cmd|' /C calc'!A0", "a;'=cmd|'' /C calc'!A0"),
            ("\"=1", "\"'=1"),
            ("line\n=2", "line\n'=2"),
            ("＝1", "'＝1"),
            ("O'Brien 3-4, x=y", "O'Brien 3-4, x=y"),
            ("'tis", "''tis"),
            ("", ""),
        ] {
            assert_eq!(write_text(text), cell);
            assert_eq!(read_text(cell), text);
        }
        assert_eq!(write_text("a\0b"), "a\u{FFFD}b");
    }
}
