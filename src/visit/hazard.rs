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

const CIRCUIT_WORK: &str = "Recover first: what is left escapes (40 CFR 82 subpart F). Disconnect out and locked. A brazing flame \
     beside refrigerant makes poisonous gas; flow nitrogen, keep a fire watch. Pressure-test with nitrogen through a \
     regulator, never oxygen. The equipment maker's instructions and local codes decide.";

/// Safety text for a move, to be shown where the move is.
pub fn caution(action: &Move) -> Option<&'static str> {
    Some(match action {
        Move::OutdoorDisconnect(_) => {
            "Line voltage. Stand to the side, switch with dry hands, and prove the load side dead with a meter."
        }
        Move::IndoorServiceSwitch(_) => {
            "Line voltage at the air handler. Prove it dead with a meter before you reach in."
        }
        Move::OpenPanel(Panel::OutdoorElectrical) => {
            "Line voltage behind this panel, and a capacitor that holds its charge with the power off: pull the \
             disconnect, lock it, and discharge the capacitor through a resistor before you touch."
        }
        Move::OpenPanel(Panel::BlowerCompartment) | Move::WatchBlower | Move::Look(Place::Blower) => {
            "Rotating wheel and a motor capacitor. Keep hands, sleeves and tools out while it can start."
        }
        Move::OpenPanel(Panel::CoilCabinet) => {
            "Sharp fins and sheet metal; never chip ice off a coil, the tubes are thin."
        }
        Move::MeasureResistance { from, to } if from.is_ecm_phase() || to.is_ecm_phase() => {
            "Power off, locked and proved dead. The capacitors of the blower's module hold some 340 V: wait five minutes \
             before you pull the plug, or it arcs."
        }
        Move::MeasureResistance { .. } => {
            "Power off, locked and proved dead, capacitors discharged: on voltage the meter's fuse blows."
        }
        Move::MeasureCapacitance { .. } => {
            "Power off, locked and proved dead; discharge the capacitor through a resistor and take its leads off first."
        }
        Move::ClampCurrent(_) => {
            "Live wires beside the clamp, and fans that turn: one conductor, one hand, nothing loose."
        }
        Move::MeasureVoltage { .. } => {
            "Line voltage may be present. Use a meter and leads rated for it, one hand, no jewellery; a capacitor \
             holds its charge after the power is off."
        }
        Move::ConnectGauges | Move::DisconnectGauges => {
            "Refrigerant under pressure. Wear eye protection and gloves: liquid burns by frost. Low-loss hoses \
             keep the loss small; venting is not allowed (40 CFR 82 subpart F)."
        }
        Move::PressurizeWithNitrogen(_) | Move::PurgeWithNitrogen | Move::StandingTest(_) => {
            "Nitrogen stands at 2200 psi in its cylinder: always through a regulator, with a relief device behind it, \
             never above the low side's test pressure on the data plate. Never oxygen: with oil it explodes. Let it \
             off slowly; in a closed room it takes the air away."
        }
        Move::VentNitrogen => {
            "Let it off slowly and away from your face; air the room: nitrogen takes the air away."
        }
        Move::MakeAreaSafe(_) => {
            "Class A2L burns above its lower flammability limit. Flames, pilot lights, sparks and hot surfaces out; a \
             detector and tools rated for A2L; a dry-powder extinguisher at hand."
        }
        Move::ChangeCylinder(_) => {
            "Carry cylinders upright with the cap on; keep them below 125 °F (52 °C). Cylinders of flammable \
             refrigerant have a left-hand thread and a red band, and stay away from flames."
        }
        Move::RemoveRefrigerant(_) | Move::RecoverTo(_) | Move::Recover => {
            "Certified handling only; recover into a rated cylinder, not over 80 % full. No venting (40 CFR 82 \
             subpart F). Eye and hand protection."
        }
        Move::RepairLeak(_) | Move::ReplaceMeteringDevice => CIRCUIT_WORK,
        Move::Mend(work) => return mending(*work),
        Move::DischargeCapacitor(_) => {
            "Power off, locked and proved dead first. Through a resistor, never with a screwdriver; then measure that \
             nothing is left."
        }
        Move::Evacuate | Move::EvacuateTo { .. } | Move::DecayTest(_) => {
            "Never run the compressor in a vacuum: its windings arc. Keep the disconnect out."
        }
        Move::WeighIn(_) | Move::AddRefrigerant(_) | Move::AddVapor(_) | Move::ChargeTo { .. } => {
            "Refrigerant under pressure: eye and hand protection, frostbite. Certified handling, by weight, as the \
             data plate and the equipment maker's instructions say. Blends leave the cylinder as liquid only. A \
             flammable refrigerant (A2L) comes with a left-hand thread: no flame, tools rated for it."
        }
        Move::WarmBulb | Move::ChillBulb | Move::PutBulbBack | Move::InsulateBulb => {
            "The blower and the line can move and are cold; don't kink the capillary."
        }
        Move::SearchLeak(..) => "Eye protection; keep the probe and your hands out of the fan and blower.",
        Move::ReadPipe(crate::moves::PipePoint::Discharge) => {
            "The discharge line burns skin. Clamp it by the handles."
        }
        _ => return None,
    })
}

fn mending(work: Work) -> Option<&'static str> {
    if work.opens_circuit() {
        return Some(CIRCUIT_WORK);
    }
    if capacitor_of(work).is_some() {
        return Some(
            "Power off, locked and proved dead; then discharge the capacitor through a resistor before you touch it. \
             Fit the same rating.",
        );
    }
    match (work, job(work)?.power) {
        (Work::CleanCoil | Work::CleanCondenser, _) => Some(
            "Power off and locked. Coil cleaner burns eyes and skin: goggles and gloves. Fins are sharp; keep water off \
             motors and wiring.",
        ),
        (_, Power::OutdoorOff) => Some(
            "Pull the disconnect, lock it, and prove the unit dead with a meter. A capacitor holds its charge with the \
             power off.",
        ),
        (_, Power::IndoorOff) => {
            Some("Switch the air handler off and prove it dead with a meter. The wheel must stand.")
        }
        (Work::RestoreReturnDuct, _) => {
            Some("Watch your step and your head under the roof; wear a mask against old insulation.")
        }
        (Work::ReplaceThermostat | Work::RepairConductor, _) => {
            Some("24 V: a slip from R to C blows the low-voltage fuse. Switch the air handler off.")
        }
        (_, Power::Any) => None,
    }
}
