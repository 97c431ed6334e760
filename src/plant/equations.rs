//! The plant as an ordinary differential equation, for checks of the marching step against a general solver.
//!
//! [`step`](crate::step()) marches with a fixed step: walls implicit, pressures, line and coil outlets by what the last step
//! left, exchanges and flows bounded by what a step may move, house and air once a second. Here the same components give
//! the plain derivative at one instant: nothing is lagged (what flows depends on what flows, so it is iterated until it
//! agrees with itself), nothing is bounded by a step, the house and the air are as continuous as the rest. The controls
//! are switches: they decide once, when [`Equations`] are made, and are then held; motors run up or down as they were
//! switched, fans to the speed at which they agree with their load and the heat of their windings. Whoever integrates starts anew where a switch moves.
//!
//! Left out, and therefore to be absent: air in the circuit, leaks, service connections, the relief device, gas so thin
//! that it takes the temperature of its walls at once. The program itself does not use this module.

use media::moist_air;
use media::units::celsius_from_kelvin;

use crate::balance::{Fluxes, LevelRates};
use crate::cabinet::{Blown, blown, capacity_j_k as cabinet_capacity_j_k};
use crate::condenser::{self, Condensing};
use crate::control::{Control, Events, Sensed};
use crate::electric::Refresh;
use crate::evaporator::{self, DewPoint, Evaporating};
use crate::fault::Effects;
use crate::flows::{
    Flows, Joining, STANDING_LINE_TIME_S, condenser_sees, evaporator_sees, refrigerant_flows,
    suction_line_rests, suction_port_pa,
};
use crate::frost::{FIRST_ICE_KG, OLD_DENSITY_KG_M3, fresh_density_kg_m3};
use crate::house::AirMoved;
use crate::level::LevelState;
use crate::metering::RootLimits;
use crate::reading::Snapshot;
use crate::rows::ROWS;
use crate::state::{Last, Plant};
use crate::states::States;
use crate::step::{PORT_LIMIT_K, bulb_follows, drive_fans, move_air, surroundings};
use crate::tangents::Tangents;
use crate::wear::Wear;
use crate::{Inputs, PortConnection, Readout};
use media::moist_air::STANDARD_PRESSURE_PA;

pub use crate::states::{COUNT, NAMES, SCALES};

/// A time so short that no bound by what a step may move is ever reached, s.
const UNBOUNDED_S: f64 = 1.0e-9;
/// Ice below this mass has the density of what freezes now, kg.
const TRACE_OF_ICE_KG: f64 = 1.0e-6;
/// Time in which states follow what the marching step sets at once (density of a trace of ice, edges of melting ice), s.
const AT_ONCE_S: f64 = 0.01;
/// Most rounds until the flows agree with themselves; each takes away at least half of what is left.
const MOST_ROUNDS: usize = 100;
/// Agreement of the flows with themselves, as a share.
const AGREEMENT: f64 = 1.0e-12;

/// Everything at one instant.
struct Instant {
    high: LevelState,
    low: LevelState,
    flows: Flows,
    condensing: Condensing,
    evaporating: Evaporating,
    exchange: evaporator::Exchange,
}

/// The right-hand side dy/dt = f(t, y) of a plant under held inputs and held switches.
#[derive(Clone, Debug)]
pub struct Equations {
    /// Holds what does not change, and the state of the last call.
    plant: Plant,
    inputs: Inputs,
    effects: Effects,
    start_s: f64,
    control: Control,
}

