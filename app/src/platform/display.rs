//! What a page can learn of the display: pixels, zoom, size, and whether less motion is wished.
//!
//! Limits: the true size of a pixel is not told, so a card is laid on the screen once; how often it draws is only seen in
//! frames that were drawn. Pinch zoom is told by the visual viewport, zoom of the page by the pixel ratio.

use gloo_events::EventListener;
use leptos::prelude::window;
use web_sys::{Element, EventTarget};

/// How the page stands on the display.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Display {
    /// Device pixels in a CSS pixel.
    pub pixel_ratio: f64,
    /// Pinch zoom; 1 for none.
    pub zoom: f64,
    /// Width of the page in CSS pixels.
    pub width: f64,
    /// Height of the page in CSS pixels.
    pub height: f64,
}

impl Display {
    /// As it stands now.
    #[must_use]
    pub fn now() -> Display {
        let window = window();
        let side = |told: Result<wasm_bindgen::JsValue, _>| told.ok().and_then(|side| side.as_f64()).unwrap_or(0.0);
        let zoom = window.visual_viewport().map_or(1.0, |viewport| viewport.scale());
        Display {
            pixel_ratio: window.device_pixel_ratio(),
            zoom,
            // Pinch zoom makes some browsers tell the part in sight.
            width: side(window.inner_width()) * if zoom > 1.0 { zoom } else { 1.0 },
            height: side(window.inner_height()) * if zoom > 1.0 { zoom } else { 1.0 },
        }
    }
}

/// Calls back when the page may stand otherwise on the display: turned, resized, zoomed, moved to another one. It lasts as
/// long as the listeners live.
#[must_use]
pub fn on_change(run: impl Fn() + Clone + 'static) -> Vec<EventListener> {
    let window = window();
    let listen = |target: &EventTarget, name: &'static str| {
        let run = run.clone();
        EventListener::new(target, name, move |_| run())
    };
    let mut listeners = vec![listen(&window, "resize"), listen(&window, "orientationchange")];
    listeners.extend(window.visual_viewport().map(|viewport| listen(&viewport, "resize")));
    listeners
}

/// Whether the device was set to show less motion.
#[must_use]
pub fn wants_less_motion() -> bool {
    window().match_media("(prefers-reduced-motion: reduce)").ok().flatten().is_some_and(|query| query.matches())
}

/// Width and height of an element in CSS pixels.
#[must_use]
pub fn size_of(element: &Element) -> (f64, f64) {
    let place = element.get_bounding_client_rect();
    (place.width(), place.height())
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;
    use std::rc::Rc;

    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn the_display_tells_what_the_page_is_laid_out_by() {
        let display = Display::now();
        assert!(display.pixel_ratio > 0.0 && display.zoom == 1.0 && display.width > 0.0 && display.height > 0.0);
    }

    #[wasm_bindgen_test]
    fn a_change_calls_back_until_the_listeners_are_dropped() {
        let calls: Rc<Cell<u32>> = Rc::default();
        let counted = Rc::clone(&calls);
        let listeners = on_change(move || counted.set(counted.get() + 1));
        let tell = || window().dispatch_event(&web_sys::Event::new("resize").expect("constructs")).expect("dispatches");
        tell();
        assert_eq!(calls.get(), 1);
        drop(listeners);
        tell();
        assert_eq!(calls.get(), 1);
    }
}
