//! What taking in files would do, and what to write for it. Everything is decided in core; here it is only carried.

use std::collections::BTreeMap;

use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::entry::Entry;
use sidelight_core::capture::ledger::Receipt;
use sidelight_core::capture::visit::Visit;
use sidelight_core::merge::{self, Choice, Plan, Row, Standing, What};
use sidelight_core::receipt;
use sidelight_worker::{Answer, ErasedHere, Given, Planned, ReceiptGiven, RowHead, RowKind, here};

use super::Done;

pub fn run(bring_back: Vec<String>, give: Option<Given>, bytes: Vec<Vec<u8>>) -> Done {
    let mut bytes = bytes.into_iter();
    let here = bytes.next().unwrap_or_default();
    let here = here::read(&here).map_err(|why| why.to_string())?;
    let mut files = Vec::new();
    for file in bytes {
        files.push(archive::read(&file).map_err(|why| why.to_string())?);
    }
    let labels = labels(&files);
    let choice = Choice { bring_back: bring_back.into_iter().collect() };
    let plan = merge::plan(&here, files);
    let told = merge::told(&plan);
    let mut rows = Rows::default();
    let given = give.map_or_else(
        || plan.receipt("", Moment { unix_ms: 0, offset_minutes: 0 }, &choice),
        |given| {
            plan.rows(&choice).into_iter().for_each(|row| rows.add(row));
            let now = Moment { unix_ms: given.unix_ms, offset_minutes: given.offset_minutes };
            let new = plan.receipt(&given.id, now, &choice);
            // The same files taken in again get the receipt that is here already.
            let known = here.receipts.iter().find(|known| known.digest() == new.digest());
            if known.is_none() && !(new.visits.is_empty() && new.addenda.is_empty()) {
                rows.add(Row::Receipt(new.clone()));
            }
            known.cloned().unwrap_or(new)
        },
    );
    let planned = Planned {
        comes: told.comes,
        stays: told.stays,
        held_back: told.held_back,
        erased: erased(&plan, &labels),
        rows: rows.heads,
        receipt: said(&given),
    };
    Ok((Answer::Planned(planned), vec![rows.bytes]))
}

fn labels(files: &[Archive]) -> BTreeMap<String, String> {
    let people = files.iter().flat_map(|file| &file.people);
    people.map(|person| (person.id.clone(), person.label.clone())).collect()
}

fn erased(plan: &Plan, labels: &BTreeMap<String, String>) -> Vec<ErasedHere> {
    let mut visits: BTreeMap<&str, usize> = BTreeMap::new();
    for line in plan.lines.iter().filter(|line| line.standing == Standing::Erased) {
        let Some(person) = &line.person else { continue };
        *visits.entry(person).or_default() += usize::from(line.what == What::Visit);
    }
    let one = |(person, visits): (&str, usize)| ErasedHere {
        person: person.to_owned(),
        label: labels.get(person).cloned().unwrap_or_default(),
        visits,
    };
    visits.into_iter().map(one).collect()
}

fn said(receipt: &Receipt) -> ReceiptGiven {
    ReceiptGiven {
        words: receipt.words(),
        code: receipt::code(receipt),
        visits: receipt.visits.len(),
        addenda: receipt.addenda.len(),
    }
}

/// Rows one behind the other.
#[derive(Default)]
struct Rows {
    heads: Vec<RowHead>,
    bytes: Vec<u8>,
}

impl Rows {
    fn add(&mut self, row: Row) {
        match row {
            Row::Person(one) => self.put(RowKind::Person, &one.id, Some(&one.id), &archive::write_person(&one)),
            Row::Closed { key, visit } => {
                self.put(RowKind::Visit, &key, Some(&visit.person), &archive::write_visit(&visit));
                self.entry(&key, &visit);
            }
            Row::Open(visit) => {
                self.put(RowKind::Draft, &visit.id, Some(&visit.person), &archive::write_visit(&visit));
                self.entry(&visit.id, &visit);
            }
            Row::NoLongerOpen(id) => self.delete(RowKind::Draft, id),
            Row::Addendum { key, addendum: one } => {
                self.put(RowKind::Addendum, &key, Some(&one.person), &archive::write_addendum(&one));
            }
            Row::Routine(one) => self.put(RowKind::Routine, &one.id, None, &archive::write_routine(&one)),
            Row::Receipt(one) => self.put(RowKind::Receipt, &one.id, None, &archive::write_receipt(&one)),
            Row::Join(one) => self.put(RowKind::Join, &one.id, None, &archive::write_join(&one)),
            Row::NoLongerErased(person) => self.delete(RowKind::Erased, person),
        }
    }

