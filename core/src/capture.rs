//! What is stored: what was asked, seen, not done and decided. Everything else is derived from it.

pub mod addendum;
pub mod answer;
pub mod decision;
pub mod edit;
pub mod entry;
pub mod exchange;
pub mod form;
pub mod frame;
pub mod home;
pub mod ledger;
pub mod record;
pub mod safety;
pub mod showing;
pub mod stop;
pub mod symptoms;
pub mod unread;
pub mod visit;
