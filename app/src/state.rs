//! The one store of the program: what is known, what is being recorded, and the only place that writes it.

use std::rc::Rc;

use leptos::prelude::*;
use sidelight_core::archive;
use sidelight_core::assess::{Assessment, assess};
use sidelight_core::calendar::Moment;
use sidelight_core::capture::edit::{self, Edit, Undo};
use sidelight_core::capture::record::State;
use sidelight_core::capture::visit::{Person, Visit, edited};
use sidelight_core::change::{self, Changes};
use sidelight_core::flow::{self, Step};
use sidelight_core::routine::own::OwnRoutine;
use sidelight_core::task::Context;

use crate::platform::settings::{self, Settings};
use crate::platform::{clock, ids};
use crate::route::Route;
use crate::storage::writer::{Saving, Writer};
use crate::storage::{Change, Key, Kind, Store};

/// Name and version of this program, written into every visit.
pub const PROGRAM: &str = concat!("Sidelight ", env!("CARGO_PKG_VERSION"));

/// The program's state; a handle that can be copied into any closure.
#[derive(Clone, Copy)]
pub struct App {
    /// Everyone who was examined.
    pub people: RwSignal<Vec<Person>>,
    /// Every visit but the current one.
    pub others: RwSignal<Vec<Visit>>,
    /// Routines of the practice's own, by name.
    pub routines: RwSignal<Vec<OwnRoutine>>,
    /// The visit in hand, open or just closed.
    pub current: RwSignal<Option<Visit>>,
    /// What the visit in hand says; derived, never stored.
    pub assessment: Memo<Option<Assessment>>,
    /// What changed since the visit it is compared with; derived, never stored.
    pub changes: Memo<Option<Changes>>,
    /// The screen in sight.
    pub route: RwSignal<Route>,
    /// One sentence for the user, until the next action.
    pub said: RwSignal<Option<String>>,
    /// Preferences of this device.
    pub settings: RwSignal<Settings>,
    /// Records that could not be read at the start, as sentences.
    pub unreadable: RwSignal<Vec<String>>,
    /// Whether the records have been read.
    pub ready: RwSignal<bool>,
    /// Whether another tab of this browser is recording.
    pub elsewhere: RwSignal<bool>,
    closing: RwSignal<bool>,
    undo: RwSignal<Vec<(String, Undo)>>,
    writer: StoredValue<Writer, LocalStorage>,
}

impl App {
    /// An empty program that writes to `store`. Call it once, at the root.
    #[must_use]
    pub fn new(store: Rc<dyn Store>, settings: Settings) -> App {
        let people = RwSignal::new(Vec::new());
        let current = RwSignal::new(None::<Visit>);
        let others = RwSignal::new(Vec::new());
        let assessment = Memo::new(move |_| {
            current.with(|visit| {
                let visit = visit.as_ref()?;
                people.with(|people| Some(assess(person_of(people, visit)?, visit)))
            })
        });
        let changes = Memo::new(move |_| {
            current.with(|visit| {
                let visit = visit.as_ref()?;
                let said = |person: &Person, assessment: &Assessment| {
                    others.with(|others| change::since_earlier(person, visit, assessment, others))
                };
                people.with(|people| {
                    let person = person_of(people, visit)?;
                    assessment.with(|assessment| said(person, assessment.as_ref()?))
                })
            })
        });
        App {
            people,
            others,
            routines: RwSignal::new(Vec::new()),
            current,
            assessment,
            changes,
            route: RwSignal::new(Route::current()),
            said: RwSignal::new(None),
            settings: RwSignal::new(settings),
            unreadable: RwSignal::new(Vec::new()),
            ready: RwSignal::new(false),
            elsewhere: RwSignal::new(false),
            closing: RwSignal::new(false),
            undo: RwSignal::new(Vec::new()),
            writer: StoredValue::new_local(Writer::new(store)),
        }
    }

    /// The state put into the context at the root.
    #[must_use]
    pub fn get() -> App {
        expect_context::<App>()
    }

    /// Where the latest taps are.
    #[must_use]
    pub fn saving(self) -> ReadSignal<Saving> {
        self.writer.with_value(Writer::state)
    }

    /// Tries a failed write again.
    pub fn retry(self) {
        self.writer.with_value(Writer::retry);
    }

