//! Saturation pressure of water from a table of the handbook's equations, for laws that are asked often.

use std::sync::LazyLock;

use crate::elementary::exp;
use crate::elementary::place_on;
use crate::moist_air::{TRIPLE_POINT_C, ln_saturation_pressure_and_slope};

/// Range, °C, and cells to a kelvin. Ice meets water at a border of cells.
const LOWEST_C: f64 = TRIPLE_POINT_C - 100.0;
const HIGHEST_C: f64 = TRIPLE_POINT_C + 100.0;
const CELLS_PER_K: f64 = 8.0;
const CELLS: usize = ((HIGHEST_C - LOWEST_C) * CELLS_PER_K) as usize;

/// Cubics through pressure and slope at both ends of a cell, by the share of it: right to 1e-10.
static CELLS_OF_PRESSURE: LazyLock<Vec<[f64; 4]>> = LazyLock::new(|| {
    (0..CELLS)
        .map(|cell| {
            let begins_c = LOWEST_C + cell as f64 / CELLS_PER_K;
            let ends_c = begins_c + 1.0 / CELLS_PER_K;
            // On the border itself each cell has its own phase.
            let inside = |t_c: f64, towards: f64| t_c + 1.0e-9 * (towards - t_c);
            let end = |t_c: f64, towards: f64| {
                let (ln_p, slope) = ln_saturation_pressure_and_slope(inside(t_c, towards));
                let p = exp(ln_p);
                (p, p * slope / CELLS_PER_K)
            };
            let ((a, a_slope), (b, b_slope)) = (end(begins_c, ends_c), end(ends_c, begins_c));
            let straight = b - a;
            [a, a_slope, 3.0 * straight - 2.0 * a_slope - b_slope, a_slope + b_slope - 2.0 * straight]
        })
        .collect()
});

/// Saturation pressure of water, Pa, and its derivative, Pa/K, at a temperature in °C.
#[inline]
pub(crate) fn pressure_and_slope(t_c: f64) -> (f64, f64) {
    if !(LOWEST_C..HIGHEST_C).contains(&t_c) {
        let (ln_p, slope) = ln_saturation_pressure_and_slope(t_c);
        let p = exp(ln_p);
        return (p, p * slope);
    }
    let at = (t_c - LOWEST_C) * CELLS_PER_K;
    let (cell, from) = place_on(at, (CELLS - 1) as f64);
    let share = at - from;
    let [a, b, c, d] = CELLS_OF_PRESSURE[cell];
    (a + share * (b + share * (c + share * d)), (b + share * (2.0 * c + share * 3.0 * d)) * CELLS_PER_K)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn table_is_the_equation() {
        for i in -9_990..9_990 {
            let t_c = f64::from(i) * 0.01 + 0.003;
            let (ln_p, ln_slope) = ln_saturation_pressure_and_slope(t_c);
            let (p, slope) = pressure_and_slope(t_c);
            assert!((p / exp(ln_p) - 1.0).abs() < 1.0e-9, "{t_c}: {p}");
            assert!((slope / (p * ln_slope) - 1.0).abs() < 1.0e-6, "{t_c}: {slope}");
        }
        let outside = pressure_and_slope(-150.0).0;
        assert_eq!(outside, exp(ln_saturation_pressure_and_slope(-150.0).0));
        assert!(pressure_and_slope(f64::NAN).0.is_nan());
    }
}
