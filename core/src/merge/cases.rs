//! The visits of an archive, each with the person it is of.

use std::collections::BTreeMap;

use super::Joined;
use crate::archive::Archive;
use crate::capture::visit::Person;
use crate::export::Case;

/// Every visit with its person, in order. Of entries that were joined the one that stands for the others is the person of
/// all their visits. A visit of nobody is left out; an archive that was read has none.
#[must_use]
pub fn cases(archive: &Archive) -> Vec<Case<'_>> {
    let people: BTreeMap<&str, &Person> = archive.people.iter().map(|person| (person.id.as_str(), person)).collect();
    let joined = Joined::of(&archive.people, &archive.joins);
    let of = |id: &str| people.get(joined.stands(id)).copied();
    archive.visits.iter().filter_map(|visit| Some(Case { person: of(&visit.person)?, visit })).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Moment;
    use crate::capture::ledger::Join;
    use crate::capture::unread::Unread;
    use crate::demo;

    #[test]
    fn joined_entries_are_one_person_until_the_join_is_undone() {
        let made = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
        let (people, visits) = demo::people(made);
        let mut archive = Archive::of(people, visits);
        let mut other = archive.people[0].clone();
        other.id = "other".to_owned();
        let mut visit = archive.visits.iter().find(|visit| visit.person == archive.people[0].id).expect("one").clone();
        visit.id = "visit of the other".to_owned();
        visit.person = "other".to_owned();
        archive.people.push(other);
        archive.visits.push(visit);
        let last = |archive: &Archive| cases(archive).last().map(|case| case.person.id.clone());
        assert_eq!(cases(&archive).len(), archive.visits.len());
        assert_eq!(last(&archive).as_deref(), Some("other"));
        let keep = archive.people[0].id.clone();
        let join = Join { id: "j".into(), keep, other: "other".into(), made, undone: None, unread: Unread::default() };
        archive.joins.push(join);
        assert_eq!(last(&archive), Some(archive.people[0].id.clone()));
        archive.joins[0].undone = Some(made);
        assert_eq!(last(&archive).as_deref(), Some("other"));
        archive.people.pop();
        archive.joins.clear();
        assert_eq!(cases(&archive).len(), archive.visits.len() - 1);
    }
}
