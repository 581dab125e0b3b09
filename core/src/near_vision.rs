//! The arithmetic of near vision: focusing by age, deviations against reserves, and how much turning in goes with focusing.
//!
//! Deviations are signed: inward (eso) above zero, outward (exo) below.

use crate::evidence::Citation;
use crate::quantity::{Centimetres, Dioptres, Millimetres, PrismDioptres};

/// The three lines by age.
pub static HOFSTETTER: Citation = Citation {
    short: "Hofstetter 1950",
    place: "three lines by age, fitted to two old surveys; as given in an encyclopedia",
    link: "en.wikipedia.org/wiki/Amplitude_of_accommodation",
};
/// The measured maximum, without the person's own judgement of blur.
pub static ANDERSON: Citation = Citation {
    short: "Anderson et al. 2008",
    place: "objective amplitude of 140 people of 3 to 40 years, Invest Ophthalmol Vis Sci",
    link: "pubmed.ncbi.nlm.nih.gov/18326693",
};
/// The reserve against the deviation.
pub static SHEARD: Citation = Citation {
    short: "Sheard's criterion",
    place: "dictionary entry; original from memory: Sheard 1930",
    link: "medical-dictionary.thefreedictionary.com/Sheard+criterion",
};
/// The middle third.
pub static PERCIVAL: Citation = Citation {
    short: "Percival's criterion",
    place: "dictionary entry; original from memory: Percival 1928",
    link: "medical-dictionary.thefreedictionary.com/Percival+criterion",
};
/// Both ways of working out AC/A, their averages and spread.
pub static AC_A: Citation = Citation {
    short: "a children's eye wiki on AC/A",
    place: "calculated: mean 4.4 (2.7 to 7.7); gradient: mean 3.7 (0.9 to 9.8)",
    link: "childrenseye.org/wiki/doku.php?do=export_xhtml&id=accommodative_convergence_to_accommodation_ratio",
};

/// Focusing amplitudes at one age.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amplitudes {
    /// The least that is expected.
    pub least: Dioptres,
    /// The mean.
    pub mean: Dioptres,
    /// The most.
    pub most: Dioptres,
}

/// The three lines by age in years: 15 - 0.25 a, 18.5 - 0.30 a, 25 - 0.40 a.
///
/// `None` unless the age is a number from 0 up, and where the lowest line has run out (from 60 years on).
#[must_use]
pub fn hofstetter(years: f64) -> Option<Amplitudes> {
    let least = 15.0 - 0.25 * years;
    (years.is_finite() && years >= 0.0 && least > 0.0).then_some(Amplitudes {
        least: Dioptres(least),
        mean: Dioptres(18.5 - 0.30 * years),
        most: Dioptres(25.0 - 0.40 * years),
    })
}

/// The greatest amplitude measured objectively: 7.33 - 0.0035 (a - 3)². `None` outside the 3 to 40 years examined.
#[must_use]
pub fn objective_amplitude(years: f64) -> Option<Dioptres> {
    (3.0..=40.0).contains(&years).then(|| Dioptres(7.33 - 0.0035 * (years - 3.0).powi(2)))
}

/// Which way the base of a prism lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Base {
    /// Toward the nose: less turning in is asked of the eyes.
    In,
    /// Toward the temples: more turning in is asked.
    Out,
}

impl Base {
    /// "base-in".
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Base::In => "base-in",
            Base::Out => "base-out",
        }
    }
}

/// A prism, both eyes together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prism {
    /// Its power.
    pub power: PrismDioptres,
    /// Where its base lies.
    pub base: Base,
}

/// How a rule for comfort came out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Criterion {
    /// The ratio the rule asks for.
    pub ratio: f64,
    /// The prism with which the rule would just be met; `None` when it is met without.
    pub prism: Option<Prism>,
}

