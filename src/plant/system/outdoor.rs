//! Outdoor unit: compressor, condenser with its fan.

use serde::{Deserialize, Serialize};

/// Hermetic scroll compressor, low-side shell.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Compressor {
    /// Displacement, m³ per revolution.
    pub displacement_m3: f64,
    /// Running speed, 1/s (two-pole motor with slip on 60 Hz).
    pub speed_1_s: f64,
    /// Volumetric efficiency at pressure ratio 1.
    pub volumetric_efficiency_0: f64,
    /// Fall of volumetric efficiency per unit of pressure ratio.
    pub volumetric_efficiency_slope: f64,
    /// Built-in volume ratio of the scroll set.
    pub volume_ratio: f64,
    /// Indicated efficiency: ideal work over work done on the gas (leakage, throttling in the ports).
    pub indicated_efficiency: f64,
    /// Friction and windage, W.
    pub friction_w: f64,
    /// Motor efficiency.
    pub motor_efficiency: f64,
    /// Share of the delivered flow that leaks back inside the compressor (worn tips or valves), 0 to 1.
    pub internal_leak: f64,
    /// Heat capacity of motor and shell, J/K.
    pub motor_capacity_j_k: f64,
    /// Heat transfer from motor to suction gas at rated flow, W/K.
    pub motor_to_gas_w_k: f64,
    /// Heat transfer from shell to outdoor air, W/K.
    pub shell_to_air_w_k: f64,
    /// Heat transfer from discharge gas to the motor through the top of the shell, W/K.
    pub discharge_to_motor_w_k: f64,
    /// Free gas volume of the shell, m³.
    pub shell_volume_m3: f64,
    /// Winding temperature at which the internal overload opens, K.
    pub overload_opens_k: f64,
    /// Winding temperature at which it closes again, K.
    pub overload_closes_k: f64,
    /// Difference of discharge and suction pressure at which the internal relief begins to open, Pa.
    pub relief_opens_pa: f64,
    /// Rated refrigerant flow for scaling, kg/s.
    pub rated_flow_kg_s: f64,
}

/// Air-cooled condenser.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Condenser {
    /// Refrigerant volume of the coil, m³.
    pub volume_m3: f64,
    /// Volume of the discharge line, m³.
    pub discharge_line_volume_m3: f64,
    /// Air flow with a clean coil, m³/s.
    pub air_flow_m3_s: f64,
    /// Share of that flow left (fouling, recirculation), 0 to 1.
    pub air_flow_share: f64,
    /// Fan power, W.
    pub fan_power_w: f64,
    /// Overall conductance of the whole coil while it desuperheats, W/K.
    pub desuperheat_ua_w_k: f64,
    /// Conductance refrigerant to wall of the whole coil while it condenses, W/K.
    pub condensing_ua_w_k: f64,
    /// Conductance wall to air of the whole coil, W/K.
    pub air_ua_w_k: f64,
    /// Overall conductance of the whole coil while it subcools, W/K.
    pub subcool_ua_w_k: f64,
    /// Conductance to air with the fan off, W/K.
    pub still_air_ua_w_k: f64,
    /// Heat capacity of the metal, J/K.
    pub metal_capacity_j_k: f64,
}
