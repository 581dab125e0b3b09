//! The photosensitive guard: a program and a screen become a [`Safe`], and only that is drawn.
//!
//! Where sources differ the strictest is kept. Stripes keep their rate and their number whatever their light, because a
//! page does not know how bright its screen is; small targets pass by their area, with the eyes a fifth nearer than said.

mod exposure;
mod nearest;
#[cfg(test)]
mod tests;

use std::fmt;

use self::exposure::exposure;
use super::colour::{Srgb, general_flash, michelson, red_flash};
use super::evidence::{CONSENSUS, FLASHES, SETS};
use super::program::{Program, Scene, Shown, Stripes};
use super::screen::{At, Axis, Px, Screen};
use super::target::Target;
use crate::evidence::{Citation, number};

/// Flashes a second let through. The limit is three in any second (WCAG 2.2, SC 2.3.1); late frames and starts can make
/// more of an exact three, so a sixth is kept free (design choice).
pub const MOST_FLASHES: f64 = 2.5;

/// Pairs of light and dark stripes in view let through: no more than eight stripes that drift smoothly one way (Harding et
/// al. 2005), which is stricter than its five pairs for stripes that turn round.
pub const MOST_PAIRS: f64 = 4.0;

/// Less than one pair in view is no stripes any more (design choice).
pub const FEWEST_PAIRS: f64 = 1.0;

/// Seconds that stripes move until there is a whole rest, and how long that is: 20 and 10 s in a study (vertical stripes,
/// iovs.arvojournals.org/article.aspx?articleid=2124240). A shorter rest between two directions is none: what moved
/// before it counts on.
pub const LONGEST: f64 = 20.0;
/// See [`LONGEST`].
pub const WHOLE_REST: f64 = 10.0;

/// Steradians within any ten degrees below which flashes do not count (WCAG 2.2, SC 2.3.1).
pub const SMALL_AREA: f64 = 0.006;

/// Eyes may be this much of the said distance away: a fifth nearer (design choice; 35 cm held for 40 is an eighth).
pub const NEARER: f64 = 0.8;

/// Least contrast of stripes, difference over sum: contrasts from 8.2 % on moved the eyes in a study (Essig et al. 2022,
/// doi 10.3390/app122311991, which tested 0.5 to 55.5 %).
pub const LEAST_STRIPES: f64 = 0.082;

/// Fewer CSS pixels across than these hold no face or letter to look at (design choice).
pub const FEWEST_PIXELS: f64 = 12.0;

/// Rounding that is no fault.
const ROUNDING: f64 = 1e-9;

/// A program that may be drawn on this screen. There is no other way to one than [`check`], and a screen that was turned,
/// zoomed or moved needs a new one.
#[derive(Debug, Clone, PartialEq)]
pub struct Safe {
    program: Program,
    screen: Screen,
}

/// Which rule a program broke.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// A parameter that cannot be.
    Bounds,
    /// More than the screen shows at this distance, or too little of it.
    Fits,
    /// Too faint, or too coarse on this screen.
    Visible,
    /// Saturated red.
    Red,
    /// Too many flashes in a second.
    Rate,
    /// Too many stripes in view.
    Pairs,
    /// Too much that flickers at once.
    Area,
    /// Stripes for too long without a rest.
    Length,
}

impl Rule {
    /// Where the rule comes from; none for what a screen simply cannot show.
    #[must_use]
    pub fn source(self) -> Option<&'static Citation> {
        match self {
            Rule::Bounds | Rule::Fits | Rule::Visible => None,
            Rule::Rate | Rule::Area => Some(&FLASHES),
            Rule::Red | Rule::Pairs => Some(&CONSENSUS),
            Rule::Length => Some(&SETS),
        }
    }
}

/// One rule that was broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Which.
    pub rule: Rule,
    /// What is wrong, as a sentence.
    pub says: String,
}

/// Why a program is not drawn, and the nearest that is.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// Every rule it broke; only the first where a parameter cannot be at all.
    pub faults: Vec<Fault>,
    /// The nearest program that may be drawn, where there is one.
    pub nearest: Option<Box<Program>>,
}

impl Refused {
    /// Whether it broke this rule.
    #[must_use]
    pub fn broke(&self, rule: Rule) -> bool {
        self.faults.iter().any(|fault| fault.rule == rule)
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for fault in &self.faults {
            write!(f, "{} ", fault.says)?;
        }
        match &self.nearest {
            Some(program) => {
                let faint = self.broke(Rule::Visible) && matches!(**program, Program::Stripes(_));
                let colours = if faint || self.broke(Rule::Red) { ", in other colours" } else { "" };
                let rests = if self.broke(Rule::Length) { nearest::rests(program) } else { String::new() };
                write!(f, "Possible here: {}{colours}{rests}.", nearest::words(program))
            }
            None => f.write_str("Nothing like it is possible on this screen at this distance."),
        }
    }
}