/// Sheard's rule: the reserve that opposes the deviation is at least twice as large.
///
/// With a prism P the deviation shrinks and the reserve grows by P: R + P = 2 (D - P), so P = 2/3 D - 1/3 R. `None`
/// without a deviation, or when a number is not possible.
#[must_use]
pub fn sheard(deviation: PrismDioptres, opposing: PrismDioptres) -> Option<Criterion> {
    let size = deviation.0.abs();
    let possible = size.is_finite() && size > 0.0 && opposing.0.is_finite() && opposing.0 >= 0.0;
    let base = if deviation.0 < 0.0 { Base::In } else { Base::Out };
    possible.then(|| Criterion { ratio: opposing.0 / size, prism: needed(2.0 / 3.0 * size - opposing.0 / 3.0, base) })
}

/// Percival's rule: zero demand lies in the middle third of the whole range, so the smaller reserve is at least half the
/// larger. The deviation plays no part.
///
/// With a prism P: L + P = (G - P) / 2, so P = 1/3 G - 2/3 L. `None` without any reserve, or when a number is not possible.
#[must_use]
pub fn percival(base_out: PrismDioptres, base_in: PrismDioptres) -> Option<Criterion> {
    let possible = |reserve: f64| reserve.is_finite() && reserve >= 0.0;
    let (less, more) = (base_out.0.min(base_in.0), base_out.0.max(base_in.0));
    if !possible(base_out.0) || !possible(base_in.0) || more == 0.0 {
        return None;
    }
    // A base-in prism asks for less turning in, which leaves more of the base-out reserve.
    let base = if base_out.0 < base_in.0 { Base::In } else { Base::Out };
    Some(Criterion { ratio: less / more, prism: needed(more / 3.0 - 2.0 / 3.0 * less, base) })
}

/// A prism of more than nothing; a millionth is what binary fractions leave over.
fn needed(power: f64, base: Base) -> Option<Prism> {
    (power > 1e-6).then_some(Prism { power: PrismDioptres(power), base })
}

/// AC/A calculated from the deviations at far and near: pupillary distance in cm + near distance in m x (near - far).
///
/// The form without the distance factor, which circulates as well, adds centimetres and prism dioptres and is wrong.
/// `None` unless both lengths are above zero.
#[must_use]
pub fn calculated_ac_a(
    pupils: Millimetres,
    near: Centimetres,
    far: PrismDioptres,
    at_near: PrismDioptres,
) -> Option<f64> {
    let possible = pupils.0 > 0.0 && near.0 > 0.0 && (pupils.0 + near.0 + far.0 + at_near.0).is_finite();
    possible.then(|| pupils.0 / 10.0 + near.0 / 100.0 * (at_near.0 - far.0))
}

