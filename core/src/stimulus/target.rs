//! What is followed: a drawn face, a letter or a dot, with a size and a contrast that were checked.

use std::fmt;

use super::colour::{Srgb, contrast_ratio};
use crate::evidence::number;
use crate::quantity::{self, Degrees, Quantity};

/// Half a degree still holds detail to look at; two degrees still sends the eyes to one place (common practice).
pub static SIZE: Quantity =
    Quantity { name: "size of the target", unit: "°", min: 0.5, max: 2.0, step: 0.1, decimals: 1 };

/// The least contrast of a drawing with its ground (WCAG 2.1, SC 1.4.11,
/// w3c.github.io/wcag21/understanding/non-text-contrast).
pub const LEAST_CONTRAST: f64 = 3.0;

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A small face with eyes and a nose.
    Face,
    /// A letter.
    Letter,
    /// A dot.
    Dot,
}

impl Kind {
    /// All three.
    pub const ALL: [Kind; 3] = [Kind::Face, Kind::Letter, Kind::Dot];

    /// How often one place can turn dark and light again while this passes over it: a line through a face meets its
    /// outline, two eyes and the outline again, one through a letter at most four strokes. What is drawn keeps to it.
    #[must_use]
    pub const fn strokes(self) -> u32 {
        match self {
            Kind::Face | Kind::Letter => 4,
            Kind::Dot => 1,
        }
    }

    /// The word in a sentence.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Face => "face",
            Kind::Letter => "letter",
            Kind::Dot => "dot",
        }
    }
}

/// A target whose size and contrast were checked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    kind: Kind,
    size: Degrees,
    ink: Srgb,
    ground: Srgb,
}

/// Why a target was refused.
#[derive(Debug, Clone, PartialEq)]
pub enum Refused {
    /// Too small or too large.
    Size(quantity::Refused),
    /// Too faint; holds the contrast there is.
    Faint(f64),
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refused::Size(refused) => refused.fmt(f),
            Refused::Faint(there) => write!(
                f,
                "The target is too faint: its contrast is {}:1, and at least {}:1 is needed. Take a darker target or a \
                 lighter ground.",
                // Cut, not rounded, so that what is too little never reads as enough.
                number((100.0 * there).floor() / 100.0),
                number(LEAST_CONTRAST)
            ),
        }
    }
}

impl std::error::Error for Refused {}

impl Target {
    /// A target of this size, measured across, in two colours.
    ///
    /// # Errors
    /// [`Refused`] outside the bounds of [`SIZE`], or below [`LEAST_CONTRAST`].
    pub fn new(kind: Kind, size: Degrees, ink: Srgb, ground: Srgb) -> Result<Target, Refused> {
        let size = Degrees(SIZE.check(size.0).map_err(Refused::Size)?);
        let contrast = contrast_ratio(ink, ground);
        if contrast < LEAST_CONTRAST {
            return Err(Refused::Faint(contrast));
        }
        Ok(Target { kind, size, ink, ground })
    }

    /// A target in near black on white, in a size that is brought within the bounds.
    #[must_use]
    pub fn on_white(kind: Kind, size: Degrees) -> Target {
        Target { kind, size, ink: Srgb::BLACK, ground: Srgb::WHITE }.plain().sized(size.0)
    }

    /// What is drawn.
    #[must_use]
    pub fn kind(&self) -> Kind {
        self.kind
    }

    /// Its size across.
    #[must_use]
    pub fn size(&self) -> Degrees {
        self.size
    }

    /// What it is drawn with.
    #[must_use]
    pub fn ink(&self) -> Srgb {
        self.ink
    }

    /// What it is drawn on.
    #[must_use]
    pub fn ground(&self) -> Srgb {
        self.ground
    }

    /// The same target in another size, brought within the bounds.
    #[must_use]
    pub(super) fn sized(self, size: f64) -> Target {
        Target { size: Degrees(size.clamp(SIZE.min, SIZE.max)), ..self }
    }

    /// The same target in near black on white.
    #[must_use]
    pub(super) fn plain(self) -> Target {
        Target { ink: Srgb::grey(0x1a), ground: Srgb::WHITE, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dot(size: f64, ink: Srgb) -> Result<Target, Refused> {
        Target::new(Kind::Dot, Degrees(size), ink, Srgb::WHITE)
    }

    #[test]
    fn sizes_outside_the_bounds_are_refused() {
        for size in [0.5, 1.0, 2.0] {
            assert_eq!(dot(size, Srgb::BLACK).expect("within bounds").size(), Degrees(size));
        }
        for size in [0.0, 0.49, 2.01, -1.0, f64::NAN] {
            let said = dot(size, Srgb::BLACK).expect_err("outside").to_string();
            assert!(said.contains("from 0.5° to 2.0°"), "{size}: {said}");
        }
    }

    /// #949494 on white has 3.03:1 and #959595 has 2.99:1, by the guideline's formula.
    #[test]
    fn a_faint_target_is_refused() {
        assert!(dot(1.0, Srgb::grey(0x94)).is_ok());
        let said = dot(1.0, Srgb::grey(0x95)).expect_err("faint").to_string();
        assert!(said.contains("2.99:1") && said.contains("at least 3:1"), "{said}");
    }
}
