//! The working model in words: a table of its own, labelled as what it is, and never without that label.

use super::heading;
use super::words::and;
use crate::anatomy::Side;
use crate::assess::Assessment;
use crate::document::{Block, Said};
use crate::evidence::{Citation, capital};
use crate::working_model::{LABEL, LEVEL, REVIEW, Reading, SECOND, STUDIES};

/// The table of the whole model beside what this visit saw; nothing when none of it was looked for.
pub fn blocks(assessment: &Assessment) -> Vec<Block> {
    let readings = &assessment.working_model;
    if !readings.iter().any(Reading::looked_for) {
        return Vec::new();
    }
    let head = ["Movement", "Read with", "In this visit"].map(String::from).to_vec();
    let rows = readings.iter().map(row).collect();
    let keys: Vec<&str> =
        readings.iter().flat_map(|reading| reading.seen()).map(|told| told.finding.as_str()).collect();
    vec![
        heading("Working model of the practice school"),
        Block::Paragraph(Said::new(
            format!(
                "Grade {}: {}. {LABEL}. A review found {STUDIES} controlled studies ({}); its \
                 authors call the model not generally accepted ({}). Nothing else here rests on it.",
                LEVEL.letter(),
                LEVEL.words(),
                REVIEW.short,
                SECOND.short
            ),
            &keys,
        )),
        Block::Table { caption: "What this visit saw beside it".to_string(), head, rows },
    ]
}

/// Published sources behind this part.
pub fn sources() -> [&'static Citation; 2] {
    [&REVIEW, &SECOND]
}

fn row(reading: &Reading) -> Vec<String> {
    let movement = format!("{} {}", capital(reading.row.movement.word()), reading.row.toward.phrase());
    vec![movement, reading.row.with.to_string(), seen(reading)]
}

/// "Following less smooth than ordinary; tires. Beside it, left side of the body: touch felt less".
fn seen(reading: &Reading) -> String {
    let mut said: Vec<String> = reading.seen().map(|told| told.words.to_string()).collect();
    if reading.tires == Some(true) {
        said.push("grows worse on the way".to_string());
    }
    let mut text = match (said.is_empty(), reading.looked_for()) {
        (true, false) => "not looked at".to_string(),
        (true, true) => "nothing seen".to_string(),
        (false, _) => said.join("; "),
    };
    if let Some(side) = reading.row.beside.filter(|_| !reading.beside.is_empty()) {
        text.push_str(&format!(". Beside it, {} of the body: {}", side_words(side), beside(reading)));
    }
    capital(&text)
}

fn beside(reading: &Reading) -> String {
    let seen: Vec<String> = reading.beside.iter().filter(|told| told.seen).map(|told| told.words.to_string()).collect();
    if seen.is_empty() { "touch and strength as expected".to_string() } else { and(&seen) }
}

fn side_words(side: Side) -> &'static str {
    match side {
        Side::Right => "right side",
        Side::Left => "left side",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::anatomy::{Direction, Place};
    use crate::assess::assess;
    use crate::calendar::Moment;
    use crate::demo;
    use crate::export::text;
    use crate::sign::{Sign, What};
    use crate::summary::{Options, compose, findings};
    use crate::working_model;

    #[test]
    fn a_cell_tells_seen_not_seen_and_not_looked_at_apart() {
        let signs = [
            Sign::new(What::PursuitReduced, Place::Toward(Direction::Right), true, "pursuit.right"),
            Sign::new(What::PursuitReduced, Place::Toward(Direction::Left), false, "pursuit.left"),
            Sign::new(What::TouchLess, Place::On(Side::Left), true, "body_sides.touch"),
        ];
        let cells: Vec<String> =
            working_model::read(&signs, &[]).iter().map(|reading| row(reading).join(" | ")).collect();
        assert_eq!(
            cells[0],
            "Following to the right | the right parietal lobe | Following less smooth than ordinary. Beside it, left side of \
             the body: touch felt less"
        );
        assert_eq!(cells[1], "Following to the left | the left parietal lobe | Nothing seen");
        assert_eq!(cells[4], "Stopping on target to the right | the right half of the cerebellum | Not looked at");
    }

    #[test]
    fn it_is_shown_only_where_it_is_asked_for_and_never_without_its_label() {
        let (people, visits) = demo::people(Moment { unix_ms: 1_772_463_128_000, offset_minutes: 60 });
        let visit = visits.iter().find(|visit| visit.id == "demo-visit-4").expect("the demo");
        let assessment = assess(&people[3], visit);
        let options = Options::new("test");
        let off = [
            text::render(&compose(&people[3], visit, &assessment, &options)),
            text::render(&findings(visit, &assessment, &options)),
        ];
        assert!(
            off.iter().all(|page| !page.to_lowercase().contains("working model") && !page.contains("parietal lobe"))
        );
        let on = options.with_working_model(true);
        for page in [compose(&people[3], visit, &assessment, &on), findings(visit, &assessment, &on)]
            .map(|page| text::render(&page))
        {
            assert!(page.contains("the left parietal lobe") && page.contains("no lesion-level source"), "{page}");
            assert!(page.contains("Grade M: working model of a practice school, not established."), "{page}");
        }
    }
}
