//! Sealing at rest: a key from a passphrase, and records that only that key opens.
