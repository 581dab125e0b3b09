//! What looks like a text of a screen and is none.

/// Start of the path, the literal, and why it is no text.
pub const NOT_TEXTS: &[(&str, &str, &str)] = &[
    ("app/src/screens/first_run.rs", "Sidelight", "a name"),
    ("app/src/platform/passkey.rs", "Sidelight", "a name"),
    ("app/src/platform/clipboard.rs", "no clipboard", "thrown away by the one who asks"),
    ("app/src/storage/error.rs", "indexed db not found", "a library's words"),
    ("app/src/storage/sealed/header.rs", "not hexadecimal", "thrown away: a damaged lock is told as such"),
    ("app/src/widgets/field.rs", "ask ask-row", "classes"),
    ("app/src/widgets/stage/painter.rs", "there is no canvas to draw on", "thrown away by the one who asks"),
    ("app/src/widgets/stage/running.rs", "Escape", "a key of the keyboard"),
];
