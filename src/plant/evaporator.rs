//! Evaporator: wetted share from the liquid inventory, wet coil row by row, ice and water on it, superheat.

mod followed;

use media::elementary::exp;
use media::moist_air;
use media::refrigerant::{Fluid, Isobar, Phase, Refrigerant, Saturation};
use media::units::{celsius_from_kelvin, kelvin_from_celsius};
use serde::{Deserialize, Serialize};

pub(crate) use followed::CoilTangents;
use followed::{followed, in_ice};

use crate::air::{Face, air_film_w_k, through_share};
use crate::boiling::{Boiling, BoilingFilms};
use crate::draught::{Draught, MoistAir};
use crate::frost::{CONDENSATION_J_KG, FUSION_J_KG, Frost, IceFlows, SUBLIMATION_J_KG, Shape};
use crate::glide;
use crate::holdup::{end_quality, mean_holdup, zivi};
use crate::kept::Kept;
use crate::level::{LevelState, counted_on_k};
use crate::rows::{March, Marched, ROWS};
use crate::system::Evaporator;

/// Exchange between dry vapour and coil metal at rest, W/K (natural convection in tubes, typ.).
const RESTING_GAS_UA_W_K: f64 = 25.0;
/// Face that a closed block of ice turns to the air, over the surface of its fins: fins of three rows have some 60 m² for
/// each m² of face. Only the face that the air comes to counts; the other lies in its wake (typ.).
const FACE_OF_FINS: f64 = 1.0 / 60.0;
/// Conductance from the room through the lined cabinet to the coil, which brings no moisture, over the surface of the fins,
/// W/(m² K): 1 m² around the coil with 25 mm of lining and two films, and the film on the coil itself, about 0.5 to 0.7 W/K on
/// three tons with 22 m² (typ.).
const CABINET_W_M2_K: f64 = 0.022;
/// Share of the conductance of boiling at rest between pool and tubes in ice: what condenses in them must find its way back
/// (typ., within 0.1 to 1 it moves the end of a thaw by a quarter).
const CONDENSES_IN_ICE: f64 = 0.25;
/// Exchange between the outlet tube in the cabinet, with the bulb on it, and the air there, W/K: 0.5 m of 19 mm tube at
/// 10 W/(m² K) (typ.). A trifle while the coil works; behind a block it is all the warmth that a bulb feels.
const OUTLET_TUBE_W_K: f64 = 0.3;
/// Outlet flow over the rated one from which on liquid stands where the stream leaves it and the rest of the coil is dry (typ.,
/// a little less than a shut valve lets by): below it a part of the dry metal counts as in touch with the liquid, as it is at rest. A
/// stream that boils on a few hundredths of the coil must have no warm fins counted to it.
const STREAM_SHARE: f64 = 0.016;
/// Share of the boiling conductance that is left to tubes that all lie in closed ice, along the metal (typ.).
const LEAST_BOILING: f64 = 0.02;

/// What the evaporator sees.
#[derive(Clone, Copy)]
pub(crate) struct Boundary<'a> {
    pub fluid: &'a Refrigerant,
    /// The flash of the whole low side.
    pub level: &'a LevelState,
    pub room_k: f64,
    pub room_humidity_ratio: f64,
    pub airflow_m3_s: f64,
    pub rated_airflow_m3_s: f64,
    pub draught: Draught,
    pub face: Face,
    pub inlet_enthalpy_j_kg: f64,
    pub inlet_flow_kg_s: f64,
    pub outlet_flow_kg_s: f64,
    pub rated_flow_kg_s: f64,
    pub critical_pressure_pa: f64,
    /// Liquid in the evaporator, m³.
    pub liquid_volume_m3: f64,
    /// Heat capacity of the low side, J/K, and the heat from each row of the wall to it in the last step, W.
    pub level_capacity_j_k: f64,
    /// Change of the low side's temperature in the last step, K.
    pub level_changed_k: f64,
    pub last_from_wall_w: [f64; ROWS],
    pub dt_s: f64,
}

/// Powers of its laws as they were last worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct CoilFilms {
    slip: Kept,
    blown: Kept,
    draught: Kept,
    face: Kept,
    draught_face: Kept,
    boiling: BoilingFilms,
    dew: DewPoint,
}

