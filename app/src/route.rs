//! Screens and their addresses: the part of the address behind "#". It never holds a name.

use crate::platform::hash_route;

/// A screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Route {
    /// Today, open visits, seen people.
    Home,
    /// Who is examined.
    Who,
    /// The same, with someone known already chosen, by id.
    WhoFor(String),
    /// Everyone who was seen.
    People,
    /// One person, by id.
    Person(String),
    /// Entries that may be the same person.
    Likely,
    /// A step of the visit in hand, by slot.
    Step(String),
    /// What the person of the visit in hand takes home.
    Plan,
    /// What was given to take home at the visit in hand.
    Sheet,
    /// All visits, with search.
    Seen,
    /// All routines.
    Routines,
    /// A routine of the practice's own, by id; any other id begins a new one.
    Routine(String),
    /// What was handed over and what was not.
    Safe,
    /// A file for the clinic computer.
    HandOver,
    /// The key it is sealed to.
    ClinicKey,
    /// What the clinic says it has.
    Receipt,
    /// Erasing a person, by id.
    Erase(String),
    /// What was done at home since the last visit.
    HomePractice,
    /// Files that others handed over.
    TakeIn,
    /// Files for other programs.
    Export,
    /// Preferences.
    Settings,
    /// What the eyes follow, shown on this screen: for a task of the visit in hand, by id, or all there is.
    Stage(Option<String>),
    /// The same for a task, by id, without a visit: nothing is recorded.
    StageAlone(String),
    /// The size of this screen, by a card; then the screen with this address, without "#/".
    Calibrate(String),
    /// A new passphrase for the old one.
    Passphrase,
    /// Everything here is to be erased.
    EraseDevice,
    /// How each task is done, cautions, version.
    About,
    /// Every published range with its source.
    Norms,
}

impl Route {
    /// The route of the address in the bar.
    #[must_use]
    pub fn current() -> Route {
        Route::parse(&hash_route::get())
    }

    /// Reads a hash, with or without "#/"; anything unknown is home.
    #[must_use]
    pub fn parse(hash: &str) -> Route {
        let path = hash.trim_start_matches('#').trim_matches('/');
        match path.split_once('/') {
            Some(("step", slot)) => Route::Step(slot.to_string()),
            Some(("routine", id)) => Route::Routine(id.to_string()),
            Some(("person", id)) => Route::Person(id.to_string()),
            Some(("erase", id)) => Route::Erase(id.to_string()),
            Some(("who", id)) => Route::WhoFor(id.to_string()),
            Some(("show", task)) => Route::StageAlone(task.to_string()),
            Some(("stage", task)) => Route::Stage(Some(task.to_string())),
            Some(("calibrate", then)) => Route::Calibrate(then.to_string()),
            _ => match path {
                "who" => Route::Who,
                "people" => Route::People,
                "likely" => Route::Likely,
                "plan" => Route::Plan,
                "sheet" => Route::Sheet,
                "seen" => Route::Seen,
                "routines" => Route::Routines,
                "safe" => Route::Safe,
                "hand-over" => Route::HandOver,
                "clinic-key" => Route::ClinicKey,
                "receipt" => Route::Receipt,
                "home-practice" => Route::HomePractice,
                "take-in" => Route::TakeIn,
                "export" => Route::Export,
                "settings" => Route::Settings,
                "stage" => Route::Stage(None),
                "calibrate" => Route::Calibrate("settings".to_string()),
                "passphrase" => Route::Passphrase,
                "erase-device" => Route::EraseDevice,
                "about" => Route::About,
                "norms" => Route::Norms,
                _ => Route::Home,
            },
        }
    }

    /// The hash of this route.
    #[must_use]
    pub fn hash(&self) -> String {
        match self {
            Route::Home => "#/".to_string(),
            Route::Who => "#/who".to_string(),
            Route::WhoFor(id) => format!("#/who/{id}"),
            Route::People => "#/people".to_string(),
            Route::Person(id) => format!("#/person/{id}"),
            Route::Step(slot) => format!("#/step/{slot}"),
            Route::Likely => "#/likely".to_string(),
            Route::Plan => "#/plan".to_string(),
            Route::Sheet => "#/sheet".to_string(),
            Route::Seen => "#/seen".to_string(),
            Route::Routines => "#/routines".to_string(),
            Route::Routine(id) => format!("#/routine/{id}"),
            Route::Safe => "#/safe".to_string(),
            Route::HandOver => "#/hand-over".to_string(),
            Route::ClinicKey => "#/clinic-key".to_string(),
            Route::Receipt => "#/receipt".to_string(),
            Route::HomePractice => "#/home-practice".to_string(),
            Route::Erase(id) => format!("#/erase/{id}"),
            Route::TakeIn => "#/take-in".to_string(),
            Route::Export => "#/export".to_string(),
            Route::Settings => "#/settings".to_string(),
            Route::StageAlone(task) => format!("#/show/{task}"),
            Route::Stage(None) => "#/stage".to_string(),
            Route::Stage(Some(task)) => format!("#/stage/{task}"),
            Route::Calibrate(then) => format!("#/calibrate/{then}"),
            Route::Passphrase => "#/passphrase".to_string(),
            Route::EraseDevice => "#/erase-device".to_string(),
            Route::About => "#/about".to_string(),
            Route::Norms => "#/norms".to_string(),
        }
    }

    /// Writes it into the address bar in place of what stands there.
    pub fn replace(&self) {
        hash_route::replace(&self.hash());
    }

    /// Writes it into the address bar as a new entry of the history.
    pub fn push(&self) {
        let hash = self.hash();
        if hash_route::get() != hash {
            hash_route::set(&hash);
        }
    }
}
