//! Drawings as SVG text, to stand inside an HTML page.
//!
//! Nothing carries a style of its own: shapes are painted with `currentColor`, and the page's style sheet gives the classes
//! `ink-strong`, `ink-soft`, `ink-accent`, `ink-band` and `ink-paper` their colour. So a strict content security policy
//! holds, and a dark theme needs no second drawing.

use super::escape;
use crate::evidence::number;
use crate::figure::{Anchor, Figure, Ink, MarkKind, Shape};
use std::fmt::Write;

/// Writes a drawing with its title and description for those who cannot see it.
#[must_use]
pub fn render(figure: &Figure) -> String {
    let id = attribute_id(&figure.id);
    let mut out = format!(
        "<svg class=\"figure\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" \
         aria-labelledby=\"{id}-title {id}-says\" font-size=\"13\"><title id=\"{id}-title\">{}</title><desc \
         id=\"{id}-says\">{}</desc>",
        real(figure.width),
        real(figure.height),
        escape(&figure.title),
        escape(&figure.says)
    );
    for shape in &figure.shapes {
        draw(&mut out, shape);
    }
    out.push_str("</svg>");
    out
}

/// A mark alone, to stand in a line of text beside the word that says the same; hidden from screen readers.
#[must_use]
pub fn mark(kind: MarkKind) -> String {
    let mut out = String::from("<svg class=\"mark\" viewBox=\"0 0 16 16\" aria-hidden=\"true\" focusable=\"false\">");
    draw_mark(&mut out, kind, (8.0, 8.0), 13.0);
    out.push_str("</svg>");
    out
}

fn draw(out: &mut String, shape: &Shape) {
    match shape {
        Shape::Line { from, to, ink, width, dashed } => {
            let dash = if *dashed { " stroke-dasharray=\"4 3\"" } else { "" };
            push(
                out,
                format_args!(
                    "<line class=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"currentColor\" \
                     stroke-width=\"{}\"{dash}/>",
                    class(*ink),
                    real(from.0),
                    real(from.1),
                    real(to.0),
                    real(to.1),
                    real(*width)
                ),
            );
        }
        Shape::Rect { at, size, fill } => {
            let place = format!(
                "x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"",
                real(at.0),
                real(at.1),
                real(size.0),
                real(size.1)
            );
            push(out, format_args!("<rect class=\"{}\" {place} fill=\"currentColor\"/>", class(*fill)));
            if *fill == Ink::Accent {
                push(out, format_args!("<rect class=\"ink-strong\" {place} fill=\"none\" stroke=\"currentColor\"/>"));
            }
        }
        Shape::Mark { at, kind, size } => draw_mark(out, *kind, *at, *size),
        Shape::Text { at, text, anchor, ink, bold } => {
            let anchor = match anchor {
                Anchor::Start => "start",
                Anchor::Middle => "middle",
                Anchor::End => "end",
            };
            let weight = if *bold { " font-weight=\"700\"" } else { "" };
            push(
                out,
                format_args!(
                    "<text class=\"{}\" x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" fill=\"currentColor\"{weight}>{}</text>",
                    class(*ink),
                    real(at.0),
                    real(at.1),
                    escape(text)
                ),
            );
        }
    }
}

fn draw_mark(out: &mut String, kind: MarkKind, (x, y): (f64, f64), size: f64) {
    let r = size / 2.0;
    match kind {
        MarkKind::Disc => disc(out, (x, y), r),
        MarkKind::Ring => ring(out, (x, y), r),
        MarkKind::HalfRing => {
            ring(out, (x, y), r);
            let (top, bottom, inner) = (y - r + 0.75, y + r - 0.75, r - 0.75);
            let half = format!("M{} {}A{2} {2} 0 0 0 {0} {3}Z", real(x), real(top), real(inner), real(bottom));
            filled_path(out, &half);
        }
        MarkKind::Diamond => filled(out, &[(x, y - r), (x + r, y), (x, y + r), (x - r, y)]),
        MarkKind::Octagon => {
            let k = r * 0.414; // tan(22.5 degrees): eight equal sides
            filled(
                out,
                &[
                    (x - k, y - r),
                    (x + k, y - r),
                    (x + r, y - k),
                    (x + r, y + k),
                    (x + k, y + r),
                    (x - k, y + r),
                    (x - r, y + k),
                    (x - r, y - k),
                ],
            );
        }
        MarkKind::Wedge => filled(out, &[(x - r, y - r), (x + r, y - r), (x - r, y + r)]),
        MarkKind::Arrow => filled(out, &[(x - r, y - r), (x + r, y), (x - r, y + r), (x - r * 0.4, y)]),
        MarkKind::Cross => stroked_path(
            out,
            &format!("M{} {}L{} {}M{0} {3}L{2} {1}", real(x - r), real(y - r), real(x + r), real(y + r)),
        ),
        MarkKind::Dash => stroked_path(out, &format!("M{} {}H{}", real(x - r), real(y), real(x + r))),
    }
}

