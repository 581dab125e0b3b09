//! Deviations, reserves, the two criteria for comfort, and AC/A.

use super::evidence::{BASE_IN_CHANGE, BASE_OUT_CHANGE, MORGAN, PERCIVAL, SHEARD};
use super::form::{DEVIATION, LENS, METHODS, NEAR, PUPILS, RECOVERY, RESERVE};
use super::{Entered, finding, limited, measure};
use crate::capture::form::label;
use crate::evidence::{ChangeLimit, Norm, number};
use crate::finding::{Finding, Grade, Place, Reading};
use crate::measure::{Better, Measure};
use crate::near_vision::{AC_A, Criterion, calculated_ac_a, gradient_ac_a, percival, sheard};
use crate::quantity::{Centimetres, Dioptres, Millimetres, PrismDioptres};

pub(super) fn read(entered: &Entered<'_>, reading: &mut Reading) {
    for at in Distance::BOTH {
        let deviation = deviation(entered, at.phoria());
        if let Some(deviation) = deviation {
            reading.findings.push(phoria(entered, at, deviation));
            reading.measures.push(phoria_measure(entered, at, deviation));
        }
        let reserves = Base::BOTH.map(|base| Reserve::of(entered, base, at));
        for reserve in reserves.iter().filter(|reserve| reserve.any()) {
            reading.findings.push(told(reserve));
            reading.measures.extend(reserve.measures(entered));
        }
        reading.findings.extend(deviation.and_then(|deviation| sheard_at(at, deviation, &reserves)));
        reading.findings.extend(percival_at(at, &reserves));
    }
    for (key, found) in [("ac_a_calculated", calculated(entered)), ("ac_a_gradient", gradient(entered))] {
        let Some((found, ratio)) = found else { continue };
        reading.findings.push(found);
        let words = if key == "ac_a_gradient" { "AC/A, gradient" } else { "AC/A, calculated" };
        reading.measures.push(with_method(entered, measure(key, words, ratio, "PD/D", Better::Neither)));
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Distance {
    Far,
    Near,
}

impl Distance {
    const BOTH: [Distance; 2] = [Distance::Far, Distance::Near];

    fn word(self) -> &'static str {
        match self {
            Distance::Far => "far",
            Distance::Near => "near",
        }
    }

    fn phoria(self) -> &'static str {
        match self {
            Distance::Far => "phoria_far",
            Distance::Near => "phoria_near",
        }
    }

    /// Exo that is expected, in PD (Morgan 1944).
    fn expected(self) -> f64 {
        match self {
            Distance::Far => 2.0,
            Distance::Near => 6.0,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Base {
    Out,
    In,
}

impl Base {
    const BOTH: [Base; 2] = [Base::Out, Base::In];

    fn key(self) -> &'static str {
        match self {
            Base::Out => "base_out",
            Base::In => "base_in",
        }
    }

    fn words(self) -> &'static str {
        match self {
            Base::Out => "Base-out",
            Base::In => "Base-in",
        }
    }

    /// Expected blur, break and recovery (Morgan 1944). Looking far, base-in has no blur.
    fn expected(self, at: Distance) -> &'static str {
        match (self, at) {
            (Base::Out, Distance::Far) => "blur 7 to 11, break 15 to 23, recovery 8 to 12 PD",
            (Base::In, Distance::Far) => "break 5 to 9, recovery 3 to 5 PD",
            (Base::Out, Distance::Near) => "blur 14 to 20, break 18 to 24, recovery 7 to 15 PD",
            (Base::In, Distance::Near) => "blur 11 to 15, break 19 to 23, recovery 10 to 16 PD",
        }
    }

    /// Limits of change of a break. Only one study was found, and it measured near.
    fn limits(self, at: Distance) -> &'static [ChangeLimit] {
        match (self, at) {
            (Base::Out, Distance::Near) => BASE_OUT_CHANGE,
            (Base::In, Distance::Near) => BASE_IN_CHANGE,
            (Base::Out | Base::In, Distance::Far) => &[],
        }
    }
}

/// The deviation under a key, inward above zero; none without an amount.
fn deviation(entered: &Entered<'_>, key: &str) -> Option<PrismDioptres> {
    let amount = || entered.number(key, &DEVIATION);
    match entered.one(&format!("{key}_way"))? {
        "exo" => Some(PrismDioptres(-amount()?)),
        "eso" => Some(PrismDioptres(amount()?)),
        "none" => Some(PrismDioptres(0.0)),
        _ => None,
    }
}

/// "8 PD exo".
fn words(deviation: PrismDioptres) -> String {
    match deviation.0 {
        0.0 => "none".to_string(),
        d if d < 0.0 => format!("{} PD exo", number(-d)),
        d => format!("{} PD eso", number(d)),
    }
}

