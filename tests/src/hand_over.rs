//! Files from phones, taken in on a clinic computer by the program for it, as somebody would call it.

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use sidelight_core::archive::{self, Archive};
use sidelight_core::capture::ledger::Join;
use sidelight_core::capture::unread::Unread;
use sidelight_core::export::fhir::check;
use sidelight_core::export::table;
use sidelight_core::hand_over::{Identity, To, seal};
use sidelight_core::receipt::{self, HandedOver, Said};

use crate::repository::root;

const PASSPHRASE: &str = "p\u{e4}ssw\u{f6}rd by the river";

#[test]
fn files_sealed_in_every_way_become_one_folder_and_one_receipt() {
    let place = Place::new("every-way");
    let identity = Identity::generate();
    let key = place.put("clinic.key", identity.key_file().as_bytes());
    let (one, two, three) =
        (archive_of("adult-after-a-stroke"), archive_of("child-of-six"), archive_of("corrected-after-closing"));
    let files = [
        place.put("a.age", &seal(&archive::write_compact(&one), &To::Keys(&[identity.recipient()])).expect("it seals")),
        place.put("b.age", &by_passphrase(&two)),
        place.put("c.json", &archive::write(&three)),
        // The same once more changes nothing.
        place.put("d.json", &archive::write(&one)),
    ];
    let out = place.path("out");
    let done = take_in(&files, &out, &["--key", &text(&key)], PASSPHRASE);
    assert!(done.status.success(), "{}", said(&done.stderr));
    let printed = said(&done.stdout);

    let visits: Vec<_> = [&one, &two, &three].iter().flat_map(|archive| archive.visits.clone()).collect();
    let written = archive::read(&fs::read(out.join("archive.json")).expect("an archive")).expect("it reads");
    assert_eq!(written.visits.len(), visits.len());
    assert_eq!(written.people.len(), 3);
    for at in 1..=visits.len() {
        let summary = fs::read_to_string(out.join(format!("summaries/{at:05}.txt"))).expect("a summary");
        assert!(summary.len() > 200);
        let html = fs::read_to_string(out.join(format!("summaries/{at:05}.html"))).expect("a summary");
        assert!(html.starts_with("<!"), "{}", &html[..40]);
    }

    // The phone that handed all of it over knows the receipt by its words and by its code.
    let corrections = receipt::addendum_refs(&three.addenda);
    assert!(!corrections.is_empty());
    let handed = [HandedOver::of("h", visits[0].started, "meadow", receipt::refs(&visits), corrections)];
    for line in ["Words: ", "Code: "] {
        let entered = printed.lines().find_map(|printed| printed.strip_prefix(line)).expect("a receipt");
        let entered = Said::parse(entered).expect("a receipt");
        assert_eq!(receipt::matches(&entered, &handed).len(), 1, "{printed}");
    }
    assert!(printed.contains("Files: 4\nPeople: 3\n"), "{printed}");
    assert_eq!(fs::read_to_string(out.join("receipt.txt")).expect("a receipt"), printed);
    let names = listed(&out).join(" ");
    for person in &written.people {
        assert!(!names.contains(&person.label), "{names}");
    }
}

