//! What locking asks of the state: that everything is written, what was in hand, and whether now is no time for it.

use leptos::prelude::*;
use sidelight_core::flow::Step;

use super::App;
use crate::route::Route;
use crate::storage::StorageError;

impl App {
    /// Writes everything that waits to the disk, and returns once it is there.
    pub async fn settle(self) -> Result<(), StorageError> {
        let writer = self.writer.get_value();
        writer.close([]).await
    }

    /// The key of the visit in hand, read once.
    #[must_use]
    pub fn key_in_hand(self) -> Option<String> {
        self.in_hand.get_untracked()
    }

    /// Takes a visit in hand as it was before, without leaving the screen.
    pub async fn take_up(self, key: &str) {
        if self.in_hand.with_untracked(|in_hand| in_hand.as_deref() == Some(key)) {
            return;
        }
        let place = self.listed.with_untracked(|all| all.iter().find(|one| one.key == key).map(|one| one.place()));
        let Some(place) = place else { return };
        let read = match untrack(|| self.read_of(key)) {
            Some(read) => Some(read),
            None => self.fetch(&[place]).await.remove(key),
        };
        let Some(visit) = read.as_ref().and_then(super::Read::visit) else { return };
        self.put_away();
        self.want_person(&visit.person);
        self.in_hand.set(Some(key.to_string()));
        self.current.set(Some(visit.clone()));
    }

    /// Whether a task, or the symptoms after one, of an open visit is in sight.
    #[must_use]
    pub fn in_mid_task(self) -> bool {
        let open = self.current.with_untracked(|visit| visit.as_ref().is_some_and(|visit| visit.closed.is_none()));
        open && self.route.with_untracked(|route| match route {
            Route::Step(slot) => match Step::from_slot(slot) {
                Some(Step::Task(_) | Step::Before | Step::After(_)) => true,
                Some(Step::Frame | Step::Safety | Step::Findings | Step::Decision | Step::Summary) | None => false,
            },
            Route::Stage(task) => task.is_some(),
            _ => false,
        })
    }
}
