//! What flows at one instant: suction line, compressor, path to the evaporator, and what the two coils see of it.

use media::refrigerant::Fluid;

use crate::balance::THIN_GAS_KG_M3;
use crate::compressor::{Compression, Inside, bypass_share, compress};
use crate::level::{LevelState, available_kg};
use crate::metering::{Flow, Path, Search, txv_opening};
use crate::state::{Effects, Last, Plant};
use crate::system::{Lines, Metering};
use crate::{condenser, evaporator};

/// Time in which the liquid line follows its hydraulic state, s.
const LINE_TIME_S: f64 = 2.0;

/// Flows and heats of the refrigerant at one instant, but for those in the coils.
pub(crate) struct Flows {
    pub compressor_kg_s: f64,
    /// Through the metering device, negative from the evaporator back.
    pub valve_kg_s: f64,
    /// Out of the condenser into the liquid line.
    pub outlet_kg_s: f64,
    pub line_enthalpy_j_kg: f64,
    pub compression: Compression,
    /// Gas at the inlet of the scroll.
    pub inlet: Fluid,
    /// Gas that leaves the shell, J/kg and K.
    pub discharge_enthalpy_j_kg: f64,
    pub discharge_k: f64,
    pub suction_pa: f64,
    /// Suction line at the outdoor service valve, K.
    pub suction_outdoor_k: f64,
    pub opening: f64,
    pub path: Flow,
    pub motor_to_gas_w: f64,
    pub discharge_to_motor_w: f64,
    pub line_heat_w: f64,
}

