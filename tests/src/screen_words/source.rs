//! Reads the app's sources as the compiler does, word by word: what `say!` and `text!` say, and what stands outside them.

use std::str::FromStr;

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};

/// What one source file holds.
#[derive(Debug, Default)]
pub struct Source {
    /// Texts inside `say!`, `text!` and `counted!`.
    pub texts: Vec<String>,
    /// Texts outside them.
    pub loose: Vec<Loose>,
    /// Words of tasks and forms that are not put into the language: line and field.
    pub untold: Vec<(usize, String)>,
}

/// A text outside the macros.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loose {
    /// Its line, from 1.
    pub line: usize,
    /// Its column, from 0.
    pub column: usize,
    /// What it says.
    pub says: String,
    /// Where it stands.
    pub stands: Stands,
}

/// Where a text stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stands {
    /// Between tags.
    Node,
    /// As an attribute.
    Attribute,
    /// Anywhere else.
    Code,
}

/// Reads a file.
pub fn read(text: &str) -> Source {
    let tokens = TokenStream::from_str(text).expect("is Rust");
    let mut source = Source::default();
    code(&tokens.into_iter().collect::<Vec<_>>(), &mut source);
    source
}

/// Attributes that a reader meets.
const READ: &[&str] = &["aria-label", "aria-description", "aria-roledescription", "title", "placeholder", "alt"];

/// Attributes that only the browser and the tests read.
const UNREAD: &[&str] = &[
    "class",
    "id",
    "d",
    "viewBox",
    "points",
    "style",
    "sizes",
    "transform",
    "autocomplete",
    "aria-labelledby",
    "aria-describedby",
    "rel",
    "accept",
];

/// Macros and methods whose words end up before a developer.
const DEVELOPER: &[&str] =
    &["assert", "assert_eq", "assert_ne", "panic", "unreachable", "concat", "expect", "macro_rules"];

/// Fields of tasks and forms that hold words; those whose name others have too, such as a title, are not looked for.
const WORDS: &[&str] = &["ask", "help", "hint", "usual_label", "motion", "position", "watch"];

fn code(tokens: &[TokenTree], source: &mut Source) {
    let mut at = 0;
    while at < tokens.len() {
        if let Some(behind) = attribute(tokens, at) {
            at = behind;
            continue;
        }
        match &tokens[at] {
            TokenTree::Ident(name) => {
                let name = name.to_string();
                if is_told(tokens, at) {
                    at += 2;
                    continue;
                }
                word(&name, tokens, at, source);
                if let Some((group, behind)) = call(tokens, at, &name) {
                    called(&name, group, source);
                    at = behind;
                    continue;
                }
            }
            TokenTree::Literal(literal) => {
                if let Some(says) = string(&literal.to_string()).filter(|says| is_for_people(says)) {
                    source.loose.push(loose(literal, says, Stands::Code));
                }
            }
            TokenTree::Group(group) => code(&inside(group), source),
            TokenTree::Punct(_) => {}
        }
        at += 1;
    }
}

/// Whether this begins `of(...)` of `words::of(...)`.
fn is_told(tokens: &[TokenTree], at: usize) -> bool {
    let text = |index: usize| tokens.get(index).map(ToString::to_string).unwrap_or_default();
    3 <= at && text(at) == "of" && text(at - 1) == ":" && text(at - 3) == "words"
}

/// Notes a word of a task or form that is shown as it stands.
fn word(name: &str, tokens: &[TokenTree], at: usize, source: &mut Source) {
    if WORDS.contains(&name) && is_shown(tokens, at) {
        source.untold.push((tokens[at].span().start().line, name.to_string()));
    }
}

/// Whether a field is read here, and not only asked whether it is empty.
fn is_shown(tokens: &[TokenTree], at: usize) -> bool {
    let text = |index: usize| tokens.get(index).map(ToString::to_string).unwrap_or_default();
    let asked = text(at + 1) == "." && text(at + 2) == "is_empty";
    let called =
        matches!(tokens.get(at + 1), Some(TokenTree::Group(group)) if group.delimiter() == Delimiter::Parenthesis);
    0 < at && text(at - 1) == "." && !asked && !called
}

