//! Names and digests made from content, so that a file's address changes exactly when its bytes do.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// 64 bits of SHA-256 in hexadecimal: short enough for a file name, long enough that two builds never share one.
pub fn short(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest[..8].iter().map(|byte| format!("{byte:02x}")).collect()
}

/// `app.css` with the fingerprint of its bytes: `app-0123456789abcdef.css`.
pub fn name(plain: &str, bytes: &[u8]) -> String {
    let fingerprint = short(bytes);
    match plain.rsplit_once('.') {
        Some((stem, extension)) => format!("{stem}-{fingerprint}.{extension}"),
        None => format!("{plain}-{fingerprint}"),
    }
}

/// Whether a file name carries a fingerprint, so that it may be cached for good.
pub fn is_named_by_content(file_name: &str) -> bool {
    let stem = file_name.rsplit_once('.').map_or(file_name, |it| it.0);
    let fingerprint = stem.rsplit_once('-').map(|it| it.1);
    fingerprint.is_some_and(|it| it.len() == 16 && it.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f')))
}

/// The digest in the form the Subresource Integrity standard uses.
pub fn integrity(bytes: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(bytes)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digests_of_the_empty_message() {
        // SHA-256 of no bytes, as FIPS 180-4 test vectors give it.
        assert_eq!(short(b""), "e3b0c44298fc1c14");
        assert_eq!(integrity(b""), "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
    }

    #[test]
    fn names_follow_content() {
        assert_eq!(name("app.css", b""), "app-e3b0c44298fc1c14.css");
        assert_ne!(name("app.css", b"a"), name("app.css", b"b"));
        assert!(is_named_by_content(&name("app.js", b"x")));
        assert!(is_named_by_content(&name("LICENSE", b"x")));
    }

    #[test]
    fn plain_names_are_not_taken_for_fingerprints() {
        for plain in ["index.html", "sw.js", "icon-512.png", "apple-touch-icon.png"] {
            assert!(!is_named_by_content(plain), "{plain}");
        }
        assert!(!is_named_by_content("app-E3B0C44298FC1C14.css"));
    }
}
