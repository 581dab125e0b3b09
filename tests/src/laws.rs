//! Laws that hold for any visit, however incomplete or odd.

use sidelight_core::archive::{self, Archive};
use sidelight_core::assess::{assess, overview};
use sidelight_core::capture::answer::{Answer, Answers};
use sidelight_core::capture::record::State;
use sidelight_core::capture::visit::Visit;
use sidelight_core::export::{html, text};
use sidelight_core::finding::{Grade, Why};
use sidelight_core::flow::{self, Step};
use sidelight_core::routine;
use sidelight_core::side::Outcome;
use sidelight_core::summary::{self, Options};
use sidelight_core::task::{self, Context};

use crate::odd_visit::{Oddness, odd};

const VISITS: u64 = 500;
const OPTIONS: Options<'_> = Options::new("test");

#[test]
fn no_visit_makes_anything_panic() {
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Anything);
        let assessment = assess(&person, &visit);
        let document = summary::compose(&person, &visit, &assessment, &OPTIONS);
        assert!(!text::render(&document).is_empty(), "seed {seed}");
        assert!(html::render(&document).contains("</html>"), "seed {seed}");
        assert!(!summary::findings(&visit, &assessment, &OPTIONS).blocks.is_empty(), "seed {seed}");
        assert!(!overview(&assessment).text.is_empty(), "seed {seed}");
        let context = Context::of(&person, &visit);
        let step = flow::resume(&context);
        assert!(flow::steps(&context).contains(&step), "seed {seed}");
        for step in flow::steps(&context) {
            let back = flow::previous(&context, &flow::next(&context, &step));
            assert!(back == Some(step) || step == Step::Summary, "seed {seed}: back from behind {step:?} is {back:?}");
        }
    }
}

#[test]
fn what_was_not_done_has_no_value_and_is_listed() {
    let mut skipped = 0;
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Anything);
        let assessment = assess(&person, &visit);
        for task in task::ALL {
            let record = visit.record(task.id);
            let left_out = record.is_none_or(|record| record.skipped());
            if !left_out {
                continue;
            }
            skipped += 1;
            let findings: Vec<_> = assessment.findings().filter(|finding| finding.task == task.id).collect();
            assert!(findings.is_empty(), "seed {seed}: {} was not done and says {:?}", task.id, findings[0].headline);
            let said = assessment.comparisons().any(|comparison| comparison.task == task.id);
            assert!(!said, "seed {seed}: {} was not done and compares sides", task.id);
            if let Some(record) = record {
                let gap = assessment.gaps.iter().find(|gap| gap.slot == task.id);
                let why = gap.map(|gap| &gap.why);
                match &record.state {
                    State::NotDone(reason) => assert_eq!(why, Some(&Why::NotDone(reason.clone())), "seed {seed}"),
                    State::NotTestable(reason) => {
                        assert_eq!(why, Some(&Why::NotTestable(reason.clone())), "seed {seed}");
                    }
                    State::Open | State::Done => unreachable!("it was left out"),
                }
            }
        }
    }
    assert!(skipped > 500, "only {skipped} tasks were left out");
}

#[test]
fn an_empty_visit_is_gaps_and_nothing_else() {
    let (person, mut visit) = odd(1, Oddness::Valid);
    visit.records.clear();
    visit.plan = task::ALL.iter().map(|task| task.id.to_string()).collect();
    let assessment = assess(&person, &visit);
    assert_eq!(assessment.findings().filter(|finding| finding.grade != Grade::NoRange).count(), 0);
    assert!(assessment.flags.is_empty());
    assert!(assessment.gaps.len() >= routine::by_id(&visit.routine).tasks().count());
}

#[test]
fn the_order_of_tasks_changes_nothing_but_the_order_of_steps() {
    let mut turned = 0;
    for seed in 0..VISITS {
        let (person, mut visit) = odd(seed, Oddness::Anything);
        visit.plan = routine::planned(&visit).iter().map(|task| task.id.to_string()).collect();
        let mut reversed = visit.clone();
        reversed.plan.reverse();
        assert_eq!(assess(&person, &visit), assess(&person, &reversed), "seed {seed}");
        let slots = |visit: &Visit| -> Vec<String> {
            flow::steps(&Context::of(&person, visit)).iter().map(Step::slot).collect()
        };
        let (mut there, mut back) = (slots(&visit), slots(&reversed));
        turned += usize::from(there != back);
        there.sort();
        back.sort();
        assert_eq!(there, back, "seed {seed}");
    }
    assert!(turned > 300, "only {turned} visits had an order to turn");
}

#[test]
fn a_task_left_out_by_an_answer_is_no_step_and_says_why() {
    let mut dropped = 0;
    for seed in 0..VISITS {
        let (person, mut visit) = odd(seed, Oddness::Valid);
        visit.plan = task::ALL.iter().map(|task| task.id.to_string()).collect();
        let context = Context::of(&person, &visit);
        let assessment = assess(&person, &visit);
        for left_out in flow::dropped(&context) {
            dropped += 1;
            assert!(!flow::steps(&context).contains(&Step::Task(left_out.task)), "seed {seed}");
            let gap = assessment.gaps.iter().find(|gap| gap.slot == left_out.task.id);
            let stopped = assessment.stopped;
            let said = gap.is_some_and(|gap| gap.why == Why::Dropped(left_out.reason.to_string()));
            assert!(said || stopped, "seed {seed}: {} is left out and the gap is {gap:?}", left_out.task.id);
        }
    }
    assert!(dropped > 100, "only {dropped} tasks were left out");
}

