//! The offers: for each task that can be shown, its settings and its words.

use super::build::{
    FAR, FITS, LIGHT, PACE, SECONDS, SIZE, SPEED, TARGET, TIMES, TOLD, TOWARD, WAY, WHEN, antisaccade, following,
    head_turns, jumps, near_far, still, stripes,
};
use super::{Dial, Offer, Wanted};
use crate::capture::form::{Choice, choice, hinted};
use crate::capture::showing::NOT_FULL_FIELD;

/// Every offer, in exam order.
pub static ALL: &[&Offer] = &[&STILL, &NEAR_FAR, &FOLLOWING, &JUMPS, &ANTISACCADE, &STRIPES, &HEAD_TURNS];

const TARGETS: Dial = Dial {
    key: TARGET,
    ask: "What is looked at",
    options: &[
        choice("child", "a child’s face"),
        choice("cat", "a cat"),
        choice("bear", "a bear"),
        choice("fox", "a fox"),
        choice("letter", "a letter"),
        choice("dot", "a dot"),
    ],
};
const SIZES: Dial =
    Dial { key: SIZE, ask: "Its size", options: &[choice("1", "1°"), choice("0.5", "½°"), choice("2", "2°")] };
static FARS: &[Choice] = &[
    hinted(FITS, "as far as fits", "up to 10°"),
    choice("5", "5°"),
    choice("8", "8°"),
    choice("10", "10°"),
    choice("15", "15°"),
];
const LENGTHS: Dial = Dial { key: SECONDS, ask: "How long", options: &[choice("20", "20 s"), choice("10", "10 s")] };

static STILL: Offer = Offer {
    task: "resting_gaze",
    title: "A target that stays",
    dials: &[
        Dial {
            key: WAY,
            ask: "Where",
            options: &[
                choice("middle", "in the middle"),
                choice("right", "to their right"),
                choice("left", "to their left"),
                choice("up", "up"),
                choice("down", "down"),
            ],
        },
        TARGETS,
        SIZES,
        LENGTHS,
    ],
    taps: None,
    goes_sideways: false,
    care: "",
    limits: "",
    build: still,
    tells: |wanted| match wanted.face() {
        Some(_) => "Look at its nose and keep looking.".to_string(),
        None => format!("Look at the {} and keep looking.", wanted.target()),
    },
};

static NEAR_FAR: Offer = Offer {
    task: "vergence",
    title: "Near and far, to a sound",
    dials: &[
        Dial {
            key: WHEN,
            ask: "A sound every",
            options: &[choice("2", "2 s"), choice("3", "3 s"), choice("5", "5 s")],
        },
        TARGETS,
        SIZES,
    ],
    taps: None,
    goes_sideways: false,
    care: "",
    limits: "",
    build: near_far,
    tells: |wanted| {
        format!(
            "Look at the {}. At the second sound look far, at the next one near again, and so on. Say when one stays \
             blurred or double.",
            wanted.target()
        )
    },
};

static FOLLOWING: Offer = Offer {
    task: "pursuit",
    title: "Following",
    dials: &[
        Dial {
            key: WAY,
            ask: "How it goes",
            options: &[
                choice("horizontal", "side to side"),
                choice("vertical", "up and down"),
                choice("clockwise", "round"),
                choice("anticlockwise", "round, the other way"),
            ],
        },
        // 15 and 30° a second are those of a video protocol (pmc.ncbi.nlm.nih.gov/articles/PMC3441141); the swing is one
        // in use (from memory).
        Dial {
            key: SPEED,
            ask: "How fast",
            options: &[
                hinted("15", "slow", "15° a second"),
                hinted("30", "fast", "30° a second"),
                hinted("swing", "swinging", "there and back in 2.5 s"),
            ],
        },
        Dial { key: FAR, ask: "How far from the middle", options: FARS },
        TARGETS,
        SIZES,
        LENGTHS,
    ],
    taps: Some("follow"),
    goes_sideways: true,
    care: "",
    limits: "",
    build: following,
    tells: |wanted| format!("Keep your head still. Follow the {} with your eyes only.", wanted.target()),
};

