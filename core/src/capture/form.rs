//! Forms: what is asked, as data. A screen draws any form; a task only lists its fields.

use super::answer::{Answer, Answers};
use super::showing::Showing;
use crate::quantity::Quantity;

/// A list of fields under one id.
#[derive(Debug)]
pub struct Form {
    /// Stable id, the same as the record's form.
    pub id: &'static str,
    /// Fields in the order they are asked.
    pub fields: &'static [Field],
    /// Answers that one tap on "all as expected" gives; empty when the form has no such tap.
    pub usual: &'static [Usual],
    /// What that tap is called; empty when there is none.
    pub usual_label: &'static str,
    /// The answers that what was shown on a screen gives by itself; [`never_fills`] for most.
    pub fills: Fills,
}

/// Answers by field key, from all that was shown; `None` takes one away that is no longer true.
pub type Fills = fn(&[Showing]) -> Vec<(&'static str, Option<Answer>)>;

/// For a form that nothing shown on a screen fills.
#[must_use]
pub fn never_fills(_: &[Showing]) -> Vec<(&'static str, Option<Answer>)> {
    Vec::new()
}

/// One field.
#[derive(Debug)]
pub struct Field {
    /// Stable key of the answer.
    pub key: &'static str,
    /// The question, short enough for a 360 px wide screen.
    pub ask: &'static str,
    /// One more sentence of help; empty for none.
    pub help: &'static str,
    /// What kind of answer it takes.
    pub kind: Kind,
    /// Whether its absence is a gap.
    pub need: Need,
    /// Where it stands on the screen.
    pub place: Place,
    /// Shown only when another field has one of these ids, a grid in any of its cells.
    pub only_if: Option<(&'static str, &'static [&'static str])>,
}

/// Whether an absent answer is listed as a gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// Its absence is listed as a gap.
    Asked,
    /// It may be left without remark.
    Optional,
}

/// Where a field stands while examining.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In sight.
    Main,
    /// Under "how it was measured", folded away.
    Detail,
}

/// Kinds of field. Adding one means one more widget; every match on it lists all kinds.
#[derive(Debug)]
pub enum Kind {
    /// One of a list.
    One(&'static [Choice]),
    /// Any of a list; `none` is the label of "none of these".
    Many {
        /// What can be chosen.
        choices: &'static [Choice],
        /// Label of the explicit empty answer.
        none: &'static str,
    },
    /// A bounded number.
    Number(&'static Quantity),
    /// Free text of at most so many characters.
    Text {
        /// Longest text in characters.
        max: usize,
        /// Whether it takes several lines.
        long: bool,
    },
    /// A day.
    Day,
    /// Several 0 to 10 ratings.
    Ratings(&'static [Choice]),
    /// Repeated trials.
    Trials(&'static TrialForm),
    /// Taps on pads.
    Series(&'static SeriesForm),
    /// A table of grades.
    Grid(&'static GridForm),
}

/// One choice of a list.
#[derive(Debug, PartialEq)]
pub struct Choice {
    /// Stable id.
    pub id: &'static str,
    /// Label.
    pub label: &'static str,
    /// A few more words under the label; empty for none.
    pub hint: &'static str,
}

/// Repeated trials of one measurement.
#[derive(Debug)]
pub struct TrialForm {
    /// Fields of each trial; the first is the measurement itself.
    pub fields: &'static [Field],
    /// Trials that are asked for.
    pub wanted: usize,
    /// Most trials that are kept.
    pub most: usize,
}

/// Taps on pads.
#[derive(Debug)]
pub struct SeriesForm {
    /// Pads: directions.
    pub pads: &'static [Choice],
    /// What can be seen; the first is the expected one and the largest button.
    pub marks: &'static [MarkChoice],
    /// What can be added to the last tap.
    pub also: &'static [Choice],
    /// Whether each pad has a run of its own with start and stop.
    pub run_by_pad: bool,
    /// The pace, when the app may give it.
    pub pace: Option<Pace>,
    /// Taps asked for on each pad.
    pub wanted: usize,
    /// Most taps that are kept altogether.
    pub most: usize,
}

/// What can be seen at a tap, with the shape that stands for it.
#[derive(Debug, PartialEq)]
pub struct MarkChoice {
    /// The choice.
    pub choice: Choice,
    /// Its shape in the row of taps.
    pub shape: Shape,
}

/// Shapes that tell outcomes apart without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A filled disc: as expected.
    Disc,
    /// A wedge: fell short.
    Wedge,
    /// An arrow head: went past.
    Arrow,
    /// A cross: missed.
    Cross,
    /// An open ring: partly.
    Ring,
}

/// A pace the app can beat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Beats per minute.
    pub bpm: f64,
    /// Beats in one run.
    pub beats: u32,
    /// Whether the beats alternate between the pads, starting with the first.
    pub alternates: bool,
}

/// A table of grades.
#[derive(Debug)]
pub struct GridForm {
    /// Rows: directions, or eyes.
    pub rows: &'static [Choice],
    /// Columns.
    pub columns: &'static [Choice],
    /// Grades from best to worst.
    pub grades: &'static [Choice],
    /// Cycles shown in one cell; the examiner may say in which one it changed. Zero when not asked.
    pub cycles: u8,
}

/// One answer of the "all as expected" tap.
#[derive(Debug)]
pub struct Usual {
    /// The field's key.
    pub key: &'static str,
    /// What the tap answers.
    pub answer: UsualAnswer,
}

/// What the "all as expected" tap can answer.
#[derive(Debug)]
pub enum UsualAnswer {
    /// This choice.
    One(&'static str),
    /// None of the list.
    NoneOf,
    /// Zero in every rating.
    Zeros,
    /// The best grade in every cell.
    BestGrade,
}

impl Form {
    /// A field by key.
    #[must_use]
    pub fn field(&self, key: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.key == key)
    }

    /// The answers that "all as expected" gives.
    #[must_use]
    pub fn usual_answers(&self) -> Vec<(&'static str, Answer)> {
        let answer = |usual: &Usual| Some((usual.key, usual.answer.for_field(self.field(usual.key)?)?));
        self.usual.iter().filter_map(answer).collect()
    }

    /// Fields that apply, given the answers so far.
    pub fn shown<'a>(&'a self, answers: &'a Answers) -> impl Iterator<Item = &'static Field> + 'a {
        self.fields.iter().filter(move |field| field.applies(answers))
    }
}

impl Field {
    /// Whether the field applies, given the answers so far.
    #[must_use]
    pub fn applies(&self, answers: &Answers) -> bool {
        let Some((key, ids)) = self.only_if else { return true };
        match answers.get(key) {
            Some(Answer::One(id)) => ids.contains(&id.as_str()),
            Some(Answer::Many(chosen)) => chosen.iter().any(|id| ids.contains(&id.as_str())),
            Some(Answer::Grid(cells)) => cells.iter().any(|cell| ids.contains(&cell.grade.as_str())),
            _ => false,
        }
    }

    /// Whether this answer is one the field can take: right kind, known ids, within bounds.
    #[must_use]
    pub fn accepts(&self, answer: &Answer) -> bool {
        match (&self.kind, answer) {
            (Kind::One(choices), Answer::One(id)) => knows(choices, id),
            (Kind::Many { choices, .. }, Answer::Many(ids)) => ids.iter().all(|id| knows(choices, id)),
            (Kind::Number(quantity), Answer::Number(value)) => quantity.check(*value).is_ok(),
            (Kind::Text { max, .. }, Answer::Text(text)) => text.chars().count() <= *max,
            (Kind::Day, Answer::Day(_)) => true,
            (Kind::Ratings(items), Answer::Ratings(ratings)) => {
                ratings.iter().all(|(id, value)| knows(items, id) && *value <= 10)
            }
            (Kind::Trials(form), Answer::Trials(trials)) => trials.iter().all(|trial| form.accepts(trial)),
            (Kind::Series(form), Answer::Series(series)) => series.taps.iter().all(|tap| {
                knows(form.pads, &tap.pad)
                    && form.marks.iter().any(|mark| mark.choice.id == tap.mark)
                    && tap.also.iter().all(|id| knows(form.also, id))
            }),
            (Kind::Grid(form), Answer::Grid(cells)) => cells.iter().all(|cell| {
                knows(form.rows, &cell.row) && knows(form.columns, &cell.column) && knows(form.grades, &cell.grade)
            }),
            _ => false,
        }
    }
}

impl TrialForm {
    /// Whether every answer of the trial is one its field can take.
    #[must_use]
    pub fn accepts(&self, trial: &super::answer::Trial) -> bool {
        let known = |key: &str, answer: &Answer| self.fields.iter().any(|f| f.key == key && f.accepts(answer));
        trial.answers.iter().all(|(key, answer)| known(key, answer))
    }
}

impl UsualAnswer {
    fn for_field(&self, field: &Field) -> Option<Answer> {
        use super::answer::Cell;
        match (self, &field.kind) {
            (UsualAnswer::One(id), _) => Some(Answer::One((*id).to_string())),
            (UsualAnswer::NoneOf, _) => Some(Answer::Many(Vec::new())),
            (UsualAnswer::Zeros, Kind::Ratings(items)) => {
                Some(Answer::Ratings(items.iter().map(|item| (item.id.to_string(), 0)).collect()))
            }
            (UsualAnswer::BestGrade, Kind::Grid(form)) => {
                let best = form.grades.first()?.id;
                let cell = |row: &Choice, column: &Choice| Cell {
                    row: row.id.into(),
                    column: column.id.into(),
                    grade: best.into(),
                    from_cycle: None,
                };
                Some(Answer::Grid(
                    form.rows.iter().flat_map(|r| form.columns.iter().map(move |c| cell(r, c))).collect(),
                ))
            }
            (UsualAnswer::Zeros | UsualAnswer::BestGrade, _) => None,
        }
    }
}

/// The label of an id in a list; the id itself when the list does not know it.
#[must_use]
pub fn label<'a>(choices: &'a [Choice], id: &'a str) -> &'a str {
    choices.iter().find(|choice| choice.id == id).map_or(id, |choice| choice.label)
}

fn knows(choices: &[Choice], id: &str) -> bool {
    choices.iter().any(|choice| choice.id == id)
}

/// A choice without a hint; for tables of choices.
#[must_use]
pub const fn choice(id: &'static str, label: &'static str) -> Choice {
    Choice { id, label, hint: "" }
}

/// A choice with a hint.
#[must_use]
pub const fn hinted(id: &'static str, label: &'static str, hint: &'static str) -> Choice {
    Choice { id, label, hint }
}

/// A field in sight whose absence is a gap.
#[must_use]
pub const fn asked(key: &'static str, ask: &'static str, kind: Kind) -> Field {
    Field { key, ask, help: "", kind, need: Need::Asked, place: Place::Main, only_if: None }
}

/// A field in sight that may be left.
#[must_use]
pub const fn optional(key: &'static str, ask: &'static str, kind: Kind) -> Field {
    Field { key, ask, help: "", kind, need: Need::Optional, place: Place::Main, only_if: None }
}

/// A folded field that may be left.
#[must_use]
pub const fn detail(key: &'static str, ask: &'static str, kind: Kind) -> Field {
    Field { key, ask, help: "", kind, need: Need::Optional, place: Place::Detail, only_if: None }
}

impl Field {
    /// The same field with a sentence of help.
    #[must_use]
    pub const fn help(self, help: &'static str) -> Field {
        Field { help, ..self }
    }

    /// The same field, shown only when `key` has one of `ids`.
    #[must_use]
    pub const fn only_if(self, key: &'static str, ids: &'static [&'static str]) -> Field {
        Field { only_if: Some((key, ids)), ..self }
    }
}
