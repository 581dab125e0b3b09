//! Laws of merging, over archives as odd as they come: the same twice, in any order, grouped in any way; a plan does what
//! merging does; nothing closed is ever lost.

use std::collections::{BTreeMap, BTreeSet};

use sidelight_core::archive::{self, Archive};
use sidelight_core::calendar::{Born, Moment};
use sidelight_core::capture::addendum::Addendum;
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::ledger::{Join, Receipt, Tombstone, VisitRef};
use sidelight_core::capture::record::State;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::merge::{Choice, Here, Row, Standing, What, merge, plan};
use sidelight_core::routine::own::OwnRoutine;

use crate::dice::Dice;
use crate::odd_visit::{Oddness, odd};

/// Archives that the laws are tried on.
const ARCHIVES: u64 = 10_000;

/// An archive of a few people and visits whose ids and moments meet those of other archives often.
pub fn random(seed: u64) -> Archive {
    let mut dice = Dice::new(seed);
    let mut archive = Archive::default();
    let many = dice.pick(&[0, 1, 3, 6]);
    for _ in 0..many {
        let thing = person(&mut dice);
        put(&mut archive.people, thing, |person| person.id.clone());
        let thing = routine(&mut dice);
        put(&mut archive.routines, thing, |routine| routine.id.clone());
        let thing = receipt(&mut dice);
        put(&mut archive.receipts, thing, |receipt| receipt.id.clone());
        let thing = join(&mut dice);
        put(&mut archive.joins, thing, |join| join.id.clone());
    }
    let people: Vec<String> = archive.people.iter().map(|person| person.id.clone()).collect();
    let mut seen = BTreeMap::new();
    for _ in 0..many * 2 {
        let thing = visit(&mut dice);
        let said = thing.closed.map(|_| archive::digest(&thing));
        // A file has a visit once while it is open, and its closings when they differ.
        let before: &mut Vec<Option<String>> = seen.entry(thing.id.clone()).or_default();
        let fits =
            before.is_empty() || (said.is_some() && before.iter().all(|other| other.is_some() && *other != said));
        if fits && people.contains(&thing.person) {
            before.push(said);
            archive.visits.push(thing);
        }
        let thing = addendum(&mut dice);
        if people.contains(&thing.person) && !archive.addenda.contains(&thing) {
            archive.addenda.push(thing);
        }
    }
    archive.unread = unread(&mut dice);
    archive
}

fn put<T>(list: &mut Vec<T>, thing: T, id: fn(&T) -> String) {
    if list.iter().all(|known| id(known) != id(&thing)) {
        list.push(thing);
    }
}

fn id(dice: &mut Dice, kind: &str) -> String {
    format!("{kind}{}", dice.below(5))
}

fn moment(dice: &mut Dice) -> Moment {
    // Some clocks are set ten years back.
    let years_back = dice.pick(&[0, 0, 0, 10]);
    let unix_ms = 1_772_463_128_000 - years_back * 31_557_600_000 + dice.below(4) as i64;
    Moment { unix_ms, offset_minutes: dice.pick(&[0, 60, -210]) }
}

fn unread(dice: &mut Dice) -> Unread {
    let text = dice.pick(&["1", "1.0", "{\"a\":[1.50]}", "{\"a\":1,\"a\":2}", "1e999"]);
    Unread(if dice.chance(20) { vec![("/of_a_newer_program".into(), text.into())] } else { Vec::new() })
}

fn some<T>(dice: &mut Dice, make: fn(&mut Dice) -> T) -> Option<T> {
    dice.chance(60).then(|| make(dice))
}

fn person(dice: &mut Dice) -> Person {
    Person {
        id: id(dice, "p"),
        label: dice.pick(&["R-21", "r-21", "Zoë", ""]).into(),
        born: some(dice, |dice| Born::Year(2012 + dice.below(2) as i32)),
        invented: true,
        changed: some(dice, moment),
        unread: unread(dice),
    }
}

fn routine(dice: &mut Dice) -> OwnRoutine {
    let tasks = vec![dice.pick(&["saccade", "pursuit", "of_a_newer_program"]).into()];
    OwnRoutine { id: id(dice, "r"), title: "Monday".into(), tasks, changed: some(dice, moment), unread: unread(dice) }
}

fn receipt(dice: &mut Dice) -> Receipt {
    let visits = (0..dice.below(3)).map(|_| VisitRef { id: id(dice, "v"), sha256: dice.pick(&["a", "b"]).repeat(64) });
    let visits = visits.collect();
    let addenda = (0..dice.below(2)).map(|_| VisitRef { id: id(dice, "a"), sha256: "c".repeat(64) }).collect();
    Receipt { id: id(dice, "q"), issued: moment(dice), visits, addenda, unread: unread(dice) }
}

