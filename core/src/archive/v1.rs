//! Version 1 of the archive form. It is published and never changes; a later form gets a file of its own beside it.

mod home;
mod parts;
pub(super) mod read;
pub(super) mod shape;
mod stage;
mod word;
pub(super) mod write;
