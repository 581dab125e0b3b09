//! How far each eye goes: which directions fall short, and what they look like together.

use super::evidence::{BOTH_OUTWARD, DIPLOPIA, KISSEL, RANGE, STRUPP};
use super::{Case, TASK, notice};
use crate::anatomy::{Direction, Eye};
use crate::evidence::capital;
use crate::finding::{Flag, Grade, Place};
use crate::measure::{Amount, Better, Measure};
use crate::notice::{Notice, Since};
use crate::sign::{Sign, What};

/// How far an eye goes, from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Reach {
    Full,
    Slight,
    Clear,
    Middle,
}

impl Reach {
    const WORDS: &'static [&'static str] = &["full", "slightly short", "clearly short", "not past the middle"];

    fn from_id(id: &str) -> Option<Reach> {
        match id {
            "full" => Some(Reach::Full),
            "slight" => Some(Reach::Slight),
            "clear" => Some(Reach::Clear),
            "middle" => Some(Reach::Middle),
            _ => None,
        }
    }

    pub(super) fn words(self) -> &'static str {
        Reach::WORDS[self as usize]
    }

    /// The steps and what they count for are common practice; no limit by eye is published.
    fn grade(self) -> Grade {
        match self {
            Reach::Full => Grade::WithinRange,
            Reach::Slight => Grade::NearLimit,
            Reach::Clear | Reach::Middle => Grade::OutsideRange,
        }
    }
}

/// One of the eight directions.
#[derive(Debug, PartialEq)]
pub(super) struct Gaze {
    pub(super) id: &'static str,
    pub(super) phrase: &'static str,
    /// The main direction it is, or the two it lies between.
    pub(super) parts: &'static [Direction],
}

/// In the order of the form.
pub(super) static GAZES: [Gaze; 8] = [
    gaze("right", "to the right", &[Direction::Right]),
    gaze("up_right", "up and to the right", &[Direction::Right, Direction::Up]),
    gaze("down_right", "down and to the right", &[Direction::Right, Direction::Down]),
    gaze("left", "to the left", &[Direction::Left]),
    gaze("up_left", "up and to the left", &[Direction::Left, Direction::Up]),
    gaze("down_left", "down and to the left", &[Direction::Left, Direction::Down]),
    gaze("up", "upward", &[Direction::Up]),
    gaze("down", "downward", &[Direction::Down]),
];

const fn gaze(id: &'static str, phrase: &'static str, parts: &'static [Direction]) -> Gaze {
    Gaze { id, phrase, parts }
}

/// What one eye did in the eight directions.
#[derive(Debug)]
pub(super) struct Range {
    pub(super) eye: Eye,
    pub(super) reaches: [Option<Reach>; 8],
}

impl Range {
    pub(super) fn of(eye: Eye, case: &Case<'_>) -> Range {
        let reach = |gaze: &Gaze| Reach::from_id(&case.record.answers.cell("reach", gaze.id, eye.word())?.grade);
        Range { eye, reaches: GAZES.each_ref().map(reach) }
    }

    pub(super) fn any(&self) -> bool {
        self.reaches.iter().any(Option::is_some)
    }

    pub(super) fn all_full(&self) -> bool {
        self.reaches.iter().all(|reach| *reach == Some(Reach::Full))
    }

    pub(super) fn some_full(&self) -> bool {
        self.reaches.contains(&Some(Reach::Full))
    }

    pub(super) fn some_short(&self) -> bool {
        self.reaches.iter().any(|reach| reach.is_some_and(|reach| reach > Reach::Full))
    }

