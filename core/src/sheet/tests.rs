//! Sheets, logs and spoken numbers survive the way and back; what is damaged is never taken for something else.

use super::*;
use crate::catalogue::{placeholders, text};
use crate::tolerance::Rating;

/// A published text must not change with what a plan starts from, so these doses are its own.
fn item(id: &str, dose: Dose) -> Entry {
    Entry { exercise: exercise::by_id(id).expect("listed"), dose }
}

/// Four exercises, all advice of a knock: a large ordinary sheet.
fn ordinary() -> Sheet {
    let dose = |sets, amount, rest, a_day, a_week| Dose { sets, amount, rest, a_day, a_week, weeks: 4, beat: 0 };
    Sheet {
        entries: vec![
            item("head_turn_seated", Dose { beat: 60, ..dose(4, Amount::Seconds(60), 60, 3, 7) }),
            item("stance_steps", dose(3, Amount::Seconds(20), 20, 2, 5)),
            item("near_point_practice", dose(1, Amount::Seconds(300), 0, 3, 5)),
            item("steady_walk", dose(1, Amount::Seconds(1200), 0, 1, 7)),
        ],
        advice: advice::ALL.to_vec(),
        limits: Limits::CONSENSUS,
        emergency: "112".into(),
        helper: true,
        language: Language::Spanish,
    }
}

/// Six exercises, the most there can be.
fn largest() -> Sheet {
    let entries = exercise::ALL.iter().take(MOST_ITEMS).map(|exercise| Entry { exercise, dose: exercise.start });
    Sheet { entries: entries.collect(), emergency: "123456789012345".into(), ..ordinary() }
}

fn log() -> Log {
    let mut log = Log::of(&ordinary());
    let rated = |before, after| (Rating::new(before), Rating::new(after));
    log.note(1, 0, rated(1, 2), Ended::Planned);
    log.note(1, 0, rated(1, 4), Ended::Rested);
    log.note(1, 1, rated(2, 2), Ended::Planned);
    log.note(4, 3, (None, None), Ended::Planned);
    log
}

#[test]
fn a_sheet_comes_back_as_it_was() {
    for sheet in [ordinary(), largest(), Sheet { entries: Vec::new(), emergency: String::new(), ..ordinary() }] {
        assert_eq!(Sheet::decode(&sheet.encode()), Ok(sheet.clone()));
    }
}

/// A published text is opened for ever.
#[test]
fn the_published_form_stays_as_it_is() {
    let sheet = ordinary();
    assert_eq!(sheet.encode(), PUBLISHED);
    assert_eq!(Sheet::decode(PUBLISHED), Ok(sheet));
    assert_eq!(log().encode(), PUBLISHED_LOG);
    assert_eq!(Log::decode(PUBLISHED_LOG), Ok(log()));
}

const PUBLISHED: &str = "SHEET1.AAPYVQYREH4B4DYQHR6Q6BKAUGBIVIAADEWBAAOUAAOZMAQAD2AAAJRM3H6Q";
const PUBLISHED_LOG: &str = "SHEETLOG1.AAFAP2EBFCACREAB74AFSLCSEI";

#[test]
fn it_is_read_from_a_link_a_message_and_in_small_letters() {
    let sheet = ordinary();
    let link = sheet.link("https://clinic.example/sheet/#old");
    assert!(link.starts_with("https://clinic.example/sheet/#SHEET1."), "{link}");
    let small = sheet.encode().to_lowercase();
    let broken = format!("  {}\n{} ", &link[..60], &link[60..]);
    let asked = sheet.link("https://clinic.example/?from=mail&lt=1");
    for text in [link, small, broken, asked, format!("#{}", sheet.encode())] {
        assert_eq!(Sheet::decode(&text), Ok(sheet.clone()), "{text}");
    }
}

