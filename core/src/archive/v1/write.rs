//! Writes people, visits and routines as version 1. Absent answers are left out, and unread parts go back where they stood.

use super::super::node::Node;
use super::parts::{filled, number};
use super::{home, stage, word};
use crate::capture::addendum::Addendum;
use crate::capture::answer::{Answer, Answers, Cell, Run, Series, Tap, Trial};
use crate::capture::entry::Entry;
use crate::capture::ledger::{HandedOver, Join, Receipt, Tombstone, VisitRef};
use crate::capture::record::{Record, State};
use crate::capture::visit::{Person, Visit};
use crate::routine::own::OwnRoutine;

pub(in super::super) fn person(person: &Person) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&person.id));
    node.push("label", Node::text(&person.label));
    node.push_some("born", person.born.and_then(word::born));
    node.push_some("invented", person.invented.then_some(true));
    node.push_some("changed", person.changed.map(word::moment));
    node.restore(&person.unread);
    node
}

pub(in super::super) fn visit(visit: &Visit) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&visit.id));
    node.push("person", Node::text(&visit.person));
    node.push("routine", Node::text(&visit.routine));
    if !visit.plan.is_empty() {
        node.push("plan", Node::value(&visit.plan).line());
    }
    node.push("started", Node::text(&word::moment(visit.started)));
    node.push_some("closed", visit.closed.map(word::moment));
    node.push_some("at", filled(&visit.at));
    node.push_some("program", filled(&visit.program));
    node.push_some("sha256", visit.closed.and(visit.sha256.as_deref()));
    node.push("records", Node::List(visit.records.iter().map(record).collect()));
    node.push_list("sheets", visit.sheets.iter().map(home::write_given).collect());
    node.push_list("logs", visit.logs.iter().map(home::write_returned).collect());
    node.restore(&visit.unread);
    node
}

pub(in super::super) fn routine(routine: &OwnRoutine) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&routine.id));
    node.push("title", Node::text(&routine.title));
    node.push("tasks", Node::value(&routine.tasks));
    node.push_some("changed", routine.changed.map(word::moment));
    node.restore(&routine.unread);
    node
}

pub(in super::super) fn addendum(addendum: &Addendum) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&addendum.id));
    node.push("visit", Node::text(&addendum.visit));
    node.push("person", Node::text(&addendum.person));
    node.push("written", Node::text(&word::moment(addendum.written)));
    node.push("text", Node::text(&addendum.text));
    node.push_some("program", filled(&addendum.program));
    node.restore(&addendum.unread);
    node
}

pub(in super::super) fn receipt(receipt: &Receipt) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&receipt.id));
    node.push("issued", Node::text(&word::moment(receipt.issued)));
    node.push("visits", Node::List(visit_refs(&receipt.visits)));
    node.push_list("addenda", visit_refs(&receipt.addenda));
    node.restore(&receipt.unread);
    node
}

pub(in super::super) fn handed_over(handed: &HandedOver) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&handed.id));
    node.push("made", Node::text(&word::moment(handed.made)));
    node.push("word", Node::text(&handed.word));
    node.push("visits", Node::List(visit_refs(&handed.visits)));
    node.push_list("addenda", visit_refs(&handed.addenda));
    node.push_some("confirmed", handed.confirmed.map(word::moment));
    node.restore(&handed.unread);
    node
}

pub(in super::super) fn join(join: &Join) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&join.id));
    node.push("keep", Node::text(&join.keep));
    node.push("other", Node::text(&join.other));
    node.push("made", Node::text(&word::moment(join.made)));
    node.push_some("undone", join.undone.map(word::moment));
    node.restore(&join.unread);
    node
}

pub(in super::super) fn tombstone(tombstone: &Tombstone) -> Node {
    let mut node = Node::object();
    node.push("person", Node::text(&tombstone.person));
    node.push("erased", Node::text(&word::moment(tombstone.erased)));
    node.restore(&tombstone.unread);
    node
}

pub(in super::super) fn entry(entry: &Entry) -> Node {
    let mut node = Node::object();
    node.push("id", Node::text(&entry.id));
    node.push("person", Node::text(&entry.person));
    node.push("started", Node::text(&word::moment(entry.started)));
    node.push_some("closed", entry.closed.map(word::moment));
    node.push("routine", Node::text(&entry.routine));
    node.push_some("retest_on", entry.retest_on.and_then(word::day));
    node.push_some("sha256", entry.sha256.as_deref());
    node.push_some("handed_over", entry.handed_over.then_some(true));
    node.restore(&entry.unread);
    node
}

