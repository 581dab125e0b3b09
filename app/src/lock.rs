//! What stands between the records and the screen: nothing is known yet, nothing is here, no passphrase yet, locked, open.
//!
//! The program's state lives only while the phase is open: locking flushes what waits, wipes the keys, and takes the state
//! with everything it read off the page. The address stays, and brings the same screen back.

mod device;
mod passkey;
mod tries;
pub mod watch;
mod work;

use std::rc::Rc;

use futures_util::future::try_join_all;
use leptos::prelude::*;
use sidelight_core::seal::SealError;
use zeroize::Zeroizing;

use crate::platform::settings;
use crate::platform::tab_lock::Ownership;
use crate::platform::worker;
use crate::state::{App, owner_of};
use crate::storage::indexed_db::IndexedDb;
use crate::storage::memory::MemoryStore;
use crate::storage::sealed::{self, Erased, Fate, Header, SealedStore};
use crate::storage::{Kind, StorageError, Store};
use crate::words;

/// Where the records and the screen stand.
#[derive(Clone)]
pub enum Phase {
    /// The store is being opened.
    Opening,
    /// Nothing was ever kept here: try it, or start.
    FirstRun,
    /// There is no passphrase yet.
    Make {
        /// Whether records of an earlier version lie here in clear.
        clear: bool,
    },
    /// The keys are not here.
    Locked,
    /// Everything on this device was erased, and this is what went.
    Erased(Rc<Erased>),
    /// The program works.
    Open(Opened),
}

/// The store of a working program.
#[derive(Clone)]
pub struct Opened {
    /// What it reads and writes.
    pub store: Rc<dyn Store>,
    /// How it is kept.
    pub keeping: Keeping,
    /// Why nothing is kept, if so.
    pub trouble: Option<StorageError>,
}

/// How records are kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// Sealed by the passphrase.
    Sealed,
    /// In clear, in a place of their own: invented people only.
    Demo,
    /// In memory, because the browser keeps nothing.
    Nowhere,
}

/// The lock; a handle that can be copied into any closure. There is one, at the root.
#[derive(Clone, Copy)]
pub struct Lock {
    phase: RwSignal<Phase, LocalStorage>,
    /// What is being worked on, as a sentence.
    pub working: RwSignal<Option<&'static str>>,
    /// What is wrong with the lock itself.
    pub trouble: RwSignal<Option<String>>,
    /// Whether another tab has the writer's place.
    pub ownership: ReadSignal<Ownership>,
    records: StoredValue<Option<Rc<IndexedDb>>, LocalStorage>,
    keys: StoredValue<Option<Rc<SealedStore>>, LocalStorage>,
    app: StoredValue<Option<App>>,
    /// The visit that was in hand when it was locked.
    in_hand: StoredValue<Option<String>>,
}

impl Lock {
    /// A lock whose store is not yet open. Call it once, at the root.
    #[must_use]
    pub fn new(ownership: ReadSignal<Ownership>) -> Lock {
        Lock {
            phase: RwSignal::new_local(Phase::Opening),
            working: RwSignal::new(None),
            trouble: RwSignal::new(None),
            ownership,
            records: StoredValue::new_local(None),
            keys: StoredValue::new_local(None),
            app: StoredValue::new(None),
            in_hand: StoredValue::new(None),
        }
    }

    /// The lock put into the context at the root.
    #[must_use]
    pub fn get() -> Lock {
        expect_context::<Lock>()
    }

    /// Where it stands.
    #[must_use]
    pub fn phase(self) -> Phase {
        self.phase.get()
    }

    /// How the records in sight are kept, read once.
    #[must_use]
    pub fn keeping(self) -> Option<Keeping> {
        self.phase.with_untracked(|phase| match phase {
            Phase::Open(opened) => Some(opened.keeping),
            Phase::Opening | Phase::FirstRun | Phase::Make { .. } | Phase::Locked | Phase::Erased(_) => None,
        })
    }

    /// Opens the store and looks what is there.
    pub async fn start(self) {
        if settings::load().demo {
            self.open_demo().await;
            return;
        }
        let records = match IndexedDb::open().await {
            Ok(records) => Rc::new(records),
            // Without a database the program still examines and prints; it says that nothing is kept.
            Err(error) => return self.open(Rc::new(MemoryStore::new()), Keeping::Nowhere, Some(error)),
        };
        self.records.set_value(Some(Rc::clone(&records)));
        let next = match SealedStore::header(&*records).await {
            Ok(Some(_)) => Phase::Locked,
            Ok(None) => match is_empty(&*records).await {
                Ok(true) => Phase::FirstRun,
                Ok(false) => Phase::Make { clear: true },
                Err(error) => return self.open(Rc::new(MemoryStore::new()), Keeping::Nowhere, Some(error)),
            },
            Err(error) => {
                self.trouble.set(Some(error.to_string()));
                Phase::Locked
            }
        };
        self.phase.set(next);
    }

