//! Everything that a review shows beside the marks.

use plant::StepError;
use serde::{Deserialize, Serialize};
use visit::Visit;

use crate::course::Course;
use crate::cycle::Cycles;
use crate::path::SoundPath;
use crate::posterior::PosteriorHistory;
use crate::run_on::Projection;

/// The figures and facts of a review. What takes long or comes from elsewhere may be missing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ReviewFigures {
    /// What the plant did.
    pub course: Course,
    /// The refrigerant's cycle.
    pub cycles: Cycles,
    /// What would have happened next.
    pub run_on: Projection,
    /// What the readings made of the suspects.
    pub chances: Option<PosteriorHistory>,
    /// A sound path through the same call.
    pub path: Option<SoundPath>,
}

impl ReviewFigures {
    /// Works out a visit's dossier, without suspects and path: seconds of work, so not for the thread that draws.
    ///
    /// # Errors
    /// When a plant reaches a state that is not finite.
    pub fn of(visit: &Visit, run_on_hours: f64) -> Result<ReviewFigures, StepError> {
        match ReviewFigures::with(Course::of(visit)?, visit, run_on_hours, &|_| true)? {
            Some(dossier) => Ok(dossier),
            None => unreachable!("nobody stops it"),
        }
    }

    /// The same with the course of a visit that was made again under the eyes of a [`crate::CourseTaker`]. `watch` is asked now and then
    /// with the share that is done; `None` if it stopped the work.
    ///
    /// # Errors
    /// When a plant reaches a state that is not finite.
    pub fn with(
        course: Course,
        visit: &Visit,
        run_on_hours: f64,
        watch: &dyn Fn(f64) -> bool,
    ) -> Result<Option<ReviewFigures>, StepError> {
        let cycles = Cycles::of(visit, &course)?;
        let later = |share: f64| watch(CYCLES_SHARE + (1.0 - CYCLES_SHARE) * share);
        let run_on = Projection::watched(visit, run_on_hours, &later)?;
        Ok(run_on.map(|run_on| ReviewFigures { course, cycles, run_on, chances: None, path: None }))
    }
}

/// Part that the cycles have in the work.
const CYCLES_SHARE: f64 = 0.1;
