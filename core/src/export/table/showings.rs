//! Showings: one row each time something was shown on a screen during a task, with its settings and its display.

use super::Seen;
use super::column::{Cell, Kind, Table, column};
use super::words;
use crate::anatomy::Direction;
use crate::capture::showing::{Showing, key, program};
use crate::stimulus::screen::Axis;
use crate::stimulus::target;
use crate::task;

/// Settings that are numbers: key, UCUM unit, what it is.
const NUMBERS: &[(&str, &str, &str)] = &[
    (key::SPEED, "deg/s", "Speed, the same all the way."),
    (key::PEAK_SPEED, "deg/s", "Speed where it is fastest, of a target that swings."),
    (key::SWINGS, "/s", "Swings there and back, or rounds, in a second."),
    (key::EACH_WAY, "deg", "From the middle to each side."),
    (key::STRIPE, "deg", "Width of one stripe."),
    (key::EVERY, "s", "Between jumps or prompts; empty when drawn by chance."),
    (key::GAP, "s", "Bare ground before the target."),
    (key::COUNT, "", "Jumps, trials, prompts or beats."),
    (key::PACE, "/min", "Beats."),
    (key::SECONDS_EACH, "s", "In each direction."),
    (key::REST, "s", "Between two directions."),
    (key::RIGHT, "deg", "To the right of the middle."),
    (key::UP, "deg", "Above the middle."),
    (key::SIZE, "deg", "The target across."),
];

const PATHS: [&str; 4] = ["horizontal", "vertical", "clockwise", "anticlockwise"];

const ANY: Kind = Kind::Number(None);

pub(super) fn table() -> Table {
    let whole = || Kind::Whole(0, i64::from(u32::MAX));
    let mut columns = vec![
        column("visit", Kind::Text, "Key of the visit.").required(),
        column("task", Kind::Word(words::tasks().collect()), "The task.").required(),
        column("order", Kind::Whole(1, i64::MAX), "Which of its showings it is, counted from 1.").required(),
        column("program", Kind::Word(program::ALL.to_vec()), "What was shown.").required(),
        column("at", Kind::Moment, "When it began.").named(),
        column("seconds", ANY, "How long it was shown.").unit("s"),
        column("stopped", Kind::Yes, "Whether it was stopped before its end.").required(),
        column("elsewhere", Kind::Yes, "Whether another device showed it, whose screen is not known.").required(),
        column("instruction", Kind::Text, "What the person was told, by its id or in words.").named(),
        column("path", Kind::Word(PATHS.to_vec()), "How the target goes."),
        column("toward", Kind::Words(Direction::ALL.map(Direction::word).to_vec()), "Where stripes move, in order."),
        column("target", Kind::Word(target::Kind::ALL.map(target::Kind::word).to_vec()), "What is drawn."),
    ];
    columns.extend(NUMBERS.iter().map(|(key, unit, says)| column(*key, ANY, *says).unit(unit)));
    columns.extend([
        column("distance", ANY, "From the eyes to the screen, as it was said.").unit("cm"),
        column("field_wide", ANY, "The screen from side to side, as the eyes see it.").unit("deg"),
        column("field_high", ANY, "The screen from top to bottom.").unit("deg"),
        column("frames_a_second", ANY, "Frames the display draws.").unit("/s"),
        column("frames_drawn", whole(), "Frames drawn."),
        column("frames_dropped", whole(), "Frames dropped; with more than 5 in 100 the movement was not smooth."),
        column("held", Kind::Yes, "Whether the scale held to the end; without it sizes and speeds do not hold."),
    ]);
    Table {
        name: "showings",
        says: "One row each time something was shown on a screen.",
        columns,
        key: &["visit", "task", "order"],
        refers: Some(("visit", "visits")),
    }
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    for record in seen.visit.records.iter().filter(|record| task::by_id(&record.slot).is_some()) {
        for (at, showing) in record.showings.iter().enumerate() {
            let mut row = table.row();
            row.put("visit", seen.key())
                .put("task", Cell::word(Some(record.slot.as_str())))
                .put("order", Cell::count(at + 1));
            for (name, cell) in cells(showing) {
                row.put(name, cell);
            }
            take(&row.cells);
        }
    }
}

fn cells(showing: &Showing) -> Vec<(&'static str, Cell)> {
    let one_of = |key: &str, words: &[&'static str]| {
        let word = showing.word(key).and_then(|word| words.iter().find(|known| **known == word));
        Cell::word(word.copied())
    };
    let toward = showing.word(key::TOWARD).map(|words| {
        words.split(' ').filter_map(Direction::from_word).map(|to| to.word().to_string()).collect::<Vec<_>>()
    });
    let field = |axis| showing.geometry().map_or(Cell::Empty, |screen| Cell::measured(screen.field(axis).0));
    let mut cells = vec![
        ("program", Cell::word(Some(showing.program.as_str()))),
        ("at", Cell::moment(showing.at)),
        ("seconds", Cell::measured(showing.seconds)),
        ("stopped", Cell::Yes(showing.stopped)),
        ("elsewhere", Cell::Yes(showing.elsewhere)),
        ("instruction", Cell::text(Some(showing.instruction.as_str()))),
        ("path", one_of(key::PATH, &PATHS)),
        ("toward", toward.map_or(Cell::Empty, Cell::Words)),
        ("target", one_of(key::TARGET, &target::Kind::ALL.map(target::Kind::word))),
        ("distance", showing.distance().map_or(Cell::Empty, Cell::measured)),
        ("field_wide", field(Axis::Horizontal)),
        ("field_high", field(Axis::Vertical)),
    ];
    cells.extend(NUMBERS.iter().map(|(key, _, _)| (*key, showing.number(key).map_or(Cell::Empty, Cell::measured))));
    if let Some(screen) = showing.screen {
        cells.extend([
            ("frames_a_second", screen.frames_a_second.map_or(Cell::Empty, Cell::measured)),
            ("frames_drawn", Cell::Whole(i64::from(screen.drawn))),
            ("frames_dropped", Cell::Whole(i64::from(screen.dropped))),
            ("held", Cell::Yes(screen.held)),
        ]);
    }
    cells
}
