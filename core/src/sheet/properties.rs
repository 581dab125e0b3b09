//! Laws over any sheet and any log: the way there and back, one wrong character, a lost end, any text at all.

use super::*;
use crate::tolerance::Rating;
use proptest::prelude::*;
use proptest::sample::Index;

fn any_dose() -> impl Strategy<Value = Dose> {
    let amount = prop_oneof![(1u16..=360).prop_map(|n| Amount::Seconds(n * 5)), (1u16..=60).prop_map(Amount::Times)];
    let beat = prop_oneof![Just(0u16), 20u16..=240];
    (1u8..=10, amount, 0u16..=600, 1u8..=5, 1u8..=7, 1u8..=12, beat).prop_map(
        |(sets, amount, rest, a_day, a_week, weeks, beat)| Dose { sets, amount, rest, a_day, a_week, weeks, beat },
    )
}

fn any_sheet() -> impl Strategy<Value = Sheet> {
    let some = proptest::sample::subsequence(exercise::ALL.to_vec(), 0..=MOST_ITEMS).prop_shuffle();
    let advice = proptest::sample::subsequence(advice::ALL.to_vec(), 0..=advice::ALL.len());
    let doses = proptest::collection::vec(any_dose(), MOST_ITEMS);
    let limits = (0u8..=3, 1u16..=12).prop_map(|(rise, fives)| Limits { rise, minutes: fives * 5 });
    (some, doses, advice, limits, "[0-9]{0,15}", any::<bool>(), any::<bool>()).prop_map(
        |(some, doses, advice, limits, emergency, helper, spanish)| Sheet {
            entries: some.into_iter().zip(doses).map(|(exercise, dose)| Entry { exercise, dose }).collect(),
            advice,
            limits,
            emergency,
            helper,
            language: if spanish { Language::Spanish } else { Language::English },
        },
    )
}

fn any_log() -> impl Strategy<Value = Log> {
    let felt = || proptest::option::of(0u8..=10).prop_map(|value| value.and_then(Rating::new));
    let round = (1..=MOST_DAYS, 0usize..MOST_ITEMS, felt(), felt(), 0usize..4);
    (any::<u16>(), 0u8..=6, proptest::collection::vec(round, 0..120)).prop_map(|(sheet, exercises, rounds)| {
        let mut log = Log { sheet, exercises, days: Vec::new() };
        let ends = [Ended::Planned, Ended::Rested, Ended::Practice, Ended::Emergency];
        for (day, exercise, before, after, ended) in rounds {
            log.note(day, exercise, (before, after), ends[ended]);
        }
        log
    })
}

proptest! {
    #[test]
    fn any_sheet_comes_back(sheet in any_sheet()) {
        let text = sheet.encode();
        prop_assert!(text.bytes().all(|b| b.is_ascii_uppercase() || b.is_ascii_digit() || b == b'.'));
        prop_assert_eq!(Sheet::decode(&text), Ok(sheet));
    }

    #[test]
    fn any_log_comes_back_and_fits(log in any_log()) {
        let text = log.encode();
        prop_assert!(qr_version(&text).is_ok());
        prop_assert_eq!(Log::decode(&text), Ok(log));
    }

    #[test]
    fn any_sheet_with_one_wrong_character_is_refused(sheet in any_sheet(), at in any::<Index>(), other in "[A-Z2-7]") {
        let good = sheet.encode();
        let at = at.index(good.len());
        let mut wrong = good.clone();
        wrong.replace_range(at..=at, &other);
        prop_assume!(wrong != good);
        prop_assert!(Sheet::decode(&wrong).is_err());
    }

    #[test]
    fn any_log_that_was_cut_short_is_refused(log in any_log(), at in any::<Index>()) {
        let good = log.encode();
        prop_assert!(Log::decode(&good[..at.index(good.len())]).is_err());
    }

    #[test]
    fn no_text_at_all_makes_it_fail(text in ".{0,300}", code in "[A-Z2-7]{0,200}") {
        let _ = (Sheet::decode(&text), Log::decode(&text), Spoken::read(&text));
        let _ = (Sheet::decode(&format!("SHEET1.{code}")), Log::decode(&format!("SHEETLOG1.{code}")));
    }

    #[test]
    fn any_log_is_told_in_six_numbers(log in any_log(), sheet in any_sheet()) {
        let spoken = Spoken::of(&log, &sheet);
        prop_assert_eq!(Spoken::read(&spoken.numbers().join(" ")), Ok(spoken));
    }
}
