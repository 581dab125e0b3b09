//! The plan for home: what the findings speak for and what speaks against it, the practitioner's choice, and the sign-off.

mod advised;
mod card;
mod chosen;
mod desk;
mod dose;
mod evidence;
mod limits;
mod others;
mod preview;

use leptos::prelude::*;
use sidelight_core::catalogue::Language;
use sidelight_core::flow::Step;
use sidelight_core::plan::{Choice, NotYet};

use self::advised::AdviceList;
use self::chosen::Chosen;
use self::desk::Desk;
use self::limits::SheetLimits;
use self::others::Others;
use self::preview::Preview;
use crate::memo::memo;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

/// Longest name or initials of whoever signs off.
const LONGEST: usize = 60;

#[component]
pub fn PlanScreen() -> impl IntoView {
    let app = App::get();
    let there = app.current.with_untracked(Option::is_some);
    if !there || app.is_closed_now() {
        return view! { <Nothing closed=there /> }.into_any();
    }
    let desk = RwSignal::new(None::<Desk>);
    let owner = Owner::current();
    leptos::task::spawn_local(async move {
        let drafted = app.drafted().await;
        if desk.is_disposed() {
            return;
        }
        // Signals made here belong to the screen, not to the task that waited for the store.
        let made = owner.map(|owner| owner.with(|| Desk::new(app, drafted)));
        desk.set(made);
    });
    view! { {move || desk.get().map(|desk| view! { <Open desk /> })} }.into_any()
}

#[component]
fn Open(desk: Desk) -> impl IntoView {
    let app = desk.app;
    let back = Callback::new(move |()| app.go(Step::Decision));
    let name = RwSignal::new(String::new());
    let person = memo(move |_| app.person().map(|person| person.label).unwrap_or_default());
    let sign = move |_| desk.sign_off(&name.get_untracked());
    let held = move || desk.plan.with(|plan| plan.held.clone());
    let any = move || desk.plan.with(|plan| !plan.proposed.is_empty() || !plan.advice.is_empty());
    view! {
        <main class="screen" data-screen="plan">
            <Head title=say!("Plan for home").to_string() place=Signal::derive(move || person.get()) back=(say!("Back to the decision"), back) leave=true />
            <div class="body plan">
                <Show when=move || held().is_some()>
                    <div class="alert" id="not-yet-held" tabindex="-1" data-test="held">
                        <p>{say!("No exercises for now")}</p>
                        <p class="held-why">{move || held().map(|why| words::sentence(&why))}</p>
                        <p class="held-why">{say!("Advice can be given all the same.")}</p>
                    </div>
                </Show>
                <Remarks desk />
                <h2>{say!("On the sheet")}</h2>
                <Show when=any>
                    <button type="button" class="btn wide" data-test="add-proposed" on:click=move |_| desk.add_proposed()>
                        {say!("Add what the findings speak for")}
                    </button>
                </Show>
                <Refusal desk id="not-yet-list" on=|not_yet| matches!(not_yet, NotYet::Nothing | NotYet::TooMany) />
                <Chosen desk />
                <Others desk />
                <AdviceList desk />
                <SheetLimits desk />
                <Preview desk />
                <ChoiceRemarks desk />
                <h2>{say!("Sign off")}</h2>
                <p class="soft">{say!("Nothing leaves this device by itself. Signing off keeps the sheet with the visit; giving it comes after.")}</p>
                <TextBox id="signed-by" label=say!("Your name or initials") help=say!("It stays in the practice.") text=name max=LONGEST refused_by="not-yet-nobody" />
                <Refusal desk id="not-yet-nobody" on=|not_yet| matches!(not_yet, NotYet::Nobody) />
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="back-to-decision" on:click=move |_| back.run(())>{say!("Later")}</button>
                <button type="button" class="btn main" data-test="sign-off" on:click=sign>{say!("Sign off")}</button>
            </footer>
        </main>
    }
}

/// The ways from the visit to its plan and to the sheet that was given.
#[component]
pub fn ToPlan() -> impl IntoView {
    let app = App::get();
    view! {
        <div class="ways">
            <Show when=move || !app.is_closed()>
                <button type="button" class="btn wide" data-test="to-plan" on:click=move |_| app.show(Route::Plan)>
                    {say!("Exercises and advice for home")}
                    <Show when=move || app.has_draft()>
                        <small>{say!("begun, not signed off")}</small>
                    </Show>
                </button>
            </Show>
            <Show when=move || app.given().is_some()>
                <button type="button" class="btn wide" data-test="to-sheet" on:click=move |_| app.show(Route::Sheet)>
                    {say!("The sheet that was given")}
                </button>
            </Show>
        </div>
    }
}

/// Why it is not signed off, where it belongs.
#[component]
fn Refusal(desk: Desk, id: &'static str, on: fn(&NotYet) -> bool) -> impl IntoView {
    let said =
        move || desk.not_yet.with(|not_yet| not_yet.as_ref().filter(|not_yet| on(not_yet)).map(NotYet::to_string));
    view! { <p class="refused" id=id tabindex="-1" role="alert" data-test=id>{said}</p> }
}

/// What to keep in mind about the findings.
#[component]
fn Remarks(desk: Desk) -> impl IntoView {
    let remarks = memo(move |_| desk.plan.with(|plan| plan.remarks.clone()));
    view! { <Keep remarks title=say!("Keep in mind") test="remarks" /> }
}

/// The same about the choice. It stands below everything that can be chosen, so that nothing moves under a finger.
#[component]
fn ChoiceRemarks(desk: Desk) -> impl IntoView {
    let remarks = memo(move |_| desk.choice.with(Choice::remarks));
    view! { <Keep remarks title=say!("About this choice") test="choice-remarks" /> }
}

#[component]
fn Keep(remarks: Memo<Vec<String>>, title: &'static str, test: &'static str) -> impl IntoView {
    view! {
        <Show when=move || !remarks.with(Vec::is_empty)>
            <section class="notice" data-test=test>
                <h2 class="in-notice">{title}</h2>
                <ul class="plain">{move || remarks.get().into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
            </section>
        </Show>
    }
}

/// No open visit to plan for; a closed one keeps what was given.
#[component]
fn Nothing(closed: bool) -> impl IntoView {
    let app = App::get();
    let words = if closed {
        say!(
            "This visit is closed and its plan stays as it is. The sheet can be given again; a new plan needs a new visit."
        )
    } else {
        say!("There is no open visit here. Start one, or open one from the list.")
    };
    view! {
        <main class="screen" data-screen="no-plan">
            <Head title=say!("Plan for home").to_string() />
            <div class="body">
                <p>{words}</p>
            </div>
            <footer>
                <button type="button" class="btn quiet" data-test="home" on:click=move |_| app.show(Route::Home)>{say!("To the start")}</button>
                {closed.then(|| view! {
                    <button type="button" class="btn main" data-test="to-sheet" on:click=move |_| app.show(Route::Sheet)>{say!("The sheet")}</button>
                })}
            </footer>
        </main>
    }
}

/// The language a sheet opens in unless the practitioner chooses another.
const FIRST_LANGUAGE: Language = Language::English;