fn join(dice: &mut Dice) -> Join {
    let (keep, other) = (id(dice, "p"), id(dice, "p"));
    Join { id: id(dice, "j"), keep, other, made: moment(dice), undone: some(dice, moment), unread: unread(dice) }
}

fn addendum(dice: &mut Dice) -> Addendum {
    let (id, visit) = (id(dice, "a"), id(dice, "v"));
    let person = owner(&visit);
    let text = dice.pick(&["Left, not right.", "An addition."]).into();
    Addendum { id, visit, person, written: moment(dice), text, program: String::new(), unread: unread(dice) }
}

/// A visit belongs to one person for ever.
fn owner(visit: &str) -> String {
    visit.replace('v', "p")
}

fn visit(dice: &mut Dice) -> Visit {
    let id = id(dice, "v");
    let started = moment(dice);
    let mut visit = Visit::begin(&id, &owner(&id), "sideline", started, "test");
    for slot in ["near_point", "saccade"] {
        if dice.chance(60) {
            let at = moment(dice);
            let record = visit.record_mut(slot, at);
            record.answers.set("note", some(dice, |dice| Answer::Text(dice.pick(&["a", "b"]).into())));
            record.state = dice.pick(&[State::Open, State::Done, State::NotDone(String::new())].each_ref()).clone();
            record.unread = unread(dice);
        }
    }
    visit.unread = unread(dice);
    if dice.chance(40) {
        return visit;
    }
    let closed = archive::closed(visit, moment(dice));
    // Older programs noted no digest.
    if dice.chance(30) { Visit { sha256: None, ..closed } } else { closed }
}

/// The same with nothing lost: the ids and digests of what is closed, and addenda.
fn kept(archive: &Archive) -> BTreeSet<String> {
    let closed = archive.visits.iter().filter(|visit| visit.closed.is_some());
    let visits = closed.map(|visit| format!("{} {}", visit.id, archive::digest(visit)));
    let addenda = archive.addenda.iter().map(|addendum| format!("{} {:?}", addendum.id, addendum));
    visits.chain(addenda).collect()
}

#[test]
fn merging_is_the_same_twice_in_any_order_and_in_any_grouping() {
    for seed in (0..ARCHIVES).step_by(3) {
        let [a, b, c] = [0, 1, 2].map(|more| random(seed + more));
        let ab = merge(a.clone(), b.clone());
        assert_eq!(merge(ab.clone(), ab.clone()), ab, "{seed}: twice");
        assert_eq!(merge(ab.clone(), a.clone()), ab, "{seed}: a part again");
        assert_eq!(merge(b.clone(), a.clone()), ab, "{seed}: order");
        let bc = merge(b.clone(), c.clone());
        assert_eq!(merge(ab.clone(), c.clone()), merge(a.clone(), bc), "{seed}: grouping");
        let all = kept(&merge(ab, c.clone()));
        assert!([a, b, c].iter().all(|each| kept(each).is_subset(&all)), "{seed}: something closed was lost");
    }
}

#[test]
fn what_was_merged_can_be_written_and_read() {
    for seed in (0..ARCHIVES).step_by(20) {
        let merged = merge(random(seed), random(seed + 1));
        for bytes in [archive::write(&merged), archive::write_compact(&merged)] {
            assert_eq!(archive::read(&bytes).as_ref(), Ok(&merged), "{seed}");
        }
    }
}

#[test]
fn whole_visits_merge_by_the_same_laws() {
    for seed in 0..40 {
        let of = |seed: u64| {
            let (person, visit) = odd(seed / 2, Oddness::Anything);
            let visit = Visit { closed: visit.closed.filter(|_| seed.is_multiple_of(2)), ..visit };
            Archive::of(vec![person], vec![visit])
        };
        let (a, b) = (of(seed), of(seed + 1));
        let ab = merge(a.clone(), b.clone());
        assert_eq!(merge(b, a), ab, "{seed}");
        assert_eq!(merge(ab.clone(), ab.clone()), ab, "{seed}");
    }
}

/// A device: its records, and who was erased there.
#[derive(Clone)]
struct Device {
    archive: Archive,
    tombstones: Vec<Tombstone>,
}

impl Device {
    fn here(&self) -> Here {
        Here::of(self.archive.clone(), self.tombstones.clone())
    }

