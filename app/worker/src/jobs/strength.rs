//! How hard a passphrase is to guess, by the patterns that guessing programs try first.

use sidelight_worker::{Answer, Strength};
use zeroize::Zeroizing;

use super::{Done, parts};

/// What every guess at a found phone costs, in guesses a second: Argon2id with 64 MiB and three passes takes about a
/// tenth of a second of one processor core at full speed, and a determined stranger has a thousand cores. An assumption.
const GUESSES_A_SECOND: u64 = 10_000;

pub fn run(bytes: Vec<Vec<u8>>) -> Done {
    let [passphrase] = parts(bytes)?;
    let passphrase = Zeroizing::new(passphrase);
    let text = std::str::from_utf8(&passphrase).map_err(|_| "This passphrase is not text.".to_owned())?;
    let entropy = zxcvbn::zxcvbn(text, &["sidelight"]);
    let (score, guesses) = (u8::from(entropy.score()), entropy.guesses());
    Ok((Answer::Strength(Strength { score, guesses, says: sentence(guesses) }), Vec::new()))
}

fn sentence(guesses: u64) -> String {
    let (word, advice) = match guesses {
        0..10_000_000 => ("Weak", " Use four or more words that do not belong together."),
        10_000_000..10_000_000_000 => ("Fair", " Another word or two makes it strong."),
        10_000_000_000..1_000_000_000_000_000 => ("Good", ""),
        1_000_000_000_000_000.. => ("Strong", ""),
    };
    format!("{word}: a determined stranger would need {}.{advice}", time(guesses / GUESSES_A_SECOND))
}

fn time(seconds: u64) -> &'static str {
    const DAY: u64 = 86_400;
    const YEAR: u64 = 365 * DAY;
    match seconds {
        0..60 => "less than a minute",
        60..3_600 => "less than an hour",
        3_600..DAY => "less than a day",
        DAY..2_592_000 => "days",
        2_592_000..YEAR => "months",
        YEAR..31_536_000_000 => "years",
        31_536_000_000.. => "thousands of years",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> Strength {
        match run(vec![text.as_bytes().to_vec()]) {
            Ok((Answer::Strength(strength), _)) => strength,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn common_words_are_weak_and_unrelated_words_strong() {
        assert_eq!(of("password1").score, 0);
        assert!(of("password1").says.starts_with("Weak: a determined stranger would need less than a minute."));
        assert_eq!(of("").score, 0);
        let strong = of("velvet anchor museum tiger blanket");
        assert_eq!(strong.score, 4);
        assert!(strong.says.starts_with("Strong"), "{strong:?}");
    }

    #[test]
    fn a_passphrase_of_a_thousand_letters_is_no_burden() {
        let long: String = (0..1_000_u32).map(|at| char::from(b'a' + (at * at % 26) as u8)).collect();
        let started = std::time::Instant::now();
        assert_eq!(of(&long).score, 4);
        assert!(started.elapsed().as_secs() < 5);
    }

    #[test]
    fn times_follow_from_the_guesses_a_second() {
        // 10^10 guesses at 10^4 a second are 10^6 seconds, which is 11.6 days.
        assert_eq!(time(10_000_000_000 / GUESSES_A_SECOND), "days");
        assert_eq!(time(u64::MAX / GUESSES_A_SECOND), "thousands of years");
    }
}
