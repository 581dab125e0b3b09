//! What a tap means, and how a button says so: a word and at most one number.

use super::course::Settled;
use crate::catalogue::Language;
use crate::tolerance::Rating;
use std::fmt;

/// What a tap means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act {
    /// Read it in this language.
    Language(Language),
    /// The lists at the beginning were read.
    Read,
    /// Show or hide these lists.
    Lists,
    /// Show or hide the steps of an exercise.
    Steps(usize),
    /// Do this exercise.
    Start(usize),
    /// A rating.
    Rate(Rating),
    /// Begin the clock.
    Begin,
    /// It was done without the clock.
    Alone,
    /// Let the clock stand still.
    Hold,
    /// Go on.
    GoOn,
    /// A set that is counted is done.
    Counted,
    /// Stop before the end.
    Stop,
    /// Back to the list.
    Back,
    /// Something is wrong.
    Wrong,
    /// A danger sign is there.
    Danger,
    /// None is.
    NoDanger,
    /// How a rise went on.
    Settled(Settled),
    /// Somebody said it may go on.
    Told,
    /// Show how it went.
    Log,
    /// Save the log.
    Save,
    /// Send the log.
    Share,
    /// Ask whether to clear the log.
    Clear,
    /// Clear it.
    ClearYes,
    /// Ask whether to take the plan away.
    Remove,
    /// Take it away.
    RemoveYes,
    /// Do neither.
    Keep,
    /// Open another plan of this phone.
    Open(usize),
    /// Print.
    Print,
    /// Sound on or off.
    Sound,
}

static PLAIN: &[(&str, Act)] = &[
    ("read", Act::Read),
    ("lists", Act::Lists),
    ("begin", Act::Begin),
    ("alone", Act::Alone),
    ("hold", Act::Hold),
    ("go-on", Act::GoOn),
    ("counted", Act::Counted),
    ("stop", Act::Stop),
    ("back", Act::Back),
    ("wrong", Act::Wrong),
    ("danger", Act::Danger),
    ("no-danger", Act::NoDanger),
    ("settled-under", Act::Settled(Settled::Under)),
    ("settled-over", Act::Settled(Settled::Over)),
    ("settled-not-yet", Act::Settled(Settled::NotYet)),
    ("told", Act::Told),
    ("log", Act::Log),
    ("save", Act::Save),
    ("share", Act::Share),
    ("clear", Act::Clear),
    ("clear-yes", Act::ClearYes),
    ("remove", Act::Remove),
    ("remove-yes", Act::RemoveYes),
    ("keep", Act::Keep),
    ("print", Act::Print),
    ("sound", Act::Sound),
];

impl Act {
    /// What the text of a button means; `None` for any other text.
    #[must_use]
    pub fn parse(text: &str) -> Option<Act> {
        let Some((word, value)) = text.split_once(' ') else {
            return PLAIN.iter().find(|(word, _)| *word == text).map(|(_, act)| *act);
        };
        let number = || value.parse::<usize>().ok();
        match word {
            "language" => Language::from_tag(value).map(Act::Language),
            "steps" => number().map(Act::Steps),
            "start" => number().map(Act::Start),
            "open" => number().map(Act::Open),
            "rate" => value.parse().ok().and_then(Rating::new).map(Act::Rate),
            _ => None,
        }
    }
}

impl fmt::Display for Act {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Act::Language(language) => write!(f, "language {}", language.tag()),
            Act::Steps(at) => write!(f, "steps {at}"),
            Act::Start(at) => write!(f, "start {at}"),
            Act::Open(at) => write!(f, "open {at}"),
            Act::Rate(rating) => write!(f, "rate {}", rating.value()),
            plain => f.write_str(PLAIN.iter().find(|(_, act)| act == plain).map_or("", |(word, _)| word)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_act_comes_back_from_its_button() {
        let numbered = [
            Act::Language(Language::Spanish),
            Act::Steps(0),
            Act::Start(5),
            Act::Open(2),
            Act::Rate(Rating::new(10).expect("0 to 10")),
        ];
        for act in PLAIN.iter().map(|(_, act)| *act).chain(numbered) {
            let text = act.to_string();
            assert!(!text.is_empty(), "{act:?}");
            assert_eq!(Act::parse(&text), Some(act), "{text}");
        }
        for foreign in ["", "rate 11", "rate -1", "start", "start x", "language fr", "eval 1", "back 1"] {
            assert_eq!(Act::parse(foreign), None, "{foreign}");
        }
    }
}
