//! Standing suspects: what could be wrong, and how likely each is after what has been read.
//!
//! A [`Suspect`] is one fault, a pair of faults, or nothing at all. Behind each stand shadow plants of a few
//! severities that go through the learner's moves; [`Suspects`] holds every reading and every look against what
//! they would have given (`weigh`) and keeps the probabilities. How a severity between two shadows is judged is in
//! `family`, what was likely beforehand in `prior`. [`Suspects::best_tests`] looks ahead, [`sound_path`] works a whole
//! visit by it.

mod crew;
mod family;
mod guide;
mod order;
mod prior;
mod shadow;
mod sight;
mod suspect;
mod suspects;
mod tests_ahead;
mod weigh;

pub use crew::KeepGoing;
pub use guide::{Aim, SURE, Watch, guide, is_sure, job, safety, sound_path, way_to};
pub use prior::Prior;
pub use suspect::{Cause, Suspect};
pub use suspects::{Chance, Stoppable, Suspects, Weighed};
pub use tests_ahead::{Test, When};
