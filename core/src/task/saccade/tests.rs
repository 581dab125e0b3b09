//! Visits with jumps as they come: ordinary, abnormal, tiring, few, none, mirrored and absurd.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::{Answer, Run, Tap};
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::measure::{Amount, Values};
use crate::sign::{Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// Reads a record whose jumps are written as letters: o on target, s short, p past; capitals for a late start, and a
/// digit 2 behind a letter for more than one correction. Right and left alternate in time, 1.5 s apart.
fn read_jumps(right: &str, left: &str) -> Reading {
    read_with(right, left, |_| {})
}

fn read_with(right: &str, left: &str, change: impl FnOnce(&mut Record)) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let (right, left) = (taps("right", right), taps("left", left));
    let mut taps: Vec<Tap> = right.into_iter().chain(left).collect();
    taps.sort_by_key(|tap| tap.at_ms);
    let series = Series { runs: vec![], taps };
    let record = visit.record_mut("saccade", NOW);
    record.answers.set("jumps", Some(Answer::Series(series)));
    change(record);
    let record = record.clone();
    read(&Context { visit: &visit, age: Some(Age { years: 14, exact: true }) }, &record)
}

fn taps(pad: &str, letters: &str) -> Vec<Tap> {
    let mut taps: Vec<Tap> = Vec::new();
    for letter in letters.chars() {
        if letter == '2' {
            taps.last_mut().expect("a letter before").also.push("second".into());
            continue;
        }
        let mark = match letter.to_ascii_lowercase() {
            'o' => "on",
            's' => "short",
            'p' => "past",
            _ => "sideways",
        };
        let also = if letter.is_ascii_uppercase() { vec!["late".to_string()] } else { vec![] };
        let at_ms = 3000 * u32::try_from(taps.len()).expect("few") + if pad == "left" { 1500 } else { 0 };
        taps.push(Tap { at_ms, pad: pad.into(), mark: mark.into(), also, made: Made::Tapped });
    }
    taps
}

fn found<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("saccade.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no {key} in {reading:#?}"))
}

#[test]
fn ordinary_jumps_are_in_range() {
    let reading = read_jumps("ooosoooooo", "oosooooooo");
    assert!(reading.gaps.is_empty());
    assert_eq!(found(&reading, "landing_right").headline, "Jumps to the right: 9 of 10 on target");
    assert!(reading.findings.iter().all(|finding| finding.grade == Grade::WithinRange), "{:#?}", reading.findings);
    let value = found(&reading, "landing_left").value.clone().expect("measured");
    assert_eq!((value.number, value.unit), (90.0, "%"));
    // Wilson 1927 for 9 of 10: 59.6 to 98.2 %.
    let interval = value.interval.expect("measured");
    assert!((interval.low - 59.6).abs() < 0.05 && (interval.high - 98.2).abs() < 0.05, "{interval:?}");
    assert_eq!(reading.comparisons.len(), 1);
    assert_eq!(reading.figures.len(), 2);
}

/// Short in half of the jumps, each with one jump on: "undershoot alone up to the normal share is not a finding".
#[test]
fn short_alone_stands_out_only_in_most_jumps_and_never_as_outside() {
    let half = read_jumps("sososososo", "ososososos");
    assert!(half.findings.iter().all(|finding| finding.grade == Grade::WithinRange), "{:#?}", half.findings);
    let most = read_jumps("ssssssssss", "ssssssssss");
    let right = found(&most, "landing_right");
    assert_eq!((right.grade, right.headline.as_str()), (Grade::NearLimit, "Jumps to the right fall short: 10 of 10"));
    assert!(right.details.iter().any(|detail| detail == NO_SIDE));
    assert!(most.findings.iter().all(|finding| finding.grade < Grade::OutsideRange));
}