/// Room for a version of 15 at most, also for the largest sheet behind a long address and for twelve full weeks.
#[test]
fn codes_stay_small_enough_for_a_screen() {
    let address = "https://sidelight.some-rather-long-practice-name.example.org/app/index.html";
    let mut log = Log::of(&largest());
    for day in 1..=MOST_DAYS {
        for exercise in 0..MOST_ITEMS {
            log.note(day, exercise, (Rating::new(10), Rating::new(10)), Ended::Rested);
        }
    }
    let texts = [
        ("ordinary sheet, text", ordinary().encode()),
        ("ordinary sheet, link", ordinary().link(address)),
        ("largest sheet, link", largest().link(address)),
        ("log of twelve full weeks", log.encode()),
    ];
    for (what, text) in &texts {
        println!("{what}: {} characters, version {:?}", text.len(), qr_version(text));
        assert!(qr_version(text).is_ok(), "{what}: {} characters", text.len());
    }
    assert!(qr_version(&texts[2].1).is_ok_and(|version| version <= 10));
    let more = qr_version(&"A".repeat(601)).expect_err("beyond version 15");
    assert_eq!(more, TooLarge { has: 601, most: 600 });
    assert!(more.to_string().ends_with("Give the file."), "{more}");
    assert_eq!(qr_version(&"a".repeat(413)), Err(TooLarge { has: 413, most: 412 }));
}

/// Capacities of ISO/IEC 18004 at level M that two libraries (segno 1.6.6, qrcode 8.2) agree on.
#[test]
fn capacities_are_those_of_the_standard() {
    for (version, letters, bytes) in
        [(1, 20, 14), (5, 122, 84), (7, 178, 122), (10, 311, 213), (12, 419, 287), (15, 600, 412)]
    {
        assert_eq!(qr_version(&"A".repeat(letters)), Ok(version));
        assert_eq!(qr_version(&"a".repeat(bytes)), Ok(version));
        assert_ne!(qr_version(&"A".repeat(letters + 1)), Ok(version));
        assert_ne!(qr_version(&"a".repeat(bytes + 1)), Ok(version));
    }
}

/// One sentence of its own for each kind of fault.
#[test]
fn every_fault_is_named() {
    let good = ordinary().encode();
    let (head, code) = good.split_once('.').expect("name and code");
    let faults = [
        (String::new(), Unreadable::Nothing),
        (" # ".to_string(), Unreadable::Nothing),
        ("https://clinic.example/".to_string(), Unreadable::Foreign),
        ("WIFI:T:WPA;S:home;P:secret;;".to_string(), Unreadable::Foreign),
        (log().encode(), Unreadable::Foreign),
        ("SHEET0.AAAA".to_string(), Unreadable::Foreign),
        ("SHEE".to_string(), Unreadable::CutShort),
        (format!("{head}."), Unreadable::CutShort),
        (good[..good.len() - 1].to_string(), Unreadable::CutShort),
        (good[..good.len() / 2].to_string(), Unreadable::CutShort),
        (format!("{good}A"), Unreadable::Damaged),
        (format!("{head}.{}", code.replace('A', "1")), Unreadable::Damaged),
        (format!("SHEET2.{code}"), Unreadable::Newer),
        (format!("{good}<img src=x onerror=alert(1)>"), Unreadable::Markup),
        ("SHEET1.%3Cscript%3E".to_string(), Unreadable::Markup),
        (format!("<a href=\"https://clinic.example/#{good}\">"), Unreadable::Markup),
        ("A".repeat(1_000_000), Unreadable::TooLong),
        (format!("{good}{}", "<b>".repeat(400_000)), Unreadable::TooLong),
    ];
    for (text, fault) in faults {
        assert_eq!(Sheet::decode(&text), Err(fault), "{}", text.chars().take(80).collect::<String>());
    }
    assert_eq!(Log::decode(&good), Err(Unreadable::ForeignLog));
    for fault in Unreadable::ALL {
        let sentence = fault.to_string();
        assert!(sentence.len() > 30 && sentence.ends_with('.') && placeholders(&sentence).is_empty(), "{fault:?}");
        assert!(!text(Language::Spanish, fault.key()).is_empty());
    }
}

/// Right in form, and from a later version: an exercise, advice or a language we do not know.
#[test]
fn what_only_a_newer_version_knows_is_called_newer() {
    let mut body = ordinary().body();
    // Helper, language, rise, minutes, digits: 1 + 4 + 3 + 4 + 4 bits; the language is the second to fifth.
    body[0] |= 0b0111_1000;
    assert_eq!(Sheet::decode(&code::seal(Kind::Sheet, &body)), Err(Unreadable::Newer));
    // Three digits of the number, then eight bits of advice: bits 28 to 35.
    let mut body = ordinary().body();
    body[3] |= 0b0000_1111;
    assert_eq!(Sheet::decode(&code::seal(Kind::Sheet, &body)), Err(Unreadable::Newer));
}

