//! Preferences of this device. None of them tells anything about a person.

use leptos::prelude::*;
use sidelight_core::catalogue::screens::OFFERED;

use crate::lock::{Keeping, Lock};
use crate::platform::display::Display;
use crate::platform::passkey;
use crate::platform::settings::{Card, Hand, Theme};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::pick::{Pick, Tick};
use crate::widgets::show::Show;

#[component]
pub fn SettingsScreen() -> impl IntoView {
    let (app, lock) = (App::get(), Lock::get());
    let back = Callback::new(move |()| app.show(Route::Home));
    let is =
        move |test: fn(&crate::platform::settings::Settings) -> bool| Signal::derive(move || app.settings.with(test));
    view! {
        <main class="screen" data-screen="settings">
            <Head title=say!("Settings").to_string() back=(say!("Back to the start"), back) />
            <div class="body">
                {(1 < OFFERED.len()).then(|| view! { <Languages /> })}
                <fieldset class="ask">
                    <legend>{say!("Light")}</legend>
                    <div class="chips">
                        <Pick name="theme" test="theme-auto" label=say!("As the device") on=is(|s| s.theme == Theme::Auto) pick=move || app.set_settings(|s| s.theme = Theme::Auto) />
                        <Pick name="theme" test="theme-light" label=say!("Daylight") on=is(|s| s.theme == Theme::Light) pick=move || app.set_settings(|s| s.theme = Theme::Light) />
                        <Pick name="theme" test="theme-dark" label=say!("Dark room") on=is(|s| s.theme == Theme::Dark) pick=move || app.set_settings(|s| s.theme = Theme::Dark) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>{say!("The hand that taps")}</legend>
                    <div class="chips">
                        <Pick name="hand" test="hand-right" label=say!("Right: main button on the right") on=is(|s| s.hand == Hand::Right) pick=move || app.set_settings(|s| s.hand = Hand::Right) />
                        <Pick name="hand" test="hand-left" label=say!("Left: main button on the left") on=is(|s| s.hand == Hand::Left) pick=move || app.set_settings(|s| s.hand = Hand::Left) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>{say!("Sides of the pads")}</legend>
                    <p class="soft">{say!("Facing a person, their right is on your left.")}</p>
                    <div class="chips">
                        <Pick name="pads" test="pads-facing" label=say!("Facing: their right on the left") on=is(|s| !s.pads_flipped) pick=move || app.set_settings(|s| s.pads_flipped = false) />
                        <Pick name="pads" test="pads-flipped" label=say!("Flipped: their right on the right") on=is(|s| s.pads_flipped) pick=move || app.set_settings(|s| s.pads_flipped = true) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>{say!("The beat")}</legend>
                    <div class="chips">
                        <Tick test="sound" label=say!("Sound") on=is(|s| s.sound) flip=move || app.set_settings(|s| s.sound = !s.sound) />
                        <Tick test="vibration" label=say!("Vibration, where the device can") on=is(|s| s.vibration) flip=move || app.set_settings(|s| s.vibration = !s.vibration) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>{say!("Working model of the practice school")}</legend>
                    <p class="soft">{say!("Common practice, no lesion-level source. It never reaches a summary unless you tick it there.")}</p>
                    <div class="chips">
                        <Tick test="working-model" label=say!("Show it with the findings") on=is(|s| s.working_model) flip=move || app.set_settings(|s| s.working_model = !s.working_model) />
                    </div>
                </fieldset>
                <ScreenSize />
                <button type="button" class="link" data-test="safe" on:click=move |_| app.show(Route::Safe)>{say!("Safe keeping and hand over")}</button>
                {(lock.keeping() == Some(Keeping::Sealed)).then(|| view! { <LockSettings /> })}
            </div>
            <footer>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Home)>{say!("Done")}</button>
            </footer>
        </main>
    }
}

/// The language of the screens, where there is a choice.
#[component]
fn Languages() -> impl IntoView {
    let app = App::get();
    let choices = OFFERED.iter().map(|language| {
        let tag = language.tag();
        let on = Signal::derive(move || app.settings.with(|settings| settings.language == tag));
        let pick = move || app.set_settings(|settings| settings.language = tag.to_string());
        view! { <Pick name="language" test=tag label=language.name() on pick /> }
    });
    view! {
        <fieldset class="ask" data-test="language">
            <legend>{say!("Language")}</legend>
            <div class="chips">{choices.collect_view()}</div>
        </fieldset>
    }
}

