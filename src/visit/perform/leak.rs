//! Finding and closing leaks, and parts of the circuit.

use plant::{LeakPlace, Switch, Work, WorkOutcome};

use super::{Step, Task, act, pass};
use crate::hazard::Hazard;
use crate::moves::{LeakMethod, Move};
use crate::notebook::Observation;
use crate::site::{BulbState, Circuit};
use crate::timing::{METERING_COST, REPAIR_COST, base_s};
use crate::visit::Visit;

/// Gauge pressure below which nothing shows at a hole, Pa: about 1 bar (engineering value).
const SEARCH_PRESSURE_PA: f64 = 100.0e3;
/// Smallest hole that an electronic detector finds, m (typ. of a heated-diode detector, from memory).
const DETECTOR_HOLE_M: f64 = 0.022e-3;
/// Smallest hole that blows bubbles one can see, m (typ., from memory).
const BUBBLES_HOLE_M: f64 = 0.04e-3;
/// Least share of refrigerant in the gas that a detector still smells (engineering value).
const TRACE_SHARE: f64 = 0.05;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    match action {
        Move::SearchLeak(..) => vec![pass(base_s(action)), act(search)],
        // A third of the time until the cut, the rest for the new joint and its pressure test.
        _ => vec![pass(base_s(action) / 3.0), act(cut_in), pass(base_s(action) * 2.0 / 3.0), act(close_up)],
    }
}

fn search(visit: &mut Visit, task: &mut Task) {
    let Move::SearchLeak(place, method) = task.action else { return };
    let gauge_pa = visit.pressure_at(place) - media::units::STANDARD_ATMOSPHERE_PA;
    let smallest_m = match method {
        LeakMethod::ElectronicDetector => DETECTOR_HOLE_M,
        LeakMethod::Bubbles => BUBBLES_HOLE_M,
    };
    let under_ice = place == LeakPlace::IndoorCoil
        && method == LeakMethod::Bubbles
        && visit.truth().frost_mass_kg > crate::observe::CLEAR_FROST_KG;
    // A detector smells refrigerant; nitrogen it does not know.
    let smells_nothing =
        method == LeakMethod::ElectronicDetector && visit.plant.refrigerant_mass_share() < TRACE_SHARE;
    let is_there = if visit.is_shadow() {
        !visit.notebook.iter().any(|entry| entry.action == Move::RepairLeak(place))
    } else {
        visit.plant.leak_hole_m(place) >= smallest_m
    };
    let found = is_there && gauge_pa > SEARCH_PRESSURE_PA && !under_ice && !smells_nothing;
    if found {
        task.note(match method {
            LeakMethod::ElectronicDetector => {
                format!(
                    "The detector ticks faster and faster at the {}, and again on the second pass.",
                    place.label()
                )
            }
            LeakMethod::Bubbles => {
                format!("Bubbles grow at the {} as fast as you wipe them off.", place.label())
            }
        });
        task.see(vec![Observation::LeakFound(place)]);
        return;
    }
    task.note(format!("Nothing at the {}.", place.label()));
    if under_ice {
        task.note("Ice covers the coil; bubbles can't show what is under it.");
    } else if smells_nothing {
        task.note("The detector smells refrigerant, not nitrogen; bubbles show what escapes.");
    } else if gauge_pa <= SEARCH_PRESSURE_PA {
        task.note("There is too little pressure in the circuit for a leak to show.");
    }
    task.see(vec![Observation::NoLeakFound(place)]);
}

pub(super) fn cut_in(visit: &mut Visit, task: &mut Task) {
    let work = match task.action {
        Move::RepairLeak(place) => Work::RepairLeak(place),
        Move::Mend(work) => work,
        _ => Work::ReplaceMeteringDevice,
    };
    if visit.inputs.outdoor_disconnect == Switch::Closed {
        task.hazards.push(Hazard::CircuitWorkWithPowerOn);
        task.note(
            "The disconnect is in: the unit can start under your hands. Pull it before you open a circuit.",
        );
    }
    if visit.plant.circuit_share_of_flammability_limit().is_some_and(|share| share >= 1.0) {
        task.hazards.push(Hazard::FlameOnFlammableGas);
        task.note(
            "What is left in the circuit can burn, and there is a torch in your hand. Recover, then purge with nitrogen, \
             and cut instead of sweating joints apart.",
        );
    }
    if visit.site.circuit == Circuit::UnderNitrogen {
        task.note("The circuit stands under nitrogen and blows off as you cut in. Let it off first.");
    }
    // More than a lawful recovery would have left.
    let unavoidable_kg = visit.plant.left_by_recovery_kg();
    let outcome = visit.plant.apply(work);
    if outcome.vented_kg > unavoidable_kg {
        task.hazards.push(Hazard::RefrigerantVented);
        task.note(format!(
            "You cut into a charged circuit: {:.0} oz of refrigerant blow into the air. Liquid burns by frost, and \
             venting is not allowed (40 CFR 82 subpart F). Recover first.",
            media::units::oz_from_kg(outcome.vented_kg)
        ));
    }
    visit.site.circuit = Circuit::Opened;
    task.see(part(&outcome));
}

fn close_up(visit: &mut Visit, task: &mut Task) {
    visit.plant.expose_circuit(base_s(&task.action) * 2.0 / 3.0);
    let faulty = matches!(
        &task.outcome,
        crate::notebook::Outcome::Seen(seen) if seen.iter().any(|o| matches!(o, Observation::PartWasFaulty(_)))
    );
    match task.action {
        Move::RepairLeak(place) => {
            visit.site.cost += REPAIR_COST;
            task.note(if faulty {
                format!("The hole at the {} is closed; the joint shows no bubbles.", place.label())
            } else {
                format!(
                    "You find no hole at the {}; the new joint shows no bubbles, as the old one would have shown none.",
                    place.label()
                )
            });
        }
        _ => {
            visit.site.cost += METERING_COST;
            if visit.has_bulb() {
                visit.site.bulb = BulbState::AsFound;
                visit.inputs.bulb = plant::BulbHandling::AsInstalled;
            }
            task.note("A new metering device and a new drier are in; the joints show no bubbles.");
            task.note(if faulty {
                "The old device does not move as it should."
            } else {
                "On the bench the old device moves as it should."
            });
        }
    }
    task.note("There is air in the circuit now: evacuate before charging.");
}

/// What the part taken out tells about itself.
pub(super) fn part(outcome: &WorkOutcome) -> Vec<Observation> {
    if outcome.cleared.is_empty() {
        return vec![Observation::PartWasSound];
    }
    outcome.cleared.iter().map(|kind| Observation::PartWasFaulty(*kind)).collect()
}

impl Visit {
    /// Absolute pressure behind a place where refrigerant may escape, Pa.
    fn pressure_at(&self, place: LeakPlace) -> f64 {
        let truth = self.truth();
        match place {
            LeakPlace::IndoorCoil => truth.evaporator_pressure_pa,
            LeakPlace::SuctionServiceValve => truth.suction_pressure_pa,
            LeakPlace::LiquidLine => truth.liquid_pressure_pa,
        }
    }
}