    /// From the first run to the making of a passphrase.
    pub fn begin(self) {
        self.phase.set(Phase::Make { clear: false });
    }

    /// Opens the demo, in a database of its own.
    pub async fn open_demo(self) {
        settings::change(|settings| settings.demo = true);
        match IndexedDb::open_named(DEMO).await {
            Ok(store) => self.open(Rc::new(store), Keeping::Demo, None),
            Err(error) => self.open(Rc::new(MemoryStore::new()), Keeping::Demo, Some(error)),
        }
    }

    /// Leaves the demo and erases it.
    pub async fn leave_demo(self) {
        self.phase.set(Phase::Opening);
        settings::change(|settings| settings.demo = false);
        // The state goes first, or its connection would be in the way.
        gloo_timers::future::TimeoutFuture::new(0).await;
        if let Err(error) = IndexedDb::erase(DEMO).await {
            self.trouble.set(Some(error.to_string()));
        }
        self.start().await;
    }

    /// Makes the passphrase, seals what lies here in clear, and opens.
    pub async fn make(self, passphrase: &str) -> Result<(), String> {
        self.refuse_elsewhere()?;
        let records = self.records.get_value().ok_or_else(|| StorageError::Closed.to_string())?;
        let _working = self.work(MAKING);
        let lock = work::new_lock(passphrase).await?;
        let device = device::find().await.map_err(|error| error.to_string())?;
        let sealed = SealedStore::create(records, device, &lock, owner_of).await.map_err(|error| error.to_string())?;
        self.open_sealed(sealed);
        Ok(())
    }

    /// Opens with the passphrase. A wrong one makes the next try wait.
    pub async fn unlock(self, passphrase: &str) -> Result<(), String> {
        if tries::wait() > 0 {
            return Err(say!("Wait until the time is over, then try again.").to_string());
        }
        let _working = self.work(OPENING);
        // Counted before it is tried, so that loading the page again in between saves no wait.
        tries::count();
        let header = self.header().await?;
        let key = work::derive(passphrase, header.salt(), header.kdf()).await?;
        self.unlock_by(sealed::PASSPHRASE, &key).await
    }

    async fn unlock_by(self, way: &str, key: &sidelight_core::seal::Key) -> Result<(), String> {
        let records = self.records.get_value().ok_or_else(|| StorageError::Closed.to_string())?;
        let device = device::find().await.map_err(|error| error.to_string())?;
        match SealedStore::unlock(records, device, way, key).await {
            Ok(sealed) => {
                tries::forget();
                self.open_sealed(sealed);
                Ok(())
            }
            Err(StorageError::Seal(SealError::WrongKey)) => Err(words::of(WRONG).to_string()),
            Err(error) => Err(error.to_string()),
        }
    }

    /// In how many seconds the next passphrase may be tried.
    #[must_use]
    pub fn wait(self) -> u32 {
        tries::wait()
    }

    /// Takes a new passphrase in place of the old one; no record is written anew.
    pub async fn change(self, old: &str, new: &str) -> Result<Fate, String> {
        self.refuse_elsewhere()?;
        let sealed = self.keys.get_value().ok_or_else(|| StorageError::Locked.to_string())?;
        let _working = self.work(CHANGING);
        let header = self.header().await?;
        let key = work::derive(old, header.salt(), header.kdf()).await?;
        let records = self.records.get_value().ok_or_else(|| StorageError::Closed.to_string())?;
        let device = device::find().await.map_err(|error| error.to_string())?;
        match SealedStore::unlock(records, device, sealed::PASSPHRASE, &key).await {
            Ok(probe) => probe.lock(),
            Err(StorageError::Seal(SealError::WrongKey)) => return Err(words::of(WRONG_OLD).to_string()),
            Err(error) => return Err(error.to_string()),
        }
        let lock = work::new_lock(new).await?;
        sealed.rewrap(&lock).await.map_err(|error| error.to_string())
    }

    /// Locks: what waits is written first, then the keys and everything that was read go. When it cannot be written it
    /// stays open, because what was tapped would be lost.
    pub async fn lock(self) -> Result<(), StorageError> {
        let Some(sealed) = self.keys.get_value() else { return Ok(()) };
        if let Some(app) = self.app.get_value() {
            app.settle().await?;
            if !sealed.is_unlocked() {
                // It was locked meanwhile, and this state is gone.
                return Ok(());
            }
            self.in_hand.set_value(app.key_in_hand());
        }
        sealed.lock();
        self.keys.set_value(None);
        self.app.set_value(None);
        // What the module worked on, such as a passphrase, goes with its memory.
        worker::end();
        self.phase.set(Phase::Locked);
        Ok(())
    }

