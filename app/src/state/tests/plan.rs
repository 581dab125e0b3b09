//! The row of a choice that is not signed off yet: from the first tap on the plan until it is signed or the visit ends.

use std::rc::Rc;

use gloo_timers::future::TimeoutFuture;
use leptos::prelude::*;
use sidelight_core::advice;
use sidelight_core::catalogue::Language;
use sidelight_core::exercise;
use sidelight_core::plan::{self, About, Choice, Edit};
use sidelight_core::seal;
use sidelight_core::sheet::{Sheet, read_draft};
use wasm_bindgen_test::wasm_bindgen_test;

use super::{bytes, demo_store, put, start};
use crate::state::{App, now, owner_of};
use crate::storage::sealed::{NewLock, SealedStore};
use crate::storage::{Kind, Store};

const PERSON: &str = "demo-person-1";

/// A visit that was begun, and its id.
async fn begun(store: Rc<dyn Store>) -> (App, leptos::reactive::owner::Owner, String) {
    let (app, owner) = start(store).await;
    app.begin(PERSON, "sideline", Vec::new());
    written().await;
    let id = app.current.with_untracked(|visit| visit.as_ref().expect("is open").id.clone());
    (app, owner, id)
}

async fn written() {
    TimeoutFuture::new(30).await;
}

fn proposed(app: App) -> plan::Plan {
    app.assessment.with_untracked(|assessment| {
        app.current.with_untracked(|visit| {
            let (assessment, visit) = (assessment.as_ref().expect("is read"), visit.as_ref().expect("is open"));
            plan::propose(assessment, &About::of(visit, assessment))
        })
    })
}

/// Advice alone, so that nothing that was not examined stands in the way of signing it.
fn choice(app: App) -> Choice {
    let empty = Choice::empty(&proposed(app), Language::Spanish);
    Choice { advice: vec![advice::ALL[1]], emergency: "112".into(), ..empty }
}

async fn row(store: &dyn Store, visit: &str) -> Option<Choice> {
    let bytes = bytes(store, Kind::Setting, &format!("plan-{visit}")).await?;
    read_draft(std::str::from_utf8(&bytes).expect("is text"))
}

#[wasm_bindgen_test]
async fn what_is_chosen_is_there_again_after_a_start() {
    let store = demo_store().await;
    let (app, _owner, id) = begun(store.clone()).await;
    assert!(!untrack(|| app.has_draft()) && app.drafted().await.is_none());
    let walk = exercise::by_id("steady_walk").expect("an exercise");
    let chosen = choice(app).edited(Edit::Add(walk)).edited(Edit::Emergency("11x".into()));
    app.keep_draft(chosen.clone());
    assert!(untrack(|| app.has_draft()));
    written().await;
    assert_eq!(row(&*store, &id).await.as_ref(), Some(&chosen), "also what is half typed");
    app.put_away();
    let (again, _owner) = start(store).await;
    assert_eq!(again.drafted().await, Some(chosen));
}

#[wasm_bindgen_test]
async fn a_choice_is_of_its_own_visit_alone() {
    let store = demo_store().await;
    let (app, _owner, first) = begun(store.clone()).await;
    app.keep_draft(choice(app));
    written().await;
    app.begin("demo-person-2", "sideline", Vec::new());
    written().await;
    assert!(!untrack(|| app.has_draft()), "someone else is in hand");
    assert_eq!(app.drafted().await, None);
    assert!(row(&*store, &first).await.is_some(), "and the first one's choice still lies there");
}

#[wasm_bindgen_test]
async fn signing_it_off_takes_the_row_away_and_keeps_the_sheet() {
    let store = demo_store().await;
    let (app, _owner, id) = begun(store.clone()).await;
    let chosen = choice(app);
    app.keep_draft(chosen.clone());
    written().await;
    let sign =
        |assessment: &Option<_>| chosen.sign_off(&proposed(app), assessment.as_ref().expect("is read"), "A. B.", now());
    let signed = app.assessment.with_untracked(sign).expect("nothing stands in the way");
    assert!(app.give(&signed));
    written().await;
    assert!(row(&*store, &id).await.is_none() && !untrack(|| app.has_draft()));
    let given = untrack(|| app.given()).expect("a sheet");
    assert_eq!(Sheet::decode(&given.text).expect("a sheet").advice, [advice::ALL[1]]);
}

#[wasm_bindgen_test]
async fn a_closed_visit_has_no_choice_and_takes_none() {
    let store = demo_store().await;
    let (app, _owner, id) = begun(store.clone()).await;
    let chosen = choice(app);
    app.keep_draft(chosen.clone());
    written().await;
    app.close().await;
    assert!(row(&*store, &id).await.is_none() && !untrack(|| app.has_draft()));
    app.keep_draft(chosen);
    written().await;
    assert!(row(&*store, &id).await.is_none() && !untrack(|| app.has_draft()));
}

#[wasm_bindgen_test]
async fn a_row_that_cannot_be_read_is_no_choice() {
    let store = demo_store().await;
    let (app, _owner, id) = begun(store.clone()).await;
    app.put_away();
    for damaged in [&b"PLAN2\nSHEET1.AAAA"[..], &[0xff, 0xfe], b""] {
        put(&*store, Kind::Setting, &format!("plan-{id}"), damaged).await;
        let (again, _owner) = start(store.clone()).await;
        assert!(again.current.with_untracked(Option::is_some), "the visit is in hand");
        assert_eq!(again.drafted().await, None);
        again.put_away();
    }
}

/// The row is of a person, so erasing them leaves it unreadable; until then it lies sealed.
#[wasm_bindgen_test]
async fn the_row_is_sealed() {
    let memory = demo_store().await;
    let lock = NewLock { key: seal::Key::from_bytes([3; 32]), kdf: seal::Kdf::default(), salt: vec![3; 16] };
    let sealed = Rc::new(SealedStore::create(memory.clone(), None, &lock, owner_of).await.expect("creates"));
    let (app, _owner, id) = begun(sealed.clone()).await;
    app.keep_draft(choice(app));
    written().await;
    assert!(row(&*sealed, &id).await.is_some());
    let beneath = bytes(&*memory, Kind::Setting, &format!("plan-{id}")).await.expect("a row");
    assert!(!beneath.windows(5).any(|part| part == b"PLAN1" || part == b"SHEET"), "it lies in clear");
}
