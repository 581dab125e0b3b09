//! Focusing amplitude by push-up against the three lines by age.

use super::evidence::{ADLER, INSUFFICIENT};
use super::form::{AMPLITUDE, PUPILS};
use super::{Entered, finding, measure};
use crate::anatomy::Eye;
use crate::evidence::number;
use crate::finding::{Finding, Grade, Place, Reading};
use crate::measure::{Better, Measure};
use crate::near_vision::{ANDERSON, HOFSTETTER, hofstetter, objective_amplitude};

/// Two below the lowest line or more counts as insufficient (two textbook tables; two trials ask for more than 2).
const BELOW: f64 = 2.0;

/// From this age on near focusing runs out in everybody (common practice), and nothing is graded.
const PRESBYOPE: u8 = 45;

/// Up to this age 12 D are taken as pass or fail (Adler et al. 2013, 4 to 12 years).
const CHILD: u8 = 12;

pub(super) fn read(entered: &Entered<'_>, years: Option<u8>, reading: &mut Reading) {
    let eyes = [
        ("amplitude_right", Place::In(Eye::Right), "right eye"),
        ("amplitude_left", Place::In(Eye::Left), "left eye"),
        ("amplitude_both", Place::Both, "both eyes"),
    ];
    let mut told = false;
    for (key, place, words) in eyes {
        let Some(amplitude) = entered.number(key, &AMPLITUDE) else { continue };
        let mut found = amplitude_finding(key, place, words, amplitude, years);
        if !told {
            lines(&mut found, years);
            told = true;
        }
        reading.findings.push(found);
        let amplitude = measure(key, &format!("focusing amplitude, {words}"), amplitude, "D", Better::Higher);
        reading.measures.push(Measure { place, ..amplitude });
    }
    if let Some(apart) = entered.number("pd", &PUPILS) {
        let headline = format!("Pupillary distance {}", PUPILS.show(apart));
        reading.findings.push(finding("pd", Place::Both, headline, apart, "mm"));
    }
}

fn amplitude_finding(key: &str, place: Place, words: &str, amplitude: f64, years: Option<u8>) -> Finding {
    let headline = format!("Focusing amplitude {} D, {words}", number(amplitude));
    let mut found = finding(key, place, headline, amplitude, "D");
    let least = years.filter(|years| *years < PRESBYOPE).and_then(|years| hofstetter(f64::from(years)));
    let Some(least) = least.map(|lines| lines.least.0) else { return found };
    found.grade = if amplitude <= least - BELOW {
        Grade::OutsideRange
    } else if amplitude < least {
        Grade::NearLimit
    } else {
        Grade::WithinRange
    };
    found.sources.push(&HOFSTETTER);
    match found.grade {
        Grade::OutsideRange => {
            found
                .details
                .push(format!("2 D or more below the {} D that are least expected at this age.", number(least)));
            found.sources.push(&INSUFFICIENT);
        }
        Grade::NearLimit => {
            found.details.push(format!("Below the {} D least expected at this age, by less than 2 D.", number(least)));
        }
        Grade::NoRange | Grade::WithinRange | Grade::Urgent => {}
    }
    found
}

/// The lines it is read against and what they are worth, once.
fn lines(found: &mut Finding, years: Option<u8>) {
    let Some(years) = years else {
        found.details.push("Age not known, so there is no line to read it against.".to_string());
        return;
    };
    if years >= PRESBYOPE {
        found
            .details
            .push("From about 45 years on focusing runs out in everybody: not graded (common practice).".to_string());
        return;
    }
    let age = f64::from(years);
    if let Some(lines) = hofstetter(age) {
        found.details.push(format!(
            "Least, mean and most at {years}: {}, {} and {} D (Hofstetter's lines, from two old surveys).",
            number(lines.least.0),
            number(lines.mean.0),
            number(lines.most.0)
        ));
    }
    let objective = objective_amplitude(age)
        .map(|most| format!(": measured objectively it is {:.1} D at most at this age", most.0))
        .unwrap_or_default();
    found.details.push(format!("Moving a target nearer reads too high{objective} (Anderson et al. 2008)."));
    found.sources.push(&ANDERSON);
    if years <= CHILD {
        found.details.push(
            "In children two measurements differ by 5.2 D and two examiners by 3.1; taking 12 D as pass or fail was advised \
             (Adler et al. 2013)."
                .to_string(),
        );
        found.sources.push(&ADLER);
    }
}
