//! The table behind a refrigerant: how it is laid out, read and looked up.
//!
//! A file is lines of `key value` in UTF-8, an empty line, then little-endian numbers:
//! 1. saturation rows, `f64`, uniform in ln p: bubble K, dew K, liquid volume m³/kg, vapour p·v J/kg, liquid and vapour
//!    enthalpy J/kg, liquid and vapour entropy J/(kg K), liquid and vapour heat capacity J/(kg K);
//! 2. vapour spans, `f64`, J/kg, one a coarse row: enthalpy from dew to the hottest vapour;
//! 3. vapour nodes, `f32`, row by row: rise over the dew state of temperature, p·v and entropy;
//! 4. liquid spans, then liquid nodes likewise: fall under the bubble state of temperature, volume and entropy.
//!
//! Coarse rows lie on every n-th saturation row. Nodes lie at the squares of an even grid, fraction `(i/n)²` of the
//! span, so that they crowd near saturation, where properties curve most near the critical point.
//! Everything between nodes is linear, hence monotone wherever the nodes are, and every inverse is exact.

use super::inverse::Inverse;
use super::{HIGHEST_PRESSURE_PA, LOWEST_PRESSURE_PA};

const FORMAT: &str = "rimebench refrigerant table 1";
const SATURATION_COLUMNS: usize = 10;

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
    pub(super) lowest_ln: f64,
    highest_ln: f64,
    pub(super) saturation_rows_per_ln: f64,
    pub(super) saturation: Vec<[f64; SATURATION_COLUMNS]>,
    /// Saturation rows to one coarse row, as its inverse.
    coarse_share: f64,
    last_coarse: usize,
    pub(super) vapour: SinglePhase,
    pub(super) liquid: SinglePhase,
    pub(super) dew: Inverse,
    pub(super) bubble: Inverse,
    pub(super) bubble_enthalpy: Inverse,
}

/// The table at one pressure.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) pressure_pa: f64,
    pub(super) saturated: [f64; SATURATION_COLUMNS],
    /// Factor on liquid volumes above the table's top; 1 elsewhere.
    pub(super) liquid_squeeze: f64,
    /// Gain of vapour entropy below the table's bottom; 0 elsewhere.
    thin_entropy: f64,
    coarse: usize,
    share: f64,
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
        self.saturated[Column::LIQUID_VOLUME] * self.liquid_squeeze
    }
    #[inline]
    pub(super) fn vapour_volume(&self) -> f64 {
        self.saturated[Column::VAPOUR_PV] / self.pressure_pa
    }
    pub(super) fn mixed_enthalpy(&self, quality: f64) -> f64 {
        self.bubble_enthalpy() + quality * (self.dew_enthalpy() - self.bubble_enthalpy())
    }
}

impl Table {
    #[inline]
    pub(super) fn row(&self, pressure_pa: f64) -> Row {
        let p = pressure_pa.clamp(LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA);
        self.row_of(p, libm::log(p))
    }

    #[inline]
    pub(super) fn row_at_ln(&self, ln_p: f64) -> Row {
        self.row_of(libm::exp(ln_p), ln_p)
    }

    #[inline]
    fn row_of(&self, pressure_pa: f64, ln_p: f64) -> Row {
        let mut row = self.saturated(ln_p);
        row.pressure_pa = pressure_pa;
        if ln_p > self.highest_ln {
            row.liquid_squeeze = libm::exp(0.3 * (self.highest_ln - ln_p));
        } else if ln_p < self.lowest_ln {
            let gas_constant = row.saturated[Column::VAPOUR_PV] / row.saturated[Column::DEW_K];
            row.thin_entropy = gas_constant * (self.lowest_ln - ln_p);
        }
        row
    }

    /// The row at a clamped ln p; its pressure is left for the caller to set.
    #[inline]
    pub(super) fn saturated(&self, ln_p: f64) -> Row {
        let (i, f) = self.place(ln_p);
        let (a, b) = (&self.saturation[i], &self.saturation[i + 1]);
        let mut saturated = [0.0; SATURATION_COLUMNS];
        for (value, (a, b)) in saturated.iter_mut().zip(a.iter().zip(b)) {
            *value = a + f * (b - a);
        }
        let coarse_at = (i as f64 + f) * self.coarse_share;
        let coarse = (coarse_at as usize).min(self.last_coarse - 1);
        let share = coarse_at - coarse as f64;
        Row { pressure_pa: f64::NAN, saturated, liquid_squeeze: 1.0, thin_entropy: 0.0, coarse, share }
    }

    #[inline]
    pub(super) fn saturated_value(&self, ln_p: f64, column: usize) -> f64 {
        let (i, f) = self.place(ln_p);
        let (a, b) = (self.saturation[i][column], self.saturation[i + 1][column]);
        a + f * (b - a)
    }

