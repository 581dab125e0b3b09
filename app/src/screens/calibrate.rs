//! The size of this screen: a card is held to it, and a mark is moved until it fits. Pages are not told how large a pixel is.

use leptos::prelude::*;
use sidelight_core::quantity::Millimetres;
use sidelight_core::stimulus::screen::{Calibration, CardEdge, Px, Scale};

use crate::platform::display::{self, Display};
use crate::platform::settings::Card;
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::number::Typed;
use crate::widgets::pick::Pick;
use crate::widgets::show::Show;

/// Where the fixed mark stands, in pixels from the left of the drawing.
const LEFT: f64 = 6.0;
/// What the screen keeps free on both sides of the drawing.
const MARGIN: f64 = 16.0;
/// The widest a screen of the app is, in pixels.
const WIDEST: f64 = 780.0;
/// A length to check by with any ruler.
const CHECK: Millimetres = Millimetres(50.0);

/// Pixels in a millimetre that the mark begins at: many phones have about six, desks about four.
fn guess(display: &Display) -> f64 {
    if display.pixel_ratio >= 2.0 { 6.0 } else { 4.0 }
}

#[component]
pub fn Calibrate(
    /// The address to go to afterwards.
    then: String,
) -> impl IntoView {
    let app = App::get();
    let display = RwSignal::new(Display::now());
    let listeners = StoredValue::new_local(display::on_change(move || display.set(Display::now())));
    on_cleanup(move || listeners.set_value(Vec::new()));
    let room = move || display.get().width.min(WIDEST) - 2.0 * MARGIN - 2.0 * LEFT;
    let wide = untrack(|| room() > guess(&display.get()) * CardEdge::Long.length().0);
    let edge = RwSignal::new(if wide { CardEdge::Long } else { CardEdge::Short });
    // Nothing is known until the mark was moved: where it happens to stand at first is no measure.
    let moved = RwSignal::new(None::<f64>);
    let most = move || {
        let quantity = edge.get().quantity();
        room().floor().clamp(quantity.min, quantity.max)
    };
    let at = move || moved.get().unwrap_or_else(|| guess(&display.get()) * edge.get().length().0).min(most()).round();
    // "Move the mark first" has been done as soon as it moves.
    Effect::new(move |_| {
        if moved.with(Option::is_some) {
            app.said.set(None);
        }
    });
    let pick = move |picked: CardEdge| {
        edge.set(picked);
        moved.set(None);
    };
    let found = move || {
        let measured = moved.get()?;
        Some(Scale::from_card(edge.get(), Px(measured)))
    };
    let to = Route::parse(&then);
    let leave = move || app.show_instead(to.clone());
    let back = Callback::new({
        let leave = leave.clone();
        move |()| leave()
    });
    let keep = move |_| match found() {
        Some(Ok(scale)) => {
            let Display { pixel_ratio, zoom, .. } = Display::now();
            app.set_settings(|settings| settings.card = Some(Card::of(&Calibration { scale, pixel_ratio, zoom })));
            leave();
        }
        Some(Err(why)) => app.said.set(Some(why.to_string())),
        None => app.said.set(Some(say!("Move the right mark to the corner of the card first.").to_string())),
    };
    let is = move |one: CardEdge| Signal::derive(move || edge.get() == one);
    let how = move || match edge.get() {
        CardEdge::Long => say!("Hold the long edge of a bank or identity card to the line."),
        CardEdge::Short => say!(
            "Hold the short edge of a bank or identity card to the line; the rest of the card may cover what is above."
        ),
    };
    let narrow = move || edge.get() == CardEdge::Long && room() < guess(&display.get()) * CardEdge::Long.length().0;
    view! {
        <main class="screen" data-screen="calibrate">
            <Head title=say!("Size of this screen").to_string() back=(say!("Back without keeping it"), back) />
            <div class="body">
                <p>{how}" "{say!("One corner at the left mark; move the right mark to the other corner.")}</p>
                <div class="chips" role="group" aria-label=say!("Which edge")>
                    <Pick name="edge" test="edge-short" label=say!("Short edge") on=is(CardEdge::Short) pick=move || pick(CardEdge::Short) />
                    <Pick name="edge" test="edge-long" label=say!("Long edge") on=is(CardEdge::Long) pick=move || pick(CardEdge::Long) />
                </div>
                <Show when=narrow>
                    <p class="notice" data-test="turn">{say!("Turn the device on its side for the long edge, or take the short one.")}</p>
                </Show>
                <CardMarks at=Signal::derive(at) />
                <Mover edge at=Signal::derive(at) most=Signal::derive(most) moved />
                <div role="status" data-test="found">{move || found().map(|found| view! { <Found found display /> })}</div>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="keep" on:click=keep>{say!("It fits, keep it")}</button>
            </footer>
        </main>
    }
}

