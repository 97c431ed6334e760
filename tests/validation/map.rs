//! An open compressor map of the form of AHRI 540, where it is physical, and how it is read at another superheat.

use media::refrigerant::Refrigerant;
use media::units::{kelvin_from_fahrenheit, kg_from_lb};

/// Mass flow of an open AHRI 540 map of a 3-ton R-410A compressor, lb/h, from dew temperatures in °F, with 20 °F of
/// superheat: the sample of ACHP (Bell, open source), read in its repository.
const FLOW: [f64; 10] = [
    217.316_312_8,
    5.094_492_028,
    -0.593_170_311,
    4.38e-2,
    -2.14e-2,
    1.04e-2,
    7.90e-5,
    -5.73e-5,
    1.79e-4,
    -8.08e-5,
];
/// Power of the same map, W.
const POWER: [f64; 10] = [
    -561.361_570_5,
    -15.626_018_41,
    46.925_066_85,
    -0.217_949_552,
    0.435_062_616,
    -0.442_400_826,
    2.25e-4,
    2.37e-3,
    -3.32e-3,
    2.50e-3,
];

/// Superheat of the map, °F.
pub const SUPERHEAT_F: f64 = 20.0;

/// The ten terms of AHRI 540.
pub fn terms(e: f64, c: f64) -> [f64; 10] {
    [1.0, e, c, e * e, e * c, c * c, e * e * e, c * e * e, e * c * c, c * c * c]
}

pub fn polynomial(a: &[f64; 10], e: f64, c: f64) -> f64 {
    terms(e, c).iter().zip(a).map(|(t, a)| t * a).sum()
}

/// Flow at the map's own superheat, kg/s.
pub fn flow_kg_s(evaporating_f: f64, condensing_f: f64) -> f64 {
    kg_from_lb(polynomial(&FLOW, evaporating_f, condensing_f)) / 3600.0
}

/// Power at the map's own superheat, W.
pub fn power_w(evaporating_f: f64, condensing_f: f64) -> f64 {
    polynomial(&POWER, evaporating_f, condensing_f)
}

/// Flow, kg/s, and power, W, with another temperature of the suction gas: Dabiri & Rice 1981, factor 0.75, as written down in the documentation of
/// ACHP.
pub fn at_suction(evaporating_f: f64, condensing_f: f64, suction_k: f64) -> (f64, f64) {
    let fluid = Refrigerant::r410a();
    let suction_pa = fluid.dew_pressure_pa(kelvin_from_fahrenheit(evaporating_f));
    let discharge_pa = fluid.dew_pressure_pa(kelvin_from_fahrenheit(condensing_f));
    let rated = fluid.at_pt_vapour(suction_pa, kelvin_from_fahrenheit(evaporating_f + SUPERHEAT_F));
    let now = fluid.at_pt_vapour(suction_pa, suction_k);
    let ideal = |from: &media::refrigerant::Fluid| {
        fluid.at_ps_vapour(discharge_pa, from.entropy_j_kg_k).enthalpy_j_kg - from.enthalpy_j_kg
    };
    let share = 1.0 + 0.75 * (now.density_kg_m3 / rated.density_kg_m3 - 1.0);
    (
        share * flow_kg_s(evaporating_f, condensing_f),
        share * power_w(evaporating_f, condensing_f) * ideal(&now) / ideal(&rated),
    )
}

/// Whether a point lies where such a compressor is let run: no less than 30 °F of lift; condensing no higher than a line from 110 °F at -10 °F evaporating to 150 °F at 22 °F
/// (envelopes of air-conditioning scrolls, from memory). Beyond it the polynomial itself is not physical: its isentropic efficiency falls from 0.37 on that line to
/// 0.06 at -10 and 150 °F.
pub fn is_physical(evaporating_f: f64, condensing_f: f64) -> bool {
    condensing_f - evaporating_f >= 30.0 && condensing_f <= 110.0 + 1.25 * (evaporating_f + 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn its_own_superheat_changes_nothing() {
        let (flow, power) = at_suction(45.0, 110.0, kelvin_from_fahrenheit(65.0));
        assert!((flow / flow_kg_s(45.0, 110.0) - 1.0).abs() < 1e-9);
        assert!((power / power_w(45.0, 110.0) - 1.0).abs() < 1e-9);
        let (hot, _) = at_suction(45.0, 110.0, kelvin_from_fahrenheit(95.0));
        assert!(hot < flow);
    }
}
