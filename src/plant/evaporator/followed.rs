//! What boils in the coil, with and without ice, followed along tangents.

use media::refrigerant::{Fluid, Phase};
use serde::{Deserialize, Serialize};

use super::boils::{Boils, Boundary, CoilFilms, Outlet};
use crate::frost::Shape;
use crate::system::Evaporator;
use crate::tangent::{Bounds, LITTLE_KG_S, LITTLE_M3, OF_STEP, Tangent, near_nothing};

/// A coil that floods over, in place of by how much, which makes no difference.
const FLOODED: f64 = 1.01;
/// In a stretch: it floods over, and what leaves it is another at once.
const FLOODS: u8 = 1;
/// Heat from the walls, W, capacity flow of the air, W/K, and closed share of a coil that hardly count.
const LITTLE_W: f64 = 1.0;
const LITTLE_W_K: f64 = 1.0e-3;
const LITTLE_CLOSED: f64 = 1.0e-6;
/// How far from where they were worked out the arguments of what boils in a coil without ice may be: pressure, Pa, temperature of the
/// level, K, and, where it is all vapour, its enthalpy, J/kg, enthalpy at the inlet, flows at inlet and outlet, kg/s, liquid, m³, heat
/// from the walls, W, room, K, and the capacity flow of the air, W/K.
/// What boils may be off by 2e-6 of the coil, 5e-5 K and 20 mW/K, the outlet by 0.2 J/kg, 3e-4 K and 30 mW. The last
/// result is none: numbers are taken in twos.
const FOLLOWED: Bounds<10, 8> = Bounds {
    near: [1000.0, 0.03, 100.0, 300.0, 1.0e-4, 1.0e-4, 1.0e-6, 60.0, 0.05, 1.0],
    fine: [2.0e-6, 5.0e-5, 5.0e-5, 2.0e-2, 0.2, 3.0e-4, 3.0e-2, 1.0],
    of_step: OF_STEP,
};

/// What boils and how it leaves by these arguments, with the film of the face.
pub(super) type BareTangent = Tangent<10, 8, 1>;

/// The same of what boils in a coil with ice, without enthalpy of the level, room and air, and with the closed share. Where it floods
/// over, enthalpy and temperature at its end, J/kg and K.
const FOLLOWED_IN_ICE: Bounds<8, 6> = Bounds {
    near: [1000.0, 0.03, 300.0, 1.0e-4, 1.0e-4, 1.0e-6, 60.0, 5.0e-4],
    fine: [2.0e-6, 5.0e-5, 5.0e-5, 2.0e-2, 0.2, 3.0e-4],
    of_step: OF_STEP,
};
pub(super) type IceTangent = Tangent<8, 6, 1>;

/// The laws of a coil where they were last worked out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct CoilTangents {
    pub(super) bare: BareTangent,
    pub(super) in_ice: IceTangent,
}

impl CoilTangents {
    pub(crate) fn forget(&mut self) {
        self.bare.forget();
        self.in_ice.forget();
    }

    pub(crate) fn exact() -> CoilTangents {
        CoilTangents { bare: Tangent::exact(), in_ice: Tangent::exact() }
    }
}

/// [`Boils`] of a coil with ice, followed along a tangent while all moves slowly.
pub(super) fn in_ice(
    data: &Evaporator,
    around: &Boundary<'_>,
    shape: &Shape,
    films: &mut CoilFilms,
    tangent: &mut IceTangent,
) -> Boils {
    let (state, pressure_pa) = (&around.level.fluid, around.level.sat.pressure_pa);
    let arguments = [
        pressure_pa,
        state.temperature_k,
        around.inlet_enthalpy_j_kg,
        around.inlet_flow_kg_s,
        around.outlet_flow_kg_s,
        around.liquid_volume_m3,
        around.last_from_wall_w.iter().sum(),
        shape.closed,
    ];
    let mut bounds = FOLLOWED_IN_ICE;
    let least = [(3, LITTLE_KG_S), (4, LITTLE_KG_S), (5, LITTLE_M3), (6, LITTLE_W), (7, LITTLE_CLOSED)];
    for (n, least) in least {
        bounds.near[n] = near_nothing(bounds.near[n], arguments[n], least);
    }
    let is_vapour = state.phase == Phase::Vapour;
    let mut law = |a: &[f64; 8]| {
        let &[at_pa, temperature_k, inlet_enthalpy_j_kg, inlet_flow_kg_s, ..] = a;
        let &[.., outlet_flow_kg_s, liquid_volume_m3, last_w, closed] = a;
        let elsewhere = (at_pa != pressure_pa).then(|| around.fluid.isobar(at_pa));
        let isobar = elsewhere.as_ref().unwrap_or_else(|| around.level.isobar());
        let there =
            Boundary { inlet_enthalpy_j_kg, inlet_flow_kg_s, outlet_flow_kg_s, liquid_volume_m3, ..*around };
        // The first closed ice is a corner.
        let closed = if shape.closed > 0.0 { closed } else { 0.0 };
        let state = Fluid { temperature_k, ..*state };
        let boils = Boils::of(data, &there, isobar, &state, &Shape { closed, ..*shape }, last_w, films);
        let (end_j_kg, end_k) = boils.flooded_end.unwrap_or_default();
        let numbers = [
            boils.full.min(FLOODED),
            boils.refrigerant_k,
            boils.span_k,
            boils.conductance_w_k,
            end_j_kg,
            end_k,
        ];
        let stretch = FLOODS * u8::from(boils.flooded_end.is_some())
            + 2 * u8::from(is_vapour)
            + 4 * u8::from(closed > 0.0);
        (numbers, (state.phase != Phase::Liquid).then_some(stretch))
    };
    let mut numbers = tangent.follow([f64::from(u8::from(is_vapour))], arguments, bounds, &mut law);
    if tangent.has_crossed(numbers[0] > 1.0, FLOODS) {
        tangent.leave();
        numbers = law(&arguments).0;
    }
    let [full, refrigerant_k, span_k, conductance_w_k, end_j_kg, end_k] = numbers;
    let flooded_end = (end_k > 0.0).then_some((end_j_kg, end_k));
    Boils { full, refrigerant_k, span_k, conductance_w_k, flooded_end }
}

