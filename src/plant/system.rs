//! The equipment as data: every parameter of the plant with its unit and where it comes from.
//!
//! The built-in systems are files (`assets/systems`): one is written out, each of the others says what it has otherwise. Their values are engineering values of
//! our own for residential split systems; they are not those of one product.

mod catalogue;
mod circuit;
mod controls;
mod difference;
mod indoor;
mod outdoor;
mod plate;
mod refrigerant;

pub use circuit::{Lines, Metering};
pub use controls::Controls;
pub use indoor::{AirSide, Evaporator};
pub use outdoor::{Compressor, Condenser};
pub use plate::{ChargeTarget, DataPlate, Printed};
pub use refrigerant::{RefrigerantName, SafetyClass};

use difference::part;

part! {
    /// A split system: refrigerant, parts, data plate.
    System (SystemDifference) {
        /// Name by which call files and the command line ask for it.
        name: String,
        /// Refrigerant.
        refrigerant: RefrigerantName,
        /// Charge on the data plate (line set included), kg.
        plate_charge_kg: f64,
        /// Target subcooling on the data plate at the liquid service valve, K.
        plate_subcooling_k: f64,
        /// The rest of what is printed on the data plate.
        plate: Printed,
        /// Compressor.
        compressor: Compressor,
        /// Condenser with its fan.
        condenser: Condenser,
        /// Liquid line with drier, suction line.
        lines: Lines,
        /// Metering device.
        metering: Metering,
        /// Evaporator.
        evaporator: Evaporator,
        /// Blower, filter and ducts.
        air: AirSide,
        /// Pressure switches and thermostat.
        controls: Controls,
    }
}
