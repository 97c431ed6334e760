//! Inside the dome of a blend whose bubble and dew temperatures differ.
//!
//! The vapour of such a blend is richer in the more volatile fluid, so at one pressure no property is linear in
//! enthalpy. A table of shares bends them: how far from bubble (0) to dew (1) each has come.

use super::row::{Numbers, Row, between_with_slopes};
use crate::elementary::place_on;

/// Index of a column: temperature.
const TEMPERATURE: usize = 0;
/// Index of a column: vapour mass fraction.
const QUALITY: usize = 1;
/// Index of a column: specific volume.
pub(super) const VOLUME: usize = 2;
/// Index of a column: specific entropy.
pub(super) const ENTROPY: usize = 3;

/// Shares over even steps of the share of enthalpy, for every coarse row; linear between nodes.
#[derive(Debug)]
pub(super) struct Dome {
    cells: usize,
    /// Coarse rows to one saturation row.
    coarse_share: f64,
    nodes: Vec<[f32; 4]>,
}

/// How far from bubble (0) to dew (1) each property of a state has come.
pub(super) struct Shares {
    pub(super) temperature: f64,
    /// Vapour mass fraction.
    pub(super) quality: f64,
    pub(super) volume: f64,
    pub(super) entropy: f64,
}

impl Shares {
    /// Everything linear in enthalpy, as in a pure fluid.
    #[inline]
    pub(super) fn linear(of_enthalpy: f64) -> Shares {
        let share = of_enthalpy;
        Shares { temperature: share, quality: share, volume: share, entropy: share }
    }
}

/// A cell of the table, and a place in it.
struct Cell<'a> {
    near: &'a [[f32; 4]],
    far: &'a [[f32; 4]],
    at: f64,
    share: f64,
}

impl Cell<'_> {
    /// A column, its derivative by the place in the cell, and by the share of the far row.
    #[inline]
    fn value_and_slopes(&self, column: usize) -> (f64, f64, f64) {
        between_with_slopes(self.near, self.far, column, self.at, self.share)
    }
}

impl Dome {
    pub(super) fn decode(numbers: &mut Numbers, rows: usize, coarse_share: f64, nodes_a_row: usize) -> Dome {
        let nodes = (0..rows * nodes_a_row).map(|_| std::array::from_fn(|_| numbers.f32())).collect();
        Dome { cells: nodes_a_row - 1, coarse_share, nodes }
    }

    /// For a share of enthalpy between 0 and 1.
    #[inline]
    pub(super) fn shares(&self, row: &Row, of_enthalpy: f64) -> Shares {
        let cell = self.cell(row, of_enthalpy);
        let share = |column: usize| cell.value_and_slopes(column).0.clamp(0.0, 1.0);
        Shares {
            temperature: share(TEMPERATURE),
            quality: share(QUALITY),
            volume: share(VOLUME),
            entropy: share(ENTROPY),
        }
    }

    /// Share of volume, and its derivative by ln p where the share of enthalpy has the given one.
    #[inline]
    pub(super) fn volume_share_and_slope(
        &self,
        row: &Row,
        of_enthalpy: f64,
        enthalpy_share_slope: f64,
    ) -> (f64, f64) {
        let (value, by_place, by_row) = self.cell(row, of_enthalpy).value_and_slopes(VOLUME);
        let row_slope = row.rows_per_ln * self.coarse_share;
        (value, by_place * enthalpy_share_slope * self.cells as f64 + by_row * row_slope)
    }

    /// Share of enthalpy at which a column has this share: the inverse of [`Dome::shares`].
    pub(super) fn enthalpy_share(&self, row: &Row, column: usize, share: f64) -> f64 {
        let near = row.coarse * (self.cells + 1);
        let far = near + self.cells + 1;
        let node = |i: usize| {
            let (a, b) = (f64::from(self.nodes[near + i][column]), f64::from(self.nodes[far + i][column]));
            a + row.share * (b - a)
        };
        let cell = (1..self.cells).find(|&i| node(i) > share).unwrap_or(self.cells) - 1;
        let (a, b) = (node(cell), node(cell + 1));
        (cell as f64 + (share - a) / (b - a)) / self.cells as f64
    }

    #[inline]
    fn cell(&self, row: &Row, of_enthalpy: f64) -> Cell<'_> {
        let scaled = of_enthalpy * self.cells as f64;
        let (cell, from) = place_on(scaled, (self.cells - 1) as f64);
        let near = row.coarse * (self.cells + 1) + cell;
        let far = near + self.cells + 1;
        Cell {
            near: &self.nodes[near..near + 2],
            far: &self.nodes[far..far + 2],
            at: scaled - from,
            share: row.share,
        }
    }
}
