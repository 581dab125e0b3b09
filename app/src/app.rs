//! The root: joins storage to state, and shows the screen of the address.

use std::rc::Rc;

use leptos::prelude::*;

use crate::platform::settings::{self, Hand};
use crate::platform::tab_lock::{self, Ownership};
use crate::platform::{hash_route, service_worker, theme, visibility};
use crate::route::Route;
use crate::screens::about::About;
use crate::screens::clinic_key::ClinicKey;
use crate::screens::erase_person::ErasePerson;
use crate::screens::hand_over::HandOver;
use crate::screens::home::Home;
use crate::screens::norms::Norms;
use crate::screens::people::People;
use crate::screens::receipt::ReceiptScreen;
use crate::screens::routine::RoutineScreen;
use crate::screens::routines::Routines;
use crate::screens::safe::Safe;
use crate::screens::seen::Seen;
use crate::screens::settings::SettingsScreen;
use crate::screens::step::StepScreen;
use crate::screens::who::Who;
use crate::state::App;
use crate::storage::indexed_db::IndexedDb;
use crate::storage::memory::MemoryStore;
use crate::storage::{StorageError, Store};

/// Everything on the page.
#[component]
pub fn Root() -> impl IntoView {
    let opened = RwSignal::new_local(None::<(Rc<dyn Store>, Option<StorageError>)>);
    leptos::task::spawn_local(async move {
        let (store, trouble): (Rc<dyn Store>, _) = match IndexedDb::open().await {
            Ok(store) => (Rc::new(store), None),
            // Without a database the program still examines and prints; it says that nothing is kept.
            Err(error) => (Rc::new(MemoryStore::new()), Some(error)),
        };
        opened.set(Some((store, trouble)));
    });
    view! {
        {move || opened.get().map(|(store, trouble)| view! { <Ready store trouble /> })}
    }
}

#[component]
fn Ready(store: Rc<dyn Store>, trouble: Option<StorageError>) -> impl IntoView {
    let app = App::new(store, settings::load());
    provide_context(app);
    leptos::task::spawn_local(async move {
        app.load().await;
        if let Some(error) = trouble {
            app.unreadable.update(|all| all.push(format!("{error} Nothing will be kept after this page is closed.")));
        }
    });
    follow_address(app);
    follow_tabs(app);
    follow_settings(app);
    visibility::on_hidden(move || app.flush());
    service_worker::register();
    // The list of people stays as it is, search and all, while one after the other is chosen from it.
    let place = Memo::new(move |_| match app.route.get() {
        Route::Person(_) => Route::People,
        other => other,
    });
    view! {
        <Show when=move || app.ready.get()>
            {move || screen(place.get())}
        </Show>
    }
}

fn screen(route: Route) -> AnyView {
    match route {
        Route::Home => view! { <Home /> }.into_any(),
        Route::Who => view! { <Who chosen=None /> }.into_any(),
        Route::WhoFor(id) => view! { <Who chosen=Some(id) /> }.into_any(),
        Route::People | Route::Person(_) => view! { <People /> }.into_any(),
        Route::Step(slot) => view! { <StepScreen record=slot /> }.into_any(),
        Route::Seen => view! { <Seen /> }.into_any(),
        Route::Routines => view! { <Routines /> }.into_any(),
        Route::Routine(id) => view! { <RoutineScreen routine=id /> }.into_any(),
        Route::Settings => view! { <SettingsScreen /> }.into_any(),
        Route::Safe => view! { <Safe /> }.into_any(),
        Route::HandOver => view! { <HandOver /> }.into_any(),
        Route::ClinicKey => view! { <ClinicKey /> }.into_any(),
        Route::Receipt => view! { <ReceiptScreen /> }.into_any(),
        Route::Erase(id) => view! { <ErasePerson id /> }.into_any(),
        Route::About => view! { <About /> }.into_any(),
        Route::Norms => view! { <Norms /> }.into_any(),
    }
}

/// The browser's own back and forward change the address; the screen follows, and starts at its top.
fn follow_address(app: App) {
    let hash = hash_route::signal();
    Effect::new(move |_| {
        let route = Route::parse(&hash.get());
        if app.route.get_untracked() != route {
            app.said.set(None);
            app.route.set(route);
        }
    });
    Effect::new(move |_| {
        app.route.track();
        hash_route::to_title();
    });
}

/// Only one tab writes. The others say so, and take over when it closes.
fn follow_tabs(app: App) {
    let ownership = tab_lock::claim();
    Effect::new(move |_| app.elsewhere.set(ownership.get() == Ownership::OtherTab));
}

fn follow_settings(app: App) {
    Effect::new(move |_| {
        app.settings.with(|settings| {
            theme::show(settings.theme);
            theme::mark("hand", if settings.hand == Hand::Left { "left" } else { "right" });
        });
    });
}
