//! The second module: work that is slow or large, off the page's thread. It is started when first asked for.

#![allow(clippy::needless_pass_by_value, reason = "what changes hands is owned by whoever has it")]

mod jobs;
mod wire;

fn main() {
    wire::listen();
}
