//! The states at one pressure. Most of a look-up is to find the pressure in the table; what has several states there to look
//! up finds it once.

use super::dome::{self, Shares};
use super::row::{self, Column, Row, saturation_of};
use super::table::Table;
use super::values::{Fluid, Phase, Saturation};

/// The states of a refrigerant at one pressure. See [`crate::Refrigerant::isobar`].
#[derive(Clone, Copy, Debug)]
pub struct Isobar<'a> {
    table: &'a Table,
    row: Row,
}

impl<'a> Isobar<'a> {
    #[inline]
    pub(super) fn new(table: &'a Table, row: Row) -> Isobar<'a> {
        Isobar { table, row }
    }

    #[inline]
    pub(super) fn table(&self) -> &'a Table {
        self.table
    }

    #[inline]
    pub(super) fn row(&self) -> &Row {
        &self.row
    }

    /// The pressure, Pa absolute.
    #[must_use]
    #[inline]
    pub fn pressure_pa(&self) -> f64 {
        self.row.pressure_pa
    }

    /// Both saturated states, at the pressure clamped to the table's range.
    #[must_use]
    #[inline]
    pub fn saturation(&self) -> Saturation {
        let p = self.row.pressure_pa.clamp(self.table.lowest_pressure_pa, self.table.highest_pressure_pa);
        saturation_of(p, &self.row.saturated)
    }

    /// The state at a specific enthalpy.
    #[must_use]
    pub fn at_h(&self, enthalpy_j_kg: f64) -> Fluid {
        self.state(enthalpy_j_kg)
    }

    /// Temperature, K, at a specific enthalpy: that of [`Isobar::at_h`] for less work, as the two below.
    #[must_use]
    pub fn temperature_k(&self, enthalpy_j_kg: f64) -> f64 {
        self.state(enthalpy_j_kg).temperature_k
    }

    /// Density, kg/m³, at a specific enthalpy.
    #[must_use]
    pub fn density_kg_m3(&self, enthalpy_j_kg: f64) -> f64 {
        self.state(enthalpy_j_kg).density_kg_m3
    }

    /// Temperature, K, and vapour mass fraction at a specific enthalpy.
    #[must_use]
    pub fn temperature_k_and_quality(&self, enthalpy_j_kg: f64) -> (f64, f64) {
        let state = self.state(enthalpy_j_kg);
        (state.temperature_k, state.quality)
    }

    /// Inlined into those who ask for one property of it, so that the others are left out.
    #[inline(always)]
    fn state(&self, enthalpy_j_kg: f64) -> Fluid {
        let (h, row) = (enthalpy_j_kg, &self.row);
        let s = &row.saturated;
        let (h_l, h_v) = (row.bubble_enthalpy(), row.dew_enthalpy());
        let (phase, temperature_k, volume, entropy, quality) = if h >= h_v {
            let [t, pv, ds] = self.table.vapour.rise(row, h - h_v);
            let volume = (s[Column::VAPOUR_PV] + pv) / row.pressure_pa;
            (Phase::Vapour, s[Column::DEW_K] + t, volume, row.dew_entropy() + ds, 1.0)
        } else if h > h_l {
            let x = (h - h_l) / (h_v - h_l);
            let shares = match &self.table.dome {
                Some(dome) => dome.shares(row, x),
                None => Shares::linear(x),
            };
            let mix = |a: f64, b: f64, share: f64| a + share * (b - a);
            (
                Phase::TwoPhase,
                mix(s[Column::BUBBLE_K], s[Column::DEW_K], shares.temperature),
                mix(row.liquid_volume(), row.vapour_volume(), shares.volume),
                mix(s[Column::LIQUID_ENTROPY], row.dew_entropy(), shares.entropy),
                shares.quality,
            )
        } else {
            let [t, v, ds] = self.table.liquid.rise(row, h_l - h);
            let volume = (s[Column::LIQUID_VOLUME] - v) * row.squeeze;
            (Phase::Liquid, s[Column::BUBBLE_K] - t, volume, s[Column::LIQUID_ENTROPY] - ds, 0.0)
        };
        Fluid {
            phase,
            pressure_pa: row.pressure_pa,
            temperature_k,
            density_kg_m3: 1.0 / volume,
            enthalpy_j_kg: h,
            entropy_j_kg_k: entropy,
            quality,
        }
    }

