//! A document as one HTML file that needs nothing else: no script, no address, styles for screen and A4 inside.

mod style;

use super::{escape, svg};
use crate::document::{Block, Document, END_ISOLATE, ISOLATE, Said};
use crate::figure::MarkKind;
use crate::finding::Grade;

/// What the file may load: nothing but its own styles.
pub const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// Writes the whole file.
#[must_use]
pub fn render(document: &Document) -> String {
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" \
         content=\"{}\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"referrer\" \
         content=\"no-referrer\">\n<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n<main>\n{}</main>\n</body>\n\
         </html>\n",
        POLICY,
        plain(&document.title),
        style::SHEET,
        body(document)
    )
}

/// The document alone, to stand inside a page; every word from outside is escaped and set apart in `<bdi>`.
#[must_use]
pub fn body(document: &Document) -> String {
    let mut out = format!("<h1>{}</h1>\n", words(&document.title));
    let mut blocks = document.blocks.iter().peekable();
    while let Some(block) = blocks.next() {
        if !matches!(block, Block::Figure(_)) {
            push_block(&mut out, block);
            continue;
        }
        // Drawings in a row stand side by side.
        out.push_str("<div class=\"figures\">\n");
        push_block(&mut out, block);
        while let Some(next) = blocks.next_if(|next| matches!(next, Block::Figure(_))) {
            push_block(&mut out, next);
        }
        out.push_str("</div>\n");
    }
    out
}

fn push_block(out: &mut String, block: &Block) {
    match block {
        Block::Heading { level, text } => {
            let level = (*level).clamp(2, 3);
            out.push_str(&format!("<h{level}>{}</h{level}>\n", words(text)));
        }
        Block::Paragraph(said) => out.push_str(&format!("<p>{}</p>\n", words(&said.text))),
        Block::Note(said) => out.push_str(&format!("<p class=\"note\">{}</p>\n", words(&said.text))),
        Block::Alert(said) => {
            let mark = svg::mark(MarkKind::Octagon);
            out.push_str(&format!("<p class=\"alert\">{mark} <strong>Urgent.</strong> {}</p>\n", words(&said.text)));
        }
        Block::Graded { grade, headline, details } => push_graded(out, *grade, headline, details),
        Block::Folded { headline, details } => {
            out.push_str(&format!(
                "<section class=\"graded\">\n<h3>{}</h3>\n<p>{}</p>\n</section>\n",
                words(&headline.text),
                joined(details)
            ));
        }
        Block::Reading { level, headline, details } => {
            out.push_str(&format!(
                "<section class=\"graded\">\n<h3>{} <span class=\"grade\">{}</span></h3>\n<p>{}</p>\n</section>\n",
                words(&headline.text),
                plain(&level.in_words()),
                joined(details)
            ));
        }
        Block::List(items) => {
            let items: String = items.iter().map(|item| format!("<li>{}</li>\n", words(&item.text))).collect();
            out.push_str(&format!("<ul>\n{items}</ul>\n"));
        }
        Block::Facts(facts) => {
            let row = |(name, said): &(String, Said)| {
                format!("<div><dt>{}</dt><dd>{}</dd></div>\n", words(name), words(&said.text))
            };
            let rows: String = facts.iter().map(row).collect();
            out.push_str(&format!("<dl>\n{rows}</dl>\n"));
        }
        Block::Table { caption, head, rows } => push_table(out, caption, head, rows),
        Block::Figure(figure) => out.push_str(&format!(
            "<figure><figcaption>{}</figcaption>{}</figure>\n",
            words(&figure.title),
            svg::render(figure)
        )),
    }
}

fn joined(details: &[Said]) -> String {
    details.iter().map(|said| words(&said.text)).collect::<Vec<_>>().join(" ")
}

fn push_graded(out: &mut String, grade: Grade, headline: &Said, details: &[Said]) {
    let mark = grade.mark().map(svg::mark).unwrap_or_default();
    let details = joined(details);
    let details = if details.is_empty() { details } else { format!("<p>{details}</p>\n") };
    out.push_str(&format!(
        "<section class=\"graded\">\n<h3>{} <span class=\"grade\">{mark} {}</span></h3>\n{details}</section>\n",
        words(&headline.text),
        grade.word()
    ));
}

