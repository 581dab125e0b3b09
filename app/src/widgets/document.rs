//! A document on the screen, block by block, as it is printed.

use leptos::prelude::*;
use sidelight_core::document::{Block, Document, Said};
use sidelight_core::figure::Figure;

use super::figure::FigureView;
use super::grade::GradeMark;

/// With `fold`, only the first sentence of a finding stands in sight and the rest opens in place.
#[component]
pub fn DocumentView(document: Document, #[prop(optional)] fold: bool) -> impl IntoView {
    let mut views = Vec::new();
    let mut figures = Vec::new();
    for each in document.blocks {
        match each {
            Block::Figure(figure) => figures.push(figure),
            other => {
                views.extend(side_by_side(std::mem::take(&mut figures)));
                views.push(block(other, fold));
            }
        }
    }
    views.extend(side_by_side(figures));
    views
}

/// Drawings that follow each other share the width there is.
fn side_by_side(figures: Vec<Figure>) -> Option<AnyView> {
    if figures.is_empty() {
        return None;
    }
    let figures = figures.into_iter().map(|figure| view! { <FigureView figure /> }).collect_view();
    Some(view! { <div class="figures">{figures}</div> }.into_any())
}

fn block(block: Block, fold: bool) -> AnyView {
    match block {
        Block::Heading { level: 2, text } => view! { <h2>{text}</h2> }.into_any(),
        Block::Heading { text, .. } => view! { <h3>{text}</h3> }.into_any(),
        Block::Paragraph(said) => view! { <p dir="auto">{said.text}</p> }.into_any(),
        Block::Alert(said) => view! { <p class="alert" dir="auto">{said.text}</p> }.into_any(),
        Block::Graded { grade, headline, details } => view! {
            <article class="graded" data-test="graded">
                <h3 dir="auto">{headline.text}</h3>
                <GradeMark grade />
                {told(details, fold, say!("Compared with what, how sure"))}
            </article>
        }
        .into_any(),
        Block::Reading { level, headline, details } => view! {
            <article class="graded" data-test="reading">
                <h3 dir="auto">{headline.text}</h3>
                <p class="level">{capital(&level.in_words())}</p>
                {told(details, fold, say!("What else, how sure"))}
            </article>
        }
        .into_any(),
        Block::Folded { headline, details } => view! {
            <article class="graded" data-test="folded">
                <h3 dir="auto">{headline.text}</h3>
                {told(details, fold, say!("Compared with what, how sure"))}
            </article>
        }
        .into_any(),
        Block::List(items) => {
            let items = items.into_iter().map(|said| view! { <li dir="auto">{said.text}</li> });
            view! { <ul>{items.collect_view()}</ul> }.into_any()
        }
        Block::Facts(facts) => {
            let facts = facts.into_iter().map(|(name, said)| {
                view! {
                    <dt>{name}</dt>
                    <dd dir="auto">{said.text}</dd>
                }
            });
            view! { <dl class="facts">{facts.collect_view()}</dl> }.into_any()
        }
        Block::Table { caption, head, rows } => table(caption, head, rows),
        Block::Figure(figure) => view! { <FigureView figure /> }.into_any(),
        Block::Note(said) => view! { <p class="note" dir="auto">{said.text}</p> }.into_any(),
    }
}

fn table(caption: String, head: Vec<String>, rows: Vec<Vec<String>>) -> AnyView {
    let head = head.into_iter().map(|cell| view! { <th scope="col">{cell}</th> }).collect_view();
    let row = |cells: Vec<String>| {
        let mut cells = cells.into_iter();
        let first = cells.next().map(|cell| view! { <th scope="row">{cell}</th> });
        view! {
            <tr>
                {first}
                {cells.map(|cell| view! { <td>{cell}</td> }).collect_view()}
            </tr>
        }
    };
    let name = caption.clone();
    view! {
        <div class="table" tabindex="0" role="region" aria-label=name>
            <table>
                <caption>{caption}</caption>
                <thead>
                    <tr>{head}</tr>
                </thead>
                <tbody>{rows.into_iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}

fn told(mut details: Vec<Said>, fold: bool, rest_is: &'static str) -> AnyView {
    if !fold || details.len() < 2 {
        return paragraph(details);
    }
    let rest = details.split_off(1);
    view! {
        {paragraph(details)}
        <details class="why" data-test="why">
            <summary>{rest_is}</summary>
            {paragraph(rest)}
        </details>
    }
    .into_any()
}

fn paragraph(details: Vec<Said>) -> AnyView {
    if details.is_empty() {
        return ().into_any();
    }
    let text = details.into_iter().map(|said| said.text).collect::<Vec<_>>().join(" ");
    view! { <p dir="auto">{text}</p> }.into_any()
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
