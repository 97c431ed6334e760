//! Repair: is the cause gone, is it proven, was nothing needless replaced?

use plant::FaultKind;
use visit::{Move, Observation, Outcome, Verification, Visit};

use crate::mark::{Area, Mark, mark};
use crate::refrigerant::done;

const AREA: Area = Area::Repair;
const CLEARED: f64 = 8.0;
const CHARGE: f64 = 2.0;
const FROST: f64 = 1.0;
const PROVEN: f64 = 5.0;
const NOT_NEEDLESS: f64 = 3.0;
const CLOSED: f64 = 1.0;
/// Added to what is in order and earns nothing all the same.
const WITH_THE_REPAIR: &str = " That counts once the cause is gone.";

pub(crate) fn marks(visit: &Visit) -> Vec<Mark> {
    vec![cleared(visit), charge(visit), frost(visit), proven(visit), not_needless(visit), closed(visit)]
}

/// Fault kinds of the call that the plant still has, and what they have broken: a fuse that they melted.
pub(crate) fn faults_left(visit: &Visit) -> Vec<FaultKind> {
    let mut kinds: Vec<FaultKind> = visit.seeded().faults.iter().map(|fault| fault.kind).collect();
    kinds.extend(&visit.call().solved.cleared);
    kinds.push(FaultKind::BlownControlFuse);
    kinds.sort_unstable();
    kinds.dedup();
    kinds.retain(|kind| visit.plant().has(*kind));
    kinds
}

/// Whether the cause is gone and the circuit holds its charge: the plant can cool again.
pub(crate) fn is_solved(visit: &Visit) -> bool {
    faults_left(visit).is_empty() && has_right_charge(visit)
}

fn has_right_charge(visit: &Visit) -> bool {
    let wanted = &visit.call().solved.charge_share;
    (wanted.low..=wanted.high).contains(&charge_share(visit))
}

fn charge_share(visit: &Visit) -> f64 {
    visit.truth().charge_total_kg / visit.call().system.plate_charge_kg
}

fn cleared(visit: &Visit) -> Mark {
    let left = faults_left(visit);
    let by = done(visit)
        .filter(|entry| match &entry.outcome {
            Outcome::Seen(seen) => seen.iter().any(|one| matches!(one, Observation::PartWasFaulty(_))),
            _ => false,
        })
        .last()
        .map(|entry| entry.number);
    if left.is_empty() {
        return mark(AREA, CLEARED, 1.0, "What was wrong is gone.".to_owned(), by);
    }
    let all = visit.seeded().faults.len().max(left.len()) as f64;
    let labels: Vec<&str> =
        left.iter().map(|kind| visit.plant().left_behind(*kind).unwrap_or(kind.label())).collect();
    let reason = format!("Still there: {}.", labels.join(", "));
    mark(AREA, CLEARED, 1.0 - left.len() as f64 / all, reason, by)
}

fn charge(visit: &Visit) -> Mark {
    let wanted = &visit.call().solved.charge_share;
    let percent = charge_share(visit) * 100.0;
    // A charge that was right on arrival is not this visit's work: it counts with the repair.
    let earned = is_solved(visit);
    let reason = format!(
        "The circuit holds {percent:.1} % of its charge; {:.0} to {:.0} % is right.{}",
        wanted.low * 100.0,
        wanted.high * 100.0,
        if has_right_charge(visit) && !earned { WITH_THE_REPAIR } else { "" }
    );
    mark(AREA, CHARGE, if earned { 1.0 } else { 0.0 }, reason, None)
}

fn frost(visit: &Visit) -> Mark {
    let frost_kg = visit.truth().frost_mass_kg;
    let most_kg = visit.call().solved.frost_mass_max_kg;
    let is_clear = frost_kg <= most_kg;
    let earned = is_clear && is_solved(visit);
    let reason = match (is_clear, earned) {
        (true, true) => "The coil is free of ice.".to_owned(),
        (true, false) => format!("The coil is free of ice.{WITH_THE_REPAIR}"),
        (false, _) => {
            let frost_lb = media::units::lb_from_kg(frost_kg);
            format!("{frost_lb:.1} lb ({frost_kg:.2} kg) of ice stands on the coil.")
        }
    };
    mark(AREA, FROST, if earned { 1.0 } else { 0.0 }, reason, None)
}

