//! Condenser: zone lengths from the liquid inventory, cross-flow with the air share equal to the area share.

use media::elementary::{exp, ln, power};
use media::moist_air;
use media::refrigerant::{Fluid, Isobar, Phase, Refrigerant};
use media::units::celsius_from_kelvin;
use serde::{Deserialize, Serialize};

use crate::glide;
use crate::holdup::{end_quality, mean_holdup, zivi};
use crate::kept::Kept;
use crate::level::{LevelState, implicit_exchange};
use crate::system::Condenser;
use crate::tangent::{Bounds, LITTLE_KG_S, LITTLE_M3, OF_STEP, Tangent, near_nothing};

/// What the condenser does at one instant.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Condensing {
    /// Heat from the refrigerant to the wall, W.
    pub heat_to_wall_w: f64,
    /// Heat from the refrigerant straight to the air (desuperheating and subcooling zones), W.
    pub heat_to_air_w: f64,
    /// Heat from the wall to the air, W.
    pub wall_to_air_w: f64,
    /// Enthalpy at the outlet, J/kg.
    pub outlet_enthalpy_j_kg: f64,
    /// Density at the outlet, kg/m³.
    pub outlet_density_kg_m3: f64,
    /// Wall temperature after the step, K.
    pub wall_k: f64,
}

/// The surroundings and flows the condenser sees.
#[derive(Clone, Copy)]
pub(crate) struct Boundary<'a> {
    pub fluid: &'a Refrigerant,
    /// The flash of the whole high side.
    pub level: &'a LevelState,
    pub outdoor_k: f64,
    /// Outdoor fan speed, 0 to 1.
    pub fan_speed: f64,
    pub inlet_flow_kg_s: f64,
    /// Flow at which the conductances are stated, kg/s.
    pub rated_flow_kg_s: f64,
    pub inlet_enthalpy_j_kg: f64,
    /// Temperature at the inlet, K.
    pub inlet_k: f64,
    pub outlet_flow_kg_s: f64,
    /// Liquid in the condenser, m³.
    pub liquid_volume_m3: f64,
    /// Heat capacity of the high side, J/K, and its heat to the wall in the last step, W.
    pub level_capacity_j_k: f64,
    /// Change of its temperature in the last step, K.
    pub level_changed_k: f64,
    pub last_to_wall_w: f64,
    pub dt_s: f64,
}

/// Heat capacity of outdoor air, J/(kg K) (dry air between 0 and 50 °C, any table).
const AIR_CP_J_KG_K: f64 = 1007.0;

/// Heat capacity of a cubic metre of outdoor air at a temperature in K, J/(m³ K). A fan moves volume: cool air is denser.
fn air_heat_j_m3_k(air_k: f64) -> f64 {
    AIR_CP_J_KG_K
        / moist_air::specific_volume_m3_kg(celsius_from_kelvin(air_k), 0.0, moist_air::STANDARD_PRESSURE_PA)
}

/// Mean condensing film in tubes over the film of the whole flow as liquid (Shah 1979, Int. J. Heat Mass Transfer 22, mean over
/// all qualities; from memory): 0.55 + 2.09 / p_r^0.38.
fn shah_enhancement(kept: &mut Kept, reduced_pressure: f64) -> f64 {
    0.55 + 2.09 / kept.power(reduced_pressure.clamp(0.01, 1.0), 0.38)
}

/// That factor at the reduced pressure at which a system's condensing conductance is stated, 0.57: R-410A near 46 °C.
const STATED_ENHANCEMENT: f64 = 3.137_699_494_3;
/// Film with no flow over that at rated flow: vapour that condenses by itself on cold tubes (typ.).
const RESTING_FILM_SHARE: f64 = 0.1;
/// The same of gas that has nothing to condense: natural convection in the tubes, some 25 W/K on three tons (typ.).
const RESTING_GAS_SHARE: f64 = 0.005;

/// Condensing film over that at rated flow and the stated pressure: with the flow to the power 0.8 (the same source) and with
/// the reduced pressure.
fn film_share(films: &mut CondenserFilms, around: &Boundary<'_>, phase: Phase, pressure_pa: f64) -> f64 {
    let resting = if phase == Phase::Vapour { RESTING_GAS_SHARE } else { RESTING_FILM_SHARE };
    let flow_share = (around.inlet_flow_kg_s / around.rated_flow_kg_s).clamp(0.0, 2.0);
    let by_flow = films.flow.power(flow_share, 0.8).max(resting);
    let by_pressure = shah_enhancement(&mut films.pressure, around.fluid.reduced_pressure(pressure_pa))
        / STATED_ENHANCEMENT;
    by_flow * by_pressure
}

