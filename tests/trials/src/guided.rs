//! A technician that follows the next best test.

use diagnosis::{Hypotheses, guide};
use plant::StepError;
use visit::Visit;

/// Works a visit by the next best test until one suspect is sure, nothing tells more, or `limit_min` is over.
/// Returns the suspects at the end.
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn guided(visit: &mut Visit, mut suspects: Hypotheses, limit_min: f64) -> Result<Hypotheses, StepError> {
    guide(visit, &mut suspects, limit_min, &diagnosis::Unwatched)?;
    Ok(suspects)
}
