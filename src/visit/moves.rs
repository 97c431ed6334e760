//! Moves: what a learner can do. The window, the command line, replay and tests use these same values.

use call::{Duration, Mass, Pressure, Question, Temperature, TemperatureDifference};
use plant::{Capacitor, Conductor, FaultKind, LeakPlace, Terminal, Work};
use serde::{Deserialize, Serialize};

/// One thing that the learner does.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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
    /// their own, and are refused here.
    Mend(Work),
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

/// A place on the site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Place {
    /// Thermostat in the hallway.
    Thermostat,
    /// Return grille.
    ReturnGrille,
    /// Supply register.
    SupplyRegister,
    /// Filter slot.
    FilterSlot,
    /// Blower compartment.
    Blower,
    /// Indoor coil cabinet with drain pan.
    IndoorCoil,
    /// Metering device with sensing bulb.
    MeteringDevice,
    /// Line set between the units.
    LineSet,
    /// Liquid-line drier.
    Drier,
    /// Outdoor unit.
    OutdoorUnit,
    /// Outdoor disconnect.
    OutdoorDisconnect,
    /// Low-voltage terminals at the air handler.
    ControlBoard,
}

impl Place {
    /// Every place, indoors first.
    pub const ALL: [Place; 12] = [
        Place::Thermostat,
        Place::ReturnGrille,
        Place::SupplyRegister,
        Place::FilterSlot,
        Place::Blower,
        Place::ControlBoard,
        Place::IndoorCoil,
        Place::MeteringDevice,
        Place::LineSet,
        Place::Drier,
        Place::OutdoorUnit,
        Place::OutdoorDisconnect,
    ];

    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            Place::LineSet | Place::Drier | Place::OutdoorUnit | Place::OutdoorDisconnect => {
                Location::Outdoors
            }
            _ => Location::Indoors,
        }
    }
}

/// Side of the wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Location {
    /// In the house, at thermostat or air handler.
    Indoors,
    /// At the outdoor unit.
    Outdoors,
}

/// A panel that can be opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Panel {
    /// Blower compartment: blower wheel and low-voltage terminals.
    BlowerCompartment,
    /// Coil cabinet: coil face, metering device, bulb.
    CoilCabinet,
    /// Electrical panel of the outdoor unit: contactor.
    OutdoorElectrical,
}

impl Panel {
    /// Every panel.
    pub const ALL: [Panel; 3] = [Panel::BlowerCompartment, Panel::CoilCabinet, Panel::OutdoorElectrical];

    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            Panel::OutdoorElectrical => Location::Outdoors,
            Panel::BlowerCompartment | Panel::CoilCabinet => Location::Indoors,
        }
    }
}

/// A service port.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Port {
    /// Suction (low side).
    Suction,
    /// Liquid (high side).
    Liquid,
}

/// A point where a pipe thermometer can be clamped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum PipePoint {
    /// Suction line at the outdoor service valve.
    SuctionAtServiceValve,
    /// Suction line beside the sensing bulb.
    SuctionAtBulb,
    /// Liquid line at the outdoor service valve: where subcooling is taken.
    LiquidAtServiceValve,
    /// Liquid line at the inlet of the drier, behind whatever is between it and the service valve.
    LiquidBeforeDrier,
    /// Liquid line at the outlet of the drier.
    LiquidAfterDrier,
    /// Liquid line at the metering device.
    LiquidAtMeteringDevice,
    /// Discharge line of the compressor.
    Discharge,
    /// The sensing bulb.
    SensingBulb,
}

impl PipePoint {
    /// Every point.
    pub const ALL: [PipePoint; 8] = [
        PipePoint::SuctionAtServiceValve,
        PipePoint::SuctionAtBulb,
        PipePoint::LiquidAtServiceValve,
        PipePoint::LiquidBeforeDrier,
        PipePoint::LiquidAfterDrier,
        PipePoint::LiquidAtMeteringDevice,
        PipePoint::Discharge,
        PipePoint::SensingBulb,
    ];

    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            PipePoint::SuctionAtBulb | PipePoint::LiquidAtMeteringDevice | PipePoint::SensingBulb => {
                Location::Indoors
            }
            _ => Location::Outdoors,
        }
    }
}

