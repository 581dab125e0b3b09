//! What was shown on a screen, read and written as version 1.

use super::super::error::{ArchiveError, Fault};
use super::super::fields::{Fields, Place};
use super::super::node::Node;
use super::parts::{Keeper, filled, finite, moment, number};
use super::{shape, word};
use crate::capture::showing::{Setting, Showing, Shown, Value};
use crate::capture::unread::Unread;
use serde_json::value::RawValue;

pub(super) fn showing(raw: &RawValue, place: &Place<'_>) -> Result<Showing, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::SHOWING)?;
    let mut keeper = Keeper::of(place);
    let mut showing = Showing {
        at: moment(&mut fields, place, "at")?,
        program: fields.required("program")?,
        settings: fields.list("settings", |raw, place| setting(raw, place, &mut keeper))?,
        instruction: fields.optional("instruction")?.unwrap_or_default(),
        seconds: needed(&mut fields, place, "seconds")?,
        stopped: fields.optional("stopped")?.unwrap_or(false),
        elsewhere: fields.optional("elsewhere")?.unwrap_or(false),
        screen: fields.raw("screen").map(|raw| screen(raw, &place.field("screen"), &mut keeper)).transpose()?,
        unread: Unread::default(),
    };
    showing.unread = keeper.all(fields);
    Ok(showing)
}

/// A showing; `None` for one whose numbers JSON has no notation for, which no program makes.
pub(super) fn write(showing: &Showing) -> Option<Node> {
    let mut node = Node::object();
    node.push("at", Node::text(&word::moment(showing.at)));
    node.push("program", Node::text(&showing.program));
    node.push_list("settings", showing.settings.iter().map(write_setting).collect());
    node.push_some("instruction", filled(&showing.instruction));
    node.push("seconds", number(showing.seconds)?);
    node.push_some("stopped", showing.stopped.then_some(true));
    node.push_some("elsewhere", showing.elsewhere.then_some(true));
    if let Some(screen) = &showing.screen {
        node.push("screen", write_screen(screen)?);
    }
    node.restore(&showing.unread);
    Some(node)
}

fn setting(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Setting, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::SETTING)?;
    let key = fields.required("key")?;
    let number = optional(&mut fields, place, "number")?;
    fields.leave("word");
    let value = match number {
        Some(number) => Value::Number(number),
        None => fields.optional("word")?.map_or(Value::Newer, Value::Word),
    };
    let setting = Setting { key, value, unit: fields.optional("unit")?.unwrap_or_default() };
    keeper.rest(fields);
    Ok(setting)
}

fn write_setting(setting: &Setting) -> Node {
    let mut node = Node::object();
    node.push("key", Node::text(&setting.key));
    match &setting.value {
        Value::Number(value) => {
            if let Some(value) = number(*value) {
                node.push("number", value);
            }
        }
        Value::Word(word) => node.push("word", Node::text(word)),
        Value::Newer => {}
    }
    node.push_some("unit", filled(&setting.unit));
    node.line()
}

fn screen(raw: &RawValue, place: &Place<'_>, keeper: &mut Keeper<'_>) -> Result<Shown, ArchiveError> {
    let mut fields = Fields::of(raw, place, &shape::SCREEN)?;
    let screen = Shown {
        px_per_mm: needed(&mut fields, place, "px_per_mm")?,
        distance_cm: needed(&mut fields, place, "distance_cm")?,
        pixel_ratio: needed(&mut fields, place, "pixel_ratio")?,
        zoom: needed(&mut fields, place, "zoom")?,
        width_px: needed(&mut fields, place, "width_px")?,
        height_px: needed(&mut fields, place, "height_px")?,
        frames_a_second: optional(&mut fields, place, "frames_a_second")?,
        drawn: fields.required("drawn")?,
        dropped: fields.required("dropped")?,
        held: fields.required("held")?,
    };
    keeper.rest(fields);
    Ok(screen)
}

fn write_screen(screen: &Shown) -> Option<Node> {
    let mut node = Node::object();
    node.push("px_per_mm", number(screen.px_per_mm)?);
    node.push("distance_cm", number(screen.distance_cm)?);
    node.push("pixel_ratio", number(screen.pixel_ratio)?);
    node.push("zoom", number(screen.zoom)?);
    node.push("width_px", number(screen.width_px)?);
    node.push("height_px", number(screen.height_px)?);
    if let Some(rate) = screen.frames_a_second.and_then(number) {
        node.push("frames_a_second", rate);
    }
    node.push("drawn", Node::number(screen.drawn));
    node.push("dropped", Node::number(screen.dropped));
    node.push("held", Node::value(&screen.held));
    Some(node.line())
}

fn optional(fields: &mut Fields<'_, '_>, place: &Place<'_>, name: &str) -> Result<Option<f64>, ArchiveError> {
    fields.raw(name).map(|raw| finite(raw, &place.field(name))).transpose()
}

fn needed(fields: &mut Fields<'_, '_>, place: &Place<'_>, name: &str) -> Result<f64, ArchiveError> {
    optional(fields, place, name)?.ok_or_else(|| place.field(name).broken(Fault::Missing))
}
