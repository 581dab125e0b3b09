//! Preferences of this device, in local storage under one key. Never anything about a person.
//!
//! Limits: local storage may be closed (some private windows) or cleared by the browser; missing or unreadable preferences
//! are the defaults, without a word.

use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::window;
use serde::{Deserialize, Serialize};
use sidelight_core::stimulus::screen::{Calibration, Scale};

const KEY: &str = "sidelight-preferences";

/// What the user prefers on this device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The tag of the language of the screens.
    pub language: String,
    /// Light or dark.
    pub theme: Theme,
    /// The hand that taps.
    pub hand: Hand,
    /// Whether the pads stand as the examiner's own sides instead of facing the person.
    pub pads_flipped: bool,
    /// Whether the beat calls movements and only exceptions are tapped.
    pub paced: bool,
    /// Whether the beat sounds.
    pub sound: bool,
    /// Whether the beat vibrates, where the device can.
    pub vibration: bool,
    /// Whether the findings show the working model of the practice school.
    pub working_model: bool,
    /// Days after a receipt when a closed visit is removed from this device; none for never.
    pub remove_after: Option<u16>,
    /// Whether the demo is open instead of the records.
    pub demo: bool,
    /// After how many seconds without a touch it locks.
    pub lock_idle_s: u32,
    /// After how many seconds out of sight it locks.
    pub lock_hidden_s: u32,
    /// The scale of this screen from a card that was held to it; none before.
    pub card: Option<Card>,
    /// How far from the eyes the screen was held last, in centimetres.
    pub distance_cm: f64,
}

/// A card that was held to the screen, as numbers. They are checked whenever they are read.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Card {
    px_per_mm: f64,
    pixel_ratio: f64,
    zoom: f64,
}

impl Card {
    /// What was measured.
    #[must_use]
    pub fn of(calibration: &Calibration) -> Card {
        let Calibration { scale, pixel_ratio, zoom } = *calibration;
        Card { px_per_mm: scale.px_per_mm(), pixel_ratio, zoom }
    }

    /// What it was measured for; none when the numbers cannot be.
    #[must_use]
    pub fn calibration(self) -> Option<Calibration> {
        let Card { px_per_mm, pixel_ratio, zoom } = self;
        let scale = Scale::from_px_per_mm(px_per_mm).ok()?;
        Some(Calibration { scale, pixel_ratio, zoom })
    }
}

/// Light or dark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    /// As the device has it.
    Auto,
    /// Daylight.
    Light,
    /// A dark room.
    Dark,
}

/// The hand that taps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Hand {
    /// Main button on the right.
    Right,
    /// Main button on the left.
    Left,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            language: "en".to_string(),
            theme: Theme::Auto,
            hand: Hand::Right,
            pads_flipped: false,
            paced: false,
            sound: true,
            vibration: true,
            working_model: false,
            remove_after: None,
            demo: false,
            lock_idle_s: 300,
            lock_hidden_s: 60,
            card: None,
            distance_cm: 40.0,
        }
    }
}

/// The stored preferences, or the defaults.
#[must_use]
pub fn load() -> Settings {
    if !there() {
        return Settings::default();
    }
    LocalStorage::get(KEY).unwrap_or_default()
}

/// Keeps the preferences; a closed storage only means that they are forgotten with the page.
pub fn save(settings: &Settings) {
    if there() {
        let _ = LocalStorage::set(KEY, settings);
    }
}

/// Changes the stored preferences, for what is decided before there is a program.
pub fn change(change: impl FnOnce(&mut Settings)) {
    let mut settings = load();
    change(&mut settings);
    save(&settings);
}

/// Forgets the preferences.
pub fn forget() {
    if there() {
        LocalStorage::delete(KEY);
    }
}

/// The library takes for granted that there is a local storage, and ends the program where the browser closes it.
pub fn there() -> bool {
    window().local_storage().is_ok_and(|storage| storage.is_some())
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    fn stored(text: &str) -> Settings {
        LocalStorage::raw().set_item(KEY, text).expect("is kept");
        load()
    }

    #[wasm_bindgen_test]
    fn preferences_come_back_and_what_cannot_be_read_is_the_default() {
        let changed = Settings { theme: Theme::Dark, hand: Hand::Left, paced: true, ..Settings::default() };
        save(&changed);
        assert_eq!(load(), changed);
        assert_eq!(stored(r#"{"hand":"left","from a later version":1}"#).hand, Hand::Left);
        let card = stored(r#"{"card":{"px_per_mm":6.03,"pixel_ratio":3.0,"zoom":1.0}}"#).card.expect("is there");
        assert_eq!(card.calibration().map(|c| Card::of(&c)), Some(card));
        let impossible = stored(r#"{"card":{"px_per_mm":0.03,"pixel_ratio":3.0,"zoom":1.0}}"#).card.expect("is there");
        assert_eq!(impossible.calibration(), None);
        for text in ["", "{", "null", "[]", r#"{"hand":"third"}"#] {
            assert_eq!(stored(text), Settings::default(), "{text}");
        }
        LocalStorage::delete(KEY);
        assert_eq!(load(), Settings::default());
    }
}
