//! Memos as one piece of code for each type of value: with the framework's own constructor it is one for each memo.

use leptos::prelude::*;

/// What is worked out when something it reads has changed, and tells others only when it comes out different.
pub fn memo<T: PartialEq + Send + Sync + 'static>(of: impl Fn(Option<&T>) -> T + Send + Sync + 'static) -> Memo<T> {
    boxed(Box::new(of))
}

/// What a memo works out, from what it was before.
type Work<T> = Box<dyn Fn(Option<&T>) -> T + Send + Sync>;

fn boxed<T: PartialEq + Send + Sync + 'static>(of: Work<T>) -> Memo<T> {
    Memo::new(of)
}
