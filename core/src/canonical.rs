//! Canonical JSON (RFC 8785, the JSON Canonicalization Scheme) and SHA-256: one value, one row of bytes, one digest.
//!
//! RFC 8785 builds on I-JSON (RFC 7493), so what that has no single meaning for is refused: a name twice in one object,
//! half of a surrogate pair, a number too large for a double. Every number is a double (RFC 8785, 3.2.2.3), so whole
//! numbers beyond 2^53 that fall on the same double are the same number here; those that must not be are written as text.

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::value::RawValue;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::fmt::{self, Write};

/// Deepest nesting of lists and objects; more than any file that is taken in may have.
const MAX_DEPTH: usize = 96;

/// Why a text has no canonical form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotCanonical {
    /// It is not JSON, or a text in it is not Unicode.
    NotJson,
    /// An object has a name twice.
    Twice,
    /// A number is too large for a double.
    Number,
    /// Lists stand within lists without end.
    TooDeep,
}

impl fmt::Display for NotCanonical {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            NotCanonical::NotJson => "The text is not JSON.",
            NotCanonical::Twice => "An object in the text has the same name twice.",
            NotCanonical::Number => "A number in the text is too large for a computer's number.",
            NotCanonical::TooDeep => "In the text lists stand within lists without end.",
        })
    }
}

impl std::error::Error for NotCanonical {}

/// A JSON text in its canonical form.
///
/// # Errors
/// [`NotCanonical`] says why there is none.
pub fn canonical(json: &str) -> Result<Vec<u8>, NotCanonical> {
    let raw: &RawValue = serde_json::from_str(json).map_err(|_| NotCanonical::NotJson)?;
    bytes(&Tree::of(raw)?)
}

/// The canonical form of anything that serialises without fail and without a name twice.
pub(crate) fn bytes(value: &impl Serialize) -> Result<Vec<u8>, NotCanonical> {
    serde_json_canonicalizer::to_vec(value).map_err(|_| NotCanonical::NotJson)
}

/// SHA-256 (FIPS 180-4).
#[must_use]
pub fn sha256(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

/// SHA-256 as 64 lower-case hexadecimal digits.
#[must_use]
pub fn sha256_hex(bytes: &[u8]) -> String {
    hex(&sha256(bytes))
}

/// Bytes as lower-case hexadecimal digits.
#[must_use]
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(2 * bytes.len()), |mut text, byte| {
        // Writing to a text does not fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// A JSON value whose numbers were read to the last bit.
pub(crate) enum Tree {
    Null,
    Flag(bool),
    Number(f64),
    Text(String),
    List(Vec<Tree>),
    Object(Vec<(String, Tree)>),
}

impl Tree {
    pub(crate) fn of(raw: &RawValue) -> Result<Tree, NotCanonical> {
        Tree::below(raw, 0)
    }

    fn below(raw: &RawValue, depth: usize) -> Result<Tree, NotCanonical> {
        if depth > MAX_DEPTH {
            return Err(NotCanonical::TooDeep);
        }
        let text = raw.get();
        match text.as_bytes().first() {
            Some(b'{') => {
                let Pairs(pairs) = read(text)?;
                let mut names = BTreeSet::new();
                let mut fields = Vec::with_capacity(pairs.len());
                for (name, raw) in pairs {
                    if !names.insert(name.clone()) {
                        return Err(NotCanonical::Twice);
                    }
                    fields.push((name, Tree::below(raw, depth + 1)?));
                }
                Ok(Tree::Object(fields))
            }
            Some(b'[') => {
                let items: Vec<&RawValue> = read(text)?;
                items.into_iter().map(|raw| Tree::below(raw, depth + 1)).collect::<Result<_, _>>().map(Tree::List)
            }
            Some(b'"') => read(text).map(Tree::Text),
            Some(b't' | b'f') => read(text).map(Tree::Flag),
            Some(b'n') => Ok(Tree::Null),
            // The standard library reads to the last bit; the JSON library's quick way may miss it by one.
            _ => match text.parse::<f64>() {
                Ok(number) if number.is_finite() => Ok(Tree::Number(number)),
                Ok(_) => Err(NotCanonical::Number),
                Err(_) => Err(NotCanonical::NotJson),
            },
        }
    }
}

fn read<'a, T: Deserialize<'a>>(text: &'a str) -> Result<T, NotCanonical> {
    serde_json::from_str(text).map_err(|_| NotCanonical::NotJson)
}

impl Serialize for Tree {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Tree::Null => serializer.serialize_unit(),
            Tree::Flag(flag) => serializer.serialize_bool(*flag),
            Tree::Number(number) => serializer.serialize_f64(*number),
            Tree::Text(text) => serializer.serialize_str(text),
            Tree::List(items) => serializer.collect_seq(items),
            Tree::Object(fields) => {
                let mut map = serializer.serialize_map(Some(fields.len()))?;
                for (name, tree) in fields {
                    map.serialize_entry(name, tree)?;
                }
                map.end()
            }
        }
    }
}

/// The pairs of an object in their order, doubles included.
pub(crate) struct Pairs<'a>(pub(crate) Vec<(String, &'a RawValue)>);

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

#[cfg(test)]
mod tests;