/// The group of a macro or of a method for developers, and where it ends.
fn call<'a>(tokens: &'a [TokenTree], at: usize, name: &str) -> Option<(&'a Group, usize)> {
    let is_macro = matches!(tokens.get(at + 1), Some(TokenTree::Punct(mark)) if mark.as_char() == '!');
    if is_macro && name == "macro_rules" {
        let Some(TokenTree::Group(group)) = tokens.get(at + 3) else { return None };
        return Some((group, at + 4));
    }
    let behind = if is_macro { at + 2 } else { at + 1 };
    match tokens.get(behind) {
        Some(TokenTree::Group(group)) if is_macro || DEVELOPER.contains(&name) => Some((group, behind + 1)),
        _ => None,
    }
}

fn called(name: &str, group: &Group, source: &mut Source) {
    let tokens = inside(group);
    match name {
        "say" | "text" | "counted" => {
            for part in tokens.split(|token| matches!(token, TokenTree::Punct(mark) if mark.as_char() == ',')) {
                match part {
                    [TokenTree::Literal(literal)] => source.texts.extend(string(&literal.to_string())),
                    _ => code(part, source),
                }
            }
        }
        "view" => markup(&tokens, source),
        _ if DEVELOPER.contains(&name) => {}
        _ => code(&tokens, source),
    }
}

/// What stands between the tags of a `view!`.
fn markup(tokens: &[TokenTree], source: &mut Source) {
    for (at, token) in tokens.iter().enumerate() {
        match token {
            TokenTree::Literal(literal) => {
                let Some(says) = string(&literal.to_string()) else { continue };
                let (stands, is_read) = match attribute_name(tokens, at) {
                    None => (Stands::Node, has_letter(&says)),
                    Some(name) if READ.contains(&name.as_str()) => (Stands::Attribute, has_letter(&says)),
                    Some(name) if UNREAD.contains(&name.as_str()) || name.starts_with("data-") => continue,
                    Some(_) => (Stands::Attribute, is_for_people(&says)),
                };
                if is_read {
                    source.loose.push(loose(literal, says, stands));
                }
            }
            TokenTree::Group(group) => {
                let is_call = at > 1
                    && matches!(&tokens[at - 1], TokenTree::Punct(mark) if mark.as_char() == '!')
                    && matches!(&tokens[at - 2], TokenTree::Ident(_));
                let value = if is_call { at - 2 } else { at };
                let unread = attribute_name(tokens, value)
                    .is_some_and(|name| UNREAD.contains(&name.as_str()) || name.starts_with("data-"));
                if unread || (0 < at && is_told(tokens, at - 1)) {
                    continue;
                }
                if is_call {
                    called(&tokens[at - 2].to_string(), group, source);
                } else {
                    code(&inside(group), source);
                }
            }
            TokenTree::Ident(name) => word(&name.to_string(), tokens, at, source),
            TokenTree::Punct(_) => {}
        }
    }
}

/// The attribute whose value begins here: `aria-label="..."`.
fn attribute_name(tokens: &[TokenTree], at: usize) -> Option<String> {
    let is = |index: usize, wanted: char| matches!(&tokens[index], TokenTree::Punct(mark) if mark.as_char() == wanted);
    if at < 2 || !is(at - 1, '=') {
        return None;
    }
    let mut name = String::new();
    let mut index = at - 1;
    while 0 < index {
        index -= 1;
        let joins = is(index, '-') || is(index, ':');
        let word = matches!(&tokens[index], TokenTree::Ident(_));
        // Two words in a row are two attributes.
        if !joins && !(word && (name.is_empty() || name.starts_with(['-', ':']))) {
            break;
        }
        name = format!("{}{name}", tokens[index]);
    }
    Some(name)
}