    /// Writes rows as a store does: each under its key, what was there under it is gone.
    fn write(&mut self, rows: Vec<Row>) {
        let archive = &mut self.archive;
        for row in rows {
            match row {
                Row::Person(person) => replace(&mut archive.people, person, |p| p.id.clone()),
                Row::Routine(routine) => replace(&mut archive.routines, routine, |r| r.id.clone()),
                Row::Receipt(receipt) => replace(&mut archive.receipts, receipt, |r| r.id.clone()),
                Row::Join(join) => replace(&mut archive.joins, join, |j| j.id.clone()),
                Row::Closed { key, visit } => {
                    assert!(key.len() <= 64 && (key == visit.id || key.starts_with(&format!("{}_", visit.id))));
                    archive.visits.push(visit);
                }
                Row::Open(visit) => {
                    archive.visits.retain(|known| known.id != visit.id);
                    archive.visits.push(visit);
                }
                Row::NoLongerOpen(id) => archive.visits.retain(|known| known.id != id || known.closed.is_some()),
                Row::Addendum { addendum, .. } => archive.addenda.push(addendum),
                Row::NoLongerErased(person) => self.tombstones.retain(|stone| stone.person != person),
            }
        }
    }

    fn holds(&self) -> Holds {
        holds(self.archive.clone())
    }
}

/// What is held: closed visits by what they say, for two that say the same are one however it is written down; the rest to
/// the letter, without the parts beside the lists, which a store has no place for.
type Holds = (BTreeSet<String>, Archive);

fn holds(archive: Archive) -> Holds {
    let archive = merge(archive, Archive::default());
    let kept = kept(&archive);
    let open = archive.visits.into_iter().filter(|visit| visit.closed.is_none()).collect();
    (kept, Archive { visits: open, unread: Unread::default(), ..archive })
}

fn replace<T>(list: &mut Vec<T>, thing: T, id: fn(&T) -> String) {
    list.retain(|known| id(known) != id(&thing));
    list.push(thing);
}

/// What a device holds in normal form, as its store does.
fn device(seed: u64) -> Device {
    let archive = merge(random(seed), Archive::default());
    Device { archive: Archive { unread: Unread::default(), ..archive }, tombstones: Vec::new() }
}

fn take_in(device: &mut Device, files: &[Archive], choice: &Choice) -> usize {
    let rows = plan(&device.here(), files.to_vec()).rows(choice);
    let count = rows.len();
    device.write(rows);
    count
}

#[test]
fn a_plan_does_what_merging_does_and_the_same_file_again_does_nothing() {
    let choice = Choice::default();
    for seed in (0..ARCHIVES).step_by(3) {
        let before = device(seed);
        let files = [random(seed + 1), random(seed + 2)];
        let expected = merge(merge(before.archive.clone(), files[0].clone()), files[1].clone());
        let expected = holds(expected);

        let mut together = before.clone();
        take_in(&mut together, &files, &choice);
        assert_eq!(together.holds(), expected, "{seed}: together");
        assert_eq!(take_in(&mut together, &files, &choice), 0, "{seed}: again");

        let mut one_by_one = before.clone();
        take_in(&mut one_by_one, &files[1..], &choice);
        take_in(&mut one_by_one, &files[..1], &choice);
        assert_eq!(one_by_one.holds(), expected, "{seed}: one by one, the other way round");
        assert_eq!(take_in(&mut one_by_one, &files[..1], &choice), 0, "{seed}: again");
    }
}

#[test]
fn the_erased_stay_erased_until_they_are_asked_for() {
    let mut brought_back = 0;
    for seed in (0..ARCHIVES).step_by(10) {
        let whole = device(seed);
        let erased = "p1".to_string();
        let without = |archive: &Archive| Archive {
            people: archive.people.iter().filter(|person| person.id != erased).cloned().collect(),
            visits: archive.visits.iter().filter(|visit| visit.person != erased).cloned().collect(),
            addenda: archive.addenda.iter().filter(|addendum| addendum.person != erased).cloned().collect(),
            ..archive.clone()
        };
        let stone = Tombstone { person: erased.clone(), erased: whole_moment(), unread: Unread::default() };
        let before = Device { archive: without(&whole.archive), tombstones: vec![stone] };
        let file = random(seed + 1);

        let mut kept_out = before.clone();
        take_in(&mut kept_out, std::slice::from_ref(&file), &Choice::default());
        let expected = merge(before.archive.clone(), without(&file));
        assert_eq!(kept_out.holds(), holds(expected), "{seed}");
        assert_eq!(kept_out.tombstones.len(), 1);

        let shown = plan(&before.here(), vec![file.clone()]);
        let there = file.people.iter().any(|person| person.id == erased);
        assert_eq!(shown.count(What::Person, Standing::Erased), usize::from(there), "{seed}");

        let mut asked = kept_out.clone();
        take_in(&mut asked, std::slice::from_ref(&file), &Choice { bring_back: [erased.clone()].into() });
        let expected = merge(before.archive.clone(), file);
        assert_eq!(asked.holds(), holds(expected), "{seed}");
        assert_eq!(asked.tombstones.len(), usize::from(!there), "{seed}: who is back is not erased any more");
        brought_back += usize::from(there);
    }
    assert!(brought_back > 100, "only {brought_back} were brought back");
}

