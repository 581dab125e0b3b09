//! Sources of the stage's figures.

use crate::evidence::Citation;

/// The card whose edge gives the scale.
pub static CARD: Citation = Citation {
    short: "ISO/IEC 7810",
    place: "identification cards, size ID-1: 85.60 by 53.98 mm; used cards up to 85.90 by 54.18 mm (the latter from memory)",
    link: "en.wikipedia.org/wiki/ISO/IEC_7810",
};

/// Flash, red flash, and the area below which flashes do not count.
pub static FLASHES: Citation = Citation {
    short: "W3C 2023, WCAG 2.2, SC 2.3.1",
    place: "three flashes or below threshold; definition of general flash and red flash thresholds",
    link: "w3.org/TR/WCAG22/#dfn-general-flash-and-red-flash-thresholds",
};

/// What may provoke a seizure: flashes, saturated red, and how many stripes.
pub static CONSENSUS: Citation = Citation {
    short: "Harding et al. 2005",
    place: "photic and pattern-induced seizures, consensus, Epilepsia 46:1423",
    link: "pubmed.ncbi.nlm.nih.gov/16146438",
};

/// Guidelines for patterns, and whom they protect.
pub static PATTERNS: Citation = Citation {
    short: "Wilkins, Emmett & Harding 2005",
    place: "characterizing the patterned images that precipitate seizures, Epilepsia 46:1212",
    link: "researchgate.net/publication/7686482",
};

/// Stripes ten seconds each way with three seconds of rest.
pub static STRIPES: Citation = Citation {
    short: "optokinetic stripes of a rotary chair suite",
    place: "20 and 60° a second, 10 s each way, 3 s rest between, table 2",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC8513422",
};

/// Following at the bedside: at most 40° a second.
pub static FOLLOWING: Citation = Citation {
    short: "clinical teaching on smooth pursuit",
    place: "at most 60° of arc in all and 40° a second",
    link: "peltzpt.com/smooth-pursuit",
};

/// A gap of 200 ms before the target.
pub static GAP: Citation = Citation {
    short: "antisaccades in different conditions",
    place: "a gap of 200 ms adds errors and shortens latency; targets at 1 to 12°",
    link: "discovery.researcher.life, “On the generation of antisaccades in different conditions”",
};

/// One to two seconds of looking at the middle before the target.
pub static FOREPERIOD: Citation = Citation {
    short: "antisaccade study with a foreperiod of 1 to 2 s",
    place: "foreperiod 1,000 to 2,000 ms",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC4382315",
};
