//! What near and far hands on: signs of turning in and out, grades and the count for the next visit, and its two halves.

use super::{FAR, GLASSES, Jumps, NEAR, Quality, TASK, Turned, Way};
use crate::anatomy::Place;
use crate::capture::form::label;
use crate::capture::record::Record;
use crate::capture::showing::{self, program};
use crate::finding::Reading;
use crate::measure::{Amount, Better, Course, Measure, Values};
use crate::quantity::Quantity;
use crate::sign::{Sign, What};

pub(super) fn hand_on(reading: &mut Reading, turned: &[(Way, Option<Turned>); 2], jumps: &Jumps, record: &Record) {
    let method = method(record);
    for (way, turned) in turned.iter().filter_map(|(way, turned)| Some((*way, (*turned)?))) {
        reading.signs.push(sign(way, turned));
        reading.measures.push(Measure {
            key: key(way.word()),
            task: TASK.id,
            what: format!("slow {}", way.word()),
            place: Place::Both,
            amount: Amount::Step { step: turned.quality as u8, words: &STEPS },
            better: Better::Lower,
            method: method.clone(),
            limits: &[],
            norm: None,
        });
    }
    if let Some((first, second)) = jumps.both() {
        reading.measures.push(Measure {
            key: key("jumps"),
            task: TASK.id,
            what: "near-far jumps in 30 s".to_string(),
            place: Place::Both,
            amount: Amount::Number { value: first + second, unit: "" },
            better: Better::Higher,
            method,
            limits: &[],
            norm: None,
        });
        reading.courses.push(Course {
            key: key("jumps"),
            task: TASK.id,
            what: "near-far jumps in each 15 s".to_string(),
            place: Place::Both,
            values: Values::Numbers(vec![first, second], ""),
            better: Better::Higher,
        });
    }
}

/// The words of the grades, best first.
static STEPS: [&str; 3] = [Quality::Smooth.words(), Quality::Broken.words(), Quality::Cannot.words()];

/// In the eye that lets go on turning in, when it is known; turning out belongs to both eyes.
fn sign(way: Way, turned: Turned) -> Sign {
    let seen = turned.quality != Quality::Smooth;
    match way {
        Way::In => {
            let place = turned.eye.map_or(Place::Both, Place::In);
            Sign::new(What::BrokenConvergence, place, seen, &key(way.word()))
        }
        Way::Out => Sign::new(What::BrokenDivergence, Place::Both, seen, &key(way.word())),
    }
}

fn key(what: &str) -> String {
    format!("{}.{what}", TASK.id)
}

/// A count depends on both distances and on glasses.
fn method(record: &Record) -> Vec<(&'static str, String)> {
    let noted = |key: &str, quantity: &'static Quantity| {
        let value = record.answers.number(key).and_then(|value| quantity.check(value).ok())?;
        Some((quantity.name, quantity.show(value)))
    };
    let glasses = record.answers.one("glasses").map(|id| ("glasses for near", label(GLASSES, id).to_lowercase()));
    let prompts = showing::method(&record.showings, program::NEAR_FAR);
    [noted("near", &NEAR), noted("far", &FAR), glasses, prompts].into_iter().flatten().collect()
}
