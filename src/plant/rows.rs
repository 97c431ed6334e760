//! The rows of the indoor coil that boil: air and moisture from row to row, each with its own wall, ice and water on them.
//!
//! Air marches through the rows in series; what leaves one enters the next. The surface of a row is not at one temperature:
//! it follows the heat that its tubes take along the air's way, runs from the foot of the fins to their tips, and along the
//! circuit with the glide of a blend. So a row falls dry and freezes share by share, and nothing has a corner.

use media::elementary::exp;
use media::moist_air::{STANDARD_PRESSURE_PA, saturation_humidity_ratio};

use crate::frost::{CONDENSATION_J_KG, FUSION_J_KG};

/// Rows in the direction of the air (typ. of residential coils: three, some four).
pub(crate) const ROWS: usize = 3;
const SHARE: f64 = 1.0 / ROWS as f64;
const ICE_K: f64 = 273.15;
/// Humidity ratio of saturated air at 0 °C (ASHRAE Handbook, Fundamentals 2017, chapter 1).
const ICE_HUMIDITY_RATIO: f64 = 3.789e-3;
/// How much colder the foot of the fins is than their mean, over the difference between air and that mean: (1 - f)/f with
/// a fin efficiency f of 0.8 (typ. of plain aluminium fins on wet coils, 0.7 to 0.85). What falls wet or freezes first is
/// the foot; the tips, half as far above the mean, are taken to lie as far.
const FIN_SPREAD: f64 = (1.0 - 0.8) / 0.8;
/// Least half spread, K: keeps the share below freezing a smooth function at rest, where all metal has one temperature.
const LEAST_SPREAD_K: f64 = 0.25;

/// What the rows have in common.
#[derive(Clone, Copy, Debug)]
pub(crate) struct March {
    pub room_k: f64,
    pub room_humidity_ratio: f64,
    pub air_cp_j_kg_k: f64,
    /// Capacity flow of the air that meets the open part of the rows, W/K.
    pub air_w_k: f64,
    /// Film of the open part, all rows, W/K, and the share of it that lies on ice.
    pub film_w_k: f64,
    pub film_on_ice: f64,
    /// Conductance from air at rest to the open part, W/K.
    pub still_w_k: f64,
    /// Conductance from the room's air to the faces of closed ice, W/K.
    pub block_w_k: f64,
    /// What of these two brings no moisture, W/K.
    pub dry_w_k: f64,
    /// Shares of the coil: iced, closed.
    pub iced: f64,
    pub closed: f64,
    /// Share of the fins under water.
    pub wet: f64,
    /// Boiling refrigerant (all rows), W/K, its temperature, K, and half its glide, K.
    pub boiling_w_k: f64,
    pub refrigerant_k: f64,
    pub half_glide_k: f64,
    /// Gas at rest, W/K.
    pub gas_w_k: f64,
    /// Share of the refrigerant that stands in tubes under ice and meets it instead of bare metal, once the ice is warm.
    pub under_ice: f64,
    /// What of the boiling conductance it has there.
    pub condenses_in_ice: f64,
    /// Heat capacity of the metal and of the low side, J/K.
    pub metal_j_k: f64,
    pub level_j_k: f64,
    /// Change of the level's temperature that is counted on, K; see [`crate::level::implicit_exchange`].
    pub counted_on_k: f64,
    /// Heat from each row to the refrigerant in the last step, W.
    pub last_w: [f64; ROWS],
    pub dt_s: f64,
}

/// What the rows exchange.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Marched {
    /// From the air, sensible, W.
    pub sensible_w: f64,
    /// Vapour to ice, and to water (negative where it evaporates), kg/s.
    pub frozen_kg_s: f64,
    pub condensed_kg_s: f64,
    /// Heat into melting ice of the zone and of the closed part, W.
    pub zone_melt_w: f64,
    pub block_melt_w: f64,
    /// From each row to the refrigerant, W.
    pub to_refrigerant_w: [f64; ROWS],
    /// Net heat to the metal of each row, W, and its temperature at the end of the step, K.
    pub metal_w: [f64; ROWS],
    pub walls_k: [f64; ROWS],
    /// Air behind the rows, K.
    pub air_k: f64,
    /// Saturation over the metal of the last row: temperature, K, humidity ratio, and its slope, 1/K. Saturation is convex, so
    /// its tangent there is a lower bound of it everywhere.
    pub saturation: (f64, f64, f64),
}

