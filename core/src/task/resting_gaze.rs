//! Gaze at rest: whether the eyes hold still and together, and what lids and pupils show.
//!
//! What is long known is a finding. What is new, or not known to be old, is a danger sign where published signs say so.

mod evidence;

use super::{Context, Setup, Task, never_barred};
use crate::anatomy::{Direction, Eye};
use crate::capture::form::{Choice, Field, Form, Kind, Need, Usual, UsualAnswer, asked, choice, detail, hinted};
use crate::capture::record::{Record, State};
use crate::capture::visit::Visit;
use crate::capture::{frame, symptoms};
use crate::evidence::{BaseRate, Citation};
use crate::finding::{Finding, Flag, Gap, Grade, Place, Reading, Why};
use evidence::{
    CONCUSSION, DIPLOPIA, DOWN, HERISHANU, HORIZONTAL, JERKS, KATTAH, KISSEL, MORGAN, MOVEMENT, SMALL_PUPIL, STRUPP,
    UNEQUAL, UP, VERTIGO_GUIDELINE, YOUNG,
};

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

static FIXATION: &[Choice] = &[
    choice("steady", "Steady"),
    choice("jerks", "Small jerks off and back"),
    choice("drifts", "Drifts off"),
    hinted("bursts", "Bursts to and fro", "fast, in any direction, without a pause between"),
    choice("cannot", "Cannot hold"),
];

static NYSTAGMUS: &[Choice] = &[
    choice("none", "None"),
    choice("right", "Beats to their right"),
    choice("left", "Beats to their left"),
    choice("up", "Beats up"),
    choice("down", "Beats down"),
    choice("torsional", "Twists"),
    hinted("pendular", "Swings", "no fast phase"),
    choice("changes", "Changes direction"),
];

static LID: &[Choice] = &[
    choice("level", "Level"),
    choice("right", "Their right hangs lower"),
    choice("left", "Their left hangs lower"),
    choice("both", "Both hang low"),
];

static PUPILS: &[Choice] = &[
    choice("equal", "Equal, both react"),
    choice("right_larger", "Their right is larger"),
    choice("left_larger", "Their left is larger"),
    choice("right_fixed", "Their right does not react"),
    choice("left_fixed", "Their left does not react"),
    choice("both_fixed", "Neither reacts"),
];

static ALIGNMENT: &[Choice] = &[
    choice("still", "No movement"),
    hinted("right", "Their right moves", "when the left is covered"),
    hinted("left", "Their left moves", "when the right is covered"),
    hinted("both", "Both move", "each when the other is covered"),
];

static WAY: &[Choice] = &[
    hinted("in", "Inward", "it stood outward"),
    hinted("out", "Outward", "it stood inward"),
    hinted("up", "Up", "it stood low"),
    hinted("down", "Down", "it stood high"),
];

static DOUBLE: &[Choice] = &[
    choice("single", "Single"),
    hinted("two_eyes", "Double with both eyes open", "gone when either eye is covered"),
    hinted("one_eye", "Double with one eye", "stays when the other is covered"),
    hinted("not_covered", "Double", "covering not tried"),
];

static NEW: &[Choice] =
    &[choice("new", "New"), choice("old", "Long known"), hinted("unknown", "Not known", "counts as new")];

static SEEN_BY: &[Choice] = &[choice("eye", "By eye"), choice("video", "Only on a video or with goggles")];

static FORM: Form = Form {
    id: "resting_gaze",
    fields: &[
        asked("fixation", "Looking at the target", Kind::One(FIXATION)),
        is_new("fixation_new", "The bursts are").only_if("fixation", &["bursts"]),
        asked("nystagmus", "Nystagmus, by its fast phase", Kind::One(NYSTAGMUS)),
        is_new("nystagmus_new", "The nystagmus is")
            .only_if("nystagmus", &["right", "left", "up", "down", "torsional", "pendular", "changes"]),
        asked("lid", "Upper lids", Kind::One(LID)),
        is_new("lid_new", "The low lid is").only_if("lid", &["right", "left", "both"]),
        asked("pupils", "Pupils", Kind::One(PUPILS)),
        is_new("pupils_new", "That is")
            .only_if("pupils", &["right_larger", "left_larger", "right_fixed", "left_fixed", "both_fixed"]),
        asked("alignment", "On covering one eye, the other", Kind::One(ALIGNMENT)),
        asked("alignment_way", "It moves", Kind::One(WAY))
            .help("Up or down in both eyes: say which way their right eye moves.")
            .only_if("alignment", &["right", "left", "both"]),
        is_new("alignment_new", "That is").only_if("alignment", &["right", "left", "both"]),
        asked("double", "The target looks", Kind::One(DOUBLE)),
        is_new("double_new", "The double vision is").only_if("double", &["two_eyes", "one_eye", "not_covered"]),
        detail("seen_by", "How the eyes were watched", Kind::One(SEEN_BY)),
        detail("note", "Note", Kind::Text { max: 400, long: true }),
    ],
    usual: &[
        Usual { key: "fixation", answer: UsualAnswer::One("steady") },
        Usual { key: "nystagmus", answer: UsualAnswer::One("none") },
        Usual { key: "lid", answer: UsualAnswer::One("level") },
        Usual { key: "pupils", answer: UsualAnswer::One("equal") },
        Usual { key: "alignment", answer: UsualAnswer::One("still") },
        Usual { key: "double", answer: UsualAnswer::One("single") },
    ],
    usual_label: "All as expected",
};

