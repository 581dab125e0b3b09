//! Random ids. Version 7 sorts by time and tells nothing about a person.

/// A random number for [`sidelight_core::words::word`].
#[must_use]
pub fn random_number() -> u16 {
    // The last bits of an id are random (RFC 9562, section 5.7).
    let [.., high, low] = *uuid::Uuid::now_v7().as_bytes();
    u16::from_be_bytes([high, low])
}

/// A new id.
#[must_use]
pub fn uuid() -> String {
    uuid::Uuid::now_v7().to_string()
}

#[cfg(test)]
mod tests {
    use super::uuid;
    use std::collections::BTreeSet;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn ids_differ_sort_by_time_and_say_their_version() {
        let ids: Vec<String> = (0..1_000).map(|_| uuid()).collect();
        assert!(ids.is_sorted());
        assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
        assert!(ids.iter().all(|id| id.len() == 36 && id.as_bytes()[14] == b'7'));
        // The first 48 bits are the Unix time in milliseconds (RFC 9562, section 5.7).
        let hex = ids[0][..13].replace('-', "");
        let made = i64::from_str_radix(&hex, 16).expect("is hexadecimal");
        let super::super::clock::Now(now, _) = super::super::clock::now();
        assert!((now - made).abs() < 60_000, "{made} against {now}");
    }
}
