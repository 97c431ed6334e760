//! A move as a value. What is to be said of it stands in its row (moves.rs).

use call::{Duration, Mass, Pressure, Question, Temperature, TemperatureDifference};
use plant::{Capacitor, Conductor, FaultKind, LeakPlace, Terminal, Work};
use serde::{Deserialize, Serialize};

use crate::place::{
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
