//! Attaching instruments and reading them.

use super::{Step, Task, act, pass};
use crate::moves::{Bulb, Move, PipePoint};
use crate::notebook::{Measured, Outcome, Trust};
use crate::site::Gauges;
use crate::timing::{GLANCE_S, base_s};
use crate::visit::Visit;

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
    task.note("Hoses on, the air purged out of them.");
}

fn compare_at_rest(visit: &mut Visit, task: &mut Task) {
    let truth = visit.truth();
    if !visit.compressor_runs() && (truth.suction_pressure_pa - truth.liquid_pressure_pa).abs() < 30.0e3 {
        task.note("The compressor stands; both gauges show nearly the same.");
    }
}

pub(super) fn disconnect(visit: &mut Visit, task: &mut Task) {
    let lost_kg = visit.plant.disconnect_hoses(plant::HoseEnds::LowLoss);
    let kept_kg = visit.plant.ledger().trapped_kg;
    visit.inputs.suction_port = plant::PortConnection::Capped;
    visit.inputs.liquid_port = plant::PortConnection::Capped;
    visit.site.gauges = Gauges::Off;
    visit.kit.disconnect_gauges();
    task.note(format!(
        "Hoses off, caps on; {:.2} oz is lost at the fittings, {:.2} oz stays shut in the hoses.",
        media::units::oz_from_kg(lost_kg),
        media::units::oz_from_kg(kept_kg)
    ));
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
        Trust::Unsettled => task.note("The display has not come to rest."),
        Trust::CompressorStopped => {
            task.note("The compressor stands; this says nothing about a running system.")
        }
        Trust::IceOnCoil => task.note(
            "There was ice on the coil when it was last seen; a reading of a frozen system says little.",
        ),
    }
    if quantity == Measured::PipeTemperature(PipePoint::Discharge) && reading.value > 380.0 {
        task.note("The discharge line is hot enough to burn.");
    }
    if matches!(quantity, Measured::AirTemperature(crate::moves::AirPoint::Supply, Bulb::Dry))
        && visit.truth().airflow_m3_s < 0.05
    {
        task.note("Hardly any air passes the probe.");
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
