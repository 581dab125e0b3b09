//! Calls back once for every frame the display draws, with the time the browser gives that frame.
//!
//! Limits: the time may be coarsened to 1 ms; a hidden page gets no frames; a phone that saves power draws 30 a second. What
//! is drawn is seen one to three frames later, which no page can learn.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use leptos::prelude::window;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;

/// Frames being called; dropped, they end.
pub struct Frames {
    going: Rc<Going>,
}

struct Going {
    asked: Cell<Option<i32>>,
    ended: Cell<bool>,
    call: RefCell<Option<Call>>,
}

type Call = Closure<dyn FnMut(f64)>;

impl Frames {
    /// Calls `on_frame` with the time of each frame, in milliseconds of the steady clock. Dropping this from within it is fine.
    #[must_use]
    pub fn each(mut on_frame: impl FnMut(f64) + 'static) -> Frames {
        let going = Rc::new(Going { asked: Cell::new(None), ended: Cell::new(false), call: RefCell::new(None) });
        let held = Rc::downgrade(&going);
        let call = Closure::new(move |time: f64| {
            let Some(going) = held.upgrade().filter(|going| !going.ended.get()) else { return };
            // The next is asked for first, so that a slow frame does not push it back.
            going.ask();
            on_frame(time);
        });
        going.call.replace(Some(call));
        going.ask();
        Frames { going }
    }
}

impl Going {
    fn ask(&self) {
        if let Some(call) = self.call.borrow().as_ref() {
            // Without the answer there are no frames, which those who count them notice.
            self.asked.set(window().request_animation_frame(call.as_ref().unchecked_ref()).ok());
        }
    }
}

impl Drop for Frames {
    fn drop(&mut self) {
        self.going.ended.set(true);
        if let Some(asked) = self.going.asked.take() {
            let _ = window().cancel_animation_frame(asked);
        }
        // A closure that is dropped in the middle of its own call is freed once that call is over.
        self.going.call.replace(None);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use gloo_timers::future::TimeoutFuture;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn frames_come_in_order_until_they_are_dropped() {
        let times: Rc<RefCell<Vec<f64>>> = Rc::default();
        let noted = Rc::clone(&times);
        let frames = Frames::each(move |time| noted.borrow_mut().push(time));
        TimeoutFuture::new(400).await;
        drop(frames);
        let seen = times.borrow().len();
        assert!(seen > 3 && times.borrow().windows(2).all(|pair| pair[0] < pair[1]), "{:?}", times.borrow());
        TimeoutFuture::new(150).await;
        assert_eq!(times.borrow().len(), seen);
    }

    #[wasm_bindgen_test]
    async fn they_can_be_dropped_from_within() {
        let slot: Rc<RefCell<Option<Frames>>> = Rc::default();
        let calls: Rc<Cell<u32>> = Rc::default();
        let (inside, counted) = (Rc::clone(&slot), Rc::clone(&calls));
        let frames = Frames::each(move |_| {
            counted.set(counted.get() + 1);
            inside.replace(None);
        });
        slot.replace(Some(frames));
        TimeoutFuture::new(300).await;
        assert_eq!(calls.get(), 1);
    }
}
