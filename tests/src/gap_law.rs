//! The gap law: taking an answer away never makes anything better. What was in range may be lost, never gained.

use std::collections::BTreeMap;

use sidelight_core::assess::{Assessment, assess};
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::finding::Grade;

use crate::odd_visit::{Oddness, odd};

const VISITS: u64 = 60;

#[test]
fn taking_an_answer_away_never_makes_anything_better() {
    let (mut removed, mut lost) = (0, 0);
    for seed in 0..VISITS {
        let (person, visit) = odd(seed, Oddness::Valid);
        let before = reassurances(&assess(&person, &visit));
        for (what, person, visit) in each_removal(&person, &visit) {
            removed += 1;
            let after = reassurances(&assess(&person, &visit));
            for (key, grade) in &after {
                let was = before.get(key);
                assert!(
                    *grade != Grade::WithinRange || was == Some(&Grade::WithinRange),
                    "seed {seed}, without {what}: {key} is in range and was {was:?}"
                );
            }
            lost += before.iter().filter(|(_, grade)| **grade == Grade::WithinRange).count()
                - after.values().filter(|grade| **grade == Grade::WithinRange).count();
        }
    }
    assert!(removed > 1000 && lost > 60, "{removed} answers were taken away and {lost} reassurances with them");
}

/// Every finding's grade by its key; the worst where a key comes twice.
fn reassurances(assessment: &Assessment) -> BTreeMap<String, Grade> {
    let mut grades = BTreeMap::new();
    for finding in assessment.findings() {
        let grade = grades.entry(finding.key.clone()).or_insert(finding.grade);
        *grade = finding.grade.max(*grade);
    }
    grades
}

/// The visit without one of its answers, and without the birth, each with a name of what is gone.
fn each_removal(person: &Person, visit: &Visit) -> Vec<(String, Person, Visit)> {
    let mut less = Vec::new();
    for (at, record) in visit.records.iter().enumerate() {
        let keys: Vec<String> = record.answers.iter().map(|(key, _)| key.to_string()).collect();
        for key in keys {
            let mut visit = visit.clone();
            visit.records[at].answers.set(&key, None);
            less.push((format!("{} {key}", record.slot), person.clone(), visit));
        }
    }
    if person.born.is_some() {
        less.push(("the birth".to_string(), Person { born: None, ..person.clone() }, visit.clone()));
    }
    less
}
