//! Refrigerant states from tables of a reference equation of state.
//!
//! **Conventions.** Pressures are absolute. Enthalpy and entropy have the IIR reference: saturated liquid at 0 °C has
//! 200 kJ/kg and 1 kJ/(kg K). "Bubble" is the saturated liquid, "dew" the saturated vapour; a blend has different
//! temperatures there at one pressure. Inside the dome every property of a pure or nearly pure fluid is linear in quality
//! between the two; those of R-454B are tabulated over enthalpy.
//!
//! **Inside the table** (R-410A: 5 kPa to 4.85 MPa, vapour from dew to 490 K, liquid from bubble to 110 K below it but
//! not below 200 K) see `docs/properties.md` for the ranges of the others and the errors measured against the oracle.
//! Single-phase values are tabulated as differences from the saturated value at the same pressure, so that a property is
//! continuous across bubble and dew without a seam.
//!
//! **Outside the table** states are continued so that nothing is non-finite and every closed volume still has exactly
//! one pressure; they are bookkeeping, not physics:
//! - *below the lowest pressure* the saturation curve stands still at the lowest row and vapour follows the ideal gas
//!   law along it (`p v` depends on enthalpy only), so density goes to zero with pressure. States under the dew
//!   enthalpy of that row keep its liquid and a vapour part that thins with pressure;
//! - *above the highest pressure* the saturation curve stands still at the top row and `p v` depends on enthalpy only,
//!   in every phase: less steep than real liquid, and the gentlest law that keeps one pressure to a closed volume;
//! - *hotter than the table* every property goes on linearly in enthalpy; *colder liquid* likewise by half the table's
//!   width, then stands still.
//!
//! Arguments must be finite. A NaN comes back as NaN and is not hidden.

mod catalogue;
mod compression;
mod dome;
mod flash;
mod inverse;
mod isentrope;
mod isobar;
mod row;
mod saturated;
mod single_phase;
mod table;
mod values;

pub use flash::SOFTENED_LIQUID_BULK_MODULUS_PA;
pub use isobar::Isobar;
use row::{Column, saturation_of};
use table::Table;
pub use values::{Fluid, HIGHEST_PRESSURE_PA, LOWEST_PRESSURE_PA, Phase, Saturation};

/// The properties of one refrigerant.
#[derive(Debug)]
pub struct Refrigerant {
    table: Table,
}

impl Refrigerant {
    /// Trade name, such as "R-410A".
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.table.name
    }

    /// What the table was made from, as written in its header.
    #[must_use]
    pub fn source(&self) -> &'static str {
        self.table.source
    }

    /// Pressure over the critical pressure, from an absolute pressure in Pa.
    #[must_use]
    pub fn reduced_pressure(&self, pressure_pa: f64) -> f64 {
        self.table.reduced_pressure(pressure_pa)
    }

    /// Lowest and highest pressure of the table, Pa absolute.
    #[must_use]
    pub fn pressure_range_pa(&self) -> (f64, f64) {
        (self.table.lowest_pressure_pa, self.table.highest_pressure_pa)
    }

    /// Highest vapour temperature of the table, K.
    #[must_use]
    pub fn highest_vapour_temperature_k(&self) -> f64 {
        self.table.highest_vapour_temperature_k
    }

    /// Both saturated states at an absolute pressure, which is clamped to the table's range.
    #[must_use]
    pub fn saturation(&self, pressure_pa: f64) -> Saturation {
        let (low, high) = self.pressure_range_pa();
        let p = pressure_pa.clamp(low, high);
        saturation_of(p, &self.table.saturated(p))
    }

    /// Both saturated states where the liquid has this temperature, which is clamped to the table's range.
    #[must_use]
    pub fn saturation_at_bubble(&self, bubble_k: f64) -> Saturation {
        let (pressure_pa, columns) = self.table.bubble.pressure_and_columns(&self.table.saturation, bubble_k);
        saturation_of(pressure_pa, &columns)
    }

    /// Dew temperature, K, at an absolute pressure, which is clamped to the table's range.
    #[must_use]
    pub fn dew_k(&self, pressure_pa: f64) -> f64 {
        self.table.saturated_value(pressure_pa, Column::DEW_K)
    }

    /// Bubble temperature, K, at an absolute pressure, which is clamped to the table's range.
    #[must_use]
    pub fn bubble_k(&self, pressure_pa: f64) -> f64 {
        self.table.saturated_value(pressure_pa, Column::BUBBLE_K)
    }

    /// Specific enthalpy of the saturated liquid, J/kg, at an absolute pressure, which is clamped to the table's range.
    #[must_use]
    pub fn bubble_enthalpy_j_kg(&self, pressure_pa: f64) -> f64 {
        self.table.saturated_value(pressure_pa, Column::LIQUID_ENTHALPY)
    }

    /// Pressure, Pa absolute, of saturated vapour at a temperature; clamped to the table's range.
    #[must_use]
    pub fn dew_pressure_pa(&self, temperature_k: f64) -> f64 {
        self.table.dew.pressure_pa(&self.table.saturation, temperature_k)
    }

    /// Pressure, Pa absolute, of saturated liquid at a temperature; clamped to the table's range.
    #[must_use]
    pub fn bubble_pressure_pa(&self, temperature_k: f64) -> f64 {
        self.table.bubble.pressure_pa(&self.table.saturation, temperature_k)
    }

    /// The states at an absolute pressure, looked up once for any number of them.
    #[must_use]
    #[inline]
    pub fn isobar(&self, pressure_pa: f64) -> Isobar<'_> {
        Isobar::new(&self.table, self.table.row(pressure_pa))
    }

    /// The state at an absolute pressure and a specific enthalpy.
    #[must_use]
    pub fn at_ph(&self, pressure_pa: f64, enthalpy_j_kg: f64) -> Fluid {
        self.isobar(pressure_pa).at_h(enthalpy_j_kg)
    }

    /// Vapour at an absolute pressure and a temperature; a temperature under dew gives saturated vapour.
    #[must_use]
    pub fn at_pt_vapour(&self, pressure_pa: f64, temperature_k: f64) -> Fluid {
        self.isobar(pressure_pa).at_t_vapour(temperature_k)
    }

    /// Liquid at an absolute pressure and a temperature; a temperature over bubble gives saturated liquid.
    #[must_use]
    pub fn at_pt_liquid(&self, pressure_pa: f64, temperature_k: f64) -> Fluid {
        self.isobar(pressure_pa).at_t_liquid(temperature_k)
    }

    /// The state at an absolute pressure and a specific entropy, as after an ideal compression or expansion: vapour,
    /// or two-phase (and liquid below that) where the entropy is under that of saturated vapour.
    #[must_use]
    pub fn at_ps_vapour(&self, pressure_pa: f64, entropy_j_kg_k: f64) -> Fluid {
        self.isobar(pressure_pa).at_s_vapour(entropy_j_kg_k)
    }

    /// The state at an absolute pressure and a specific volume, any phase. A volume under that of the coldest liquid
    /// of the table gives the coldest liquid.
    #[must_use]
    pub fn at_pv(&self, pressure_pa: f64, specific_volume_m3_kg: f64) -> Fluid {
        self.isobar(pressure_pa).at_v(specific_volume_m3_kg)
    }
}
