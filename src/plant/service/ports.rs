//! Flows at the service ports: cylinders, recovery machine, vacuum pump, nitrogen, open hoses.

use core::cell::Cell;

use media::refrigerant::Refrigerant;

use super::Cylinder;
use crate::contents::Level;
use crate::flows::Joining;
use crate::leak::{Mixture, escape_kg_s};
use crate::level::{AIR_GAS_CONSTANT, LevelState, SEALED_M3, available_kg};
use crate::limit::Bound;
use crate::state::Plant;
use crate::{CylinderPhase, Inputs, PortConnection};
use media::moist_air::STANDARD_PRESSURE_PA;

/// Effective flow area of a charging hose with its valve core, m² (typ.: about 20 g/s of liquid).
const HOSE_AREA_M2: f64 = 6.0e-7;
/// Swept volume of a small recovery machine, m³/s (typ.).
const RECOVERY_M3_S: f64 = 1.0e-4;
/// Largest flow of a recovery machine at one port on liquid, kg/s (typ., about a quarter of a kilogram a minute).
const RECOVERY_MAX_KG_S: f64 = 0.004;
/// How much warmer than the outdoor air the recovery machine's condenser delivers, K (typ.).
const RECOVERED_OVER_OUTDOOR_K: f64 = 10.0;
/// How far the cylinder must stand above saturation at that temperature for the machine to deliver nothing but liquid, Pa: what
/// drives its condenser (typ.).
const RECOVERED_SPAN_PA: f64 = 5.0e4;
/// Clearance of the recovery machine's pistons over their swept volume (typ. of small machines 0.02 to 0.04), and exponent
/// of what expands out of it (R-410A and its like near 1.1).
const CLEARANCE: f64 = 0.025;
const CLEARANCE_EXPONENT: f64 = 1.1;
/// Pressure over its setting at which the recovery machine slows down, as a share of the setting, and at most and at least,
/// Pa (typ. of a low-pressure switch with a careful hand at it).
const STOPPING_SHARE: f64 = 0.2;
const STOPPING_MAX_PA: f64 = 2.0e4;
const STOPPING_MIN_PA: f64 = 1.0;
/// Largest share of a level, and of the charging cylinder, that one step takes through a port (numerical).
const MOST_OF_LEVEL: f64 = 0.1;
const MOST_OF_CYLINDER: f64 = 0.05;
/// Pressure, Pa, volume, m³, and mass, kg, that keep quotients finite where nothing is left (numerical).
const TRACE_PA: f64 = 1.0e-3;
const TRACE_M3: f64 = 1.0e-4;
const TRACE_KG: f64 = 1.0e-12;
/// Pumping speed at the port through hose and core, m³/s (typ.; the pump itself is ten times faster).
const VACUUM_M3_S: f64 = 6.0e-5;
/// Ultimate pressure of the vacuum pump, Pa (about 20 micron).
const VACUUM_ULTIMATE_PA: f64 = 2.7;
/// Pressure over which a regulator and a manifold valve close, Pa (numerical).
const CLOSING_PA: f64 = 2.0e3;
/// Largest share of its inlet pressure that drives gas through a hose: beyond it the flow is choked (ideal gas, exponent
/// 1.4).
const CHOKED_SHARE: f64 = 0.47;

/// Flow into a level at a port, positive into the circuit.
#[derive(Clone, Copy, Debug, Default)]
struct PortFlow {
    refrigerant_kg_s: f64,
    enthalpy_j_kg: f64,
    /// Gas that does not condense: air, nitrogen.
    gas_kg_s: f64,
    steam_kg_s: f64,
    /// Enthalpy of what the recovery machine delivers, J/kg.
    delivered_j_kg: f64,
    other_end: OtherEnd,
}

/// What a hose leads to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum OtherEnd {
    /// A source that no account is kept of: the ideal cylinder of a held temperature.
    #[default]
    HeldCylinder,
    ChargingCylinder,
    RecoveryCylinder,
    Air,
}

/// Whether nothing goes in or out at a port.
pub(crate) fn is_shut(port: PortConnection) -> bool {
    matches!(port, PortConnection::Capped | PortConnection::Gauge)
}