impl Equations {
    /// The equations from this plant's instant on. The controls decide on its state; they are then held.
    ///
    /// # Panics
    /// When the plant has what the equations leave out: air in the circuit, a leak, a service connection.
    #[must_use]
    pub fn new(plant: &Plant, inputs: &Inputs) -> Equations {
        let mut plant = plant.clone();
        plant.tangents = Tangents::exact();
        let effects = plant.effects();
        plant.filter.tear(&effects);
        assert!(plant.air_in_circuit_kg() == 0.0, "air in the circuit is not in the equations");
        assert!(effects.holes == Default::default(), "leaks are not in the equations");
        for port in [inputs.suction_port, inputs.liquid_port] {
            assert!(
                matches!(port, PortConnection::Capped | PortConnection::Gauge),
                "service connections are not in the equations"
            );
        }
        let fluid = plant.system.refrigerant.tables();
        let volumes = plant.system.volumes();
        let low = LevelState::of(fluid, &plant.low, volumes.low_m3, UNBOUNDED_S);
        let sensed = Sensed {
            room_k: plant.room.air().0,
            high_side_pa: LevelState::of(fluid, &plant.high, volumes.high_m3, UNBOUNDED_S).total_pa,
            suction_pa: suction_port_pa(&plant, &effects, &low, UNBOUNDED_S),
            winding_k: plant.motor_k,
            dome_k: plant.dome_k,
            compressor_power_w: plant.last.compressor_power_w,
        };
        let mut events = Events::default();
        // A step of no length moves switches and nothing else.
        plant.control.step(&plant.system, effects.wiring, inputs, &sensed, 0.0, &mut events);
        Equations {
            effects,
            start_s: plant.time_s,
            control: plant.control.clone(),
            inputs: inputs.clone(),
            plant,
        }
    }

    /// State of a plant as it stands.
    #[must_use]
    pub fn state(plant: &Plant) -> [f64; COUNT] {
        States::of(plant).into_numbers()
    }

    /// A plant in a state at a time, with the switches as they are held: to go on from where a switch moves.
    #[must_use]
    pub fn plant(&mut self, time_s: f64, state: &[f64; COUNT]) -> Plant {
        self.instant(time_s, &States::from_numbers(state));
        Plant { tangents: Tangents::default(), ..self.plant.clone() }
    }

    /// What would be read in a state at a time.
    #[must_use]
    pub fn readout(&mut self, time_s: f64, state: &[f64; COUNT]) -> Readout {
        let now = self.instant(time_s, &States::from_numbers(state));
        self.plant.write_readout(&Snapshot {
            high: &now.high,
            low: &now.low,
            flow: &now.flows.path,
            condensing: &now.condensing,
            evaporating: &now.evaporating,
            opening: now.flows.opening,
            discharge_k: now.flows.discharge_k,
            suction_pa: now.flows.suction_pa,
        });
        self.plant.readout.clone()
    }

    /// Rates of all states, each in its unit per second.
    #[must_use]
    pub fn rates(&mut self, time_s: f64, state: &[f64; COUNT]) -> [f64; COUNT] {
        let state = States::from_numbers(state);
        let now = self.instant(time_s, &state);
        let (flows, e) = (&now.flows, &now.evaporating);
        let fluxes = Fluxes {
            flows,
            condensing: now.condensing,
            evaporating: *e,
            back_flow_h: now.low.vapour_enthalpy_j_kg(),
            low_sat: &now.low.sat,
        };
        let levels = LevelRates::of(&mut self.plant, &fluxes, UNBOUNDED_S);
        let plant = &self.plant;
        let row_j_k = plant.system.evaporator.metal_capacity_j_k / ROWS as f64;
        let coil_k_s = now.exchange.metal_w.map(|heat_w| heat_w / row_j_k);
        let bulb = bulb_follows(plant, &self.inputs, &self.effects, e)
            .map_or(0.0, |(target_k, time_s)| (target_k - plant.bulb_k) / time_s);
        let [mut ice, mut iced, density, mut closed, mut water] = self.frost_rates(&now);
        // A solver steps below zero by its tolerance. Components see zero there; the states come back, so that the rates
        // have the same slope on both sides.
        let back = |value: f64| (-value).max(0.0) / AT_ONCE_S;
        ice += back(state.ice_kg);
        iced += back(state.iced_share);
        closed += back(state.closed_share) - back(state.iced_share.max(0.0) - state.closed_share);
        water += back(state.coil_water_kg);
        let to_lines_w = flows.line_heat_w + levels.line_heat_w;
        let air_after = blown(plant, e);
        let [air, structure, humidity] = self.room_rates(e, &air_after, to_lines_w);
        let runs = flows.compressor_kg_s > 0.0;
        let wear = |rate: f64| if runs { rate } else { 0.0 };
        let [fan_winding, blower_winding] = plant.control.winding_rates_k_s(&plant.system);
        States {
            high_mass_kg: levels.high_kg_s,
            high_energy_j: levels.high_w,
            line_mass_kg: levels.line_kg_s,
            line_energy_j: levels.line_w,
            low_mass_kg: levels.low_kg_s,
            low_energy_j: levels.low_w,
            condenser_wall_k: (now.condensing.heat_to_wall_w - now.condensing.wall_to_air_w)
                / plant.system.condenser.metal_capacity_j_k,
            first_coil_wall_k: coil_k_s[0],
            second_coil_wall_k: coil_k_s[1],
            third_coil_wall_k: coil_k_s[2],
            motor_k: levels.motor_w / plant.system.compressor.motor_capacity_j_k,
            dome_k: levels.dome_w / plant.system.compressor.dome_capacity_j_k,
            sump_kg: levels.sump_kg_s,
            bulb_k: bulb,
            ice_kg: ice,
            iced_share: iced,
            closed_share: closed,
            ice_density_kg_m3: density,
            coil_water_kg: water,
            room_air_k: air,
            structure_k: structure,
            room_humidity_ratio: humidity,
            cabinet_k: -air_after.from_metal_w / cabinet_capacity_j_k(plant),
            compressor_energy_j: flows.compression.power_w,
            from_room_air_j: e.sensible_w + e.latent_w,
            liquid_through_compressor_kg: Wear::harmful_liquid_kg_s(
                flows.inlet_quality,
                flows.compressor_kg_s,
                plant.compressor_on_for_s(),
            ),
            overheated_k_s: wear((flows.port_k - PORT_LIMIT_K).max(0.0)),
            suction_outdoor_k: self.suction_line_k_s(state.suction_outdoor_k, flows),
            fan_winding_rise_k: fan_winding,
            blower_winding_rise_k: blower_winding,
        }
        .into_numbers()
    }

