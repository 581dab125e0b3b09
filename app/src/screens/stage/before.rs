//! Questions before stripes are shown.

use leptos::prelude::*;
use sidelight_core::capture::safety::YES_NO;
use sidelight_core::stage::asked::{Asked, Question, Verdict};

use super::session::{Phase, Session};
use crate::memo::memo;
use crate::widgets::bar::Head;
use crate::widgets::chips::Chips;
use crate::widgets::show::Show;
use crate::widgets::text_box::TextBox;
use crate::words;

#[component]
pub fn Before(session: Session) -> impl IntoView {
    let back = Callback::new(move |()| session.phase.set(Phase::Choose));
    let verdict = memo(move |_| session.asked.with(Asked::verdict));
    let despite = RwSignal::new(session.asked.with_untracked(|asked| asked.despite.clone()));
    Effect::new(move |_| {
        let typed = despite.get();
        session.asked.update(|asked| asked.despite = typed);
    });
    // The box stays while a reason is typed into it.
    let why = memo(move |_| {
        session.asked.with(|asked| match (Asked { despite: String::new(), ..asked.clone() }).verdict() {
            Verdict::SayWhy(why) => Some(why),
            Verdict::Unasked | Verdict::Refused(_) | Verdict::Go => None,
        })
    });
    let refused = move || match verdict.get() {
        Verdict::Refused(says) => Some(words::of(says)),
        Verdict::Unasked | Verdict::SayWhy(_) | Verdict::Go => None,
    };
    view! {
        <main class="screen" data-screen="stage-before">
            <Head title=say!("Before stripes, ask").to_string() back=(say!("Back to the settings"), back) />
            <div class="body">
                {Question::ALL.map(|question| view! { <QuestionField session question /> }).collect_view()}
                <div role="status">
                    <Show when=move || refused().is_some()>
                        <p class="caution" data-test="stripes-refused">{refused}</p>
                    </Show>
                </div>
                <Show when=move || why.get().is_some()>
                    <p class="caution" data-test="stripes-why">{move || why.get().map(words::of)}" "{say!("If they are shown all the same, say why.")}</p>
                    <TextBox id="despite" label=say!("Reason to show them all the same") text=despite max=120 />
                </Show>
                <p class="soft">{say!("Stop at any odd feeling, twitch, dizziness or blur. Cover one eye and look away: closing both is not the same. Nobody watches stripes alone.")}</p>
            </div>
            <footer>
                <button type="button" class="btn main" data-test="stage-next" disabled=move || verdict.get() != Verdict::Go on:click=move |_| session.phase.set(Phase::Ready)>
                    {say!("Next")}
                </button>
            </footer>
        </main>
    }
}

#[component]
fn QuestionField(session: Session, question: Question) -> impl IntoView {
    let chosen = move || {
        let answer = session.asked.with(|asked| asked.answer(question))?;
        Some(if answer { "yes" } else { "no" }.to_string())
    };
    view! {
        <fieldset class="ask" data-test=question.id()>
            <legend>{words::of(question.asks())}</legend>
            <div class="chips">
                <Chips
                    name=format!("before-{}", question.id())
                    choices=YES_NO
                    chosen=Signal::derive(chosen)
                    on_pick=move |id: &'static str| session.asked.update(|asked| *asked = asked.clone().with(question, id == "yes"))
                />
            </div>
        </fieldset>
    }
}
