//! The page as a person meets it: things are looked for by what they are, tapped and typed into.

mod audit;
mod console;
mod devtools;
mod print;
mod record;
mod tabs;
mod target;
mod view;
mod waits;

use std::path::Path;
use std::sync::Arc;

use anyhow::{Context, Result, ensure};
use fantoccini::Client;
use fantoccini::actions::{InputSource, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, PointerAction, TouchActions};
use fantoccini::elements::Element;
use fantoccini::error::CmdError;
use fantoccini::key::Key;
use serde_json::Value;

pub use console::WATCH;
pub use print::Print;
pub use record::Record;
pub use target::{Target, css, role};

use crate::engine::Engine;
use crate::wait::{PATIENCE, poll};

/// The current tab of a running browser. Clones speak to the same tab and count together.
#[derive(Clone)]
pub struct Page {
    client: Client,
    engine: Engine,
    site: String,
    record: Arc<Record>,
}

impl Page {
    /// The page of a session that has just begun.
    pub fn new(client: Client, engine: Engine, site: String, record: Arc<Record>) -> Self {
        Self { client, engine, site, record }
    }

    /// The session, for what this layer has no method for.
    pub fn client(&self) -> &Client {
        &self.client
    }

    /// Goes to `path` below the address of the site, such as `"#/settings"`.
    pub async fn open(&self, path: &str) -> Result<()> {
        let address = format!("{}/{path}", self.site.trim_end_matches('/'));
        self.collect_errors().await?;
        self.client.goto(&address).await.with_context(|| format!("cannot open {address}"))?;
        self.watch().await
    }

    /// Reloads as the page itself would. The WebDriver command would bypass the service worker in Firefox.
    pub async fn reload(&self) -> Result<()> {
        self.collect_errors().await?;
        self.run("window.beforeReload = true; setTimeout(() => location.reload(), 0);").await?;
        poll("the page to reload", PATIENCE, async || {
            // Between two documents there is nothing that could answer; that is no failure.
            let fresh = self.value("!window.beforeReload && document.readyState === 'complete'");
            Ok(matches!(fresh.await, Ok(Value::Bool(true))).then_some(()))
        })
        .await?;
        self.watch().await
    }

