//! Marks: how sound a visit was, computed from the visit alone.
//!
//! [`judge`] works the visit again from its seed and its moves ([`Trail`]), so that a mark rests on what the
//! plant did and not on what a file claims. Six areas, 100 points: order, evidence, refrigerant, safety,
//! repair, time. Every mark carries its reason and the notebook entry that earned or lost it.

mod evidence;
mod mark;
mod order;
mod outcomes;
mod refrigerant;
mod repair;
mod rivals;
mod safety;
mod timing;
mod trail;

pub use mark::{Area, Mark, Marks};
pub use trail::{Moment, Trail};

use plant::StepError;
use visit::Visit;

/// Judges a visit, finished or not: what was not done earns nothing.
///
/// # Errors
/// When the plant reached a state that is not finite while the visit or one of its rivals was worked again.
pub fn judge(visit: &Visit) -> Result<Marks, StepError> {
    let trail = Trail::of(visit)?;
    let mut items = order::marks(visit);
    items.extend(evidence::marks(visit)?);
    items.extend(refrigerant::marks(visit, &trail));
    items.extend(safety::marks(visit, &trail));
    items.extend(repair::marks(visit));
    items.extend(timing::marks(visit));
    Ok(Marks::of(items))
}
