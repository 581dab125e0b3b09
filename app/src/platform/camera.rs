//! The rear camera as grey pictures, for codes. It is asked for on a tap only, and it stops when this value is dropped.
//!
//! Limits: needs a secure address; a page inside another one, some installed programs on iOS before 14.3, and devices
//! without a camera have none. The user may refuse, and then only the browser's own settings can allow it again.

use std::fmt;

use js_sys::{Object, Reflect};
use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    CanvasRenderingContext2d, DomException, HtmlCanvasElement, HtmlVideoElement, MediaDevices, MediaStream,
    MediaStreamConstraints, MediaStreamTrack,
};

/// Longest side of a picture, in pixels: enough for a code that fills a third of it, and quick to read.
const LONGEST: u32 = 720;

/// Why there is no picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// The user or the browser said no.
    Denied,
    /// There is no camera.
    Absent,
    /// It is there and gives no picture, as when another program has it.
    Busy,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Refused::Denied => {
                say!("The camera was not allowed. Type or paste instead, or allow it in the browser's settings for this page.")
            }
            Refused::Absent => say!("No camera was found here. Type or paste instead."),
            Refused::Busy => say!("The camera gave no picture. Close other programs that use it, or type or paste instead."),
        })
    }
}

/// A running camera.
pub struct Camera {
    stream: MediaStream,
    video: HtmlVideoElement,
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
}

impl Camera {
    /// Starts it and shows its picture in `video`.
    pub async fn start(video: HtmlVideoElement) -> Result<Camera, Refused> {
        let devices = devices().ok_or(Refused::Absent)?;
        let constraints = MediaStreamConstraints::new();
        constraints.set_video(&rear());
        let asked = devices.get_user_media_with_constraints(&constraints).map_err(|error| refused(&error))?;
        let stream: MediaStream = JsFuture::from(asked).await.map_err(|error| refused(&error))?.unchecked_into();
        let canvas = document().create_element("canvas").map_err(|_| Refused::Busy)?;
        let canvas: HtmlCanvasElement = canvas.unchecked_into();
        let context = drawing(&canvas).ok_or(Refused::Busy)?;
        // From here on dropping the value stops the camera.
        let camera = Camera { stream, video, canvas, context };
        camera.video.set_src_object(Some(&camera.stream));
        let playing = camera.video.play().map_err(|_| Refused::Busy)?;
        JsFuture::from(playing).await.map_err(|_| Refused::Busy)?;
        Ok(camera)
    }

    /// The picture of this moment: width, height, and one byte of grey a pixel. None before the first one.
    pub fn grey(&self) -> Option<(u32, u32, Vec<u8>)> {
        let (width, height) = scaled(self.video.video_width(), self.video.video_height())?;
        self.canvas.set_width(width);
        self.canvas.set_height(height);
        let (w, h) = (f64::from(width), f64::from(height));
        self.context.draw_image_with_html_video_element_and_dw_and_dh(&self.video, 0.0, 0.0, w, h).ok()?;
        let picture = self.context.get_image_data(0.0, 0.0, w, h).ok()?;
        Some((width, height, grey(&picture.data().0)))
    }
}

impl Drop for Camera {
    fn drop(&mut self) {
        for track in self.stream.get_tracks() {
            track.unchecked_into::<MediaStreamTrack>().stop();
        }
        self.video.set_src_object(None);
    }
}

fn devices() -> Option<MediaDevices> {
    let devices = Reflect::get(&window().navigator(), &"mediaDevices".into()).ok()?;
    devices.is_object().then(|| devices.unchecked_into())
}

/// The camera that looks away from the user where there are two.
fn rear() -> JsValue {
    let ideal = |value: JsValue| {
        let wish = Object::new();
        let _ = Reflect::set(&wish, &"ideal".into(), &value);
        wish
    };
    let wishes = Object::new();
    let _ = Reflect::set(&wishes, &"facingMode".into(), &ideal("environment".into()));
    let _ = Reflect::set(&wishes, &"width".into(), &ideal(1280.into()));
    wishes.into()
}

/// Pictures are read often, so the browser is to keep them where that is quick.
fn drawing(canvas: &HtmlCanvasElement) -> Option<CanvasRenderingContext2d> {
    let options = Object::new();
    let _ = Reflect::set(&options, &"willReadFrequently".into(), &true.into());
    canvas.get_context_with_context_options("2d", &options).ok().flatten().map(JsCast::unchecked_into)
}

fn scaled(width: u32, height: u32) -> Option<(u32, u32)> {
    let longest = width.max(height);
    if width == 0 || height == 0 {
        return None;
    }
    let to = longest.min(LONGEST);
    Some(((width * to / longest).max(1), (height * to / longest).max(1)))
}

/// Brightness by Rec. 601: 0.299 red, 0.587 green, 0.114 blue, in parts of 256.
fn grey(pixels: &[u8]) -> Vec<u8> {
    let brightness = |pixel: &[u8]| {
        let [red, green, blue] = [pixel[0], pixel[1], pixel[2]].map(u32::from);
        u8::try_from((77 * red + 150 * green + 29 * blue) >> 8).unwrap_or(u8::MAX)
    };
    pixels.chunks_exact(4).map(brightness).collect()
}

fn refused(error: &JsValue) -> Refused {
    match error.dyn_ref::<DomException>().map(DomException::name).as_deref() {
        Some("NotAllowedError" | "SecurityError") => Refused::Denied,
        Some("NotFoundError" | "OverconstrainedError") => Refused::Absent,
        Some(_) | None => Refused::Busy,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn pictures_are_scaled_down_and_never_up() {
        assert_eq!(scaled(1920, 1080), Some((720, 405)));
        assert_eq!(scaled(1080, 1920), Some((405, 720)));
        assert_eq!(scaled(320, 240), Some((320, 240)));
        assert_eq!(scaled(0, 0), None);
        assert_eq!(scaled(10_000, 1), Some((720, 1)));
    }

    #[wasm_bindgen_test]
    fn grey_is_the_brightness_of_the_three_colours() {
        // 150/256 of 255 is 149.4, 77/256 is 76.7, 29/256 is 28.9; together they are white again.
        let pixels = [255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255, 255, 255, 255, 0, 0, 0, 0, 255];
        assert_eq!(grey(&pixels), [76, 149, 28, 255, 0]);
    }

    #[wasm_bindgen_test]
    fn a_refusal_is_told_from_a_missing_camera() {
        let thrown = |name: &str| refused(&DomException::new_with_message_and_name("", name).expect("constructs"));
        assert_eq!(thrown("NotAllowedError"), Refused::Denied);
        assert_eq!(thrown("NotFoundError"), Refused::Absent);
        assert_eq!(thrown("NotReadableError"), Refused::Busy);
    }
}