/// The check sum can be made up; doses beyond our bounds, doubled exercises and bits left over are refused all the same.
#[test]
fn a_made_up_sheet_can_hold_nothing_impossible() {
    let seal = |sheet: &Sheet| code::seal(Kind::Sheet, &sheet.body());
    let mut dose = ordinary();
    dose.entries[0].dose.sets = 15;
    let mut twice = ordinary();
    twice.entries[1] = twice.entries[0];
    let limits = Sheet { limits: Limits { rise: 7, minutes: 60 }, ..ordinary() };
    for sheet in [dose, twice, limits] {
        assert_eq!(Sheet::decode(&seal(&sheet)), Err(Unreadable::Damaged));
    }
    let mut longer = ordinary().body();
    longer.push(0);
    assert_eq!(Sheet::decode(&code::seal(Kind::Sheet, &longer)), Err(Unreadable::Damaged));
}

/// Every character exchanged for every other one, and every pair of neighbours: none is taken for a sheet.
#[test]
fn no_single_wrong_character_goes_through() {
    let sheet = ordinary();
    for (good, is_ok) in [
        (sheet.encode(), (|text: &str| Sheet::decode(text).is_ok()) as fn(&str) -> bool),
        (log().encode(), |text: &str| Log::decode(text).is_ok()),
    ] {
        let letters: Vec<char> = good.chars().collect();
        for at in 0..letters.len() {
            for other in ('A'..='Z').chain('0'..='9').filter(|other| *other != letters[at]) {
                let mut wrong = letters.clone();
                wrong[at] = other;
                assert!(!is_ok(&wrong.iter().collect::<String>()), "{at} {other}");
            }
            if at > 0 && letters[at - 1] != letters[at] {
                let mut wrong = letters.clone();
                wrong.swap(at - 1, at);
                assert!(!is_ok(&wrong.iter().collect::<String>()), "{at} exchanged");
            }
            assert!(!is_ok(&good[..at]), "cut at {at}");
            let mut wrong = letters.clone();
            wrong.remove(at);
            assert!(!is_ok(&wrong.iter().collect::<String>()), "{at} left out");
        }
    }
}

#[test]
fn a_log_belongs_to_its_sheet_and_keeps_the_worst_round_of_a_day() {
    let log = log();
    assert!(log.belongs_to(&ordinary()));
    assert!(!log.belongs_to(&largest()));
    let first = &log.days[0];
    assert_eq!((first.number, first.rounds.clone()), (1, vec![2, 1, 0, 0]));
    assert_eq!((first.before.map(Rating::value), first.after.map(Rating::value)), (Some(1), Some(4)));
    assert_eq!(first.ended, Ended::Rested);
    assert_eq!(log.days[1].before, None, "not rated is not zero");
    let mut same = log.clone();
    same.note(85, 0, (None, None), Ended::Planned);
    same.note(1, 4, (None, None), Ended::Planned);
    same.note(0, 0, (None, None), Ended::Planned);
    assert_eq!(same, log, "beyond the log or the sheet nothing is noted");
}

/// By hand: planned a week 3 x 7 + 2 x 5 + 3 x 5 + 1 x 7 = 53 rounds, so 4 days are 212/7 = 30.3; 4 done are 13 %.
/// Before (1)/1 = 1, doubled 2; after (4)/1 = 4, doubled 8.
#[test]
fn six_numbers_tell_a_log() {
    let spoken = Spoken::of(&log(), &ordinary());
    let expected = Spoken { days: 4, active: 2, share: 13, before: Some(2), after: Some(8), early: 1 };
    assert_eq!(spoken, expected);
    let numbers = spoken.numbers();
    assert!(numbers.iter().all(|number| number.len() == 3), "{numbers:?}");
    for between in [" ", ", ", "-", ""] {
        assert_eq!(Spoken::read(&numbers.join(between)), Ok(expected), "{numbers:?}");
    }
    let nothing = Spoken::of(&Log::of(&ordinary()), &ordinary());
    assert_eq!((nothing.days, nothing.before), (0, None));
    assert_eq!(Spoken::read(&nothing.numbers().join(" ")), Ok(nothing));
}

