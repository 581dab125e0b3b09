//! Visits with stripes as they come: ordinary, missed one way, tiring, paced, untimed, mirrored and absurd.

use super::*;
use crate::calendar::{Age, Moment};
use crate::capture::answer::{Answer, Cell, Run, Tap};
use crate::capture::record::State;
use crate::capture::visit::Visit;
use crate::measure::{Amount, Better, Values};
use crate::sign::{Seen, What};

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

/// One direction: letters b for a beat and x for a missed stripe, the milliseconds between them, and whether its run
/// was ended (one step after the last tap).
#[derive(Clone, Copy)]
struct Span<'a> {
    letters: &'a str,
    step_ms: u32,
    ended: bool,
}

fn run(letters: &str) -> Span<'_> {
    Span { letters, step_ms: 1000, ended: true }
}

fn read_runs(right: Span<'_>, left: Span<'_>) -> Reading {
    read_with(right, left, 30, |_| {})
}

fn read_with(right: Span<'_>, left: Span<'_>, years: u8, change: impl FnOnce(&mut Visit)) -> Reading {
    let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
    let mut series = Series::default();
    for (pad, one, start) in [("right", right, 0), ("left", left, 100_000)] {
        let n = u32::try_from(one.letters.len()).expect("few");
        if n == 0 {
            continue;
        }
        let to_ms = one.ended.then_some(start + n * one.step_ms);
        series.runs.push(Run { pad: pad.into(), from_ms: start, to_ms, bpm: None });
        for (letter, at) in one.letters.chars().zip(1..) {
            let mark = if letter == 'b' { "beat" } else { "missed" };
            let at_ms = start + at * one.step_ms;
            series.taps.push(Tap { at_ms, pad: pad.into(), mark: mark.into(), also: vec![], made: Made::Tapped });
        }
    }
    let record = visit.record_mut("optokinetic", NOW);
    record.answers.set("stripes", Some(Answer::Series(series)));
    record.answers.set("stimulus", Some(Answer::One("tape".into())));
    change(&mut visit);
    let record = visit.record("optokinetic").cloned().expect("filled");
    read(&Context { visit: &visit, age: Some(Age { years, exact: true }) }, &record)
}

fn found<'a>(reading: &'a Reading, what: &str) -> &'a Finding {
    let key = format!("optokinetic.{what}");
    reading.findings.iter().find(|finding| finding.key == key).unwrap_or_else(|| panic!("no {key} in {reading:#?}"))
}

fn has(finding: &Finding, words: &str) -> bool {
    finding.details.iter().any(|detail| detail.contains(words))
}

#[test]
fn an_ordinary_response_is_in_range_with_its_rate_and_stimulus() {
    let reading = read_runs(run("bbbbbbbbbb"), run("bbbbbbbbxb"));
    assert!(reading.gaps.is_empty(), "{:?}", reading.gaps);
    let graded = reading.findings.iter().filter(|finding| finding.key != "optokinetic.method");
    assert!(graded.clone().count() == 4 && graded.clone().all(|finding| finding.grade == Grade::WithinRange));
    let right = found(&reading, "missed_right");
    assert_eq!(right.headline, "Stripes moving to the right: none of 10 missed");
    // Wilson 1927 for 0 of 10: 0 to 27.8 %.
    assert!(has(right, "Missed: 95 % interval 0 to 28 in 100. 10 taken up in 10 s, 1 a second."), "{right:#?}");
    assert_eq!(found(&reading, "method").headline, "Stripes on a tape");
    assert!(has(found(&reading, "method"), "A tape, drum or small screen tests following"));
    assert!(has(found(&reading, "missed_left"), "9 taken up in 10 s, 0.9 a second."));
    assert_eq!((reading.comparisons.len(), reading.figures.len()), (1, 2));
}

#[test]
fn most_stripes_missed_one_way_is_outside_and_uneven() {
    let reading = read_runs(run("bbbbbbbbbb"), run("xbxxxxbxxx"));
    let left = found(&reading, "missed_left");
    assert_eq!(left.headline, "Stripes moving to the left: 8 of 10 missed");
    assert_eq!((left.grade, left.place), (Grade::OutsideRange, Place::Toward(Direction::Left)));
    assert!(has(left, "Poor attention, poor sight without glasses"));
    let uneven = found(&reading, "right_left");
    assert_eq!(uneven.headline, "More stripes missed moving to the left than to the right");
    assert_eq!(uneven.grade, Grade::NearLimit);
    // Ten against two in ten seconds point the same way: one finding, not two.
    assert!(has(uneven, "1 a second to the right, 0.2 to the left.") && has(uneven, "exact test of two rates"));
    assert!(reading.findings.iter().all(|finding| finding.key != "optokinetic.rate"));
    // Ten against four in ten seconds cannot be told apart by their rates; beside uneven misses that says nothing.
    let reading = read_runs(run("bbbbbbbbbb"), run("xbxxbxbxxb"));
    assert!(found(&reading, "right_left").grade == Grade::NearLimit);
    assert!(reading.findings.iter().all(|finding| finding.key != "optokinetic.rate"));
}

