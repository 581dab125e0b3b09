//! Documents as bytes to hand on. One format, one file; a format sees the document and never the rules behind it. The
//! form for other programs sees the assessment, whose values no document holds.

pub mod fhir;
pub mod html;
pub mod json;
pub mod svg;
pub mod table;
pub mod text;
pub mod unit;

use crate::capture::visit::{Person, Visit};

/// One visit to hand on, with the person it is of.
///
/// What it says is worked out by the format, one visit at a time, so that no more than one assessment is in memory
/// however many visits are handed on.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The person.
    pub person: &'a Person,
    /// The visit.
    pub visit: &'a Visit,
}

impl Case<'_> {
    /// Visits of the same person that gave a sheet, told as of this visit's entry, whichever joined entry they are kept with.
    /// None are needed unless a log came back.
    #[must_use]
    pub fn sheets_before(&self, all: &[Case<'_>]) -> Vec<Visit> {
        if self.visit.logs.is_empty() {
            return Vec::new();
        }
        let own = all.iter().filter(|other| other.person.id == self.person.id && !other.visit.sheets.is_empty());
        own.map(|other| Visit { person: self.visit.person.clone(), ..other.visit.clone() }).collect()
    }
}

/// Text made harmless inside XML and HTML, in content and in quoted attributes. Characters XML does not know are left out.
#[must_use]
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(c),
            '\u{FFFE}' | '\u{FFFF}' => {}
            // Typed marks that turn the direction of what follows would turn our own words too.
            '\u{202A}'..='\u{202E}' => {}
            _ if c.is_control() => {}
            _ => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_opens_a_tag_or_an_attribute_is_left() {
        assert_eq!(
            escape("<img src=x onerror=\"alert('1')\"> & 👁️ דנה\u{0}\u{1b}"),
            "&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt; &amp; 👁️ דנה"
        );
    }
}
