//! Thermostat, switches, panels.

use call::Milestone;
use plant::{Mode, Switch, ThermostatSettings};

use super::{Step, Task, act, pass};
use crate::hazard::Hazard;
use crate::label::temperature;
use crate::moves::{Move, Panel};
use crate::timing::base_s;
use crate::visit::Visit;

/// Time for a contactor to fall and the motors to run down before the stop counts as seen, s.
const RUN_DOWN_S: f64 = 15.0;

pub(super) fn plan(action: &Move) -> Vec<Step> {
    let half_s = (base_s(action) / 2.0).max(RUN_DOWN_S);
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
                task.note(
                    "The disconnect is in: 240 V stand bare in front of you. For work here, pull it first.",
                );
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
            let room_f = media::units::fahrenheit_from_kelvin(visit.truth().room_k);
            task.note(match mode {
                Mode::Off => format!("The thermostat is off; it reads {room_f:.0} °F in the room."),
                Mode::Cool => format!(
                    "The thermostat is on cool at {}; it reads {room_f:.0} °F in the room.",
                    temperature(set_point)
                ),
            });
            if mode == Mode::Off {
                stopped(visit, task);
            }
        }
        Move::OutdoorDisconnect(Switch::Open) => {
            task.note("The disconnect is out; the outdoor unit is dead behind it.");
            stopped(visit, task);
        }
        Move::OutdoorDisconnect(Switch::Closed) => task.note("The disconnect is in."),
        Move::IndoorServiceSwitch(Switch::Open) => {
            task.note("The air handler is dead, and with it the 24 V that holds the contactor in.");
            stopped(visit, task);
        }
        Move::IndoorServiceSwitch(Switch::Closed) => task.note("The air handler has power."),
        _ => {}
    }
}

/// A stop counts as one when the compressor really stands: welded contacts let it run on.
fn stopped(visit: &mut Visit, task: &mut Task) {
    if visit.compressor_runs() {
        task.note("You hear the outdoor unit run on all the same.");
    } else {
        task.reached.push(Milestone::CompressorStopped);
    }
}
