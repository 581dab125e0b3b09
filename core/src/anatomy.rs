//! Eyes, sides, directions and places, always the examined person's own.

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

    /// The side it leads to; none for up and down.
    #[must_use]
    pub fn side(self) -> Option<Side> {
        match self {
            Direction::Right => Some(Side::Right),
            Direction::Left => Some(Side::Left),
            Direction::Up | Direction::Down => None,
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

    /// The other eye.
    #[must_use]
    pub fn other(self) -> Eye {
        match self {
            Eye::Right => Eye::Left,
            Eye::Left => Eye::Right,
        }
    }

    /// The side this eye is on.
    #[must_use]
    pub fn side(self) -> Side {
        match self {
            Eye::Right => Side::Right,
            Eye::Left => Side::Left,
        }
    }
}

/// One side of the person's body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The person's right.
    Right,
    /// The person's left.
    Left,
}

impl Side {
    /// The word used in ids and print: "right".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Side::Right => "right",
            Side::Left => "left",
        }
    }

    /// The other side.
    #[must_use]
    pub fn other(self) -> Side {
        match self {
            Side::Right => Side::Left,
            Side::Left => Side::Right,
        }
    }

    /// Movements toward this side.
    #[must_use]
    pub fn direction(self) -> Direction {
        match self {
            Side::Right => Direction::Right,
            Side::Left => Direction::Left,
        }
    }
}

/// Where something was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Not tied to an eye or a direction.
    Both,
    /// In movements of this direction.
    Toward(Direction),
    /// In this eye.
    In(Eye),
    /// On this side of the body.
    On(Side),
}
