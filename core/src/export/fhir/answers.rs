//! Filled forms as they were recorded: every answer, with our own codes for what was chosen.

use serde_json::{Value, json};

use super::Entry;
use super::codes::{NONE, answer};
use super::object::{Object, clean, day, time};
use super::parts::{own, quantity};
use super::scene::Scene;
use super::units::SCORE;
use crate::capture::answer::{Answer, Answers, Cell, Made, Run, Series, Tap, Trial};
use crate::capture::form::{Choice, Field, Form, Kind, label};
use crate::capture::record::{Record, State};
use crate::capture::showing::{self, Setting, Showing};
use crate::capture::{decision, frame, safety, stop, symptoms};
use crate::task;

/// Every record of the visit.
pub fn entries(scene: &Scene<'_>) -> Vec<Entry> {
    let mut distinct = super::observation::Distinct::default();
    let entry = |record: &Record| {
        let name = scene.name.part(&distinct.name(&format!("answers/{}", record.slot)));
        let authored = record.ended.or(record.started).unwrap_or(scene.visit().started);
        let resource = scene
            .resource("QuestionnaireResponse", name)
            .put("identifier", name.identifier())
            .put("status", status(record, scene.visit().closed.is_some()))
            .maybe("authored", time(authored))
            .put("author", super::people::program_name(&scene.visit().program).reference())
            .list("item", items(record));
        Entry::new(name, resource)
    };
    scene.visit().records.iter().map(entry).collect()
}

fn status(record: &Record, closed: bool) -> &'static str {
    match record.state {
        State::Done => "completed",
        State::Open if !closed => "in-progress",
        State::Open | State::NotDone(_) | State::NotTestable(_) => "stopped",
    }
}

fn items(record: &Record) -> Vec<Value> {
    let form = form_of(record.form());
    let skipped = match &record.state {
        State::Open | State::Done => None,
        State::NotDone(reason) => Some(("absent.not_done", reason)),
        State::NotTestable(reason) => Some(("absent.not_testable", reason)),
    };
    let link = format!("{}.state", record.form());
    let reason = skipped.map(|(code, reason)| {
        let said = clean(reason).map(|text| json!({ "valueString": text }));
        item(&link, "how far it came", [json!({ "valueCoding": own(code) })].into_iter().chain(said).collect())
    });
    let told = answers(record.form(), form.map_or(&[], |form| form.fields), &record.answers);
    let shown = record.showings.iter().flat_map(|showing| of_showing(record.form(), showing));
    reason.into_iter().flatten().chain(told).chain(shown).collect()
}

/// What a screen showed: the words a reader needs, then each setting by its key.
fn of_showing(form: &str, showing: &Showing) -> Vec<Value> {
    let link = format!("{form}.shown");
    let words = |text: &str| clean(text).map(|text| json!({ "valueString": text })).into_iter().collect::<Vec<_>>();
    let says = showing::says(showing).iter().flat_map(|said| words(said)).collect();
    let setting = |setting: &Setting| {
        let answers = match &setting.value {
            showing::Value::Number(value) => {
                let unit = UNITS.iter().find(|unit| **unit == setting.unit).copied();
                unit.and_then(|unit| quantity(*value, unit))
                    .map(|number| json!({ "valueQuantity": number }))
                    .into_iter()
                    .collect()
            }
            showing::Value::Word(word) => words(word),
            showing::Value::Newer => Vec::new(),
        };
        item(&format!("{link}.{}", setting.key), &setting.key, answers)
    };
    let parts =
        [item(&format!("{link}.words"), "in words", says)].into_iter().chain(showing.settings.iter().map(setting));
    group(&link, "shown on a screen", parts.flatten())
}

/// Units of settings.
const UNITS: [&str; 5] = ["", "°", "°/s", "s", "/min"];

fn form_of(id: &str) -> Option<&'static Form> {
    let parts = [&frame::FORM, &safety::FORM, &symptoms::FORM, &stop::FORM, &decision::FORM];
    parts.into_iter().find(|form| form.id == id).or_else(|| task::by_id(id).map(|task| task.form))
}

