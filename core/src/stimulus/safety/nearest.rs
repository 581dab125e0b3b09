//! The nearest program that may be drawn: as much of what was asked for as the rules leave.

use super::{
    FEWEST_PIXELS, LEAST_STRIPES, LONGEST, MOST_FLASHES, MOST_PAIRS, SMALL_AREA, WHOLE_REST, colours,
    exposure::exposure,
};
use crate::evidence::number;
use crate::quantity::Degrees;
use crate::stimulus::colour::{Srgb, general_flash, michelson};
use crate::stimulus::program::{Following, Pace, Program, Stripes};
use crate::stimulus::screen::{At, Axis, Screen};
use crate::stimulus::target::{SIZE, Target};

/// A try at the nearest program; the guard judges it like any other.
pub(super) fn nearest(program: &Program, screen: &Screen) -> Program {
    let mut nearest = program.within_bounds();
    let red = colours(program).iter().any(|colour| colour.is_saturated_red());
    if let Some(target) = nearest.target_mut() {
        if red {
            *target = target.plain();
        }
        let (size, pixels) = (target.size().0, screen.size_px(target.size()).0);
        let least = if pixels < FEWEST_PIXELS { tenth_up(FEWEST_PIXELS * size / pixels) } else { size };
        let most = 2.0 * screen.half_field(Axis::Horizontal).0.min(screen.half_field(Axis::Vertical).0);
        *target = target.sized(if size > most { tenth_down(most) } else { least });
    }
    fit(&mut nearest, screen);
    match &mut nearest {
        Program::Stripes(stripes) => calm_stripes(stripes, screen, red),
        Program::Following(following) => calm_following(following),
        Program::Jumps(_)
        | Program::Antisaccade(_)
        | Program::NearFar(_)
        | Program::Still(_)
        | Program::HeadTurns(_) => {}
    }
    nearest
}

/// A program as the end of a sentence, without its colours.
pub(super) fn words(program: &Program) -> String {
    let target = |target: &Target| format!("{} of {}°", target.kind().word(), number(target.size().0));
    match program {
        Program::Following(following) => {
            let pace = match following.pace {
                Pace::Constant(speed) => format!("{}° a second", number(speed)),
                Pace::Swings(swings) => format!("{} swings a second", number(swings)),
            };
            format!("a {}, {}° from the middle, {pace}", target(&following.target), number(following.half_width.0))
        }
        Program::Jumps(jumps) => {
            format!("a {}, {}° from the middle", target(&jumps.target), number(jumps.half_width.0))
        }
        Program::Antisaccade(anti) => {
            format!("a {}, {}° from the middle", target(&anti.target), number(anti.half_width.0))
        }
        Program::NearFar(near_far) => format!("a {}", target(&near_far.target)),
        Program::Still(still) => {
            format!("a {}, {}° from the middle", target(&still.target), number(still.place.eccentricity().0))
        }
        Program::HeadTurns(turns) => format!("a {}", target(&turns.target)),
        Program::Stripes(stripes) => {
            format!("stripes of {}° at {}° a second", number(stripes.period.0 / 2.0), number(stripes.speed))
        }
    }
}

/// How long stripes move and rest, to follow these words.
pub(super) fn rests(program: &Program) -> String {
    match program {
        Program::Stripes(Stripes { toward, seconds, rest, .. }) if toward.len() > 1 => {
            format!(", {} s each way and {} s of rest between", number(*seconds), number(*rest))
        }
        Program::Stripes(Stripes { seconds, .. }) => format!(", for {} s", number(*seconds)),
        Program::Following(_)
        | Program::Jumps(_)
        | Program::Antisaccade(_)
        | Program::NearFar(_)
        | Program::Still(_)
        | Program::HeadTurns(_) => String::new(),
    }
}

