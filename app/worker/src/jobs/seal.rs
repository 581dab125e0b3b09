//! Seals a hand over.

use sidelight_core::hand_over::{self, Recipient, To, WORK_FACTOR};
use sidelight_worker::Answer;
use zeroize::Zeroizing;

use super::Done;

/// To a key, or by the passphrase that follows the content; on wish as text too.
pub fn run(to: Option<String>, text: bool, bytes: Vec<Vec<u8>>) -> Done {
    let mut bytes = bytes.into_iter().map(Zeroizing::new);
    let plain = bytes.next().ok_or("There is nothing to seal.")?;
    let sealed = match to {
        Some(key) => {
            let key = Recipient::parse(&key).map_err(|why| why.to_string())?;
            hand_over::seal(&plain, &To::Keys(&[key]))
        }
        None => {
            let passphrase = bytes.next().unwrap_or_default();
            let passphrase = std::str::from_utf8(&passphrase).map_err(|_| "This passphrase is not text.")?;
            hand_over::seal(&plain, &To::Passphrase { passphrase, work_factor: WORK_FACTOR })
        }
    };
    let sealed = sealed.map_err(|why| why.to_string())?;
    let as_text = text.then(|| hand_over::as_text(&sealed)).transpose().map_err(|why| why.to_string())?;
    Ok((Answer::Done, std::iter::once(sealed).chain(as_text).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use sidelight_core::hand_over::{Identity, With, open};

    fn sealed(to: Option<String>, bytes: &[&[u8]]) -> Vec<Vec<u8>> {
        run(to, true, bytes.iter().map(|part| part.to_vec()).collect()).expect("is sealed").1
    }

    #[test]
    fn bytes_and_text_open_to_the_same() {
        let own = Identity::generate();
        let made = sealed(Some(own.recipient().code()), &[b"all of it"]);
        assert_eq!(made.len(), 2);
        for file in &made {
            assert_eq!(open(file, &With::Keys(std::slice::from_ref(&own))).expect("opens").as_slice(), b"all of it");
        }
        assert!(made[1].is_ascii());
    }

    #[test]
    fn a_passphrase_seals_and_an_empty_one_does_not() {
        let made = sealed(None, &[b"all of it", b"velvet anchor"]);
        assert_eq!(open(&made[0], &With::Passphrase("velvet anchor")).expect("opens").as_slice(), b"all of it");
        assert!(run(None, false, vec![b"x".to_vec(), Vec::new()]).is_err());
        assert!(run(None, false, vec![b"x".to_vec()]).is_err());
        assert!(run(Some("age1nothing".into()), false, vec![b"x".to_vec()]).is_err());
        assert!(run(None, false, Vec::new()).is_err());
    }
}
