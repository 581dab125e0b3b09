//! Drawings as values: shapes on a small canvas, with words that say the same to someone who cannot see them.

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Stable id, unique in a document.
    pub id: String,
    /// Short title.
    pub title: String,
    /// What the drawing shows, in full sentences.
    pub says: String,
    /// Width in drawing units (CSS px at natural size).
    pub width: f64,
    /// Height in drawing units.
    pub height: f64,
    /// Shapes, drawn in order.
    pub shapes: Vec<Shape>,
}

/// Ink of a stroke or fill; shapes tell the state, ink only weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// Full ink.
    Strong,
    /// Secondary ink: axes, labels.
    Soft,
    /// The accent fill, always outlined by ink.
    Accent,
    /// A band behind the marks: a published range.
    Band,
    /// Paper.
    Paper,
}

/// One shape. Lengths in drawing units, y grows downward.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A straight line.
    Line {
        /// Start.
        from: (f64, f64),
        /// End.
        to: (f64, f64),
        /// Ink of the stroke.
        ink: Ink,
        /// Stroke width.
        width: f64,
        /// Whether it is dashed.
        dashed: bool,
    },
    /// A rectangle.
    Rect {
        /// Upper left corner.
        at: (f64, f64),
        /// Width and height.
        size: (f64, f64),
        /// Fill.
        fill: Ink,
    },
    /// A mark of about `size` across, centred.
    Mark {
        /// Centre.
        at: (f64, f64),
        /// Which mark.
        kind: MarkKind,
        /// Size across.
        size: f64,
    },
    /// Text on one line.
    Text {
        /// Anchor point on the base line.
        at: (f64, f64),
        /// The text.
        text: String,
        /// Where the anchor is.
        anchor: Anchor,
        /// Ink.
        ink: Ink,
        /// Whether bold.
        bold: bool,
    },
}

impl Shape {
    /// A thin line.
    #[must_use]
    pub fn thin(from: (f64, f64), to: (f64, f64), ink: Ink, dashed: bool) -> Shape {
        Shape::Line { from, to, ink, width: 1.5, dashed }
    }

    /// Text that is not bold.
    #[must_use]
    pub fn plain(at: (f64, f64), text: impl Into<String>, anchor: Anchor, ink: Ink) -> Shape {
        Shape::Text { at, text: text.into(), anchor, ink, bold: false }
    }
}

/// Marks, told apart by shape.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// Filled disc: as expected.
    Disc,
    /// Open ring: in range.
    Ring,
    /// Half-filled ring: near the limit.
    HalfRing,
    /// Filled diamond: outside the range.
    Diamond,
    /// Octagon: urgent.
    Octagon,
    /// Wedge: fell short.
    Wedge,
    /// Arrow head: went past.
    Arrow,
    /// Cross: missed.
    Cross,
    /// Dash: not done.
    Dash,
}

/// Where a text's anchor point lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// At its start.
    Start,
    /// In its middle.
    Middle,
    /// At its end.
    End,
}
