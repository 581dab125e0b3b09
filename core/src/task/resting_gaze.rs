//! Gaze at rest: whether the eyes hold still and together, and what lids and pupils show.
//!
//! What is long known is a finding. What is new, or not known to be old, is a danger sign where published signs say so.

mod evidence;
mod form;
mod lid_pupil;
mod signs;

pub use evidence::RATES;

use super::{Context, Setup, Task, never_barred};
use crate::anatomy::{Direction, Eye};
use crate::capture::form::Need;
use crate::capture::record::{Record, State};
use crate::capture::visit::Visit;
use crate::capture::{frame, symptoms};
use crate::finding::{Finding, Gap, Grade, Place, Reading, Why};
use crate::notice::{Notice, Since};
use evidence::{
    CONCUSSION, DIPLOPIA, DOWN, HERISHANU, HORIZONTAL, JERKS, KATTAH, MORGAN, MOVEMENT, STRUPP, UP, VERTIGO_GUIDELINE,
    YOUNG,
};
use form::FORM;
use lid_pupil::{lid, lid_and_pupil, pupils};

/// The task.
pub static TASK: Task = Task {
    id: "resting_gaze",
    title: "Eyes at rest",
    term: "gaze at rest",
    setup: Setup {
        position: "Facing you at the same height, head straight, in their glasses.",
        target: "A small face, straight ahead at arm's length.",
        motion: "Hold still for ten seconds. Then cover one eye for two seconds, and the other, twice each; \
                 then let light fall on each pupil.",
        say: "Look at its nose and keep looking. Is it one, or two?",
        watch: "Both eyes while they rest; lids and pupils; and the open eye at the moment the other is covered.",
    },
    form: &FORM,
    provokes: false,
    pace: None,
    seconds: 40,
    barred: never_barred,
    cautions: &[],
    norms: &[],
    read,
};

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let case = Case { visit: context.visit, record };
    let mut reading = Reading { gaps: gaps(record), signs: signs::signs(&case), ..Reading::default() };
    let (lid, pupils) = (lid(&case), pupils(&case));
    reading.flags.extend(lid_and_pupil(&case, lid.as_ref(), pupils.as_ref()));
    let noticed = [fixation(&case), nystagmus(&case), lid, pupils, alignment(&case), double(&case)];
    for notice in noticed.into_iter().flatten() {
        reading.flags.extend(notice.flag);
        reading.findings.push(notice.finding);
    }
    reading.findings.extend(as_expected(record));
    reading.findings.extend(
        record.answers.text("note").map(|note| Finding::new(TASK.id, "note", Place::Both, format!("Note: “{note}”"))),
    );
    reading
}

/// The record together with its visit.
struct Case<'a> {
    visit: &'a Visit,
    record: &'a Record,
}

impl Case<'_> {
    fn one(&self, key: &str) -> Option<&str> {
        self.record.answers.one(key)
    }

    fn since(&self, key: &str) -> Since {
        Since::of(self.visit, self.record, key)
    }
}

/// Something not as expected at this task.
fn notice(what: &str, place: Place, headline: impl Into<String>) -> Notice {
    Notice::new(TASK.id, what, place, headline)
}

fn fixation(case: &Case<'_>) -> Option<Notice> {
    let sign = |headline: &str| notice("fixation", Place::Both, headline);
    // What else moves a gaze off its target is common practice.
    let other = "Also seen with tiredness, wandering attention, poor sight or missing glasses.";
    Some(match case.one("fixation")? {
        "jerks" => sign("Small jerks off the target and back")
            .grade(Grade::NoRange)
            .says("Ordinary when few; in the young more than 9 a minute can be called too many (Herishanu & Sharpe 1981).")
            .cites(&HERISHANU)
            .healthy(&JERKS),
        "drifts" => sign("The eyes drift off the target").says(other).by_common_practice(),
        "cannot" => sign("The eyes cannot keep to the target").says(other).by_common_practice(),
        "bursts" => {
            let since = case.since("fixation_new");
            let sign = sign("Bursts of fast to-and-fro movements without a pause").since(since);
            if since.counts_as_new() {
                let seen = since.phrase("bursts of fast to-and-fro eye movements without a pause");
                sign.says("Of recent onset it calls for admission without delay.").danger("bursts", seen, &MOVEMENT)
            } else {
                sign.by_common_practice()
            }
        }
        _ => return None,
    })
}

