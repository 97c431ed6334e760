//! What lies between the two units: lines with the drier, metering device.

use core::f64::consts::FRAC_PI_4;

use super::System;
use super::difference::{one_of, part};

/// Darcy friction factor of the liquid line: Blasius, 0.316 Re^(-1/4), of smooth copper at the Reynolds number of a rated
/// flow, 1e5. From a third to twice that flow the factor lies within a fifth of it.
const LIQUID_FRICTION: f64 = 0.018;
/// The same of the suction line, at 3.5e5.
const SUCTION_FRICTION: f64 = 0.013;
/// Bends, couplings and service valves lengthen a line for its friction by half (typ. first guess of piping guides).
const EQUIVALENT_LENGTH: f64 = 1.5;

part! {
    /// Liquid line with drier, suction line: one line set.
    Lines (LinesDifference) {
        /// Length of the line set, m. The data plate's charge is for this length.
        length_m: f64,
        /// Inner diameter of the liquid line, m.
        liquid_bore_m: f64,
        /// Inner diameter of the suction line, m.
        suction_bore_m: f64,
        /// Volume of the drier and of the liquid service valve, m³.
        drier_volume_m3: f64,
        /// Flow resistance of the drier, Pa·(kg/m³)/(kg/s)²: dp = K m²/rho.
        drier_resistance: f64,
        /// Conductance of the suction line to the air around it, W/K.
        suction_ua_w_k: f64,
        /// Conductance of the liquid line to the air around it, W/K.
        liquid_ua_w_k: f64,
    }
}

/// Area of a bore, m²: volume for each metre.
fn bore_m2(bore_m: f64) -> f64 {
    FRAC_PI_4 * bore_m * bore_m
}

impl Lines {
    /// Volume of the liquid line with drier and service valve, m³.
    #[must_use]
    pub fn liquid_volume_m3(&self) -> f64 {
        bore_m2(self.liquid_bore_m) * self.length_m + self.drier_volume_m3
    }

    /// Volume of the suction line, m³.
    #[must_use]
    pub fn suction_volume_m3(&self) -> f64 {
        bore_m2(self.suction_bore_m) * self.length_m
    }

    /// Flow resistance of the liquid line, Pa·(kg/m³)/(kg/s)²: dp = K m²/rho.
    #[must_use]
    pub fn liquid_resistance(&self) -> f64 {
        self.resistance(LIQUID_FRICTION, self.liquid_bore_m)
    }

    /// Flow resistance of the suction line, Pa·(kg/m³)/(kg/s)².
    #[must_use]
    pub fn suction_resistance(&self) -> f64 {
        self.resistance(SUCTION_FRICTION, self.suction_bore_m)
    }

    /// Flow resistance of one velocity head in the suction line, Pa·(kg/m³)/(kg/s)².
    pub(crate) fn suction_head_resistance(&self) -> f64 {
        let area_m2 = bore_m2(self.suction_bore_m);
        1.0 / (2.0 * area_m2 * area_m2)
    }

    /// Darcy and Weisbach: dp = f L/D rho w²/2 with w = m/(rho A).
    fn resistance(&self, friction: f64, bore_m: f64) -> f64 {
        let area_m2 = bore_m2(bore_m);
        friction * EQUIVALENT_LENGTH * self.length_m / (2.0 * bore_m * area_m2 * area_m2)
    }
}

/// Evaporating and condensing temperature at which the plate counts the charge of a longer line, K: those of rating A.
const PLATE_EVAPORATING_K: f64 = 281.15;
const PLATE_LIQUID_K: f64 = 312.15;

impl System {
    /// What another metre of line set takes, kg/m: liquid at 39 °C and vapour at 8 °C, as at rating A.
    #[must_use]
    pub fn charge_adder_kg_m(&self) -> f64 {
        let fluid = self.refrigerant.tables();
        let liquid = fluid.saturation(fluid.bubble_pressure_pa(PLATE_LIQUID_K)).liquid_density_kg_m3;
        let vapour = fluid.saturation(fluid.dew_pressure_pa(PLATE_EVAPORATING_K)).vapour_density_kg_m3;
        bore_m2(self.lines.liquid_bore_m) * liquid + bore_m2(self.lines.suction_bore_m) * vapour
    }
}

one_of! {
    /// Metering device.
    Metering (MeteringDifference) {
        /// Thermostatic expansion valve, externally equalised, with a cross charge in its bulb.
        Txv {
            /// Flow area fully open, m².
            area_m2: f64,
            /// Spring pressure: the bulb must exceed the evaporator by this before the valve opens, Pa.
            spring_pa: f64,
            /// Pressure difference for the full stroke, Pa.
            gradient_pa: f64,
            /// Smallest opening (bleed), 0 to 1.
            bleed: f64,
            /// Time constant of the bulb strapped to the line, s.
            bulb_time_s: f64,
            /// Largest pressure of the bulb charge (MOP), Pa.
            bulb_pressure_max_pa: f64,
        },
        /// Fixed orifice: a short tube, the bore of a piston.
        Orifice {
            /// Bore, m.
            bore_m: f64,
            /// Length of the bore, m.
            length_m: f64,
        },
    }
}
