//! How steep isentropes are: the exponent of a compression, from a table that is made of the property tables once.

use super::row::{Column, Row};
use crate::elementary::place_on;

/// Ratio of pressures over which the exponent is a mean: about that of a scroll's built-in compression.
pub(super) const RATIO: f64 = 2.8;
/// Coarse rows of the table to one of these, a power of two: a tenth of a pressure.
const COARSE_ROWS: usize = 8;
/// Cells from bubble to dew, and from dew over [`SPAN_J_KG_K`] of entropy; beyond that the exponent stands still.
const WET_CELLS: usize = 16;
const DRY_CELLS: usize = 24;
pub(super) const CELLS: usize = WET_CELLS + DRY_CELLS;
const SPAN_J_KG_K: f64 = 600.0;
/// Logarithm of the ratio of volumes below which there is no compression to speak of, and what stands for its exponent.
pub(super) const LEAST_LN: f64 = 1.0e-6;
pub(super) const NO_COMPRESSION: f64 = 1.1;

/// Exponents over even steps of entropy, row by row; linear between nodes, to some thousandths.
#[derive(Debug)]
pub(super) struct Isentropes {
    rows: Vec<[f32; CELLS + 1]>,
}

impl Isentropes {
    /// Stands in a table that is still being read.
    pub(super) fn empty() -> Isentropes {
        Isentropes { rows: Vec::new() }
    }

    /// The table of exponents over saturation rows, `fine_rows` + 1 of them; the exponent of a cell is asked by saturation row.
    pub(super) fn new(
        fine_rows: usize,
        coarse_share: f64,
        exponents: impl Fn(usize) -> [f32; CELLS + 1],
    ) -> Isentropes {
        let rows = ((fine_rows as f64 * coarse_share) as usize).div_ceil(COARSE_ROWS);
        let fine = |row: usize| ((row * COARSE_ROWS) as f64 / coarse_share) as usize;
        Isentropes { rows: (0..=rows).map(|row| exponents(fine(row))).collect() }
    }

    /// The exponent from a state at a pressure with an entropy.
    #[inline]
    pub(super) fn exponent(&self, row: &Row, entropy_j_kg_k: f64) -> f64 {
        let (index, part) = (row.coarse / COARSE_ROWS, row.coarse % COARSE_ROWS);
        let share = (f64::from(part as u32) + row.share) * (1.0 / COARSE_ROWS as f64);
        let (s_l, s_v) = (row.saturated[Column::LIQUID_ENTROPY], row.dew_entropy());
        let over = entropy_j_kg_k - s_v;
        let at = if over >= 0.0 {
            WET_CELLS as f64 + (over * (DRY_CELLS as f64 / SPAN_J_KG_K)).min(DRY_CELLS as f64)
        } else {
            (WET_CELLS as f64 * (1.0 + over / (s_v - s_l))).max(0.0)
        };
        let (cell, from) = place_on(at, (CELLS - 1) as f64);
        let (near, far) = (&self.rows[index], &self.rows[index + 1]);
        let along = |row: &[f32; CELLS + 1]| {
            let (a, b) = (f64::from(row[cell]), f64::from(row[cell + 1]));
            a + (at - from) * (b - a)
        };
        let (a, b) = (along(near), along(far));
        a + share * (b - a)
    }
}

/// Entropy at a node of a row.
pub(super) fn entropy_at(row: &Row, cell: usize) -> f64 {
    let (s_l, s_v) = (row.saturated[Column::LIQUID_ENTROPY], row.dew_entropy());
    if cell <= WET_CELLS {
        s_l + (s_v - s_l) * cell as f64 / WET_CELLS as f64
    } else {
        s_v + SPAN_J_KG_K * (cell - WET_CELLS) as f64 / DRY_CELLS as f64
    }
}
