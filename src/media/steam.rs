//! Saturation pressure of water by the handbook's equations (moist_air says which handbook), and from a table of them for laws that are asked often.

use std::sync::LazyLock;

use crate::elementary::{exp, ln, place_on};

const ZERO_C_K: f64 = 273.15;
/// Triple point of water, °C.
pub(crate) const TRIPLE_POINT_C: f64 = 0.01;

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

/// ln of saturation pressure in Pa, and its derivative by temperature. Handbook equations 5 and 6.
pub(crate) fn ln_saturation_pressure_and_slope(t_c: f64) -> (f64, f64) {
    let t = t_c + ZERO_C_K;
    let ln_t = ln(t);
    if t_c <= TRIPLE_POINT_C {
        const C: [f64; 7] = [
            -5.674_535_9e3,
            6.392_524_7,
            -9.677_843_0e-3,
            6.221_570_1e-7,
            2.074_782_5e-9,
            -9.484_024_0e-13,
            4.163_501_9,
        ];
        (
            C[0] / t + C[1] + t * (C[2] + t * (C[3] + t * (C[4] + t * C[5]))) + C[6] * ln_t,
            -C[0] / (t * t) + C[2] + t * (2.0 * C[3] + t * (3.0 * C[4] + t * 4.0 * C[5])) + C[6] / t,
        )
    } else {
        const C: [f64; 6] =
            [-5.800_220_6e3, 1.391_499_3, -4.864_023_9e-2, 4.176_476_8e-5, -1.445_209_3e-8, 6.545_967_3];
        (
            C[0] / t + C[1] + t * (C[2] + t * (C[3] + t * C[4])) + C[5] * ln_t,
            -C[0] / (t * t) + C[2] + t * (2.0 * C[3] + t * 3.0 * C[4]) + C[5] / t,
        )
    }
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