#[test]
fn past_in_most_jumps_of_one_direction_is_outside_the_range() {
    let reading = read_jumps("pppopppopp", "oooooooooo");
    let right = found(&reading, "landing_right");
    assert_eq!(right.headline, "Jumps to the right go past the target and back: 8 of 10");
    // Wilson 1927 for 8 of 10: 49.0 to 94.3 %. The interval is that of the share told, not of the jumps on target.
    assert_eq!(right.details[0], "95 % interval 49 to 94 in 100; 2 on target, 0 short, 8 past.");
    assert_eq!((right.grade, right.place), (Grade::OutsideRange, Place::Toward(Direction::Right)));
    assert_eq!(right.norm.map(|norm| norm.id), Some("saccade.past.most"));
    assert!(right.details.iter().any(|detail| detail == NO_SIDE));
    let uneven = found(&reading, "right_left");
    assert_eq!(uneven.headline, "More jumps not on target to the right than to the left");
    assert_eq!(uneven.grade, Grade::NearLimit);
    assert_eq!(found(&reading, "landing_left").grade, Grade::WithinRange);
}

#[test]
fn more_than_one_correction_counts_though_the_landing_is_short() {
    let reading = read_jumps("s2s2s2s2s2s2os2ss", "oooooooooo");
    let right = found(&reading, "landing_right");
    assert_eq!(right.headline, "Jumps to the right need more than one correction: 7 of 10");
    assert_eq!(right.grade, Grade::OutsideRange);
}

#[test]
fn a_few_jumps_past_are_near_the_limit() {
    let reading = read_jumps("ppoooooooo", "pooooooooo");
    assert_eq!(found(&reading, "landing_right").grade, Grade::NearLimit);
    assert_eq!(found(&reading, "landing_left").grade, Grade::WithinRange);
}

/// Two of six on target to the left against six of seven to the right: mid-p by counting tables is
/// [P(2) / 2 + tables as rare], out of C(13, 8) = 1287 with margins 7, 6 and 8.
#[test]
fn a_difference_that_chance_explains_is_compared_but_not_found() {
    let reading = read_jumps("oosoooo", "ossoss");
    let comparison = &reading.comparisons[0];
    assert_eq!((of(comparison.right), of(comparison.left)), ("1 of 7".to_string(), "4 of 6".to_string()));
    // Tables k = 0..5 of misses to the right: C(7,k) C(6,5-k) = 6, 105, 420, 525, 210, 21 of 1287.
    let expected = (6.0 + 105.0 / 2.0 + 21.0) / 1287.0;
    assert!((comparison.p.expect("enough") - expected).abs() < 1e-12, "{comparison:?}");
    assert!(reading.findings.iter().all(|finding| finding.key != "saccade.right_left"));
    assert_eq!(found(&reading, "landing_left").grade, Grade::NearLimit);
}

#[test]
fn jumps_that_worsen_are_told_from_a_worse_direction() {
    let tiring = read_jumps("ooooosssss", "ooooosssss");
    assert_eq!(found(&tiring, "tiring").grade, Grade::NearLimit);
    assert!(found(&tiring, "tiring").details[0].contains("0 of 10 in the first half, 10 of 10 in the second"));
    let uneven = read_jumps("oooooooooo", "ssssssssss");
    assert_eq!(found(&uneven, "tiring").grade, Grade::WithinRange);
    assert_eq!(found(&uneven, "right_left").place, Place::Toward(Direction::Left));
}

#[test]
fn late_starts_are_told_without_a_grade_of_their_own() {
    let reading = read_jumps("OOoooooooo", "OOOOOOOOOO");
    assert_eq!(found(&reading, "landing_left").grade, Grade::WithinRange);
    assert!(found(&reading, "landing_left").details[0].contains("late start in 10"));
    assert!(reading.comparisons.iter().any(|comparison| comparison.key == "saccade.late"));
    assert_eq!(found(&reading, "right_left").headline, "More late starts to the left than to the right");
}

#[test]
fn one_direction_alone_leaves_the_other_a_gap() {
    let reading = read_jumps("oooooooooo", "");
    assert_eq!(reading.gaps, [gap("jumps to the left", Why::NotRecorded)]);
    assert!(reading.findings.iter().all(|finding| finding.place != Place::Toward(Direction::Left)));
    assert_eq!(reading.comparisons[0].p, None);
}

#[test]
fn fewer_than_five_are_too_few_and_have_no_grade() {
    let reading = read_jumps("pppp", "oooooooooo");
    assert_eq!(found(&reading, "landing_right").grade, Grade::NoRange);
    assert_eq!(found(&reading, "landing_right").headline, "Jumps to the right: 0 of 4 on target");
    assert!(matches!(reading.gaps.as_slice(), [Gap { why: Why::TooFew, .. }]));
    assert!(reading.comparisons.iter().all(|comparison| comparison.p.is_none()));
}

