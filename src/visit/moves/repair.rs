//! Parts replaced and things put right: where a piece of work is done, what must be open and dead for it, what it takes and tells.

use call::Milestone;
use plant::{BlowerKind, Capacitor, Switch, Work};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::note::WorkNote;
use crate::notebook::Outcome;
use crate::place::{Panel, Place};
use crate::refusal::Refusal;
use crate::sight::Observation;
use crate::site_map::capacitor_panel;
use crate::timing::REFUSED_S;
use crate::visit::{Task, Visit, act, pass};

/// A part replaced, or something put right.
pub(super) fn repair(work: Work) -> Row {
    let job = job(work);
    let opens_circuit = work.opens_circuit();
    let place = job.as_ref().and_then(|job| job.places.first());
    Row {
        at: place.map_or(At::Anywhere, |place| At::Side(place.location())),
        panel: job.as_ref().and_then(|job| job.panel).map(|panel| (panel, Refusal::BehindPanel(panel))),
        hoses: None,
        dead: match &job {
            _ if opens_circuit => Dead::OutdoorForCircuit,
            Some(job) => job.dead,
            None => Dead::Nothing,
        },
        values: Vec::new(),
        takes_s: job.as_ref().map_or(REFUSED_S, |job| job.minutes * 60.0),
        price: job.as_ref().map_or(0.0, |job| job.cost),
        caution: caution(work),
        lacks: |visit, action| {
            let Move::Repair(work) = *action else { return None };
            match self::job(work) {
                Some(_) => visit.part_is_missing(work),
                None => Some(Refusal::HasMoveOfItsOwn(work)),
            }
        },
        refusal: |visit, action| {
            let Move::Repair(work) = *action else { return None };
            let ice = visit.truth().frost_mass_kg > crate::coil::CLEAR_FROST_KG;
            match work {
                Work::CleanCoil if ice => Some(Refusal::IceBeforeWash),
                Work::PeelFilterMedium if ice => Some(Refusal::IceBeforePeel),
                Work::PeelFilterMedium if visit.plant.coil_covered_share() <= 0.0 => {
                    Some(Refusal::NoMediumOnCoil)
                }
                _ => None,
            }
        },
        // As with other work on the circuit: a third of the time until the old part is out.
        plan: |_, action| {
            let takes_s = action.takes_s();
            vec![pass(takes_s / 3.0), act(take_out), pass(takes_s * 2.0 / 3.0), act(put_in)]
        },
        end: End::Own,
        reaches: if Work::PARTS.contains(&work) {
            Reaches::IfWell(Milestone::PartReplaced)
        } else {
            Reaches::Nothing
        },
        circuit: if opens_circuit { OnCircuit::Opens } else { OnCircuit::Untouched },
        effect: Effect::Repairs,
    }
}

/// The charge of a capacitor drawn off.
pub(super) fn discharge_capacitor(capacitor: Capacitor) -> Row {
    let panel = capacitor_panel(capacitor);
    Row {
        at: At::Side(panel.location()),
        panel: Some((panel, Refusal::BehindPanel(panel))),
        hoses: None,
        dead: match capacitor {
            Capacitor::Compressor | Capacitor::OutdoorFan => Dead::OutdoorUnit,
            Capacitor::Blower => Dead::AirHandler,
        },
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution: Some(Caution::DischargeCapacitor),
        lacks: |visit, action| match action {
            Move::DischargeCapacitor(Capacitor::Blower) => {
                visit.part_is_missing(Work::ReplaceBlowerCapacitor)
            }
            _ => None,
        },
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(discharge)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Prepares,
    }
}

fn caution(work: Work) -> Option<Caution> {
    if work.opens_circuit() {
        return Some(Caution::CircuitWork);
    }
    if capacitor_of(work).is_some() {
        return Some(Caution::ReplaceCapacitor);
    }
    match (work, job(work)?.dead) {
        (Work::CleanCoil | Work::CleanCondenser, _) => Some(Caution::CoilCleaner),
        (_, Dead::OutdoorUnit | Dead::OutdoorForCircuit) => Some(Caution::OutdoorWork),
        (_, Dead::AirHandler | Dead::BlowerStands) => Some(Caution::IndoorWork),
        (Work::RestoreReturnDuct, _) => Some(Caution::Attic),
        (Work::ReplaceThermostat | Work::RepairConductor, _) => Some(Caution::LowVoltage),
        (_, Dead::Nothing | Dead::AtProbes) => None,
    }
}

