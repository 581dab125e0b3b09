//! Draws a checked program on a canvas, in device pixels, for any time of it.
//!
//! Whatever can be is made before the first frame, and each frame paints the whole canvas once: a browser then neither
//! keeps nor copies the last one. Where stripes fade into grey at their ends, a sheet that stays still lies over the canvas.

use std::cell::Cell;

use sidelight_core::drawing::face::{Face, Part};
use sidelight_core::quantity::Degrees;
use sidelight_core::stimulus::colour::Srgb;
use sidelight_core::stimulus::program::{FIXATION, HeadTurns, Program, Scene, Shown, Stripes};
use sidelight_core::stimulus::safety::Safe;
use sidelight_core::stimulus::screen::{At, Axis};
use sidelight_core::stimulus::target::Target;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, HtmlElement, Path2d};

use super::face;

/// The part of the field at each end, in percent, over which stripes pass into still grey, so that no hard edge holds the eyes.
const SOFT: f64 = 12.0;
/// The middle of the mark that is looked at, as a part of its whole (outer 0.6°, inner 0.2°, as open code of
/// laboratories gives them from Thaler et al. 2013).
const BULLS_EYE: f64 = 1.0 / 3.0;

/// A canvas and what is drawn on it.
pub struct Painter {
    context: CanvasRenderingContext2d,
    safe: Safe,
    parts: Vec<(Path2d, &'static Part)>,
    half: (f64, f64),
    /// As style sheets write it.
    ground: String,
    /// The colour of the target, in the same way.
    ink: String,
    /// What lies over the ends of stripes, and along which axis by now.
    sheet: HtmlElement,
    soft: Cell<Option<Axis>>,
}

impl Painter {
    /// Sizes the canvas to the device's pixels; all lengths are CSS pixels from its middle.
    ///
    /// # Errors
    /// What the browser says when it has no canvas to draw on.
    pub fn new(
        canvas: &HtmlCanvasElement,
        sheet: HtmlElement,
        pixel_ratio: f64,
        safe: Safe,
        face: Option<&'static Face>,
    ) -> Result<Painter, JsValue> {
        let side = |axis| safe.screen().side(axis).0;
        let (width, height) = (side(Axis::Horizontal), side(Axis::Vertical));
        canvas.set_width((width * pixel_ratio).round() as u32);
        canvas.set_height((height * pixel_ratio).round() as u32);
        // Nothing shines through, so that no browser has to look for what is behind.
        let options = js_sys::Object::new();
        js_sys::Reflect::set(&options, &"alpha".into(), &false.into())?;
        let context = canvas.get_context_with_context_options("2d", &options)?;
        let context = context.ok_or("there is no canvas to draw on")?;
        let context: CanvasRenderingContext2d = context.dyn_into()?;
        let (wide, high) = (f64::from(canvas.width()) / 2.0, f64::from(canvas.height()) / 2.0);
        context.set_transform(pixel_ratio, 0.0, 0.0, pixel_ratio, wide, high)?;
        let parts = safe.program().target().map_or(&[][..], |target| face::parts(target.kind(), face));
        let parts = parts.iter().map(|part| Ok((Path2d::new_with_path_string(part.path)?, part)));
        let parts = parts.collect::<Result<Vec<_>, JsValue>>()?;
        let ground = safe.program().ground().to_string();
        let ink = safe.program().target().map_or(Srgb::BLACK, Target::ink).to_string();
        context.set_line_cap("round");
        context.set_line_join("round");
        let half = (width / 2.0, height / 2.0);
        Ok(Painter { context, safe, parts, half, ground, ink, sheet, soft: Cell::new(None) })
    }

    /// What is drawn.
    pub fn safe(&self) -> &Safe {
        &self.safe
    }

    /// Draws what is shown so many seconds after the start, and says where, in CSS pixels from the middle: to the right and
    /// down for a target, and for stripes how far they have moved on and how strong they are.
    pub fn draw(&self, seconds: f64) -> (f64, f64) {
        let scene = self.safe.at(seconds);
        if let (Scene::Stripes(shown), Program::Stripes(stripes)) = (scene, self.safe.program()) {
            return self.stripes(stripes, &shown);
        }
        self.fill(&self.ground);
        match (scene, self.safe.program().target()) {
            (Scene::Fixation, Some(_)) => self.fixation(),
            (Scene::Target(at), Some(target)) => self.target(target, at),
            (Scene::Beat { swing }, Some(target)) => {
                self.target(target, At::MIDDLE);
                let (right, down) = self.px(HeadTurns::mark(swing));
                self.disc((right, down), self.across(HeadTurns::MARK));
                (right, down)
            }
            (Scene::Ground | Scene::Stripes(_), _) => (0.0, 0.0),
            (Scene::Fixation | Scene::Target(_) | Scene::Beat { .. }, None) => (0.0, 0.0),
        }
    }

