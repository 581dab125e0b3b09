//! The total of the published symptom survey for near work; its questions are not reproduced here.

use super::evidence::{
    ADULT_CHANGE, ADULT_TO, BORSTING, CHILD_CHANGE, ROUSE, SCHOOL, SURVEY_ADULT, SURVEY_CHILD, TRIAL,
};
use super::form::SURVEY;
use super::{Entered, finding, limited, measure};
use crate::finding::{Finding, Grade, Place, Reading};
use crate::measure::Better;
use crate::score;

pub(super) fn read(entered: &Entered<'_>, years: Option<u8>, reading: &mut Reading) {
    let Some(total) = entered.number("survey", &SURVEY) else { return };
    let norm = score::norm_for(&[&SURVEY_CHILD, &SURVEY_ADULT], years);
    let mut found = finding("survey", Place::Both, format!("Symptom survey {} of 60", SURVEY.digits(total)), total, "");
    found.norm = norm;
    found.grade = norm.map_or(Grade::NoRange, |norm| score::grade(total, norm));
    found.healthy = norm.into_iter().flat_map(|norm| norm.healthy).collect();
    explain(&mut found, years, norm.is_some());
    reading.findings.push(found);
    let limits = match norm {
        Some(norm) if std::ptr::eq(norm, &SURVEY_CHILD) => CHILD_CHANGE,
        Some(_) => ADULT_CHANGE,
        None => &[],
    };
    let total = measure("survey", "symptom survey", total, "", Better::Lower);
    reading.measures.push(limited(total, limits, norm));
}

fn explain(found: &mut Finding, years: Option<u8>, graded: bool) {
    if !graded {
        found.details.push(
            "No range for this age: 16 or more counts from 9 to 18 years, 21 or more in adults (Rouse et al. 2004)."
                .to_string(),
        );
        found.sources.push(&ROUSE);
        return;
    }
    if years.is_some_and(|years| years > ADULT_TO) {
        found.details.push("The cut-off was set for 19 to 30 years.".to_string());
    }
    if found.grade == Grade::WithinRange {
        return;
    }
    if years.is_some_and(|years| years <= 18) {
        // Sensitivity 95.7 %, specificity 87.5 %; school 14.4, leisure reading 9.8.
        found.details.push(
            "It was 16 or more in 95.7 % of children with convergence insufficiency and below 16 in 87.5 % of those without. \
             Healthy children score 14.4 on average when asked about school work, 9.8 about reading for fun (J AAPOS 2017)."
                .to_string(),
        );
        found.details.push(
            "Two totals of one child differ by up to 11.2 by error alone (Borsting et al. 2003); a trial asked for 9 \
             points better and below 16, which error alone can make."
                .to_string(),
        );
        found.sources.extend([&BORSTING, &SCHOOL, &TRIAL]);
    } else {
        // Among students not seeking care: sensitivity 38 %, positive in 15 %.
        found.details.push(
            "In patients against people without complaints it caught 97.8 % and cleared 87 %; among students not seeking \
             care it caught 38 %, and 15 of 100 who reached it had the condition (Horwood et al. 2014)."
                .to_string(),
        );
        found
            .details
            .push("Two totals of one adult differ by up to 8.7 by error alone (Rouse et al. 2004).".to_string());
        found.sources.extend([&ROUSE, &super::evidence::HORWOOD]);
    }
}
