//! Re-tests that are due: decided on, the day has come, and the person was not seen since.

use std::collections::BTreeMap;

use crate::calendar::{Date, Moment};
use crate::capture::entry::Entry;
pub use crate::capture::entry::retest_on;
use crate::sorted;

/// One re-test that is due.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Due {
    /// The person's id.
    pub person: String,
    /// The id of the visit that asked for it.
    pub visit: String,
    /// The day it was set for.
    pub on: Date,
}

/// Re-tests set for today or earlier, the longest overdue first. Any later visit of the person, open ones too, settles it.
#[must_use]
pub fn list<'a>(entries: impl IntoIterator<Item = &'a Entry>, today: Date) -> Vec<Due> {
    let mut latest: BTreeMap<&str, Moment> = BTreeMap::new();
    let mut asked: Vec<(&Entry, Date)> = Vec::new();
    for entry in entries {
        latest.entry(&entry.person).and_modify(|known| *known = entry.started.max(*known)).or_insert(entry.started);
        let set = entry.retest_on.filter(|on| *on <= today && entry.closed.is_some());
        asked.extend(set.map(|on| (entry, on)));
    }
    let seen_since = |entry: &Entry| latest.get(entry.person.as_str()).is_some_and(|last| *last > entry.started);
    let unsettled = asked.into_iter().filter(|(entry, _)| !seen_since(entry));
    let mut list: Vec<Due> =
        unsettled.map(|(entry, on)| Due { person: entry.person.clone(), visit: entry.id.clone(), on }).collect();
    sorted::by_key(&mut list, |due| due.on);
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::answer::Answer;
    use crate::capture::decision;
    use crate::capture::visit::Visit;
    use time::macros::date;

    const NOON: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
    const TODAY: Date = date!(2026 - 03 - 02);

    fn visit(id: &str, person: &str, days_ago: i64, action: &str, on: Option<Date>) -> Visit {
        let at = Moment { unix_ms: NOON.unix_ms - days_ago * 86_400_000, ..NOON };
        let mut visit = Visit::begin(id, person, "sideline", at, "test");
        let record = visit.record_mut(decision::SLOT, at);
        record.answers.set("action", Some(Answer::One(action.into())));
        record.answers.set("retest_on", on.map(Answer::Day));
        visit.closed = Some(at);
        visit
    }

    fn people_due(visits: &[Visit]) -> Vec<String> {
        let entries: Vec<Entry> = visits.iter().map(Entry::of).collect();
        list(&entries, TODAY).into_iter().map(|due| due.person).collect()
    }

    #[test]
    fn a_day_that_has_come_is_due_and_the_longest_overdue_stands_first() {
        let visits = [
            visit("a", "today", 7, "retest", Some(TODAY)),
            visit("b", "overdue", 9, "retest", Some(date!(2026 - 02 - 28))),
            visit("c", "tomorrow", 7, "retest", Some(date!(2026 - 03 - 03))),
        ];
        assert_eq!(people_due(&visits), ["overdue", "today"]);
    }

    #[test]
    fn a_later_visit_settles_it_and_another_decision_was_never_one() {
        let advised = visit("a", "advised", 7, "advice", Some(TODAY));
        let without_a_day = visit("b", "no day", 7, "retest", None);
        let asked = visit("c", "seen since", 7, "retest", Some(TODAY));
        let open = Visit { closed: None, ..visit("d", "seen since", 1, "", None) };
        assert!(people_due(&[advised, without_a_day, asked, open]).is_empty());
    }

    #[test]
    fn an_open_visit_has_decided_nothing_yet() {
        let open = Visit { closed: None, ..visit("a", "open", 7, "retest", Some(TODAY)) };
        assert!(people_due(&[open]).is_empty());
    }
}
