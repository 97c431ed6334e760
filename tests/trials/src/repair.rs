//! The repair that a suspect asks for, as far as the part that comes out tells whether it was the cause.

use plant::StepError;
use suspects::{Suspects, job, safety};
use visit::{Move, Observation, Outcome, Visit};

use crate::routine::{Follow, make};

/// Most parts that are changed in search of the faulty one.
const MOST_PARTS: usize = 3;

/// Makes the plant safe and does the work that the likeliest suspects ask for, one after another, until a part
/// that comes out was faulty; where the charge is suspected most, it is recovered and weighed first. Returns how many parts were sound.
///
/// # Errors
/// If a plant leaves the finite numbers.
pub fn repair(visit: &mut Visit, suspects: &mut Suspects) -> Result<usize, StepError> {
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
        let asks_for_scale = |visit: &Visit| {
            let likeliest = suspects.standing().into_iter().next();
            let is_charge = likeliest.is_some_and(|chance| {
                chance.suspect.causes.iter().all(|cause| job(cause.kind, cause.place).is_none())
            });
            is_charge && !visit.notebook().iter().any(|entry| entry.action == Move::Recover)
        };
        if asks_for_scale(visit) {
            weigh_the_charge(visit, suspects)?;
            continue;
        }
        let mut follow = |visit: &Visit| {
            if let Some(entry) = visit.notebook().last() {
                suspects.follow(entry, &|_| true)?;
            }
            Ok(crate::routine::Go::On)
        };
        for cause in &first.suspect.causes {
            let Some(action) = job(cause.kind, cause.place) else { continue };
            if tried.contains(&action) {
                continue;
            }
            tried.push(action.clone());
            make_safe(visit, &mut follow)?;
            if action.opens_circuit() {
                make(visit, &Move::ConnectGauges, &mut follow)?;
                make(visit, &Move::Recover, &mut follow)?;
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

/// Where the charge itself is suspected most, no part tells: it is recovered and weighed.
fn weigh_the_charge(visit: &mut Visit, suspects: &mut Suspects) -> Result<(), StepError> {
    let mut follow = |visit: &Visit| {
        if let Some(entry) = visit.notebook().last() {
            suspects.follow(entry, &|_| true)?;
        }
        Ok(crate::routine::Go::On)
    };
    make_safe(visit, &mut follow)?;
    make(visit, &Move::ConnectGauges, &mut follow)?;
    make(visit, &Move::Recover, &mut follow)?;
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
