//! Scroll compressor: fixed displacement, built-in volume ratio, motor cooled by suction gas.

use media::elementary::exp;
use media::refrigerant::{Fluid, Isobar, Refrigerant};

use crate::system::{Compressor, RefrigerantName};

/// What one instant of compression does.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Compression {
    /// Delivered flow, kg/s.
    pub flow_kg_s: f64,
    /// Enthalpy of the gas at discharge, J/kg.
    pub discharge_enthalpy_j_kg: f64,
    /// Electric power, W.
    pub power_w: f64,
    /// Motor and friction heat, into the windings, W.
    pub motor_heat_w: f64,
    /// Heat that gas leaves in the scrolls as it slips back through them, W.
    pub left_in_scrolls_w: f64,
}

/// Heat that a stream gives to a body at one temperature, W: the stream comes the nearer to the body the less of it there is
/// (effectiveness of an exchanger with one side at one temperature, 1 - exp(-UA/C), any heat transfer text), so that it never
/// leaves on the other side of the body's temperature. `at_body_j_kg` is its enthalpy at the temperature of the body.
pub(crate) fn heat_to_body_w(stream: &Stream, body_k: f64, at_body_j_kg: f64, conductance_w_k: f64) -> f64 {
    if stream.flow_kg_s <= 0.0 || conductance_w_k <= 0.0 {
        return 0.0;
    }
    let (span_k, span_j_kg) = (stream.temperature_k - body_k, stream.enthalpy_j_kg - at_body_j_kg);
    // Wet gas that is colder than the body takes up more than a gas does by its temperature; the mean capacity has it.
    if span_k.abs() < 1.0e-3 || span_k * span_j_kg <= 0.0 {
        return 0.0;
    }
    let capacity_w_k = stream.flow_kg_s * span_j_kg / span_k;
    stream.flow_kg_s * span_j_kg * (1.0 - exp(-conductance_w_k / capacity_w_k))
}

/// A stream of gas that passes a body.
pub(crate) struct Stream {
    pub flow_kg_s: f64,
    pub temperature_k: f64,
    pub enthalpy_j_kg: f64,
}

/// Difference of pressure from the first opening of the internal relief to the widest, Pa (typ.).
const RELIEF_SPAN_PA: f64 = 0.5e6;
/// Share of the gas that it lets back to the motor when wide open (typ.).
const RELIEF_SHARE: f64 = 0.6;

/// Ratio of discharge to suction pressure at which the floating seal of the scrolls begins to lift, and the further ratio
/// over which it does. Makers build it so that a scroll that is starved of gas stops pumping before it draws a deep vacuum:
/// at about 20 to 1 nothing is delivered any more (application guidelines of such compressors, from memory).
const SEAL_LIFTS_FROM: f64 = 15.0;
const SEAL_LIFTS_OVER: f64 = 5.0;

/// Choked flux of a vapour with an isentropic exponent near 1.15 through a nozzle, over sqrt(p rho) (gas dynamics,
/// sqrt(k) (2/(k+1))^((k+1)/(2(k-1))), any text).
const CHOKED_FLUX: f64 = 0.635;
/// Ratio of pressures at which such a nozzle chokes.
const CHOKED_RATIO: f64 = 0.574;
/// Difference of pressure below which the leak goes to zero evenly, Pa (numerical: no infinite slope).
const LEAK_LAMINAR_PA: f64 = 2.0e4;
/// Rounds that settle an intake with wet gas in it, whose work comes round with it.
const WET_ROUNDS: u32 = 6;
/// Largest share of what the scrolls take in that may have come round inside.
const MOST_ROUND: f64 = 0.95;

/// Passage through scrolls that stand, m²: with no pressure between them they part, and the gas goes forward past their flanks
/// and the check valve at the discharge, which holds the other way (typ.; a passage of some square millimetres, no source).
const STANDING_AREA_M2: f64 = 2.0e-6;
/// Difference of pressure below which the narrow passage is laminar, Pa (typ.).
const STANDING_LAMINAR_PA: f64 = 1.0e4;
/// Largest share of its inlet pressure that drives gas through it: beyond it the flow is choked (ideal gas, exponent 1.15).
const STANDING_CHOKED_SHARE: f64 = 0.43;

