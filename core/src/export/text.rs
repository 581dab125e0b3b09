//! Plain text for pasting into a note: lines of at most 78 characters, no markup, typographic signs as ASCII.
//!
//! Drawings are named and not described: told tap by tap they would bury the note, and what they show is said by the
//! findings.

use crate::document::{Block, Document, END_ISOLATE, ISOLATE, Said};
use crate::finding::Grade;

/// Longest line in characters, as long as no single word is longer.
pub const WIDTH: usize = 78;

/// Writes a document as plain text, ending in one line break.
#[must_use]
pub fn render(document: &Document) -> String {
    let mut out = Lines::default();
    out.wrapped("", "", &document.title);
    let mut after_heading = false;
    let mut blocks = document.blocks.iter().peekable();
    while let Some(block) = blocks.next() {
        if let Block::Figure(figure) = block {
            let mut titles = vec![figure.title.as_str()];
            while let Some(Block::Figure(next)) = blocks.next_if(|next| matches!(next, Block::Figure(_))) {
                titles.push(&next.title);
            }
            out.wrapped("", "", &format!("In the printed summary and the HTML file: {}.", titles.join("; ")));
            continue;
        }
        if matches!(block, Block::Table { .. }) && !after_heading {
            out.gap();
        }
        after_heading = matches!(block, Block::Heading { .. });
        render_block(&mut out, block);
    }
    out.finish()
}

fn render_block(out: &mut Lines, block: &Block) {
    match block {
        Block::Heading { level, text } => {
            out.gap();
            out.wrapped("", "", &if *level <= 2 { text.to_uppercase() } else { text.clone() });
        }
        Block::Paragraph(said) | Block::Note(said) => out.wrapped("", "", &said.text),
        Block::Alert(said) => out.wrapped("URGENT: ", "  ", &said.text),
        Block::Graded { grade, headline, details } => {
            let mark = if *grade == Grade::NoRange { String::new() } else { format!(" [{}]", grade.word()) };
            out.wrapped("- ", "  ", &format!("{}{mark}", headline.text));
            out.wrapped("  ", "  ", &joined(details));
        }
        Block::Folded { headline, details } => {
            out.wrapped("- ", "  ", &headline.text);
            out.wrapped("  ", "  ", &joined(details));
        }
        Block::Reading { level, headline, details } => {
            out.wrapped("- ", "  ", &format!("{} [{}]", headline.text, level.in_words()));
            out.wrapped("  ", "  ", &joined(details));
        }
        Block::List(items) => items.iter().for_each(|item| out.wrapped("- ", "  ", &item.text)),
        Block::Facts(facts) => {
            facts.iter().for_each(|(name, said)| out.wrapped(&format!("{name}: "), "  ", &said.text));
        }
        Block::Table { caption, head, rows } => {
            out.wrapped("", "", &format!("{}.", caption.trim_end_matches('.')));
            table(out, head, rows);
        }
        // Drawings that follow each other are named on one line; see `render`.
        Block::Figure(_) => {}
    }
}

fn joined(details: &[Said]) -> String {
    details.iter().map(|said| said.text.as_str()).collect::<Vec<_>>().join(" ")
}

/// Columns padded with blanks where they fit; otherwise one line for each row, every cell under its name.
fn table(out: &mut Lines, head: &[String], rows: &[Vec<String>]) {
    let clean = |cells: &[String]| cells.iter().map(|cell| ascii(cell)).collect::<Vec<String>>();
    let head = clean(head);
    let rows: Vec<Vec<String>> = rows.iter().map(|row| clean(row)).collect();
    let width = |column: usize| {
        let cells = std::iter::once(&head).chain(&rows).filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..head.len()).map(width).collect();
    if widths.iter().sum::<usize>() + 2 * widths.len().saturating_sub(1) <= WIDTH {
        for row in std::iter::once(&head).chain(&rows) {
            let padded = row.iter().zip(&widths).map(|(cell, width)| format!("{cell:<width$}"));
            out.line(padded.collect::<Vec<_>>().join("  ").trim_end());
        }
        return;
    }
    for row in &rows {
        // A cell without anything has nothing to say; the others read on as a sentence.
        let filled = row.iter().zip(&head).skip(1).filter(|(cell, _)| !cell.is_empty());
        let named = filled.map(|(cell, name)| format!("{} {}", small(name), small(cell)));
        let first = row.first().map_or("", String::as_str);
        out.wrapped("- ", "  ", &format!("{first}: {}", named.collect::<Vec<_>>().join("; ")));
    }
}

