//! Pressure of a closed volume from what is conserved in it: mass and internal energy.

use super::table::{Column, Row};
use super::{Fluid, HIGHEST_PRESSURE_PA, LOWEST_PRESSURE_PA, Phase, Refrigerant};

/// Bulk modulus, Pa, that is added to the compressibility of liquid that fills a closed volume completely.
///
/// Engineering value, no source. Real liquid stands at 1e8 to 1e9 Pa and would make pressure jump by megapascals for a
/// gram too much; real piping, a little gas in the oil and the vapour of nearby warm spots soften that by about an order
/// of magnitude.
pub const SOFTENED_LIQUID_BULK_MODULUS_PA: f64 = 5e7;

/// Relative accuracy of the pressure.
const STEP_TOLERANCE: f64 = 1e-11;
/// Secant steps before every second one is a bisection; 27.6 in ln p halves to the tolerance in 42.
const FREE_STEPS: usize = 10;
const MOST_STEPS: usize = 110;

impl Refrigerant {
    /// The state of a closed volume with this specific internal energy (J/kg) and specific volume (m³/kg), any phase.
    /// `guess_pa` is the last known pressure; a good guess is several times faster, a bad one is still right.
    ///
    /// Density and enthalpy returned belong exactly to the arguments: `1/v` and `u + p v`. Where liquid fills the volume
    /// its compressibility is raised by [`SOFTENED_LIQUID_BULK_MODULUS_PA`], so the pressure is lower than that of the
    /// real liquid (and temperature and entropy are those of the real liquid at that pressure and enthalpy).
    ///
    /// Always finite for finite arguments. Pressures stay within [`LOWEST_PRESSURE_PA`] and [`HIGHEST_PRESSURE_PA`].
    #[must_use]
    pub fn flash_uv(&self, internal_energy_j_kg: f64, specific_volume_m3_kg: f64, guess_pa: f64) -> Fluid {
        self.flash_uv_softened(internal_energy_j_kg, specific_volume_m3_kg, guess_pa, SOFTENED_LIQUID_BULK_MODULUS_PA)
    }

    /// [`Refrigerant::flash_uv`] with another softening of liquid, Pa; infinite for none.
    #[must_use]
    pub fn flash_uv_softened(
        &self,
        internal_energy_j_kg: f64,
        specific_volume_m3_kg: f64,
        guess_pa: f64,
        softened_bulk_modulus_pa: f64,
    ) -> Fluid {
        let u = internal_energy_j_kg;
        let v = specific_volume_m3_kg.clamp(1e-9, 1e15);
        let compliance_per_pa = 1.0 / softened_bulk_modulus_pa;
        let (bottom, top) = (libm::log(LOWEST_PRESSURE_PA), libm::log(HIGHEST_PRESSURE_PA));

        // Excess of the volume that the fluid wants at (p, h = u + p v) over the one it has, relative. Its slope is that
        // of an isentrope, so it falls wherever it crosses zero and there is one root only.
        let excess = |ln_p: f64| {
            let row = self.table.row_at_ln(ln_p);
            let h = u + row.pressure_pa * v;
            self.wanted_volume(&row, h, compliance_per_pa) / v - 1.0
        };

        let (mut low, mut high) = (bottom, top);
        let mut at = libm::log(guess_pa.clamp(LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA));
        if !(bottom..=top).contains(&at) {
            at = libm::log(1e6);
        }
        let mut value = excess(at);
        // A second point near by, towards the root, gives the first slope.
        let mut before = at;
        let mut before_value = value;
        for step in 0..MOST_STEPS {
            if value > 0.0 {
                low = at;
            } else {
                high = at;
            }
            if value == 0.0 {
                break;
            }
            let slope = if step == 0 { f64::NAN } else { (value - before_value) / (at - before) };
            let mut next = if step == 0 { at + value.clamp(-1e-3, 1e-3) } else { at - value / slope };
            let secant_is_sound = slope < 0.0 || step == 0;
            let halve = step > FREE_STEPS && step % 2 == 0;
            if !secant_is_sound || halve || !(next > low && next < high) {
                next = 0.5 * (low + high);
            }
            let moved = (next - at).abs();
            if moved < STEP_TOLERANCE || high - low < STEP_TOLERANCE {
                at = next;
                break;
            }
            before = at;
            before_value = value;
            at = next;
            value = excess(at);
        }

        let row = self.table.row_at_ln(at);
        let h = u + row.pressure_pa * v;
        let fluid = self.fluid_at(&row, h);
        Fluid { density_kg_m3: 1.0 / v, enthalpy_j_kg: h, ..fluid }
    }

    /// Specific volume at a pressure and enthalpy with the liquid softened.
    #[inline]
    fn wanted_volume(&self, row: &Row, h: f64, compliance_per_pa: f64) -> f64 {
        let (h_l, h_v) = (row.bubble_enthalpy(), row.dew_enthalpy());
        if h >= h_v {
            let [_, pv, _] = self.table.vapour.rise(row, h - h_v);
            (row.saturated[Column::VAPOUR_PV] + pv) / row.pressure_pa
        } else if h > h_l {
            row.liquid_volume() + (h - h_l) / (h_v - h_l) * (row.vapour_volume() - row.liquid_volume())
        } else {
            let [_, fall, _] = self.table.liquid.rise(row, h_l - h);
            let bubble_pa = libm::exp(self.table.bubble_enthalpy.find(&self.table, h));
            let over_bubble_pa = (row.pressure_pa.min(self.table.highest_pressure_pa) - bubble_pa).max(0.0);
            (row.saturated[Column::LIQUID_VOLUME] - fall)
                * row.liquid_squeeze
                * libm::exp(-over_bubble_pa * compliance_per_pa)
        }
    }
}

impl Phase {
    /// One word for people: "liquid", "two-phase" or "vapour".
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Phase::Liquid => "liquid",
            Phase::TwoPhase => "two-phase",
            Phase::Vapour => "vapour",
        }
    }
}
