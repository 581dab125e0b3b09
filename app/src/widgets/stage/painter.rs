//! Draws a checked program on a canvas, in device pixels, for any time of it.

use sidelight_core::drawing::face::{Face, Part};
use sidelight_core::quantity::Degrees;
use sidelight_core::stimulus::colour::Srgb;
use sidelight_core::stimulus::program::{FIXATION, HeadTurns, Program, Scene, Shown};
use sidelight_core::stimulus::safety::Safe;
use sidelight_core::stimulus::screen::{At, Axis};
use sidelight_core::stimulus::target::Target;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, Path2d};

use super::face;

/// The part of the field at each end over which stripes pass into still grey, so that no hard edge holds the eyes.
const SOFT: f64 = 0.12;
/// The middle of the mark that is looked at, as a part of its whole (outer 0.6°, inner 0.2°; from memory of Thaler et al.
/// 2013).
const BULLS_EYE: f64 = 1.0 / 3.0;

/// A canvas and what is drawn on it.
pub struct Painter {
    context: CanvasRenderingContext2d,
    safe: Safe,
    parts: Vec<(Path2d, &'static Part)>,
    half: (f64, f64),
}

impl Painter {
    /// Sizes the canvas to the device's pixels; all lengths are CSS pixels from its middle.
    ///
    /// # Errors
    /// What the browser says when it has no canvas to draw on.
    pub fn new(
        canvas: &HtmlCanvasElement,
        pixel_ratio: f64,
        safe: Safe,
        face: Option<&'static Face>,
    ) -> Result<Painter, JsValue> {
        let side = |axis| safe.screen().side(axis).0;
        let (width, height) = (side(Axis::Horizontal), side(Axis::Vertical));
        canvas.set_width((width * pixel_ratio).round() as u32);
        canvas.set_height((height * pixel_ratio).round() as u32);
        let context = canvas.get_context("2d")?.ok_or("there is no canvas to draw on")?;
        let context: CanvasRenderingContext2d = context.dyn_into()?;
        let (wide, high) = (f64::from(canvas.width()) / 2.0, f64::from(canvas.height()) / 2.0);
        context.set_transform(pixel_ratio, 0.0, 0.0, pixel_ratio, wide, high)?;
        let parts = safe.program().target().map_or(&[][..], |target| face::parts(target.kind(), face));
        let parts = parts.iter().map(|part| Ok((Path2d::new_with_path_string(part.path)?, part)));
        let parts = parts.collect::<Result<Vec<_>, JsValue>>()?;
        Ok(Painter { context, safe, parts, half: (width / 2.0, height / 2.0) })
    }

    /// What is drawn.
    pub fn safe(&self) -> &Safe {
        &self.safe
    }

    /// Draws what is shown so many seconds after the start, and says where, in CSS pixels from the middle: to the right and
    /// down for a target, and for stripes how far they have moved on and how strong they are.
    pub fn draw(&self, seconds: f64) -> (f64, f64) {
        let scene = self.safe.at(seconds);
        self.fill(self.ground());
        match (scene, self.safe.program().target()) {
            (Scene::Ground, _) => (0.0, 0.0),
            (Scene::Fixation, Some(target)) => self.fixation(target),
            (Scene::Target(at), Some(target)) => self.target(target, at),
            (Scene::Beat { swing }, Some(target)) => {
                self.target(target, At::MIDDLE);
                let (right, down) = self.px(HeadTurns::mark(swing));
                self.disc(target.ink(), (right, down), self.across(HeadTurns::MARK));
                (right, down)
            }
            (Scene::Stripes(shown), _) => self.stripes(&shown),
            (Scene::Fixation | Scene::Target(_) | Scene::Beat { .. }, None) => (0.0, 0.0),
        }
    }

    fn ground(&self) -> Srgb {
        match self.safe.program() {
            Program::Stripes(stripes) => stripes.ground(),
            program => program.target().map_or(Srgb::WHITE, Target::ground),
        }
    }

    fn target(&self, target: &Target, at: At) -> (f64, f64) {
        let (right, down) = self.px(at);
        let (context, ink) = (&self.context, target.ink().to_string());
        let size = self.across(target.size().0) / 100.0;
        context.save();
        // Moving and sizing cannot fail on numbers, and a frame that was not drawn would only be a dropped one.
        let _ = context.translate(right, down);
        let _ = context.scale(size, size);
        context.set_fill_style_str(&ink);
        context.set_stroke_style_str(&ink);
        context.set_line_cap("round");
        context.set_line_join("round");
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
    fn fixation(&self, target: &Target) -> (f64, f64) {
        let across = self.across(FIXATION);
        let arm = across * BULLS_EYE;
        self.disc(target.ink(), (0.0, 0.0), across);
        self.context.set_fill_style_str(&target.ground().to_string());
        self.context.fill_rect(-across / 2.0, -arm / 2.0, across, arm);
        self.context.fill_rect(-arm / 2.0, -across / 2.0, arm, across);
        self.disc(target.ink(), (0.0, 0.0), arm);
        (0.0, 0.0)
    }

    fn stripes(&self, shown: &Shown) -> (f64, f64) {
        let Program::Stripes(stripes) = self.safe.program() else { return (0.0, 0.0) };
        let ground = stripes.ground();
        self.fill(between(ground, stripes.dark, shown.strength));
        self.context.set_fill_style_str(&between(ground, stripes.light, shown.strength).to_string());
        let (wide, high) = self.half;
        for (from, to) in self.safe.light_stripes(shown) {
            match Axis::of(shown.toward) {
                Axis::Horizontal => self.context.fill_rect(from.0, -high, to.0 - from.0, 2.0 * high),
                Axis::Vertical => self.context.fill_rect(-wide, from.0, 2.0 * wide, to.0 - from.0),
            }
        }
        self.soften(ground, Axis::of(shown.toward));
        (shown.phase, shown.strength)
    }

    /// Both ends of the way the stripes move pass into still grey.
    fn soften(&self, ground: Srgb, axis: Axis) {
        let (wide, high) = self.half;
        let (half, context) = (if axis == Axis::Horizontal { wide } else { high }, &self.context);
        let soft = 2.0 * SOFT * half;
        for end in [-1.0, 1.0] {
            let (edge, inner) = (end * half, end * (half - soft));
            let gradient = match axis {
                Axis::Horizontal => context.create_linear_gradient(edge, 0.0, inner, 0.0),
                Axis::Vertical => context.create_linear_gradient(0.0, edge, 0.0, inner),
            };
            let Srgb { red, green, blue } = ground;
            for (at, opacity) in [(0.0, 1), (1.0, 0)] {
                // Our own colours are always understood.
                let _ = gradient.add_color_stop(at, &format!("rgb({red} {green} {blue} / {opacity})"));
            }
            context.set_fill_style_canvas_gradient(&gradient);
            let from = edge.min(inner);
            match axis {
                Axis::Horizontal => context.fill_rect(from, -high, soft, 2.0 * high),
                Axis::Vertical => context.fill_rect(-wide, from, 2.0 * wide, soft),
            }
        }
    }

    fn disc(&self, ink: Srgb, (right, down): (f64, f64), across: f64) {
        self.context.set_fill_style_str(&ink.to_string());
        self.context.begin_path();
        // A radius is never negative here.
        let _ = self.context.arc(right, down, across / 2.0, 0.0, std::f64::consts::TAU);
        self.context.fill();
    }

    fn fill(&self, colour: Srgb) {
        let (wide, high) = self.half;
        self.context.set_fill_style_str(&colour.to_string());
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
