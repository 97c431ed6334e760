//! The table behind a refrigerant: how it is laid out, read and looked up.
//!
//! A file is lines of `key value` in UTF-8, an empty line, then little-endian numbers:
//! 1. saturation rows, `f64`, uniform in `z` (below): bubble K, dew K, liquid volume m³/kg, vapour p·v J/kg, liquid and vapour
//!    enthalpy J/kg, liquid and vapour entropy J/(kg K), liquid and vapour heat capacity J/(kg K);
//! 2. vapour spans, `f64`, J/kg, one a coarse row: enthalpy from dew to the hottest vapour;
//! 3. vapour nodes, `f32`, row by row: rise over the dew state of temperature, p·v and entropy;
//! 4. liquid spans, then liquid nodes likewise: fall under the bubble state of temperature, volume and entropy;
//! 5. where the header has `dome_nodes`, dome nodes, `f32`, coarse row by coarse row: at even steps of enthalpy from
//!    bubble to dew, the vapour mass fraction, and the share of the way from bubble to dew of temperature, volume and
//!    entropy (order: temperature, vapour mass fraction, volume, entropy).
//!
//! Rows are uniform in `z = ln p - c sqrt(1 - p/p_c)`: the logarithm serves low pressures, and the root straightens the
//! saturation curves towards the critical pressure, where in ln p they end vertically.
//! Coarse rows lie on every n-th saturation row. Nodes lie at the squares of an even grid, fraction `(i/n)²` of the
//! span, so that they crowd near saturation, where properties curve most near the critical point.
//! Everything between nodes is linear, hence monotone wherever the nodes are, and every inverse is exact.

use super::dome::Dome;
use super::inverse::Inverse;
use super::{HIGHEST_PRESSURE_PA, LOWEST_PRESSURE_PA};
use crate::elementary::{exp, ln};

const FORMAT: &str = "rimebench refrigerant table 1";
/// `c` of the row coordinate `z`.
const STRETCH: f64 = 2.0;
const SATURATION_COLUMNS: usize = 10;

/// All saturation columns at one pressure.
pub(super) type Columns = [f64; SATURATION_COLUMNS];

/// Index of a saturation column.
pub(super) struct Column;

impl Column {
    pub(super) const BUBBLE_K: usize = 0;
    pub(super) const DEW_K: usize = 1;
    pub(super) const LIQUID_VOLUME: usize = 2;
    pub(super) const VAPOUR_PV: usize = 3;
    pub(super) const LIQUID_ENTHALPY: usize = 4;
    pub(super) const VAPOUR_ENTHALPY: usize = 5;
    pub(super) const LIQUID_ENTROPY: usize = 6;
    pub(super) const VAPOUR_ENTROPY: usize = 7;
    pub(super) const LIQUID_CP: usize = 8;
    pub(super) const VAPOUR_CP: usize = 9;
}

/// Index of a single-phase column: temperature, K.
pub(super) const TEMPERATURE: usize = 0;
/// Index of a single-phase column: p·v (vapour) or volume (liquid).
pub(super) const VOLUME: usize = 1;
/// Index of a single-phase column: entropy, J/(kg K).
pub(super) const ENTROPY: usize = 2;

#[derive(Debug)]
pub(super) struct Table {
    pub(super) name: &'static str,
    pub(super) source: &'static str,
    pub(super) lowest_pressure_pa: f64,
    pub(super) highest_pressure_pa: f64,
    pub(super) highest_vapour_temperature_k: f64,
    critical_pressure_inverse: f64,
    pub(super) lowest_z: f64,
    pub(super) rows_per_z: f64,
    pub(super) saturation: Vec<Columns>,
    pub(super) ln_pressures: Vec<f64>,
    /// Coarse rows to one saturation row.
    coarse_share: f64,
    last_coarse: usize,
    pub(super) vapour: SinglePhase,
    pub(super) liquid: SinglePhase,
    /// Only of a blend for which linear is not good enough.
    pub(super) dome: Option<Dome>,
    pub(super) dew: Inverse,
    pub(super) bubble: Inverse,
    pub(super) bubble_enthalpy: Inverse,
}

/// Where a pressure lies among the saturation rows.
struct Place {
    row: usize,
    share: f64,
    rows_per_ln: f64,
}

/// The table at one pressure.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) pressure_pa: f64,
    pub(super) saturated: Columns,
    /// Factor on liquid volumes above the table's top; 1 elsewhere.
    pub(super) squeeze: f64,
    /// Gain of vapour entropy below the table's bottom; 0 elsewhere.
    thin_entropy: f64,
    /// Saturation row below.
    fine: usize,
    /// Saturation rows to a unit of ln p; 0 outside the table, where nothing changes.
    pub(super) rows_per_ln: f64,
    pub(super) coarse: usize,
    pub(super) share: f64,
}

