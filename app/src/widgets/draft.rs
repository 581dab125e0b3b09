//! A number while it is typed: kept soon after the last key, since a browser may be killed before its box is left.

use std::time::Duration;

use leptos::prelude::*;
use sidelight_core::quantity::{Quantity, Refused};

/// From the last key to the keeping of a number, well within the second that may be lost.
const PAUSE: Duration = Duration::from_millis(300);

/// What is being typed into the box of one number. What cannot be true of it is never kept, not even a part of it: after
/// "400" of at most 100 there stands what stood before, not the 40 that was passed on the way.
#[derive(Clone, Copy)]
pub struct Draft {
    quantity: &'static Quantity,
    value: Signal<Option<f64>>,
    keep: Callback<Option<f64>>,
    text: RwSignal<Option<String>>,
    refused: RwSignal<Option<String>>,
    /// What was kept when the typing began.
    before: StoredValue<Option<f64>>,
    /// What stood there then, or was kept by this box since.
    ours: StoredValue<Option<f64>>,
    pause: StoredValue<Option<TimeoutHandle>>,
}

impl Draft {
    /// An empty draft of the number `value`, which `keep` changes or takes away.
    pub fn new(quantity: &'static Quantity, value: Signal<Option<f64>>, keep: Callback<Option<f64>>) -> Draft {
        let draft = Draft {
            quantity,
            value,
            keep,
            text: RwSignal::new(None),
            refused: RwSignal::new(None),
            before: StoredValue::new(None),
            ours: StoredValue::new(None),
            pause: StoredValue::new(None),
        };
        Effect::new(move |_| draft.give_way());
        on_cleanup(move || draft.wait_no_more());
        draft
    }

    /// What the box shows.
    pub fn shown(self) -> String {
        let kept = || self.value.get().map(|number| self.quantity.digits(number)).unwrap_or_default();
        self.text.get().unwrap_or_else(kept)
    }

    /// Why what was typed is not kept, once the box was left.
    pub fn refused(self) -> Option<String> {
        self.refused.get()
    }

    /// A key changed the text of the box.
    pub fn typed(self, text: String) {
        self.wait_no_more();
        if self.text.with_untracked(Option::is_none) {
            let kept = self.value.get_untracked();
            self.before.set_value(kept);
            self.ours.set_value(kept);
        }
        self.text.set(Some(text.clone()));
        let soon = move || match self.read(&text) {
            Ok(number) => {
                self.refused.set(None);
                self.put(number);
            }
            // It may be half a number yet, so nothing is said.
            Err(_) => self.put(self.before.get_value()),
        };
        self.pause.set_value(set_timeout_with_handle(soon, PAUSE).ok());
    }

    /// The box was left with this text.
    pub fn left(self, text: &str) {
        self.wait_no_more();
        match self.read(text) {
            Ok(number) => {
                self.put(number);
                self.refused.set(None);
                // From here on it is shown as it was kept, with its decimals; what the place of the box would not take stays for
                // its writer to put right.
                if self.value.get_untracked() == number {
                    self.text.set(None);
                }
            }
            Err(why) => {
                if self.text.with_untracked(Option::is_some) {
                    self.put(self.before.get_value());
                }
                self.refused.set(Some(why.to_string()));
            }
        }
    }

    fn read(self, text: &str) -> Result<Option<f64>, Refused> {
        if text.trim().is_empty() { Ok(None) } else { self.quantity.parse(text).map(Some) }
    }

    fn put(self, number: Option<f64>) {
        self.ours.set_value(number);
        if self.value.get_untracked() != number {
            self.keep.run(number);
        }
    }

    /// The number was set by other means, such as a ruler, or is that of the next trial: the box shows that.
    fn give_way(self) {
        let now = self.value.get();
        if self.text.with_untracked(Option::is_some) && now != self.ours.get_value() {
            self.text.set(None);
            self.refused.set(None);
        }
    }

    fn wait_no_more(self) {
        if let Some(Some(pause)) = self.pause.try_update_value(Option::take) {
            pause.clear();
        }
    }
}
