//! What every exercise has to say.

use super::*;
use crate::capture::frame;
use crate::pattern;
use crate::task;
use std::collections::BTreeSet;

#[test]
fn there_are_at_least_twelve_each_with_an_id_and_a_number_of_its_own() {
    assert!(ALL.len() >= 12);
    let ids: BTreeSet<&str> = ALL.iter().map(|exercise| exercise.id).collect();
    let numbers: BTreeSet<u8> = ALL.iter().map(|exercise| exercise.number).collect();
    assert_eq!((ids.len(), numbers.len()), (ALL.len(), ALL.len()));
    assert!(!numbers.contains(&0));
    for exercise in ALL {
        assert_eq!(by_number(exercise.number), Some(*exercise));
        assert_eq!(by_id(exercise.id), Some(*exercise));
    }
}

/// Published numbers: a sheet on a family's phone must mean the same for ever.
#[test]
fn published_numbers_stay_as_they_are() {
    let numbers: Vec<(u8, &str)> = ALL.iter().map(|exercise| (exercise.number, exercise.id)).collect();
    assert_eq!(
        numbers,
        [
            (1, "near_point_practice"),
            (2, "bead_string"),
            (3, "near_far_jumps"),
            (4, "slow_following"),
            (5, "two_target_jumps"),
            (6, "eyes_then_head"),
            (7, "head_turn_seated"),
            (8, "head_turn_standing"),
            (9, "whole_body_turn"),
            (10, "stance_steps"),
            (11, "heel_to_toe_walk"),
            (12, "familiar_movements"),
            (13, "busy_scenes"),
            (14, "steady_walk"),
        ]
    );
}

#[test]
fn every_exercise_is_complete_and_begins_with_a_possible_dose() {
    for exercise in ALL {
        let words = [
            exercise.title,
            exercise.aim,
            exercise.setup,
            exercise.start_from,
            exercise.supervision,
            exercise.harder,
            exercise.easier,
            exercise.stop,
        ];
        assert!(words.iter().all(|words| !words.is_empty()), "{} lacks words", exercise.id);
        assert_eq!(exercise.start.check(), Ok(()), "{}", exercise.id);
        assert!(!exercise.evidence.is_empty(), "{} has no evidence", exercise.id);
        assert!(!exercise.bars.is_empty(), "{} is never taken away", exercise.id);
        assert!(exercise.family.steps.len() >= 3, "{} has too few steps", exercise.id);
        assert!(exercise.leads.is_empty() == (exercise.id == "head_turn_standing"), "{}", exercise.id);
        let sources =
            exercise.doses.iter().map(|dose| dose.source).chain(exercise.evidence.iter().map(|study| study.source));
        for source in sources {
            assert!(!source.short.is_empty() && !source.place.is_empty(), "{} cites nobody", exercise.id);
        }
        if let Some(before) = exercise.follows {
            assert!(by_id(before).is_some(), "{} follows {before}", exercise.id);
        }
    }
}

/// The guideline's "should not be offered" stands beside both drills without head movement, and such a drill is never
/// proposed for a finding of gaze stability.
#[test]
fn eye_drills_without_head_movement_carry_the_advice_against_them() {
    let drills: Vec<&&Exercise> = ALL.iter().filter(|exercise| exercise.group == Group::EyesAlone).collect();
    assert_eq!(drills.len(), 2);
    for drill in drills {
        assert!(
            drill
                .evidence
                .iter()
                .any(|study| study.shows == Shows::AdvisedAgainst && std::ptr::eq(study.source, &evidence::HALL_2016)),
            "{}",
            drill.id
        );
        assert!(drill.support >= Support::C);
        let of_gaze = |lead: &Lead| {
            matches!(lead, Lead::Rise("head_turn_gaze" | "whole_body_turn", _) | Lead::Sign(What::CatchUpImpulse))
        };
        assert!(!drill.leads.iter().any(of_gaze), "{}", drill.id);
    }
}

/// Both children's trials found home push-ups no better than a placebo.
#[test]
fn trials_without_benefit_are_told() {
    let push_ups = by_id("near_point_practice").expect("listed");
    let without: Vec<&Study> = push_ups.evidence.iter().filter(|study| study.shows == Shows::NoBenefit).collect();
    for trial in [&evidence::CITT, &evidence::HOME_ONLY] {
        assert!(without.iter().any(|study| std::ptr::eq(study.source, trial)), "{}", trial.short);
    }
    assert_eq!(push_ups.support, Support::D);
}