/// Gas that goes forward through standing scrolls at a difference of pressure, suction over discharge, m³/s of the gas on the
/// suction side.
pub(crate) fn through_standing_m3_s(density_kg_m3: f64, difference_pa: f64, suction_pa: f64) -> f64 {
    let driving_pa = difference_pa.clamp(0.0, STANDING_CHOKED_SHARE * suction_pa);
    STANDING_AREA_M2 * libm::sqrt(2.0 / density_kg_m3.max(1.0e-6)) * driving_pa
        / libm::sqrt(driving_pa + STANDING_LAMINAR_PA)
}

/// What comes round inside the shell and is taken in again.
#[derive(Clone, Copy, Debug)]
pub(crate) struct InternalLosses {
    /// Share of the intake that slips back through worn tips and flanks, on top of the clearances of sound ones.
    pub worn_share: f64,
    /// Gas at the discharge pressure and the temperature of the scrolls, no colder than dew: as it comes out of the clearances,
    /// since on its way through the narrow gaps it takes that temperature.
    pub leak: Fluid,
    /// How far scrolls and dome are warm enough to dry what slips through them, 0 to 1; see [`dries`].
    pub leak_dry: f64,
    /// Share that the internal relief lets out over the motor, which comes round at the shell's temperature, K.
    pub bypass: f64,
    pub shell_k: f64,
}

/// Share of the gas that the internal relief lets back over the motor, which it heats until the overload opens: common
/// practice of such compressors, settings from memory.
pub(crate) fn bypass_share(data: &Compressor, difference_pa: f64) -> f64 {
    RELIEF_SHARE * ((difference_pa - data.relief_opens_pa) / RELIEF_SPAN_PA).clamp(0.0, 1.0)
}

/// How far over dew scrolls must stand to dry all that slips back through them, K (typ.).
const DRIES_OVER_K: f64 = 5.0;

/// How far scrolls at a temperature, K, dry what slips back through them, 0 to 1: metal no warmer than dew, K, has no heat for it, and
/// wet gas comes round as it was discharged.
pub(crate) fn dries(dome_k: f64, dew_k: f64) -> f64 {
    ((dome_k - dew_k) / DRIES_OVER_K).clamp(0.0, 1.0)
}

/// Flow through the clearances of sound scrolls, kg/s: a nozzle from the discharge side to the intake (the leakage of
/// Winandy, Saavedra & Lebrun 2002, Applied Thermal Engineering 22; form from memory).
fn leak_kg_s(area_m2: f64, discharge_pa: f64, density_kg_m3: f64, suction_pa: f64) -> f64 {
    let difference_pa = discharge_pa - suction_pa;
    if difference_pa <= 0.0 {
        return 0.0;
    }
    // Below the choking ratio the flow falls along an ellipse (the usual short form of the nozzle's law).
    let beyond = ((suction_pa / discharge_pa - CHOKED_RATIO) / (1.0 - CHOKED_RATIO)).clamp(0.0, 1.0);
    let open = libm::sqrt(1.0 - beyond * beyond) * difference_pa / (difference_pa + LEAK_LAMINAR_PA);
    area_m2 * CHOKED_FLUX * libm::sqrt(discharge_pa * density_kg_m3) * open
}

/// Work on a kilogram of gas at the inlet of the scrolls, one of the states `at_suction`, J/kg.
fn work_j_kg(
    data: &Compressor,
    fluid: &Refrigerant,
    at_suction: &Isobar<'_>,
    inlet: &Fluid,
    discharge_pressure_pa: f64,
) -> f64 {
    let inner_volume = 1.0 / (inlet.density_kg_m3 * data.volume_ratio);
    let inner_pressure = at_suction.compressed_pa(inlet.entropy_j_kg_k, data.volume_ratio).min(4.8e6);
    let inner_h = fluid.isobar(inner_pressure).enthalpy_at_s_vapour_j_kg(inlet.entropy_j_kg_k);
    let inner_work = inner_h - inlet.enthalpy_j_kg;
    let work = inner_work + (discharge_pressure_pa - inner_pressure) * inner_volume;
    // Never less than a third of the isentropic step to the inner volume: a scroll with little head still compresses.
    work.max(0.33 * inner_work).max(0.0) / data.indicated_efficiency
}