/// AC/A from the change of the deviation with a lens at one distance: a minus lens asks for focusing, so the change of the
/// deviation is set against the lens taken away. `None` when both lenses are alike.
#[must_use]
pub fn gradient_ac_a(one: (Dioptres, PrismDioptres), other: (Dioptres, PrismDioptres)) -> Option<f64> {
    let ratio = (one.1.0 - other.1.0) / (other.0.0 - one.0.0);
    ratio.is_finite().then_some(ratio)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(actual: f64, expected: f64, tolerance: f64) {
        assert!((actual - expected).abs() <= tolerance, "expected {expected}, found {actual}");
    }

    fn pd(value: f64) -> PrismDioptres {
        PrismDioptres(value)
    }

    #[track_caller]
    fn prism(criterion: Option<Criterion>, power: f64, base: Base) {
        let prism = criterion.expect("possible").prism.expect("needed");
        check(prism.power.0, power, 0.005);
        assert_eq!(prism.base, base);
    }

    /// By arithmetic from the lines of Hofstetter 1950 and the formula of Anderson et al. 2008.
    #[test]
    fn amplitudes_at_ten_twenty_and_forty() {
        for (years, least, mean, most, objective) in
            [(10.0, 12.5, 15.5, 21.0, 7.16), (20.0, 10.0, 12.5, 17.0, 6.32), (40.0, 5.0, 6.5, 9.0, 2.54)]
        {
            let lines = hofstetter(years).expect("an age");
            check(lines.least.0, least, 1e-9);
            check(lines.mean.0, mean, 1e-9);
            check(lines.most.0, most, 1e-9);
            check(objective_amplitude(years).expect("examined").0, objective, 0.005);
        }
        assert_eq!((hofstetter(60.0), hofstetter(-1.0), hofstetter(f64::NAN)), (None, None, None));
        assert_eq!((objective_amplitude(2.9), objective_amplitude(40.1)), (None, None));
    }

    /// 10 exo with 20 is a dictionary's example of Sheard's criterion. 9 exo with 12, and 3 eso with 8, are a blog's (two
    /// criteria for determining prisms, 2015), whose third example, 10 exo with 10, prints 3.25 for 3.33.
    #[test]
    fn sheard_examples() {
        let met = sheard(pd(-10.0), pd(20.0)).expect("possible");
        assert_eq!(met, Criterion { ratio: 2.0, prism: None });
        prism(sheard(pd(-10.0), pd(15.0)), 1.67, Base::In);
        prism(sheard(pd(-9.0), pd(12.0)), 2.0, Base::In);
        prism(sheard(pd(-10.0), pd(10.0)), 3.33, Base::In);
        assert_eq!(sheard(pd(3.0), pd(8.0)).expect("possible").prism, None);
        prism(sheard(pd(9.0), pd(12.0)), 2.0, Base::Out);
        assert_eq!((sheard(pd(0.0), pd(8.0)), sheard(pd(3.0), pd(-1.0))), (None, None));
    }

    /// With the prism worn, Sheard's rule is just met: R + P = 2 (D - P).
    #[test]
    fn with_the_prism_the_rules_are_just_met() {
        for (deviation, reserve) in [(10.0, 15.0), (9.0, 12.0), (12.0, 0.0)] {
            let power = sheard(pd(deviation), pd(reserve)).and_then(|c| c.prism).expect("needed").power.0;
            check(sheard(pd(deviation - power), pd(reserve + power)).expect("possible").ratio, 2.0, 1e-9);
        }
        for (less, more) in [(6.0, 18.0), (0.0, 9.0)] {
            let power = percival(pd(less), pd(more)).and_then(|c| c.prism).expect("needed").power.0;
            check(percival(pd(less + power), pd(more - power)).expect("possible").ratio, 0.5, 1e-9);
        }
    }

    /// 6 and 3 just pass (an examination question's example); 18 and 6 by arithmetic: 18 / 3 - 2 x 6 / 3 = 2.
    #[test]
    fn percival_examples() {
        assert_eq!(percival(pd(6.0), pd(3.0)), Some(Criterion { ratio: 0.5, prism: None }));
        prism(percival(pd(18.0), pd(6.0)), 2.0, Base::Out);
        prism(percival(pd(6.0), pd(18.0)), 2.0, Base::In);
        assert_eq!((percival(pd(0.0), pd(0.0)), percival(pd(-1.0), pd(3.0))), (None, None));
    }

    /// 60 mm, 36 eso far, 30 eso at a third of a metre: 6 + (30 - 36) / 3 (inputs of an ophthalmology mock examination).
    /// 62 mm, 45 cm, 3 exo far, 2 exo near: 6.65, printed as 6.67 in a lesson. 60 mm, none far, 10 eso at 40 cm: 10
    /// (student notes).
    #[test]
    fn calculated_ac_a_examples() {
        let at =
            |mm, cm, far, near| calculated_ac_a(Millimetres(mm), Centimetres(cm), pd(far), pd(near)).expect("possible");
        check(at(60.0, 100.0 / 3.0, 36.0, 30.0), 4.0, 1e-9);
        check(at(62.0, 45.0, -3.0, -2.0), 6.65, 1e-9);
        check(at(60.0, 40.0, 0.0, 10.0), 10.0, 1e-9);
        assert_eq!(calculated_ac_a(Millimetres(0.0), Centimetres(40.0), pd(0.0), pd(1.0)), None);
    }

    /// 12 eso with -2.00, 4 exo with +2.00: 16 over 4 (inputs of an ophthalmology mock examination).
    #[test]
    fn a_gradient_ac_a_example() {
        let (minus, plus) = ((Dioptres(-2.0), pd(12.0)), (Dioptres(2.0), pd(-4.0)));
        check(gradient_ac_a(minus, plus).expect("possible"), 4.0, 1e-9);
        check(gradient_ac_a(plus, minus).expect("possible"), 4.0, 1e-9);
        assert_eq!(gradient_ac_a(minus, minus), None);
    }
}
