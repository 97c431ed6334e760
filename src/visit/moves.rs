//! Moves: what a learner can do. The window, the command line, replay and tests use these same values.
//!
//! A move is a variant of [`Move`], its line in [`Move::row`], and its row in the file of its family below this folder: where it is
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

pub use area::AreaNote;
pub use bulb::BulbNote;
pub use charge::ChargeNote;
pub use controls::SiteNote;
pub use filter::FilterNote;
pub use leak::LeakNote;
pub use measure::GaugeNote;
pub use meter::MeterNote;
pub use nitrogen::NitrogenNote;
pub use recovery::RecoveryNote;
pub use repair::WorkNote;
pub use row::{Dead, Effect, Kept, OnCircuit};
pub use vacuum::VacuumNote;
pub use verify::VerifyNote;

pub(crate) use repair::{job, own_move};
pub(crate) use row::{At, End, Reaches, Row};

use call::{Duration, Mass, Pressure, Question, Temperature, TemperatureDifference};
use plant::{Capacitor, Conductor, FaultKind, LeakPlace, Terminal, Work};
use serde::{Deserialize, Serialize};

pub use crate::place::{
    AirPoint, Bulb, ChargeBy, CylinderUse, LeakMethod, Location, Panel, PipePoint, Place, Port, StaticTap,
};

/// One thing that the learner does.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, strum::VariantNames)]
#[serde(deny_unknown_fields)]
pub enum Move {
    /// Look, listen and touch at a place.
    Look(Place),
    /// Put a question to the customer.
    Ask(Question),
    /// Read the data plate of the outdoor unit (charge, target subcooling, metering device).
    ReadDataPlate,
    /// Set the thermostat.
    SetThermostat {
        /// Off or cool.
        mode: plant::Mode,
        /// Auto or on.
        fan: plant::FanSetting,
        /// Set point.
        set_point: Temperature,
    },
    /// Pull (open) or seat (close) the outdoor disconnect.
    OutdoorDisconnect(plant::Switch),
    /// Indoor service switch at the air handler.
    IndoorServiceSwitch(plant::Switch),
    /// Open a panel.
    OpenPanel(Panel),
    /// Close a panel.
    ClosePanel(Panel),
    /// Pull the filter, look at it and put it back.
    InspectFilter,
    /// Put a new filter in, in place of whatever is or is not in the slot.
    ReplaceFilter,
    /// Watch the blower wheel itself (blower panel open).
    WatchBlower,
    /// Measure the voltage between two terminals.
    MeasureVoltage {
        /// First probe.
        from: Terminal,
        /// Second probe.
        to: Terminal,
    },
    /// Measure the resistance between two terminals, power off; a motor's with its leads off.
    MeasureResistance {
        /// First probe.
        from: Terminal,
        /// Second probe.
        to: Terminal,
    },
    /// Measure the capacitance between two terminals, power off, discharged; a capacitor's with its leads off.
    MeasureCapacitance {
        /// First probe.
        from: Terminal,
        /// Second probe.
        to: Terminal,
    },
    /// Put the clamp around a conductor and read the current.
    ClampCurrent(Conductor),
    /// Put the manifold's hoses on both service ports.
    ConnectGauges,
    /// Take them off.
    DisconnectGauges,
    /// Read a gauge.
    ReadGauge(Port),
    /// Clamp a thermometer on a pipe, let it settle and read it.
    ReadPipe(PipePoint),
    /// Measure air.
    ReadAir(AirPoint, Bulb),
    /// Put the hoses of the manometer on two taps of the air's way and read by how much the pressure is higher at the one.
    MeasureStatic {
        /// Hose of the high side.
        high: StaticTap,
        /// Hose of the low side.
        low: StaticTap,
    },
    /// Take the sensing bulb off the line and hold it in a warm hand.
    WarmBulb,
    /// Take the sensing bulb off the line and put it into a cup of ice and water.
    ChillBulb,
    /// Strap the bulb back as it was found.
    PutBulbBack,
    /// Strap the bulb to the line and insulate it.
    InsulateBulb,
    /// Search for a leak at a place.
    SearchLeak(LeakPlace, LeakMethod),
    /// Recover the refrigerant into a recovery cylinder, weighing it.
    Recover,
    /// The same, down to a pressure below atmospheric: deeper than 40 CFR 82.156 asks of a small unit.
    RecoverTo(Pressure),
    /// Draw some refrigerant out of a circuit that holds too much, weighing it.
    RemoveRefrigerant(Mass),
    /// Put dry nitrogen on the recovered circuit through a regulator set to a pressure.
    PressurizeWithNitrogen(Pressure),
    /// Let the nitrogen stand so long and read the gauge at start and end.
    StandingTest(Duration),
    /// Let the nitrogen off.
    VentNitrogen,
    /// Thin out what refrigerant is left with nitrogen, put on and let off three times.
    PurgeWithNitrogen,
    /// Close a leak (circuit open).
    RepairLeak(LeakPlace),
    /// Replace metering device and drier (circuit open).
    ReplaceMeteringDevice,
    /// Replace a part or put something right. The filter, the bulb, the metering device and leaks have moves of
    /// their own, and are refused here. Files of before call it `Mend`.
    Repair(Work),
    /// Draw the charge off a capacitor through a resistor.
    DischargeCapacitor(Capacitor),
    /// Evacuate with the vacuum pump until the micron gauge says so, then watch it for ten minutes.
    Evacuate,
    /// Evacuate until the micron gauge shows a target, or for so long.
    EvacuateTo {
        /// Where to stop.
        target: Pressure,
        /// When to stop at the latest.
        within: Duration,
    },
    /// Valve the pump off and watch the micron gauge for so long.
    DecayTest(Duration),
    /// Weigh refrigerant in, into the evacuated circuit.
    WeighIn(Mass),
    /// Add refrigerant to the circuit as it is, drawn from the cylinder as liquid and throttled.
    AddRefrigerant(Mass),
    /// The same, drawn as vapour: slow, and wrong for a blend, whose vapour has another composition.
    AddVapor(Mass),
    /// Charge the running system to a target: small steps in or out, with a quarter of an hour of settling after each.
    ChargeTo {
        /// What is measured.
        by: ChargeBy,
        /// What it shall be.
        target: TemperatureDifference,
        /// Most refrigerant that may go in.
        at_most: Mass,
        /// When to stop at the latest.
        within: Duration,
    },
    /// Fetch another cylinder from the van.
    ChangeCylinder(CylinderUse),
    /// Look for flames and sparks, air the place, and check its air with a detector that knows the refrigerant.
    MakeAreaSafe(Location),
    /// Wait.
    Wait(Duration),
    /// Declare the cause.
    Declare(Declaration),
    /// Run the plant and prove the repair at steady state.
    Verify,
    /// Tell the customer, write the ticket and leave.
    CloseTicket,
}

/// A declared cause with the readings that support it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Declaration {
    /// What is wrong.
    pub cause: FaultKind,
    /// Where, if the kind has places.
    #[serde(default)]
    pub place: Option<LeakPlace>,
    /// Notebook numbers of the entries that support it (the first entry is 1).
    pub evidence: Vec<u32>,
    /// Rivals that this evidence rules out.
    pub rules_out: Vec<FaultKind>,
}

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
