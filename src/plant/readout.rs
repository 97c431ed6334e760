//! The true values of the plant at one instant: what instruments sample and drawings show.

use serde::{Deserialize, Serialize};

use crate::frost::CoilStage;

/// True values at the end of the last step. Pressures are absolute; temperatures in K.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Readout {
    /// Pressure at the suction service port, behind the line and a kink in it, Pa.
    pub suction_pressure_pa: f64,
    /// Pressure at the liquid service port (condenser outlet, before kink and drier), Pa.
    pub liquid_pressure_pa: f64,
    /// Pressure in the evaporator, Pa.
    pub evaporator_pressure_pa: f64,
    /// Saturation (dew) temperature in the evaporator, K.
    pub evaporating_k: f64,
    /// Saturation (dew) temperature in the condenser, K.
    pub condensing_k: f64,
    /// Superheat at the outdoor suction service valve, against the dew point at the suction port, K.
    pub superheat_k: f64,
    /// Subcooling at the liquid service valve, against the bubble point at the liquid port, K.
    pub subcooling_k: f64,
    /// Suction line beside the sensing bulb (evaporator outlet), K.
    pub suction_line_indoor_k: f64,
    /// Suction line at the outdoor service valve, K.
    pub suction_line_outdoor_k: f64,
    /// Liquid line at the outdoor service valve, before anything can be in its way, K.
    pub liquid_service_valve_k: f64,
    /// Liquid line at the inlet of the drier, behind a kink if there is one, K.
    pub liquid_before_drier_k: f64,
    /// Liquid line after the drier, K.
    pub liquid_after_drier_k: f64,
    /// Liquid line at the metering device, K.
    pub liquid_indoor_k: f64,
    /// Compressor discharge line, K.
    pub discharge_k: f64,
    /// Sensing bulb, K.
    pub bulb_k: f64,
    /// Opening of the metering device, 0 to 1 of its full area.
    pub metering_opening: f64,
    /// Refrigerant flow through the metering device, kg/s.
    pub metering_flow_kg_s: f64,
    /// Refrigerant flow through the compressor, kg/s.
    pub compressor_flow_kg_s: f64,
    /// Return air dry bulb, K.
    pub return_dry_bulb_k: f64,
    /// Return air wet bulb, K.
    pub return_wet_bulb_k: f64,
    /// Supply air dry bulb, K.
    pub supply_dry_bulb_k: f64,
    /// Supply air wet bulb, K.
    pub supply_wet_bulb_k: f64,
    /// Air leaving the wetted part of the coil, inside the cabinet, K.
    pub cabinet_air_k: f64,
    /// Indoor airflow, m³/s.
    pub airflow_m3_s: f64,
    /// Static pressure in the return plenum, before the filter, against the room, negative, Pa.
    pub return_static_pa: f64,
    /// Static pressure behind the filter and before the coil against the room, negative, Pa. The air handler draws
    /// through: filter, coil, blower.
    pub coil_inlet_static_pa: f64,
    /// Static pressure behind the coil, at the inlet of the blower, against the room, negative, Pa.
    pub coil_outlet_static_pa: f64,
    /// Static pressure in the supply, behind the blower, against the room, Pa.
    pub supply_static_pa: f64,
    /// Gross cooling of the air by the coil (sensible and latent, fan heat not taken off), W.
    pub gross_cooling_w: f64,
    /// Gross sensible cooling of the air by the coil, W.
    pub sensible_cooling_w: f64,
    /// Net cooling of the house's air (gross less the heat of blower and air handler's metal), W.
    pub net_cooling_w: f64,
    /// Electric power of the compressor, W.
    pub compressor_power_w: f64,
    /// Electric power of the outdoor fan, W.
    pub outdoor_fan_power_w: f64,
    /// Electric power of the blower, W.
    pub blower_power_w: f64,
    /// Heat to the outdoor air from condenser and shell, W.
    pub heat_to_outdoors_w: f64,
    /// Ice on the indoor coil, kg.
    pub frost_mass_kg: f64,
    /// Share of the coil that carries ice, 0 to 1.
    pub iced_share: f64,
    /// Share of the air passages between the fins still open, 0 to 1.
    pub open_share: f64,
    /// Water on the fins of the indoor coil, kg.
    pub coil_water_kg: f64,
    /// What an eye sees on the indoor coil.
    pub coil_stage: CoilStage,
    /// Mean coil surface, K.
    pub coil_surface_k: f64,
    /// Outdoor air, K.
    pub outdoor_k: f64,
    /// Room air, K.
    pub room_k: f64,
    /// Room relative humidity, 0 to 1.
    pub room_relative_humidity: f64,
    /// Motor winding of the compressor, K.
    pub winding_k: f64,
    /// Scrolls and dome of the compressor: what a thermometer on the top of the shell shows, K.
    pub dome_k: f64,
    /// Refrigerant in condenser and discharge line, kg.
    pub charge_condenser_kg: f64,
    /// Refrigerant in the liquid line, kg.
    pub charge_liquid_line_kg: f64,
    /// Refrigerant in the evaporator, kg.
    pub charge_evaporator_kg: f64,
    /// Refrigerant in suction line and compressor shell, its sump included, kg.
    pub charge_suction_kg: f64,
    /// All refrigerant in the circuit, kg.
    pub charge_total_kg: f64,
    /// Speed of the blower wheel, 0 to 1 of its running speed.
    pub blower_speed: f64,
    /// Compressor speed, 0 to 1 of its running speed.
    pub compressor_speed: f64,
    /// Outdoor fan speed, 0 to 1 of its running speed.
    pub outdoor_fan_speed: f64,
}

impl Readout {
    /// Drop of static pressure over the filter, Pa.
    #[must_use]
    pub fn filter_drop_pa(&self) -> f64 {
        self.return_static_pa - self.coil_inlet_static_pa
    }

    /// Drop of static pressure over the coil with whatever lies on its face, Pa.
    #[must_use]
    pub fn coil_drop_pa(&self) -> f64 {
        self.coil_inlet_static_pa - self.coil_outlet_static_pa
    }

    /// Total external static pressure, Pa: what the blower overcomes outside the air handler as it was rated, from the
    /// inlet of its cabinet to its outlet. The coil is inside and does not count; the filter in its slot before the
    /// cabinet does, with the ducts (as ACCA Manual D and the tests of AHRI 210/240 have it; from memory).
    #[must_use]
    pub fn external_static_pa(&self) -> f64 {
        self.supply_static_pa - self.coil_inlet_static_pa
    }
}
