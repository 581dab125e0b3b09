//! Two entries of one person: read as one while they are joined, as two before and after, and kept as they are.

use std::rc::Rc;

use gloo_timers::future::TimeoutFuture;
use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::change::Changes;
use sidelight_core::demo;
use sidelight_core::document::Document;
use sidelight_core::due;
use sidelight_core::keeping::Wanted;
use sidelight_core::summary;
use wasm_bindgen_test::wasm_bindgen_test;

use super::{bytes, start};
use crate::route::Route;
use crate::state::App;
use crate::storage::memory::MemoryStore;
use crate::storage::{Kind, Store};

/// Someone of the demo with four visits.
const ONE: &str = "demo-person-6";
const TWIN: &str = "twin";

/// The demo as of one moment.
const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

async fn stored(people: Vec<Person>, visits: Vec<Visit>) -> Rc<MemoryStore> {
    let store = Rc::new(MemoryStore::new());
    let (app, _owner) = start(store.clone()).await;
    let closed = |visit: Visit| archive::closed(Visit { sha256: None, ..visit }, NOW);
    app.take_in(people, visits.into_iter().map(closed).collect()).await.expect("is taken in");
    store
}

async fn whole_store() -> Rc<MemoryStore> {
    let (people, visits) = demo::people(NOW);
    stored(people, visits).await
}

/// The demo, with the earlier two of these four visits kept with a second entry of the same name and birth.
async fn divided_store() -> Rc<MemoryStore> {
    let (mut people, mut visits) = demo::people(NOW);
    let one = people.iter().find(|person| person.id == ONE).expect("is in the demo").clone();
    people.push(Person { id: TWIN.into(), label: one.label.to_lowercase(), ..one });
    visits.sort_by_key(|visit| visit.started);
    visits.iter_mut().filter(|visit| visit.person == ONE).take(2).for_each(|visit| visit.person = TWIN.into());
    stored(people, visits).await
}

fn visits(app: App, person: &str) -> Option<Vec<Visit>> {
    untrack(|| app.visits_of(person))
}

async fn read_all(app: App, person: &str) -> Vec<Visit> {
    app.want_person(person);
    for _ in 0..200 {
        if let Some(visits) = visits(app, person) {
            return visits;
        }
        TimeoutFuture::new(5).await;
    }
    panic!("the visits of {person} were not read");
}

async fn over_time(app: App, person: &str) -> Document {
    let visits = read_all(app, person).await;
    summary::person::over_time(&untrack(|| app.whose(person)).expect("is known"), &visits)
}

/// What the latest visit of a person says has changed.
async fn changes(app: App, person: &str) -> Option<Changes> {
    let latest = read_all(app, person).await.into_iter().max_by_key(|visit| visit.started).expect("there is one");
    app.open(&latest.id);
    TimeoutFuture::new(50).await;
    let changes = app.changes.get_untracked();
    app.put_away();
    changes
}

/// Waits until everything is on the disk.
async fn written(app: App) {
    app.settle().await.expect("is written");
}

fn found(app: App, wanted: &str) -> Vec<(String, usize)> {
    untrack(|| app.people_seen(wanted)).into_iter().map(|seen| (seen.person.id, seen.visits)).collect()
}

#[wasm_bindgen_test]
async fn joined_entries_read_to_the_letter_as_one_person_who_never_was_two() {
    let (whole, _owner) = start(whole_store().await).await;
    let store = divided_store().await;
    let (app, _owner) = start(store.clone()).await;
    assert_eq!(app.likely.get_untracked(), [(ONE.to_string(), TWIN.to_string())]);
    assert_eq!(found(app, "n-14").len(), 2);
    assert_ne!(over_time(app, ONE).await.blocks, over_time(whole, ONE).await.blocks, "half of it is not the whole");
    let kept = store.list(Kind::Visit).await;

    let stands = app.join(TWIN, ONE).expect("joins");
    assert_eq!(stands.id, ONE, "of two that say the same the smaller id stands");
    assert!(app.likely.with_untracked(Vec::is_empty));
    assert_eq!(found(app, "n-14"), [(ONE.to_string(), 4)]);
    assert_eq!(app.people.get_untracked(), whole.people.get_untracked());
    for person in [ONE, TWIN] {
        assert_eq!(read_all(app, person).await.len(), 4, "asked by either id");
        assert_eq!(over_time(app, person).await.blocks, over_time(whole, ONE).await.blocks);
        assert_eq!(changes(app, person).await, changes(whole, ONE).await);
    }
    assert!(changes(app, ONE).await.is_some());
    assert_eq!(store.list(Kind::Visit).await, kept, "no visit was touched");

    written(app).await;
    let (again, _owner) = start(store.clone()).await;
    assert_eq!(found(again, ""), found(whole, ""), "a start later it is the same");
    again.undo_join(TWIN).expect("is undone");
    assert_eq!(found(again, "n-14").iter().map(|(_, visits)| *visits).collect::<Vec<_>>(), [2, 2]);
    assert_eq!((read_all(again, ONE).await.len(), read_all(again, TWIN).await.len()), (2, 2));
    assert!(again.likely.with_untracked(Vec::is_empty), "it was answered");
    let apart =
        |app: App, id: &str| untrack(|| app.apart_from(id)).into_iter().map(|side| side.person.id).collect::<Vec<_>>();
    assert_eq!((apart(again, ONE), apart(again, TWIN)), (vec![TWIN.to_string()], vec![ONE.to_string()]));
    again.join(ONE, TWIN).expect("joins again");
    assert_eq!(read_all(again, TWIN).await.len(), 4);
    assert!(apart(again, ONE).is_empty());
    written(again).await;
}