/// A verification counts when it came after the last work on the plant.
fn proven(visit: &Visit) -> Mark {
    let last_work = done(visit).filter(|entry| is_work(&entry.action)).map(|entry| entry.number).max();
    let verified = done(visit)
        .filter_map(|entry| match &entry.outcome {
            Outcome::Verified(found) => Some((entry.number, found)),
            _ => None,
        })
        .last();
    let Some((entry, found)) = verified else {
        return mark(AREA, PROVEN, 0.0, "The repair was never verified.".to_owned(), None);
    };
    let doubts = doubts(visit, found, last_work.is_some_and(|work| work > entry));
    if doubts.is_empty() {
        let minutes = found.ran_for_s / 60.0;
        let reason = format!("The plant was proven steady after running for {minutes:.0} min.");
        return mark(AREA, PROVEN, 1.0, reason, Some(entry));
    }
    mark(AREA, PROVEN, 0.0, format!("Verified, but {}.", doubts.join(", ")), Some(entry))
}

fn doubts(visit: &Visit, found: &Verification, worked_on_since: bool) -> Vec<String> {
    let mut doubts = Vec::new();
    if !found.faults_left.is_empty() {
        doubts.push("a fault was still there".to_owned());
    }
    if found.ran_for_s < visit.call().solved.proven_for_s {
        let (ran, needed) = (found.ran_for_s / 60.0, visit.call().solved.proven_for_s / 60.0);
        doubts.push(format!("the plant had run {ran:.0} min of the {needed:.0} min that prove it"));
    }
    if !found.steady {
        doubts.push("the plant was not steady".to_owned());
    }
    if found.frost_mass_kg > visit.call().solved.frost_mass_max_kg {
        doubts.push("ice stood on the coil".to_owned());
    }
    if worked_on_since {
        doubts.push("the plant was worked on again afterwards".to_owned());
    }
    doubts
}

fn is_work(action: &Move) -> bool {
    action.opens_circuit()
        || matches!(
            action,
            Move::ReplaceFilter
                | Move::InsulateBulb
                | Move::Mend(_)
                | Move::Recover
                | Move::RecoverTo(_)
                | Move::RemoveRefrigerant(_)
                | Move::PressurizeWithNitrogen(_)
                | Move::WeighIn(_)
                | Move::AddRefrigerant(_)
                | Move::AddVapor(_)
                | Move::ChargeTo { .. }
        )
}

fn not_needless(visit: &Visit) -> Mark {
    let needless: Vec<u32> = done(visit)
        .filter(|entry| match &entry.outcome {
            Outcome::Seen(seen) => seen.contains(&Observation::PartWasSound),
            _ => false,
        })
        .map(|entry| entry.number)
        .collect();
    match needless.first() {
        Some(entry) => {
            // Each needless part costs half.
            let share = 1.0 - 0.5 * needless.len() as f64;
            let cost = visit.cost();
            let reason = format!("A sound part was replaced; the customer pays {cost:.0} for parts in all.");
            mark(AREA, NOT_NEEDLESS, share, reason, Some(*entry))
        }
        None if faults_left(visit).is_empty() => {
            mark(AREA, NOT_NEEDLESS, 1.0, "Nothing needless was replaced.".to_owned(), None)
        }
        None => {
            let reason = "Nothing needless was replaced, but what was needed was not either.".to_owned();
            mark(AREA, NOT_NEEDLESS, 0.0, reason, None)
        }
    }
}

fn closed(visit: &Visit) -> Mark {
    let entry = done(visit).find(|entry| entry.action == Move::CloseTicket).map(|entry| entry.number);
    match entry {
        Some(_) if is_solved(visit) => {
            mark(AREA, CLOSED, 1.0, "The customer was told and the ticket closed.".to_owned(), entry)
        }
        Some(_) => mark(
            AREA,
            CLOSED,
            0.0,
            "The ticket was closed on a plant that is not put right.".to_owned(),
            entry,
        ),
        None => mark(AREA, CLOSED, 0.0, "The ticket was not closed.".to_owned(), None),
    }
}
