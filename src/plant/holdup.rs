//! Liquid holdup of a two-phase zone with Zivi's slip, in closed form.
//!
//! Zivi 1964: slip ratio (rho_l/rho_v)^(1/3), so the void fraction is alpha(x) = x/(c + (1-c) x) with
//! c = (rho_v/rho_l)^(2/3). Heat flux is taken as uniform along the zone, so quality is linear in length.

use crate::root::falling_root;

/// Zivi's c for the densities of the two phases.
pub(crate) fn zivi(vapour_density_kg_m3: f64, liquid_density_kg_m3: f64) -> f64 {
    libm::cbrt((vapour_density_kg_m3 / liquid_density_kg_m3).clamp(1.0e-9, 0.99)).powi(2)
}

/// Mean liquid share of the volume of a zone in which the quality runs from `x1` to `x2`.
pub(crate) fn mean_holdup(c: f64, x1: f64, x2: f64) -> f64 {
    let dx = x2 - x1;
    let b = 1.0 - c;
    if dx.abs() < 1.0e-5 {
        return c * (1.0 - x1) / (c + b * x1);
    }
    let ratio = (c + b * x2) / (c + b * x1);
    1.0 - (1.0 / b - c / (b * b) * libm::log(ratio) / dx)
}

/// Quality at the far end of a zone that starts at `x1`, given its mean holdup; between `x_low` and
/// `x_high`. The mean holdup falls as the far end dries, so a bracket cannot fail.
pub(crate) fn end_quality(c: f64, x1: f64, mean: f64, x_low: f64, x_high: f64) -> f64 {
    let gap = |x: f64| mean_holdup(c, x1, x) - mean;
    let (at_low, at_high) = (gap(x_low), gap(x_high));
    if at_low <= 0.0 {
        return x_low;
    }
    if at_high >= 0.0 {
        return x_high;
    }
    let start = x_high - at_high * (x_high - x_low) / (at_high - at_low);
    // Six to eight steps reach 1e-6 here.
    falling_root((x_low, at_low), (x_high, at_high), start, 8, 1.0e-9, gap)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The closed form against a numerical mean of the void fraction.
    #[test]
    fn closed_mean_is_the_mean() {
        for (c, x1, x2) in [(0.1, 0.2, 1.0), (0.23, 0.0, 1.0), (0.2, 0.3, 0.35)] {
            let n = 20_000;
            let mean: f64 = (0..n)
                .map(|i| {
                    let x = x1 + (x2 - x1) * (f64::from(i) + 0.5) / f64::from(n);
                    1.0 - x / (c + (1.0 - c) * x)
                })
                .sum::<f64>()
                / f64::from(n);
            approx::assert_relative_eq!(mean_holdup(c, x1, x2), mean, max_relative = 1e-6);
        }
    }

    #[test]
    fn end_quality_inverts_the_mean() {
        for x in [0.25, 0.4, 0.7, 0.95] {
            let mean = mean_holdup(0.12, 0.2, x);
            approx::assert_abs_diff_eq!(end_quality(0.12, 0.2, mean, 0.2, 1.0), x, epsilon = 1e-4);
        }
    }
}
