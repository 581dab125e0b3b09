//! Sidelight's examination as a pure library: no clock, no randomness, no files, no browser. They arrive as arguments.
//!
//! Modules are listed in layer order: a module uses only modules listed before it.
#![deny(missing_docs)]

pub mod quantity;
pub mod calendar;
pub mod anatomy;
pub mod evidence;
pub mod figure;
pub mod statistics;
pub mod stimulus;
pub mod capture;
pub mod sign;
pub mod measure;
pub mod finding;
pub mod notice;
pub mod score;
pub mod side_by_side;
pub mod vergence;
pub mod near_vision;
pub mod task;
pub mod routine;
pub mod flow;
pub mod provocation;
pub mod red_flag;
pub mod side;
pub mod tiring;
pub mod how_common;
pub mod working_model;
pub mod other_cause;
pub mod pattern;
pub mod contradiction;
pub mod assess;
pub mod exercise;
pub mod advice;
pub mod tolerance;
pub mod reading_level;
pub mod catalogue;
pub mod plan;
pub mod sheet;
pub mod change;
pub mod due;
pub mod trend;
pub mod document;
pub mod norms;
pub mod summary;
pub mod export;
pub mod canonical;
pub mod words;
pub mod archive;
pub mod receipt;
pub mod merge;
pub mod people;
pub mod keeping;
pub mod seal;
pub mod hand_over;
pub mod demo;
