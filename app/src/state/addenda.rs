//! Corrections of closed visits.

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::unread::Unread;

use super::{App, ELSEWHERE, PROGRAM, now};
use crate::platform::ids;
use crate::storage::{Change, Key, Kind};
use crate::words;

impl App {
    /// Keeps a correction of the closed visit in hand, and waits for the disk. The visit itself stays as it is.
    pub async fn correct(self, text: &str) -> Result<(), String> {
        if self.elsewhere.get_untracked() {
            return Err(words::of(ELSEWHERE).to_string());
        }
        let visit = self.current.get_untracked().filter(|visit| visit.closed.is_some());
        let visit = visit.ok_or(say!("Only a closed visit is corrected; an open one can be changed."))?;
        let addendum = Addendum {
            id: ids::uuid(),
            visit: visit.id,
            person: visit.person,
            written: now(),
            text: text.to_string(),
            program: PROGRAM.to_string(),
            unread: Unread::default(),
        };
        let key = Key::new(Kind::Addendum, &addendum.id);
        let put = Change::put_of(&addendum.person, key, archive::write_addendum(&addendum));
        let writer = self.writer.get_value();
        writer.close([put]).await.map_err(|error| error.to_string())?;
        self.addenda.update(|all| all.push(addendum));
        Ok(())
    }
}