fn disc(out: &mut String, (x, y): (f64, f64), r: f64) {
    push(
        out,
        format_args!(
            "<circle class=\"ink-strong\" cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"currentColor\"/>",
            real(x),
            real(y),
            real(r)
        ),
    );
}

fn ring(out: &mut String, (x, y): (f64, f64), r: f64) {
    let inner = (r - 0.75).max(0.5);
    for (class, paint) in [
        ("ink-paper", "fill=\"currentColor\""),
        ("ink-strong", "fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.5\""),
    ] {
        push(
            out,
            format_args!(
                "<circle class=\"{class}\" cx=\"{}\" cy=\"{}\" r=\"{}\" {paint}/>",
                real(x),
                real(y),
                real(inner)
            ),
        );
    }
}

fn filled(out: &mut String, corners: &[(f64, f64)]) {
    let path: Vec<String> = corners.iter().map(|(x, y)| format!("{} {}", real(*x), real(*y))).collect();
    filled_path(out, &format!("M{}Z", path.join("L")));
}

fn filled_path(out: &mut String, path: &str) {
    push(out, format_args!("<path class=\"ink-strong\" d=\"{path}\" fill=\"currentColor\"/>"));
}

fn stroked_path(out: &mut String, path: &str) {
    push(
        out,
        format_args!(
            "<path class=\"ink-strong\" d=\"{path}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2.5\"/>"
        ),
    );
}

fn class(ink: Ink) -> &'static str {
    match ink {
        Ink::Strong => "ink-strong",
        Ink::Soft => "ink-soft",
        Ink::Accent => "ink-accent",
        Ink::Band => "ink-band",
        Ink::Paper => "ink-paper",
    }
}

/// A coordinate; what is no number is drawn at 0 rather than breaking the whole drawing.
fn real(value: f64) -> String {
    if value.is_finite() { number(value) } else { "0".to_string() }
}

/// The id as one word: blanks would split the reference that names the drawing.
fn attribute_id(id: &str) -> String {
    let word = |c: char| if c.is_ascii_alphanumeric() || c == '-' || c == '_' { c } else { '-' };
    id.chars().map(word).collect()
}

/// Writing to a `String` cannot fail.
fn push(out: &mut String, what: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(what);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figure(shapes: Vec<Shape>) -> Figure {
        Figure {
            id: "near_point trials".into(),
            title: "Trials <b>".into(),
            says: "Two trials: 8 & 9 cm.".into(),
            width: 340.0,
            height: 60.5,
            shapes,
        }
    }

    #[test]
    fn a_drawing_says_in_words_what_it_shows() {
        let svg = render(&figure(vec![]));
        assert!(svg.starts_with("<svg class=\"figure\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 340 60.5\""));
        assert!(svg.contains("role=\"img\" aria-labelledby=\"near_point-trials-title near_point-trials-says\""));
        assert!(svg.contains("<title id=\"near_point-trials-title\">Trials &lt;b&gt;</title>"));
        assert!(svg.contains("8 &amp; 9 cm."));
    }

    #[test]
    fn every_shape_is_painted_by_class_and_never_by_style() {
        let kinds = [
            MarkKind::Disc,
            MarkKind::Ring,
            MarkKind::HalfRing,
            MarkKind::Diamond,
            MarkKind::Octagon,
            MarkKind::Wedge,
            MarkKind::Arrow,
            MarkKind::Cross,
            MarkKind::Dash,
        ];
        let mut shapes: Vec<Shape> =
            kinds.into_iter().map(|kind| Shape::Mark { at: (10.0, 10.0), kind, size: 12.0 }).collect();
        shapes.push(Shape::Line { from: (0.0, f64::NAN), to: (5.0, 5.0), ink: Ink::Soft, width: 1.0, dashed: true });
        shapes.push(Shape::Rect { at: (0.0, 0.0), size: (5.0, 5.0), fill: Ink::Accent });
        let label = Shape::Text {
            at: (1.0, 2.0),
            text: "<script>".into(),
            anchor: Anchor::Middle,
            ink: Ink::Strong,
            bold: true,
        };
        shapes.push(label);
        let svg = render(&figure(shapes));
        assert!(!svg.contains("style=") && !svg.contains("NaN") && !svg.contains("<script>"), "{svg}");
        assert_eq!(svg.matches("currentColor").count(), svg.matches("class=\"ink-").count(), "{svg}");
        assert!(svg.contains("stroke-dasharray"));
        assert!(svg.contains("&lt;script&gt;"));
    }

    #[test]
    fn marks_are_told_apart_by_shape() {
        let drawn: Vec<String> = [
            MarkKind::Disc,
            MarkKind::Ring,
            MarkKind::HalfRing,
            MarkKind::Diamond,
            MarkKind::Octagon,
            MarkKind::Wedge,
            MarkKind::Arrow,
            MarkKind::Cross,
            MarkKind::Dash,
        ]
        .into_iter()
        .map(mark)
        .collect();
        for (at, one) in drawn.iter().enumerate() {
            assert!(drawn.iter().skip(at + 1).all(|other| other != one), "{one}");
        }
    }
}
