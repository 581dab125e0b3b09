//! Receipts: the taking side says which visits it has, in six words or a QR, and the phone finds the hand over they belong
//! to. Nothing else travels back.
//!
//! A receipt's digest is SHA-256 over one line "id sha256" a visit or correction of one, sorted, each ended by a line feed. Its first 66 bits
//! are the six words; the QR holds all of it and the count.

use crate::archive::{addendum_digest, digest};
use crate::calendar::Moment;
use crate::canonical::{hex, sha256};
use crate::capture::addendum::Addendum;
pub use crate::capture::ledger::{HandedOver, Receipt, VisitRef};
use crate::capture::unread::Unread;
use crate::capture::visit::Visit;
use crate::sorted;
use crate::words::{self, NotAWord};
use std::collections::BTreeSet;
use std::fmt;

/// Words of a receipt.
pub const WORDS: usize = 6;

/// What every QR text of a receipt begins with.
const NAME: &str = "SIDELIGHT RECEIPT";

/// The version of the QR text.
const VERSION: &str = "1";

/// Most hand overs in a row that one receipt may be for: files that were taken in together.
const TOGETHER: usize = 16;

/// What closed visits are known by, sorted, each once. Open ones have no digest and are left out.
#[must_use]
pub fn refs<'a>(visits: impl IntoIterator<Item = &'a Visit>) -> Vec<VisitRef> {
    let closed = visits.into_iter().filter(|visit| visit.closed.is_some());
    let refs = closed
        .map(|visit| VisitRef { id: visit.id.clone(), sha256: visit.sha256.clone().unwrap_or_else(|| digest(visit)) });
    sorted::set(refs).into_iter().collect()
}

/// What corrections are known by, in the order they are given.
#[must_use]
pub fn addendum_refs(addenda: &[Addendum]) -> Vec<VisitRef> {
    addenda.iter().map(|one| VisitRef { id: one.id.clone(), sha256: addendum_digest(one) }).collect()
}

impl Receipt {
    /// A receipt for these visits and these corrections.
    #[must_use]
    pub fn of(id: &str, issued: Moment, visits: Vec<VisitRef>, addenda: Vec<VisitRef>) -> Receipt {
        let (visits, addenda) = (sorted(visits), sorted(addenda));
        Receipt { id: id.to_string(), issued, visits, addenda, unread: Unread::default() }
    }

    /// SHA-256 over its visits and corrections.
    #[must_use]
    pub fn digest(&self) -> [u8; 32] {
        digest_of(&self.lines())
    }

    fn lines(&self) -> Vec<&VisitRef> {
        self.visits.iter().chain(&self.addenda).collect()
    }

    /// Its six words.
    #[must_use]
    pub fn words(&self) -> String {
        words::encode(&self.digest(), WORDS)
    }
}

impl HandedOver {
    /// The note of a hand over that no receipt came for yet.
    #[must_use]
    pub fn of(id: &str, made: Moment, word: &str, visits: Vec<VisitRef>, addenda: Vec<VisitRef>) -> HandedOver {
        HandedOver {
            id: id.to_string(),
            made,
            word: word.to_string(),
            visits: sorted(visits),
            addenda: sorted(addenda),
            confirmed: None,
            unread: Unread::default(),
        }
    }

    fn lines(&self) -> Vec<&VisitRef> {
        self.visits.iter().chain(&self.addenda).collect()
    }
}

/// The text of a receipt's QR, of characters that its alphanumeric mode has (ISO/IEC 18004).
#[must_use]
pub fn code(receipt: &Receipt) -> String {
    format!("{NAME} {VERSION} {} {}", unique(&receipt.lines()).len(), hex(&receipt.digest()).to_uppercase())
}

/// What somebody entered of a receipt.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Said {
    /// The QR's text.
    Code {
        /// How many visits and corrections.
        count: usize,
        /// The whole digest.
        digest: [u8; 32],
    },
    /// Six words, as their numbers.
    Words([u16; WORDS]),
}

/// Why what was entered is no receipt. Its text says what to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotAReceipt {
    /// Nothing was entered.
    Empty,
    /// The text of another QR, or a damaged one.
    OtherCode,
    /// A newer program made the QR.
    Newer,
    /// A word that is none of the list.
    Word(NotAWord),
    /// Not six words.
    Count(usize),
}