/// 20 in 10 s against 8 in 10 s: twice the binomial tail of 8 or fewer of 28 at one half, 2 x 4 791 323 / 2^28.
#[test]
fn rates_are_tested_exactly_and_an_ordinary_difference_is_not_found() {
    let fast = Span { letters: &"b".repeat(20), step_ms: 500, ended: true };
    let slow = Span { letters: "bbbbbbbb", step_ms: 1250, ended: true };
    let tail: f64 = [1.0, 28.0, 378.0, 3276.0, 20475.0, 98280.0, 376_740.0, 1_184_040.0, 3_108_105.0].iter().sum();
    let p = 2.0 * tail / 2.0_f64.powi(28);
    assert!((rates_two_sided(20, 10.0, 8, 10.0).expect("tested") - p).abs() < 1e-12);
    let reading = read_runs(fast, slow);
    let finding = found(&reading, "rate");
    assert!(has(finding, "2 a second to the right, 0.8 to the left.") && has(finding, &frequency(p)), "{finding:#?}");
    assert_eq!(finding.headline, "Fewer stripes a second taken up moving to the left than to the right");
    assert_eq!((finding.grade, finding.place), (Grade::NearLimit, Place::Toward(Direction::Left)));
    // 100 (R - L) / (R + L) = 100 x 1.2 / 2.8.
    assert!((finding.value.as_ref().expect("measured").number - 42.857).abs() < 0.001);
    let even = read_runs(run("bbbbbbbbbb"), Span { letters: "bbbbbbbbb", step_ms: 1100, ended: true });
    assert_eq!((found(&even, "rate").grade, found(&even, "rate").place), (Grade::WithinRange, Place::Both));
}

#[test]
fn a_run_never_stopped_is_timed_by_its_intervals() {
    let open = Span { ended: false, ..run("bbbbbbbbbbb") };
    let reading = read_runs(open, run("bbbbbbbbbb"));
    assert!(has(found(&reading, "missed_right"), "10 taken up in 10 s, 1 a second."), "{reading:#?}");
}

#[test]
fn a_beat_that_gave_the_pace_leaves_no_rate_to_compare() {
    let reading = read_with(run("bbbbbbbbbb"), run("bbbbbbxbbb"), 30, |visit| {
        let record = visit.record_mut("optokinetic", NOW);
        let mut series = record.answers.series("stripes").cloned().expect("set");
        series.taps.iter_mut().for_each(|tap| tap.made = Made::Paced);
        record.answers.set("stripes", Some(Answer::Series(series)));
    });
    assert!(reading.findings.iter().all(|finding| finding.key != "optokinetic.rate"));
    assert!(has(found(&reading, "missed_right"), "the rate says nothing"));
    let method = &found(&reading, "method").headline;
    assert_eq!(method, "Stripes on a tape, paced by a beat: 19 of 20 count as taken up because nothing was tapped");
}

#[test]
fn stripes_missed_toward_the_end_are_tiring() {
    let reading = read_runs(run("bbbbbxxbxx"), run("bbbbbbxxxx"));
    let finding = found(&reading, "tiring");
    assert_eq!((finding.headline.as_str(), finding.grade), ("More stripes missed toward the end", Grade::NearLimit));
    assert!(finding.details[0].starts_with("Stripes missed: 0 of 10 in the first half, 8 of 10 in the second."));
}

#[test]
fn one_direction_alone_leaves_the_other_a_gap() {
    let reading = read_runs(run("bbbbbbbbbb"), run(""));
    assert_eq!(reading.gaps.len(), 1);
    assert_eq!(
        (reading.gaps[0].what.as_str(), &reading.gaps[0].why),
        ("stripes moving to the left", &Why::NotRecorded)
    );
    assert!(reading.comparisons.iter().all(|comparison| comparison.p.is_none()));
    assert!(reading.findings.iter().all(|finding| finding.place != Place::Toward(Direction::Left)));
}

#[test]
fn nothing_tapped_is_a_gap_and_skipped_says_nothing() {
    let reading = read_runs(run(""), run(""));
    assert_eq!(reading.gaps[0].what, "stripes taken up or missed");
    assert!(reading.findings.is_empty() && reading.figures.is_empty() && reading.comparisons.is_empty());
    let skipped = read_with(run("xxxxx"), run("bbbbb"), 30, |visit| {
        visit.record_mut("optokinetic", NOW).state = State::NotDone("sensitive to stripes".into());
    });
    assert_eq!(skipped, Reading::default());
}

