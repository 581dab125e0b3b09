//! Narratives: one `div` of plain text elements, well formed, without attributes that could do anything.

use serde_json::Value;

use super::Say;

/// Elements that may stand in a narrative.
static ELEMENTS: &[&str] = &[
    "div", "p", "pre", "br", "b", "i", "em", "strong", "span", "ul", "ol", "li", "table", "caption", "thead", "tbody",
    "tr", "th", "td", "h1", "h2", "h3", "h4", "dl", "dt", "dd",
];

/// What the outermost element says.
const OPENING: &str = "<div xmlns=\"http://www.w3.org/1999/xhtml\">";

/// Checks a member that is a narrative.
pub fn check(at: &str, name: &str, value: &Value, say: &mut Say<'_>) {
    let Some(text) = value.as_str().filter(|_| name == "div") else { return };
    if let Err(what) = read(text) {
        say(at, what);
    }
}

fn read(text: &str) -> Result<(), String> {
    let inner = text.strip_prefix(OPENING).ok_or("a narrative begins with a div of XHTML")?;
    let mut open = vec!["div"];
    let mut rest = inner;
    while let Some(at) = rest.find('<') {
        entities(&rest[..at])?;
        if open.is_empty() {
            return Err("something stands behind the narrative".to_string());
        }
        let end = rest[at..].find('>').ok_or("an element is not closed")? + at;
        let tag = &rest[at + 1..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            if open.pop() != Some(name) {
                return Err(format!("</{name}> closes nothing"));
            }
            continue;
        }
        let (name, alone) = match tag.strip_suffix('/') {
            Some(name) => (name.trim_end(), true),
            None => (tag, false),
        };
        if !ELEMENTS.contains(&name) {
            return Err(format!("<{}> may not stand in a narrative", name.chars().take(40).collect::<String>()));
        }
        if !alone {
            open.push(name);
        }
    }
    entities(rest)?;
    if open.is_empty() && rest.trim().is_empty() { Ok(()) } else { Err("an element is not closed".to_string()) }
}

/// Every "&" begins one of XML's own entities.
fn entities(text: &str) -> Result<(), String> {
    let known = |rest: &str| ["&amp;", "&lt;", "&gt;", "&quot;", "&#39;"].iter().any(|entity| rest.starts_with(entity));
    let fine = text.match_indices('&').all(|(at, _)| known(&text[at..]));
    if fine { Ok(()) } else { Err("an entity is not one of XML".to_string()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn within(text: &str) -> Result<(), String> {
        read(&format!("{OPENING}{text}</div>"))
    }

    #[test]
    fn text_and_plain_elements_pass() {
        assert_eq!(within("<p>a &lt; b<br/></p><pre>x\ny</pre>"), Ok(()));
    }

    #[test]
    fn everything_else_is_refused() {
        let bad = [
            "<script>alert(1)</script>",
            "<p style=\"color:red\">x</p>",
            "<p onclick=\"x\">x</p>",
            "<img src=\"x\"/>",
            "<a href=\"x\">x</a>",
            "<p>x",
            "</p>",
            "a & b",
            "&nbsp;",
            "<!-- x -->",
            "<p>x</div>",
            "</div><p>x</p><div>",
        ];
        for bad in bad {
            assert!(within(bad).is_err(), "{bad}");
        }
        assert!(read("<div>x</div>").is_err() && read(&format!("{OPENING}x")).is_err() && read("x").is_err());
    }
}