/// The scale of this screen, for what is shown on it.
#[component]
fn ScreenSize() -> impl IntoView {
    let app = App::get();
    let line = move || {
        let Display { pixel_ratio, zoom, .. } = Display::now();
        let card = app.settings.with(|settings| settings.card).and_then(Card::calibration);
        match card.map(|card| card.scale_at(pixel_ratio, zoom)) {
            Some(Some(scale)) => {
                say!("Measured: {scale} pixels to the millimetre.", scale = format!("{:.2}", scale.px_per_mm()))
            }
            Some(None) => say!("Measured once, but the page is zoomed otherwise now: measure again.").to_string(),
            None => say!("Not measured yet. It is needed to show targets on this screen.").to_string(),
        }
    };
    view! {
        <fieldset class="ask">
            <legend>{say!("Size of this screen")}</legend>
            <p class="soft" data-test="screen-size">{line}</p>
            <button type="button" class="btn" data-test="calibrate" on:click=move |_| app.show(Route::Calibrate("settings".to_string()))>
                {say!("Measure it with a card")}
            </button>
        </fieldset>
    }
}

/// When it locks, and what opens it.
#[component]
fn LockSettings() -> impl IntoView {
    let app = App::get();
    let idle = move |test: &'static str, label: &'static str, seconds: u32| {
        let on = Signal::derive(move || app.settings.with(|s| s.lock_idle_s) == seconds);
        view! { <Pick name="idle" test label on pick=move || app.set_settings(|s| s.lock_idle_s = seconds) /> }
    };
    let hidden = move |test: &'static str, label: &'static str, seconds: u32| {
        let on = Signal::derive(move || app.settings.with(|s| s.lock_hidden_s) == seconds);
        view! { <Pick name="hidden" test label on pick=move || app.set_settings(|s| s.lock_hidden_s = seconds) /> }
    };
    view! {
        <fieldset class="ask">
            <legend>{say!("Lock when nothing was touched")}</legend>
            <p class="soft">{say!("Never in the middle of a task.")}</p>
            <div class="chips">
                {idle("idle-1", say!("1 minute"), 60)}
                {idle("idle-5", say!("5 minutes"), 300)}
                {idle("idle-15", say!("15 minutes"), 900)}
            </div>
        </fieldset>
        <fieldset class="ask">
            <legend>{say!("Lock when out of sight")}</legend>
            <div class="chips">
                {hidden("hidden-0", say!("At once"), 0)}
                {hidden("hidden-1", say!("After 1 minute"), 60)}
                {hidden("hidden-5", say!("After 5 minutes"), 300)}
            </div>
        </fieldset>
        <nav class="more" aria-label=say!("Passphrase")>
            <button type="button" class="link" data-test="change-passphrase" on:click=move |_| app.show(Route::Passphrase)>{say!("Change the passphrase")}</button>
            {passkey::offered().then(|| view! { <Passkey /> })}
            <button type="button" class="link" data-test="erase-device" on:click=move |_| app.show(Route::EraseDevice)>{say!("Erase this device")}</button>
        </nav>
    }
}

/// A passkey opens as well, where the device has one that can keep a key.
#[component]
fn Passkey() -> impl IntoView {
    let (app, lock) = (App::get(), Lock::get());
    let there = RwSignal::new(None::<bool>);
    let look = move || leptos::task::spawn_local(async move { there.set(Some(lock.has_passkey().await)) });
    look();
    let flip = move |_| {
        leptos::task::spawn_local(async move {
            let done = if there.get_untracked() == Some(true) {
                lock.remove_passkey().await.map(|_| say!("The passkey opens nothing here any more."))
            } else {
                lock.add_passkey()
                    .await
                    .map(|()| say!("The passkey opens the records from now on; the passphrase still does."))
            };
            app.said.set(Some(done.map_or_else(|why| why, str::to_string)));
            look();
        });
    };
    view! {
        <Show when=move || there.get().is_some()>
            <button type="button" class="link" data-test="passkey" data-there=move || there.get().map(|it| it.to_string()) on:click=flip>
                {move || if there.get() == Some(true) { say!("Stop opening with a passkey") } else { say!("Open with a passkey as well") }}
            </button>
        </Show>
    }
}
