//! A flat screen in front of the eyes: its scale from the edge of a card, its distance, and angles on it both ways.

#[cfg(test)]
mod tests;

use crate::anatomy::Direction;
use crate::quantity::{Centimetres, Degrees, Millimetres, Quantity, Refused};

/// A length on the screen in CSS pixels. Their true size is known only from a card.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Px(pub f64);

/// The edge of an identification card that was laid on the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CardEdge {
    /// The long edge, along the longer side of the screen.
    Long,
    /// The short edge, for a screen the long one does not fit across.
    Short,
}

impl CardEdge {
    /// Its length, size ID-1 (ISO/IEC 7810).
    #[must_use]
    pub const fn length(self) -> Millimetres {
        match self {
            CardEdge::Long => Millimetres(85.60),
            CardEdge::Short => Millimetres(53.98),
        }
    }

    /// What is measured, with bounds that lie within those of [`SCALE`].
    #[must_use]
    pub fn quantity(self) -> &'static Quantity {
        match self {
            CardEdge::Long => &LONG_EDGE,
            CardEdge::Short => &SHORT_EDGE,
        }
    }
}

static LONG_EDGE: Quantity =
    Quantity { name: "card's long edge on this screen", unit: "px", min: 129.0, max: 1712.0, step: 1.0, decimals: 0 };
static SHORT_EDGE: Quantity =
    Quantity { name: "card's short edge on this screen", unit: "px", min: 81.0, max: 1079.0, step: 1.0, decimals: 0 };

/// Phones have about 6 CSS pixels to the millimetre and desks about 4 (460 ppi at ratio 3, 96 ppi at ratio 1); the bounds
/// leave room for zoom from a third to three times.
pub static SCALE: Quantity =
    Quantity { name: "pixels in a millimetre", unit: "px/mm", min: 1.5, max: 20.0, step: 0.01, decimals: 2 };

/// Nearer than this no one holds a screen for following; further away a phone shows too little (common practice).
pub static DISTANCE: Quantity = Quantity {
    name: "distance from the eyes to the screen",
    unit: "cm",
    min: 20.0,
    max: 200.0,
    step: 1.0,
    decimals: 0,
};

/// Distances offered first.
pub const PRESETS: [Centimetres; 3] = [Centimetres(30.0), Centimetres(40.0), Centimetres(50.0)];

/// One side of the part of the screen that is drawn on.
pub static SIDE: Quantity =
    Quantity { name: "side of the screen", unit: "px", min: 160.0, max: 16_000.0, step: 1.0, decimals: 0 };

/// How many CSS pixels one millimetre has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale(f64);

impl Scale {
    /// The scale from the edge of a card, measured in CSS pixels.
    ///
    /// # Errors
    /// [`Refused`] when no screen shows the card so small or so large.
    pub fn from_card(edge: CardEdge, measured: Px) -> Result<Scale, Refused> {
        Ok(Scale(edge.quantity().check(measured.0)? / edge.length().0))
    }

    /// A scale that was kept.
    ///
    /// # Errors
    /// [`Refused`] outside the bounds of [`SCALE`].
    pub fn from_px_per_mm(px_per_mm: f64) -> Result<Scale, Refused> {
        Ok(Scale(SCALE.check(px_per_mm)?))
    }

    /// CSS pixels in a millimetre.
    #[must_use]
    pub fn px_per_mm(self) -> f64 {
        self.0
    }

    /// A length in pixels.
    #[must_use]
    pub fn px(self, length: Millimetres) -> Px {
        Px(length.0 * self.0)
    }

    /// A length in millimetres.
    #[must_use]
    pub fn mm(self, length: Px) -> Millimetres {
        Millimetres(length.0 / self.0)
    }
}

/// A scale together with what it holds for: it is worth nothing after the page is zoomed or moved to another display.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibration {
    /// The scale.
    pub scale: Scale,
    /// Device pixels in a CSS pixel while the card was measured.
    pub pixel_ratio: f64,
    /// Pinch zoom meanwhile; 1 for none.
    pub zoom: f64,
}