/// Compression of gas at `suction` (scroll inlet, one of the states `at_suction`) to `discharge_pressure_pa` at a share of
/// running speed, with what goes back `inside`.
///
/// Semi-empirical scroll (Winandy, Saavedra & Lebrun 2002; Li 2012; forms from memory): the displacement takes in fresh
/// gas and what leaked back, mixed; work per kg by the built-in volume ratio, isentropic to the inner volume, then at
/// constant volume against the discharge pressure, w = [h_s(p_i) - h_1] + (p_d - p_i) v_1/V_r. Over- and
/// under-compression, the fall of the delivered flow with the pressure ratio and the recompression of what leaks follow
/// by themselves.
pub(crate) fn compress(
    data: &Compressor,
    fluid: &Refrigerant,
    at_suction: &Isobar<'_>,
    suction: &Fluid,
    discharge_pressure_pa: f64,
    speed: f64,
    inside: InternalLosses,
) -> Compression {
    if speed <= 0.0 || suction.density_kg_m3 <= 0.0 {
        return Compression { discharge_enthalpy_j_kg: suction.enthalpy_j_kg, ..Compression::default() };
    }
    let p1 = suction.pressure_pa;
    let ratio = (discharge_pressure_pa / p1).max(1.0);
    let lifted = ((ratio - SEAL_LIFTS_FROM) / SEAL_LIFTS_OVER).clamp(0.0, 1.0);
    let fresh = suction.enthalpy_j_kg;
    let swept_m3_s = data.displacement_m3 * data.speed_1_s * speed;
    let worn = inside.worn_share.clamp(0.0, MOST_ROUND);
    let bypass = inside.bypass.clamp(0.0, 0.9);
    let at_shell =
        if bypass > 0.0 { fluid.at_pt_vapour(p1, inside.shell_k).enthalpy_j_kg.max(fresh) } else { fresh };
    let work_on =
        |inlet: &Fluid| work_j_kg(data, fluid, at_suction, inlet, discharge_pressure_pa) * (1.0 - lifted);
    // What slips back has the enthalpy of the discharge, a throttle changes none, and comes to that of gas at the temperature of
    // the scrolls: hotter gas gives them all that it has over it, wet gas gets of it what they have heat for. So wet gas comes
    // round with the work of its passes before.
    let (at_scrolls, dried) = (inside.leak.enthalpy_j_kg, inside.leak_dry);
    let (mut inlet, mut inlet_kg_m3, mut round_h) = (*suction, suction.density_kg_m3, at_scrolls);
    let (mut round, mut inlet_h);
    let mut left = if dried < 1.0 { WET_ROUNDS } else { 2 };
    let leaks_kg_s = |kg_m3: f64| leak_kg_s(data.leak_area_m2, discharge_pressure_pa, kg_m3, p1);
    let dry_leak = leaks_kg_s(inside.leak.density_kg_m3);
    // It thins the intake, and a thin intake is a larger share of leak: two rounds settle it to a thousandth.
    loop {
        left -= 1;
        let leak = if round_h < at_scrolls {
            leaks_kg_s(fluid.at_ph(discharge_pressure_pa, round_h).density_kg_m3)
        } else {
            dry_leak
        };
        let share = worn + leak / (swept_m3_s * inlet_kg_m3);
        round = (share + lifted * (1.0 - share)).clamp(0.0, MOST_ROUND - bypass);
        round_h = at_scrolls;
        let taken_in = (1.0 - round - bypass) * fresh + bypass * at_shell;
        if dried < 1.0 {
            let work = work_on(&inlet);
            let stays = round * (1.0 - dried);
            let mixed = (taken_in + stays * work + round * dried * at_scrolls) / (1.0 - stays);
            let discharged = mixed + work;
            round_h = round_h.min(discharged + dried * (at_scrolls - discharged));
        }
        inlet_h = taken_in + round * round_h;
        if left == 0 {
            break;
        }
        // Dry gas comes round as before whatever its work: only its density is asked for.
        if dried < 1.0 {
            inlet = at_suction.at_h(inlet_h);
            inlet_kg_m3 = inlet.density_kg_m3;
        } else {
            inlet_kg_m3 = at_suction.density_kg_m3(inlet_h);
        }
    }
    inlet = at_suction.at_h(inlet_h);
    let pumped = swept_m3_s * inlet.density_kg_m3;
    let work = work_on(&inlet);
    let gas_power = pumped * work;
    let power = (gas_power + data.friction_w * speed) / data.motor_efficiency;
    let discharge_h = inlet.enthalpy_j_kg + work;
    // What comes round is bounded, so that the mixture is defined; a seal that has lifted wholly delivers nothing all the
    // same, and what it holds back leaves its heat in the scrolls.
    let passes_kg_s = pumped * (1.0 - round - bypass);
    let flow_kg_s = passes_kg_s.min(pumped * (1.0 - lifted));
    Compression {
        flow_kg_s,
        discharge_enthalpy_j_kg: discharge_h,
        power_w: power,
        motor_heat_w: power - gas_power,
        left_in_scrolls_w: pumped * round * (discharge_h - round_h)
            + (passes_kg_s - flow_kg_s) * (discharge_h - fresh),
    }
}