fn take_out(visit: &mut Visit, task: &mut Task) {
    let Move::Repair(work) = task.action else { return };
    if work.opens_circuit() {
        super::leak::cut_in(visit, task);
        return;
    }
    let Some(job) = job(work) else { return };
    if !visit.is_dead(job.dead) {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note(match job.dead {
            Dead::OutdoorUnit => WorkNote::OutdoorPowerOn,
            _ => WorkNote::IndoorPowerOn,
        });
    } else if let Some(capacitor) = capacitor_of(work)
        && visit.plant.capacitor_charge_v(capacitor) > DANGEROUS_CHARGE_V
    {
        task.hazards.push(Hazard::ChargedCapacitorTouched);
        task.note(WorkNote::CapacitorSnaps);
    }
    if let Some(capacitor) = capacitor_of(work) {
        visit.plant.discharge_capacitor(capacitor);
    }
    let outcome = visit.plant.apply(work);
    task.see(super::leak::part(&outcome));
}

fn put_in(visit: &mut Visit, task: &mut Task) {
    let Move::Repair(work) = task.action else { return };
    let Some(job) = job(work) else { return };
    let faulty = matches!(
        &task.outcome,
        Outcome::Seen(seen) if seen.iter().any(|one| matches!(one, Observation::PartWasFaulty(_)))
    );
    visit.site.cost += job.cost;
    task.note(WorkNote::Done(work));
    task.note(if faulty { WorkNote::WasFaulty(work) } else { WorkNote::WasSound(work) });
    if work.opens_circuit() {
        visit.plant.expose_circuit(task.action.takes_s() * 2.0 / 3.0);
        task.note(WorkNote::AirInCircuit);
    }
}

fn discharge(visit: &mut Visit, task: &mut Task) {
    let Move::DischargeCapacitor(capacitor) = task.action else { return };
    if !visit.is_dead(task.action.dead()) {
        task.hazards.push(Hazard::WiringWorkWithPowerOn);
        task.note(WorkNote::ResistorHot);
        return;
    }
    let held = visit.plant.capacitor_charge_v(capacitor) > DANGEROUS_CHARGE_V;
    visit.plant.discharge_capacitor(capacitor);
    task.note(if held { WorkNote::ChargeDrawnOff } else { WorkNote::NoChargeLeft });
}

/// Charge of a capacitor that a person feels badly, V (engineering value, common practice).
pub(super) const DANGEROUS_CHARGE_V: f64 = 50.0;

/// A job that has a price and a place. Minutes are engineering values for a practised technician with the part at
/// hand; prices are those of our own scenario. No source for either.
pub(crate) struct Job {
    /// Where it is done; the first decides on which side of the wall.
    pub places: &'static [Place],
    /// What must be open.
    pub panel: Option<Panel>,
    /// What must be dead.
    pub dead: Dead,
    pub minutes: f64,
    pub cost: f64,
}