#[test]
fn the_practice_reads_a_log_in_sentences_with_calls_for_help_first() {
    let mut log = log();
    assert_eq!((log.rounds(1, 0), log.rounds(1, 3), log.rounds(2, 0), log.rounds(1, 9)), (2, 0, 0, 0));
    log.note(5, 0, (Rating::new(2), Rating::new(9)), Ended::Emergency);
    assert_eq!(
        log.lines(&ordinary()),
        [
            "The emergency number was called on day 5.",
            // 5 of 53 x 5 / 7 = 37.9 rounds; means 1.5 and 6.5.
            "Exercises on 3 of 5 days: 13 in 100 of the planned rounds.",
            "Worst symptom on average 1.5 before and 6.5 after, of 10.",
            "Ended early on 2 days.",
        ]
    );
    assert!(log.lines(&largest()).last().is_some_and(|line| line.contains("another sheet")));
    assert_eq!(Log::of(&ordinary()).lines(&ordinary()), ["No exercises are noted."]);
    let unrated = Spoken { days: 7, active: 7, share: 99, before: None, after: None, early: 0 };
    assert_eq!(
        unrated.lines(),
        ["Exercises on 7 of 7 days: all or nearly all of the planned rounds.", "Symptoms were not rated."]
    );
}

/// Every wrong digit, every exchange of neighbouring digits within a number, and every exchange of two numbers.
#[test]
fn what_was_misheard_is_found_and_named() {
    let spoken = Spoken { days: 28, active: 21, share: 74, before: Some(3), after: Some(5), early: 2 };
    let numbers = spoken.numbers();
    let typed = |numbers: &[String]| numbers.join(" ");
    for at in 0..6 {
        let digits: Vec<char> = numbers[at].chars().collect();
        for place in 0..3 {
            for other in ('0'..='9').filter(|other| *other != digits[place]) {
                let mut wrong = numbers.to_vec();
                wrong[at].replace_range(place..=place, &other.to_string());
                let which = vec![u8::try_from(at + 1).expect("six")];
                assert_eq!(Spoken::read(&typed(&wrong)), Err(Misheard::Wrong { which }));
            }
            if place > 0 && digits[place] != digits[place - 1] {
                let mut wrong = digits.clone();
                wrong.swap(place, place - 1);
                let mut all = numbers.to_vec();
                all[at] = wrong.into_iter().collect();
                assert!(matches!(Spoken::read(&typed(&all)), Err(Misheard::Wrong { .. })));
            }
        }
        for other in 0..at {
            let mut wrong = numbers.to_vec();
            wrong.swap(at, other);
            assert!(matches!(Spoken::read(&typed(&wrong)), Err(Misheard::Wrong { which }) if which.len() == 2));
        }
    }
    let said = Misheard::Wrong { which: vec![2] }.to_string();
    assert_eq!(said, "Number 2 cannot be right. Ask for it again.");
    assert_eq!(Spoken::read("12 34"), Err(Misheard::Count { digits: 4 }));
    let more_active = Spoken { days: 3, active: 9, ..spoken };
    assert_eq!(Spoken::read(&typed(&more_active.numbers())), Err(Misheard::Impossible));
}

#[test]
fn doses_and_rules_are_told_in_both_languages() {
    let dose = Dose { sets: 3, amount: Amount::Seconds(60), rest: 30, a_day: 1, a_week: 7, weeks: 1, beat: 60 };
    assert_eq!(
        dose_lines(Language::English, &dose),
        [
            "Do it for one minute.",
            "Rest for 30 seconds. Then do it again, until you have done it 3 times.",
            "Keep to the beat, 60 each minute.",
            "One time a day.",
            "Each day of the week.",
            "For one week.",
        ]
    );
    let seconds =
        |seconds| dose_lines(Language::Spanish, &Dose { amount: Amount::Seconds(seconds), ..dose })[0].clone();
    assert_eq!(seconds(45), "Hágalo 45 segundos.");
    assert_eq!(seconds(105), "Hágalo 1 minuto y 45 segundos.");
    assert_eq!(seconds(120), "Hágalo 2 minutos.");
    assert_eq!(seconds(150), "Hágalo 2 minutos y 30 segundos.");
    for language in Language::ALL {
        for exercise in exercise::ALL {
            let lines = dose_lines(language, &exercise.start);
            assert!(lines.iter().all(|line| !line.is_empty() && !line.contains('{')), "{}: {lines:?}", exercise.id);
        }
        let rules = rules(language, &ordinary());
        assert!(rules.iter().all(|line| !line.is_empty() && !line.contains('{')), "{rules:?}");
        assert_eq!(rules[0], text(language, "page.helper"));
        assert!(stop_lines(language).iter().all(|line| !line.is_empty()));
    }
}
