//! What flows at one instant: suction line, what joins it at the service port, compressor, path to the evaporator, and what the
//! two coils see of it.

use media::elementary::exp;

use crate::compressor::{Compression, STILL_GAS_W_K, Stream, dries, motor_to_gas_w, through_standing_m3_s};
use crate::contents::THIN_GAS_KG_M3;
use crate::fault::Effects;
use crate::leak::Mixture;
use crate::level::{LevelState, available_kg};
use crate::limit::{Bound, MOST_OF_SIDE};
use crate::metering::{Device, Flow, LiquidPath, RootLimits, bulb_pressure_pa, txv_opening};
use crate::root::Bracket;
use crate::shell::{Bodies, SHELL, Shell, Squeezed};
use crate::state::{Last, Plant};
use crate::sump::{Sump, Turning, dissolved_kg};
use crate::system::{Lines, Metering};
use crate::tangent::{Bounds, OF_STEP, near_nothing};
use crate::tangents::{PLACE, stretch_by_quality};
use crate::{condenser, evaporator};

/// Flow through the shell from which on its law is followed, kg/s: slopes are taken over steps in the flow that are no small ones below.
const FOLLOWED_FROM_KG_S: f64 = 2.0e-3;
/// Pressure behind a closed suction line that hardly counts, Pa.
const LITTLE_PA: f64 = 10.0;
/// Flows out of the condenser that the model is meant for, kg/s: five tons take 0.11 (numerical; a line that fills after a service takes more).
const LEAST_OUTLET_KG_S: f64 = -0.2;
const MOST_OUTLET_KG_S: f64 = 0.4;
/// Time in which the liquid line follows its hydraulic state, s.
const LINE_TIME_S: f64 = 2.0;
/// Flow below which nothing is carried along the suction line, kg/s (numerical).
const NO_FLOW_KG_S: f64 = 1.0e-6;
/// Time in which the bare end of the suction line at the service valve takes the temperature of still outdoor air, s: typ. of
/// 3/4 inch copper tube, 210 J/K a metre with 0.06 m² at 9 W/(m² K).
pub(crate) const STANDING_LINE_TIME_S: f64 = 400.0;
/// Most trials for the share of what joins the stream at the service port, and how near the flows must come, kg/s
/// (numerical).
const JOINING_TRIALS: u32 = 20;
const JOINING_TOLERANCE_KG_S: f64 = 1.0e-9;

/// What comes in at the suction service port, to join the stream to the compressor.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Joining {
    pub flow_kg_s: f64,
    pub enthalpy_j_kg: f64,
}

/// What flows forward through scrolls that hold no head, whether they stand or turn.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Standing {
    /// Refrigerant from the low to the high side, kg/s, and its enthalpy, J/kg.
    pub flow_kg_s: f64,
    pub enthalpy_j_kg: f64,
    /// All gas, m³/s.
    pub gas_m3_s: f64,
}

/// Flows and heats of the refrigerant at one instant, but for those in the coils.
pub(crate) struct Flows {
    pub compressor_kg_s: f64,
    /// The part of it that came in at the suction service port and not from the coil.
    pub joined_kg_s: f64,
    /// Forward through scrolls that hold no head.
    pub standing: Standing,
    /// Through the metering device, negative from the evaporator back.
    pub valve_kg_s: f64,
    /// Out of the condenser into the liquid line.
    pub outlet_kg_s: f64,
    pub line_enthalpy_j_kg: f64,
    pub compression: Compression,
    /// Gas at the inlet of the scroll, J/kg, and its quality.
    pub inlet_j_kg: f64,
    pub inlet_quality: f64,
    /// Gas that leaves the shell, J/kg and K.
    pub discharge_enthalpy_j_kg: f64,
    pub discharge_k: f64,
    pub suction_pa: f64,
    /// Suction line at the outdoor service valve, K. The clamp sits on the stub of the valve, whose body the port opens into:
    /// what comes in there is mixed with the stream from the coil.
    pub suction_outdoor_k: f64,
    /// Quality there.
    pub suction_outdoor_quality: f64,
    pub opening: f64,
    pub path: Flow,
    /// From the motor to gas that stands still around it, W.
    pub resting_gas_w: f64,
    /// Out of the suction line into the shell, kg/s, and its enthalpy, J/kg.
    pub suction_kg_s: f64,
    pub stream_enthalpy_j_kg: f64,
    pub sump: Sump,
    /// Gas at the discharge port, before scrolls and dome, K.
    pub port_k: f64,
    pub gas_to_dome_w: f64,
    pub line_heat_w: f64,
}