#[wasm_bindgen_test]
async fn two_who_are_not_the_same_are_not_asked_about_again() {
    let store = divided_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.keep_apart(ONE, TWIN).expect("is noted");
    written(app).await;
    let (again, _owner) = start(store.clone()).await;
    for app in [app, again] {
        assert!(app.likely.with_untracked(Vec::is_empty));
        assert_eq!(found(app, "n-14").len(), 2);
    }
    assert_eq!(store.ids(Kind::Ledger).await.map(|ids| ids.len()), Ok(1));
    again.elsewhere.set(true);
    assert!(again.join(ONE, TWIN).expect_err("another tab records").contains("another tab"));
    assert_eq!(found(again, "n-14").len(), 2);
}

#[wasm_bindgen_test]
async fn a_later_visit_of_the_other_settles_a_re_test_and_the_next_is_begun_for_the_one_who_stands() {
    let store = divided_store().await;
    let (app, _owner) = start(store.clone()).await;
    let due = || -> Vec<String> {
        let list = app.listed.with_untracked(|all| due::list(all.iter().map(|one| &one.entry), NOW.date()));
        list.into_iter().map(|due| due.person).collect()
    };
    let apart = due();
    assert!(apart.contains(&TWIN.to_string()), "nobody knows that the other one was seen since");
    app.join(ONE, TWIN).expect("joins");
    assert_eq!(due(), apart.into_iter().filter(|id| id != TWIN).collect::<Vec<_>>());
    app.begin(TWIN, "sideline", Vec::new());
    assert_eq!(
        app.current.with_untracked(|visit| visit.as_ref().map(|visit| visit.person.clone())).as_deref(),
        Some(ONE)
    );
    assert_eq!(app.person_now().map(|person| person.id).as_deref(), Some(ONE));
    app.undo_join(TWIN).expect("is undone");
    assert!(due().contains(&TWIN.to_string()));
    assert_eq!(app.person_now().map(|person| person.id).as_deref(), Some(ONE));
    written(app).await;
}

#[wasm_bindgen_test]
async fn all_entries_of_a_person_are_handed_over_and_erased_together() {
    let store = divided_store().await;
    let (app, _owner) = start(store.clone()).await;
    app.join(ONE, TWIN).expect("joins");
    let selection = untrack(|| app.selection(&Wanted::People([TWIN.to_string()].into())));
    assert_eq!((selection.visits.len(), selection.people.len()), (4, 1));
    let packed = app.pack(&selection).await.expect("packs");
    let file = archive::read(&packed.bytes).expect("opens");
    assert_eq!((file.people.len(), file.visits.len(), file.joins.len()), (2, 4, 1));
    assert!(file.visits.iter().all(archive::intact), "each visit is handed over as it was closed");
    assert_eq!(file.visits.iter().filter(|visit| visit.person == TWIN).count(), 2);

    let sides = untrack(|| app.entries_as_kept(TWIN));
    assert_eq!(
        sides.iter().map(|side| (side.person.id.as_str(), side.visits.len())).collect::<Vec<_>>(),
        [(ONE, 2), (TWIN, 2)]
    );
    assert_eq!(app.would_erase(ONE).visits.here, 4);
    app.show(Route::Home);
    app.erase(TWIN).await.expect("is erased");
    assert!(found(app, "n-14").is_empty());
    for person in [ONE, TWIN] {
        assert!(bytes(&*store, Kind::Person, person).await.is_none());
        assert!(bytes(&*store, Kind::Ledger, &format!("erased-{person}")).await.is_some());
    }
    let (again, _owner) = start(store).await;
    assert_eq!(again.people.with_untracked(Vec::len), 5);
    assert_eq!(again.listed.get_untracked(), app.listed.get_untracked());
}