/// Two marks as far apart as the corners of the card should be, and the line between them.
#[component]
fn CardMarks(at: Signal<f64>) -> impl IntoView {
    let right = move || LEFT + at.get();
    view! {
        <svg class="card-marks" width="100%" height="64" role="img" aria-label=say!("Two marks with a line between them") data-test="marks" data-at=move || at.get()>
            <line class="card-line" x1=LEFT y1="34" x2=right y2="34" />
            <line class="card-mark" x1=LEFT y1="4" x2=LEFT y2="60" />
            <line class="card-mark" x1=right y1="4" x2=right y2="60" />
        </svg>
    }
}

/// Moves the right mark: along a slider, by one pixel, or typed.
#[component]
fn Mover(edge: RwSignal<CardEdge>, at: Signal<f64>, most: Signal<f64>, moved: RwSignal<Option<f64>>) -> impl IntoView {
    let least = move || edge.get().quantity().min;
    let put = move |pixels: f64| moved.set(Some(pixels.clamp(least(), most.get_untracked())));
    let slid = move |event: web_sys::Event| {
        if let Ok(pixels) = event_target_value(&event).parse::<f64>() {
            put(pixels);
        }
    };
    let step = move |by: f64| untrack(|| put(at.get() + by));
    view! {
        <div class="ruler">
            <button type="button" class="btn quiet" data-test="less" aria-label=say!("one pixel to the left") on:click=move |_| step(-1.0)>"−"</button>
            <input
                type="range"
                autocomplete="off"
                data-test="mark"
                min=least
                max=move || most.get()
                step="1"
                aria-label=say!("The right mark")
                aria-valuetext=move || say!("{count} pixels from the left mark", count = at.get())
                prop:value=move || at.get()
                on:input=slid
            />
            <button type="button" class="btn quiet" data-test="more-px" aria-label=say!("one pixel to the right") on:click=move |_| step(1.0)>"+"</button>
        </div>
        <details class="fold">
            <summary>{say!("Type it instead")}</summary>
            {move || {
                view! {
                    <label for="card-px">{say!("The edge on this screen, in pixels")}</label>
                    <Typed id="card-px" quantity=edge.get().quantity() value=Signal::derive(move || moved.get()) on_value=move |typed| moved.set(typed) />
                }
            }}
        </details>
    }
}

/// What it comes to, with a length to check it by.
#[component]
fn Found(found: Result<Scale, sidelight_core::quantity::Refused>, display: RwSignal<Display>) -> impl IntoView {
    let scale = match found {
        Ok(scale) => scale,
        Err(why) => return view! { <p class="refused" data-test="impossible">{why.to_string()}</p> }.into_any(),
    };
    let mm = move |pixels: f64| scale.mm(Px(pixels)).0.round();
    let check = scale.px(CHECK).0;
    view! {
        <p data-test="found-size">
            {move || say!("Then what you see of this page is {width} mm wide and {height} mm high.", width = mm(display.get().width), height = mm(display.get().height))}
            " "
            {say!("Check: this bar should be {length} mm long.", length = CHECK.0)}
        </p>
        <svg class="card-marks" width="100%" height="20" role="img" aria-label=say!("A bar of {length} mm", length = CHECK.0)>
            <rect class="check-bar" x=LEFT y="4" width=check height="12" />
        </svg>
    }
    .into_any()
}
