//! The task's own pads on a narrow strip at the edge of the stage, so that what is seen is tapped without looking away.

use leptos::prelude::*;
use sidelight_core::anatomy::Direction;
use sidelight_core::capture::answer::{Answer, Answers, Cell, Series, Tap};
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::form::{Choice, Field, GridForm, Kind, SeriesForm};
use sidelight_core::stage::{Offer, Wanted};
use sidelight_core::stimulus::program::{Cue, Program, What};
use sidelight_core::task;

use crate::platform::display::Display;
use crate::widgets::entry::Entry;
use crate::words;

/// Below this width the groups of a table stand one above the other, in CSS pixels.
const NARROW: f64 = 620.0;

/// The strip of one run.
#[derive(Clone, Copy)]
pub struct Taps {
    entry: Entry,
    of: Of,
}

#[derive(Clone, Copy)]
enum Of {
    Series(&'static SeriesForm),
    Grid(&'static GridForm, &'static str, [Direction; 2]),
}

impl Taps {
    /// The strip for what is shown; none when it is filled in afterwards.
    #[must_use]
    pub fn of(offer: &'static Offer, program: &Program) -> Option<Taps> {
        let task = task::by_id(offer.task)?;
        let field: &'static Field = task.form.field(offer.taps?)?;
        let of = match &field.kind {
            Kind::Series(form) => Of::Series(form),
            Kind::Grid(form) => {
                let (column, sides) = Wanted::graded(program)?;
                Of::Grid(form, column, sides)
            }
            Kind::One(_) | Kind::Many { .. } | Kind::Number(_) | Kind::Text { .. } | Kind::Day => return None,
            Kind::Ratings(_) | Kind::Trials(_) => return None,
        };
        if let (Of::Series(form), Program::Stripes(stripes)) = (of, program) {
            let pads = |way: &Direction| form.pads.iter().any(|pad| pad.id == way.word());
            if !stripes.toward.iter().all(pads) {
                return None;
            }
        }
        Some(Taps { entry: Entry::new(offer.task, field), of })
    }

    /// How much of the screen's height it takes, in CSS pixels.
    #[must_use]
    pub fn height(self, display: &Display) -> f64 {
        match self.of {
            Of::Grid(..) if display.width < NARROW => 238.0,
            Of::Series(_) | Of::Grid(..) => 142.0,
        }
    }

    /// Something began: stripes that are counted by direction are counted from here, or until here.
    pub fn told(self, cue: &Cue) {
        let Of::Series(form) = self.of else { return };
        if !form.run_by_pad {
            return;
        }
        match cue.what {
            What::Stripes(way) => self.entry.edit(Edit::StartRun(self.entry.key(), way.word().to_string(), None)),
            What::Rest => self.end(),
            What::Target(_) | What::Near | What::Far | What::Beat => {}
        }
    }

