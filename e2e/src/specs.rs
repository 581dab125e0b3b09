//! Every spec, in the order they run.

mod boots;
mod harness;
mod installs;
mod offline;
mod policy;

pub use harness::TINY;

use crate::engine::{CHROMIUM, KEEPING, PRINTING};
use crate::spec;
use crate::spec::Spec;
use crate::viewport::TABLET;

/// What must hold for the built site.
pub static SITE: &[Spec] = &[
    spec!("boots", boots::boots),
    spec!("can be installed", installs::installs).on(CHROMIUM),
    spec!("offline: reload", offline::reload),
    spec!("offline: address typed anew", offline::goto),
    spec!("offline: new tab", offline::new_tab),
    spec!("offline: browser restarted", offline::restart).on(KEEPING),
    spec!("policy: stated by header and page", policy::stated),
    spec!("policy: injected script does not run", policy::injected),
];

/// What must hold for the harness itself, on a page of its own.
pub static HARNESS: &[Spec] = &[
    spec!("harness: taps", harness::taps),
    spec!("harness: fields and files", harness::fields),
    spec!("harness: views", harness::views).sized(TABLET),
    spec!("harness: console", harness::console),
    spec!("harness: audit", harness::audit),
    spec!("harness: print", harness::print).on(PRINTING),
    spec!("harness: killed browser", harness::kill).on(KEEPING),
    spec!("harness: server", harness::server),
    spec!("harness: devtools", harness::devtools).on(CHROMIUM),
    spec!("harness: injection is noticed", harness::injection),
    spec!("harness: faults are found", harness::faults),
];