/// Net heats to the metal of a compressor and from it to the air around, W.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ShellHeats {
    pub motor_w: f64,
    pub dome_w: f64,
    pub to_air_w: f64,
}

impl ShellHeats {
    /// The heats at temperatures of motor, dome and air, K, with what the gas gives the dome and the motor the gas, W.
    pub(crate) fn of(
        data: &Compressor,
        compression: &Compression,
        [motor_k, dome_k, air_k]: [f64; 3],
        gas_to_dome_w: f64,
        motor_to_gas_w: f64,
    ) -> ShellHeats {
        let motor_to_air_w = data.shell_to_air_w_k * (motor_k - air_k);
        let dome_to_air_w = data.dome_to_air_w_k * (dome_k - air_k);
        let dome_to_motor_w = data.dome_to_motor_w_k * (dome_k - motor_k);
        ShellHeats {
            motor_w: compression.motor_heat_w + dome_to_motor_w - motor_to_gas_w - motor_to_air_w,
            dome_w: gas_to_dome_w + compression.left_in_scrolls_w - dome_to_motor_w - dome_to_air_w,
            to_air_w: motor_to_air_w + dome_to_air_w,
        }
    }
}

/// What a compressor delivers and takes at a point of its map, settled.
#[derive(Clone, Copy, Debug)]
pub struct CompressorRating {
    /// Refrigerant flow, kg/s.
    pub flow_kg_s: f64,
    /// Electric power, W.
    pub power_w: f64,
    /// Gas at the discharge port, K.
    pub port_k: f64,
    /// Discharge line, K.
    pub discharge_k: f64,
    /// Motor windings, K.
    pub winding_k: f64,
}

