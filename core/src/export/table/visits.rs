//! Visits: one row a visit, with why the person came, what was decided and what stands out.

use super::column::{Cell, Column, DAYS, Kind, Table, column};
use super::{Seen, Who, words};
use crate::assess::overview;
use crate::calendar::Date;
use crate::capture::record::Record;
use crate::capture::safety::DANGERS;
use crate::capture::{decision, frame, safety};
use crate::routine;
use crate::side::Outcome;

pub(super) fn table() -> Table {
    Table {
        name: "visits",
        says: "One row a visit.",
        columns: [head(), of_frame(), of_findings(), of_decision(), tail()].into_iter().flatten().collect(),
        key: &["visit"],
        refers: Some(("person", "people")),
    }
}

fn head() -> Vec<Column> {
    let routines = routine::ALL.iter().map(|routine| routine.id).chain(["own"]).collect();
    vec![
        column("visit", Kind::Text, "Key of the visit; a second one under the same id ends in ~2.").required(),
        column("person", Kind::Text, "Id of the person; without names their study code.").required(),
        column("number", Kind::Whole(1, i64::MAX), "Which of the person's visits it is, counted from 1.").required(),
        column("day", DAYS, "Days since the person's first visit in these tables.").unit("d").required(),
        column("started", Kind::Moment, "When it was begun.").named(),
        column("closed", Kind::Moment, "When it was closed; empty while it is open.").named(),
        column("state", Kind::Word(vec!["open", "closed"]), "Whether it was closed.").required(),
        column("lasted", Kind::Whole(0, i64::from(u32::MAX)), "From begin to close; empty while it is open.").unit("s"),
        column("invented", Kind::Yes, "Whether the person is made up, for trying things out.").required(),
        column("routine", Kind::Word(routines), "The routine; own for one of the practice's.").required(),
        column("age", Kind::Whole(0, 130), "Completed years on the day.").unit("a").named(),
        column("age", Kind::Age, "Completed years on the day; 90+ from 90 on.").unit("a").coded(),
        column("age_from", Kind::Word(vec!["day", "year"]), "Whether the day or only the year of birth is known."),
        column("age_missing", Kind::Word(vec!["not_known", "not_possible"]), "Why there is no age."),
    ]
}

fn of_frame() -> Vec<Column> {
    let word = |key| Kind::Word(words::choices(&frame::FORM, key));
    let some = |key| Kind::Words(words::choices(&frame::FORM, key));
    vec![
        column("frame_state", Kind::Word(words::STATES.to_vec()), "How far the questions before the tasks came.")
            .required(),
        column("reason", word("reason"), "Why the person came."),
        column("reason_note", Kind::Text, "In their words.").named(),
        column("since", word("since"), "When it happened or began."),
        column("happened", Kind::Day, "The day it happened.").named(),
        column("happened_day", DAYS, "The same in days from the first visit; negative before it.").unit("d").coded(),
        column("consent", word("consent"), "Who agreed to be examined and recorded."),
        column("consent_by", Kind::Text, "Who gave it, by name.").named(),
        column("glasses", word("glasses"), "Glasses for near."),
        column("influences", some("influences"), "What else can change eye movements on the day."),
        column("medicines", Kind::Text, "Which medicines.").named(),
        column("cautions", some("cautions"), "What care was taken with."),
        column("examiner", Kind::Text, "Examined by.").named(),
        column("safety_state", Kind::Word(words::STATES.to_vec()), "How far the check for danger signs came.")
            .required(),
        column("dangers", Kind::Words(DANGERS.iter().map(|danger| danger.key).collect()), "Danger signs answered yes."),
    ]
}

fn of_findings() -> Vec<Column> {
    let tasks = Kind::Whole(0, 1000);
    let sides = vec!["right", "left", "up", "down", "none", "not_named", "too_few"];
    vec![
        column("stopped", Kind::Yes, "Whether an emergency stop ended the visit.").required(),
        column("danger_signs", Kind::Ids, "Danger signs of the check, the tasks and the patterns.").required(),
        column("worst_grade", Kind::Word(words::GRADES.to_vec()), "The gravest grade of any finding.").required(),
        column("tasks", tasks.clone(), "Tasks of the visit.").required(),
        column("tasks_done", tasks, "Tasks with anything recorded.").required(),
        column("worse_side", Kind::Word(sides), "The direction that is worse over all tasks by more than chance.")
            .required(),
        column("worse_side_p", Kind::Number(Some((0.0, 1.0))), "Its p; empty when too little was recorded."),
    ]
}

fn of_decision() -> Vec<Column> {
    let word = |key| Kind::Word(words::choices(&decision::FORM, key));
    vec![
        column("decision_state", Kind::Word(words::STATES.to_vec()), "How far the decision came.").required(),
        column("action", word("action"), "What happens now."),
        column("refer_to", Kind::Text, "Referred to.").named(),
        column("refer_soon", word("refer_soon"), "How soon."),
        column("retest_on", Kind::Day, "The day of the next test.").named(),
        column("retest_day", DAYS, "The same in days from the first visit.").unit("d").coded(),
        column("play", word("play"), "Sport or activity on the day."),
        column("told", Kind::Words(words::choices(&decision::FORM, "told")), "Who was told."),
        column("told_name", Kind::Text, "Names or numbers of those told.").named(),
        column("decision_note", Kind::Text, "Note for the summary.").named(),
    ]
}

fn tail() -> Vec<Column> {
    vec![
        column(
            "not_in_tables",
            Kind::Whole(0, i64::from(u32::MAX)),
            "Parts of the record that these tables cannot hold.",
        )
        .required(),
        column("program", Kind::Text, "Name and version of the program that recorded it.").named(),
    ]
}