    /// Vapour at a temperature; a temperature under dew gives saturated vapour.
    #[must_use]
    pub fn at_t_vapour(&self, temperature_k: f64) -> Fluid {
        self.at_h(self.vapour_enthalpy_j_kg(temperature_k))
    }

    /// Enthalpy of vapour at a temperature, J/kg; a temperature under dew gives saturated vapour.
    #[must_use]
    pub fn vapour_enthalpy_j_kg(&self, temperature_k: f64) -> f64 {
        let rise_k = temperature_k - self.row.saturated[Column::DEW_K];
        self.row.dew_enthalpy() + self.table.vapour.rise_enthalpy(&self.row, row::TEMPERATURE, rise_k)
    }

    /// Liquid at a temperature; a temperature over bubble gives saturated liquid.
    #[must_use]
    pub fn at_t_liquid(&self, temperature_k: f64) -> Fluid {
        self.at_h(self.liquid_enthalpy_j_kg(temperature_k))
    }

    /// Enthalpy of liquid at a temperature, J/kg; a temperature over bubble gives saturated liquid.
    #[must_use]
    pub fn liquid_enthalpy_j_kg(&self, temperature_k: f64) -> f64 {
        let fall_k = self.row.saturated[Column::BUBBLE_K] - temperature_k;
        self.row.bubble_enthalpy() - self.table.liquid.rise_enthalpy(&self.row, row::TEMPERATURE, fall_k)
    }

    /// The state at a specific entropy. See [`crate::Refrigerant::at_ps_vapour`].
    #[must_use]
    pub fn at_s_vapour(&self, entropy_j_kg_k: f64) -> Fluid {
        self.at_h(self.enthalpy_at_s_vapour_j_kg(entropy_j_kg_k))
    }

    /// Enthalpy, J/kg, at a specific entropy. See [`crate::Refrigerant::at_ps_vapour`].
    #[must_use]
    pub fn enthalpy_at_s_vapour_j_kg(&self, entropy_j_kg_k: f64) -> f64 {
        let row = &self.row;
        let (s_l, s_v) = (row.saturated[Column::LIQUID_ENTROPY], row.dew_entropy());
        if entropy_j_kg_k >= s_v {
            row.dew_enthalpy() + self.table.vapour.rise_enthalpy(row, row::ENTROPY, entropy_j_kg_k - s_v)
        } else if entropy_j_kg_k >= s_l {
            self.mixed_enthalpy(dome::ENTROPY, (entropy_j_kg_k - s_l) / (s_v - s_l))
        } else {
            row.bubble_enthalpy() - self.table.liquid.rise_enthalpy(row, row::ENTROPY, s_l - entropy_j_kg_k)
        }
    }

    /// The state at a specific volume, any phase. See [`crate::Refrigerant::at_pv`].
    #[must_use]
    pub fn at_v(&self, specific_volume_m3_kg: f64) -> Fluid {
        let row = &self.row;
        let (v_l, v_v) = (row.liquid_volume(), row.vapour_volume());
        let v = specific_volume_m3_kg;
        self.at_h(if v >= v_v {
            let rise = row.pressure_pa * v - row.saturated[Column::VAPOUR_PV];
            row.dew_enthalpy() + self.table.vapour.rise_enthalpy(row, row::VOLUME, rise)
        } else if v >= v_l {
            self.mixed_enthalpy(dome::VOLUME, (v - v_l) / (v_v - v_l))
        } else {
            let fall = row.saturated[Column::LIQUID_VOLUME] - v / row.squeeze;
            row.bubble_enthalpy() - self.table.liquid.rise_enthalpy(row, row::VOLUME, fall)
        })
    }

    /// Enthalpy where a property inside the dome has come this share of its way from bubble to dew.
    fn mixed_enthalpy(&self, column: usize, share: f64) -> f64 {
        let of_enthalpy = match &self.table.dome {
            Some(dome) => dome.enthalpy_share(&self.row, column, share),
            None => share,
        };
        self.row.bubble_enthalpy() + of_enthalpy * (self.row.dew_enthalpy() - self.row.bubble_enthalpy())
    }
}
