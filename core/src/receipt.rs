//! What the clinic computer gives back for a file it took in, and how the phone checks it.
