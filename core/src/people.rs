//! The people who were seen, as a list that can be searched.

use std::collections::BTreeMap;

use crate::calendar::Moment;
use crate::capture::entry::Entry;
use crate::capture::visit::Person;
use crate::merge::Joined;
use crate::sorted;

/// One line of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The person, by the entry that stands for those joined with it.
    pub person: Person,
    /// What else the person is called in those, each name once.
    pub also: Vec<String>,
    /// How many visits are kept, open ones too.
    pub visits: usize,
    /// When the latest was begun.
    pub last: Option<Moment>,
}

/// People one of whose codes or names holds these words, the last seen first; those without a visit last, by name. Joined
/// entries are one person.
#[must_use]
pub fn seen<'a>(
    people: &[Person],
    joined: &Joined,
    entries: impl IntoIterator<Item = &'a Entry>,
    wanted: &str,
) -> Vec<Seen> {
    let mut own: BTreeMap<&str, (usize, Moment)> = BTreeMap::new();
    for entry in entries {
        let (count, last) = own.entry(joined.stands(&entry.person)).or_insert((0, entry.started));
        (*count, *last) = (*count + 1, entry.started.max(*last));
    }
    let mut others: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for person in people.iter().filter(|person| !joined.is_standing(&person.id)) {
        others.entry(joined.stands(&person.id)).or_default().push(&person.label);
    }
    let wanted = wanted.trim().to_lowercase();
    let fits = |label: &str| label.to_lowercase().contains(&wanted);
    let line = |person: &Person| {
        let names = others.get(person.id.as_str()).map(Vec::as_slice).unwrap_or_default();
        if !fits(&person.label) && !names.iter().any(|name| fits(name)) {
            return None;
        }
        let also = sorted::set(names.iter().copied().filter(|name| *name != person.label));
        let own = own.get(person.id.as_str());
        Some(Seen {
            person: person.clone(),
            also: also.into_iter().map(str::to_string).collect(),
            visits: own.map_or(0, |(count, _)| *count),
            last: own.map(|(_, last)| *last),
        })
    };
    let mut list: Vec<Seen> = people.iter().filter(|person| joined.is_standing(&person.id)).filter_map(line).collect();
    sorted::by(&mut list, |a, b| b.last.cmp(&a.last).then_with(|| a.person.label.cmp(&b.person.label)));
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    #[test]
    fn the_last_seen_stands_first_and_the_search_ignores_case() {
        let (mut people, visits) = demo::people(NOW);
        let entries: Vec<Entry> = visits.iter().map(Entry::of).collect();
        people.push(Person { id: "nobody".into(), label: "A-00".into(), ..people[0].clone() });
        let labels = |wanted: &str| -> Vec<String> {
            seen(&people, &Joined::default(), &entries, wanted).into_iter().map(|seen| seen.person.label).collect()
        };
        assert_eq!(labels("").first().map(String::as_str), Some("R-21"));
        assert_eq!(labels("").last().map(String::as_str), Some("A-00"), "nobody's visit is not the latest");
        assert_eq!(labels(" n-1 "), ["N-14"]);
        assert!(labels("zz").is_empty());
        assert_eq!(seen(&people, &Joined::default(), &entries, "n-14")[0].visits, 4);
    }

    #[test]
    fn joined_entries_are_one_line_found_by_either_name() {
        let (mut people, visits) = demo::people(NOW);
        let mut entries: Vec<Entry> = visits.iter().map(Entry::of).collect();
        people.push(Person { id: "twin".into(), label: "Twin".into(), ..people[0].clone() });
        entries.push(Entry { person: "twin".into(), started: NOW, ..entries[0].clone() });
        let join = crate::merge::join("j".into(), &people[0], &Person { born: None, ..people[6].clone() }, NOW);
        let joined = Joined::of(&people, &[join]);
        let all = seen(&people, &joined, &entries, "");
        assert_eq!((all.len(), all.iter().map(|one| one.visits).sum::<usize>()), (people.len() - 1, entries.len()));
        assert_eq!(all[0].person.id, people[0].id, "seen last by the visit of the other");
        assert_eq!(
            (seen(&people, &joined, &entries, "TWI"), all[0].also.as_slice()),
            (vec![all[0].clone()], &["Twin".to_string()][..])
        );
    }
}
