//! Lesion pictures of the literature as whole visits, filled through the edits a practitioner makes, with the reading they
//! must give. What was found is from the source named with each; the visits are invented.

use sidelight_core::anatomy::{Direction, Eye, Place};
use sidelight_core::assess::{Assessment, assess};
use sidelight_core::calendar::{Born, Moment};
use sidelight_core::capture::answer::Answer;
use sidelight_core::capture::edit::{self, Edit};
use sidelight_core::capture::frame;
use sidelight_core::capture::record::State;
use sidelight_core::capture::unread::Unread;
use sidelight_core::capture::visit::{Person, Visit};
use sidelight_core::evidence::Level;
use sidelight_core::flow;
use sidelight_core::pattern::Pattern;

const NOW: Moment = Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 };
const SIDES: [Direction; 2] = [Direction::Right, Direction::Left];

/// Superior cerebellar artery: jumps past away from the lesion, short toward it (Ranalli & Sharpe 1986, Ann Neurol 20:311).
fn superior_cerebellar_artery(side: Direction) -> Seen {
    Seen::new().jumps(side, "short").jumps(side.mirrored(), "past")
}

/// Lateral medulla: jumps past toward the lesion, short away from it (Paliwal et al. 2015, Ann Indian Acad Neurol 18:284).
fn lateral_medulla(side: Direction) -> Seen {
    Seen::new().jumps(side, "past").jumps(side.mirrored(), "short")
}

/// Infarct of the posterior vermis: jumps short both ways, following worse toward the lesion (Vahedi et al. 1995).
fn posterior_vermis(side: Direction) -> Seen {
    Seen::new()
        .jumps(side, "short")
        .jumps(side.mirrored(), "short")
        .follows(side, "many")
        .follows(side.mirrored(), "smooth")
}

/// One half of the vermis: short toward the lesion, past away from it (review of midline lesions of the cerebellum).
fn half_vermis(side: Direction) -> Seen {
    Seen::new().jumps(side, "short").jumps(side.mirrored(), "past")
}

/// One fastigial nucleus: past toward the lesion, short away from it (the same review).
fn fastigial(side: Direction) -> Seen {
    Seen::new().jumps(side, "past").jumps(side.mirrored(), "short")
}

/// Both fastigial nuclei: past both ways (the same review).
fn both_fastigial() -> Seen {
    Seen::new().jumps(Direction::Right, "past").jumps(Direction::Left, "past")
}

/// Medial longitudinal fasciculus: the eye of that side lags as it turns in, the other beats (a textbook figure on
/// conjugate gaze). The right eye turns in on looking left.
fn fasciculus(side: Direction) -> Seen {
    Seen::new().across(side.mirrored(), "lags_beats").across(side, "together")
}

/// Frontal eye field: jumps away from the lesion late and short in some (Rivaud et al. 1994), earlier in others (Henik et
/// al. 1994).
fn frontal(side: Direction) -> Seen {
    Seen::new().late_jumps(side.mirrored()).jumps(side, "on")
}

/// Posterior hemisphere: following worse toward the lesion in 10 of 23, never away (Morrow & Sharpe 1990, Neurology 40:284);
/// stripes moving toward a parietal lesion worse (33 cases).
fn posterior_hemisphere(side: Direction) -> Seen {
    Seen::new()
        .follows(side, "many")
        .follows(side.mirrored(), "smooth")
        .stripes(side, "missed")
        .stripes(side.mirrored(), "beat")
}

/// Stroke with vertigo that goes on: nystagmus at rest and a steady head impulse to both sides (Kattah et al. 2009, Stroke
/// 40:3504).
fn vertigo_with_steady_impulse() -> Seen {
    Seen::new()
        .vertigo()
        .beats_at_rest(Direction::Right)
        .impulse(Direction::Right, "steady")
        .impulse(Direction::Left, "steady")
}

/// Loss of one balance organ: the same with a catch-up jump to the side of the loss.
fn balance_organ(side: Direction) -> Seen {
    let seen = Seen::new().vertigo().beats_at_rest(side.mirrored());
    seen.impulse(side, "catch_up").impulse(side.mirrored(), "steady")
}