    pub(super) fn cells(&self) -> impl Iterator<Item = (&'static Gaze, Option<Reach>)> + '_ {
        GAZES.iter().zip(self.reaches)
    }

    fn main(&self, direction: Direction) -> Option<Reach> {
        self.cells().find(|(gaze, _)| *gaze.parts == [direction]).and_then(|(_, reach)| reach)
    }

    /// Directions that fall short. A slanting one beside a main one that falls short is explained by it: an eye that
    /// does not turn outward does not do so up or down either.
    fn short(&self) -> Vec<(&'static Gaze, Reach)> {
        let short = |reach: Reach| reach > Reach::Full;
        let explained =
            |gaze: &Gaze| gaze.parts.len() > 1 && gaze.parts.iter().any(|part| self.main(*part).is_some_and(short));
        let seen = self.cells().filter_map(|(gaze, reach)| Some((gaze, reach.filter(|reach| short(*reach))?)));
        seen.filter(|(gaze, _)| !explained(gaze)).collect()
    }

    /// Whether gaze falls short in a main direction: the direction itself, or an unexplained slanting one beside it.
    fn limited(&self, direction: Direction) -> Option<bool> {
        if self.short().iter().any(|(gaze, _)| gaze.parts.contains(&direction)) {
            return Some(true);
        }
        self.main(direction).map(|_| false)
    }

    /// Toward the nose.
    fn inward(&self) -> Direction {
        self.eye.other().side().direction()
    }

    fn outward(&self) -> Direction {
        self.eye.side().direction()
    }
}

/// What stands out in the range of both eyes, the danger sign it may be, and the signs it gives.
pub(super) struct Seen {
    pub(super) notices: Vec<Notice>,
    pub(super) flag: Option<Flag>,
    pub(super) signs: Vec<Sign>,
}

/// Reads both eyes. Directions in which both fall short are told once, of the two together.
pub(super) fn read(case: &Case<'_>, ranges: &[Range; 2]) -> Seen {
    let since = case.since("reach_new");
    let [right, left] = ranges.each_ref().map(Range::short);
    let paired = |gaze: &Gaze, in_other: &[(&Gaze, Reach)]| in_other.iter().any(|(other, _)| *other == gaze);
    let worse = |(gaze, reach): &(&'static Gaze, Reach)| {
        let other = left.iter().find(|(other, _)| other == gaze)?;
        Some((*gaze, (*reach).max(other.1)))
    };
    let both: Vec<_> = right.iter().filter_map(worse).collect();
    let alone = [
        right.iter().filter(|(gaze, _)| !paired(gaze, &left)).copied().collect::<Vec<_>>(),
        left.iter().filter(|(gaze, _)| !paired(gaze, &right)).copied().collect::<Vec<_>>(),
    ];
    let mut notices = Vec::new();
    if !both.is_empty() {
        notices.push(of_both(&both, since));
    }
    for (range, short) in ranges.iter().zip(&alone) {
        if !short.is_empty() {
            notices.push(of_one(case, range, short, since));
        }
    }
    outward_both(ranges, &mut notices);
    for notice in &mut notices {
        if since == Since::Old {
            notice.finding.grade = Grade::NoRange;
        }
    }
    let signs = ranges.iter().flat_map(|range| signs(range, &both)).collect();
    let flag = danger(&mut notices, &both, since);
    Seen { notices, flag, signs }
}

fn of_both(short: &[(&'static Gaze, Reach)], since: Since) -> Notice {
    let mut notice = told("both", Place::Both, "Both eyes", short, since)
        .says("Compatible with a gaze palsy, also seen with little effort, drowsiness or old age.")
        .cites(&STRUPP);
    if short.iter().any(|(gaze, _)| gaze.parts.contains(&Direction::Up)) {
        notice = notice
            .says(
                "Upward the eyes go least in health, 28° on average against 44 to 47° elsewhere, and lose most with \
                 age (Lee et al. 2019).",
            )
            .cites(&RANGE);
    }
    notice.by_common_practice()
}

fn of_one(case: &Case<'_>, range: &Range, short: &[(&'static Gaze, Reach)], since: Since) -> Notice {
    let (name, key) = match range.eye {
        Eye::Right => ("Right eye", "right_eye"),
        Eye::Left => ("Left eye", "left_eye"),
    };
    let notice = told(key, Place::In(range.eye), name, short, since);
    let falls = |direction| short.iter().any(|(gaze, _)| gaze.parts.contains(&direction));
    let third = [range.inward(), Direction::Up, Direction::Down].into_iter().filter(|way| falls(*way)).count() >= 2;
    let outward = falls(range.outward());
    let double = case.doubles().is_some_and(|ids| ids.iter().any(|id| toward(id, range.outward())));
    // What the nerves move, and what else limits an eye, is standard teaching, from memory.
    let notice = if third && !outward {
        notice
            .says(
                "Two or more of inward, up and down: compatible with a third nerve palsy, also seen with disease of \
                 the eye muscles or the orbit, and with muscles that tire.",
            )
            .says(
                "Look at lid and pupil. With a pupil involved an aneurysm has to be excluded at once; equal pupils \
                 exclude nothing: 7 of 51 with an aneurysm began so (Kissel et al. 1983).",
            )
            .cites(&KISSEL)
    } else if outward && !third && double {
        notice.says(
            "Short outward and double that way: compatible with a sixth nerve palsy, also seen with disease of the eye \
             muscles or the orbit, muscles that tire and an old squint.",
        )
    } else {
        notice.says("Also seen with disease of the eye muscles or the orbit, muscles that tire and an old squint.")
    };
    notice.by_common_practice()
}

/// The headline names up to two directions; with more they stand in the first sentence.
fn told(key: &str, place: Place, name: &str, short: &[(&'static Gaze, Reach)], since: Since) -> Notice {
    let worst = short.iter().map(|(_, reach)| *reach).max().unwrap_or(Reach::Full);
    let each = short.iter().map(|(gaze, reach)| format!("{} {}", reach.words(), gaze.phrase));
    let each = each.collect::<Vec<_>>().join(", ");
    let notice = if short.len() > 2 {
        let headline = format!("{name} short in {} directions, at worst {}", short.len(), worst.words());
        notice(key, place, headline).says(format!("{}.", capital(&each)))
    } else {
        notice(key, place, format!("{name} {each}"))
    };
    notice.grade(worst.grade()).since(since)
}

/// Both eyes short outward are two eyes with one cause, which neither shows alone.
fn outward_both(ranges: &[Range; 2], notices: &mut [Notice]) {
    if ranges.iter().any(|range| range.limited(range.outward()) != Some(true)) {
        return;
    }
    for notice in notices.iter_mut().filter(|notice| matches!(notice.finding.place, Place::In(_))) {
        let says =
            "Both eyes short outward: also seen with raised pressure in the head, lack of thiamine and botulism.";
        notice.finding.details.push(says.to_string());
        notice.finding.sources.push(&BOTH_OUTWARD);
    }
}

/// What falls clearly short and may be new is a danger sign; what falls slightly short only when it is known to be new.
///
/// A new gaze palsy is in the cited list. That one eye alone counts the same is common practice; its source is the one
/// on the double vision such an eye gives.
fn danger(notices: &mut [Notice], both: &[(&'static Gaze, Reach)], since: Since) -> Option<Flag> {
    let counts = |notice: &Notice| match notice.finding.grade {
        Grade::OutsideRange => since.counts_as_new(),
        Grade::NearLimit => since == Since::New,
        Grade::NoRange | Grade::WithinRange | Grade::Urgent => false,
    };
    let urgent: Vec<&mut Notice> = notices.iter_mut().filter(|notice| counts(notice)).collect();
    if urgent.is_empty() {
        return None;
    }
    let together = !both.is_empty() && urgent.iter().any(|notice| notice.finding.place == Place::Both);
    let one = match urgent[..] {
        [ref one] => match one.finding.place {
            Place::In(Eye::Right) => "a right eye that does not move fully",
            Place::In(Eye::Left) => "a left eye that does not move fully",
            Place::Both | Place::Toward(_) | Place::On(_) => "both eyes not moving fully in one direction",
        },
        _ => "eyes that do not move fully",
    };
    for notice in urgent {
        notice.finding.grade = Grade::Urgent;
        notice.finding.details.retain(|said| !said.starts_with("No limit is published"));
        notice.finding.details.push("New, it has to be seen by emergency care.".to_string());
    }
    let source = if together { &STRUPP } else { &DIPLOPIA };
    Some(Flag { id: format!("{}.limited", TASK.id), seen: since.phrase(one), neck: false, source })
}

fn signs(range: &Range, both: &[(&'static Gaze, Reach)]) -> Vec<Sign> {
    let key = |direction: Direction, limited: bool| {
        let shared = both.iter().any(|(gaze, _)| gaze.parts.contains(&direction));
        match (limited, shared, range.eye) {
            (false, _, _) => format!("{}.as_expected", TASK.id),
            (true, true, _) => format!("{}.both", TASK.id),
            (true, false, Eye::Right) => format!("{}.right_eye", TASK.id),
            (true, false, Eye::Left) => format!("{}.left_eye", TASK.id),
        }
    };
    let sign = |direction: Direction| {
        let limited = range.limited(direction)?;
        Some(Sign::new(What::LimitedGaze(direction), Place::In(range.eye), limited, &key(direction, limited)))
    };
    Direction::ALL.into_iter().filter_map(sign).collect()
}

/// The worst reach of an eye, once all eight directions were looked at.
pub(super) fn measure(range: &Range) -> Option<Measure> {
    let worst = range.reaches.iter().copied().collect::<Option<Vec<Reach>>>()?.into_iter().max()?;
    Some(Measure {
        key: format!("{}.worst.{}_eye", TASK.id, range.eye.word()),
        task: TASK.id,
        what: format!("range of the {} eye, worst direction", range.eye.word()),
        place: Place::In(range.eye),
        amount: Amount::Step { step: worst as u8, words: Reach::WORDS },
        better: Better::Lower,
        method: Vec::new(),
        limits: &[],
        norm: None,
    })
}

/// Whether one of the eight directions, by its id, leads this way.
pub(super) fn toward(id: &str, direction: Direction) -> bool {
    GAZES.iter().any(|gaze| gaze.id == id && gaze.parts.contains(&direction))
}