/// The flows, from the levels and from what the last instant left in `plant.last`. No flow takes more than a fifth of what
/// is there in `dt_s`. Writes the pressure of the liquid line.
pub(crate) fn refrigerant_flows(
    plant: &mut Plant,
    effects: &Effects,
    high: &LevelState,
    low: &LevelState,
    search: Search,
    dt_s: f64,
) -> Flows {
    let fluid = plant.system.refrigerant.tables();
    let volumes = plant.system.volumes();
    let slow = plant.slow;
    // Suction: pressure drop of the line at the last flow, then the scroll.
    let lines = &plant.system.lines;
    let last_flow = plant.last.compressor_flow_kg_s;
    let suction_pa = suction_port_pa(plant, effects, low);
    let outlet_h = plant.last.evaporator_outlet_enthalpy_j_kg;
    // The two lines run side by side through the house, in air at the room's temperature (typ.).
    let line_heat_w = if last_flow > 1.0e-6 {
        let cp_flow = last_flow * low.sat.vapour_cp_j_kg_k;
        let from_k = plant.last.evaporator_outlet_k;
        cp_flow * (slow.room_k - from_k) * (1.0 - libm::exp(-(lines.suction_ua_w_k / cp_flow).min(50.0)))
    } else {
        0.0
    };
    let suction_h =
        if last_flow > 1.0e-6 { outlet_h + line_heat_w / last_flow } else { low.fluid.enthalpy_j_kg };
    let at_valve = fluid.at_ph(suction_pa.min(low.fluid.pressure_pa), suction_h);

    let motor = &plant.system.compressor;
    let flow_share = last_flow / motor.rated_flow_kg_s;
    let motor_ua = motor.motor_to_gas_w_k * libm::sqrt(flow_share.max(0.0)) + 2.0;
    let motor_ua = motor_ua.min(low.exchange_limit_w_k);
    let gas_k = if last_flow > 1.0e-6 { at_valve.temperature_k } else { low.fluid.temperature_k };
    let motor_to_gas_w = motor_ua * (plant.motor_k - gas_k);
    let inlet_h = if last_flow > 1.0e-6 {
        suction_h + (motor_to_gas_w / last_flow).clamp(-2.0e4, 6.0e4)
    } else {
        suction_h
    };
    let motor_to_gas_w = if last_flow > 1.0e-6 { (inlet_h - suction_h) * last_flow } else { motor_to_gas_w };
    let inlet = fluid.at_ph(suction_pa.min(low.fluid.pressure_pa), inlet_h);
    let mut compression = compress(
        motor,
        fluid,
        &inlet,
        high.total_pa,
        plant.control.compressor_speed,
        Inside {
            leak: motor.internal_leak.max(effects.compressor_leak) + plant.wear.internal_leak(),
            leak_enthalpy_j_kg: plant.last.discharge_enthalpy_j_kg,
            bypass: bypass_share(motor, high.total_pa - suction_pa),
            shell_k: plant.motor_k,
        },
    );
    // No step may take more than a fifth of the level's mass.
    let most = 0.2 * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    if compression.flow_kg_s > most {
        let share = most / compression.flow_kg_s;
        compression.flow_kg_s = most;
        compression.power_w *= share;
        compression.motor_heat_w *= share;
    }
    plant.control.load_compressor(&mut compression);
    let m_c = compression.flow_kg_s;

    let opening = metering_opening(plant, effects, low);
    let flow = metering_flow(plant, effects, high, low, opening, search);
    plant.line.pressure_pa = 0.5 * (flow.after_drier_pa + flow.valve_inlet_pa);
    let (m_v, m_o) = line_flows(plant, &flow, high.refrigerant_share(), volumes.line_m3, dt_s);
    let line_h = line_enthalpy(plant, volumes.line_m3);

    // Hot discharge gas warms the top of the shell, and with it motor and overload.
    let discharge_to_motor_w =
        compression.discharge_to_shell_w(motor, fluid, high.fluid.pressure_pa, plant.motor_k);
    // Scrolls that turn in a vacuum move nothing: what stands at the port is as warm as the shell.
    let (discharge_h, discharge_k) = if m_c > 0.0 {
        let h = compression.discharge_enthalpy_j_kg - discharge_to_motor_w / m_c;
        (h, fluid.at_ph(high.fluid.pressure_pa, h).temperature_k)
    } else {
        (compression.discharge_enthalpy_j_kg, plant.motor_k)
    };
    Flows {
        compressor_kg_s: m_c,
        valve_kg_s: m_v,
        outlet_kg_s: m_o,
        line_enthalpy_j_kg: line_h,
        compression,
        inlet,
        discharge_enthalpy_j_kg: discharge_h,
        discharge_k,
        suction_pa,
        suction_outdoor_k: at_valve.temperature_k,
        opening,
        path: flow,
        motor_to_gas_w,
        discharge_to_motor_w,
        line_heat_w,
    }
}

/// What the condenser sees of these flows.
pub(crate) fn condenser_sees(
    plant: &Plant,
    effects: &Effects,
    flows: &Flows,
    high: &LevelState,
    dt_s: f64,
) -> condenser::Around<'static> {
    condenser::Around {
        fluid: plant.system.refrigerant.tables(),
        outdoor_k: plant.slow.outdoor_k,
        fan_speed: plant.control.outdoor_fan_speed * effects.condenser_air_share,
        inlet_flow_kg_s: flows.compressor_kg_s,
        inlet_enthalpy_j_kg: flows.discharge_enthalpy_j_kg,
        outlet_flow_kg_s: flows.outlet_kg_s.max(0.0),
        liquid_volume_m3: high.liquid_volume_m3,
        level_capacity_j_k: high.capacity_j_k,
        last_to_wall_w: plant.last.condenser_to_wall_w,
        dt_s,
    }
}

