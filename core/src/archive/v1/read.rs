//! Reads version 1 into people, visits and routines. Every field is named here once; what is not named is kept unread.

use super::super::error::{ArchiveError, Fault};
use super::super::fields::{Fields, Place, list, value};
use super::parts::{Keeper, finite, id, moment, needed};
use super::{home, shape, stage, word};
use crate::capture::addendum::Addendum;
use crate::capture::answer::{Answer, Answers, Cell, Run, Series, Tap, Trial};
use crate::capture::entry::Entry;
use crate::capture::ledger::{HandedOver, Join, Receipt, Tombstone, VisitRef};
use crate::capture::record::{Record, State};
use crate::capture::unread::Unread;
use crate::capture::visit::{Person, Visit};
use crate::routine::own::OwnRoutine;
use serde_json::value::RawValue;
use std::collections::BTreeSet;

pub(in super::super) fn person(raw: &RawValue, place: &Place<'_>) -> Result<Person, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::PERSON)?;
    Ok(Person {
        id: id(&mut fields, place, "id")?,
        label: fields.required("label")?,
        born: fields.by("born", word::read_born)?,
        invented: fields.optional("invented")?.unwrap_or(false),
        changed: fields.by("changed", word::read_moment)?,
        unread: fields.into_unread(),
    })
}

pub(in super::super) fn visit(raw: &RawValue, place: &Place<'_>) -> Result<Visit, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::VISIT)?;
    let visit = Visit {
        id: id(&mut fields, place, "id")?,
        person: id(&mut fields, place, "person")?,
        routine: fields.required("routine")?,
        plan: plan(&mut fields, place, "plan")?,
        started: moment(&mut fields, place, "started")?,
        closed: fields.by("closed", word::read_moment)?,
        at: fields.optional("at")?.unwrap_or_default(),
        records: fields.list("records", record)?,
        sheets: fields.list("sheets", home::given)?,
        logs: fields.list("logs", home::returned)?,
        program: fields.optional("program")?.unwrap_or_default(),
        sha256: fields.by("sha256", word::read_digest)?,
        unread: fields.into_unread(),
    };
    if visit.sha256.is_some() && visit.closed.is_none() {
        return Err(place.field("sha256").broken(Fault::Impossible));
    }
    let mut slots = BTreeSet::new();
    match visit.records.iter().position(|record| !slots.insert(record.slot.as_str())) {
        Some(at) => Err(place.field("records").item(at).field("slot").broken(Fault::Twice)),
        None => Ok(visit),
    }
}

pub(in super::super) fn routine(raw: &RawValue, place: &Place<'_>) -> Result<OwnRoutine, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::ROUTINE)?;
    Ok(OwnRoutine {
        id: id(&mut fields, place, "id")?,
        title: fields.required("title")?,
        tasks: plan(&mut fields, place, "tasks")?,
        changed: fields.by("changed", word::read_moment)?,
        unread: fields.into_unread(),
    })
}

pub(in super::super) fn addendum(raw: &RawValue, place: &Place<'_>) -> Result<Addendum, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::ADDENDUM)?;
    Ok(Addendum {
        id: id(&mut fields, place, "id")?,
        visit: id(&mut fields, place, "visit")?,
        person: id(&mut fields, place, "person")?,
        written: moment(&mut fields, place, "written")?,
        text: fields.required("text")?,
        program: fields.optional("program")?.unwrap_or_default(),
        unread: fields.into_unread(),
    })
}

pub(in super::super) fn receipt(raw: &RawValue, place: &Place<'_>) -> Result<Receipt, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::RECEIPT)?;
    let mut keeper = Keeper::of(place);
    Ok(Receipt {
        id: id(&mut fields, place, "id")?,
        issued: moment(&mut fields, place, "issued")?,
        visits: fields.list("visits", |raw, place| visit_ref(raw, place, &mut keeper))?,
        addenda: fields.list("addenda", |raw, place| visit_ref(raw, place, &mut keeper))?,
        unread: keeper.all(fields),
    })
}

