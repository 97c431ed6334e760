//! Service: what a technician changes with tools, and what hangs on the service ports.

mod area;
mod cylinder;
mod hoses;
mod moisture;
mod ports;
mod residue;
mod work;
mod working;

use serde::{Deserialize, Serialize};

pub use area::AreaReadout;
pub use cylinder::CylinderReadout;
pub use hoses::HoseEnds;
pub use work::Work;
pub use working::WorkOutcome;

pub(crate) use area::Area;
pub(crate) use cylinder::Cylinder;
pub(crate) use hoses::Hoses;
pub(crate) use hoses::step as follow_hoses;
pub(crate) use moisture::Drier;
pub(crate) use moisture::step as move_water;
pub(crate) use ports::{PortFlows, is_shut, warm_cylinders};

/// What belongs to service and outlasts a step.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Service {
    /// The charging cylinder, once it stands beside the unit.
    pub supply: Option<Cylinder>,
    /// The recovery cylinder, once it stands there.
    pub recovery: Option<Cylinder>,
    pub hoses: Hoses,
    pub drier: Drier,
    pub area: Area,
    pub gas: Tally,
    pub water: Tally,
}

/// Where something other than refrigerant went, kg: `initial + let in = in the circuit + let out`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Tally {
    /// In the circuit at the start.
    pub initial_kg: f64,
    /// Let in since.
    pub in_kg: f64,
    /// Let out since.
    pub out_kg: f64,
}

impl Tally {
    /// What should be in the circuit by this account, kg.
    pub fn balance_kg(&self) -> f64 {
        self.initial_kg + self.in_kg - self.out_kg
    }
}
