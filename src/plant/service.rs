//! Service: what a technician changes with tools, and what hangs on the service ports.

use serde::{Deserialize, Serialize};

use crate::{FaultKind, LeakPlace};

/// Work on the plant. Work that opens the refrigerant circuit vents what is left above atmospheric
/// pressure and lets air in: recover first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Work {
    /// A new filter in the slot (and, if the old one had collapsed, the coil face cleared).
    ReplaceFilter,
    /// The indoor coil washed and a filter fitted.
    CleanCoil,
    /// The return duct hung and sealed again.
    RestoreReturnDuct,
    /// All supply registers opened and cleared.
    OpenSupplies,
    /// The blower wheel taken out and cleaned.
    CleanBlowerWheel,
    /// The blower put on its right speed tap.
    SetSpeedTap,
    /// A new run capacitor for the blower.
    ReplaceBlowerCapacitor,
    /// A new blower motor (an ECM with its module).
    ReplaceBlowerMotor,
    /// A new module on the ECM blower.
    ReplaceBlowerModule,
    /// The command harness of the ECM blower mended.
    ReconnectBlowerCommand,
    /// A new control board with its blower relay.
    ReplaceBoard,
    /// A new thermostat.
    ReplaceThermostat,
    /// The broken low-voltage conductor mended.
    RepairConductor,
    /// A new low-voltage fuse.
    ReplaceControlFuse,
    /// A new control transformer.
    ReplaceTransformer,
    /// The drain cleared and the float switch put right.
    RestoreCondensateSwitch,
    /// A new contactor.
    ReplaceContactor,
    /// A new metering device of the right size, with its bulb strapped and a new drier. Opens the circuit.
    ReplaceMeteringDevice,
    /// A new liquid-line drier. Opens the circuit.
    ReplaceDrier,
    /// The kinked length of liquid line replaced. Opens the circuit.
    ReplaceLiquidLine,
    /// The bulb strapped to the suction line and insulated.
    StrapAndInsulateBulb,
    /// The outdoor coil washed.
    CleanCondenser,
    /// A new run capacitor for the outdoor fan.
    ReplaceFanCapacitor,
    /// A new outdoor fan motor.
    ReplaceFanMotor,
    /// A new run capacitor for the compressor.
    ReplaceCompressorCapacitor,
    /// A new compressor. Opens the circuit.
    ReplaceCompressor,
    /// A leak closed. Opens the circuit.
    RepairLeak(LeakPlace),
}

impl Work {
    /// Every piece of work but the leaks.
    pub const PARTS: [Work; 26] = [
        Work::ReplaceFilter,
        Work::CleanCoil,
        Work::RestoreReturnDuct,
        Work::OpenSupplies,
        Work::CleanBlowerWheel,
        Work::SetSpeedTap,
        Work::ReplaceBlowerCapacitor,
        Work::ReplaceBlowerMotor,
        Work::ReplaceBlowerModule,
        Work::ReconnectBlowerCommand,
        Work::ReplaceBoard,
        Work::ReplaceThermostat,
        Work::RepairConductor,
        Work::ReplaceControlFuse,
        Work::ReplaceTransformer,
        Work::RestoreCondensateSwitch,
        Work::ReplaceContactor,
        Work::ReplaceMeteringDevice,
        Work::ReplaceDrier,
        Work::ReplaceLiquidLine,
        Work::StrapAndInsulateBulb,
        Work::CleanCondenser,
        Work::ReplaceFanCapacitor,
        Work::ReplaceFanMotor,
        Work::ReplaceCompressorCapacitor,
        Work::ReplaceCompressor,
    ];

    /// Whether the refrigerant circuit must be opened for it.
    pub fn opens_circuit(self) -> bool {
        matches!(
            self,
            Work::ReplaceMeteringDevice
                | Work::ReplaceDrier
                | Work::ReplaceLiquidLine
                | Work::ReplaceCompressor
                | Work::RepairLeak(_)
        )
    }

