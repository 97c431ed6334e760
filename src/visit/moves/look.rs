//! Looking, asking, reading plates.

use call::Milestone;
use plant::Metering;

use super::row::{TELLS, TELLS_AT_REST, TELLS_OF_AIR, never};
use super::{At, Dead, Effect, End, Kept, OnCircuit, Reaches, Row};
use crate::action::Move;
use crate::cycle::Signal;
use crate::hazard::Caution;
use crate::note::PlateNote;
use crate::place::{Location, Panel, Place};
use crate::refusal::Refusal;
use crate::visit::{Task, Visit, act, pass};

/// A look, a listen and a touch at a place.
pub(super) fn look(place: Place) -> Row {
    let panel = match place {
        Place::MeteringDevice => Some((Panel::CoilCabinet, Refusal::CabinetHidesMeteringDevice)),
        Place::ControlBoard => Some((Panel::BlowerCompartment, Refusal::PanelHidesTerminalStrip)),
        Place::Thermostat
        | Place::ReturnGrille
        | Place::SupplyRegister
        | Place::FilterSlot
        | Place::Blower
        | Place::IndoorCoil
        | Place::LineSet
        | Place::Drier
        | Place::OutdoorUnit
        | Place::OutdoorDisconnect => None,
    };
    let (caution, reaches) = match place {
        Place::Blower => (Some(Caution::BlowerCompartment), Reaches::Nothing),
        // Where no ice is left, the look is the one that says so.
        Place::IndoorCoil => (None, Reaches::IfWell(Milestone::CoilThawed)),
        Place::Thermostat => (None, Reaches::Done(Milestone::ThermostatRead)),
        Place::ReturnGrille
        | Place::SupplyRegister
        | Place::FilterSlot
        | Place::MeteringDevice
        | Place::LineSet
        | Place::Drier
        | Place::ControlBoard
        | Place::OutdoorUnit
        | Place::OutdoorDisconnect => (None, Reaches::Nothing),
    };
    let effect = match place {
        Place::FilterSlot => TELLS_AT_REST,
        Place::LineSet | Place::MeteringDevice => Effect::Tells { hangs_on: &Signal::ALL, kept: Kept::Stays },
        Place::ReturnGrille | Place::SupplyRegister | Place::Blower => TELLS_OF_AIR,
        Place::Thermostat
        | Place::IndoorCoil
        | Place::Drier
        | Place::ControlBoard
        | Place::OutdoorUnit
        | Place::OutdoorDisconnect => TELLS,
    };
    Row {
        at: At::Side(place.location()),
        panel,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution,
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(see)],
        end: End::Own,
        reaches,
        circuit: OnCircuit::Untouched,
        effect,
    }
}

/// The blower wheel itself.
pub(super) fn watch_blower() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: Some((Panel::BlowerCompartment, Refusal::PanelHidesWheel)),
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution: Some(Caution::BlowerCompartment),
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(see)],
        end: End::Own,
        reaches: Reaches::Nothing,
        circuit: OnCircuit::Untouched,
        effect: TELLS_OF_AIR,
    }
}

/// A question to the customer.
pub(super) fn ask() -> Row {
    Row {
        at: At::Side(Location::Indoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(answer)],
        end: End::Own,
        reaches: Reaches::Done(Milestone::CustomerAsked),
        circuit: OnCircuit::Untouched,
        effect: Effect::Talks,
    }
}

/// The data plate of the outdoor unit.
pub(super) fn read_data_plate() -> Row {
    Row {
        at: At::Side(Location::Outdoors),
        panel: None,
        hoses: None,
        dead: Dead::Nothing,
        values: Vec::new(),
        takes_s: 60.0,
        price: 0.0,
        caution: None,
        lacks: never,
        refusal: never,
        plan: |_, action| vec![pass(action.takes_s()), act(read_plate)],
        end: End::Own,
        reaches: Reaches::Done(Milestone::DataPlateRead),
        circuit: OnCircuit::Untouched,
        effect: Effect::Talks,
    }
}

fn see(visit: &mut Visit, task: &mut Task) {
    visit.look(task);
    if task.reached.contains(&Milestone::CoilThawed) {
        visit.site.coil_seen_clear = true;
    }
}

fn answer(_: &mut Visit, task: &mut Task) {
    let Move::Ask(question) = task.action else { return };
    task.note(question);
}

fn read_plate(visit: &mut Visit, task: &mut Task) {
    let system = visit.plant.system();
    task.note(PlateNote::Charge { refrigerant: system.refrigerant, charge_kg: system.plate_charge_kg });
    let plate = system.data_plate();
    task.note(PlateNote::Line { line_length_m: plate.line_length_m, adder_kg_m: plate.charge_adder_kg_m });
    task.note(match system.metering {
        Metering::Txv { .. } => {
            PlateNote::ExpansionValve { subcooling_difference_k: system.plate_subcooling_k }
        }
        Metering::Orifice { .. } => PlateNote::Orifice,
    });
    task.note(PlateNote::HighPressureSwitch {
        opens_gauge_pa: media::units::gauge_pa_from_absolute_pa(
            system.controls.high_pressure_opens_pa,
            media::units::STANDARD_ATMOSPHERE_PA,
        ),
    });
}