    /// Waits until the one thing meant is shown, and gives it.
    pub async fn find<'t>(&self, target: impl Into<Target<'t>>) -> Result<Element> {
        let target = target.into();
        poll(&format!("{target} to be shown"), PATIENCE, async || {
            for element in self.candidates(&target).await? {
                match element.is_displayed().await {
                    Ok(true) => return Ok(Some(element)),
                    Ok(false) => {}
                    Err(error) if is_stale(&error) => {}
                    Err(error) => return Err(error.into()),
                }
            }
            Ok(None)
        })
        .await
    }

    /// Taps with a real pointer, which fails if something else covers the place.
    pub async fn tap<'t>(&self, target: impl Into<Target<'t>>) -> Result<()> {
        let target = target.into();
        poll(&format!("{target} to be enabled and tapped"), PATIENCE, async || {
            let element = self.find(target).await?;
            let tapped = async {
                if !element.is_enabled().await? {
                    return Ok(false);
                }
                if self.engine == Engine::Webkit {
                    // WebKitGTK's driver does not scroll to what the edge of a scrolled box cuts off, and then fails.
                    let shown = vec![serde_json::to_value(&element)?];
                    self.client.execute("arguments[0].scrollIntoView({ block: 'nearest' });", shown).await?;
                }
                element.click().await.map(|()| true)
            };
            match tapped.await {
                Ok(true) => Ok(Some(())),
                Ok(false) => Ok(None),
                // The page was drawn anew between looking and tapping: nothing was tapped yet.
                Err(error) if is_stale(&error) => Ok(None),
                Err(error) => Err(error).with_context(|| format!("cannot tap {target}")),
            }
        })
        .await?;
        self.record.count_tap();
        Ok(())
    }

    /// Taps the same thing `times` times.
    pub async fn tap_times<'t>(&self, target: impl Into<Target<'t>>, times: u32) -> Result<()> {
        let target = target.into();
        for _ in 0..times {
            self.tap(target).await?;
        }
        Ok(())
    }

    /// Taps with a finger, where the engine has one; WebKitGTK sends a mouse in its place. A finger needs no
    /// certainty that nothing covers the place, so `tap` says more about the layout.
    pub async fn touch<'t>(&self, target: impl Into<Target<'t>>) -> Result<()> {
        let target = target.into();
        let element = self.find(target).await?;
        let finger = TouchActions::new("finger".to_owned())
            .then(PointerAction::MoveToElement { element, duration: None, x: 0.0, y: 0.0 })
            .then(PointerAction::Down { button: MOUSE_BUTTON_LEFT })
            .then(PointerAction::Up { button: MOUSE_BUTTON_LEFT });
        self.client.perform_actions(finger).await.with_context(|| format!("cannot touch {target}"))?;
        self.record.count_tap();
        Ok(())
    }

    /// Taps a field, empties it and types into it.
    pub async fn fill<'t>(&self, target: impl Into<Target<'t>>, text: &str) -> Result<()> {
        let target = target.into();
        self.tap(target).await?;
        let field = self.ask_of(target, async |field| field.clear().await.map(|()| field)).await?;
        self.type_into(&field, text).await.with_context(|| format!("cannot type into {target}"))
    }

    /// Presses a key in whatever has the focus.
    pub async fn press(&self, key: Key) -> Result<()> {
        // As key strokes of the whole page: sent to an element they would fail in file fields.
        let value = char::from(key);
        let strokes =
            KeyActions::new("keyboard".to_owned()).then(KeyAction::Down { value }).then(KeyAction::Up { value });
        self.client.perform_actions(strokes).await?;
        self.record.count_keys(&String::from(value));
        Ok(())
    }

    /// Hands a file to a file field, as the picker of the system would.
    pub async fn choose_file<'t>(&self, target: impl Into<Target<'t>>, file: &Path) -> Result<()> {
        let target = target.into();
        // File fields are mostly hidden behind a button of our own, so they need not be shown.
        let field = poll(&format!("{target} to exist"), PATIENCE, async || {
            Ok(self.candidates(&target).await?.into_iter().next())
        })
        .await?;
        let path = std::path::absolute(file)?;
        field.send_keys(&path.to_string_lossy()).await?;
        Ok(())
    }

    /// The text that is shown.
    pub async fn text<'t>(&self, target: impl Into<Target<'t>>) -> Result<String> {
        self.ask_of(target.into(), async |element| element.text().await).await
    }

    /// What a field holds.
    pub async fn field<'t>(&self, target: impl Into<Target<'t>>) -> Result<String> {
        let value = self.ask_of(target.into(), async |element| element.prop("value").await).await?;
        Ok(value.unwrap_or_default())
    }

    /// An attribute, if there is one.
    pub async fn attribute<'t>(&self, target: impl Into<Target<'t>>, name: &str) -> Result<Option<String>> {
        self.ask_of(target.into(), async |element| element.attr(name).await).await
    }

    /// Asks again when the page was drawn anew between finding and asking.
    async fn ask_of<T>(&self, target: Target<'_>, question: impl AsyncFn(Element) -> Result<T, CmdError>) -> Result<T> {
        poll(&format!("{target} to stay"), PATIENCE, async || match question(self.find(target).await?).await {
            Ok(answer) => Ok(Some(answer)),
            Err(error) if is_stale(&error) => Ok(None),
            Err(error) => Err(error.into()),
        })
        .await
    }

    /// How many there are at this moment, shown or not.
    pub async fn count<'t>(&self, target: impl Into<Target<'t>>) -> Result<usize> {
        Ok(self.candidates(&target.into()).await?.len())
    }

    /// The value of a JavaScript expression; a promise is awaited.
    pub async fn value(&self, expression: &str) -> Result<Value> {
        self.run(&format!("return ({expression});")).await
    }

    /// Runs a JavaScript function body and gives what it returns; a promise is awaited.
    pub async fn run(&self, body: &str) -> Result<Value> {
        self.run_with(body, Vec::new()).await
    }

    /// Like `run`, with `arguments[0]` and so on.
    pub async fn run_with(&self, body: &str, arguments: Vec<Value>) -> Result<Value> {
        self.client
            .execute(body, arguments)
            .await
            .with_context(|| format!("script failed: {}", body.chars().take(120).collect::<String>()))
    }

    /// A picture of the view in PNG.
    pub async fn screenshot(&self) -> Result<Vec<u8>> {
        Ok(self.client.screenshot().await?)
    }

    /// The number of taps so far, those into fields included, restarts of the browser too.
    pub fn taps(&self) -> u32 {
        self.record.taps()
    }

    /// The number of keys typed so far.
    pub fn keys(&self) -> u32 {
        self.record.keys()
    }

    async fn type_into(&self, element: &Element, text: &str) -> Result<()> {
        if text.chars().any(|c| u32::from(c) > 0xffff) {
            // WebKitGTK's driver drops these characters and Chromium's refuses them; an input method would insert them so.
            let inserted = self.run_with(INSERT, vec![serde_json::to_value(element)?, text.into()]).await?;
            ensure!(inserted == Value::Bool(true), "the field takes no text");
        } else {
            element.send_keys(text).await?;
        }
        self.record.count_keys(text);
        Ok(())
    }
}

const INSERT: &str = "
    arguments[0].focus();
    return document.execCommand('insertText', false, arguments[1]);
";

fn is_stale(error: &CmdError) -> bool {
    if error.is_stale_element_reference() || error.is_no_such_element() {
        return true;
    }
    // WebKit's driver also says it without the code, or lists nothing in the place of what has gone.
    let told = error.to_string();
    ["Stale element", "Could not parse element info"].iter().any(|words| told.contains(words))
}
