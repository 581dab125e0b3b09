//! Invented people who followed targets on a phone, and who practised at home between two visits.

use sidelight_core::anatomy::Direction;
use sidelight_core::assess::assess;
use sidelight_core::calendar::Moment;
use sidelight_core::capture::exchange::{self, Edit};
use sidelight_core::capture::home::{Despite, Given, How, Returned};
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::catalogue::Language;
use sidelight_core::plan::{self, About, Choice};
use sidelight_core::quantity::Degrees;
use sidelight_core::sheet::{Ended, Log, Sheet};
use sidelight_core::stimulus::colour::Srgb;
use sidelight_core::stimulus::program::{Following, Jumps, Pace, Path, Program, Stripes, Timing};
use sidelight_core::stimulus::screen::Axis;
use sidelight_core::stimulus::target::{Kind, Target};
use sidelight_core::tolerance::Rating;

use super::{DAY, MONDAY, convergence_insufficiency};
use crate::script::Script;

/// A student whose eyes follow on a phone: three programs, one of which the phone drew badly.
pub fn on_a_phone() -> Visit {
    let following = |speed: f64| {
        let (path, pace) = (Path::Horizontal, Pace::Constant(speed));
        Program::Following(Following { path, pace, half_width: Degrees(8.0), seconds: 20.0, target: face() })
    };
    let jumps = Program::Jumps(Jumps {
        axis: Axis::Horizontal,
        half_width: Degrees(8.0),
        timing: Timing::Fixed(1.5),
        count: 20,
        target: face(),
    });
    let stripes = Program::Stripes(Stripes {
        toward: vec![Direction::Right, Direction::Left],
        speed: 10.0,
        period: Degrees(8.0),
        light: Stripes::DIM.0,
        dark: Stripes::DIM.1,
        seconds: 10.0,
        rest: 3.0,
    });
    Script::begin("phone", "of-this-practice", MONDAY)
        .plan(&["pursuit", "saccade", "optokinetic"])
        .frame("follow_up", "month", "none", &[], &[])
        .dangers(&[])
        .symptoms("before", [0; 4])
        .shown("pursuit", &following(15.0), "", 3)
        .shown("pursuit", &following(30.0), "", 96)
        .usual("pursuit")
        .grade("pursuit", "follow", ["left", "fast", "many"], Some(3))
        .symptoms("pursuit", [0; 4])
        .shown("saccade", &jumps, "", 0)
        .in_turn("saccade", "jumps", &["on"; 10], &["on", "on", "short", "on", "on", "on", "on", "on", "short", "on"])
        .symptoms("saccade", [0; 4])
        .shown("optokinetic", &stripes, "follow", 2)
        .run("optokinetic", "stripes", "right", &["beat"; 12])
        .run(
            "optokinetic",
            "stripes",
            "left",
            &["beat", "missed", "beat", "missed", "beat", "missed", "beat", "beat", "missed", "beat", "beat", "beat"],
        )
        .done("optokinetic")
        .symptoms("optokinetic", [0, 1, 0, 0])
        .decide(&[("action", "advice"), ("play", "no_play")], &["person"])
        .close()
}

/// A child whose reading tires, with a sheet to take home; three weeks later the log comes back and a new sheet goes along.
pub fn practised(person: &Person) -> Vec<Visit> {
    let mut first = convergence_insufficiency();
    let closed = first.closed.take();
    first.id = "with-a-sheet".to_string();
    let sheet = sheet(person, &first);
    give(&mut first, &sheet, &[]);
    first.closed = closed;
    let mut then = Script::begin("with-its-log", "of-this-practice", MONDAY + 21 * DAY)
        .plan(&["near_point", "vergence"])
        .home(Edit::Return(Returned {
            at: Moment { unix_ms: MONDAY + 21 * DAY + 5_000, offset_minutes: 120 },
            how: How::Code,
            text: log(&sheet).encode(),
            unread: Unread::default(),
        }))
        .frame("follow_up", "longer", "none", &[], &[])
        .one("frame", "consent", "guardian")
        .dangers(&[])
        .symptoms("before", [0, 0, 0, 1])
        .near_point(&[(7.5, 9.5), (8.0, 10.0), (8.5, 11.0)])
        .symptoms("near_point", [1, 0, 0, 1])
        .usual("vergence")
        .number("vergence", "first", 6.0)
        .number("vergence", "second", 4.0)
        .symptoms("vergence", [1, 0, 0, 1])
        .decide(&[("action", "advice"), ("play", "no_play")], &["guardian"])
        .close();
    let closed = then.closed.take();
    let mut easier = sheet;
    for entry in &mut easier.entries {
        entry.dose.a_week = 3;
        entry.dose.weeks = 2;
    }
    give(&mut then, &easier, &[("near_far_jumps", "The mother asked to go on with it.")]);
    then.closed = closed;
    vec![first, then]
}

/// What the plan proposes, signed off.
fn sheet(person: &Person, visit: &Visit) -> Sheet {
    let assessment = assess(person, visit);
    let plan = plan::propose(&assessment, &About::of(visit, &assessment));
    let choice = Choice::from_plan(&plan, Language::Spanish);
    let signed = choice.sign_off(&plan, &assessment, "E. Example, orthoptist", visit.started);
    Sheet::of(&signed.unwrap_or_else(|not_yet| panic!("{not_yet}")))
}

fn give(visit: &mut Visit, sheet: &Sheet, despite: &[(&str, &str)]) {
    let despite = despite.iter().map(|(exercise, why)| Despite { exercise: (*exercise).into(), why: (*why).into() });
    let given = Given {
        at: Moment { unix_ms: visit.started.unix_ms + 900_000, ..visit.started },
        by: "E. Example, orthoptist".to_string(),
        language: sheet.language.tag().to_string(),
        text: sheet.encode(),
        despite: despite.collect(),
        unread: Unread::default(),
    };
    exchange::apply(visit, Edit::Give(given)).unwrap_or_else(|refused| panic!("{refused}"));
}

/// Ten days of practice, one with too much of a rise, and one day on which the practice was called.
fn log(sheet: &Sheet) -> Log {
    let mut log = Log::of(sheet);
    for day in [1, 2, 3, 5, 6, 8, 9, 10, 12, 15] {
        for exercise in 0..sheet.entries.len() {
            let (after, ended) = match day {
                5 => (5, Ended::Rested),
                6 => (1, Ended::Practice),
                _ => (2, Ended::Planned),
            };
            log.note(day, exercise, (Rating::new(1), Rating::new(after)), ended);
        }
    }
    log
}

fn face() -> Target {
    Target::new(Kind::Face, Degrees(1.0), Srgb::grey(0x1a), Srgb::WHITE).expect("a target")
}