    /// Asks for everything to be flushed to the disk, as when the page is hidden.
    pub fn flush(self) {
        self.writer.with_value(Writer::flush);
    }

    /// Reads everything that is stored. A record that cannot be read is named and left as it is.
    pub async fn load(self, store: Rc<dyn Store>) {
        let mut trouble = Vec::new();
        let mut people = Vec::new();
        let mut visits = Vec::new();
        let mut routines = Vec::new();
        for kind in [Kind::Person, Kind::Visit, Kind::Draft, Kind::Setting] {
            let stored = match store.list(kind).await {
                Ok(stored) => stored,
                Err(error) => {
                    trouble.push(error.to_string());
                    continue;
                }
            };
            for (id, bytes) in stored {
                let read = match kind {
                    Kind::Person => archive::read_person(&bytes).map(|person| people.push(person)),
                    Kind::Setting if !id.starts_with(ROUTINE_KEY) => continue,
                    Kind::Setting => archive::read_routine(&bytes).map(|routine| routines.push(routine)),
                    _ => archive::read_visit(&bytes).map(|visit| visits.push(visit)),
                };
                if let Err(error) = read {
                    trouble.push(format!("A stored record cannot be read and was left as it is. {error}"));
                }
            }
        }
        visits.sort_by_key(|visit| std::cmp::Reverse(visit.started));
        let open = visits.iter().position(|visit| visit.closed.is_none()).map(|at| visits.remove(at));
        self.people.set(people);
        self.others.set(visits);
        self.routines.set(by_name(routines));
        self.current.set(open);
        self.unreadable.set(trouble);
        self.ready.set(true);
    }

    /// Adds or changes a person.
    pub fn keep_person(self, person: Person) {
        if self.elsewhere.get_untracked() {
            return;
        }
        let person = Person { changed: Some(edited(person.changed, now())), ..person };
        let bytes = archive::write_person(&person);
        self.write([Change::Put(Key::new(Kind::Person, &person.id), bytes)]);
        self.people.update(|people| match people.iter_mut().find(|known| known.id == person.id) {
            Some(known) => *known = person,
            None => people.push(person),
        });
    }

    /// Adds or changes a routine of the practice's own.
    pub fn keep_routine(self, routine: OwnRoutine) {
        if self.elsewhere.get_untracked() {
            return;
        }
        let routine = OwnRoutine { changed: Some(edited(routine.changed, now())), ..routine };
        self.write([Change::Put(routine_key(&routine.id), archive::write_routine(&routine))]);
        self.flush();
        self.routines.update(|all| {
            all.retain(|known| known.id != routine.id);
            all.push(routine);
            *all = by_name(std::mem::take(all));
        });
    }

    /// Takes a routine away; visits made with it keep their own list of tasks.
    pub fn delete_routine(self, id: &str) {
        if self.elsewhere.get_untracked() {
            return;
        }
        self.write([Change::Delete(routine_key(id))]);
        self.flush();
        self.routines.update(|all| all.retain(|known| known.id != id));
    }

    /// Begins a visit by a routine's list of tasks and shows its first step. A visit that is open stays open among the others.
    pub fn begin(self, person: &str, routine: &str, plan: Vec<String>) {
        if self.elsewhere.get_untracked() {
            return;
        }
        self.put_away();
        let visit = Visit::begin(&ids::uuid(), person, routine, now(), PROGRAM);
        self.commit(Visit { plan, ..visit });
        self.go(Step::Frame);
    }

    /// Takes a visit in hand again; an open one goes on at its step, a closed one shows its summary.
    pub fn open(self, id: &str) {
        if !self.current.with_untracked(|visit| visit.as_ref().is_some_and(|visit| visit.id == id)) {
            let Some(visit) = self.others.with_untracked(|all| all.iter().find(|v| v.id == id).cloned()) else {
                return;
            };
            self.put_away();
            self.others.update(|all| all.retain(|other| other.id != id));
            self.current.set(Some(visit));
        }
        let step = untrack(|| self.with_context(flow::resume));
        match step {
            Some(_) if self.is_closed_now() => self.show(Route::Step("summary".into())),
            Some(step) => self.go(step),
            None => {}
        }
    }

    /// Whether the visit in hand is closed, read once.
    #[must_use]
    pub fn is_closed_now(self) -> bool {
        untrack(|| self.is_closed())
    }