    #[inline]
    fn place(&self, ln_p: f64) -> (usize, f64) {
        let last = self.saturation.len() - 1;
        // Not `clamp`: a NaN must stay one, and min and max would drop it.
        let ln_p = if ln_p < self.lowest_ln {
            self.lowest_ln
        } else if ln_p > self.highest_ln {
            self.highest_ln
        } else {
            ln_p
        };
        let at = (ln_p - self.lowest_ln) * self.saturation_rows_per_ln;
        let i = (at as usize).min(last - 1);
        (i, at - i as f64)
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
        let pairs: Vec<(&'static str, &'static str)> = lines.filter_map(|line| line.split_once(' ')).collect();
        let text = |key: &str| {
            pairs.iter().find(|(k, _)| *k == key).map(|(_, v)| *v).unwrap_or_else(|| panic!("table header lacks {key}"))
        };
        let number = |key: &str| -> f64 { text(key).parse().expect("table header number") };
        let count = |key: &str| -> usize { text(key).parse().expect("table header count") };

        let rows = count("saturation_rows");
        let coarse_rows = count("single_phase_rows");
        let (lowest_pressure_pa, highest_pressure_pa) = (number("lowest_pressure_pa"), number("highest_pressure_pa"));
        let (lowest_ln, highest_ln) = (libm::log(lowest_pressure_pa), libm::log(highest_pressure_pa));
        let saturation: Vec<[f64; SATURATION_COLUMNS]> =
            (0..rows).map(|_| std::array::from_fn(|_| numbers.f64())).collect();
        let vapour = SinglePhase::decode(&mut numbers, coarse_rows, count("vapour_nodes"), 50.0);
        let liquid = SinglePhase::decode(&mut numbers, coarse_rows, count("liquid_nodes"), 1.5);
        assert!(numbers.rest.is_empty(), "table has numbers to spare");
        let mut table = Table {
            name: text("name"),
            source: text("source"),
            lowest_pressure_pa,
            highest_pressure_pa,
            highest_vapour_temperature_k: number("highest_vapour_temperature_k"),
            lowest_ln,
            highest_ln,
            saturation_rows_per_ln: (rows - 1) as f64 / (highest_ln - lowest_ln),
            saturation,
            coarse_share: (coarse_rows - 1) as f64 / (rows - 1) as f64,
            last_coarse: coarse_rows - 1,
            vapour,
            liquid,
            dew: Inverse::empty(),
            bubble: Inverse::empty(),
            bubble_enthalpy: Inverse::empty(),
        };
        table.dew = Inverse::new(&table, Column::DEW_K);
        table.bubble = Inverse::new(&table, Column::BUBBLE_K);
        table.bubble_enthalpy = Inverse::new(&table, Column::LIQUID_ENTHALPY);
        table
    }
}

/// Single-phase properties beside one saturation line.
#[derive(Debug)]
pub(super) struct SinglePhase {
    /// Cells along enthalpy; there is one node more.
    cells: usize,
    cells_squared: f64,
    /// How far enthalpy may leave the span, as a multiple of it.
    most_span: f64,
    spans_j_kg: Vec<f64>,
    /// Padded to four, so that a node never straddles a cache line.
    nodes: Vec<[f32; 4]>,
}

impl SinglePhase {
    fn decode(numbers: &mut Numbers, rows: usize, nodes_a_row: usize, most_span: f64) -> SinglePhase {
        let cells = nodes_a_row - 1;
        let spans_j_kg = (0..rows).map(|_| numbers.f64()).collect();
        let nodes = (0..rows * nodes_a_row)
            .map(|_| {
                let [a, b, c] = std::array::from_fn(|_| numbers.f32());
                [a, b, c, 0.0]
            })
            .collect();
        SinglePhase { cells, cells_squared: (cells * cells) as f64, most_span, spans_j_kg, nodes }
    }

    /// Difference from saturation of temperature, p·v or volume, and entropy, for an enthalpy difference.
    #[inline]
    pub(super) fn rise(&self, row: &Row, enthalpy_j_kg: f64) -> [f64; 3] {
        let scaled = (enthalpy_j_kg / self.span(row)).min(self.most_span) * self.cells_squared;
        let i = (scaled.sqrt() as usize).min(self.cells - 1);
        let f = (scaled - (i * i) as f64) / (2 * i + 1) as f64;
        let near = row.coarse * (self.cells + 1) + i;
        let far = near + self.cells + 1;
        let (a0, a1) = (&self.nodes[near], &self.nodes[near + 1]);
        let (b0, b1) = (&self.nodes[far], &self.nodes[far + 1]);
        std::array::from_fn(|k| {
            let (a0, a1, b0, b1) = (f64::from(a0[k]), f64::from(a1[k]), f64::from(b0[k]), f64::from(b1[k]));
            let a = a0 + f * (a1 - a0);
            let b = b0 + f * (b1 - b0);
            a + row.share * (b - a)
        })
    }

    /// Enthalpy difference from saturation for a difference of one column: the exact inverse of [`SinglePhase::rise`].
    /// Zero for a negative difference.
    pub(super) fn rise_enthalpy(&self, row: &Row, column: usize, rise: f64) -> f64 {
        if rise <= 0.0 {
            return 0.0;
        }
        let near = row.coarse * (self.cells + 1);
        let far = near + self.cells + 1;
        let at = |i: usize| {
            let (a, b) = (f64::from(self.nodes[near + i][column]), f64::from(self.nodes[far + i][column]));
            a + row.share * (b - a)
        };
        let (mut low, mut high) = (0, self.cells);
        while high - low > 1 {
            let middle = usize::midpoint(low, high);
            if at(middle) <= rise {
                low = middle;
            } else {
                high = middle;
            }
        }
        let (a, b) = (at(low), at(low + 1));
        let f = (rise - a) / (b - a);
        let scaled = (low * low) as f64 + f * (2 * low + 1) as f64;
        (scaled / self.cells_squared).min(self.most_span) * self.span(row)
    }

    #[inline]
    fn span(&self, row: &Row) -> f64 {
        let (a, b) = (self.spans_j_kg[row.coarse], self.spans_j_kg[row.coarse + 1]);
        a + row.share * (b - a)
    }
}

struct Numbers {
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
    fn f32(&mut self) -> f32 {
        f32::from_le_bytes(self.take())
    }
}
