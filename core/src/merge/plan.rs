//! What taking in these files would do, before anything is written; and then what to write.
//!
//! Of the visits that are here only ids and digests are needed, so that ten thousand need not be in memory. The time it
//! takes grows with the number of things that arrive, and with what is here no more than to look it up.

use super::closing::{Closings, prevails};
use super::{All, Dated, Join, Latest, Tombstone};
use crate::archive::{Archive, addendum_digest, digest};
use crate::calendar::Moment;
use crate::capture::addendum::Addendum;
use crate::capture::ledger::{Receipt, VisitRef};
use crate::capture::visit::{Person, Visit};
use crate::routine::own::OwnRoutine;
use std::collections::{BTreeMap, BTreeSet};

/// What is on this device.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Here {
    /// Everyone.
    pub people: Vec<Person>,
    /// Routines of the practice's own.
    pub routines: Vec<OwnRoutine>,
    /// Addenda.
    pub addenda: Vec<Addendum>,
    /// Receipts given here.
    pub receipts: Vec<Receipt>,
    /// Joins, undone ones too.
    pub joins: Vec<Join>,
    /// People who were erased here.
    pub tombstones: Vec<Tombstone>,
    /// Closed visits by id and by the digest of what they say ([`digest`]), whether they note it or not.
    pub closed: Vec<VisitRef>,
    /// Visits that are still open.
    pub open: Vec<Visit>,
}

impl Here {
    /// A device that holds this archive and has erased these people.
    #[must_use]
    pub fn of(archive: Archive, tombstones: Vec<Tombstone>) -> Here {
        let (closed, open): (Vec<Visit>, Vec<Visit>) =
            archive.visits.into_iter().partition(|visit| visit.closed.is_some());
        Here {
            people: archive.people,
            routines: archive.routines,
            addenda: archive.addenda,
            receipts: archive.receipts,
            joins: archive.joins,
            tombstones,
            closed: closed.iter().map(|visit| VisitRef { id: visit.id.clone(), sha256: digest(visit) }).collect(),
            open,
        }
    }
}

/// What a thing of a file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// A person.
    Person,
    /// A visit.
    Visit,
    /// An addendum.
    Addendum,
    /// A routine of the practice's own.
    Routine,
    /// A receipt.
    Receipt,
    /// A join.
    Join,
}

/// How a thing of a file stands to what is here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// It is not here yet.
    New,
    /// It is here and says the same.
    Same,
    /// The file's was changed later and takes the place of what is here.
    Later,
    /// What is here was changed later, or is closed already, and stays.
    Earlier,
    /// It is open here and closed in the file: the closed one takes its place.
    Closes,
    /// Something else is here under the same id, and neither may be lost: both are kept.
    Differs,
    /// Its person was erased here; taken in only when asked.
    Erased,
    /// The visit was changed after it was closed; never taken in.
    Damaged,
}

/// One thing of the files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is.
    pub what: What,
    /// Its id.
    pub id: String,
    /// The person it is of, if it is of one.
    pub person: Option<String>,
    /// How it stands to what is here.
    pub standing: Standing,
    /// The first file that holds it, by its place among the files.
    pub file: usize,
}

/// What the user decides before taking in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Choice {
    /// Ids of people who were erased here and are to come back.
    pub bring_back: BTreeSet<String>,
}

/// One thing to write.
#[derive(Debug, Clone, PartialEq)]
pub enum Row {
    /// Keep this person.
    Person(Person),
    /// Keep this closed visit under this key: its id, or when another closing has that, its id and a part of its digest.
    Closed {
        /// The key.
        key: String,
        /// The visit.
        visit: Visit,
    },
    /// Keep this open visit.
    Open(Visit),
    /// Delete the open visit of this id, which arrived closed.
    NoLongerOpen(String),
    /// Keep this addendum under this key, made like that of a visit.
    Addendum {
        /// The key.
        key: String,
        /// The addendum.
        addendum: Addendum,
    },
    /// Keep this routine.
    Routine(OwnRoutine),
    /// Keep this receipt.
    Receipt(Receipt),
    /// Keep this join.
    Join(Join),
    /// Delete the tombstone of this person, who comes back.
    NoLongerErased(String),
}

/// What taking in would do.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// Each thing of the files once, in no order that means anything.
    pub lines: Vec<Line>,
    /// Files that also hold parts which only a newer program can read; these stay in the file.
    pub newer: BTreeSet<usize>,
    rows: Vec<(Option<String>, Row)>,
    /// Closed visits and corrections that are here afterwards, each with whoever must be brought back for it.
    visits: Vec<(Option<String>, VisitRef)>,
    addenda: Vec<(Option<String>, VisitRef)>,
}

impl Plan {
    /// How many things of this kind stand like this.
    #[must_use]
    pub fn count(&self, what: What, standing: Standing) -> usize {
        self.lines.iter().filter(|line| line.what == what && line.standing == standing).count()
    }

