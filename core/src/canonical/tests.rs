//! Canonical JSON against what RFC 8785 prints: its examples, its table of numbers (appendix B) and the cases of its
//! authors' test data; SHA-256 against FIPS 180-4.

use super::*;

fn made(json: &str) -> String {
    String::from_utf8(canonical(json).unwrap_or_else(|why| panic!("{json}: {why}"))).expect("UTF-8")
}

/// RFC 8785, appendix B: the bits of a double and its text. The two not-a-number rows and infinity have none.
#[test]
fn numbers_of_appendix_b() {
    let table: [(u64, &str); 24] = [
        (0x0000_0000_0000_0000, "0"),
        (0x8000_0000_0000_0000, "0"),
        (0x0000_0000_0000_0001, "5e-324"),
        (0x8000_0000_0000_0001, "-5e-324"),
        (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
        (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
        (0x4340_0000_0000_0000, "9007199254740992"),
        (0xc340_0000_0000_0000, "-9007199254740992"),
        (0x4430_0000_0000_0000, "295147905179352830000"),
        (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
        (0x44b5_2d02_c7e1_4af6, "1e+23"),
        (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
        (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
        (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
        (0x444b_1ae4_d6e2_ef50, "1e+21"),
        (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
        (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
        (0x41b3_de43_5555_5553, "333333333.3333332"),
        (0x41b3_de43_5555_5554, "333333333.33333325"),
        (0x41b3_de43_5555_5555, "333333333.3333333"),
        (0x41b3_de43_5555_5556, "333333333.3333334"),
        (0x41b3_de43_5555_5557, "333333333.33333343"),
        (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
        (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
    ];
    for (bits, expected) in &table {
        let number = f64::from_bits(*bits);
        assert_eq!(bytes(&Tree::Number(number)).map(String::from_utf8), Ok(Ok((*expected).to_string())), "{bits:x}");
        // Written out in full, a double comes back to the last bit.
        assert_eq!(made(&format!("{number:e}")), *expected);
    }
}

/// RFC 8785, 3.2.2 and 3.2.4: the example and its bytes.
#[test]
fn the_example_of_the_text_comes_out_to_the_byte() {
    let given = r#"{
        "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    }"#;
    let expected = "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a5b3333333333333333332e\
                    333333333333332c31652b33302c342e352c302e3030322c31652d32375d2c22737472696e67223a22e282ac245c753030306\
                    65c6e4127425c225c5c5c5c5c222f227d";
    assert_eq!(hex(&canonical(given).expect("canonical")), expected);
}

/// RFC 8785, 3.2.3: names are ordered by their UTF-16 code units, so the smiley stands before the Hebrew letter.
#[test]
fn names_are_ordered_by_utf_16_code_units() {
    let given = r#"{ "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis" }"#;
    let text = made(given);
    let order = ["Carriage", "One", "Control", "Latin", "Euro", "Emoji", "Hebrew"];
    let places: Vec<usize> = order.iter().map(|word| text.find(word).expect("it is there")).collect();
    assert!(places.is_sorted(), "{text}");
}

/// The cases of the authors' test data: arrays, French, structures, unnormalised Unicode and odd names.
#[test]
fn cases_of_the_authors_test_data() {
    let cases = [
        (r#"[ 56, { "d": true, "10": null, "1": [ ] } ]"#, r#"[56,{"1":[],"10":null,"d":true}]"#),
        (r#"{"peach":1,"péché":2,"pêche":3,"sin":4}"#, r#"{"peach":1,"péché":2,"pêche":3,"sin":4}"#),
        (
            r#"{ "1": {"f": {"f": "hi","F": 5} ,"\n": 56.0}, "10": { }, "": "empty", "a": { },
                "111": [ {"e": "yes","E": "no" } ], "A": { } }"#,
            r#"{"":"empty","1":{"\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}"#,
        ),
        ("{\"Unnormalized Unicode\":\"A\\u030a\"}", "{\"Unnormalized Unicode\":\"A\u{30a}\"}"),
        (
            r#"{"\u20ac":1,"\r":2,"\u000a":3,"1":4,"\u0080":"Control\u007f","\ud83d\ude02":5,"\u00f6":6,"\ufb33":7,"</script>":8}"#,
            "{\"\\n\":3,\"\\r\":2,\"1\":4,\"</script>\":8,\"\u{80}\":\"Control\u{7f}\",\"ö\":6,\"€\":1,\"😂\":5,\"\u{fb33}\":7}",
        ),
    ];
    for (given, expected) in cases {
        assert_eq!(made(given), expected);
        assert_eq!(made(expected), expected, "it is its own canonical form");
    }
}

#[test]
fn what_has_no_single_meaning_is_refused() {
    let deep = "[".repeat(200) + &"]".repeat(200);
    let cases = [
        ("", NotCanonical::NotJson),
        ("{\"a\":1", NotCanonical::NotJson),
        ("{\"a\":1} x", NotCanonical::NotJson),
        ("nul", NotCanonical::NotJson),
        ("[01]", NotCanonical::NotJson),
        (r#""\ud800""#, NotCanonical::NotJson),
        (r#"{"a":1,"b":{"c":1,"\u0063":2}}"#, NotCanonical::Twice),
        ("[1e999]", NotCanonical::Number),
        (&deep, NotCanonical::TooDeep),
    ];
    for (given, expected) in cases {
        assert_eq!(canonical(given), Err(expected), "{given}");
    }
}

/// Beyond 2^53 neighbours share a double; as texts they stay apart.
#[test]
fn whole_numbers_beyond_doubles_are_the_double_they_fall_on() {
    assert_eq!(made("9007199254740993"), "9007199254740992");
    assert_eq!(made("9007199254740993"), made("9007199254740992"));
    assert_ne!(made("\"9007199254740993\""), made("\"9007199254740992\""));
    assert_eq!(made("-0"), "0");
    assert_eq!(made("123456789012345678901234567890"), "1.2345678901234568e+29");
}

/// FIPS 180-4 as published with its examples: the empty text and "abc".
#[test]
fn digests_of_the_standard() {
    assert_eq!(sha256_hex(b""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    assert_eq!(sha256_hex(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}
