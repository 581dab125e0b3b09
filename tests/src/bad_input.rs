//! Bad input, for every task: it is kept to the letter, said in the gaps, never read as if it were good, and never a panic.

use sidelight_core::archive::{self, Archive};
use sidelight_core::assess::{Assessment, assess};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::answer::{Answer, Answers, Cell, Made, Run, Series, Tap, Trial};
use sidelight_core::capture::edit::{self, Edit, EditRefused};
use sidelight_core::capture::form::{Choice, Field, Kind, SeriesForm};
use sidelight_core::capture::record::{Record, State};
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::change::{self, Relation};
use sidelight_core::export::text;
use sidelight_core::finding::{Grade, Why};
use sidelight_core::quantity::Quantity;
use sidelight_core::side::Outcome;
use sidelight_core::summary::{self, Options};
use sidelight_core::task::{self, Context, Task};

use crate::dice::Dice;
use crate::odd_visit::{Oddness, fitting, odd};
use crate::scenarios;
use crate::script::{Script, person};

const NOW: Moment = Moment { unix_ms: 1_772_456_400_000, offset_minutes: 120 };
const NEWER: &str = "of_a_newer_program";

#[test]
fn what_a_newer_program_wrote_is_kept_to_the_letter_and_named() {
    let mut tried = 0;
    for task in task::ALL {
        let strange = task.form.fields.iter().filter_map(|field| Some((field.key, unheard_of(field)?)));
        for (key, answer) in strange.chain([("of_a_newer_field", Answer::One(NEWER.into()))]) {
            tried += 1;
            let mut record = filled(task, &mut Dice::new(tried));
            record.answers.set(key, Some(answer));
            let visit = visit_of(record);
            let file = archive::write_visit(&visit);
            assert_eq!(archive::read_visit(&file).as_ref(), Ok(&visit), "{} {key}", task.id);
            assert!(is_unread(&assessed(&visit), task.id), "{} {key}: not said in the gaps", task.id);
        }
    }
    assert!(tried > 60, "only {tried} strange answers");
}

#[test]
fn what_this_program_cannot_even_name_goes_back_where_it_stood() {
    for task in task::ALL {
        let answer = r#""film":{"frames":[1,2.50,"é"],"of":{"one":"eye"}}"#;
        let file = format!(
            r#"{{"format":"sidelight-visit","version":1,"visit":{{"id":"v","person":"p","routine":"full","started":"2026-03-02T15:00:00.000+02:00","records":[{{"slot":"{}","state":"done","answers":{{"film":{{"shot":{{{answer}}}}}}},"judged":{{"by":"two","agreed":1.0}}}}]}}}}"#,
            task.id
        );
        let visit = archive::read_visit(file.as_bytes()).unwrap_or_else(|error| panic!("{}: {error}", task.id));
        let again = String::from_utf8(archive::write_visit(&visit)).expect("UTF-8");
        for part in [answer, r#""judged":{"by":"two","agreed":1.0}"#] {
            assert!(again.contains(part), "{}: {part} is not in {again}", task.id);
        }
        let assessment = assessed(&visit);
        assert!(is_unread(&assessment, task.id), "{}: not said in the gaps", task.id);
        assert_eq!(assessment.findings().count(), 0, "{}", task.id);
    }
}

#[test]
fn no_trial_no_tap_and_no_cell_is_a_gap_and_no_finding() {
    for task in task::ALL {
        for field in task.form.fields {
            let nothing = match &field.kind {
                Kind::Trials(_) => vec![Answer::Trials(vec![]), Answer::Trials(vec![Trial::default(); 3])],
                Kind::Series(_) => {
                    let run = Run { pad: String::new(), from_ms: 0, to_ms: Some(0), bpm: None };
                    vec![Answer::Series(Series::default()), Answer::Series(Series { runs: vec![run], taps: vec![] })]
                }
                Kind::Grid(_) => vec![Answer::Grid(vec![])],
                Kind::One(_)
                | Kind::Many { .. }
                | Kind::Number(_)
                | Kind::Text { .. }
                | Kind::Day
                | Kind::Ratings(_) => {
                    continue;
                }
            };
            for answer in nothing {
                let assessment = assessed(&visit_of(record_of(task, field, answer)));
                let told: Vec<_> = assessment.findings().map(|finding| &finding.headline).collect();
                assert!(told.is_empty(), "{} {}: {told:?}", task.id, field.key);
                assert!(gap(&assessment, task).is_some(), "{} {}: no gap", task.id, field.key);
            }
        }
    }
}