fn whole_moment() -> Moment {
    Moment { unix_ms: 1_772_463_128_000, offset_minutes: 0 }
}

#[test]
fn a_visit_changed_after_it_was_closed_is_told_and_never_taken_in() {
    let started = whole_moment();
    let (person, _) = odd(1, Oddness::Valid);
    let visit = archive::closed(Visit::begin("v", &person.id, "sideline", started, "test"), started);
    let changed = Visit { routine: "school".into(), ..visit.clone() };
    let file = Archive::of(vec![person.clone()], vec![changed.clone()]);
    for here in [Archive::default(), Archive::of(vec![person.clone()], vec![visit.clone()])] {
        let here = Here::of(here, Vec::new());
        let plan = plan(&here, vec![Archive::of(vec![person.clone()], vec![]), file.clone()]);
        assert_eq!(plan.count(What::Visit, Standing::Damaged), 1);
        assert_eq!(plan.lines.iter().find(|line| line.what == What::Visit).map(|line| line.file), Some(1));
        assert!(plan.rows(&Choice::default()).iter().all(|row| !matches!(row, Row::Closed { .. })));
    }
    let (rest, damaged) = sidelight_core::merge::without_damaged(file);
    assert_eq!((rest.visits.len(), damaged), (0, vec![changed]));
}

#[test]
fn one_visit_closed_twice_is_kept_twice_and_told() {
    let started = whole_moment();
    let (person, _) = odd(1, Oddness::Valid);
    let open = Visit::begin("v", &person.id, "sideline", started, "test");
    let later = Moment { unix_ms: started.unix_ms + 1, ..started };
    let closings = [started, later].map(|at| archive::closed(open.clone(), at));
    let files: Vec<Archive> =
        closings.iter().map(|visit| Archive::of(vec![person.clone()], vec![visit.clone()])).collect();
    let mut device = Device { archive: Archive::of(vec![person], vec![open]), tombstones: Vec::new() };
    let shown = plan(&device.here(), files.clone());
    assert_eq!(shown.count(What::Visit, Standing::Closes), 1);
    assert_eq!(shown.count(What::Visit, Standing::Differs), 1);
    let keys: BTreeSet<String> = shown
        .rows(&Choice::default())
        .into_iter()
        .filter_map(|row| if let Row::Closed { key, .. } = row { Some(key) } else { None })
        .collect();
    assert_eq!(keys.len(), 2, "each has a key of its own: {keys:?}");
    take_in(&mut device, &files, &Choice::default());
    assert_eq!(device.archive.visits.len(), 2, "and the open one is gone");
}

/// A clock ten years back loses against edits it has not seen, and follows those it has.
#[test]
fn an_edit_by_a_slow_clock_follows_what_it_has_seen() {
    use sidelight_core::capture::visit::edited;
    let right = whole_moment();
    let slow = Moment { unix_ms: right.unix_ms - 10 * 31_557_600_000, ..right };
    let (first, _) = odd(1, Oddness::Valid);
    let by = |label: &str, changed| Person { label: label.into(), changed: Some(changed), ..first.clone() };
    let named = by("named by a right clock", right);
    let unseen = by("changed by a slow clock that had not seen it", edited(None, slow));
    let seen = by("changed by a slow clock that had seen it", edited(named.changed, slow));
    let label = |people: [&Person; 2]| {
        let [a, b] = people.map(|person| Archive::of(vec![person.clone()], vec![]));
        merge(a, b).people.remove(0).label
    };
    assert_eq!(label([&named, &unseen]), named.label);
    assert_eq!(label([&named, &seen]), seen.label);
    assert_eq!(label([&seen, &named]), seen.label);
}

/// Ids are spread so that lookups have no easy order. How long it takes is measured by `cargo site bench`.
#[test]
fn ten_thousand_visits_of_which_half_are_here_are_planned() {
    const COUNT: u64 = 10_000;
    let (person, _) = odd(1, Oddness::Valid);
    let of = |n: u64| {
        let id = format!("v{:016x}", n.wrapping_mul(0x9E37_79B9_7F4A_7C15));
        archive::closed(Visit::begin(&id, &person.id, "sideline", whole_moment(), "test"), whole_moment())
    };
    let whole = Archive::of(vec![person.clone()], (0..COUNT).map(of).collect());
    let half = Archive { visits: whole.visits.iter().step_by(2).cloned().collect(), ..whole.clone() };
    let plan = plan(&Here::of(half, Vec::new()), vec![whole.clone(), whole]);
    assert_eq!(plan.count(What::Visit, Standing::New) as u64, COUNT / 2);
    assert_eq!(plan.count(What::Visit, Standing::Same) as u64, COUNT / 2);
}
