//! The family's page: a sheet as a page to read, print and follow, and a whole day at home as a state that taps change.
//!
//! The page is HTML made of our own texts and numbers, escaped. A program that shows it needs no rule of its own: it gives
//! taps and time to a [`Session`] and puts on the screen what comes back.

mod act;
mod course;
mod file;
mod going;
mod html;
mod kept;
mod page;
mod paper;
mod round;
mod screens;
mod session;
mod view;

#[cfg(all(test, not(target_arch = "wasm32")))]
mod properties;
#[cfg(test)]
mod tests;

pub use act::Act;
pub use course::{Course, Hold, Now, Settled, Settling};
pub use file::{Marks, file};
pub use page::{inside, on_paper, page, title};
pub use paper::{Fit, Paper};
pub use round::{Cue, Held, LEAD, LONGEST_GAP, Outcome, Round, Stage};
pub use screens::in_minutes;
pub use session::{Effect, Passed, Session};
pub use view::{Other, View};
