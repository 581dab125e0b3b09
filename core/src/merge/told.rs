//! What taking in would do, in words, before anything is written.

use super::plan::{Plan, Standing, What};

/// The sentences, one a kind of thing, by what they are for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Told {
    /// What is written.
    pub comes: Vec<String>,
    /// What is here already, or stays as it is here.
    pub stays: Vec<String>,
    /// What is not taken in unasked, or never.
    pub held_back: Vec<String>,
}

/// Tells a plan.
#[must_use]
pub fn told(plan: &Plan) -> Told {
    let mut told = Told::default();
    for (what, standing, one, many) in SENTENCES {
        let said = match plan.count(*what, *standing) {
            0 => continue,
            1 => (*one).to_string(),
            count => many.replace('#', &count.to_string()),
        };
        match standing {
            Standing::New | Standing::Later | Standing::Closes | Standing::Differs => told.comes.push(said),
            Standing::Same | Standing::Earlier => told.stays.push(said),
            Standing::Erased | Standing::Damaged => told.held_back.push(said),
        }
    }
    told
}

/// For one thing and for several. What is not listed says nothing to a reader: a receipt that is here already.
#[rustfmt::skip]
const SENTENCES: &[(What, Standing, &str, &str)] = &[
    (What::Person, Standing::New, "1 new person", "# new people"),
    (What::Person, Standing::Later, "1 person with newer details", "# people with newer details"),
    (What::Visit, Standing::New, "1 new visit", "# new visits"),
    (What::Visit, Standing::Closes, "1 visit that is still open here and was closed since", "# visits that are still open here and were closed since"),
    (What::Visit, Standing::Later, "1 open visit that has gone on", "# open visits that have gone on"),
    (What::Visit, Standing::Differs, "1 visit that was closed twice and says different things: both are kept", "# visits that were closed twice and say different things: both are kept"),
    (What::Addendum, Standing::New, "1 new correction", "# new corrections"),
    (What::Addendum, Standing::Differs, "1 correction that says something else than the one here: both are kept", "# corrections that say something else than those here: both are kept"),
    (What::Routine, Standing::New, "1 new routine", "# new routines"),
    (What::Routine, Standing::Later, "1 routine that was changed", "# routines that were changed"),
    (What::Receipt, Standing::New, "1 receipt given elsewhere", "# receipts given elsewhere"),
    (What::Join, Standing::New, "1 join of two entries of a person", "# joins of two entries of a person"),
    (What::Join, Standing::Later, "1 join that was undone", "# joins that were undone"),
    (What::Person, Standing::Same, "1 person is here already", "# people are here already"),
    (What::Person, Standing::Earlier, "1 person has newer details here, which stay", "# people have newer details here, which stay"),
    (What::Visit, Standing::Same, "1 visit is here already", "# visits are here already"),
    (What::Visit, Standing::Earlier, "1 open visit is further on here and stays", "# open visits are further on here and stay"),
    (What::Addendum, Standing::Same, "1 correction is here already", "# corrections are here already"),
    (What::Routine, Standing::Same, "1 routine is here already", "# routines are here already"),
    (What::Routine, Standing::Earlier, "1 routine was changed later here and stays", "# routines were changed later here and stay"),
    (What::Person, Standing::Erased, "1 person was erased here before", "# people were erased here before"),
    (What::Visit, Standing::Erased, "1 visit is of somebody who was erased here", "# visits are of people who were erased here"),
    (What::Addendum, Standing::Erased, "1 correction is of somebody who was erased here", "# corrections are of people who were erased here"),
    (What::Visit, Standing::Damaged, "1 visit was changed after it was closed and is never taken in. Find out where the file comes from", "# visits were changed after they were closed and are never taken in. Find out where the file comes from"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::archive::{self, Archive};
    use crate::calendar::Moment;
    use crate::demo;
    use crate::merge::{Choice, Here, Tombstone, plan};
    use crate::receipt;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn file() -> Archive {
        let (people, visits) = demo::people(NOW);
        let visits = visits.into_iter().map(|visit| archive::closed(visit, NOW)).collect();
        Archive::of(people, visits)
    }

    fn erased(person: &str) -> Vec<Tombstone> {
        vec![Tombstone { person: person.into(), erased: NOW, unread: crate::capture::unread::Unread::default() }]
    }

    #[test]
    fn an_empty_device_gets_everything_and_a_second_time_nothing() {
        let first = plan(&Here::default(), vec![file()]);
        let (people, visits) = (file().people.len(), file().visits.len());
        assert_eq!(told(&first).comes, [format!("{people} new people"), format!("{visits} new visits")]);
        assert!(told(&first).stays.is_empty() && told(&first).held_back.is_empty());
        let again = plan(&Here::of(file(), Vec::new()), vec![file(), file()]);
        let stays = [format!("{people} people are here already"), format!("{visits} visits are here already")];
        assert_eq!(told(&again).stays, stays);
        assert!(told(&again).comes.is_empty());
        let choice = Choice::default();
        assert_eq!(first.receipt("a", NOW, &choice).words(), again.receipt("b", NOW, &choice).words());
        assert_eq!(first.receipt("a", NOW, &choice).visits, receipt::refs(&file().visits));
    }

    #[test]
    fn who_was_erased_and_what_was_changed_is_held_back_and_not_on_the_receipt() {
        let mut changed = file();
        let person = changed.people[0].id.clone();
        let of_person = changed.visits.iter().filter(|visit| visit.person == person).count();
        let other = changed.visits.iter().position(|visit| visit.person != person).expect("there are others");
        changed.visits[other].program = "changed".into();
        let all = changed.visits.len();
        let plan = plan(&Here { tombstones: erased(&person), ..Here::default() }, vec![changed]);
        let said = told(&plan).held_back.join("; ");
        assert!(said.contains("1 person was erased here before"), "{said}");
        assert!(said.contains("1 visit was changed after it was closed"), "{said}");
        assert_eq!(plan.receipt("a", NOW, &Choice::default()).visits.len(), all - of_person - 1);
        let back = Choice { bring_back: [person].into() };
        assert_eq!(plan.receipt("a", NOW, &back).visits.len(), all - 1);
    }
}
