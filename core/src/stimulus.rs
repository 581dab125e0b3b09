//! What the eyes follow on a screen: its geometry, its programs as pure functions of time, and the guard that lets a
//! program through to be drawn.
//!
//! A [`program::Program`] says where the target stands at a time, in degrees; a [`screen::Screen`] says where that is in
//! millimetres and pixels; [`safety::check`] makes of both a [`safety::Safe`], and only that is drawn. A
//! [`run::Frames`] counts what the display really showed.

pub mod beat;
pub mod colour;
mod draw;
pub mod evidence;
pub mod program;
pub mod run;
pub mod safety;
pub mod screen;
pub mod target;
