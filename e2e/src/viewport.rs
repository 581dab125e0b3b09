//! The four sizes at which screens are looked at.

/// A view in CSS pixels, with the pixel ratio of a device of that size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Viewport {
    /// Width in CSS pixels.
    pub width: u32,
    /// Height in CSS pixels.
    pub height: u32,
    /// Device pixels for each CSS pixel, where the engine can set it.
    pub ratio: f64,
    /// Whether the device is held in the hand and touched.
    pub handheld: bool,
}

/// A common phone.
pub const PHONE: Viewport = Viewport::handheld(390, 844, 3.0);
/// The smallest phone that must work.
pub const SMALL_PHONE: Viewport = Viewport::handheld(360, 640, 3.0);
/// A tablet held upright.
pub const TABLET: Viewport = Viewport::handheld(820, 1180, 2.0);
/// A clinic computer.
pub const DESKTOP: Viewport = Viewport { width: 1280, height: 800, ratio: 1.0, handheld: false };

impl Viewport {
    const fn handheld(width: u32, height: u32, ratio: f64) -> Self {
        Self { width, height, ratio, handheld: true }
    }
}

impl std::fmt::Display for Viewport {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}x{}", self.width, self.height)
    }
}