impl Row {
    #[inline]
    pub(super) fn bubble_enthalpy(&self) -> f64 {
        self.saturated[Column::LIQUID_ENTHALPY]
    }
    #[inline]
    pub(super) fn dew_enthalpy(&self) -> f64 {
        self.saturated[Column::VAPOUR_ENTHALPY]
    }
    #[inline]
    pub(super) fn dew_entropy(&self) -> f64 {
        self.saturated[Column::VAPOUR_ENTROPY] + self.thin_entropy
    }
    #[inline]
    pub(super) fn liquid_volume(&self) -> f64 {
        self.saturated[Column::LIQUID_VOLUME] * self.squeeze
    }
    #[inline]
    pub(super) fn vapour_volume(&self) -> f64 {
        self.saturated[Column::VAPOUR_PV] / self.pressure_pa
    }
}

impl Table {
    pub(super) fn reduced_pressure(&self, pressure_pa: f64) -> f64 {
        pressure_pa * self.critical_pressure_inverse
    }

    #[inline]
    pub(super) fn row(&self, pressure_pa: f64) -> Row {
        let p = pressure_pa.clamp(LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA);
        self.row_of(p, ln(p))
    }

    /// The table at a pressure whose logarithm is known.
    #[inline]
    pub(super) fn row_of(&self, pressure_pa: f64, ln_p: f64) -> Row {
        let place = self.place(pressure_pa, ln_p);
        let coarse_at = (place.row as f64 + place.share) * self.coarse_share;
        let coarse = (coarse_at as usize).min(self.last_coarse - 1);
        let mut row = Row {
            pressure_pa,
            saturated: self.columns_between(place.row, place.share),
            squeeze: 1.0,
            thin_entropy: 0.0,
            fine: place.row,
            rows_per_ln: place.rows_per_ln,
            coarse,
            share: coarse_at - coarse as f64,
        };
        if pressure_pa > self.highest_pressure_pa {
            row.squeeze = self.highest_pressure_pa / pressure_pa;
        } else if pressure_pa < self.lowest_pressure_pa {
            let gas_constant = row.saturated[Column::VAPOUR_PV] / row.saturated[Column::DEW_K];
            row.thin_entropy = gas_constant * ln(self.lowest_pressure_pa / pressure_pa);
        }
        row
    }

    #[inline]
    pub(super) fn columns_between(&self, row: usize, share: f64) -> Columns {
        let (a, b) = (&self.saturation[row], &self.saturation[row + 1]);
        let mut columns = *a;
        for k in 0..SATURATION_COLUMNS {
            columns[k] = a[k] + share * (b[k] - a[k]);
        }
        columns
    }

    /// All saturation columns at a pressure, which is clamped to the table.
    #[inline]
    pub(super) fn saturated(&self, pressure_pa: f64) -> Columns {
        let place = self.place(pressure_pa, ln(pressure_pa));
        self.columns_between(place.row, place.share)
    }

    /// One saturation column at a pressure, which is clamped to the table.
    #[inline]
    pub(super) fn saturated_value(&self, pressure_pa: f64, column: usize) -> f64 {
        let p = pressure_pa.clamp(self.lowest_pressure_pa, self.highest_pressure_pa);
        let place = self.place(p, ln(p));
        let (a, b) = (self.saturation[place.row][column], self.saturation[place.row + 1][column]);
        a + place.share * (b - a)
    }

    /// Derivative of a saturation column by ln p.
    #[inline]
    pub(super) fn saturation_slope(&self, row: &Row, column: usize) -> f64 {
        (self.saturation[row.fine + 1][column] - self.saturation[row.fine][column]) * row.rows_per_ln
    }

    #[inline]
    fn place(&self, pressure_pa: f64, ln_p: f64) -> Place {
        let last = self.saturation.len() - 1;
        if pressure_pa < self.lowest_pressure_pa {
            return Place { row: 0, share: 0.0, rows_per_ln: 0.0 };
        }
        if pressure_pa >= self.highest_pressure_pa {
            return Place { row: last - 1, share: 1.0, rows_per_ln: 0.0 };
        }
        let reduced = pressure_pa * self.critical_pressure_inverse;
        let root = (1.0 - reduced).sqrt();
        let at = (ln_p - STRETCH * root - self.lowest_z) * self.rows_per_z;
        let row = (at as usize).min(last - 1);
        Place { row, share: at - row as f64, rows_per_ln: self.rows_per_z * coordinate_slope(reduced, root) }
    }

