//! Pressure of a closed volume from what is conserved in it: mass and internal energy.

use super::row::{Column, Row};
use super::{Fluid, HIGHEST_PRESSURE_PA, Isobar, LOWEST_PRESSURE_PA, Phase, Refrigerant};
use crate::elementary::{exp, ln};

/// Bulk modulus, Pa, that is added to the compressibility of liquid that fills a closed volume completely.
///
/// Engineering value, no source. Real liquid stands at 1e8 to 1e9 Pa and would make pressure jump by megapascals for a
/// gram too much; real piping, a little gas in the oil and the vapour of nearby warm spots soften that by about an order
/// of magnitude.
pub const SOFTENED_LIQUID_BULK_MODULUS_PA: f64 = 5e7;

/// Newton's method ends with a step in ln p as small as this. The pressure is then better by orders of magnitude: to
/// the square of the step inside a cell of the table, to a thousandth of it across a border of cells.
const STEP_TOLERANCE: f64 = 1e-7;
/// A step as small as this ends it as well where there is no corner between its ends: no border of the dome, no liquid that fills
/// the volume, no end of the table. What is left goes with its square, half of it or less.
const SMOOTH_STEP_TOLERANCE: f64 = 1e-4;
/// Logarithms of the lowest and the highest pressure.
const LN_PRESSURES: (f64, f64) = (-6.907_755_278_982_137, 20.723_265_836_946_41);
/// Newton's steps before every second one is a bisection; 27.6 in ln p halves to the tolerance in 28.
const FREE_STEPS: usize = 10;
const MOST_STEPS: usize = 80;

/// Step in ln p below which the series of the exponential up to its fourth power is right to rounding: what is left out is
/// 1e-17.
const SHORT_STEP: f64 = 1e-3;

/// Exponential of a step no longer than [`SHORT_STEP`].
fn exp_of_short(step: f64) -> f64 {
    1.0 + step * (1.0 + step * (0.5 + step * (1.0 / 6.0 + step / 24.0)))
}

impl Refrigerant {
    /// The state of a closed volume with this specific internal energy (J/kg) and specific volume (m³/kg), any phase.
    /// `guess_pa` is the last known pressure; a good guess is several times faster, a bad one is still right.
    ///
    /// Density and enthalpy returned belong exactly to the arguments: `1/v` and `u + p v`. Where liquid fills the volume
    /// its compressibility is raised by [`SOFTENED_LIQUID_BULK_MODULUS_PA`], so the pressure is lower than that of the
    /// real liquid (and temperature and entropy are those of the real liquid at that pressure and enthalpy).
    ///
    /// The pressure does not depend on the guess, but for liquid colder than the table and for cold liquid squeezed by
    /// several percent above nine tenths of the table's top (R-410A: 4.4 MPa): there the kinks of the table leave up to
    /// half a percent of play.
    ///
    /// Always finite for finite arguments. Pressures stay within [`LOWEST_PRESSURE_PA`] and [`HIGHEST_PRESSURE_PA`].
    #[must_use]
    pub fn flash_uv(&self, internal_energy_j_kg: f64, specific_volume_m3_kg: f64, guess_pa: f64) -> Fluid {
        self.flash_uv_softened(
            internal_energy_j_kg,
            specific_volume_m3_kg,
            guess_pa,
            SOFTENED_LIQUID_BULK_MODULUS_PA,
        )
    }

    /// [`Refrigerant::flash_uv`] with another softening of liquid, Pa: a volume of liquid `v` counts as
    /// `v / (1 + (p - p_bubble(h)) / softening)`. Meant for 1e7 to 1e8 Pa; stiffer than that, the kinks of the table show
    /// in the pressure of deeply subcooled liquid.
    #[must_use]
    pub fn flash_uv_softened(
        &self,
        internal_energy_j_kg: f64,
        specific_volume_m3_kg: f64,
        guess_pa: f64,
        softened_bulk_modulus_pa: f64,
    ) -> Fluid {
        self.flash(internal_energy_j_kg, specific_volume_m3_kg, guess_pa, softened_bulk_modulus_pa).0
    }

    /// [`Refrigerant::flash_uv`] with the states at the pressure that it found.
    #[must_use]
    pub fn flash_uv_isobar(
        &self,
        internal_energy_j_kg: f64,
        specific_volume_m3_kg: f64,
        guess_pa: f64,
    ) -> (Fluid, Isobar<'_>) {
        self.flash(internal_energy_j_kg, specific_volume_m3_kg, guess_pa, SOFTENED_LIQUID_BULK_MODULUS_PA)
    }

