//! A key from a passphrase, which takes a second on purpose.

use sidelight_core::seal::{self, Kdf};
use sidelight_worker::Answer;
use zeroize::Zeroizing;

use super::{Done, parts};

pub fn run(kdf: Kdf, bytes: Vec<Vec<u8>>) -> Done {
    let [passphrase, salt] = parts(bytes)?;
    let passphrase = Zeroizing::new(passphrase);
    let text = std::str::from_utf8(&passphrase).map_err(|_| "This passphrase is not text.".to_owned())?;
    let key = seal::derive(text, &salt, kdf).map_err(|why| why.to_string())?;
    Ok((Answer::Done, vec![key.bytes().to_vec()]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_key_is_that_of_the_core_and_weak_settings_are_refused() {
        let given = || vec![b"velvet anchor".to_vec(), vec![7; 16]];
        let wanted = seal::derive("velvet anchor", &[7; 16], Kdf::LEAST).expect("derives");
        assert_eq!(run(Kdf::LEAST, given()), Ok((Answer::Done, vec![wanted.bytes().to_vec()])));
        assert!(run(Kdf { memory_kib: 8, passes: 1, lanes: 1 }, given()).is_err());
        assert!(run(Kdf::LEAST, vec![vec![0xff], vec![7; 16]]).is_err());
        assert!(run(Kdf::LEAST, vec![Vec::new()]).is_err());
    }
}