/// Draws what goes too far out back to where it fits.
fn fit(program: &mut Program, screen: &Screen) {
    let radius = program.target().map_or(0.0, |target| target.size().0 / 2.0);
    let room = |axis: Axis| tenth_down(screen.half_field(axis).0 - radius).max(0.0);
    let (wide, high) = (room(Axis::Horizontal), room(Axis::Vertical));
    let along = |axis: Axis| if axis == Axis::Horizontal { wide } else { high };
    match program {
        Program::Following(Following { path, half_width, .. }) => {
            let most = path.line().map_or(wide.min(high), along);
            *half_width = Degrees(half_width.0.min(most));
        }
        Program::Jumps(jumps) => jumps.half_width = Degrees(jumps.half_width.0.min(along(jumps.axis))),
        Program::Antisaccade(anti) => anti.half_width = Degrees(anti.half_width.0.min(wide)),
        Program::Still(still) => {
            let At { right, up } = still.place;
            let needs = still.aslant();
            let share = (wide / (needs * right.abs())).min(high / (needs * up.abs())).min(1.0);
            still.place = At { right: right * share, up: up * share };
        }
        Program::NearFar(_) | Program::HeadTurns(_) | Program::Stripes(_) => {}
    }
}

/// Keeps the speed as long as the screen has room for stripes wide enough for it.
fn calm_stripes(stripes: &mut Stripes, screen: &Screen, red: bool) {
    stripes.toward.truncate(8);
    if red {
        // As light as they were, without their colour, unless that leaves nothing to see.
        let grey = |colour: Srgb| colour.grey_between(colour);
        (stripes.light, stripes.dark) = (grey(stripes.light), grey(stripes.dark));
    }
    if michelson(stripes.light, stripes.dark) < LEAST_STRIPES {
        (stripes.light, stripes.dark) = Stripes::DIM;
    }
    let fields = || stripes.toward.iter().map(|toward| screen.field(Axis::of(*toward)).0);
    let (narrow, wide) = (fields().fold(f64::INFINITY, f64::min), fields().fold(0.0, f64::max));
    stripes.speed = stripes.speed.min(tenth_down(MOST_FLASHES * tenth_down(narrow)));
    let least = tenth_up((stripes.speed / MOST_FLASHES).max(wide / MOST_PAIRS));
    stripes.period = Degrees(stripes.period.0.max(least).min(tenth_down(narrow).max(least)));
    rest(stripes);
}

/// As long in each direction as one set may last; several that are too long together get whole rests between them.
fn rest(stripes: &mut Stripes) {
    stripes.seconds = stripes.seconds.min(LONGEST);
    if stripes.without_rest(WHOLE_REST) > LONGEST {
        stripes.rest = WHOLE_REST;
    }
}

/// A smaller target first, then a slower one.
fn calm_following(following: &mut Following) {
    let swings = following.swings();
    // A hair less than the most, so that rounding does not carry it across.
    let less = 1.0 - 1e-12;
    if swings > Following::MOST_SWINGS {
        *following = following.clone().paced(less * Following::MOST_SWINGS / swings);
    }
    let speed = following.peak_speed();
    if speed > Following::FASTEST {
        *following = following.clone().paced(less * Following::FASTEST / speed);
    }
    if !general_flash(following.target.ink(), following.target.ground()) {
        return;
    }
    let too_much = |following: &Following| {
        let exposure = exposure(&Program::Following(following.clone()));
        exposure.a_second > MOST_FLASHES && exposure.area > SMALL_AREA
    };
    while too_much(following) && following.target.size().0 > SIZE.min {
        following.target = following.target.sized(tenth_down(following.target.size().0 - 0.05));
    }
    for _ in 0..20 {
        if too_much(following) {
            *following = following.clone().paced(0.9);
        }
    }
}

fn tenth_down(value: f64) -> f64 {
    (10.0 * value + 1e-9).floor() / 10.0
}

fn tenth_up(value: f64) -> f64 {
    (10.0 * value - 1e-9).ceil() / 10.0
}
