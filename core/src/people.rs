//! The people who were seen, as a list that can be searched.

use std::collections::BTreeMap;

use crate::calendar::Moment;
use crate::capture::entry::Entry;
use crate::capture::visit::Person;

/// One line of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The person.
    pub person: Person,
    /// How many visits are kept, open ones too.
    pub visits: usize,
    /// When the latest was begun.
    pub last: Option<Moment>,
}

/// People whose code or name holds these words, the last seen first; those without a visit last, by name.
#[must_use]
pub fn seen<'a>(people: &[Person], entries: impl IntoIterator<Item = &'a Entry>, wanted: &str) -> Vec<Seen> {
    let mut own: BTreeMap<&str, (usize, Moment)> = BTreeMap::new();
    for entry in entries {
        let (count, last) = own.entry(&entry.person).or_insert((0, entry.started));
        (*count, *last) = (*count + 1, entry.started.max(*last));
    }
    let wanted = wanted.trim().to_lowercase();
    let fits = |person: &&Person| person.label.to_lowercase().contains(&wanted);
    let line = |person: &Person| {
        let own = own.get(person.id.as_str());
        Seen { person: person.clone(), visits: own.map_or(0, |(count, _)| *count), last: own.map(|(_, last)| *last) }
    };
    let mut list: Vec<Seen> = people.iter().filter(fits).map(line).collect();
    list.sort_by(|a, b| b.last.cmp(&a.last).then_with(|| a.person.label.cmp(&b.person.label)));
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
            seen(&people, &entries, wanted).into_iter().map(|seen| seen.person.label).collect()
        };
        assert_eq!(labels("").first().map(String::as_str), Some("R-21"));
        assert_eq!(labels("").last().map(String::as_str), Some("A-00"), "nobody's visit is not the latest");
        assert_eq!(labels(" n-1 "), ["N-14"]);
        assert!(labels("zz").is_empty());
        assert_eq!(seen(&people, &entries, "n-14")[0].visits, 4);
    }
}