    /// ln(pressure) of every saturation row, each by bisection, once.
    fn ln_pressures_of_rows(&self) -> Vec<f64> {
        let ends = (ln(self.lowest_pressure_pa), ln(self.highest_pressure_pa));
        (0..self.saturation.len())
            .map(|row| {
                let z = self.lowest_z + row as f64 / self.rows_per_z;
                let (mut low, mut high) = ends;
                for _ in 0..50 {
                    let middle = f64::midpoint(low, high);
                    if row_coordinate(exp(middle) * self.critical_pressure_inverse, middle) < z {
                        low = middle;
                    } else {
                        high = middle;
                    }
                }
                f64::midpoint(low, high)
            })
            .collect()
    }

    /// Pressure at a place between saturation rows: the inverse of [`Table::place`].
    #[inline]
    pub(super) fn pressure_between_rows(&self, row: usize, share: f64) -> f64 {
        let z = self.lowest_z + (row as f64 + share) / self.rows_per_z;
        let (a, b) = (self.ln_pressures[row], self.ln_pressures[row + 1]);
        let ln_p = a + share * (b - a);
        // Rows are so close that the straight line is right to 1e-5 and one step of Newton's method to rounding.
        let p = exp(ln_p);
        let reduced = p * self.critical_pressure_inverse;
        let root = (1.0 - reduced).sqrt();
        let step = (ln_p - STRETCH * root - z) / coordinate_slope(reduced, root);
        p * (1.0 - step + 0.5 * step * step)
    }

    /// Reads a table file that is part of the program.
    ///
    /// # Panics
    /// When the bytes are not such a table: they are compiled in, so this is a defect of the build.
    pub(super) fn decode(bytes: &'static [u8]) -> Table {
        let end = bytes.windows(2).position(|w| w == b"\n\n").expect("table header ends with an empty line");
        let header = std::str::from_utf8(&bytes[..end]).expect("table header is text");
        let mut numbers = Numbers { rest: &bytes[end + 2..] };
        let mut lines = header.lines();
        assert_eq!(lines.next(), Some(FORMAT), "table format");
        let pairs: Vec<(&'static str, &'static str)> =
            lines.filter_map(|line| line.split_once(' ')).collect();
        let find = |key: &str| pairs.iter().find(|(k, _)| *k == key).map(|(_, v)| *v);
        let text = |key: &str| find(key).unwrap_or_else(|| panic!("table header lacks {key}"));
        let number = |key: &str| -> f64 { text(key).parse().expect("table header number") };
        let count = |key: &str| -> usize { text(key).parse().expect("table header count") };

        let rows = count("saturation_rows");
        let coarse_rows = count("single_phase_rows");
        let (lowest_pressure_pa, highest_pressure_pa) =
            (number("lowest_pressure_pa"), number("highest_pressure_pa"));
        let critical_pressure_pa = number("critical_pressure_pa");
        let z = |p: f64| row_coordinate(p / critical_pressure_pa, ln(p));
        let (lowest_z, highest_z) = (z(lowest_pressure_pa), z(highest_pressure_pa));
        let saturation: Vec<Columns> = (0..rows).map(|_| std::array::from_fn(|_| numbers.f64())).collect();
        let coarse_share = (coarse_rows - 1) as f64 / (rows - 1) as f64;
        let vapour =
            SinglePhase::decode(&mut numbers, coarse_rows, coarse_share, count("vapour_nodes"), 50.0);
        let liquid = SinglePhase::decode(&mut numbers, coarse_rows, coarse_share, count("liquid_nodes"), 1.5);
        let dome = find("dome_nodes")
            .map(|_| Dome::decode(&mut numbers, coarse_rows, coarse_share, count("dome_nodes")));
        assert!(numbers.rest.is_empty(), "table has numbers to spare");
        let mut table = Table {
            name: text("name"),
            source: text("source"),
            lowest_pressure_pa,
            highest_pressure_pa,
            highest_vapour_temperature_k: number("highest_vapour_temperature_k"),
            critical_pressure_inverse: 1.0 / critical_pressure_pa,
            lowest_z,
            rows_per_z: (rows - 1) as f64 / (highest_z - lowest_z),
            saturation,
            ln_pressures: Vec::new(),
            coarse_share,
            last_coarse: coarse_rows - 1,
            vapour,
            liquid,
            dome,
            dew: Inverse::empty(),
            bubble: Inverse::empty(),
            bubble_enthalpy: Inverse::empty(),
        };
        table.ln_pressures = table.ln_pressures_of_rows();
        table.dew = Inverse::new(&table, Column::DEW_K);
        table.bubble = Inverse::new(&table, Column::BUBBLE_K);
        table.bubble_enthalpy = Inverse::new(&table, Column::LIQUID_ENTHALPY);
        table
    }
}

/// The coordinate in which rows are uniform.
#[inline]
fn row_coordinate(reduced_pressure: f64, ln_p: f64) -> f64 {
    ln_p - STRETCH * (1.0 - reduced_pressure).sqrt()
}

