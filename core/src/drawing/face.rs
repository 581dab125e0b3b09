//! Small faces to look at on the stage. They keep to what the guard counts on: a line through one, in whatever direction,
//! meets at most four strokes, and strokes stay wide enough to be seen at half a degree.

use std::fmt::Write as _;

/// A face.
#[derive(Debug)]
pub struct Face {
    /// Stable id.
    pub id: &'static str,
    /// What it is, so that it can be named aloud: "cat".
    pub name: &'static str,
    /// Its parts, drawn in order.
    pub parts: &'static [Part],
}

/// One part of a face, drawn in the target's ink; the ground shows through everywhere else.
#[derive(Debug)]
pub struct Part {
    /// Path data in a square from -50 to 50.
    pub path: &'static str,
    /// Whether it is filled; what is drawn the other way round inside it stays free.
    pub fill: bool,
    /// Width of its stroke in the same unit; 0 for none.
    pub width: f64,
}

/// Every face, in the order it is offered.
pub static ALL: &[Face] = &[
    Face {
        id: "child",
        name: "child",
        parts: &[
            line(
                "M0 -43C23.2 -43 42 -23.7 42 0C42 23.7 23.2 43 0 43C-23.2 43 -42 23.7 -42 0C-42 -23.7 -23.2 -43 0 -43Z",
            ),
            surface(
                "M-21.5 -19.5C-18.2 -19.5 -15.5 -16.1 -15.5 -12C-15.5 -7.9 -18.2 -4.5 -21.5 -4.5C-24.8 -4.5 -27.5 -7.9 -27.5 -12C-27.5 -16.1 -24.8 -19.5 -21.5 -19.5ZM21.5 -19.5C24.8 -19.5 27.5 -16.1 27.5 -12C27.5 -7.9 24.8 -4.5 21.5 -4.5C18.2 -4.5 15.5 -7.9 15.5 -12C15.5 -16.1 18.2 -19.5 21.5 -19.5Z",
            ),
            surface("M0 -3.5C2.2 -3.5 4 -1.5 4 1C4 3.5 2.2 5.5 0 5.5C-2.2 5.5 -4 3.5 -4 1C-4 -1.5 -2.2 -3.5 0 -3.5Z"),
            line("M-6 23C-3 26 3 26 6 23"),
        ],
    },
    Face {
        id: "cat",
        name: "cat",
        parts: &[
            line("M-40 -41L-22 -28C-8 -32 8 -32 22 -28L40 -41L42 -2C42 26 22 43 0 43C-22 43 -42 26 -42 -2Z"),
            surface(
                "M-22 -19C-18.7 -19 -16 -15.4 -16 -11C-16 -6.6 -18.7 -3 -22 -3C-25.3 -3 -28 -6.6 -28 -11C-28 -15.4 -25.3 -19 -22 -19ZM22 -19C25.3 -19 28 -15.4 28 -11C28 -6.6 25.3 -3 22 -3C18.7 -3 16 -6.6 16 -11C16 -15.4 18.7 -19 22 -19Z",
            ),
            surface("M-6 0L6 0L0 8Z"),
            line("M-6 23C-4 27 0 26 0 22C0 26 4 27 6 23"),
        ],
    },
    Face {
        id: "bear",
        name: "bear",
        parts: &[
            surface(
                "M-21 -40C-28 -46 -46 -42 -46 -28C-46 -22 -42 -17 -38 -15C-42 -8 -43 0 -43 4C-43 28 -24 45 0 45C24 45 \
                 43 28 43 4C43 0 42 -8 38 -15C42 -17 46 -22 46 -28C46 -42 28 -46 21 -40C8 -44 -8 -44 -21 -40Z\
                 M-20 -18C-15 -18 -12 -15 -12 -10C-12 -5 -15 -2 -20 -2C-25 -2 -28 -5 -28 -10C-28 -15 -25 -18 -20 -18Z\
                 M20 -18C25 -18 28 -15 28 -10C28 -5 25 -2 20 -2C15 -2 12 -5 12 -10C12 -15 15 -18 20 -18Z\
                 M0 2C15 2 24 10 24 20C24 30 15 38 0 38C-15 38 -24 30 -24 20C-24 10 -15 2 0 2Z",
            ),
            surface(
                "M0 7C6 7 8 10 7 14C6.5 17 4.5 19 4.5 22L4.5 25C4.5 30 -4.5 30 -4.5 25L-4.5 22C-4.5 19 -6.5 17 -7 14C-8 10 -6 7 0 7Z",
            ),
        ],
    },
    Face {
        id: "fox",
        name: "fox",
        parts: &[
            surface(
                "M-44 -44L-16 -26C-6 -29 6 -29 16 -26L44 -44C45 -24 46 -10 42 4C34 26 12 34 0 46C-12 34 -34 26 -42 4C-46 -10 -45 \
                 -24 -44 -44Z\
                 M-19 -14C-24 -14 -27 -11 -27 -6C-27 -1 -24 2 -19 2C-14 2 -11 -1 -11 -6C-11 -11 -14 -14 -19 -14Z\
                 M19 -14C14 -14 11 -11 11 -6C11 -1 14 2 19 2C24 2 27 -1 27 -6C27 -11 24 -14 19 -14Z\
                 M0 12C-9 12 -17 15 -20 19C-12 25 -7 28 0 36C7 28 12 25 20 19C17 15 9 12 0 12Z",
            ),
            surface("M-8 16L8 16L0 27Z"),
        ],
    },
];

const fn line(path: &'static str) -> Part {
    Part { path, fill: false, width: 8.0 }
}

const fn surface(path: &'static str) -> Part {
    Part { path, fill: true, width: 0.0 }
}

impl Face {
    /// A face by its id.
    #[must_use]
    pub fn by_id(id: &str) -> Option<&'static Face> {
        ALL.iter().find(|face| face.id == id)
    }

    /// The face as a picture, with a label for those who do not see it.
    #[must_use]
    pub fn svg(&self, label: &str) -> String {
        let mut parts = String::new();
        for Part { path, fill, width } in self.parts {
            let fill = if *fill { "currentColor" } else { "none" };
            let stroke = if *width > 0.0 { "currentColor" } else { "none" };
            // Writing into a string cannot fail.
            let _ = write!(parts, "<path fill=\"{fill}\" stroke=\"{stroke}\" stroke-width=\"{width}\" d=\"{path}\"/>");
        }
        super::picture("-50 -50 100 100", label, &parts)
    }
}

#[cfg(test)]
mod tests;
