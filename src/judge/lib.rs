//! Marks: how sound a visit was, computed from the visit alone.
//!
//! [`judge`] works the visit again from its seed and its moves ([`Recording`]) and weighs its readings on the plants of all
//! suspects, so that a mark rests on what the plants did and not on what a file claims. Six areas, 100 points: order, evidence, refrigerant, safety,
//! repair, time. Every mark carries its reason and the notebook entry that earned or lost it.

mod arrivals;
mod evidence;
mod mark;
mod order;
mod reason;
mod refrigerant;
mod repair;
mod safety;
mod timing;

pub use arrivals::Arrivals;
pub use mark::{Area, Mark, Marks};
pub use reason::{Danger, Doubtful, NoEvidence, ProofDoubt, Reason, Remnant, Standing, Undone, Useless};

use diagnosis::{Hypotheses, Portion, Prior, Progress, Stoppable, Unwatched};
use plant::StepError;
use visit::{Entry, Move, Outcome, Recording, Visit};

/// Judges a visit, finished or not: what was not done earns nothing. Its readings are weighed first, which takes
/// seconds; who has them weighed already calls [`judge_weighed`].
///
/// # Errors
/// When the plant reached a state that is not finite while the visit or one of its suspects was worked again.
pub fn judge(visit: &Visit) -> Result<Marks, StepError> {
    match weigh(visit, &Arrivals::default(), &Unwatched)? {
        Some(suspects) => judge_weighed(visit, &suspects),
        None => unreachable!("nobody stops the weighing"),
    }
}

/// Judges a visit whose entries were weighed by [`weigh`]. What was weighed beyond that does not matter.
///
/// # Errors
/// When the plant reached a state that is not finite while the visit was worked again.
pub fn judge_weighed(visit: &Visit, suspects: &Hypotheses) -> Result<Marks, StepError> {
    Ok(judge_recorded(visit, &Recording::of(visit)?, suspects))
}

/// The same for a visit that was recorded.
pub fn judge_recorded(visit: &Visit, recording: &Recording, suspects: &Hypotheses) -> Marks {
    let mut items = order::marks(visit);
    items.extend(evidence::marks(visit, suspects));
    items.extend(refrigerant::marks(visit, recording, suspects));
    items.extend(safety::marks(visit, recording));
    items.extend(repair::marks(visit));
    items.extend(timing::marks(visit));
    Marks::of(items)
}

/// Beliefs before the first reading: those of the call, or the documented default.
pub fn prior(call: &call::Call) -> Prior {
    if call.priors.is_empty() { Prior::Usual } else { Prior::Weights(call.priors.clone()) }
}

/// Weighs the entries of a visit as far as marks need it, from suspects on arrival that are kept. `None` if it was stopped.
///
/// # Errors
/// When a suspect's plant reached a state that is not finite.
pub fn weigh(visit: &Visit, arrivals: &Arrivals, progress: &dyn Progress) -> Stoppable<Hypotheses> {
    let arriving = Portion::of(progress, 0.0, ARRIVAL_SHARE);
    let Some(arrived) = arrivals.at(visit.call(), &arriving)? else { return Ok(None) };
    weigh_arrived(visit, arrived, None, &Portion::of(progress, ARRIVAL_SHARE, 1.0))
}

/// The same from suspects on arrival at the visit's call, whatever its seed, with shadows that have `followed` the visit if
/// there are any; both save work and change nothing.
///
/// # Errors
/// When a suspect's plant reached a state that is not finite.
pub fn weigh_arrived(
    visit: &Visit,
    mut arrived: Hypotheses,
    followed: Option<&Hypotheses>,
    progress: &dyn Progress,
) -> Stoppable<Hypotheses> {
    let done = arrived.look_back(visit.notebook(), &entries_asked(visit), followed, progress)?;
    Ok(done.map(|()| arrived))
}

/// The same and then the entries that marks don't need, for a review. Marks stay what they are.
///
/// # Errors
/// When a suspect's plant reached a state that is not finite.
pub fn weigh_all(
    visit: &Visit,
    arrived: Hypotheses,
    followed: Option<&Hypotheses>,
    progress: &dyn Progress,
) -> Stoppable<Hypotheses> {
    let for_marks = Portion::of(progress, 0.0, 0.7);
    let Some(mut suspects) = weigh_arrived(visit, arrived, followed, &for_marks)? else { return Ok(None) };
    let last = visit.notebook().last().map_or(0, |entry| entry.number);
    let done = suspects.catch_up(visit, last, &Portion::of(progress, 0.7, 1.0))?;
    Ok(done.map(|()| suspects))
}

/// Part that the arrival has in the work of weighing.
const ARRIVAL_SHARE: f64 = 0.6;

/// Numbers of the entries after which marks ask what was believed: those before a declaration or an addition of refrigerant; without
/// any, the last one.
fn entries_asked(visit: &Visit) -> Vec<u32> {
    let entries = visit.notebook();
    let asks = |entry: &&Entry| {
        !matches!(entry.outcome, Outcome::Refused(_))
            && (matches!(entry.action, Move::Declare(_)) || refrigerant::adds_as_it_is(&entry.action))
    };
    let before: Vec<u32> = entries.iter().filter(asks).map(|entry| entry.number.saturating_sub(1)).collect();
    match entries.last() {
        Some(last) if before.is_empty() => vec![last.number],
        _ => before,
    }
}
