//! The fields of a JSON object, taken one by one by name; what nobody took is kept as it stands.

use super::error::{ArchiveError, Fault};
use crate::capture::visit::Unread;
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
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
                let ours = name.len() <= 40 && name.bytes().all(|b| b.is_ascii_lowercase() || b == b'_' || b == b'.');
                let name = if ours { name } else { "?" };
                if above.above.is_none() { f.write_str(name) } else { write!(f, "{above}.{name}") }
            }
        }
    }
}

/// The fields of one object that nobody has taken yet.
pub(super) struct Fields<'a, 'p> {
    place: &'p Place<'p>,
    fields: Vec<(String, &'a RawValue)>,
}

impl<'a, 'p> Fields<'a, 'p> {
    pub(super) fn of(raw: &'a RawValue, place: &'p Place<'p>) -> Result<Fields<'a, 'p>, ArchiveError> {
        let Pairs(fields) = serde_json::from_str(raw.get()).map_err(|_| place.broken(Fault::WrongKind))?;
        let mut names = BTreeSet::new();
        if let Some((name, _)) = fields.iter().find(|(name, _)| !names.insert(name.as_str())) {
            return Err(place.field(name).broken(Fault::Twice));
        }
        Ok(Fields { place, fields })
    }

    /// Takes a field as it stands; `null` counts as absent.
    pub(super) fn raw(&mut self, name: &str) -> Option<&'a RawValue> {
        let at = self.fields.iter().position(|(field, _)| field == name)?;
        let (_, raw) = self.fields.remove(at);
        (raw.get() != "null").then_some(raw)
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
        for (name, raw) in self.fields {
            kept.0.push((self.place.field(&name).pointer(owner), raw.get().to_string()));
        }
    }

    /// What nobody took, addressed from this object.
    pub(super) fn into_unread(self) -> Unread {
        let mut kept = Unread::default();
        let owner = self.place;
        self.keep(owner, &mut kept);
        kept.0.sort();
        kept
    }

    /// Takes every field that is left, by name.
    pub(super) fn drain(&mut self) -> Vec<(String, &'a RawValue)> {
        std::mem::take(&mut self.fields)
    }
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

/// The pairs of an object in their order, doubles included.
struct Pairs<'a>(Vec<(String, &'a RawValue)>);

impl<'de: 'a, 'a> Deserialize<'de> for Pairs<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Pairs<'a>, D::Error> {
        struct Collect;
        impl<'de> Visitor<'de> for Collect {
            type Value = Vec<(String, &'de RawValue)>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object")
            }

            fn visit_map<M: MapAccess<'de>>(self, mut map: M) -> Result<Self::Value, M::Error> {
                let mut pairs = Vec::new();
                while let Some(pair) = map.next_entry()? {
                    pairs.push(pair);
                }
                Ok(pairs)
            }
        }
        deserializer.deserialize_map(Collect).map(Pairs)
    }
}