/// How a row's surface lies about its mean.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Surface {
    /// Half the spread of its temperature, K.
    pub half_k: f64,
    /// Share of it below freezing.
    pub cold: f64,
}

impl March {
    /// Share of the way to the metal that air goes in one row.
    pub(crate) fn effect(&self) -> f64 {
        if self.air_w_k > 1.0e-3 { 1.0 - exp(-(SHARE * self.film_w_k / self.air_w_k).min(30.0)) } else { 0.0 }
    }

    /// The surfaces of the rows; `effect` as of [`March::effect`].
    pub(crate) fn surfaces(&self, effect: f64, walls_k: &[f64; ROWS]) -> [Surface; ROWS] {
        let film = SHARE * self.film_w_k;
        let boiling = SHARE * self.boiling_w_k;
        let follows = boiling / (boiling + film + self.still_w_k).max(1.0e-6);
        let glide_k = self.half_glide_k * follows;
        let [first, second, third] = *walls_k;
        // Along the air's way a row reaches half-way to its neighbours.
        let ways_k = [0.5 * (first - second), 0.25 * (first - third), 0.5 * (second - third)];
        let mut left = 1.0 - 0.5 * effect;
        let mut surfaces = [Surface::default(); ROWS];
        for ((surface, &wall_k), way_k) in surfaces.iter_mut().zip(walls_k).zip(ways_k) {
            let fin_k = FIN_SPREAD * (self.room_k - wall_k) * left;
            left *= 1.0 - effect;
            let half_k = libm::sqrt(
                way_k * way_k + fin_k * fin_k + glide_k * glide_k + LEAST_SPREAD_K * LEAST_SPREAD_K,
            );
            *surface = Surface { half_k, cold: (0.5 - (wall_k - ICE_K) / (2.0 * half_k)).clamp(0.0, 1.0) };
        }
        surfaces
    }

