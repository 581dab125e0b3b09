//! What can be entered: numbers from elsewhere, none of them asked for.

use crate::capture::form::{Choice, Field, Form, Kind, choice, detail, hinted, never_fills, optional};
use crate::quantity::Quantity;

/// Inward, outward, or none.
static WAYS: &[Choice] =
    &[hinted("exo", "Exo", "outward"), hinted("eso", "Eso", "inward"), hinted("none", "None", "no movement")];

pub(super) static METHODS: &[Choice] = &[
    choice("cover", "Covering, with prisms"),
    choice("rod", "Streak of light before one eye"),
    choice("split", "Image split by a prism"),
    choice("card", "Card with a scale"),
];

/// Fifteen items of 0 to 4 each.
pub(super) static SURVEY: Quantity =
    Quantity { name: "survey total", unit: "", min: 0.0, max: 60.0, step: 1.0, decimals: 0 };
pub(super) static AMPLITUDE: Quantity =
    Quantity { name: "focusing amplitude", unit: "D", min: 0.25, max: 30.0, step: 0.25, decimals: 2 };
/// Nearly all adults lie between 45 and 80 mm, children of 5 years from about 40 (Dodgson 2004, Proc SPIE 5291:36).
pub(super) static PUPILS: Quantity =
    Quantity { name: "pupillary distance", unit: "mm", min: 40.0, max: 80.0, step: 1.0, decimals: 0 };
pub(super) static NEAR: Quantity =
    Quantity { name: "near distance", unit: "cm", min: 20.0, max: 70.0, step: 1.0, decimals: 0 };
pub(super) static DEVIATION: Quantity =
    Quantity { name: "deviation", unit: "PD", min: 0.5, max: 60.0, step: 0.5, decimals: 1 };
pub(super) static RESERVE: Quantity =
    Quantity { name: "reserve", unit: "PD", min: 0.0, max: 60.0, step: 1.0, decimals: 0 };
/// A recovery can lie on the other side of zero.
pub(super) static RECOVERY: Quantity =
    Quantity { name: "recovery", unit: "PD", min: -20.0, max: 60.0, step: 1.0, decimals: 0 };
pub(super) static LENS: Quantity = Quantity { name: "lens", unit: "D", min: -4.0, max: 4.0, step: 0.25, decimals: 2 };

pub(super) static FORM: Form = Form {
    id: "further_measures",
    fields: &[
        optional("survey", "Symptom survey, total of 60", Kind::Number(&SURVEY)),
        optional("amplitude_right", "Focusing amplitude, right eye", Kind::Number(&AMPLITUDE)),
        optional("amplitude_left", "Focusing amplitude, left eye", Kind::Number(&AMPLITUDE)),
        optional("amplitude_both", "Focusing amplitude, both eyes", Kind::Number(&AMPLITUDE)),
        optional("pd", "Pupillary distance, looking far", Kind::Number(&PUPILS)),
        way("phoria_far_way", "Phoria, far"),
        amount("phoria_far", "phoria_far_way"),
        way("phoria_near_way", "Phoria, near"),
        amount("phoria_near", "phoria_near_way"),
        optional("near_distance", "Near was at", Kind::Number(&NEAR)),
        reserve("base_out_near_blur", "Base-out near: blur", &RESERVE),
        reserve("base_out_near_break", "Base-out near: break", &RESERVE),
        reserve("base_out_near_recovery", "Base-out near: recovery", &RECOVERY),
        reserve("base_in_near_blur", "Base-in near: blur", &RESERVE),
        reserve("base_in_near_break", "Base-in near: break", &RESERVE),
        reserve("base_in_near_recovery", "Base-in near: recovery", &RECOVERY),
        more("base_out_far_blur", "Base-out far: blur", &RESERVE),
        more("base_out_far_break", "Base-out far: break", &RESERVE),
        more("base_out_far_recovery", "Base-out far: recovery", &RECOVERY),
        more("base_in_far_blur", "Base-in far: blur", &RESERVE),
        more("base_in_far_break", "Base-in far: break", &RESERVE),
        more("base_in_far_recovery", "Base-in far: recovery", &RECOVERY),
        more("lens", "Lens before both eyes, near (minus for minus)", &LENS),
        detail("phoria_lens_way", "Phoria near, with the lens", Kind::One(WAYS)),
        detail("phoria_lens", "How much", Kind::Number(&DEVIATION)).only_if("phoria_lens_way", &["exo", "eso"]),
        detail("phoria_method", "How the phoria was measured", Kind::One(METHODS)),
        detail("note", "Note", Kind::Text { max: 400, long: true }),
    ],
    usual: &[],
    usual_label: "",
    fills: never_fills,
};

const fn way(key: &'static str, ask: &'static str) -> Field {
    optional(key, ask, Kind::One(WAYS))
}

const fn amount(key: &'static str, way: &'static str) -> Field {
    optional(key, "How much", Kind::Number(&DEVIATION)).only_if(way, &["exo", "eso"])
}

const fn reserve(key: &'static str, ask: &'static str, quantity: &'static Quantity) -> Field {
    optional(key, ask, Kind::Number(quantity))
}

const fn more(key: &'static str, ask: &'static str, quantity: &'static Quantity) -> Field {
    detail(key, ask, Kind::Number(quantity))
}