fn phoria(entered: &Entered<'_>, at: Distance, deviation: PrismDioptres) -> Finding {
    let cm = entered.number("near_distance", &NEAR).filter(|_| at == Distance::Near);
    let cm = cm.map(|cm| format!(" at {}", NEAR.show(cm))).unwrap_or_default();
    let headline = format!("Phoria {}{cm}: {}", at.word(), words(deviation));
    let mut found = finding(at.phoria(), Place::Both, headline, deviation.0, "PD");
    let inside = (-at.expected()..=0.0).contains(&deviation.0);
    // Expected values are the mean and a part of one spread to each side, half of it by most copies (from memory), so a
    // third or more of healthy people lie outside them: what is outside is recorded only.
    found.grade = if inside { Grade::WithinRange } else { Grade::NoRange };
    found.sources.push(&MORGAN);
    if !inside {
        found.details.push(format!(
            "0 to {} PD exo is expected (Morgan 1944); this is the middle of healthy people, not a limit, and many lie beyond \
             it (from memory).",
            number(at.expected())
        ));
    }
    found
}

fn phoria_measure(entered: &Entered<'_>, at: Distance, deviation: PrismDioptres) -> Measure {
    let what = format!("phoria {} (eso above zero)", at.word());
    let phoria = measure(at.phoria(), &what, deviation.0, "PD", Better::Neither);
    if at == Distance::Near { with_method(entered, phoria) } else { by_test(entered, phoria) }
}

/// The near distance and the way the phoria was measured, where they were noted.
fn with_method(entered: &Entered<'_>, measure: Measure) -> Measure {
    let mut measure = by_test(entered, measure);
    measure.method.extend(entered.number("near_distance", &NEAR).map(|cm| ("near distance", NEAR.show(cm))));
    measure
}

fn by_test(entered: &Entered<'_>, mut measure: Measure) -> Measure {
    let test = entered.one("phoria_method").map(|id| ("phoria by", label(METHODS, id).to_lowercase()));
    measure.method.extend(test);
    measure
}

/// What one base brought at one distance.
#[derive(Debug)]
struct Reserve {
    base: Base,
    at: Distance,
    blur: Option<f64>,
    breaks: Option<f64>,
    recovery: Option<f64>,
}

impl Reserve {
    fn of(entered: &Entered<'_>, base: Base, at: Distance) -> Reserve {
        let number = |what: &str, quantity| entered.number(&format!("{}_{}_{what}", base.key(), at.word()), quantity);
        Reserve {
            base,
            at,
            blur: number("blur", &RESERVE),
            breaks: number("break", &RESERVE),
            recovery: number("recovery", &RECOVERY),
        }
    }

    fn parts(&self) -> impl Iterator<Item = (&'static str, f64)> {
        let parts = [("blur", self.blur), ("break", self.breaks), ("recovery", self.recovery)];
        parts.into_iter().filter_map(|(what, value)| Some((what, value?)))
    }

    fn any(&self) -> bool {
        self.parts().next().is_some()
    }

    /// The reserve that counts for comfort: to blur, else to the break.
    fn counts(&self) -> Option<f64> {
        self.blur.or(self.breaks)
    }

    fn measures(&self, entered: &Entered<'_>) -> Vec<Measure> {
        let one = |(part, value): (&str, f64)| {
            let key = format!("{}_{}_{part}", self.base.key(), self.at.word());
            let what = format!("{} reserve {}, {part}", self.base.words().to_lowercase(), self.at.word());
            let mut one = measure(&key, &what, value, "PD", Better::Higher);
            if self.at == Distance::Near {
                one.method.extend(entered.number("near_distance", &NEAR).map(|cm| ("near distance", NEAR.show(cm))));
            }
            if part == "break" { limited(one, self.base.limits(self.at), None) } else { one }
        };
        self.parts().map(one).collect()
    }
}

/// "Base-out near: blur 12, break 18, recovery 8 PD".
fn told(reserve: &Reserve) -> Finding {
    let parts: Vec<String> = reserve.parts().map(|(what, value)| format!("{what} {}", number(value))).collect();
    let (base, at) = (reserve.base, reserve.at);
    let headline = format!("{} {}: {} PD", base.words(), at.word(), parts.join(", "));
    let mut found = Finding::new(super::TASK.id, &format!("{}_{}", base.key(), at.word()), Place::Both, headline);
    found.value = reserve.counts().map(|number| crate::finding::Value { number, unit: "PD", interval: None });
    found.details = vec![format!("Expected: {} (Morgan 1944).", base.expected(at))];
    found.sources = vec![&MORGAN];
    if let Some(limit) = base.limits(at).first() {
        let change = number(limit.value);
        found.details.push(format!("Within 90 days it differs by up to {change} PD in health (Scheiman et al. 2025)."));
        found.sources.push(limit.source);
    }
    found
}

