//! The equipment as data: every parameter of the plant with its unit and where it comes from.
//!
//! Values marked "typ." are engineering values of our own for a 3-ton (10.5 kW) residential split system;
//! they are not those of one product.

use media::refrigerant::Refrigerant;
use serde::{Deserialize, Serialize};

/// A split system: refrigerant, parts, data plate.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct System {
    /// Name by which call files and the command line ask for it.
    pub name: String,
    /// Refrigerant.
    pub refrigerant: RefrigerantName,
    /// Charge on the data plate (line set included), kg.
    pub plate_charge_kg: f64,
    /// Target subcooling on the data plate at the liquid service valve, K.
    pub plate_subcooling_k: f64,
    /// Compressor.
    pub compressor: Compressor,
    /// Condenser with its fan.
    pub condenser: Condenser,
    /// Liquid line with drier, suction line.
    pub lines: Lines,
    /// Metering device.
    pub metering: Metering,
    /// Evaporator.
    pub evaporator: Evaporator,
    /// Blower, filter and ducts.
    pub air: AirSide,
    /// Pressure switches and thermostat.
    pub controls: Controls,
}

/// Refrigerants the program has tables for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RefrigerantName {
    /// R-410A.
    R410A,
}

impl RefrigerantName {
    /// Its property tables.
    pub fn tables(self) -> &'static Refrigerant {
        match self {
            RefrigerantName::R410A => Refrigerant::r410a(),
        }
    }

    /// As written on a data plate.
    pub fn label(self) -> &'static str {
        match self {
            RefrigerantName::R410A => "R-410A",
        }
    }
}

/// Hermetic scroll compressor, low-side shell.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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
    /// Rated refrigerant flow for scaling, kg/s.
    pub rated_flow_kg_s: f64,
}

/// Air-cooled condenser.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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

/// Liquid line with drier, suction line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lines {
    /// Volume of the liquid line with drier and service valve, m³.
    pub liquid_volume_m3: f64,
    /// Flow resistance of the drier, Pa·(kg/m³)/(kg/s)²: dp = K m²/rho.
    pub drier_resistance: f64,
    /// Flow resistance of the liquid line, same unit.
    pub liquid_resistance: f64,
    /// Flow resistance of the suction line, same unit.
    pub suction_resistance: f64,
    /// Volume of the suction line, m³.
    pub suction_volume_m3: f64,
    /// Conductance of the suction line to the air around it, W/K.
    pub suction_ua_w_k: f64,
    /// Conductance of the liquid line to the air around it, W/K.
    pub liquid_ua_w_k: f64,
}

/// Metering device.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Metering {
    /// Thermostatic expansion valve, externally equalised, bulb charged with the system's refrigerant.
    Txv {
        /// Flow area fully open (discharge coefficient included), m².
        area_m2: f64,
        /// Spring pressure: the bulb must exceed the evaporator by this before the valve opens, Pa.
        spring_pa: f64,
        /// Pressure difference for the full stroke, Pa.
        gradient_pa: f64,
        /// Smallest opening (bleed), 0 to 1.
        bleed: f64,
        /// Time constant of the bulb strapped to the line, s.
        bulb_time_s: f64,
        /// Largest pressure of the bulb charge (MOP), Pa.
        bulb_pressure_max_pa: f64,
    },
    /// Fixed orifice (piston).
    Orifice {
        /// Flow area (discharge coefficient included), m².
        area_m2: f64,
    },
}

/// Evaporator coil.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Evaporator {
    /// Refrigerant volume, m³.
    pub volume_m3: f64,
    /// Conductance refrigerant to wall, boiling, whole coil at rated flow, W/K.
    pub boiling_ua_w_k: f64,
    /// Conductance wall to air, dry, whole coil at rated airflow, W/K.
    pub air_ua_w_k: f64,
    /// Overall conductance air to superheating vapour, whole coil at rated flow, W/K.
    pub superheat_ua_w_k: f64,
    /// Heat capacity of the metal, J/K.
    pub metal_capacity_j_k: f64,
    /// Conductance to the air in the cabinet with the blower off, W/K.
    pub still_air_ua_w_k: f64,
    /// Fin surface, m².
    pub fin_area_m2: f64,
    /// Clear gap between fins, m.
    pub fin_gap_m: f64,
    /// Half spread of surface temperature over the coil as a share of the difference between wall and
    /// refrigerant.
    pub surface_spread: f64,
}

/// Blower, filter, ducts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AirSide {
    /// Rated airflow, m³/s.
    pub rated_flow_m3_s: f64,
    /// Blower static pressure at no flow, Pa.
    pub blower_shutoff_pa: f64,
    /// Blower airflow at no static pressure, m³/s.
    pub blower_free_m3_s: f64,
    /// Blower power at no flow, W.
    pub blower_power_shutoff_w: f64,
    /// Rise of blower power with airflow, W per m³/s.
    pub blower_power_slope_w_s_m3: f64,
    /// Pressure drop of the clean filter at rated airflow, Pa.
    pub filter_drop_pa: f64,
    /// Pressure drop of the wet coil at rated airflow, Pa.
    pub coil_drop_pa: f64,
    /// Pressure drop of return and supply ducts at rated airflow, Pa.
    pub duct_drop_pa: f64,
    /// Share of the duct drop on the return side.
    pub return_share: f64,
}

