//! Waiting, declaring, leaving.

use plant::{Mode, Switch};

use super::{Step, Task, act, pass};
use crate::moves::{Move, Panel};
use crate::site::{Circuit, Gauges};
use crate::timing::base_s;
use crate::visit::Visit;

pub(super) fn remember_ice(visit: &mut Visit, task: &mut Task) {
    task.memo.frost_before_kg = visit.truth().frost_mass_kg;
}

pub(super) fn after_wait(visit: &mut Visit, task: &mut Task) {
    if visit.truth().frost_mass_kg < task.memo.frost_before_kg - 0.02 {
        task.note("You hear water run into the drain pan.");
    }
}

pub(super) fn declare(visit: &mut Visit, task: &mut Task) {
    let Move::Declare(declaration) = &task.action else { return };
    let latest = task.number - 1;
    let unknown: Vec<u32> =
        declaration.evidence.iter().copied().filter(|number| *number == 0 || *number > latest).collect();
    let needs_place = declaration.cause.needs_place() && declaration.place.is_none();
    let mut notes = vec![format!("You name the cause: {}.", declaration.cause.label())];
    for number in unknown {
        notes.push(format!("There is no entry {number} in the notebook."));
    }
    if needs_place {
        notes.push("You have not said where.".to_owned());
    }
    if declaration.evidence.is_empty() {
        notes.push("You cite no entry that supports it.".to_owned());
    }
    if visit.milestones.iter().any(|(milestone, _)| *milestone == call::Milestone::CauseDeclared) {
        notes.push("It replaces what you said before.".to_owned());
    }
    task.notes.extend(notes);
}

/// Hoses come off and panels go on before the technician leaves.
pub(super) fn plan(visit: &Visit) -> Vec<Step> {
    let mut steps = Vec::new();
    if visit.site.gauges == Gauges::On {
        steps.push(pass(base_s(&Move::DisconnectGauges)));
        steps.push(act(super::measure::disconnect));
    }
    for panel in &visit.site.open_panels {
        steps.push(pass(base_s(&Move::ClosePanel(*panel))));
        steps.push(act(match panel {
            Panel::BlowerCompartment => |visit, task| put_on(visit, task, Panel::BlowerCompartment),
            Panel::CoilCabinet => |visit, task| put_on(visit, task, Panel::CoilCabinet),
            Panel::OutdoorElectrical => |visit, task| put_on(visit, task, Panel::OutdoorElectrical),
        }));
    }
    steps.push(pass(base_s(&Move::CloseTicket)));
    steps.push(act(leave));
    steps
}

fn put_on(visit: &mut Visit, task: &mut Task, panel: Panel) {
    visit.site.open_panels.remove(&panel);
    task.note(format!("You put the {} back on.", panel.label()));
}

fn leave(visit: &mut Visit, task: &mut Task) {
    if visit.inputs.outdoor_disconnect == Switch::Open {
        task.note("You leave with the disconnect out.");
    }
    if visit.inputs.indoor_service_switch == Switch::Open {
        task.note("You leave with the air handler switched off.");
    }
    if visit.inputs.thermostat.mode == Mode::Off {
        task.note("You leave with the thermostat off.");
    }
    if visit.site.bulb.is_off_the_line() {
        task.note("You leave with the bulb off the line.");
    }
    if visit.site.circuit != Circuit::Charged {
        task.note("You leave with no charge in the circuit.");
    }
    visit.kit.pack();
    visit.site.closed = true;
    task.note("The customer signs; the ticket is closed.");
}
