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
    /// Area of the clearances between the chambers, as one nozzle from the discharge side to the intake, m².
    pub leak_area_m2: f64,
    /// Built-in volume ratio of the scroll set.
    pub volume_ratio: f64,
    /// Indicated efficiency: ideal work over work done on the gas (throttling in the ports; leakage stands apart).
    pub indicated_efficiency: f64,
    /// Friction and windage, W.
    pub friction_w: f64,
    /// Motor efficiency.
    pub motor_efficiency: f64,
    /// Share of the intake that leaks back inside on top of the clearances (worn tips or valves), 0 to 1.
    pub internal_leak: f64,
    /// Heat capacity of motor and shell, J/K.
    pub motor_capacity_j_k: f64,
    /// Heat transfer from motor to suction gas at rated flow, W/K.
    pub motor_to_gas_w_k: f64,
    /// Heat transfer from shell to outdoor air, W/K.
    pub shell_to_air_w_k: f64,
    /// Heat capacity of scrolls, muffler plate and dome, which the discharge gas passes, J/K.
    pub dome_capacity_j_k: f64,
    /// Heat transfer from discharge gas to them, W/K.
    pub gas_to_dome_w_k: f64,
    /// Heat transfer from them to the motor, W/K.
    pub dome_to_motor_w_k: f64,
    /// Heat transfer from the dome to outdoor air, W/K.
    pub dome_to_air_w_k: f64,
    /// Temperature of scrolls and dome at which the internal thermal disc opens, K.
    pub disc_opens_k: f64,
    /// Temperature at which it closes again, K.
    pub disc_closes_k: f64,
    /// Oil in the sump, kg.
    pub oil_kg: f64,
    /// Refrigerant that the sump can hold, dissolved and as liquid, before it reaches the scrolls, kg.
    pub sump_room_kg: f64,
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
    /// Conductance refrigerant to wall of the whole coil while it condenses, at rated flow, W/K.
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
