//! What the jumps hand on: signs by direction, shares for the next visit, and every landing in its order.

use super::{DISTANCE, Jumps, Landing, OFF, PAST, RARER, SEPARATION, SHORT, TASK};
use crate::anatomy::Direction;
use crate::capture::answer::Series;
use crate::capture::record::Record;
use crate::capture::showing::{self, program};
use crate::evidence::Norm;
use crate::finding::{Comparison, Grade, Place, Reading};
use crate::quantity::Quantity;
use crate::side_by_side::handed_on::{Counted, Method, called, sided, worse_signs};
use crate::side_by_side::{self, COMPARABLE, grade_share};
use crate::sign::{Sign, What};
use crate::statistics::proportion::Proportion;

static OFF_TARGET: Counted = Counted { task: "saccade", key: OFF, noun: "jumps", event: "not on target" };

pub(super) fn hand_on(reading: &mut Reading, seen: &[Jumps; 2], series: &Series, record: &Record) {
    let method = method(series, record);
    reading.signs = seen.iter().flat_map(landings).chain(worse(reading, seen)).collect();
    for jumps in seen {
        let (toward, off) = (jumps.direction, jumps.off());
        reading.measures.extend(OFF_TARGET.share(toward, off, method.clone()));
        let events = jumps.jumps.iter().map(|jump| jump.landing != Landing::On);
        reading.courses.extend(OFF_TARGET.course(toward, events.collect()));
    }
    let known = series.taps.iter().filter_map(|tap| {
        let toward = Direction::from_word(&tap.pad)?;
        Some((toward, Landing::from_id(&tap.mark)? != Landing::On))
    });
    reading.sided.extend(sided(TASK.id, "jumps not on target", known));
}

/// Short or past in most jumps of one direction, by the rule of its finding.
fn landings(jumps: &Jumps) -> Vec<Sign> {
    if jumps.off().n() < COMPARABLE {
        return Vec::new();
    }
    let most = |share: Proportion, norm: &Norm| grade_share(share, norm) == Grade::OutsideRange;
    let sign = |what, seen| Sign::new(what, Place::Toward(jumps.direction), seen, &landing_key(jumps.direction));
    vec![
        sign(What::Hypometric, most(jumps.landed(Landing::Short), &SHORT)),
        sign(What::Hypermetric, most(jumps.landed(Landing::Past), &PAST)),
    ]
}

/// Worse and later in one direction than in the other.
fn worse(reading: &Reading, seen: &[Jumps; 2]) -> Vec<Sign> {
    let [right, left] = seen.each_ref();
    let off = side_by_side::compare(TASK.id, OFF, "jumps not on target", right.off(), left.off());
    let [late_right, late_left] = [right, left].map(|jumps| jumps.share(|jump| jump.late));
    let late = side_by_side::compare(TASK.id, "late", "late starts", late_right, late_left);
    // One finding tells what is uneven; an unevenness it does not tell is read in the landing of its direction.
    let told = reading.findings.iter().find(|finding| finding.key == UNEVEN);
    let tells = |comparison: &Comparison, toward| {
        let told = told.filter(|finding| {
            finding.place == Place::Toward(toward) && finding.headline.starts_with(&format!("More {}", comparison.what))
        });
        told.map_or_else(|| landing_key(toward), |finding| finding.key.clone())
    };
    let off_worse = side_by_side::worse(&off);
    let late_worse = side_by_side::worse(&late).filter(|_| late.p.is_some_and(|p| p <= RARER));
    let mut signs = worse_signs(What::SaccadesWorse, &off, off_worse, |toward| tells(&off, toward));
    signs.extend(worse_signs(What::SaccadesLate, &late, late_worse, |toward| tells(&late, toward)));
    signs
}

const UNEVEN: &str = "saccade.right_left";

fn landing_key(toward: Direction) -> String {
    format!("{}.landing_{}", TASK.id, toward.word())
}

/// Two visits are alike when the targets stood alike and were called alike.
fn method(series: &Series, record: &Record) -> Method {
    let noted = |key: &str, quantity: &'static Quantity| {
        let value = record.answers.number(key).and_then(|value| quantity.check(value).ok())?;
        Some((quantity.name, quantity.show(value)))
    };
    let targets = [noted("distance", &DISTANCE), noted("separation", &SEPARATION)];
    let shown = showing::method(&record.showings, program::JUMPS);
    targets.into_iter().flatten().chain([called(series)]).chain(shown).collect()
}
