//! Study codes: drawn at random, one a person, and the list that says whose they are.

use std::collections::{BTreeMap, BTreeSet};

use super::{File, guard, put};
use crate::export::Case;

/// Letters and digits that are not mistaken for each other; without vowels, so that no code is a word.
const SIGNS: &[u8; 28] = b"BCDFGHJKLMNPQRSTVWXZ23456789";

/// How many of them are letters. A code begins with one, so that no spreadsheet takes it for a number.
const LETTERS: usize = 20;

/// Signs in a code: 20 · 28^7, more than 2^38, codes.
const LENGTH: usize = 8;

/// The file that says whose the codes are. It stays where the records are and never goes with the tables.
pub const LIST: &str = "study-codes.csv";

/// A code for each person, by their id. The caller fills bytes at random; more are asked for until every code is free and
/// tells nothing.
///
/// # Errors
/// That of the caller, when there are no random bytes.
pub fn draw<E>(
    cases: &[Case<'_>],
    random: &mut dyn FnMut(&mut [u8]) -> Result<(), E>,
) -> Result<BTreeMap<String, String>, E> {
    let mut known: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for Case { person, visit } in cases {
        let texts =
            known.entry(&person.id).or_insert_with(|| vec![person.id.to_uppercase(), person.label.to_uppercase()]);
        texts.push(visit.id.to_uppercase());
    }
    let mut taken = BTreeSet::new();
    let mut codes = BTreeMap::new();
    for (person, texts) in known {
        let code = loop {
            let code = one(random)?;
            if !texts.iter().any(|text| text.contains(&code)) && taken.insert(code.clone()) {
                break code;
            }
        };
        codes.insert(person.to_owned(), code);
    }
    Ok(codes)
}

/// Bytes beyond the last whole round of signs are dropped, so that each sign is as likely as every other.
fn one<E>(random: &mut dyn FnMut(&mut [u8]) -> Result<(), E>) -> Result<String, E> {
    let mut code = String::with_capacity(LENGTH);
    while code.len() < LENGTH {
        let signs = if code.is_empty() { &SIGNS[..LETTERS] } else { &SIGNS[..] };
        let mut bytes = [0; 16];
        random(&mut bytes)?;
        for byte in bytes.map(usize::from).into_iter().filter(|byte| *byte < 256 / signs.len() * signs.len()) {
            code.push(char::from(signs[byte % signs.len()]));
            if code.len() == LENGTH || code.len() == 1 {
                break;
            }
        }
    }
    Ok(code)
}

/// Whose the codes are, by code, which says nothing of the order of the records.
#[must_use]
pub fn list(cases: &[Case<'_>], codes: &BTreeMap<String, String>) -> File {
    let people: BTreeMap<&str, &str> =
        cases.iter().map(|case| (case.person.id.as_str(), case.person.label.as_str())).collect();
    let mut rows: Vec<[String; 3]> = people
        .into_iter()
        .filter_map(|(id, label)| Some([codes.get(id)?.clone(), guard::write_text(id), guard::write_text(label)]))
        .collect();
    rows.sort();
    let mut sheet = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    put(&mut sheet, &["code", "person", "label"]);
    rows.iter().for_each(|row| put(&mut sheet, row));
    File { name: LIST.to_string(), bytes: sheet.into_inner().unwrap_or_default() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::unread::Unread;
    use crate::capture::visit::{Person, Visit};
    use crate::export::table::{Options, Who, read, write};

    const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    /// Not random, and different bytes each time.
    fn counting() -> impl FnMut(&mut [u8]) -> Result<(), ()> {
        let mut next = 0_u64;
        move |bytes| {
            for byte in bytes {
                next = next.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                *byte = (next >> 56) as u8;
            }
            Ok(())
        }
    }

    fn people(count: usize) -> Vec<(Person, Visit)> {
        let one = |n: usize| {
            let id = format!("p{n}");
            let visit = Visit::begin(&format!("v{n}"), &id, "sideline", NOON, "test");
            let label = format!("=Person {n}");
            (Person { id, label, born: None, invented: true, changed: None, unread: Unread::default() }, visit)
        };
        (0..count).map(one).collect()
    }

    fn cases(all: &[(Person, Visit)]) -> Vec<Case<'_>> {
        all.iter().map(|(person, visit)| Case { person, visit }).collect()
    }

    #[test]
    fn everybody_gets_a_code_that_the_tables_take_and_every_sign_is_as_likely() {
        let all = people(4_000);
        let cases = cases(&all);
        let codes = draw(&cases, &mut counting()).expect("codes");
        let different: BTreeSet<&String> = codes.values().collect();
        assert_eq!((codes.len(), different.len()), (4_000, 4_000));
        let mut counts = [0_u32; 256];
        for code in codes.values() {
            assert_eq!(code.len(), 8);
            assert!(code.starts_with(|sign: char| sign.is_ascii_uppercase()), "{code}");
            code.bytes().skip(1).for_each(|sign| counts[usize::from(sign)] += 1);
        }
        // 28,000 draws of 28 signs: 1,000 each, standard deviation 31; six of them is 186.
        for sign in SIGNS {
            assert!((814..1_186).contains(&counts[usize::from(*sign)]), "{}", char::from(*sign));
        }
        let options =
            Options { who: Who::Coded(&codes), addenda: &[], bom: false, program: "Sidelight", written: NOON };
        assert!(write(&cases[..20], &options).is_ok());
    }

    #[test]
    fn a_code_that_is_taken_or_stands_in_the_record_is_drawn_again() {
        let mut all = people(2);
        let first = draw(&cases(&all), &mut counting()).expect("codes");
        all[0].0.label = format!("Code {}", first["p0"].to_lowercase());
        let again = draw(&cases(&all), &mut counting()).expect("codes");
        assert!(again["p0"] != first["p0"]);
        let mut round = 0;
        let mut same_twice = |bytes: &mut [u8]| {
            round += 1;
            // A code takes two rounds: one for its letter, one for the rest.
            bytes.fill(if round <= 4 { 1 } else { 2 });
            Ok::<(), ()>(())
        };
        let codes = draw(&cases(&people(2)), &mut same_twice).expect("codes");
        assert_ne!(codes["p0"], codes["p1"]);
        assert_eq!(draw(&cases(&people(1)), &mut |_| Err("none")), Err("none"));
    }

    #[test]
    fn the_list_says_whose_each_code_is_and_runs_no_formula() {
        let all = people(3);
        let cases = cases(&all);
        let codes = draw(&cases, &mut counting()).expect("codes");
        let file = list(&cases, &codes);
        let table = read(&file.bytes).expect("a table");
        assert_eq!(table.header, ["code", "person", "label"]);
        assert_eq!(table.rows.len(), 3);
        for row in &table.rows {
            assert_eq!(codes[&row[1]], row[0]);
            assert!(!row[2].starts_with('='), "{}", row[2]);
        }
    }
}
