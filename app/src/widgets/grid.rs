//! A table of grades: the cell in hand is graded with large buttons below, and the next one comes by itself.

use leptos::prelude::*;
use sidelight_core::capture::answer::{Answer, Cell};
use sidelight_core::capture::edit::Edit;
use sidelight_core::capture::form::{Choice, GridForm};

use super::entry::Entry;
use crate::widgets::show::Show;
use crate::words;

/// A cell of the table: row id and column id.
type Place = (&'static str, &'static str);

#[component]
pub fn GridField(entry: Entry, form: &'static GridForm) -> impl IntoView {
    let key = entry.field.key;
    let cells = entry.read(move |answers| match answers.get(key) {
        Some(Answer::Grid(cells)) => cells.clone(),
        _ => Vec::new(),
    });
    let graded = RwSignal::new(None::<Place>);
    let find = move |(row, column): (&str, &str)| {
        cells.with(|cells| cells.iter().find(|cell| cell.row == row && cell.column == column).cloned())
    };
    // Column by column: all directions slowly, then all of them fast. A cell that has its grade is passed over, so that
    // a tap too many never grades another one anew.
    let places = move || {
        let column = |column: &'static Choice| form.rows.iter().map(move |row| (row.id, column.id));
        form.columns.iter().flat_map(column).collect::<Vec<Place>>()
    };
    let open_from = move |from: usize| {
        let places = places();
        let turned = places.iter().cycle().skip(from).take(places.len()).copied();
        untrack(|| turned.into_iter().find(|place| find(*place).is_none()))
    };
    // The cell in hand; none when the last one got its grade.
    let at = RwSignal::new(open_from(0));
    let grade = move |id: &'static str| {
        let Some((row, column)) = at.get_untracked() else { return };
        entry.edit(Edit::Grade(entry.key(), row.to_string(), column.to_string(), id.to_string()));
        graded.set(Some((row, column)));
        let here = places().iter().position(|place| *place == (row, column)).unwrap_or(0);
        at.set(open_from(here + 1));
    };
    view! {
        <section class="grid" data-test=key data-count=move || cells.with(Vec::len) aria-label=words::of(entry.field.ask)>
            <h2>{words::of(entry.field.ask)}</h2>
            <table>
                <thead>
                    <tr>
                        <td></td>
                        {form.columns.iter().map(|column| view! { <th scope="col">{words::of(column.label)}</th> }).collect_view()}
                    </tr>
                </thead>
                <tbody>{form.rows.iter().map(|row| view! { <Row form row at find /> }).collect_view()}</tbody>
            </table>
            {(form.cycles > 0).then(|| view! { <Cycles entry form graded find /> })}
            <div class="lower">
                <p class="pad-label" data-test="cell-in-hand">
                    {move || match at.get() {
                        Some((row, column)) => format!("{}, {}", words::label(form.rows, row), words::label(form.columns, column)),
                        None => say!("All graded. Tap one to change it.").to_string(),
                    }}
                </p>
                <div class="grades">
                    {form.grades.iter().map(|choice| view! { <GradeButton choice idle=Signal::derive(move || at.with(Option::is_none)) on_press=grade /> }).collect_view()}
                </div>
            </div>
        </section>
    }
}

#[component]
fn GradeButton(
    choice: &'static Choice,
    /// Whether there is no cell to grade; it keeps the focus then.
    idle: Signal<bool>,
    on_press: impl Fn(&'static str) + 'static,
) -> impl IntoView {
    view! {
        <button
            type="button"
            class="btn"
            data-test=format!("grade-{}", choice.id)
            aria-disabled=move || idle.get().then_some("true")
            on:click=move |_| on_press(choice.id)
        >
            {words::of(choice.label)}
            {(!choice.hint.is_empty()).then(|| view! { <small>{words::of(choice.hint)}</small> })}
        </button>
    }
}

#[component]
fn Row(
    form: &'static GridForm,
    row: &'static Choice,
    at: RwSignal<Option<Place>>,
    find: impl Fn((&str, &str)) -> Option<Cell> + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let cell = move |column: &'static Choice| {
        let here = (row.id, column.id);
        let text = move || match find(here) {
            Some(Cell { grade, from_cycle: Some(cycle), .. }) => {
                say!("{grade}, from turn {cycle}", grade = words::label(form.grades, &grade), cycle)
            }
            Some(Cell { grade, .. }) => words::label(form.grades, &grade).to_string(),
            None => "–".to_string(),
        };
        let rank = move || find(here).and_then(|cell| form.grades.iter().position(|grade| grade.id == cell.grade));
        view! {
            <td>
                <button
                    type="button"
                    class="cell"
                    data-test=format!("cell-{}-{}", row.id, column.id)
                    data-rank=move || rank().map(|rank| rank.to_string())
                    aria-pressed=move || (at.get() == Some(here)).to_string()
                    aria-label=move || format!("{}, {}: {}", words::of(row.label), words::of(column.label), text())
                    on:click=move |_| at.set(Some(here))
                >
                    {text}
                </button>
            </td>
        }
    };
    view! {
        <tr>
            <th scope="row">{words::of(row.label)}</th>
            {form.columns.iter().map(cell).collect_view()}
        </tr>
    }
}

/// From which turn on the grade just given was seen; offered for anything but the best grade.
#[component]
fn Cycles(
    entry: Entry,
    form: &'static GridForm,
    graded: RwSignal<Option<Place>>,
    find: impl Fn((&str, &str)) -> Option<Cell> + Copy + Send + Sync + 'static,
) -> impl IntoView {
    let best = form.grades.first().map_or("", |grade| grade.id);
    let last = move || graded.get().and_then(find).filter(|cell| cell.grade != best);
    let chip = move |cycle: u8| {
        let set = move |_| {
            let Some((row, column)) = graded.get_untracked() else { return };
            entry.edit(Edit::FromCycle(entry.key(), row.to_string(), column.to_string(), Some(cycle)));
        };
        view! {
            <button
                type="button"
                class="chip-button"
                data-test=format!("from-{cycle}")
                aria-pressed=move || (last().and_then(|cell| cell.from_cycle) == Some(cycle)).to_string()
                on:click=set
            >
                {cycle}
            </button>
        }
    };
    view! {
        <Show when=move || last().is_some()>
            <div class="remarks" role="group" aria-label=say!("From which turn on")>
                <span class="soft">
                    {move || last().map(|cell| say!("{row}, {column}: from turn", row = words::label(form.rows, &cell.row), column = words::label(form.columns, &cell.column)))}
                </span>
                {(1..=form.cycles).map(chip).collect_view()}
            </div>
        </Show>
    }
}
