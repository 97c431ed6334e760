//! What a table is made of: columns, the numbers of its file, and all columns at one pressure.

use super::values::{Phase, Saturation};

/// Columns of a saturation row.
pub(super) const SATURATION_COLUMNS: usize = 10;

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

/// Both saturated states by their columns.
#[inline]
pub(super) fn saturation_of(pressure_pa: f64, columns: &Columns) -> Saturation {
    Saturation {
        pressure_pa,
        bubble_k: columns[Column::BUBBLE_K],
        dew_k: columns[Column::DEW_K],
        liquid_density_kg_m3: 1.0 / columns[Column::LIQUID_VOLUME],
        vapour_density_kg_m3: pressure_pa / columns[Column::VAPOUR_PV],
        liquid_enthalpy_j_kg: columns[Column::LIQUID_ENTHALPY],
        vapour_enthalpy_j_kg: columns[Column::VAPOUR_ENTHALPY],
        liquid_entropy_j_kg_k: columns[Column::LIQUID_ENTROPY],
        vapour_entropy_j_kg_k: columns[Column::VAPOUR_ENTROPY],
        liquid_cp_j_kg_k: columns[Column::LIQUID_CP],
        vapour_cp_j_kg_k: columns[Column::VAPOUR_CP],
    }
}

/// Index of a single-phase column: temperature, K.
pub(super) const TEMPERATURE: usize = 0;
/// Index of a single-phase column: p·v (vapour) or volume (liquid).
pub(super) const VOLUME: usize = 1;
/// Index of a single-phase column: entropy, J/(kg K).
pub(super) const ENTROPY: usize = 2;

/// The table at one pressure.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) pressure_pa: f64,
    pub(super) saturated: Columns,
    /// Factor on liquid volumes above the table's top; 1 elsewhere.
    pub(super) squeeze: f64,
    /// Gain of vapour entropy below the table's bottom; 0 elsewhere.
    pub(super) thin_entropy: f64,
    /// Saturation row below.
    pub(super) fine: usize,
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
    /// Where an enthalpy lies.
    #[inline]
    pub(super) fn phase(&self, enthalpy_j_kg: f64) -> Phase {
        if enthalpy_j_kg >= self.dew_enthalpy() {
            Phase::Vapour
        } else if enthalpy_j_kg > self.bubble_enthalpy() {
            Phase::TwoPhase
        } else {
            Phase::Liquid
        }
    }
    /// Whether the pressure lies in the table.
    #[inline]
    pub(super) fn is_inside(&self) -> bool {
        self.rows_per_ln > 0.0
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

/// The numbers of a table file, in their order.
pub(super) struct Numbers {
    pub(super) rest: &'static [u8],
}

impl Numbers {
    fn take<const N: usize>(&mut self) -> [u8; N] {
        let (first, rest) = self.rest.split_first_chunk::<N>().expect("table is complete");
        self.rest = rest;
        *first
    }
    pub(super) fn f64(&mut self) -> f64 {
        f64::from_le_bytes(self.take())
    }
    pub(super) fn f32(&mut self) -> f32 {
        f32::from_le_bytes(self.take())
    }
}

/// A column at a place between two nodes of two rows, its derivative by the place, and by the share of the far row.
#[inline]
pub(super) fn between_with_slopes(
    near: &[[f32; 4]],
    far: &[[f32; 4]],
    column: usize,
    at: f64,
    share: f64,
) -> (f64, f64, f64) {
    let (a0, a1) = (f64::from(near[0][column]), f64::from(near[1][column]));
    let (b0, b1) = (f64::from(far[0][column]), f64::from(far[1][column]));
    let (a_step, b_step) = (a1 - a0, b1 - b0);
    let (a, b) = (a0 + at * a_step, b0 + at * b_step);
    (a + share * (b - a), a_step + share * (b_step - a_step), b - a)
}
