//! What the parts of the plan's screen share: the plan, the choice, and why it is not signed off yet.

use leptos::prelude::*;
use sidelight_core::capture::home::{Despite, Given};
use sidelight_core::exercise::{self, Exercise};
use sidelight_core::plan::{self, About, Because, Choice, Edit, NotYet, Plan};
use sidelight_core::sheet::Sheet;

use super::FIRST_LANGUAGE;
use crate::memo::memo;
use crate::platform::focus;
use crate::route::Route;
use crate::state::{App, now};

#[derive(Clone, Copy)]
pub struct Desk {
    pub app: App,
    /// What the findings speak for; follows every change of the visit.
    pub plan: Memo<Plan>,
    pub choice: RwSignal<Choice>,
    pub not_yet: RwSignal<Option<NotYet>>,
}

impl Desk {
    /// Goes on with what was drafted, else with what was given last, else with nothing.
    pub fn new(app: App, drafted: Option<Choice>) -> Desk {
        let plan = memo(move |_| {
            let made = app.assessment.with(|assessment| {
                app.current.with(|visit| {
                    let (assessment, visit) = (assessment.as_ref()?, visit.as_ref()?);
                    Some(plan::propose(assessment, &About::of(visit, assessment)))
                })
            });
            made.unwrap_or_else(nothing)
        });
        let empty = || plan.with_untracked(|plan| Choice::empty(plan, FIRST_LANGUAGE));
        let choice = drafted.or_else(|| untrack(|| given_again(&app.given()?))).unwrap_or_else(empty);
        Desk { app, plan, choice: RwSignal::new(choice), not_yet: RwSignal::new(None) }
    }

    pub fn edit(self, edit: Edit) {
        self.put(self.choice.get_untracked().edited(edit));
    }

    pub fn add_proposed(self) {
        let choice = self.choice.get_untracked();
        self.put(self.plan.with_untracked(|plan| choice.with_proposed(plan)));
    }

    pub fn sign_off(self, by: &str) {
        let choice = self.choice.get_untracked();
        let signed = self.app.assessment.with_untracked(|assessment| {
            let assessment = assessment.as_ref()?;
            Some(self.plan.with_untracked(|plan| choice.sign_off(plan, assessment, by, now())))
        });
        match signed {
            Some(Ok(signed)) => {
                self.not_yet.set(None);
                if self.app.give(&signed) {
                    self.app.show(Route::Sheet);
                }
            }
            Some(Err(not_yet)) => {
                let place = place(&not_yet, &choice);
                self.not_yet.set(Some(not_yet));
                focus::on_first_enabled(&[&place]);
            }
            None => {}
        }
    }

    /// What speaks for an exercise.
    pub fn because(self, exercise: &Exercise) -> Vec<Because> {
        self.plan.with(|plan| {
            let proposed = plan.proposed.iter().find(|one| one.exercise == exercise).map(|one| one.because.clone());
            let removed = || plan.removed.iter().find(|one| one.exercise == exercise).map(|one| one.because.clone());
            proposed.or_else(removed).unwrap_or_default()
        })
    }

    /// What speaks against it, as phrases.
    pub fn against(self, exercise: &Exercise) -> Vec<String> {
        self.app.assessment.with(|assessment| {
            let Some(assessment) = assessment.as_ref() else { return Vec::new() };
            self.plan.with(|plan| plan.about.against(exercise, assessment))
        })
    }

    fn put(self, choice: Choice) {
        self.not_yet.set(None);
        self.app.keep_draft(choice.clone());
        self.choice.set(choice);
    }
}

/// The choice a sheet was made from, with the reasons that stay in the practice.
fn given_again(given: &Given) -> Option<Choice> {
    let choice = Sheet::decode(&given.text).ok()?.choice();
    let with = |choice: Choice, despite: &Despite| match exercise::by_id(&despite.exercise) {
        Some(exercise) => choice.edited(Edit::Despite(exercise, despite.why.clone())),
        None => choice,
    };
    Some(given.despite.iter().fold(choice, with))
}

/// The id of the element that says why, beside what it means.
fn place(not_yet: &NotYet, choice: &Choice) -> String {
    let of = |title: &str, what: &str| {
        let item = choice.items.iter().find(|item| item.exercise.title == title);
        item.map(|item| format!("{what}-{}", item.exercise.id)).unwrap_or_default()
    };
    match not_yet {
        NotYet::Held(_) => "not-yet-held".to_string(),
        NotYet::Nothing | NotYet::TooMany => "not-yet-list".to_string(),
        NotYet::Barred { title, .. } => of(title, "despite"),
        NotYet::Dose { title, .. } => of(title, "not-yet-dose"),
        NotYet::Limits => "not-yet-limits".to_string(),
        NotYet::Emergency => "emergency-number".to_string(),
        NotYet::Nobody => "signed-by".to_string(),
    }
}

/// Before there is an assessment: nothing is proposed, and nothing may be given.
fn nothing() -> Plan {
    Plan {
        about: About::default(),
        held: Some(say!("nothing was examined yet").to_string()),
        proposed: Vec::new(),
        removed: Vec::new(),
        advice: Vec::new(),
        remarks: Vec::new(),
    }
}
