//! How faults act: each changes physical parameters, and the worst of those that change the same one counts.

use super::place::LeakPlace;

/// Declares a set of parameters with what each of them is in a sound plant.
macro_rules! parameters {
    (
        $(#[$about:meta])*
        $set:ident {
            $($(#[$what:meta])* $name:ident: $type:ty = $sound:expr,)*
        }
    ) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
        pub(crate) struct $set {
            $($(#[$what])* pub $name: $type,)*
        }

        impl Default for $set {
            /// A sound plant.
            fn default() -> Self {
                $set { $($name: $sound,)* }
            }
        }
    };
}
pub(super) use parameters;

/// Two faults that leave a share of the same thing: the smaller one counts, and a floor stays.
pub(super) fn leave(share: &mut f64, severity: f64, floor: f64) {
    *share = share.min((1.0 - severity).max(floor));
}

/// Two faults that add to the same thing: the larger one counts.
pub(super) fn reach(share: &mut f64, severity: f64) {
    *share = share.max(severity);
}

/// Hole areas of the leaks, m².
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub(crate) struct Holes {
    indoor_coil_m2: f64,
    suction_service_valve_m2: f64,
    liquid_line_m2: f64,
}

impl Holes {
    /// That at a place, m².
    pub(crate) fn at_m2(&self, place: LeakPlace) -> f64 {
        match place {
            LeakPlace::IndoorCoil => self.indoor_coil_m2,
            LeakPlace::SuctionServiceValve => self.suction_service_valve_m2,
            LeakPlace::LiquidLine => self.liquid_line_m2,
        }
    }

    /// Adds a hole of a diameter, m.
    pub(super) fn drill(&mut self, place: Option<LeakPlace>, diameter_m: f64) {
        let area_m2 = match place {
            Some(LeakPlace::IndoorCoil) | None => &mut self.indoor_coil_m2,
            Some(LeakPlace::SuctionServiceValve) => &mut self.suction_service_valve_m2,
            Some(LeakPlace::LiquidLine) => &mut self.liquid_line_m2,
        };
        *area_m2 += core::f64::consts::FRAC_PI_4 * diameter_m * diameter_m;
    }
}
