//! The fields of a JSON object, taken one by one by name; what nobody took is kept as it stands.

use super::error::{ArchiveError, Fault};
use super::v1::shape::Shape;
use crate::canonical::Pairs;
use crate::capture::unread::Unread;
use crate::sorted;
use serde::de::Deserialize;
use serde_json::value::RawValue;
use std::collections::BTreeSet;
use std::fmt;

/// Where in a file we are, as a chain back to its root.
pub(super) struct Place<'p> {
    above: Option<&'p Place<'p>>,
    step: Step<'p>,
}

enum Step<'p> {
    Root,
    Field(&'p str),
    Item(usize),
}

impl<'p> Place<'p> {
    pub(super) fn root() -> Place<'static> {
        Place { above: None, step: Step::Root }
    }

    pub(super) fn field(&'p self, name: &'p str) -> Place<'p> {
        Place { above: Some(self), step: Step::Field(name) }
    }

    pub(super) fn item(&'p self, at: usize) -> Place<'p> {
        Place { above: Some(self), step: Step::Item(at) }
    }

    pub(super) fn broken(&self, fault: Fault) -> ArchiveError {
        ArchiveError::Broken { place: self.to_string(), fault }
    }

    /// The JSON pointer (RFC 6901) of this place as seen from `owner`, a place above it.
    pub(super) fn pointer(&self, owner: &Place<'_>) -> String {
        let above = match self.above {
            Some(above) if !std::ptr::eq(self, owner) => above.pointer(owner),
            _ => return String::new(),
        };
        match self.step {
            Step::Root => above,
            Step::Field(name) => format!("{above}/{}", escape(name)),
            Step::Item(at) => format!("{above}/{at}"),
        }
    }
}

/// A name as one step of a JSON pointer.
pub(super) fn escape(name: &str) -> String {
    name.replace('~', "~0").replace('/', "~1")
}

impl fmt::Display for Place<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.above, &self.step) {
            (None, _) | (_, Step::Root) => f.write_str("the top"),
            (Some(above), Step::Item(at)) => write!(f, "{above}[{at}]"),
            (Some(above), Step::Field(name)) => {
                // A name from a file may be anything, so only what looks like one of our ids is repeated.
                let plain = |b: u8| b.is_ascii_lowercase() || b == b'_' || b == b'.';
                let ours = name.len() <= 40 && name.bytes().all(plain) || matches!(*name, "sha256");
                let name = if ours { name } else { "?" };
                if above.above.is_none() { f.write_str(name) } else { write!(f, "{above}.{name}") }
            }
        }
    }
}

/// The fields of one object that nobody has taken yet.
pub(super) struct Fields<'a, 'p> {
    place: &'p Place<'p>,
    shape: Option<&'static Shape>,
    asked: Asked,
    fields: Vec<(String, &'a RawValue)>,
}

impl<'a, 'p> Fields<'a, 'p> {
    /// The fields of an object of this shape.
    pub(super) fn of(
        raw: &'a RawValue,
        place: &'p Place<'p>,
        shape: &'static Shape,
    ) -> Result<Fields<'a, 'p>, ArchiveError> {
        Ok(Fields { shape: Some(shape), ..Fields::free(raw, place)? })
    }

    /// The same fields as those of an object of this shape, of which the first two were read.
    pub(super) fn shaped(mut self, shape: &'static Shape) -> Fields<'a, 'p> {
        self.shape = Some(shape);
        self.leave("format");
        self.leave("version");
        self
    }

    /// The fields of an object with names of its own.
    pub(super) fn free(raw: &'a RawValue, place: &'p Place<'p>) -> Result<Fields<'a, 'p>, ArchiveError> {
        let Pairs(fields) = serde_json::from_str(raw.get()).map_err(|_| place.broken(Fault::WrongKind))?;
        let mut names = BTreeSet::new();
        if let Some((name, _)) = fields.iter().find(|(name, _)| !names.insert(name.as_str())) {
            return Err(place.field(name).broken(Fault::Twice));
        }
        Ok(Fields { place, shape: None, asked: Asked::default(), fields })
    }

    /// Takes a field as it stands; `null` counts as absent.
    pub(super) fn raw(&mut self, name: &str) -> Option<&'a RawValue> {
        self.asked.note(self.shape, name);
        let at = self.fields.iter().position(|(field, _)| field == name)?;
        let (_, raw) = self.fields.remove(at);
        (raw.get() != "null").then_some(raw)
    }