/// The flows, from the levels, the pressure at the suction port (see [`suction_port_pa`]) and what the last instant left in
/// `plant.last`. No flow takes more than a fifth of what
/// is there in `dt_s`. Writes the pressure of the liquid line.
pub(crate) fn refrigerant_flows(
    plant: &mut Plant,
    effects: &Effects,
    high: &LevelState,
    low: &LevelState,
    (suction_pa, joining): (f64, Joining),
    search: RootLimits,
    dt_s: f64,
) -> Flows {
    let volumes = plant.system.volumes();
    let slow = plant.slow;
    // Suction: pressure drop of the line at the last flow, then the scroll.
    let lines = &plant.system.lines;
    let line_flow = plant.last.line_flow_kg_s();
    // The two lines run side by side through the house, in air at the room's temperature (typ.).
    let line_heat_w = if line_flow > NO_FLOW_KG_S {
        let cp_flow = line_flow * low.sat.vapour_cp_j_kg_k;
        let from_k = plant.last.evaporator_outlet_k;
        cp_flow * (slow.room_k - from_k) * (1.0 - exp(-(lines.suction_ua_w_k / cp_flow).min(50.0)))
    } else {
        0.0
    };
    let line_end_h = if line_flow > NO_FLOW_KG_S {
        plant.last.evaporator_outlet_enthalpy_j_kg + line_heat_w / line_flow
    } else {
        low.fluid.enthalpy_j_kg
    };
    let line_end = LineEnd { pressure_pa: suction_pa, enthalpy_j_kg: line_end_h };
    let sides = Sides { high, low };
    let drawn = draw(plant, effects, sides, line_end, joining, dt_s);
    let Drawn { valve_k, valve_quality, sump, resting_gas_w, suction_h, mut squeezed, joined_share } = drawn;
    // No step may take more than a fifth of the level's mass.
    let most = 0.2 * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    if squeezed.compression.flow_kg_s > most {
        squeezed = squeezed.throttled(&plant.system.compressor, high.isobar_of_all(), plant.dome_k, most);
    }
    let Squeezed { inlet_j_kg, inlet_quality, mut compression, port } = squeezed;
    plant.control.load_compressor(&mut compression);
    let m_c = compression.flow_kg_s;
    let suction_kg_s = sump.stream_kg_s(m_c);
    // Out of a shell that gives off more than the scrolls take, vapour goes back towards the coil; oil at rest takes up vapour.
    let runs = plant.last.suction_flow_kg_s > NO_FLOW_KG_S;
    let stream_h = match (suction_kg_s < 0.0, runs) {
        (true, _) => low.sat.vapour_enthalpy_j_kg,
        (false, true) => suction_h,
        (false, false) => low.vapour_enthalpy_j_kg(),
    };
    let standing = through_standing(plant, high, low, dt_s);
    let suction_outdoor_k = if !suction_line_rests(plant) {
        valve_k
    } else {
        let before_k = plant.last.suction_outdoor_k;
        before_k + (slow.outdoor_k - before_k) * (dt_s / STANDING_LINE_TIME_S).min(1.0)
    };

    let opening = metering_opening(plant, effects, low);
    let flow = metering_flow(plant, effects, sides, opening, search);
    // Gas in the line has its share of the pressure: what else is in it keeps it from condensing there.
    plant.line.pressure_pa = high.refrigerant_share() * 0.5 * (flow.after_drier_pa + flow.valve_inlet_pa);
    let back_share = back_share(plant, low);
    let (m_v, m_o) = line_flows(plant, &flow, high.refrigerant_share(), back_share, dt_s);
    let line_h = line_enthalpy(plant, volumes.line_m3);

    Flows {
        compressor_kg_s: m_c,
        joined_kg_s: joined_share * suction_kg_s.max(0.0),
        standing,
        valve_kg_s: m_v,
        outlet_kg_s: m_o,
        line_enthalpy_j_kg: line_h,
        compression,
        inlet_j_kg,
        inlet_quality,
        discharge_enthalpy_j_kg: port.line_j_kg,
        discharge_k: port.line_k,
        suction_pa,
        suction_outdoor_k,
        suction_outdoor_quality: valve_quality,
        opening,
        path: flow,
        resting_gas_w,
        suction_kg_s,
        stream_enthalpy_j_kg: stream_h,
        sump,
        gas_to_dome_w: port.to_dome_w,
        port_k: port.hot_k,
        line_heat_w,
    }
}

