//! Waiting, declaring, leaving.

use call::{Duration, Milestone};
use plant::{Mode, Switch};

use super::row::never;
use super::{At, Dead, Effect, End, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::limits::Value;
use crate::note::Note;
use crate::note::SiteNote;
use crate::place::{Location, Panel};
use crate::refusal::Refusal;
use crate::site::{Circuit, Gauges};
use crate::timing::clean_wait_s;
use crate::visit::{Step, Task, Visit, act, pass};

fn remember_ice(visit: &mut Visit, task: &mut Task) {
    task.memo.frost_before_kg = visit.truth().frost_mass_kg;
}

fn after_wait(visit: &mut Visit, task: &mut Task) {
    if visit.truth().frost_mass_kg < task.memo.frost_before_kg - 0.02 {
        task.note(SiteNote::WaterRuns);
    }
}

fn declare(visit: &mut Visit, task: &mut Task) {
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

/// Time passes.
pub(super) fn wait(span: Duration) -> Row {
    Row {
        at: At::Anywhere,
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: vec![Value::wait(span, Refusal::WaitOutOfRange)],
        takes_s: clean_wait_s(span),
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |_, action| vec![act(remember_ice), pass(action.takes_s()), act(after_wait)],
        end: End::AnyTime(|_, took| Move::Wait(took)),
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: Effect::Waits,
    }
}

/// A cause is named.
pub(super) fn declare_row() -> Row {
    Row {
        at: At::Anywhere,
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 120.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(declare)],
        end: End::Own,
        reaches: Reaches::Done(Milestone::CauseDeclared),
        circuit: OnCircuit::Untouched,
        effect: Effect::Talks,
    }
}

/// The customer signs.
pub(super) fn close_ticket() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 300.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |visit, _| pack_up(visit),
        end: End::Own,
        reaches: Reaches::Done(Milestone::TicketClosed),
        circuit: OnCircuit::Untouched,
        effect: Effect::Leaves,
    }
}

/// Hoses come off and panels go on before the technician leaves.
fn pack_up(visit: &Visit) -> Vec<Step> {
    let mut steps = Vec::new();
    if visit.site.gauges == Gauges::On {
        steps.push(pass(Move::DisconnectGauges.takes_s()));
        steps.push(act(super::measure::disconnect));
    }
    for panel in &visit.site.open_panels {
        steps.push(pass(Move::ClosePanel(*panel).takes_s()));
        steps.push(act(match panel {
            Panel::BlowerCompartment => |visit, task| put_on(visit, task, Panel::BlowerCompartment),
            Panel::CoilCabinet => |visit, task| put_on(visit, task, Panel::CoilCabinet),
            Panel::OutdoorElectrical => |visit, task| put_on(visit, task, Panel::OutdoorElectrical),
        }));
    }
    steps.push(pass(Move::CloseTicket.takes_s()));
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
