//! A hand that taps at random on what is in sight, and an eye that says what is shown.

use std::time::Duration;

use anyhow::{Context, Result};
use fantoccini::elements::{Element, ElementRef};
use fantoccini::error::CmdError;
use fastrand::Rng;
use serde_json::{Value, json};

use super::history::Shown;
use crate::page::Page;

const LOOK: &str = include_str!("look.js");
const WRITES: &str = include_str!("writes.js");

/// The key under which WebDriver hands over elements.
const ELEMENT: &str = "element-6066-11e4-a52e-4f735466cecf";

/// What is in sight.
pub struct Look {
    /// The step of the address.
    pub step: String,
    /// The screen.
    pub screen: String,
    /// The step whose record is shown; empty on screens without one.
    pub slot: String,
    /// How long the oldest unfinished write is under way, and how long the longest write took, as far as writes are watched.
    pub writing: Writing,
    shown: Shown,
    touchable: Vec<Touch>,
}

/// How long writes take, by the page's own clock.
#[derive(Clone, Copy, Debug, Default)]
pub struct Writing {
    pub open: Duration,
    pub longest: Duration,
}

/// Something that can be touched.
pub struct Touch {
    weight: u64,
    kind: String,
    element: String,
}

/// Begins to note how long the page's writes take.
pub async fn watch_writes(page: &Page) -> Result<()> {
    page.run(WRITES).await.map(|_| ())
}

/// Looks at the page.
pub async fn look(page: &Page) -> Result<Look> {
    Look::read(&page.run_with(LOOK, Vec::new()).await?)
}

/// Goes to each of these steps by its address and looks.
pub async fn look_at(page: &Page, slots: &[String]) -> Result<Vec<Look>> {
    let looks = page.run_with(LOOK, vec![json!(slots)]).await?;
    looks.as_array().context("no looks")?.iter().map(Look::read).collect()
}

/// Touches it: a real click, or a place on a slider, which no click can choose.
pub async fn touch(page: &Page, touch: &Touch, random: &mut Rng) -> Result<()> {
    let element = Element::from_element_id(page.client().clone(), ElementRef::from(touch.element.clone()));
    let touched = if touch.kind == "slide" {
        let arguments = vec![serde_json::to_value(&element)?, json!(random.f64())];
        page.client().execute(SLIDE, arguments).await.map(|_| ())
    } else {
        element.click().await
    };
    match touched {
        Err(error) if was_not_there(&error) => Ok(()),
        touched => touched.context("a random tap failed"),
    }
}

const SLIDE: &str = "
    const [slider, share] = arguments;
    const [min, max, step] = [slider.min, slider.max, slider.step].map(Number);
    slider.value = min + step * Math.round(share * (max - min) / step);
    slider.dispatchEvent(new Event('input', { bubbles: true }));
";

impl Look {
    /// The record in sight, with its step.
    pub fn shown(&self) -> Option<(&str, Shown)> {
        (!self.slot.is_empty()).then(|| (self.slot.as_str(), self.shown.clone()))
    }

    /// One of the things to touch, the likelier the greater its weight.
    pub fn choose(&self, random: &mut Rng) -> Option<&Touch> {
        let total: u64 = self.touchable.iter().map(|touch| touch.weight).sum();
        let mut left = random.u64(0..total.max(1));
        self.touchable.iter().find(|touch| {
            let chosen = left < touch.weight;
            left = left.saturating_sub(touch.weight);
            chosen
        })
    }

    fn read(look: &Value) -> Result<Self> {
        let text = |name: &str| look[name].as_str().unwrap_or_default().to_owned();
        let touchable = look["touchable"].as_array().into_iter().flatten();
        let millis = |name: &str| Duration::from_secs_f64(look["writing"][name].as_f64().unwrap_or_default() / 1000.0);
        Ok(Self {
            writing: Writing { open: millis("open"), longest: millis("longest") },
            step: text("step"),
            screen: text("screen"),
            slot: text("slot"),
            shown: Shown { what: text("what"), size: look["size"].as_i64().context("a look without a size")? },
            touchable: touchable.filter_map(Touch::read).collect(),
        })
    }
}

impl Touch {
    /// Whether it may lead to another step.
    pub fn moves(&self) -> bool {
        self.kind.ends_with("move")
    }

    /// Whether it changes the record as it leads to another step, so that nobody sees what it made of it.
    pub fn fills(&self) -> bool {
        self.kind == "fill-and-move"
    }

    fn read(touch: &Value) -> Option<Self> {
        Some(Self {
            weight: touch["weight"].as_u64()?,
            kind: touch["kind"].as_str()?.to_owned(),
            element: touch["element"][ELEMENT].as_str()?.to_owned(),
        })
    }
}

/// Something was in front of it, or it was drawn anew meanwhile: nothing was touched.
fn was_not_there(error: &CmdError) -> bool {
    let names = [
        "element click intercepted",
        "element not interactable",
        "is not clickable",
        "could not be scrolled into view",
        "stale element reference",
    ];
    let told = error.to_string();
    names.iter().any(|name| told.contains(name)) || error.is_stale_element_reference()
}
