//! The family's page on a phone: taps and time go to the core's session, and what comes back is put on the screen, heard,
//! and kept. No framework and no rule of its own, so that it is small and starts at once.

mod awake;
mod beat;
mod clock;
mod code;
mod out;
mod page;
mod sound;
mod store;

fn main() {
    page::start();
}