/// Protections and thermostat.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Controls {
    /// High-pressure switch opens at this absolute pressure, Pa.
    pub high_pressure_opens_pa: f64,
    /// High-pressure switch closes again below this absolute pressure, Pa.
    pub high_pressure_closes_pa: f64,
    /// Shortest pause between two compressor runs that the thermostat keeps, s.
    pub off_time_min_s: f64,
    /// Thermostat differential, K.
    pub differential_k: f64,
    /// Relief device opens at this absolute pressure, Pa.
    pub relief_pa: f64,
}

impl System {
    /// Names of the built-in systems.
    pub fn names() -> [&'static str; 2] {
        ["split-3-ton-r410a-txv", "split-3-ton-r410a-orifice"]
    }

    /// A built-in system by name; `None` if there is none of that name.
    pub fn built_in(name: &str) -> Option<System> {
        match name {
            "split-3-ton-r410a-txv" => Some(System::three_ton(
                name,
                Metering::Txv {
                    area_m2: 1.75e-6,
                    spring_pa: 100.0e3,
                    gradient_pa: 110.0e3,
                    bleed: 0.02,
                    bulb_time_s: 25.0,
                    bulb_pressure_max_pa: 1.60e6,
                },
            )),
            "split-3-ton-r410a-orifice" => {
                Some(System::three_ton(name, Metering::Orifice { area_m2: 1.72e-6 }))
            }
            _ => None,
        }
    }

    /// 3-ton R-410A system, 400 cfm a ton; all values typ.
    fn three_ton(name: &str, metering: Metering) -> System {
        System {
            name: name.to_owned(),
            refrigerant: RefrigerantName::R410A,
            plate_charge_kg: 3.45,
            plate_subcooling_k: 6.7,
            compressor: Compressor {
                displacement_m3: 32.0e-6,
                speed_1_s: 58.3,
                volumetric_efficiency_0: 0.985,
                volumetric_efficiency_slope: 0.015,
                volume_ratio: 2.6,
                indicated_efficiency: 0.86,
                friction_w: 90.0,
                motor_efficiency: 0.89,
                internal_leak: 0.0,
                motor_capacity_j_k: 9.0e3,
                motor_to_gas_w_k: 14.0,
                shell_to_air_w_k: 2.0,
                discharge_to_motor_w_k: 1.5,
                shell_volume_m3: 3.0e-3,
                overload_opens_k: 398.15,
                overload_closes_k: 343.15,
                rated_flow_kg_s: 0.064,
            },
            condenser: Condenser {
                volume_m3: 5.1e-3,
                discharge_line_volume_m3: 0.2e-3,
                air_flow_m3_s: 1.08,
                air_flow_share: 1.0,
                fan_power_w: 230.0,
                desuperheat_ua_w_k: 1000.0,
                condensing_ua_w_k: 5500.0,
                air_ua_w_k: 5000.0,
                subcool_ua_w_k: 2600.0,
                still_air_ua_w_k: 15.0,
                metal_capacity_j_k: 8.0e3,
            },
            lines: Lines {
                liquid_volume_m3: 1.0e-3,
                drier_resistance: 4.0e9,
                liquid_resistance: 8.0e9,
                suction_resistance: 1.4e8,
                suction_volume_m3: 2.4e-3,
                suction_ua_w_k: 4.0,
                liquid_ua_w_k: 2.5,
            },
            metering,
            evaporator: Evaporator {
                volume_m3: 3.2e-3,
                boiling_ua_w_k: 2300.0,
                air_ua_w_k: 1250.0,
                superheat_ua_w_k: 420.0,
                metal_capacity_j_k: 7.0e3,
                still_air_ua_w_k: 8.0,
                fin_area_m2: 22.0,
                fin_gap_m: 1.7e-3,
                surface_spread: 0.6,
            },
            air: AirSide {
                rated_flow_m3_s: 0.566,
                blower_shutoff_pa: 270.0,
                blower_free_m3_s: 0.80,
                blower_power_shutoff_w: 260.0,
                blower_power_slope_w_s_m3: 400.0,
                filter_drop_pa: 25.0,
                coil_drop_pa: 55.0,
                duct_drop_pa: 55.0,
                return_share: 0.4,
            },
            controls: Controls {
                high_pressure_opens_pa: 4.30e6,
                high_pressure_closes_pa: 3.30e6,
                off_time_min_s: 180.0,
                differential_k: 0.6,
                relief_pa: 4.70e6,
            },
        }
    }
}
