//! The way there and back: a sheet or a log as a code, its picture, the decoder, and the same sheet or log again.

use sidelight_core::sheet::{self, Log, Sheet};
use sidelight_worker::qr;

use crate::codes::Shot;
use crate::sheets::{self, ADDRESS};

/// A camera brings several frames a second; one that is read is enough.
const FRAMES: u64 = 3;

fn read_in(shot: &Shot, text: &str, frame: u64) -> Option<String> {
    let picture = shot.of(&qr::make(text).expect("fits"), frame);
    qr::read(picture.width, picture.height, &picture.grey).expect("a picture")
}

fn read(shot: &Shot, text: &str) -> Option<String> {
    (0..FRAMES).find_map(|frame| read_in(shot, text, frame))
}

/// Every kind of text that is held before a camera, in every kind of picture.
#[test]
fn codes_are_read_from_pictures_of_every_kind() {
    let mut missed = Vec::new();
    for (what, text) in sheets::texts() {
        for (name, shot) in &Shot::ALL {
            match read(shot, &text) {
                Some(said) => assert_eq!(said, text, "{what}, {name}"),
                None => missed.push(format!("{what}, {name}")),
            }
        }
    }
    assert!(missed.is_empty(), "not read: {missed:#?}");
}

#[test]
fn a_sheet_comes_back_from_the_picture_of_its_link() {
    let shot = &Shot::ALL[Shot::ALL.len() - 1].1;
    for (what, sheet) in sheets::sheets() {
        let text = read(shot, &sheet.link(ADDRESS)).expect(what);
        assert_eq!(Sheet::decode(&text), Ok(sheet), "{what}");
    }
}

#[test]
fn a_log_comes_back_and_belongs_to_its_sheet() {
    let shot = &Shot::ALL[Shot::ALL.len() - 1].1;
    for (what, sheet) in sheets::sheets() {
        let log = sheets::practised(&sheet, 84);
        let back = Log::decode(&read(shot, &log.encode()).expect(what)).expect(what);
        assert_eq!(back, log);
        assert!(back.belongs_to(&sheet), "{what}");
        let other = Sheet { helper: !sheet.helper, ..sheet };
        assert!(!back.belongs_to(&other), "{what}");
    }
}

/// What a camera may bring instead: another code, half a code, one that is smeared over. None is taken for a sheet.
#[test]
fn damaged_and_foreign_codes_give_a_sentence() {
    let (_, sheet) = sheets::sheets().remove(1);
    let link = sheet.link(ADDRESS);
    for foreign in ["WIFI:T:WPA;S:home;P:secret;;", "HTTPS://CLINIC.EXAMPLE/", "SHEETLOG1.AAFAP2EBFCACREAB74AFSLCSEI"] {
        let text = read(&Shot::STRAIGHT, foreign).expect("a code");
        assert!(Sheet::decode(&text).expect_err(foreign).to_string().ends_with('.'));
    }
    let cut = &link[..link.len() - 7];
    let text = read(&Shot::STRAIGHT, cut).expect("a code");
    assert!(Sheet::decode(&text).is_err());
    // A hand over a third of it: nothing is read, and nothing else is made of it.
    let mut picture = Shot::STRAIGHT.of(&qr::make(&link).expect("fits"), 0);
    for (at, grey) in picture.grey.iter_mut().enumerate() {
        if at % picture.width > picture.width * 2 / 3 {
            *grey = 120;
        }
    }
    assert_eq!(qr::read(picture.width, picture.height, &picture.grey), Ok(None));
}

/// The size that the core foretells is that of the code that is made, to the last character that fits each version.
#[test]
fn codes_have_the_size_that_was_foretold() {
    let mut tried = 0;
    for length in 1..=300 {
        for text in ["A".repeat(length), "a".repeat(length)] {
            let made = qr::make(&text).expect("fits");
            assert_eq!(sheet::qr_version(&text), Ok(made.version), "{length} of {}", &text[..1]);
            tried += 1;
        }
    }
    assert_eq!(tried, 600);
    // Longer ones are made with less correction, so they are no larger than foretold.
    for (what, text) in sheets::texts() {
        assert!(sheet::qr_version(&text).is_ok_and(|most| qr::make(&text).expect("fits").version <= most), "{what}");
    }
}
