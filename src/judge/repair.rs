//! Repair: is the cause gone, is it proven, was nothing needless replaced?

use plant::{Fault, FaultKind};
use visit::{Effect, Event, Happening, Move, Observation, Outcome, Timed, Verification, Visit, Wrong};

use crate::mark::{Area, Mark, mark};
use crate::reason::{ProofDoubt, Reason, Remnant};
use crate::refrigerant::done;

const AREA: Area = Area::Repair;
const CLEARED: f64 = 8.0;
const CHARGE: f64 = 2.0;
const FROST: f64 = 1.0;
const PROVEN: f64 = 5.0;
const NOT_NEEDLESS: f64 = 3.0;
const CLOSED: f64 = 1.0;

pub(crate) fn marks(visit: &Visit) -> Vec<Mark> {
    vec![cleared(visit), charge(visit), frost(visit), proven(visit), not_needless(visit), closed(visit)]
}

/// Fault kinds of the call that the plant still has, and what they have broken: a fuse that they melted.
pub(crate) fn faults_left(visit: &Visit) -> Vec<FaultKind> {
    FaultKind::ALL.into_iter().filter(|kind| visit.plant().has(*kind)).collect()
}

/// Whether the cause is gone and the circuit holds its charge: the plant can cool again, by the learner's work.
pub(crate) fn is_solved(visit: &Visit) -> bool {
    faults_left(visit).is_empty() && has_right_charge(visit) && !is_all_taken_away(visit)
}

/// What was wrong and went without the learner, since an instructor cleared it.
fn taken_away(visit: &Visit) -> Vec<FaultKind> {
    let went = |wrong: &Wrong, timed: &Timed| {
        let fault = &wrong.fault;
        let Event::Happening(Happening::Clear { kind, place }) = &timed.event else { return false };
        (*kind, *place) == (fault.kind, fault.place) && wrong.until_s == Some(timed.at_s)
    };
    let last = |fault: &Fault| {
        let same = |wrong: &&Wrong| (wrong.fault.kind, wrong.fault.place) == (fault.kind, fault.place);
        visit.wrong().iter().rev().find(same)
    };
    let is_taken = |fault: &&&Fault| {
        last(fault).is_some_and(|wrong| visit.events().iter().any(|timed| went(wrong, timed)))
    };
    visit.ever_wrong().iter().filter(is_taken).map(|fault| fault.kind).collect()
}

/// Whether an instructor has left nothing to repair.
fn is_all_taken_away(visit: &Visit) -> bool {
    let taken = taken_away(visit).len();
    taken > 0 && taken == visit.ever_wrong().len()
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
    let taken = taken_away(visit);
    if is_all_taken_away(visit) && left.is_empty() {
        return mark(AREA, CLEARED, 0.0, Reason::TakenAway { taken }, None);
    }
    if left.is_empty() {
        return mark(AREA, CLEARED, 1.0, Reason::CauseGone, by);
    }
    let all = (visit.ever_wrong().len() - taken.len()).max(left.len()) as f64;
    let share = 1.0 - left.len() as f64 / all;
    let remnant =
        |kind: &FaultKind| visit.plant().left_behind(*kind).map_or(Remnant::Fault(*kind), Remnant::Behind);
    mark(AREA, CLEARED, share, Reason::StillThere { left: left.iter().map(remnant).collect() }, by)
}

fn charge(visit: &Visit) -> Mark {
    let wanted = &visit.call().solved.charge_share;
    let (charge_share, low_share, high_share) = (charge_share(visit), wanted.low, wanted.high);
    // A charge that was right on arrival is not this visit's work: it counts with the repair.
    if is_solved(visit) {
        return mark(AREA, CHARGE, 1.0, Reason::ChargeRight { charge_share, low_share, high_share }, None);
    }
    let reason = if has_right_charge(visit) {
        Reason::ChargeRightOnly { charge_share, low_share, high_share }
    } else {
        Reason::ChargeWrong { charge_share, low_share, high_share }
    };
    mark(AREA, CHARGE, 0.0, reason, None)
}