    /// The kinds of fault that it removes. Faults of the charge are no part's: recovering, evacuating and weighing
    /// in removes them.
    pub fn cures(self) -> &'static [FaultKind] {
        match self {
            Work::ReplaceFilter => &[FaultKind::LoadedFilter],
            Work::CleanCoil => &[FaultKind::MattedCoilFace],
            Work::RestoreReturnDuct => &[FaultKind::CollapsedReturnDuct],
            Work::OpenSupplies => &[FaultKind::ClosedSupplies],
            Work::CleanBlowerWheel => &[FaultKind::DirtyBlowerWheel],
            Work::SetSpeedTap => &[FaultKind::WrongSpeedTap],
            Work::ReplaceBlowerCapacitor => &[FaultKind::WeakBlowerCapacitor],
            Work::ReplaceBlowerMotor => {
                &[FaultKind::SeizedBlowerMotor, FaultKind::OpenBlowerWinding, FaultKind::DeadBlowerModule]
            }
            Work::ReplaceBlowerModule => &[FaultKind::DeadBlowerModule],
            Work::ReconnectBlowerCommand => &[FaultKind::NoBlowerCommand],
            Work::ReplaceBoard => &[FaultKind::OpenBlowerRelay, FaultKind::DeadBoard],
            Work::ReplaceThermostat => &[FaultKind::ThermostatNoG, FaultKind::ThermostatNoY],
            Work::RepairConductor => &[FaultKind::BrokenYConductor],
            Work::ReplaceControlFuse => &[FaultKind::BlownControlFuse],
            Work::ReplaceTransformer => &[FaultKind::OpenTransformer],
            Work::RestoreCondensateSwitch => &[FaultKind::OpenCondensateSwitch],
            Work::ReplaceContactor => &[FaultKind::WeldedContactor, FaultKind::OpenContactorCoil],
            Work::ReplaceMeteringDevice => &[
                FaultKind::MeteringStuckThrottled,
                FaultKind::MeteringStuckOpen,
                FaultKind::BulbBareInColdAir,
                FaultKind::BulbLoose,
                FaultKind::BulbChargeLost,
                FaultKind::OrificeTooSmall,
                FaultKind::OrificeTooLarge,
                FaultKind::PluggedDrier,
            ],
            Work::ReplaceDrier => &[FaultKind::PluggedDrier],
            Work::ReplaceLiquidLine => &[FaultKind::KinkedLiquidLine],
            Work::StrapAndInsulateBulb => &[FaultKind::BulbBareInColdAir, FaultKind::BulbLoose],
            Work::CleanCondenser => &[FaultKind::FouledCondenser],
            Work::ReplaceFanCapacitor => &[FaultKind::WeakFanCapacitor],
            Work::ReplaceFanMotor => &[FaultKind::DeadFanMotor],
            Work::ReplaceCompressorCapacitor => &[FaultKind::WeakCompressorCapacitor],
            Work::ReplaceCompressor => &[FaultKind::LeakingCompressor],
            Work::RepairLeak(_) => &[FaultKind::RefrigerantLeak],
        }
    }
}

/// What came of a piece of work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WorkOutcome {
    /// Refrigerant that escaped to the air because of the work, kg.
    pub vented_kg: f64,
    /// Kinds of fault that it removed (empty: the part was sound).
    pub cleared: Vec<FaultKind>,
}

use media::refrigerant::Refrigerant;

use crate::balance::ATMOSPHERE_PA;
use crate::level::{AIR_GAS_CONSTANT, LevelState, available_kg};
use crate::state::{Level, Plant};
use crate::{CylinderPhase, Inputs, PortConnection};

/// Effective flow area of a charging hose with its valve core, m² (typ.: about 20 g/s of liquid).
const HOSE_AREA_M2: f64 = 6.0e-7;
/// Swept volume of a small recovery machine, m³/s (typ.).
const RECOVERY_M3_S: f64 = 1.0e-4;
/// Largest flow of a recovery machine at one port on liquid, kg/s (typ., about a quarter of a kilogram a minute).
const RECOVERY_MAX_KG_S: f64 = 0.004;
/// Pumping speed at the port through hose and core, m³/s (typ.; the pump itself is ten times faster).
const VACUUM_M3_S: f64 = 6.0e-5;
/// Ultimate pressure of the vacuum pump, Pa (about 20 micron).
const VACUUM_ULTIMATE_PA: f64 = 2.7;
/// Volume of a charging hose, m³ (1/4 inch, 1.5 m; typ.).
const HOSE_VOLUME_M3: f64 = 2.5e-5;
/// Share of the gas of an opened circuit that stays refrigerant; the rest is exchanged for air (typ.).
const KEPT_ON_OPENING: f64 = 0.3;