impl std::error::Error for Refused {}

/// Lets a program through that may be drawn on this screen.
///
/// # Errors
/// [`Refused`] with the rules it breaks.
pub fn check(program: &Program, screen: &Screen) -> Result<Safe, Refused> {
    let faults = faults(program, screen);
    if faults.is_empty() {
        return Ok(Safe { program: program.clone(), screen: *screen });
    }
    let nearest = nearest::nearest(program, screen);
    let nearest = self::faults(&nearest, screen).is_empty().then(|| Box::new(nearest));
    Err(Refused { faults, nearest })
}

impl Safe {
    /// The program.
    #[must_use]
    pub fn program(&self) -> &Program {
        &self.program
    }

    /// The screen it was checked for.
    #[must_use]
    pub fn screen(&self) -> &Screen {
        &self.screen
    }

    /// What it is, in words that begin small and have no full stop.
    #[must_use]
    pub fn says(&self) -> String {
        nearest::words(&self.program)
    }

    /// What is shown so many seconds after the start.
    #[must_use]
    pub fn at(&self, seconds: f64) -> Scene {
        self.program.at(seconds)
    }

    /// A place in CSS pixels from the middle, to the right and down.
    #[must_use]
    pub fn px(&self, at: At) -> (Px, Px) {
        self.screen.px(at)
    }

    /// From where to where each light stripe stands, in CSS pixels from the middle, to the right or down.
    #[must_use]
    pub fn light_stripes(&self, shown: &Shown) -> Vec<(Px, Px)> {
        let Program::Stripes(stripes) = &self.program else { return Vec::new() };
        let axis = Axis::of(shown.toward);
        let px = |degrees| {
            let (right, down) = self.screen.px(At::along(axis, degrees));
            match axis {
                Axis::Horizontal => right,
                Axis::Vertical => down,
            }
        };
        let between = |(from, to)| match axis {
            Axis::Horizontal => (px(from), px(to)),
            Axis::Vertical => (px(to), px(from)),
        };
        stripes.light_stripes(shown, self.screen.half_field(axis)).into_iter().map(between).collect()
    }

    /// Whether epilepsy, migraine and motion sickness have to be asked about before it starts.
    #[must_use]
    pub fn asks_first(&self) -> bool {
        matches!(self.program, Program::Stripes(_))
    }

    /// Whether its stripes are bright enough to count as flashes, so that the screen is to be set to middle brightness in
    /// a lit room: a page does not know how bright white is.
    #[must_use]
    pub fn is_bright(&self) -> bool {
        matches!(&self.program, Program::Stripes(Stripes { light, dark, .. }) if general_flash(*light, *dark))
    }
}

/// The rules a program breaks on a screen.
fn faults(program: &Program, screen: &Screen) -> Vec<Fault> {
    if let Err(refused) = program.check() {
        return vec![Fault { rule: Rule::Bounds, says: refused.to_string() }];
    }
    let mut faults = Vec::new();
    faults.extend(red(program));
    match (program, program.target()) {
        (Program::Stripes(stripes), _) => {
            faults.extend(faint(stripes));
            faults.extend(too_often(stripes));
            faults.extend(too_many(stripes, screen));
            faults.extend(too_wide(stripes, screen));
            faults.extend(too_long(stripes));
        }
        (_, Some(target)) => {
            faults
                .extend([Axis::Horizontal, Axis::Vertical].into_iter().find_map(|axis| too_far(program, screen, axis)));
            faults.extend(too_coarse(target, screen));
            faults.extend(too_large(program, target));
        }
        (_, None) => {}
    }
    faults
}

fn red(program: &Program) -> Option<Fault> {
    let colour = colours(program).into_iter().find(|colour| colour.is_saturated_red())?;
    let says = format!("Saturated red ({colour}) can provoke seizures and is never shown.");
    Some(Fault { rule: Rule::Red, says })
}

fn faint(stripes: &Stripes) -> Option<Fault> {
    let contrast = michelson(stripes.light, stripes.dark);
    (contrast < LEAST_STRIPES).then(|| {
        let says = format!("The stripes are too faint: {} % of contrast.", number((1000.0 * contrast).floor() / 10.0));
        Fault { rule: Rule::Visible, says }
    })
}