impl Calibration {
    /// The scale, unless pixel ratio or zoom are no longer what they were; then the card has to be laid on again.
    #[must_use]
    pub fn scale_at(&self, pixel_ratio: f64, zoom: f64) -> Option<Scale> {
        // A tenth of what one pixel of 516 misread would do.
        let same = |then: f64, now: f64| (now / then - 1.0).abs() < 2e-4;
        (same(self.pixel_ratio, pixel_ratio) && same(self.zoom, zoom)).then_some(self.scale)
    }
}

/// Along which side of the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// From side to side.
    Horizontal,
    /// Up and down.
    Vertical,
}

impl Axis {
    /// The axis of a movement.
    #[must_use]
    pub fn of(direction: Direction) -> Axis {
        match direction {
            Direction::Right | Direction::Left => Axis::Horizontal,
            Direction::Up | Direction::Down => Axis::Vertical,
        }
    }
}

/// A place in degrees from the middle: its distance from the middle is the angle between both lines of sight, its
/// direction is that on the screen. To the right is to the right of the person who looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At {
    /// Part to the right; negative to the left.
    pub right: f64,
    /// Part upward; negative downward.
    pub up: f64,
}

impl At {
    /// The middle of the screen, straight ahead.
    pub const MIDDLE: At = At { right: 0.0, up: 0.0 };

    /// A place so many degrees along an axis, to the right and up.
    #[must_use]
    pub fn along(axis: Axis, degrees: f64) -> At {
        match axis {
            Axis::Horizontal => At { right: degrees, up: 0.0 },
            Axis::Vertical => At { right: 0.0, up: degrees },
        }
    }

    /// How far from the middle, in degrees.
    #[must_use]
    pub fn eccentricity(self) -> Degrees {
        Degrees(self.right.hypot(self.up))
    }
}

/// A flat screen, square to the line of sight, its middle straight ahead.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screen {
    scale: Scale,
    width: Px,
    height: Px,
    distance: Centimetres,
}

impl Screen {
    /// The part of a screen that is drawn on, as wide and high as it is held, without notches and bars.
    ///
    /// # Errors
    /// [`Refused`] when a side or the distance cannot be.
    pub fn new(scale: Scale, width: Px, height: Px, distance: Centimetres) -> Result<Screen, Refused> {
        let (width, height) = (Px(SIDE.check(width.0)?), Px(SIDE.check(height.0)?));
        Ok(Screen { scale, width, height, distance: Centimetres(DISTANCE.check(distance.0)?) })
    }

    /// Its scale.
    #[must_use]
    pub fn scale(&self) -> Scale {
        self.scale
    }

    /// How far from the eyes it was said to be.
    #[must_use]
    pub fn distance(&self) -> Centimetres {
        self.distance
    }

    /// One of its sides.
    #[must_use]
    pub fn side(&self, axis: Axis) -> Px {
        match axis {
            Axis::Horizontal => self.width,
            Axis::Vertical => self.height,
        }
    }

    /// From the middle to the edge, in degrees.
    #[must_use]
    pub fn half_field(&self, axis: Axis) -> Degrees {
        eccentricity(self.scale.mm(Px(self.side(axis).0 / 2.0)), self.away())
    }

    /// From edge to edge, in degrees.
    #[must_use]
    pub fn field(&self, axis: Axis) -> Degrees {
        Degrees(2.0 * self.half_field(axis).0)
    }

    /// The whole screen as the eyes see it, in steradians.
    #[must_use]
    pub fn solid_angle(&self) -> f64 {
        rectangle(self.scale.mm(self.width), self.scale.mm(self.height), self.away())
    }

