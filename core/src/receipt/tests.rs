//! Receipts: their digest, words and QR text, what is taken for one, and the hand over they belong to.

use super::*;
use crate::archive::closed;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_007, offset_minutes: 60 };

fn visit(id: &str) -> VisitRef {
    VisitRef { id: id.into(), sha256: "ab".repeat(32) }
}

fn receipt(ids: &[&str]) -> Receipt {
    Receipt::of("r", NOW, ids.iter().map(|id| visit(id)).collect(), Vec::new())
}

fn handed(id: &str, minute: i64, ids: &[&str]) -> HandedOver {
    let made = Moment { unix_ms: NOW.unix_ms + minute * 60_000, ..NOW };
    HandedOver::of(id, made, "walnut", ids.iter().map(|id| visit(id)).collect(), Vec::new())
}

fn said(receipt: &Receipt) -> [Said; 2] {
    [code(receipt), receipt.words()].map(|text| Said::parse(&text).unwrap_or_else(|why| panic!("{text}: {why}")))
}

/// The lines by hand; their digest from a program of its own (`sha256sum`).
#[test]
fn the_digest_is_over_sorted_lines() {
    let expected = "be77b6382d59d4b1d5cb52ec785b0f5c207fdaf32b01657d78c211c00acf0dc6";
    assert_eq!(hex(&receipt(&["v-2", "v-1", "v-2"]).digest()), expected);
    assert_eq!(code(&receipt(&["v-1", "v-2"])), format!("SIDELIGHT RECEIPT 1 2 {}", expected.to_uppercase()));
}

#[test]
fn the_qr_text_is_alphanumeric_and_short() {
    let text = code(&receipt(&["v-1"]));
    assert!(text.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit() || c == ' '), "{text}");
    assert!(text.len() < 114, "it fits version 5 with medium correction: {}", text.len());
}

#[test]
fn both_ways_of_entering_find_the_hand_over() {
    let log = [handed("a", 0, &["v-1", "v-2"]), handed("b", 1, &["v-3"]), handed("c", 2, &[])];
    for said in said(&receipt(&["v-2", "v-1"])) {
        assert_eq!(matches(&said, &log), [&log[0]]);
    }
}

#[test]
fn files_taken_in_together_have_one_receipt() {
    let log =
        [handed("a", 0, &["v-1"]), handed("b", 1, &["v-2", "v-1"]), handed("c", 2, &["v-3"]), handed("d", 3, &["v-4"])];
    for said in said(&receipt(&["v-1", "v-2", "v-3"])) {
        let ids: Vec<&str> = matches(&said, &log).into_iter().map(|one| one.id.as_str()).collect();
        assert_eq!(ids, ["c", "b"], "the latest that add up; the first one's visit is in the second");
    }
}

#[test]
fn a_correction_makes_another_receipt() {
    let with = |addenda: &[&str]| HandedOver {
        addenda: addenda.iter().map(|id| visit(id)).collect(),
        ..handed(&addenda.concat(), addenda.len() as i64, &["v-1"])
    };
    let log = [with(&[]), with(&["a-1"])];
    let given = Receipt::of("r", NOW, vec![visit("v-1")], vec![visit("a-1")]);
    assert!(code(&given).starts_with("SIDELIGHT RECEIPT 1 2 "), "{}", code(&given));
    for said in said(&given) {
        assert_eq!(matches(&said, &log), [&log[1]]);
    }
    for said in said(&receipt(&["v-1"])) {
        assert_eq!(matches(&said, &log), [&log[0]]);
    }
}

#[test]
fn a_receipt_for_other_visits_finds_nothing() {
    let log = [handed("a", 0, &["v-1", "v-2"]), handed("b", 1, &["v-3"])];
    let changed = Receipt::of("r", NOW, vec![VisitRef { sha256: "cd".repeat(32), ..visit("v-3") }], Vec::new());
    for other in [receipt(&["v-1"]), receipt(&["v-9"]), changed, receipt(&[])] {
        for said in said(&other) {
            assert!(matches(&said, &log).is_empty(), "{other:?}");
        }
    }
    assert!(matches(&said(&receipt(&[]))[0], &[]).is_empty());
}

#[test]
fn words_are_taken_however_they_were_typed() {
    let words = receipt(&["v-1"]).words();
    let expected = Said::parse(&words).expect("six words");
    let short: Vec<String> = words.split(' ').map(|word| word.chars().take(4).collect()).collect();
    for typed in [words.to_uppercase(), words.replace(' ', "-"), short.join("  "), format!(" {words}.\n")] {
        assert_eq!(Said::parse(&typed).as_ref(), Ok(&expected), "{typed}");
    }
    let typed = code(&receipt(&["v-1"])).to_lowercase().replace(' ', "\n ");
    assert!(matches!(Said::parse(&typed), Ok(Said::Code { count: 1, .. })), "{typed}");
}

#[test]
fn what_is_no_receipt_says_why() {
    let words = receipt(&["v-1"]).words();
    let whole = code(&receipt(&["v-1"]));
    let misspelt = format!("x{words}");
    let not_a_word = |typed: &str| NotAReceipt::Word(NotAWord { nth: 1, typed: typed.into() });
    let first = misspelt.split(' ').next().unwrap_or_default();
    let cases = [
        ("", NotAReceipt::Empty),
        (" \n", NotAReceipt::Empty),
        ("legal winner", NotAReceipt::Count(2)),
        ("legal", NotAReceipt::Count(1)),
        (&format!("{words} legal"), NotAReceipt::Count(7)),
        (&misspelt, not_a_word(first)),
        ("https://example.org/x", NotAReceipt::OtherCode),
        ("AGE1QQQQ", NotAReceipt::OtherCode),
        (&whole[..whole.len() - 1], NotAReceipt::OtherCode),
        (&whole.replace(" 1 1 ", " 1 -1 "), NotAReceipt::OtherCode),
        (&whole.replace(" 1 1 ", " 2 1 "), NotAReceipt::Newer),
        (&whole.replace(" 1 1 ", " 0 1 "), NotAReceipt::OtherCode),
        (&format!("{whole} x"), NotAReceipt::OtherCode),
    ];
    for (typed, expected) in cases {
        let refused = Said::parse(typed).expect_err(typed);
        assert_eq!(refused, expected, "{typed}");
        assert!(refused.to_string().ends_with('.'), "{refused}");
    }
}

#[test]
fn a_changed_count_is_another_receipt() {
    let log = [handed("a", 0, &["v-1"])];
    let lied = code(&receipt(&["v-1"])).replace(" 1 1 ", " 1 2 ");
    assert!(matches(&Said::parse(&lied).expect("a code"), &log).is_empty());
}

#[test]
fn only_closed_visits_are_receipted_and_older_ones_by_what_they_say() {
    let open = Visit::begin("v-1", "p", "sideline", NOW, "test");
    let shut = closed(Visit { id: "v-2".into(), ..open.clone() }, NOW);
    let older = Visit { sha256: None, ..shut.clone() };
    let refs_of_both = refs([&open, &shut]);
    assert_eq!(refs_of_both, refs([&older]));
    assert_eq!(refs_of_both, [VisitRef { id: "v-2".into(), sha256: shut.sha256.clone().unwrap_or_default() }]);
}
