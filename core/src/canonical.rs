//! Canonical JSON (RFC 8785) and the digest over it.
