//! Moves: what a learner can do. The window, the command line, replay and tests use these same values.
//!
//! A move is a variant of [`Move`] (action.rs), its line in [`Move::row`], and its row in the file of its family below this folder: where it is
//! made, what must be open and dead, its limits, minutes, price, caution, refusals and plan.

mod area;
mod bulb;
mod charge;
mod charge_to;
mod closing;
mod controls;
mod filter;
mod leak;
mod look;
mod measure;
mod meter;
mod nitrogen;
mod recovery;
mod repair;
mod row;
mod vacuum;
mod verify;

pub use row::{Dead, Effect, Kept, OnCircuit};

pub(crate) use repair::{job, own_move};
pub(crate) use row::{At, End, Reaches, Row};

use call::Duration;

use crate::action::Move;
use crate::hazard::Caution;

impl Move {
    /// Everything that is to be said of it.
    pub(crate) fn row(&self) -> Row {
        match self {
            Move::Look(place) => look::look(*place),
            Move::Ask(_) => look::ask(),
            Move::ReadDataPlate => look::read_data_plate(),
            Move::SetThermostat { set_point, .. } => controls::set_thermostat(*set_point),
            Move::OutdoorDisconnect(_) => controls::outdoor_disconnect(),
            Move::IndoorServiceSwitch(_) => controls::indoor_service_switch(),
            Move::OpenPanel(panel) => controls::open_panel(*panel),
            Move::ClosePanel(panel) => controls::close_panel(*panel),
            Move::InspectFilter => filter::inspect(),
            Move::ReplaceFilter => filter::replace(),
            Move::WatchBlower => look::watch_blower(),
            Move::MeasureVoltage { from, to } => measure::voltage(*from, *to),
            Move::MeasureResistance { from, to } => meter::resistance_row(*from, *to),
            Move::MeasureCapacitance { from, to } => meter::capacitance_row(*from, *to),
            Move::ClampCurrent(conductor) => meter::current_row(*conductor),
            Move::ConnectGauges => measure::connect_gauges(),
            Move::DisconnectGauges => measure::disconnect_gauges(),
            Move::ReadGauge(_) => measure::read_gauge(),
            Move::ReadPipe(point) => measure::read_pipe(*point),
            Move::ReadAir(point, bulb) => measure::read_air(*point, *bulb),
            Move::MeasureStatic { .. } => measure::static_pressure(),
            Move::WarmBulb => bulb::warm(),
            Move::ChillBulb => bulb::chill(),
            Move::PutBulbBack => bulb::put_back_row(),
            Move::InsulateBulb => bulb::insulate_row(),
            Move::SearchLeak(place, method) => leak::search_row(*place, *method),
            Move::RepairLeak(place) => leak::repair(*place),
            Move::ReplaceMeteringDevice => leak::replace_metering_device(),
            Move::Recover => recovery::recover(),
            Move::RecoverTo(depth) => recovery::recover_to(*depth),
            Move::RemoveRefrigerant(mass) => recovery::remove(*mass),
            Move::ChangeCylinder(_) => recovery::change_cylinder(),
            Move::PressurizeWithNitrogen(to) => nitrogen::pressurize(*to),
            Move::StandingTest(span) => nitrogen::standing_test(*span),
            Move::VentNitrogen => nitrogen::vent(),
            Move::PurgeWithNitrogen => nitrogen::purge(),
            Move::Repair(work) => repair::repair(*work),
            Move::DischargeCapacitor(capacitor) => repair::discharge_capacitor(*capacitor),
            Move::Evacuate => vacuum::evacuate(),
            Move::EvacuateTo { target, within } => vacuum::evacuate_to(*target, *within),
            Move::DecayTest(span) => vacuum::decay_test(*span),
            Move::WeighIn(mass) => charge::weigh_in(*mass),
            Move::AddRefrigerant(mass) => charge::add(*mass),
            Move::AddVapor(mass) => charge::add_vapor(*mass),
            Move::ChargeTo { target, at_most, within, .. } => charge_to::row(*target, *at_most, *within),
            Move::MakeAreaSafe(location) => area::make_safe(*location),
            Move::Wait(span) => closing::wait(*span),
            Move::Declare(_) => closing::declare_row(),
            Move::Verify => verify::row(),
            Move::CloseTicket => closing::close_ticket(),
        }
    }

    /// Whether its quantities are numbers. One that is not can't be written into a record that can be read again, so nobody makes such a move.
    pub fn is_finite(&self) -> bool {
        self.row().values.iter().all(|value| value.si.is_finite())
    }

    /// What it does to the system and the site.
    pub fn effect(&self) -> Effect {
        self.row().effect
    }

    /// What it does with the refrigerant circuit.
    pub fn on_circuit(&self) -> OnCircuit {
        self.row().circuit
    }

    /// What must be dead for it.
    pub fn dead(&self) -> Dead {
        self.row().dead
    }

    /// The milestone that it reaches if it is made and goes well; those that hang on what is read or seen are not among them.
    pub fn aims_at(&self) -> Option<call::Milestone> {
        match self.row().reaches {
            Reaches::Nothing => None,
            Reaches::Done(milestone) | Reaches::IfWell(milestone) => Some(milestone),
        }
    }

    /// Whether it puts refrigerant into a circuit that holds some.
    pub fn adds_refrigerant(&self) -> bool {
        self.on_circuit() == OnCircuit::Adds
    }

    /// Whether it opens the refrigerant circuit.
    pub fn opens_circuit(&self) -> bool {
        self.on_circuit() == OnCircuit::Opens
    }

    /// Whether it is a look or a measurement: one that changes nothing but the site.
    pub fn only_tells(&self) -> bool {
        matches!(self.effect(), Effect::Tells { .. })
    }

    /// Whether it holds the sensing bulb warm or cold to see whether the valve answers.
    pub fn tests_the_bulb(&self) -> bool {
        self.effect() == Effect::TestsBulb
    }

    /// Whether it can be ended before its time.
    pub fn can_be_stopped(&self) -> bool {
        !matches!(self.row().end, End::Own)
    }

    /// Minutes of it where it is made, in s.
    pub(crate) fn takes_s(&self) -> f64 {
        self.row().takes_s
    }

    /// Whether refrigerant can come free where it is made.
    pub(crate) fn handles_refrigerant(&self) -> bool {
        match self.on_circuit() {
            OnCircuit::Untouched | OnCircuit::LetsOff => false,
            OnCircuit::Handles | OnCircuit::Fills | OnCircuit::Adds | OnCircuit::Opens => true,
        }
    }

    /// The same move as it was when it was ended after so long, s.
    pub(crate) fn ended_after(&self, seconds: f64) -> Move {
        match self.row().end {
            End::Own => self.clone(),
            End::AnyTime(again) | End::Within { again, .. } => again(self, Duration::Seconds(seconds)),
        }
    }
}

/// The caution of a move, to be shown where the move is.
pub fn caution(action: &Move) -> Option<Caution> {
    action.row().caution
}