#[test]
fn sixty_taps_within_a_second_are_not_read() {
    let mut series_tasks = 0;
    for (task, field, form) in series_fields() {
        series_tasks += 1;
        let pads: Vec<&str> = form.pads.iter().map(|pad| pad.id).collect();
        let in_turn: Vec<&str> = pads.iter().copied().cycle().take(60).collect();
        let in_blocks: Vec<&str> = pads.iter().flat_map(|pad| vec![*pad; 60 / pads.len()]).collect();
        // A sixtieth of a second apart, and all at the same moment.
        for (order, apart) in [(&in_turn, 16), (&in_blocks, 16), (&vec![pads[0]; 60], 16), (&in_turn, 0)] {
            for mark in [form.marks[0].choice.id, form.marks[form.marks.len() - 1].choice.id] {
                let series = tapped(order, mark, apart, 20_000);
                let assessment = assessed(&visit_of(record_of(task, field, Answer::Series(series))));
                let at = format!("{} {mark}, {apart} ms apart", task.id);
                let told: Vec<_> = assessment.findings().map(|finding| &finding.headline).collect();
                assert!(told.is_empty(), "{at}: {told:?}");
                assert_eq!(assessment.comparisons().count(), 0, "{at}");
                let reading = &assessment.tasks.iter().find(|read| read.task == task).expect("recorded").reading;
                assert!(reading.signs.is_empty() && reading.sided.is_empty() && reading.courses.is_empty(), "{at}");
                assert_eq!(reading.measures, [], "{at}");
                let said = reading.gaps.iter().any(|gap| match &gap.why {
                    Why::NotTestable(why) => why.contains("tapped") && why.contains("again"),
                    _ => false,
                });
                assert!(said, "{at}: {:?}", reading.gaps);
            }
        }
    }
    assert!(series_tasks >= 4, "only {series_tasks} tasks take taps");
}

#[test]
fn taps_one_way_only_are_too_few_and_never_alike() {
    for (task, field, form) in series_fields() {
        for pad in form.pads {
            let marks = [form.marks[0].choice.id, form.marks[form.marks.len() - 1].choice.id];
            for mark in marks {
                let series = tapped(&[pad.id; 12], mark, 1500, 20_000);
                let assessment = assessed(&visit_of(record_of(task, field, Answer::Series(series))));
                let at = format!("{} {} {mark}", task.id, pad.id);
                for comparison in assessment.comparisons() {
                    assert_eq!(comparison.p, None, "{at}: {}", comparison.says);
                    assert!(comparison.says.contains("Too few to compare"), "{at}: {}", comparison.says);
                }
                let compared = assessment.findings().find(|finding| finding.key.ends_with("right_left"));
                assert_eq!(compared, None, "{at}");
                assert!(matches!(assessment.side.outcome, Outcome::TooFew { .. }), "{at}: {:?}", assessment.side);
                let missing = assessment.gaps.iter().any(|gap| gap.slot == task.id && gap.why == Why::NotRecorded);
                assert!(missing, "{at}: the other way is no gap");
                let words = printed(&assessment, &visit_of(record_of(task, field, Answer::One(String::new()))));
                assert!(!words.contains("alike"), "{at}: {words}");
            }
        }
    }
}

#[test]
fn a_table_filled_one_way_only_compares_nothing() {
    for task in task::ALL {
        for field in task.form.fields {
            let Kind::Grid(form) = &field.kind else { continue };
            let Some(row) = form.rows.iter().find(|row| row.id == "right") else { continue };
            let cell = |column: &Choice| Cell {
                row: row.id.into(),
                column: column.id.into(),
                grade: form.grades[form.grades.len() - 1].id.into(),
                from_cycle: None,
            };
            let cells: Vec<Cell> = form.columns.iter().map(cell).collect();
            let assessment = assessed(&visit_of(record_of(task, field, Answer::Grid(cells))));
            let compared = assessment.findings().find(|finding| finding.key.ends_with("right_left"));
            assert_eq!(compared, None, "{} {}", task.id, field.key);
            assert!(gap(&assessment, task).is_some(), "{} {}: no gap", task.id, field.key);
        }
    }
}