pub(in super::super) fn handed_over(raw: &RawValue, place: &Place<'_>) -> Result<HandedOver, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::HANDED_OVER)?;
    let mut keeper = Keeper::of(place);
    Ok(HandedOver {
        id: id(&mut fields, place, "id")?,
        made: moment(&mut fields, place, "made")?,
        word: fields.required("word")?,
        visits: fields.list("visits", |raw, place| visit_ref(raw, place, &mut keeper))?,
        addenda: fields.list("addenda", |raw, place| visit_ref(raw, place, &mut keeper))?,
        confirmed: fields.by("confirmed", word::read_moment)?,
        unread: keeper.all(fields),
    })
}

pub(in super::super) fn join(raw: &RawValue, place: &Place<'_>) -> Result<Join, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::JOIN)?;
    Ok(Join {
        id: id(&mut fields, place, "id")?,
        keep: id(&mut fields, place, "keep")?,
        other: id(&mut fields, place, "other")?,
        made: moment(&mut fields, place, "made")?,
        undone: fields.by("undone", word::read_moment)?,
        unread: fields.into_unread(),
    })
}

pub(in super::super) fn tombstone(raw: &RawValue, place: &Place<'_>) -> Result<Tombstone, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::TOMBSTONE)?;
    Ok(Tombstone {
        person: id(&mut fields, place, "person")?,
        erased: moment(&mut fields, place, "erased")?,
        unread: fields.into_unread(),
    })
}

pub(in super::super) fn entry(raw: &RawValue, place: &Place<'_>) -> Result<Entry, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::ENTRY)?;
    Ok(Entry {
        id: id(&mut fields, place, "id")?,
        person: id(&mut fields, place, "person")?,
        started: moment(&mut fields, place, "started")?,
        closed: fields.by("closed", word::read_moment)?,
        routine: fields.required("routine")?,
        retest_on: fields.by("retest_on", word::read_day)?,
        sha256: fields.by("sha256", word::read_digest)?,
        handed_over: fields.optional("handed_over")?.unwrap_or(false),
        unread: fields.into_unread(),
    })
}

fn visit_ref(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<VisitRef, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::VISIT_REF)?;
    let visit = VisitRef {
        id: id(&mut fields, place, "id")?,
        sha256: needed(fields.by("sha256", word::read_digest)?, place, "sha256")?,
    };
    keeper.rest(fields);
    Ok(visit)
}

/// Ids of tasks in order, each once; an absent list is empty.
fn plan(fields: &mut Fields<'_, '_>, place: &Place<'_>, name: &str) -> Result<Vec<String>, ArchiveError> {
    let mut seen = BTreeSet::new();
    fields.list(name, |raw, item| {
        let id = word::read_id(&value::<String>(raw, item)?).map_err(|fault| item.broken(fault))?;
        if seen.len() >= shape::LONGEST_PLAN {
            return Err(place.field(name).broken(Fault::Impossible));
        }
        if seen.insert(id.clone()) { Ok(id) } else { Err(item.broken(Fault::Twice)) }
    })
}

fn record(raw: &RawValue, place: &Place<'_>) -> Result<Record, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::RECORD)?;
    let mut keeper = Keeper::of(place);
    let mut record = Record {
        slot: fields.required("slot")?,
        state: state(&mut fields, place)?,
        started: fields.by("started", word::read_moment)?,
        ended: fields.by("ended", word::read_moment)?,
        answers: answers(&mut fields, place, &mut keeper)?,
        showings: fields.list("showings", stage::showing)?,
        unread: Unread::default(),
    };
    record.unread = keeper.all(fields);
    Ok(record)
}

fn state(fields: &mut Fields<'_, '_>, place: &Place<'_>) -> Result<State, ArchiveError> {
    let word: String = fields.required("state")?;
    // With the other states a reason means nothing to this program, and is kept as it stands.
    fields.leave("reason");
    match word.as_str() {
        word::OPEN => Ok(State::Open),
        word::DONE => Ok(State::Done),
        word::NOT_DONE => Ok(State::NotDone(fields.optional("reason")?.unwrap_or_default())),
        word::NOT_TESTABLE => Ok(State::NotTestable(fields.optional("reason")?.unwrap_or_default())),
        _ => Err(place.field("state").broken(Fault::Impossible)),
    }
}

