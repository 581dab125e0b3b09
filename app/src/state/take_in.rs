//! Taking in: what is here, for the comparison, and the rows that come of it, written all or none.

use leptos::prelude::*;
use sidelight_core::capture::ledger::VisitRef;
use sidelight_core::merge::Here;
use sidelight_worker::{RowHead, RowKind};

use super::{App, ELSEWHERE, Read, ledger, routine_key};
use crate::storage::{Change, Key, Kind};
use crate::words;

impl App {
    /// What is here. Of closed visits it names the digests only, so that ten thousand need not be read.
    #[must_use]
    pub fn here(self) -> Here {
        let (mut closed, mut open) = (Vec::new(), Vec::new());
        // What cannot be read is not here: a file that has it brings it back.
        let damaged = self.damaged.get_untracked();
        let readable = self.rows.get_untracked().into_iter().filter(|one| !damaged.contains(&one.place()));
        let mut people = self.everyone.get_untracked();
        people.retain(|person| !damaged.contains(&Key::new(Kind::Person, &person.id)));
        for one in readable {
            match (one.entry.closed, one.entry.sha256) {
                (Some(_), Some(sha256)) => closed.push(VisitRef { id: one.entry.id, sha256 }),
                (Some(_), None) => {}
                (None, _) => {
                    let read = untrack(|| self.read_of(&one.key));
                    open.extend(read.as_ref().and_then(Read::visit).cloned());
                }
            }
        }
        let ledger = self.ledger.get_untracked();
        Here {
            people,
            routines: self.routines.get_untracked(),
            addenda: self.addenda.get_untracked(),
            receipts: ledger.receipts,
            joins: ledger.joins,
            tombstones: ledger.erased,
            closed,
            open,
        }
    }

    /// Writes these rows, whose bytes stand one behind the other, and reads everything anew.
    pub async fn keep_taken(self, rows: Vec<RowHead>, bytes: &[u8]) -> Result<(), String> {
        if self.elsewhere.get_untracked() {
            return Err(words::of(ELSEWHERE).to_string());
        }
        if rows.is_empty() {
            return Ok(());
        }
        let changes = changes(rows, bytes).ok_or(say!("The rows are not whole, so nothing was written. Try again."))?;
        let writer = self.writer.get_value();
        writer.close(changes).await.map_err(|error| error.to_string())?;
        // Locked meanwhile, everything is read anew when it is unlocked.
        if !self.rows.is_disposed() {
            // The visit in hand may be one of them; it is read anew with the others. Had nothing been written, it would
            // still be in hand.
            self.put_away();
            self.load().await;
        }
        Ok(())
    }
}

fn changes(rows: Vec<RowHead>, bytes: &[u8]) -> Option<Vec<Change>> {
    let mut rest = bytes;
    let mut changes = Vec::with_capacity(rows.len());
    for row in rows {
        let key = place(row.kind, &row.key);
        let Some(length) = row.length else {
            changes.push(Change::Delete(key));
            continue;
        };
        let (own, behind) = rest.split_at_checked(length)?;
        rest = behind;
        changes.push(match row.person {
            Some(person) => Change::put_of(&person, key, own.to_vec()),
            None => Change::put(key, own.to_vec()),
        });
    }
    rest.is_empty().then_some(changes)
}

fn place(kind: RowKind, key: &str) -> Key {
    match kind {
        RowKind::Person => Key::new(Kind::Person, key),
        RowKind::Visit => Key::new(Kind::Visit, key),
        RowKind::Draft => Key::new(Kind::Draft, key),
        RowKind::Entry => Key::new(Kind::Entry, key),
        RowKind::Addendum => Key::new(Kind::Addendum, key),
        RowKind::Routine => routine_key(key),
        RowKind::Receipt => ledger::receipt_key(key),
        RowKind::Join => ledger::join_key(key),
        RowKind::Erased => ledger::erased_key(key),
    }
}