#[test]
fn values_of_a_task_left_out_are_kept_and_not_read_but_for_danger_signs() {
    let (mut flagged, mut kept) = (0, 0);
    for seed in 0..100 {
        let (person, visit) = odd(seed, Oddness::Valid);
        for task in task::ALL {
            let Some(at) = visit.records.iter().position(|record| record.slot == task.id) else { continue };
            if visit.records[at].answers.is_empty() {
                continue;
            }
            let flags = |visit: &Visit| (task.read)(&Context::of(&person, visit), &visit.records[at]).flags;
            let mut done = visit.clone();
            done.records[at].state = State::Done;
            for (state, why) in [
                (State::NotDone("no time".into()), Why::NotDone("no time".into())),
                (State::NotTestable("crying".into()), Why::NotTestable("crying".into())),
            ] {
                let mut left = visit.clone();
                left.records[at].state = state;
                assert_eq!(archive::read_visit(&archive::write_visit(&left)).as_ref(), Ok(&left), "seed {seed}");
                let assessment = assess(&person, &left);
                let read = assessment.tasks.iter().find(|read| read.task == *task).expect("recorded");
                assert!(!read.done && read.reading.findings.is_empty(), "seed {seed}: {}", task.id);
                assert_eq!(gap(&assessment, task), Some(&why), "seed {seed}: {}", task.id);
                assert_eq!(flags(&left), flags(&done), "seed {seed}: a danger sign of {} is lost", task.id);
                kept += 1;
                flagged += flags(&done).len();
            }
        }
    }
    assert!(kept > 1000 && flagged > 50, "{kept} tasks left out, {flagged} danger signs");
}

#[test]
fn a_follow_up_dated_before_its_baseline_is_told_as_such() {
    let day = 86_400_000;
    let visit = |id: &str, reason: &str, at: i64| {
        Script::begin(id, "sideline", at)
            .frame(reason, "none", "none", &[], &[])
            .near_point(&[(6.0, 8.0), (6.0, 8.0), (6.5, 8.0)])
            .close()
    };
    let follow_up = visit("follow-up", "follow_up", NOW.unix_ms);
    let baseline = visit("baseline", "baseline", NOW.unix_ms + 3 * day);
    let all = [baseline.clone(), follow_up.clone()];
    let person = person("B-15", 2010);
    assert_eq!(change::since_earlier(&person, &follow_up, &assess(&person, &follow_up), &all), None);
    let assessment = assess(&person, &baseline);
    let changes = change::since_earlier(&person, &baseline, &assessment, &all).expect("an earlier visit");
    assert_eq!(changes.relation, Relation::BeforeBaseline);
    let options = Options::new("test").with_changes(&changes);
    let words = text::render(&summary::compose(&person, &baseline, &assessment, &options));
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(!words.to_lowercase().contains("compared with the own baseline"), "{words}");
    assert!(
        words.contains("The later visit is the own baseline; the visit compared with it is dated before it."),
        "{words}"
    );
}

#[test]
fn without_a_birth_every_visit_is_read_and_says_so() {
    for scenario in scenarios::all() {
        let person = Person { born: None, ..scenario.person };
        let visit = scenario.visits.last().expect("a visit");
        let assessment = assess(&person, visit);
        assert_eq!(assessment.age, None);
        let words = text::render(&summary::compose(&person, visit, &assessment, &Options::new("test")));
        assert!(words.contains("age not known"), "{}: {}", scenario.folder, &words[..400]);
    }
}

