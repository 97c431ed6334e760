//! Outdoor unit: compressor, condenser with its fan.

use super::difference::part;

part! {
    /// Hermetic scroll compressor, low-side shell.
    Compressor (CompressorDifference) {
        /// Displacement, m³ per revolution.
        displacement_m3: f64,
        /// Running speed, 1/s (two-pole motor with slip on 60 Hz).
        speed_1_s: f64,
        /// Area of the clearances between the chambers, as one nozzle from the discharge side to the intake, m².
        leak_area_m2: f64,
        /// Built-in volume ratio of the scroll set.
        volume_ratio: f64,
        /// Indicated efficiency: ideal work over work done on the gas (throttling in the ports; leakage stands apart).
        indicated_efficiency: f64,
        /// Friction and windage, W.
        friction_w: f64,
        /// Motor efficiency.
        motor_efficiency: f64,
        /// Share of the intake that leaks back inside on top of the clearances (worn tips or valves), 0 to 1.
        internal_leak: f64,
        /// Heat capacity of motor and shell, J/K.
        motor_capacity_j_k: f64,
        /// Heat transfer from motor to suction gas at rated flow, W/K.
        motor_to_gas_w_k: f64,
        /// Heat transfer from shell to outdoor air, W/K.
        shell_to_air_w_k: f64,
        /// Heat capacity of scrolls, muffler plate and dome, which the discharge gas passes, J/K.
        dome_capacity_j_k: f64,
        /// Heat transfer from discharge gas to them, W/K.
        gas_to_dome_w_k: f64,
        /// Heat transfer from them to the motor, W/K.
        dome_to_motor_w_k: f64,
        /// Heat transfer from the dome to outdoor air, W/K.
        dome_to_air_w_k: f64,
        /// Temperature of scrolls and dome at which the internal thermal disc opens, K.
        disc_opens_k: f64,
        /// Temperature at which it closes again, K.
        disc_closes_k: f64,
        /// Oil in the sump, kg.
        oil_kg: f64,
        /// Refrigerant that the sump can hold, dissolved and as liquid, before it reaches the scrolls, kg.
        sump_room_kg: f64,
        /// Free gas volume of the shell, m³.
        shell_volume_m3: f64,
        /// Winding temperature at which the internal overload opens, K.
        overload_opens_k: f64,
        /// Winding temperature at which it closes again, K.
        overload_closes_k: f64,
        /// Difference of discharge and suction pressure at which the internal relief begins to open, Pa.
        relief_opens_pa: f64,
        /// Rated refrigerant flow for scaling, kg/s.
        rated_flow_kg_s: f64,
    }
}

part! {
    /// Air-cooled condenser.
    Condenser (CondenserDifference) {
        /// Refrigerant volume of the coil, m³.
        volume_m3: f64,
        /// Volume of the discharge line, m³.
        discharge_line_volume_m3: f64,
        /// Air flow with a clean coil, m³/s.
        air_flow_m3_s: f64,
        /// Share of that flow left (fouling, recirculation), 0 to 1.
        air_flow_share: f64,
        /// Fan power, W.
        fan_power_w: f64,
        /// Overall conductance of the whole coil while it desuperheats, W/K.
        desuperheat_ua_w_k: f64,
        /// Conductance refrigerant to wall of the whole coil while it condenses, at rated flow, W/K.
        condensing_ua_w_k: f64,
        /// Conductance wall to air of the whole coil, W/K.
        air_ua_w_k: f64,
        /// Overall conductance of the whole coil while it subcools, W/K.
        subcool_ua_w_k: f64,
        /// Conductance to air with the fan off, W/K.
        still_air_ua_w_k: f64,
        /// Heat capacity of the metal, J/K.
        metal_capacity_j_k: f64,
    }
}
