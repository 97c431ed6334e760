//! Standing suspects: what could be wrong, and how likely each is after what has been read.
//!
//! A [`Hypothesis`] is one fault, a pair of faults, or nothing at all. Behind each stand shadow plants of a few
//! severities that go through the learner's moves; [`Hypotheses`] holds every reading and every look against what
//! they would have given (`weigh`) and keeps the probabilities. Hypotheses with equal plants share a `line` of shadows, with
//! the severities between them in `cell`s; what was likely beforehand is in `prior`. [`Hypotheses::best_tests`] looks ahead, [`sound_path`] works a whole
//! visit by it. What one repair takes away counts as one there (`part`).

mod audit;
mod bundle;
mod care;
mod cell;
mod charge;
mod discrepancy;
mod ensemble;
mod guide;
mod hindsight;
mod hypotheses;
mod hypothesis;
mod member;
mod order;
mod outcomes;
pub mod parallel;
mod part;
mod phase;
mod prior;
mod progress;
mod repeats;
mod sight;
mod stock;
mod surroundings;
mod tests_ahead;
mod unknowns;
mod weigh;

pub use audit::{PhaseMet, Residual, phases, residuals, strides};
pub use care::{Care, FirstShadows};
pub use guide::{Purpose, SURE, guide, is_sure, is_worth_declaring, job, safety, sound_path, way_to};
pub use hypotheses::{Hypotheses, Posterior, Stoppable, Update};
pub use hypothesis::{Cause, Hypothesis, hypotheses_of};
pub use part::{Part, Remedy};
pub use prior::Prior;
pub use progress::{Done, Portion, Progress, Unwatched, Within};
pub use tests_ahead::{Bundle, Test, When};