static JUMPS: Offer = Offer {
    task: "saccade",
    title: "Jumps",
    dials: &[
        // Every 1 to 2 s is usual (from memory).
        Dial {
            key: WHEN,
            ask: "When it jumps",
            options: &[
                choice("1.5", "every 1.5 s"),
                choice("1", "every second"),
                choice("2", "every 2 s"),
                hinted("unforeseen", "unforeseen", "0.8 to 2.5 s"),
            ],
        },
        Dial { key: FAR, ask: "How far from the middle", options: FARS },
        Dial {
            key: TIMES,
            ask: "How many jumps",
            options: &[choice("12", "12"), choice("20", "20"), choice("6", "6")],
        },
        TARGETS,
        SIZES,
    ],
    taps: Some("jumps"),
    goes_sideways: true,
    care: "",
    limits: "",
    build: jumps,
    tells: |wanted| {
        format!(
            "Keep your head still. The {} jumps from side to side. Look at it each time, and stay there until it jumps.",
            wanted.target()
        )
    },
};

static ANTISACCADE: Offer = Offer {
    task: "antisaccade",
    title: "Look away",
    dials: &[
        Dial {
            key: WHEN,
            ask: "Before the target comes up",
            options: &[choice("0", "no gap"), hinted("0.2", "a gap of 0.2 s", "harder")],
        },
        Dial { key: FAR, ask: "How far from the middle", options: FARS },
        Dial { key: TIMES, ask: "How many", options: &[choice("10", "10"), choice("20", "20"), choice("6", "6")] },
        Dial {
            key: TARGET,
            ask: "What comes up",
            options: &[choice("dot", "a dot"), choice("child", "a child’s face")],
        },
        SIZES,
    ],
    taps: Some("trials"),
    goes_sideways: true,
    care: "",
    limits: "",
    build: antisaccade,
    tells: |wanted| {
        format!(
            "Look at the mark in the middle. When the {} comes up, look as far to the other side, not at it. Then back to \
             the middle.",
            wanted.target()
        )
    },
};

static STRIPES: Offer = Offer {
    task: "optokinetic",
    title: "Stripes",
    dials: &[
        Dial {
            key: TOWARD,
            ask: "They move",
            options: &[
                hinted("right left", "to their right, then left", "10 s each"),
                hinted("left right", "to their left, then right", "10 s each"),
                hinted("right", "to their right", "20 s"),
                hinted("left", "to their left", "20 s"),
                hinted("up down", "up, then down", "10 s each"),
            ],
        },
        Dial {
            key: TOLD,
            ask: "What they are told",
            options: &[choice("follow", "look at each stripe"), choice("middle", "look straight ahead")],
        },
        Dial {
            key: SPEED,
            ask: "How fast",
            options: &[
                choice("15", "15° a second"),
                choice("10", "10° a second"),
                choice("20", "20° a second"),
                choice("30", "30° a second"),
            ],
        },
        Dial {
            key: LIGHT,
            ask: "How bright",
            options: &[hinted("dim", "dim", "grey and black"), hinted("bright", "bright", "white and black")],
        },
    ],
    taps: Some("stripes"),
    goes_sideways: true,
    care: "",
    limits: NOT_FULL_FIELD,
    build: stripes,
    tells: |wanted| {
        match wanted.of(TOLD) {
            "middle" => "Look straight ahead. Keep the stripes clear, and follow none of them.",
            _ => "Look at each stripe as it passes. Let it go and take the next one.",
        }
        .to_string()
    },
};

static HEAD_TURNS: Offer = Offer {
    task: "head_turn_gaze",
    title: "Head turns to a beat",
    dials: &[
        Dial {
            key: WAY,
            ask: "The head turns",
            options: &[choice("horizontal", "side to side"), choice("vertical", "up and down")],
        },
        // 180 a minute is that of a clinic's protocol of the symptom screen; slower ones are common practice.
        Dial {
            key: PACE,
            ask: "Beats a minute",
            options: &[choice("180", "180"), choice("120", "120"), choice("60", "60")],
        },
        TARGETS,
        SIZES,
    ],
    taps: None,
    goes_sideways: false,
    care: "Not with a sore, stiff or hurt neck, and not right after surgery.",
    limits: "",
    build: head_turns,
    tells: |wanted: &Wanted| {
        let way = if wanted.of(WAY) == "vertical" { "up and down" } else { "from side to side" };
        format!(
            "Keep your eyes on the {}. Turn your head {way}, one turn at each beat. Stop at once if your neck hurts.",
            wanted.target()
        )
    },
};