/// Derivative of the row coordinate by ln p.
#[inline]
fn coordinate_slope(reduced_pressure: f64, root: f64) -> f64 {
    1.0 + STRETCH * reduced_pressure / (2.0 * root)
}

/// Single-phase properties beside one saturation line.
#[derive(Debug)]
pub(super) struct SinglePhase {
    /// Cells along enthalpy; there is one node more.
    cells: usize,
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
    #[inline]
    fn values(&self) -> [f64; 3] {
        let mut values = [0.0; 3];
        for (k, value) in values.iter_mut().enumerate() {
            *value = self.value_and_slopes(k).0;
        }
        values
    }

    /// A column, its derivative by the place in the cell, and by the share of the far row.
    #[inline]
    fn value_and_slopes(&self, column: usize) -> (f64, f64, f64) {
        let (a0, a1) = (f64::from(self.near[0][column]), f64::from(self.near[1][column]));
        let (b0, b1) = (f64::from(self.far[0][column]), f64::from(self.far[1][column]));
        let (a_step, b_step) = (a1 - a0, b1 - b0);
        let (a, b) = (a0 + self.at * a_step, b0 + self.at * b_step);
        (a + self.share * (b - a), a_step + self.share * (b_step - a_step), b - a)
    }
}

impl SinglePhase {
    /// `most_span`: how far enthalpy may leave the table before properties stand still, as a multiple of its width.
    fn decode(
        numbers: &mut Numbers,
        rows: usize,
        coarse_share: f64,
        nodes_a_row: usize,
        most_span: f64,
    ) -> SinglePhase {
        let cells = nodes_a_row - 1;
        let cells_squared = (cells * cells) as f64;
        let scales_kg_j = (0..rows).map(|_| cells_squared / numbers.f64()).collect();
        let nodes = (0..rows * nodes_a_row)
            .map(|_| {
                let [a, b, c] = std::array::from_fn(|_| numbers.f32());
                [a, b, c, 0.0]
            })
            .collect();
        let cell_widths_inverse = (0..cells).map(|i| 1.0 / (2 * i + 1) as f64).collect();
        SinglePhase {
            cells,
            coarse_share,
            most_scaled: most_span * cells_squared,
            scales_kg_j,
            cell_widths_inverse,
            nodes,
        }
    }

    #[inline]
    fn cell(&self, row: &Row, mut scaled: f64) -> Cell<'_> {
        // Not `min`, which would turn a NaN into the limit.
        if scaled > self.most_scaled {
            scaled = self.most_scaled;
        }
        let i = (scaled.sqrt() as usize).min(self.cells - 1);
        let near = row.coarse * (self.cells + 1) + i;
        let far = near + self.cells + 1;
        let width_inverse = self.cell_widths_inverse[i];
        Cell {
            near: self.pair(near),
            far: self.pair(far),
            share: row.share,
            width_inverse,
            at: (scaled - (i * i) as f64) * width_inverse,
        }
    }

    #[inline]
    fn pair(&self, first: usize) -> &[[f32; 4]; 2] {
        self.nodes[first..].first_chunk().expect("a node at either end of a cell")
    }

    /// Difference from saturation of temperature, p·v or volume, and entropy, for an enthalpy difference.
    #[inline]
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
        // Columns are nearly straight in enthalpy: the root of the share of the whole rise leads to within some cells, and the share
        // of the rise up to there to the cell itself or its neighbour.
        let last = self.cells - 1;
        let mut low = self.cells;
        for _ in 0..2 {
            low = (((rise / at(low)).sqrt() * low as f64) as usize).clamp(1, last);
        }
        while low > 0 && at(low) > rise {
            low -= 1;
        }
        while low < last && at(low + 1) <= rise {
            low += 1;
        }
        let (a, b) = (at(low), at(low + 1));
        let f = (rise - a) / (b - a);
        let scaled = (low * low) as f64 + f * (2 * low + 1) as f64;
        if scaled > self.most_scaled {
            self.most_scaled / self.scale(row).0
        } else {
            scaled / self.scale(row).0
        }
    }

    /// Squared cells to a unit of enthalpy at a row, and its difference between the coarse rows.
    #[inline]
    fn scale(&self, row: &Row) -> (f64, f64) {
        let (a, b) = (self.scales_kg_j[row.coarse], self.scales_kg_j[row.coarse + 1]);
        (a + row.share * (b - a), b - a)
    }
}

pub(super) struct Numbers {
    rest: &'static [u8],
}

impl Numbers {
    fn take<const N: usize>(&mut self) -> [u8; N] {
        let (first, rest) = self.rest.split_first_chunk::<N>().expect("table is complete");
        self.rest = rest;
        *first
    }
    fn f64(&mut self) -> f64 {
        f64::from_le_bytes(self.take())
    }
    pub(super) fn f32(&mut self) -> f32 {
        f32::from_le_bytes(self.take())
    }
}