    /// One step through all rows, implicit in each wall. `cold_share` is the share of the coil below freezing, `freezing_w` the
    /// heat of water that freezes on the fins.
    pub(crate) fn run(
        &self,
        effect: f64,
        walls_k: &[f64; ROWS],
        surfaces: &[Surface; ROWS],
        cold_share: f64,
        freezing_w: f64,
    ) -> Marched {
        let through_w_k = self.air_w_k * effect;
        let open_w_k = through_w_k + SHARE * self.still_w_k;
        let block_w_k = SHARE * self.block_w_k;
        let all_w_k = open_w_k + block_w_k;
        let cold = SHARE * surfaces.iter().map(|s| s.cold).sum::<f64>();
        // Ice stands where it was coldest: of what is warm it has only what reaches beyond the cold part.
        let per_warm = 1.0 / (1.0 - cold).max(1.0e-6);
        let beyond =
            |share: f64| if share > cold_share { (share - cold_share) / share * per_warm } else { 0.0 };
        let zone_on_warm = self.film_on_ice * beyond(self.iced);
        let block_on_warm = beyond(self.closed);
        let inertia = SHARE * self.metal_j_k / self.dt_s;
        let per_j = ROWS as f64 * self.dt_s / self.level_j_k.max(1.0e-3);
        // Humid air per kelvin of its heat: Lewis number one.
        let moist = if all_w_k > 1.0e-9 { 1.0 - SHARE * self.dry_w_k / all_w_k } else { 0.0 };
        let kg_j = moist / self.air_cp_j_kg_k;

        let (mut air_k, mut air_w) = (self.room_k, self.room_humidity_ratio);
        let mut out = Marched::default();
        // Air of the stream and air at rest, each by its conductance.
        let per_w_k = if all_w_k > 1.0e-9 { 1.0 / all_w_k } else { 0.0 };
        let mixed = through_w_k * per_w_k;
        // What heat from a row does to the stream behind it, K/W, and water, s/kg.
        let cools_k_w = effect * per_w_k;
        let dries_s_kg = self.air_cp_j_kg_k * cools_k_w;
        let held_w_cold = freezing_w / (ROWS as f64 * cold).max(1.0e-9);
        let per_inertia = 1.0 / inertia;
        let bare = self.iced <= 0.0 && cold <= 0.0;
        for row in 0..ROWS {
            let (wall_k, Surface { half_k, cold: row_cold }) = (walls_k[row], surfaces[row]);
            if bare {
                let air = MoistFilm { w_k: all_w_k, kg_j, per_j, inertia, per_inertia };
                let from_k = self.room_k + (air_k - self.room_k) * mixed;
                let from_w = self.room_humidity_ratio + (air_w - self.room_humidity_ratio) * mixed;
                let (sensible, water) = self.bare_row(row, wall_k, half_k, [from_k, from_w], &air, &mut out);
                air_k -= cools_k_w * sensible;
                air_w -= dries_s_kg * water;
                continue;
            }
            let warm = 1.0 - row_cold;
            let from_k = self.room_k + (air_k - self.room_k) * mixed;
            let from_w = self.room_humidity_ratio + (air_w - self.room_humidity_ratio) * mixed;

            // Metal that is bare, or under ice that is as cold, and ice that stands at its melting point.
            let zone_w_k = open_w_k * (zone_on_warm * warm).min(1.0);
            let face_w_k = block_w_k * (block_on_warm * warm).min(1.0);
            let ice_w_k = zone_w_k + face_w_k;
            let metal_w_k = all_w_k - ice_w_k;
            let wall_c = wall_k - ICE_K;
            let w_wall = saturation_humidity_ratio(wall_c, STANDARD_PRESSURE_PA);
            let w_slope = w_wall * 4098.0 / ((wall_c + 237.3) * (wall_c + 237.3));
            let drive = from_w - w_wall;
            let (falls, falls_slope) = condenses(drive, w_slope * half_k);
            // Where the film of water is warmer than the dew point it goes back to the air.
            let evaporates = self.wet * warm;
            let flux = falls - evaporates * (falls - drive);
            let flux_slope = -w_slope * (falls_slope * (1.0 - evaporates) + evaporates);
            let sensible = metal_w_k * (from_k - wall_k);
            let water = metal_w_k * kg_j * flux;
            let freezes = metal_w_k * kg_j * row_cold;
            let frozen = freezes * falls;
            let on_ice = ice_w_k * kg_j * (from_w - ICE_HUMIDITY_RATIO).max(0.0);
            let ice_sensible = ice_w_k * (from_k - ICE_K);

            // Refrigerant: to the metal, and where it stands under warm ice to that.
            let to_ice_w_k = SHARE * self.boiling_w_k * self.under_ice * self.condenses_in_ice * warm;
            let to_metal_w_k = SHARE * (self.boiling_w_k * (1.0 - self.under_ice * warm) + self.gas_w_k);
            let of_all = 1.0 / (1.0 + (to_ice_w_k + to_metal_w_k) * per_j);
            let ahead_k = self.refrigerant_k + self.counted_on_k - per_j * self.last_w[row];
            let taken = of_all * (to_metal_w_k * (wall_k - ahead_k) + to_ice_w_k * (ICE_K - ahead_k));

            let held_w = held_w_cold * row_cold;
            let frozen_slope = freezes * falls_slope * w_slope;
            let latent_slope = FUSION_J_KG * frozen_slope - CONDENSATION_J_KG * metal_w_k * kg_j * flux_slope;
            // In the ramp about 0 °C a warmer wall hands its film over to the ice.
            let ramp = warm > 0.0 && row_cold > 0.0 && ice_w_k > 0.0;
            let hands_w = if ramp {
                let per_k = 0.5 / half_k;
                let more_w_k = ice_w_k / warm.max(0.05) * per_k;
                more_w_k * ((from_k - wall_k) + CONDENSATION_J_KG * kg_j * flux).max(0.0)
            } else {
                0.0
            };
            let net = sensible + CONDENSATION_J_KG * water + FUSION_J_KG * frozen + held_w - taken;
            let moves_k = net / (inertia + metal_w_k + latent_slope + of_all * to_metal_w_k + hands_w);
            let sensible = sensible - metal_w_k * moves_k;
            let water = water + metal_w_k * kg_j * flux_slope * moves_k;
            let frozen = frozen - frozen_slope * moves_k;
            // What the ice takes over in the step, W: from the metal's film, at the metal's share of sensible and latent.
            let handed = hands_w * moves_k;
            let taken = taken + of_all * to_metal_w_k * moves_k;
            let end_k = ahead_k + per_j * taken;
            let to_ice_w = ice_sensible + CONDENSATION_J_KG * on_ice + handed - to_ice_w_k * (ICE_K - end_k);
            // Refrigerant colder than warm ice takes its heat from the metal.
            let melt_w = to_ice_w.max(0.0);
            let metal_w = sensible
                + CONDENSATION_J_KG * (water + on_ice)
                + ice_sensible
                + FUSION_J_KG * frozen
                + held_w
                - taken
                - melt_w;
            let zone_part = if ice_w_k > 0.0 { zone_w_k / ice_w_k } else { 1.0 };
            let zone_part = if self.closed > 0.0 { zone_part } else { 1.0 };

            out.saturation = (wall_k, w_wall, w_slope);
            out.walls_k[row] = wall_k + metal_w * per_inertia;
            out.metal_w[row] = metal_w;
            out.to_refrigerant_w[row] = taken;
            out.sensible_w += sensible + ice_sensible;
            out.frozen_kg_s += frozen;
            out.condensed_kg_s += water - frozen + on_ice;
            out.zone_melt_w += zone_part * melt_w;
            out.block_melt_w += (1.0 - zone_part) * melt_w;
            air_k -= cools_k_w * (sensible + ice_sensible);
            air_w -= dries_s_kg * (water + on_ice);
        }
        out.air_k = air_k;
        out
    }

