//! Single-phase properties beside one saturation line, as differences from it.

use super::row::{ENTROPY, Numbers, Row, TEMPERATURE, VOLUME, between_with_slopes};
use crate::elementary::place_on;

/// Single-phase properties beside one saturation line.
#[derive(Debug)]
pub(super) struct SinglePhase {
    /// Cells along enthalpy; there is one node more.
    cells: usize,
    last_cell: f64,
    /// Coarse rows to one saturation row.
    coarse_share: f64,
    /// Scaled enthalpy, in squared cells, beyond which nothing changes any more.
    most_scaled: f64,
    /// Squared cells to a unit of enthalpy, a coarse row.
    scales_kg_j: Vec<f64>,
    /// Widths of the cells, inverse.
    cell_widths_inverse: Vec<f64>,
    /// Padded to four, so that a node never straddles a cache line.
    nodes: Vec<[f32; 4]>,
    /// Where a search by a column begins, row by row: see [`Starts`].
    starts: [Starts; 3],
}

/// From a column back to its cell. Columns are nearly straight in enthalpy, so the root of the share of the whole rise, in as many
/// bins as there are cells, leads to the cell or next to it.
#[derive(Debug)]
struct Starts {
    /// Inverse of the whole rise of each row.
    whole_inverse: Vec<f64>,
    /// Last node that is not above the beginning of a bin, row by row.
    nodes: Vec<u8>,
}

impl Starts {
    fn new(nodes: &[[f32; 4]], nodes_a_row: usize, column: usize) -> Starts {
        let bins = nodes_a_row - 1;
        let mut starts = Starts { whole_inverse: Vec::new(), nodes: Vec::with_capacity(nodes.len()) };
        for row in nodes.chunks_exact(nodes_a_row) {
            let whole = f64::from(row[bins][column]);
            starts.whole_inverse.push(1.0 / whole);
            let mut node = 0;
            for bin in 0..=bins {
                let share = bin as f64 / bins as f64;
                let begins = whole * share * share;
                while node + 1 < bins && f64::from(row[node + 1][column]) <= begins {
                    node += 1;
                }
                starts.nodes.push(node as u8);
            }
        }
        starts
    }

    /// Where to begin for a rise at a place between two rows.
    #[inline]
    fn at(&self, row: &Row, nodes_a_row: usize, rise: f64) -> usize {
        let (a, b) = (self.whole_inverse[row.coarse], self.whole_inverse[row.coarse + 1]);
        let bins = nodes_a_row - 1;
        let share = rise * (a + row.share * (b - a));
        let (bin, _) = place_on(share.sqrt() * bins as f64, bins as f64);
        let near = row.coarse * nodes_a_row + bin;
        usize::from(self.nodes[near].min(self.nodes[near + nodes_a_row]))
    }
}

/// A cell of a single-phase table, and a place in it.
struct Cell<'a> {
    near: &'a [[f32; 4]; 2],
    far: &'a [[f32; 4]; 2],
    share: f64,
    width_inverse: f64,
    at: f64,
}

impl Cell<'_> {
    /// The columns.
    #[inline(always)]
    fn values(&self) -> [f64; 3] {
        let far = [self.share * (1.0 - self.at), self.share * self.at];
        let near = [1.0 - self.at - far[0], self.at - far[1]];
        let mut values = [0.0; 3];
        for (k, value) in values.iter_mut().enumerate() {
            *value = near[0] * f64::from(self.near[0][k])
                + near[1] * f64::from(self.near[1][k])
                + (far[0] * f64::from(self.far[0][k]) + far[1] * f64::from(self.far[1][k]));
        }
        values
    }

    /// A column, its derivative by the place in the cell, and by the share of the far row.
    #[inline]
    fn value_and_slopes(&self, column: usize) -> (f64, f64, f64) {
        between_with_slopes(self.near, self.far, column, self.at, self.share)
    }
}