/// What the evaporator sees of these flows.
pub(crate) fn evaporator_sees(
    plant: &Plant,
    flows: &Flows,
    low: &LevelState,
    dt_s: f64,
) -> evaporator::Around<'static> {
    let slow = &plant.slow;
    evaporator::Around {
        fluid: plant.system.refrigerant.tables(),
        room_k: slow.return_k,
        room_humidity_ratio: slow.return_humidity_ratio,
        airflow_m3_s: slow.airflow_m3_s,
        rated_airflow_m3_s: plant.system.air.rated_flow_m3_s,
        blower_speed: plant.control.blower_speed,
        face_share: slow.face_share,
        inlet_enthalpy_j_kg: flows.line_enthalpy_j_kg,
        inlet_flow_kg_s: flows.valve_kg_s,
        outlet_flow_kg_s: flows.compressor_kg_s,
        rated_flow_kg_s: plant.system.compressor.rated_flow_kg_s,
        liquid_volume_m3: low.liquid_volume_m3,
        level_capacity_j_k: low.capacity_j_k,
        last_from_wall_w: plant.last.coil_from_wall_w,
        dt_s,
    }
}

impl Last {
    /// What an instant leaves for the next one.
    pub(crate) fn of(
        before: &Last,
        flows: &Flows,
        condensing: &condenser::Condensing,
        evaporating: &evaporator::Evaporating,
    ) -> Last {
        Last {
            valve_flow_kg_s: flows.valve_kg_s,
            outlet_flow_kg_s: flows.outlet_kg_s,
            compressor_flow_kg_s: flows.compressor_kg_s,
            compressor_power_w: flows.compression.power_w,
            discharge_enthalpy_j_kg: if flows.compressor_kg_s > 0.0 {
                flows.discharge_enthalpy_j_kg
            } else {
                before.discharge_enthalpy_j_kg
            },
            suction_pa: flows.suction_pa,
            suction_outdoor_k: flows.suction_outdoor_k,
            evaporator_outlet_k: evaporating.outlet_k,
            evaporator_outlet_enthalpy_j_kg: evaporating.outlet_enthalpy_j_kg,
            outlet_density_kg_m3: condensing.outlet_density_kg_m3,
            outlet_enthalpy_j_kg: condensing.outlet_enthalpy_j_kg,
            condenser_to_wall_w: condensing.heat_to_wall_w,
            coil_from_wall_w: evaporating.from_wall_w,
        }
    }
}

/// Velocity heads that the suction line loses over its length: friction of some 10 m of tube at its diameter of 17 mm
/// (f L/d = 0.02 × 580), bends and valve (typ.). One head is so much of the line's own drop.
const SUCTION_LINE_HEADS: f64 = 15.0;

/// Velocity heads that a kink costs which leaves a share of the line's area open: the jet behind it contracts by Weisbach's
/// 0.63 + 0.37 a³ and then widens to the whole tube without winning its pressure back (Borda and Carnot; any textbook, from
/// memory). Nothing at 1; good for liquid and, below choking, for gas.
fn kink_heads(share: f64) -> f64 {
    let contracted = (0.63 + 0.37 * share * share * share) * share;
    let widening = 1.0 / contracted - 1.0;
    widening * widening
}

/// Pressure at the suction port, Pa: evaporator less the drop of the line and of a kink in it before the service valve. What
/// the compressor draws goes with the pressure that it finds, so a drop that grows takes its own cause away: solved for the
/// pressure at the last flow over the last pressure.
pub(crate) fn suction_port_pa(plant: &Plant, effects: &Effects, low: &LevelState) -> f64 {
    let last = &plant.last;
    if last.compressor_flow_kg_s <= 0.0 || last.suction_pa <= 0.0 {
        return low.total_pa;
    }
    let kink = kink_heads(effects.suction_share) / SUCTION_LINE_HEADS;
    let resistance = plant.system.lines.suction_resistance * (1.0 + kink);
    let per_pa = last.compressor_flow_kg_s / last.suction_pa;
    let curve = resistance * per_pa * per_pa / low.sat.vapour_density_kg_m3.max(1.0);
    let port_pa = 2.0 * low.total_pa / (1.0 + libm::sqrt(1.0 + 4.0 * curve * low.total_pa));
    // The tables end at 5 kPa.
    port_pa.max(5.0e3_f64.min(low.total_pa))
}