#[test]
fn few_stripes_are_too_few_and_have_no_grade() {
    let reading = read_runs(run("xxx"), run("bbbbbbbbbb"));
    assert!(matches!(reading.gaps[..], [Gap { why: Why::TooFew, .. }]));
    assert_eq!((found(&reading, "missed_right").grade, found(&reading, "missed_right").norm), (Grade::NoRange, None));
}

#[test]
fn sixty_taps_in_one_second_are_not_stripes() {
    let hasty = Span { letters: &"b".repeat(60), step_ms: 16, ended: true };
    let reading = read_runs(hasty, run("bbbbbbbbbb"));
    assert!(matches!(&reading.gaps[..], [Gap { why: Why::NotTestable(why), .. }] if why.contains("0.02 s apart")));
    assert!(reading.comparisons.is_empty());
    let keys: Vec<&str> = reading.findings.iter().map(|finding| finding.key.as_str()).collect();
    assert_eq!(keys, ["optokinetic.missed_left", "optokinetic.method"]);
    assert_eq!(reading.figures.len(), 1, "what was tapped stays in sight");
}

#[test]
fn weak_phases_are_told_by_the_direction_the_eyes_move_in() {
    let reading = read_with(run("bbbbbbbbbb"), run("bbbbbbbbbb"), 30, |visit| {
        let cell = |row: &str, column: &str, grade: &str| Cell {
            row: row.into(),
            column: column.into(),
            grade: grade.into(),
            from_cycle: None,
        };
        let cells = vec![cell("right", "quick", "absent"), cell("left", "slow", "weak"), cell("left", "quick", "full")];
        visit.record_mut("optokinetic", NOW).answers.set("phases", Some(Answer::Grid(cells)));
    });
    // Stripes to the right turn the eyes to the right; the quick jump goes back to the left.
    let quick = found(&reading, "quick_left");
    assert_eq!((quick.headline.as_str(), quick.grade), ("Quick jump back, to the left: absent", Grade::OutsideRange));
    assert_eq!(found(&reading, "slow_left").grade, Grade::NearLimit);
    assert!(reading.findings.iter().all(|finding| finding.key != "optokinetic.quick_right"));
}

#[test]
fn what_skews_stripes_is_said_beside_what_stands_out() {
    let reading = read_with(run("bbbbbbbbbb"), run("xxxxxxxxxx"), 61, |visit| {
        visit.record_mut("resting_gaze", NOW).answers.set("nystagmus", Some(Answer::One("left".into())));
    });
    let left = found(&reading, "missed_left");
    assert!(has(left, "Nystagmus was seen at rest") && has(left, "From 50 years on"));
    let calm = read_with(run("bbbbbbbbbb"), run("xxxxxxxxxx"), 49, |visit| {
        visit.record_mut("resting_gaze", NOW).answers.set("nystagmus", Some(Answer::One("none".into())));
    });
    assert!(!has(found(&calm, "missed_left"), "Nystagmus") && !has(found(&calm, "missed_left"), "From 50"));
}

/// 30° a second over stripes of 5° is 3 pairs a second, at the limit; 20 over 5 is 2 (plane arithmetic).
#[test]
fn stripes_that_flash_on_a_screen_are_warned_of() {
    let warned = |stimulus: &str, speed: f64| {
        let reading = read_with(run("bbbbbbbbbb"), run("bbbbbbbbbb"), 30, |visit| {
            let answers = &mut visit.record_mut("optokinetic", NOW).answers;
            answers.set("stimulus", Some(Answer::One(stimulus.into())));
            answers.set("width", Some(Answer::Number(5.0)));
            answers.set("speed", Some(Answer::Number(speed)));
        });
        found(&reading, "method").headline.contains("limit for flashing")
    };
    assert_eq!((warned("screen", 30.0), warned("screen", 20.0), warned("tape", 30.0)), (true, false, false));
}

#[test]
fn a_mirrored_visit_has_mirrored_findings() {
    let swap = |text: &str| text.replace("right", "\u{1}").replace("left", "right").replace('\u{1}', "left");
    for (right, left) in [("bbbbbbbbbb", "xxxxxxxxbb"), ("bbbbbxxxxx", "bbbbbbxxxx"), ("bb", "xxxxxb"), ("", "bbbbb")] {
        let (one, other) = (read_runs(run(right), run(left)), read_runs(run(left), run(right)));
        assert_eq!(one.findings.len(), other.findings.len());
        for finding in &one.findings {
            let what = finding.key.trim_start_matches("optokinetic.");
            let twin = found(&other, &if what == "right_left" { what.to_string() } else { swap(what) });
            assert_eq!(twin.grade, finding.grade);
            if finding.place != Place::Both {
                assert_eq!(twin.headline, swap(&finding.headline));
            }
        }
    }
}