/// The job of a piece of work; `None` for those that have a move of their own.
pub(crate) fn job(work: Work) -> Option<Job> {
    use Panel::{BlowerCompartment, CoilCabinet, OutdoorElectrical};
    Some(match work {
        Work::ReplaceFilter
        | Work::StrapAndInsulateBulb
        | Work::ReplaceMeteringDevice
        | Work::RepairLeak(_) => return None,
        Work::CleanCoil => Job {
            places: &[Place::IndoorCoil],
            panel: Some(CoilCabinet),
            dead: Dead::AirHandler,
            minutes: 60.0,
            cost: 35.0,
        },
        Work::PeelFilterMedium => Job {
            places: &[Place::IndoorCoil],
            panel: Some(CoilCabinet),
            dead: Dead::AirHandler,
            minutes: 15.0,
            cost: 0.0,
        },
        Work::RestoreReturnDuct => Job {
            places: &[Place::ReturnGrille],
            panel: None,
            dead: Dead::Nothing,
            minutes: 75.0,
            cost: 45.0,
        },
        Work::OpenSupplies => Job {
            places: &[Place::SupplyRegister],
            panel: None,
            dead: Dead::Nothing,
            minutes: 15.0,
            cost: 0.0,
        },
        Work::CleanBlowerWheel => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 75.0,
            cost: 10.0,
        },
        Work::SetSpeedTap => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 15.0,
            cost: 0.0,
        },
        Work::ReplaceBlowerCapacitor => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 20.0,
            cost: 22.0,
        },
        Work::ReplaceBlowerMotor => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 105.0,
            cost: 320.0,
        },
        Work::ReplaceBlowerModule => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 40.0,
            cost: 240.0,
        },
        Work::ReconnectBlowerCommand => Job {
            places: &[Place::Blower],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 25.0,
            cost: 12.0,
        },
        Work::ReplaceBoard => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 45.0,
            cost: 160.0,
        },
        Work::ReplaceThermostat => {
            Job { places: &[Place::Thermostat], panel: None, dead: Dead::Nothing, minutes: 30.0, cost: 80.0 }
        }
        Work::RepairConductor => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            dead: Dead::Nothing,
            minutes: 45.0,
            cost: 15.0,
        },
        Work::ReplaceControlFuse => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 5.0,
            cost: 3.0,
        },
        Work::ReplaceTransformer => Job {
            places: &[Place::ControlBoard],
            panel: Some(BlowerCompartment),
            dead: Dead::AirHandler,
            minutes: 40.0,
            cost: 38.0,
        },
        Work::RestoreCondensateSwitch => Job {
            places: &[Place::ControlBoard, Place::IndoorCoil],
            panel: Some(CoilCabinet),
            dead: Dead::Nothing,
            minutes: 35.0,
            cost: 18.0,
        },
        Work::ReplaceContactor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            dead: Dead::OutdoorUnit,
            minutes: 30.0,
            cost: 32.0,
        },
        Work::ReplaceDrier => {
            Job { places: &[Place::Drier], panel: None, dead: Dead::OutdoorUnit, minutes: 60.0, cost: 55.0 }
        }
        Work::ReplaceLiquidLine => {
            Job { places: &[Place::LineSet], panel: None, dead: Dead::OutdoorUnit, minutes: 75.0, cost: 70.0 }
        }
        Work::ReplaceSuctionLine => {
            Job { places: &[Place::LineSet], panel: None, dead: Dead::OutdoorUnit, minutes: 90.0, cost: 95.0 }
        }
        Work::CleanCondenser => Job {
            places: &[Place::OutdoorUnit],
            panel: None,
            dead: Dead::OutdoorUnit,
            minutes: 45.0,
            cost: 18.0,
        },
        Work::ReplaceFanCapacitor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            dead: Dead::OutdoorUnit,
            minutes: 20.0,
            cost: 24.0,
        },
        Work::ReplaceFanMotor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            dead: Dead::OutdoorUnit,
            minutes: 75.0,
            cost: 190.0,
        },
        Work::ReplaceCompressorCapacitor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            dead: Dead::OutdoorUnit,
            minutes: 20.0,
            cost: 28.0,
        },
        Work::ReplaceCompressor => Job {
            places: &[Place::OutdoorUnit],
            panel: Some(OutdoorElectrical),
            dead: Dead::OutdoorUnit,
            minutes: 240.0,
            cost: 1150.0,
        },
    })
}

/// What the own move of a piece of work is called, for those that have no job.
pub(crate) fn own_move(work: Work) -> &'static str {
    match work {
        Work::ReplaceFilter => "ReplaceFilter",
        Work::StrapAndInsulateBulb => "InsulateBulb",
        Work::ReplaceMeteringDevice => "ReplaceMeteringDevice",
        Work::RepairLeak(_) => "RepairLeak",
        _ => "Repair",
    }
}

/// The capacitor that a piece of work takes out.
fn capacitor_of(work: Work) -> Option<Capacitor> {
    match work {
        Work::ReplaceBlowerCapacitor => Some(Capacitor::Blower),
        Work::ReplaceFanCapacitor => Some(Capacitor::OutdoorFan),
        Work::ReplaceCompressorCapacitor => Some(Capacitor::Compressor),
        _ => None,
    }
}

impl Visit {
    /// Jobs at a place, of parts that this system has.
    pub(crate) fn jobs_at(&self, place: Place) -> Vec<Work> {
        Work::PARTS
            .into_iter()
            .filter(|work| job(*work).is_some_and(|job| job.places.contains(&place)))
            .filter(|work| self.part_is_missing(*work).is_none())
            .collect()
    }

    /// The refusal if this system has no such part.
    pub(crate) fn part_is_missing(&self, work: Work) -> Option<Refusal> {
        match (work, self.plant.blower_kind()) {
            (Work::ReplaceBlowerCapacitor, BlowerKind::Ecm) => Some(Refusal::EcmHasNoRunCapacitor),
            (Work::ReplaceBlowerModule, BlowerKind::Psc) => Some(Refusal::PscHasNoModule),
            (Work::ReconnectBlowerCommand, BlowerKind::Psc) => Some(Refusal::PscHasNoHarness),
            _ => None,
        }
    }

    /// Whether what must be dead for a job is dead.
    fn is_dead(&self, dead: Dead) -> bool {
        match dead {
            Dead::AirHandler => self.inputs.indoor_service_switch == Switch::Open,
            Dead::OutdoorUnit | Dead::OutdoorForCircuit => self.inputs.outdoor_disconnect == Switch::Open,
            Dead::Nothing | Dead::BlowerStands | Dead::AtProbes => true,
        }
    }
}
