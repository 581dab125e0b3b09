//! The files of the screen, from their choice to the receipt: one thing after the other, each in the second module, so that
//! the page stays alive whatever arrives.

use std::collections::BTreeSet;
use std::sync::Arc;

use leptos::prelude::*;
use sidelight_core::hand_over::Limits;
use sidelight_worker::{Answer, Ask, Given, Opened, Planned, Seal, here};
use zeroize::Zeroizing;

use crate::platform::{file_in, ids, worker};
use crate::state::{App, now};
use crate::words;

/// A file that was chosen.
#[derive(Clone)]
pub struct Arrived {
    /// Its name on this device.
    pub name: String,
    /// What came of it.
    pub is: Is,
}

/// What came of a file.
#[derive(Clone)]
pub enum Is {
    /// It was read.
    Opened {
        /// What is in it.
        opened: Opened,
        /// The archive.
        archive: Arc<Vec<u8>>,
    },
    /// It is sealed by a passphrase that was not typed yet.
    Locked {
        /// The file.
        file: Arc<Vec<u8>>,
        /// Why the passphrase that was typed does not open it.
        why: Option<String>,
    },
    /// It cannot be read, for this reason.
    Refused(String),
}

impl Is {
    /// Why the passphrase that was typed does not open it.
    pub fn why_locked(&self) -> Option<String> {
        match self {
            Is::Locked { why, .. } => why.clone(),
            Is::Opened { .. } | Is::Refused(_) => None,
        }
    }
}

/// What the main button does next.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// There is nothing to do yet.
    Wait,
    /// Writes what is new.
    Write,
    /// Shows the receipt for what is here already.
    Show,
    /// Leaves.
    Done,
}

/// Everything of the screen, to be copied into any closure.
#[derive(Clone, Copy)]
pub struct Intake {
    app: App,
    /// The files in the order they were chosen.
    pub files: RwSignal<Vec<Arrived>>,
    /// What is being done.
    pub busy: RwSignal<Option<String>>,
    /// Why something could not be done.
    pub refused: RwSignal<Option<String>>,
    /// What would come of the files.
    pub plan: RwSignal<Option<Planned>>,
    /// Who is brought back, by id.
    pub back: RwSignal<BTreeSet<String>>,
    /// What came of them.
    pub taken: RwSignal<Option<Planned>>,
    /// The passphrase that was typed, until the files are taken in.
    passphrase: StoredValue<Zeroizing<String>>,
}

impl Intake {
    pub fn new(app: App) -> Intake {
        Intake {
            app,
            files: RwSignal::new(Vec::new()),
            busy: RwSignal::new(None),
            refused: RwSignal::new(None),
            plan: RwSignal::new(None),
            back: RwSignal::new(BTreeSet::new()),
            taken: RwSignal::new(None),
            passphrase: StoredValue::new(Zeroizing::default()),
        }
    }

    /// How many files wait for a passphrase.
    pub fn locked(self) -> usize {
        self.files.with(|files| files.iter().filter(|file| matches!(file.is, Is::Locked { .. })).count())
    }

    /// What the main button does next.
    pub fn next(self) -> Stage {
        if self.busy.with(Option::is_some) {
            return Stage::Wait;
        }
        if self.taken.with(Option::is_some) {
            return Stage::Done;
        }
        let back = self.back.with(|back| !back.is_empty());
        self.plan.with(|plan| match plan {
            Some(plan) if back || !plan.comes.is_empty() => Stage::Write,
            Some(plan) if 0 < plan.receipt.visits + plan.receipt.addenda => Stage::Show,
            Some(_) | None => Stage::Wait,
        })
    }

    /// Begins with other files.
    pub fn begin_anew(self) {
        self.forget();
        self.files.set(Vec::new());
        self.refused.set(None);
        self.plan.set(None);
        self.back.set(BTreeSet::new());
        self.taken.set(None);
    }

    /// Wipes the passphrase; files that still wait for one ask again.
    fn forget(self) {
        self.passphrase.set_value(Zeroizing::default());
    }