    /// Leaves a field where it is.
    pub(super) fn leave(&mut self, name: &str) {
        self.asked.note(self.shape, name);
    }

    /// Takes a field that may be absent.
    pub(super) fn optional<T: Deserialize<'a>>(&mut self, name: &str) -> Result<Option<T>, ArchiveError> {
        let Some(raw) = self.raw(name) else { return Ok(None) };
        value(raw, &self.place.field(name)).map(Some)
    }

    /// Takes a field that must be there.
    pub(super) fn required<T: Deserialize<'a>>(&mut self, name: &str) -> Result<T, ArchiveError> {
        self.optional(name)?.ok_or_else(|| self.place.field(name).broken(Fault::Missing))
    }

    /// Takes a field by a rule of its own.
    pub(super) fn by<T>(
        &mut self,
        name: &str,
        rule: impl FnOnce(&str) -> Result<T, Fault>,
    ) -> Result<Option<T>, ArchiveError> {
        let Some(text) = self.optional::<String>(name)? else { return Ok(None) };
        rule(&text).map(Some).map_err(|fault| self.place.field(name).broken(fault))
    }

    /// Takes a list; an absent one is empty.
    pub(super) fn list<T>(
        &mut self,
        name: &str,
        read: impl FnMut(&'a RawValue, &Place<'_>) -> Result<T, ArchiveError>,
    ) -> Result<Vec<T>, ArchiveError> {
        let Some(raw) = self.raw(name) else { return Ok(Vec::new()) };
        list(raw, &self.place.field(name), read)
    }

    /// Names that are still there.
    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        self.fields.iter().map(|(name, _)| name.as_str())
    }

    /// What nobody took, addressed from `owner`.
    pub(super) fn keep(self, owner: &Place<'_>, kept: &mut Unread) {
        self.asked.check(self.shape);
        for (name, raw) in self.fields {
            kept.0.push((self.place.field(&name).pointer(owner), raw.get().to_string()));
        }
    }

    /// What nobody took, addressed from this object.
    pub(super) fn into_unread(self) -> Unread {
        let mut kept = Unread::default();
        let owner = self.place;
        self.keep(owner, &mut kept);
        sorted::by(&mut kept.0, Ord::cmp);
        kept
    }

    /// Takes every field that is left, by name.
    pub(super) fn drain(&mut self) -> Vec<(String, &'a RawValue)> {
        std::mem::take(&mut self.fields)
    }
}

/// The names that were asked for. Where the program is being worked on, an object of which a name was forgotten, or one
/// asked for that no shape has, stops it: so the reader and the schema cannot drift apart.
#[derive(Default)]
struct Asked {
    #[cfg(debug_assertions)]
    names: BTreeSet<String>,
}

#[cfg(debug_assertions)]
impl Asked {
    fn note(&mut self, shape: Option<&Shape>, name: &str) {
        if let Some(shape) = shape {
            assert!(shape.members.iter().any(|member| member.name == name), "{} has no {name}", shape.name);
            self.names.insert(name.to_string());
        }
    }

    fn check(&self, shape: Option<&Shape>) {
        for member in shape.into_iter().flat_map(|shape| shape.members) {
            assert!(self.names.contains(member.name), "{} was not asked for", member.name);
        }
    }
}

#[cfg(not(debug_assertions))]
impl Asked {
    fn note(&mut self, _: Option<&Shape>, _: &str) {}

    fn check(&self, _: Option<&Shape>) {}
}

/// One value of a type.
pub(super) fn value<'a, T: Deserialize<'a>>(raw: &'a RawValue, place: &Place<'_>) -> Result<T, ArchiveError> {
    serde_json::from_str(raw.get()).map_err(|_| place.broken(Fault::WrongKind))
}

/// One list, item by item.
pub(super) fn list<'a, T>(
    raw: &'a RawValue,
    place: &Place<'_>,
    mut read: impl FnMut(&'a RawValue, &Place<'_>) -> Result<T, ArchiveError>,
) -> Result<Vec<T>, ArchiveError> {
    let items: Vec<&'a RawValue> = value(raw, place)?;
    items.into_iter().enumerate().map(|(at, item)| read(item, &place.item(at))).collect()
}
