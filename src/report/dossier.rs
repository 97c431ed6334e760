//! Everything that a review shows beside the marks.

use diagnosis::{Portion, Progress};
use plant::StepError;
use serde::{Deserialize, Serialize};
use visit::{Recording, Visit};

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
    /// Works out what goes beside the marks of a recorded visit, without suspects and path: seconds of work, so not for the thread that
    /// draws. `None` if it was stopped.
    ///
    /// # Errors
    /// When a plant reaches a state that is not finite.
    pub fn of(
        visit: &Visit,
        recording: &Recording,
        run_on_hours: f64,
        progress: &dyn Progress,
    ) -> Result<Option<ReviewFigures>, StepError> {
        let course = Course::of(recording);
        let cycles = Cycles::of(visit, &course)?;
        let later = Portion::of(progress, CYCLES_SHARE, 1.0);
        let run_on = Projection::watched(visit, run_on_hours, &later)?;
        Ok(run_on.map(|run_on| ReviewFigures { course, cycles, run_on, chances: None, path: None }))
    }
}

/// Part that the cycles have in the work.
const CYCLES_SHARE: f64 = 0.1;