/// Sheard's criterion at one distance.
fn sheard_at(at: Distance, deviation: PrismDioptres, reserves: &[Reserve; 2]) -> Option<Finding> {
    let [out, inward] = reserves;
    let opposing = if deviation.0 < 0.0 { out } else { inward };
    let reserve = opposing.counts()?;
    let criterion = sheard(deviation, PrismDioptres(reserve))?;
    let meets = if criterion.prism.is_none() { "meets" } else { "does not meet" };
    let headline = format!(
        "{} reserve {} {meets} Sheard's criterion: {} PD against {}",
        opposing.base.words(),
        at.word(),
        number(reserve),
        words(deviation)
    );
    let mut found = judged(&format!("sheard_{}", at.word()), headline, &criterion, &SHEARD, opposing.blur.is_some());
    let blur = if opposing.blur.is_some() { "to blur" } else { "to the break, no blur being noted" };
    found.details.push(format!("Taken {blur}; twice the deviation is asked for.{}", prism_words(&criterion)));
    Some(found)
}

/// Percival's criterion at one distance.
fn percival_at(at: Distance, reserves: &[Reserve; 2]) -> Option<Finding> {
    let [out, inward] = reserves;
    let (base_out, base_in) = (out.counts()?, inward.counts()?);
    let criterion = percival(PrismDioptres(base_out), PrismDioptres(base_in))?;
    let meets = if criterion.prism.is_none() { "meet" } else { "do not meet" };
    let headline = format!(
        "Reserves {} {meets} Percival's criterion: base-out {}, base-in {} PD",
        at.word(),
        number(base_out),
        number(base_in)
    );
    let both = out.blur.is_some() && inward.blur.is_some();
    let mut found = judged(&format!("percival_{}", at.word()), headline, &criterion, &PERCIVAL, both);
    let blur = if both { "to blur" } else { "to the break where no blur is noted" };
    found.details.push(format!(
        "Taken {blur}; zero is to lie in the middle third of the range, whatever the deviation.{}",
        prism_words(&criterion)
    ));
    Some(found)
}

/// A criterion is a rule for comfort, and reserves vary more than its margin, so failing it is never outside a range. It is
/// meant for reserves to blur: met by a break, which lies farther out, it is recorded only.
fn judged(what: &str, headline: String, criterion: &Criterion, norm: &'static Norm, blurred: bool) -> Finding {
    let mut found = finding(what, Place::Both, headline, criterion.ratio, "");
    found.norm = Some(norm);
    found.grade = match (criterion.prism, blurred) {
        (Some(_), _) => Grade::NearLimit,
        (None, true) => Grade::WithinRange,
        (None, false) => Grade::NoRange,
    };
    found.sources.push(norm.source);
    found
}

/// " A prism of 1.67 PD base-in in all would just meet it."
fn prism_words(criterion: &Criterion) -> String {
    let words = |prism: crate::near_vision::Prism| {
        format!(" A prism of {} PD {} in all would just meet it.", number(prism.power.0), prism.base.words())
    };
    criterion.prism.map(words).unwrap_or_default()
}

fn calculated(entered: &Entered<'_>) -> Option<(Finding, f64)> {
    let (apart, near) = (entered.number("pd", &PUPILS)?, entered.number("near_distance", &NEAR)?);
    let (far, at_near) = (deviation(entered, "phoria_far")?, deviation(entered, "phoria_near")?);
    let ratio = calculated_ac_a(Millimetres(apart), Centimetres(near), far, at_near)?;
    let mut found =
        finding("ac_a_calculated", Place::Both, format!("Calculated AC/A {} PD/D", number(ratio)), ratio, "PD/D");
    found.details = vec![
        "Average 4.4 (2.7 to 7.7); 3 to 5 expected (Morgan 1944). No limit of change is known.".to_string(),
        "Pupillary distance in cm plus near distance in m times (phoria near less far). A version without the distance \
         circulates; its units do not match, and it is not used."
            .to_string(),
    ];
    found.sources = vec![&AC_A, &MORGAN];
    Some((found, ratio))
}

fn gradient(entered: &Entered<'_>) -> Option<(Finding, f64)> {
    let lens = Dioptres(entered.number("lens", &LENS)?);
    let (plain, with) = (deviation(entered, "phoria_near")?, deviation(entered, "phoria_lens")?);
    let ratio = gradient_ac_a((Dioptres(0.0), plain), (lens, with))?;
    let headline = format!("Gradient AC/A {} PD/D", number(ratio));
    let mut found = finding("ac_a_gradient", Place::Both, headline, ratio, "PD/D");
    found.details = vec![
        "Average 3.7 (0.9 to 9.8); up to 2 is called low, 2.5 to 5 normal, above 5 high.".to_string(),
        format!(
            "Change of the phoria near with a lens of {}{} D; not to be set against the calculated one.",
            if lens.0 > 0.0 { "+" } else { "" },
            LENS.digits(lens.0)
        ),
    ];
    found.sources = vec![&AC_A];
    Some((found, ratio))
}
