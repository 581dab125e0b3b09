//! WebDriver commands beyond those that the client library has methods for.

use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::Value;
use url::{ParseError, Url};

/// One command below the session's address.
#[derive(Debug)]
pub struct Command {
    method: Method,
    path: String,
    body: Option<Value>,
}

impl Command {
    /// A command that asks for something.
    pub fn get(path: impl Into<String>) -> Self {
        Self { method: Method::GET, path: path.into(), body: None }
    }

    /// A command that does something.
    pub fn post(path: impl Into<String>, body: Value) -> Self {
        Self { method: Method::POST, path: path.into(), body: Some(body) }
    }
}

impl WebDriverCompatibleCommand for Command {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        (self.method.clone(), self.body.as_ref().map(Value::to_string))
    }
}
