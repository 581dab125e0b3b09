//! Preferences of this device. None of them tells anything about a person.

use leptos::prelude::*;

use crate::platform::settings::{Hand, Theme};
use crate::route::Route;
use crate::state::App;
use crate::widgets::bar::Head;
use crate::widgets::pick::{Pick, Tick};

#[component]
pub fn SettingsScreen() -> impl IntoView {
    let app = App::get();
    let back = Callback::new(move |()| app.show(Route::Home));
    let is =
        move |test: fn(&crate::platform::settings::Settings) -> bool| Signal::derive(move || app.settings.with(test));
    view! {
        <main class="screen" data-screen="settings">
            <Head title="Settings".to_string() back=("Back to the start", back) />
            <div class="body">
                <fieldset class="ask">
                    <legend>"Light"</legend>
                    <div class="chips">
                        <Pick name="theme" test="theme-auto" label="As the device" on=is(|s| s.theme == Theme::Auto) pick=move || app.set_settings(|s| s.theme = Theme::Auto) />
                        <Pick name="theme" test="theme-light" label="Daylight" on=is(|s| s.theme == Theme::Light) pick=move || app.set_settings(|s| s.theme = Theme::Light) />
                        <Pick name="theme" test="theme-dark" label="Dark room" on=is(|s| s.theme == Theme::Dark) pick=move || app.set_settings(|s| s.theme = Theme::Dark) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>"The hand that taps"</legend>
                    <div class="chips">
                        <Pick name="hand" test="hand-right" label="Right: main button on the right" on=is(|s| s.hand == Hand::Right) pick=move || app.set_settings(|s| s.hand = Hand::Right) />
                        <Pick name="hand" test="hand-left" label="Left: main button on the left" on=is(|s| s.hand == Hand::Left) pick=move || app.set_settings(|s| s.hand = Hand::Left) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>"Sides of the pads"</legend>
                    <p class="soft">"Facing a person, their right is on your left."</p>
                    <div class="chips">
                        <Pick name="pads" test="pads-facing" label="Facing: their right on the left" on=is(|s| !s.pads_flipped) pick=move || app.set_settings(|s| s.pads_flipped = false) />
                        <Pick name="pads" test="pads-flipped" label="Flipped: their right on the right" on=is(|s| s.pads_flipped) pick=move || app.set_settings(|s| s.pads_flipped = true) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>"The beat"</legend>
                    <div class="chips">
                        <Tick test="sound" label="Sound" on=is(|s| s.sound) flip=move || app.set_settings(|s| s.sound = !s.sound) />
                        <Tick test="vibration" label="Vibration, where the device can" on=is(|s| s.vibration) flip=move || app.set_settings(|s| s.vibration = !s.vibration) />
                    </div>
                </fieldset>
                <fieldset class="ask">
                    <legend>"Working model of the practice school"</legend>
                    <p class="soft">"Common practice, no lesion-level source. It never reaches a summary unless you tick it there."</p>
                    <div class="chips">
                        <Tick test="working-model" label="Show it with the findings" on=is(|s| s.working_model) flip=move || app.set_settings(|s| s.working_model = !s.working_model) />
                    </div>
                </fieldset>
                <button type="button" class="link" data-test="safe" on:click=move |_| app.show(Route::Safe)>"Safe keeping and hand over"</button>
            </div>
            <footer>
                <button type="button" class="btn main" on:click=move |_| app.show(Route::Home)>"Done"</button>
            </footer>
        </main>
    }
}