fn answers(form: &str, fields: &'static [Field], answers: &Answers) -> Vec<Value> {
    let told = answers.iter().flat_map(|(key, answer)| {
        let field = fields.iter().find(|field| field.key == key);
        told(&format!("{form}.{key}"), field, answer)
    });
    told.collect()
}

/// One answer as items. `link` is form and field; an answer its field cannot take is told as it stands.
fn told(link: &str, field: Option<&'static Field>, answer: &Answer) -> Vec<Value> {
    let ask = field.map_or(link, |field| field.ask);
    let choices = field.map_or(&[][..], choices);
    let (form, key) = link.rsplit_once('.').unwrap_or((link, ""));
    let chosen = |id: &str| chosen(form, key, choices, id);
    let one = |answers: Vec<Value>| item(link, ask, answers).into_iter().collect();
    match answer {
        Answer::One(id) => one(vec![chosen(id)]),
        Answer::Many(ids) if ids.is_empty() => {
            let none = super::codes::answer(form, key, NONE);
            one(vec![match super::codes::display(&none) {
                Some(_) => json!({ "valueCoding": own(&none) }),
                None => json!({ "valueString": "none of these" }),
            }])
        }
        Answer::Many(ids) => one(ids.iter().map(|id| chosen(id)).collect()),
        Answer::Number(value) => {
            let unit = if let Some(Kind::Number(asked)) = field.map(|field| &field.kind) { asked.unit } else { "" };
            one(quantity(*value, unit).map(|number| json!({ "valueQuantity": number })).into_iter().collect())
        }
        Answer::Text(text) => one(clean(text).map(|text| json!({ "valueString": text })).into_iter().collect()),
        Answer::Day(date) => one(day(*date).map(|date| json!({ "valueDate": date })).into_iter().collect()),
        Answer::Ratings(ratings) => group(
            link,
            ask,
            ratings.iter().filter_map(|(id, value)| {
                let number = json!({ "valueQuantity": quantity(f64::from(*value), SCORE)? });
                item(&format!("{link}.{}", clean(id)?), label(choices, id), vec![number])
            }),
        ),
        Answer::Trials(trials) => trials.iter().flat_map(|trial| of_trial(link, field, trial)).collect(),
        Answer::Series(series) => of_series(link, field, series),
        Answer::Grid(cells) => group(link, ask, cells.iter().filter_map(|cell| of_cell(link, field, cell))),
    }
}

