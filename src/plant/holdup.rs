//! Liquid holdup of a two-phase zone with Zivi's slip, in closed form.
//!
//! Zivi 1964: slip ratio (rho_l/rho_v)^(1/3), so the void fraction is alpha(x) = x/(c + (1-c) x) with
//! c = (rho_v/rho_l)^(2/3). Heat flux is taken as uniform along the zone, so quality is linear in length.

use crate::kept::Kept;
use crate::root::Bracket;
use media::elementary::ln;

/// Zivi's c for the densities of the two phases.
pub(crate) fn zivi(kept: &mut Kept, vapour_density_kg_m3: f64, liquid_density_kg_m3: f64) -> f64 {
    kept.power((vapour_density_kg_m3 / liquid_density_kg_m3).clamp(1.0e-9, 0.99), 2.0 / 3.0)
}

/// Mean liquid share of the volume of a zone in which the quality runs from `x1` to `x2`.
pub(crate) fn mean_holdup(c: f64, x1: f64, x2: f64) -> f64 {
    let dx = x2 - x1;
    let b = 1.0 - c;
    if dx.abs() < 1.0e-5 {
        return c * (1.0 - x1) / (c + b * x1);
    }
    let ratio = (c + b * x2) / (c + b * x1);
    1.0 - (1.0 / b - c / (b * b) * ln(ratio) / dx)
}

/// Quality at the far end of a zone that starts at `x1`, given its mean holdup; between the qualities `ends`, named in any
/// order. Outside what they allow it is the end that comes nearer.
pub(crate) fn end_quality(c: f64, x1: f64, mean: f64, ends: [f64; 2]) -> f64 {
    let gap = |x: f64| mean_holdup(c, x1, x) - mean;
    // The mean moves with the far end by what that holds beyond it.
    let gap_and_slope = |x: f64| {
        let zone_mean = mean_holdup(c, x1, x);
        let holds = c * (1.0 - x) / (c + (1.0 - c) * x);
        (zone_mean - mean, (holds - zone_mean) / (x - x1))
    };
    let [a, b] = ends;
    match Bracket::of((a, gap(a)), (b, gap(b))) {
        // Three or four steps reach it.
        Ok(bracket) => bracket.newton(bracket.secant(), 12, 1.0e-9, gap_and_slope),
        Err(end) => end,
    }
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

    /// A zone that dries (an evaporator's) and one that fills with liquid (a condenser's), with the ends in either order.
    #[test]
    fn end_quality_inverts_the_mean() {
        for (x1, far) in [(0.2, 1.0), (1.0, 0.0)] {
            for share in [0.05, 0.25, 0.6, 0.95] {
                let x = x1 + (far - x1) * share;
                let mean = mean_holdup(0.12, x1, x);
                for ends in [[x1, far], [far, x1]] {
                    approx::assert_abs_diff_eq!(end_quality(0.12, x1, mean, ends), x, epsilon = 1e-4);
                }
            }
        }
    }

    #[test]
    fn a_mean_that_no_end_can_give_takes_the_nearest() {
        assert_eq!(end_quality(0.12, 1.0, 0.0, [0.0, 1.0]), 1.0);
        assert_eq!(end_quality(0.12, 1.0, 0.9, [0.0, 1.0]), 0.0);
    }
}