    /// A place in millimetres from the middle: to the right, and up.
    #[must_use]
    pub fn mm(&self, at: At) -> (Millimetres, Millimetres) {
        let angle = at.eccentricity();
        if angle.0 == 0.0 {
            return (Millimetres(0.0), Millimetres(0.0));
        }
        let each = position(angle, self.away()).0 / angle.0;
        (Millimetres(at.right * each), Millimetres(at.up * each))
    }

    /// A place in CSS pixels from the middle: to the right, and down as pages count.
    #[must_use]
    pub fn px(&self, at: At) -> (Px, Px) {
        let (right, up) = self.mm(at);
        (self.scale.px(right), Px(-self.scale.px(up).0))
    }

    /// The place of so many CSS pixels from the middle, to the right and down.
    #[must_use]
    pub fn at(&self, right: Px, down: Px) -> At {
        let far = self.scale.mm(Px(right.0.hypot(down.0)));
        if far.0 == 0.0 {
            return At::MIDDLE;
        }
        let each = eccentricity(far, self.away()).0 / right.0.hypot(down.0);
        At { right: right.0 * each, up: -down.0 * each }
    }

    /// The size in CSS pixels of what is looked at and seen under this angle.
    #[must_use]
    pub fn size_px(&self, angle: Degrees) -> Px {
        self.scale.px(size(angle, self.away()))
    }

    /// The speed in CSS pixels a second of what moves so many degrees a second outward, at this place.
    #[must_use]
    pub fn speed_px(&self, degrees_a_second: f64, at: Degrees) -> f64 {
        self.scale.px(speed(degrees_a_second, at, self.away())).0
    }

    /// The distance in millimetres.
    fn away(&self) -> Millimetres {
        Millimetres(10.0 * self.distance.0)
    }
}

/// The size of what is centred on the line of sight and seen under this angle: 2 d tan(angle / 2).
#[must_use]
pub fn size(angle: Degrees, distance: Millimetres) -> Millimetres {
    Millimetres(2.0 * distance.0 * (angle.0.to_radians() / 2.0).tan())
}

/// The angle under which something centred on the line of sight is seen: 2 atan(s / 2d).
#[must_use]
pub fn angle(size: Millimetres, distance: Millimetres) -> Degrees {
    Degrees(2.0 * (size.0 / (2.0 * distance.0)).atan().to_degrees())
}

/// How far from the middle of a flat screen something this eccentric stands: d tan(angle).
#[must_use]
pub fn position(eccentricity: Degrees, distance: Millimetres) -> Millimetres {
    Millimetres(distance.0 * eccentricity.0.to_radians().tan())
}

/// How eccentric something so far from the middle of a flat screen is: atan(x / d).
#[must_use]
pub fn eccentricity(position: Millimetres, distance: Millimetres) -> Degrees {
    Degrees((position.0 / distance.0).atan().to_degrees())
}

/// The speed on a flat screen, in millimetres a second, of what moves so many degrees a second outward at this
/// eccentricity: d sec²(angle) ω.
#[must_use]
pub fn speed(degrees_a_second: f64, at: Degrees, distance: Millimetres) -> Millimetres {
    let secant = 1.0 / at.0.to_radians().cos();
    Millimetres(distance.0 * secant * secant * degrees_a_second.to_radians())
}

/// The solid angle of a rectangle straight ahead, in steradians: 4 asin(ab / √((a² + d²)(b² + d²))) of its half sides.
#[must_use]
pub fn rectangle(width: Millimetres, height: Millimetres, distance: Millimetres) -> f64 {
    let (a, b, d) = (width.0 / 2.0, height.0 / 2.0, distance.0);
    4.0 * (a * b / ((a * a + d * d) * (b * b + d * d)).sqrt()).asin()
}

/// The solid angle of a disc seen under this angle, in steradians: 2π (1 - cos(angle / 2)).
#[must_use]
pub fn disc(across: Degrees) -> f64 {
    std::f64::consts::TAU * (1.0 - (across.0.to_radians() / 2.0).cos())
}
