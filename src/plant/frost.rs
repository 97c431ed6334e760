//! Frost on the indoor coil: mass, density that ages, air passages that close, melt.

use media::moist_air;
use serde::{Deserialize, Serialize};

use crate::system::Evaporator;

/// Enthalpy of fusion of ice, J/kg (CRC Handbook; 333.6 kJ/kg).
pub(crate) const FUSION_J_KG: f64 = 3.34e5;
/// Heat of condensation on a wet coil, J/kg (water at 0 °C, 2.501 MJ/kg: steam tables, from memory).
pub(crate) const CONDENSATION_J_KG: f64 = 2.50e6;
/// Enthalpy of sublimation of ice, J/kg: what condensing and freezing give off one after the other, so that ice takes up in
/// melting what it gave off in freezing (steam tables 2.835 MJ/kg at 0 °C, from memory).
pub(crate) const SUBLIMATION_J_KG: f64 = CONDENSATION_J_KG + FUSION_J_KG;
/// Density of very young frost on a dry cold plate, kg/m³.
const YOUNG_DENSITY_KG_M3: f64 = 25.0;
/// Density of the first ice on a coil that is still wet elsewhere, kg/m³: it soaks up condensate (typ.).
const WET_COIL_DENSITY_KG_M3: f64 = 260.0;
/// Density at which ageing stops, kg/m³ (dense frost on a wet coil; typ.).
pub(crate) const OLD_DENSITY_KG_M3: f64 = 400.0;
/// Coefficient of Hermes 2014: density = 2.2 Ja^-1.5 sqrt(t), t in s (from memory).
const HERMES: f64 = 2.2;
/// Contact conductance of ice and metal over the whole coil while it melts, W/K (typ.).
const MELT_UA_W_K: f64 = 110.0;

/// Ice below this mass is a mixture of all that froze, lighter than before or not, kg.
pub(crate) const FIRST_ICE_KG: f64 = 1.0e-3;
/// Time in which ice spreads to where it is cold, s (typ.).
pub(crate) const SPREAD_TIME_S: f64 = 120.0;
/// Mass of ice over the whole coil below which its edges are gone, kg (typ.).
pub(crate) const THIN_KG: f64 = 0.25;

/// Density of new ice, kg/m³, beside a share `wet_share` of the wetted surface that is not freezing.
pub(crate) fn fresh_density_kg_m3(wet_share: f64) -> f64 {
    let wet = wet_share.clamp(0.0, 1.0);
    YOUNG_DENSITY_KG_M3 + (WET_COIL_DENSITY_KG_M3 - YOUNG_DENSITY_KG_M3) * wet
}

/// State of the frost.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct Frost {
    /// Ice, kg.
    pub mass_kg: f64,
    /// Share of the coil that carries it, 0 to 1.
    pub iced_share: f64,
    /// Mean density, kg/m³.
    pub density_kg_m3: f64,
    /// Water that has drained to the pan since the start, kg.
    pub drained_kg: f64,
}

impl Default for Frost {
    fn default() -> Self {
        Frost { mass_kg: 0.0, iced_share: 0.0, density_kg_m3: YOUNG_DENSITY_KG_M3, drained_kg: 0.0 }
    }
}

impl Frost {
    /// Share of the gap between the fins that is still open where there is ice, 0 to 1.
    pub(crate) fn gap_share(&self, data: &Evaporator) -> f64 {
        if self.mass_kg <= 0.0 || self.iced_share <= 0.0 {
            return 1.0;
        }
        let thickness = self.mass_kg / (self.density_kg_m3 * data.fin_area_m2 * self.iced_share);
        (1.0 - thickness / (0.5 * data.fin_gap_m)).clamp(0.0, 1.0)
    }

    /// Air passage left over the whole coil face as a share, 0.05 to 1: air always finds a way round a block of ice.
    pub(crate) fn open_share(&self, data: &Evaporator) -> f64 {
        let gap = self.gap_share(data);
        // Slot flow falls faster than the gap.
        (1.0 - self.iced_share + self.iced_share * gap * libm::sqrt(gap)).clamp(0.05, 1.0)
    }

    /// Conductance by which ice holds the metal at the melting point, W/K.
    pub(crate) fn melt_ua_w_k(&self) -> f64 {
        if self.mass_kg <= 0.0 {
            return 0.0;
        }
        // The last grams touch less metal.
        MELT_UA_W_K * self.iced_share.max(0.02) * (self.mass_kg / (self.mass_kg + 0.02))
    }

