//! The content security policy is there and bites.

use std::io::{Read, Write};

use anyhow::{Context, Result, ensure};
use serde_json::Value;

use super::boots::is_up;
use crate::page::Page;
use crate::spec::Stage;

/// The local server states the policy by header; the page states it for hosts that cannot.
pub async fn stated(stage: &mut Stage) -> Result<()> {
    let mut connection = stage.site.connect()?;
    connection.write_all(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")?;
    let mut answer = Vec::new();
    connection.read_to_end(&mut answer)?;
    let answer = String::from_utf8_lossy(&answer).to_ascii_lowercase();
    let (head, _) = answer.split_once("\r\n\r\n").context("the answer has no end of its head")?;
    let by_header = head.lines().find_map(|line| line.strip_prefix("content-security-policy:"));
    check(by_header.context("the server sends no content security policy")?)?;

    let page = stage.page()?;
    page.open("").await?;
    let by_page =
        page.value("document.querySelector('meta[http-equiv=\"content-security-policy\" i]')?.content").await?;
    check(by_page.as_str().context("the page states no content security policy")?)
}

/// Neither a script element nor a handler, put in as markup or as nodes, runs.
pub async fn injected(stage: &mut Stage) -> Result<()> {
    let page = stage.page()?;
    page.open("").await?;
    is_up(&page).await?;
    let Injected { ran, blocked } = inject(&page).await?;
    ensure!(ran.is_none(), "an injected script ran: {ran:?}");
    // The browser must have said no to both; a script that was merely never tried would prove nothing.
    for part in ["script-src-elem", "script-src-attr"] {
        ensure!(blocked.iter().any(|blocked| blocked == part), "{part} was not enforced, only {blocked:?}");
    }
    Ok(())
}

/// What became of scripts put into a page.
pub struct Injected {
    /// What ran, if anything did.
    pub ran: Option<String>,
    /// The parts of the policy that the browser enforced against them.
    pub blocked: Vec<String>,
}

/// Puts a script element and markup with a handler into the page.
pub async fn inject(page: &Page) -> Result<Injected> {
    let blocked = page.run(INJECT).await?;
    let blocked = blocked.as_array().context("no list of what was blocked")?;
    let ran = page.value("document.documentElement.dataset.ran ?? null").await?;
    Ok(Injected {
        ran: ran.as_str().map(str::to_owned),
        blocked: blocked.iter().filter_map(Value::as_str).map(str::to_owned).collect(),
    })
}

const INJECT: &str = r#"
    const blocked = [];
    document.addEventListener('securitypolicyviolation', event => blocked.push(event.effectiveDirective));
    const script = document.createElement('script');
    script.textContent = "document.documentElement.dataset.ran = 'script element'";
    document.body.append(script);
    const box = document.createElement('div');
    box.innerHTML = '<img src="data:," onerror="document.documentElement.dataset.ran = \'handler\'">';
    document.body.append(box);
    return new Promise(done => setTimeout(() => { script.remove(); box.remove(); done(blocked); }, 600));
"#;

fn check(policy: &str) -> Result<()> {
    for part in ["default-src 'none'", "script-src 'self'"] {
        ensure!(policy.contains(part), "the policy lacks {part}: {policy}");
    }
    ensure!(!policy.contains("'unsafe-inline'"), "the policy allows inline script or style: {policy}");
    Ok(())
}
