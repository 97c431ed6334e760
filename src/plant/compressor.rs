//! Scroll compressor: fixed displacement, built-in volume ratio, motor cooled by suction gas.

use media::refrigerant::{Fluid, Refrigerant};

use crate::system::Compressor;

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
}

impl Compression {
    /// Heat from the discharge gas to the shell, W. The shell is one body for the gas that passes it, so that the gas comes
    /// the nearer to the metal the less of it there is (effectiveness of an exchanger with one side at one temperature, any
    /// heat transfer text): at a trickle no adiabatic temperature is reached.
    pub(crate) fn discharge_to_shell_w(
        &self,
        data: &Compressor,
        fluid: &Refrigerant,
        discharge_pressure_pa: f64,
        shell_k: f64,
    ) -> f64 {
        if self.flow_kg_s <= 0.0 {
            return 0.0;
        }
        let port = fluid.at_ph(discharge_pressure_pa, self.discharge_enthalpy_j_kg);
        let at_shell = fluid.at_pt_vapour(discharge_pressure_pa, shell_k);
        let (span_k, span_j_kg) =
            (port.temperature_k - at_shell.temperature_k, port.enthalpy_j_kg - at_shell.enthalpy_j_kg);
        if span_j_kg.abs() < 1.0 || span_k * span_j_kg <= 0.0 {
            return 0.0;
        }
        let capacity_w_k = self.flow_kg_s * span_j_kg / span_k;
        self.flow_kg_s * span_j_kg * (1.0 - libm::exp(-data.discharge_to_motor_w_k / capacity_w_k))
    }
}

/// Difference of pressure from the first opening of the internal relief to the widest, Pa (typ.).
const RELIEF_SPAN_PA: f64 = 0.5e6;
/// Share of the gas that it lets back to the motor when wide open (typ.).
const RELIEF_SHARE: f64 = 0.6;

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

/// How the scrolls leak inside.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Inside {
    /// Share that slips back through tips and flanks, as hot as it was compressed, and its enthalpy, J/kg.
    pub leak: f64,
    pub leak_enthalpy_j_kg: f64,
    /// Share that the internal relief lets out over the motor, which comes round at the shell's temperature, K.
    pub bypass: f64,
    pub shell_k: f64,
}

/// Share of the gas that the internal relief lets back over the motor, which it heats until the overload opens: common
/// practice of such compressors, settings from memory.
pub(crate) fn bypass_share(data: &Compressor, difference_pa: f64) -> f64 {
    RELIEF_SHARE * ((difference_pa - data.relief_opens_pa) / RELIEF_SPAN_PA).clamp(0.0, 1.0)
}

/// Compression of gas at `suction` (scroll inlet) to `discharge_pressure_pa` at a share of running speed,
/// with what goes back `inside`.
///
/// Work per kg by the built-in volume ratio: isentropic to the inner volume, then at constant volume against
/// the discharge pressure, w = [h_s(p_i) - h_1] + (p_d - p_i) v_1/V_r (textbook form, e.g. Winandy et al.
/// 2002; from memory). Over- and under-compression follow by themselves.
pub(crate) fn compress(
    data: &Compressor,
    fluid: &Refrigerant,
    suction: &Fluid,
    discharge_pressure_pa: f64,
    speed: f64,
    inside: Inside,
) -> Compression {
    if speed <= 0.0 || suction.density_kg_m3 <= 0.0 {
        return Compression { discharge_enthalpy_j_kg: suction.enthalpy_j_kg, ..Compression::default() };
    }
    let p1 = suction.pressure_pa;
    let ratio = (discharge_pressure_pa / p1).max(1.0);
    let efficiency =
        (data.volumetric_efficiency_0 - data.volumetric_efficiency_slope * (ratio - 1.0)).max(0.05);
    let leak = inside.leak.clamp(0.0, 0.9);
    let bypass = inside.bypass.min(0.9 - leak).max(0.0);
    let inlet = if leak + bypass > 0.0 {
        let fresh = suction.enthalpy_j_kg;
        let at_shell =
            if bypass > 0.0 { fluid.at_pt_vapour(p1, inside.shell_k).enthalpy_j_kg } else { fresh };
        let mixed = (1.0 - leak - bypass) * fresh
            + leak * inside.leak_enthalpy_j_kg.max(fresh)
            + bypass * at_shell.max(fresh);
        fluid.at_ph(p1, mixed)
    } else {
        *suction
    };
    let pumped = data.displacement_m3 * data.speed_1_s * speed * efficiency * inlet.density_kg_m3;
    let v1 = 1.0 / inlet.density_kg_m3;
    let inner_volume = v1 / data.volume_ratio;
    // Isentropic exponent between suction and about the inner pressure, from the tables.
    let probe = fluid.at_ps_vapour((p1 * 2.8).min(4.8e6), inlet.entropy_j_kg_k);
    let span = libm::log(v1 * probe.density_kg_m3);
    let exponent = if span > 1.0e-6 { libm::log(probe.pressure_pa / p1) / span } else { 1.1 };
    let inner_pressure = (p1 * libm::pow(data.volume_ratio, exponent.clamp(0.9, 1.6))).min(4.8e6);
    let inner = fluid.at_ps_vapour(inner_pressure, inlet.entropy_j_kg_k);
    let work =
        (inner.enthalpy_j_kg - inlet.enthalpy_j_kg) + (discharge_pressure_pa - inner_pressure) * inner_volume;
    // Never less than a third of the isentropic step to the inner volume: a scroll with little head still compresses.
    let work =
        work.max(0.33 * (inner.enthalpy_j_kg - inlet.enthalpy_j_kg)).max(0.0) / data.indicated_efficiency;
    let gas_power = pumped * work;
    let power = (gas_power + data.friction_w * speed) / data.motor_efficiency;
    Compression {
        flow_kg_s: pumped * (1.0 - leak - bypass),
        discharge_enthalpy_j_kg: inlet.enthalpy_j_kg + work,
        power_w: power,
        motor_heat_w: power - gas_power,
    }
}
