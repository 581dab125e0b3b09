//! What the page and the second module say to each other: one JSON text, and byte arrays that change hands beside it.
//!
//! A new job is one variant of [`Ask`], one of [`Answer`], and one file in `jobs`.

pub mod here;
#[cfg(feature = "qr")]
pub mod qr;

use serde::{Deserialize, Serialize};

/// Something the second module is to do. What may not be lengthened by a copy in a text, such as a passphrase, goes into
/// the byte arrays; each variant says which it expects, in order.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ask {
    /// A key from a passphrase. Bytes: the passphrase as UTF-8, the salt.
    Derive {
        /// Memory in KiB.
        memory_kib: u32,
        /// Passes over the memory.
        passes: u32,
        /// Lanes.
        lanes: u32,
    },
    /// How hard a passphrase is to guess. Bytes: the passphrase as UTF-8.
    Strength,
    /// A text as a QR code.
    QrMake {
        /// What the code is to say. Capital letters, digits and blanks give a smaller one.
        text: String,
    },
    /// The text of the first QR code in a picture. Bytes: one byte of grey for each pixel, row by row.
    QrRead {
        /// Pixels in a row.
        width: u32,
        /// Rows.
        height: u32,
    },
    /// A new clinic key. The bytes that come back are its key file.
    KeyMake,
    /// The public half of the first key of a key file. Bytes: the file.
    KeyOwn,
    /// A clinic key as it was typed, pasted or scanned.
    KeyRead {
        /// The text.
        text: String,
    },
    /// A sealed file. Bytes: what goes into it, and the passphrase when there is no key. What comes back is the file, and
    /// where it was asked for the same as text.
    Seal {
        /// The clinic's public key.
        to: Option<String>,
        /// Whether it is wanted as text too.
        text: bool,
    },
    /// Visits as a FHIR R4 bundle. Bytes: an archive. What comes back is the bundle; a transaction takes closed visits only.
    Fhir {
        /// For a server, or to be kept.
        transaction: bool,
        /// By whom and when.
        made: Made,
    },
    /// Visits as tables. Bytes: an archive. What comes back is a zip of the tables and, without names, the list that says
    /// whose the study codes are; they are drawn anew each time.
    Tables {
        /// Whether people are named.
        named: bool,
        /// Whether spreadsheets are to open them: each file then begins with a byte order mark.
        bom: bool,
        /// By whom and when.
        made: Made,
    },
    /// Looks at a file, opens it if it is sealed, and reads it. Bytes: the file; the key file of this computer, empty when
    /// there is none; the passphrase as UTF-8, empty while none was typed. What comes back is the archive.
    Open,
    /// What taking in these files would do, or what to write for it. Bytes: what is here ([`here::write`]), and each
    /// archive. What comes back are the rows of [`Planned::rows`], one behind the other.
    TakeIn {
        /// Ids of people who were erased here and are to come back.
        bring_back: Vec<String>,
        /// Of the receipt to give, when it is to be written.
        give: Option<Given>,
    },
    /// What a place of the device's secret holds.
    SecretRead {
        /// Which of the places.
        slot: u8,
    },
    /// Writes over a place of the device's secret. Bytes: the 32 bytes to stand there.
    SecretWrite {
        /// Which of the places.
        slot: u8,
    },
}

/// By whom and when something is written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Made {
    /// Name and version of the program.
    pub program: String,
    /// Milliseconds since 1970-01-01T00:00:00Z.
    pub unix_ms: i64,
    /// Minutes that local time is ahead of UTC.
    pub offset_minutes: i16,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// The job is done. Bytes, if any, are what [`Ask`] promises: of `Derive` the key.
    Done,
    /// How hard a passphrase is to guess.
    Strength(Strength),
    /// A QR code.
    Qr(Qr),
    /// What a QR code says; nothing when none was found in the picture.
    QrText(Option<String>),
    /// A clinic key's public half.
    Key(PublicKey),
    /// A file that was read.
    Opened(Opened),
    /// A file that is sealed by a passphrase; why the one that was typed does not open it.
    Locked(Option<String>),
    /// What taking in does.
    Planned(Planned),
    /// The place of the device's secret: in the bytes when it holds something.
    Secret(Place),
}

