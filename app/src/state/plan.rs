//! The plan of the visit in hand: what is chosen and not signed off yet stays in a row of its own, sealed like the visit.

use leptos::prelude::*;
use sidelight_core::plan::Choice;
use sidelight_core::sheet::{read_draft, write_draft};

use super::App;
use crate::storage::{Change, Key, Kind};

/// Where the choice of a visit lies that is not signed off yet.
pub(super) fn place(visit: &str) -> Key {
    Key::new(Kind::Setting, format!("plan-{visit}"))
}

impl App {
    /// What was chosen for the visit in hand and not signed off; `None` when there is nothing, or nothing readable.
    pub async fn drafted(self) -> Option<Choice> {
        let visit = self.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.id.clone()))?;
        let kept = self.draft.with_untracked(|draft| draft.as_ref().filter(|(id, _)| *id == visit).cloned());
        if let Some((_, choice)) = kept {
            return Some(choice);
        }
        let found = self.store.get_value().get(&[place(&visit)]).await.ok()?;
        let bytes = found.into_iter().next().flatten()?.ok()?;
        read_draft(std::str::from_utf8(&bytes).ok()?)
    }

    /// Keeps what is chosen for the visit in hand, until it is signed off.
    pub fn keep_draft(self, choice: Choice) {
        let Some(visit) = self.changeable().filter(|visit| visit.closed.is_none()) else { return };
        let text = write_draft(&choice);
        self.write([Change::put_of(&visit.person, place(&visit.id), text.into_bytes())]);
        self.draft.set(Some((visit.id, choice)));
    }

    /// Whether something is chosen for the visit in hand that nobody has signed off.
    #[must_use]
    pub fn has_draft(self) -> bool {
        self.current.with(|visit| {
            let id = visit.as_ref().map(|visit| &visit.id);
            self.draft.with(|draft| draft.as_ref().is_some_and(|(of, _)| Some(of) == id))
        })
    }
}