const fn is_new(key: &'static str, ask: &'static str) -> Field {
    asked(key, ask, Kind::One(NEW))
}

fn read(context: &Context<'_>, record: &Record) -> Reading {
    let case = Case { visit: context.visit, record };
    let mut reading = Reading { gaps: gaps(record), ..Reading::default() };
    let (lid, pupils) = (lid(&case), pupils(&case));
    reading.flags.extend(lid_and_pupil(&case, lid.as_ref(), pupils.as_ref()));
    let signs = [fixation(&case), nystagmus(&case), lid, pupils, alignment(&case), double(&case)];
    for sign in signs.into_iter().flatten() {
        reading.flags.extend(sign.flag);
        reading.findings.push(sign.finding);
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

/// One thing that was not as expected.
struct Sign {
    finding: Finding,
    flag: Option<Flag>,
}

/// Whether something is new.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Since {
    New,
    Old,
    /// Not known, or never answered: it counts as new.
    Unknown,
    /// The question still stands on the screen.
    Open,
}

impl Since {
    /// Whether it has to be taken as new.
    fn counts_as_new(self) -> bool {
        match self {
            Since::New | Since::Unknown => true,
            Since::Old | Since::Open => false,
        }
    }

    fn says(self) -> &'static str {
        match self {
            Since::New => "New.",
            Since::Old => "Long known; ask whether it has changed.",
            Since::Unknown => "Not known whether new, so it counts as new; an old photograph can settle it.",
            Since::Open => "Whether it is new is not answered yet.",
        }
    }

    /// The phrase of a flag: "x, new", or "x, not known whether new".
    fn phrase(self, thing: &str) -> String {
        match self {
            Since::New => format!("{thing}, new"),
            Since::Old | Since::Unknown | Since::Open => format!("{thing}, not known whether new"),
        }
    }
}

impl Case<'_> {
    fn one(&self, key: &str) -> Option<&str> {
        self.record.answers.one(key)
    }

    fn since(&self, key: &str) -> Since {
        match self.one(key) {
            Some("new") => Since::New,
            Some("old") => Since::Old,
            Some(_) => Since::Unknown,
            None if self.on_screen() => Since::Open,
            None => Since::Unknown,
        }
    }

    /// Whether the form is being filled in at this moment, so that a question may still be answered.
    fn on_screen(&self) -> bool {
        self.record.state == State::Open && self.visit.closed.is_none() && self.visit.at == self.record.slot
    }

    /// Whether the person is dizzy today: vertigo going on, come for it, or dizziness rated before the tasks.
    fn dizzy(&self) -> bool {
        let rated = symptoms::rated(self.visit, symptoms::BEFORE);
        let rated = rated.and_then(|ratings| symptoms::rating(ratings, "dizziness")).is_some_and(|rating| rating > 0);
        rated || self.reason() == Some("dizzy") || frame::has_caution(self.visit, &["vertigo"])
    }

    fn reason(&self) -> Option<&str> {
        self.visit.filled(frame::SLOT)?.answers.one("reason")
    }
}

impl Sign {
    fn new(what: &str, place: Place, headline: impl Into<String>) -> Sign {
        let mut finding = Finding::new(TASK.id, what, place, headline.into());
        finding.grade = Grade::OutsideRange;
        Sign { finding, flag: None }
    }

    fn grade(mut self, grade: Grade) -> Sign {
        self.finding.grade = grade;
        self
    }

    fn says(mut self, detail: impl Into<String>) -> Sign {
        self.finding.details.push(detail.into());
        self
    }

    fn cites(mut self, source: &'static Citation) -> Sign {
        self.finding.sources.push(source);
        self
    }

    fn healthy(mut self, rates: &'static [BaseRate]) -> Sign {
        self.finding.healthy = rates.iter().collect();
        self
    }

    /// Says what comes before everything else, in the first sentences.
    fn says_first(mut self, text: &str) -> Sign {
        match self.finding.details.first_mut() {
            Some(first) => *first = format!("{text} {first}"),
            None => self.finding.details.push(text.to_string()),
        }
        self
    }