/// A point of the compressor's map as rating standards state it (AHRI 540: dew temperatures at suction and discharge, superheat
/// at the suction port): dew temperatures in K, superheat in K, air around it in K.
#[must_use]
pub fn compressor_rating(
    data: &Compressor,
    refrigerant: RefrigerantName,
    evaporating_k: f64,
    condensing_k: f64,
    superheat_k: f64,
    air_k: f64,
) -> CompressorRating {
    let fluid = refrigerant.tables();
    let (p1, p2) = (fluid.dew_pressure_pa(evaporating_k), fluid.dew_pressure_pa(condensing_k));
    let at_suction = fluid.isobar(p1);
    let suction = at_suction.at_t_vapour(evaporating_k + superheat_k);
    let (mut motor_k, mut dome_k) = (air_k + 30.0, condensing_k + 20.0);
    let mut rating = CompressorRating {
        flow_kg_s: 0.0,
        power_w: 0.0,
        port_k: dome_k,
        discharge_k: dome_k,
        winding_k: motor_k,
    };
    let mut flow = data.rated_flow_kg_s;
    let dew_k = fluid.dew_k(p2);
    for _ in 0..400 {
        let gas = Stream {
            flow_kg_s: flow,
            temperature_k: suction.temperature_k,
            enthalpy_j_kg: suction.enthalpy_j_kg,
        };
        let to_gas_w = motor_to_gas_w(data, &at_suction, &gas, motor_k);
        let inlet = at_suction.at_h(suction.enthalpy_j_kg + to_gas_w / flow.max(1.0e-6));
        let inside = InternalLosses {
            worn_share: data.internal_leak,
            leak: fluid.at_pt_vapour(p2, dome_k.max(dew_k)),
            leak_dry: dries(dome_k, dew_k),
            bypass: bypass_share(data, p2 - p1),
            shell_k: motor_k,
        };
        let done = compress(data, fluid, &at_suction, &inlet, p2, 1.0, inside);
        let port = fluid.at_ph(p2, done.discharge_enthalpy_j_kg);
        let stream = Stream {
            flow_kg_s: done.flow_kg_s,
            temperature_k: port.temperature_k,
            enthalpy_j_kg: port.enthalpy_j_kg,
        };
        let to_dome_w = heat_to_body_w(&stream, dome_k, inside.leak.enthalpy_j_kg, data.gas_to_dome_w_k);
        // Relaxed towards their balances; the heat capacities do not matter for where they settle.
        let heats = ShellHeats::of(data, &done, [motor_k, dome_k, air_k], to_dome_w, to_gas_w);
        dome_k += heats.dome_w / 120.0;
        motor_k += heats.motor_w / 60.0;
        flow += 0.5 * (done.flow_kg_s - flow);
        let line_h = port.enthalpy_j_kg - to_dome_w / done.flow_kg_s.max(1.0e-6);
        rating = CompressorRating {
            flow_kg_s: done.flow_kg_s,
            power_w: done.power_w,
            port_k: port.temperature_k,
            discharge_k: fluid.at_ph(p2, line_h).temperature_k,
            winding_k: motor_k,
        };
    }
    rating
}

/// Heat from the motor to the gas that passes it on its way to the scrolls, W; `isobar` is at the pressure of the gas.
pub(crate) fn motor_to_gas_w(data: &Compressor, isobar: &Isobar<'_>, gas: &Stream, motor_k: f64) -> f64 {
    let flow_share = (gas.flow_kg_s / data.rated_flow_kg_s).max(0.0);
    // A film that grows with the root of the flow, over still gas (typ.).
    let conductance_w_k = data.motor_to_gas_w_k * flow_share.sqrt() + STILL_GAS_W_K;
    -heat_to_body_w(gas, motor_k, isobar.vapour_enthalpy_j_kg(motor_k), conductance_w_k)
}

/// Conductance between the motor and gas that stands still around it, W/K (typ. of natural convection in the shell).
pub(crate) const STILL_GAS_W_K: f64 = 2.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Flooded scrolls, no warmer than their discharge: what slips back through them is wet and takes no heat from metal that
    /// has none to give. (With vapour at the metal's temperature instead, scrolls fell below 200 K.)
    #[test]
    fn wet_gas_takes_no_heat_from_cold_scrolls() {
        let system = crate::System::built_in("split-3-ton-r410a-txv").expect("built in");
        let fluid = system.refrigerant.tables();
        let (suction_pa, discharge_pa) = (0.9e6, 2.0e6);
        let sat = fluid.saturation(suction_pa);
        let wet_h = sat.liquid_enthalpy_j_kg + 0.5 * (sat.vapour_enthalpy_j_kg - sat.liquid_enthalpy_j_kg);
        let dew_k = fluid.dew_k(discharge_pa);
        for below_k in [0.0, 20.0, 100.0] {
            let inside = InternalLosses {
                worn_share: 0.3,
                leak: fluid.at_pt_vapour(discharge_pa, dew_k),
                leak_dry: dries(dew_k - below_k, dew_k),
                bypass: 0.0,
                shell_k: 290.0,
            };
            let at_suction = fluid.isobar(suction_pa);
            let suction = at_suction.at_h(wet_h);
            let done = compress(&system.compressor, fluid, &at_suction, &suction, discharge_pa, 1.0, inside);
            assert!(done.left_in_scrolls_w >= 0.0, "{below_k} K: {done:?}");
            // Nor does it leave them any: it comes round as it was discharged, with the work of its passes before.
            assert!(done.left_in_scrolls_w < 0.01 * done.power_w, "{below_k} K: {done:?}");
        }
    }
}
