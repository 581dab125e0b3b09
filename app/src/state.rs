//! The one store of the program: what is known, what is being recorded, and the only place that writes it.

mod addenda;
mod clinic;
mod editing;
mod given;
pub mod hand_over;
mod joins;
mod keeping;
mod ledger;
mod load;
mod locking;
mod plan;
mod take_in;
#[cfg(test)]
mod tests;
mod visits;

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::assess::{Assessment, assess};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::edit::Undo;
use sidelight_core::capture::entry::Entry;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::change::{self, Changes};
use sidelight_core::keeping::Wanted;
use sidelight_core::merge::Joined;
use sidelight_core::plan::Choice;
use sidelight_core::routine::own::OwnRoutine;
use sidelight_core::sorted;
use sidelight_core::task::Context;

pub use self::joins::Side;
pub use self::ledger::Ledger;
#[cfg_attr(not(test), allow(unused_imports, reason = "the lock screens use it"))]
pub use self::load::owner_of;
pub use self::visits::{Listed, Read};
use crate::memo::memo;
use crate::platform::clock;
use crate::platform::settings::{self, Settings};
use crate::route::Route;
use crate::storage::sealed::SealedStore;
use crate::storage::writer::{Saving, Writer};
use crate::storage::{Change, Key, Kind, Store};

/// Name and version of this program, written into every visit.
pub const PROGRAM: &str = concat!("Sidelight ", env!("CARGO_PKG_VERSION"));

/// The program's state; a handle that can be copied into any closure.
#[derive(Clone, Copy)]
pub struct App {
    /// Everyone who was examined: of joined entries the one that stands for them.
    pub people: Memo<Vec<Person>>,
    /// The index of every visit, the latest first. Each says whose it is by the entry that stands for the person.
    pub listed: Memo<Vec<Listed>>,
    /// Who stands for whom.
    pub joined: Memo<Joined>,
    /// Pairs of entries that may be the same person, by id.
    pub likely: Memo<Vec<(String, String)>>,
    /// Routines of the practice's own, by name.
    pub routines: RwSignal<Vec<OwnRoutine>>,
    /// Corrections of closed visits.
    pub addenda: RwSignal<Vec<Addendum>>,
    /// What was handed over, taken in, joined and erased.
    pub ledger: RwSignal<Ledger>,
    /// What the next hand over is to hold.
    pub wanted: RwSignal<Wanted>,
    /// The key of the clinic that hand overs are sealed to, as text.
    pub clinic_key: RwSignal<Option<String>>,
    /// The visit in hand, open or just closed.
    pub current: RwSignal<Option<Visit>>,
    /// What the visit in hand says; derived, never stored.
    pub assessment: Memo<Option<Assessment>>,
    /// What changed since the visit it is compared with; derived, never stored.
    pub changes: Memo<Option<Changes>>,
    /// The other visits of the person in hand, as far as they are in memory; derived, never stored.
    pub earlier: Memo<Vec<Visit>>,
    /// The screen in sight.
    pub route: RwSignal<Route>,
    /// One sentence for the user, until the next action.
    pub said: RwSignal<Option<String>>,
    /// Preferences of this device.
    pub settings: RwSignal<Settings>,
    /// Records that could not be read at the start, as sentences.
    pub unreadable: RwSignal<Vec<String>>,
    /// Whether the records have been read.
    pub ready: RwSignal<bool>,
    /// Whether another tab of this browser is recording.
    pub elsewhere: RwSignal<bool>,
    /// Where the records lie that could not be read.
    pub damaged: RwSignal<BTreeSet<Key>>,
    /// The person of the visit in hand.
    person: Memo<Option<Person>>,
    /// Every entry of a person, as it is kept.
    everyone: RwSignal<Vec<Person>>,
    /// The index as it is kept.
    rows: RwSignal<Vec<Listed>>,
    /// The key of the visit in hand.
    in_hand: RwSignal<Option<String>>,
    /// Visits that were asked for, by key; the one in hand may be older here.
    read: RwSignal<BTreeMap<String, Read>>,
    /// Keys of visits that are being read.
    asked: StoredValue<BTreeSet<String>>,
    closing: RwSignal<bool>,
    /// What is chosen for home and not signed off yet, with the visit it is for.
    draft: RwSignal<Option<(String, Choice)>>,
    undo: RwSignal<Vec<(String, Undo)>>,
    store: StoredValue<Rc<dyn Store>, LocalStorage>,
    sealed: StoredValue<Option<Rc<SealedStore>>, LocalStorage>,
    writer: StoredValue<Writer, LocalStorage>,
}

