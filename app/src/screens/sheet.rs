//! The sheet that was signed off, to be given: as a code, a link, a file or on paper. Nothing is sent by itself.

mod code;
mod given;
mod hand_out;
mod paper;

use leptos::prelude::*;
use sidelight_core::flow::Step;
use sidelight_core::sheet::Sheet;

use self::code::Code;
use self::given::SignedBy;
use self::hand_out::{FileOut, LinkOut, send};
use self::paper::Paper;
use crate::memo::memo;
use crate::platform::{share, sheet_file};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;

#[component]
pub fn SheetScreen() -> impl IntoView {
    let app = App::get();
    let Some(given) = untrack(|| app.given()) else { return view! { <Nothing /> }.into_any() };
    let closed = app.is_closed_now();
    let back = move || if closed { app.show(Route::Step("summary".into())) } else { app.go(Step::Decision) };
    let person = memo(move |_| app.person().map(|person| person.label).unwrap_or_default());
    let sheet = Sheet::decode(&given.text);
    let inside = match &sheet {
        Ok(sheet) => {
            let link = sheet.link(&sheet_file::address());
            view! {
                <p class="soft no-print">{say!("No name is in it. Give it in one of these ways; the family can open it without any account.")}</p>
                <Code link=link.clone() />
                <LinkOut link />
                <FileOut sheet=sheet.clone() />
                <Paper sheet=sheet.clone() />
            }
            .into_any()
        }
        Err(_) => view! { <p class="notice">{say!("This sheet was made by a newer version of Sidelight and cannot be shown here.")}</p> }.into_any(),
    };
    let link = sheet.as_ref().ok().map(|sheet| sheet.link(&sheet_file::address()));
    view! {
        <main class="screen" data-screen="sheet" data-closed=closed.to_string()>
            <Head title=say!("Sheet for home").to_string() place=Signal::derive(move || person.get()) back=(say!("Back"), Callback::new(move |()| back())) />
            <div class="body sheet">
                {inside}
                <SignedBy given />
            </div>
            <footer>
                {(!closed).then(|| view! {
                    <button type="button" class="btn quiet" data-test="change-plan" on:click=move |_| app.show(Route::Plan)>{say!("Change the plan")}</button>
                })}
                {closed.then(|| view! {
                    <button type="button" class="btn quiet" data-test="home" on:click=move |_| app.show(Route::Home)>{say!("To the start")}</button>
                })}
                {link.map(|link| view! {
                    <button type="button" class="btn main" data-test="share-link" on:click=move |_| send(app, link.clone())>
                        {if share::available() { say!("Share the link") } else { say!("Copy the link") }}
                    </button>
                })}
            </footer>
        </main>
    }
    .into_any()
}

#[component]
fn Nothing() -> impl IntoView {
    let app = App::get();
    view! {
        <main class="screen" data-screen="no-sheet">
            <Head title=say!("Sheet for home").to_string() />
            <div class="body">
                <p>{say!("No sheet was signed off at this visit.")}</p>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="home" on:click=move |_| app.show(Route::Home)>{say!("To the start")}</button>
            </footer>
        </main>
    }
}
