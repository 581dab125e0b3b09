//! A tree that is written as JSON, into which unread parts are put back where they stood.

use crate::canonical::{self, Tree};
use crate::capture::unread::Unread;
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::Number;
use serde_json::value::{RawValue, to_raw_value};
use std::borrow::Cow;

/// One value to write.
pub(super) enum Node {
    /// Text that is JSON already.
    Raw(Box<RawValue>),
    /// A text.
    Text(Box<str>),
    /// A number.
    Number(Number),
    /// A list.
    List(Vec<Node>),
    /// An object.
    Object(Vec<(Cow<'static, str>, Node)>),
    /// Written on one line even where the rest is indented.
    Line(Box<Node>),
}

impl Node {
    pub(super) fn object() -> Node {
        Node::Object(Vec::new())
    }

    pub(super) fn text(text: &str) -> Node {
        Node::Text(text.into())
    }

    pub(super) fn number(number: impl Into<Number>) -> Node {
        Node::Number(number.into())
    }

    pub(super) fn value<T: Serialize + ?Sized>(value: &T) -> Node {
        Node::Raw(to_raw_value(value).expect("texts, numbers and lists of them are always JSON"))
    }

    pub(super) fn line(self) -> Node {
        Node::Line(Box::new(self))
    }

    /// Adds a field to an object; anything else stays as it is.
    pub(super) fn push(&mut self, name: impl Into<Cow<'static, str>>, node: Node) {
        if let Node::Object(fields) = self {
            fields.push((name.into(), node));
        }
    }

    /// Adds a list if there is anything in it.
    pub(super) fn push_list(&mut self, name: &'static str, items: Vec<Node>) {
        if !items.is_empty() {
            self.push(name, Node::List(items));
        }
    }

    /// Adds a field if there is something to write.
    pub(super) fn push_some<T: Serialize>(&mut self, name: &'static str, value: Option<T>) {
        if let Some(value) = value {
            self.push(name, Node::value(&value));
        }
    }

    /// Puts unread parts back. A part whose surroundings are gone, or whose name this program has filled since, is
    /// left out: what was recorded last stands.
    pub(super) fn restore(&mut self, unread: &Unread) {
        for (pointer, text) in &unread.0 {
            let Some((above, name)) = pointer.rsplit_once('/') else { continue };
            let Ok(raw) = RawValue::from_string(text.clone()) else { continue };
            if let Some(Node::Object(fields)) = self.find(above) {
                let name = unescape(name);
                if fields.iter().all(|(field, _)| *field != name) {
                    fields.push((name.into(), Node::Raw(raw)));
                }
            }
        }
    }

    pub(super) fn pretty(&self) -> Vec<u8> {
        let mut bytes = serde_json::to_vec_pretty(self).expect("writing to memory does not fail");
        bytes.push(b'\n');
        bytes
    }

    pub(super) fn compact(&self) -> Vec<u8> {
        serde_json::to_vec(&Compact(self)).expect("writing to memory does not fail")
    }

    /// The node as the text it is written as on one line, which takes a tenth of the tree's memory.
    pub(super) fn packed(self) -> Node {
        Node::value(&Compact(&self))
    }

    /// The node without the member of this name.
    pub(super) fn without(mut self, name: &str) -> Node {
        if let Node::Object(fields) = &mut self {
            fields.retain(|(field, _)| field != name);
        }
        self
    }

    /// The node as canonical JSON (RFC 8785). An unread part that has no canonical form (a name twice, a number beyond a
    /// double, half of a surrogate pair) goes in as a text that holds it to the letter.
    pub(super) fn canonical(&self) -> Vec<u8> {
        canonical::bytes(&Canonical(self))
            .expect("texts, doubles and objects with each name once have a canonical form")
    }

    /// The object at a JSON pointer below this node.
    fn find(&mut self, pointer: &str) -> Option<&mut Node> {
        if let Node::Line(inner) = self {
            return inner.find(pointer);
        }
        let Some(rest) = pointer.strip_prefix('/') else {
            return Some(self);
        };
        let (step, below) = match rest.find('/') {
            Some(at) => rest.split_at(at),
            None => (rest, ""),
        };
        match self {
            Node::Object(fields) => {
                let name = unescape(step);
                fields.iter_mut().find(|(field, _)| *field == name)?.1.find(below)
            }
            Node::List(items) => items.get_mut(step.parse::<usize>().ok()?)?.find(below),
            Node::Raw(_) | Node::Text(_) | Node::Number(_) | Node::Line(_) => None,
        }
    }
}

struct Canonical<'n>(&'n Node);

impl Serialize for Canonical<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Node::Raw(raw) => match Tree::of(raw) {
                Ok(tree) => tree.serialize(serializer),
                Err(_) => serializer.serialize_str(raw.get()),
            },
            Node::Text(text) => serializer.serialize_str(text),
            Node::Number(number) => number.serialize(serializer),
            Node::List(items) => serializer.collect_seq(items.iter().map(Canonical)),
            Node::Object(fields) => serializer.collect_map(fields.iter().map(|(name, node)| (name, Canonical(node)))),
            Node::Line(inner) => Canonical(inner).serialize(serializer),
        }
    }
}

/// Everything on one line, so that what is a line in any case needs no text of its own.
struct Compact<'n>(&'n Node);

impl Serialize for Compact<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Node::Raw(raw) => raw.serialize(serializer),
            Node::Text(text) => serializer.serialize_str(text),
            Node::Number(number) => number.serialize(serializer),
            Node::List(items) => serializer.collect_seq(items.iter().map(Compact)),
            Node::Object(fields) => serializer.collect_map(fields.iter().map(|(name, node)| (name, Compact(node)))),
            Node::Line(inner) => Compact(inner).serialize(serializer),
        }
    }
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Node::Raw(raw) => raw.serialize(serializer),
            Node::Text(text) => serializer.serialize_str(text),
            Node::Number(number) => number.serialize(serializer),
            Node::List(items) => serializer.collect_seq(items),
            Node::Object(fields) => {
                let mut map = serializer.serialize_map(Some(fields.len()))?;
                for (name, node) in fields {
                    map.serialize_entry(name, node)?;
                }
                map.end()
            }
            Node::Line(inner) => to_raw_value(inner).map_err(serde::ser::Error::custom)?.serialize(serializer),
        }
    }
}

fn unescape(step: &str) -> String {
    step.replace("~1", "/").replace("~0", "~")
}
