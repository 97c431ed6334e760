//! Evaporator: wetted share from the liquid inventory, wet coil row by row, ice and water on it, superheat.

mod boils;
mod followed;
mod leaving;
mod passage;

use media::moist_air;
use media::units::{celsius_from_kelvin, kelvin_from_celsius};

use crate::frost::{CONDENSATION_J_KG, FUSION_J_KG, Frost, IceFlows, SUBLIMATION_J_KG};
use crate::level::counted_on_k;
use crate::rows::{March, ROWS};
use crate::system::Evaporator;
pub(crate) use boils::{Boundary, CoilFilms, DewPoint};
use boils::{Outlet, at_rest, liquid_share};
pub(crate) use followed::CoilTangents;
use followed::{followed, in_ice};
use leaving::Leaving;
pub(crate) use leaving::mean_k;
use passage::{Met, Passage, RoomAir, Swept};

/// Exchange between dry vapour and coil metal at rest, W/K (natural convection in tubes, typ.).
const RESTING_GAS_UA_W_K: f64 = 25.0;
/// Share of the conductance of boiling at rest between pool and tubes in ice: what condenses in them must find its way back
/// (typ., within 0.1 to 1 it moves the end of a thaw by a quarter).
const CONDENSES_IN_ICE: f64 = 0.25;

/// What the evaporator does at one instant.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Evaporating {
    /// All heat to the refrigerant, W.
    pub heat_to_refrigerant_w: f64,
    /// The part of it that comes from each row of the wall, W.
    pub from_wall_w: [f64; ROWS],
    /// Enthalpy at the outlet, J/kg.
    pub outlet_enthalpy_j_kg: f64,
    /// Temperature at the outlet, K.
    pub outlet_k: f64,
    /// Share of the coil wetted by boiling refrigerant.
    pub wetted_share: f64,
    pub walls_k: [f64; ROWS],
    /// Sensible heat from the air, W.
    pub sensible_w: f64,
    /// Water from the air, kg/s; negative where it evaporates from the fins.
    pub water_kg_s: f64,
    /// Vapour that freezes, kg/s.
    pub frozen_kg_s: f64,
    /// Share of the ice that is below freezing, 0 to 1.
    pub frozen_share: f64,
    /// Heat released by that water (condensing or freezing), W.
    pub latent_w: f64,
    /// Heat that went into melting, less what freezing water on the fins gave, W.
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

/// What the evaporator exchanges at one instant.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Exchange {
    /// The results, with the walls at the end of the step.
    pub results: Evaporating,
    /// Net heat to the metal of each row, W.
    pub metal_w: [f64; ROWS],
    pub ice: IceFlows,
    /// Coldest surface of the coil, °C.
    pub coldest_c: f64,
    room_humidity_ratio: f64,
}

impl Exchange {
    /// Jakob number of the frost on the coldest surface, see [`Frost::ageing_kg_m3_s`].
    pub(crate) fn jakob(&self, dew: &mut DewPoint) -> f64 {
        let w_surface =
            moist_air::saturation_humidity_ratio(self.coldest_c.min(0.0), moist_air::STANDARD_PRESSURE_PA);
        let dew_c = dew.of(self.room_humidity_ratio);
        let drive = SUBLIMATION_J_KG * (self.room_humidity_ratio - w_surface).max(1.0e-4);
        1006.0 * (dew_c - self.coldest_c).max(0.0) / drive
    }
}

/// One step of the evaporator, implicit in the temperatures of its walls; ice and water change in place.
pub(crate) fn evaporate(
    data: &Evaporator,
    around: &Boundary<'_>,
    walls_k: &[f64; ROWS],
    frost: &mut Frost,
    films: &mut CoilFilms,
    tangents: &mut CoilTangents,
) -> Evaporating {
    let mut e = exchange(data, around, walls_k, frost, films, tangents);
    // The last ice cannot melt twice: what is over warms the metal.
    let melt_w = e.ice.zone_melt_w + e.ice.block_melt_w;
    let most_w = frost.mass_kg.max(0.0) * FUSION_J_KG / around.dt_s;
    if melt_w > most_w {
        let share = most_w / melt_w;
        e.ice.zone_melt_w *= share;
        e.ice.block_melt_w *= share;
        e.results.melt_w -= melt_w - most_w;
        for wall_k in &mut e.results.walls_k {
            *wall_k += (melt_w - most_w) * around.dt_s / data.metal_capacity_j_k;
        }
    }
    let flows = e.ice;
    frost.advance(data, &flows, || e.jakob(&mut films.dew), around.dt_s);
    e.results
}

