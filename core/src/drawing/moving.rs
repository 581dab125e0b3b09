//! Drawings of head turns, standing and walking.

use super::mark::Mark::{self, Accent, At, Dots, Ink, Limb, Small, Solid, Thin, Turned};
use super::mark::{ARROW, CARD, HEAD, PRINT, SHOE, THUMB, TURN, WALKER};

/// Sitting before a letter on the wall, the head turns.
pub(super) static HEAD_TURN_SEATED: &[Mark] = &[
    At(60, 38, HEAD),
    At(50, 14, TURN),
    Limb("M50 54V84H72V110H80M50 60L58 76L70 78"),
    Thin("M34 54V114M34 92H62V114"),
    Thin("M150 8V116M10 116H150"),
    At(137, 36, CARD),
    Dots("M66 35H122"),
];

/// The same standing in a corner.
pub(super) static HEAD_TURN_STANDING: &[Mark] = &[
    At(60, 34, HEAD),
    At(50, 11, TURN),
    Limb("M50 50V78L44 110H52M50 78L58 110H66M50 56L46 70L50 80"),
    Thin("M14 6V104L6 116M14 104H36M64 104H150"),
    Thin("M150 8V104"),
    At(137, 33, CARD),
    Dots("M66 31H122"),
];

/// Arms out, thumbs up, the whole body turns.
pub(super) static WHOLE_BODY_TURN: &[Mark] = &[
    At(76, 28, HEAD),
    Limb("M66 43V70L60 104H68M66 70L72 104H80M66 50L104 44"),
    Small(112, 27, 62, THUMB),
    Ink("M40 96C16 102 24 115 70 115C116 115 124 102 100 96"),
    Turned(45, 94, 342, ARROW),
    Turned(95, 94, 198, ARROW),
];

/// Standing with the feet closer and closer, a hand on a worktop.
pub(super) static STANCE_STEPS: &[Mark] = &[
    Ink("M24 24a11 11 0 1 0 22 0a11 11 0 1 0-22 0Z"),
    Limb("M35 39V74L30 108M35 74L40 108M35 46L22 56L14 64M35 46L46 58L48 72"),
    Thin("M2 68H20V116M2 68V116H60"),
    At(72, 72, SHOE),
    At(83, 72, SHOE),
    At(101, 78, SHOE),
    At(112, 66, SHOE),
    At(130, 86, SHOE),
    At(130, 60, SHOE),
    At(150, 72, SHOE),
];

/// Heel to toe along tape, a hand on the wall.
pub(super) static HEEL_TO_TOE_WALK: &[Mark] = &[
    At(64, 18, HEAD),
    Limb("M54 33V56L48 76V80H58M54 56L62 72V80H72M54 40L68 48L84 40M54 40L46 54"),
    Thin(
        "M88 4V84M88 16H158M88 30H158M88 44H158M88 58H158M88 72H158M112 4V16M140 4V16M126 16V30M112 30V44M140 30V44          M126 44V58M112 58V72M140 58V72",
    ),
    Thin("M2 84H158"),
    Accent("M4 94H156V108H4Z"),
    Turned(12, 101, 90, PRINT),
    Turned(40, 101, 90, PRINT),
    Turned(68, 101, 90, PRINT),
    Turned(96, 101, 90, PRINT),
    Dots("M126 101H138"),
    At(149, 101, ARROW),
];

/// Lying down and sitting up again.
pub(super) static FAMILIAR_MOVEMENTS: &[Mark] = &[
    At(94, 34, HEAD),
    Limb("M84 49V80H110V108H118M84 56L92 70L104 72"),
    Thin("M8 88H122V96H8ZM8 70V114M114 96V114"),
    Accent("M12 82H36V88H12Z"),
    Dots("M16 72a8 8 0 1 0 16 0a8 8 0 1 0-16 0M38 78H76"),
    Ink("M66 20C48 22 36 34 28 50"),
    Turned(25, 58, 110, ARROW),
    Turned(70, 20, 355, ARROW),
];

/// Sitting at a window, life goes by outside.
pub(super) static BUSY_SCENES: &[Mark] = &[
    At(42, 40, HEAD),
    Limb("M32 55V84H54V110H62M32 62L40 76L52 78"),
    Thin("M16 56V114M16 92H46V114M74 8V116"),
    Ink("M74 12H156V84H74Z"),
    Thin("M74 72H156"),
    Ink("M84 34a4 4 0 1 0 8 0a4 4 0 1 0-8 0ZM88 40V54L83 66M88 54L93 66M88 44L96 50"),
    Ink("M100 30a4 4 0 1 0 8 0a4 4 0 1 0-8 0ZM104 36V52L98 66M104 52L109 66M104 41L97 48"),
    Accent("M118 60V50L124 49L129 40H142L147 49L152 50V60Z"),
    Ink("M121 62a4 4 0 1 0 8 0a4 4 0 1 0-8 0ZM141 62a4 4 0 1 0 8 0a4 4 0 1 0-8 0Z"),
    Dots("M82 20H92M142 28H128"),
    At(102, 20, ARROW),
    Turned(118, 28, 180, ARROW),
];

/// Walking with an adult, fast enough to breathe more, slow enough to talk.
pub(super) static STEADY_WALK: &[Mark] = &[
    At(42, 84, WALKER),
    Small(100, 90, 76, WALKER),
    Thin("M6 114H154"),
    Accent("M66 10H104C110 10 110 36 104 36H80L68 44L70 36H66C60 36 60 10 66 10Z"),
    Solid(
        "M69 23a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0ZM82 23a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0ZM95 23a2.5            2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0Z",
    ),
    Dots("M126 84H140"),
    At(151, 84, ARROW),
];