    /// Erases every record, the keys and the preferences, locked or open.
    pub async fn erase(self) -> Result<(), String> {
        self.refuse_elsewhere()?;
        let _working = self.work(ERASING);
        let records = self.records.get_value().ok_or_else(|| StorageError::Closed.to_string())?;
        let device = device::find().await.map_err(|error| error.to_string())?;
        let erased = SealedStore::erase_all(&*records, device.as_deref()).await.map_err(|error| error.to_string())?;
        if let Some(sealed) = self.keys.get_value() {
            sealed.lock();
        }
        self.keys.set_value(None);
        self.app.set_value(None);
        self.in_hand.set_value(None);
        tries::forget();
        settings::forget();
        worker::end();
        self.phase.set(Phase::Erased(Rc::new(erased)));
        Ok(())
    }

    /// How many visits and people lie here, which can be told while it is locked.
    pub async fn counts(self) -> Result<(usize, usize), StorageError> {
        let records = self.records.get_value().ok_or(StorageError::Closed)?;
        let visits = records.ids(Kind::Visit).await?.len() + records.ids(Kind::Draft).await?.len();
        Ok((records.ids(Kind::Person).await?.len(), visits))
    }

    /// Whether this device keeps a secret that can be overwritten.
    pub async fn has_device_secret(self) -> bool {
        device::find().await.is_ok_and(|device| device.is_some())
    }

    /// The sealed store while it is open, for what only it can do.
    #[must_use]
    pub fn sealed(self) -> Option<Rc<SealedStore>> {
        self.keys.get_value()
    }

    /// Remembers the program's state while it is open, and puts the visit back that was in hand.
    pub fn attend(self, app: App) {
        if let Some(sealed) = self.keys.get_value() {
            app.use_sealed(sealed);
        }
        self.app.set_value(Some(app));
    }

    /// The visit that was in hand when it was locked, told once.
    #[must_use]
    pub fn take_in_hand(self) -> Option<String> {
        self.in_hand.try_update_value(Option::take).flatten()
    }

    fn open(self, store: Rc<dyn Store>, keeping: Keeping, trouble: Option<StorageError>) {
        self.phase.set(Phase::Open(Opened { store, keeping, trouble }));
    }

    fn open_sealed(self, sealed: SealedStore) {
        let sealed = Rc::new(sealed);
        self.keys.set_value(Some(Rc::clone(&sealed)));
        self.trouble.set(None);
        self.open(sealed, Keeping::Sealed, None);
    }

    async fn header(self) -> Result<Header, String> {
        let records = self.records.get_value().ok_or_else(|| StorageError::Closed.to_string())?;
        let header = SealedStore::header(&*records).await.map_err(|error| error.to_string())?;
        header.ok_or_else(|| StorageError::LockDamaged.to_string())
    }

    fn refuse_elsewhere(self) -> Result<(), String> {
        if self.ownership.get_untracked() == Ownership::OtherTab {
            return Err(say!("Sidelight is open in another tab. Close that tab, then try again.").to_string());
        }
        Ok(())
    }

    /// Says what is being worked on until the value that comes back is dropped.
    fn work(self, what: &'static str) -> Working {
        self.working.set(Some(words::of(what)));
        Working(self)
    }
}

/// While this lives, the screen says what is worked on.
struct Working(Lock);

impl Drop for Working {
    fn drop(&mut self) {
        self.0.working.set(None);
    }
}

/// A passphrase on its way, wiped when it is dropped.
pub type Passphrase = Zeroizing<String>;

const DEMO: &str = "sidelight-demo";

const MAKING: &str = text!("Working out the key and sealing the records. This takes a moment on purpose.");
const OPENING: &str = text!("Working out the key. This takes a moment on purpose.");
const CHANGING: &str = text!("Working out two keys. This takes a moment on purpose.");
const ERASING: &str = text!("Erasing.");
const WRONG: &str =
    text!("This is not the passphrase. Nothing was changed. Look at capital letters and blanks, then try again.");
const WRONG_OLD: &str = text!("The old passphrase is not this one. Nothing was changed.");

async fn is_empty(records: &dyn Store) -> Result<bool, StorageError> {
    let kinds = [Kind::Person, Kind::Visit, Kind::Draft, Kind::Setting];
    let ids = try_join_all(kinds.map(|kind| records.ids(kind))).await?;
    Ok(ids.iter().all(Vec::is_empty))
}
