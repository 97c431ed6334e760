//! What boils in the coil, and how the stream leaves it.

use media::elementary::exp;
use media::moist_air;
use media::refrigerant::{Fluid, Isobar, Phase, Refrigerant, Saturation};
use serde::{Deserialize, Serialize};

use crate::air::Face;
use crate::boiling::{Boiling, BoilingFilms};
use crate::draught::Draught;
use crate::frost::Shape;
use crate::glide;
use crate::holdup::{end_quality, mean_holdup, zivi};
use crate::kept::Kept;
use crate::level::LevelState;
use crate::rows::ROWS;
use crate::system::Evaporator;

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
    pub(super) slip: Kept,
    pub(super) blown: Kept,
    pub(super) draught: Kept,
    pub(super) face: Kept,
    pub(super) draught_face: Kept,
    pub(super) boiling: BoilingFilms,
    pub(super) dew: DewPoint,
}

/// Dew point of the air that comes to the coil, which changes once a second.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct DewPoint {
    humidity_ratio: f64,
    dew_c: f64,
}

impl DewPoint {
    pub(super) fn of(&mut self, humidity_ratio: f64) -> f64 {
        if self.humidity_ratio != humidity_ratio {
            let dew_c = moist_air::dew_point_c(humidity_ratio, moist_air::STANDARD_PRESSURE_PA);
            *self = DewPoint { humidity_ratio, dew_c };
        }
        self.dew_c
    }
}

/// Liquid over the volume of the coil.
pub(super) fn liquid_share(data: &Evaporator, around: &Boundary<'_>) -> f64 {
    (around.liquid_volume_m3 / data.volume_m3).max(0.0)
}

/// What boils in the coil.
pub(super) struct Boils {
    /// Share of the coil that it would wet; above 1 it floods over.
    pub(super) full: f64,
    /// Temperature of the refrigerant that boils, K, and from its coldest end to its warmest, K.
    pub(super) refrigerant_k: f64,
    pub(super) span_k: f64,
    /// Conductance to the metal, all rows, W/K.
    pub(super) conductance_w_k: f64,
    /// Enthalpy, J/kg, and temperature, K, at the end of a coil that floods over.
    pub(super) flooded_end: Option<(f64, f64)>,
}

impl Boils {
    pub(super) fn wetted(&self) -> f64 {
        self.full.min(1.0)
    }

    pub(super) fn of(
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
pub(super) struct Outlet {
    pub(super) enthalpy_j_kg: f64,
    pub(super) temperature_k: f64,
    /// Heat that it took up behind what boils, W.
    pub(super) superheat_w: f64,
}

impl Outlet {
    /// Superheat in the share that is neither wetted nor under ice. `level` are enthalpy and temperature of the level.
    pub(super) fn of(
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
pub(super) fn at_rest(flow_share: f64) -> f64 {
    let stream = (flow_share / STREAM_SHARE).min(1.0);
    let still = 1.0 - stream * stream;
    still * still
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
