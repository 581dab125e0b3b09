//! Turns the app into a folder any static host can serve, serves that folder locally, and runs every check.
//!
//! - [`build`]: compile, bind, fingerprint, list for the service worker, write.
//! - [`serve`]: the local server, also used by the end-to-end tests.
//! - [`check`]: everything the continuous integration runs.

pub mod bench;
pub mod build;
pub mod check;
pub mod serve;

mod csp;
mod mime;
mod workspace;
