//! Bounded waiting: ask again until there is an answer or the time is over.

use std::time::{Duration, Instant};

use anyhow::{Result, anyhow, bail};

/// How long a spec waits for a state of the page before it fails.
pub const PATIENCE: Duration = Duration::from_secs(10);

/// Calls `ask` until it gives a value, fails, or `patience` is over; the error then names `what` was awaited.
pub async fn poll<T>(what: &str, patience: Duration, mut ask: impl AsyncFnMut() -> Result<Option<T>>) -> Result<T> {
    let deadline = Instant::now() + patience;
    loop {
        // A browser that does not answer at all must not hold up the run either.
        let answer = tokio::time::timeout_at((deadline + GRACE).into(), ask()).await;
        if let Some(answer) = answer.unwrap_or_else(|_| Err(anyhow!("no answer while waiting for {what}")))? {
            return Ok(answer);
        }
        if Instant::now() >= deadline {
            bail!("waited {} s for {what}, in vain", patience.as_secs());
        }
        tokio::time::sleep(INTERVAL).await;
    }
}

/// A command that began in time may take this much longer.
const GRACE: Duration = Duration::from_secs(35);

const INTERVAL: Duration = Duration::from_millis(50);

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn answers_as_soon_as_there_is_one() {
        let mut left = 3;
        let answer = poll("three", PATIENCE, async || {
            left -= 1;
            Ok((left == 0).then_some("here"))
        });
        assert_eq!(answer.await.expect("the third call answers"), "here");
    }

    #[tokio::test]
    async fn names_what_never_came() {
        let never = poll("the tide", Duration::ZERO, async || Ok(None::<()>));
        let error = never.await.expect_err("nothing ever answers");
        assert_eq!(error.to_string(), "waited 0 s for the tide, in vain");
    }
}
