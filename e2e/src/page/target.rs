//! What a spec means: a thing with a test name, with a role and a name, or found by a CSS selector.

use std::fmt;

use anyhow::Result;
use fantoccini::Locator;
use fantoccini::elements::Element;

use super::{Page, is_stale};
use crate::command::Command;
use crate::wait::{PATIENCE, poll};

/// A thing on the page. A plain string means the `data-test` attribute.
#[derive(Clone, Copy, Debug)]
pub enum Target<'t> {
    /// The thing whose `data-test` has this value.
    Test(&'t str),
    /// What a CSS selector finds.
    Css(&'t str),
    /// The thing with this role and this accessible name, as the browser tells them to a screen reader.
    Role(&'t str, &'t str),
}

/// Looks by CSS selector.
pub fn css(selector: &str) -> Target<'_> {
    Target::Css(selector)
}

/// Looks by role and accessible name, as a person who cannot see the page does.
pub fn role<'t>(role: &'t str, name: &'t str) -> Target<'t> {
    Target::Role(role, name)
}

impl<'t> From<&'t str> for Target<'t> {
    fn from(test: &'t str) -> Self {
        Self::Test(test)
    }
}

impl<'t> From<&'t String> for Target<'t> {
    fn from(test: &'t String) -> Self {
        Self::Test(test)
    }
}

impl fmt::Display for Target<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Test(test) => write!(f, "{test:?}"),
            Self::Css(selector) => write!(f, "`{selector}`"),
            Self::Role(role, name) => write!(f, "the {role} {name:?}"),
        }
    }
}

impl Page {
    /// Everything that fits at this moment, shown or not, in document order.
    pub(super) async fn candidates(&self, target: &Target<'_>) -> Result<Vec<Element>> {
        match target {
            Target::Test(test) => self.select(&format!("[data-test={test:?}]")).await,
            Target::Css(selector) => self.select(selector).await,
            Target::Role(role, name) => {
                let mut named = Vec::new();
                for element in self.select(&selector_of(role)).await? {
                    if self.has_role_and_name(&element, role, name).await? {
                        named.push(element);
                    }
                }
                Ok(named)
            }
        }
    }

    async fn select(&self, selector: &str) -> Result<Vec<Element>> {
        poll("a page that stands still", PATIENCE, async || {
            match self.client.find_all(Locator::Css(selector)).await {
                Ok(all) => Ok(Some(all)),
                // WebKit's driver fails when one of them goes while it makes its list.
                Err(error) if is_stale(&error) => Ok(None),
                Err(error) => Err(error.into()),
            }
        })
        .await
    }

    async fn has_role_and_name(&self, element: &Element, role: &str, name: &str) -> Result<bool> {
        for (what, wanted) in [("computedlabel", name), ("computedrole", role)] {
            let path = format!("element/{}/{what}", element.element_id().as_ref());
            match self.client.issue_cmd(Command::get(path)).await {
                Ok(told) if told.as_str() == Some(wanted) => {}
                Ok(_) => return Ok(false),
                Err(error) if is_stale(&error) => return Ok(false),
                Err(error) => return Err(error.into()),
            }
        }
        Ok(true)
    }
}

/// The elements that can have a role: those that say so and those that have it by nature.
fn selector_of(role: &str) -> String {
    let natural = match role {
        "button" => "button, summary, input[type=button], input[type=submit]",
        "link" => "a[href]",
        "heading" => "h1, h2, h3, h4, h5, h6",
        "textbox" => "input, textarea",
        "spinbutton" => "input[type=number]",
        "checkbox" => "input[type=checkbox]",
        "radio" => "input[type=radio]",
        "slider" => "input[type=range]",
        "combobox" => "select, input[list]",
        "dialog" => "dialog",
        "group" => "fieldset, details",
        "image" => "img, svg",
        "list" => "ul, ol",
        "listitem" => "li",
        "table" => "table",
        "navigation" => "nav",
        "region" => "section",
        _ => return format!("[role={role:?}]"),
    };
    format!("{natural}, [role={role:?}]")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_string_is_a_test_name() {
        let target = Target::from("start");
        assert_eq!(target.to_string(), "\"start\"");
        assert!(matches!(target, Target::Test("start")));
    }

    #[test]
    fn natural_and_stated_roles_are_both_looked_at() {
        assert_eq!(selector_of("link"), "a[href], [role=\"link\"]");
        assert_eq!(selector_of("status"), "[role=\"status\"]");
    }
}
