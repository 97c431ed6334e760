//! From a saturated property back to pressure, without a search.

use super::row::Columns;
use super::saturated::SaturationRows;
use crate::elementary::place_on;

/// A rising column of the saturation table, indexed by its own value.
///
/// Each of the equal bins of the value holds the table row at which it begins, so a look-up starts at most a row or two
/// from its answer and is the exact inverse of the forward interpolation.
#[derive(Debug)]
pub(super) struct Inverse {
    column: usize,
    lowest: f64,
    highest: f64,
    bins_per_unit: f64,
    last_bin: f64,
    first_row: Vec<u32>,
}

impl Inverse {
    pub(super) fn new(rows: &SaturationRows, column: usize) -> Inverse {
        let columns = &rows.columns;
        let rows = columns.len();
        let lowest = columns[0][column];
        let highest = columns[rows - 1][column];
        let bins_per_unit = rows as f64 / (highest - lowest);
        let mut row = 0_usize;
        let first_row = (0..=rows)
            .map(|bin| {
                let value = lowest + bin as f64 / bins_per_unit;
                while row + 2 < rows && columns[row + 1][column] <= value {
                    row += 1;
                }
                row as u32
            })
            .collect();
        Inverse { column, lowest, highest, bins_per_unit, last_bin: rows as f64, first_row }
    }

    /// Pressure, Pa, at which the column has this value, clamped to the table.
    #[inline]
    pub(super) fn pressure_pa(&self, rows: &SaturationRows, value: f64) -> f64 {
        let found = self.find(rows, value);
        rows.pressure_between_rows(found.row, found.share).0
    }

    /// Pressure, Pa, at which the column has this value, clamped to the table, and all columns there.
    #[inline]
    pub(super) fn pressure_and_columns(&self, rows: &SaturationRows, value: f64) -> (f64, Columns) {
        let found = self.find(rows, value);
        (rows.pressure_between_rows(found.row, found.share).0, rows.between(found.row, found.share))
    }

    /// Pressure, Pa, at which the column has this value, and its derivative by the value; clamped to the table.
    #[inline]
    pub(super) fn pressure_and_slope(&self, rows: &SaturationRows, value: f64) -> (f64, f64) {
        let Found { row, share, width_inverse, inside } = self.find(rows, value);
        let (p, slope) = rows.pressure_between_rows(row, share);
        (p, if inside { slope * width_inverse } else { 0.0 })
    }

    #[inline]
    fn find(&self, rows: &SaturationRows, value: f64) -> Found {
        let inside = value.clamp(self.lowest, self.highest);
        let (bin, _) = place_on((inside - self.lowest) * self.bins_per_unit, self.last_bin);
        // Rounding may put the value one bin up; a step back costs nothing.
        let mut row = (self.first_row[bin] as usize).saturating_sub(1);
        let last = rows.columns.len() - 2;
        while row < last && rows.columns[row + 1][self.column] < inside {
            row += 1;
        }
        let (a, b) = (rows.columns[row][self.column], rows.columns[row + 1][self.column]);
        let width_inverse = 1.0 / (b - a);
        Found { row, share: (inside - a) * width_inverse, width_inverse, inside: value == inside }
    }
}

/// A place between two rows.
struct Found {
    row: usize,
    share: f64,
    /// Inverse of what the column gains from row to row.
    width_inverse: f64,
    /// Whether the value lies in the table.
    inside: bool,
}