    /// Whether the visit in hand is closed.
    #[must_use]
    pub fn is_closed(self) -> bool {
        self.current.with(|visit| visit.as_ref().is_some_and(|visit| visit.closed.is_some()))
    }

    /// Changes the visit in hand. The write is issued before the change shows.
    pub fn edit(self, slot: &str, edit: Edit) {
        let Some(mut visit) = self.changeable() else { return };
        let Some(form) = flow::form_of(slot) else { return };
        let typing = matches!(&edit, Edit::Answer(_, Some(sidelight_core::capture::answer::Answer::Text(_))));
        match edit::apply(&mut visit, form, slot, edit, now()) {
            Ok(undo) => {
                self.remember(slot, undo, typing);
                self.said.set(None);
                self.commit(visit);
            }
            Err(refused) => self.said.set(Some(refused.to_string())),
        }
    }

    /// Undoes the last change to this slot.
    pub fn undo(self, slot: &str) {
        let undo = self.undo.try_update(|all| {
            let at = all.iter().rposition(|(of, _)| of == slot)?;
            Some(all.remove(at).1)
        });
        let Some(undo) = undo.flatten() else { return };
        let Some(mut visit) = self.changeable() else { return };
        edit::take_back(&mut visit, undo);
        self.said.set(None);
        self.commit(visit);
    }

    /// Whether a change to this slot can be undone.
    #[must_use]
    pub fn can_undo(self, slot: &str) -> bool {
        self.undo.with(|all| all.iter().any(|(of, _)| of == slot))
    }

    /// Ends a step's record and shows the next step.
    pub fn end(self, step: &Step, state: State) {
        self.mark(&step.slot(), state);
        self.go_on_from(step);
    }

    /// Marks a record as done, skipped or open again; this is not among the changes that "undo" takes back.
    pub fn mark(self, slot: &str, state: State) {
        let Some(mut visit) = self.changeable() else { return };
        let Some(form) = flow::form_of(slot) else { return };
        match edit::apply(&mut visit, form, slot, Edit::State(state), now()) {
            Ok(_) => self.commit(visit),
            Err(refused) => self.said.set(Some(refused.to_string())),
        }
    }

    /// Shows the step behind this one.
    pub fn go_on_from(self, step: &Step) {
        let next = untrack(|| self.with_context(|context| flow::next(context, step)));
        if let Some(next) = next {
            self.go(next);
        }
    }

    /// Shows a step of the visit in hand and remembers it for a restart.
    pub fn go(self, step: Step) {
        let slot = step.slot();
        if let Some(mut visit) = self.changeable().filter(|visit| visit.closed.is_none() && visit.at != slot) {
            visit.at.clone_from(&slot);
            self.commit(visit);
        }
        self.show(Route::Step(slot));
    }

    /// Shows a screen.
    pub fn show(self, route: Route) {
        self.said.set(None);
        route.push();
        self.route.set(route);
    }

    /// Closes the visit in hand: one strict commit, after which it stays as it is.
    pub async fn close(self) {
        let Some(open) = self.changeable().filter(|visit| visit.closed.is_none()) else { return };
        self.closing.set(true);
        let visit = archive::closed(open, now());
        let changes = [
            Change::Put(Key::new(Kind::Visit, &visit.id), archive::write_visit(&visit)),
            Change::Delete(Key::new(Kind::Draft, &visit.id)),
        ];
        let writer = self.writer.get_value();
        let closed = writer.close(changes).await;
        self.closing.set(false);
        match closed {
            Ok(()) => {
                self.undo.set(Vec::new());
                self.current.set(Some(visit));
                self.show(Route::Step("summary".into()));
            }
            Err(error) => self.said.set(Some(error.to_string())),
        }
    }

    /// Takes people and visits in, all or none, and only those not known here.
    pub async fn take_in(self, people: Vec<Person>, visits: Vec<Visit>) -> Result<(usize, usize), String> {
        if self.elsewhere.get_untracked() {
            return Err(
                "Sidelight is recording in another tab. Close that tab, then choose the file again.".to_string()
            );
        }
        let new_people: Vec<Person> = self.people.with_untracked(|known| not_known(people, known, |p| &p.id));
        let known_visits: Vec<Visit> =
            self.others.get_untracked().into_iter().chain(self.current.get_untracked()).collect();
        let new_visits: Vec<Visit> = not_known(visits, &known_visits, |v| &v.id);
        let person = |p: &Person| Change::Put(Key::new(Kind::Person, &p.id), archive::write_person(p));
        let changes: Vec<Change> = new_people.iter().map(person).chain(new_visits.iter().map(put_visit)).collect();
        let counts = (new_people.len(), new_visits.len());
        let writer = self.writer.get_value();
        writer.close(changes).await.map_err(|error| error.to_string())?;
        self.people.update(|known| known.extend(new_people));
        self.others.update(|known| {
            known.extend(new_visits);
            known.sort_by_key(|visit| std::cmp::Reverse(visit.started));
        });
        Ok(counts)
    }

