//! Attaching instruments and reading them.

use call::Milestone;
use plant::Terminal;

use super::row::{TELLS, TELLS_OF_AIR, never};
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::Caution;
use crate::measured::{Measured, Trust};
use crate::note::GaugeNote;
use crate::notebook::Outcome;
use crate::place::{AirPoint, Bulb, Location, Panel, PipePoint, StaticTap};
use crate::refusal::Refusal;
use crate::site::Gauges;
use crate::site_map::{probes_location, terminal_location};
use crate::timing::GLANCE_S;
use crate::visit::{Step, Task, Visit, act, pass};

/// Volts between two terminals.
pub(super) fn voltage(from: Terminal, to: Terminal) -> Row {
    let indoors = [from, to].iter().all(|end| terminal_location(*end) == Some(Location::Indoors));
    Row {
        at: probes_location(from, to).map_or(At::Anywhere, At::Side),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution: Some(Caution::Voltage),
        lacks: super::meter::lacks_terminals,
        refusal: |visit, action| {
            let Move::MeasureVoltage { from, to } = action else { return None };
            super::meter::refusal_of_probes(visit, action).or_else(|| {
                let at_plug = from.is_ecm_phase() || to.is_ecm_phase();
                at_plug.then_some(Refusal::NoVoltageAtMotorPlug)
            })
        },
        plan: put_on_and_read,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: if indoors { TELLS_OF_AIR } else { TELLS },
    }
}

/// The hoses go on.
pub(super) fn connect_gauges() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 240.0,
        price: 0.0,
        caution: Some(Caution::Gauges),
        lacks: never,
        refusal: |visit, _| (visit.site.gauges == Gauges::On).then_some(Refusal::HosesOnAlready),
        plan: |_, action| {
            vec![pass(action.takes_s() - GLANCE_S), act(connect), pass(GLANCE_S), act(compare_at_rest)]
        },
        end: End::Own,
        reaches: Reaches::Done(Milestone::GaugesConnected),
        circuit: OnCircuit::Handles,
        effect: Effect::Serves,
    }
}

/// The hoses come off.
pub(super) fn disconnect_gauges() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 180.0,
        price: 0.0,
        caution: Some(Caution::Gauges),
        lacks: never,
        refusal: |visit, _| (visit.site.gauges == Gauges::Off).then_some(Refusal::NoHosesOn),
        plan: |_, action| vec![pass(action.takes_s()), act(disconnect)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Handles,
        effect: Effect::Serves,
    }
}

/// A gauge.
pub(super) fn read_gauge() -> Row {
    Row {
        at: At::Anywhere,
        panel: None,
        hoses: Some(Refusal::NoGauges),
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: GLANCE_S,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: put_on_and_read,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS,
    }
}

/// A clamp on a pipe.
pub(super) fn read_pipe(point: PipePoint) -> Row {
    let panel = match point.location() {
        Location::Indoors => Some((Panel::CoilCabinet, Refusal::BehindPanel(Panel::CoilCabinet))),
        Location::Outdoors => None,
    };
    let caution = (point == PipePoint::Discharge).then_some(Caution::DischargeLine);
    Row {
        at: At::Instrument { location: point.location(), quantity: Measured::PipeTemperature(point) },
        panel,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 90.0,
        price: 0.0,
        caution,
        lacks: |visit, action| {
            let lacks = *action == Move::ReadPipe(PipePoint::SensingBulb) && !visit.has_bulb();
            lacks.then_some(Refusal::NoBulb)
        },
        refusal: never,
        plan: put_on_and_read,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS,
    }
}

/// A probe in the air.
pub(super) fn read_air(point: AirPoint, bulb: Bulb) -> Row {
    Row {
        at: At::Instrument { location: point.location(), quantity: Measured::AirTemperature(point, bulb) },
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: match bulb {
            Bulb::Dry => 90.0,
            Bulb::Wet => 150.0,
        },
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: put_on_and_read,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS,
    }
}

/// The static pressure of the air between two taps. A panel that is off lets air in beside the way that is measured.
pub(super) fn static_pressure() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 150.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: |visit, action| match action {
            Move::MeasureStatic { high, low } if high == low => Some(Refusal::SameTap),
            _ => [Panel::CoilCabinet, Panel::BlowerCompartment]
                .into_iter()
                .find(|panel| visit.site.is_open(*panel))
                .map(Refusal::PanelOffSpoilsStatic),
        },
        plan: |_, action| vec![pass(action.takes_s()), act(read_static)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS_OF_AIR,
    }
}

fn read_static(visit: &mut Visit, task: &mut Task) {
    read(visit, task);
    if let Move::MeasureStatic { high, low } = task.action
        && (high, low) == StaticTap::EXTERNAL
    {
        let most_static_pa = visit.plant.system().most_external_static_pa();
        task.note(GaugeNote::PlateAllowsStatic { most_static_pa });
    }
}

fn put_on_and_read(visit: &Visit, action: &Move) -> Vec<Step> {
    let in_place = quantity(action).is_some_and(|quantity| visit.is_attached(quantity));
    if in_place {
        return vec![pass(GLANCE_S), act(read)];
    }
    // A fifth of the time to put the instrument on, the rest for it to settle.
    vec![pass(action.takes_s() * 0.2), act(attach), pass(action.takes_s() * 0.8), act(read)]
}

fn quantity(action: &Move) -> Option<Measured> {
    Some(match action {
        Move::ReadGauge(port) => Measured::GaugePressure(*port),
        Move::ReadPipe(point) => Measured::PipeTemperature(*point),
        Move::ReadAir(point, bulb) => Measured::AirTemperature(*point, *bulb),
        Move::MeasureVoltage { from, to } => Measured::Voltage(*from, *to),
        Move::MeasureStatic { high, low } => Measured::StaticPressure(*high, *low),
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
    if matches!(quantity, Measured::AirTemperature(crate::place::AirPoint::Supply, Bulb::Dry))
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
