//! What else can change eye movements or symptom ratings today, from the frame and the age.

use super::Caveat;
use crate::capture::frame;
use crate::capture::visit::Visit;

/// Sentences by answer: key, id, what it means for the findings.
///
/// That drugs, alcohol, tiredness and age slow eye movements is from memory of standard teaching. The others name their
/// source or say common practice.
static SENTENCES: &[(&str, &str, &str)] = &[
    ("glasses", "not_worn", "Their glasses for near were not worn: the near point and small targets can suffer."),
    ("influences", "medicines", "Medicines that slow or sedate: following and jumps can be slow, gaze unsteady."),
    ("influences", "alcohol", "Alcohol or drugs: following can break up and gaze beat on both sides."),
    ("influences", "tired", "Short of sleep or worn out: following, jumps and the near point can all be worse."),
    ("influences", "unwell", "Unwell or feverish: symptoms and attention are affected."),
    // Common practice.
    (
        "influences",
        "effort",
        "Hard exercise within half an hour: symptom ratings may settle with rest; rate again later.",
    ),
    // Healthy athletes with treated headache reach the screen's cut-offs more often, odds ratio 4.99 (Rosenblum et al. 2024).
    (
        "cautions",
        "migraine",
        "Migraine: healthy people treated for headache reach the symptom cut-offs far more often.",
    ),
    // Common practice.
    ("cautions", "vertigo", "Vertigo going on now: nystagmus at rest can skew following and stripes to one side."),
    // Common practice.
    ("consent", "refused", "Consent is recorded as not given."),
    ("consent", "emergency", "Consent could not be asked for; recorded in the person's interest."),
];

/// The caveats of this visit.
pub fn of(visit: &Visit, years: Option<u8>) -> Vec<Caveat> {
    let mut caveats = Vec::new();
    if let Some(record) = visit.filled(frame::SLOT) {
        for (key, id, says) in SENTENCES {
            let many = record.answers.many(key).is_some_and(|ids| ids.iter().any(|chosen| chosen == id));
            if many || record.answers.one(key) == Some(id) {
                caveats.push(Caveat { from: format!("{}.{key}.{id}", frame::SLOT), says: (*says).to_string() });
            }
        }
        let knock = record.answers.one("reason") == Some("knock");
        if knock && matches!(record.answers.one("since"), Some("month" | "longer")) {
            // Acute tools are at their best in the first 72 hours and hold up to 7 days: Patricios et al. 2023, Br J
            // Sports Med 57:695.
            caveats.push(Caveat {
                from: format!("{}.since", frame::SLOT),
                says: "More than a week since the knock: sideline symptom cut-offs are meant for the first days."
                    .to_string(),
            });
        }
    }
    match years {
        None => caveats.push(Caveat {
            from: "person.born".to_string(),
            says: "The age is not known, so nothing is read against a range for one age alone.".to_string(),
        }),
        // Many children are immature in following until 6 or 7 years: 489 children of 3 to 11 years, Am J Occup Ther
        // 1981;35:249.
        Some(0..=6) => caveats.push(Caveat {
            from: "person.born".to_string(),
            says: "Under 7 years: following and sustained attention are still maturing, so a poor result says little."
                .to_string(),
        }),
        Some(_) => {}
    }
    caveats
}
