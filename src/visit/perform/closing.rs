//! Waiting, declaring, leaving.

use plant::{Mode, Switch};

use super::{SiteNote, Step, Task, act, pass};
use crate::moves::{Move, Panel};
use crate::note::Note;
use crate::site::{Circuit, Gauges};
use crate::timing::base_s;
use crate::visit::Visit;

pub(super) fn remember_ice(visit: &mut Visit, task: &mut Task) {
    task.memo.frost_before_kg = visit.truth().frost_mass_kg;
}

pub(super) fn after_wait(visit: &mut Visit, task: &mut Task) {
    if visit.truth().frost_mass_kg < task.memo.frost_before_kg - 0.02 {
        task.note(SiteNote::WaterRuns);
    }
}

pub(super) fn declare(visit: &mut Visit, task: &mut Task) {
    let Move::Declare(declaration) = &task.action else { return };
    let latest = task.number - 1;
    let unknown: Vec<u32> =
        declaration.evidence.iter().copied().filter(|number| *number == 0 || *number > latest).collect();
    let needs_place = declaration.cause.needs_place() && declaration.place.is_none();
    let mut notes = vec![SiteNote::CauseNamed { cause: declaration.cause }];
    notes.extend(unknown.into_iter().map(|entry| SiteNote::NoSuchEntry { entry }));
    if needs_place {
        notes.push(SiteNote::PlaceNotSaid);
    }
    if declaration.evidence.is_empty() {
        notes.push(SiteNote::NothingCited);
    }
    if visit.milestones.iter().any(|(milestone, _)| *milestone == call::Milestone::CauseDeclared) {
        notes.push(SiteNote::ReplacesEarlier);
    }
    task.notes.extend(notes.into_iter().map(Note::from));
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
    task.note(SiteNote::PanelBackOn(panel));
}

fn leave(visit: &mut Visit, task: &mut Task) {
    if visit.inputs.outdoor_disconnect == Switch::Open {
        task.note(SiteNote::LeftDisconnectOut);
    }
    if visit.inputs.indoor_service_switch == Switch::Open {
        task.note(SiteNote::LeftAirHandlerOff);
    }
    if visit.inputs.thermostat.mode == Mode::Off {
        task.note(SiteNote::LeftThermostatOff);
    }
    if visit.site.bulb.is_off_the_line() {
        task.note(SiteNote::LeftBulbOff);
    }
    if visit.site.circuit != Circuit::Charged {
        task.note(SiteNote::LeftWithoutCharge);
    }
    visit.kit.pack();
    visit.site.closed = true;
    task.note(SiteNote::TicketClosed);
}