/// Dew point of the air that comes to the coil, which changes once a second.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct DewPoint {
    humidity_ratio: f64,
    dew_c: f64,
}

impl DewPoint {
    fn of(&mut self, humidity_ratio: f64) -> f64 {
        if self.humidity_ratio != humidity_ratio {
            let dew_c = moist_air::dew_point_c(humidity_ratio, moist_air::STANDARD_PRESSURE_PA);
            *self = DewPoint { humidity_ratio, dew_c };
        }
        self.dew_c
    }
}

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
    let at_rest = at_rest(around.outlet_flow_kg_s.max(0.0) / around.rated_flow_kg_s);
    let shape = frost.shape(data);
    let in_ice = (shape.iced > 0.0).then(|| in_ice(data, around, &shape, films, &mut tangents.in_ice));

    // Air goes where it is open: wetted part and dry part side by side; at rest and where ice stands, the metal meets it all.
    let room_c = celsius_from_kelvin(around.room_k);
    let w_room = around.room_humidity_ratio;
    let cp = moist_air::cp_j_kg_k(w_room);
    let air_kg_m3 = 1.0 / moist_air::specific_volume_m3_kg(room_c, w_room, moist_air::STANDARD_PRESSURE_PA);
    let air_kg_s = around.airflow_m3_s * air_kg_m3;
    let capacity = air_kg_s * cp;
    let share_of = |boils: &Boils| {
        let wetted = boils.wetted();
        (wetted + (1.0 - wetted) * at_rest).max(shape.iced).min(1.0)
    };
    let zone = shape.iced - shape.closed;
    // All of a coil without ice is open, however much of it is wetted.
    let open = in_ice.as_ref().map_or(1.0, |boils| {
        let bare = share_of(boils) - shape.iced;
        (bare + zone * shape.zone_passage + 1.0 - share_of(boils)).max(1.0e-6)
    });
    let through_fins = through_share(open, around.face).min(1.0);
    let through = through_fins / open;
    // The draught of a coil at rest: at so little flow air leaves the fins as cold as they are. Ice stops it; a plug anywhere
    // on its way holds it, so it comes back late.
    let draught_m3_s = if around.draught.is_blown_away() {
        0.0
    } else {
        let off_fins = off_fins(w_room, mean_k(walls_k), frost.wet_share(data));
        let room = MoistAir { dry_bulb_k: around.room_k, humidity_ratio: w_room };
        around.draught.flow_m3_s(&room, &off_fins, through_fins)
    };
    let draught_kg_s = draught_m3_s * air_kg_m3;
    let drawn_w_k = draught_kg_s * cp;
    let cabinet_w_k = CABINET_W_M2_K * data.fin_area_m2;
    let air_side_w_k = (capacity + drawn_w_k) * through + cabinet_w_k;
    let (boils, outlet) = match in_ice {
        Some(boils) => {
            let base = [level.fluid.enthalpy_j_kg, level.fluid.temperature_k];
            let outlet = Outlet::of(data, around, level.isobar(), base, &boils, air_side_w_k, shape.iced);
            (boils, outlet)
        }
        None => followed(data, around, &shape, air_side_w_k, films, &mut tangents.bare),
    };
    let (wetted, share) = (boils.wetted(), share_of(&boils));
    let bare = share - shape.iced;
    let open_wet = bare + zone * shape.zone_passage;
    let zone_film = zone * shape.zone_film;
    let swept = (bare + zone_film) * around.face.film;
    let film_w_k = |kept: &mut Kept, flow_m3_s: f64| {
        air_film_w_k(kept, data, around.rated_airflow_m3_s, flow_m3_s * through, swept)
    };
    let fins_w_k = film_w_k(&mut films.blown, around.airflow_m3_s);
    let meets_w_k = drawn_w_k * through * open_wet;
    let draught_w_k = if meets_w_k > 1.0e-6 {
        meets_w_k * (1.0 - exp(-(film_w_k(&mut films.draught, draught_m3_s) / meets_w_k).min(30.0)))
    } else {
        0.0
    };
    let faces = if shape.closed > 0.0 {
        let face_w_k = |kept: &mut Kept, flow_m3_s: f64| {
            air_film_w_k(kept, data, around.rated_airflow_m3_s, flow_m3_s, FACE_OF_FINS)
        };
        // What of the draught has gone through the fins is as cold as a face.
        face_w_k(&mut films.face, around.airflow_m3_s).min(capacity)
            + face_w_k(&mut films.draught_face, draught_m3_s).min(drawn_w_k * (1.0 - through_fins))
    } else {
        0.0
    };
    let march = March {
        room_k: around.room_k,
        room_humidity_ratio: w_room,
        air_cp_j_kg_k: cp,
        air_w_k: capacity * through * open_wet,
        film_w_k: fins_w_k,
        film_on_ice: if zone_film > 0.0 { zone_film / (bare + zone_film) } else { 0.0 },
        still_w_k: cabinet_w_k * (1.0 - shape.closed) + draught_w_k,
        block_w_k: shape.closed * (faces + cabinet_w_k),
        dry_w_k: cabinet_w_k,
        iced: shape.iced,
        closed: shape.closed,
        wet: frost.wet_share(data),
        boiling_w_k: boils.conductance_w_k,
        refrigerant_k: boils.refrigerant_k,
        half_glide_k: 0.5 * boils.span_k,
        gas_w_k: RESTING_GAS_UA_W_K * at_rest * (1.0 - wetted),
        // At rest liquid gathers where it is coldest, as far as those tubes have room.
        under_ice: at_rest * (shape.iced / liquid_share(data, around).max(1.0e-6)).min(1.0),
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
    let closed_cold = cold.max((1.0 - at_rest) * (0.5 + below_k).clamp(0.0, 1.0));
    let cold_share = cold * (share - shape.closed) + closed_cold * shape.closed;
    let freezing_w =
        if cold > 0.0 { FUSION_J_KG * frost.overflow(data, cold_share).freezes_kg_s } else { 0.0 };
    let marched = march.run(effect, walls_k, &surfaces, cold_share, freezing_w);

    let leaving =
        Leaving::of(around, air_kg_s, draught_kg_s + cabinet_w_k / cp, cp, &marched, outlet.superheat_w);
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
            dry_air_kg_s: air_kg_s,
            coil_leaving_k: leaving.air_k,
            coil_leaving_humidity_ratio: leaving.humidity_ratio,
            cabinet_air_k: if march.air_w_k > 1.0 { marched.air_k } else { mean_k(walls_k) },
            cold_end_k: walls_k[ROWS - 1] - 0.5 * last.half_k,
            air_cp_j_kg_k: cp,
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
        room_humidity_ratio: w_room,
    }
}

