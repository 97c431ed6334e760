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
use super::isentrope::Isentropes;
use super::row::{Column, Columns, Numbers, Row};
use super::saturated::{STRETCH, SaturationRows, coordinate_slope, row_coordinate};
use super::single_phase::SinglePhase;
use super::values::{HIGHEST_PRESSURE_PA, LOWEST_PRESSURE_PA};
use crate::elementary::{ln, place_on};

const FORMAT: &str = "rimebench refrigerant table 1";
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
    pub(super) saturation: SaturationRows,
    /// Coarse rows to one saturation row.
    pub(super) coarse_share: f64,
    /// Last saturation row and last coarse row that another one follows.
    last_row: f64,
    last_coarse_row: f64,
    pub(super) vapour: SinglePhase,
    pub(super) liquid: SinglePhase,
    /// Only of a blend for which linear is not good enough.
    pub(super) dome: Option<Dome>,
    pub(super) dew: Inverse,
    pub(super) bubble: Inverse,
    pub(super) bubble_enthalpy: Inverse,
    pub(super) isentropes: Isentropes,
}

/// Where a pressure lies among the saturation rows.
struct Place {
    /// In rows.
    at: f64,
    row: usize,
    share: f64,
    rows_per_ln: f64,
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
        let coarse_at = place.at * self.coarse_share;
        let (coarse, coarse_from) = place_on(coarse_at, self.last_coarse_row);
        let mut row = Row {
            pressure_pa,
            saturated: self.saturation.between(place.row, place.share),
            squeeze: 1.0,
            thin_entropy: 0.0,
            fine: place.row,
            rows_per_ln: place.rows_per_ln,
            coarse,
            share: coarse_at - coarse_from,
        };
        if pressure_pa > self.highest_pressure_pa {
            row.squeeze = self.highest_pressure_pa / pressure_pa;
        } else if pressure_pa < self.lowest_pressure_pa {
            let gas_constant = row.saturated[Column::VAPOUR_PV] / row.saturated[Column::DEW_K];
            row.thin_entropy = gas_constant * ln(self.lowest_pressure_pa / pressure_pa);
        }
        row
    }

    /// All saturation columns at a pressure, which is clamped to the table.
    #[inline]
    pub(super) fn saturated(&self, pressure_pa: f64) -> Columns {
        let place = self.place(pressure_pa, ln(pressure_pa));
        self.saturation.between(place.row, place.share)
    }

    /// One saturation column at a pressure, which is clamped to the table.
    #[inline]
    pub(super) fn saturated_value(&self, pressure_pa: f64, column: usize) -> f64 {
        let p = pressure_pa.clamp(self.lowest_pressure_pa, self.highest_pressure_pa);
        let place = self.place(p, ln(p));
        let (a, b) =
            (self.saturation.columns[place.row][column], self.saturation.columns[place.row + 1][column]);
        a + place.share * (b - a)
    }

    /// Derivative of a saturation column by ln p.
    #[inline]
    pub(super) fn saturation_slope(&self, row: &Row, column: usize) -> f64 {
        (self.saturation.columns[row.fine + 1][column] - self.saturation.columns[row.fine][column])
            * row.rows_per_ln
    }

    #[inline]
    fn place(&self, pressure_pa: f64, ln_p: f64) -> Place {
        if pressure_pa < self.lowest_pressure_pa {
            return Place { at: 0.0, row: 0, share: 0.0, rows_per_ln: 0.0 };
        }
        if pressure_pa >= self.highest_pressure_pa {
            let row = self.saturation.columns.len() - 2;
            return Place { at: self.last_row + 1.0, row, share: 1.0, rows_per_ln: 0.0 };
        }
        let reduced = pressure_pa * self.critical_pressure_inverse;
        let root = (1.0 - reduced).sqrt();
        let at = (ln_p - STRETCH * root - self.lowest_z) * self.rows_per_z;
        let (row, from) = place_on(at, self.last_row);
        Place { at, row, share: at - from, rows_per_ln: self.rows_per_z * coordinate_slope(reduced, root) }
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
        let columns: Vec<Columns> = (0..rows).map(|_| std::array::from_fn(|_| numbers.f64())).collect();
        let coarse_share = (coarse_rows - 1) as f64 / (rows - 1) as f64;
        let vapour =
            SinglePhase::decode(&mut numbers, coarse_rows, coarse_share, count("vapour_nodes"), 50.0);
        let liquid = SinglePhase::decode(&mut numbers, coarse_rows, coarse_share, count("liquid_nodes"), 1.5);
        let dome = find("dome_nodes")
            .map(|_| Dome::decode(&mut numbers, coarse_rows, coarse_share, count("dome_nodes")));
        assert!(numbers.rest.is_empty(), "table has numbers to spare");
        let rows_per_z = (rows - 1) as f64 / (highest_z - lowest_z);
        let ends_pa = (lowest_pressure_pa, highest_pressure_pa);
        let saturation =
            SaturationRows::new(columns, ends_pa, lowest_z, rows_per_z, 1.0 / critical_pressure_pa);
        Table {
            name: text("name"),
            source: text("source"),
            lowest_pressure_pa,
            highest_pressure_pa,
            highest_vapour_temperature_k: number("highest_vapour_temperature_k"),
            critical_pressure_inverse: 1.0 / critical_pressure_pa,
            lowest_z,
            rows_per_z,
            coarse_share,
            last_row: (rows - 2) as f64,
            last_coarse_row: (coarse_rows - 2) as f64,
            vapour,
            liquid,
            dome,
            dew: Inverse::new(&saturation, Column::DEW_K),
            bubble: Inverse::new(&saturation, Column::BUBBLE_K),
            bubble_enthalpy: Inverse::new(&saturation, Column::LIQUID_ENTHALPY),
            isentropes: Isentropes::empty(),
            saturation,
        }
    }
}