/// Flows at both service ports.
#[derive(Default)]
pub(crate) struct PortFlows {
    /// At suction and liquid port; none where both are shut.
    flows: Option<[PortFlow; 2]>,
    supply: Option<LevelState>,
    recovery: Option<LevelState>,
    /// How often one of them was held back by what one step may move.
    held: u32,
}

impl PortFlows {
    pub(crate) fn of(plant: &Plant, inputs: &Inputs, high: &LevelState, low: &LevelState, dt_s: f64) -> Self {
        if is_shut(inputs.suction_port) && is_shut(inputs.liquid_port) {
            return PortFlows::default();
        }
        let fluid = plant.system.refrigerant.tables();
        let volumes = plant.system.volumes();
        // The liquid port draws what stands at the condenser outlet.
        let (liquid_density, liquid_h) = if high.liquid_volume_m3 > SEALED_M3 {
            (high.sat.liquid_density_kg_m3, high.sat.liquid_enthalpy_j_kg)
        } else {
            (high.fluid.density_kg_m3, high.fluid.enthalpy_j_kg)
        };
        let is_connected =
            |wanted: fn(PortConnection) -> bool| wanted(inputs.suction_port) || wanted(inputs.liquid_port);
        let state = |cylinder: &Option<Cylinder>| cylinder.as_ref().map(|one| one.state(fluid, dt_s));
        let draws = |port| matches!(port, PortConnection::ChargingCylinder { .. });
        let recovers =
            |port| matches!(port, PortConnection::RecoveryMachine | PortConnection::RecoveryMachineTo { .. });
        let supply = if is_connected(draws) { state(&plant.service.supply) } else { None };
        let recovery = if is_connected(recovers) { state(&plant.service.recovery) } else { None };
        let around = Boundary {
            fluid,
            plant,
            supply: supply.as_ref(),
            recovery: recovery.as_ref(),
            held: Cell::new(0),
            dt_s,
        };
        let suction = AtPort {
            level: low,
            density_kg_m3: low.vapour_density_kg_m3(),
            enthalpy_j_kg: low.vapour_enthalpy_j_kg(),
            available_kg: available_kg(plant.low.mass_kg, volumes.low_m3),
            stored: plant.low,
            volume_m3: volumes.low_m3,
        };
        let liquid = AtPort {
            level: high,
            density_kg_m3: liquid_density,
            enthalpy_j_kg: liquid_h,
            available_kg: available_kg(plant.high.mass_kg, volumes.high_m3),
            stored: plant.high,
            volume_m3: volumes.high_m3,
        };
        let suction = around.port(inputs.suction_port, &suction);
        let liquid = around.port(inputs.liquid_port, &liquid);
        let held = around.held.get();
        PortFlows { flows: Some([suction, liquid]), supply, recovery, held }
    }

    /// What comes in at the suction port.
    pub(crate) fn joining(&self) -> Joining {
        let Some([suction, _]) = self.flows else { return Joining::default() };
        Joining { flow_kg_s: suction.refrigerant_kg_s.max(0.0), enthalpy_j_kg: suction.enthalpy_j_kg }
    }