/// Whether the suction line has nothing flowing through it, or no more than scrolls that coast to a stand: its bare end outdoors
/// then comes to the temperature of the air around it.
pub(crate) fn suction_line_rests(plant: &Plant) -> bool {
    plant.last.compressor_flow_kg_s <= NO_FLOW_KG_S || plant.control.target_speeds().compressor <= 0.0
}

/// What the compressor draws.
struct Drawn {
    /// The stream at the service valve: temperature, K, and quality.
    valve_k: f64,
    valve_quality: f64,
    /// Its enthalpy, J/kg.
    suction_h: f64,
    /// What the sump does beside it.
    sump: Sump,
    /// From the motor to gas at rest, W.
    resting_gas_w: f64,
    /// What motor, scrolls and dome make of it.
    squeezed: Squeezed,
    /// The part of the stream that comes in at the service port.
    joined_share: f64,
}

impl Drawn {
    /// Stream through the service valve into the shell, kg/s.
    fn stream_kg_s(&self) -> f64 {
        self.sump.stream_kg_s(self.squeezed.compression.flow_kg_s)
    }
}

/// Between what the compressor stands.
#[derive(Clone, Copy)]
struct Sides<'a> {
    high: &'a LevelState,
    low: &'a LevelState,
}

/// The stream at the end of the suction line.
#[derive(Clone, Copy)]
struct LineEnd {
    pressure_pa: f64,
    enthalpy_j_kg: f64,
}

/// What the compressor draws out of the suction line and from the service port. What
/// comes in there joins the stream as far as the compressor takes it; wet gas is denser, so flow and mixture are found
/// together.
fn draw(
    plant: &mut Plant,
    effects: &Effects,
    sides: Sides<'_>,
    line_end: LineEnd,
    joining: Joining,
    dt_s: f64,
) -> Drawn {
    let line_h = line_end.enthalpy_j_kg;
    if joining.flow_kg_s <= 0.0 || plant.control.compressor_speed <= 0.0 {
        return draw_stream(plant, effects, sides, line_end, dt_s);
    }
    let mut with_share = |share: f64| {
        let mixed = LineEnd { enthalpy_j_kg: line_h + share * (joining.enthalpy_j_kg - line_h), ..line_end };
        Drawn { joined_share: share, ..draw_stream(plant, effects, sides, mixed, dt_s) }
    };
    let all = with_share(1.0);
    if all.stream_kg_s() <= joining.flow_kg_s {
        return all;
    }
    let share_of = |flow_kg_s: f64| (joining.flow_kg_s / flow_kg_s).min(1.0);
    let least = with_share(0.0).stream_kg_s().max(joining.flow_kg_s);
    let most = all.stream_kg_s().max(least);
    let mut gap = |flow_kg_s: f64| with_share(share_of(flow_kg_s)).stream_kg_s() - flow_kg_s;
    let flow_kg_s = match Bracket::of((least, gap(least)), (most, gap(most))) {
        Ok(bracket) => bracket.root(bracket.secant(), JOINING_TRIALS, JOINING_TOLERANCE_KG_S, gap),
        Err(end) => end,
    };
    with_share(share_of(flow_kg_s))
}