/// Flow into a level at a port, positive into the circuit.
#[derive(Clone, Copy, Debug, Default)]
struct PortFlow {
    refrigerant_kg_s: f64,
    enthalpy_j_kg: f64,
    air_kg_s: f64,
    destination: Destination,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Destination {
    #[default]
    Cylinder,
    Recovery,
    Pump,
}

/// Flows at both service ports.
pub(crate) struct PortFlows {
    suction: PortFlow,
    liquid: PortFlow,
}

impl PortFlows {
    pub(crate) fn of(plant: &Plant, inputs: &Inputs, high: &LevelState, low: &LevelState, dt_s: f64) -> Self {
        let fluid = plant.system.refrigerant.tables();
        let volumes = plant.system.volumes();
        let low_gas_h = low.fluid.enthalpy_j_kg.max(low.sat.vapour_enthalpy_j_kg);
        // The liquid port draws what stands at the condenser outlet.
        let (liquid_density, liquid_h) = if high.liquid_volume_m3 > 1.0e-6 {
            (high.sat.liquid_density_kg_m3, high.sat.liquid_enthalpy_j_kg)
        } else {
            (high.fluid.density_kg_m3, high.fluid.enthalpy_j_kg)
        };
        let low_density = low.sat.vapour_density_kg_m3.min(low.fluid.density_kg_m3);
        let suction = AtPort {
            level: low,
            density_kg_m3: low_density,
            enthalpy_j_kg: low_gas_h,
            available_kg: available_kg(plant.low.mass_kg, volumes.low_m3),
            stored: plant.low,
        };
        let liquid = AtPort {
            level: high,
            density_kg_m3: liquid_density,
            enthalpy_j_kg: liquid_h,
            available_kg: available_kg(plant.high.mass_kg, volumes.high_m3),
            stored: plant.high,
        };
        PortFlows {
            suction: port(fluid, inputs.suction_port, &suction, dt_s),
            liquid: port(fluid, inputs.liquid_port, &liquid, dt_s),
        }
    }

    /// Book the flows on levels and ledger.
    pub(crate) fn book(&self, plant: &mut Plant, dt_s: f64) {
        for (flow, high_side) in [(self.suction, false), (self.liquid, true)] {
            let mass = flow.refrigerant_kg_s * dt_s;
            let level = if high_side { &mut plant.high } else { &mut plant.low };
            level.mass_kg += mass;
            level.energy_j += mass * flow.enthalpy_j_kg;
            level.air_kg = (level.air_kg + flow.air_kg_s * dt_s).max(0.0);
            if mass > 0.0 {
                plant.ledger.added_kg += mass;
            } else if flow.destination == Destination::Recovery {
                plant.ledger.recovered_kg -= mass;
            } else {
                plant.ledger.vented_kg -= mass;
            }
        }
    }
}

/// What stands at a port.
struct AtPort<'a> {
    level: &'a LevelState,
    density_kg_m3: f64,
    enthalpy_j_kg: f64,
    available_kg: f64,
    stored: Level,
}

fn port(fluid: &Refrigerant, connection: PortConnection, at: &AtPort<'_>, dt_s: f64) -> PortFlow {
    let AtPort { level, density_kg_m3, enthalpy_j_kg, available_kg: stored_kg, stored } = *at;
    let gas_share = stored.air_kg / (stored.air_kg + stored.mass_kg).max(1.0e-12);
    match connection {
        PortConnection::Capped | PortConnection::Gauge => PortFlow::default(),
        PortConnection::Cylinder { phase, temperature_k, opening } => {
            let pressure = fluid.bubble_pressure_pa(temperature_k);
            let sat = fluid.saturation(pressure);
            let (density, h) = match phase {
                CylinderPhase::Vapour => (sat.vapour_density_kg_m3, sat.vapour_enthalpy_j_kg),
                CylinderPhase::Liquid => (sat.liquid_density_kg_m3, sat.liquid_enthalpy_j_kg),
            };
            // A person closes the valve before the system pushes back into the cylinder.
            let dp = (pressure - level.total_pa).max(0.0);
            let flow = opening.clamp(0.0, 1.0) * HOSE_AREA_M2 * libm::sqrt(2.0 * density) * dp
                / libm::sqrt(dp + 2.0e3);
            PortFlow {
                refrigerant_kg_s: flow,
                enthalpy_j_kg: h,
                air_kg_s: 0.0,
                destination: Destination::Cylinder,
            }
        }
        PortConnection::RecoveryMachine => {
            let above = ((level.total_pa - ATMOSPHERE_PA) / 2.0e4).clamp(0.0, 1.0);
            let flow = (RECOVERY_M3_S * density_kg_m3).min(RECOVERY_MAX_KG_S) * above;
            let flow = flow.min(0.1 * stored_kg / dt_s);
            PortFlow {
                refrigerant_kg_s: -flow,
                enthalpy_j_kg,
                air_kg_s: -flow * gas_share,
                destination: Destination::Recovery,
            }
        }
        PortConnection::VacuumPump => {
            let pull = (1.0 - VACUUM_ULTIMATE_PA / level.total_pa.max(1.0e-3)).max(0.0);
            let flow = (VACUUM_M3_S * density_kg_m3 * pull).min(0.1 * stored_kg / dt_s);
            let gas_volume = stored.air_kg * AIR_GAS_CONSTANT * level.fluid.temperature_k
                / (level.total_pa - level.fluid.pressure_pa).max(1.0e-3);
            let air = if gas_volume > 0.0 {
                (VACUUM_M3_S * pull * stored.air_kg / gas_volume.max(1.0e-4)).min(0.1 * stored.air_kg / dt_s)
            } else {
                0.0
            };
            PortFlow {
                refrigerant_kg_s: -flow,
                enthalpy_j_kg,
                air_kg_s: -air,
                destination: Destination::Pump,
            }
        }
    }
}

