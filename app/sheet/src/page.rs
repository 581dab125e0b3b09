//! The page: one session, its screen, and the listeners that feed it.

use std::cell::RefCell;

use gloo_events::EventListener;
use gloo_timers::callback::Interval;
use sidelight_core::family::{Act, Effect, Session, in_minutes, title};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Document, Element, Event, HtmlElement, HtmlProgressElement, MouseEvent, VisibilityState, Window};

use crate::awake::Awake;
use crate::beat::Beat;
use crate::clock;
use crate::sound::Sound;
use crate::{code, out, store};

/// How often the clock is looked at, in milliseconds.
const LOOK_MS: u32 = 200;
/// A second tap so soon and so near belongs to the first one, whose button may be gone.
const DOUBLE_TAP_MS: f64 = 450.0;
const DOUBLE_TAP_PX: i32 = 30;

thread_local! {
    static PAGE: RefCell<Option<Page>> = const { RefCell::new(None) };
}

struct Page {
    window: Window,
    document: Document,
    root: Element,
    session: Session,
    place: &'static str,
    /// When and where the screen was changed by a tap.
    changed: Option<(f64, i32, i32)>,
    sound: Sound,
    looked: f64,
    ticker: Option<Interval>,
    awake: Option<Awake>,
    beat: Option<Beat>,
}

/// Shows what was given, by the link or by the file, and listens.
pub fn start() {
    let Some(window) = web_sys::window() else { return };
    let Some(document) = window.document() else { return };
    let Some(root) = document.get_element_by_id("family") else { return };
    let given = document.document_element().and_then(|html| {
        // The start script has taken it out of the address already.
        let given = html.get_attribute("data-sheet");
        let _ = html.remove_attribute("data-sheet");
        given
    });
    let session = opened(&window, &given.unwrap_or_default());
    let page = Page {
        window: window.clone(),
        document: document.clone(),
        root,
        session,
        place: "",
        changed: None,
        sound: Sound::default(),
        looked: clock::steady(),
        ticker: None,
        awake: None,
        beat: None,
    };
    PAGE.with_borrow_mut(|slot| slot.insert(page).draw());
    EventListener::new(&document, "click", |event| with_page(|page| page.tapped(event))).forget();
    EventListener::new(&document, "visibilitychange", |_| with_page(Page::visibility)).forget();
    EventListener::new(&window, "hashchange", |_| with_page(Page::another_link)).forget();
}

fn opened(window: &Window, given: &str) -> Session {
    let (kept, texts) = store::read();
    let tag = window.navigator().language().unwrap_or_default();
    let (session, effects) = Session::open(given, &texts, kept, &tag, clock::now());
    for effect in effects {
        if let Effect::Keep(name, text) = effect {
            store::keep(&name, &text);
        }
    }
    session
}

/// An event that comes while another is answered has nothing to add.
fn with_page(act: impl FnOnce(&mut Page)) {
    PAGE.with(|page| {
        if let Ok(mut page) = page.try_borrow_mut()
            && let Some(page) = page.as_mut()
        {
            act(page);
        }
    });
}

impl Page {
    fn tapped(&mut self, event: &Event) {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let button = target.and_then(|target| target.closest("[data-act]").ok().flatten());
        let Some(name) = button.and_then(|button| button.get_attribute("data-act")) else { return };
        let Some(act) = Act::parse(&name) else { return };
        if self.is_second_tap(event) {
            return;
        }
        // Audio may be opened in a tap only, and the first sound comes when no one taps.
        if matches!(act, Act::Begin | Act::GoOn) {
            self.sound.open();
        }
        let effects = self.session.act(act, clock::now());
        let before = self.place;
        self.draw();
        self.focus(&name, before);
        if before != self.place {
            let at = event.dyn_ref::<MouseEvent>().map(|tap| (tap.client_x(), tap.client_y()));
            self.changed = at.map(|(x, y)| (clock::steady(), x, y));
        }
        self.follow(effects);
    }

    fn is_second_tap(&self, event: &Event) -> bool {
        // A key press is a click without a place and never meant for what was there before.
        let Some(tap) = event.dyn_ref::<MouseEvent>().filter(|tap| tap.detail() > 0) else { return false };
        self.changed.is_some_and(|(when, x, y)| {
            let near = (tap.client_x() - x).abs() < DOUBLE_TAP_PX && (tap.client_y() - y).abs() < DOUBLE_TAP_PX;
            near && clock::steady() - when < DOUBLE_TAP_MS
        })
    }

