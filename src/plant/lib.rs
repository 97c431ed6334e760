//! The plant: a residential split air conditioner with its house and weather.
//!
//! One value, [`Plant`], holds all state; one verb, [`step`], moves it on. [`Inputs`] are what people
//! set from outside (thermostat, switches, service connections), [`Fault`]s are changes of physical
//! parameters, [`Work`] is what a technician changes with tools. No file, clock, thread, random source
//! or screen is known here.

mod air;
mod balance;
mod boiling;
mod cabinet;
mod compressor;
mod condenser;
mod contents;
mod control;
mod draught;
mod electric;
pub mod equations;
mod evaporator;
mod event;
mod fault;
mod flows;
mod frost;
mod gas;
mod glide;
mod holdup;
mod house;
mod inputs;
mod kept;
mod leak;
mod leap;
mod level;
mod limit;
mod metering;
mod pan;
mod protection;
mod reading;
mod readout;
mod root;
mod rows;
mod service;
mod shell;
mod state;
mod states;
mod steady;
mod step;
mod stride;
mod sump;
mod system;
mod tangent;
mod tangents;
mod watch;
mod wear;

pub use air::InFilterSlot;
pub use compressor::{CompressorRating, compressor_rating};
pub use control::Events;
pub use electric::{
    Blower, BlowerKind, CapacitanceReading, Capacitor, Coil, CompressorStart, Conductor, Ecm, Electrical,
    Leads, Motor, OhmReading, SplitPhaseMotor, Terminal, Transformer,
};
pub use event::{BASE_STEP_S, Event, StepError};
pub use fault::{
    Charge, Equipment, Fault, FaultGroup, FaultKind, FaultRow, LeakPlace, LeftBehind, Severity, Special,
};
pub use frost::{CoilStage, CoilWater, frost_density_kg_m3};
pub use house::{HouseModel, Room, Weather};
pub use inputs::{
    BulbHandling, CylinderPhase, FanSetting, FilterSlot, Inputs, Mode, PortConnection, Switch,
    ThermostatSettings, Ventilation,
};
pub use limit::{Bound, Limiter};
pub use protection::{Course, Protection, Spells, Stops};
pub use readout::Readout;
pub use service::{AreaReadout, CylinderReadout, HoseEnds, Tally, Work, WorkOutcome};
pub use state::{EnergyLedger, Ledger, Plant};
pub use steady::{Saturated, SteadyConditions, SteadyState, solve_steady_state};
pub use step::{advance, step};
pub use stride::{Made, Strides};
pub use system::{
    AirSide, ChargeTarget, Compressor, Condenser, Controls, DataPlate, Evaporator, Lines, Metering, Printed,
    RefrigerantName, SafetyClass, System,
};
pub use wear::Wear;
