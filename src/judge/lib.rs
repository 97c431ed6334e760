//! Marks: how sound a visit was, computed from the visit alone.
//!
//! [`judge`] works the visit again from its seed and its moves ([`Trail`]) and weighs its readings on the plants of all
//! suspects, so that a mark rests on what the plants did and not on what a file claims. Six areas, 100 points: order, evidence, refrigerant, safety,
//! repair, time. Every mark carries its reason and the notebook entry that earned or lost it.

mod evidence;
mod mark;
mod order;
mod refrigerant;
mod repair;
mod safety;
mod timing;
mod trail;

pub use mark::{Area, Mark, Marks};
pub use trail::{Moment, Trail};

use plant::StepError;
use suspects::{KeepGoing, Prior, Stoppable, Suspects};
use visit::{Move, Outcome, Visit};

/// Judges a visit, finished or not: what was not done earns nothing. Its readings are weighed first, which takes
/// seconds; who has them weighed already calls [`judge_weighed`].
///
/// # Errors
/// When the plant reached a state that is not finite while the visit or one of its suspects was worked again.
pub fn judge(visit: &Visit) -> Result<Marks, StepError> {
    match weigh(visit, &|_| true)? {
        Some(suspects) => judge_weighed(visit, &suspects),
        None => unreachable!("nobody stops the weighing"),
    }
}

/// Judges a visit whose entries were weighed at least up to [`last_to_weigh`]. What was weighed beyond that does not
/// matter.
///
/// # Errors
/// When the plant reached a state that is not finite while the visit was worked again.
pub fn judge_weighed(visit: &Visit, suspects: &Suspects) -> Result<Marks, StepError> {
    let trail = Trail::of(visit)?;
    let mut items = order::marks(visit);
    items.extend(evidence::marks(visit, suspects));
    items.extend(refrigerant::marks(visit, &trail, suspects));
    items.extend(safety::marks(visit, &trail));
    items.extend(repair::marks(visit));
    items.extend(timing::marks(visit));
    Ok(Marks::of(items))
}

/// Beliefs before the first reading: those of the call, or the documented default.
pub fn prior(call: &call::Call) -> Prior {
    if call.priors.is_empty() { Prior::Usual } else { Prior::Weights(call.priors.clone()) }
}

/// Weighs the entries of a visit as far as marks need it. `None` if it was stopped.
///
/// # Errors
/// When a suspect's plant reached a state that is not finite.
pub fn weigh(visit: &Visit, keep_going: &KeepGoing<'_>) -> Stoppable<Suspects> {
    Suspects::of(visit, &prior(visit.call()), last_to_weigh(visit), keep_going)
}

/// Number of the last entry whose weight marks need: the last declaration or addition of refrigerant; without any,
/// the last entry.
pub fn last_to_weigh(visit: &Visit) -> u32 {
    let entries = visit.notebook();
    entries
        .iter()
        .rev()
        .filter(|entry| !matches!(entry.outcome, Outcome::Refused(_)))
        .find(|entry| matches!(entry.action, Move::Declare(_)) || refrigerant::adds_as_it_is(&entry.action))
        .or(entries.last())
        .map_or(0, |entry| entry.number)
}
