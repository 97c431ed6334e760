//! Finding and closing leaks, and parts of the circuit.

use call::Milestone;
use plant::{LeakPlace, Switch, Work, WorkOutcome};

use super::row::{TELLS_AT_REST, never};
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::note::{LeakNote, WorkNote};
use crate::place::{LeakMethod, Location, Panel};
use crate::refusal::Refusal;
use crate::sight::Observation;
use crate::site::{BulbState, Circuit};
use crate::site_map::leak_location;
use crate::timing::{METERING_COST, REPAIR_COST};
use crate::visit::{Step, Task, Visit, act, pass};

/// Gauge pressure below which nothing shows at a hole, Pa: about 1 bar (engineering value).
const SEARCH_PRESSURE_PA: f64 = 100.0e3;
/// Smallest hole that an electronic detector finds, m (typ. of a heated-diode detector, from memory).
const DETECTOR_HOLE_M: f64 = 0.022e-3;
/// Smallest hole that blows bubbles one can see, m (typ., from memory).
const BUBBLES_HOLE_M: f64 = 0.04e-3;
/// Least share of refrigerant in the gas that a detector still smells (engineering value).
const TRACE_SHARE: f64 = 0.05;

/// A search for a leak.
pub(super) fn search_row(place: LeakPlace, method: LeakMethod) -> Row {
    Row {
        at: At::Side(leak_location(place)),
        panel: cabinet_of(place),
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: match method {
            LeakMethod::ElectronicDetector => 600.0,
            LeakMethod::Bubbles => 480.0,
        },
        price: 0.0,
        caution: Some(Caution::LeakSearch),
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(search)],
        end: End::Own,
        reaches: Reaches::Done(Milestone::LeakSearched),
        circuit: OnCircuit::Untouched,
        effect: TELLS_AT_REST,
    }
}

/// A leak is closed.
pub(super) fn repair(place: LeakPlace) -> Row {
    Row {
        at: At::Side(leak_location(place)),
        panel: cabinet_of(place),
        hoses: None,
        dead: Dead::OutdoorForCircuit,
        values: Vec::new(),
        takes_s: 3600.0,
        price: REPAIR_COST,
        caution: Some(Caution::CircuitWork),
        lacks: never,
        refusal: never,
        plan: cut_and_close,
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::PartReplaced),
        circuit: OnCircuit::Opens,
        effect: Effect::Repairs,
    }
}

/// A new metering device and a new drier.
pub(super) fn replace_metering_device() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: cabinet_of(LeakPlace::IndoorCoil),
        hoses: None,
        dead: Dead::OutdoorForCircuit,
        values: Vec::new(),
        takes_s: 5400.0,
        price: METERING_COST,
        caution: Some(Caution::CircuitWork),
        lacks: never,
        refusal: never,
        plan: cut_and_close,
        end: End::Own,
        reaches: Reaches::IfWell(Milestone::PartReplaced),
        circuit: OnCircuit::Opens,
        effect: Effect::Repairs,
    }
}

fn cabinet_of(place: LeakPlace) -> Option<(Panel, Refusal)> {
    match place {
        LeakPlace::IndoorCoil => Some((Panel::CoilCabinet, Refusal::BehindPanel(Panel::CoilCabinet))),
        LeakPlace::SuctionServiceValve | LeakPlace::LiquidLine => None,
    }
}

/// A third of the time until the cut, the rest for the new joint and its pressure test.
fn cut_and_close(_: &Visit, action: &Move) -> Vec<Step> {
    let takes_s = action.takes_s();
    vec![pass(takes_s / 3.0), act(cut_in), pass(takes_s * 2.0 / 3.0), act(close_up)]
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
        && visit.truth().frost_mass_kg > crate::coil::CLEAR_FROST_KG;
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
            LeakMethod::ElectronicDetector => LeakNote::FoundByDetector(place),
            LeakMethod::Bubbles => LeakNote::FoundByBubbles(place),
        });
        task.see(vec![Observation::LeakFound(place)]);
        return;
    }
    task.note(LeakNote::Nothing(place));
    if under_ice {
        task.note(LeakNote::UnderIce);
    } else if smells_nothing {
        task.note(LeakNote::SmellsNoNitrogen);
    } else if gauge_pa <= SEARCH_PRESSURE_PA {
        task.note(LeakNote::TooLittlePressure);
    }
    task.see(vec![Observation::NoLeakFound(place)]);
}

pub(super) fn cut_in(visit: &mut Visit, task: &mut Task) {
    let work = match task.action {
        Move::RepairLeak(place) => Work::RepairLeak(place),
        Move::Repair(work) => work,
        _ => Work::ReplaceMeteringDevice,
    };
    if visit.inputs.outdoor_disconnect == Switch::Closed {
        task.hazards.push(Hazard::CircuitWorkWithPowerOn);
        task.note(LeakNote::DisconnectIn);
    }
    if visit.plant.circuit_share_of_flammability_limit().is_some_and(|share| share >= 1.0) {
        task.hazards.push(Hazard::FlameOnFlammableGas);
        task.note(LeakNote::TorchOnGas);
    }
    if visit.site.circuit == Circuit::UnderNitrogen {
        task.note(LeakNote::NitrogenBlowsOff);
    }
    // More than a lawful recovery would have left.
    let unavoidable_kg = visit.plant.left_by_recovery_kg();
    let outcome = visit.plant.apply(work);
    if outcome.vented_kg > unavoidable_kg {
        task.hazards.push(Hazard::RefrigerantVented);
        task.note(LeakNote::Vented { vented_kg: outcome.vented_kg });
    }
    visit.site.circuit = Circuit::Opened;
    task.see(part(&outcome));
}

fn close_up(visit: &mut Visit, task: &mut Task) {
    visit.plant.expose_circuit(task.action.takes_s() * 2.0 / 3.0);
    let faulty = matches!(
        &task.outcome,
        crate::notebook::Outcome::Seen(seen) if seen.iter().any(|o| matches!(o, Observation::PartWasFaulty(_)))
    );
    match task.action {
        Move::RepairLeak(place) => {
            visit.site.cost += REPAIR_COST;
            task.note(if faulty { LeakNote::HoleClosed(place) } else { LeakNote::NoHole(place) });
        }
        _ => {
            visit.site.cost += METERING_COST;
            if visit.has_bulb() {
                visit.site.bulb = BulbState::AsFound;
                visit.inputs.bulb = plant::BulbHandling::AsInstalled;
            }
            task.note(LeakNote::MeteringDeviceIn);
            task.note(if faulty { LeakNote::MeteringWasFaulty } else { LeakNote::MeteringWasSound });
        }
    }
    task.note(WorkNote::AirInCircuit);
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