    /// Puts the visit in hand back among the others.
    pub fn put_away(self) {
        let Some(visit) = self.current.get_untracked() else { return };
        self.current.set(None);
        self.undo.set(Vec::new());
        self.others.update(|all| {
            all.push(visit);
            all.sort_by_key(|visit| std::cmp::Reverse(visit.started));
        });
    }

    /// Every visit, the one in hand among them.
    #[must_use]
    pub fn every_visit(self) -> Vec<Visit> {
        self.others.get().into_iter().chain(self.current.get()).collect()
    }

    /// The person of the visit in hand, read once.
    #[must_use]
    pub fn person_now(self) -> Option<Person> {
        untrack(|| self.person())
    }

    /// The person of the visit in hand.
    #[must_use]
    pub fn person(self) -> Option<Person> {
        self.current.with(|visit| {
            let visit = visit.as_ref()?;
            self.people.with(|people| person_of(people, visit).cloned())
        })
    }

    /// Asks core about the visit in hand; `None` when there is none.
    pub fn with_context<T>(self, ask: impl FnOnce(&Context<'_>) -> T) -> Option<T> {
        self.current.with(|visit| {
            let visit = visit.as_ref()?;
            self.people.with(|people| Some(ask(&Context::of(person_of(people, visit)?, visit))))
        })
    }

    /// Changes the preferences of this device and keeps them.
    pub fn set_settings(self, change: impl FnOnce(&mut Settings)) {
        self.settings.update(change);
        self.settings.with_untracked(settings::save);
    }

    /// A copy of the visit in hand to change; `None` while another tab records or the visit is being closed.
    fn changeable(self) -> Option<Visit> {
        if self.elsewhere.get_untracked() || self.closing.get_untracked() {
            return None;
        }
        self.current.get_untracked()
    }

    fn commit(self, visit: Visit) {
        self.write([put_visit(&visit)]);
        self.current.set(Some(visit));
    }

    fn write<const N: usize>(self, changes: [Change; N]) {
        self.writer.with_value(|writer| writer.change(changes));
    }

    fn remember(self, slot: &str, undo: Undo, typing: bool) {
        self.undo.update(|all| {
            // A word is undone as a whole, not letter by letter.
            let goes_on = typing && all.last().is_some_and(|(of, last)| of == slot && last.was_typing());
            if !goes_on {
                all.push((slot.to_string(), undo.typed(typing)));
            }
        });
    }
}

/// The present moment, for core.
#[must_use]
pub fn now() -> Moment {
    let clock::Now(unix_ms, offset_minutes) = clock::now();
    Moment { unix_ms, offset_minutes }
}

fn person_of<'a>(people: &'a [Person], visit: &Visit) -> Option<&'a Person> {
    people.iter().find(|person| person.id == visit.person)
}

/// Keys of routines among the practice's settings begin like this.
const ROUTINE_KEY: &str = "routine-";

fn routine_key(id: &str) -> Key {
    Key::new(Kind::Setting, format!("{ROUTINE_KEY}{id}"))
}

fn by_name(mut routines: Vec<OwnRoutine>) -> Vec<OwnRoutine> {
    routines.sort_by_cached_key(|routine| (routine.title.to_lowercase(), routine.id.clone()));
    routines
}

fn put_visit(visit: &Visit) -> Change {
    let kind = if visit.closed.is_some() { Kind::Visit } else { Kind::Draft };
    Change::Put(Key::new(kind, &visit.id), archive::write_visit(visit))
}

fn not_known<T>(given: Vec<T>, known: &[T], id: impl Fn(&T) -> &String) -> Vec<T> {
    given.into_iter().filter(|new| !known.iter().any(|old| id(old) == id(new))).collect()
}
