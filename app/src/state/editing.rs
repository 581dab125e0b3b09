//! Changes of the visit in hand: one small edit at a time, each written before it shows, each to be taken back.

use leptos::prelude::*;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::edit::{self, Edit, Undo};
use sidelight_core::capture::exchange;
use sidelight_core::capture::record::State;
use sidelight_core::capture::visit::Visit;
use sidelight_core::flow::{self, Step};

use super::{App, now};
use crate::route::Route;

impl App {
    /// Changes the visit in hand. The write is issued before the change shows.
    pub fn edit(self, slot: &str, edit: Edit) {
        let Some(mut visit) = self.changeable() else { return };
        let Some(form) = flow::form_of(slot) else { return };
        let typing = matches!(&edit, Edit::Answer(_, Some(Answer::Text(_))));
        match edit::apply(&mut visit, form, slot, edit, now()) {
            Ok(undo) => {
                self.remember(slot, undo, typing);
                self.said.set(None);
                self.commit(visit);
            }
            Err(refused) => self.said.set(Some(refused.to_string())),
        }
    }

    /// Undoes the last change to this slot.
    pub fn undo(self, slot: &str) {
        let undo = self.undo.try_update(|all| {
            let at = all.iter().rposition(|(of, _)| of == slot)?;
            Some(all.remove(at).1)
        });
        let Some(undo) = undo.flatten() else { return };
        let Some(mut visit) = self.changeable() else { return };
        edit::take_back(&mut visit, undo);
        self.said.set(None);
        self.commit(visit);
    }

    /// Whether a change to this slot can be undone.
    #[must_use]
    pub fn can_undo(self, slot: &str) -> bool {
        self.undo.with(|all| all.iter().any(|(of, _)| of == slot))
    }

    /// Gives a sheet at the visit in hand, takes in a log of an earlier one, or takes the last of either back; whether it
    /// was done. What was refused is said.
    pub fn at_home(self, edit: exchange::Edit) -> bool {
        let Some(mut visit) = self.changeable() else { return false };
        match exchange::apply(&mut visit, edit) {
            Ok(()) => {
                self.said.set(None);
                self.commit(visit);
                true
            }
            Err(refused) => {
                self.said.set(Some(refused.to_string()));
                false
            }
        }
    }

    /// Ends a step's record and shows the next step.
    pub fn end(self, step: &Step, state: State) {
        self.mark(&step.slot(), state);
        self.go_on_from(step);
    }

    /// Marks a record as done, skipped or open again; this is not among the changes that "undo" takes back.
    pub fn mark(self, slot: &str, state: State) {
        let Some(mut visit) = self.changeable() else { return };
        let Some(form) = flow::form_of(slot) else { return };
        match edit::apply(&mut visit, form, slot, Edit::State(state), now()) {
            Ok(_) => self.commit(visit),
            Err(refused) => self.said.set(Some(refused.to_string())),
        }
    }

    /// Shows the step behind this one.
    pub fn go_on_from(self, step: &Step) {
        let next = untrack(|| self.with_context(|context| flow::next(context, step)));
        if let Some(next) = next {
            self.go(next);
        }
    }

    /// Shows a step of the visit in hand and remembers it for a restart.
    pub fn go(self, step: Step) {
        let slot = step.slot();
        if let Some(mut visit) = self.changeable().filter(|visit| visit.closed.is_none() && visit.at != slot) {
            visit.at.clone_from(&slot);
            self.commit(visit);
        }
        self.show(Route::Step(slot));
    }

    /// A copy of the visit in hand to change; `None` while another tab records or the visit is being closed.
    pub(super) fn changeable(self) -> Option<Visit> {
        if self.elsewhere.get_untracked() || self.closing.get_untracked() {
            return None;
        }
        self.current.get_untracked()
    }

    pub(super) fn commit(self, visit: Visit) {
        self.write(super::put_visit(&visit));
        self.list(&visit.id, &visit);
        self.current.set(Some(visit));
    }

    fn remember(self, slot: &str, undo: Undo, typing: bool) {
        self.undo.update(|all| {
            // A word is undone as a whole, not letter by letter.
            let goes_on = typing && all.last().is_some_and(|(of, last)| of == slot && last.was_typing());
            if !goes_on {
                all.push((slot.to_string(), undo.typed(typing)));
            }
        });
    }
}