#[test]
fn numbers_at_their_bounds_are_taken_and_read_and_beyond_them_refused() {
    let mut bounds = 0;
    for task in task::ALL {
        for (field, of, quantity) in numbers(task) {
            for value in [quantity.min, quantity.max] {
                bounds += 1;
                let mut record = filled(task, &mut Dice::new(bounds));
                put(&mut record, field, of, Answer::Number(value));
                let visit = visit_of(record);
                let assessment = assessed(&visit);
                assert!(!is_unread(&assessment, task.id), "{} {}: {value}", task.id, of.key);
                for finding in assessment.findings() {
                    let number = finding.value.as_ref().map_or(0.0, |value| value.number);
                    assert!(number.is_finite(), "{} {} at {value}: {}", task.id, of.key, finding.headline);
                }
                let words = printed(&assessment, &visit);
                let mut each = words.split(|c: char| c.is_whitespace() || "(),;:".contains(c));
                let broken = each.find(|word| ["NaN", "inf", "-inf", "-0", "-0.0"].contains(word));
                assert_eq!(broken, None, "{} {} at {value}", task.id, of.key);
            }
            for value in [quantity.min - quantity.step, quantity.max + quantity.step, f64::INFINITY, f64::NAN] {
                let mut record = Record::open(task.id, Some(NOW));
                let (refused, said) = (enter(&mut record, field, of, value), quantity.check(value));
                assert_eq!(refused, Err(EditRefused::NotAccepted), "{} {}: {value}", task.id, of.key);
                let said = said.expect_err("beyond").to_string();
                assert!(said.contains(&quantity.show(quantity.max)), "{} {}: {said}", task.id, of.key);
            }
        }
    }
    assert!(bounds >= 30, "only {bounds} bounds");
}

#[test]
fn what_is_no_number_cannot_enter_by_a_file_either() {
    for task in task::ALL {
        for (field, of, _) in numbers(task) {
            let mut record = Record::open(task.id, Some(NOW));
            put(&mut record, field, of, Answer::Number(4321.5));
            let file = String::from_utf8(archive::write_visit(&visit_of(record))).expect("UTF-8");
            for no_number in ["NaN", "1e999", "-1e999", "Infinity", "\"8\"", "true"] {
                let bent = file.replace("4321.5", no_number);
                assert!(archive::read_visit(bent.as_bytes()).is_err(), "{} {}: {no_number}", task.id, of.key);
            }
            // Out of bounds is kept as it stands and not read.
            let visit = archive::read_visit(file.as_bytes()).expect("a number");
            let assessment = assessed(&visit);
            assert!(is_unread(&assessment, task.id), "{} {}: 4321.5 is read", task.id, of.key);
            assert!(!printed(&assessment, &visit).contains("4321"), "{} {}: 4321.5 is told", task.id, of.key);
        }
    }
}

/// An answer of the field's kind with something in it that nobody knows; `None` where anything can be known.
fn unheard_of(field: &Field) -> Option<Answer> {
    Some(match &field.kind {
        Kind::One(_) => Answer::One(NEWER.into()),
        Kind::Many { choices, .. } => Answer::Many(vec![choices[0].id.into(), NEWER.into()]),
        Kind::Number(quantity) => Answer::Number(quantity.max + quantity.step),
        Kind::Text { .. } | Kind::Day => return None,
        Kind::Ratings(items) => Answer::Ratings(vec![(items[0].id.into(), 1), (NEWER.into(), 1)]),
        Kind::Trials(_) => {
            let answers = [(NEWER.to_string(), Answer::Number(1.0))].into_iter().collect();
            Answer::Trials(vec![Trial { at_ms: 1000, answers }])
        }
        Kind::Series(form) => {
            let mut series = tapped(&[form.pads[0].id; 8], form.marks[0].choice.id, 1500, 20_000);
            series.taps[1].mark = NEWER.into();
            series.taps[4].pad = NEWER.into();
            Answer::Series(series)
        }
        Kind::Grid(form) => {
            let cell = |row: &str, grade: &str| Cell {
                row: row.into(),
                column: form.columns[0].id.into(),
                grade: grade.into(),
                from_cycle: None,
            };
            Answer::Grid(vec![cell(form.rows[0].id, form.grades[0].id), cell(NEWER, form.grades[0].id)])
        }
    })
}

/// Every field answered with something that fits.
fn filled(task: &Task, dice: &mut Dice) -> Record {
    let mut record = Record::open(task.id, Some(NOW));
    record.state = State::Done;
    for field in task.form.fields {
        record.answers.set(field.key, Some(fitting(dice, field)));
    }
    record
}

fn record_of(task: &Task, field: &Field, answer: Answer) -> Record {
    let mut record = Record::open(task.id, Some(NOW));
    record.state = State::Done;
    record.answers.set(field.key, Some(answer));
    record
}

