//! Two-phase states of a blend along a zone: quality, enthalpy and temperature.
//!
//! A blend boils from bubble to dew over a range of temperature, its glide, and nothing inside the dome is linear in
//! quality. Pure and nearly pure refrigerants take the straight line, which is exact for their tables and cheaper.

use media::refrigerant::{Isobar, Saturation};

use crate::root::Bracket;

/// Glide below which a refrigerant counts as one that boils at one temperature, K. R-410A has about 0.1 K, R-454B more
/// than 1 K.
const NARROW_K: f64 = 0.5;

fn is_narrow(sat: &Saturation) -> bool {
    sat.dew_k - sat.bubble_k < NARROW_K
}

/// Quality at an enthalpy of an isobar with its saturation, not bounded to the dome for a narrow refrigerant, 0 to 1 for a blend.
pub(crate) fn quality(isobar: &Isobar<'_>, sat: &Saturation, enthalpy_j_kg: f64) -> f64 {
    if is_narrow(sat) {
        let hfg = sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg;
        (enthalpy_j_kg - sat.liquid_enthalpy_j_kg) / hfg
    } else {
        isobar.temperature_k_and_quality(enthalpy_j_kg).1
    }
}

/// Enthalpy, J/kg, and temperature, K, at a quality from 0 to 1.
pub(crate) fn at_quality(isobar: &Isobar<'_>, sat: &Saturation, quality: f64) -> (f64, f64) {
    let hfg = sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg;
    let straight = sat.liquid_enthalpy_j_kg + quality * hfg;
    if is_narrow(sat) {
        return (straight, sat.bubble_k + (sat.dew_k - sat.bubble_k) * quality);
    }
    let gap = |h: f64| quality - isobar.temperature_k_and_quality(h).1;
    let (low, high) = (sat.liquid_enthalpy_j_kg, sat.vapour_enthalpy_j_kg);
    let h = match Bracket::of((low, quality), (high, quality - 1.0)) {
        Ok(bracket) => bracket.root(straight, 8, 1.0e-7, gap),
        Err(end) => end,
    };
    (h, isobar.temperature_k(h))
}

/// Temperatures of a zone in which the enthalpy runs evenly between two values inside the dome, K.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Zone {
    /// Mean over the zone.
    pub mean_k: f64,
    /// From its coldest end to its warmest.
    pub span_k: f64,
}

/// Temperatures along a zone; a narrow refrigerant has `level_k`, the temperature of its whole level, everywhere.
pub(crate) fn zone(
    isobar: &Isobar<'_>,
    sat: &Saturation,
    from_j_kg: f64,
    to_j_kg: f64,
    level_k: f64,
) -> Zone {
    if is_narrow(sat) {
        return Zone { mean_k: level_k, span_k: 0.0 };
    }
    let inside = |h: f64| h.clamp(sat.liquid_enthalpy_j_kg, sat.vapour_enthalpy_j_kg);
    let (a, b) = (inside(from_j_kg), inside(to_j_kg));
    let at = |h: f64| isobar.temperature_k(h);
    // Simpson's rule; the ends of the dome itself are known.
    let end = |h: f64| {
        if h <= sat.liquid_enthalpy_j_kg {
            sat.bubble_k
        } else if h >= sat.vapour_enthalpy_j_kg {
            sat.dew_k
        } else {
            at(h)
        }
    };
    let (t_a, t_m, t_b) = (end(a), at(0.5 * (a + b)), end(b));
    Zone { mean_k: (t_a + 4.0 * t_m + t_b) / 6.0, span_k: (t_b - t_a).abs() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use media::refrigerant::Refrigerant;

    #[test]
    fn enthalpy_from_quality_is_the_inverse_of_quality_from_enthalpy() {
        for fluid in [Refrigerant::r454b(), Refrigerant::r32(), Refrigerant::r410a()] {
            for pressure_pa in [0.5e6, 1.0e6, 2.5e6] {
                let sat = fluid.saturation(pressure_pa);
                let isobar = fluid.isobar(pressure_pa);
                for x in [0.0, 0.02, 0.3, 0.5, 0.9, 1.0] {
                    let (h, _) = at_quality(&isobar, &sat, x);
                    approx::assert_abs_diff_eq!(quality(&isobar, &sat, h), x, epsilon = 1e-5);
                }
            }
        }
    }

    /// Mean temperature of a zone against a fine sum over the tables; the straight line would miss by more than the bound.
    #[test]
    fn mean_temperature_of_a_zone_of_a_blend() {
        let fluid = Refrigerant::r454b();
        let sat = fluid.saturation(0.95e6);
        let hfg = sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg;
        for (x1, x2) in [(0.2, 1.0), (0.0, 1.0), (0.25, 0.8)] {
            let (a, b) = (sat.liquid_enthalpy_j_kg + x1 * hfg, sat.liquid_enthalpy_j_kg + x2 * hfg);
            let n = 4000;
            let fine: f64 = (0..n)
                .map(|i| fluid.at_ph(0.95e6, a + (b - a) * (f64::from(i) + 0.5) / f64::from(n)).temperature_k)
                .sum::<f64>()
                / f64::from(n);
            let zone = zone(&fluid.isobar(0.95e6), &sat, a, b, 300.0);
            approx::assert_abs_diff_eq!(zone.mean_k, fine, epsilon = 0.03);
            assert!(zone.span_k > 0.5 && zone.span_k < 1.6, "{}", zone.span_k);
        }
    }
}