    fn frost_rates(&self, now: &Instant) -> [f64; 5] {
        let frost = &self.plant.frost;
        let data = &self.plant.system.evaporator;
        let x = &now.exchange;
        let rates = frost.rates(data, &x.ice);
        let (mut iced, mut density) = (rates.iced_1_s, 0.0);
        iced -= (frost.iced_share - frost.most_iced_share(data).max(frost.closed_share)).max(0.0) / AT_ONCE_S;
        let fresh = fresh_density_kg_m3(x.ice.wet_share);
        if rates.grown_kg_s > 0.0 {
            if frost.mass_kg < TRACE_OF_ICE_KG {
                // No ice has no density yet; what freezes now gives it.
                density += (fresh - frost.density_kg_m3) / AT_ONCE_S;
            } else if fresh > frost.density_kg_m3 || frost.mass_kg < FIRST_ICE_KG {
                // Volumes add.
                density += rates.grown_kg_s * frost.density_kg_m3 / frost.mass_kg
                    * (1.0 - frost.density_kg_m3 / fresh);
            }
        }
        if frost.mass_kg > 0.0 && frost.density_kg_m3 < OLD_DENSITY_KG_M3 {
            density += frost.ageing_kg_m3_s(x.jakob(&mut DewPoint::default()))
                * frost.frozen_share(x.ice.cold_share);
        }
        [rates.mass_kg_s, iced, density, rates.closed_1_s, rates.water_kg_s]
    }

    /// The bare end of the suction line: as warm as the gas that flows through it, and else on its way to the outdoor air.
    fn suction_line_k_s(&self, line_k: f64, flows: &Flows) -> f64 {
        if suction_line_rests(&self.plant) {
            (self.plant.slow.outdoor_k - line_k) / STANDING_LINE_TIME_S
        } else {
            (flows.suction_outdoor_k - line_k) / AT_ONCE_S
        }
    }

    fn room_rates(&self, e: &Evaporating, air_after: &Blown, to_lines_w: f64) -> [f64; 3] {
        let (plant, slow) = (&self.plant, &self.plant.slow);
        let air_kg_s = slow.airflow_m3_s
            / moist_air::specific_volume_m3_kg(
                celsius_from_kelvin(slow.return_k),
                slow.return_humidity_ratio,
                STANDARD_PRESSURE_PA,
            );
        let moved = AirMoved {
            cooling_w: e.sensible_w - slow.blower_power_w - air_after.from_metal_w,
            water_kg_s: e.water_kg_s,
            air_kg_s,
            air_cp_j_kg_k: moist_air::cp_j_kg_k(slow.return_humidity_ratio),
            supply_k: air_after.supply_k,
            return_leak_share: slow.return_leak_share,
            to_lines_w,
        };
        plant.room.rates(&plant.weather.at(plant.time_s), &moved)
    }