    /// Says since when, and takes what is long known as recorded only.
    fn since(mut self, since: Since) -> Sign {
        if since == Since::Old {
            self.finding.grade = Grade::NoRange;
        }
        self.says(since.says())
    }

    /// Raises a flag and makes the finding urgent.
    fn danger(mut self, id: &str, seen: String, source: &'static Citation) -> Sign {
        self.finding.grade = Grade::Urgent;
        self.finding.sources.push(source);
        self.flag = Some(Flag { id: format!("{}.{id}", TASK.id), seen, neck: false, source });
        self
    }

    /// Says that no limit is published, where the grade does not rest on a cited sign.
    fn by_common_practice(self) -> Sign {
        match self.finding.grade {
            Grade::OutsideRange | Grade::NearLimit => self.says("No limit is published (common practice)."),
            Grade::NoRange | Grade::WithinRange | Grade::Urgent => self,
        }
    }
}

fn fixation(case: &Case<'_>) -> Option<Sign> {
    let sign = |headline: &str| Sign::new("fixation", Place::Both, headline);
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

fn nystagmus(case: &Case<'_>) -> Option<Sign> {
    let since = case.since("nystagmus_new");
    let sign = |place: Place, headline: &str| Sign::new("nystagmus", place, headline).since(since);
    let toward = |direction: Direction| {
        let headline = format!("Nystagmus that beats {} with gaze straight ahead", direction.phrase());
        Sign::new("nystagmus", Place::Toward(direction), headline).since(since)
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

fn sideways(case: &Case<'_>, sign: Sign) -> Sign {
    let sign = sign.healthy(&HORIZONTAL).says("A single direction does not tell what it comes from.");
    if !case.dizzy() {
        return sign;
    }
    sign.says_first(
        "In someone dizzy: have it examined the same day by someone trained in it; eyes at rest cannot rule out a stroke.",
    )
    .cites(&VERTIGO_GUIDELINE)
}

/// Healthy people show vertical nystagmus on video now and then, so there it counts only when it is new and the person
/// is dizzy (own inference from Young et al. 2020); seen by eye it counts unless it is long known.
fn vertical(case: &Case<'_>, sign: Sign, since: Since, thing: &str) -> Sign {
    let counts = if on_video(case) { since == Since::New && case.dizzy() } else { since.counts_as_new() };
    if !counts {
        return sign;
    }
    sign.says("Of recent onset it calls for admission without delay.").cites(&STRUPP).danger(
        "vertical_nystagmus",
        since.phrase(thing),
        &MOVEMENT,
    )
}

fn with_vertigo(case: &Case<'_>, sign: Sign, since: Since, thing: &str) -> Sign {
    if since.counts_as_new() && case.dizzy() {
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

fn lid(case: &Case<'_>) -> Option<Sign> {
    let since = case.since("lid_new");
    let (place, headline) = match case.one("lid")? {
        "right" => (Place::In(Eye::Right), "Right upper lid hangs lower"),
        "left" => (Place::In(Eye::Left), "Left upper lid hangs lower"),
        "both" => (Place::Both, "Both upper lids hang low"),
        _ => return None,
    };
    // That it grows with tiring in muscle weakness is from memory.
    let sign = Sign::new("lid", place, headline)
        .since(since)
        .says("Ask whether it grows over the day, and for double vision, pain and trouble swallowing.");
    let sign = urgent_if_new(sign, since);
    if !since.counts_as_new() {
        return Some(sign);
    }
    Some(match pupil_beside(case) {
        Beside::Equal => sign.says(
            "Equal pupils exclude nothing: 7 of 51 with an aneurysm began so, and 4 of the 7 changed within five days \
             (Kissel et al. 1983).",
        ),
        Beside::LargerHere => sign.says(
            "The pupil is affected on the same side: an aneurysm has to be excluded at once (Kissel et al. 1983).",
        ),
        Beside::SmallerHere => sign
            .says(
                "The smaller pupil is on the same side: above all with head or neck pain, a torn neck artery has to be \
                   excluded at once.",
            )
            .cites(&SMALL_PUPIL),
        Beside::Otherwise => sign,
    })
}

/// How the pupil on the side of a drooping lid stands to the other one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Beside {
    Equal,
    /// Larger, or without reaction.
    LargerHere,
    SmallerHere,
    /// Not noted, or not to be told from what was noted.
    Otherwise,
}

fn pupil_beside(case: &Case<'_>) -> Beside {
    match (case.one("lid"), case.one("pupils")) {
        (_, Some("equal")) => Beside::Equal,
        (Some("right" | "both"), Some("right_larger" | "right_fixed"))
        | (Some("left" | "both"), Some("left_larger" | "left_fixed"))
        | (_, Some("both_fixed")) => Beside::LargerHere,
        (Some("right"), Some("left_larger")) | (Some("left"), Some("right_larger")) => Beside::SmallerHere,
        _ => Beside::Otherwise,
    }
}

fn pupils(case: &Case<'_>) -> Option<Sign> {
    let since = case.since("pupils_new");
    let (place, headline) = match case.one("pupils")? {
        "right_larger" => (Place::In(Eye::Right), "Right pupil larger than the left, both react"),
        "left_larger" => (Place::In(Eye::Left), "Left pupil larger than the right, both react"),
        "right_fixed" => (Place::In(Eye::Right), "Right pupil does not react to light"),
        "left_fixed" => (Place::In(Eye::Left), "Left pupil does not react to light"),
        "both_fixed" => (Place::Both, "Neither pupil reacts to light"),
        _ => return None,
    };
    // Drops, surgery and old injury as other causes: from memory.
    let sign = Sign::new("pupils", place, headline)
        .since(since)
        .says("Also seen after eye drops, eye surgery or an old injury.");
    let larger = matches!(case.one("pupils"), Some("right_larger" | "left_larger"));
    Some(urgent_if_new(if larger { sign.healthy(&UNEQUAL) } else { sign }, since))
}

/// A lid or a pupil that may be new is urgent; the flag is raised for both together.
fn urgent_if_new(sign: Sign, since: Since) -> Sign {
    if since.counts_as_new() { sign.grade(Grade::Urgent).cites(&KISSEL) } else { sign.by_common_practice() }
}

/// One flag for what is new in lids and pupils, worded by what goes with what.
fn lid_and_pupil(case: &Case<'_>, lid: Option<&Sign>, pupils: Option<&Sign>) -> Option<Flag> {
    let fresh = |sign: Option<&Sign>| sign.is_some_and(|sign| sign.finding.grade == Grade::Urgent);
    let (lid, pupils) = (fresh(lid), fresh(pupils));
    let lid_words = match case.one("lid") {
        Some("right") if lid => Some("a drooping right lid"),
        Some("left") if lid => Some("a drooping left lid"),
        Some("both") if lid => Some("drooping of both lids"),
        _ => None,
    };
    let pupil_words = match case.one("pupils") {
        Some("right_larger") if pupils => Some("a larger right pupil"),
        Some("left_larger") if pupils => Some("a larger left pupil"),
        Some("right_fixed") if pupils => Some("a right pupil that does not react"),
        Some("left_fixed") if pupils => Some("a left pupil that does not react"),
        Some("both_fixed") if pupils => Some("pupils that do not react"),
        _ => None,
    };
    let (lid_since, pupil_since) = (case.since("lid_new"), case.since("pupils_new"));
    let seen = match (lid_words, pupil_words) {
        (Some(lid), Some(pupil)) if lid_since == pupil_since => lid_since.phrase(&format!("{lid} with {pupil}")),
        (Some(lid), Some(pupil)) => format!("{}; {}", lid_since.phrase(lid), pupil_since.phrase(pupil)),
        (Some(lid), None) => lid_since.phrase(lid),
        (None, Some(pupil)) => pupil_since.phrase(pupil),
        (None, None) => return None,
    };
    let both = lid_words.is_some() && pupil_words.is_some();
    let source = if both && pupil_beside(case) == Beside::SmallerHere { &SMALL_PUPIL } else { &KISSEL };
    Some(Flag { id: format!("{}.lid_pupil", TASK.id), seen, neck: false, source })
}

fn alignment(case: &Case<'_>) -> Option<Sign> {
    let (place, moves) = match case.one("alignment")? {
        "right" => (Place::In(Eye::Right), "Right eye moves {} when the left is covered"),
        "left" => (Place::In(Eye::Left), "Left eye moves {} when the right is covered"),
        "both" => (Place::Both, "Both eyes move {}, each when the other is covered"),
        _ => return None,
    };
    let since = case.since("alignment_new");
    let one_way = |way: &str| Sign::new("alignment", place, moves.replace("{}", way)).since(since);
    let upright = |way: &str| {
        let sign = match (place, way) {
            (Place::Both, "up") => "On covering, the right eye moves up and the left down",
            (Place::Both, _) => "On covering, the left eye moves up and the right down",
            (Place::In(_) | Place::Toward(_) | Place::On(_), way) => return height(one_way(way), since),
        };
        height(Sign::new("alignment", place, sign).since(since), since)
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
fn height(sign: Sign, since: Since) -> Sign {
    if !since.counts_as_new() {
        return sign.by_common_practice();
    }
    sign.says("One eye stands higher than the other. With dizziness it points to a cause that needs emergency care.")
        .danger("height", since.phrase("one eye standing higher than the other"), &KATTAH)
}

fn double(case: &Case<'_>) -> Option<Sign> {
    let since = case.since("double_new");
    let sign = |headline: &str| Sign::new("double", Place::Both, headline).since(since);
    let knock = case.reason() == Some("knock");
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
