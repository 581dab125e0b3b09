//! The safety check: signs that end the examination before it begins.

use super::form::{Choice, Field, Form, Kind, Usual, UsualAnswer, asked, choice, never_fills};
use super::visit::Visit;
use crate::evidence::{Citation, Status};

/// The slot and form id.
pub const SLOT: &str = "safety";

/// Yes or no, as ids.
pub static YES_NO: &[Choice] = &[choice("yes", "yes"), choice("no", "no")];

/// A sign that calls for emergency care.
#[derive(Debug)]
pub struct Danger {
    /// Key of the question, and id of the red flag.
    pub key: &'static str,
    /// As it is printed when seen: "neck pain or tenderness".
    pub seen: &'static str,
    /// Whether the neck must be held still until it is cleared.
    pub neck: bool,
    /// Where the sign is published.
    pub source: &'static Citation,
    /// How sure the source is.
    pub status: Status,
}

static CONCUSSION: Citation = Citation {
    short: "Patricios et al. 2023",
    place: "consensus statement on concussion in sport, Br J Sports Med 57:695; signs as listed for sideline use",
    link: "bjsm.bmj.com/content/57/11/695",
};
static STROKE: Citation = Citation {
    short: "Aroor et al. 2017",
    place: "balance and eyes added to face, arm, speech, time; Stroke 48:479",
    link: "scholars.duke.edu/display/pub1277824",
};
static VERTIGO: Citation = Citation {
    short: "Kattah et al. 2009",
    place: "Stroke 40:3504; new one-sided hearing loss counted as central",
    link: "doi.org/10.1161/STROKEAHA.109.551234",
};
static PALSY: Citation = Citation {
    short: "Kissel et al. 1983",
    place: "pupil in third nerve palsy from aneurysm, Ann Neurol 13:149",
    link: "pubmed.ncbi.nlm.nih.gov/6830174",
};
static DIPLOPIA: Citation = Citation {
    short: "emergency teaching on double vision",
    place: "with both eyes open, recent and persistent: urgent (ACEP Now)",
    link: "acepnow.com/article/evaluate-diplopia-spot-life-threatening-etiologies/2",
};
static MYASTHENIA: Citation = Citation {
    short: "Chaudhuri & Behan 2009",
    place: "myasthenic crisis, QJM 102:97",
    link: "doi.org/10.1093/qjmed/hcn152",
};
static ARTERITIS: Citation = Citation {
    short: "regional referral guidance on giant cell arteritis",
    place: "specialist the same working day; visual symptoms to an eye hospital",
    link: "remedy.bnssg.icb.nhs.uk/adults/rheumatology/giant-cell-arteritis",
};
static MOVEMENT: Citation = Citation {
    short: "neuro-ophthalmic emergencies in movement disorders, 2014",
    place: "J Neurol; acute gaze palsy and oculogyric crisis",
    link: "link.springer.com/doi/10.1007/s00415-014-7385-9",
};

/// The signs asked for, in the order of the form.
pub static DANGERS: &[Danger] = &[
    danger("neck", "neck pain or tenderness", true, &CONCUSSION, Status::Found),
    danger("seizure", "a seizure or fit", false, &CONCUSSION, Status::Found),
    danger("passed_out", "loss of consciousness", true, &CONCUSSION, Status::Found),
    danger("drowsy", "growing drowsiness or confusion", false, &CONCUSSION, Status::Found),
    danger("agitated", "growing restlessness or agitation", false, &CONCUSSION, Status::Found),
    danger("limbs", "weak, numb, tingling or burning arms or legs", true, &CONCUSSION, Status::Found),
    danger("vomiting", "vomiting", false, &CONCUSSION, Status::Found),
    danger("headache", "a severe or growing headache", false, &CONCUSSION, Status::Found),
    danger("skull", "a visible deformity of the skull", true, &CONCUSSION, Status::Found),
    danger("vision", "new double vision or loss of sight", false, &DIPLOPIA, Status::Found),
    danger("face_speech", "a drooping face or disturbed speech", false, &STROKE, Status::Found),
    danger("balance", "sudden loss of balance", false, &STROKE, Status::Found),
    danger("hearing", "continuous vertigo with new hearing loss on one side", false, &VERTIGO, Status::Found),
    danger("lid_pupil", "a newly drooping lid or newly unequal pupils", false, &PALSY, Status::Found),
    danger("gaze", "eyes stuck in one direction", false, &MOVEMENT, Status::Found),
    danger(
        "breathing",
        "trouble breathing or swallowing with drooping lids or double vision",
        false,
        &MYASTHENIA,
        Status::Found,
    ),
    danger("temple", "new headache, jaw or scalp pain with changed sight after 50", false, &ARTERITIS, Status::Found),
];

