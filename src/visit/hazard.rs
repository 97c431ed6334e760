//! Safety: cautions that stand where the move is, and unsafe ways of doing things that were seen.

use serde::{Deserialize, Serialize};

/// Something done in an unsafe way. Kept beside the notebook so that marks need not read sentences.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Hazard {
    /// The refrigerant circuit was worked on with the disconnect in.
    CircuitWorkWithPowerOn,
    /// The circuit was opened with refrigerant in it, which escaped.
    RefrigerantVented,
    /// The outdoor electrical panel was opened with the disconnect in.
    LivePanelOpened,
    /// Wiring, a motor or a fan was worked on with its power on.
    WiringWorkWithPowerOn,
    /// A capacitor was handled before its charge was drawn off.
    ChargedCapacitorTouched,
    /// Ohms or microfarads were measured with voltage between the probes; the meter's fuse blew.
    MeterOnLiveCircuit,
    /// The compressor ran under vacuum or on an open circuit.
    CompressorRunOnOpenCircuit,
    /// Nitrogen was put on above the low side's design pressure.
    TestedAboveDesignPressure,
    /// A flammable refrigerant was handled where nobody had looked for flames, aired the place and checked the air.
    FlammableGasNearIgnition,
    /// A flame was held to a circuit that still held a mixture that can burn.
    FlameOnFlammableGas,
}

/// What is to be minded where the move is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Caution {
    /// Opening the circuit.
    CircuitWork,
    /// The outdoor disconnect.
    OutdoorDisconnect,
    /// The service switch of the air handler.
    IndoorServiceSwitch,
    /// Behind the electrical panel of the outdoor unit.
    OutdoorPanel,
    /// Beside the blower wheel.
    BlowerCompartment,
    /// Beside the coil.
    CoilCabinet,
    /// Ohms at the motor of an ECM.
    EcmResistance,
    /// Ohms.
    Resistance,
    /// Microfarads.
    Capacitance,
    /// A clamp among live wires.
    ClampCurrent,
    /// Volts.
    Voltage,
    /// Hoses on and off.
    Gauges,
    /// Nitrogen from its cylinder.
    Nitrogen,
    /// Bleeding nitrogen off.
    BleedNitrogen,
    /// Refrigerant that burns.
    FlammableRefrigerant,
    /// Carrying cylinders.
    Cylinders,
    /// Recovery.
    Recovery,
    /// Discharging a capacitor.
    DischargeCapacitor,
    /// A circuit under vacuum.
    Evacuation,
    /// Refrigerant from its cylinder.
    Charging,
    /// At the sensing bulb.
    SensingBulb,
    /// Searching for a leak.
    LeakSearch,
    /// The discharge line.
    DischargeLine,
    /// A capacitor replaced.
    ReplaceCapacitor,
    /// Washing a coil.
    CoilCleaner,
    /// Work inside the outdoor unit.
    OutdoorWork,
    /// Work inside the air handler.
    IndoorWork,
    /// Work in the attic.
    Attic,
    /// Work on the 24 V wiring.
    LowVoltage,
}