fn nystagmus(case: &Case<'_>) -> Option<Notice> {
    let since = case.since("nystagmus_new");
    let sign = |place: Place, headline: &str| notice("nystagmus", place, headline).since(since);
    let toward = |direction: Direction| {
        let headline = format!("Nystagmus that beats {} with gaze straight ahead", direction.phrase());
        notice("nystagmus", Place::Toward(direction), headline).since(since)
    };
    let sign = match case.one("nystagmus")? {
        "right" => sideways(case, toward(Direction::Right)),
        "left" => sideways(case, toward(Direction::Left)),
        "up" => vertical(case, toward(Direction::Up).healthy(&UP), since, "nystagmus that beats upward"),
        "down" => vertical(case, toward(Direction::Down).healthy(&DOWN), since, "nystagmus that beats downward"),
        "torsional" => {
            let sign = sign(Place::Both, "Nystagmus that twists with gaze straight ahead");
            with_vertigo(case, sign, since, "nystagmus that twists, in someone dizzy")
        }
        "changes" => {
            let sign = sign(Place::Both, "Nystagmus that changes its direction");
            with_vertigo(case, sign, since, "nystagmus that changes its direction, in someone dizzy")
        }
        "pendular" => sign(Place::Both, "The eyes swing to and fro without a fast phase"),
        _ => return None,
    };
    let sign = sign.by_common_practice();
    Some(if on_video(case) {
        sign.says(
            "Seen only on a video or with goggles, which show it in 30.7 % of healthy adults (Young et al. 2020).",
        )
        .cites(&YOUNG)
    } else {
        sign
    })
}

fn sideways(case: &Case<'_>, sign: Notice) -> Notice {
    let sign = sign.healthy(&HORIZONTAL).says("A single direction does not tell what it comes from.");
    if !symptoms::dizzy(case.visit) {
        return sign;
    }
    sign.says_first(
        "In someone dizzy: have it examined the same day by someone trained in it; eyes at rest cannot rule out a stroke.",
    )
    .cites(&VERTIGO_GUIDELINE)
}

/// Healthy people show vertical nystagmus on video now and then, so there it counts only when it is new and the person
/// is dizzy (own inference from Young et al. 2020); seen by eye it counts unless it is long known.
fn vertical(case: &Case<'_>, sign: Notice, since: Since, thing: &str) -> Notice {
    let counts =
        if on_video(case) { since == Since::New && symptoms::dizzy(case.visit) } else { since.counts_as_new() };
    if !counts {
        return sign;
    }
    sign.says("Of recent onset it calls for admission without delay.").cites(&STRUPP).danger(
        "vertical_nystagmus",
        since.phrase(thing),
        &MOVEMENT,
    )
}

fn with_vertigo(case: &Case<'_>, sign: Notice, since: Since, thing: &str) -> Notice {
    if since.counts_as_new() && symptoms::dizzy(case.visit) {
        return sign.says("In someone with vertigo going on it points to a cause that needs emergency care.").danger(
            "central_nystagmus",
            since.phrase(thing),
            &KATTAH,
        );
    }
    sign.says("With vertigo going on it would be a danger sign (Kattah et al. 2009).").cites(&KATTAH)
}

fn on_video(case: &Case<'_>) -> bool {
    case.one("seen_by") == Some("video")
}

fn alignment(case: &Case<'_>) -> Option<Notice> {
    let (place, moves) = match case.one("alignment")? {
        "right" => (Place::In(Eye::Right), "Right eye moves {} when the left is covered"),
        "left" => (Place::In(Eye::Left), "Left eye moves {} when the right is covered"),
        "both" => (Place::Both, "Both eyes move {}, each when the other is covered"),
        _ => return None,
    };
    let since = case.since("alignment_new");
    let one_way = |way: &str| notice("alignment", place, moves.replace("{}", way)).since(since);
    let upright = |way: &str| {
        let sign = match (place, way) {
            (Place::Both, "up") => "On covering, the right eye moves up and the left down",
            (Place::Both, _) => "On covering, the left eye moves up and the right down",
            (Place::In(_) | Place::Toward(_) | Place::On(_), way) => return height(one_way(way), since),
        };
        height(notice("alignment", place, sign).since(since), since)
    };
    Some(match case.one("alignment_way") {
        Some("up") => upright("up"),
        Some("down") => upright("down"),
        Some("in") if place == Place::Both && since != Since::Old => one_way("inward")
            .grade(Grade::NearLimit)
            .says_first(
                "A small inward movement of both is ordinary: at near, 0 to 6 prism dioptres outward is expected \
                 (Morgan 1944).",
            )
            .cites(&MORGAN)
            .by_common_practice(),
        Some("in") => one_way("inward").by_common_practice(),
        Some("out") => one_way("outward").by_common_practice(),
        Some(_) | None => one_way("to take up the target").by_common_practice(),
    })
}