#[test]
fn bundles_for_a_server_and_to_keep_and_tables_with_and_without_names_lie_in_the_folder() {
    let place = Place::new("bundles");
    let mut archive = archive_of("adult-after-a-stroke");
    let other = archive_of("corrected-after-closing");
    archive.visits[0].closed = None;
    archive.visits[0].sha256 = None;
    let files = [place.put("a.json", &archive::write(&archive)), place.put("b.json", &archive::write_compact(&other))];
    let out = place.path("out");
    let done = take_in(&files, &out, &[], "");
    assert!(done.status.success(), "{}", said(&done.stderr));

    // The open visit is kept and never posted.
    let all = archive.visits.len() + other.visits.len();
    for (kind, visits) in [("collection", all), ("transaction", all - 1)] {
        let bytes = fs::read(out.join(format!("fhir/{kind}-001.json"))).expect("a bundle");
        let bundle: serde_json::Value = serde_json::from_slice(&bytes).expect("JSON");
        assert_eq!(bundle["type"], kind);
        assert!(check::faults(&bundle).is_empty(), "{:?}", check::faults(&bundle));
        let entries = bundle["entry"].as_array().expect("entries");
        let kinds = entries.iter().filter(|entry| entry["resource"]["resourceType"] == "Encounter");
        assert_eq!(kinds.count(), visits, "{kind}");
    }

    let sheet = |path: &str| table::read(&fs::read(out.join(path)).expect("a table")).expect("a table");
    let people: Vec<_> = archive.people.iter().chain(&other.people).collect();
    assert_eq!(sheet("tables/named/people.csv").rows.len(), people.len());
    assert_eq!(sheet("tables/named/visits.csv").rows.len(), all);
    assert_eq!(sheet("tables/coded/visits.csv").rows.len(), all);
    let codes = sheet("study-codes.csv");
    for person in people {
        let row = codes.rows.iter().find(|row| row[1] == person.id).expect("a code");
        assert_eq!(row[2], person.label);
        for name in listed(&out.join("tables/coded")) {
            let text = fs::read_to_string(out.join("tables/coded").join(&name)).expect("text");
            assert!(!text.contains(&person.label) && !text.contains(&person.id), "{name}");
            assert!(name != "visits.csv" || text.contains(&row[0]));
        }
    }
}

#[test]
fn the_order_of_files_and_a_second_run_change_nothing() {
    let place = Place::new("order");
    let files = [
        place.put("a.age", &by_passphrase(&archive_of("own-baseline"))),
        place.put("b.age", &by_passphrase(&archive_of("two-tasks-only"))),
    ];
    let turned = [files[1].clone(), files[0].clone(), files[1].clone()];
    let (first, second) = (place.path("first"), place.path("second"));
    assert!(take_in(&files, &first, &[], PASSPHRASE).status.success());
    assert!(take_in(&turned, &second, &[], &format!("{PASSPHRASE}\r\n")).status.success());
    let archive = |folder: &Path| fs::read(folder.join("archive.json")).expect("an archive");
    assert_eq!(archive(&first), archive(&second));
    assert_eq!(listed(&first), listed(&second));
}

