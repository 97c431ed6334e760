//! Why the state of the site forbids a move.

use plant::{Conductor, Terminal, Work};
use serde::{Deserialize, Serialize};

use crate::place::{Panel, PipePoint};

/// Why a move can not be made now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Refusal {
    /// The ticket is closed.
    TicketClosed,
    /// A week is over.
    WeekOver,
    /// The metering device is behind the closed coil cabinet.
    CabinetHidesMeteringDevice,
    /// The low-voltage terminal strip is behind the blower panel.
    PanelHidesTerminalStrip,
    /// The wheel is behind the blower panel.
    PanelHidesWheel,
    /// The thermostat has no such set point.
    SetPointOutOfRange,
    /// The disconnect is out already.
    DisconnectOutAlready,
    /// It is in already.
    DisconnectInAlready,
    /// The air handler is off already.
    AirHandlerOffAlready,
    /// It is on already.
    AirHandlerOnAlready,
    /// A panel is open already.
    PanelOpenAlready(Panel),
    /// It is closed already.
    PanelClosedAlready(Panel),
    /// There is no voltage to read at a plug that is pulled with the power off.
    NoVoltageAtMotorPlug,
    /// The hoses are on already.
    HosesOnAlready,
    /// There are none on.
    NoHosesOn,
    /// There is no gauge to read.
    NoGauges,
    /// The work needs the hoses on the ports.
    NoHoses,
    /// Terminals are behind a panel that is on.
    TerminalsBehindPanel(Panel),
    /// What is to be worked on is behind a panel that is on.
    BehindPanel(Panel),
    /// The recovery cylinder is full.
    RecoveryCylinderFull,
    /// The charging cylinder is empty.
    ChargingCylinderEmpty,
    /// There is nothing left to recover.
    NothingToRecover,
    /// No wait is so long, or so short.
    WaitOutOfRange,
    /// There is no charge; it can not run.
    NoChargeToRun,
    /// Nothing starts with the disconnect out.
    NothingStartsDisconnectOut,
    /// Nothing starts with the air handler off.
    NothingStartsAirHandlerOff,
    /// Nothing starts with the thermostat off.
    NothingStartsThermostatOff,
    /// Both probes would be on one terminal.
    SameTerminal,
    /// Both hoses would be on one tap.
    SameTap,
    /// A panel of the air handler is off: what the manometer shows then is not of its ducts.
    PanelOffSpoilsStatic(Panel),
    /// The system has no such terminal.
    NoSuchTerminal(Terminal),
    /// The leads do not reach from indoors to outdoors.
    LeadsTooShort,
    /// The system has no such wire.
    NoSuchWire(Conductor),
    /// A fixed orifice has no bulb.
    NoBulb,
    /// The bulb is on the line already.
    BulbOnLine,
    /// The bulb is off the line; its answer is told against that.
    BulbOffLine,
    /// The work has a move of its own.
    HasMoveOfItsOwn(Work),
    /// An ECM has no run capacitor.
    EcmHasNoRunCapacitor,
    /// A plain capacitor motor has no module.
    PscHasNoModule,
    /// A plain capacitor motor has no command harness.
    PscHasNoHarness,
    /// There is ice on the coil that is to be washed.
    IceBeforeWash,
    /// There is ice under what is to be peeled off.
    IceBeforePeel,
    /// There is nothing to peel off.
    NoMediumOnCoil,
    /// The compressor is running; in a vacuum it burns out.
    CompressorRunsInVacuum,
    /// The pump would blow refrigerant into the air.
    CircuitUnderPressure,
    /// The circuit still holds refrigerant.
    TopUpIsNotWeighingIn,
    /// There is no vacuum on the circuit.
    NoVacuumToWeighInto,
    /// No scale and no cylinder gives so much, or so little.
    MassOutOfRange,
    /// The circuit is evacuated.
    WeighWholeChargeIn,
    /// There is nitrogen in the circuit.
    NitrogenInCircuit,
    /// The regulator has no such setting.
    RegulatorOutOfRange,
    /// There is no nitrogen on the circuit.
    NoNitrogen,
    /// No test is so long, or so short.
    TestOutOfRange,
    /// No pump is asked for such a vacuum.
    VacuumOutOfRange,
    /// No evacuation is so long, or so short.
    EvacuationOutOfRange,
    /// No charging is so long, or so short.
    ChargingOutOfRange,
    /// No charge is adjusted to that.
    TargetOutOfRange,
    /// No thermometer is clamped where it is needed.
    NoThermometer(PipePoint),
    /// No machine recovers so deep.
    RecoveryOutOfRange,
    /// Nitrogen would spoil the refrigerant.
    RefrigerantInCircuit,
    /// There is no vacuum to watch.
    NoVacuumToWatch,
    /// There is no charge to adjust.
    NoChargeToAdjust,
    /// A charge is adjusted on the running system.
    CompressorOff,
}
