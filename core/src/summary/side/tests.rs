//! What is said of the sides, word for word.

use super::*;
use crate::measure::{Repetition, Sided};
use crate::side;

/// Right and left in turn, pair by pair.
fn in_turn(task: &'static str, right: &[i32], left: &[i32]) -> Sided {
    let pair = |(r, l): (&i32, &i32)| [(Direction::Right, *r), (Direction::Left, *l)];
    let repetitions = right.iter().zip(left).flat_map(pair).map(|(toward, score)| Repetition { toward, score });
    Sided { task, what: "misses", repetitions: repetitions.collect(), in_turn: true }
}

fn words(tasks: &[Sided]) -> String {
    let blocks = told(&side::read(tasks.iter()), true);
    let said = blocks.iter().map(|block| match block {
        Block::Paragraph(said) => said.text.clone(),
        Block::Graded { grade, headline, details } => {
            let details: Vec<&str> = details.iter().map(|said| said.text.as_str()).collect();
            format!("[{}] {} | {}", grade.word(), headline.text, details.join(" "))
        }
        other => panic!("{other:?}"),
    });
    said.collect::<Vec<_>>().join("\n")
}

const WELL: [i32; 10] = [0; 10];
const FIVE: [i32; 10] = [0, 1, 0, 1, 1, 0, 0, 1, 0, 1];

/// Six of eleven pairs differ, all one way: p = 2/64 = 3.1 of 100. The difference is (1 · 2/2 + 5 · 5/10) / 6 = 58 in 100; its
/// limits were worked out once more with the Newcombe intervals of statsmodels.
#[test]
fn a_worse_direction_is_a_direction_with_its_effect_and_never_a_place_in_the_brain() {
    let said = words(&[in_turn("pursuit", &[0, 0], &[1, 2]), in_turn("saccade", &WELL, &FIVE)]);
    let expected = "[near the limit] Movements to the left are worse, over following and jumps | Not smooth or off target: 0 \
                    of 12 to the right, 7 of 12 to the left; 58 in 100 more to the left, 95 % interval 23 to 80. If both \
                    sides were alike, so large a difference would still come up in 3.1 of 100 (permutation test). This is \
                    a direction, not a side of the brain";
    assert!(said.starts_with(expected), "{said}");
    let mirrored = words(&[in_turn("pursuit", &[1, 2], &[0, 0]), in_turn("saccade", &FIVE, &WELL)]);
    assert!(
        mirrored.contains("Movements to the right are worse")
            && mirrored.contains("58 in 100 more to the right, 95 % interval 23 to 80"),
        "{mirrored}"
    );
}

#[test]
fn alike_is_said_with_its_uncertainty() {
    let said = words(&[in_turn("pursuit", &[0, 0], &[0, 0]), in_turn("saccade", &FIVE, &FIVE)]);
    assert!(
        said.starts_with("No side stands out over following and jumps. Not smooth or off target: 5 of 12"),
        "{said}"
    );
    assert!(said.contains("no difference, 95 % interval") && said.ends_with("(p = 1, permutation test)."), "{said}");
}

#[test]
fn too_few_says_what_is_needed() {
    assert_eq!(
        words(&[in_turn("pursuit", &[0, 0], &[1, 1])]),
        "Right and left over several tasks: too few to compare (only following to both sides). 2 tasks and 6 pairs done in \
         turn are needed."
    );
    let said = words(&[in_turn("pursuit", &[0, 0], &[1, 1]), in_turn("saccade", &WELL[..3], &FIVE[..3])]);
    assert!(said.contains("(2 pairs done in turn)"), "{said}");
    assert_eq!(words(&[]), "");
}

#[test]
fn why_a_difference_names_no_side() {
    let jumps = in_turn("saccade", &WELL, &[1; 10]);
    let said = words(&[in_turn("pursuit", &[0, 0], &[0, 0]), jumps.clone()]);
    assert!(said.contains("no side is named: only jumps differ, and one task is not enough."), "{said}");
    let said = words(&[in_turn("pursuit", &[1, 0], &[0, 0]), jumps]);
    assert!(said.contains("no side is named: the tasks point different ways."), "{said}");
}
