//! Red flags: danger signs from the safety check and the tasks, which of them still wait for an answer, and what to do now.

use crate::capture::record::Record;
use crate::capture::safety::{self, DANGERS};
use crate::capture::stop;
use crate::capture::visit::Visit;
use crate::finding::Flag;

/// Every danger sign of the visit: those answered "yes" in the safety check, then those of the tasks, each once.
///
/// A "yes" counts even when the safety check was then skipped: a danger sign is never lost.
#[must_use]
pub fn raised<'a>(visit: &Visit, of_tasks: impl IntoIterator<Item = &'a Flag>) -> Vec<Flag> {
    let answers = visit.record(safety::SLOT).map(|record| &record.answers);
    let asked = DANGERS.iter().filter(|danger| answers.is_some_and(|answers| answers.one(danger.key) == Some("yes")));
    let mut flags: Vec<Flag> = asked
        .map(|danger| Flag {
            id: danger.key.to_string(),
            seen: danger.seen.to_string(),
            neck: danger.neck,
            source: danger.source,
        })
        .collect();
    for flag in of_tasks {
        if flags.iter().all(|known| known.id != flag.id) {
            flags.push(flag.clone());
        }
    }
    flags
}

/// Flags that no stop record names yet.
#[must_use]
pub fn open(visit: &Visit, flags: &[Flag]) -> Vec<Flag> {
    flags.iter().filter(|flag| answer(visit, flag).is_none()).cloned().collect()
}

/// The latest stop record that names this flag.
#[must_use]
pub fn answer<'a>(visit: &'a Visit, flag: &Flag) -> Option<&'a Record> {
    stop::all(visit).filter(|record| stop::seen(record).any(|id| id == flag.id)).last()
}

/// What to do now, in general words and in this order. Local rules come first where they differ.
#[must_use]
pub fn what_to_do(flags: &[Flag]) -> Vec<&'static str> {
    let mut steps = vec![
        // Removal and emergency transport for every listed sign: Patricios et al. 2023, Br J Sports Med 57:695.
        "Call the local emergency number now, or have someone call while you stay. If they cannot be woken or do not \
         breathe normally, say so first.",
        // Common practice.
        "Do not leave them alone. Watch their breathing and how awake they are.",
    ];
    if flags.iter().any(|flag| flag.neck) {
        // Neck held still until injury is excluded: Patricios et al. 2023, Br J Sports Med 57:695.
        steps.push(
            "Hold the head and neck still as they lie or sit, by hand. Do not move them unless the place is dangerous.",
        );
    }
    steps.extend([
        // Common practice.
        "Give nothing to eat or drink, and no medicine, until they have been examined.",
        // Common practice.
        "Note the time now, when each sign was first seen, and every change.",
        "Where your place or the emergency service says otherwise, follow them.",
    ]);
    steps
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::answer::Answer;
    use crate::capture::record::State;
    use crate::evidence::Citation;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
    static SOURCE: Citation = Citation { short: "a source", place: "for this test", link: "" };

    fn visit(yes: &[&str]) -> Visit {
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "Sidelight 0.1.0");
        let record = visit.record_mut(safety::SLOT, NOW);
        for danger in DANGERS {
            let answer = if yes.contains(&danger.key) { "yes" } else { "no" };
            record.answers.set(danger.key, Some(Answer::One(answer.into())));
        }
        visit
    }

    fn flag(id: &str) -> Flag {
        Flag { id: id.into(), seen: "something new".into(), neck: false, source: &SOURCE }
    }

    fn ids(flags: &[Flag]) -> Vec<&str> {
        flags.iter().map(|flag| flag.id.as_str()).collect()
    }

    #[test]
    fn answers_and_tasks_are_merged_without_doubles() {
        let of_task = [flag("resting_gaze.vertical"), flag("neck")];
        assert_eq!(
            ids(&raised(&visit(&["vomiting", "neck"]), &of_task)),
            ["neck", "vomiting", "resting_gaze.vertical"]
        );
        assert_eq!(raised(&visit(&[]), &[]), []);
    }

    #[test]
    fn a_yes_counts_in_a_skipped_check() {
        let mut visit = visit(&["seizure"]);
        visit.record_mut(safety::SLOT, NOW).state = State::NotDone("ambulance came".into());
        assert_eq!(ids(&raised(&visit, &[])), ["seizure"]);
    }

    #[test]
    fn a_flag_is_open_until_a_stop_names_it() {
        let mut visit = visit(&["neck", "vomiting"]);
        let flags = raised(&visit, &[]);
        assert_eq!(ids(&open(&visit, &flags)), ["neck", "vomiting"]);
        visit.record_mut("stop.1", NOW).answers.set("seen", Some(Answer::Text("neck other".into())));
        assert_eq!(ids(&open(&visit, &flags)), ["vomiting"]);
    }

    #[test]
    fn the_neck_is_held_only_when_a_sign_asks_for_it() {
        let held = |yes: &[&str]| what_to_do(&raised(&visit(yes), &[])).iter().any(|step| step.contains("neck still"));
        assert!(held(&["neck"]));
        assert!(!held(&["vomiting"]));
    }
}
