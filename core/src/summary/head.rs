//! The first lines: who, when, why, what came out and what was decided.

use super::region;
use super::words::{answer, counted, lower};
use crate::assess::Assessment;
use crate::calendar::{Age, Born, long_date};
use crate::capture::safety::{self, DANGERS};
use crate::capture::visit::{Person, Visit};
use crate::capture::{decision, frame};
use crate::document::{Block, Said, foreign};
use crate::evidence::capital;
use crate::finding::{Finding, Grade};
use crate::routine;

/// The facts at the top: who, why, what came out and what was decided before how it was done.
pub fn facts(person: &Person, visit: &Visit, assessment: &Assessment) -> Block {
    let mut facts = vec![("Person", who(person, assessment.age)), ("Examined", when(visit))];
    facts.extend(reason(visit).map(|said| ("Reason", said)));
    facts.push(("Result", result(visit, assessment)));
    facts.push(("Decision", decided(visit)));
    facts.extend(told(visit).map(|said| ("Told", said)));
    facts.extend(from_decision(visit, "note").map(|text| ("Note", Said::new(text, &["decision.note"]))));
    facts.extend(consent_and_glasses(visit));
    facts.push(("Sides", Said::new("Right and left are the person's own.", &[])));
    Block::Facts(facts.into_iter().map(|(name, said)| (name.to_string(), said)).collect())
}

fn who(person: &Person, age: Option<Age>) -> Said {
    let label = Some(foreign(&person.label)).filter(|label| !label.is_empty());
    let mut text = label.unwrap_or_else(|| "no code or name".to_string());
    text.push_str(&match (age, person.born) {
        (Some(Age { years, exact: false }), Some(born)) if years > 0 => {
            format!(", {} or {years} years (born {})", years - 1, born.text())
        }
        (Some(Age { years, .. }), Some(born)) => {
            format!(", {} (born {})", counted(years.into(), "year", "years"), shown(born))
        }
        _ => ", age not known".to_string(),
    });
    if person.invented {
        text.push_str("; an invented person");
    }
    Said::new(text, &["person.label", "person.born"])
}

fn shown(born: Born) -> String {
    match born {
        Born::Year(year) => year.to_string(),
        Born::On(date) => long_date(date),
    }
}

fn when(visit: &Visit) -> Said {
    let mut text = format!("{}, {}", long_date(visit.started.date()), visit.started.clock());
    match visit.closed {
        Some(closed) if closed.date() == visit.started.date() => text.push_str(&format!(" to {}", closed.clock())),
        Some(closed) => text.push_str(&format!(" to {}, {}", long_date(closed.date()), closed.clock())),
        None => text.push_str(", still open"),
    }
    text.push_str(&format!("; {} routine", lower(routine::title_of(visit))));
    if let Some(examiner) = from_frame(visit, "examiner") {
        text.push_str(&format!("; by {examiner}"));
    }
    Said::new(text, &["visit.started", "visit.closed", "frame.examiner"])
}

fn reason(visit: &Visit) -> Option<Said> {
    let parts = [
        from_frame(visit, "reason"),
        from_frame(visit, "since").map(|since| lower(&since)),
        from_frame(visit, "happened").map(|day| format!("on {day}")),
        from_frame(visit, "reason_note").map(|note| format!("in their words: “{note}”")),
    ];
    let text = parts.into_iter().flatten().collect::<Vec<_>>().join("; ");
    let keys = ["frame.reason", "frame.since", "frame.happened", "frame.reason_note"];
    (!text.is_empty()).then(|| Said::new(text, &keys))
}

fn consent_and_glasses(visit: &Visit) -> Vec<(&'static str, Said)> {
    let mut facts = Vec::new();
    if let Some(consent) = from_frame(visit, "consent") {
        let by = from_frame(visit, "consent_by").map(|by| format!(" ({by})")).unwrap_or_default();
        facts.push(("Consent", Said::new(format!("{consent}{by}"), &["frame.consent", "frame.consent_by"])));
    }
    if let Some(glasses) = from_frame(visit, "glasses") {
        facts.push(("Glasses for near", Said::new(glasses, &["frame.glasses"])));
    }
    let medicines = from_frame(visit, "medicines");
    facts.extend(medicines.map(|text| ("Medicines", Said::new(text, &["frame.medicines"]))));
    let cautions = from_frame(visit, "cautions").filter(|_| frame_ticked(visit, "cautions"));
    facts.extend(cautions.map(|text| ("Cautions", Said::new(capital(&text), &["frame.cautions"]))));
    facts
}

