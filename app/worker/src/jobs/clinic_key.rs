//! The clinic's key: made on the clinic computer, read on a phone.

use sidelight_core::hand_over::{Identity, Recipient, fingerprint};
use sidelight_worker::{Answer, PublicKey};
use zeroize::Zeroizing;

use super::{Done, parts};

/// A new key; the bytes are its key file.
pub fn make() -> Done {
    let identity = Identity::generate();
    Ok((Answer::Key(public(&identity.recipient())), vec![identity.key_file().as_bytes().to_vec()]))
}

/// The public half of the first key of a key file.
pub fn own(bytes: Vec<Vec<u8>>) -> Done {
    let [file] = parts(bytes)?;
    let first = identities(file)?.into_iter().next();
    let first = first.ok_or("This is no key file. Choose the one that Sidelight saved.")?;
    Ok((Answer::Key(public(&first.recipient())), Vec::new()))
}

/// A public key as it was typed, pasted or scanned.
pub fn read(text: &str) -> Done {
    let recipient = Recipient::parse(text).map_err(|why| why.to_string())?;
    Ok((Answer::Key(public(&recipient)), Vec::new()))
}

/// Every secret key of a key file.
pub fn identities(file: Vec<u8>) -> Result<Vec<Identity>, String> {
    let file = Zeroizing::new(file);
    let text = std::str::from_utf8(&file).map_err(|_| "This is no key file. Choose the one that Sidelight saved.")?;
    Identity::parse_all(text).map_err(|why| why.to_string())
}

fn public(recipient: &Recipient) -> PublicKey {
    PublicKey { text: recipient.to_string(), code: recipient.code(), words: fingerprint(recipient) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(done: Done) -> PublicKey {
        match done {
            Ok((Answer::Key(key), _)) => key,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_key_is_the_same_from_its_file_its_text_and_its_code() {
        let (answer, bytes) = make().expect("is made");
        let made = key(Ok((answer, Vec::new())));
        assert_eq!(key(own(bytes.clone())), made);
        assert_eq!(key(read(&made.text)), made);
        assert_eq!(key(read(&made.code)), made);
        assert_eq!(made.words.split(' ').count(), 6);
        let older = make().expect("is made").1.remove(0);
        let both = [bytes[0].clone(), older].concat();
        assert_eq!(key(own(vec![both])), made, "the newest stands first");
    }

    #[test]
    fn what_is_no_key_is_refused_in_words() {
        let secret = make().expect("is made").1.remove(0);
        for text in ["", "hello", &String::from_utf8_lossy(&secret)] {
            assert!(read(text).expect_err("is refused").len() > 10);
        }
        assert!(own(vec![vec![0xff]]).is_err());
        assert!(own(vec![b"# nothing\n".to_vec()]).is_err());
    }
}
