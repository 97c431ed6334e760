//! Evaporator: wetted share from the liquid inventory, wet coil by bypass factor, frost, superheat.

use media::moist_air;
use media::refrigerant::{Fluid, Phase, Refrigerant, Saturation};
use media::units::{celsius_from_kelvin, kelvin_from_celsius};

use crate::air::air_film_w_k;
use crate::frost::{CONDENSATION_J_KG, FUSION_J_KG, Frost, SUBLIMATION_J_KG};
use crate::glide;
use crate::holdup::{end_quality, mean_holdup, zivi};
use crate::level::implicit_exchange;
use crate::system::Evaporator;

/// Exchange between dry vapour and coil metal at rest, W/K (natural convection in tubes, typ.).
const RESTING_GAS_UA_W_K: f64 = 25.0;

/// What the evaporator sees.
pub(crate) struct Around<'a> {
    pub fluid: &'a Refrigerant,
    pub room_k: f64,
    pub room_humidity_ratio: f64,
    pub airflow_m3_s: f64,
    pub rated_airflow_m3_s: f64,
    pub blower_speed: f64,
    /// Share of the coil face that a collapsed filter leaves free.
    pub face_share: f64,
    pub inlet_enthalpy_j_kg: f64,
    pub inlet_flow_kg_s: f64,
    pub outlet_flow_kg_s: f64,
    pub rated_flow_kg_s: f64,
    /// Liquid in the evaporator, m³.
    pub liquid_volume_m3: f64,
    /// Heat capacity of the low side, J/K, and the heat from the wall to it in the last step, W.
    pub level_capacity_j_k: f64,
    /// Change of its temperature in the last step, K.
    pub level_changed_k: f64,
    pub last_from_wall_w: f64,
    pub dt_s: f64,
}

/// What the evaporator does at one instant.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Evaporating {
    /// All heat to the refrigerant, W.
    pub heat_to_refrigerant_w: f64,
    /// The part of it that comes from the wall, W.
    pub from_wall_w: f64,
    /// Enthalpy at the outlet, J/kg.
    pub outlet_enthalpy_j_kg: f64,
    /// Temperature at the outlet, K.
    pub outlet_k: f64,
    /// Share of the coil wetted by boiling refrigerant.
    pub wetted_share: f64,
    pub wall_k: f64,
    /// Sensible heat from the air, W.
    pub sensible_w: f64,
    /// Water from the air, kg/s.
    pub water_kg_s: f64,
    /// Heat released by that water (condensing or freezing), W.
    pub latent_w: f64,
    /// Heat that went into melting, W.
    pub melt_w: f64,
    pub dry_air_kg_s: f64,
    pub coil_leaving_k: f64,
    pub coil_leaving_humidity_ratio: f64,
    /// Air leaving the wetted part, K.
    pub cabinet_air_k: f64,
    /// Air and drip off the coldest rows, where a bare bulb hangs, K.
    pub cold_end_k: f64,
    pub air_cp_j_kg_k: f64,
}

/// What the evaporator exchanges at one instant, at the temperature of its wall and with how each heat changes with it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Exchange {
    /// Share of the coil wetted by boiling refrigerant, above 1 when it floods.
    pub wetted_share: f64,
    pub room_k: f64,
    pub room_humidity_ratio: f64,
    pub dry_air_kg_s: f64,
    pub air_cp_j_kg_k: f64,
    /// Capacity flow of the air, W/K, and the share of it that meets the metal.
    pub air_w_k: f64,
    pub contact_share: f64,
    /// Sensible heat from the air to the wall, W, and its fall with a warmer wall.
    pub sensible_w: f64,
    pub sensible_w_k: f64,
    /// Water from the air to the wall, kg/s, and its fall with a warmer wall.
    pub water_kg_s: f64,
    pub water_kg_s_k: f64,
    /// Heat that the water gives off, J/kg.
    pub release_j_kg: f64,
    /// Conductances from wall to boiling refrigerant and to gas at rest, W/K, and the refrigerant's temperature, K.
    pub boiling_w_k: f64,
    pub gas_w_k: f64,
    pub refrigerant_k: f64,
    /// Conductance from wall to melting ice, W/K, and the wall's temperature from which it melts, K.
    pub melt_w_k: f64,
    pub melt_zero_k: f64,
    /// How much colder than the mean of the wall its coldest surface is, K.
    pub depth_k: f64,
    /// Share of the wetted surface below freezing.
    pub cold_share: f64,
    /// Share of the water that freezes.
    pub freezing_share: f64,
    /// Share of the coil over which the ice spreads.
    pub iced_target_share: f64,
    pub outlet_enthalpy_j_kg: f64,
    pub outlet_k: f64,
    /// Heat from the air to the vapour in the part that is not wetted, W.
    pub superheat_w: f64,
}

