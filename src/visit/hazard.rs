//! Safety: cautions that stand where the move is, and unsafe ways of doing things that were seen.

use plant::Work;
use serde::{Deserialize, Serialize};

use crate::mend::{Power, capacitor_of, job};
use crate::moves::{Move, Panel, Place};

/// Something done in an unsafe way. Kept beside the notebook so that marks need not read sentences.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Hazard {
    /// The refrigerant circuit was worked on with the disconnect in.
    CircuitWorkWithPowerOn,
    /// The circuit was opened with refrigerant in it, which escaped.
    RefrigerantVented,
    /// The outdoor electrical panel was opened with the disconnect in.
    LivePanelOpened,
    /// Wiring, a motor or a fan was worked on with its power on.
    WiringWorkWithPowerOn,
    /// A capacitor was handled before its charge was drawn off.
    ChargedCapacitorTouched,
    /// Ohms or microfarads were measured with voltage between the probes; the meter's fuse blew.
    MeterOnLiveCircuit,
    /// The compressor ran under vacuum or on an open circuit.
    CompressorRunOnOpenCircuit,
    /// Nitrogen was put on above the low side's design pressure.
    TestedAboveDesignPressure,
    /// A flammable refrigerant was handled where nobody had looked for flames, aired the place and checked the air.
    FlammableGasNearIgnition,
    /// A flame was held to a circuit that still held a mixture that can burn.
    FlameOnFlammableGas,
}

/// What is to be minded where the move is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Caution {
    /// Opening the circuit.
    CircuitWork,
    /// The outdoor disconnect.
    OutdoorDisconnect,
    /// The service switch of the air handler.
    IndoorServiceSwitch,
    /// Behind the electrical panel of the outdoor unit.
    OutdoorPanel,
    /// Beside the blower wheel.
    BlowerCompartment,
    /// Beside the coil.
    CoilCabinet,
    /// Ohms at the motor of an ECM.
    EcmResistance,
    /// Ohms.
    Resistance,
    /// Microfarads.
    Capacitance,
    /// A clamp among live wires.
    ClampCurrent,
    /// Volts.
    Voltage,
    /// Hoses on and off.
    Gauges,
    /// Nitrogen from its cylinder.
    Nitrogen,
    /// Bleeding nitrogen off.
    BleedNitrogen,
    /// Refrigerant that burns.
    FlammableRefrigerant,
    /// Carrying cylinders.
    Cylinders,
    /// Recovery.
    Recovery,
    /// Discharging a capacitor.
    DischargeCapacitor,
    /// A circuit under vacuum.
    Evacuation,
    /// Refrigerant from its cylinder.
    Charging,
    /// At the sensing bulb.
    SensingBulb,
    /// Searching for a leak.
    LeakSearch,
    /// The discharge line.
    DischargeLine,
    /// A capacitor replaced.
    ReplaceCapacitor,
    /// Washing a coil.
    CoilCleaner,
    /// Work inside the outdoor unit.
    OutdoorWork,
    /// Work inside the air handler.
    IndoorWork,
    /// Work in the attic.
    Attic,
    /// Work on the 24 V wiring.
    LowVoltage,
}

/// The caution of a move, to be shown where the move is.
pub fn caution(action: &Move) -> Option<Caution> {
    Some(match action {
        Move::OutdoorDisconnect(_) => Caution::OutdoorDisconnect,
        Move::IndoorServiceSwitch(_) => Caution::IndoorServiceSwitch,
        Move::OpenPanel(Panel::OutdoorElectrical) => Caution::OutdoorPanel,
        Move::OpenPanel(Panel::BlowerCompartment) | Move::WatchBlower | Move::Look(Place::Blower) => {
            Caution::BlowerCompartment
        }
        Move::OpenPanel(Panel::CoilCabinet) => Caution::CoilCabinet,
        Move::MeasureResistance { from, to } if from.is_ecm_phase() || to.is_ecm_phase() => {
            Caution::EcmResistance
        }
        Move::MeasureResistance { .. } => Caution::Resistance,
        Move::MeasureCapacitance { .. } => Caution::Capacitance,
        Move::ClampCurrent(_) => Caution::ClampCurrent,
        Move::MeasureVoltage { .. } => Caution::Voltage,
        Move::ConnectGauges | Move::DisconnectGauges => Caution::Gauges,
        Move::PressurizeWithNitrogen(_) | Move::PurgeWithNitrogen | Move::StandingTest(_) => {
            Caution::Nitrogen
        }
        Move::VentNitrogen => Caution::BleedNitrogen,
        Move::MakeAreaSafe(_) => Caution::FlammableRefrigerant,
        Move::ChangeCylinder(_) => Caution::Cylinders,
        Move::RemoveRefrigerant(_) | Move::RecoverTo(_) | Move::Recover => Caution::Recovery,
        Move::RepairLeak(_) | Move::ReplaceMeteringDevice => Caution::CircuitWork,
        Move::Mend(work) => return mending(*work),
        Move::DischargeCapacitor(_) => Caution::DischargeCapacitor,
        Move::Evacuate | Move::EvacuateTo { .. } | Move::DecayTest(_) => Caution::Evacuation,
        Move::WeighIn(_) | Move::AddRefrigerant(_) | Move::AddVapor(_) | Move::ChargeTo { .. } => {
            Caution::Charging
        }
        Move::WarmBulb | Move::ChillBulb | Move::PutBulbBack | Move::InsulateBulb => Caution::SensingBulb,
        Move::SearchLeak(..) => Caution::LeakSearch,
        Move::ReadPipe(crate::moves::PipePoint::Discharge) => Caution::DischargeLine,
        _ => return None,
    })
}

fn mending(work: Work) -> Option<Caution> {
    if work.opens_circuit() {
        return Some(Caution::CircuitWork);
    }
    if capacitor_of(work).is_some() {
        return Some(Caution::ReplaceCapacitor);
    }
    match (work, job(work)?.power) {
        (Work::CleanCoil | Work::CleanCondenser, _) => Some(Caution::CoilCleaner),
        (_, Power::OutdoorOff) => Some(Caution::OutdoorWork),
        (_, Power::IndoorOff) => Some(Caution::IndoorWork),
        (Work::RestoreReturnDuct, _) => Some(Caution::Attic),
        (Work::ReplaceThermostat | Work::RepairConductor, _) => Some(Caution::LowVoltage),
        (_, Power::Any) => None,
    }
}
