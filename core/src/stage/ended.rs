//! How a run ended, in a sentence.

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// It came to its end.
    Finished,
    /// It was stopped by a tap or a key.
    Stopped,
    /// The screen was turned, resized or zoomed.
    Changed,
    /// The page went out of sight, or the phone was locked.
    Hidden,
}

impl Ended {
    /// All of them.
    pub const ALL: [Ended; 4] = [Ended::Finished, Ended::Stopped, Ended::Changed, Ended::Hidden];

    /// Whether it ended before its time.
    #[must_use]
    pub const fn early(self) -> bool {
        !matches!(self, Ended::Finished)
    }

    /// What it says.
    #[must_use]
    pub const fn says(self) -> &'static str {
        match self {
            Ended::Finished => "Shown to its end.",
            Ended::Stopped => "Stopped.",
            Ended::Changed => "Ended because the screen was turned, resized or zoomed.",
            Ended::Hidden => "Ended because the page went out of sight.",
        }
    }
}
