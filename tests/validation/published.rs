//! Published correlations that more than one topic uses.

/// Charge: normalised correlations after Cho, Payne & Domanski 2014 (NIST), as coded in NREL OpenStudio-HPXML
/// (`get_charge_fault_cooling_coeff`). `f` is the charge deviation, -0.2 for a fifth missing; temperatures in °C.
/// Gives the ratios of gross capacity and of power.
pub fn cho(f: f64, indoor_c: f64, outdoor_c: f64) -> (f64, f64) {
    let (q, p) = if f < 0.0 {
        ([-9.46e-1, 4.93e-2, -1.18e-3, -1.15], [-3.13e-1, 1.15e-2, 2.66e-3, -1.16e-1])
    } else {
        ([-1.63e-1, 1.14e-2, -2.10e-4, -1.40e-1], [2.19e-1, -5.01e-3, 9.89e-4, 2.84e-1])
    };
    let ratio = |a: [f64; 4]| 1.0 + (a[0] + a[1] * indoor_c + a[2] * outdoor_c + a[3] * f) * f;
    (ratio(q), ratio(p))
}

/// The six coefficients of a fault after Cheung & Braun (NREL fy16osti/65030), as coded in the OpenStudio fault measures:
/// ratio of capacity, ratio of energy input ratio (power over capacity).
pub struct Cheung {
    capacity: [f64; 6],
    energy_input: [f64; 6],
}

/// Share of the charge missing, 0 to 0.3.
pub const UNDERCHARGE: Cheung = Cheung {
    capacity: [7.717_9, -10.765, 3.129, -0.884_03, 0.300_43, -0.036_993],
    energy_input: [-5.741_9, 8.670_9, -4.410_4, 1.248_9, 1.209_5, 0.360_51],
};
/// Share of the charge in excess, 0 to 0.15.
#[expect(clippy::approx_constant, reason = "a coefficient that looks like the logarithm of 2 by chance")]
pub const OVERCHARGE: Cheung = Cheung {
    capacity: [-0.667_351, 0.417_386, 0.091_732, 0.812_637, -0.301_02, -0.101_4],
    energy_input: [0.191_888, -0.256_732, -0.053_16, -0.716_681, 0.381_224, 0.124_1],
};
/// Share of the condenser's airflow lost, 0 to 0.5.
pub const CONDENSER: Cheung = Cheung {
    capacity: [-2.216_2, 5.631_5, -3.119_9, 0.224_92, -0.762_45, -0.072_843],
    energy_input: [-5.980_6, 0.947_9, 4.381_6, -1.066_7, 2.914_2, 0.090_476],
};
/// Increase of the pressure difference between condenser outlet and evaporator inlet, 0 to 0.3.
pub const RESTRICTION: Cheung = Cheung {
    capacity: [-1.020_5, -3.289_9, 3.66, -1.911_8, 0.031_398, 0.064_409],
    energy_input: [1.403_1, 3.792_2, -5.343, 3.022_9, 1.697_9, 0.121_59],
};
/// Air in the circuit over the air that the circuit holds at atmospheric pressure, 0 to 0.6.
pub const NON_CONDENSABLES: Cheung = Cheung {
    capacity: [-1.952, 3.894_6, -1.668_5, -0.044_405, -0.015_189, -0.062_296],
    energy_input: [2.464_8, -3.189_8, 1.058_2, 0.040_316, -0.000_329, -0.038_164],
};

/// Rated coefficient of performance that goes into the correlations: their own range is 3.74 to 4.69.
const RATED_COP: f64 = 3.8;

impl Cheung {
    /// Ratios of capacity and of coefficient of performance at a fault level `f`, entering wet bulb and outdoor dry bulb in °C.
    ///
    /// Temperatures enter as (t + 273.15) / 273.15: with this reading the correlations give the rows of capacity and power that are
    /// quoted from the report for charge, condenser airflow and restriction to the last digit or two.
    pub fn ratios(&self, f: f64, wet_bulb_c: f64, outdoor_c: f64) -> (f64, f64) {
        let scaled = |t_c: f64| (t_c + 273.15) / 273.15;
        let ratio = |a: &[f64; 6]| {
            1.0 + f
                * (a[0]
                    + a[1] * scaled(wet_bulb_c)
                    + a[2] * scaled(outdoor_c)
                    + a[3] * f
                    + a[4] * f * f
                    + a[5] * RATED_COP)
        };
        let (capacity, energy_input) = (ratio(&self.capacity), ratio(&self.energy_input));
        (capacity, 1.0 / energy_input)
    }

    /// Ratios of capacity and of coefficient of performance at rating A.
    pub fn at_a(&self, f: f64) -> (f64, f64) {
        self.ratios(f, 19.44, 35.0)
    }
}

/// a + b x + c x^2 + d y + e y^2 + f x y.
pub fn biquadratic(c: [f64; 6], x: f64, y: f64) -> f64 {
    c[0] + c[1] * x + c[2] * x * x + c[3] * y + c[4] * y * y + c[5] * x * y
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The correlations as typed in give the rows that are quoted from them elsewhere.
    #[test]
    fn correlations_give_the_quoted_rows() {
        let near =
            |ours: f64, quoted: f64| assert!((ours - quoted).abs() < 0.0035, "{ours} against {quoted}");
        for (f, capacity, power) in [
            (-0.1, 0.956, 0.990),
            (-0.2, 0.888, 0.978),
            (-0.3, 0.798, 0.964),
            (0.1, 1.012, 1.015),
            (0.2, 1.021, 1.035),
        ] {
            let (q, p) = cho(f, 26.67, 35.0);
            near(q, capacity);
            near(p, power);
        }
        for (f, capacity) in [(0.1, 0.949), (0.2, 0.883), (0.3, 0.802)] {
            near(UNDERCHARGE.at_a(f).0, capacity);
        }
        let (capacity, cop) = CONDENSER.at_a(0.5);
        near(capacity, 0.973);
        near(capacity / cop, 1.222);
        let (capacity, cop) = CONDENSER.at_a(0.3);
        near(capacity / cop, 1.085);
        let (capacity, cop) = RESTRICTION.at_a(0.2);
        near(capacity, 0.889);
        near(cop, 0.899);
    }
}