    /// Book the flows on levels, cylinders and ledger.
    pub(crate) fn book(&self, plant: &mut Plant, dt_s: f64) {
        let Some([suction, liquid]) = self.flows else { return };
        plant.limiter.has_acted(Bound::ServicePort, self.held);
        let outdoor_k = plant.slow.outdoor_k;
        for (flow, high_side) in [(suction, false), (liquid, true)] {
            let mass = flow.refrigerant_kg_s * dt_s;
            let level = if high_side { &mut plant.high } else { &mut plant.low };
            level.mass_kg += mass;
            level.energy_j += mass * flow.enthalpy_j_kg;
            plant.energy.with_refrigerant_j += mass * flow.enthalpy_j_kg;
            let gas = (flow.gas_kg_s * dt_s).max(-level.air_kg);
            let steam = (flow.steam_kg_s * dt_s).max(-level.steam_kg);
            level.air_kg += gas;
            level.steam_kg += steam;
            plant.service.gas.in_kg += gas.max(0.0);
            plant.service.gas.out_kg -= gas.min(0.0);
            plant.service.water.in_kg += steam.max(0.0);
            plant.service.water.out_kg -= steam.min(0.0);
            if mass > 0.0 {
                plant.ledger.added_kg += mass;
            } else if flow.other_end == OtherEnd::RecoveryCylinder {
                plant.ledger.recovered_kg -= mass;
            } else {
                plant.ledger.vented_kg -= mass;
            }
            match flow.other_end {
                OtherEnd::ChargingCylinder => {
                    if let Some(cylinder) = &mut plant.service.supply {
                        cylinder.take(mass, flow.enthalpy_j_kg);
                    }
                }
                OtherEnd::RecoveryCylinder => {
                    if let Some(cylinder) = &mut plant.service.recovery {
                        cylinder.take(mass, flow.delivered_j_kg);
                        cylinder.contents.air_kg -= gas;
                    }
                }
                OtherEnd::HeldCylinder | OtherEnd::Air => {}
            }
        }
        if let (Some(cylinder), Some(state)) = (&mut plant.service.supply, &self.supply) {
            cylinder.warm(state, outdoor_k, dt_s);
        }
        if let (Some(cylinder), Some(state)) = (&mut plant.service.recovery, &self.recovery) {
            cylinder.warm(state, outdoor_k, dt_s);
        }
    }
}

/// Lets cylinders that are not in use come to the temperature of the air.
pub(crate) fn warm_cylinders(plant: &mut Plant, inputs: &Inputs, dt_s: f64) {
    let fluid = plant.system.refrigerant.tables();
    let outdoor_k = plant.slow.outdoor_k;
    let in_use =
        |wanted: fn(PortConnection) -> bool| wanted(inputs.suction_port) || wanted(inputs.liquid_port);
    let draws = in_use(|port| matches!(port, PortConnection::ChargingCylinder { .. }));
    let recovers = in_use(|port| {
        matches!(port, PortConnection::RecoveryMachine | PortConnection::RecoveryMachineTo { .. })
    });
    for (cylinder, is_used) in [(&mut plant.service.supply, draws), (&mut plant.service.recovery, recovers)] {
        if let Some(cylinder) = cylinder
            && !is_used
        {
            let state = cylinder.state(fluid, dt_s);
            cylinder.warm(&state, outdoor_k, dt_s);
        }
    }
}

/// What both ports have in common.
struct Boundary<'a> {
    fluid: &'static Refrigerant,
    plant: &'a Plant,
    supply: Option<&'a LevelState>,
    recovery: Option<&'a LevelState>,
    /// How often a flow was held back by what one step may move.
    held: Cell<u32>,
    dt_s: f64,
}

/// What stands at a port.
struct AtPort<'a> {
    level: &'a LevelState,
    density_kg_m3: f64,
    enthalpy_j_kg: f64,
    available_kg: f64,
    stored: Level,
    volume_m3: f64,
}

/// Share of its swept volume that a piston machine takes in: what stays in the clearance at the discharge pressure expands
/// first (any text on compressors).
fn filled_share(suction_pa: f64, discharge_pa: f64) -> f64 {
    let ratio = (discharge_pa / suction_pa.max(TRACE_PA)).max(1.0);
    (1.0 - CLEARANCE * (libm::pow(ratio, 1.0 / CLEARANCE_EXPONENT) - 1.0)).max(0.0)
}

/// Flow of a fluid through a hose that its valve closes as the pressures meet, kg/s.
fn through_hose(opening: f64, density_kg_m3: f64, driving_pa: f64) -> f64 {
    opening.clamp(0.0, 1.0) * HOSE_AREA_M2 * libm::sqrt(2.0 * density_kg_m3) * driving_pa
        / libm::sqrt(driving_pa + CLOSING_PA)
}

