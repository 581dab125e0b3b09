//! What is to be shown: a few settings, the distance, and what this screen can show of it.

use leptos::prelude::*;
use sidelight_core::capture::form::Choice;
use sidelight_core::stage::{Dial, Wanted};
use sidelight_core::stimulus::screen::{Axis, DISTANCE, PRESETS};

use super::keep;
use super::session::{Phase, Session};
use crate::memo::memo;
use crate::route::Route;
use crate::widgets::bar::Head;
use crate::widgets::chips::Chips;
use crate::widgets::number::Typed;
use crate::widgets::pick::Pick;
use crate::widgets::show::Show;
use crate::words;

#[component]
pub fn ChooseScreen(session: Session) -> impl IntoView {
    let back = Callback::new(move |()| session.leave());
    let dials = &session.offer.dials;
    // What is changed most comes first; the look of the target and the like fold away.
    let (first, rest) = dials.split_at(dials.len().min(3));
    let checked = memo(move |_| session.checked());
    let passes = move || checked.with(|checked| checked.as_ref().is_some_and(Result::is_ok));
    let next = move |_| {
        let asks = checked.with_untracked(|checked| matches!(checked, Some(Ok(safe)) if safe.asks_first()));
        session.phase.set(if asks { Phase::Before } else { Phase::Ready });
    };
    let care = (!session.kept && !session.offer.care.is_empty()).then(|| {
        view! { <p class="caution"><strong>{say!("Care:")}" "</strong>{words::of(session.offer.care)}</p> }
    });
    let limits = (!session.offer.limits.is_empty())
        .then(|| view! { <p class="soft" data-test="stage-limits">{words::of(session.offer.limits)}</p> });
    view! {
        <main class="screen" data-screen="stage" data-slot=session.offer.task>
            <Head title=words::of(session.offer.title).to_string() back=(say!("Back"), back) />
            <div class="body">
                {care}
                {limits}
                <Show when=move || session.calibration().is_none()>
                    <Unmeasured session />
                </Show>
                {first.iter().map(|dial| view! { <DialField session dial /> }).collect_view()}
                <Distance session />
                <div role="status" data-test="stage-fits">
                    {move || checked.with(|checked| match checked {
                        Some(Err(refused)) => Some(view! { <Refusal session says=refused.to_string() nearest=refused.nearest.as_deref().cloned() /> }.into_any()),
                        Some(Ok(safe)) => Some(view! { <p class="soft">{words::sentence(&safe.says())}<br />{fits(session)}</p> }.into_any()),
                        None => None,
                    })}
                </div>
                {(!rest.is_empty()).then(|| view! {
                    <details class="fold" data-test="stage-more">
                        <summary>{say!("More settings")}</summary>
                        {rest.iter().map(|dial| view! { <DialField session dial /> }).collect_view()}
                    </details>
                })}
                {session.kept.then(|| view! { <Elsewhere session /> })}
            </div>
            <footer>
                <button type="button" class="btn main" data-test="stage-next" disabled=move || !passes() on:click=next>{say!("Next")}</button>
            </footer>
        </main>
    }
}

/// The screen was never measured, or the page is zoomed otherwise now.
#[component]
fn Unmeasured(session: Session) -> impl IntoView {
    let before = session.app.settings.with_untracked(|settings| settings.card.is_some());
    let says = if before {
        say!("The page is zoomed otherwise than when this screen was measured, so sizes and speeds would be wrong.")
    } else {
        say!("This screen has to be measured once, with a bank or identity card.")
    };
    let place = if session.kept { "stage" } else { "show" };
    let then = format!("{place}/{}", session.offer.task);
    let go = move |_| session.app.show_instead(Route::Calibrate(then.clone()));
    view! {
        <div class="notice" data-test="unmeasured">
            <p>{says}</p>
            <button type="button" class="btn main" data-test="calibrate" on:click=go>{say!("Measure it with a card")}</button>
        </div>
    }
}

