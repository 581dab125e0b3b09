//! Eyes, sides and directions, always the examined person's own.

/// A direction the eyes move in, as the examined person has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// To the person's right.
    Right,
    /// To the person's left.
    Left,
    /// Up.
    Up,
    /// Down.
    Down,
}

impl Direction {
    /// All four, in the order they are examined and printed.
    pub const ALL: [Direction; 4] = [Direction::Right, Direction::Left, Direction::Up, Direction::Down];

    /// The word used in ids and print: "right".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Direction::Right => "right",
            Direction::Left => "left",
            Direction::Up => "up",
            Direction::Down => "down",
        }
    }

    /// Reads the word back.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Direction> {
        Direction::ALL.into_iter().find(|d| d.word() == word)
    }

    /// The direction seen in a left-right mirror.
    #[must_use]
    pub fn mirrored(self) -> Direction {
        match self {
            Direction::Right => Direction::Left,
            Direction::Left => Direction::Right,
            Direction::Up => Direction::Up,
            Direction::Down => Direction::Down,
        }
    }

    /// In a sentence: "to the right", "upward".
    #[must_use]
    pub fn phrase(self) -> &'static str {
        match self {
            Direction::Right => "to the right",
            Direction::Left => "to the left",
            Direction::Up => "upward",
            Direction::Down => "downward",
        }
    }
}

/// One of the person's eyes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Eye {
    /// The person's right eye.
    Right,
    /// The person's left eye.
    Left,
}

impl Eye {
    /// The word used in ids and print: "right".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Eye::Right => "right",
            Eye::Left => "left",
        }
    }
}