#[test]
fn every_visit_comes_back_from_its_archive() {
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Anything);
        assert_eq!(archive::read_visit(&archive::write_visit(&visit)).as_ref(), Ok(&visit), "seed {seed}");
        let (person_again, valid) = odd(seed, Oddness::Valid);
        let whole = Archive::of(vec![person_again], vec![valid]);
        assert_eq!(archive::read(&archive::write(&whole)).as_ref(), Ok(&whole), "seed {seed}");
        assert_eq!(archive::read_person(&archive::write_person(&person)), Ok(person), "seed {seed}");
    }
}

#[test]
fn a_mirrored_visit_has_mirrored_findings() {
    let (mut compared, mut patterns) = (0, 0);
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Valid);
        patterns += assess(&person, &visit).patterns.len();
        let there = told(&assess(&person, &visit), |word| word.to_string());
        let back = told(&assess(&person, &mirrored(&visit)), mirror);
        assert_eq!(there, back, "seed {seed}");
        compared += there.len();
    }
    assert!(compared > 2500, "only {compared} findings were compared");
    assert!(patterns > 100, "only {patterns} patterns were compared");
}

/// What an assessment says, without its words: keys, grades, values and places, in a fixed order.
fn told(assessment: &sidelight_core::assess::Assessment, turn: impl Fn(&str) -> String) -> Vec<String> {
    let mut lines: Vec<String> = assessment
        .findings()
        .map(|finding| {
            let value = finding.value.as_ref().map(|value| (value.number * 1e6).round().abs());
            let place = turn(&format!("{:?}", finding.place).to_lowercase());
            format!("{} {:?} {place} {value:?}", turn(&finding.key), finding.grade)
        })
        .collect();
    lines.extend(assessment.comparisons().map(|comparison| {
        let p = comparison.p.map(|p| (p * 1e9).round());
        let sides = [comparison.right, comparison.left];
        let sides = if turn("right") == "right" { sides } else { [sides[1], sides[0]] };
        format!("{} {sides:?} {p:?}", turn(&comparison.key))
    }));
    lines.extend(assessment.patterns.iter().map(|pattern| {
        let place = turn(&format!("{:?}", pattern.place).to_lowercase());
        let mut from: Vec<String> = pattern.from.iter().map(|key| turn(key)).collect();
        from.sort();
        format!("{} {:?} {place} {} {from:?}", turn(&pattern.headline), pattern.level, pattern.urgent)
    }));
    lines.extend(assessment.contradictions.iter().map(|contradiction| turn(&contradiction.says)));
    lines.extend(assessment.flags.iter().map(|flag| format!("flag {}", turn(&flag.id))));
    lines.extend(assessment.side.tasks.iter().map(|task| {
        let worse = turn(&format!("{:?}", task.worse).to_lowercase());
        format!("side {} {worse}", task.task)
    }));
    lines.push(match &assessment.side.outcome {
        Outcome::TooFew { pairs } => format!("side of {pairs} pairs"),
        Outcome::NoSide(found) | Outcome::NotNamed(found) => format!("side p {:.9}", found.p),
        Outcome::Worse(toward, found) => format!("side {} p {:.9}", turn(toward.word()), found.p),
    });
    let signs = assessment.tasks.iter().flat_map(|task| &task.reading.signs);
    lines.extend(signs.map(|sign| turn(&format!("sign {sign:?}").to_lowercase())));
    lines.sort();
    lines
}

fn mirrored(visit: &Visit) -> Visit {
    let mut visit = visit.clone();
    for record in &mut visit.records {
        record.answers = turned(&record.answers);
        // When both eyes move on covering, the way of the right one is asked; in a mirror that is the other eye, which
        // moves the other way.
        if record.answers.one("alignment") == Some("both") {
            let other = match record.answers.one("alignment_way") {
                Some("up") => "down",
                Some("down") => "up",
                Some(_) | None => continue,
            };
            record.answers.set("alignment_way", Some(Answer::One(other.to_string())));
        }
    }
    visit
}

fn turned(answers: &Answers) -> Answers {
    answers.iter().map(|(key, answer)| (mirror(key), turned_answer(answer))).collect()
}

fn turned_answer(answer: &Answer) -> Answer {
    let mut answer = answer.clone();
    match &mut answer {
        Answer::One(id) => *id = mirror(id),
        Answer::Many(ids) => ids.iter_mut().for_each(|id| *id = mirror(id)),
        Answer::Trials(trials) => trials.iter_mut().for_each(|trial| trial.answers = turned(&trial.answers)),
        Answer::Series(series) => {
            series.taps.iter_mut().for_each(|tap| tap.pad = mirror(&tap.pad));
            series.runs.iter_mut().for_each(|run| run.pad = mirror(&run.pad));
        }
        Answer::Grid(cells) => cells.iter_mut().for_each(|cell| {
            cell.row = mirror(&cell.row);
            cell.column = mirror(&cell.column);
        }),
        Answer::Number(_) | Answer::Text(_) | Answer::Day(_) | Answer::Ratings(_) => {}
    }
    answer
}

/// "right" for "left" and the reverse, also inside ids such as "right_larger".
fn mirror(word: &str) -> String {
    // A key that names both sides names the comparison, not a side.
    word.replace("right_left", "\u{2}")
        .replace("right", "\u{1}")
        .replace("left", "right")
        .replace('\u{1}', "left")
        .replace('\u{2}', "right_left")
}
