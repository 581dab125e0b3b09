//! The key of a clinic: its secret half stays on the clinic computer, its public half is read by the phones.

use std::fmt;

use age::secrecy::ExposeSecret as _;
use sha2::{Digest as _, Sha256};
use zeroize::Zeroizing;

use crate::words;

/// Words of a fingerprint: 66 bits, more than anybody can search for a second key that has the same ones.
const FINGERPRINT_WORDS: usize = 6;

const PUBLIC: &str = "age1";
const SECRET: &str = "AGE-SECRET-KEY-1";

/// The longest text that is looked at; a key has 74 characters at most, a key file some lines.
const LONGEST_TEXT: usize = 64 * 1024;

/// The secret half of a clinic key. It is overwritten in memory when it is dropped, and never shown by `Debug`.
#[derive(Clone)]
pub struct Identity(age::x25519::Identity);

impl Identity {
    /// A new key, drawn by the age library.
    #[must_use]
    pub fn generate() -> Identity {
        Identity(age::x25519::Identity::generate())
    }

    /// Reads a key, or a key file: lines of remarks that begin with `#`, and one secret key a line.
    ///
    /// # Errors
    /// [`NotAKey`] says what the text is instead. Nothing of the text stands in it.
    pub fn parse_all(text: &str) -> Result<Vec<Identity>, NotAKey> {
        let lines = || text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#'));
        if text.len() > LONGEST_TEXT {
            return Err(NotAKey::Other);
        }
        if lines().next().is_none() {
            return Err(NotAKey::Empty);
        }
        lines().map(Identity::parse).collect()
    }

    fn parse(line: &str) -> Result<Identity, NotAKey> {
        if let Ok(identity) = line.parse::<age::x25519::Identity>() {
            return Ok(Identity(identity));
        }
        Err(if starts_with(line, SECRET) {
            NotAKey::Damaged
        } else if starts_with(line, PUBLIC) {
            NotAKey::Public
        } else if starts_with(line, "AGE-") {
            NotAKey::OtherKind
        } else {
            other(line)
        })
    }

    /// The secret as text, `AGE-SECRET-KEY-1…`, for a file that is kept in a safe place.
    #[must_use]
    pub fn secret(&self) -> Zeroizing<String> {
        Zeroizing::new(self.0.to_string().expose_secret().to_string())
    }

    /// A key file as other programs of the age format read it too.
    #[must_use]
    pub fn key_file(&self) -> Zeroizing<String> {
        let recipient = self.recipient();
        Zeroizing::new(format!(
            "# The clinic key of Sidelight. Whoever has this file can open what is handed over to the clinic.\n\
             # Words: {}\n# public key: {recipient}\n{}\n",
            fingerprint(&recipient),
            *self.secret()
        ))
    }

    /// The public half.
    #[must_use]
    pub fn recipient(&self) -> Recipient {
        Recipient(self.0.to_public())
    }

    pub(super) fn as_age(&self) -> &dyn age::Identity {
        &self.0
    }
}

impl fmt::Debug for Identity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Identity of {}", self.recipient())
    }
}

/// The public half of a clinic key: what a phone seals to.
#[derive(Clone, PartialEq, Eq)]
pub struct Recipient(age::x25519::Recipient);

impl Recipient {
    /// Reads a key that was typed, pasted or read from a code, in small or in capital letters.
    ///
    /// # Errors
    /// [`NotAKey`] says what the text is instead. Nothing of the text stands in it.
    pub fn parse(text: &str) -> Result<Recipient, NotAKey> {
        let key = text.trim();
        if key.is_empty() {
            return Err(NotAKey::Empty);
        }
        if key.len() > LONGEST_TEXT {
            return Err(NotAKey::Other);
        }
        if text.lines().any(|line| starts_with(line.trim(), "AGE-SECRET-KEY-")) {
            return Err(NotAKey::Secret);
        }
        let Ok(recipient) = key.parse::<age::x25519::Recipient>() else {
            return Err(if !starts_with(key, PUBLIC) {
                other(key)
            } else if other_kind(key) {
                NotAKey::OtherKind
            } else {
                NotAKey::Damaged
            });
        };
        // The library stops the whole program when it is asked to seal to such a key.
        if is_weak(&bytes(&recipient.to_string())) {
            return Err(NotAKey::Weak);
        }
        Ok(Recipient(recipient))
    }

    /// The key for a code to be read by a camera: capital letters and digits take the least room there.
    #[must_use]
    pub fn code(&self) -> String {
        self.to_string().to_ascii_uppercase()
    }

    pub(super) fn as_age(&self) -> &dyn age::Recipient {
        &self.0
    }
}