fn visit_of(record: Record) -> Visit {
    let mut visit = Visit::begin("v", "p", "full", NOW, "test");
    visit.records.push(record);
    visit
}

fn assessed(visit: &Visit) -> Assessment {
    assess(&person("R-21", 1990), visit)
}

fn printed(assessment: &Assessment, visit: &Visit) -> String {
    text::render(&summary::compose(&person("R-21", 1990), visit, assessment, &Options::new("test")))
}

/// Why something of this task is missing, the first reason.
fn gap<'a>(assessment: &'a Assessment, task: &Task) -> Option<&'a Why> {
    assessment.gaps.iter().find(|gap| gap.slot == task.id).map(|gap| &gap.why)
}

fn is_unread(assessment: &Assessment, slot: &str) -> bool {
    assessment.gaps.iter().any(|gap| gap.slot == slot && gap.why == Why::Unread)
}

fn series_fields() -> impl Iterator<Item = (&'static Task, &'static Field, &'static SeriesForm)> {
    let of = |task: &'static Task| {
        task.form.fields.iter().filter_map(move |field| match &field.kind {
            Kind::Series(form) => Some((task, field, *form)),
            Kind::One(_)
            | Kind::Many { .. }
            | Kind::Number(_)
            | Kind::Text { .. }
            | Kind::Day
            | Kind::Ratings(_)
            | Kind::Trials(_)
            | Kind::Grid(_) => None,
        })
    };
    task::ALL.iter().copied().flat_map(of)
}

/// Taps on these pads so many milliseconds apart, with a run of this length on each pad.
fn tapped(pads: &[&str], mark: &str, apart_ms: u32, run_ms: u32) -> Series {
    let mut on: Vec<&str> = pads.to_vec();
    on.dedup();
    on.sort_unstable();
    on.dedup();
    let tap = |(at, pad): (u32, &&str)| Tap {
        at_ms: 100 + at * apart_ms,
        pad: (*pad).into(),
        mark: mark.into(),
        also: vec![],
        made: Made::Tapped,
    };
    Series {
        runs: on.iter().map(|pad| Run { pad: (*pad).into(), from_ms: 0, to_ms: Some(run_ms), bpm: None }).collect(),
        taps: (0..).zip(pads).map(tap).collect(),
    }
}

/// Every number a task asks for, those of its trials too: the field, the field of the number, and its bounds.
fn numbers(task: &'static Task) -> Vec<(&'static Field, &'static Field, &'static Quantity)> {
    let mut found = Vec::new();
    for field in task.form.fields {
        match &field.kind {
            Kind::Number(quantity) => found.push((field, field, *quantity)),
            Kind::Trials(form) => {
                let of = form.fields.iter().filter_map(|of| match &of.kind {
                    Kind::Number(quantity) => Some((field, of, *quantity)),
                    Kind::One(_)
                    | Kind::Many { .. }
                    | Kind::Text { .. }
                    | Kind::Day
                    | Kind::Ratings(_)
                    | Kind::Trials(_)
                    | Kind::Series(_)
                    | Kind::Grid(_) => None,
                });
                found.extend(of);
            }
            Kind::One(_)
            | Kind::Many { .. }
            | Kind::Text { .. }
            | Kind::Day
            | Kind::Ratings(_)
            | Kind::Series(_)
            | Kind::Grid(_) => {}
        }
    }
    found
}

/// Puts an answer into a field, or into every one of three trials of it.
fn put(record: &mut Record, field: &Field, of: &Field, answer: Answer) {
    if field.key == of.key {
        record.answers.set(field.key, Some(answer));
        return;
    }
    let answers: Answers = [(of.key.to_string(), answer)].into_iter().collect();
    let trials = (1..=3).map(|at| Trial { at_ms: at * 4000, answers: answers.clone() });
    record.answers.set(field.key, Some(Answer::Trials(trials.collect())));
}