impl Exchange {
    /// All results, from the heats that flow and the wall's temperature after them.
    pub(crate) fn results(&self, wall: &WallHeats, wall_k: f64) -> Evaporating {
        let capacity = self.air_w_k;
        let (sensible_w, water_kg_s) = (wall.sensible_w + self.superheat_w, wall.water_kg_s);
        Evaporating {
            heat_to_refrigerant_w: wall.to_refrigerant_w + self.superheat_w,
            from_wall_w: wall.to_refrigerant_w,
            outlet_enthalpy_j_kg: self.outlet_enthalpy_j_kg,
            outlet_k: self.outlet_k,
            wetted_share: self.wetted_share,
            wall_k,
            sensible_w,
            water_kg_s,
            latent_w: water_kg_s * self.release_j_kg,
            melt_w: wall.melt_w,
            dry_air_kg_s: self.dry_air_kg_s,
            coil_leaving_k: if capacity > 1.0 { self.room_k - sensible_w / capacity } else { self.room_k },
            coil_leaving_humidity_ratio: if self.dry_air_kg_s > 1.0e-3 {
                (self.room_humidity_ratio - water_kg_s / self.dry_air_kg_s).max(1.0e-5)
            } else {
                self.room_humidity_ratio
            },
            cabinet_air_k: if capacity > 1.0 {
                self.room_k - (self.room_k - wall_k) * self.contact_share
            } else {
                wall_k
            },
            cold_end_k: wall_k - 0.75 * self.depth_k,
            air_cp_j_kg_k: self.air_cp_j_kg_k,
        }
    }

    /// Jakob number of the frost on the coldest surface at this temperature of the wall, see [`Frost::grow`].
    pub(crate) fn jakob(&self, wall_k: f64) -> f64 {
        let surface_c = celsius_from_kelvin(wall_k) - self.depth_k;
        let w_surface =
            moist_air::saturation_humidity_ratio(surface_c.min(0.0), moist_air::STANDARD_PRESSURE_PA);
        let dew_c = moist_air::dew_point_c(self.room_humidity_ratio, moist_air::STANDARD_PRESSURE_PA);
        let drive = SUBLIMATION_J_KG * (self.room_humidity_ratio - w_surface).max(1.0e-4);
        1006.0 * (dew_c - surface_c).max(0.0) / drive
    }
}

/// Heats of the coil's wall.
#[derive(Clone, Copy, Debug)]
pub(crate) struct WallHeats {
    /// From the air, sensible, W.
    pub sensible_w: f64,
    /// Water from the air, kg/s.
    pub water_kg_s: f64,
    pub to_refrigerant_w: f64,
    /// Into melting ice, W.
    pub melt_w: f64,
}

/// One step of the evaporator, implicit in the temperature of its wall; frost grows or melts in place.
pub(crate) fn evaporate(
    data: &Evaporator,
    around: &Around<'_>,
    state: &Fluid,
    sat: &Saturation,
    wall_k: f64,
    frost: &mut Frost,
) -> Evaporating {
    let e = exchange(data, around, state, sat, wall_k, frost);
    let (to_refrigerant_w_k, refrigerant_k) = implicit_exchange(
        e.boiling_w_k + e.gas_w_k,
        e.refrigerant_k,
        around.level_capacity_j_k,
        // Heat to the refrigerant warms it: the sign is the other way round than in the condenser.
        -around.last_from_wall_w,
        around.level_changed_k,
        around.dt_s,
    );
    let inertia = data.metal_capacity_j_k / around.dt_s;
    let slope = e.sensible_w_k + e.water_kg_s_k * e.release_j_kg;
    let wall_next = (inertia * wall_k
        + e.sensible_w
        + e.water_kg_s * e.release_j_kg
        + slope * wall_k
        + to_refrigerant_w_k * refrigerant_k
        + e.melt_w_k * e.melt_zero_k)
        / (inertia + slope + to_refrigerant_w_k + e.melt_w_k);
    let sensible_w = e.sensible_w - e.sensible_w_k * (wall_next - wall_k);
    let water_kg_s = (e.water_kg_s - e.water_kg_s_k * (wall_next - wall_k)).max(0.0);
    let to_refrigerant_w = to_refrigerant_w_k * (wall_next - refrigerant_k);
    let melt_w = frost.melt(e.melt_w_k * (wall_next - e.melt_zero_k).max(0.0), around.dt_s);
    let latent_w = water_kg_s * e.release_j_kg;
    // Explicit sum of the fluxes just fixed: exact balance whatever was clamped.
    let wall_new = wall_k + (sensible_w + latent_w - to_refrigerant_w - melt_w) / inertia;

    let frozen = water_kg_s * e.freezing_share;
    if frozen > 0.0 || frost.mass_kg > 0.0 {
        frost.grow(frozen, e.iced_target_share, 1.0 - e.cold_share, e.jakob(wall_k), around.dt_s);
    }
    frost.drained_kg += (water_kg_s - frozen) * around.dt_s;
    e.results(&WallHeats { sensible_w, water_kg_s, to_refrigerant_w, melt_w }, wall_new)
}