/// Liquid over the volume of the coil.
fn liquid_share(data: &Evaporator, around: &Boundary<'_>) -> f64 {
    (around.liquid_volume_m3 / data.volume_m3).max(0.0)
}

/// What boils in the coil.
struct Boils {
    /// Share of the coil that it would wet; above 1 it floods over.
    full: f64,
    /// Temperature of the refrigerant that boils, K, and from its coldest end to its warmest, K.
    refrigerant_k: f64,
    span_k: f64,
    /// Conductance to the metal, all rows, W/K.
    conductance_w_k: f64,
    /// Enthalpy, J/kg, and temperature, K, at the end of a coil that floods over.
    flooded_end: Option<(f64, f64)>,
}

impl Boils {
    fn wetted(&self) -> f64 {
        self.full.min(1.0)
    }

    fn of(
        data: &Evaporator,
        around: &Boundary<'_>,
        isobar: &Isobar<'_>,
        state: &Fluid,
        shape: &Shape,
        last_w: f64,
        films: &mut CoilFilms,
    ) -> Boils {
        let sat = &isobar.saturation();
        let at_rest = at_rest(around.outlet_flow_kg_s.max(0.0) / around.rated_flow_kg_s);
        // Wetted share from the liquid that is there. Where ice has closed the coil nothing boils: what comes in stands there
        // with the quality it came with, and boiling begins behind it.
        let x_in = glide::quality(isobar, sat, around.inlet_enthalpy_j_kg).clamp(0.0, 0.98);
        let c = zivi(&mut films.slip, sat.vapour_density_kg_m3, sat.liquid_density_kg_m3);
        let holdup = mean_holdup(c, x_in, 1.0);
        let liquid_share = liquid_share(data, around);
        let passes = shape.closed * (1.0 - at_rest);
        let boils = (1.0 - passes).max(0.02);
        let (full, liquid_in_boiling) = if passes > 0.0 {
            let holds = mean_holdup(c, x_in, x_in);
            let over = liquid_share - passes * holds;
            (if over > 0.0 { passes + over / holdup } else { liquid_share / holds }, over / boils)
        } else {
            (liquid_share / holdup, liquid_share)
        };
        let wetted = full.min(1.0);
        let flooded_end = (full > 1.0).then(|| {
            let quality = end_quality(c, x_in, liquid_in_boiling, [x_in, 1.0]);
            glide::at_quality(isobar, sat, quality)
        });

        // The wetted part boils from the inlet's temperature up to dew; at rest the whole level has one temperature.
        let (refrigerant_k, span_k) = if state.phase == Phase::TwoPhase {
            let end = flooded_end.map_or(sat.vapour_enthalpy_j_kg, |(h, _)| h);
            let zone = glide::zone(isobar, sat, around.inlet_enthalpy_j_kg, end, state.temperature_k);
            let flows = 1.0 - at_rest;
            (state.temperature_k + flows * (zone.mean_k - state.temperature_k), flows * zone.span_k)
        } else {
            (state.temperature_k, 0.0)
        };
        let boiling = Boiling {
            data,
            share: (wetted - passes).max(LEAST_BOILING * wetted),
            flow_share: around.inlet_flow_kg_s / around.rated_flow_kg_s,
            reduced_pressure: sat.pressure_pa / around.critical_pressure_pa,
            last_w,
        };
        let conductance_w_k = boiling.conductance_w_k(&mut films.boiling);
        Boils { full, refrigerant_k, span_k, conductance_w_k, flooded_end }
    }
}