    fn flash(
        &self,
        internal_energy_j_kg: f64,
        specific_volume_m3_kg: f64,
        guess_pa: f64,
        softened_bulk_modulus_pa: f64,
    ) -> (Fluid, Isobar<'_>) {
        let u = internal_energy_j_kg;
        let v = specific_volume_m3_kg.clamp(1e-9, 1e15);
        let compliance_per_pa = 1.0 / softened_bulk_modulus_pa;
        let (bottom, top) = LN_PRESSURES;
        let (mut low, mut high) = (bottom, top);
        let mut p = guess_pa.clamp(LOWEST_PRESSURE_PA, HIGHEST_PRESSURE_PA);
        let mut at = ln(p);
        if !(bottom..=top).contains(&at) {
            (p, at) = (1e6, ln(1e6));
        }
        let mut row = self.table.row_of(p, at);
        for step in 0..MOST_STEPS {
            let wanted = self.wanted_volume(&row, u + row.pressure_pa * v, v, compliance_per_pa);
            let excess = wanted.volume_m3_kg - v;
            if excess > 0.0 {
                low = at;
            } else {
                high = at;
            }
            let mut next = at - excess / wanted.slope_m3_kg;
            let falls = wanted.slope_m3_kg < 0.0;
            let halve = step > FREE_STEPS && step % 2 == 0;
            let mut smooth = row.is_inside() && wanted.phase != Phase::Liquid;
            if !falls || halve || !(low..=high).contains(&next) {
                next = f64::midpoint(low, high);
                smooth = false;
            }
            let moved = (next - at).abs();
            p = if moved < SHORT_STEP { p * exp_of_short(next - at) } else { exp(next) };
            at = next;
            row = self.table.row_of(p, at);
            smooth &= moved < SMOOTH_STEP_TOLERANCE
                && row.is_inside()
                && row.phase(u + row.pressure_pa * v) == wanted.phase;
            if smooth || moved < STEP_TOLERANCE || high - low < STEP_TOLERANCE {
                break;
            }
        }

        let h = u + row.pressure_pa * v;
        let isobar = Isobar::new(&self.table, row);
        (Fluid { density_kg_m3: 1.0 / v, enthalpy_j_kg: h, ..isobar.at_h(h) }, isobar)
    }

    /// Specific volume that the fluid wants at a pressure and enthalpy with the liquid softened, and its derivative by
    /// ln p along `dh = p v d(ln p)`, the way enthalpy goes in a volume `v` of constant energy.
    ///
    /// That derivative is the one along an isentrope where the wanted volume is `v`, hence negative there: so there is
    /// one pressure only for a closed volume.
    #[inline]
    fn wanted_volume(&self, row: &Row, h: f64, v: f64, compliance_per_pa: f64) -> Wanted {
        let p = row.pressure_pa;
        let h_slope = p * v;
        let (h_l, h_v) = (row.bubble_enthalpy(), row.dew_enthalpy());
        let slope = |column: usize| self.table.saturation_slope(row, column);
        if h >= h_v {
            let rise_slope = h_slope - slope(Column::VAPOUR_ENTHALPY);
            let (pv, pv_slope) = self.table.vapour.volume_rise_and_slope(row, h - h_v, rise_slope);
            let volume = (row.saturated[Column::VAPOUR_PV] + pv) / p;
            Wanted {
                phase: Phase::Vapour,
                volume_m3_kg: volume,
                slope_m3_kg: (slope(Column::VAPOUR_PV) + pv_slope) / p - volume,
            }
        } else if h > h_l {
            let (v_l, v_v, latent) = (row.liquid_volume(), row.vapour_volume(), h_v - h_l);
            let x = (h - h_l) / latent;
            let v_v_slope = slope(Column::VAPOUR_PV) / p - v_v;
            let v_l_slope = self.bubble_volume_slope(row);
            let (h_l_slope, h_v_slope) = (slope(Column::LIQUID_ENTHALPY), slope(Column::VAPOUR_ENTHALPY));
            let x_slope = (h_slope - h_l_slope - x * (h_v_slope - h_l_slope)) / latent;
            let (share, share_slope) = match &self.table.dome {
                Some(dome) => dome.volume_share_and_slope(row, x, x_slope),
                None => (x, x_slope),
            };
            Wanted {
                phase: Phase::TwoPhase,
                volume_m3_kg: v_l + share * (v_v - v_l),
                slope_m3_kg: v_l_slope + share * (v_v_slope - v_l_slope) + share_slope * (v_v - v_l),
            }
        } else {
            let fall_slope = slope(Column::LIQUID_ENTHALPY) - h_slope;
            let (fall, fall_slope) = self.table.liquid.volume_rise_and_slope(row, h_l - h, fall_slope);
            let (bubble_pa, bubble_pa_slope) =
                self.table.bubble_enthalpy.pressure_and_slope(&self.table.saturation, h);
            let within = p < self.table.highest_pressure_pa;
            let over_pa = (if within { p } else { self.table.highest_pressure_pa }) - bubble_pa;
            let over_slope = (if within { p } else { 0.0 }) - bubble_pa_slope * h_slope;
            let (over_pa, over_slope) = if over_pa > 0.0 { (over_pa, over_slope) } else { (0.0, 0.0) };
            let softening = 1.0 / (1.0 + over_pa * compliance_per_pa);
            let factor = row.squeeze * softening;
            let volume = (row.saturated[Column::LIQUID_VOLUME] - fall) * factor;
            let squeeze_slope = if within { 0.0 } else { -1.0 };
            Wanted {
                phase: Phase::Liquid,
                volume_m3_kg: volume,
                slope_m3_kg: (slope(Column::LIQUID_VOLUME) - fall_slope) * factor
                    + volume * (squeeze_slope - over_slope * compliance_per_pa * softening),
            }
        }
    }

    #[inline]
    fn bubble_volume_slope(&self, row: &Row) -> f64 {
        if row.pressure_pa < self.table.highest_pressure_pa {
            self.table.saturation_slope(row, Column::LIQUID_VOLUME)
        } else {
            -row.liquid_volume()
        }
    }
}

/// See [`Refrigerant::wanted_volume`].
struct Wanted {
    phase: Phase,
    volume_m3_kg: f64,
    slope_m3_kg: f64,
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