fn result(visit: &Visit, assessment: &Assessment) -> Said {
    let told = |finding: &&Finding| !region::tells(assessment, finding);
    let count = |grade| assessment.findings().filter(|finding| finding.grade == grade).filter(told).count();
    let done = assessment.tasks.iter().filter(|task| task.done).count();
    let mut parts = vec![format!("{done} of {} done", counted(assessment.tasks.len(), "task", "tasks"))];
    let mut noun = Some(("finding", "findings"));
    for grade in [Grade::Urgent, Grade::OutsideRange, Grade::NearLimit] {
        if count(grade) > 0 {
            // What is counted is said once.
            let counted =
                noun.take().map_or_else(|| count(grade).to_string(), |(one, more)| counted(count(grade), one, more));
            parts.push(format!("{counted} {}", grade.word()));
        }
    }
    let known = assessment.findings().filter(|finding| finding.long_known).count();
    if known > 0 {
        let counted = noun.take().map_or_else(|| known.to_string(), |(one, more)| counted(known, one, more));
        parts.push(format!("{counted} said to be long known"));
    }
    let outside = assessment.outside();
    if !outside.is_empty() && !outside.iter().any(told) {
        parts.push("a difference between right and left".to_string());
    }
    if let Some(toward) = assessment.side.worse() {
        parts.push(format!("movements {} worse over several tasks", toward.phrase()));
    }
    // That something is in range must not stand beside a danger sign.
    if count(Grade::WithinRange) > 0 && outside.is_empty() && assessment.flags.is_empty() {
        parts.push("nothing outside a range".to_string());
    }
    // A danger sign comes first; that there was none comes last.
    let at = if assessment.flags.is_empty() { parts.len() } else { 0 };
    parts.insert(at, danger_signs(visit, assessment));
    Said::new(parts.join("; "), &["findings", "safety"])
}

/// How far danger signs were asked for. A sign that was not asked for is never counted as absent.
fn danger_signs(visit: &Visit, assessment: &Assessment) -> String {
    let all = DANGERS.len();
    let record = visit.filled(safety::SLOT);
    let asked =
        |key: &str| record.and_then(|record| record.answers.one(key)).is_some_and(|id| id == "yes" || id == "no");
    let answered = DANGERS.iter().filter(|danger| asked(danger.key)).count();
    match (assessment.flags.len(), answered) {
        (0, 0) => "danger signs not asked for".to_string(),
        (0, n) if n == all => format!("all {all} danger signs asked for, none present"),
        (0, n) => format!("{n} of {all} danger signs asked for, none of these present"),
        (1, _) => "1 emergency sign".to_string(),
        (n, _) => format!("{n} emergency signs"),
    }
}

fn decided(visit: &Visit) -> Said {
    let Some(action) = from_decision(visit, "action") else {
        return Said::new("Not recorded", &["decision"]);
    };
    let to = from_decision(visit, "refer_to");
    let again = from_decision(visit, "retest_on");
    let what = match (to, answers_one(visit, "action"), again) {
        (Some(to), Some("refer"), _) => format!("{action} to {to}"),
        (Some(to), _, _) => format!("{action}, {to}"),
        (None, _, Some(day)) => format!("Re-test on {day}"),
        (None, Some("retest"), None) => "Re-test, day not recorded".to_string(),
        (None, _, None) => action,
    };
    let parts = [
        Some(what),
        from_decision(visit, "refer_soon").map(|soon| lower(&soon)),
        from_decision(visit, "play").map(|play| match answers_one(visit, "play") {
            Some("no_play") => "no sport or activity in question".to_string(),
            Some("not_removed") => "not removed from play".to_string(),
            _ => lower(&play),
        }),
    ];
    let text = parts.into_iter().flatten().collect::<Vec<_>>().join(", ");
    Said::new(
        text,
        &["decision.action", "decision.refer_to", "decision.refer_soon", "decision.retest_on", "decision.play"],
    )
}

fn told(visit: &Visit) -> Option<Said> {
    let whom = from_decision(visit, "told")?;
    let names = from_decision(visit, "told_name").map(|names| format!(" ({names})")).unwrap_or_default();
    Some(Said::new(format!("{}{names}", capital(&whom)), &["decision.told", "decision.told_name"]))
}

/// An answer of the frame in words, when its question applies.
fn from_frame(visit: &Visit, key: &str) -> Option<String> {
    let record = visit.filled(frame::SLOT)?;
    let applies = frame::FORM.field(key)?.applies(&record.answers);
    answer(&frame::FORM, &record.answers, key).filter(|_| applies)
}

/// An answer of the decision in words, when its question applies.
fn from_decision(visit: &Visit, key: &str) -> Option<String> {
    let record = visit.filled(decision::SLOT)?;
    let applies = decision::FORM.field(key)?.applies(&record.answers);
    answer(&decision::FORM, &record.answers, key).filter(|_| applies)
}

fn frame_ticked(visit: &Visit, key: &str) -> bool {
    visit.filled(frame::SLOT).and_then(|record| record.answers.many(key)).is_some_and(|ids| !ids.is_empty())
}

fn answers_one<'a>(visit: &'a Visit, key: &str) -> Option<&'a str> {
    visit.filled(decision::SLOT)?.answers.one(key)
}