/// What the compressor draws of a stream at the service valve.
fn draw_stream(
    plant: &mut Plant,
    effects: &Effects,
    Sides { high, low }: Sides<'_>,
    at_port: LineEnd,
    dt_s: f64,
) -> Drawn {
    let fluid = plant.system.refrigerant.tables();
    let LineEnd { pressure_pa: suction_pa, enthalpy_j_kg: suction_h } = at_port;
    let gas_pa = suction_pa.min(low.fluid.pressure_pa);
    let last_flow = plant.last.suction_flow_kg_s;
    let mut place = PLACE;
    place.near[0] = near_nothing(place.near[0], gas_pa, LITTLE_PA);
    let [valve_k, valve_quality] =
        plant.tangents.at_valve.follow([], [gas_pa, suction_h], place, |&[pressure_pa, h]| {
            let (temperature_k, quality) = fluid.isobar(pressure_pa).temperature_k_and_quality(h);
            ([temperature_k, quality], stretch_by_quality(quality))
        });
    // Oil takes refrigerant up by the refrigerant's own share of the pressure.
    let holds_kg = dissolved_kg(&plant.system.compressor, gas_pa, plant.slow.oil_saturation_pa);
    let turning = if plant.control.compressor_speed > 0.0 { Turning::Runs } else { Turning::Rests };
    let sump = Sump::of(&plant.system.compressor, plant.sump_kg, holds_kg, turning, valve_quality, dt_s);
    let shell = Shell {
        motor: &plant.system.compressor,
        fluid,
        dew_k: high.sat.dew_k,
        speed: plant.control.compressor_speed,
        above_pa: suction_pa - gas_pa,
    };
    let drawn = |squeezed: Squeezed, resting_gas_w: f64| Drawn {
        valve_k,
        valve_quality,
        suction_h,
        sump,
        resting_gas_w,
        squeezed,
        joined_share: 0.0,
    };
    if last_flow <= NO_FLOW_KG_S {
        // Gas at rest exchanges as it stands.
        let conductance_w_k = STILL_GAS_W_K.min(low.exchange_limit_w_k);
        let resting_gas_w = conductance_w_k * (plant.motor_k - low.fluid.temperature_k);
        if shell.speed <= 0.0 {
            return drawn(Squeezed::still(suction_h, valve_quality, plant.dome_k), resting_gas_w);
        }
        let isobar = fluid.isobar(gas_pa);
        let worn_share = worn_share(plant, effects);
        let bodies = Bodies { motor_k: plant.motor_k, dome_k: plant.dome_k, worn_share };
        return drawn(shell.squeeze(&isobar, suction_h, high.isobar_of_all(), &bodies).0, resting_gas_w);
    }
    // In the shell liquid falls into the sump, what boils there joins the gas, and the motor warms both, but never beyond its
    // own temperature.
    let dry_kg_s = (1.0 - sump.falls_share) * last_flow;
    let gas_kg_s = (dry_kg_s + sump.boils_kg_s).max(0.1 * dry_kg_s);
    let dry_h = (suction_h - sump.falls_share * low.sat.liquid_enthalpy_j_kg) / (1.0 - sump.falls_share);
    let boiled_share = 1.0 - dry_kg_s / gas_kg_s;
    let mixed_h = dry_h + boiled_share * (low.sat.vapour_enthalpy_j_kg - dry_h);
    let arguments = [
        gas_pa,
        mixed_h,
        gas_kg_s,
        high.total_pa,
        plant.motor_k,
        plant.dome_k,
        worn_share(plant, effects),
        if dries(plant.dome_k, shell.dew_k) < 1.0 { shell.dew_k } else { 0.0 },
    ];
    let settings = [shell.speed, shell.above_pa];
    let mut bounds = SHELL;
    bounds.near[0] = near_nothing(bounds.near[0], gas_pa, LITTLE_PA);
    let numbers = plant.tangents.shell.follow(settings, arguments, bounds, |a| {
        let &[gas_pa, mixed_h, gas_kg_s, discharge_pa, motor_k, dome_k, worn_share, dew_k] = a;
        let shell = Shell { dew_k: if dew_k > 0.0 { dew_k } else { shell.dew_k }, ..shell };
        let isobar = fluid.isobar(gas_pa);
        let elsewhere = (discharge_pa != arguments[3]).then(|| fluid.isobar(discharge_pa));
        let gas = Stream {
            flow_kg_s: gas_kg_s,
            temperature_k: isobar.temperature_k(mixed_h),
            enthalpy_j_kg: mixed_h,
        };
        let inlet_h = mixed_h + motor_to_gas_w(shell.motor, &isobar, &gas, motor_k) / gas_kg_s;
        let bodies = Bodies { motor_k, dome_k, worn_share };
        let (squeezed, stretch) = shell.squeeze(
            &isobar,
            inlet_h,
            elsewhere.as_ref().unwrap_or_else(|| high.isobar_of_all()),
            &bodies,
        );
        (squeezed.to_numbers(), stretch.filter(|_| gas_kg_s > FOLLOWED_FROM_KG_S))
    });
    drawn(Squeezed::from_numbers(&numbers), 0.0)
}