/// Powers of its laws as they were last worked out, and its air.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct CondenserFilms {
    slip: Kept,
    flow: Kept,
    pressure: Kept,
    air: OutdoorAir,
}

/// The air through the condenser, which changes with the fan's speed and with the weather alone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
struct OutdoorAir {
    /// For what it was worked out.
    outdoor_k: f64,
    fan_speed: f64,
    capacity_w_k: f64,
    /// Effectiveness of the zones.
    e_desuperheat: f64,
    e_subcool: f64,
    e_wall: f64,
}

impl OutdoorAir {
    fn at(self, data: &Condenser, around: &Boundary<'_>) -> OutdoorAir {
        let Boundary { outdoor_k, fan_speed, .. } = *around;
        if self.outdoor_k == outdoor_k && self.fan_speed == fan_speed {
            return self;
        }
        let flow_share = (fan_speed * data.air_flow_share).clamp(0.0, 1.0);
        let capacity_w_k =
            air_heat_j_m3_k(outdoor_k) * data.air_flow_m3_s * flow_share + data.still_air_ua_w_k;
        // The air-side film follows the air speed to the power 0.55 (typ. of louvred fins).
        let film = if flow_share < 1.0 { power(flow_share.max(1.0e-3), 0.55) } else { 1.0 };
        let overall = |ua: f64| 1.0 / (1.0 / ua + (1.0 / film - 1.0) / data.air_ua_w_k);
        OutdoorAir {
            outdoor_k,
            fan_speed,
            capacity_w_k,
            e_desuperheat: effectiveness(overall(data.desuperheat_ua_w_k), capacity_w_k),
            e_subcool: effectiveness(overall(data.subcool_ua_w_k), capacity_w_k),
            e_wall: effectiveness(data.air_ua_w_k * film, capacity_w_k),
        }
    }
}

fn effectiveness(ua_w_k: f64, capacity_w_k: f64) -> f64 {
    1.0 - exp(-ua_w_k / capacity_w_k)
}

/// What the condenser exchanges at one instant, whatever its wall's temperature.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Exchange {
    /// Conductance between refrigerant and wall, W/K, and the refrigerant's temperature, K.
    pub refrigerant_w_k: f64,
    pub refrigerant_k: f64,
    /// Conductance between wall and air, W/K, and the air's temperature, K.
    pub air_w_k: f64,
    pub air_k: f64,
    /// Heat from the refrigerant straight to the air, W.
    pub heat_to_air_w: f64,
    pub outlet_enthalpy_j_kg: f64,
    pub outlet_density_kg_m3: f64,
    /// Which zones there are.
    zones: Zones,
}