/// Where an attribute such as `#[derive(...)]` ends, together with the item it leaves to the tests.
fn attribute(tokens: &[TokenTree], at: usize) -> Option<usize> {
    if !matches!(&tokens[at], TokenTree::Punct(mark) if mark.as_char() == '#') {
        return None;
    }
    let inner = matches!(tokens.get(at + 1), Some(TokenTree::Punct(mark)) if mark.as_char() == '!');
    let group = at + if inner { 2 } else { 1 };
    let Some(TokenTree::Group(words)) = tokens.get(group) else { return None };
    if words.delimiter() != Delimiter::Bracket {
        return None;
    }
    if words.stream().to_string().replace(' ', "") != "cfg(test)" {
        return Some(group + 1);
    }
    let ends = |token: &TokenTree| match token {
        TokenTree::Group(body) => body.delimiter() == Delimiter::Brace,
        TokenTree::Punct(mark) => mark.as_char() == ';',
        TokenTree::Ident(_) | TokenTree::Literal(_) => false,
    };
    let length = tokens[group + 1..].iter().position(ends)?;
    Some(group + 1 + length + 1)
}

/// A string literal's text.
fn string(literal: &str) -> Option<String> {
    if let Some(raw) = literal.strip_prefix('r').and_then(|raw| raw.trim_matches('#').strip_prefix('"')) {
        return raw.strip_suffix('"').map(String::from);
    }
    let body = literal.strip_prefix('"')?.strip_suffix('"')?;
    let mut text = String::new();
    let mut rest = body.chars().peekable();
    while let Some(one) = rest.next() {
        if one != '\\' {
            text.push(one);
            continue;
        }
        match rest.next() {
            Some('n') => text.push('\n'),
            Some('t') => text.push('\t'),
            Some('u') => {
                let digits: String = rest.by_ref().skip(1).take_while(|digit| *digit != '}').collect();
                text.extend(u32::from_str_radix(&digits, 16).ok().and_then(char::from_u32));
            }
            // A line that goes on in the next one.
            Some('\n') => while rest.next_if(|blank| blank.is_whitespace()).is_some() {},
            Some(other) => text.push(other),
            None => {}
        }
    }
    Some(text)
}

/// Whether a text looks as if a person is to read it: words with a blank between them, or a word with a capital. One with
/// more capitals is a name of the browser's.
fn is_for_people(says: &str) -> bool {
    let text = without_braces(says);
    let letters: Vec<char> = text.chars().collect();
    // "48 H36" is part of a drawing, "1 visit" is not.
    let two_words = letters.windows(4).any(|w| {
        w[1] == ' ' && w[2].is_alphabetic() && w[0].is_alphanumeric() && (w[0].is_alphabetic() || w[3].is_lowercase())
    });
    let capital = text.split(|letter: char| !letter.is_alphabetic()).any(|word| {
        let mut letters = word.chars();
        letters.next().is_some_and(char::is_uppercase)
            && letters.next().is_some_and(char::is_lowercase)
            && letters.all(char::is_lowercase)
    });
    two_words || capital || says.ends_with('…')
}

fn has_letter(says: &str) -> bool {
    without_braces(says).chars().any(char::is_alphabetic)
}

/// The text with a numeral for everything that is filled in.
fn without_braces(says: &str) -> String {
    let mut out = String::new();
    let mut rest = says;
    while let Some((before, behind)) = rest.split_once('{') {
        out.push_str(before);
        out.push('0');
        rest = behind.split_once('}').map_or("", |(_, after)| after);
    }
    out + rest
}

fn inside(group: &Group) -> Vec<TokenTree> {
    group.stream().into_iter().collect()
}

fn loose(literal: &proc_macro2::Literal, says: String, stands: Stands) -> Loose {
    let start = literal.span().start();
    Loose { line: start.line, column: start.column, says, stands }
}