/// Share of their intake that slips back through worn scrolls.
fn worn_share(plant: &Plant, effects: &Effects) -> f64 {
    plant.system.compressor.internal_leak.max(effects.compressor_leak) + plant.wear.internal_leak()
}

/// Gas of the low side that goes forward through the scrolls, once it stands higher than the high side: they part then, whether
/// they stand or turn.
fn through_standing(plant: &Plant, high: &LevelState, low: &LevelState, dt_s: f64) -> Standing {
    let difference_pa = low.total_pa - high.total_pa;
    if difference_pa <= 0.0 {
        return Standing::default();
    }
    let volume_m3 = plant.system.volumes().low_m3;
    let gas = Mixture::gas_of(low, &plant.low, volume_m3);
    let most_kg_s = 0.2 * available_kg(plant.low.mass_kg, volume_m3) / dt_s;
    let most_m3_s = most_kg_s / gas.refrigerant_kg_m3.max(1.0e-12);
    let gas_m3_s = through_standing_m3_s(gas.density_kg_m3(), difference_pa, low.total_pa).min(most_m3_s);
    Standing {
        flow_kg_s: gas.refrigerant_kg_m3 * gas_m3_s,
        enthalpy_j_kg: low.vapour_enthalpy_j_kg(),
        gas_m3_s,
    }
}

/// Share of the mass of the gas in the low side that is refrigerant: what flows back through the metering device.
fn back_share(plant: &Plant, low: &LevelState) -> f64 {
    Mixture::gas_of(low, &plant.low, plant.system.volumes().low_m3).shares()[0]
}

/// What the condenser sees of these flows.
pub(crate) fn condenser_sees<'a>(
    plant: &Plant,
    effects: &Effects,
    flows: &Flows,
    high: &'a LevelState,
    dt_s: f64,
) -> condenser::Boundary<'a> {
    condenser::Boundary {
        fluid: plant.system.refrigerant.tables(),
        level: high,
        outdoor_k: plant.slow.outdoor_k,
        fan_speed: plant.control.outdoor_fan_speed * effects.condenser_air_share,
        inlet_flow_kg_s: flows.compressor_kg_s,
        rated_flow_kg_s: plant.system.compressor.rated_flow_kg_s,
        inlet_enthalpy_j_kg: flows.discharge_enthalpy_j_kg,
        inlet_k: flows.discharge_k,
        outlet_flow_kg_s: flows.outlet_kg_s.max(0.0),
        liquid_volume_m3: high.liquid_volume_m3,
        level_capacity_j_k: high.capacity_j_k,
        level_changed_k: high.fluid.temperature_k - plant.last.high_k,
        last_to_wall_w: plant.last.condenser_to_wall_w,
        dt_s,
    }
}

/// What the evaporator sees of these flows.
pub(crate) fn evaporator_sees<'a>(
    plant: &Plant,
    flows: &Flows,
    low: &'a LevelState,
    dt_s: f64,
) -> evaporator::Boundary<'a> {
    let slow = &plant.slow;
    evaporator::Boundary {
        fluid: plant.system.refrigerant.tables(),
        level: low,
        room_k: slow.return_k,
        room_humidity_ratio: slow.return_humidity_ratio,
        airflow_m3_s: slow.airflow_m3_s,
        rated_airflow_m3_s: plant.system.air.rated_flow_m3_s,
        draught: slow.draught,
        face: slow.face,
        inlet_enthalpy_j_kg: flows.line_enthalpy_j_kg,
        inlet_flow_kg_s: flows.valve_kg_s,
        outlet_flow_kg_s: flows.suction_kg_s - flows.joined_kg_s,
        rated_flow_kg_s: plant.system.compressor.rated_flow_kg_s,
        critical_pressure_pa: plant.system.refrigerant.critical().pressure_pa,
        liquid_volume_m3: low.liquid_volume_m3,
        level_capacity_j_k: low.capacity_j_k,
        level_changed_k: low.fluid.temperature_k - plant.last.low_k,
        last_from_wall_w: plant.last.coil_from_wall_w,
        dt_s,
    }
}

