//! What a drawing is made of: lines and surfaces as path data, and parts that are set down more than once.

use std::fmt::Write as _;

/// One piece of a drawing. Lengths in drawing units, y grows downward.
#[derive(Debug, Clone, Copy)]
pub(super) enum Mark {
    /// A line: people and what they hold.
    Ink(&'static str),
    /// A thicker line: arms, legs and bodies of people seen whole.
    Limb(&'static str),
    /// A thin line: walls, floors, chairs.
    Thin(&'static str),
    /// A dotted line: where something moves or the eyes look.
    Dots(&'static str),
    /// A surface in ink.
    Solid(&'static str),
    /// A surface in the accent, outlined: what is looked at or used.
    Accent(&'static str),
    /// Other marks, set down at a point.
    At(i16, i16, &'static [Mark]),
    /// The same, turned clockwise by so many degrees.
    Turned(i16, i16, i16, &'static [Mark]),
    /// The same, made smaller to so many percent; lines stay as wide as the others.
    Small(i16, i16, u16, &'static [Mark]),
}

/// Widths of lines.
const INK: f64 = 2.6;
const LIMB: f64 = 6.0;
const THIN: f64 = 1.4;
const DOTS: f64 = 2.0;

/// The accent; pages that have their own set `--accent`.
const ACCENT: &str = "var(--accent, #f5b82e)";

/// Marks as SVG elements.
pub(super) fn elements(marks: &[Mark]) -> String {
    let mut out = String::new();
    write(&mut out, marks, 1.0);
    out
}

fn write(out: &mut String, marks: &[Mark], scale: f64) {
    let wide = |width: f64| (100.0 * width / scale).round() / 100.0;
    for mark in marks {
        // Writing into a string cannot fail.
        let _ = match mark {
            Mark::Ink(path) => write!(out, "<path stroke-width=\"{}\" d=\"{path}\"/>", wide(INK)),
            Mark::Limb(path) => write!(out, "<path stroke-width=\"{}\" d=\"{path}\"/>", wide(LIMB)),
            Mark::Thin(path) => write!(out, "<path stroke-width=\"{}\" d=\"{path}\"/>", wide(THIN)),
            Mark::Dots(path) => {
                write!(out, "<path stroke-width=\"{}\" stroke-dasharray=\"0 {}\" d=\"{path}\"/>", wide(DOTS), wide(4.2))
            }
            Mark::Solid(path) => write!(out, "<path stroke=\"none\" fill=\"currentColor\" d=\"{path}\"/>"),
            Mark::Accent(path) => {
                write!(out, "<path stroke-width=\"{}\" fill=\"{ACCENT}\" d=\"{path}\"/>", wide(INK))
            }
            Mark::At(x, y, marks) => group(out, &format!("translate({x} {y})"), marks, scale),
            Mark::Turned(x, y, by, marks) => group(out, &format!("translate({x} {y}) rotate({by})"), marks, scale),
            Mark::Small(x, y, percent, marks) => {
                let to = f64::from(*percent) / 100.0;
                group(out, &format!("translate({x} {y}) scale({to})"), marks, scale * to)
            }
        };
    }
}

fn group(out: &mut String, transform: &str, marks: &[Mark], scale: f64) -> std::fmt::Result {
    write!(out, "<g transform=\"{transform}\">")?;
    write(out, marks, scale);
    write!(out, "</g>")
}

/// The head of an arrow that points to the right, its tip at the origin.
pub(super) static ARROW: &[Mark] = &[Mark::Solid("M0 0L-8 -4.6V4.6Z")];

/// A head from the side that looks to the right, the tip of its nose at the origin.
pub(super) static PROFILE: &[Mark] = &[
    Mark::Ink(
        "M-40 38C-39 28-49 20-49 1C-49-20-37-33-23-33C-10-33-6-24-6-14C-6-9-1-5 0-1C0 2-3 2-5 2L-4 6L-6 8L-4 10C-3 15-6 \
         19-11 19L-17 18L-18 38",
    ),
    Mark::Solid("M-17 -9a2.6 2.6 0 1 0 5.2 0a2.6 2.6 0 1 0 -5.2 0Z"),
    Mark::Ink("M-29-6C-34-9-37-2-34 2C-32 5-30 5-29 3M-8-25C-14-16-24-20-30-13"),
];

/// The same for a person seen whole: less of it can be seen.
pub(super) static HEAD: &[Mark] = &[
    Mark::Ink("M-8 10A12.5 12.5 0 1 1-2-6C-1-4 1-2 1 0C1 1-1 1-2 1L-2 4C-2 8-4 9-8 10Z"),
    Mark::Solid("M-7.5 -4a1.8 1.8 0 1 0 3.6 0a1.8 1.8 0 1 0 -3.6 0Z"),
];

/// A head from the front, centred between the eyes, without pupils.
pub(super) static FRONT: &[Mark] = &[
    Mark::Ink("M-27-2C-27-26-14-34 0-34C14-34 27-26 27-2C27 20 12 32 0 32C-12 32-27 20-27-2Z"),
    Mark::Thin("M-18-1C-15-7-8-7-5-1C-8 4-15 4-18-1ZM5-1C8-7 15-7 18-1C15 4 8 4 5-1Z"),
    Mark::Ink("M0 2L-3 11H2M-7 20C-3 22 3 22 7 20"),
    Mark::Ink("M-26-12C-10-14 8-20 14-31"),
];

/// Two pupils for it, to be set where the eyes look.
pub(super) static PUPILS: &[Mark] =
    &[Mark::Solid("M-14-1a3 3 0 1 0 6 0a3 3 0 1 0-6 0ZM9-1a3 3 0 1 0 6 0a3 3 0 1 0-6 0Z")];

/// A hand that holds a pen upright; the mark on the pen is at the origin.
pub(super) static PEN: &[Mark] = &[
    Mark::Ink("M0 5V22"),
    Mark::Accent("M-6 0a6 6 0 1 0 12 0a6 6 0 1 0-12 0Z"),
    Mark::Ink("M-6 22H4C9 22 9 27 5 28C8 29 8 33 4 33C7 35 5 39 1 39H-6C-12 39-12 22-6 22Z"),
];

/// A fist with the thumb up; the nail is at the origin.
pub(super) static THUMB: &[Mark] = &[
    Mark::Accent("M-5 14C-7 6-6-5 0-5C6-5 6 6 4 14"),
    Mark::Ink("M-8 14H7C13 14 13 20 9 20.5C13 21 13 27 9 27C12 28 11 34 5 34H-8C-14 34-14 14-8 14Z"),
];

/// A letter on a card, centred.
pub(super) static CARD: &[Mark] = &[Mark::Accent("M-10-12H10V12H-10Z"), Mark::Ink("M4-6H-4V6H4M-4 0H3")];

/// The arrow of a head that turns to one side and the other, its middle at the origin.
pub(super) static TURN: &[Mark] =
    &[Mark::Ink("M-17 3C-12-6 12-6 17 3"), Mark::Turned(-20, 9, 118, ARROW), Mark::Turned(20, 9, 62, ARROW)];

/// A shoe print from above, heel at the origin, toes upward.
pub(super) static SHOE: &[Mark] =
    &[Mark::Accent("M-4-2C-4 3 4 3 4-2C4-6 3-8 4-12C6-18 5-24 0-24C-6-24-7-18-5-12C-4-8-4-6-4-2Z")];

/// The same as an outline.
pub(super) static PRINT: &[Mark] =
    &[Mark::Ink("M-4-2C-4 3 4 3 4-2C4-6 3-8 4-12C6-18 5-24 0-24C-6-24-7-18-5-12C-4-8-4-6-4-2Z")];

/// Someone who walks to the right, the hip at the origin.
pub(super) static WALKER: &[Mark] =
    &[Mark::At(10, -43, HEAD), Mark::Limb("M0-27V0L-12 22L-17 26M0 0L12 12L14 28H21M0-21L11-10L20-13M0-21L-9-9L-13 2")];
