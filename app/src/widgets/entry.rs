//! A handle on one field of one record of the visit in hand: what a widget reads and changes.

use leptos::prelude::*;
use sidelight_core::capture::answer::{Answer, Answers};
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::form::Field;

use crate::memo::memo;
use crate::state::App;

/// One field of one record. Copies point at the same field.
#[derive(Clone, Copy)]
pub struct Entry {
    /// The program's state.
    pub app: App,
    /// The field.
    pub field: &'static Field,
    slot: StoredValue<String>,
}

impl Entry {
    /// The field `field` of the record in `slot`.
    #[must_use]
    pub fn new(slot: &str, field: &'static Field) -> Entry {
        Entry { app: App::get(), field, slot: StoredValue::new(slot.to_string()) }
    }

    /// A value read from the record's answers; it is told again only when it changes.
    pub fn read<T>(self, read: impl Fn(&Answers) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        self.read_boxed(Box::new(read))
    }

    fn read_boxed<T>(self, read: Box<dyn Fn(&Answers) -> T + Send + Sync>) -> Memo<T>
    where
        T: PartialEq + Send + Sync + 'static,
    {
        memo(move |_| {
            self.app.current.with(|visit| {
                let record = visit.as_ref().and_then(|visit| self.slot.with_value(|slot| visit.record(slot)));
                match record {
                    Some(record) => read(&record.answers),
                    None => read(&Answers::default()),
                }
            })
        })
    }

    /// Sets or takes away the whole answer.
    pub fn set(self, answer: Option<Answer>) {
        self.edit(Edit::Answer(self.field.key.to_string(), answer));
    }

    /// Makes any change to the record.
    pub fn edit(self, edit: Edit) {
        self.slot.with_value(|slot| self.app.edit(slot, edit));
    }

    /// The slot of the record.
    #[must_use]
    pub fn slot(self) -> String {
        self.slot.get_value()
    }

    /// The field's key as an owned string, for edits.
    #[must_use]
    pub fn key(self) -> String {
        self.field.key.to_string()
    }

    /// A name unique on the page, for groups and labels.
    #[must_use]
    pub fn name(self) -> String {
        self.slot.with_value(|slot| format!("{}-{}", slot.replace('.', "-"), self.field.key))
    }
}
