//! How large the letters are on paper: as large as two pages hold, which follows from how much there is to read.
//!
//! Handouts ask for letters of 12 points or more. Half the paper holds half as much: what does not fit there in letters that
//! can still be read is left out, said on the paper, and stands on the screen.

use super::html::Words;
use crate::advice::Advice;
use crate::catalogue::{Language, text};
use crate::sheet::Sheet;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm.
    A4,
    /// 148 by 210 mm.
    A5,
}

/// How a sheet lies on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fit {
    /// Size of the letters, in points.
    pub points: u8,
    /// Whether reasons and advice are left out.
    pub short: bool,
    /// Whether two pages hold it.
    pub two_pages: bool,
}

/// Sizes of letters, in points.
const POINTS: [u8; 4] = [12, 11, 10, 9];

impl Paper {
    /// Characters that two pages hold, times the square of the size of the letters: measured on pages that Chromium printed
    /// in Arial's widths, one to six exercises with no, some and all advice, in both languages.
    const fn room(self) -> usize {
        match self {
            Paper::A4 => 724_000,
            Paper::A5 => 363_000,
        }
    }

    /// The largest letters in which two pages hold so many characters.
    fn largest(self, characters: usize) -> Option<u8> {
        POINTS.into_iter().find(|points| usize::from(*points).pow(2) * characters <= self.room())
    }
}

/// How the page of a sheet, which has this HTML, lies on paper.
pub(super) fn fit(sheet: &Sheet, language: Language, html: &str, paper: Paper) -> Fit {
    // What says that something is left out stands on the paper only where it is.
    let told = if sheet.advice.is_empty() { 0 } else { characters(&left_out(sheet, language)) };
    let all = characters(html) - told;
    if let Some(points) = paper.largest(all) {
        return Fit { points, short: false, two_pages: true };
    }
    // On a whole page everything stays, in the smallest letters and on as many pages as it takes.
    let short = paper == Paper::A5;
    let points = paper.largest(all - more(sheet, language) + told).filter(|_| short);
    Fit { points: points.unwrap_or(9), short, two_pages: points.is_some() }
}

/// What is left out where the paper is too small for it.
pub(super) fn left_out(sheet: &Sheet, language: Language) -> String {
    let named = sheet.advice.iter().map(|advice| text(language, advice.heading)).collect::<Vec<_>>().join("; ");
    Words(language).fill("paper.more", &[("what", &named)])
}

/// Characters between the tags.
fn characters(html: &str) -> usize {
    let mut inside = false;
    let counts = |c: &char| {
        inside = (inside || *c == '<') && *c != '>';
        !inside && *c != '>'
    };
    html.chars().filter(counts).count()
}

/// Characters of what is left out.
fn more(sheet: &Sheet, language: Language) -> usize {
    let why = sheet.entries.iter().map(|entry| entry.exercise.family.why);
    let advice = sheet.advice.iter().flat_map(|advice: &&Advice| advice.lines.iter().copied().chain([advice.heading]));
    why.chain(advice).map(|key| text(language, key).chars().count()).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise;
    use crate::family::{on_paper, page};
    use crate::sheet::Entry;
    use crate::tolerance::Limits;

    static SIX: [&str; 6] =
        ["head_turn_seated", "near_point_practice", "stance_steps", "steady_walk", "bead_string", "eyes_then_head"];

    fn sheet(exercises: usize, advice: usize, language: Language) -> Sheet {
        let entry = |id: &&str| {
            let exercise = exercise::by_id(id).expect("an exercise");
            Entry { exercise, dose: exercise.start }
        };
        Sheet {
            entries: SIX[..exercises].iter().map(entry).collect(),
            advice: crate::advice::ALL[..advice].to_vec(),
            limits: Limits::CONSENSUS,
            emergency: "112".into(),
            helper: true,
            language,
        }
    }

    #[test]
    fn what_stands_between_tags_is_counted() {
        assert_eq!(characters("<p class=\"a\">Do it.</p><svg a=\"b\"/>é"), 7);
    }

    /// The square of the letters times the characters: 10 points hold 7240 characters on A4 and 3630 on A5.
    #[test]
    fn letters_are_as_large_as_two_pages_hold() {
        let largest = |paper: Paper, characters| paper.largest(characters);
        assert_eq!([5027, 5028, 5983, 7240, 8939].map(|n| largest(Paper::A4, n)), [12, 11, 11, 10, 0].map(some));
        assert_eq!([2520, 2521, 3630, 3631, 4482].map(|n| largest(Paper::A5, n)), [12, 11, 10, 9, 0].map(some));
    }

    fn some(points: u8) -> Option<u8> {
        Some(points).filter(|points| *points > 0)
    }

    #[test]
    fn four_exercises_with_all_advice_are_legible_on_both() {
        for language in Language::ALL {
            let sheet = sheet(4, 5, language);
            let [a4, a5] = [Paper::A4, Paper::A5].map(|paper| on_paper(&sheet, language, paper));
            assert_eq!(a4, Fit { points: 11, short: false, two_pages: true }, "{}", language.name());
            assert_eq!(a5, Fit { points: 9, short: true, two_pages: true }, "{}", language.name());
            let page = page(&sheet, language);
            assert!(page.contains("class=\"sheet-page a4-11 a5-9 a5-short\"") && page.contains("class=\"left-out\""));
        }
    }

    #[test]
    fn less_to_read_gives_larger_letters_and_leaves_nothing_out() {
        for language in Language::ALL {
            let few = on_paper(&sheet(1, 0, language), language, Paper::A5);
            assert!(few.points >= 11 && !few.short && few.two_pages, "{few:?}");
            assert_eq!(on_paper(&sheet(2, 1, language), language, Paper::A4).points, 12);
            assert!(!page(&sheet(2, 0, language), language).contains("left-out"), "there is no advice to leave out");
        }
    }

    #[test]
    fn more_than_fits_is_said_and_never_smaller_than_nine_points() {
        let six = on_paper(&sheet(6, 5, Language::Spanish), Language::Spanish, Paper::A5);
        assert_eq!(six, Fit { points: 9, short: true, two_pages: false });
    }
}
