//! The page as one file that needs no network: a template with marks, made by the builder, and what stands in their place.

use super::html::escape;
use super::page::{page, title};
use crate::sheet::Sheet;

/// What a template holds where a sheet is filled in.
#[derive(Debug)]
pub struct Marks;

impl Marks {
    /// The language's tag.
    pub const LANGUAGE: &'static str = "@@language@@";
    /// The title.
    pub const TITLE: &'static str = "@@title@@";
    /// The text of the sheet.
    pub const SHEET: &'static str = "@@sheet@@";
    /// The page, so that it is read and printed where no program runs.
    pub const PAGE: &'static str = "@@page@@";

    /// All of them.
    pub const ALL: [&'static str; 4] = [Marks::LANGUAGE, Marks::TITLE, Marks::SHEET, Marks::PAGE];
}

/// The file of a sheet; `None` when the template lacks a mark, so that no half file is given to a family.
#[must_use]
pub fn file(template: &str, sheet: &Sheet) -> Option<String> {
    let language = sheet.language;
    let values = [language.tag().to_string(), escape(title(language)), sheet.encode(), page(sheet, language)];
    let mut text = template.to_string();
    for (mark, value) in Marks::ALL.into_iter().zip(&values) {
        if !text.contains(mark) {
            return None;
        }
        text = text.replace(mark, value);
    }
    Some(text)
}
