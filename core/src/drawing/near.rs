//! Drawings of what is done with the eyes while the head is still.

use super::mark::Mark::{self, Accent, At, Dots, Ink, Small, Thin, Turned};
use super::mark::{ARROW, CARD, FRONT, PEN, PROFILE, PUPILS, THUMB};

/// A pen comes from arm's length to the nose.
pub(super) static NEAR_POINT_PRACTICE: &[Mark] = &[
    At(64, 54, PROFILE),
    Ink("M24 91C13 95 8 103 7 118M46 91C52 95 58 97 64 98C84 104 104 98 121 84M62 116C92 118 112 108 127 91"),
    At(134, 51, PEN),
    Dots("M120 51H82"),
    Turned(72, 51, 180, ARROW),
];

/// A string from the nose to a door, with three beads.
pub(super) static BEAD_STRING: &[Mark] = &[
    At(52, 52, PROFILE),
    Ink("M12 89C5 92 2 98 1 118M34 89C42 93 48 97 52 104C55 96 55 88 55 80M60 118C68 108 70 94 70 80"),
    Ink(
        "M59 53C55 57 54 60 55 63M64 53C67 56 69 59 69 63M55 63H68C74 63 74 68 70 69C73 70 73 74 69 75C72 77 70 81 66 81H55C49 81 49 63 55 63Z",
    ),
    Ink("M52 53H143"),
    Thin("M146 6H158M146 6V118M150 14H158M150 14V110H158"),
    Ink("M142 53a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0-7 0Z"),
    Accent("M78 53a6 6 0 1 0 12 0a6 6 0 1 0-12 0Z"),
    Accent("M100 53a6 6 0 1 0 12 0a6 6 0 1 0-12 0Z"),
    Accent("M124 53a6 6 0 1 0 12 0a6 6 0 1 0-12 0Z"),
];

/// From a pen to a picture on the wall and back.
pub(super) static NEAR_FAR_JUMPS: &[Mark] = &[
    At(56, 62, PROFILE),
    Ink("M16 99C8 103 4 108 3 118M38 99C44 103 52 106 60 105C68 104 74 100 79 94M56 118C72 116 82 110 86 102"),
    At(92, 60, PEN),
    Thin("M156 4V118"),
    Ink("M128 34H152V66H128Z"),
    Accent("M133 44a4 4 0 1 0 8 0a4 4 0 1 0-8 0Z"),
    Ink("M128 62L138 52L144 58L148 54L152 58"),
    Dots("M94 40C100 18 116 14 132 22"),
    Turned(139, 28, 45, ARROW),
    Turned(92, 48, 105, ARROW),
];

/// A thumb goes from side to side, the head is still.
pub(super) static SLOW_FOLLOWING: &[Mark] = &[
    At(80, 38, FRONT),
    At(84, 39, PUPILS),
    Ink(
        "M71 69V76C50 78 34 86 28 118M89 69V76C98 77 106 80 112 84M132 118C138 112 141 104 142 97M108 118C116 112 122 106 124 97",
    ),
    At(132, 62, THUMB),
    Dots("M54 98H98"),
    Turned(44, 98, 180, ARROW),
    At(108, 98, ARROW),
];

/// Two notes on a wall, the eyes jump between them.
pub(super) static TWO_TARGET_JUMPS: &[Mark] = &[
    At(34, 36, CARD),
    At(126, 36, CARD),
    Dots("M54 30C66 16 94 16 106 30"),
    Turned(110, 35, 52, ARROW),
    Turned(50, 35, 128, ARROW),
    Ink(
        "M58 86C58 70 68 62 80 62C92 62 102 70 102 86C102 94 98 99 92 102V106C110 108 120 112 124 118M68 102V106C50 108 \
         40 112 36 118M68 102C74 106 86 106 92 102",
    ),
    Ink("M58 84C53 80 51 90 58 92M102 84C107 80 109 90 102 92"),
    Thin("M70 70C68 80 68 90 71 98M80 68V101M90 70C92 80 92 90 89 98"),
];

/// First the eyes go to the card, then the head.
pub(super) static EYES_THEN_HEAD: &[Mark] = &[
    Thin("M2 10H76V110H2ZM84 10H158V110H84Z"),
    Small(25, 60, 66, FRONT),
    Small(28, 60, 66, PUPILS),
    Small(63, 60, 80, CARD),
    Small(122, 62, 66, PROFILE),
    Small(145, 60, 80, CARD),
    Dots("M46 60H52M126 58H134"),
    Ink("M94 32C100 24 112 22 119 28"),
    Turned(125, 35, 52, ARROW),
];
