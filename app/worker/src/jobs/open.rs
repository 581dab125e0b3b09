//! A file that arrived: looked at, opened if it is sealed, and read whole.

use sidelight_core::archive;
use sidelight_core::hand_over::{self, FileKind, HandOverError, Identity, With};
use sidelight_worker::{Answer, Opened, Seal};
use zeroize::Zeroizing;

use super::clinic_key::identities;
use super::{Done, parts};

pub fn run(bytes: Vec<Vec<u8>>) -> Done {
    let [file, keys, passphrase] = parts(bytes)?;
    let passphrase = Zeroizing::new(passphrase);
    match hand_over::look(&file) {
        FileKind::Plain => read(file, Seal::Plain),
        FileKind::SealedByPassphrase { .. } if passphrase.is_empty() => Ok((Answer::Locked(None), Vec::new())),
        FileKind::SealedByPassphrase { .. } => {
            let passphrase = std::str::from_utf8(&passphrase).map_err(|_| "This passphrase is not text.")?;
            match hand_over::open(&file, &With::Passphrase(passphrase)) {
                Ok(plain) => read(plain.to_vec(), Seal::Passphrase),
                Err(HandOverError::WrongPassphrase) => {
                    Ok((Answer::Locked(Some(HandOverError::WrongPassphrase.to_string())), Vec::new()))
                }
                Err(why) => Err(why.to_string()),
            }
        }
        FileKind::SealedToKey { .. } if keys.is_empty() => Err(NO_KEY.to_owned()),
        FileKind::Empty | FileKind::SealedToKey { .. } | FileKind::Unreadable(_) => {
            let plain = hand_over::open(&file, &With::Keys(&own(keys)?)).map_err(|why| why.to_string())?;
            read(plain.to_vec(), Seal::Key)
        }
    }
}

const NO_KEY: &str = "The file is sealed to a clinic key, and this device has none. Take it in on the clinic computer, \
                      or have it handed over by a passphrase.";

fn own(keys: Vec<u8>) -> Result<Vec<Identity>, String> {
    if keys.is_empty() { Ok(Vec::new()) } else { identities(keys) }
}

fn read(plain: Vec<u8>, seal: Seal) -> Done {
    let archive = archive::read(&plain).map_err(|why| why.to_string())?;
    let opened = Opened {
        seal,
        people: archive.people.len(),
        visits: archive.visits.len(),
        open: archive.visits.iter().filter(|visit| visit.closed.is_none()).count(),
        addenda: archive.addenda.len(),
        newer: !archive.unread.0.is_empty(),
    };
    Ok((Answer::Opened(opened), vec![plain]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use sidelight_core::archive::Archive;
    use sidelight_core::calendar::Moment;
    use sidelight_core::demo;
    use sidelight_core::hand_over::To;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn plain() -> Vec<u8> {
        let (people, visits) = demo::people(NOW);
        archive::write_compact(&Archive::of(people, visits))
    }

    fn opened(file: &[u8], keys: &[u8], passphrase: &str) -> Done {
        run(vec![file.to_vec(), keys.to_vec(), passphrase.as_bytes().to_vec()])
    }

    fn seal_of(done: Done) -> (Seal, Vec<u8>) {
        match done {
            Ok((Answer::Opened(opened), mut bytes)) => (opened.seal, bytes.remove(0)),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_plain_file_and_sealed_ones_come_to_the_same_bytes() {
        let own = Identity::generate();
        let to_key = hand_over::seal(&plain(), &To::Keys(&[own.recipient()])).expect("is sealed");
        let work = To::Passphrase { passphrase: "velvet anchor", work_factor: 2 };
        let by_words = hand_over::seal(&plain(), &work).expect("is sealed");
        let text = hand_over::as_text(&by_words).expect("is written");
        let older = Identity::generate();
        let file = [older.key_file().as_bytes(), own.key_file().as_bytes()].concat();
        assert_eq!(seal_of(opened(&plain(), &[], "")), (Seal::Plain, plain()));
        assert_eq!(seal_of(opened(&to_key, &file, "")), (Seal::Key, plain()));
        assert_eq!(seal_of(opened(&by_words, &[], "velvet anchor")), (Seal::Passphrase, plain()));
        assert_eq!(seal_of(opened(&text, &[], "velvet anchor")), (Seal::Passphrase, plain()));
        assert_eq!(opened(&by_words, &[], ""), Ok((Answer::Locked(None), Vec::new())));
        let wrong = opened(&by_words, &[], "velvet");
        assert!(matches!(wrong, Ok((Answer::Locked(Some(_)), _))), "{wrong:?}");
    }

    #[test]
    fn what_cannot_be_opened_is_a_sentence() {
        let own = Identity::generate();
        let sealed = hand_over::seal(&plain(), &To::Keys(&[own.recipient()])).expect("is sealed");
        let other = Identity::generate();
        let said = |done: Done| done.expect_err("is refused");
        assert!(said(opened(&sealed, &[], "")).contains("this device has none"));
        assert!(said(opened(&sealed, other.key_file().as_bytes(), "")).contains("another key"));
        assert!(said(opened(&sealed[..sealed.len() - 9], own.key_file().as_bytes(), "")).contains("breaks off"));
        assert!(said(opened(b"", &[], "")).contains("empty"));
        assert!(said(opened(b"{\"hello\": 1}", &[], "")).contains("not written by"));
        assert!(said(opened(&[0x50, 0x4b, 3, 4, 0, 0], &[], "")).contains("zip"));
        assert!(run(Vec::new()).is_err());
    }
}