    /// A closed visit's row carries the digest of what it says, also when an earlier version closed it.
    fn entry(&mut self, key: &str, visit: &Visit) {
        let digest = || visit.closed.map(|_| archive::digest(visit));
        let entry = Entry { sha256: visit.sha256.clone().or_else(digest), ..Entry::of(visit) };
        self.put(RowKind::Entry, key, Some(&visit.person), &archive::write_entry(&entry));
    }

    fn put(&mut self, kind: RowKind, key: &str, person: Option<&String>, bytes: &[u8]) {
        let (key, person, length) = (key.to_owned(), person.cloned(), Some(bytes.len()));
        self.heads.push(RowHead { kind, key, person, length });
        self.bytes.extend_from_slice(bytes);
    }

    fn delete(&mut self, kind: RowKind, key: String) {
        self.heads.push(RowHead { kind, key, person: None, length: None });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sidelight_core::capture::ledger::Tombstone;
    use sidelight_core::capture::unread::Unread;
    use sidelight_core::demo;
    use sidelight_core::merge::Here;

    const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };

    fn file() -> Archive {
        let (people, visits) = demo::people(NOW);
        Archive::of(people, visits.into_iter().map(|visit| archive::closed(visit, NOW)).collect())
    }

    fn planned(here: &Here, bring_back: &[&str], give: Option<&str>) -> (Planned, Vec<u8>) {
        let bytes = vec![here::write(here), archive::write_compact(&file())];
        let give = give.map(|id| Given { id: id.into(), unix_ms: NOW.unix_ms, offset_minutes: 60 });
        match run(bring_back.iter().map(|id| (*id).to_owned()).collect(), give, bytes) {
            Ok((Answer::Planned(planned), mut bytes)) => (planned, bytes.remove(0)),
            other => panic!("{other:?}"),
        }
    }

    fn count(planned: &Planned, kind: RowKind) -> usize {
        planned.rows.iter().filter(|row| row.kind == kind).count()
    }

    #[test]
    fn nothing_is_to_be_written_before_it_is_asked_for_and_then_all_of_it() {
        let (plan, bytes) = planned(&Here::default(), &[], None);
        assert!(plan.rows.is_empty() && bytes.is_empty());
        let (taken, bytes) = planned(&Here::default(), &[], Some("q"));
        let (people, visits) = (file().people.len(), file().visits.len());
        assert_eq!(taken.receipt, plan.receipt);
        assert_eq!((taken.receipt.visits, taken.receipt.words.split(' ').count()), (visits, 6));
        let counts =
            [RowKind::Person, RowKind::Visit, RowKind::Entry, RowKind::Receipt].map(|kind| count(&taken, kind));
        assert_eq!(counts, [people, visits, visits, 1]);
        assert_eq!(taken.rows.iter().filter_map(|row| row.length).sum::<usize>(), bytes.len());
        let first = &taken.rows[0];
        let read = archive::read_person(&bytes[..first.length.expect("is written")]).expect("is a person");
        assert_eq!(first.person.as_ref(), Some(&read.id));
    }

    #[test]
    fn the_same_again_writes_nothing_and_gives_the_same_receipt() {
        let (first, _) = planned(&Here::default(), &[], Some("q"));
        let receipt = Receipt::of("q", NOW, receipt::refs(&file().visits), Vec::new());
        let here = Here::of(Archive { receipts: vec![receipt], ..file() }, Vec::new());
        let (again, bytes) = planned(&here, &[], Some("other"));
        assert!(again.rows.is_empty() && bytes.is_empty(), "{:?}", again.rows);
        assert_eq!(again.receipt, first.receipt);
        assert!(again.comes.is_empty() && !again.stays.is_empty());
    }

    #[test]
    fn who_was_erased_is_named_and_comes_back_only_when_asked() {
        let person = file().people[0].clone();
        let stone = Tombstone { person: person.id.clone(), erased: NOW, unread: Unread::default() };
        let here = Here { tombstones: vec![stone], ..Here::default() };
        let own = file().visits.iter().filter(|visit| visit.person == person.id).count();
        let (without, _) = planned(&here, &[], Some("q"));
        assert_eq!(without.erased, [ErasedHere { person: person.id.clone(), label: person.label, visits: own }]);
        assert!(!without.rows.iter().any(|row| row.person.as_ref() == Some(&person.id)));
        let (with, _) = planned(&here, &[&person.id], Some("q"));
        assert_eq!(with.receipt.visits, without.receipt.visits + own);
        assert_eq!(with.rows.iter().filter(|row| row.kind == RowKind::Erased && row.length.is_none()).count(), 1);
    }
}