fn push_table(out: &mut String, caption: &str, head: &[String], rows: &[Vec<String>]) {
    let heads: String = head.iter().map(|cell| format!("<th scope=\"col\">{}</th>", words(cell))).collect();
    let row = |cells: &Vec<String>| {
        let cells = cells.iter().enumerate().map(|(at, cell)| match at {
            0 => format!("<th scope=\"row\">{}</th>", words(cell)),
            _ => format!("<td>{}</td>", words(cell)),
        });
        format!("<tr>{}</tr>\n", cells.collect::<String>())
    };
    let rows: String = rows.iter().map(row).collect();
    out.push_str(&format!(
        "<div class=\"table\" role=\"region\" tabindex=\"0\" aria-label=\"{}\">\n<table>\n<caption>{}</caption>\n\
         <thead><tr>{heads}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n</div>\n",
        plain(caption),
        words(caption)
    ));
}

/// Escaped words, with isolates as `<bdi>` elements that are always closed again.
fn words(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut open = 0_usize;
    for part in text.split_inclusive([ISOLATE, END_ISOLATE]) {
        out.push_str(&plain(part));
        if part.ends_with(ISOLATE) {
            out.push_str("<bdi>");
            open += 1;
        } else if part.ends_with(END_ISOLATE) && open > 0 {
            out.push_str("</bdi>");
            open -= 1;
        }
    }
    out.push_str(&"</bdi>".repeat(open));
    out
}

/// Escaped words without isolates.
fn plain(text: &str) -> String {
    escape(&text.replace([ISOLATE, END_ISOLATE], ""))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::foreign;
    use crate::evidence::Level;
    use crate::figure::Figure;

    fn said(text: &str) -> Said {
        Said::new(text, &[])
    }

    #[test]
    fn words_from_outside_never_become_markup() {
        let hostile = foreign("דנה <img src=x onerror=alert(1)> \"'\u{202E}</bdi>👁️");
        let figure = Figure {
            id: "f".into(),
            title: hostile.clone(),
            says: hostile.clone(),
            width: 10.0,
            height: 10.0,
            shapes: vec![],
        };
        let blocks = vec![
            Block::Heading { level: 9, text: hostile.clone() },
            Block::Paragraph(said(&hostile)),
            Block::Alert(said(&hostile)),
            Block::Graded { grade: Grade::OutsideRange, headline: said(&hostile), details: vec![said(&hostile)] },
            Block::Reading { level: Level::C, headline: said(&hostile), details: vec![said(&hostile)] },
            Block::List(vec![said(&hostile)]),
            Block::Facts(vec![(hostile.clone(), said(&hostile))]),
            Block::Table { caption: hostile.clone(), head: vec![hostile.clone()], rows: vec![vec![hostile.clone()]] },
            Block::Figure(figure),
            Block::Note(said(&hostile)),
        ];
        let html = render(&Document { title: hostile, blocks });
        assert!(!html.contains("<img") && !html.contains("\u{202E}"), "{html}");
        assert_eq!(html.matches("<bdi>").count(), html.matches("</bdi>").count());
        let one = "<bdi>דנה &lt;img src=x onerror=alert(1)&gt; &quot;&#39;&lt;/bdi&gt;👁️</bdi>";
        assert_eq!(html.matches(one).count(), 16, "{html}");
    }

    #[test]
    fn the_file_needs_nothing_from_outside() {
        let html = render(&Document { title: "A title".into(), blocks: vec![] });
        assert!(html.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
        assert!(html.contains("content=\"default-src 'none'; style-src 'unsafe-inline';"));
        // The words of a grade of evidence are wider than a phone: nothing may be kept on one line.
        assert!(!html.contains("nowrap"), "a phone would have to scroll sideways");
        for outside in ["<script", "<link", "@import", "url(", " style=", " src="] {
            assert!(!html.contains(outside), "{outside}");
        }
    }

    #[test]
    fn tables_name_their_columns_and_rows() {
        let table = Block::Table {
            caption: "Right against left".into(),
            head: vec!["What".into(), "Right".into()],
            rows: vec![vec!["Jumps".into(), "1 of 10".into()]],
        };
        let html = body(&Document { title: "T".into(), blocks: vec![table] });
        assert!(html.contains("<caption>Right against left</caption>"));
        assert!(html.contains("<th scope=\"col\">Right</th>"));
        assert!(html.contains("<tr><th scope=\"row\">Jumps</th><td>1 of 10</td></tr>"));
    }

    #[test]
    fn isolates_that_do_not_match_still_give_closed_elements() {
        assert_eq!(words("a\u{2068}b"), "a<bdi>b</bdi>");
        assert_eq!(words("a\u{2069}b"), "ab");
        assert_eq!(words("\u{2068}\u{2068}x\u{2069}"), "<bdi><bdi>x</bdi></bdi>");
    }
}
