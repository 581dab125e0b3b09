//! What screens are made of. A widget draws one kind of field, or one part of every screen; it decides nothing.

pub mod bar;
pub mod beat_bar;
pub mod chips;
pub mod document;
mod draft;
pub mod entry;
pub mod family;
pub mod field;
pub mod figure;
pub mod grade;
pub mod grid;
pub mod more;
pub mod number;
pub mod paced;
pub mod pick;
pub mod qr;
pub mod ratings;
pub mod scan;
pub mod series;
pub mod setup;
pub mod show;
pub mod skip;
pub mod stage;
pub mod strip;
pub mod text_box;
pub mod trials;
