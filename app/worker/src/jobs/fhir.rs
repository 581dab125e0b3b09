//! Visits as a FHIR R4 bundle.

use sidelight_core::export::fhir::{self, Mode, Options};
use sidelight_core::merge;
use sidelight_worker::{Answer, Made};

use super::{Done, archive, when};

/// More visits would fill the memory of a browser: a visit becomes about 160 KB, and the bundle is copied once.
const MOST: usize = 2_000;

pub fn run(transaction: bool, made: &Made, bytes: Vec<Vec<u8>>) -> Done {
    let archive = archive(bytes)?;
    let mode = if transaction { Mode::Transaction } else { Mode::Collection };
    let mut cases = merge::cases(&archive);
    cases.retain(|case| fhir::takes(mode, case.visit));
    if cases.is_empty() {
        return Err(if transaction {
            "No visit here is closed yet: close one first."
        } else {
            "There is no visit here."
        }
        .to_owned());
    }
    if cases.len() > MOST {
        return Err(format!(
            "These are {} visits, and a bundle made in a browser holds at most {MOST}. Choose fewer people at a time, or \
             make it with the program for the clinic computer.",
            cases.len()
        ));
    }
    let options = Options { mode, written: when(made), program: &made.program, addenda: &archive.addenda };
    Ok((Answer::Done, vec![fhir::bytes(&cases, &options)]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jobs::sample;
    use sidelight_core::archive::{self, Archive};
    use sidelight_core::export::fhir::check;

    fn bundle(transaction: bool, archive: &Archive) -> Result<serde_json::Value, String> {
        let (_, mut bytes) = run(transaction, &sample::made(), vec![archive::write_compact(archive)])?;
        Ok(serde_json::from_slice(&bytes.remove(0)).expect("JSON"))
    }

    #[test]
    fn both_kinds_of_bundle_are_without_fault_and_a_transaction_leaves_open_visits_out() {
        let mut archive = sample::archive();
        archive.visits[0].closed = None;
        archive.visits[0].sha256 = None;
        let visits = |bundle: &serde_json::Value| {
            let entries = bundle["entry"].as_array().expect("entries");
            entries.iter().filter(|entry| entry["resource"]["resourceType"] == "Encounter").count()
        };
        for (transaction, kind, left_out) in [(true, "transaction", 1), (false, "collection", 0)] {
            let bundle = bundle(transaction, &archive).expect("a bundle");
            assert_eq!(bundle["type"], kind);
            assert_eq!(visits(&bundle), archive.visits.len() - left_out);
            let faults: Vec<String> = check::faults(&bundle).iter().map(ToString::to_string).collect();
            assert!(faults.is_empty(), "{faults:#?}");
        }
        archive.visits.truncate(1);
        assert!(bundle(true, &archive).is_err_and(|why| why.contains("closed yet")));
        assert!(bundle(false, &Archive::default()).is_err());
    }

    #[test]
    fn what_is_no_archive_and_what_is_too_much_is_refused_in_a_sentence() {
        assert!(run(false, &sample::made(), vec![b"{}".to_vec()]).is_err());
        assert!(run(false, &sample::made(), Vec::new()).is_err());
        let mut archive = sample::archive();
        let visit = sidelight_core::capture::visit::Visit::begin(
            "",
            &archive.people[0].id,
            "sideline",
            when(&sample::made()),
            "test",
        );
        archive.visits = (0..=MOST)
            .map(|n| sidelight_core::capture::visit::Visit { id: format!("v{n}"), ..visit.clone() })
            .collect();
        assert!(bundle(false, &archive).is_err_and(|why| why.contains("2001 visits")));
    }
}
