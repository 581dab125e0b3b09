//! Which row stands for which visit: keys, the number of each visit of a person, and the day of the first.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::Who;
use crate::calendar::Date;
use crate::export::Case;

/// A visit's place in the tables.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Placed {
    /// Index of the case.
    pub at: usize,
    /// Key of the visit, once in the table.
    pub key: String,
    /// Key of the person.
    pub person: String,
    /// Which visit of the person it is, counted from 1.
    pub number: usize,
    /// The day of the person's first visit here.
    pub first: Date,
}

/// Why tables without names cannot be written. No text of it says who.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TableError {
    /// So many people have no code.
    NoCode(usize),
    /// Two people have the same code.
    SameCode,
    /// A code is not four to sixteen letters and digits, or tells who it stands for.
    BadCode,
}

impl fmt::Display for TableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TableError::NoCode(1) => write!(f, "One person has no study code. Give everybody a code and try again."),
            TableError::NoCode(n) => write!(f, "{n} people have no study code. Give everybody a code and try again."),
            TableError::SameCode => write!(f, "Two people have the same study code. Give each a code of their own."),
            TableError::BadCode => write!(
                f,
                "A study code must be four to sixteen letters and digits, drawn at random and not taken from the record."
            ),
        }
    }
}

impl std::error::Error for TableError {}

/// Every visit in the order of the tables: by the key of the person, then in time. Random codes give a random order.
pub(super) fn of(cases: &[Case<'_>], who: Who<'_>) -> Result<Vec<Placed>, TableError> {
    let mut of_person: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, case) in cases.iter().enumerate() {
        of_person.entry(case.person.id.as_str()).or_default().push(at);
    }
    if let Who::Coded(codes) = who {
        check(cases, &of_person, codes)?;
    }
    let mut placed = Vec::with_capacity(cases.len());
    let mut keys = BTreeSet::new();
    for (id, mut visits) in of_person {
        visits.sort_by_key(|at| (cases[*at].visit.started, &cases[*at].visit.id, *at));
        let days = visits.iter().map(|at| cases[*at].visit.started.date());
        let Some(first) = days.min() else { continue };
        for (number, at) in (1..).zip(visits) {
            let (person, key) = match who {
                Who::Named => (id.to_string(), cases[at].visit.id.clone()),
                Who::Coded(codes) => {
                    let code = codes.get(id).cloned().unwrap_or_default();
                    (code.clone(), format!("{code}-{number}"))
                }
            };
            placed.push(Placed { at, key: once(key, &mut keys), person, number, first });
        }
    }
    placed.sort_by(|a, b| (&a.person, a.number).cmp(&(&b.person, b.number)));
    Ok(placed)
}

/// A visit closed on two devices stands twice under one id; so may two visits without any. The second gets "~2".
fn once(key: String, keys: &mut BTreeSet<String>) -> String {
    let key = if key.is_empty() { "visit".to_string() } else { key };
    let again = (2..).map(|n: u32| format!("{key}~{n}"));
    let free = std::iter::once(key.clone()).chain(again).find(|key| !keys.contains(key));
    let free = free.unwrap_or(key);
    keys.insert(free.clone());
    free
}

fn check(
    cases: &[Case<'_>],
    of_person: &BTreeMap<&str, Vec<usize>>,
    codes: &BTreeMap<String, String>,
) -> Result<(), TableError> {
    let given: Vec<&String> = of_person.keys().filter_map(|id| codes.get(*id)).collect();
    if given.len() < of_person.len() {
        return Err(TableError::NoCode(of_person.len() - given.len()));
    }
    let plain = |code: &str| (4..=16).contains(&code.len()) && code.bytes().all(|b| b.is_ascii_alphanumeric());
    let tells = |case: &Case<'_>| {
        let holds = |text: &str, code: &str| text.to_lowercase().contains(&code.to_lowercase());
        codes.get(&case.person.id).is_some_and(|code| {
            holds(&case.person.id, code) || holds(&case.person.label, code) || holds(&case.visit.id, code)
        })
    };
    if !given.iter().all(|code| plain(code)) || cases.iter().any(tells) {
        return Err(TableError::BadCode);
    }
    let different: BTreeSet<String> = given.iter().map(|code| code.to_uppercase()).collect();
    if different.len() < given.len() { Err(TableError::SameCode) } else { Ok(()) }
}
