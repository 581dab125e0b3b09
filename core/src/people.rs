//! The people who were seen, as a list that can be searched.

use crate::calendar::Moment;
use crate::capture::visit::{Person, Visit};

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
pub fn seen(people: &[Person], visits: &[Visit], wanted: &str) -> Vec<Seen> {
    let wanted = wanted.trim().to_lowercase();
    let fits = |person: &&Person| person.label.to_lowercase().contains(&wanted);
    let line = |person: &Person| {
        let own = || visits.iter().filter(|visit| visit.person == person.id);
        Seen { person: person.clone(), visits: own().count(), last: own().map(|visit| visit.started).max() }
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
        people.push(Person { id: "nobody".into(), label: "A-00".into(), ..people[0].clone() });
        let labels = |wanted: &str| -> Vec<String> {
            seen(&people, &visits, wanted).into_iter().map(|seen| seen.person.label).collect()
        };
        assert_eq!(labels("").first().map(String::as_str), Some("R-21"));
        assert_eq!(labels("").last().map(String::as_str), Some("A-00"), "nobody's visit is not the latest");
        assert_eq!(labels(" n-1 "), ["N-14"]);
        assert!(labels("zz").is_empty());
        assert_eq!(seen(&people, &visits, "n-14")[0].visits, 4);
    }
}