#[component]
fn DialField(session: Session, dial: &'static Dial) -> impl IntoView {
    let options: &'static [Choice] = dial.options;
    view! {
        <fieldset class="ask" data-test=format!("dial-{}", dial.key)>
            <legend>{words::of(dial.ask)}</legend>
            <div class="chips">
                <Chips
                    name=format!("dial-{}", dial.key)
                    choices=options
                    chosen=Signal::derive(move || Some(session.wanted.with(|wanted| wanted.of(dial.key)).to_string()))
                    on_pick=move |id: &'static str| session.choose(dial.key, id)
                />
            </div>
        </fieldset>
    }
}

/// How far the eyes are: one of three, or any.
#[component]
fn Distance(session: Session) -> impl IntoView {
    let app = session.app;
    let set = move |cm: f64| {
        app.set_settings(|settings| settings.distance_cm = cm);
        session.nearest.set(None);
    };
    let preset = move |(test, cm): (&'static str, f64)| {
        let on = Signal::derive(move || session.distance().0 == cm);
        view! { <Pick name="stage-distance" test label=say!("{cm} cm", cm) on pick=move || set(cm) /> }
    };
    let tests = ["cm-30", "cm-40", "cm-50"];
    let presets = tests.into_iter().zip(PRESETS.map(|preset| preset.0));
    view! {
        <fieldset class="ask" data-test="stage-distance">
            <legend>{say!("From their eyes to the screen")}</legend>
            <div class="chips">{presets.map(preset).collect_view()}</div>
            <div class="stage-own">
                <label for="own-distance">{say!("or")}</label>
                <Typed id="own-distance" quantity=&DISTANCE value=Signal::derive(move || Some(session.distance().0)) on_value=move |cm| if let Some(cm) = cm { set(cm) } />
            </div>
            <p class="soft">{say!("A string of that length from the screen to their temple keeps it. 5 cm nearer makes all of it an eighth larger and faster.")}</p>
        </fieldset>
    }
}

/// What the screen shows at this distance, in degrees.
fn fits(session: Session) -> String {
    let Some((screen, program)) = session.program() else { return String::new() };
    let field = |axis| screen.field(axis).0.round();
    let (width, height) = (field(Axis::Horizontal), field(Axis::Vertical));
    let shows = say!(
        "The screen shows {width}° by {height}° there. It takes {seconds} s.",
        width,
        height,
        seconds = program.seconds().round()
    );
    let turn = (session.offer.goes_sideways && width < height).then_some(say!("On its side it would show more."));
    words::sentences(&[&shows, turn.unwrap_or_default()])
}

/// What cannot be shown, and what can.
#[component]
fn Refusal(
    session: Session,
    says: String,
    nearest: Option<sidelight_core::stimulus::program::Program>,
) -> impl IntoView {
    let turn = nearest.is_none().then(|| format!(" {}", say!("Turn it on its side, or hold it nearer.")));
    let take = nearest.map(|nearest| {
        let take = move |_| session.nearest.set(Some(nearest.clone()));
        view! { <button type="button" class="btn" data-test="stage-nearest" on:click=take>{say!("Use that")}</button> }
    });
    view! {
        <div class="notice" data-test="stage-refused">
            <p>{says}{turn}</p>
            {take}
        </div>
    }
}

/// It was shown, but not here.
#[component]
fn Elsewhere(session: Session) -> impl IntoView {
    let note = move |_| {
        session.wanted.with_untracked(|wanted: &Wanted| keep::elsewhere(session.app, wanted));
        session.leave();
    };
    view! {
        <details class="fold" data-test="stage-elsewhere">
            <summary>{say!("It was shown on another screen")}</summary>
            <p class="soft">{say!("The settings above are then kept with the task, without showing anything here.")}</p>
            <button type="button" class="btn" data-test="stage-note" on:click=note>{say!("Keep it so")}</button>
        </details>
    }
}