/// The stream as it leaves the coil.
struct Outlet {
    enthalpy_j_kg: f64,
    temperature_k: f64,
    /// Heat that it took up behind what boils, W.
    superheat_w: f64,
}

impl Outlet {
    /// Superheat in the share that is neither wetted nor under ice. `level` are enthalpy and temperature of the level.
    fn of(
        data: &Evaporator,
        around: &Boundary<'_>,
        isobar: &Isobar<'_>,
        [level_j_kg, level_k]: [f64; 2],
        boils: &Boils,
        air_side_w_k: f64,
        iced: f64,
    ) -> Outlet {
        if let Some((enthalpy_j_kg, temperature_k)) = boils.flooded_end {
            return Outlet { enthalpy_j_kg, temperature_k, superheat_w: 0.0 };
        }
        let sat = isobar.saturation();
        let m_out = around.outlet_flow_kg_s.max(0.0);
        let base_h = level_j_kg.max(sat.vapour_enthalpy_j_kg);
        let base_k = level_k.max(sat.dew_k);
        let ua = data.superheat_ua_w_k * around.face.film.max(0.02);
        let e = 1.0 - exp(-(ua / air_side_w_k.max(1.0e-3)).min(30.0));
        let span_k = around.room_k - base_k;
        let cp_at_dew = sat.vapour_cp_j_kg_k;
        let cp_to_room = mean_vapour_cp_j_kg_k(around.room_k, isobar, &sat, base_h, span_k);
        let flow_cp = m_out.max(1.0e-6) * cp_to_room;
        let dry = 1.0 - boils.wetted().max(iced);
        let warmed = 1.0 - exp(-((dry * air_side_w_k * e + OUTLET_TUBE_W_K) / flow_cp).min(50.0));
        // Heat capacity falls evenly from dew to its mean over the whole way: exact at both ends.
        let gained_j_kg = (cp_at_dew + (cp_to_room - cp_at_dew) * warmed) * span_k * warmed;
        Outlet {
            enthalpy_j_kg: base_h + gained_j_kg,
            temperature_k: base_k + span_k * warmed,
            superheat_w: m_out * gained_j_kg,
        }
    }
}

