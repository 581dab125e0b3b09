//! Invented people who came more than once: one whose near point comes nearer over weeks, one who has an own baseline.

use super::{DAY, Demo, before};
use crate::calendar::Moment;
use crate::capture::answer::Answer;
use crate::capture::edit::Edit;
use crate::capture::visit::Visit;
use crate::capture::{decision, symptoms};

/// Four visits over five weeks after a knock: farther out at first, then nearer; symptoms and jumps settle.
pub(super) fn nearer_over_weeks(now: Moment) -> Vec<Visit> {
    let (on, short) = ("on", "short");
    vec![
        Seen {
            id: "demo-visit-6",
            days_ago: 36,
            reason: ("knock", "yesterday"),
            near_point: [(9.5, 12.0), (10.5, 13.0), (11.5, 14.0)],
            symptoms: ([2, 1, 0, 1], [3, 2, 0, 2]),
            left: [on, short, on, short, short, on, short, short, on, short],
            decision: ("retest", Some(29)),
        },
        Seen {
            id: "demo-visit-7",
            days_ago: 29,
            reason: ("follow_up", "month"),
            near_point: [(11.5, 14.0), (12.5, 15.0), (13.5, 16.5)],
            symptoms: ([2, 0, 0, 1], [3, 1, 0, 2]),
            left: [on, short, on, on, short, on, short, short, on, on],
            decision: ("retest", Some(15)),
        },
        Seen {
            id: "demo-visit-8",
            days_ago: 15,
            reason: ("follow_up", "month"),
            near_point: [(10.0, 12.5), (10.0, 13.0), (10.5, 13.0)],
            symptoms: ([1, 0, 0, 0], [1, 0, 0, 0]),
            left: [on, on, on, short, on, on, on, on, short, on],
            decision: ("retest", Some(2)),
        },
        Seen {
            id: "demo-visit-9",
            days_ago: 2,
            reason: ("follow_up", "longer"),
            near_point: [(6.0, 8.0), (6.0, 8.0), (6.0, 8.5)],
            symptoms: ([0, 0, 0, 0], [0, 0, 0, 0]),
            left: [on, on, on, on, on, on, short, on, on, on],
            decision: ("advice", None),
        },
    ]
    .into_iter()
    .map(|seen| seen.visit("demo-person-6", now))
    .collect()
}

/// The teenager with an own baseline, eight days ago after a knock; the re-test was set for yesterday.
pub(super) fn after_the_baseline(now: Moment) -> Visit {
    let seen = Seen {
        id: "demo-visit-10",
        days_ago: 8,
        reason: ("knock", "hours"),
        near_point: [(7.0, 9.0), (8.0, 9.5), (8.5, 10.5)],
        symptoms: ([1, 1, 0, 0], [2, 2, 0, 1]),
        left: ["on", "short", "on", "on", "short", "on", "short", "on", "past", "on"],
        decision: ("retest", Some(1)),
    };
    seen.visit("demo-person-5", now)
}

/// What one visit of these shows; everything else is as expected.
struct Seen {
    id: &'static str,
    days_ago: i64,
    reason: (&'static str, &'static str),
    near_point: [(f64, f64); 3],
    symptoms: ([u8; 4], [u8; 4]),
    left: [&'static str; 10],
    /// The action, and how many days ago a re-test was set for.
    decision: (&'static str, Option<i64>),
}

impl Seen {
    fn visit(self, person: &str, now: Moment) -> Visit {
        let mut demo = Demo::begin(self.id, person, before(now, self.days_ago * DAY));
        demo.frame(self.reason.0, self.reason.1, "guardian", "none");
        demo.no_danger();
        let (at_first, after) = self.symptoms;
        demo.symptoms(symptoms::BEFORE, at_first);
        demo.usual("resting_gaze");
        demo.near_point(&self.near_point);
        demo.symptoms("symptoms.near_point", after);
        demo.usual("pursuit");
        demo.symptoms("symptoms.pursuit", at_first);
        demo.jumps(&["on"; 10], &self.left);
        demo.symptoms("symptoms.saccade", after);
        demo.skip("optokinetic", "No time");
        demo.decide(&[("action", self.decision.0), ("play", "no_play")], &["person", "guardian"]);
        if let Some(days_ago) = self.decision.1 {
            let day = before(now, days_ago * DAY).date();
            demo.edit(decision::SLOT, Edit::Answer("retest_on".into(), Some(Answer::Day(day))));
        }
        demo.close()
    }
}