impl Plant {
    /// Do a piece of work at once (its minutes are the technician's business). Work on the circuit lets out
    /// what stands above atmospheric pressure and lets air in.
    pub fn apply(&mut self, work: Work) -> WorkOutcome {
        let vented_kg = if work.opens_circuit() { self.open_circuit() } else { 0.0 };
        let before = self.faults.clone();
        self.faults.retain(|f| {
            let here = match work {
                Work::RepairLeak(place) => f.place == Some(place),
                _ => true,
            };
            !(here && work.cures().contains(&f.kind))
        });
        if work == Work::ReplaceCompressor {
            self.wear = crate::Wear::default();
        }
        let mut cleared: Vec<FaultKind> =
            before.iter().filter(|f| !self.faults.contains(f)).map(|f| f.kind).collect();
        cleared.sort_unstable();
        cleared.dedup();
        self.refresh_readout();
        WorkOutcome { vented_kg, cleared }
    }

    /// Refrigerant lost when the hoses of both gauges come off, kg: the liquid hose holds liquid if the
    /// liquid port does.
    pub fn purge_hoses(&mut self) -> f64 {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let high = LevelState::of(fluid, &self.high, volumes.high_m3, 0.25);
        let low = LevelState::of(fluid, &self.low, volumes.low_m3, 0.25);
        // Low-loss fittings keep most of the liquid back: a fifth of the hose.
        let liquid_density = if high.liquid_volume_m3 > 1.0e-5 {
            high.sat.liquid_density_kg_m3
        } else {
            high.fluid.density_kg_m3
        };
        let from_high = (0.2 * HOSE_VOLUME_M3 * liquid_density).min(0.01 * self.high.mass_kg);
        let from_low = (HOSE_VOLUME_M3 * low.fluid.density_kg_m3.min(low.sat.vapour_density_kg_m3))
            .min(0.01 * self.low.mass_kg);
        let h_high = if high.liquid_volume_m3 > 1.0e-5 {
            high.sat.liquid_enthalpy_j_kg
        } else {
            high.fluid.enthalpy_j_kg
        };
        self.high.mass_kg -= from_high;
        self.high.energy_j -= from_high * h_high;
        self.low.mass_kg -= from_low;
        self.low.energy_j -= from_low * low.fluid.enthalpy_j_kg.max(low.sat.vapour_enthalpy_j_kg);
        self.ledger.hoses_kg += from_high + from_low;
        from_high + from_low
    }

    /// Let everything above atmospheric pressure out and air in; returns what escaped, kg.
    fn open_circuit(&mut self) -> f64 {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let at_k = self.slow.room_k;
        let gas = fluid.at_pt_vapour(ATMOSPHERE_PA, at_k);
        let before = self.circuit_kg();
        for (high_side, volume) in [(true, volumes.high_m3), (false, volumes.low_m3)] {
            let level = if high_side { &mut self.high } else { &mut self.low };
            let keep = (KEPT_ON_OPENING * gas.density_kg_m3 * volume).min(level.mass_kg);
            level.mass_kg = keep;
            let partial_pa = ATMOSPHERE_PA * keep / (gas.density_kg_m3 * volume);
            let at = fluid.at_pt_vapour(partial_pa, at_k);
            level.energy_j = keep * at.internal_energy_j_kg();
            level.pressure_pa = partial_pa;
            level.air_kg = (ATMOSPHERE_PA - partial_pa) * volume / (AIR_GAS_CONSTANT * at_k);
        }
        let keep = (KEPT_ON_OPENING * gas.density_kg_m3 * volumes.line_m3).min(self.line.mass_kg);
        self.line.mass_kg = keep;
        self.line.pressure_pa = ATMOSPHERE_PA * KEPT_ON_OPENING;
        self.line.energy_j = keep * gas.enthalpy_j_kg - self.line.pressure_pa * volumes.line_m3;
        let vented = before - self.circuit_kg();
        self.ledger.vented_kg += vented;
        self.last = crate::state::Last {
            discharge_enthalpy_j_kg: gas.enthalpy_j_kg,
            suction_outdoor_k: at_k,
            evaporator_outlet_k: at_k,
            evaporator_outlet_enthalpy_j_kg: gas.enthalpy_j_kg,
            outlet_density_kg_m3: gas.density_kg_m3,
            outlet_enthalpy_j_kg: gas.enthalpy_j_kg,
            ..crate::state::Last::default()
        };
        vented
    }
}