    /// Put the state into the plant and find the flows that agree with themselves.
    fn instant(&mut self, time_s: f64, state: &States) -> Instant {
        self.place(time_s, state);
        let plant = &mut self.plant;
        let fluid = plant.system.refrigerant.tables();
        let volumes = plant.system.volumes();
        let high = LevelState::of(fluid, &plant.high, volumes.high_m3, UNBOUNDED_S);
        let low = LevelState::of(fluid, &plant.low, volumes.low_m3, UNBOUNDED_S);
        plant.high.pressure_pa = high.fluid.pressure_pa;
        plant.low.pressure_pa = low.fluid.pressure_pa;
        for round in 0.. {
            let line_pa = plant.line.pressure_pa;
            let suction_pa = suction_port_pa(plant, &self.effects, &low, UNBOUNDED_S);
            let flows = refrigerant_flows(
                plant,
                &self.effects,
                &high,
                &low,
                (suction_pa, Joining::default()),
                RootLimits::FINE,
                UNBOUNDED_S,
            );
            let condensing = condenser::exchange(
                &plant.system.condenser,
                &condenser_sees(plant, &self.effects, &flows, &high, UNBOUNDED_S),
                high.isobar(),
                &high.fluid,
                &mut plant.condenser_films,
            )
            .at_wall(plant.condenser_wall_k);
            // Walls do not move in no time, so the step's exchange is that of the instant.
            let exchange = evaporator::exchange(
                &plant.system.evaporator,
                &evaporator_sees(plant, &flows, &low, UNBOUNDED_S),
                &plant.coil_walls_k,
                &plant.frost,
                &mut plant.coil_films,
                &mut plant.tangents.coil,
            );
            let evaporating = exchange.results;
            let before = plant.last;
            plant.last = Last::of(&before, &flows, &condensing, &evaporating, [&high, &low]);
            if round + 1 == MOST_ROUNDS || agrees(&before, &plant.last, line_pa, plant.line.pressure_pa) {
                if suction_line_rests(plant) {
                    // The first round may still have known of a flow.
                    plant.last.suction_outdoor_k = state.suction_outdoor_k;
                }
                return Instant { high, low, flows, condensing, evaporating, exchange };
            }
        }
        unreachable!("the rounds end by their number")
    }

    fn place(&mut self, time_s: f64, state: &States) {
        let plant = &mut self.plant;
        plant.time_s = time_s;
        plant.control.clone_from(&self.control);
        state.place(plant);

        drive_fans(plant, &self.inputs, &self.effects, Refresh::Now);
        let target = plant.control.target_speeds();
        plant.control.ramp_speeds(&target, time_s - self.start_s);
        plant.slow = surroundings(plant, &self.effects, &plant.weather.at(time_s));
        move_air(plant, &self.inputs, &self.effects);
    }
}

fn agrees(before: &Last, now: &Last, line_before_pa: f64, line_now_pa: f64) -> bool {
    let close = |a: f64, b: f64, scale: f64| (a - b).abs() <= AGREEMENT * scale;
    close(before.compressor_flow_kg_s, now.compressor_flow_kg_s, 0.1)
        && close(before.suction_flow_kg_s, now.suction_flow_kg_s, 0.1)
        && close(before.valve_flow_kg_s, now.valve_flow_kg_s, 0.1)
        && close(before.outlet_flow_kg_s, now.outlet_flow_kg_s, 0.1)
        && close(before.discharge_enthalpy_j_kg, now.discharge_enthalpy_j_kg, 1.0e5)
        && close(before.evaporator_outlet_enthalpy_j_kg, now.evaporator_outlet_enthalpy_j_kg, 1.0e5)
        && close(before.outlet_density_kg_m3, now.outlet_density_kg_m3, 1.0e3)
        && close(before.suction_pa, now.suction_pa, 1.0e6)
        && close(line_before_pa, line_now_pa, 1.0e6)
}