    /// The step of a row without ice and above freezing, as nearly all are: what is left of the general one then. Returns the heat,
    /// W, and the water, kg/s, that leave the air.
    fn bare_row(
        &self,
        row: usize,
        wall_k: f64,
        half_k: f64,
        [from_k, from_w]: [f64; 2],
        air: &MoistFilm,
        out: &mut Marched,
    ) -> (f64, f64) {
        let wall_c = wall_k - ICE_K;
        let w_wall = saturation_humidity_ratio(wall_c, STANDARD_PRESSURE_PA);
        let w_slope = w_wall * 4098.0 / ((wall_c + 237.3) * (wall_c + 237.3));
        let drive = from_w - w_wall;
        let (falls, falls_slope) = condenses(drive, w_slope * half_k);
        let flux = falls - self.wet * (falls - drive);
        let flux_slope = -w_slope * (falls_slope * (1.0 - self.wet) + self.wet);
        let sensible = air.w_k * (from_k - wall_k);
        let water = air.w_k * air.kg_j * flux;
        let to_metal_w_k = SHARE * (self.boiling_w_k + self.gas_w_k);
        let implicit_w_k = to_metal_w_k / (1.0 + to_metal_w_k * air.per_j);
        let ahead_k = self.refrigerant_k + self.counted_on_k - air.per_j * self.last_w[row];
        let taken = implicit_w_k * (wall_k - ahead_k);
        let latent_slope = -CONDENSATION_J_KG * air.w_k * air.kg_j * flux_slope;
        let net = sensible + CONDENSATION_J_KG * water - taken;
        let moves_k = net / (air.inertia + air.w_k + latent_slope + implicit_w_k);
        let sensible = sensible - air.w_k * moves_k;
        let water = water + air.w_k * air.kg_j * flux_slope * moves_k;
        let taken = taken + implicit_w_k * moves_k;
        let metal_w = sensible + CONDENSATION_J_KG * water - taken;
        out.saturation = (wall_k, w_wall, w_slope);
        out.walls_k[row] = wall_k + metal_w * air.per_inertia;
        out.metal_w[row] = metal_w;
        out.to_refrigerant_w[row] = taken;
        out.sensible_w += sensible;
        out.condensed_kg_s += water;
        (sensible, water)
    }
}

/// What the rows of a bare coil have in common.
struct MoistFilm {
    /// Conductance of a row to the air, W/K, and humid air per joule of its heat, kg/J.
    w_k: f64,
    kg_j: f64,
    /// Kelvins of the level to a watt from a row, watts to a kelvin of its metal in a step, and the inverse of that.
    per_j: f64,
    inertia: f64,
    per_inertia: f64,
}

