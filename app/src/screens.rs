//! One file a screen. Screens ask core what to show and hand every change to the state; they decide nothing.

pub mod about;
pub mod clinic_key;
pub mod decision;
pub mod erase_person;
pub mod findings;
pub mod first_run;
pub mod frame;
pub mod hand_over;
pub mod home;
pub mod norms;
pub mod open_file;
pub mod routine;
pub mod routines;
pub mod people;
pub mod person;
pub mod receipt;
pub mod safe;
pub mod safety;
pub mod seen;
pub mod settings;
pub mod step;
pub mod stop;
pub mod summary;
pub mod symptoms;
pub mod task;
pub mod who;
