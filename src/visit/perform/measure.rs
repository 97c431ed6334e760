//! Attaching instruments and reading them.

use super::{Step, Task, act, pass};
use crate::moves::{Bulb, Move, PipePoint};
use crate::notebook::{Measured, Outcome, Trust};
use crate::site::Gauges;
use crate::timing::{GLANCE_S, base_s};
use crate::visit::Visit;
use serde::{Deserialize, Serialize};

/// Of gauges, clamps and probes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum GaugeNote {
    /// The hoses are on and purged.
    HosesOn,
    /// At rest both gauges show nearly the same.
    BothTheSame,
    /// The hoses are off, the ports capped.
    HosesOff {
        /// Lost at the fittings, kg.
        lost_kg: f64,
        /// Shut in the hoses, kg.
        kept_kg: f64,
    },
    /// The display has not come to rest.
    NotAtRest,
    /// The compressor is off: nothing is said of a running system.
    CompressorOff,
    /// There was ice on the coil when it was last seen.
    IceWhenLastSeen,
    /// The discharge line is hot enough to burn.
    DischargeBurns,
    /// Hardly any air passes the probe.
    HardlyAnyAir,
}

pub(super) fn plan(visit: &Visit, action: &Move) -> Vec<Step> {
    let base_s = base_s(action);
    match action {
        Move::ConnectGauges => {
            vec![pass(base_s - GLANCE_S), act(connect), pass(GLANCE_S), act(compare_at_rest)]
        }
        Move::DisconnectGauges => vec![pass(base_s), act(disconnect)],
        _ => {
            let in_place = quantity(action).is_some_and(|quantity| visit.is_attached(quantity));
            if in_place {
                return vec![pass(GLANCE_S), act(read)];
            }
            // A fifth of the time to put the instrument on, the rest for it to settle.
            vec![pass(base_s * 0.2), act(attach), pass(base_s * 0.8), act(read)]
        }
    }
}

fn quantity(action: &Move) -> Option<Measured> {
    Some(match action {
        Move::ReadGauge(port) => Measured::GaugePressure(*port),
        Move::ReadPipe(point) => Measured::PipeTemperature(*point),
        Move::ReadAir(point, bulb) => Measured::AirTemperature(*point, *bulb),
        Move::MeasureVoltage { from, to } => Measured::Voltage(*from, *to),
        _ => return None,
    })
}

fn connect(visit: &mut Visit, task: &mut Task) {
    visit.gauges_on_ports();
    visit.site.gauges = Gauges::On;
    visit.kit.connect_gauges();
    task.note(GaugeNote::HosesOn);
}

fn compare_at_rest(visit: &mut Visit, task: &mut Task) {
    let truth = visit.truth();
    if !visit.compressor_runs() && (truth.suction_pressure_pa - truth.liquid_pressure_pa).abs() < 30.0e3 {
        task.note(GaugeNote::BothTheSame);
    }
}

pub(super) fn disconnect(visit: &mut Visit, task: &mut Task) {
    let lost_kg = visit.plant.disconnect_hoses(plant::HoseEnds::LowLoss);
    let kept_kg = visit.plant.ledger().trapped_kg;
    visit.inputs.suction_port = plant::PortConnection::Capped;
    visit.inputs.liquid_port = plant::PortConnection::Capped;
    visit.site.gauges = Gauges::Off;
    visit.kit.disconnect_gauges();
    task.note(GaugeNote::HosesOff { lost_kg, kept_kg });
}

fn attach(visit: &mut Visit, task: &mut Task) {
    match task.action {
        Move::ReadPipe(point) => {
            let [around_k, _] = visit.air_around_k(point.location());
            visit.kit.clamp(point, around_k);
        }
        Move::ReadAir(point, _) => {
            let around_k = visit.air_around_k(point.location());
            visit.kit.probe(point, around_k);
        }
        _ => {}
    }
}

fn read(visit: &mut Visit, task: &mut Task) {
    // A glance at an instrument in place counts as use of it, too.
    attach(visit, task);
    let Some(reading) = quantity(&task.action).and_then(|quantity| visit.read(quantity, task.number)) else {
        return;
    };
    let quantity = reading.quantity;
    match reading.shown {
        Trust::Sound => {}
        Trust::Unsettled => task.note(GaugeNote::NotAtRest),
        Trust::CompressorStopped => task.note(GaugeNote::CompressorOff),
        Trust::IceOnCoil => task.note(GaugeNote::IceWhenLastSeen),
    }
    if quantity == Measured::PipeTemperature(PipePoint::Discharge) && reading.value > 380.0 {
        task.note(GaugeNote::DischargeBurns);
    }
    if matches!(quantity, Measured::AirTemperature(crate::moves::AirPoint::Supply, Bulb::Dry))
        && visit.truth().airflow_m3_s < 0.05
    {
        task.note(GaugeNote::HardlyAnyAir);
    }
    task.outcome = Outcome::Read(reading);
}

impl Visit {
    /// Closed hoses on both ports.
    pub(super) fn gauges_on_ports(&mut self) {
        self.inputs.suction_port = plant::PortConnection::Gauge;
        self.inputs.liquid_port = plant::PortConnection::Gauge;
    }
}