fn answers(fields: &mut Fields<'_, '_>, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Answers, ArchiveError> {
    let Some(raw) = fields.raw("answers") else { return Ok(Answers::default()) };
    let here = place.field("answers");
    let mut pairs = Vec::new();
    for (key, raw) in Fields::free(raw, &here)?.drain() {
        if let Some(answer) = answer(raw, &here.field(&key), keeper)? {
            pairs.push((key, answer));
        }
    }
    Ok(pairs.into_iter().collect())
}

/// One answer; `None` when it is of a kind that only a newer program knows.
fn answer(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Option<Answer>, ArchiveError> {
    let mut fields = Fields::free(raw, place)?;
    let kinds = shape::ANSWER.members.iter().map(|member| member.name);
    let known: Vec<&str> = kinds.filter(|kind| fields.names().any(|name| name == *kind)).collect();
    let kind = match known[..] {
        [] => {
            keeper.whole(raw, place);
            return Ok(None);
        }
        [kind] => kind,
        _ => return Err(place.broken(Fault::Impossible)),
    };
    let here = place.field(kind);
    let raw = fields.raw(kind).ok_or_else(|| here.broken(Fault::Missing))?;
    let answer = match kind {
        "one" => Answer::One(value(raw, &here)?),
        "many" => Answer::Many(value(raw, &here)?),
        "number" => Answer::Number(finite(raw, &here)?),
        "text" => Answer::Text(value(raw, &here)?),
        "day" => Answer::Day(word::read_day(&value::<String>(raw, &here)?).map_err(|fault| here.broken(fault))?),
        "ratings" => Answer::Ratings(list(raw, &here, |raw, place| rating(raw, place, keeper))?),
        "trials" => Answer::Trials(list(raw, &here, |raw, place| trial(raw, place, keeper))?),
        "series" => Answer::Series(series(raw, &here, keeper)?),
        _ => Answer::Grid(list(raw, &here, |raw, place| cell(raw, place, keeper))?),
    };
    keeper.rest(fields);
    Ok(Some(answer))
}

fn rating(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<(String, u8), ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::RATING)?;
    let item = fields.required("item")?;
    let value: u8 = fields.required("value")?;
    if u64::from(value) > shape::HIGHEST_RATING {
        return Err(place.field("value").broken(Fault::Impossible));
    }
    keeper.rest(fields);
    Ok((item, value))
}

fn trial(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Trial, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::TRIAL)?;
    let trial = Trial { at_ms: fields.required("at_ms")?, answers: answers(&mut fields, place, keeper)? };
    keeper.rest(fields);
    Ok(trial)
}

fn series(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Series, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::SERIES)?;
    let series = Series {
        runs: fields.list("runs", |raw, place| run(raw, place, keeper))?,
        taps: fields.list("taps", |raw, place| tap(raw, place, keeper))?,
    };
    keeper.rest(fields);
    Ok(series)
}

fn run(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Run, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::RUN)?;
    let run = Run {
        pad: fields.optional("pad")?.unwrap_or_default(),
        from_ms: fields.required("from_ms")?,
        to_ms: fields.optional("to_ms")?,
        bpm: fields.raw("bpm").map(|raw| finite(raw, &place.field("bpm"))).transpose()?,
    };
    keeper.rest(fields);
    Ok(run)
}

fn tap(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Tap, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::TAP)?;
    let tap = Tap {
        at_ms: fields.required("at_ms")?,
        pad: fields.required("pad")?,
        mark: fields.required("mark")?,
        also: fields.optional("also")?.unwrap_or_default(),
        made: needed(fields.by("made", word::read_made)?, place, "made")?,
    };
    keeper.rest(fields);
    Ok(tap)
}

fn cell(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Cell, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::CELL)?;
    let cell = Cell {
        row: fields.required("row")?,
        column: fields.required("column")?,
        grade: fields.required("grade")?,
        from_cycle: fields.optional("from_cycle")?,
    };
    keeper.rest(fields);
    Ok(cell)
}
