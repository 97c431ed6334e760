//! The saturation rows of a table: every column, and the pressure of each row.

use super::row::{Columns, SATURATION_COLUMNS};
use crate::elementary::{exp, ln};

/// `c` of the row coordinate `z`.
pub(super) const STRETCH: f64 = 2.0;

/// Rows that are uniform in the row coordinate `z`.
#[derive(Debug)]
pub(super) struct SaturationRows {
    pub(super) columns: Vec<Columns>,
    /// Pressure of every row, and its derivative by the row, Pa.
    pressures: Vec<[f64; 2]>,
}

impl SaturationRows {
    /// Rows between two pressures, Pa; their pressures are found by bisection, once.
    pub(super) fn new(
        columns: Vec<Columns>,
        ends_pa: (f64, f64),
        lowest_z: f64,
        rows_per_z: f64,
        critical_pressure_inverse: f64,
    ) -> SaturationRows {
        let ends = (ln(ends_pa.0), ln(ends_pa.1));
        let pressures = (0..columns.len())
            .map(|row| {
                let z = lowest_z + row as f64 / rows_per_z;
                let (mut low, mut high) = ends;
                for _ in 0..50 {
                    let middle = f64::midpoint(low, high);
                    if row_coordinate(exp(middle) * critical_pressure_inverse, middle) < z {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                let p = exp(f64::midpoint(low, high));
                let reduced = p * critical_pressure_inverse;
                [p, p / (rows_per_z * coordinate_slope(reduced, (1.0 - reduced).sqrt()))]
            })
            .collect();
        SaturationRows { columns, pressures }
    }

    /// All columns at a place between two rows.
    #[inline]
    pub(super) fn between(&self, row: usize, share: f64) -> Columns {
        let (a, b) = (&self.columns[row], &self.columns[row + 1]);
        let mut columns = *a;
        for k in 0..SATURATION_COLUMNS {
            columns[k] = a[k] + share * (b[k] - a[k]);
        }
        columns
    }

    /// Pressure at a place between saturation rows, and its derivative by the row: the inverse of where a table finds a pressure. Rows are so
    /// close that the cubic through pressures and slopes at both is right to 1e-12.
    #[inline]
    pub(super) fn pressure_between_rows(&self, row: usize, share: f64) -> (f64, f64) {
        let ([a, a_slope], [b, b_slope]) = (self.pressures[row], self.pressures[row + 1]);
        let straight = b - a;
        let square = (straight - a_slope) + (straight - a_slope) + (straight - b_slope);
        let cube = (a_slope - straight) + (b_slope - straight);
        (
            a + share * (a_slope + share * (square + share * cube)),
            a_slope + share * (2.0 * square + share * 3.0 * cube),
        )
    }
}

/// The coordinate in which rows are uniform.
#[inline]
pub(super) fn row_coordinate(reduced_pressure: f64, ln_p: f64) -> f64 {
    ln_p - STRETCH * (1.0 - reduced_pressure).sqrt()
}

/// Derivative of the row coordinate by ln p.
#[inline]
pub(super) fn coordinate_slope(reduced_pressure: f64, root: f64) -> f64 {
    1.0 + STRETCH * reduced_pressure / (2.0 * root)
}
