//! How steep isentropes are: the exponent of a compression, from a table that is made of the property tables once.

use super::isobar::Isobar;
use super::table::{Column, Row, Table};
use crate::elementary::{exp, ln, place_on};

/// Ratio of pressures over which the exponent is a mean: about that of a scroll's built-in compression.
const RATIO: f64 = 2.8;
/// Coarse rows of the table to one of these, a power of two: a tenth of a pressure.
const COARSE_ROWS: usize = 8;
/// Cells from bubble to dew, and from dew over [`SPAN_J_KG_K`] of entropy; beyond that the exponent stands still.
const WET_CELLS: usize = 16;
const DRY_CELLS: usize = 24;
const CELLS: usize = WET_CELLS + DRY_CELLS;
const SPAN_J_KG_K: f64 = 600.0;
/// Logarithm of the ratio of volumes below which there is no compression to speak of, and what stands for its exponent.
const LEAST_LN: f64 = 1.0e-6;
const NO_COMPRESSION: f64 = 1.1;

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

    pub(super) fn new(table: &Table) -> Isentropes {
        let fine_rows = table.saturation.len() - 1;
        let rows = ((fine_rows as f64 * table.coarse_share) as usize).div_ceil(COARSE_ROWS);
        let of_row = |row: usize| {
            let fine = ((row * COARSE_ROWS) as f64 / table.coarse_share) as usize;
            let p = table
                .pressure_between_rows(fine.min(fine_rows - 1), if fine < fine_rows { 0.0 } else { 1.0 })
                .0;
            let start = Isobar::new(table, table.row(p));
            let end_pa = (p * RATIO).min(0.99 * table.highest_pressure_pa);
            let end = Isobar::new(table, table.row(end_pa));
            std::array::from_fn(|cell| {
                let entropy = entropy_at(start.row(), cell);
                let span =
                    ln(end.at_s_vapour(entropy).density_kg_m3 / start.at_s_vapour(entropy).density_kg_m3);
                (if span > LEAST_LN { ln(end_pa / p) / span } else { NO_COMPRESSION }) as f32
            })
        };
        Isentropes { rows: (0..=rows).map(of_row).collect() }
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
fn entropy_at(row: &Row, cell: usize) -> f64 {
    let (s_l, s_v) = (row.saturated[Column::LIQUID_ENTROPY], row.dew_entropy());
    if cell <= WET_CELLS {
        s_l + (s_v - s_l) * cell as f64 / WET_CELLS as f64
    } else {
        s_v + SPAN_J_KG_K * (cell - WET_CELLS) as f64 / DRY_CELLS as f64
    }
}

impl Isobar<'_> {
    /// Mean exponent of an isentropic compression to 2.8 times the pressure, from the state with a specific entropy: to some
    /// thousandths in vapour, to a hundredth in wet vapour. The pressure times the ratio of volumes to this power is that behind a
    /// built-in compression; work up to there hardly depends on it, since a pressure that is a little off is made up behind it.
    #[must_use]
    #[inline]
    pub fn isentropic_exponent(&self, entropy_j_kg_k: f64) -> f64 {
        self.table().isentropes.exponent(self.row(), entropy_j_kg_k)
    }

    /// Pressure at which the volume of a state with a specific entropy has shrunk by a ratio, by that exponent, Pa.
    #[must_use]
    pub fn compressed_pa(&self, entropy_j_kg_k: f64, volume_ratio: f64) -> f64 {
        self.row().pressure_pa
            * exp(self.isentropic_exponent(entropy_j_kg_k).clamp(0.9, 1.6) * ln(volume_ratio))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::refrigerant::Refrigerant;

    /// Against the tables, where scrolls work: in vapour to 0.5 %, wet to 2 %.
    #[test]
    fn exponent_is_that_of_the_tables() {
        for fluid in [Refrigerant::r410a(), Refrigerant::r32(), Refrigerant::r22(), Refrigerant::r454b()] {
            let (mut dry_worst, mut wet_worst) = (0.0_f64, 0.0_f64);
            for i in 0..60 {
                let p = 3.0e4 * exp(0.0667 * f64::from(i));
                let (start, end) = (fluid.isobar(p), fluid.isobar(RATIO * p));
                for k in 0..80 {
                    let (s_l, s_v) =
                        (start.row().saturated[Column::LIQUID_ENTROPY], start.row().dew_entropy());
                    let s = s_v
                        + if k < 20 {
                            0.5 * (s_l - s_v) * f64::from(20 - k) / 20.0
                        } else {
                            5.0 * f64::from(k - 20)
                        };
                    let span = ln(end.at_s_vapour(s).density_kg_m3 / start.at_s_vapour(s).density_kg_m3);
                    let off = (start.isentropic_exponent(s) * span / ln(RATIO) - 1.0).abs();
                    if k < 20 {
                        wet_worst = wet_worst.max(off)
                    } else {
                        dry_worst = dry_worst.max(off)
                    };
                }
            }
            assert!(dry_worst < 5.0e-3 && wet_worst < 2.0e-2, "{} {dry_worst} {wet_worst}", fluid.name());
        }
    }
}