fn visit_refs(visits: &[VisitRef]) -> Vec<Node> {
    let one = |visit: &VisitRef| {
        let mut node = Node::object();
        node.push("id", Node::text(&visit.id));
        node.push("sha256", Node::text(&visit.sha256));
        node.line()
    };
    visits.iter().map(one).collect()
}

fn record(record: &Record) -> Node {
    let mut node = Node::object();
    node.push("slot", Node::text(&record.slot));
    let (state, reason) = match &record.state {
        State::Open => (word::OPEN, None),
        State::Done => (word::DONE, None),
        State::NotDone(reason) => (word::NOT_DONE, filled(reason)),
        State::NotTestable(reason) => (word::NOT_TESTABLE, filled(reason)),
    };
    node.push("state", Node::text(state));
    node.push_some("reason", reason);
    node.push_some("started", record.started.map(word::moment));
    node.push_some("ended", record.ended.map(word::moment));
    node.push("answers", answers(&record.answers));
    node.push_list("showings", record.showings.iter().filter_map(stage::write).collect());
    node.restore(&record.unread);
    node
}

fn answers(answers: &Answers) -> Node {
    let mut node = Node::object();
    for (key, given) in answers.iter() {
        if let Some(written) = answer(given) {
            node.push(key.to_string(), written);
        }
    }
    node
}

/// One answer; `None` for one that JSON has no notation for, which no form accepts either.
fn answer(answer: &Answer) -> Option<Node> {
    let (kind, content, line) = match answer {
        Answer::One(id) => ("one", Node::text(id), true),
        Answer::Many(ids) => ("many", Node::value(ids), true),
        Answer::Number(given) => ("number", number(*given)?, true),
        Answer::Text(text) => ("text", Node::text(text), true),
        Answer::Day(date) => ("day", Node::text(&word::day(*date)?), true),
        Answer::Ratings(ratings) => ("ratings", Node::List(ratings.iter().filter_map(rating).collect()), true),
        Answer::Trials(trials) => ("trials", Node::List(trials.iter().map(trial).collect()), false),
        Answer::Series(given) => ("series", series(given), false),
        Answer::Grid(cells) => ("grid", Node::List(cells.iter().map(cell).collect()), false),
    };
    let mut node = Node::object();
    node.push(kind, content);
    Some(if line { node.line() } else { node })
}

/// One rating; `None` for one beyond the scale, which no form accepts and no reader takes.
fn rating((item, value): &(String, u8)) -> Option<Node> {
    let mut node = Node::object();
    node.push("item", Node::text(item));
    node.push("value", Node::number((*value <= 10).then_some(*value)?));
    Some(node)
}

fn trial(trial: &Trial) -> Node {
    let mut node = Node::object();
    node.push("at_ms", Node::number(trial.at_ms));
    node.push("answers", answers(&trial.answers));
    node.line()
}

fn series(series: &Series) -> Node {
    let mut node = Node::object();
    node.push("runs", Node::List(series.runs.iter().map(run).collect()));
    node.push("taps", Node::List(series.taps.iter().map(tap).collect()));
    node
}

fn run(run: &Run) -> Node {
    let mut node = Node::object();
    node.push("pad", Node::text(&run.pad));
    node.push("from_ms", Node::number(run.from_ms));
    node.push_some("to_ms", run.to_ms);
    if let Some(bpm) = run.bpm.and_then(number) {
        node.push("bpm", bpm);
    }
    node.line()
}

fn tap(tap: &Tap) -> Node {
    let mut node = Node::object();
    node.push("at_ms", Node::number(tap.at_ms));
    node.push("pad", Node::text(&tap.pad));
    node.push("mark", Node::text(&tap.mark));
    if !tap.also.is_empty() {
        node.push("also", Node::value(&tap.also));
    }
    node.push("made", Node::text(word::made(tap.made)));
    node.line()
}

fn cell(cell: &Cell) -> Node {
    let mut node = Node::object();
    node.push("row", Node::text(&cell.row));
    node.push("column", Node::text(&cell.column));
    node.push("grade", Node::text(&cell.grade));
    node.push_some("from_cycle", cell.from_cycle);
    node.line()
}