/// Mean of what is above zero of a drive whose values lie evenly within `half` of its mean, and its slope.
fn condenses(drive: f64, half: f64) -> (f64, f64) {
    if drive >= half {
        (drive, 1.0)
    } else if drive <= -half {
        (0.0, 0.0)
    } else {
        let above = drive + half;
        (above * above / (4.0 * half), above / (2.0 * half))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use media::moist_air::{cp_j_kg_k, humidity_ratio_from_wet_bulb};
    use media::units::celsius_from_fahrenheit;

    const FILM_W_K: f64 = 1250.0;
    const BOILING_W_K: f64 = 2300.0;

    /// Heats of a coil of three tons at rated flow, sensible and latent, W, once the walls are still.
    fn settled(wet_f: f64, refrigerant_c: f64) -> (f64, f64) {
        let room_c = celsius_from_fahrenheit(80.0);
        let w = humidity_ratio_from_wet_bulb(room_c, celsius_from_fahrenheit(wet_f), STANDARD_PRESSURE_PA);
        let march = March {
            room_k: room_c + ICE_K,
            room_humidity_ratio: w,
            air_cp_j_kg_k: cp_j_kg_k(w),
            air_w_k: 0.66 * cp_j_kg_k(w),
            film_w_k: FILM_W_K,
            film_on_ice: 0.0,
            still_w_k: 0.0,
            block_w_k: 0.0,
            dry_w_k: 0.0,
            iced: 0.0,
            closed: 0.0,
            wet: 0.0,
            boiling_w_k: BOILING_W_K,
            refrigerant_k: refrigerant_c + ICE_K,
            half_glide_k: 0.0,
            gas_w_k: 0.0,
            under_ice: 0.0,
            condenses_in_ice: 1.0,
            metal_j_k: 7000.0,
            level_j_k: 1.0e9,
            counted_on_k: 0.0,
            last_w: [0.0; ROWS],
            dt_s: 0.25,
        };
        let mut walls_k = [march.room_k; ROWS];
        let mut out = Marched::default();
        for _ in 0..400 {
            let effect = march.effect();
            let surfaces = march.surfaces(effect, &walls_k);
            out = march.run(effect, &walls_k, &surfaces, 0.0, 0.0);
            walls_k = out.walls_k;
        }
        let latent_w =
            CONDENSATION_J_KG * (out.frozen_kg_s + out.condensed_kg_s) + FUSION_J_KG * out.frozen_kg_s;
        let taken_w: f64 = out.to_refrigerant_w.iter().sum();
        approx::assert_relative_eq!(out.sensible_w + latent_w, taken_w, max_relative = 1e-9);
        (out.sensible_w, latent_w)
    }

    /// The same coil in thin slices, each at one temperature and dry or wet as a whole; walls by bisection.
    fn sliced(wet_f: f64, refrigerant_c: f64, slices: u32) -> (f64, f64) {
        let room_c = celsius_from_fahrenheit(80.0);
        let mut w =
            humidity_ratio_from_wet_bulb(room_c, celsius_from_fahrenheit(wet_f), STANDARD_PRESSURE_PA);
        let cp = cp_j_kg_k(w);
        let air = 0.66 * cp;
        let n = f64::from(slices);
        let effect = 1.0 - libm::exp(-FILM_W_K / n / air);
        let (mut air_c, mut sensible_w, mut latent_w) = (room_c, 0.0, 0.0);
        for _ in 0..slices {
            let heats = |wall_c: f64| {
                let drive = (w - saturation_humidity_ratio(wall_c, STANDARD_PRESSURE_PA)).max(0.0);
                (air * effect * (air_c - wall_c), air / cp * effect * drive)
            };
            let (mut low, mut high) = (refrigerant_c, air_c);
            for _ in 0..60 {
                let wall_c = 0.5 * (low + high);
                let (dry, water) = heats(wall_c);
                let release = CONDENSATION_J_KG + if wall_c < 0.0 { FUSION_J_KG } else { 0.0 };
                if dry + release * water > BOILING_W_K / n * (wall_c - refrigerant_c) {
                    low = wall_c;
                } else {
                    high = wall_c;
                }
            }
            let wall_c = 0.5 * (low + high);
            let (dry, water) = heats(wall_c);
            sensible_w += dry;
            latent_w += water * (CONDENSATION_J_KG + if wall_c < 0.0 { FUSION_J_KG } else { 0.0 });
            air_c -= dry / air;
            w -= water * cp / air;
        }
        (sensible_w, latent_w)
    }

    /// Three rows against thirty: total within 3 %, sensible share within 0.02, from a dry coil to a soaked one and below
    /// freezing. One row dry or wet as a whole misses by up to 0.03 near where water first falls, and by more below.
    #[test]
    fn three_rows_do_what_thirty_do() {
        for refrigerant_c in [-8.0, 4.0, 7.5, 10.0] {
            for wet_f in [55.0, 57.0, 58.0, 59.0, 60.0, 61.0, 62.0, 63.0, 64.0, 67.0, 70.0, 74.0] {
                let (ours, fine) = (settled(wet_f, refrigerant_c), sliced(wet_f, refrigerant_c, 30));
                let (all, all_fine) = (ours.0 + ours.1, fine.0 + fine.1);
                let (share, share_fine) = (ours.0 / all, fine.0 / all_fine);
                approx::assert_relative_eq!(all, all_fine, max_relative = 0.03);
                approx::assert_abs_diff_eq!(share, share_fine, epsilon = 0.02);
            }
        }
    }
}
