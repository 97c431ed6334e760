//! The electrical side: one network of the real wiring, solved whenever a switch, contact, rotor or fault changes.
//!
//! `terminals` names the points and wires, `circuit` builds the network from the [`Electrical`] data, `network` solves
//! it, `motors` holds the motors, `ecm` the commutated blower, `state` what is remembered, `fans` the speed at which motor and wheel agree, `fuse` the low-voltage fuse, `drive` turns voltages into speeds and trips, `meter` reads.
//!
//! Control wiring: transformer, fuse, R; thermostat contacts to Y and G; from Y through the condensate float switch (which
//! breaks Y, so that the outdoor unit stops and the blower keeps on, as is common in the trade), the Y conductor,
//! high-pressure and low-pressure switch to the contactor coil; from G to the blower relay on the board (PSC) or the
//! command pin of the module (ECM). The 24 V side floats; cabinets are grounded.

mod circuit;
mod data;
mod drive;
mod ecm;
mod fans;
mod fuse;
mod meter;
mod motors;
mod network;
mod state;
mod terminals;

pub use data::{Blower, Capacitor, Coil, CompressorStart, Ecm, Electrical, Motor, Transformer};
pub use meter::{CapacitanceReading, Leads, OhmReading};
pub use motors::SplitPhaseMotor;
pub use terminals::{BlowerKind, Conductor, Terminal};

pub(crate) use circuit::Contacts;
pub(crate) use data::DISC_TIME_S;

pub(crate) use fans::Refresh;
pub(crate) use state::{ENERGISED_V, ElectricState, Speeds};
