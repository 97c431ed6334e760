//! How the readout of a plant is made, and whether it stands still.

use media::moist_air;
use media::units::celsius_from_kelvin;

use crate::cabinet::{Blown, blown};
use crate::condenser::Condensing;
use crate::evaporator::{Evaporating, freezing_heat_w, wet_bulb_k};
use crate::event::BASE_STEP_S;
use crate::flows::line_enthalpy;
use crate::level::LevelState;
use crate::metering::Flow;
use crate::readout::Readout;
use crate::state::Plant;
use crate::tangent::{Bounds, OF_STEP};
use crate::tangents::{PLACE, stretch_by_quality};
use media::moist_air::STANDARD_PRESSURE_PA;

/// How far air, K and kg/kg, may be from where its wet bulb was worked out, and by how much that may be off, K.
const AIR: Bounds<2, 1> = Bounds { near: [0.0125, 5.0e-6], fine: [5.0e-5], of_step: OF_STEP };
/// A temperature read along the liquid line, K, by what stands beside a place.
const READ: Bounds<2, 1> = Bounds { near: PLACE.near, fine: [5.0e-5], of_step: OF_STEP };
const ICE_K: f64 = 273.15;
/// Wet bulbs this near to freezing are not followed, K: further than a plane reaches.
const CLEAR_OF_ICE_K: f64 = 0.3;

/// Results of a step that the readout is made of.
#[derive(Clone, Copy)]
pub(crate) struct Snapshot<'a> {
    pub high: &'a LevelState,
    pub low: &'a LevelState,
    pub flow: &'a Flow,
    pub condensing: &'a Condensing,
    pub evaporating: &'a Evaporating,
    pub opening: f64,
    pub discharge_k: f64,
    pub suction_pa: f64,
}

impl Plant {
    /// Readout of a plant that has just been made or changed by hand.
    pub(crate) fn refresh_readout(&mut self) {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let high = LevelState::of(fluid, &self.high, volumes.high_m3, BASE_STEP_S);
        let low = LevelState::of(fluid, &self.low, volumes.low_m3, BASE_STEP_S);
        let line_h = line_enthalpy(self, volumes.line_m3);
        let flow = Flow {
            flow_kg_s: 0.0,
            after_kink_pa: high.total_pa,
            after_drier_pa: high.total_pa,
            valve_inlet_pa: high.total_pa,
            line_density_kg_m3: self.line.mass_kg / volumes.line_m3,
        };
        let condensing = Condensing {
            outlet_enthalpy_j_kg: line_h,
            wall_k: self.condenser_wall_k,
            ..Condensing::default()
        };
        let evaporating = Evaporating {
            outlet_enthalpy_j_kg: low.fluid.enthalpy_j_kg,
            outlet_k: low.fluid.temperature_k,
            walls_k: self.coil_walls_k,
            coil_leaving_k: self.slow.room_k,
            coil_leaving_humidity_ratio: self.slow.humidity_ratio,
            cabinet_air_k: self.coil_wall_k(),
            frozen_share: if self.coil_wall_k() < 273.15 { 1.0 } else { 0.0 },
            ..Evaporating::default()
        };
        let suction_pa = low.total_pa;
        self.write_readout(&Snapshot {
            high: &high,
            low: &low,
            flow: &flow,
            condensing: &condensing,
            evaporating: &evaporating,
            opening: 0.0,
            discharge_k: self.slow.outdoor_k,
            suction_pa,
        });
    }