/// One instant of the evaporator at this temperature of its wall and with this frost.
pub(crate) fn exchange(
    data: &Evaporator,
    around: &Around<'_>,
    state: &Fluid,
    sat: &Saturation,
    wall_k: f64,
    frost: &Frost,
) -> Exchange {
    let m_out = around.outlet_flow_kg_s.max(0.0);
    let at_rest = 1.0 / (1.0 + (m_out / 0.002) * (m_out / 0.002));

    // Wetted share from the liquid that is there.
    let x_in = glide::quality(around.fluid, sat, around.inlet_enthalpy_j_kg).clamp(0.0, 0.98);
    let c = zivi(sat.vapour_density_kg_m3, sat.liquid_density_kg_m3);
    let holdup = mean_holdup(c, x_in, 1.0);
    let liquid_share = (around.liquid_volume_m3 / data.volume_m3).max(0.0);
    let full = liquid_share / holdup;
    let wetted = full.min(1.0);
    let flooded_end = (full > 1.0).then(|| {
        let quality = end_quality(c, x_in, liquid_share, [x_in, 1.0]);
        glide::at_quality(around.fluid, sat, quality)
    });

    // The wetted part boils from the inlet's temperature up to dew; at rest the whole level has one temperature.
    let (boiling_k, span_k) = if state.phase == Phase::TwoPhase {
        let end = flooded_end.map_or(sat.vapour_enthalpy_j_kg, |(h, _)| h);
        let zone = glide::zone(around.fluid, sat, around.inlet_enthalpy_j_kg, end, state.temperature_k);
        let flows = 1.0 - at_rest;
        (state.temperature_k + flows * (zone.mean_k - state.temperature_k), flows * zone.span_k)
    } else {
        (state.temperature_k, 0.0)
    };

    // Air over the wetted share; at rest and where ice stands, the metal meets all of the air.
    let room_c = celsius_from_kelvin(around.room_k);
    let w_room = around.room_humidity_ratio;
    let cp = moist_air::cp_j_kg_k(w_room);
    let air_kg_s = around.airflow_m3_s
        / moist_air::specific_volume_m3_kg(room_c, w_room, moist_air::STANDARD_PRESSURE_PA);
    let capacity = air_kg_s * cp;
    let share = (wetted + (1.0 - wetted) * at_rest).max(frost.iced_share).min(1.0);
    // Ice stands where it was coldest, on the wetted part first: a blocked part takes up no more heat, so its
    // liquid moves on along the coil, and the ice after it.
    let gap_swept = libm::sqrt(frost.gap_share(data));
    let swept_by_air = |iced: f64, part: f64| {
        if part > 1.0e-6 { (1.0 - (iced / part).clamp(0.0, 1.0) * (1.0 - gap_swept)).max(0.05) } else { 1.0 }
    };
    let iced_wet = frost.iced_share.min(share);
    let swept = swept_by_air(iced_wet, share) * around.face_share;
    let film = air_film_w_k(data, around.rated_airflow_m3_s, around.airflow_m3_s, swept);
    let ntu = if capacity > 1.0e-3 { (film / capacity).min(30.0) } else { 0.0 };
    let contact = 1.0 - libm::exp(-ntu);
    let wall_c = celsius_from_kelvin(wall_k);
    let still = data.still_air_ua_w_k * (1.0 - around.blower_speed).clamp(0.0, 1.0);
    let sensible_slope = share * capacity * contact + still;
    let sensible_0 = sensible_slope * (around.room_k - wall_k);
    let w_wall = moist_air::saturation_humidity_ratio(wall_c, moist_air::STANDARD_PRESSURE_PA);
    // Lewis number one: moisture moves like heat. Still air carries its share through the same film.
    let exchange = share * air_kg_s * contact + still / cp;
    let water_0 = exchange * (w_room - w_wall).max(0.0);
    let water_slope =
        if water_0 > 0.0 { exchange * w_wall * 4098.0 / ((wall_c + 237.3) * (wall_c + 237.3)) } else { 0.0 };

    let boiling = data.boiling_ua_w_k
        * wetted
        * libm::pow((around.inlet_flow_kg_s.max(0.0) / around.rated_flow_kg_s).clamp(0.02, 2.0), 0.4);

    // How much of the wetted surface is below freezing.
    // The surface follows the refrigerant's glide as far as the film to the air lets it.
    let follows = boiling / (boiling + sensible_slope).max(1.0e-6);
    let depth = data.surface_spread * (wall_k - boiling_k).max(0.0) + 0.5 * span_k * follows;
    let spread = depth + 0.5;
    let cold = ((spread - wall_c) / (2.0 * spread)).clamp(0.0, 1.0);
    // The part that is already blocked takes no more; the next part of the wetted coil is then the coldest.
    let cold_share = cold * wetted;
    let blocked = frost.iced_share * (1.0 - gap_swept);
    let taken = if cold_share > 1.0e-6 { (blocked / cold_share).min(1.0) } else { 0.0 };
    let freezing_share = cold * (1.0 - taken).max(0.1);
    let release = CONDENSATION_J_KG + freezing_share * (SUBLIMATION_J_KG - CONDENSATION_J_KG);

    let gas = RESTING_GAS_UA_W_K * at_rest * (1.0 - wetted);
    let melt_ua = if wall_c - depth > 0.0 { frost.melt_ua_w_k() } else { 0.0 };
    let iced_target = (cold_share + if cold > 0.0 { blocked } else { 0.0 }).min(wetted);

    // Superheat in the share that is not wetted.
    let (outlet_enthalpy_j_kg, outlet_k, superheat_w) = if let Some((enthalpy, temperature_k)) = flooded_end {
        (enthalpy, temperature_k, 0.0)
    } else {
        let base_h = state.enthalpy_j_kg.max(sat.vapour_enthalpy_j_kg);
        let base_k = state.temperature_k.max(sat.dew_k);
        let air_side = capacity + still;
        let dry_swept = swept_by_air(frost.iced_share - wetted, 1.0 - wetted);
        let ua = data.superheat_ua_w_k * dry_swept * around.face_share.max(0.02);
        let e = 1.0 - libm::exp(-(ua / air_side.max(1.0e-3)).min(30.0));
        let span_k = around.room_k - base_k;
        let cp_at_dew = sat.vapour_cp_j_kg_k;
        let cp_to_room = mean_vapour_cp_j_kg_k(around, sat, base_h, span_k);
        let flow_cp = m_out.max(1.0e-6) * cp_to_room;
        let warmed = 1.0 - libm::exp(-((1.0 - wetted) * air_side * e / flow_cp).min(50.0));
        // Heat capacity falls evenly from dew to its mean over the whole way: exact at both ends.
        let gained_j_kg = (cp_at_dew + (cp_to_room - cp_at_dew) * warmed) * span_k * warmed;
        (base_h + gained_j_kg, base_k + span_k * warmed, m_out * gained_j_kg)
    };

    Exchange {
        wetted_share: full,
        room_k: around.room_k,
        room_humidity_ratio: w_room,
        dry_air_kg_s: air_kg_s,
        air_cp_j_kg_k: cp,
        air_w_k: capacity,
        contact_share: contact,
        sensible_w: sensible_0,
        sensible_w_k: sensible_slope,
        water_kg_s: water_0,
        water_kg_s_k: water_slope,
        release_j_kg: release,
        boiling_w_k: boiling,
        gas_w_k: gas,
        refrigerant_k: boiling_k,
        melt_w_k: melt_ua,
        melt_zero_k: 273.15 + depth,
        depth_k: depth,
        cold_share: cold,
        freezing_share,
        iced_target_share: iced_target,
        outlet_enthalpy_j_kg,
        outlet_k,
        superheat_w,
    }
}

