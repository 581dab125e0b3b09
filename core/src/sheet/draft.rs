//! A choice that is not signed off yet, as a few lines of text that stay on the device of the practice.
//!
//! The first line names the form, the second is the sheet's own text. What a sheet cannot hold follows: an emergency number
//! as it was typed, and for each exercise why it is given although something speaks against it.

use super::Sheet;
use crate::exercise;
use crate::plan::{Choice, Edit};

const FORM: &str = "PLAN1";
const EMERGENCY: &str = "emergency ";
const DESPITE: &str = "despite ";

/// The choice as text.
#[must_use]
pub fn write_draft(choice: &Choice) -> String {
    let mut lines = vec![FORM.to_string(), Sheet::unsigned(choice).encode()];
    lines.push(format!("{EMERGENCY}{}", one_line(&choice.emergency)));
    let reasons = choice.items.iter().filter(|item| !item.despite.is_empty());
    lines.extend(reasons.map(|item| format!("{DESPITE}{} {}", item.exercise.number, one_line(&item.despite))));
    lines.join("\n")
}

/// Reads such a text; `None` when it is none of this program's, so that the practitioner begins again from the findings.
#[must_use]
pub fn read_draft(text: &str) -> Option<Choice> {
    let mut lines = text.lines();
    if lines.next() != Some(FORM) {
        return None;
    }
    let mut choice = Sheet::decode(lines.next()?).ok()?.choice();
    for line in lines {
        if let Some(typed) = line.strip_prefix(EMERGENCY) {
            choice = choice.edited(Edit::Emergency(typed.to_string()));
        } else if let Some((number, why)) = line.strip_prefix(DESPITE).and_then(|rest| rest.split_once(' ')) {
            let exercise = number.parse().ok().and_then(exercise::by_number)?;
            choice = choice.edited(Edit::Despite(exercise, why.to_string()));
        }
    }
    Some(choice)
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice;
    use crate::catalogue::Language;
    use crate::tolerance::Limits;

    fn choice() -> Choice {
        let item = |id: &str| crate::plan::Item {
            exercise: exercise::by_id(id).expect("an exercise"),
            dose: exercise::by_id(id).expect("an exercise").start,
            despite: String::new(),
        };
        Choice {
            items: vec![item("steady_walk"), item("head_turn_seated")],
            advice: vec![advice::ALL[0]],
            limits: Limits { rise: 1, minutes: 30 },
            emergency: "112".into(),
            helper: true,
            language: Language::Spanish,
        }
    }

    #[test]
    fn a_choice_comes_back_as_it_was_with_its_reasons() {
        let head = exercise::by_id("head_turn_seated").expect("an exercise");
        let chosen = choice().edited(Edit::Despite(head, "cleared by the surgeon\non 3 March".into()));
        let back = read_draft(&write_draft(&chosen)).expect("is read");
        assert_eq!(back.items[1].despite, "cleared by the surgeon on 3 March");
        assert_eq!(back.items[0], chosen.items[0]);
        assert_eq!(
            (back.advice, back.limits, back.helper, back.language),
            (chosen.advice, chosen.limits, true, Language::Spanish)
        );
    }

    /// What is half typed is kept too, so that a reload does not lose it.
    #[test]
    fn an_emergency_number_that_is_none_is_kept_and_reaches_no_sheet() {
        let typed = choice().edited(Edit::Emergency("11a".into()));
        assert_eq!(read_draft(&write_draft(&typed)).expect("is read").emergency, "11a");
        assert_eq!(Sheet::unsigned(&typed).emergency, "");
        assert_eq!(Sheet::unsigned(&choice()).emergency, "112");
    }

    #[test]
    fn nothing_chosen_is_a_draft_too() {
        let nothing = Choice { items: Vec::new(), advice: Vec::new(), ..choice() };
        assert_eq!(read_draft(&write_draft(&nothing)), Some(nothing));
    }

    #[test]
    fn what_is_no_draft_is_none() {
        let text = write_draft(&choice());
        for other in ["", "PLAN1", "PLAN1\nSHEET1.AAAA", &text.replace("PLAN1", "PLAN2"), &text[6..]] {
            assert_eq!(read_draft(other), None, "{other}");
        }
        assert_eq!(read_draft(&format!("{text}\ndespite 99 x")), None, "an exercise of a later version");
        assert!(read_draft(&format!("{text}\nsomething new")).is_some());
    }
}