fn too_often(stripes: &Stripes) -> Option<Fault> {
    let flashes = stripes.flashes_a_second();
    (flashes > MOST_FLASHES + ROUNDING).then(|| {
        let says = format!(
            "Stripes of {}° at {}° a second flash {} times a second at each place; at most {} are let through.",
            number(stripes.period.0 / 2.0),
            number(stripes.speed),
            number((100.0 * flashes).ceil() / 100.0),
            number(MOST_FLASHES)
        );
        Fault { rule: Rule::Rate, says }
    })
}

fn too_many(stripes: &Stripes, screen: &Screen) -> Option<Fault> {
    let pairs = fields(stripes, screen).fold(0.0, f64::max) / stripes.period.0;
    (pairs > MOST_PAIRS + ROUNDING).then(|| {
        let says = format!(
            "{} light and dark stripes would be in view; at most {} are let through.",
            number((20.0 * pairs).ceil() / 10.0),
            number(2.0 * MOST_PAIRS)
        );
        Fault { rule: Rule::Pairs, says }
    })
}

fn too_wide(stripes: &Stripes, screen: &Screen) -> Option<Fault> {
    let narrow = fields(stripes, screen).fold(f64::INFINITY, f64::min);
    (narrow / stripes.period.0 < FEWEST_PAIRS - ROUNDING).then(|| {
        let says = format!(
            "At {} cm this screen shows {}° along the way of the stripes, less than a light and a dark one of {}° together.",
            number(screen.distance().0),
            degrees(narrow),
            number(stripes.period.0)
        );
        Fault { rule: Rule::Fits, says }
    })
}

fn too_long(stripes: &Stripes) -> Option<Fault> {
    let moving = stripes.without_rest(WHOLE_REST);
    (moving > LONGEST + ROUNDING).then(|| {
        let says = format!(
            "Stripes would move for {} s without a rest of {} s; at most {} s are let through.",
            number(moving),
            number(WHOLE_REST),
            number(LONGEST)
        );
        Fault { rule: Rule::Length, says }
    })
}

/// What the screen shows along each way the stripes move.
fn fields<'a>(stripes: &'a Stripes, screen: &'a Screen) -> impl Iterator<Item = f64> + 'a {
    stripes.toward.iter().map(|toward| screen.field(Axis::of(*toward)).0)
}

fn too_far(program: &Program, screen: &Screen, axis: Axis) -> Option<Fault> {
    let (needs, there) = (program.extent(axis), screen.half_field(axis).0);
    (needs > there + ROUNDING).then(|| {
        let way = match axis {
            Axis::Horizontal => "to each side",
            Axis::Vertical => "up and down",
        };
        let says = format!(
            "At {} cm this screen shows {}° {way} from the middle; {}° are needed.",
            number(screen.distance().0),
            degrees(there),
            number((10.0 * needs - ROUNDING).ceil() / 10.0)
        );
        Fault { rule: Rule::Fits, says }
    })
}

fn too_coarse(target: &Target, screen: &Screen) -> Option<Fault> {
    let pixels = screen.size_px(target.size()).0;
    (pixels < FEWEST_PIXELS - ROUNDING).then(|| {
        let says = format!(
            "A {} of {}° is only {} pixels wide here, too coarse to look at.",
            target.kind().word(),
            number(target.size().0),
            number(pixels.floor())
        );
        Fault { rule: Rule::Visible, says }
    })
}

fn too_large(program: &Program, target: &Target) -> Option<Fault> {
    let flash = general_flash(target.ink(), target.ground()) || red_flash(target.ink(), target.ground());
    let exposure = exposure(program);
    (flash && exposure.a_second > MOST_FLASHES && exposure.area > SMALL_AREA).then(|| {
        let says = format!(
            "A {} of {}° that moves so fast flickers over too large a part of the view.",
            target.kind().word(),
            number(target.size().0)
        );
        Fault { rule: Rule::Area, says }
    })
}

/// Every colour a program shows.
fn colours(program: &Program) -> Vec<Srgb> {
    match program {
        Program::Stripes(stripes) => vec![stripes.light, stripes.dark],
        Program::Following(_)
        | Program::Jumps(_)
        | Program::Antisaccade(_)
        | Program::NearFar(_)
        | Program::Still(_)
        | Program::HeadTurns(_) => {
            program.target().map(|target| vec![target.ink(), target.ground()]).unwrap_or_default()
        }
    }
}

/// Degrees that are there, cut to a tenth so that what is printed fits.
fn degrees(there: f64) -> String {
    number((10.0 * there + ROUNDING).floor() / 10.0)
}
