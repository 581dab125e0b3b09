//! House rules, golden visits and laws that hold for any visit. Everything here runs with `cargo test`.

pub mod calibration;
pub mod codes;
pub mod dice;
pub mod odd_records;
pub mod odd_showing;
pub mod odd_visit;
pub mod fhir_bundles;
pub mod fhir_mutants;
pub mod flash_counter;
pub mod sheets;

#[cfg(test)]
mod age_vectors;
#[cfg(test)]
mod archives;
#[cfg(test)]
mod bad_input;
#[cfg(test)]
mod change_law;
#[cfg(test)]
mod circles;
#[cfg(test)]
mod code_trips;
#[cfg(test)]
mod documents;
#[cfg(test)]
mod fhir;
#[cfg(test)]
mod gap_law;
#[cfg(test)]
mod golden;
#[cfg(test)]
mod hand_over;
#[cfg(test)]
mod layers;
#[cfg(test)]
mod lesions;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod merge_law;
#[cfg(test)]
mod norms;
#[cfg(test)]
mod order_law;
#[cfg(test)]
mod plans;
#[cfg(test)]
mod rates;
#[cfg(test)]
mod repository;
#[cfg(test)]
mod showings;
#[cfg(test)]
mod side_law;
#[cfg(test)]
mod scenarios;
#[cfg(test)]
mod schema;
#[cfg(test)]
mod screen_words;
#[cfg(test)]
mod script;
#[cfg(test)]
mod stage_law;
#[cfg(test)]
mod tables;
#[cfg(test)]
mod tidy;
#[cfg(test)]
mod visits;