#[test]
fn no_cerebellar_picture_names_a_side() {
    for side in SIDES {
        let pictures = [
            superior_cerebellar_artery(side),
            lateral_medulla(side),
            posterior_vermis(side),
            half_vermis(side),
            fastigial(side),
            both_fastigial(),
        ];
        for picture in pictures {
            let assessment = picture.read();
            let accuracy = pattern(&assessment, "saccade_accuracy");
            assert_eq!((accuracy.place, accuracy.level), (Place::Both, Level::A));
            assert!(accuracy.headline.ends_with("no side"), "{}", accuracy.headline);
            let words = accuracy.says.iter().chain([&accuracy.headline]);
            words.for_each(|text| assert!(!names_a_side(text), "{text}"));
            // Following may be worse one way; what is read from it names no place and so no side of one.
            for other in assessment.patterns.iter().filter(|other| other.id != "saccade_accuracy") {
                assert!(other.headline.ends_with("alone it names no place"), "{}", other.headline);
            }
        }
    }
}

#[test]
fn opposite_lesions_that_look_alike_read_alike() {
    for side in SIDES {
        let one = superior_cerebellar_artery(side).read();
        assert_eq!(one.patterns, lateral_medulla(side.mirrored()).read().patterns);
        assert_eq!(one.patterns, half_vermis(side).read().patterns);
        assert_eq!(one.patterns, fastigial(side.mirrored()).read().patterns);
    }
}

#[test]
fn the_posterior_vermis_is_told_among_many_causes_with_following_beside_it() {
    let assessment = posterior_vermis(Direction::Left).read();
    assert_eq!(ids(&assessment), ["pursuit_worse_one_side", "saccade_accuracy"]);
    let accuracy = pattern(&assessment, "saccade_accuracy");
    assert!(accuracy.says.iter().any(|text| text.contains("infarcts of the posterior vermis")));
    assert_eq!(pattern(&assessment, "pursuit_worse_one_side").place, Place::Toward(Direction::Left));
}

#[test]
fn an_internuclear_palsy_lies_on_the_side_of_the_slow_eye() {
    for (side, eye, word) in [(Direction::Right, Eye::Right, "right"), (Direction::Left, Eye::Left, "left")] {
        let assessment = fasciculus(side).read();
        let read = pattern(&assessment, "internuclear");
        assert_eq!((read.place, read.level), (Place::In(eye), Level::A));
        assert!(read.headline.contains(&format!("on the {word}")), "{}", read.headline);
    }
}

#[test]
fn a_frontal_picture_is_disputed_and_names_no_side() {
    for side in SIDES {
        let assessment = frontal(side).read();
        let read = pattern(&assessment, "saccades_away_from_frontal");
        assert_eq!((read.place, read.level), (Place::Toward(side.mirrored()), Level::C));
        assert!(read.headline.ends_with("alone it names no place"), "{}", read.headline);
        assert!(read.says.iter().any(|text| text.contains("earlier")));
    }
}

#[test]
fn a_posterior_hemisphere_is_read_from_following_and_stripes_together() {
    for side in SIDES {
        let assessment = posterior_hemisphere(side).read();
        assert_eq!(ids(&assessment), ["pursuit_and_optokinetic_same_side"]);
        let read = &assessment.patterns[0];
        assert_eq!((read.place, read.level), (Place::Toward(side), Level::B));
        assert!(read.headline.contains(side.phrase()) || read.headline.contains(side.word()), "{}", read.headline);
        assert!(assessment.contradictions.is_empty());
    }
}

#[test]
fn following_and_stripes_to_opposite_sides_are_a_contradiction_and_no_common_reading() {
    let seen = Seen::new().follows(Direction::Right, "many").follows(Direction::Left, "smooth");
    let seen = seen.stripes(Direction::Left, "missed").stripes(Direction::Right, "beat");
    let assessment = seen.read();
    assert_eq!(ids(&assessment), ["pursuit_worse_one_side", "optokinetic_worse_one_side"]);
    assert_eq!(assessment.contradictions.len(), 1);
    assert_eq!(assessment.contradictions[0].from, ["pursuit.right_left", "optokinetic.right_left"]);
}

#[test]
fn a_steady_impulse_in_vertigo_is_an_emergency_and_raises_one_sign() {
    let assessment = vertigo_with_steady_impulse().read();
    assert!(pattern(&assessment, "central_in_continuous_vertigo").urgent);
    let flags: Vec<&str> = assessment.flags.iter().map(|flag| flag.id.as_str()).collect();
    assert_eq!(flags, ["head_impulse.central"]);
}

#[test]
fn a_skew_beside_a_catch_up_jump_is_an_emergency_that_is_raised_once() {
    let assessment = balance_organ(Direction::Left).height(Direction::Right).read();
    let read = pattern(&assessment, "central_in_continuous_vertigo");
    assert!(read.urgent && read.against.iter().any(|text| text.ends_with("it excludes nothing")));
    assert_eq!(assessment.open_flags.len(), 1, "{:?}", assessment.open_flags);
}

