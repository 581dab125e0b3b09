//! Sheets that were signed off, kept with the visit in hand.

use leptos::prelude::*;
use sidelight_core::capture::exchange::Edit;
use sidelight_core::capture::home::{Despite, Given};
use sidelight_core::capture::unread::Unread;
use sidelight_core::plan::SignedOff;
use sidelight_core::sheet::Sheet;

use super::{App, plan};
use crate::storage::Change;

impl App {
    /// Keeps a sheet that was signed off with the visit in hand; the draft it was made from goes. Says whether it was kept.
    pub fn give(self, signed: &SignedOff) -> bool {
        let sheet = Sheet::of(signed);
        let items = signed.choice().items.iter().filter(|item| !item.despite.is_empty());
        let despite = items.map(|item| Despite { exercise: item.exercise.id.to_string(), why: item.despite.clone() });
        let given = Given {
            at: signed.at(),
            by: signed.by().to_string(),
            language: sheet.language.tag().to_string(),
            text: sheet.encode(),
            despite: despite.collect(),
            unread: Unread::default(),
        };
        let kept = self.at_home(Edit::Give(given));
        if let (true, Some(visit)) = (kept, self.current.with_untracked(|visit| visit.as_ref().map(|v| v.id.clone()))) {
            self.write([Change::Delete(plan::place(&visit))]);
            self.draft.set(None);
        }
        kept
    }

    /// The sheet that was given last at the visit in hand.
    #[must_use]
    pub fn given(self) -> Option<Given> {
        self.current.with(|visit| visit.as_ref()?.sheets.last().cloned())
    }
}