fn frost(visit: &Visit) -> Mark {
    let ice_kg = visit.truth().frost_mass_kg;
    let is_clear = ice_kg <= visit.call().solved.frost_mass_max_kg;
    match (is_clear, is_solved(visit)) {
        (true, true) => mark(AREA, FROST, 1.0, Reason::CoilClear, None),
        (true, false) => mark(AREA, FROST, 0.0, Reason::CoilClearOnly, None),
        (false, _) => mark(AREA, FROST, 0.0, Reason::CoilIced { ice_kg }, None),
    }
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
        return mark(AREA, PROVEN, 0.0, Reason::NotVerified, None);
    };
    if is_all_taken_away(visit) {
        return mark(AREA, PROVEN, 0.0, Reason::TakenAway { taken: taken_away(visit) }, Some(entry));
    }
    let doubts = doubts(visit, found, last_work.is_some_and(|work| work > entry));
    if doubts.is_empty() {
        return mark(AREA, PROVEN, 1.0, Reason::Proven { ran_for_s: found.ran_for_s }, Some(entry));
    }
    mark(AREA, PROVEN, 0.0, Reason::NotProven { doubts }, Some(entry))
}

fn doubts(visit: &Visit, found: &Verification, worked_on_since: bool) -> Vec<ProofDoubt> {
    let (ran_for_s, needed_for_s) = (found.ran_for_s, visit.call().solved.proven_for_s);
    [
        (!found.faults_left.is_empty(), ProofDoubt::FaultLeft),
        (ran_for_s < needed_for_s, ProofDoubt::RanTooShort { ran_for_s, needed_for_s }),
        (!found.steady, ProofDoubt::NotSteady),
        (found.frost_mass_kg > visit.call().solved.frost_mass_max_kg, ProofDoubt::IceOnCoil),
        (worked_on_since, ProofDoubt::WorkedOnSince),
    ]
    .into_iter()
    .filter_map(|(is_so, doubt)| is_so.then_some(doubt))
    .collect()
}

fn is_work(action: &Move) -> bool {
    matches!(action.effect(), Effect::Repairs | Effect::ChangesContents)
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
            let reason = Reason::NeedlessParts { parts: needless.len(), cost: visit.cost() };
            mark(AREA, NOT_NEEDLESS, share, reason, Some(*entry))
        }
        None if is_all_taken_away(visit) => {
            mark(AREA, NOT_NEEDLESS, 0.0, Reason::TakenAway { taken: taken_away(visit) }, None)
        }
        None if faults_left(visit).is_empty() => mark(AREA, NOT_NEEDLESS, 1.0, Reason::NothingNeedless, None),
        None => mark(AREA, NOT_NEEDLESS, 0.0, Reason::NothingNeededEither, None),
    }
}

fn closed(visit: &Visit) -> Mark {
    let entry = done(visit).find(|entry| entry.action == Move::CloseTicket).map(|entry| entry.number);
    match entry {
        Some(_) if is_solved(visit) => mark(AREA, CLOSED, 1.0, Reason::TicketClosed, entry),
        Some(_) => mark(AREA, CLOSED, 0.0, Reason::TicketClosedTooSoon, entry),
        None => mark(AREA, CLOSED, 0.0, Reason::TicketNotClosed, None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Points of repair after an instructor cleared a fault of the call, and perhaps brought it back, and what was done then.
    fn points(happenings: &[Happening], moves: &[Move]) -> f64 {
        let (id, text) = call::built_in()[0];
        let call = call::read(text, id).expect("a built-in call");
        // A filter that is loaded further collapses onto the coil, and a new one is no repair.
        let is_mild = |seed: &u64| call::seed(&call, *seed).faults.iter().all(|fault| fault.severity < 0.88);
        let seed = (1..100).find(is_mild).expect("one of them is mild");
        let mut visit = Visit::start(&call, seed).expect("the history is finite");
        for happening in happenings {
            visit.happen(happening.clone()).expect("it can happen");
        }
        for action in moves {
            let entry = visit.perform(action).expect("finite");
            assert!(!matches!(entry.outcome, Outcome::Refused(_)), "{entry:?}");
        }
        marks(&visit).iter().map(|mark| mark.points).sum()
    }

    #[test]
    fn what_an_instructor_cleared_earns_no_points_of_repair() {
        let kind = FaultKind::LoadedFilter;
        let clear = Happening::Clear { kind, place: None };
        assert_eq!(points(std::slice::from_ref(&clear), &[Move::Verify, Move::CloseTicket]), 0.0);
        let off = Move::SetThermostat {
            mode: plant::Mode::Off,
            fan: plant::FanSetting::Auto,
            set_point: visit::Temperature::Fahrenheit(75.0),
        };
        let repair = [off, Move::ReplaceFilter, Move::CloseTicket];
        let again = Happening::Inject { kind, place: None, severity: 0.8 };
        let repaired = points(&[clear, again], &repair);
        assert!(repaired >= CLEARED, "what came back was the learner's to repair: {repaired}");
        assert!(points(&[], &repair) >= CLEARED);
    }
}