#[test]
fn nothing_tapped_is_a_gap_and_no_value() {
    let reading = read_jumps("", "");
    assert_eq!(reading.gaps, [gap("where the jumps land", Why::NotRecorded)]);
    assert!(reading.findings.is_empty() && reading.comparisons.is_empty() && reading.figures.is_empty());
}

#[test]
fn a_skipped_record_says_nothing() {
    for state in [State::NotDone("no time".into()), State::NotTestable("asleep".into())] {
        assert_eq!(read_with("ooooo", "ppppp", |record| record.state = state), Reading::default());
    }
}

#[test]
fn sixty_taps_in_one_second_are_not_jumps() {
    let reading = read_with(&"o".repeat(30), &"p".repeat(30), |record| {
        let mut series = record.answers.series("jumps").cloned().expect("set");
        for (tap, at) in series.taps.iter_mut().zip(0..) {
            tap.at_ms = at * 1000 / 60;
        }
        record.answers.set("jumps", Some(Answer::Series(series)));
    });
    assert!(matches!(&reading.gaps[..], [Gap { why: Why::NotTestable(why), .. }] if why.contains("0.02 s apart")));
    assert!(reading.findings.is_empty() && reading.comparisons.is_empty());
    assert_eq!(reading.figures.len(), 1, "what was tapped stays in sight");
}

#[test]
fn a_run_never_stopped_and_a_pace_change_no_count() {
    let reading = read_with("oooooooooo", "oooooooooo", |record| {
        let mut series = record.answers.series("jumps").cloned().expect("set");
        series.runs.push(Run { pad: String::new(), from_ms: 0, to_ms: None, bpm: Some(40.0) });
        series.taps.iter_mut().for_each(|tap| tap.made = Made::Paced);
        record.answers.set("jumps", Some(Answer::Series(series)));
    });
    let paced = found(&reading, "paced");
    let said = "Jumps called by a beat, 40 a minute: 20 of 20 count as on target because nothing was tapped";
    assert_eq!((paced.headline.as_str(), paced.grade), (said, Grade::NoRange));
}

#[test]
fn a_landing_of_a_newer_version_is_a_gap() {
    let reading = read_jumps("ooooox", "ooooo");
    assert_eq!(reading.gaps, [gap("1 jump with a direction or landing unknown here", Why::Unread)]);
    assert_eq!(found(&reading, "landing_right").headline, "Jumps to the right: 5 of 5 on target");
}

/// 10 cm to each side at 40 cm is 14.04°, 1.5 ft at 3 ft is 26.57° (plane trigonometry).
#[test]
fn the_size_of_a_jump_follows_from_two_distances() {
    assert!((size(40.0, 20.0).0 - 2.0 * 14.036).abs() < 0.001);
    assert!((size(91.44, 91.44).0 - 2.0 * 26.565).abs() < 0.001);
    let large = |record: &mut Record| {
        record.answers.set("distance", Some(Answer::Number(40.0)));
        record.answers.set("separation", Some(Answer::Number(40.0)));
    };
    let reading = read_with("ssssssssss", "ssssssssss", large);
    assert!(found(&reading, "landing_right").details.iter().any(|detail| detail.contains("as large as these 53°")));
}

#[test]
fn a_mirrored_visit_has_mirrored_findings() {
    let swap = |text: &str| text.replace("right", "\u{1}").replace("left", "right").replace('\u{1}', "left");
    for (right, left) in
        [("ppppppoooo", "oooosooooo"), ("oooOo", "ss2s"), ("", "ssssssss"), ("ooooosssss", "oooooooooo")]
    {
        let (one, other) = (read_jumps(right, left), read_jumps(left, right));
        assert_eq!(one.findings.len(), other.findings.len());
        for finding in &one.findings {
            let twin = found(
                &other,
                swap(finding.key.trim_start_matches("saccade.")).replace("left_right", "right_left").as_str(),
            );
            assert_eq!((twin.grade, twin.headline.clone()), (finding.grade, swap(&finding.headline)));
            match (finding.place, twin.place) {
                (Place::Toward(a), Place::Toward(b)) => assert_eq!(a, b.mirrored()),
                (a, b) => assert_eq!(a, b),
            }
        }
        let gaps = |reading: &Reading| reading.gaps.iter().map(|gap| gap.what.clone()).collect::<Vec<_>>();
        assert_eq!(gaps(&one), gaps(&other).iter().map(|what| swap(what)).collect::<Vec<_>>());
    }
}