    /// Grow by `rate_kg_s` on a share `cold_share` of the coil for `dt_s`, with the air's modified Jakob
    /// number cp (t_dew - t_surface) / (i_sub (w_air - w_surface)). `wet_share` is the share of the wetted
    /// surface that is not freezing: new ice beside it starts denser.
    pub(crate) fn grow(&mut self, rate_kg_s: f64, cold_share: f64, wet_share: f64, jakob: f64, dt_s: f64) {
        if rate_kg_s > 0.0 {
            let added = rate_kg_s * dt_s;
            let fresh = fresh_density_kg_m3(wet_share);
            // Volumes add. The first ice is a mixture of what froze while the coil grew cold; later only soaked ice beside
            // older, lighter frost still counts.
            if fresh > self.density_kg_m3 || self.mass_kg < FIRST_ICE_KG {
                let volume = self.mass_kg / self.density_kg_m3 + added / fresh;
                self.density_kg_m3 = (self.mass_kg + added) / volume;
            }
            self.mass_kg += added;
            // Ice spreads to where it is cold now, over minutes.
            if cold_share > self.iced_share {
                self.iced_share += (cold_share - self.iced_share) * (dt_s / SPREAD_TIME_S).min(1.0);
            }
        }
        if self.mass_kg > 0.0 {
            let rise = self.ageing_kg_m3_s(jakob);
            self.density_kg_m3 = (self.density_kg_m3 + rise * dt_s).min(OLD_DENSITY_KG_M3);
        }
    }

    /// Ageing of the density, kg/(m³ s): d(rho)/dt of Hermes' square root law, by the density itself instead of by age.
    pub(crate) fn ageing_kg_m3_s(&self, jakob: f64) -> f64 {
        let speed = HERMES / libm::pow(jakob.clamp(0.3, 3.0), 1.5);
        speed * speed / (2.0 * self.density_kg_m3)
    }

    /// Melt with a heat for `dt_s`; returns the heat that was really taken, W.
    pub(crate) fn melt(&mut self, heat_w: f64, dt_s: f64) -> f64 {
        if heat_w <= 0.0 || self.mass_kg <= 0.0 {
            return 0.0;
        }
        let melted = (heat_w * dt_s / FUSION_J_KG).min(self.mass_kg);
        self.mass_kg -= melted;
        self.drained_kg += melted;
        // Thin edges go first: the iced share follows the mass once it is thin.
        let thin = self.mass_kg / THIN_KG;
        if self.iced_share > thin {
            self.iced_share = thin;
        }
        if self.mass_kg < 1.0e-6 {
            self.drained_kg += self.mass_kg;
            self.mass_kg = 0.0;
            self.iced_share = 0.0;
        }
        melted * FUSION_J_KG / dt_s
    }
}

/// Density of frost that has grown on a cold plate in still room conditions for `age_s`, kg/m³: the ageing of the coil's frost,
/// alone. Air in °C with its relative humidity (0 to 1), plate in °C, below freezing.
pub fn frost_density_kg_m3(air_c: f64, relative_humidity: f64, plate_c: f64, age_s: f64) -> f64 {
    let atmosphere_pa = moist_air::STANDARD_PRESSURE_PA;
    let w_air = moist_air::humidity_ratio_from_relative_humidity(air_c, relative_humidity, atmosphere_pa);
    let w_plate = moist_air::saturation_humidity_ratio(plate_c, atmosphere_pa);
    let dew_c = moist_air::dew_point_c(w_air, atmosphere_pa);
    // The modified Jakob number, with the heat capacity of dry air.
    let jakob = 1006.0 * (dew_c - plate_c) / (SUBLIMATION_J_KG * (w_air - w_plate));
    let mut frost = Frost::default();
    for _ in 0..libm::round(age_s) as u64 {
        frost.grow(1.0e-4, 0.5, 0.0, jakob, 1.0);
    }
    frost.density_kg_m3
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Water that freezes on the coil and melts again leaves no heat behind and takes none along.
    #[test]
    fn ice_takes_up_in_melting_what_it_gave_off_in_freezing() {
        let mut frost = Frost::default();
        frost.grow(0.5, 0.5, 0.0, 1.0, 1.0);
        let given_off_j = frost.mass_kg * (SUBLIMATION_J_KG - CONDENSATION_J_KG);
        let mut taken_up_j = 0.0;
        for _ in 0..1000 {
            taken_up_j += frost.melt(300.0, 1.0);
        }
        assert!(frost.mass_kg <= 0.0);
        // The last milligram drains as it is.
        approx::assert_relative_eq!(taken_up_j, given_off_j, max_relative = 1.0e-5);
    }

    /// Frost density against Hermes 2014: room air 75 °F 50 %, plate at -5 °C; 59 kg/m³ at 10 min and
    /// 146 kg/m³ at 60 min, band 30 % (values from memory).
    #[test]
    fn density_follows_the_published_square_root_law() {
        for (minutes, published) in [(10.0, 59.0), (60.0, 146.0)] {
            let ours = frost_density_kg_m3(23.9, 0.5, -5.0, 60.0 * minutes);
            approx::assert_relative_eq!(ours, published, max_relative = 0.30);
        }
    }
}