#[test]
fn a_lost_balance_organ_gives_no_reading_and_no_clearance() {
    for side in SIDES {
        let assessment = balance_organ(side).read();
        assert_eq!(ids(&assessment), Vec::<&str>::new());
        assert!(
            assessment.findings().any(|finding| finding.details.iter().any(|text| text.contains("not make it safe")))
        );
    }
}

fn ids(assessment: &Assessment) -> Vec<&'static str> {
    assessment.patterns.iter().map(|pattern| pattern.id).collect()
}

fn pattern<'a>(assessment: &'a Assessment, id: &str) -> &'a Pattern {
    assessment.patterns.iter().find(|pattern| pattern.id == id).unwrap_or_else(|| panic!("{id}: {:?}", ids(assessment)))
}

fn names_a_side(text: &str) -> bool {
    text.split(|c: char| !c.is_alphanumeric()).any(|word| word == "right" || word == "left")
}

/// An invented adult's visit, seen piece by piece.
struct Seen {
    visit: Visit,
    now: Moment,
}

impl Seen {
    fn new() -> Seen {
        Seen { visit: Visit::begin("v", "p", "sideline", NOW, "test"), now: NOW }
    }

    fn read(self) -> Assessment {
        let person = Person {
            id: "p".into(),
            label: "W-52".into(),
            born: Some(Born::Year(1980)),
            invented: true,
            changed: None,
            unread: Unread::default(),
        };
        assess(&person, &self.visit)
    }

    fn edit(mut self, slot: &str, edit: Edit) -> Seen {
        self.now.unix_ms += 1000;
        let form = flow::form_of(slot).unwrap_or_else(|| panic!("no form {slot}"));
        let said = format!("{slot}: {edit:?}");
        edit::apply(&mut self.visit, form, slot, edit, self.now).unwrap_or_else(|no| panic!("{said}: {no}"));
        self
    }

    fn one(self, slot: &str, key: &str, id: &str) -> Seen {
        self.edit(slot, Edit::Answer(key.into(), Some(Answer::One(id.into()))))
    }

    fn graded(self, slot: &str, key: &str, row: &str, column: &str, grade: &str) -> Seen {
        let edit = Edit::Grade(key.into(), row.into(), column.into(), grade.into());
        self.edit(slot, edit).edit(slot, Edit::State(State::Done))
    }

    /// Ten jumps that all land alike.
    fn jumps(self, toward: Direction, landing: &str) -> Seen {
        (0..10)
            .fold(self, |seen, _| seen.edit("saccade", Edit::Tap("jumps".into(), toward.word().into(), landing.into())))
    }

    fn late_jumps(self, toward: Direction) -> Seen {
        (0..10).fold(self, |seen, _| {
            let seen = seen.edit("saccade", Edit::Tap("jumps".into(), toward.word().into(), "short".into()));
            seen.edit("saccade", Edit::Also("jumps".into(), "late".into()))
        })
    }

    fn follows(self, toward: Direction, grade: &str) -> Seen {
        let seen = self.graded("pursuit", "follow", toward.word(), "slow", grade);
        seen.graded("pursuit", "follow", toward.word(), "fast", grade)
    }

    fn stripes(self, toward: Direction, mark: &str) -> Seen {
        (0..10).fold(self, |seen, _| {
            seen.edit("optokinetic", Edit::Tap("stripes".into(), toward.word().into(), mark.into()))
        })
    }

    fn across(self, toward: Direction, look: &str) -> Seen {
        self.graded("gaze_range", "across", toward.word(), "look", look)
    }

    fn vertigo(self) -> Seen {
        let cautions = Answer::Many(vec!["vertigo".into()]);
        self.edit(frame::SLOT, Edit::Answer("cautions".into(), Some(cautions)))
            .one("head_impulse", "vertigo", "day")
            .one("head_impulse", "nystagmus", "seen")
            .one("head_impulse", "trained", "yes")
    }

    fn beats_at_rest(self, toward: Direction) -> Seen {
        self.one("resting_gaze", "nystagmus", toward.word())
    }

    /// The eye of that side stands higher.
    fn height(self, side: Direction) -> Seen {
        self.one("resting_gaze", "alignment", side.word()).one("resting_gaze", "alignment_way", "down")
    }

    fn impulse(self, toward: Direction, grade: &str) -> Seen {
        self.graded("head_impulse", "impulse", toward.word(), "turn", grade)
    }
}
