//! The data plate: what is printed on the outdoor unit, and what a technician charges by.

use media::units::{fahrenheit_from_kelvin, kelvin_difference_from_fahrenheit_difference};
use serde::{Deserialize, Serialize};

use super::difference::part;
use super::{Metering, RefrigerantName, SafetyClass, System};

part! {
    /// What is printed on the plate and follows from no other parameter.
    Printed (PrintedDifference) {
        /// Model number, of our own invention.
        model: String,
        /// Nominal cooling capacity, W (1 ton = 3517 W).
        nominal_capacity_w: f64,
        /// Rated load current of the compressor at 240 V, A.
        rated_load_a: f64,
        /// Locked-rotor current of the compressor at 240 V, A.
        locked_rotor_a: f64,
        /// Full-load current of the outdoor fan, A.
        fan_full_load_a: f64,
        /// Run capacitor of the compressor, as on its label, F.
        compressor_capacitor_f: f64,
        /// Run capacitor of the outdoor fan, as on its label, F.
        fan_capacitor_f: f64,
        /// Run capacitor of the blower, as on its label, F; `None` for an electronically commutated motor.
        blower_capacitor_f: Option<f64>,
        /// Test pressure of the high side, gauge, Pa.
        high_test_gauge_pa: f64,
        /// Test pressure of the low side, gauge, Pa.
        low_test_gauge_pa: f64,
    }
}

/// How the plate says the charge is to be checked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum ChargeTarget {
    /// By subcooling at the liquid service valve, K.
    Subcooling {
        /// Target, K.
        target_k: f64,
    },
    /// By superheat at the suction service valve, from the chart of a fixed orifice:
    /// [`System::target_superheat_k`].
    SuperheatChart,
}

/// A data plate as read.
#[derive(Clone, Debug, PartialEq)]
pub struct DataPlate {
    /// What is printed and follows from nothing else.
    pub printed: Printed,
    /// Refrigerant.
    pub refrigerant: RefrigerantName,
    /// Safety class.
    pub safety_class: SafetyClass,
    /// Lower flammability limit, kg/m³; `None` for class A1.
    pub lower_flammability_limit_kg_m3: Option<f64>,
    /// Charge, line set included, kg.
    pub charge_kg: f64,
    /// Length of the line set that this charge is for, m.
    pub line_length_m: f64,
    /// What each metre more or less of line set takes or gives, kg/m.
    pub charge_adder_kg_m: f64,
    /// How the charge is checked.
    pub charge_target: ChargeTarget,
}

impl System {
    /// The data plate. Refrigerant, charge and target are those of the plant, so the plate cannot disagree with it.
    pub fn data_plate(&self) -> DataPlate {
        DataPlate {
            printed: self.plate.clone(),
            refrigerant: self.refrigerant,
            safety_class: self.refrigerant.safety_class(),
            lower_flammability_limit_kg_m3: self.refrigerant.lower_flammability_limit_kg_m3(),
            charge_kg: self.plate_charge_kg,
            line_length_m: self.lines.length_m,
            charge_adder_kg_m: self.charge_adder_kg_m(),
            charge_target: match self.metering {
                Metering::Txv { .. } => ChargeTarget::Subcooling { target_k: self.plate_subcooling_k },
                Metering::Orifice { .. } => ChargeTarget::SuperheatChart,
            },
        }
    }

    /// Most total external static pressure that the plate of the air handler allows, filter included, Pa: 0.5 inches of water, printed on
    /// most air handlers of houses (common practice, no source).
    pub fn most_external_static_pa(&self) -> f64 {
        125.0
    }

    /// Target superheat of a fixed orifice at the suction service valve, K, from the wet bulb of the return air and the
    /// outdoor dry bulb, K: (3 WB - 80 - OD) / 2 in °F (common practice, no source; tolerance 5 °F in California Title
    /// 24 RA3.2, 2008). Below zero there is no target: `None`.
    pub fn target_superheat_k(return_wet_bulb_k: f64, outdoor_k: f64) -> Option<f64> {
        let wet_bulb_f = fahrenheit_from_kelvin(return_wet_bulb_k);
        let outdoor_f = fahrenheit_from_kelvin(outdoor_k);
        let target_f = (3.0 * wet_bulb_f - 80.0 - outdoor_f) / 2.0;
        (target_f > 0.0).then(|| kelvin_difference_from_fahrenheit_difference(target_f))
    }
}