impl fmt::Display for NotAReceipt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NotAReceipt::Empty => f.write_str("Type the six words of the receipt, or scan its code."),
            NotAReceipt::OtherCode => f.write_str(
                "This is not the code of a receipt. Scan the one shown after taking in, or type its six words.",
            ),
            NotAReceipt::Newer => f.write_str(
                "A newer Sidelight made this receipt. Update Sidelight on this phone, or type the six words.",
            ),
            NotAReceipt::Word(word) => word.fmt(f),
            NotAReceipt::Count(count) => write!(
                f,
                "A receipt has six words, and {} given. Type all six.",
                if *count == 1 { "1 was".to_string() } else { format!("{count} were") }
            ),
        }
    }
}

impl std::error::Error for NotAReceipt {}

impl Said {
    /// Reads the QR's text or six words.
    ///
    /// # Errors
    /// [`NotAReceipt`] says what is wrong with it.
    pub fn parse(entered: &str) -> Result<Said, NotAReceipt> {
        let parts: Vec<String> = entered.split_whitespace().map(str::to_uppercase).collect();
        if parts.is_empty() {
            return Err(NotAReceipt::Empty);
        }
        let named = NAME.split(' ').zip(&parts).all(|(name, part)| name == part);
        if named && parts.len() > 2 {
            return code_of(&parts[2..]);
        }
        // Six words hold no figure and no sign but what stands between them.
        if entered.contains(|c: char| c.is_ascii_digit() || c == '/' || c == ':') {
            return Err(NotAReceipt::OtherCode);
        }
        let numbers = words::decode(entered).map_err(NotAReceipt::Word)?;
        let count = numbers.len();
        numbers.try_into().map(Said::Words).map_err(|_| NotAReceipt::Count(count))
    }

    /// Whether it is the receipt for these visits and corrections.
    #[must_use]
    pub fn is_for(&self, lines: &[&VisitRef]) -> bool {
        let own = digest_of(lines);
        match self {
            Said::Code { count, digest } => *digest == own && *count == unique(lines).len(),
            Said::Words(numbers) => words::numbers(&own, WORDS) == *numbers,
        }
    }
}

fn code_of(parts: &[String]) -> Result<Said, NotAReceipt> {
    match parts {
        [version, count, digest] if version == VERSION => {
            let count = count.parse().map_err(|_| NotAReceipt::OtherCode)?;
            let digest = bytes_of(digest).ok_or(NotAReceipt::OtherCode)?;
            Ok(Said::Code { count, digest })
        }
        [version, ..] if version != VERSION && version.parse::<u32>().is_ok_and(|version| version > 1) => {
            Err(NotAReceipt::Newer)
        }
        _ => Err(NotAReceipt::OtherCode),
    }
}

fn bytes_of(digest: &str) -> Option<[u8; 32]> {
    let digits: Vec<u8> =
        digest.chars().map(|c| c.to_digit(16).and_then(|d| u8::try_from(d).ok())).collect::<Option<_>>()?;
    let bytes: Vec<u8> = digits.chunks_exact(2).map(|pair| pair[0] << 4 | pair[1]).collect();
    (digits.len() == 64).then_some(())?;
    bytes.try_into().ok()
}

/// The hand overs that a receipt is for: one, or several made after each other whose files were taken in together. Empty
/// when it is for other visits.
#[must_use]
pub fn matches<'h>(said: &Said, handed: &'h [HandedOver]) -> Vec<&'h HandedOver> {
    let mut by_time: Vec<&HandedOver> = handed.iter().collect();
    sorted::by(&mut by_time, |a, b| b.made.cmp(&a.made).then_with(|| a.id.cmp(&b.id)));
    if let Some(one) = by_time.iter().find(|one| said.is_for(&one.lines())) {
        return vec![one];
    }
    let recent = &by_time[..by_time.len().min(TOGETHER)];
    for from in 0..recent.len() {
        let mut together = recent[from].lines();
        for to in from + 1..recent.len() {
            together.extend(recent[to].lines());
            if said.is_for(&together) {
                return recent[from..=to].to_vec();
            }
        }
    }
    Vec::new()
}

fn digest_of(lines: &[&VisitRef]) -> [u8; 32] {
    let lines: String = unique(lines).into_iter().map(|visit| format!("{} {}\n", visit.id, visit.sha256)).collect();
    sha256(lines.as_bytes())
}

fn unique<'a>(lines: &[&'a VisitRef]) -> BTreeSet<&'a VisitRef> {
    sorted::set(lines.iter().copied())
}

fn sorted(visits: Vec<VisitRef>) -> Vec<VisitRef> {
    sorted::set(visits).into_iter().collect()
}

#[cfg(test)]
mod tests;