#[test]
fn everything_that_moves_the_head_or_provokes_has_its_bars() {
    let barred = |exercise: &Exercise, id: &str| {
        exercise.bars.iter().any(|bar| matches!(bar, Bar::Caution(caution, _) if *caution == id))
    };
    for exercise in ALL {
        let standing = ["head_turn_standing", "whole_body_turn", "stance_steps", "heel_to_toe_walk"];
        assert!(exercise.group != Group::HeadMoves || barred(exercise, "neck"), "{}", exercise.id);
        assert!(exercise.group != Group::HeadMoves || barred(exercise, "surgery"), "{}", exercise.id);
        assert!(!standing.contains(&exercise.id) || barred(exercise, "falls"), "{}", exercise.id);
        assert!(exercise.id != "busy_scenes" || (barred(exercise, "seizures") && barred(exercise, "light")));
        assert!(exercise.bars.iter().any(|bar| matches!(bar, Bar::Younger(..))), "{} has no age", exercise.id);
    }
}

/// A lead that names a task, a pattern, a caution or a reason that does not exist would never be met.
#[test]
fn leads_and_bars_name_what_exists() {
    let choices = |key: &str| {
        let field = frame::FORM.field(key).expect("the frame asks it");
        format!("{:?}", field.kind)
    };
    let (reasons, cautions) = (choices("reason"), choices("cautions"));
    for exercise in ALL {
        for lead in exercise.leads {
            match lead {
                Lead::Finding(key, _) => {
                    let task = key.split('.').next().unwrap_or_default();
                    assert!(task::by_id(task).is_some(), "{}: {key}", exercise.id);
                }
                Lead::Rise(task, least) => {
                    assert!(task::by_id(task).is_some_and(|task| task.provokes), "{}: {task}", exercise.id);
                    assert!(*least > 0);
                }
                Lead::Pattern(id) => assert!(pattern::ALL.iter().any(|rule| rule.id == *id), "{}: {id}", exercise.id),
                Lead::Sign(_) => {}
                Lead::Reason(id) => assert!(reasons.contains(&format!("\"{id}\"")), "{}: {id}", exercise.id),
            }
        }
        for bar in exercise.bars {
            if let Bar::Caution(id, _) = bar {
                assert!(cautions.contains(&format!("\"{id}\"")), "{}: {id}", exercise.id);
            }
        }
    }
}

#[test]
fn doses_are_told_in_words_and_impossible_ones_refused() {
    let dose = Dose { sets: 3, amount: Amount::Seconds(60), rest: 30, a_day: 2, a_week: 1, weeks: 1, beat: 60 };
    assert_eq!(
        dose.in_words(),
        "3 sets of 60 s with 30 s rest to 60 beats a minute, 2 times a day, 1 day a week, 1 week"
    );
    let once = Dose { sets: 1, amount: Amount::Times(1), rest: 0, a_day: 1, a_week: 7, weeks: 4, beat: 0 };
    assert_eq!(once.in_words(), "once, once a day, 7 days a week, 4 weeks");
    let walk = Dose { amount: Amount::Seconds(1200), ..once };
    assert_eq!(walk.in_words(), "20 min, once a day, 7 days a week, 4 weeks");
    let odd = Dose { amount: Amount::Seconds(150), ..once };
    assert_eq!(odd.in_words(), "150 s, once a day, 7 days a week, 4 weeks");
    for wrong in [
        Dose { sets: 0, ..dose },
        Dose { sets: 11, ..dose },
        Dose { amount: Amount::Seconds(4), ..dose },
        Dose { amount: Amount::Times(61), ..dose },
        Dose { rest: 601, ..dose },
        Dose { a_day: 6, ..dose },
        Dose { a_week: 8, ..dose },
        Dose { weeks: 0, ..dose },
        Dose { beat: 19, ..dose },
    ] {
        assert!(wrong.check().is_err(), "{wrong:?}");
    }
}

/// A figure from memory says so wherever it is printed.
#[test]
fn sources_are_printed_and_memory_is_named() {
    let push_ups = by_id("near_point_practice").expect("listed");
    let told = push_ups.evidence[1].in_words();
    assert!(told.starts_with("No clear benefit: children at home alone"), "{told}");
    assert!(told.contains("(home-based therapy trial 2016, 204 children"), "{told}");
    let memory = push_ups.doses.iter().find(|dose| dose.status == Status::FromMemory).expect("15 minutes");
    assert!(memory.in_words().ends_with("; from memory)"), "{}", memory.in_words());
}