    fn target(&self, target: &Target, at: At) -> (f64, f64) {
        let (right, down) = self.px(at);
        let context = &self.context;
        let size = self.across(target.size().0) / 100.0;
        context.save();
        // Moving and sizing cannot fail on numbers, and a frame that was not drawn would only be a dropped one.
        let _ = context.translate(right, down);
        let _ = context.scale(size, size);
        context.set_fill_style_str(&self.ink);
        context.set_stroke_style_str(&self.ink);
        for (path, part) in &self.parts {
            if part.fill {
                context.fill_with_path_2d(path);
            }
            if part.width > 0.0 {
                context.set_line_width(part.width);
                context.stroke_with_path(path);
            }
        }
        context.restore();
        (right, down)
    }

    /// A bull's eye with a cross.
    fn fixation(&self) -> (f64, f64) {
        let across = self.across(FIXATION);
        let arm = across * BULLS_EYE;
        self.disc((0.0, 0.0), across);
        self.context.set_fill_style_str(&self.ground);
        self.context.fill_rect(-across / 2.0, -arm / 2.0, across, arm);
        self.context.fill_rect(-arm / 2.0, -across / 2.0, arm, across);
        self.disc((0.0, 0.0), arm);
        (0.0, 0.0)
    }

    fn stripes(&self, stripes: &Stripes, shown: &Shown) -> (f64, f64) {
        let (ground, axis) = (stripes.ground(), Axis::of(shown.toward));
        self.fill(&between(ground, stripes.dark, shown.strength).to_string());
        self.context.set_fill_style_str(&between(ground, stripes.light, shown.strength).to_string());
        let (wide, high) = self.half;
        for (from, to) in self.safe.light_stripes(shown) {
            match axis {
                Axis::Horizontal => self.context.fill_rect(from.0, -high, to.0 - from.0, 2.0 * high),
                Axis::Vertical => self.context.fill_rect(-wide, from.0, 2.0 * wide, to.0 - from.0),
            }
        }
        if self.soft.replace(Some(axis)) != Some(axis) {
            self.soften(ground, axis);
        }
        (shown.phase, shown.strength)
    }

    /// Both ends of the way the stripes move pass into still grey. On the canvas that would take as long as all the rest.
    fn soften(&self, ground: Srgb, axis: Axis) {
        let way = if axis == Axis::Horizontal { "90deg" } else { "180deg" };
        let Srgb { red, green, blue } = ground;
        let (still, clear) = (format!("rgb({red} {green} {blue})"), format!("rgb({red} {green} {blue} / 0)"));
        let far = 100.0 - SOFT;
        let gradient = format!("linear-gradient({way}, {still}, {clear} {SOFT}%, {clear} {far}%, {still})");
        // Our own gradients are always understood.
        let _ = self.sheet.style().set_property("background", &gradient);
    }

    fn disc(&self, (right, down): (f64, f64), across: f64) {
        self.context.set_fill_style_str(&self.ink);
        self.context.begin_path();
        // A radius is never negative here.
        let _ = self.context.arc(right, down, across / 2.0, 0.0, std::f64::consts::TAU);
        self.context.fill();
    }

    fn fill(&self, colour: &str) {
        let (wide, high) = self.half;
        self.context.set_fill_style_str(colour);
        // A pixel more on each side, where the middle falls between two pixels.
        self.context.fill_rect(-wide - 1.0, -high - 1.0, 2.0 * wide + 2.0, 2.0 * high + 2.0);
    }

    fn px(&self, at: At) -> (f64, f64) {
        let (right, down) = self.safe.px(at);
        (right.0, down.0)
    }

    fn across(&self, degrees: f64) -> f64 {
        self.safe.screen().size_px(Degrees(degrees)).0
    }
}

/// A colour on the way from one to another.
fn between(from: Srgb, to: Srgb, part: f64) -> Srgb {
    let mix = |from: u8, to: u8| (f64::from(from) + (f64::from(to) - f64::from(from)) * part).round() as u8;
    Srgb::new(mix(from.red, to.red), mix(from.green, to.green), mix(from.blue, to.blue))
}