impl SinglePhase {
    /// `most_span`: how far enthalpy may leave the table before properties stand still, as a multiple of its width.
    pub(super) fn decode(
        numbers: &mut Numbers,
        rows: usize,
        coarse_share: f64,
        nodes_a_row: usize,
        most_span: f64,
    ) -> SinglePhase {
        let cells = nodes_a_row - 1;
        let cells_squared = (cells * cells) as f64;
        let scales_kg_j = (0..rows).map(|_| cells_squared / numbers.f64()).collect();
        let nodes: Vec<[f32; 4]> = (0..rows * nodes_a_row)
            .map(|_| {
                let [a, b, c] = std::array::from_fn(|_| numbers.f32());
                [a, b, c, 0.0]
            })
            .collect();
        let starts = [TEMPERATURE, VOLUME, ENTROPY].map(|column| Starts::new(&nodes, nodes_a_row, column));
        let cell_widths_inverse = (0..cells).map(|i| 1.0 / (2 * i + 1) as f64).collect();
        SinglePhase {
            cells,
            last_cell: (cells - 1) as f64,
            coarse_share,
            most_scaled: most_span * cells_squared,
            scales_kg_j,
            cell_widths_inverse,
            nodes,
            starts,
        }
    }

    #[inline(always)]
    fn cell(&self, row: &Row, mut scaled: f64) -> Cell<'_> {
        // Not `min`, which would turn a NaN into the limit.
        if scaled > self.most_scaled {
            scaled = self.most_scaled;
        }
        let (i, from) = place_on(scaled.sqrt(), self.last_cell);
        let near = row.coarse * (self.cells + 1) + i;
        let far = near + self.cells + 1;
        let width_inverse = self.cell_widths_inverse[i];
        Cell {
            near: self.pair(near),
            far: self.pair(far),
            share: row.share,
            width_inverse,
            at: (scaled - from * from) * width_inverse,
        }
    }

    #[inline(always)]
    fn pair(&self, first: usize) -> &[[f32; 4]; 2] {
        self.nodes[first..].first_chunk().expect("a node at either end of a cell")
    }

    /// Difference from saturation of temperature, p·v or volume, and entropy, for an enthalpy difference.
    #[inline(always)]
    pub(super) fn rise(&self, row: &Row, enthalpy_j_kg: f64) -> [f64; 3] {
        self.cell(row, enthalpy_j_kg * self.scale(row).0).values()
    }

    /// Difference from saturation of p·v or volume, and its derivative by ln p where the enthalpy difference has the
    /// given one.
    #[inline]
    pub(super) fn volume_rise_and_slope(
        &self,
        row: &Row,
        enthalpy_j_kg: f64,
        enthalpy_slope: f64,
    ) -> (f64, f64) {
        let (scale, scale_step) = self.scale(row);
        let scaled = enthalpy_j_kg * scale;
        let cell = self.cell(row, scaled);
        let (value, by_place, by_share) = cell.value_and_slopes(VOLUME);
        let share_slope = row.rows_per_ln * self.coarse_share;
        let scaled_slope = if scaled > self.most_scaled {
            0.0
        } else {
            enthalpy_slope * scale + enthalpy_j_kg * scale_step * share_slope
        };
        (value, by_place * scaled_slope * cell.width_inverse + by_share * share_slope)
    }

    /// Enthalpy difference from saturation for a difference of one column: the exact inverse of [`SinglePhase::rise`].
    /// Zero for a negative difference.
    pub(super) fn rise_enthalpy(&self, row: &Row, column: usize, rise: f64) -> f64 {
        if rise <= 0.0 {
            return 0.0;
        }
        let nodes = self.cells + 1;
        let near = &self.nodes[row.coarse * nodes..][..nodes];
        let far = &self.nodes[(row.coarse + 1) * nodes..][..nodes];
        let at = |i: usize| {
            let (a, b) = (f64::from(near[i][column]), f64::from(far[i][column]));
            a + row.share * (b - a)
        };
        let last = self.cells - 1;
        let mut low = self.starts[column].at(row, nodes, rise);
        let mut a = at(low);
        while low > 0 && a > rise {
            low -= 1;
            a = at(low);
        }
        let mut b = at(low + 1);
        while low < last && b <= rise {
            low += 1;
            (a, b) = (b, at(low + 1));
        }
        let (scale, width) = (self.scale(row).0, b - a);
        let from = f64::from(low as u32);
        let scaled = from * from * width + (rise - a) * (from + from + 1.0);
        if scaled > self.most_scaled * width { self.most_scaled / scale } else { scaled / (width * scale) }
    }

    /// Squared cells to a unit of enthalpy at a row, and its difference between the coarse rows.
    #[inline(always)]
    fn scale(&self, row: &Row) -> (f64, f64) {
        let (a, b) = (self.scales_kg_j[row.coarse], self.scales_kg_j[row.coarse + 1]);
        (a + row.share * (b - a), b - a)
    }
}
