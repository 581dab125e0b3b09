//! Visits as tables in one zip file.

use std::io::{Cursor, Write as _};

use sidelight_core::export::table::{self, Options, Who, code};
use sidelight_core::merge;
use sidelight_worker::{Answer, Made};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::{Done, archive, when};

pub fn run(named: bool, bom: bool, made: &Made, bytes: Vec<Vec<u8>>) -> Done {
    let archive = archive(bytes)?;
    let cases = merge::cases(&archive);
    if cases.is_empty() {
        return Err("There is no visit here.".to_owned());
    }
    let random = |bytes: &mut [u8]| {
        getrandom04::fill(bytes)
            .map_err(|_| "This browser gave no random numbers for the study codes: load the page again.".to_owned())
    };
    let drawn = if named { None } else { Some(code::draw(&cases, &mut &random)?) };
    let who = drawn.as_ref().map_or(Who::Named, Who::Coded);
    let options = Options { who, addenda: &archive.addenda, bom, program: &made.program, written: when(made) };
    let files = table::write(&cases, &options).map_err(|why| why.to_string())?;
    let zip = zip(&files).map_err(|_| "The tables do not fit into one file. Choose fewer people.".to_owned())?;
    let list = drawn.map(|codes| code::list(&cases, &codes).bytes);
    Ok((Answer::Done, std::iter::once(zip).chain(list).collect()))
}

/// The moment is the same in each, so that a zip tells nothing that its tables do not.
fn zip(files: &[table::File]) -> zip::result::ZipResult<Vec<u8>> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for file in files {
        zip.start_file(file.name.as_str(), options)?;
        zip.write_all(&file.bytes)?;
    }
    Ok(zip.finish()?.into_inner())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jobs::sample;
    use sidelight_core::archive::{self, Archive};
    use std::collections::BTreeMap;
    use std::io::Read as _;

    fn made(named: bool, archive: &Archive) -> Vec<Vec<u8>> {
        run(named, true, &sample::made(), vec![archive::write_compact(archive)]).expect("tables").1
    }

    fn unpacked(zip: &[u8]) -> BTreeMap<String, String> {
        let mut zip = zip::ZipArchive::new(Cursor::new(zip)).expect("a zip");
        let mut files = BTreeMap::new();
        for at in 0..zip.len() {
            let mut file = zip.by_index(at).expect("a file");
            assert_eq!(file.last_modified(), Some(DateTime::default()));
            let name = file.name().expect("a name").into_owned();
            let mut text = String::new();
            file.read_to_string(&mut text).expect("text");
            files.insert(name, text);
        }
        files
    }

    #[test]
    fn with_names_the_zip_is_the_same_each_time_and_holds_what_the_core_writes() {
        let archive = sample::archive();
        let zip = made(true, &archive);
        assert_eq!(zip.len(), 1);
        assert_eq!(zip, made(true, &archive));
        let files = unpacked(&zip[0]);
        let cases = merge::cases(&archive);
        let made = sample::made();
        let options = Options {
            who: Who::Named,
            addenda: &archive.addenda,
            bom: true,
            program: &made.program,
            written: when(&made),
        };
        let wanted = table::write(&cases, &options).expect("tables");
        assert_eq!(files.len(), wanted.len());
        for file in wanted {
            assert_eq!(files[&file.name].as_bytes(), file.bytes, "{}", file.name);
        }
    }

    #[test]
    fn without_names_no_name_is_left_codes_are_new_each_time_and_the_list_says_whose_they_are() {
        let archive = sample::archive();
        let (once, again) = (made(false, &archive), made(false, &archive));
        assert_ne!(once[1], again[1]);
        let list = table::read(&once[1]).expect("a table");
        assert_eq!(list.rows.len(), archive.people.len());
        let files = unpacked(&once[0]);
        assert!(!files.contains_key("people.csv") && !files.contains_key(code::LIST));
        for row in &list.rows {
            assert!(files["visits.csv"].contains(&row[0]), "{}", row[0]);
            for (name, text) in &files {
                assert!(!text.contains(&row[2]), "{name} holds {}", row[2]);
            }
        }
    }

    #[test]
    fn nothing_to_write_is_refused_in_a_sentence() {
        let empty = archive::write_compact(&Archive::default());
        assert_eq!(run(true, false, &sample::made(), vec![empty]), Err("There is no visit here.".to_owned()));
        assert!(run(true, false, &sample::made(), vec![b"PK".to_vec()]).is_err());
    }
}
