//! Sheets given and logs that came back, read and written as version 1.

use super::super::error::{ArchiveError, Fault};
use super::super::fields::{Fields, Place};
use super::super::node::Node;
use super::parts::{Keeper, filled, moment};
use super::{shape, word};
use crate::capture::home::{Despite, Given, Returned};
use crate::capture::unread::Unread;
use serde_json::value::RawValue;

pub(super) fn given(raw: &RawValue, place: &Place<'_>) -> Result<Given, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::GIVEN)?;
    let mut keeper = Keeper::of(place);
    let mut given = Given {
        at: moment(&mut fields, place, "at")?,
        by: fields.optional("by")?.unwrap_or_default(),
        language: fields.optional("language")?.unwrap_or_default(),
        text: fields.required("text")?,
        despite: fields.list("despite", |raw, place| despite(raw, place, &mut keeper))?,
        unread: Unread::default(),
    };
    given.unread = keeper.all(fields);
    Ok(given)
}

pub(super) fn write_given(given: &Given) -> Node {
    let mut node = Node::object();
    node.push("at", Node::text(&word::moment(given.at)));
    node.push_some("by", filled(&given.by));
    node.push_some("language", filled(&given.language));
    node.push("text", Node::text(&given.text));
    node.push_list("despite", given.despite.iter().map(write_despite).collect());
    node.restore(&given.unread);
    node
}

pub(super) fn returned(raw: &RawValue, place: &Place<'_>) -> Result<Returned, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::RETURNED)?;
    let how = fields.by("how", word::read_how)?;
    Ok(Returned {
        at: moment(&mut fields, place, "at")?,
        how: how.ok_or_else(|| place.field("how").broken(Fault::Missing))?,
        text: fields.required("text")?,
        unread: fields.into_unread(),
    })
}

pub(super) fn write_returned(returned: &Returned) -> Node {
    let mut node = Node::object();
    node.push("at", Node::text(&word::moment(returned.at)));
    node.push("how", Node::text(word::how(returned.how)));
    node.push("text", Node::text(&returned.text));
    node.restore(&returned.unread);
    node
}

fn despite(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Despite, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::DESPITE)?;
    let despite = Despite { exercise: fields.required("exercise")?, why: fields.required("why")? };
    keeper.rest(fields);
    Ok(despite)
}

fn write_despite(despite: &Despite) -> Node {
    let mut node = Node::object();
    node.push("exercise", Node::text(&despite.exercise));
    node.push("why", Node::text(&despite.why));
    node.line()
}
