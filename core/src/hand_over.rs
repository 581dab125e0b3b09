//! Hand-over files: an archive inside the age format.