pub(super) fn fill(seen: &Seen<'_>, table: &Table, take: &mut dyn FnMut(&[Cell])) {
    let visit = seen.visit;
    let known = routine::ALL.iter().map(|routine| routine.id).find(|id| *id == visit.routine);
    let closed = visit.closed;
    // A clock that was set back in between leaves no duration.
    let lasted = closed.filter(|at| at.unix_ms >= visit.started.unix_ms);
    let mut row = table.row();
    row.put("visit", seen.key())
        .put("person", Cell::Text(seen.place.person.clone()))
        .put("number", Cell::count(seen.place.number))
        .put("day", seen.days_to(visit.started.date()))
        .put("started", Cell::moment(visit.started))
        .put("closed", closed.map_or(Cell::Empty, Cell::moment))
        .put("state", Cell::word(Some(if closed.is_some() { "closed" } else { "open" })))
        .put("lasted", lasted.map_or(Cell::Empty, |at| Cell::Whole(i64::from(at.ms_since(visit.started) / 1000))))
        .put("invented", Cell::Yes(seen.person.invented))
        .put("routine", Cell::word(Some(known.unwrap_or("own"))))
        .put("not_in_tables", Cell::Whole(i64::from(seen.left_out)))
        .put("program", Cell::text(Some(&visit.program)));
    for (name, cell) in age(seen).into_iter().chain(before(seen)).chain(found(seen)).chain(decided(seen)) {
        row.put(name, cell);
    }
    take(&row.cells);
}

type Cells = Vec<(&'static str, Cell)>;

fn age(seen: &Seen<'_>) -> Cells {
    let Some(age) = seen.assessment.age else {
        let why = if seen.person.born.is_some() { "not_possible" } else { "not_known" };
        return vec![("age_missing", Cell::word(Some(why)))];
    };
    let years = match seen.who {
        Who::Named => Cell::Whole(i64::from(age.years)),
        Who::Coded(_) if age.years >= 90 => Cell::word(Some("90+")),
        Who::Coded(_) => Cell::Word(age.years.to_string()),
    };
    vec![("age", years), ("age_from", Cell::word(Some(if age.exact { "day" } else { "year" })))]
}

fn before(seen: &Seen<'_>) -> Cells {
    let record = seen.visit.record(frame::SLOT);
    let check = seen.visit.record(safety::SLOT);
    let yes = |record: &Record| {
        let yes = |key: &&str| record.answers.one(key) == Some("yes");
        DANGERS.iter().map(|danger| danger.key).filter(yes).map(String::from).collect()
    };
    let asked = |record: &&Record| DANGERS.iter().any(|danger| record.answers.one(danger.key).is_some());
    let happened = record.and_then(|record| record.answers.day("happened"));
    let mut cells = vec![
        ("frame_state", words::state(record)),
        ("happened", happened.map_or(Cell::Empty, Cell::day)),
        ("happened_day", offset(seen, happened)),
        ("safety_state", words::state(check)),
        ("dangers", check.filter(asked).map_or(Cell::Empty, |record| Cell::Words(yes(record)))),
    ];
    if let Some(record) = record {
        let keys = ["reason", "since", "consent", "glasses"];
        cells.extend(keys.map(|key| (key, Cell::word(record.answers.one(key)))));
        cells.extend(["influences", "cautions"].map(|key| (key, Cell::words(record.answers.many(key)))));
        let typed = ["reason_note", "consent_by", "medicines", "examiner"];
        cells.extend(typed.map(|key| (key, Cell::text(record.answers.text(key)))));
    }
    cells
}

fn found(seen: &Seen<'_>) -> Cells {
    let assessment = seen.assessment;
    let (side, p) = match &assessment.side.outcome {
        Outcome::TooFew { .. } => ("too_few", None),
        Outcome::NoSide(compared) => ("none", Some(compared.p)),
        Outcome::NotNamed(compared) => ("not_named", Some(compared.p)),
        Outcome::Worse(direction, compared) => (direction.word(), Some(compared.p)),
    };
    vec![
        ("stopped", Cell::Yes(assessment.stopped)),
        ("danger_signs", Cell::Words(assessment.flags.iter().map(|flag| flag.id.clone()).collect())),
        ("worst_grade", Cell::word(Some(words::grade(overview(assessment).grade)))),
        ("tasks", Cell::count(assessment.tasks.len())),
        ("tasks_done", Cell::count(assessment.tasks.iter().filter(|task| task.done).count())),
        ("worse_side", Cell::word(Some(side))),
        ("worse_side_p", p.map_or(Cell::Empty, Cell::measured)),
    ]
}

fn decided(seen: &Seen<'_>) -> Cells {
    let record = seen.visit.record(decision::SLOT);
    let retest = record.and_then(|record| record.answers.day("retest_on"));
    let mut cells = vec![
        ("decision_state", words::state(record)),
        ("retest_on", retest.map_or(Cell::Empty, Cell::day)),
        ("retest_day", offset(seen, retest)),
    ];
    if let Some(record) = record {
        cells.extend(["action", "refer_soon", "play"].map(|key| (key, Cell::word(record.answers.one(key)))));
        cells.push(("told", Cell::words(record.answers.many("told"))));
        cells.extend(["refer_to", "told_name"].map(|key| (key, Cell::text(record.answers.text(key)))));
        cells.push(("decision_note", Cell::text(record.answers.text("note"))));
    }
    cells
}

fn offset(seen: &Seen<'_>, day: Option<Date>) -> Cell {
    day.map_or(Cell::Empty, |day| seen.days_to(day))
}