    /// Write the readout from the results of a step.
    pub(crate) fn write_readout(&mut self, now: &Snapshot<'_>) {
        let Snapshot { high, low, flow, condensing, evaporating: e, opening, discharge_k, suction_pa } = *now;
        let fluid = self.system.refrigerant.tables();
        let slow = self.slow;
        let (high_sat, low_sat) = (high.saturation_of_all(), low.saturation_of_all());
        let outlet_h = condensing.outlet_enthalpy_j_kg;
        let line_h = line_enthalpy(self, self.system.lines.liquid_volume_m3());
        let places = [
            [high.total_pa, outlet_h],
            [flow.after_kink_pa, outlet_h],
            [flow.after_drier_pa, outlet_h],
            [flow.valve_inlet_pa, line_h],
        ];
        let mut read_k = [0.0; 4];
        for (place, (at, tangent)) in places.into_iter().zip(&mut self.tangents.liquid).enumerate() {
            // Without a kink nothing lies between the first two.
            if place == 1 && at == places[0] {
                read_k[1] = read_k[0];
                continue;
            }
            [read_k[place]] = tangent.follow([], at, READ, |a| {
                let (temperature_k, quality) = fluid.isobar(a[0]).temperature_k_and_quality(a[1]);
                ([temperature_k], stretch_by_quality(quality))
            });
        }
        let [at_valve_k, before_k, after_k, indoor_k] = read_k;
        let dry_air = e.dry_air_kg_s;
        let Blown { supply_k, from_metal_w } = blown(self, e);
        let supply_w = if dry_air > 1.0e-2 { e.coil_leaving_humidity_ratio } else { slow.humidity_ratio };
        let low_liquid_kg = low.liquid_volume_m3 * low.sat.liquid_density_kg_m3;
        let volumes = self.system.volumes();
        let gas_density =
            (self.low.mass_kg - low_liquid_kg).max(0.0) / (volumes.low_m3 - low.liquid_volume_m3).max(1.0e-6);
        let suction_volume = self.system.lines.suction_volume_m3() + self.system.compressor.shell_volume_m3;
        let suction_kg = (gas_density * suction_volume).min(self.low.mass_kg);
        let airs = [[slow.return_k, slow.return_humidity_ratio], [supply_k, supply_w]];
        let [return_wet_bulb_k, supply_wet_bulb_k] = std::array::from_fn(|air| {
            let [wet_bulb] = self.tangents.wet_bulbs[air].follow([], airs[air], AIR, |a| {
                let wet_bulb = wet_bulb_k(a[0], a[1]);
                // Fog has its dry bulb, and a wick freezes, with a jump.
                let is_clear = (wet_bulb - ICE_K).abs() > CLEAR_OF_ICE_K;
                let stretch = u8::from(wet_bulb < a[0]) + 2 * u8::from(wet_bulb < ICE_K);
                ([wet_bulb], is_clear.then_some(stretch))
            });
            wet_bulb
        });
        let gross = e.sensible_w + e.latent_w - freezing_heat_w(e);
        let suction_dew_k = fluid.dew_k(suction_pa);
        let stopped = !self.compressor_runs();
        self.readout = Readout {
            suction_pressure_pa: suction_pa,
            liquid_pressure_pa: high.total_pa,
            evaporator_pressure_pa: low.total_pa,
            evaporating_k: low_sat.dew_k,
            condensing_k: high_sat.dew_k,
            superheat_k: self.last.suction_outdoor_k - suction_dew_k,
            subcooling_k: high_sat.bubble_k - at_valve_k,
            suction_line_indoor_k: if stopped { self.coil_wall_k() } else { e.outlet_k },
            suction_line_outdoor_k: self.last.suction_outdoor_k,
            liquid_service_valve_k: at_valve_k,
            liquid_before_drier_k: before_k,
            liquid_after_drier_k: after_k,
            liquid_indoor_k: indoor_k,
            discharge_k: if stopped { self.dome_k } else { discharge_k },
            bulb_k: self.bulb_k,
            metering_opening: opening,
            metering_flow_kg_s: flow.flow_kg_s,
            compressor_flow_kg_s: self.last.compressor_flow_kg_s,
            return_dry_bulb_k: slow.return_k,
            return_wet_bulb_k,
            supply_dry_bulb_k: supply_k,
            supply_wet_bulb_k: supply_wet_bulb_k.min(supply_k),
            cabinet_air_k: e.cabinet_air_k,
            airflow_m3_s: slow.airflow_m3_s,
            return_static_pa: slow.statics.return_pa,
            coil_inlet_static_pa: slow.statics.coil_inlet_pa,
            coil_outlet_static_pa: slow.statics.coil_outlet_pa,
            supply_static_pa: slow.statics.supply_pa,
            gross_cooling_w: gross,
            sensible_cooling_w: e.sensible_w,
            net_cooling_w: gross - slow.blower_power_w - from_metal_w,
            compressor_power_w: self.last.compressor_power_w,
            outdoor_fan_power_w: self.outdoor_fan_power_w(),
            blower_power_w: slow.blower_power_w,
            heat_to_outdoors_w: condensing.wall_to_air_w + condensing.heat_to_air_w,
            frost_mass_kg: self.frost.mass_kg,
            iced_share: self.frost.iced_share,
            open_share: self.frost.shape(&self.system.evaporator).open_share(),
            coil_water_kg: self.frost.water_kg,
            coil_stage: self.frost.stage(&self.system.evaporator, e.frozen_share),
            coil_surface_k: self.coil_wall_k(),
            outdoor_k: slow.outdoor_k,
            room_k: slow.room_k,
            room_relative_humidity: moist_air::relative_humidity(
                celsius_from_kelvin(slow.room_k),
                slow.humidity_ratio,
                STANDARD_PRESSURE_PA,
            ),
            winding_k: self.motor_k,
            dome_k: self.dome_k,
            charge_condenser_kg: self.high.mass_kg,
            charge_liquid_line_kg: self.line.mass_kg,
            charge_evaporator_kg: self.low.mass_kg - suction_kg,
            charge_suction_kg: suction_kg + self.sump_kg,
            charge_total_kg: self.circuit_kg(),
            blower_speed: self.control.blower_speed,
            compressor_speed: self.control.compressor_speed,
            outdoor_fan_speed: self.control.outdoor_fan_speed,
        };
    }
}

impl Plant {
    /// Whether the readings have stood still over the last minutes of a run. The means of six minutes in a row agree: each with
    /// the one before within 1 % of pressure, 0.5 K of line and superheat, 1 K of discharge and 0.3 K of supply
    /// temperature, the newest with the oldest within half of that and what the air around has moved; and ice, the part of the coil that it covers, and the
    /// refrigerant in the circuit neither grow nor shrink. A coil that goes on icing and a circuit that leaks are
    /// not steady, however slowly the gauges follow.
    pub fn is_steady(&self) -> bool {
        self.compressor_runs() && self.watch.agrees()
    }
}

/// Watches a second or more of the plant, see [`SteadyWatch::sample`](crate::watch::SteadyWatch::sample).
pub(crate) fn watch_step(plant: &mut Plant, seconds: f64) {
    if plant.compressor_runs() {
        let circuit_kg = plant.circuit_kg();
        plant.watch.sample(&plant.readout, circuit_kg, plant.system.plate_charge_kg, seconds);
    } else {
        plant.watch.rest();
    }
}