/// A difference in height between the eyes that may be new is a danger sign.
fn height(sign: Notice, since: Since) -> Notice {
    if !since.counts_as_new() {
        return sign.by_common_practice();
    }
    sign.says("One eye stands higher than the other. With dizziness it points to a cause that needs emergency care.")
        .danger("height", since.phrase("one eye standing higher than the other"), &KATTAH)
}

fn double(case: &Case<'_>) -> Option<Notice> {
    let since = case.since("double_new");
    let sign = |headline: &str| notice("double", Place::Both, headline).since(since);
    let knock = frame::reason(case.visit) == Some("knock");
    Some(match case.one("double")? {
        "two_eyes" if since.counts_as_new() => sign("Double vision that goes when either eye is covered").danger(
            "double",
            since.phrase("double vision with both eyes open"),
            &DIPLOPIA,
        ),
        "not_covered" if since.counts_as_new() => sign("Double vision; covering one eye was not tried")
            .says("It is taken as double vision of both eyes together until each eye has been covered.")
            .danger("double", since.phrase("double vision, covering not tried"), &DIPLOPIA),
        "one_eye" if since.counts_as_new() && knock => sign("Double vision that stays with one eye covered")
            .says("After a knock, double vision of any kind is a danger sign (Patricios et al. 2023).")
            .danger("double", since.phrase("double vision after a knock"), &CONCUSSION),
        "two_eyes" => sign("Double vision that goes when either eye is covered").by_common_practice(),
        "not_covered" => sign("Double vision; covering one eye was not tried").by_common_practice(),
        // From memory: double vision of one eye mostly comes from that eye's own optics.
        "one_eye" => sign("Double vision that stays with one eye covered")
            .says("Mostly from the eye itself (from memory); an eye examination settles it.")
            .by_common_practice(),
        _ => return None,
    })
}

/// What was as expected, in one finding.
fn as_expected(record: &Record) -> Option<Finding> {
    let words = [
        ("fixation", "steady", "gaze steady"),
        ("nystagmus", "none", "no nystagmus"),
        ("lid", "level", "lids level"),
        ("pupils", "equal", "pupils equal and reacting"),
        ("alignment", "still", "no movement on covering"),
        ("double", "single", "target single"),
    ];
    let seen: Vec<&str> = words
        .into_iter()
        .filter_map(|(key, id, words)| (record.answers.one(key) == Some(id)).then_some(words))
        .collect();
    let mut headline = seen.join(", ");
    headline.get_mut(..1)?.make_ascii_uppercase();
    let mut finding = Finding::new(TASK.id, "as_expected", Place::Both, headline);
    finding.grade = Grade::WithinRange;
    Some(finding)
}

fn gaps(record: &Record) -> Vec<Gap> {
    let gap = |what: &str, why: Why| Gap { slot: record.slot.clone(), what: what.to_string(), why };
    match &record.state {
        State::NotDone(reason) => return vec![gap(TASK.term, Why::NotDone(reason.clone()))],
        State::NotTestable(reason) => return vec![gap(TASK.term, Why::NotTestable(reason.clone()))],
        State::Open | State::Done if record.answers.is_empty() => return vec![gap(TASK.term, Why::NotRecorded)],
        State::Open | State::Done => {}
    }
    let asked = FORM.shown(&record.answers).filter(|field| field.need == Need::Asked);
    asked
        .filter_map(|field| match record.answers.get(field.key) {
            None => Some(gap(in_words(field.key), Why::NotRecorded)),
            Some(answer) if !field.accepts(answer) => Some(gap(in_words(field.key), Why::Unread)),
            Some(_) => None,
        })
        .collect()
}

fn in_words(key: &'static str) -> &'static str {
    match key {
        "fixation" => "steadiness of gaze",
        "fixation_new" => "whether the bursts are new",
        "nystagmus" => "nystagmus at rest",
        "nystagmus_new" => "whether the nystagmus is new",
        "lid" => "upper lids",
        "lid_new" => "whether the low lid is new",
        "pupils" => "pupils",
        "pupils_new" => "whether the difference in the pupils is new",
        "alignment" => "alignment on covering",
        "alignment_way" => "the way the eye moved on covering",
        "alignment_new" => "whether the movement on covering is new",
        "double" => "single or double",
        "double_new" => "whether the double vision is new",
        other => other,
    }
}

#[cfg(test)]
mod tests;