/// [`Boils`] and [`Outlet`] of a coil without ice, followed along a tangent while all moves slowly.
pub(super) fn followed(
    data: &Evaporator,
    around: &Boundary<'_>,
    shape: &Shape,
    air_side_w_k: f64,
    films: &mut CoilFilms,
    tangent: &mut BareTangent,
) -> (Boils, Outlet) {
    let (state, pressure_pa) = (&around.level.fluid, around.level.sat.pressure_pa);
    let arguments = [
        pressure_pa,
        state.temperature_k,
        if state.phase == Phase::Vapour { state.enthalpy_j_kg } else { 0.0 },
        around.inlet_enthalpy_j_kg,
        around.inlet_flow_kg_s,
        around.outlet_flow_kg_s,
        around.liquid_volume_m3,
        around.last_from_wall_w.iter().sum(),
        around.room_k,
        air_side_w_k,
    ];
    let mut bounds = FOLLOWED;
    let least = [(4, LITTLE_KG_S), (5, LITTLE_KG_S), (6, LITTLE_M3), (7, LITTLE_W), (9, LITTLE_W_K)];
    for (n, least) in least {
        bounds.near[n] = near_nothing(bounds.near[n], arguments[n], least);
    }
    let mut law = |a: &[f64; 10]| {
        let &[at_pa, temperature_k, enthalpy_j_kg, inlet_enthalpy_j_kg, inlet_flow_kg_s, ..] = a;
        let &[.., outlet_flow_kg_s, liquid_volume_m3, last_w, room_k, air_side_w_k] = a;
        let elsewhere = (at_pa != pressure_pa).then(|| around.fluid.isobar(at_pa));
        let isobar = elsewhere.as_ref().unwrap_or_else(|| around.level.isobar());
        let there = Boundary {
            inlet_enthalpy_j_kg,
            inlet_flow_kg_s,
            outlet_flow_kg_s,
            liquid_volume_m3,
            room_k,
            ..*around
        };
        let state = Fluid { temperature_k, enthalpy_j_kg, ..*state };
        let boils = Boils::of(data, &there, isobar, &state, shape, last_w, films);
        let base = [enthalpy_j_kg, temperature_k];
        let outlet = Outlet::of(data, &there, isobar, base, &boils, air_side_w_k, 0.0);
        let numbers = [
            boils.full.min(FLOODED),
            boils.refrigerant_k,
            boils.span_k,
            boils.conductance_w_k,
            outlet.enthalpy_j_kg,
            outlet.temperature_k,
            outlet.superheat_w,
            0.0,
        ];
        let stretch =
            FLOODS * u8::from(boils.flooded_end.is_some()) + 2 * u8::from(state.phase == Phase::Vapour);
        (numbers, (state.phase != Phase::Liquid).then_some(stretch))
    };
    let mut numbers = tangent.follow([around.face.film], arguments, bounds, &mut law);
    if tangent.has_crossed(numbers[0] > 1.0, FLOODS) {
        tangent.leave();
        numbers = law(&arguments).0;
    }
    let [full, refrigerant_k, span_k, conductance_w_k, enthalpy_j_kg, temperature_k, superheat_w, _] =
        numbers;
    (
        Boils { full, refrigerant_k, span_k, conductance_w_k, flooded_end: None },
        Outlet { enthalpy_j_kg, temperature_k, superheat_w },
    )
}
