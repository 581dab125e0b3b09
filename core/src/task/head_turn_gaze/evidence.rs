//! Sources of the head turns.

use crate::evidence::Citation;

/// The pace and the ten repeats, read in a clinic's protocol of the published screen.
pub(super) static PROTOCOL: Citation = Citation {
    short: "a university clinic's protocol of the symptom screen",
    place: "ten repeats at 180 beats a minute, 10 s before rating; after Mucha et al. 2014, Am J Sports Med 42:2479",
    link: "sites.google.com/site/fsufmrp/clinic-resources/concussion-clinic",
};
/// How many repeats it takes until symptoms come. The copy read shows no authors.
pub(super) static REPEATS: Citation = Citation {
    short: "a study of repeats",
    place: "69 concussed and 69 healthy adolescents, 10, 20 and 30 repeats of each test",
    link: "pmc.ncbi.nlm.nih.gov/articles/PMC8891655",
};