impl Last {
    /// Flow along the suction line, kg/s: what went into the shell but for what came in at the service port.
    fn line_flow_kg_s(&self) -> f64 {
        self.suction_flow_kg_s - self.joined_flow_kg_s
    }

    /// What an instant leaves for the next one.
    pub(crate) fn of(
        before: &Last,
        flows: &Flows,
        condensing: &condenser::Condensing,
        evaporating: &evaporator::Evaporating,
        [high, low]: [&LevelState; 2],
    ) -> Last {
        Last {
            valve_flow_kg_s: flows.valve_kg_s,
            outlet_flow_kg_s: flows.outlet_kg_s,
            compressor_flow_kg_s: flows.compressor_kg_s,
            suction_flow_kg_s: if flows.compressor_kg_s > 0.0 { flows.suction_kg_s.max(0.0) } else { 0.0 },
            joined_flow_kg_s: flows.joined_kg_s,
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
            high_k: high.fluid.temperature_k,
            low_k: low.fluid.temperature_k,
        }
    }
}

/// Velocity heads that a kink costs which leaves a share of the line's area open: the jet behind it contracts by Weisbach's
/// 0.63 + 0.37 a³ and then widens to the whole tube without winning its pressure back (Borda and Carnot; any textbook, from
/// memory). Nothing at 1; good for liquid and, below choking, for gas.
fn kink_heads(share: f64) -> f64 {
    let contracted = (0.63 + 0.37 * share * share * share) * share;
    let widening = 1.0 / contracted - 1.0;
    widening * widening
}

/// Step below which no time passes, s: an instant of [`crate::equations`], at which the gas between line and scrolls is in balance.
const INSTANT_S: f64 = 1.0e-6;

/// Pressure at the suction port, Pa: evaporator less the drop of the line and of a kink in it before the service valve, of the
/// gas in the shell, which the line fills and the scrolls empty. C dp/dt = sqrt((p_evap - p) rho/R) - k p, implicit in p:
/// what is drawn goes with the pressure that it finds, k by the last flow at the last pressure, and C is the shell's volume by
/// density over pressure. On three tons C/k is some two seconds, so behind a kink the port comes down in seconds, and a sump
/// that boils as much as the scrolls draw holds it up. Wet gas rubs as one fluid of its own density (homogeneous flow, any
/// textbook): what a flooded coil sends is many times as dense as its vapour, and loses so much less.
pub(crate) fn suction_port_pa(plant: &Plant, effects: &Effects, low: &LevelState, dt_s: f64) -> f64 {
    let last = &plant.last;
    if last.suction_pa <= 0.0 {
        return low.total_pa;
    }
    let sat = &low.sat;
    let lines = &plant.system.lines;
    let resistance =
        lines.suction_resistance() + lines.suction_head_resistance() * kink_heads(effects.suction_share);
    let hfg = sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg;
    let dry_share = ((last.evaporator_outlet_enthalpy_j_kg - sat.liquid_enthalpy_j_kg) / hfg).clamp(0.0, 1.0);
    let vapour_kg_m3 = sat.vapour_density_kg_m3;
    let density_kg_m3 =
        1.0 / (dry_share / vapour_kg_m3.max(1.0) + (1.0 - dry_share) / sat.liquid_density_kg_m3);
    let drawn_kg_s_pa = last.line_flow_kg_s().max(0.0) / last.suction_pa;
    let stored_kg_s_pa = if dt_s > INSTANT_S {
        plant.system.compressor.shell_volume_m3 * vapour_kg_m3 / (sat.pressure_pa * dt_s)
    } else {
        0.0
    };
    let per_pa = drawn_kg_s_pa + stored_kg_s_pa;
    if per_pa <= 0.0 {
        return low.total_pa;
    }
    // With q = per_pa p - stored p_last, what comes through the line: curve q |q| + q/per_pa = head.
    let curve = resistance / density_kg_m3;
    let held_pa = stored_kg_s_pa / per_pa * last.suction_pa;
    let head_pa = low.total_pa - held_pa;
    let through_kg_s =
        2.0 * head_pa / (1.0 / per_pa + libm::sqrt(1.0 / (per_pa * per_pa) + 4.0 * curve * head_pa.abs()));
    // The tables end at 5 kPa.
    (held_pa + through_kg_s / per_pa).max(5.0e3_f64.min(low.total_pa))
}

