//! Thermostat, switches, panels.

use call::{Milestone, Temperature};
use plant::{Mode, Switch, ThermostatSettings};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::hazard::{Caution, Hazard};
use crate::limits::Value;
use crate::note::SiteNote;
use crate::place::{Location, Panel};
use crate::refusal::Refusal;
use crate::visit::{Step, Task, Visit, act, pass};

/// Time for a contactor to fall and the motors to run down before the stop counts as seen, s.
const RUN_DOWN_S: f64 = 15.0;

/// The thermostat.
pub(super) fn set_thermostat(set_point: Temperature) -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: vec![Value::set_point(set_point)],
        takes_s: 30.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan,
        end: End::Own,
        reaches: Reaches::Done(Milestone::ThermostatRead),
        circuit: OnCircuit::Untouched,
        effect: Effect::Sets,
    }
}

/// The disconnect of the outdoor unit.
pub(super) fn outdoor_disconnect() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 30.0,
        price: 0.0,
        caution: Some(Caution::OutdoorDisconnect),
        lacks: never,
        refusal: |visit, action| match action {
            Move::OutdoorDisconnect(to) if *to == visit.inputs.outdoor_disconnect => Some(match to {
                Switch::Open => Refusal::DisconnectOutAlready,
                Switch::Closed => Refusal::DisconnectInAlready,
            }),
            _ => None,
        },
        plan,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Switches,
    }
}

/// The service switch of the air handler.
pub(super) fn indoor_service_switch() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 30.0,
        price: 0.0,
        caution: Some(Caution::IndoorServiceSwitch),
        lacks: never,
        refusal: |visit, action| match action {
            Move::IndoorServiceSwitch(to) if *to == visit.inputs.indoor_service_switch => Some(match to {
                Switch::Open => Refusal::AirHandlerOffAlready,
                Switch::Closed => Refusal::AirHandlerOnAlready,
            }),
            _ => None,
        },
        plan,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Switches,
    }
}

/// A panel comes off.
pub(super) fn open_panel(panel: Panel) -> Row {
    let caution = match panel {
        Panel::OutdoorElectrical => Caution::OutdoorPanel,
        Panel::BlowerCompartment => Caution::BlowerCompartment,
        Panel::CoilCabinet => Caution::CoilCabinet,
    };
    Row {
        at: At::Side(panel.location()),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 120.0,
        price: 0.0,
        caution: Some(caution),
        lacks: never,
        refusal: |visit, action| match action {
            Move::OpenPanel(panel) if visit.site.is_open(*panel) => Some(Refusal::PanelOpenAlready(*panel)),
            _ => None,
        },
        plan,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Prepares,
    }
}

/// A panel goes back on.
pub(super) fn close_panel(panel: Panel) -> Row {
    Row {
        at: At::Side(panel.location()),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 120.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: |visit, action| match action {
            Move::ClosePanel(panel) if !visit.site.is_open(*panel) => {
                Some(Refusal::PanelClosedAlready(*panel))
            }
            _ => None,
        },
        plan,
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Prepares,
    }
}

fn plan(_: &Visit, action: &Move) -> Vec<Step> {
    let half_s = (action.takes_s() / 2.0).max(RUN_DOWN_S);
    vec![pass(half_s), act(set), pass(half_s), act(look_at_it)]
}

fn set(visit: &mut Visit, task: &mut Task) {
    match &task.action {
        Move::SetThermostat { mode, fan, set_point } => visit.set_thermostat(ThermostatSettings {
            mode: *mode,
            fan: *fan,
            set_point_k: set_point.kelvin(),
        }),
        Move::OutdoorDisconnect(switch) => visit.inputs.outdoor_disconnect = *switch,
        Move::IndoorServiceSwitch(switch) => visit.inputs.indoor_service_switch = *switch,
        Move::OpenPanel(panel) => {
            visit.site.open_panels.insert(*panel);
            if *panel == Panel::OutdoorElectrical && visit.inputs.outdoor_disconnect == Switch::Closed {
                task.hazards.push(Hazard::LivePanelOpened);
                task.note(SiteNote::LivePanel);
            }
        }
        Move::ClosePanel(panel) => {
            visit.site.open_panels.remove(panel);
        }
        _ => {}
    }
}

fn look_at_it(visit: &mut Visit, task: &mut Task) {
    match task.action.clone() {
        Move::SetThermostat { mode, set_point, .. } => {
            let wall_k = visit.truth().room_k;
            task.note(match mode {
                Mode::Off => SiteNote::ThermostatOff { wall_k },
                Mode::Cool => SiteNote::ThermostatCool { set_point_k: set_point.kelvin(), wall_k },
            });
            if mode == Mode::Off {
                stopped(visit, task);
            }
        }
        Move::OutdoorDisconnect(Switch::Open) => {
            task.note(SiteNote::DisconnectOut);
            stopped(visit, task);
        }
        Move::OutdoorDisconnect(Switch::Closed) => task.note(SiteNote::DisconnectIn),
        Move::IndoorServiceSwitch(Switch::Open) => {
            task.note(SiteNote::AirHandlerDead);
            stopped(visit, task);
        }
        Move::IndoorServiceSwitch(Switch::Closed) => task.note(SiteNote::AirHandlerPowered),
        _ => {}
    }
}

/// A stop counts as one when the compressor really stands: welded contacts let it run on.
fn stopped(visit: &mut Visit, task: &mut Task) {
    if visit.compressor_runs() {
        task.note(SiteNote::RunsOn);
    } else {
        task.reached.push(Milestone::CompressorStopped);
    }
}
