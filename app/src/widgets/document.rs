//! A document on the screen, block by block, as it is printed.

use leptos::prelude::*;
use sidelight_core::document::{Block, Document, Said};

use super::figure::FigureView;
use super::grade::GradeMark;

#[component]
pub fn DocumentView(document: Document) -> impl IntoView {
    document.blocks.into_iter().map(block).collect_view()
}

fn block(block: Block) -> AnyView {
    match block {
        Block::Heading { level: 2, text } => view! { <h2>{text}</h2> }.into_any(),
        Block::Heading { text, .. } => view! { <h3>{text}</h3> }.into_any(),
        Block::Paragraph(said) => view! { <p dir="auto">{said.text}</p> }.into_any(),
        Block::Alert(said) => view! { <p class="alert" dir="auto">{said.text}</p> }.into_any(),
        Block::Graded { grade, headline, details } => view! {
            <article class="graded" data-test="graded">
                <h3 dir="auto">{headline.text}</h3>
                <GradeMark grade />
                {(!details.is_empty()).then(|| view! { <p dir="auto">{sentences(details)}</p> })}
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
    view! {
        <div class="table">
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

fn sentences(details: Vec<Said>) -> String {
    details.into_iter().map(|said| said.text).collect::<Vec<_>>().join(" ")
}