/// What is in a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Opened {
    /// How it arrived.
    pub seal: Seal,
    /// People in it.
    pub people: usize,
    /// Visits in it, open ones too.
    pub visits: usize,
    /// Of these still open.
    pub open: usize,
    /// Corrections in it.
    pub addenda: usize,
    /// Whether it holds parts that only a newer program reads.
    pub newer: bool,
}

/// How a file was sealed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Seal {
    /// Not at all.
    Plain,
    /// To a key of this computer.
    Key,
    /// By a passphrase.
    Passphrase,
}

/// Id and moment of a receipt that is given now.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Given {
    /// Random id.
    pub id: String,
    /// The moment, in milliseconds since 1970.
    pub unix_ms: i64,
    /// Minutes that the clock here is ahead of UTC.
    pub offset_minutes: i16,
}

/// What taking in would do, or does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Planned {
    /// What is written, a sentence each.
    pub comes: Vec<String>,
    /// What is here already or stays as it is.
    pub stays: Vec<String>,
    /// What is not taken in unasked, or never.
    pub held_back: Vec<String>,
    /// Who was erased here and can be brought back.
    pub erased: Vec<ErasedHere>,
    /// What to write; empty until a receipt is to be given.
    pub rows: Vec<RowHead>,
    /// The receipt for what is here afterwards.
    pub receipt: ReceiptGiven,
}

/// Somebody of the files who was erased here.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ErasedHere {
    /// The person's id.
    pub person: String,
    /// What the files call them.
    pub label: String,
    /// Their visits in the files.
    pub visits: usize,
}

/// What a receipt says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReceiptGiven {
    /// Its six words.
    pub words: String,
    /// The text of its QR code.
    pub code: String,
    /// Closed visits it is for.
    pub visits: usize,
    /// Corrections it is for.
    pub addenda: usize,
}

/// One row to write: where it goes and how many of the bytes are its own; none when it is deleted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RowHead {
    /// What it is.
    pub kind: RowKind,
    /// Its key within its kind, without what the store puts before it.
    pub key: String,
    /// Whom it is about.
    pub person: Option<String>,
    /// Its length.
    pub length: Option<usize>,
}

/// What a row is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RowKind {
    /// A person.
    Person,
    /// A closed visit.
    Visit,
    /// An open visit.
    Draft,
    /// What lists say of a visit.
    Entry,
    /// A correction.
    Addendum,
    /// A routine of the practice's own.
    Routine,
    /// A receipt given here.
    Receipt,
    /// A join.
    Join,
    /// That somebody was erased here.
    Erased,
}

/// How hard a passphrase is to guess.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Strength {
    /// 0 (among the first that are tried) to 4.
    pub score: u8,
    /// About how many guesses it takes.
    pub guesses: u64,
    /// The same as one plain sentence.
    pub says: String,
}

/// A QR code as a drawing of its own, with a margin, dark on white, without style that a page's policy would refuse.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Qr {
    /// One `svg` element.
    pub svg: String,
    /// Version of the code, 1 to 40.
    pub version: u8,
    /// Modules on each side, without the margin.
    pub modules: u32,
}

/// The public half of a clinic key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PublicKey {
    /// As text.
    pub text: String,
    /// The same for a QR code.
    pub code: String,
    /// Six words to compare by eye.
    pub words: String,
}

/// A place of the device's secret.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// This browser has no file that can be overwritten in place.
    Absent,
    /// Nothing stands there.
    Empty,
    /// It stands in the bytes.
    Filled,
}

/// What goes back over the wire.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reply {
    /// Done.
    Done(Answer),
    /// Not done, and why, as one sentence.
    Refused(String),
}

/// How many places the device's secret has: one in use, one to change to.
pub const SLOTS: u8 = 2;

/// Length of what stands in a place of the device's secret.
pub const SECRET: usize = 32;