/// How far a bulb may be from where its pressure was looked up, K, and by how much that may be off, Pa.
const BULB: Bounds<1, 1> = Bounds { near: [0.1], fine: [0.5], of_step: OF_STEP };

/// Opening of the metering device with its faults, 0 to 1.
fn metering_opening(plant: &mut Plant, effects: &Effects, low: &LevelState) -> f64 {
    let natural = match &plant.system.metering {
        Metering::Txv { spring_pa, bulb_pressure_max_pa, .. } => {
            let fluid = plant.system.refrigerant.tables();
            let opens_k = plant.slow.valve_opens_k;
            let [charged_pa] = plant.tangents.bulb.follow([opens_k], [plant.bulb_k], BULB, |&[bulb_k]| {
                ([bulb_pressure_pa(fluid, opens_k, *spring_pa, bulb_k)], Some(0))
            });
            let bulb_pa = charged_pa.min(*bulb_pressure_max_pa) * effects.bulb_charge_share;
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
    plant: &mut Plant,
    effects: &Effects,
    Sides { high, low }: Sides<'_>,
    opening: f64,
    search: RootLimits,
) -> Flow {
    let lines = &plant.system.lines;
    let open_share = opening * effects.orifice_share;
    let path = LiquidPath {
        fluid: plant.system.refrigerant.tables(),
        critical: plant.system.refrigerant.critical(),
        condenser_pa: high.total_pa,
        condenser: high,
        elsewhere: None,
        outlet_density_kg_m3: plant.last.outlet_density_kg_m3.max(0.1),
        line_enthalpy_j_kg: line_enthalpy(plant, lines.liquid_volume_m3()),
        kink_resistance: kink_resistance(lines, effects),
        drier_resistance: drier_resistance(lines, effects),
        line_resistance: lines.liquid_resistance(),
        evaporator_pa: low.total_pa,
        back_kg_m3: Mixture::gas_of(low, &plant.low, plant.system.volumes().low_m3).density_kg_m3(),
        device: Device::of(&plant.system.metering, open_share),
    };
    let last_kg_s = plant.last.valve_flow_kg_s;
    path.follow(&mut plant.tangents.path, &plant.system.metering, open_share, last_kg_s, search)
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
    // Bounds keep the last milligrams of an evacuated line harmless; no gas that stands in a line comes near the upper one.
    h.clamp(1.2e5, 7.0e5)
}

/// Flow through the metering device and out of the condenser, kg/s. The line fills towards the mass that its
/// hydraulic state asks for; no flow takes more than [`MOST_OF_SIDE`] of what is there in one step.
/// `refrigerant_share` is the refrigerant's share of the gas that reaches the line, `back_share` that of what flows back from
/// the evaporator.
fn line_flows(
    plant: &mut Plant,
    flow: &Flow,
    refrigerant_share: f64,
    back_share: f64,
    dt_s: f64,
) -> (f64, f64) {
    let volumes = plant.system.volumes();
    let line_most = MOST_OF_SIDE * available_kg(plant.line.mass_kg, volumes.line_m3) / dt_s;
    let low_most = MOST_OF_SIDE * available_kg(plant.low.mass_kg, volumes.low_m3) / dt_s;
    let high_most = MOST_OF_SIDE * available_kg(plant.high.mass_kg, volumes.high_m3) / dt_s;
    let share = if flow.flow_kg_s >= 0.0 { refrigerant_share } else { back_share };
    let limiter = &mut plant.limiter;
    let m_v = limiter.between(Bound::Metering, share * flow.flow_kg_s, -low_most, line_most);
    let wanted = refrigerant_share * volumes.line_m3 * flow.line_density_kg_m3;
    let fill = (wanted - plant.line.mass_kg) / LINE_TIME_S;
    let m_o = limiter.between(Bound::CondenserOutlet, m_v + fill, -line_most, high_most);
    let m_o = limiter.between(Bound::CondenserOutletRate, m_o, LEAST_OUTLET_KG_S, MOST_OUTLET_KG_S);
    (m_v, m_o)
}
