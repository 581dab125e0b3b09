//! The symptoms before and after the tasks, as a table.

use super::heading;
use crate::assess::Assessment;
use crate::capture::symptoms::ITEMS;
use crate::document::Block;
use crate::provocation::{Ratings, signed};

/// The table; nothing when no symptom was above 0, for then one line says it all.
pub fn table(assessment: &Assessment) -> Vec<Block> {
    let symptoms = &assessment.symptoms;
    if !symptoms.any_symptom() {
        return Vec::new();
    }
    let mut head = vec!["When".to_string()];
    head.extend(ITEMS.iter().map(|item| item.label.to_string()));
    head.extend(["Sum".to_string(), "Change".to_string()]);
    let mut rows: Vec<Vec<String>> = Vec::new();
    rows.extend(symptoms.before.as_ref().map(|ratings| row("Before the tasks", ratings, None)));
    rows.extend(symptoms.after.iter().map(|after| {
        let change = after.change.map_or("cannot be said".to_string(), signed);
        row(after.task.title, &after.ratings, Some(change))
    }));
    let caption = "Each from 0 to 10, after the task; the change is from before the tasks".to_string();
    vec![heading("Symptoms"), Block::Table { caption, head, rows }]
}

fn row(when: &str, ratings: &Ratings, change: Option<String>) -> Vec<String> {
    let unrated = || "not rated".to_string();
    let mut row = vec![when.to_string()];
    row.extend(ratings.0.iter().map(|rating| rating.map_or_else(unrated, |value| value.to_string())));
    row.push(ratings.sum().map_or_else(unrated, |sum| sum.to_string()));
    row.push(change.unwrap_or_default());
    row
}