#[test]
fn every_answer_the_form_can_give_is_read() {
    let ids: Vec<_> = MARKS.iter().map(|mark| mark.choice.id).collect();
    assert!(ids.iter().all(|id| Landing::from_id(id).is_some()), "{ids:?}");
    assert!(PADS.iter().all(|pad| Direction::from_word(pad.id).is_some()));
}

#[track_caller]
fn sign_of(reading: &Reading, what: What, toward: Direction) -> Option<Seen> {
    let place = Place::Toward(toward);
    let sign = reading.signs.iter().find(|sign| sign.what == what && sign.place == place)?;
    assert!(reading.findings.iter().any(|finding| finding.key == sign.finding), "{sign:?} rests on nothing");
    Some(sign.seen)
}

#[test]
fn jumps_hand_on_what_was_seen_and_not_seen_by_direction() {
    let reading = read_jumps("pppopppopp", "oooooooooo");
    for (what, right, left) in [
        (What::Hypermetric, Seen::Yes, Seen::No),
        (What::Hypometric, Seen::No, Seen::No),
        (What::SaccadesWorse, Seen::Yes, Seen::No),
        (What::SaccadesLate, Seen::No, Seen::No),
    ] {
        let seen = [Direction::Right, Direction::Left].map(|toward| sign_of(&reading, what, toward));
        assert_eq!(seen, [Some(right), Some(left)], "{what:?}");
    }
    // 10 of 10 late against 2 of 10: p is below 0.01, which the rarer events ask for.
    let late = read_jumps("OOoooooooo", "OOOOOOOOOO");
    assert_eq!(sign_of(&late, What::SaccadesLate, Direction::Left), Some(Seen::Yes));
    // Both at once: one finding tells the landings, so the late starts rest on the landing of their direction.
    let both = read_jumps("ooooo", "SSSSSS");
    let rests = |what| both.signs.iter().find(|s| s.what == what && s.seen == Seen::Yes).map(|s| s.finding.as_str());
    assert_eq!(rests(What::SaccadesWorse), Some("saccade.right_left"));
    assert_eq!(rests(What::SaccadesLate), Some("saccade.landing_left"));
    assert_eq!(sign_of(&both, What::Hypometric, Direction::Left), Some(Seen::Yes));
}

#[test]
fn too_few_jumps_hand_on_their_count_and_no_sign() {
    let reading = read_jumps("pppp", "");
    assert_eq!(reading.signs, []);
    assert_eq!(reading.sided, [], "one side alone has nothing to be set against");
    let measured: Vec<_> = reading.measures.iter().map(|m| (m.key.as_str(), m.amount.clone())).collect();
    let four = Proportion::new(4, 4).expect("fits");
    assert_eq!(measured, [("saccade.off_target.right", Amount::Share(four))]);
}

#[test]
fn jumps_hand_on_their_order_and_how_they_were_called() {
    let reading = read_with("oso", "poo", |record| {
        record.answers.set("distance", Some(Answer::Number(60.0)));
    });
    let scores: Vec<_> = reading.sided[0].repetitions.iter().map(|r| (r.toward.word(), r.score)).collect();
    assert_eq!(scores, [("right", 0), ("left", 1), ("right", 1), ("left", 0), ("right", 0), ("left", 0)]);
    assert!(reading.sided[0].in_turn);
    assert_eq!(reading.courses[1].values, Values::Events(vec![true, false, false]));
    let method: Vec<_> = reading.measures[0].method.iter().map(|(name, words)| format!("{name}: {words}")).collect();
    assert_eq!(method, ["distance of the targets: 60 cm", "called: by hand"]);
    assert_eq!(reading.measures[0].what, "jumps to the right not on target");
}