/// The form: one yes or no for each sign.
pub static FORM: Form = Form {
    id: SLOT,
    fields: &[
        sign("neck", "Neck pain or tenderness"),
        sign("seizure", "Seizure or fit"),
        sign("passed_out", "Passed out, even briefly"),
        sign("drowsy", "Getting drowsy, confused or hard to wake"),
        sign("agitated", "Getting restless, angry or fighting help"),
        sign("limbs", "Weak, numb, tingling or burning arms or legs"),
        sign("vomiting", "Vomiting"),
        sign("headache", "Headache that is severe or growing"),
        sign("skull", "Dent or step in the skull"),
        sign("vision", "Double vision or loss of sight, new"),
        sign("face_speech", "Face drooping, speech slurred or lost"),
        sign("balance", "Balance suddenly lost"),
        sign("hearing", "Vertigo without a break, and new deafness in one ear"),
        sign("lid_pupil", "A lid newly drooping, or pupils newly unequal"),
        sign("gaze", "Eyes stuck in one direction"),
        sign("breathing", "Trouble breathing or swallowing with drooping lids or double vision"),
        sign("temple", "Over 50: new headache, sore jaw or scalp, and sight changed"),
    ],
    usual: &[
        no("neck"),
        no("seizure"),
        no("passed_out"),
        no("drowsy"),
        no("agitated"),
        no("limbs"),
        no("vomiting"),
        no("headache"),
        no("skull"),
        no("vision"),
        no("face_speech"),
        no("balance"),
        no("hearing"),
        no("lid_pupil"),
        no("gaze"),
        no("breathing"),
        no("temple"),
    ],
    usual_label: "None of these, all asked",
    fills: never_fills,
};

/// The sign behind a key.
#[must_use]
pub fn danger_of(key: &str) -> Option<&'static Danger> {
    DANGERS.iter().find(|danger| danger.key == key)
}

/// Whether a sign was answered "yes" for which the neck must be held still until it is cleared; also in a check that was
/// then skipped.
#[must_use]
pub fn holds_the_neck(visit: &Visit) -> bool {
    said_yes(visit, |danger| danger.neck)
}

/// Whether vomiting was answered "yes".
#[must_use]
pub fn vomits(visit: &Visit) -> bool {
    said_yes(visit, |danger| danger.key == "vomiting")
}

fn said_yes(visit: &Visit, wanted: impl Fn(&Danger) -> bool) -> bool {
    let Some(record) = visit.record(SLOT) else { return false };
    DANGERS.iter().any(|danger| wanted(danger) && record.answers.one(danger.key) == Some("yes"))
}

const fn danger(
    key: &'static str,
    seen: &'static str,
    neck: bool,
    source: &'static Citation,
    status: Status,
) -> Danger {
    Danger { key, seen, neck, source, status }
}

const fn sign(key: &'static str, ask: &'static str) -> Field {
    asked(key, ask, Kind::One(YES_NO))
}

const fn no(key: &'static str) -> Usual {
    Usual { key, answer: UsualAnswer::One("no") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_question_has_its_danger_and_its_usual_no() {
        let keys: Vec<_> = FORM.fields.iter().map(|field| field.key).collect();
        assert_eq!(keys, DANGERS.iter().map(|danger| danger.key).collect::<Vec<_>>());
        assert_eq!(keys, FORM.usual.iter().map(|usual| usual.key).collect::<Vec<_>>());
    }
}
