//! Sources that exercises and advice share. A name from memory stands nowhere: where the copy read showed no authors, the
//! entry says what kind of study it is.

use super::{Shows, Study};
use crate::evidence::{Citation, Status};

macro_rules! sources {
    ($($(#[$doc:meta])* $name:ident: $short:literal, $place:literal, $link:literal;)+) => {
        $($(#[$doc])* pub static $name: Citation = Citation { short: $short, place: $place, link: $link };)+
    };
}

sources! {
    /// Home push-ups against placebo in children.
    CITT: "Convergence Insufficiency Treatment Trial 2008", "221 children of 9 to 17 years, 12 weeks, randomised",
        "pmc.ncbi.nlm.nih.gov/articles/PMC2779032";
    /// Home treatment alone in children.
    HOME_ONLY: "home-based therapy trial 2016", "204 children of 9 to 17 years, 12 weeks, randomised; Optom Vis Sci",
        "journals.lww.com/optvissci/Fulltext/2016/12000/Home_Based_Therapy_for_Symptomatic_Convergence.3.aspx";
    /// Push-ups in adults beside office care.
    STUDENTS: "a comparison of pencil push-ups and office care, 2015", "adults, 8 weeks",
        "pmc.ncbi.nlm.nih.gov/articles/PMC4302485";
    /// Mixed exercises or prism in adults.
    ADULTS_75: "a series of 75 adults", "exercises or prism, no untreated group", "pubmed.ncbi.nlm.nih.gov/39609599";
    /// Network review of convergence treatments.
    COCHRANE_CI: "Cochrane review of convergence insufficiency", "network review, 12 trials, 1289 people",
        "doi.org/10.1002/14651858.CD006768.pub3";
    /// Entry rules of the reading trial.
    CITT_ENTRY: "entry rules of a children's convergence trial", "exclusions and limits",
        "bjo.bmj.com/highwire/markup/170676/expansion";
    /// Hospital sheet on the near point.
    ULH: "a hospital's sheet on near point exercises", "United Lincolnshire Hospitals",
        "ulh.nhs.uk/patients/patient-information-library/how-to-do-smooth-convergence-exercises";
    /// Hospital sheet on near-far jumps.
    CUH: "a hospital's sheet on convergence exercises", "Cambridge University Hospitals",
        "cuh.nhs.uk/patient-information/orthoptic-exercises-for-convergence-insufficiency";
    /// Handout on a string with beads.
    BEADS: "a clinic's handout on a string with beads", "seen only as a copy on a document site; weak",
        "studylib.net/doc/25938121";
    /// A sports physician's sheet.
    SPORTS_SHEET: "a sports physician's sheet", "home exercises after concussion; weak",
        "chris-koutures.squarespace.com/concussion-home-exercises";
    /// Which exercises changed what in healthy adults.
    HEALTHY_156: "a study of 156 healthy young adults", "eye exercises, effort and instruction, 2 weeks",
        "pmc.ncbi.nlm.nih.gov/articles/PMC4238796";
    /// Guideline on vestibular rehabilitation.
    HALL_2016: "Hall et al. 2016", "clinical practice guideline, peripheral vestibular hypofunction, J Neurol Phys Ther",
        "pmc.ncbi.nlm.nih.gov/articles/PMC4795094";
    /// Newer guideline, not read.
    HALL_2022: "Hall et al. 2022", "clinical practice guideline, J Neurol Phys Ther 46:118; its doses were not seen",
        "";
    /// Review of vestibular rehabilitation.
    COCHRANE_VR: "Cochrane review of vestibular rehabilitation", "39 trials, 2441 adults; read in a guideline note on it",
        "doi.org/10.1002/14651858.CD005397.pub4";
    /// Teenagers after concussion.
    TEENS_50: "a trial in 50 teenagers after concussion", "within 21 days, 4 weeks, randomised",
        "pubmed.ncbi.nlm.nih.gov/34450120";
    /// The same teenagers probably, other outcomes.
    TEENS_BALANCE: "a trial of tailored vestibular care in teenagers", "after concussion in sport; probably the same 50",
        "discovery.researcher.life/article/randomized-controlled-trial-rct-of-a-precision-vestibular-treatment-in-adolescent-athletes-following-sport-related-concussion/b19e2e64ca9d3fbab59fe3360162053e";
    /// Quality of that trial.
    PEDRO: "a rating of that trial's method", "5 of 10; no blinding credited",
        "search.pedro.org.au/search-results/record-detail/66799";
    /// A plan for children.
    CHILD_PLAN: "plan of a trial in children of 6 to 12 years", "home vestibular and balance work, results not known",
        "clinicaltrials.gov/study/NCT05741515";
    /// Six weeks of gaze work in three people.
    CASES_3: "a case series of three", "six-week plan of gaze exercises",
        "pmc.ncbi.nlm.nih.gov/articles/PMC2952034/table/T1";
    /// Hospital sheet on head turns.
    DARTMOUTH: "a hospital's sheet on gaze exercises", "Dartmouth-Hitchcock",
        "dartmouth-hitchcock.org/acoustic-neuroma-clinic/eye-exercises.html";
    /// Head turns to a beat.
    BOYS_TOWN: "a hospital's page on head turns to a metronome", "Boys Town",
        "boystownhospital.org/knowledge-center/vestibular-rehab-vor-with-metronome";
    /// Sets and progressions, a student copy.
    VOM_SHEET: "a clinic's sheet of eye and balance exercises", "seen only as a copy on a document site; weak",
        "studyres.com/doc/11348746/vestibular-occular-motor-exs";
    /// Following toward the neglected side.
    NEGLECT: "a trial of following after stroke", "neglect, 45 completers, 5 sessions of an hour",
        "doi.org/10.1177/1545968313491012";
    /// A home set in young people after concussion.
    YOUTH_SET: "a home exercise set in young people after concussion", "share with any abnormal test, meeting abstract",
        "doi.org/10.1212/01.wnl.0000801908.78932.97";
    /// Learning problems.
    LEARNING: "joint statement on learning disabilities, dyslexia and vision, 2009", "Pediatrics 124:837",
        "publications.aap.org/pediatrics/article/124/2/837/72351/Learning-Disabilities-Dyslexia-and-Vision";
    /// Vision after concussion.
    VISION_2022: "joint statement on vision and concussion, 2022", "Pediatrics 150:e2021056047",
        "aao.org/education/clinical-statement/vision-concussion-symptoms-signs-evaluation-treatm";
    /// Home plans after concussion.
    PLANS_104: "a review of 104 home plans after concussion", "what physical therapists prescribed",
        "ncbi.nlm.nih.gov/pubmed/22786783";
    /// Children with hearing and vestibular loss.
    RINE: "Rine et al. 2004", "21 children, 3 times a week for 12 weeks, randomised; Int J Pediatr Otorhinolaryngol 68:1141",
        "";
    /// Falls sheet, stance.
    TAYSIDE: "a health service's falls exercises", "NHS Tayside",
        "nhstayside.scot.nhs.uk/OurServicesA-Z/Physiotherapy/PROD_387633";
    /// Heel-to-toe walking.
    ACTIVE: "a state's balance exercises", "heel-to-toe stand and walk, New South Wales",
        "activeandhealthy.nsw.gov.au/active-living/exercise-at-home";
    /// Falls sheet, weekly number.
    AT_HOME: "a health service's exercises at home", "heel to toe, three times a week; stop list",
        "rightdecisions.scot.nhs.uk/being-a-partner-in-my-care-realistic-medicine-together/local-resources/nhs-tayside/exercises-to-try-at-home";
    /// Supervised balance and strength after clearance.
    SUPERVISED: "supervised balance and strength after concussion", "2 times a week for 8 weeks, feasibility",
        "ichgcp.net/ru/clinical-trials-registry/publications/165552";
    /// Dizziness exercises of an ear, nose and throat society.
    ENT_UK: "an ear, nose and throat society's sheet", "ENT UK", "entuk.org/patients/conditions/93";
    /// Habituation sheet.
    SUSSEX: "a hospital's sheet of dizziness exercises", "University Hospitals Sussex",
        "uhsussex.nhs.uk/resources/vestibular-and-cawthorn-cooksey-exercises";
    /// Habituation against gaze exercises.
    SEVEN: "habituation and gaze exercises compared", "7 adults, 6 weeks", "pmc.ncbi.nlm.nih.gov/articles/PMC2904475";
    /// Booklet.
    BOOKLET: "a booklet of dizziness exercises in primary care", "337 adults, 12 weeks, followed for a year",
        "pmc.ncbi.nlm.nih.gov/articles/PMC3368486";
    /// Moving scenes.
    SCENES: "a review of moving scenes in vestibular rehabilitation", "J Neurol Phys Ther 2010",
        "journals.lww.com/jnpt/Fulltext/2010/06000/The_Use_of_Optokinetic_Stimulation_in_Vestibular.10.aspx";
    /// Moving scenes in the old.
    SCENES_OLD: "moving scenes added for older adults", "28 people, Sci Rep 2021",
        "nature.com/articles/s41598-021-93940-z";
    /// Aerobic exercise in teenagers.
    AEROBIC_103: "a trial of early aerobic exercise", "103 teenagers, within 10 days of a concussion",
        "pmc.ncbi.nlm.nih.gov/articles/PMC6450274";
    /// Aerobic exercise in teenagers, second trial.
    AEROBIC_118: "a second trial of early aerobic exercise", "118 teenagers, Lancet Child Adolesc Health",
        "doi.org/10.1016/S2352-4642(21)00267-4";
    /// Home aerobic exercise without help.
    AEROBIC_HOME: "home aerobic exercise alone", "37 people, 5 times 20 minutes a week",
        "pmc.ncbi.nlm.nih.gov/articles/PMC9231419";
    /// 80 % of the heart rate that raised symptoms.
    HEART_RATE: "plan and results of a trial of aerobic exercise", "80 % of the heart rate that raised symptoms",
        "clinicaltrials.gov/study/NCT02710123";
    /// Consensus of 2022.
    CONSENSUS: "Patricios et al. 2023", "consensus statement on concussion in sport, Br J Sports Med 57:695",
        "bjsm.bmj.com/content/57/11/695";
    /// Consensus of 2016, steps of sport.
    CONSENSUS_2016: "consensus statement on concussion in sport, 2016", "steps of the return to sport",
        "bjsm.bmj.com/highwire/markup/107380/expansion";
    /// Steps of sport as a university restates them.
    STEPS: "a university's page on the return to play", "steps of the 2022 consensus",
        "utsc.utoronto.ca/programs/concussions/return-to-play-after-a-concussion";
    /// Help at school.
    SCHOOL_HELP: "a review behind the 2022 consensus", "help at school after concussion",
        "bjsm.bmj.com/highwire/markup/114182/expansion";
    /// Screens in the first two days.
    SCREENS_125: "a trial of screen time after concussion", "125 people of 12 to 25 years, first 48 hours",
        "pmc.ncbi.nlm.nih.gov/articles/PMC8424526";
    /// Breaks from the screen.
    BREAKS_30: "a trial of breaks from the screen", "30 people, breaks every 5, 10, 20 or 40 minutes",
        "doi.org/10.1097/OPX.0000000000001971";
    /// Reminders to look away.
    BREAKS_29: "reminders to look away from the screen", "29 people, 2 weeks",
        "doi.org/10.1016/j.clae.2022.101744";
    /// Symptoms settle within a day.
    DAY_RULE: "Australian and New Zealand concussion guideline", "return to activity",
        "anzconcussionguidelines.com/guidelines-return-to-activity";
    /// Older school rule.
    SCHOOL_2013: "Pediatrics clinical report on returning to learning", "30 to 45 minutes of light work",
        "pediatrics.aappublications.org/highwire/markup/104555/expansion";
    /// Clinician's table of set rules.
    SET_RULE: "a clinician's reference on vestibular therapy", "seen only as a copy; weak",
        "medilib.ir/uptodate/show/146216";
    /// Symptoms settle within 20 minutes; stances.
    PHYSIO: "a physiotherapy sheet", "gaze and stance steps; seen only as a copy on a document site; weak",
        "scribd.com/document/637205289";
    /// Symptoms settle within 5 minutes.
    FIVE_MINUTES: "a clinic's page on eye and balance exercises", "weak",
        "resolutionclinic.com/vestiboocular-rehabilitation-exercises";
    /// A ladder from 0 to 5.
    LADDER: "a physician's page on dizziness exercises", "weak", "drchu-austin.com/vertigo-exercises";
    /// Danger signs, United States.
    CDC: "CDC, concussion danger signs", "list for families", "cdc.gov/headsup/basics/concussion_danger_signs.html";
    /// Danger signs, children, United Kingdom.
    NHS_CHILD: "an NHS children's network", "head injury, what to watch for in the first 48 hours",
        "frimley-healthiertogether.nhs.uk/professionals/need-grouping/pharmacists/safety-netting-documents-parents/head-injury";
}

/// What speaks against drills of the eyes alone as a treatment of gaze stability.
pub const AGAINST_STILL_HEAD: Study = Study {
    shows: Shows::AdvisedAgainst,
    says: "jumps or following without head movement should not be offered for gaze stability (strong, more harm than \
           benefit; adults, peripheral vestibular loss)",
    source: &HALL_2016,
    status: Status::Found,
};

/// What speaks against them as a treatment of reading.
pub const AGAINST_FOR_LEARNING: Study = Study {
    shows: Shows::AdvisedAgainst,
    says: "eye exercises are not endorsed for dyslexia or learning problems",
    source: &LEARNING,
    status: Status::Found,
};

/// What they did for young people after a concussion.
pub const NO_BENEFIT_TO_YOUTH: Study = Study {
    shows: Shows::NoBenefit,
    says: "young people after concussion: any abnormal test in 62, 69 and 69 in 100 (not doing, doing, done)",
    source: &YOUTH_SET,
    status: Status::Found,
};