impl App {
    /// An empty program that writes to `store`. Call it once, at the root.
    #[must_use]
    pub fn new(store: Rc<dyn Store>, settings: Settings) -> App {
        let (everyone, rows) = (RwSignal::new(Vec::new()), RwSignal::new(Vec::new()));
        let ledger = RwSignal::new(Ledger::default());
        let joined = joins::joined(everyone, ledger);
        let people = joins::people(everyone, joined);
        let listed = joins::listed(rows, joined);
        let current = RwSignal::new(None::<Visit>);
        let read = RwSignal::new(BTreeMap::new());
        let person = memo(move |_| {
            current.with(|visit| {
                joined
                    .with(|joined| people.with(|people| joins::whose(people, joined, &visit.as_ref()?.person).cloned()))
            })
        });
        let assessment =
            memo(move |_| current.with(|visit| person.with(|person| Some(assess(person.as_ref()?, visit.as_ref()?)))));
        let earlier = joins::earlier(current, joined, listed, read);
        let changes = memo(move |_| {
            current.with(|visit| {
                let visit = visit.as_ref()?;
                let said = |person: &Person, assessment: &Assessment| {
                    earlier.with(|earlier| change::since_earlier(person, visit, assessment, earlier))
                };
                person.with(|person| assessment.with(|assessment| said(person.as_ref()?, assessment.as_ref()?)))
            })
        });
        App {
            people,
            listed,
            joined,
            likely: joins::likely(everyone, ledger),
            person,
            everyone,
            rows,
            routines: RwSignal::new(Vec::new()),
            addenda: RwSignal::new(Vec::new()),
            ledger,
            wanted: RwSignal::new(Wanted::New),
            clinic_key: RwSignal::new(None),
            current,
            assessment,
            changes,
            earlier,
            route: RwSignal::new(Route::current()),
            said: RwSignal::new(None),
            settings: RwSignal::new(settings),
            unreadable: RwSignal::new(Vec::new()),
            ready: RwSignal::new(false),
            elsewhere: RwSignal::new(false),
            damaged: RwSignal::new(BTreeSet::new()),
            in_hand: RwSignal::new(None),
            read,
            asked: StoredValue::new(BTreeSet::new()),
            closing: RwSignal::new(false),
            draft: RwSignal::new(None),
            undo: RwSignal::new(Vec::new()),
            store: StoredValue::new_local(Rc::clone(&store)),
            sealed: StoredValue::new_local(None),
            writer: StoredValue::new_local(Writer::new(store)),
        }
    }

    /// The state put into the context at the root.
    #[must_use]
    pub fn get() -> App {
        expect_context::<App>()
    }

    /// Where the latest taps are.
    #[must_use]
    pub fn saving(self) -> ReadSignal<Saving> {
        self.writer.with_value(Writer::state)
    }

    /// Tries a failed write again.
    pub fn retry(self) {
        self.writer.with_value(Writer::retry);
    }

    /// Asks for everything to be flushed to the disk, as when the page is hidden.
    pub fn flush(self) {
        self.writer.with_value(Writer::flush);
    }

    /// Whether the visit in hand is closed, read once.
    #[must_use]
    pub fn is_closed_now(self) -> bool {
        untrack(|| self.is_closed())
    }

    /// Whether the visit in hand is closed.
    #[must_use]
    pub fn is_closed(self) -> bool {
        self.current.with(|visit| visit.as_ref().is_some_and(|visit| visit.closed.is_some()))
    }

    /// Shows a screen.
    pub fn show(self, route: Route) {
        self.said.set(None);
        route.push();
        self.route.set(route);
    }

    /// Shows a screen in place of this one, so that the browser's own "back" passes over this one.
    pub fn show_instead(self, route: Route) {
        self.said.set(None);
        route.replace();
        self.route.set(route);
    }

    /// The person of the visit in hand, read once.
    #[must_use]
    pub fn person_now(self) -> Option<Person> {
        untrack(|| self.person())
    }

    /// The person of the visit in hand.
    #[must_use]
    pub fn person(self) -> Option<Person> {
        self.person.get()
    }

    /// Asks core about the visit in hand; `None` when there is none.
    pub fn with_context<T>(self, ask: impl FnOnce(&Context<'_>) -> T) -> Option<T> {
        self.current.with(|visit| {
            let visit = visit.as_ref()?;
            self.person.with(|person| Some(ask(&Context::of(person.as_ref()?, visit))))
        })
    }

    /// Changes the preferences of this device and keeps them.
    pub fn set_settings(self, change: impl FnOnce(&mut Settings)) {
        self.settings.update(change);
        self.settings.with_untracked(settings::save);
    }

    fn write(self, changes: impl IntoIterator<Item = Change>) {
        self.writer.with_value(|writer| writer.change(changes));
    }
}

/// The present moment, for core.
#[must_use]
pub fn now() -> Moment {
    let clock::Now(unix_ms, offset_minutes) = clock::now();
    Moment { unix_ms, offset_minutes }
}

/// Why nothing is written while another tab records.
const ELSEWHERE: &str = text!("Sidelight is recording in another tab. Close that tab, then try again.");

/// Keys of routines among the practice's settings begin like this.
const ROUTINE_KEY: &str = "routine-";

fn routine_key(id: &str) -> Key {
    Key::new(Kind::Setting, format!("{ROUTINE_KEY}{id}"))
}

fn by_name(mut routines: Vec<OwnRoutine>) -> Vec<OwnRoutine> {
    sorted::by(&mut routines, |a, b| a.title.to_lowercase().cmp(&b.title.to_lowercase()).then_with(|| a.id.cmp(&b.id)));
    routines
}

/// Writes a visit, and its index row with it.
fn put_visit(visit: &Visit) -> [Change; 2] {
    let kind = if visit.closed.is_some() { Kind::Visit } else { Kind::Draft };
    let put = Change::put_of(&visit.person, Key::new(kind, &visit.id), archive::write_visit(visit));
    [put, put_entry(&visit.id, &visits::entry_of(visit))]
}

fn put_entry(key: &str, entry: &Entry) -> Change {
    Change::put_of(&entry.person, Key::new(Kind::Entry, key), archive::write_entry(entry))
}