#[test]
fn every_answer_the_form_can_give_is_read() {
    assert!(MARKS.iter().all(|mark| missed(mark.choice.id).is_some()));
    assert!(PADS.iter().all(|pad| Direction::from_word(pad.id).is_some()));
    assert_eq!(missed("sideways"), None);
}

fn sign_of(reading: &Reading, what: What, toward: Direction) -> Option<Seen> {
    let sign = reading.signs.iter().find(|sign| sign.what == what && sign.place == Place::Toward(toward))?;
    assert!(reading.findings.iter().any(|finding| finding.key == sign.finding), "{sign:?} rests on nothing");
    Some(sign.seen)
}

fn both(reading: &Reading, what: What) -> [Option<Seen>; 2] {
    [Direction::Right, Direction::Left].map(|toward| sign_of(reading, what, toward))
}

#[test]
fn stripes_hand_on_what_is_reduced_and_what_is_worse() {
    let reading = read_runs(run("bbbbbbbbbb"), run("xbxxxxbxxx"));
    assert_eq!(both(&reading, What::OptokineticReduced), [Some(Seen::No), Some(Seen::Yes)]);
    assert_eq!(both(&reading, What::OptokineticWorse), [Some(Seen::No), Some(Seen::Yes)]);
    let alike = read_runs(run("bbbbbbbbbb"), run("bbbbbbbbxb"));
    assert_eq!(both(&alike, What::OptokineticReduced), [Some(Seen::No); 2]);
    assert_eq!(both(&alike, What::OptokineticWorse), [Some(Seen::No); 2]);
    let few = read_runs(run("bxx"), run(""));
    assert_eq!(few.signs, []);
}

#[test]
fn a_weak_slow_turn_is_reduced_though_every_stripe_was_counted() {
    let reading = read_with(run("bbbbbbbbbb"), run("bbbbbbbbbb"), 30, |visit| {
        let cell = Cell { row: "right".into(), column: "slow".into(), grade: "weak".into(), from_cycle: None };
        visit.record_mut("optokinetic", NOW).answers.set("phases", Some(Answer::Grid(vec![cell])));
    });
    assert_eq!(both(&reading, What::OptokineticReduced), [Some(Seen::Yes), Some(Seen::No)]);
    assert_eq!(reading.signs[0].finding, "optokinetic.slow_right");
    assert_eq!(both(&reading, What::QuickPhaseReduced), [Some(Seen::No); 2]);
}

/// Stripes to the right are jumped back from to the left.
#[test]
fn a_weak_jump_back_is_a_sign_of_its_own_against_the_stripes() {
    let reading = read_with(run("bbbbbbbbbb"), run("bbbbbbbbbb"), 30, |visit| {
        let cell = Cell { row: "right".into(), column: "quick".into(), grade: "weak".into(), from_cycle: None };
        visit.record_mut("optokinetic", NOW).answers.set("phases", Some(Answer::Grid(vec![cell])));
    });
    assert_eq!(both(&reading, What::QuickPhaseReduced), [Some(Seen::No), Some(Seen::Yes)]);
    assert_eq!(both(&reading, What::OptokineticReduced), [Some(Seen::No); 2]);
    let missed = read_runs(run("bbbbbbbbbb"), run("xbxxxxbxxx"));
    assert_eq!(both(&missed, What::QuickPhaseReduced), [Some(Seen::Yes), Some(Seen::No)]);
}

#[test]
fn stripes_hand_on_misses_rates_and_their_order() {
    let reading = read_runs(run("bxbbb"), run("bbbbb"));
    let measured: Vec<_> = reading.measures.iter().map(|m| (m.key.as_str(), m.amount.clone(), m.better)).collect();
    let share = |events, n| Amount::Share(Proportion::new(events, n).expect("fits"));
    let per_second = |value| Amount::Number { value, unit: "/s" };
    assert_eq!(
        measured,
        [
            ("optokinetic.missed.right", share(1, 5), Better::Lower),
            ("optokinetic.rate.right", per_second(0.8), Better::Neither),
            ("optokinetic.missed.left", share(0, 5), Better::Lower),
            ("optokinetic.rate.left", per_second(1.0), Better::Neither),
        ]
    );
    assert!(reading.measures.iter().all(|m| m.method.contains(&("stripes on a", "tape".to_string()))));
    assert!(!reading.sided[0].in_turn && reading.sided[0].repetitions.len() == 10);
    assert_eq!(reading.courses[0].values, Values::Events(vec![false, true, false, false, false]));
}

#[test]
fn stripes_tapped_faster_than_a_hand_can_hand_nothing_on() {
    let hasty = Span { letters: "bbbbbbbbbb", step_ms: 20, ended: true };
    let reading = read_runs(hasty, hasty);
    assert_eq!((reading.signs, reading.measures, reading.sided, reading.courses), (vec![], vec![], vec![], vec![]));
}
