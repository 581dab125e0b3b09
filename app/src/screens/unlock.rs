//! Locked: the passphrase opens, a wrong one makes the next try wait, nothing is ever destroyed.

use gloo_timers::callback::Interval;
use leptos::html::Input;
use leptos::prelude::*;

use super::erase_device::EraseDevice;
use super::passphrase::{Field, ShowIt, WorkingOn, typed};
use crate::lock::Lock;
use crate::widgets::show::Show;

#[component]
pub fn Unlock() -> impl IntoView {
    let erasing = RwSignal::new(false);
    view! {
        {move || {
            if erasing.get() {
                let back = Callback::new(move |()| erasing.set(false));
                view! { <EraseDevice back /> }.into_any()
            } else {
                view! { <Locked erasing /> }.into_any()
            }
        }}
    }
}

#[component]
fn Locked(erasing: RwSignal<bool>) -> impl IntoView {
    let lock = Lock::get();
    let input = NodeRef::<Input>::new();
    let shown = RwSignal::new(false);
    let refused = RwSignal::new(None::<String>);
    let wait = RwSignal::new(lock.wait());
    let ticking = StoredValue::new_local(Some(Interval::new(500, move || wait.set(lock.wait()))));
    on_cleanup(move || {
        ticking.try_update_value(Option::take);
    });
    let submit = move |event: leptos::ev::SubmitEvent| {
        event.prevent_default();
        if lock.working.with_untracked(Option::is_some) {
            return;
        }
        refused.set(None);
        let passphrase = typed(input);
        leptos::task::spawn_local(async move {
            if let Err(why) = lock.unlock(&passphrase).await {
                refused.set(Some(why));
                wait.set(lock.wait());
            }
        });
    };
    let passkey = RwSignal::new(false);
    leptos::task::spawn_local(async move { passkey.set(lock.has_passkey().await) });
    let by_passkey = move |_| {
        refused.set(None);
        leptos::task::spawn_local(async move {
            if let Err(why) = lock.unlock_by_passkey().await {
                refused.set(Some(why));
            }
        });
    };
    let held = move || wait.get() > 0 || lock.working.with(Option::is_some);
    view! {
        <main class="screen" data-screen="unlock">
            <header>
                <h1 tabindex="-1" data-test="title">{say!("Locked")}</h1>
            </header>
            <form class="form" on:submit=submit>
                <div class="body" tabindex="0">
                    <p>{say!("The records on this device are sealed. An open visit goes on where it stood.")}</p>
                    <p class="refused" role="alert" data-test="lock-trouble">{move || lock.trouble.get()}</p>
                    <input type="text" name="username" autocomplete="username" value=say!("Sidelight") hidden />
                    <Field id="passphrase" label=say!("Passphrase") autocomplete="current-password" input shown />
                    <div class="chips">
                        <ShowIt shown />
                    </div>
                    <p class="refused" role="alert" data-test="refused">{move || refused.get()}</p>
                    <p class="soft" role="status" data-test="wait">
                        {move || {
                            let seconds = wait.get();
                            (seconds > 0).then(|| say!("Next try in {seconds} s.", seconds))
                        }}
                    </p>
                    <nav class="more" aria-label=say!("More")>
                        <button type="button" class="link" data-test="erase-device" on:click=move |_| erasing.set(true)>
                            {say!("Forgotten? Erase this device")}
                        </button>
                    </nav>
                </div>
                <WorkingOn />
                <footer>
                    <Show when=move || passkey.get()>
                        <button type="button" class="btn" data-test="by-passkey" on:click=by_passkey>{say!("With the passkey")}</button>
                    </Show>
                    <button type="submit" class="btn main" data-test="unlock" disabled=held>{say!("Open")}</button>
                </footer>
            </form>
        </main>
    }
}
