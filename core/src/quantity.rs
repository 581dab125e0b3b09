//! Quantities a form may ask for, each with a name, a unit and bounds; and the few unit types the rules calculate with.

use std::fmt;

/// A bounded quantity: what is asked, its unit and what can be true of it.
///
/// Anything outside `min..=max` is refused at entry, never clipped.
#[derive(Debug, PartialEq)]
pub struct Quantity {
    /// What it is, in the words of the form ("near point").
    pub name: &'static str,
    /// Unit as printed behind the number; empty for a plain count.
    pub unit: &'static str,
    /// Smallest possible value, in `unit`.
    pub min: f64,
    /// Largest possible value, in `unit`.
    pub max: f64,
    /// Step of a slider or a stepper, in `unit`.
    pub step: f64,
    /// Decimals shown.
    pub decimals: usize,
}

/// Why a number was refused. Its text says what to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Refused {
    /// Nothing was typed.
    Empty {
        /// The quantity's name.
        name: &'static str,
    },
    /// What was typed is not a number.
    NotANumber {
        /// The quantity's name.
        name: &'static str,
        /// What was typed.
        typed: String,
    },
    /// The number cannot be true of this quantity.
    OutOfRange {
        /// The quantity's name.
        name: &'static str,
        /// The number given.
        value: f64,
        /// Smallest possible value with unit, as text.
        min: String,
        /// Largest possible value with unit, as text.
        max: String,
    },
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refused::Empty { name } => {
                write!(f, "Type a number for the {name}, or leave it and say that it was not done.")
            }
            Refused::NotANumber { name, typed } => {
                write!(f, "“{typed}” is not a number. Type the {name} in digits, such as 8 or 8.5.")
            }
            Refused::OutOfRange { name, value, min, max } => {
                write!(f, "{value} is not possible for the {name}. Type a number from {min} to {max}.")
            }
        }
    }
}

impl std::error::Error for Refused {}

impl Quantity {
    /// Reads a typed number; a decimal comma is taken as a point.
    ///
    /// # Errors
    /// [`Refused`] when the text is empty, no number, or out of bounds.
    pub fn parse(&self, typed: &str) -> Result<f64, Refused> {
        let text = typed.trim();
        if text.is_empty() {
            return Err(Refused::Empty { name: self.name });
        }
        match text.replace(',', ".").parse::<f64>() {
            Ok(value) => self.check(value),
            Err(_) => Err(Refused::NotANumber { name: self.name, typed: shorten(text) }),
        }
    }

    /// Lets a number through when it lies within the bounds.
    ///
    /// # Errors
    /// [`Refused::OutOfRange`] otherwise; also for infinities and NaN.
    pub fn check(&self, value: f64) -> Result<f64, Refused> {
        if value.is_finite() && (self.min..=self.max).contains(&value) {
            return Ok(value);
        }
        Err(Refused::OutOfRange { name: self.name, value, min: self.show(self.min), max: self.show(self.max) })
    }

    /// The number with its unit, as printed: "8.5 cm". Degrees stand close to it, as the SI brochure (5.4.3) writes angles.
    #[must_use]
    pub fn show(&self, value: f64) -> String {
        let number = self.digits(value);
        let apart = if self.unit.is_empty() || self.unit.starts_with('°') { "" } else { " " };
        format!("{number}{apart}{}", self.unit)
    }

    /// The number alone, with the quantity's decimals.
    #[must_use]
    pub fn digits(&self, value: f64) -> String {
        format!("{value:.*}", self.decimals)
    }
}

fn shorten(text: &str) -> String {
    let mut short: String = text.chars().take(24).collect();
    if text.chars().count() > 24 {
        short.push('…');
    }
    short
}

macro_rules! unit {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(pub f64);
    };
}

unit!(
    /// A length in centimetres.
    Centimetres
);
unit!(
    /// A length in millimetres.
    Millimetres
);
unit!(
    /// A plane angle in degrees.
    Degrees
);
unit!(
    /// An angle in prism dioptres: 100 times its tangent.
    PrismDioptres
);

unit!(
    /// The power of a lens or of focusing: one over the distance in metres.
    Dioptres
);

impl Degrees {
    /// The same angle in prism dioptres, by 100 tan(angle).
    #[must_use]
    pub fn in_prism_dioptres(self) -> PrismDioptres {
        PrismDioptres(100.0 * self.0.to_radians().tan())
    }
}

impl PrismDioptres {
    /// The same angle in degrees.
    #[must_use]
    pub fn in_degrees(self) -> Degrees {
        Degrees((self.0 / 100.0).atan().to_degrees())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    static REACH: Quantity = Quantity { name: "distance", unit: "cm", min: 1.0, max: 60.0, step: 0.5, decimals: 1 };

    #[test]
    fn impossible_numbers_are_refused_with_what_to_do() {
        for typed in ["0", "400", "-3", "inf", "NaN"] {
            let said = REACH.parse(typed).expect_err("must be refused").to_string();
            assert!(said.contains("from 1.0 cm to 60.0 cm"), "{typed}: {said}");
        }
        assert!(REACH.parse("abc").expect_err("no number").to_string().contains("“abc” is not a number"));
        assert!(REACH.parse("  ").expect_err("empty").to_string().contains("Type a number"));
    }

    #[test]
    fn a_decimal_comma_is_understood() {
        assert_eq!(REACH.parse(" 8,5 "), Ok(8.5));
        assert_eq!(REACH.show(8.5), "8.5 cm");
        let angle = Quantity { name: "width", unit: "°", ..REACH };
        assert_eq!(angle.show(8.5), "8.5°");
    }

    /// Definition of the prism dioptre: 1 cm at 1 m (Prentice 1890). 1° = 1.746; 1 = 0.573°; 45° = 100.
    #[test]
    fn prism_dioptres_are_a_hundred_tangents() {
        assert!((Degrees(1.0).in_prism_dioptres().0 - 1.7455).abs() < 1e-4);
        assert!((PrismDioptres(1.0).in_degrees().0 - 0.57294).abs() < 1e-5);
        assert!((PrismDioptres(8.0).in_degrees().0 - 4.574).abs() < 1e-3);
        assert!((Degrees(45.0).in_prism_dioptres().0 - 100.0).abs() < 1e-9);
    }
}
