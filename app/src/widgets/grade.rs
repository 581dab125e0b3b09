//! How a finding stands to a range, by shape and word, never by colour alone.

use leptos::prelude::*;
use sidelight_core::finding::Grade;

use crate::words;

#[component]
pub fn GradeMark(grade: Grade, #[prop(into, optional)] word: Option<String>) -> impl IntoView {
    let word = word.unwrap_or_else(|| words::of(grade.word()).to_string());
    let shape = match grade {
        Grade::NoRange => view! { <path d="M3 8 H13" class="mark-line" /> }.into_any(),
        Grade::WithinRange => view! { <circle cx="8" cy="8" r="6" class="mark-line" /> }.into_any(),
        Grade::NearLimit => view! {
            <circle cx="8" cy="8" r="6" class="mark-line" />
            <path d="M8 2 A6 6 0 0 1 8 14 Z" class="mark-fill" />
        }
        .into_any(),
        Grade::OutsideRange => view! { <path d="M8 1 L15 8 L8 15 L1 8 Z" class="mark-fill" /> }.into_any(),
        Grade::Urgent => view! { <path d="M5 1 H11 L15 5 V11 L11 15 H5 L1 11 V5 Z" class="mark-stop" /> }.into_any(),
    };
    view! {
        <span class="grade" data-grade=name(grade)>
            <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">{shape}</svg>
            {word}
        </span>
    }
}

fn name(grade: Grade) -> &'static str {
    match grade {
        Grade::NoRange => "recorded",
        Grade::WithinRange => "within",
        Grade::NearLimit => "near",
        Grade::OutsideRange => "outside",
        Grade::Urgent => "urgent",
    }
}
