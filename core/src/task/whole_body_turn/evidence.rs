//! Sources of turning with the arm out.

use crate::evidence::Citation;

/// Number, angle and pace, read in a clinic's protocol of the published screen.
pub(super) static PROTOCOL: Citation = Citation {
    short: "a university clinic's protocol of the symptom screen",
    place: "five repeats, 80°, 50 beats a minute, 10 s before rating; after Mucha et al. 2014, Am J Sports Med 42:2479",
    link: "sites.google.com/site/fsufmrp/clinic-resources/concussion-clinic",
};
/// The posture, read in a lay explainer only.
pub(super) static LAY: Citation = Citation {
    short: "a lay explainer of the symptom screen",
    place: "standing, thumb of the outstretched arm, head and trunk as one",
    link: "scienceinsights.org",
};