/// Opening of the metering device with its faults, 0 to 1.
fn metering_opening(plant: &Plant, effects: &Effects, low: &LevelState) -> f64 {
    let natural = match &plant.system.metering {
        Metering::Txv { bulb_pressure_max_pa, .. } => {
            let bulb_pa =
                plant.system.refrigerant.tables().dew_pressure_pa(plant.bulb_k).min(*bulb_pressure_max_pa)
                    * effects.bulb_charge_share;
            txv_opening(&plant.system.metering, bulb_pa, low.total_pa)
        }
        Metering::Orifice { .. } => 1.0,
    };
    natural.max(effects.opening_min).min(effects.opening_max.max(0.002))
}

/// Resistance of a kink before the drier: the shut share acts by the inverse square of what is open.
fn kink_resistance(lines: &Lines, effects: &Effects) -> f64 {
    lines.drier_resistance * (1.0 / (effects.line_share * effects.line_share) - 1.0)
}

/// Resistance of the drier, likewise.
fn drier_resistance(lines: &Lines, effects: &Effects) -> f64 {
    lines.drier_resistance / (effects.drier_share * effects.drier_share)
}

fn metering_flow(
    plant: &Plant,
    effects: &Effects,
    high: &LevelState,
    low: &LevelState,
    opening: f64,
    search: Search,
) -> Flow {
    let area = match &plant.system.metering {
        Metering::Txv { area_m2, .. } | Metering::Orifice { area_m2 } => *area_m2,
    };
    Path {
        fluid: plant.system.refrigerant.tables(),
        condenser_pa: high.total_pa,
        outlet_density_kg_m3: plant.last.outlet_density_kg_m3.max(0.1),
        line_enthalpy_j_kg: line_enthalpy(plant, plant.system.lines.liquid_volume_m3),
        kink_resistance: kink_resistance(&plant.system.lines, effects),
        drier_resistance: drier_resistance(&plant.system.lines, effects),
        line_resistance: plant.system.lines.liquid_resistance,
        evaporator_pa: low.total_pa,
        area_m2: area * opening * effects.orifice_share,
        metering: &plant.system.metering,
    }
    .solve(plant.last.valve_flow_kg_s, search)
}

/// Enthalpy of what stands in the liquid line, J/kg. The last thin gas has the temperature of the air around the line:
/// pressure and volume of so little say nothing about it.
pub(crate) fn line_enthalpy(plant: &Plant, volume_m3: f64) -> f64 {
    let line = &plant.line;
    if line.mass_kg < THIN_GAS_KG_M3 * volume_m3 {
        let fluid = plant.system.refrigerant.tables();
        return fluid.at_pt_vapour(line.pressure_pa.clamp(1.0e-2, 5.0e3), plant.slow.room_k).enthalpy_j_kg;
    }
    let h = (line.energy_j + line.pressure_pa * volume_m3) / line.mass_kg.max(1.0e-9);
    // Bounds keep the last milligrams of an evacuated line harmless.
    h.clamp(1.2e5, 5.2e5)
}

/// Flow through the metering device and out of the condenser, kg/s. The line fills towards the mass that its
/// hydraulic state asks for; no flow takes more than a fifth of what is there in one step.
/// `refrigerant_share` is the refrigerant's share of the gas that reaches the line.
fn line_flows(plant: &Plant, flow: &Flow, refrigerant_share: f64, volume_m3: f64, dt_s: f64) -> (f64, f64) {
    let volumes = plant.system.volumes();
    let line_most = 0.2 * available_kg(plant.line.mass_kg, volume_m3) / dt_s;
    let low_most = 0.2 * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    let high_most = 0.2 * available_kg(plant.high.mass_kg, volumes.high_m3) / dt_s;
    let m_v = (refrigerant_share * flow.flow_kg_s).clamp(-low_most, line_most);
    let wanted = refrigerant_share * volume_m3 * flow.line_density_kg_m3;
    let fill = (wanted - plant.line.mass_kg) / LINE_TIME_S;
    let m_o = (m_v + fill).clamp(-line_most, high_most).clamp(-0.2, 0.4);
    (m_v, m_o)
}
