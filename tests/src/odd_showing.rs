//! Showings as odd as a file can hold them, from a number.

use sidelight_core::calendar::Moment;
use sidelight_core::capture::home::{Despite, Given, How, Returned};
use sidelight_core::capture::showing::{Setting, Showing, Shown, Value, key, program};
use sidelight_core::capture::unread::Unread;
use sidelight_core::catalogue::Language;
use sidelight_core::exercise;
use sidelight_core::sheet::{Ended, Entry, Log, Sheet, Spoken};
use sidelight_core::tolerance::{Limits, Rating};

use crate::dice::Dice;

/// One to three showings, of programs that are known or not, with numbers that can be or not.
pub fn some(dice: &mut Dice, at: Moment) -> Vec<Showing> {
    (0..=dice.below(2)).map(|_| one(dice, at)).collect()
}

fn one(dice: &mut Dice, at: Moment) -> Showing {
    let mut id = dice.pick(&program::ALL).to_string();
    if dice.chance(10) {
        id = dice.pick(&["", "spiral", "<b>Zoë</b>"]).to_string();
    }
    Showing {
        at,
        program: id,
        settings: settings(dice),
        instruction: dice.pick(&["", "follow", "middle", "Look \"here\"\n", "=1+1"]).to_string(),
        seconds: number(dice),
        stopped: dice.chance(50),
        elsewhere: dice.chance(30),
        screen: dice.chance(50).then(|| screen(dice)),
        unread: if dice.chance(20) { Unread(vec![("/mood".into(), "[1.50]".into())]) } else { Unread::default() },
    }
}

/// Sheets and logs as odd as a file can hold them, some of which can be read.
pub fn home(dice: &mut Dice, at: Moment) -> (Vec<Given>, Vec<Returned>) {
    // A sheet with two exercises, and a log of it, made by the program.
    const TEXTS: [&str; 6] = ["", "SHEET1.AAAA", "SHEETLOG1.AAAA", "<b>Zoë</b>", "=1+1", "001 002 003"];
    let sheet = Sheet {
        entries: exercise::ALL.iter().take(2).map(|exercise| Entry { exercise, dose: exercise.start }).collect(),
        advice: vec![],
        limits: Limits::CONSENSUS,
        emergency: "112".to_string(),
        helper: true,
        language: Language::Spanish,
    };
    let mut log = Log::of(&sheet);
    log.note(1 + dice.below(80) as u8, 0, (Rating::new(1), Rating::new(dice.below(11) as u8)), Ended::Rested);
    let text = |dice: &mut Dice, good: String| if dice.chance(50) { good } else { dice.pick(&TEXTS).to_string() };
    let given = Given {
        at,
        by: dice.pick(&["", "E. Example", "<b>Zoë</b>"]).to_string(),
        language: dice.pick(&["", "en", "of a newer program"]).to_string(),
        text: text(dice, sheet.encode()),
        despite: vec![Despite {
            exercise: dice.pick(&["near_far_jumps", "of a newer program"]).to_string(),
            why: dice.pick(&["", "asked for it", "=1+1"]).to_string(),
        }],
        unread: Unread::default(),
    };
    let how = dice.pick(&[How::Code, How::File, How::Message, How::Numbers]);
    let good = match how {
        How::Code | How::File | How::Message => log.encode(),
        How::Numbers => Spoken::of(&log, &sheet).numbers().join(" "),
    };
    let returned = Returned { at, how, text: text(dice, good), unread: Unread::default() };
    (vec![given], vec![returned])
}

fn settings(dice: &mut Dice) -> Vec<Setting> {
    let keys = [
        key::SPEED,
        key::PEAK_SPEED,
        key::PATH,
        key::EACH_WAY,
        key::TOWARD,
        key::STRIPE,
        key::EVERY,
        key::GAP,
        key::PACE,
        key::RIGHT,
        key::UP,
        key::TARGET,
        key::SIZE,
        "wave",
    ];
    let setting = |dice: &mut Dice, key: &str| Setting {
        key: key.to_string(),
        value: match dice.below(4) {
            0 => Value::Word(dice.pick(&["horizontal", "right left", "face", "", "Zoë"]).to_string()),
            1 if dice.chance(20) => Value::Newer,
            _ => Value::Number(number(dice)),
        },
        unit: dice.pick(&["", "°", "°/s", "=s"]).to_string(),
    };
    let mut settings = Vec::new();
    for key in keys {
        if dice.chance(50) {
            settings.push(setting(dice, key));
        }
    }
    settings
}

fn screen(dice: &mut Dice) -> Shown {
    Shown {
        px_per_mm: number(dice),
        distance_cm: number(dice),
        pixel_ratio: number(dice),
        zoom: number(dice),
        width_px: number(dice),
        height_px: number(dice),
        frames_a_second: dice.chance(50).then(|| number(dice)),
        drawn: dice.pick(&[0, 1, 600, u32::MAX]),
        dropped: dice.pick(&[0, 1, 600, u32::MAX]),
        held: dice.chance(50),
    }
}

fn number(dice: &mut Dice) -> f64 {
    dice.pick(&[0.0, -1.0, 1.0, 6.03, 15.0, 40.0, 390.0, 844.0, 0.1 + 0.2, 1e300, -1e-300])
}
