//! Numbers as words that can be read aloud and typed.