impl Boundary<'_> {
    /// A flow, kg/s, that takes so much in the step at most, kg.
    fn at_most(&self, flow_kg_s: f64, most_kg: f64) -> f64 {
        let most_kg_s = most_kg / self.dt_s;
        if flow_kg_s > most_kg_s {
            self.held.set(self.held.get() + 1);
        }
        flow_kg_s.min(most_kg_s)
    }

    fn port(&self, connection: PortConnection, at: &AtPort<'_>) -> PortFlow {
        match connection {
            PortConnection::Capped | PortConnection::Gauge => PortFlow::default(),
            PortConnection::Cylinder { phase, temperature_k, opening } => {
                let pressure = self.fluid.bubble_pressure_pa(temperature_k);
                let sat = self.fluid.saturation(pressure);
                let (density, enthalpy_j_kg) = match phase {
                    CylinderPhase::Vapour => (sat.vapour_density_kg_m3, sat.vapour_enthalpy_j_kg),
                    CylinderPhase::Liquid => (sat.liquid_density_kg_m3, sat.liquid_enthalpy_j_kg),
                };
                // A person closes the valve before the system pushes back into the cylinder.
                let dp = (pressure - at.level.total_pa).max(0.0);
                PortFlow {
                    refrigerant_kg_s: through_hose(opening, density, dp),
                    enthalpy_j_kg,
                    ..PortFlow::default()
                }
            }
            PortConnection::ChargingCylinder { phase, opening } => self.charging(phase, opening, at),
            PortConnection::RecoveryMachine => self.recovering(STANDARD_PRESSURE_PA, at),
            PortConnection::RecoveryMachineTo { pressure_pa } => self.recovering(pressure_pa, at),
            PortConnection::VacuumPump => self.pumped(at),
            PortConnection::Nitrogen { regulated_pa, opening } => {
                let dp = (regulated_pa - at.level.total_pa).clamp(0.0, CHOKED_SHARE * regulated_pa.max(0.0));
                let density = regulated_pa.max(0.0) / (AIR_GAS_CONSTANT * self.plant.slow.outdoor_k);
                PortFlow { gas_kg_s: through_hose(opening, density, dp), ..PortFlow::default() }
            }
            PortConnection::OpenHose { opening } => self.open_hose(opening, at),
        }
    }

    fn charging(&self, phase: CylinderPhase, opening: f64, at: &AtPort<'_>) -> PortFlow {
        let (Some(state), Some(cylinder)) = (self.supply, &self.plant.service.supply) else {
            return PortFlow::default();
        };
        let (density, enthalpy_j_kg) = Cylinder::drawn(state, phase);
        let dp = (state.total_pa - at.level.total_pa).max(0.0);
        let most_kg = MOST_OF_CYLINDER * cylinder.available_kg();
        PortFlow {
            refrigerant_kg_s: self.at_most(through_hose(opening, density, dp), most_kg),
            enthalpy_j_kg,
            other_end: OtherEnd::ChargingCylinder,
            ..PortFlow::default()
        }
    }

    fn recovering(&self, down_to_pa: f64, at: &AtPort<'_>) -> PortFlow {
        let (Some(state), Some(cylinder)) = (self.recovery, &self.plant.service.recovery) else {
            return PortFlow::default();
        };
        if cylinder.is_at_limit(state) {
            return PortFlow { other_end: OtherEnd::RecoveryCylinder, ..PortFlow::default() };
        }
        let width_pa = (STOPPING_SHARE * down_to_pa).clamp(STOPPING_MIN_PA, STOPPING_MAX_PA);
        let above = ((at.level.total_pa - down_to_pa) / width_pa).clamp(0.0, 1.0);
        let filled = filled_share(at.level.total_pa, state.total_pa);
        let flow = (RECOVERY_M3_S * at.density_kg_m3).min(RECOVERY_MAX_KG_S) * above * filled;
        let flow = self.at_most(flow, MOST_OF_LEVEL * at.available_kg);
        let gas_share = at.stored.air_kg / (at.stored.air_kg + at.stored.mass_kg).max(TRACE_KG);
        PortFlow {
            refrigerant_kg_s: -flow,
            enthalpy_j_kg: at.enthalpy_j_kg,
            gas_kg_s: -self.at_most(flow * gas_share, MOST_OF_LEVEL * at.stored.air_kg),
            steam_kg_s: 0.0,
            delivered_j_kg: self.delivered_j_kg(state),
            other_end: OtherEnd::RecoveryCylinder,
        }
    }

    /// Enthalpy of what the recovery machine delivers into a cylinder, J/kg. Its condenser cannot make liquid below the
    /// saturation pressure of its own temperature: into a cylinder that stands lower it sends gas, which warms the cylinder
    /// and lifts its pressure until there is liquid.
    fn delivered_j_kg(&self, cylinder: &LevelState) -> f64 {
        let at_k = self.plant.slow.outdoor_k + RECOVERED_OVER_OUTDOOR_K;
        let (bubble_pa, dew_pa) = (self.fluid.bubble_pressure_pa(at_k), self.fluid.dew_pressure_pa(at_k));
        let pressure_pa = cylinder.fluid.pressure_pa;
        let liquid_share = ((pressure_pa - bubble_pa) / RECOVERED_SPAN_PA).clamp(0.0, 1.0);
        let liquid_h = self.fluid.saturation(bubble_pa).liquid_enthalpy_j_kg;
        let gas_h = self.fluid.at_pt_vapour(pressure_pa.min(dew_pa), at_k).enthalpy_j_kg;
        gas_h + liquid_share * (liquid_h - gas_h)
    }

    fn pumped(&self, at: &AtPort<'_>) -> PortFlow {
        let pull = (1.0 - VACUUM_ULTIMATE_PA / at.level.total_pa.max(TRACE_PA)).max(0.0);
        let flow = self.at_most(VACUUM_M3_S * at.density_kg_m3 * pull, MOST_OF_LEVEL * at.available_kg);
        let gas_volume = at.stored.air_kg * AIR_GAS_CONSTANT * at.level.fluid.temperature_k
            / at.level.air_pa.max(TRACE_PA);
        let air = if gas_volume > 0.0 {
            let wanted = VACUUM_M3_S * pull * at.stored.air_kg / gas_volume.max(TRACE_M3);
            self.at_most(wanted, MOST_OF_LEVEL * at.stored.air_kg)
        } else {
            0.0
        };
        let steam = self.at_most(
            VACUUM_M3_S * pull * at.stored.steam_kg / at.volume_m3,
            MOST_OF_LEVEL * at.stored.steam_kg,
        );
        PortFlow {
            refrigerant_kg_s: -flow,
            enthalpy_j_kg: at.enthalpy_j_kg,
            gas_kg_s: -air,
            steam_kg_s: -steam,
            other_end: OtherEnd::Air,
            ..PortFlow::default()
        }
    }

    /// A hose open to the air: what is above atmospheric pressure flows out, air flows in below it.
    fn open_hose(&self, opening: f64, at: &AtPort<'_>) -> PortFlow {
        let area_m2 = HOSE_AREA_M2 * opening.clamp(0.0, 1.0);
        let other_end = OtherEnd::Air;
        let gas_m3 = at.level.gas_m3(at.volume_m3);
        let mixture = Mixture {
            refrigerant_kg_m3: at.density_kg_m3,
            gas_kg_m3: at.stored.air_kg / gas_m3,
            steam_kg_m3: at.stored.steam_kg / gas_m3,
            pressure_pa: at.level.total_pa,
        };
        let flow_kg_s = escape_kg_s(area_m2, &mixture);
        if flow_kg_s < 0.0 {
            let humidity_ratio = self.plant.weather.humidity_ratio();
            return PortFlow {
                gas_kg_s: -flow_kg_s,
                steam_kg_s: -flow_kg_s * humidity_ratio,
                other_end,
                ..PortFlow::default()
            };
        }
        let [refrigerant, gas, steam] = mixture.shares();
        PortFlow {
            refrigerant_kg_s: -self.at_most(flow_kg_s * refrigerant, MOST_OF_LEVEL * at.available_kg),
            enthalpy_j_kg: at.enthalpy_j_kg,
            gas_kg_s: -self.at_most(flow_kg_s * gas, MOST_OF_LEVEL * at.stored.air_kg),
            steam_kg_s: -self.at_most(flow_kg_s * steam, MOST_OF_LEVEL * at.stored.steam_kg),
            other_end,
            ..PortFlow::default()
        }
    }
}
