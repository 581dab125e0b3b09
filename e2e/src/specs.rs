//! Every spec, in the order they run.

mod boots;
mod damage;
mod emergency;
mod erased;
mod export;
mod family;
mod full;
mod hand_over;
mod home_practice;
mod harness;
mod input;
mod installs;
mod joins;
mod kept;
mod lock;
mod looks;
mod offline;
mod people;
mod plan;
mod policy;
mod routines;
mod second;
mod stage;
mod store;
mod take_in;
mod traces;
mod versions;
mod visit;

pub use harness::TINY;

use crate::engine::{CHROMIUM, KEEPING, PHONES, PRINTING};
use crate::spec;
use crate::spec::Spec;
use crate::viewport::TABLET;

/// What must hold for the built site.
pub static SITE: &[Spec] = &[
    spec!("boots", boots::boots),
    spec!("can be installed", installs::installs).on(CHROMIUM),
    spec!("offline: reload", offline::reload),
    spec!("offline: address typed anew", offline::goto).everyday(PHONES),
    spec!("offline: new tab", offline::new_tab).everyday(PHONES),
    spec!("offline: browser restarted", offline::restart).on(KEEPING),
    spec!("policy: stated by header and page", policy::stated),
    spec!("policy: injected script does not run", policy::injected),
    spec!("second module: works offline", second::works),
    spec!("visit: normal, offline, few taps", visit::normal),
    spec!("visit: asks for nothing", visit::asks_for_nothing).everyday(PHONES),
    spec!("visit: one symptom rated", visit::one_symptom).everyday(CHROMIUM),
    spec!("visit: a full table", visit::full_table).everyday(CHROMIUM),
    spec!("visit: what is out of range", visit::abnormal).everyday(PHONES),
    spec!("emergency: stops", emergency::stops).everyday(PHONES),
    spec!("emergency: goes on with a reason", emergency::goes_on_with_reason).everyday(PHONES),
    spec!("kept: reload", kept::reloaded),
    spec!("kept: a number still typed", kept::still_typed).everyday(CHROMIUM),
    spec!("kept: browser killed", kept::killed).on(KEEPING).within(600),
    spec!("kept: half a record in the log", kept::torn_log).on(CHROMIUM),
    spec!("kept: left for another page", kept::left_for_another_page),
    spec!("kept: second tab", kept::second_tab),
    spec!("kept: left open", kept::left_open).everyday(PHONES),
    spec!("lock: by hand", lock::by_hand),
    spec!("lock: idle, not in a task", lock::idle).everyday(CHROMIUM),
    spec!("lock: out of sight", lock::hidden).everyday(PHONES),
    spec!("lock: wrong passphrase", lock::wrong).everyday(CHROMIUM),
    spec!("lock: passphrase changed", lock::changed).everyday(CHROMIUM),
    spec!("lock: demo needs none", lock::demo).everyday(CHROMIUM),
    spec!("lock: earlier records are sealed", lock::migrates).everyday(PHONES),
    spec!("lock: passkey", lock::passkey).on(CHROMIUM),
    spec!("lock: device erased", lock::erased),
    spec!("lock: looks and keyboard", lock::looks).everyday(PHONES),
    spec!("input: numbers", input::numbers).everyday(PHONES),
    spec!("input: hostile name", input::hostile_name).everyday(PHONES),
    spec!("input: files", input::files).everyday(PHONES),
    spec!("files: summary taken along", input::taken_along).everyday(PHONES),
    spec!("take in: written when asked, with a receipt", take_in::with_receipt),
    spec!("take in: what is held back", take_in::held_back).everyday(CHROMIUM),
    spec!("take in: many visits", take_in::many).on(CHROMIUM).within(300),
    spec!("correction: beside a closed visit", take_in::correction).everyday(PHONES),
    spec!("home practice: taken in", home_practice::taken_in).everyday(CHROMIUM),
    spec!("home practice: camera", home_practice::scanned).on(CHROMIUM),
    spec!("routines: own", routines::own).everyday(CHROMIUM),
    spec!("people: searched, opened, changed", people::page).everyday(CHROMIUM),
    spec!("people: re-test due", people::due).everyday(CHROMIUM),
    spec!("joins: offered, joined, undone", joins::joined).everyday(CHROMIUM),
    spec!("joins: not the same", joins::kept_apart).everyday(CHROMIUM),
    spec!("plan: chosen, signed, given", plan::given),
    spec!("plan: keyboard", plan::with_the_keyboard).everyday(CHROMIUM),
    spec!("stage: measured, shown, stopped, kept", stage::kept).within(300),
    spec!("stage: asked before stripes", stage::asked).everyday(PHONES),
    spec!("stage: less motion overruled, dim pads", stage::less_motion).on(CHROMIUM),
    spec!("stage: slow display, locked phone", stage::slow_display).everyday(CHROMIUM),
    spec!("stage: frames where their time puts them", stage::frames).everyday(CHROMIUM),
    spec!("stage: flashes counted from pixels", stage::flashes).everyday(CHROMIUM),
    spec!("hand over: by key", hand_over::by_key),
    spec!("hand over: by passphrase", hand_over::by_passphrase).everyday(CHROMIUM),
    spec!("hand over: receipt and rule", hand_over::receipt_and_rule).on(CHROMIUM),
    spec!("hand over: person erased", hand_over::erased).everyday(CHROMIUM),
    spec!("hand over: camera", hand_over::scanned).on(CHROMIUM),
    spec!("other formats: a FHIR bundle", export::bundle).everyday(CHROMIUM),
    spec!("other formats: tables", export::tables).everyday(CHROMIUM),
    spec!("other formats: many visits", export::too_many).on(CHROMIUM).within(300),
    spec!("other formats: keyboard", export::keyboard).everyday(CHROMIUM),
    spec!("store: full", store::full),
    spec!("store: newer", store::newer).everyday(CHROMIUM),
    spec!("disk: words in clear are found", traces::found).on(KEEPING).everyday(CHROMIUM),
    spec!("disk: what is typed is readable nowhere", traces::nothing_readable).on(KEEPING).within(600),
    spec!("damage: flipped byte", damage::flipped),
    spec!("damage: person's row", damage::person).everyday(CHROMIUM),
    spec!("damage: index row", damage::index).everyday(CHROMIUM),
    spec!("damage: key row", damage::key).everyday(CHROMIUM),
    spec!("damage: lock", damage::lock).everyday(CHROMIUM),
    spec!("damage: newer", damage::newer).everyday(CHROMIUM),
    spec!("damage: full to the quota", damage::full).on(CHROMIUM).within(400),
    spec!("damage: second tab", damage::second_tab).everyday(PHONES),
    spec!("erased: for good", erased::for_good).within(300),
    spec!("versions: offered at home only", versions::offered_at_home),
    spec!("versions: family's page", versions::family_page).on(CHROMIUM),
    spec!("full: every task", full::every_task).everyday(PHONES),
    spec!("family: a day from a link", family::day),
    spec!("family: loaded anew", family::loaded_anew).on(CHROMIUM),
    spec!("family: beside the app", family::beside_the_app).everyday(CHROMIUM),
    spec!("family: a file without a server", family::file).everyday(PHONES),
    spec!("family: prints", family::prints).on(PRINTING).everyday(CHROMIUM),
    spec!("family: looks and keyboard", family::looks).everyday(CHROMIUM),
    spec!("family: what is refused", family::refused).everyday(CHROMIUM),
    spec!("looks: audited", looks::audited),
    spec!("looks: fits every size", looks::fits).everyday(PHONES),
    spec!("looks: prints", looks::prints).on(PRINTING),
    spec!("looks: keyboard", looks::keyboard),
    spec!("looks: pictures", looks::pictures).on(CHROMIUM),
];

/// What must hold for the harness itself, on a page of its own.
pub static HARNESS: &[Spec] = &[
    spec!("harness: taps", harness::taps),
    spec!("harness: fields and files", harness::fields),
    spec!("harness: views", harness::views).sized(TABLET),
    spec!("harness: console", harness::console),
    spec!("harness: audit", harness::audit),
    spec!("harness: print", harness::print).on(PRINTING),
    spec!("harness: killed browser", harness::kill).on(KEEPING),
    spec!("harness: server", harness::server),
    spec!("harness: devtools", harness::devtools).on(CHROMIUM),
    spec!("harness: injection is noticed", harness::injection),
    spec!("harness: faults are found", harness::faults),
];
