//! What a newer program wrote and this one cannot read: kept, and written again where it stood.

/// Parts of a file that this program cannot read, kept to the letter: JSON text by name.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Unread(pub Vec<(String, String)>);