#[test]
fn one_bad_file_among_good_ones_writes_nothing() {
    let place = Place::new("one-bad");
    let good = place.put("good.age", &by_passphrase(&archive_of("two-tasks-only")));
    let sealed = by_passphrase(&archive_of("child-of-six"));
    let mut flipped = sealed.clone();
    let middle = flipped.len() / 2;
    flipped[middle] ^= 1;
    let other = Identity::generate();
    let newer = br#"{"format":"sidelight-archive","version":2,"people":[],"visits":[]}"#;
    let stranger = seal(b"{}", &To::Keys(&[Identity::generate().recipient()])).expect("it seals");
    let key_file = other.key_file();
    let inside = by_passphrase_of(b"not an archive");
    let key = place.put("other.key", key_file.as_bytes());
    let key = text(&key);
    let cases: [(&str, &[u8], &str); 9] = [
        ("cut.age", &sealed[..sealed.len() - 9], "breaks off"),
        ("flipped.age", &flipped, "changed on the way"),
        ("empty.age", b"", "empty"),
        ("zip.age", b"PK\x03\x04....", "a zip file"),
        ("newer.json", newer, "A newer Sidelight"),
        ("foreign.json", b"{\"a\":1}", "not written by Sidelight"),
        ("stranger.age", &stranger, "No clinic key of this computer"),
        ("inside.age", &inside, "no longer text in Sidelight's form"),
        ("key.age", key_file.as_bytes(), "This is a key"),
    ];
    let mut all = vec![good.clone()];
    for (name, bytes, expected) in cases {
        let bad = place.put(name, bytes);
        let out = place.path("never");
        let done = take_in(&[good.clone(), bad.clone()], &out, &["--key", &key], PASSPHRASE);
        let sentence = said(&done.stderr);
        assert_eq!(done.status.code(), Some(3), "{name}: {sentence}");
        assert!(sentence.starts_with("File 2: ") && sentence.contains(expected), "{name}: {sentence}");
        assert_eq!(sentence.lines().count(), 1, "{name}: {sentence}");
        assert!(!sentence.contains(name), "the name of a file may hold a person's: {sentence}");
        assert!(!out.exists(), "{name}");
        all.push(bad);
    }
    // All faults of one call are told at once.
    let done = take_in(&all, &place.path("never"), &["--key", &key], PASSPHRASE);
    assert_eq!((done.status.code(), said(&done.stderr).lines().count()), (Some(3), cases.len()));
    let left: Vec<String> = listed(&place.0).into_iter().filter(|name| name.contains("never")).collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn a_wrong_passphrase_and_wrong_calls_are_told_apart() {
    let place = Place::new("calls");
    let file = place.put("a.age", &by_passphrase(&archive_of("two-tasks-only")));
    let keyed = place.put("b.age", &seal(b"{}", &To::Keys(&[Identity::generate().recipient()])).expect("it seals"));
    let there = place.path("there");
    fs::create_dir(&there).expect("a folder");
    let out = place.path("out");
    let nowhere = place.path("no/such/folder");
    let missing = place.path("missing.age");
    let plain = place.put("plain.json", &archive::write(&archive_of("two-tasks-only")));
    // Files, folder, options, what is typed, exit code, what is said.
    type Case<'a> = (&'a [PathBuf], &'a Path, &'a [&'a str], &'a str, i32, &'a str);
    let cases: [Case<'_>; 9] = [
        (std::slice::from_ref(&file), &out, &[], "wrong", 3, "The passphrase does not open the file"),
        (std::slice::from_ref(&file), &out, &[], "", 3, "The passphrase is empty"),
        (std::slice::from_ref(&keyed), &out, &[], "", 3, "--key"),
        (&[missing], &out, &[], "", 3, "cannot be opened"),
        (std::slice::from_ref(&plain), &there, &[], "", 2, "The folder exists already"),
        (std::slice::from_ref(&plain), &nowhere, &[], "", 4, "The folder cannot be written"),
        (&[], &out, &[], "", 2, "Name the files"),
        (std::slice::from_ref(&plain), &out, &["--what"], "", 2, "There is no option"),
        (std::slice::from_ref(&keyed), &out, &["--key", "-"], "not a key", 3, "The key file: This is no clinic key"),
    ];
    for (files, out, more, input, code, expected) in cases {
        let done = take_in(files, out, more, input);
        let sentence = said(&done.stderr);
        assert_eq!(done.status.code(), Some(code), "{sentence}");
        assert!(sentence.contains(expected) && done.stdout.is_empty(), "{sentence}");
    }
    assert!(!out.exists() && listed(&there).is_empty());
}

#[test]
fn a_visit_changed_after_it_was_closed_stops_everything_unless_asked_otherwise() {
    let place = Place::new("changed");
    let mut archive = archive_of("two-tasks-only");
    let now = archive.visits[0].started;
    let visit = archive.visits.remove(0);
    let mut closed = archive::closed(visit, now);
    closed.program.push_str(", changed");
    archive.visits.push(closed);
    let files = [
        place.put("a.json", &archive::write(&archive)),
        place.put("b.json", &archive::write(&archive_of("own-baseline"))),
    ];
    let out = place.path("out");
    let done = take_in(&files, &out, &[], "");
    assert_eq!(done.status.code(), Some(3), "{}", said(&done.stderr));
    assert!(said(&done.stderr).contains("1 visit was changed after being closed") && !out.exists());
    let done = take_in(&files, &out, &["--without-damaged"], "");
    assert!(done.status.success(), "{}", said(&done.stderr));
    assert!(said(&done.stdout).contains("Left out: 1 visit that was changed"), "{}", said(&done.stdout));
    let written = archive::read(&fs::read(out.join("archive.json")).expect("an archive")).expect("it reads");
    assert_eq!(written.visits.len(), archive_of("own-baseline").visits.len());
}

/// One phone gave the sheet, another one, which knows the person under an entry of its own, took in the log; the two entries
/// were joined later.
#[test]
fn a_log_finds_its_sheet_at_the_other_entry_of_a_joined_person() {
    let place = Place::new("joined-sheet");
    let mut then = archive_of("practised-at-home");
    let entry = then.people[0].id.clone();
    let gave = Archive { visits: vec![then.visits.remove(0)], ..then.clone() };
    assert_eq!((gave.visits[0].sheets.len(), then.visits.len()), (1, 1));
    let made = then.visits[0].started;
    then.people[0].id = "of-another-phone".into();
    then.visits[0].person = "of-another-phone".into();
    let join = |undone| Join {
        id: "join".into(),
        keep: entry.clone(),
        other: "of-another-phone".into(),
        made,
        undone,
        unread: Unread::default(),
    };
    for (undone, finds) in [(None, true), (Some(made), false)] {
        then.joins = vec![join(undone)];
        let files = [place.put("a.json", &archive::write(&gave)), place.put("b.json", &archive::write(&then))];
        let out = place.path(if finds { "joined" } else { "parted" });
        let done = take_in(&files, &out, &[], "");
        assert!(done.status.success(), "{}", said(&done.stderr));
        let [first, second] = ["00001", "00002"]
            .map(|number| fs::read_to_string(out.join(format!("summaries/{number}.txt"))).expect("a summary"));
        let told = if second.contains("PRACTISED AT HOME SINCE") { second } else { first };
        assert!(told.contains("PRACTISED AT HOME SINCE"), "{told}");
        assert_eq!(told.contains("Sheet of 2 March 2026, "), finds, "{told}");
        assert_eq!(told.contains("its sheet is not at hand"), !finds, "{told}");
    }
}

/// Calls the program with files and a line on standard input.
fn take_in(files: &[PathBuf], out: &Path, more: &[&str], input: &str) -> Output {
    let mut command = Command::new(program());
    command.args(files).arg("--out").arg(out).args(more);
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("the program starts");
    // It may end without having read anything.
    let _ = child.stdin.take().expect("an input").write_all(input.as_bytes());
    child.wait_with_output().expect("the program ends")
}

/// The program, built once.
fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let built = Command::new(env!("CARGO"))
            .args([
                "build",
                "--quiet",
                "--package",
                "sidelight-core",
                "--example",
                "take_in",
                "--message-format",
                "json",
            ])
            .current_dir(root())
            .output()
            .expect("cargo runs");
        assert!(built.status.success(), "{}", said(&built.stderr));
        let executable = said(&built.stdout).lines().find_map(|line| {
            let message: serde_json::Value = serde_json::from_str(line).ok()?;
            (message["target"]["name"] == "take_in")
                .then(|| message["executable"].as_str().map(PathBuf::from))
                .flatten()
        });
        executable.expect("the program was built")
    })
}