    /// Ticks or unticks somebody to be brought back.
    pub fn flip(self, person: &str) {
        self.back.update(|back| {
            if !back.remove(person) {
                back.insert(person.to_string());
            }
        });
    }

    /// Reads files that were chosen or dropped, and tells what would come of all that are here.
    pub fn take(self, chosen: Vec<web_sys::File>) {
        if chosen.is_empty() || self.busy.with_untracked(Option::is_some) {
            return;
        }
        if self.taken.with_untracked(Option::is_some) {
            self.begin_anew();
        }
        self.say(say!("Reading…").to_string());
        leptos::task::spawn_local(async move {
            let count = chosen.len();
            let keys = self.app.identities().await;
            for (at, file) in chosen.into_iter().enumerate() {
                if self.is_gone() {
                    return;
                }
                self.say(if count == 1 {
                    say!("Reading…").to_string()
                } else {
                    say!("Reading {at} of {count}…", at = at + 1, count)
                });
                let is = match (&keys, file_in::read(&file, Limits::default().file).await) {
                    (Err(why), _) => Is::Refused(why.clone()),
                    (_, Err(refused)) => Is::Refused(refused.to_string()),
                    (Ok(keys), Ok(bytes)) => self.open(Arc::new(bytes), keys.as_deref().unwrap_or_default()).await,
                };
                if self.is_gone() {
                    return;
                }
                self.files.update(|files| files.push(Arrived { name: file.name(), is }));
            }
            self.compare().await;
        });
    }

    /// Tries a passphrase on every file that waits for one, and keeps it for those still to come.
    pub fn unlock(self, passphrase: Zeroizing<String>) {
        if passphrase.is_empty() || self.busy.with_untracked(Option::is_some) {
            return;
        }
        self.passphrase.set_value(passphrase);
        self.say(say!("Opening…").to_string());
        leptos::task::spawn_local(async move {
            let count = self.files.with_untracked(Vec::len);
            for at in 0..count {
                let is = self.files.with_untracked(|files| files.get(at).map(|file| file.is.clone()));
                let Some(Is::Locked { file, .. }) = is else { continue };
                let is = self.open(file, &[]).await;
                if self.is_gone() {
                    return;
                }
                self.files.update(|files| {
                    if let Some(file) = files.get_mut(at) {
                        file.is = is;
                    }
                });
            }
            self.compare().await;
        });
    }

    /// Writes what is new, all or nothing, and shows the receipt.
    pub fn write(self) {
        if self.busy.with_untracked(Option::is_some) {
            return;
        }
        self.say(say!("Taking in…").to_string());
        leptos::task::spawn_local(async move { self.keep().await });
    }

    async fn keep(self) {
        let at = now();
        let given = Given { id: ids::uuid(), unix_ms: at.unix_ms, offset_minutes: at.offset_minutes };
        let (planned, bytes) = match self.ask(Some(given)).await {
            Ok(answered) => answered,
            Err(why) => return self.stop(Some(why)),
        };
        if self.is_gone() {
            return;
        }
        let kept = self.app.keep_taken(planned.rows.clone(), &bytes).await;
        // What was opened is no longer held by the module.
        worker::end();
        if self.is_gone() {
            return;
        }
        match kept {
            Ok(()) => {
                self.forget();
                // What could not be read stays in sight.
                self.files.update(|files| files.retain(|file| !matches!(file.is, Is::Opened { .. })));
                self.plan.set(None);
                self.back.set(BTreeSet::new());
                self.taken.set(Some(Planned { rows: Vec::new(), ..planned }));
                self.stop(None);
            }
            Err(why) => self.stop(Some(why)),
        }
    }