/// How far a coil counts as at rest at this share of the rated flow: wholly at none, and not at all where a stream sorts liquid from gas.
fn at_rest(flow_share: f64) -> f64 {
    let stream = (flow_share / STREAM_SHARE).min(1.0);
    let still = 1.0 - stream * stream;
    still * still
}

/// Air that so slowly leaves the fins that it is as cold as they are: dried to their saturation, or humid from the water on them.
fn off_fins(w_room: f64, wall_k: f64, wet_share: f64) -> MoistAir {
    let saturated =
        moist_air::saturation_humidity_ratio(celsius_from_kelvin(wall_k), moist_air::STANDARD_PRESSURE_PA);
    let follows = if saturated < w_room { 1.0 } else { wet_share };
    MoistAir { dry_bulb_k: wall_k, humidity_ratio: w_room + follows * (saturated - w_room) }
}

/// Mean temperature of the walls, K.
pub(crate) fn mean_k(walls_k: &[f64; ROWS]) -> f64 {
    walls_k.iter().sum::<f64>() / ROWS as f64
}

/// Air behind the coil, all of it mixed.
struct Leaving {
    air_k: f64,
    humidity_ratio: f64,
    sensible_w: f64,
    /// Water that the mixture could not hold, kg/s.
    rain_kg_s: f64,
}

impl Leaving {
    /// A straight line from moist air to a cold surface can pass above saturation, and so can a mixture of cold saturated and
    /// warm air. What is over rains out on the coil, and its heat stays in the air.
    ///
    /// While the blower runs down the draught of a coil at rest is part of the mixture, and so is the least air that can bring
    /// what comes through the cabinet: a trickle that took all of it would leave colder than the coil.
    fn of(
        around: &Boundary<'_>,
        blown_kg_s: f64,
        drawn_kg_s: f64,
        cp: f64,
        marched: &Marched,
        superheat_w: f64,
    ) -> Leaving {
        let sensible_w = marched.sensible_w + superheat_w;
        let air_kg_s = blown_kg_s + drawn_kg_s;
        if blown_kg_s * cp <= 1.0 {
            return Leaving {
                air_k: around.room_k,
                humidity_ratio: around.room_humidity_ratio,
                sensible_w,
                rain_kg_s: 0.0,
            };
        }
        let air_k = around.room_k - sensible_w / (air_kg_s * cp);
        let water = (marched.frozen_kg_s + marched.condensed_kg_s) / air_kg_s;
        let w = (around.room_humidity_ratio - water).max(1.0e-5);
        let (wall_k, w_wall, slope) = marched.saturation;
        let steps = if w > w_wall + slope * (air_k - wall_k) { 2 } else { 0 };
        let mut rain = 0.0;
        for _ in 0..steps {
            let t_c = celsius_from_kelvin(air_k + rain * CONDENSATION_J_KG / cp);
            let saturated = moist_air::saturation_humidity_ratio(t_c, moist_air::STANDARD_PRESSURE_PA);
            let over = w - rain - saturated;
            if rain <= 0.0 && over <= 0.0 {
                break;
            }
            let slope = saturated * 4098.0 / ((t_c + 237.3) * (t_c + 237.3));
            rain += over / (1.0 + slope * CONDENSATION_J_KG / cp);
        }
        Leaving {
            air_k: air_k + rain * CONDENSATION_J_KG / cp,
            humidity_ratio: w - rain,
            sensible_w: sensible_w - rain * air_kg_s * CONDENSATION_J_KG,
            rain_kg_s: rain * air_kg_s,
        }
    }
}

/// Mean heat capacity of the vapour between its state at the end of the wetted part and the room's temperature,
/// J/(kg K), from the tables: near dew vapour takes up a quarter more per kelvin than 20 K above.
fn mean_vapour_cp_j_kg_k(
    room_k: f64,
    isobar: &Isobar<'_>,
    sat: &Saturation,
    from_j_kg: f64,
    span_k: f64,
) -> f64 {
    let cp_at_dew = sat.vapour_cp_j_kg_k;
    if span_k < 0.5 {
        return cp_at_dew;
    }
    let at_room = isobar.vapour_enthalpy_j_kg(room_k);
    ((at_room - from_j_kg) / span_k).clamp(0.6 * cp_at_dew, cp_at_dew)
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