    /// What to write, all of it or nothing; empty when everything is here already.
    #[must_use]
    pub fn rows(&self, choice: &Choice) -> Vec<Row> {
        let asked = |person: &Option<String>| person.as_ref().is_none_or(|person| choice.bring_back.contains(person));
        let mut rows: Vec<Row> =
            self.rows.iter().filter(|(erased, _)| asked(erased)).map(|(_, row)| row.clone()).collect();
        let back: BTreeSet<&String> = self
            .rows
            .iter()
            .filter_map(|(erased, _)| erased.as_ref())
            .filter(|id| choice.bring_back.contains(*id))
            .collect();
        rows.extend(back.into_iter().map(|id| Row::NoLongerErased(id.clone())));
        rows
    }

    /// The receipt for the closed visits and corrections of these files that are here once the rows are written. Taken
    /// in again, the same files give the same words.
    #[must_use]
    pub fn receipt(&self, id: &str, issued: Moment, choice: &Choice) -> Receipt {
        let here = |all: &[(Option<String>, VisitRef)]| {
            let asked = |erased: &Option<String>| erased.as_ref().is_none_or(|id| choice.bring_back.contains(id));
            all.iter().filter(|(erased, _)| asked(erased)).map(|(_, line)| line.clone()).collect()
        };
        Receipt::of(id, issued, here(&self.visits), here(&self.addenda))
    }
}

/// Works out what taking in these files would do.
#[must_use]
pub fn plan(here: &Here, files: Vec<Archive>) -> Plan {
    let mut plan = Plan::default();
    let arrived = Arrived::of(files, &mut plan);
    let known_people: BTreeSet<&str> = here.people.iter().map(|person| person.id.as_str()).collect();
    let erased: BTreeSet<&str> = here
        .tombstones
        .iter()
        .map(|stone| stone.person.as_str())
        .filter(|person| !known_people.contains(person))
        .collect();
    let first = arrived.first;

    let mut dated = Compared { plan: &mut plan, first: &first, erased: &erased };
    dated.all(What::Person, &here.people, arrived.people, |person| Some(person.id.clone()), Row::Person);
    dated.all(What::Routine, &here.routines, arrived.routines, |_| None, Row::Routine);
    dated.all(What::Receipt, &here.receipts, arrived.receipts, |_| None, Row::Receipt);
    dated.all(What::Join, &here.joins, arrived.joins, |_| None, Row::Join);
    dated.visits(here, arrived.visits);
    dated.addenda(here, arrived.addenda);
    plan
}

/// Everything that arrives, merged, and which file had it first.
#[derive(Default)]
struct Arrived {
    people: Latest<Person>,
    routines: Latest<OwnRoutine>,
    receipts: Latest<Receipt>,
    joins: Latest<Join>,
    addenda: All,
    visits: Closings,
    first: BTreeMap<(What, String), usize>,
}

impl Arrived {
    fn of(files: Vec<Archive>, plan: &mut Plan) -> Arrived {
        let mut arrived = Arrived::default();
        for (file, archive) in files.into_iter().enumerate() {
            if !archive.unread.0.is_empty() {
                plan.newer.insert(file);
            }
            arrived.take(file, archive, plan);
        }
        arrived
    }

    fn take(&mut self, file: usize, archive: Archive, plan: &mut Plan) {
        for person in archive.people {
            self.note(What::Person, &person.id, file);
            self.people.take(person);
        }
        for routine in archive.routines {
            self.note(What::Routine, &routine.id, file);
            self.routines.take(routine);
        }
        for receipt in archive.receipts {
            self.note(What::Receipt, &receipt.id, file);
            self.receipts.take(receipt);
        }
        for join in archive.joins {
            self.note(What::Join, &join.id, file);
            self.joins.take(join);
        }
        for addendum in archive.addenda {
            self.note(What::Addendum, &addendum.id, file);
            self.addenda.take(addendum);
        }
        for visit in archive.visits {
            let said = visit.closed.is_some().then(|| digest(&visit));
            if visit.sha256.is_some() && visit.sha256 != said {
                let (id, person) = (visit.id, Some(visit.person));
                plan.lines.push(Line { what: What::Visit, id, person, standing: Standing::Damaged, file });
                continue;
            }
            self.note(What::Visit, &visit.id, file);
            self.visits.take_known(visit, said);
        }
    }

    fn note(&mut self, what: What, id: &str, file: usize) {
        self.first.entry((what, id.to_string())).or_insert(file);
    }
}

/// Compares what arrived with what is here, and notes it in the plan.
struct Compared<'p> {
    plan: &'p mut Plan,
    first: &'p BTreeMap<(What, String), usize>,
    erased: &'p BTreeSet<&'p str>,
}