    /// Tells what would come of the files. Where nothing is new, the receipt is shown at once.
    async fn compare(self) {
        if self.is_gone() {
            return;
        }
        self.plan.set(None);
        if !self.files.with_untracked(|files| files.iter().any(|file| matches!(file.is, Is::Opened { .. }))) {
            return self.stop(None);
        }
        self.say(say!("Comparing with what is here…").to_string());
        match self.ask(None).await {
            _ if self.is_gone() => {}
            Ok((plan, _)) => {
                let settled = plan.comes.is_empty() && plan.held_back.is_empty() && untrack(|| self.locked()) == 0;
                let receipt = 0 < plan.receipt.visits + plan.receipt.addenda;
                self.plan.set(Some(plan));
                if settled && receipt {
                    return self.keep().await;
                }
                self.stop(None);
            }
            Err(why) => self.stop(Some(why)),
        }
    }

    async fn open(self, file: Arc<Vec<u8>>, keys: &[u8]) -> Is {
        // Nothing is opened any more for a screen that was left meanwhile.
        let passphrase =
            self.passphrase.try_with_value(|passphrase| passphrase.as_bytes().to_vec()).unwrap_or_default();
        match worker::ask(Ask::Open, vec![file.to_vec(), keys.to_vec(), passphrase]).await {
            Ok((Answer::Opened(opened), bytes)) => {
                Is::Opened { opened, archive: Arc::new(bytes.into_iter().next().unwrap_or_default()) }
            }
            Ok((Answer::Locked(why), _)) => Is::Locked { file, why },
            Ok(_) => Is::Refused(words::of(OTHER_ANSWER).to_string()),
            Err(trouble) => Is::Refused(trouble.to_string()),
        }
    }

    async fn ask(self, give: Option<Given>) -> Result<(Planned, Vec<u8>), String> {
        let mut bytes = vec![here::write(&self.app.here())];
        self.files.with_untracked(|files| {
            bytes.extend(files.iter().filter_map(|file| match &file.is {
                Is::Opened { archive, .. } => Some(archive.to_vec()),
                Is::Locked { .. } | Is::Refused(_) => None,
            }));
        });
        let bring_back = self.back.get_untracked().into_iter().collect();
        match worker::ask(Ask::TakeIn { bring_back, give }, bytes).await {
            Ok((Answer::Planned(planned), bytes)) => Ok((planned, bytes.into_iter().next().unwrap_or_default())),
            Ok(_) => Err(words::of(OTHER_ANSWER).to_string()),
            Err(trouble) => Err(trouble.to_string()),
        }
    }

    fn say(self, busy: String) {
        self.refused.set(None);
        self.busy.set(Some(busy));
    }

    fn stop(self, refused: Option<String>) {
        self.refused.set(refused);
        self.busy.set(None);
    }

    /// Whether the screen was left meanwhile.
    fn is_gone(self) -> bool {
        self.files.is_disposed()
    }
}

const OTHER_ANSWER: &str = text!("Two versions of Sidelight met: load the page again.");

/// "3 people, 12 visits, 1 of them open. It came unsealed."
pub fn told(opened: &Opened) -> String {
    let people = counted!(opened.people, "1 person", "{count} people");
    let visits = counted!(opened.visits, "1 visit", "{count} visits");
    let open = if opened.open == 0 { String::new() } else { say!(", {open} of them open", open = opened.open) };
    let addenda = match opened.addenda {
        0 => String::new(),
        1 => say!(", 1 correction").to_string(),
        count => say!(", {count} corrections", count),
    };
    let seal = match opened.seal {
        Seal::Plain => say!("It came unsealed: whoever had it could read it."),
        Seal::Key => say!("It was sealed to the clinic key."),
        Seal::Passphrase => say!("It was sealed by a passphrase."),
    };
    let newer = if opened.newer { say!("Parts that only a newer Sidelight reads stay in the file.") } else { "" };
    words::sentences(&[&say!("{people}, {visits}{open}{addenda}.", people, visits, open, addenda), seal, newer])
}

/// The label of the passphrase.
pub fn asks(locked: usize) -> String {
    match locked {
        1 => say!("Passphrase of the sealed file").to_string(),
        count => say!("Passphrase of the {count} sealed files", count),
    }
}