    /// The run is over.
    pub fn end(self) {
        let Of::Series(form) = self.of else { return };
        let key = self.entry.field.key;
        let open = |answers: &Answers| {
            answers.series(key).is_some_and(|series| series.runs.iter().any(|run| run.to_ms.is_none()))
        };
        if form.run_by_pad && self.entry.read(open).get_untracked() {
            self.entry.edit(Edit::StopRun(self.entry.key()));
        }
    }
}

/// The pads, with undo and what was tapped last. Whoever taps here looks at the screen as the person does, so the pad of
/// their right stands on the right, below the target that stands there.
#[component]
pub fn TapStrip(taps: Taps, height: f64) -> impl IntoView {
    let Taps { entry, of } = taps;
    let key = entry.field.key;
    let last = entry.read(move |answers| last(of, key, answers));
    let groups = match of {
        Of::Series(form) => form.pads.iter().map(|pad| view! { <PadGroup entry form pad /> }.into_any()).collect_view(),
        Of::Grid(form, column, sides) => {
            let rows = sides.iter().filter_map(|side| form.rows.iter().find(|row| row.id == side.word()));
            rows.map(|row| view! { <GradeGroup entry form row column /> }.into_any()).collect_view()
        }
    };
    let undo = move |_| entry.app.undo(&entry.slot());
    view! {
        <div class="stage-taps" data-test="stage-taps" style:height=format!("{height}px")>
            <div class="stage-taps-head">
                <span role="status" data-test="stage-last">{move || last.get()}</span>
                <button type="button" class="link" data-test="stage-undo" disabled=move || !entry.app.can_undo(&entry.slot()) on:click=undo>{say!("Undo")}</button>
            </div>
            <div class="stage-groups">{groups}</div>
        </div>
    }
}

#[component]
fn PadGroup(entry: Entry, form: &'static SeriesForm, pad: &'static Choice) -> impl IntoView {
    let key = entry.field.key;
    let state = entry.read(move |answers| {
        let nothing = Series::default();
        let series = answers.series(key).unwrap_or(&nothing);
        let running = series.runs.iter().any(|run| run.pad == pad.id && run.to_ms.is_none());
        (series.on(pad.id).count(), running)
    });
    let open = move || !form.run_by_pad || state.get().1;
    let button = move |mark: &'static sidelight_core::capture::form::MarkChoice| {
        let choice = &mark.choice;
        let tap = move |_| entry.edit(Edit::Tap(entry.key(), pad.id.to_string(), choice.id.to_string()));
        view! {
            <button
                type="button"
                class="btn"
                data-test=format!("tap-{}-{}", pad.id, choice.id)
                disabled=move || !open()
                aria-label=format!("{}: {}", words::of(pad.label), words::of(choice.label))
                on:click=tap
            >
                {words::of(choice.label)}
            </button>
        }
    };
    view! {
        <div class="stage-group" role="group" aria-label=words::of(pad.label)>
            <span class="pad-label">{words::of(pad.label)}" · "{move || state.get().0}</span>
            <div class="stage-buttons">{form.marks.iter().map(button).collect_view()}</div>
        </div>
    }
}

#[component]
fn GradeGroup(entry: Entry, form: &'static GridForm, row: &'static Choice, column: &'static str) -> impl IntoView {
    let key = entry.field.key;
    let graded = entry.read(move |answers| match answers.get(key) {
        Some(Answer::Grid(cells)) => {
            cells.iter().find(|cell| cell.row == row.id && cell.column == column).map(|cell| cell.grade.clone())
        }
        _ => None,
    });
    let button = move |grade: &'static Choice| {
        let press = move |_| {
            entry.edit(Edit::Grade(entry.key(), row.id.to_string(), column.to_string(), grade.id.to_string()));
        };
        view! {
            <button
                type="button"
                class="btn"
                data-test=format!("tap-{}-{}", row.id, grade.id)
                aria-pressed=move || graded.with(|id| id.as_deref() == Some(grade.id)).to_string()
                aria-label=format!("{}: {}", words::of(row.label), words::of(grade.label))
                on:click=press
            >
                {words::of(grade.label)}
            </button>
        }
    };
    view! {
        <div class="stage-group" role="group" aria-label=words::of(row.label)>
            <span class="pad-label">{words::of(row.label)}</span>
            <div class="stage-buttons">{form.grades.iter().map(button).collect_view()}</div>
        </div>
    }
}

/// What was tapped last, in words.
fn last(of: Of, key: &str, answers: &Answers) -> String {
    match of {
        Of::Series(form) => {
            let says = |tap: &Tap| {
                let mark = form
                    .marks
                    .iter()
                    .find(|mark| mark.choice.id == tap.mark)
                    .map_or("", |mark| words::of(mark.choice.label));
                format!("{}: {mark}", words::label(form.pads, &tap.pad))
            };
            answers.series(key).and_then(|series| series.taps.last()).map(says).unwrap_or_default()
        }
        Of::Grid(form, ..) => {
            let says = |cell: &Cell| {
                format!(
                    "{}, {}: {}",
                    words::label(form.rows, &cell.row),
                    words::label(form.columns, &cell.column),
                    words::label(form.grades, &cell.grade)
                )
            };
            match answers.get(key) {
                Some(Answer::Grid(cells)) => cells.last().map(says).unwrap_or_default(),
                _ => String::new(),
            }
        }
    }
}