impl Compared<'_> {
    /// Things of which the later one stays.
    fn all<T: Dated + PartialEq>(
        &mut self,
        what: What,
        here: &[T],
        arrived: Latest<T>,
        person: fn(&T) -> Option<String>,
        row: fn(T) -> Row,
    ) {
        let here: BTreeMap<&str, &T> = here.iter().map(|thing| (thing.id(), thing)).collect();
        for thing in arrived.all() {
            let standing = match here.get(thing.id()) {
                None => Standing::New,
                Some(known) if **known == thing => Standing::Same,
                Some(known) if thing.prevails(known) => Standing::Later,
                Some(_) => Standing::Earlier,
            };
            let id = thing.id().to_string();
            self.line(what, &id, person(&thing), standing, || vec![row(thing)]);
        }
    }

    fn visits(&mut self, here: &Here, arrived: Closings) {
        let mut closed: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for known in &here.closed {
            closed.entry(known.id.clone()).or_default().insert(known.sha256.clone());
        }
        let open: BTreeMap<&str, &Visit> = here.open.iter().map(|visit| (visit.id.as_str(), visit)).collect();
        for (visit, said) in arrived.known() {
            let (id, person) = (visit.id.clone(), Some(visit.person.clone()));
            let known = open.get(id.as_str()).copied();
            let Some(said) = said else {
                let standing = match known {
                    _ if closed.contains_key(&id) => Standing::Earlier,
                    None => Standing::New,
                    Some(known) if *known == visit => Standing::Same,
                    Some(known) if prevails(&visit, known) => Standing::Later,
                    Some(_) => Standing::Earlier,
                };
                self.line(What::Visit, &id, person, standing, || vec![Row::Open(visit)]);
                continue;
            };
            let others = closed.get(&id).map_or(0, BTreeSet::len);
            let standing = match (others, known) {
                _ if closed.get(&id).is_some_and(|all| all.contains(&said)) => Standing::Same,
                (0, None) => Standing::New,
                (0, Some(_)) => Standing::Closes,
                _ => Standing::Differs,
            };
            let key = key(&id, &said, others);
            let line = VisitRef { id: id.clone(), sha256: said.clone() };
            let written = self.line(What::Visit, &id, person, standing, || {
                let gone = (standing == Standing::Closes).then(|| Row::NoLongerOpen(visit.id.clone()));
                [Row::Closed { key, visit }].into_iter().chain(gone).collect()
            });
            let owner = self.owner_of_last();
            self.plan.visits.push((owner, line));
            if written {
                closed.entry(id).or_default().insert(said);
            }
        }
    }

    fn addenda(&mut self, here: &Here, arrived: All) {
        let mut known: BTreeMap<String, Vec<Addendum>> = BTreeMap::new();
        for addendum in &here.addenda {
            known.entry(addendum.id.clone()).or_default().push(addendum.clone());
        }
        for addendum in arrived.all() {
            let (id, person) = (addendum.id.clone(), Some(addendum.person.clone()));
            let same = known.entry(id.clone()).or_default();
            let others = same.len();
            let standing = match others {
                _ if same.contains(&addendum) => Standing::Same,
                0 => Standing::New,
                _ => Standing::Differs,
            };
            let said = crate::canonical::sha256_hex(&crate::archive::Kept::order(&addendum));
            let key = key(&id, &said, others);
            let line = VisitRef { id: id.clone(), sha256: addendum_digest(&addendum) };
            let row = addendum.clone();
            if self.line(What::Addendum, &id, person, standing, || vec![Row::Addendum { key, addendum: row }]) {
                same.push(addendum);
            }
            let owner = self.owner_of_last();
            self.plan.addenda.push((owner, line));
        }
    }

    /// Who must be brought back for the thing that was noted last.
    fn owner_of_last(&self) -> Option<String> {
        let last = self.plan.lines.last().filter(|line| line.standing == Standing::Erased)?;
        last.person.clone()
    }

    /// Notes a thing, and its rows when it is to be written; says whether it is.
    fn line(
        &mut self,
        what: What,
        id: &str,
        person: Option<String>,
        standing: Standing,
        rows: impl FnOnce() -> Vec<Row>,
    ) -> bool {
        let is_written = match standing {
            Standing::New | Standing::Later | Standing::Closes | Standing::Differs => true,
            Standing::Same | Standing::Earlier | Standing::Erased | Standing::Damaged => false,
        };
        let erased = is_written && person.as_deref().is_some_and(|person| self.erased.contains(person));
        let standing = if erased { Standing::Erased } else { standing };
        let file = self.first.get(&(what, id.to_string())).copied().unwrap_or_default();
        let owner = person.clone().filter(|_| erased);
        if is_written {
            self.plan.rows.extend(rows().into_iter().map(|row| (owner.clone(), row)));
        }
        self.plan.lines.push(Line { what, id: id.to_string(), person, standing, file });
        is_written
    }
}

/// The key of one of several that have the same id.
fn key(id: &str, said: &str, others: usize) -> String {
    if others == 0 {
        return id.to_string();
    }
    // Ids have at most 64 characters, and so has a key.
    let id: String = id.chars().take(47).collect();
    format!("{id}_{}", &said[..16])
}