impl fmt::Display for Recipient {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

impl fmt::Debug for Recipient {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// Six words of a public key, to compare by eye on both screens.
#[must_use]
pub fn fingerprint(recipient: &Recipient) -> String {
    words::encode(&Sha256::digest(recipient.to_string().as_bytes()), FINGERPRINT_WORDS)
}

/// Why a text is no clinic key. Its text says what to do instead.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotAKey {
    /// There is nothing.
    Empty,
    /// It is a secret key where a public one belongs.
    Secret,
    /// It is a public key where a secret one belongs.
    Public,
    /// It is a key for logging in.
    Ssh,
    /// It is a key of another kind.
    OtherKind,
    /// It is a key with a fault in it.
    Damaged,
    /// It is a key that keeps nothing secret.
    Weak,
    /// It is something else.
    Other,
}

impl fmt::Display for NotAKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            NotAKey::Empty => "There is no key here. Read the code on the clinic computer, or paste the key.",
            NotAKey::Secret => {
                "This is the secret half of a key. It belongs on the clinic computer alone: delete it here and \
                 wherever it was sent, and make a new key there. The half for phones begins with age1."
            }
            NotAKey::Public => {
                "This is the public half of a key, which seals and does not open. The secret half begins with \
                 AGE-SECRET-KEY-1."
            }
            NotAKey::Ssh => "This is an SSH key. A clinic key begins with age1 and is made on the clinic computer.",
            NotAKey::OtherKind => {
                "This is a kind of key that Sidelight does not use. Make a clinic key in Sidelight on the clinic \
                 computer."
            }
            NotAKey::Damaged => {
                "The key is not whole, or a letter of it is wrong. Read the code again, or copy the whole key."
            }
            NotAKey::Weak => "This key keeps nothing secret. Do not use it, and find out where it comes from.",
            NotAKey::Other => {
                "This is no clinic key. A clinic key begins with age1; a passphrase belongs in its own field."
            }
        })
    }
}

impl std::error::Error for NotAKey {}

fn other(text: &str) -> NotAKey {
    let ssh = ["ssh-", "ecdsa-", "sk-ssh-", "sk-ecdsa-", "-----BEGIN OPENSSH"];
    if ssh.iter().any(|start| starts_with(text, start)) { NotAKey::Ssh } else { NotAKey::Other }
}

fn starts_with(text: &str, start: &str) -> bool {
    text.get(..start.len()).is_some_and(|begin| begin.eq_ignore_ascii_case(start))
}

/// Characters of a whole public key.
const WHOLE: usize = 62;

/// Other kinds have their name between `age1` and a second `1`, and other lengths. A plain key of the right length with
/// a `1` in it was read wrongly: that digit is none of its letters.
fn other_kind(key: &str) -> bool {
    key.len() != WHOLE && key.get(PUBLIC.len()..).is_some_and(|rest| rest.contains('1'))
}

/// The 32 bytes of a key that the library has read: its letters stand for five bits each (BIP 173).
fn bytes(key: &str) -> Vec<u8> {
    const LETTERS: &str = "qpzry9x8gf2tvdw0s3jn54khce6mua7l";
    let mut bytes = Vec::with_capacity(32);
    let (mut held, mut bits) = (0_u32, 0);
    for letter in key.chars().skip(PUBLIC.len()).take(52) {
        held = (held << 5 | LETTERS.find(letter).unwrap_or(0) as u32) & 0xfff;
        bits += 5;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits) as u8);
        }
    }
    bytes
}

/// Points with which any secret gives the same shared key, nought (Bernstein, "Curve25519: new Diffie-Hellman speed
/// records", PKC 2006, and the list at https://cr.yp.to/ecdh.html#validate). The highest bit does not count.
fn is_weak(key: &[u8]) -> bool {
    let Some((&top, low)) = key.split_last() else { return true };
    let top = top & 0x7f;
    let all = |of: std::ops::Range<usize>, value: u8| low[of].iter().all(|byte| *byte == value);
    let zero_or_one = top == 0 && low[0] <= 1 && all(1..31, 0);
    let about_the_prime = top == 0x7f && (0xec..=0xee).contains(&low[0]) && all(1..31, 0xff);
    let order_eight = ORDER_EIGHT.iter().any(|point| point[..31] == *low && point[31] == top);
    zero_or_one || about_the_prime || order_eight
}

pub(super) const ORDER_EIGHT: [[u8; 32]; 2] = [
    [
        0xe0, 0xeb, 0x7a, 0x7c, 0x3b, 0x41, 0xb8, 0xae, 0x16, 0x56, 0xe3, 0xfa, 0xf1, 0x9f, 0xc4, 0x6a, 0xda, 0x09,
        0x8d, 0xeb, 0x9c, 0x32, 0xb1, 0xfd, 0x86, 0x62, 0x05, 0x16, 0x5f, 0x49, 0xb8, 0x00,
    ],
    [
        0x5f, 0x9c, 0x95, 0xbc, 0xa3, 0x50, 0x8c, 0x24, 0xb1, 0xd0, 0xb1, 0x55, 0x9c, 0x83, 0xef, 0x5b, 0x04, 0x44,
        0x5c, 0xc4, 0x58, 0x1c, 0x8e, 0x86, 0xd8, 0x22, 0x4e, 0xdd, 0xd0, 0x9f, 0x11, 0x57,
    ],
];
