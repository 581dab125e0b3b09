//! JSON objects as FHIR wants them: nothing empty, text without control characters, decimals without the noise of binary
//! numbers, times with their zone.

use serde_json::{Map, Number, Value, json};

use crate::calendar::{Moment, iso_date};
use time::Date;

/// An object in the making.
#[derive(Debug, Clone)]
pub struct Object(Map<String, Value>);

impl Object {
    /// A resource of this type.
    pub fn of(resource: &str) -> Object {
        Object::new().put("resourceType", resource)
    }

    /// An element.
    pub fn new() -> Object {
        Object(Map::new())
    }

    /// With a member.
    pub fn put(mut self, name: &str, value: impl Into<Value>) -> Object {
        self.0.insert(name.to_string(), value.into());
        self
    }

    /// With a member if there is one.
    pub fn maybe(self, name: &str, value: Option<impl Into<Value>>) -> Object {
        match value {
            Some(value) => self.put(name, value),
            None => self,
        }
    }

    /// With text, unless it is blank.
    pub fn text(self, name: &str, text: &str) -> Object {
        self.maybe(name, clean(text))
    }

    /// With a list, unless it is empty.
    pub fn list(self, name: &str, values: Vec<Value>) -> Object {
        if values.is_empty() { self } else { self.put(name, values) }
    }

    /// The finished object.
    pub fn build(self) -> Value {
        Value::Object(self.0)
    }
}

/// Text that every reader takes: no control characters, ordinary blanks only, trimmed; `None` when nothing is left.
pub fn clean(text: &str) -> Option<String> {
    let letter = |c: char| match c {
        '\n' | '\t' | ' ' => Some(c),
        '\u{FEFF}' | '\u{FFFE}' | '\u{FFFF}' => None,
        _ if c.is_whitespace() => Some(' '),
        _ if c.is_control() => None,
        _ => Some(c),
    };
    let text: String = text.chars().filter_map(letter).collect();
    let text = text.trim();
    (!text.is_empty()).then(|| text.to_string())
}

/// A number as its shortest decimal of at most six places; `None` for what is no number.
pub fn decimal(value: f64) -> Option<Value> {
    let text = format!("{value:.6}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if !value.is_finite() {
        return None;
    }
    match short.parse::<i64>() {
        Ok(whole) => Some(json!(whole)),
        Err(_) => Number::from_f64(short.parse().ok()?).map(Value::Number),
    }
}

/// Local date and time with seconds and zone; `None` beyond the years that FHIR knows.
pub fn time(moment: Moment) -> Option<String> {
    // Zones reach to 14 hours; anything beyond is told in UTC.
    let zoned = if moment.offset_minutes.abs() <= 14 * 60 { moment } else { Moment { offset_minutes: 0, ..moment } };
    (1..=9999).contains(&zoned.date().year()).then(|| zoned.iso())
}

/// A day; `None` beyond the years that FHIR knows.
pub fn day(date: Date) -> Option<String> {
    (1..=9999).contains(&date.year()).then(|| iso_date(date))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_decimals() {
        let written = |value: f64| decimal(value).map(|number| number.to_string());
        assert_eq!(written(0.1 + 0.2).as_deref(), Some("0.3"));
        assert_eq!(written(9.166_666_666_7).as_deref(), Some("9.166667"));
        assert_eq!(written(10.0).as_deref(), Some("10"));
        assert_eq!(written(-0.0).as_deref(), Some("0"));
        assert_eq!(written(-0.000_000_1).as_deref(), Some("0"));
        assert_eq!((written(f64::NAN), written(f64::INFINITY)), (None, None));
    }

    #[test]
    fn blank_text_is_no_text() {
        assert_eq!(clean(" \u{0}\u{a0}\u{feff}\n"), None);
        assert_eq!(clean("a\u{a0}b\u{7}").as_deref(), Some("a b"));
        assert_eq!(Object::new().text("x", "  ").list("y", vec![]).build(), json!({}));
    }

    #[test]
    fn times_have_a_zone_that_exists() {
        let at = |unix_ms, offset_minutes| time(Moment { unix_ms, offset_minutes });
        assert_eq!(at(0, 120).as_deref(), Some("1970-01-01T02:00:00+02:00"));
        assert_eq!(at(0, 15 * 60).as_deref(), Some("1970-01-01T00:00:00+00:00"));
        assert_eq!(at(i64::MIN / 2, 0), None);
    }
}