/// Types a number as the app does.
fn enter(record: &mut Record, field: &Field, of: &Field, value: f64) -> Result<(), EditRefused> {
    let slot = record.slot.clone();
    let form = task::by_id(&slot).expect("a task").form;
    let mut visit = visit_of(record.clone());
    let mut make = |edit| edit::apply(&mut visit, form, &slot, edit, NOW).map(|_| ());
    if field.key == of.key {
        return make(Edit::Answer(field.key.into(), Some(Answer::Number(value))));
    }
    make(Edit::AddTrial(field.key.into()))?;
    make(Edit::TrialAnswer(field.key.into(), 0, of.key.into(), Some(Answer::Number(value))))
}

#[test]
fn a_whole_archive_of_odd_visits_is_taken_in_twice_the_same() {
    let (people, visits): (Vec<_>, Vec<_>) = (0..20).map(|seed| odd(seed, Oddness::Anything)).unzip();
    let named = |(at, visit): (usize, Visit)| Visit { id: format!("v{at}"), ..visit };
    let whole = Archive::of(people.into_iter().take(1).collect(), visits.into_iter().enumerate().map(named).collect());
    let file = archive::write(&whole);
    let read = archive::read(&file).expect("what was written can be read");
    assert_eq!(read, whole);
    assert_eq!(archive::write(&read), file);
}

#[test]
fn nothing_of_these_is_graded_in_range_by_accident() {
    // A record with nothing but answers nobody knows says nothing good.
    for task in task::ALL {
        let mut record = Record::open(task.id, Some(NOW));
        record.state = State::Done;
        for field in task.form.fields {
            let strange = match &field.kind {
                Kind::Number(_) => Answer::Number(1e9),
                _ => Answer::One(NEWER.into()),
            };
            record.answers.set(field.key, Some(strange));
        }
        let assessment = assessed(&visit_of(record));
        let fine: Vec<_> = assessment.findings().filter(|finding| finding.grade == Grade::WithinRange).collect();
        assert!(fine.is_empty(), "{}: {fine:?}", task.id);
    }
}

#[test]
fn a_safety_check_left_out_keeps_its_danger_signs_and_ratings_left_out_are_not_read() {
    let script = Script::begin("v", "sideline", NOW.unix_ms)
        .dangers(&["neck"])
        .skip("safety", "no time")
        .symptoms("before", [1, 0, 0, 0])
        .usual("pursuit")
        .symptoms("pursuit", [9, 9, 9, 9])
        .skip("symptoms.pursuit", "child cried");
    let visit = script.close();
    let assessment = assessed(&visit);
    assert!(assessment.flags.iter().any(|flag| flag.neck), "{:?}", assessment.flags);
    let why = |slot: &str| assessment.gaps.iter().find(|gap| gap.slot == slot).map(|gap| gap.why.clone());
    assert_eq!(why("safety"), Some(Why::NotDone("no time".into())));
    assert_eq!(why("symptoms.pursuit"), Some(Why::NotDone("child cried".into())));
    let words = printed(&assessment, &visit);
    assert!(!words.contains("rose by") && !words.contains("9         9"), "{words}");
    assert!(!words.contains("nothing outside a range"), "a reassurance beside a danger sign: {words}");
    assert!(words.contains("no less") && !words.contains("rules out neither"), "{words}");
    let kept = visit.record("symptoms.pursuit").and_then(|record| record.answers.ratings("now"));
    assert_eq!(kept.map(<[_]>::len), Some(4));
}

/// Text of 10,000 characters, other scripts, marks of direction, markup and control signs come back as they were.
#[test]
fn any_text_comes_back_as_it_was_typed() {
    let texts = ["שלום <b>", "a\u{202e}b", "line\nline\ttab", "\u{0}\u{1f}", "👁️‍🗨️", &"long ".repeat(2000)];
    for task in task::ALL {
        for field in task.form.fields {
            let Kind::Text { max, .. } = &field.kind else { continue };
            for text in texts {
                let visit = visit_of(record_of(task, field, Answer::Text(text.into())));
                assert_eq!(archive::read_visit(&archive::write_visit(&visit)).as_ref(), Ok(&visit), "{text:?}");
                let words = printed(&assessed(&visit), &visit);
                let odd = words.chars().find(|c| (c.is_control() && *c != '\n') || *c == '\u{202e}');
                assert_eq!(odd, None, "{} {text:?}", task.id);
                assert_eq!(field.accepts(&Answer::Text(text.into())), text.chars().count() <= *max);
            }
        }
    }
}
