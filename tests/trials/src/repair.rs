//! The repair that a suspect asks for, as far as the part that comes out tells whether it was the cause.

use diagnosis::{Hypotheses, job, safety};
use plant::StepError;
use visit::{Move, Observation, Outcome, Visit};

use crate::routine::{Follow, make};

/// Most parts that are changed in search of the faulty one.
const MOST_PARTS: usize = 3;

/// Makes the plant safe and does the work that the likeliest suspects ask for, one after another, until a part
/// that comes out was faulty; where the charge is suspected most, it is recovered and weighed first. Returns how many
/// parts were sound.
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn repair(visit: &mut Visit, suspects: &mut Hypotheses) -> Result<usize, StepError> {
    let mut sound = 0;
    let mut tried: Vec<Move> = Vec::new();
    for _ in 0..MOST_PARTS {
        let Some(first) = suspects.standing().into_iter().find(|chance| {
            chance
                .suspect
                .causes
                .iter()
                .any(|cause| job(cause.kind, cause.place).is_some_and(|action| !tried.contains(&action)))
        }) else {
            break;
        };
        if first.probability < 0.02 {
            break;
        }
        let weighs = charge_is_suspected_most(suspects)
            && !visit.notebook().iter().any(|entry| entry.action == Move::Recover);
        let mut follow = |visit: &Visit| {
            if let Some(entry) = visit.notebook().last() {
                suspects.follow(entry, &diagnosis::Unwatched)?;
            }
            Ok(crate::routine::Go::On)
        };
        if weighs {
            make_safe(visit, &mut follow)?;
            recover(visit, &mut follow)?;
            continue;
        }
        for cause in &first.suspect.causes {
            let Some(action) = job(cause.kind, cause.place) else { continue };
            if tried.contains(&action) {
                continue;
            }
            tried.push(action.clone());
            make_safe(visit, &mut follow)?;
            if action.opens_circuit() {
                recover(visit, &mut follow)?;
            }
            make(visit, &action, &mut follow)?;
        }
        match last_part(visit) {
            Some(true) | None => break,
            Some(false) => sound += 1,
        }
    }
    Ok(sound)
}

/// Whether no part, only the scale would tell of the likeliest suspect.
fn charge_is_suspected_most(suspects: &Hypotheses) -> bool {
    suspects.standing().first().is_some_and(|likeliest| {
        likeliest.suspect.causes.iter().all(|cause| job(cause.kind, cause.place).is_none())
    })
}

/// Recovers the charge, which weighs it.
fn recover(visit: &mut Visit, follow: &mut Follow<'_>) -> Result<(), StepError> {
    make(visit, &Move::ConnectGauges, follow)?;
    make(visit, &Move::Recover, follow)?;
    Ok(())
}

/// Whether the last part that came out was faulty.
fn last_part(visit: &Visit) -> Option<bool> {
    let Outcome::Seen(seen) = &visit.notebook().last()?.outcome else { return None };
    if seen.contains(&Observation::PartWasSound) {
        return Some(false);
    }
    seen.iter().any(|one| matches!(one, Observation::PartWasFaulty(_))).then_some(true)
}

fn make_safe(visit: &mut Visit, follow: &mut Follow<'_>) -> Result<(), StepError> {
    for action in safety() {
        if !matches!(action, Move::DischargeCapacitor(_))
            || !visit.notebook().iter().any(|e| e.action == action)
        {
            make(visit, &action, follow)?;
        }
    }
    Ok(())
}