/// Mean heat capacity of the vapour between its state at the end of the wetted part and the room's temperature,
/// J/(kg K), from the tables: near dew vapour takes up a quarter more per kelvin than 20 K above.
fn mean_vapour_cp_j_kg_k(around: &Around<'_>, sat: &Saturation, from_j_kg: f64, span_k: f64) -> f64 {
    let cp_at_dew = sat.vapour_cp_j_kg_k;
    if span_k < 0.5 {
        return cp_at_dew;
    }
    let at_room = around.fluid.at_pt_vapour(sat.pressure_pa, around.room_k).enthalpy_j_kg;
    ((at_room - from_j_kg) / span_k).clamp(0.6 * cp_at_dew, cp_at_dew)
}

/// Share of latent heat in the frost's fusion, for the energy ledger: heat that freezing released, W.
pub(crate) fn freezing_heat_w(result: &Evaporating) -> f64 {
    (result.latent_w - result.water_kg_s * CONDENSATION_J_KG).min(result.water_kg_s * FUSION_J_KG)
}

/// Wet bulb in K of air in K.
pub(crate) fn wet_bulb_k(dry_bulb_k: f64, humidity_ratio: f64) -> f64 {
    kelvin_from_celsius(moist_air::wet_bulb_c(
        celsius_from_kelvin(dry_bulb_k),
        humidity_ratio,
        moist_air::STANDARD_PRESSURE_PA,
    ))
}
