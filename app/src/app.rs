//! The root: joins storage to state, and shows the screen of the address.

use leptos::prelude::*;
use sidelight_core::demo;

use crate::lock::{Keeping, Lock, Opened, Phase, watch};
use crate::memo::memo;
use crate::platform::settings::{self, Hand, Settings};
use crate::platform::tab_lock::{self, Ownership};
use crate::platform::{hash_route, service_worker, theme, visibility};
use crate::route::Route;
use crate::screens::about::About;
use crate::screens::calibrate::Calibrate;
use crate::screens::clinic_key::ClinicKey;
use crate::screens::erase_device::{EraseDevice, ErasedDevice};
use crate::screens::erase_person::ErasePerson;
use crate::screens::export::Export;
use crate::screens::first_run::FirstRun;
use crate::screens::hand_over::HandOver;
use crate::screens::home::Home;
use crate::screens::home_practice::HomePractice;
use crate::screens::likely::Likely;
use crate::screens::norms::Norms;
use crate::screens::passphrase::{ChangePassphrase, MakePassphrase};
use crate::screens::people::People;
use crate::screens::plan::PlanScreen;
use crate::screens::receipt::ReceiptScreen;
use crate::screens::routine::RoutineScreen;
use crate::screens::routines::Routines;
use crate::screens::safe::Safe;
use crate::screens::seen::Seen;
use crate::screens::settings::SettingsScreen;
use crate::screens::sheet::SheetScreen;
use crate::screens::stage::StageScreen;
use crate::screens::step::StepScreen;
use crate::screens::take_in::TakeIn;
use crate::screens::unlock::Unlock;
use crate::screens::who::Who;
use crate::state::{App, now};
use crate::storage::indexed_db::fresh_log;
use crate::widgets::show::Show;
use crate::words;

/// Everything on the page.
#[component]
pub fn Root() -> impl IntoView {
    let lock = Lock::new(tab_lock::claim());
    provide_context(lock);
    let address = hash_route::signal();
    show_settings(&settings::load());
    leptos::task::spawn_local(async move {
        lock.start().await;
        // The browser then looks for a new version, which would hold up the start.
        service_worker::register();
        fresh_log::begin().await;
    });
    crate::platform::private_files::keep();
    Effect::new(move |_| {
        let _ = lock.phase();
        hash_route::to_title();
    });
    view! {
        {move || match lock.phase() {
            Phase::Opening => ().into_any(),
            Phase::FirstRun => view! { <FirstRun /> }.into_any(),
            Phase::Make { clear } => view! { <MakePassphrase clear /> }.into_any(),
            Phase::Locked => view! { <Unlock /> }.into_any(),
            Phase::Erased(erased) => view! { <ErasedDevice erased /> }.into_any(),
            Phase::Open(opened) => view! { <Ready opened address /> }.into_any(),
        }}
    }
}

/// The program at work. Its state goes with it when it is locked.
#[component]
fn Ready(opened: Opened, address: ReadSignal<String>) -> impl IntoView {
    let lock = Lock::get();
    let Opened { store, keeping, trouble } = opened;
    let app = App::new(store, settings::load());
    provide_context(app);
    lock.attend(app);
    // Until the visit that was in hand is taken up again, its screen would say that there is none.
    let up = RwSignal::new(false);
    leptos::task::spawn_local(async move {
        app.load().await;
        if let Some(key) = lock.take_in_hand() {
            app.take_up(&key).await;
        }
        up.set(true);
        if let Some(error) = trouble {
            app.unreadable
                .update(|all| all.push(say!("{error} Nothing will be kept after this page is closed.", error)));
        }
        if keeping == Keeping::Demo && app.people.with_untracked(Vec::is_empty) {
            let (people, visits) = demo::people(now());
            if let Err(why) = app.take_in(people, visits).await {
                app.said.set(Some(why));
            }
        }
    });
    follow_address(app, address);
    Effect::new(move |_| app.elsewhere.set(lock.ownership.get() == Ownership::OtherTab));
    Effect::new(move |_| app.settings.with(show_settings));
    let watch = (keeping == Keeping::Sealed).then(|| watch::start(lock, app));
    let held = StoredValue::new_local(Some((visibility::on_hidden(move || app.flush()), watch)));
    on_cleanup(move || {
        held.try_update_value(Option::take);
    });
    // The list of people stays as it is, search and all, while one after the other is chosen from it.
    let place = memo(move |_| match app.route.get() {
        Route::Person(_) => Route::People,
        other => other,
    });
    let language = memo(move |_| app.settings.with(|settings| settings.language.clone()));
    view! {
        <Show when=move || app.ready.get() && up.get()>
            {move || {
                // Another language draws the screen anew.
                words::speak(&language.get());
                screen(place.get())
            }}
        </Show>
    }
}

fn screen(route: Route) -> AnyView {
    match route {
        Route::Home => view! { <Home /> }.into_any(),
        Route::Who => view! { <Who chosen=None /> }.into_any(),
        Route::WhoFor(id) => view! { <Who chosen=Some(id) /> }.into_any(),
        Route::People | Route::Person(_) => view! { <People /> }.into_any(),
        Route::Likely => view! { <Likely /> }.into_any(),
        Route::Step(slot) => view! { <StepScreen record=slot /> }.into_any(),
        Route::Plan => view! { <PlanScreen /> }.into_any(),
        Route::Sheet => view! { <SheetScreen /> }.into_any(),
        Route::Seen => view! { <Seen /> }.into_any(),
        Route::Routines => view! { <Routines /> }.into_any(),
        Route::Routine(id) => view! { <RoutineScreen routine=id /> }.into_any(),
        Route::Stage(task) => view! { <StageScreen task visit=true /> }.into_any(),
        Route::StageAlone(task) => view! { <StageScreen task=Some(task) visit=false /> }.into_any(),
        Route::Calibrate(then) => view! { <Calibrate then /> }.into_any(),
        Route::Passphrase => view! { <ChangePassphrase /> }.into_any(),
        Route::EraseDevice => {
            let app = App::get();
            view! { <EraseDevice app back=Callback::new(move |()| app.show(Route::Settings)) /> }.into_any()
        }
        Route::TakeIn => view! { <TakeIn /> }.into_any(),
        Route::Export => view! { <Export /> }.into_any(),
        Route::Settings => view! { <SettingsScreen /> }.into_any(),
        Route::Safe => view! { <Safe /> }.into_any(),
        Route::HandOver => view! { <HandOver /> }.into_any(),
        Route::ClinicKey => view! { <ClinicKey /> }.into_any(),
        Route::Receipt => view! { <ReceiptScreen /> }.into_any(),
        Route::HomePractice => view! { <HomePractice /> }.into_any(),
        Route::Erase(id) => view! { <ErasePerson id /> }.into_any(),
        Route::About => view! { <About /> }.into_any(),
        Route::Norms => view! { <Norms /> }.into_any(),
    }
}

/// The browser's own back and forward change the address; the screen follows, and starts at its top.
fn follow_address(app: App, address: ReadSignal<String>) {
    Effect::new(move |_| {
        let route = Route::parse(&address.get());
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

fn show_settings(settings: &Settings) {
    words::speak(&settings.language);
    theme::language(words::language().tag());
    theme::show(settings.theme);
    theme::mark("hand", if settings.hand == Hand::Left { "left" } else { "right" });
}
