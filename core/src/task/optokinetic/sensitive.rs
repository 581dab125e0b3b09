//! Stripes for people who react to flicker or patterns: never on a screen.

use super::TASK;
use crate::capture::frame;
use crate::capture::record::Record;
use crate::capture::visit::Visit;
use crate::finding::{Finding, Gap, Place, Why};

/// The cautions of the frame that forbid stripes on a screen (common practice, from memory).
pub const CAUTIONS: &[&str] = &["seizures", "light"];

/// That stripes on a screen are left out for this person, unless they were shown all the same.
pub fn left_out(visit: &Visit, record: &Record) -> Option<Gap> {
    let reason = "epilepsy, seizures or sensitivity to flicker: tape or fingers only";
    let left_out = frame::has_caution(visit, CAUTIONS) && !on_screen(record);
    let why = Why::Dropped(reason.to_string());
    left_out.then(|| Gap { slot: TASK.id.to_string(), what: "stripes on a screen".to_string(), why })
}

/// That stripes were shown on a screen to someone who should not see any there.
pub fn shown_all_the_same(visit: &Visit, record: &Record) -> Option<Finding> {
    (frame::has_caution(visit, CAUTIONS) && on_screen(record)).then(|| {
        let said = "Stripes were shown on a screen, though epilepsy or sensitivity to flicker is noted".to_string();
        let mut finding = Finding::new(TASK.id, "screen", Place::Both, said);
        finding.details.push("Use a tape or passing fingers next time (common practice, from memory).".to_string());
        finding
    })
}

fn on_screen(record: &Record) -> bool {
    record.answers.one("stimulus") == Some("screen")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::answer::Answer;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn told(caution: &str, stimulus: &str) -> (bool, bool) {
        let mut visit = Visit::begin("v", "p", "sideline", NOW, "test");
        let cautions = Answer::Many(vec![caution.to_string()]);
        visit.record_mut(frame::SLOT, NOW).answers.set("cautions", Some(cautions));
        let mut record = Record::open(TASK.id, None);
        record.answers.set("stimulus", Some(Answer::One(stimulus.to_string())));
        (left_out(&visit, &record).is_some(), shown_all_the_same(&visit, &record).is_some())
    }

    #[test]
    fn a_screen_is_left_out_for_those_who_react_to_flicker_and_told_when_it_was_used() {
        for caution in CAUTIONS {
            assert_eq!(told(caution, "tape"), (true, false));
            assert_eq!(told(caution, "screen"), (false, true));
        }
        assert_eq!(told("migraine", "screen"), (false, false));
    }
}