    fn follow(&mut self, effects: Vec<Effect>) {
        for effect in effects {
            match effect {
                Effect::Keep(name, text) => {
                    store::keep(&name, &text);
                }
                Effect::Forget(name) => store::forget(&name),
                Effect::Hear(cue) => self.sound.cue(cue, self.session.sound()),
                Effect::Save(text) => {
                    out::save(&text);
                }
                Effect::Share(text) => out::share(&text),
                // Printing may hold the page up; what is borrowed here must be given back before.
                Effect::Print => {
                    let window = self.window.clone();
                    gloo_timers::callback::Timeout::new(0, move || drop(window.print())).forget();
                }
            }
        }
    }

    fn draw(&mut self) {
        let language = self.session.language();
        if let Some(html) = self.document.document_element() {
            let _ = html.set_attribute("lang", language.tag());
            let _ = html.set_attribute("data-place", self.session.place());
        }
        self.document.set_title(title(language));
        self.root.set_inner_html(&self.session.html(clock::now()));
        if let (Some(text), Some(slot)) = (self.session.code(), self.slot("code")) {
            let label = sidelight_core::catalogue::text(language, "log.code");
            slot.set_inner_html(&code::svg(&text, label).unwrap_or_default());
        }
        self.place = self.session.place();
        self.run();
    }

    /// Clock, screen and beat go on exactly while the session says so.
    fn run(&mut self) {
        let runs = self.session.runs();
        if runs && self.ticker.is_none() {
            self.looked = clock::steady();
            self.ticker = Some(Interval::new(LOOK_MS, || with_page(Page::tick)));
            self.awake = Some(Awake::keep());
        }
        if !runs {
            self.ticker = None;
            self.awake = None;
        }
        let pace = self.session.beat();
        if pace != self.beat.as_ref().map(Beat::pace) {
            self.beat = None;
            self.beat = pace.and_then(|pace| Beat::start(pace, &self.sound, self.session.sound()));
        }
    }

    fn tick(&mut self) {
        let now = clock::steady();
        // Bounded before it is cut to whole milliseconds: nothing runs for a month.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let passed = (now - self.looked).clamp(0.0, 2e9) as u32;
        self.looked += f64::from(passed);
        let passed = self.session.pass(passed);
        if let Some(cue) = passed.cue {
            self.sound.cue(cue, self.session.sound());
        }
        if let Some(beat) = &mut self.beat {
            beat.look();
        }
        self.follow(passed.keep.into_iter().collect());
        if passed.redraw {
            let (name, before) = (self.focused(), self.place);
            self.draw();
            self.focus(&name, before);
        } else if let Some((seconds, over)) = passed.left {
            self.show_left(seconds, over);
        }
    }

    fn show_left(&self, seconds: u32, over: f64) {
        if let Some(slot) = self.slot("left") {
            let seconds = in_minutes(seconds);
            if slot.text_content().as_deref() != Some(&seconds) {
                slot.set_text_content(Some(&seconds));
            }
        }
        if let Some(bar) = self.slot("over").and_then(|slot| slot.dyn_into::<HtmlProgressElement>().ok()) {
            bar.set_value(over);
        }
    }

    fn visibility(&mut self) {
        let hidden = self.document.visibility_state() == VisibilityState::Hidden;
        let changed = hidden && self.session.hidden();
        // A page that is shown again may be shown on another day.
        if changed || (!hidden && !self.session.runs()) {
            let (name, before) = (self.focused(), self.place);
            self.draw();
            self.focus(&name, before);
        }
    }

    /// A link that is opened where the page is open already changes the part behind "#" alone.
    fn another_link(&mut self) {
        let given = self.window.location().hash().unwrap_or_default();
        if given.len() < 2 {
            return;
        }
        if let (Ok(history), Ok(path)) = (self.window.history(), self.window.location().pathname()) {
            let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&path));
        }
        self.session = opened(&self.window, &given);
        self.place = "";
        self.draw();
    }

    fn slot(&self, name: &str) -> Option<Element> {
        self.root.query_selector(&format!("[data-slot={name}]")).ok().flatten()
    }

    fn focused(&self) -> String {
        self.document.active_element().and_then(|element| element.get_attribute("data-act")).unwrap_or_default()
    }

    /// On a new screen reading begins at its title; on the same one the hand stays where it was.
    fn focus(&self, name: &str, before: &str) {
        let find = |selector: &str| self.root.query_selector(selector).ok().flatten();
        let target = if before == self.place {
            find(&format!("[data-act=\"{name}\"]")).or_else(|| find(".bar .main")).or_else(|| find("[data-focus]"))
        } else {
            self.window.scroll_to_with_x_and_y(0.0, 0.0);
            find("[data-focus]")
        };
        if let Some(target) = target.and_then(|target| target.dyn_into::<HtmlElement>().ok()) {
            let _ = target.focus();
        }
    }
}
