//! The equipment as data: every parameter of the plant with its unit and where it comes from.
//!
//! The built-in systems are files of their own (`assets/systems`), one for each. Their values are engineering values of
//! our own for residential split systems; they are not those of one product.

mod catalogue;
mod circuit;
mod controls;
mod indoor;
mod outdoor;
mod plate;
mod refrigerant;

use serde::{Deserialize, Serialize};

pub use circuit::{Lines, Metering};
pub use controls::Controls;
pub use indoor::{AirSide, Evaporator};
pub use outdoor::{Compressor, Condenser};
pub use plate::{ChargeTarget, DataPlate, Printed};
pub use refrigerant::{RefrigerantName, SafetyClass};

/// A split system: refrigerant, parts, data plate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct System {
    /// Name by which call files and the command line ask for it.
    pub name: String,
    /// Refrigerant.
    pub refrigerant: RefrigerantName,
    /// Charge on the data plate (line set included), kg.
    pub plate_charge_kg: f64,
    /// Target subcooling on the data plate at the liquid service valve, K.
    pub plate_subcooling_k: f64,
    /// The rest of what is printed on the data plate.
    pub plate: Printed,
    /// Compressor.
    pub compressor: Compressor,
    /// Condenser with its fan.
    pub condenser: Condenser,
    /// Liquid line with drier, suction line.
    pub lines: Lines,
    /// Metering device.
    pub metering: Metering,
    /// Evaporator.
    pub evaporator: Evaporator,
    /// Blower, filter and ducts.
    pub air: AirSide,
    /// Pressure switches and thermostat.
    pub controls: Controls,
}
