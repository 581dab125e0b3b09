//! What was shown goes into the task's record, with what was told and what was asked before.

use leptos::prelude::{GetUntracked, WithUntracked};
use sidelight_core::capture::edit::Edit;
use sidelight_core::stage::Wanted;

use super::session::Session;
use crate::state::{App, now};
use crate::widgets::stage::Shown;

/// It was shown here. On a device that asks for less motion it was confirmed before, and that is kept too.
pub fn here(session: Session, shown: &Shown) {
    let Shown { safe, run, at, seconds, ended } = shown;
    let asked = safe.asks_first().then(|| session.asked.get_untracked());
    let showing =
        session.wanted.with_untracked(|wanted| wanted.showing(safe, run, *at, *seconds, ended.early(), asked.as_ref()));
    let showing = if session.moves_all_the_same() { showing.despite_less_motion() } else { showing };
    session.app.edit(session.offer.task, Edit::Shown(showing));
}

/// It was shown on another screen.
pub fn elsewhere(app: App, wanted: &Wanted) {
    app.edit(wanted.offer.task, Edit::Shown(wanted.showing_elsewhere(now())));
}