/// The zones of a condenser beside the one that condenses.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Zones {
    desuperheats: Desuperheats,
    outlet: Outlet,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Desuperheats {
    Nothing,
    /// All of it.
    Wholly,
    /// As far as the air lets it, whose temperature is that of the dew point or more.
    ToTheAir,
    /// Only a part, in all the condenser that it may take.
    Partly,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Outlet {
    Liquid,
    Wet,
    Vapour,
}

impl Zones {
    /// A number for each case.
    fn stretch(self) -> u8 {
        self.desuperheats as u8 + 4 * self.outlet as u8
    }
}

impl Exchange {
    /// Heats at a temperature of the wall.
    pub(crate) fn at_wall(&self, wall_k: f64) -> Condensing {
        Condensing {
            heat_to_wall_w: self.refrigerant_w_k * (self.refrigerant_k - wall_k),
            heat_to_air_w: self.heat_to_air_w,
            wall_to_air_w: self.air_w_k * (wall_k - self.air_k),
            outlet_enthalpy_j_kg: self.outlet_enthalpy_j_kg,
            outlet_density_kg_m3: self.outlet_density_kg_m3,
            wall_k,
        }
    }
}

/// One step of the condenser, implicit in the temperatures of its wall and of its refrigerant.
pub(crate) fn condense(
    data: &Condenser,
    around: &Boundary<'_>,
    wall_k: f64,
    films: &mut CondenserFilms,
    tangent: &mut CondenserTangent,
) -> Condensing {
    let mut e = followed(data, around, films, tangent);
    (e.refrigerant_w_k, e.refrigerant_k) = implicit_exchange(
        e.refrigerant_w_k,
        e.refrigerant_k,
        around.level_capacity_j_k,
        around.last_to_wall_w,
        around.level_changed_k,
        around.dt_s,
    );
    let wall_new = (data.metal_capacity_j_k / around.dt_s * wall_k
        + e.refrigerant_w_k * e.refrigerant_k
        + e.air_w_k * e.air_k)
        / (data.metal_capacity_j_k / around.dt_s + e.refrigerant_w_k + e.air_w_k);
    e.at_wall(wall_new)
}

/// Flow below which nothing comes in that would have to be desuperheated, kg/s (numerical).
const NO_FLOW_KG_S: f64 = 1.0e-6;
/// How close to the air desuperheating brings gas whose dew point lies lower, K (numerical: no area brings it all the way).
const LEAST_APPROACH_K: f64 = 0.2;
/// How far from where they were worked out the arguments of an exchange may be: pressure, Pa, temperature of the level, K, and, where it
/// is all vapour, its enthalpy, J/kg, enthalpy, temperature and flow, kg/s, at the inlet, flow at the outlet, liquid, m³, and air, K.
/// Conductances may be off by 10 mW/K, the refrigerant by 5e-5 K, heat to the air by 20 mW, the outlet by 0.5 J/kg and 2e-3 kg/m³.
const FOLLOWED: Bounds<9, 6> = Bounds {
    near: [1500.0, 0.03, 100.0, 200.0, 0.2, 1.0e-4, 1.0e-4, 3.0e-6, 0.05],
    fine: [1.0e-2, 5.0e-5, 1.0e-2, 2.0e-2, 0.5, 2.0e-3],
    of_step: OF_STEP,
};

/// An exchange by these arguments, with the fan's speed.
pub(crate) type CondenserTangent = Tangent<9, 6, 1>;

/// The same as [`exchange`], followed along a tangent while all moves slowly.
fn followed(
    data: &Condenser,
    around: &Boundary<'_>,
    films: &mut CondenserFilms,
    tangent: &mut CondenserTangent,
) -> Exchange {
    let (state, pressure_pa) = (&around.level.fluid, around.level.sat.pressure_pa);
    let flows_in = around.inlet_flow_kg_s > NO_FLOW_KG_S;
    let arguments = [
        pressure_pa,
        state.temperature_k,
        if state.phase == Phase::Vapour { state.enthalpy_j_kg } else { 0.0 },
        // What does not flow in plays no part.
        if flows_in { around.inlet_enthalpy_j_kg } else { 0.0 },
        if flows_in { around.inlet_k } else { 0.0 },
        around.inlet_flow_kg_s,
        around.outlet_flow_kg_s,
        around.liquid_volume_m3,
        around.outdoor_k,
    ];
    let mut here = None;
    let mut bounds = FOLLOWED;
    for (n, least) in [(5, LITTLE_KG_S), (6, LITTLE_KG_S), (7, LITTLE_M3)] {
        bounds.near[n] = near_nothing(bounds.near[n], arguments[n], least);
    }
    let numbers = tangent.follow([around.fan_speed], arguments, bounds, |a| {
        let &[at_pa, temperature_k, enthalpy_j_kg, inlet_enthalpy_j_kg, inlet_k, inlet_flow_kg_s, ..] = a;
        let &[.., outlet_flow_kg_s, liquid_volume_m3, outdoor_k] = a;
        let elsewhere = (at_pa != pressure_pa).then(|| around.fluid.isobar(at_pa));
        let isobar = elsewhere.as_ref().unwrap_or_else(|| around.level.isobar());
        let there = Boundary {
            inlet_enthalpy_j_kg,
            inlet_k,
            inlet_flow_kg_s,
            outlet_flow_kg_s,
            // The first liquid is a corner.
            liquid_volume_m3: if state.phase == Phase::Vapour { 0.0 } else { liquid_volume_m3 },
            outdoor_k,
            ..*around
        };
        let e = exchange(data, &there, isobar, &Fluid { temperature_k, enthalpy_j_kg, ..*state }, films);
        here.get_or_insert(e);
        let numbers = [
            e.refrigerant_w_k,
            e.refrigerant_k,
            e.air_w_k,
            e.heat_to_air_w,
            e.outlet_enthalpy_j_kg,
            e.outlet_density_kg_m3,
        ];
        (numbers, (state.phase != Phase::Liquid).then_some(e.zones.stretch()))
    });
    let [refrigerant_w_k, refrigerant_k, air_w_k, heat_to_air_w, outlet_enthalpy_j_kg, outlet_density_kg_m3] =
        numbers;
    let zones = Zones { desuperheats: Desuperheats::Nothing, outlet: Outlet::Wet };
    here.unwrap_or(Exchange {
        refrigerant_w_k,
        refrigerant_k,
        air_w_k,
        air_k: around.outdoor_k,
        heat_to_air_w,
        outlet_enthalpy_j_kg,
        outlet_density_kg_m3,
        zones,
    })
}

/// One instant of the condenser. `state` is the flash of the whole high side, one of the states of `isobar`.
pub(crate) fn exchange(
    data: &Condenser,
    around: &Boundary<'_>,
    isobar: &Isobar<'_>,
    state: &Fluid,
    films: &mut CondenserFilms,
) -> Exchange {
    let (sat, inlet_k) = (&isobar.saturation(), around.inlet_k);
    let air = films.air.at(data, around);
    films.air = air;
    let OutdoorAir { capacity_w_k: capacity, e_desuperheat, e_subcool, e_wall, .. } = air;
    let outdoor = around.outdoor_k;

    // Desuperheating zone.
    let m_in = around.inlet_flow_kg_s;
    let superheat_j_kg = around.inlet_enthalpy_j_kg - sat.vapour_enthalpy_j_kg;
    let (mut w1, mut q1, mut desuperheats) = (0.0, 0.0, Desuperheats::Nothing);
    let end_k = sat.dew_k.max(outdoor + LEAST_APPROACH_K);
    if m_in > NO_FLOW_KG_S && superheat_j_kg > 10.0 && inlet_k > end_k + 0.01 {
        let cp = superheat_j_kg / (inlet_k - sat.dew_k);
        let full = m_in * cp / (capacity * e_desuperheat) * ln((inlet_k - outdoor) / (end_k - outdoor));
        if full <= 0.9 {
            let to_dew = end_k == sat.dew_k;
            (w1, desuperheats) = (full, if to_dew { Desuperheats::Wholly } else { Desuperheats::ToTheAir });
            q1 = m_in * cp * (inlet_k - end_k);
        } else {
            (w1, desuperheats) = (0.9, Desuperheats::Partly);
            let end = outdoor + (inlet_k - outdoor) * exp(-w1 * capacity * e_desuperheat / (m_in * cp));
            q1 = m_in * cp * (inlet_k - end);
        }
    }

    // Subcooling zone or wet outlet, from the liquid that is there.
    let liquid_share = (around.liquid_volume_m3 / data.volume_m3).clamp(0.0, 1.0);
    let c = zivi(&mut films.slip, sat.vapour_density_kg_m3, sat.liquid_density_kg_m3);
    let holdup = mean_holdup(c, 0.0, 1.0);
    let w3 = ((liquid_share - holdup * (1.0 - w1)) / (1.0 - holdup)).clamp(0.0, 1.0 - w1);
    let w2 = 1.0 - w1 - w3;
    let m_out = around.outlet_flow_kg_s.abs();
    let (outlet_enthalpy, outlet_density, q3, at_outlet) = if w3 > 0.0 {
        let span_k = (sat.bubble_k - outdoor).max(0.0);
        // Saturated liquid takes more heat for a kelvin than colder liquid, without bound towards the critical point: the
        // capacity falls evenly from that at bubble to its mean over the whole way, exact at both ends.
        let coldest = isobar.liquid_enthalpy_j_kg(outdoor);
        let whole_j_kg = (sat.liquid_enthalpy_j_kg - coldest).max(0.0);
        let mean_cp = if span_k > 0.1 { whole_j_kg / span_k } else { sat.liquid_cp_j_kg_k };
        let exponent = w3 * capacity * e_subcool / (m_out.max(1.0e-6) * mean_cp);
        let cooled = 1.0 - exp(-exponent.min(50.0));
        let near_bubble = sat.liquid_cp_j_kg_k.min(2.0 * mean_cp);
        let taken = ((near_bubble + (mean_cp - near_bubble) * cooled) * span_k * cooled).min(whole_j_kg);
        let outlet = sat.liquid_enthalpy_j_kg - taken;
        (outlet, isobar.density_kg_m3(outlet), m_out * taken, Outlet::Liquid)
    } else if liquid_share > 1.0e-6 {
        // The zone runs from vapour (x = 1) down to the outlet.
        let x = end_quality(c, 1.0, liquid_share / w2.max(1.0e-3), [1.0, 0.0]);
        let (h, _) = glide::at_quality(isobar, sat, x);
        (h, isobar.density_kg_m3(h), 0.0, Outlet::Wet)
    } else {
        (state.enthalpy_j_kg.max(sat.vapour_enthalpy_j_kg), sat.vapour_density_kg_m3, 0.0, Outlet::Vapour)
    };

    // Condensing zone through the wall. At rest the pool of liquid is in contact with the wall too.
    let at_rest = 1.0 / (1.0 + ((m_in + m_out) / 0.002) * ((m_in + m_out) / 0.002));
    let contact = w2 + w3 * at_rest;
    // From dew down to the outlet or to bubble; at rest the whole level has one temperature.
    let reference = if state.phase == Phase::TwoPhase {
        let end = outlet_enthalpy.max(sat.liquid_enthalpy_j_kg);
        let zone = glide::zone(isobar, sat, sat.vapour_enthalpy_j_kg, end, state.temperature_k);
        state.temperature_k + (1.0 - at_rest) * (zone.mean_k - state.temperature_k)
    } else {
        state.temperature_k
    };
    let ua_ref = data.condensing_ua_w_k * contact * film_share(films, around, state.phase, sat.pressure_pa);
    let ua_air = capacity * e_wall * (w2 + w3 * at_rest).max(0.02);
    Exchange {
        refrigerant_w_k: ua_ref,
        refrigerant_k: reference,
        air_w_k: ua_air,
        air_k: outdoor,
        heat_to_air_w: q1 + q3,
        outlet_enthalpy_j_kg: outlet_enthalpy,
        outlet_density_kg_m3: outlet_density,
        zones: Zones { desuperheats, outlet: at_outlet },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A weak flow condenses little above the temperature of the air, or not at all: what it gives off does not jump where its dew
    /// point passes that.
    #[test]
    fn heat_does_not_jump_where_the_dew_point_is_that_of_the_air() {
        let system = crate::System::built_in("split-3-ton-r22-orifice").expect("built in");
        let fluid = system.refrigerant.tables();
        let outdoor_k = 306.0;
        let at = |dew_above_k: f64| {
            let isobar = fluid.isobar(fluid.dew_pressure_pa(outdoor_k + dew_above_k));
            let sat = isobar.saturation();
            let volume_m3 = system.condenser.volume_m3;
            // Half full of liquid.
            let masses =
                [sat.liquid_density_kg_m3, sat.vapour_density_kg_m3].map(|density| 0.5 * volume_m3 * density);
            let mass_kg = masses[0] + masses[1];
            let energy_j = masses[0] * sat.liquid_enthalpy_j_kg + masses[1] * sat.vapour_enthalpy_j_kg
                - sat.pressure_pa * volume_m3;
            let stored = crate::contents::Level {
                mass_kg,
                energy_j,
                pressure_pa: sat.pressure_pa,
                ..Default::default()
            };
            let level = LevelState::of(fluid, &stored, volume_m3, 0.25);
            let inlet_k = outdoor_k + 30.0;
            let around = Boundary {
                fluid,
                level: &level,
                outdoor_k,
                fan_speed: 1.0,
                inlet_flow_kg_s: 0.012,
                rated_flow_kg_s: 0.06,
                inlet_enthalpy_j_kg: isobar.vapour_enthalpy_j_kg(inlet_k),
                inlet_k,
                outlet_flow_kg_s: 0.012,
                liquid_volume_m3: level.liquid_volume_m3,
                level_capacity_j_k: level.capacity_j_k,
                level_changed_k: 0.0,
                last_to_wall_w: 0.0,
                dt_s: 0.25,
            };
            let e =
                exchange(&system.condenser, &around, &isobar, &level.fluid, &mut CondenserFilms::default());
            [e.heat_to_air_w, e.refrigerant_w_k, e.air_w_k, e.outlet_enthalpy_j_kg]
        };
        let mut last = at(-2.0);
        assert!(last[0] > 100.0, "{last:?}");
        for n in -199..400 {
            let now = at(0.01 * f64::from(n));
            for (now, last) in now.iter().zip(last) {
                assert!((now - last).abs() < 0.02 * last.abs(), "{n}: {now} after {last}");
            }
            last = now;
        }
    }

    #[test]
    fn conductance_is_stated_where_its_film_is_one() {
        approx::assert_relative_eq!(
            shah_enhancement(&mut Kept::default(), 0.57),
            STATED_ENHANCEMENT,
            max_relative = 1e-10
        );
    }
}