fn choices(field: &'static Field) -> &'static [Choice] {
    match &field.kind {
        Kind::One(choices) | Kind::Many { choices, .. } | Kind::Ratings(choices) => choices,
        Kind::Number(_) | Kind::Text { .. } | Kind::Day | Kind::Trials(_) | Kind::Series(_) | Kind::Grid(_) => &[],
    }
}

/// A choice by its code; one of a newer program in its own letters.
fn chosen(form: &str, key: &str, choices: &[Choice], id: &str) -> Value {
    let code = answer(form, key, id);
    match super::codes::display(&code) {
        Some(_) => json!({ "valueCoding": own(&code) }),
        None => json!({ "valueString": clean(label(choices, id)).unwrap_or_else(|| "blank".to_string()) }),
    }
}

fn of_trial(link: &str, field: Option<&'static Field>, trial: &Trial) -> Vec<Value> {
    let fields = if let Some(Kind::Trials(form)) = field.map(|field| &field.kind) { form.fields } else { &[] };
    let at = item(&format!("{link}.at"), "after the start", vec![after(trial.at_ms)]);
    group(link, field.map_or(link, |field| field.ask), at.into_iter().chain(answers(link, fields, &trial.answers)))
}

fn of_series(link: &str, field: Option<&'static Field>, series: &Series) -> Vec<Value> {
    let pads = if let Some(Kind::Series(form)) = field.map(|field| &field.kind) { form.pads } else { &[] };
    let runs = series.runs.iter().flat_map(|run| of_run(link, pads, run));
    let taps = series.taps.iter().filter_map(|tap| of_tap(link, pads, tap));
    group(link, field.map_or(link, |field| field.ask), runs.chain(taps))
}

fn of_run(link: &str, pads: &'static [Choice], run: &Run) -> Vec<Value> {
    let pad = (!run.pad.is_empty()).then(|| json!({ "valueString": clean(label(pads, &run.pad)) }));
    let parts = [
        item(
            &format!("{link}.run.pad"),
            "direction",
            pad.into_iter().filter(|pad| !pad["valueString"].is_null()).collect(),
        ),
        item(&format!("{link}.run.from"), "began after the start", vec![after(run.from_ms)]),
        run.to_ms.and_then(|to| item(&format!("{link}.run.to"), "ended after the start", vec![after(to)])),
        run.bpm
            .and_then(|bpm| quantity(bpm, "/min"))
            .and_then(|pace| item(&format!("{link}.run.pace"), "pace", vec![json!({ "valueQuantity": pace })])),
    ];
    group(&format!("{link}.run"), "one stretch of taps", parts.into_iter().flatten())
}

/// A tap: what was seen, what else, and when, under the direction it was made on.
fn of_tap(link: &str, pads: &'static [Choice], tap: &Tap) -> Option<Value> {
    let (form, key) = link.rsplit_once('.').unwrap_or((link, ""));
    let seen = chosen(form, key, &[], &tap.mark);
    let made = match tap.made {
        Made::Tapped => None,
        Made::Paced => Some("a beat passed and nothing was tapped"),
        Made::PacedThenTapped => Some("a beat passed, then an exception was tapped"),
    };
    let made = made.and_then(|words| item(&format!("{link}.made"), "made", vec![json!({ "valueString": words })]));
    let at = item(&format!("{link}.at"), "after the start", vec![after(tap.at_ms)]);
    let within: Vec<Value> = at.into_iter().chain(made).collect();
    let Value::Object(mut first) = seen else { return None };
    first.insert("item".to_string(), Value::Array(within));
    let also = tap.also.iter().map(|id| chosen(form, key, &[], id));
    let pad = clean(&tap.pad).unwrap_or_else(|| "blank".to_string());
    item(&format!("{link}.{pad}"), label(pads, &tap.pad), [Value::Object(first)].into_iter().chain(also).collect())
}

fn of_cell(link: &str, field: Option<&'static Field>, cell: &Cell) -> Option<Value> {
    let (rows, columns) = if let Some(Kind::Grid(form)) = field.map(|field| &field.kind) {
        (form.rows, form.columns)
    } else {
        (&[][..], &[][..])
    };
    let (base, key) = link.rsplit_once('.').unwrap_or((link, ""));
    let text = format!("{}, {}", label(rows, &cell.row), label(columns, &cell.column));
    let Value::Object(mut grade) = chosen(base, key, &[], &cell.grade) else { return None };
    if let Some(cycle) = cell.from_cycle {
        let from = item(&format!("{link}.from"), "from this repetition on", vec![json!({ "valueInteger": cycle })]);
        grade.insert("item".to_string(), Value::Array(from.into_iter().collect()));
    }
    let at = clean(&format!("{}.{}", cell.row, cell.column))?;
    item(&format!("{link}.{at}"), &text, vec![Value::Object(grade)])
}

fn after(ms: u32) -> Value {
    json!({ "valueQuantity": quantity(f64::from(ms), "ms") })
}

/// An item with answers; none when there is no answer.
fn item(link: &str, text: &str, answers: Vec<Value>) -> Option<Value> {
    let link = clean(link)?;
    (!answers.is_empty()).then(|| Object::new().put("linkId", link).text("text", text).list("answer", answers).build())
}

/// An item that holds others; none when it holds nothing.
fn group(link: &str, text: &str, items: impl Iterator<Item = Value>) -> Vec<Value> {
    let items: Vec<Value> = items.collect();
    let Some(link) = clean(link).filter(|_| !items.is_empty()) else { return Vec::new() };
    vec![Object::new().put("linkId", link).text("text", text).list("item", items).build()]
}