/// One instant of the evaporator with its walls at these temperatures and with this ice and water; walls move by what
/// `around.dt_s` lets them.
pub(crate) fn exchange(
    data: &Evaporator,
    around: &Boundary<'_>,
    walls_k: &[f64; ROWS],
    frost: &Frost,
    films: &mut CoilFilms,
    tangents: &mut CoilTangents,
) -> Exchange {
    let level = around.level;
    let stillness = at_rest(around.outlet_flow_kg_s.max(0.0) / around.rated_flow_kg_s);
    let shape = frost.shape(data);
    let in_ice = (shape.iced > 0.0).then(|| in_ice(data, around, &shape, films, &mut tangents.in_ice));

    let air = RoomAir::of(around);
    // All of a coil without ice is open, however much of it is wetted.
    let open = in_ice.as_ref().map_or(1.0, |boils| Met::of(boils, &shape, stillness).open);
    let passage = Passage::of(open, &air, around, walls_k, frost, data);
    let (boils, outlet) = match in_ice {
        Some(boils) => {
            let base = [level.fluid.enthalpy_j_kg, level.fluid.temperature_k];
            let outlet =
                Outlet::of(data, around, level.isobar(), base, &boils, passage.air_side_w_k, shape.iced);
            (boils, outlet)
        }
        None => followed(data, around, &shape, passage.air_side_w_k, films, &mut tangents.bare),
    };
    let met = Met::of(&boils, &shape, stillness);
    let swept = Swept::of(data, around, &air, &passage, &met, &shape, films);
    let march = March {
        room_k: around.room_k,
        room_humidity_ratio: air.humidity_ratio,
        air_cp_j_kg_k: air.cp_j_kg_k,
        air_w_k: air.capacity_w_k * passage.through * met.open_wet,
        film_w_k: swept.fins_w_k,
        film_on_ice: if swept.zone_film > 0.0 { swept.zone_film / (met.bare + swept.zone_film) } else { 0.0 },
        still_w_k: passage.cabinet_w_k * (1.0 - shape.closed) + swept.draught_w_k,
        block_w_k: shape.closed * (swept.faces_w_k + passage.cabinet_w_k),
        dry_w_k: passage.cabinet_w_k,
        iced: shape.iced,
        closed: shape.closed,
        wet: frost.wet_share(data),
        boiling_w_k: boils.conductance_w_k,
        refrigerant_k: boils.refrigerant_k,
        half_glide_k: 0.5 * boils.span_k,
        gas_w_k: RESTING_GAS_UA_W_K * stillness * (1.0 - boils.wetted()),
        // At rest liquid gathers where it is coldest, as far as those tubes have room.
        under_ice: stillness * (shape.iced / liquid_share(data, around).max(1.0e-6)).min(1.0),
        condenses_in_ice: CONDENSES_IN_ICE,
        metal_j_k: data.metal_capacity_j_k,
        level_j_k: around.level_capacity_j_k,
        counted_on_k: counted_on_k(around.level_changed_k),
        last_w: around.last_from_wall_w,
        dt_s: around.dt_s,
    };
    let effect = march.effect();
    let surfaces = march.surfaces(effect, walls_k);
    let cold = surfaces.iter().map(|s| s.cold).sum::<f64>() / ROWS as f64;
    // Metal in closed ice takes up no heat: while refrigerant flows it is as cold as that.
    let below_k = kelvin_from_celsius(0.0) - boils.refrigerant_k;
    let closed_cold = cold.max((1.0 - stillness) * (0.5 + below_k).clamp(0.0, 1.0));
    let cold_share = cold * (met.share - shape.closed) + closed_cold * shape.closed;
    let freezing_w =
        if cold > 0.0 { FUSION_J_KG * frost.overflow(data, cold_share).freezes_kg_s } else { 0.0 };
    let marched = march.run(effect, walls_k, &surfaces, cold_share, freezing_w);

    let drawn_kg_s = passage.draught_kg_s + passage.cabinet_w_k / air.cp_j_kg_k;
    let leaving = Leaving::of(around, air.kg_s, drawn_kg_s, air.cp_j_kg_k, &marched, outlet.superheat_w);
    let to_metal_w: f64 = marched.to_refrigerant_w.iter().sum();
    let water_kg_s = marched.frozen_kg_s + marched.condensed_kg_s + leaving.rain_kg_s;
    let last = surfaces[ROWS - 1];
    Exchange {
        results: Evaporating {
            heat_to_refrigerant_w: to_metal_w + outlet.superheat_w,
            from_wall_w: marched.to_refrigerant_w,
            outlet_enthalpy_j_kg: outlet.enthalpy_j_kg,
            outlet_k: outlet.temperature_k,
            wetted_share: boils.full,
            walls_k: marched.walls_k,
            sensible_w: leaving.sensible_w,
            water_kg_s,
            frozen_kg_s: marched.frozen_kg_s,
            frozen_share: frost.frozen_share(cold_share),
            latent_w: CONDENSATION_J_KG * water_kg_s + FUSION_J_KG * marched.frozen_kg_s,
            melt_w: marched.zone_melt_w + marched.block_melt_w - freezing_w,
            dry_air_kg_s: air.kg_s,
            coil_leaving_k: leaving.air_k,
            coil_leaving_humidity_ratio: leaving.humidity_ratio,
            cabinet_air_k: if march.air_w_k > 1.0 { marched.air_k } else { mean_k(walls_k) },
            cold_end_k: walls_k[ROWS - 1] - 0.5 * last.half_k,
            air_cp_j_kg_k: air.cp_j_kg_k,
        },
        metal_w: marched.metal_w,
        ice: IceFlows {
            frozen_kg_s: marched.frozen_kg_s,
            condensed_kg_s: marched.condensed_kg_s + leaving.rain_kg_s,
            zone_melt_w: marched.zone_melt_w,
            block_melt_w: marched.block_melt_w,
            cold_share,
            wet_share: 1.0 - cold,
        },
        coldest_c: celsius_from_kelvin(walls_k[ROWS - 1] - last.half_k),
        room_humidity_ratio: air.humidity_ratio,
    }
}

/// The part of the latent heat that freezing released, W.
pub(crate) fn freezing_heat_w(result: &Evaporating) -> f64 {
    result.frozen_kg_s * FUSION_J_KG
}

/// Wet bulb in K of air in K.
pub(crate) fn wet_bulb_k(dry_bulb_k: f64, humidity_ratio: f64) -> f64 {
    kelvin_from_celsius(moist_air::wet_bulb_c(
        celsius_from_kelvin(dry_bulb_k),
        humidity_ratio,
        moist_air::STANDARD_PRESSURE_PA,
    ))
}