/// A folder for one test, emptied before and removed after it.
struct Place(PathBuf);

impl Place {
    fn new(name: &str) -> Place {
        let folder = std::env::temp_dir().join(format!("sidelight-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).expect("a folder");
        Place(folder)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    fn put(&self, name: &str, bytes: &[u8]) -> PathBuf {
        fs::write(self.path(name), bytes).expect("a file");
        self.path(name)
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// A golden visit as a phone of its own would have it: ids of its own.
fn archive_of(visit: &str) -> Archive {
    let bytes = fs::read(root().join(format!("tests/visits/{visit}/visit.json"))).expect("a visit");
    let mut archive = archive::read(&bytes).expect("it reads");
    for id in archive.people.iter_mut().map(|person| &mut person.id) {
        *id = format!("{visit}-{id}");
    }
    for own in &mut archive.visits {
        own.id = format!("{visit}-{}", own.id);
        own.person = format!("{visit}-{}", own.person);
        if own.sha256.is_some() {
            own.sha256 = Some(archive::digest(own));
        }
    }
    for addendum in &mut archive.addenda {
        addendum.id = format!("{visit}-{}", addendum.id);
        addendum.visit = format!("{visit}-{}", addendum.visit);
        addendum.person = format!("{visit}-{}", addendum.person);
    }
    archive
}

fn by_passphrase(archive: &Archive) -> Vec<u8> {
    by_passphrase_of(&archive::write_compact(archive))
}

fn by_passphrase_of(plain: &[u8]) -> Vec<u8> {
    seal(plain, &To::Passphrase { passphrase: PASSPHRASE, work_factor: 1 }).expect("it seals")
}

fn listed(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        names.push(path.file_name().expect("a name").to_string_lossy().into_owned());
        if path.is_dir() {
            names.extend(listed(&path));
        }
    }
    names.sort();
    names
}

fn text(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

fn said(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}