/// A point where air is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum AirPoint {
    /// Return air before the filter.
    Return,
    /// Supply air after the blower.
    Supply,
    /// Air entering the outdoor coil.
    Outdoor,
}

impl AirPoint {
    /// On which side of the wall it is.
    pub fn location(self) -> Location {
        match self {
            AirPoint::Outdoor => Location::Outdoors,
            AirPoint::Return | AirPoint::Supply => Location::Indoors,
        }
    }
}

/// Dry or wet bulb.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Bulb {
    /// Dry bulb.
    Dry,
    /// Wet bulb.
    Wet,
}

/// How a leak is searched for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LeakMethod {
    /// Electronic leak detector.
    ElectronicDetector,
    /// Bubble solution.
    Bubbles,
}

/// What a charge is adjusted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum ChargeBy {
    /// Subcooling at the liquid service valve: systems with an expansion valve.
    Subcooling,
    /// Superheat at the suction service valve: systems with a fixed orifice.
    Superheat,
}

impl ChargeBy {
    /// Gauge and pipe that it is measured with.
    pub fn measured_at(self) -> (Port, PipePoint) {
        match self {
            ChargeBy::Subcooling => (Port::Liquid, PipePoint::LiquidAtServiceValve),
            ChargeBy::Superheat => (Port::Suction, PipePoint::SuctionAtServiceValve),
        }
    }
}

/// What a cylinder is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum CylinderUse {
    /// Charging from it.
    Charging,
    /// Recovering into it.
    Recovery,
}

impl Location {
    /// Both sides of the wall.
    pub const ALL: [Location; 2] = [Location::Indoors, Location::Outdoors];
}

impl Move {
    /// Whether it puts refrigerant into a circuit that holds some.
    pub fn adds_refrigerant(&self) -> bool {
        matches!(self, Move::AddRefrigerant(_) | Move::AddVapor(_) | Move::ChargeTo { .. })
    }

    /// Whether it opens the refrigerant circuit.
    pub fn opens_circuit(&self) -> bool {
        match self {
            Move::RepairLeak(_) | Move::ReplaceMeteringDevice => true,
            Move::Mend(work) => work.opens_circuit(),
            _ => false,
        }
    }

    /// Whether it is a look or a measurement: one that changes nothing but the site.
    pub fn only_tells(&self) -> bool {
        matches!(
            self,
            Move::Look(_)
                | Move::InspectFilter
                | Move::WatchBlower
                | Move::MeasureVoltage { .. }
                | Move::MeasureResistance { .. }
                | Move::MeasureCapacitance { .. }
                | Move::ClampCurrent(_)
                | Move::ReadGauge(_)
                | Move::ReadPipe(_)
                | Move::ReadAir(..)
                | Move::SearchLeak(..)
        )
    }

    /// Whether it holds the sensing bulb warm or cold to see whether the valve answers.
    pub fn tests_the_bulb(&self) -> bool {
        matches!(self, Move::WarmBulb | Move::ChillBulb)
    }

    /// Whether it can be ended before its time.
    pub fn can_be_stopped(&self) -> bool {
        matches!(self, Move::Wait(_) | Move::EvacuateTo { .. } | Move::ChargeTo { .. })
    }

    /// Whether refrigerant can come free where it is made.
    pub(crate) fn handles_refrigerant(&self) -> bool {
        match self {
            Move::ConnectGauges
            | Move::DisconnectGauges
            | Move::Recover
            | Move::RecoverTo(_)
            | Move::RemoveRefrigerant(_)
            | Move::WeighIn(_) => true,
            _ => self.opens_circuit() || self.adds_refrigerant(),
        }
    }

    /// Longest it may take, for moves that have such a limit, s.
    pub(crate) fn within_s(&self) -> Option<f64> {
        match self {
            Move::EvacuateTo { within, .. } | Move::ChargeTo { within, .. } => Some(within.seconds()),
            _ => None,
        }
    }

    /// The same move with another limit.
    pub(crate) fn ended_after(&self, seconds: f64) -> Move {
        let took = Duration::Seconds(seconds);
        match self.clone() {
            Move::Wait(_) => Move::Wait(took),
            Move::EvacuateTo { target, .. } => Move::EvacuateTo { target, within: took },
            Move::ChargeTo { by, target, at_most, .. } => {
                Move::ChargeTo { by, target, at_most, within: took }
            }
            other => other,
        }
    }
}