/// The first letter small.
fn small(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// Typographic signs of our own as ASCII; letters of any script stay. Marks of writing direction are taken out.
fn ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '“' | '”' | '„' => out.push('"'),
            '‘' | '’' => out.push('\''),
            '–' | '—' | '−' => out.push('-'),
            '…' => out.push_str("..."),
            '·' => out.push(';'),
            '×' => out.push('x'),
            '±' => out.push_str("+/-"),
            '≥' => out.push_str(">="),
            '≤' => out.push_str("<="),
            '°' => out.push_str(" deg"),
            '\u{00A0}' | '\u{202F}' => out.push(' '),
            ISOLATE | END_ISOLATE => {}
            // Typed marks that turn the direction of what follows would turn our own words too.
            '\u{202A}'..='\u{202E}' | '\u{2066}' | '\u{2067}' => {}
            _ if c.is_control() => out.push(' '),
            _ => out.push(c),
        }
    }
    out
}

#[derive(Default)]
struct Lines(Vec<String>);

impl Lines {
    fn line(&mut self, text: &str) {
        self.0.push(text.to_string());
    }

    /// An empty line, unless one stands there already.
    fn gap(&mut self) {
        if self.0.last().is_some_and(|line| !line.is_empty()) {
            self.0.push(String::new());
        }
    }

    /// Text broken at blanks; the first line starts with `lead`, the others with `hang`.
    fn wrapped(&mut self, lead: &str, hang: &str, text: &str) {
        let text = ascii(text);
        let mut line = ascii(lead);
        let mut empty = true;
        for word in text.split_whitespace() {
            if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
                self.0.push(std::mem::replace(&mut line, hang.to_string()));
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
            empty = false;
        }
        if !empty {
            self.0.push(line);
        }
    }

    fn finish(self) -> String {
        let mut text = self.0.join("\n");
        text.push('\n');
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::evidence::Level;
    use crate::figure::Figure;

    fn document(blocks: Vec<Block>) -> String {
        render(&Document { title: "A title".into(), blocks })
    }

    fn said(text: &str) -> Said {
        Said::new(text, &[])
    }

    #[test]
    fn every_kind_of_block_is_written() {
        let text = document(vec![
            Block::Facts(vec![("Person".into(), said("R-21, “well”"))]),
            Block::Heading { level: 2, text: "What stands out".into() },
            Block::Alert(said("neck pain")),
            Block::Graded {
                grade: Grade::OutsideRange,
                headline: said("Near point draws back"),
                details: vec![said("Breaks at 9.5 cm."), said("Range: ≤ 6 cm.")],
            },
            Block::Reading { level: Level::B, headline: said("Compatible with a"), details: vec![said("Seen: b.")] },
            Block::List(vec![said("one"), said("two")]),
            Block::Table {
                caption: "Right against left".into(),
                head: vec!["What".into(), "Right".into()],
                rows: vec![vec!["Jumps".into(), "1 of 10".into()]],
            },
        ]);
        let expected = "A title\nPerson: R-21, \"well\"\n\nWHAT STANDS OUT\nURGENT: neck pain\n- Near point draws back \
                        [outside the range]\n  Breaks at 9.5 cm. Range: <= 6 cm.\n- Compatible with a \
                        [grade B: human cases and animal data]\n  Seen: b.\n- one\n- two\n\nRight against \
                        left.\nWhat   Right\nJumps  1 of 10\n";
        assert_eq!(text, expected);
    }

    #[test]
    fn drawings_are_named_on_one_line() {
        let figure = |title: &str| {
            let (id, says) = (title.to_string(), "on target, short, on target".to_string());
            Block::Figure(Figure { id, title: title.into(), says, width: 1.0, height: 1.0, shapes: vec![] })
        };
        let text = document(vec![figure("Jumps in their order"), figure("Jumps on target"), Block::Note(said("End"))]);
        let expected =
            "A title\nIn the printed summary and the HTML file: Jumps in their order; Jumps on target.\nEnd\n";
        assert_eq!(on_one_line(&text), on_one_line(expected));
    }

    fn on_one_line(text: &str) -> String {
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn lines_are_broken_at_78_and_a_long_word_stays_whole() {
        let long = format!("{} {} end", "word ".repeat(40), "x".repeat(100));
        let text = document(vec![Block::List(vec![said(&long)])]);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH || line.contains("xxx")), "{text}");
        assert!(text.contains(&"x".repeat(100)));
        assert!(text.lines().skip(2).all(|line| line.starts_with("  ")));
    }

    #[test]
    fn a_table_too_wide_for_the_page_is_written_row_by_row() {
        let head: Vec<String> = (0..9).map(|n| format!("A long head {n}")).collect();
        let text = document(vec![Block::Table { caption: "C".into(), head, rows: vec![vec!["1".into(); 9]] }]);
        assert!(text.contains("- 1: a long head 1 1; a long head 2 1;"), "{text}");
    }

    #[test]
    fn marks_of_direction_are_taken_out_and_letters_stay() {
        let name = crate::document::foreign("דנה 👁️");
        assert!(document(vec![Block::Paragraph(said(&name))]).ends_with("\nדנה 👁️\n"));
    }
}
