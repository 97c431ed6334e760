//! Work: what a technician changes with tools.

use serde::{Deserialize, Serialize};

use crate::air::{InFilterSlot, Slot};
use crate::level::AIR_GAS_CONSTANT;
use crate::state::Plant;
use crate::sump::dissolved_kg;
use crate::{FaultKind, LeakPlace, LeftBehind};
use media::moist_air::STANDARD_PRESSURE_PA;

/// Share of the gas of an opened circuit that stays refrigerant; the rest is exchanged for air (typ.).
const KEPT_ON_OPENING: f64 = 0.3;

/// Work on the plant. Work that opens the refrigerant circuit vents what is left above atmospheric
/// pressure and lets air in: recover first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Work {
    /// A new filter in the slot, whatever was or was not in it. What has been sucked onto the coil stays there.
    ReplaceFilter,
    /// The medium of a collapsed filter taken off the face of the indoor coil.
    PeelFilterMedium,
    /// The indoor coil washed, with whatever lay on its face. Fits no filter.
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
    /// The damaged low-voltage conductor mended.
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
    /// The kinked length of suction line replaced. Opens the circuit.
    ReplaceSuctionLine,
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
    pub const PARTS: [Work; 28] = [
        Work::ReplaceFilter,
        Work::PeelFilterMedium,
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
        Work::ReplaceSuctionLine,
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
                | Work::ReplaceSuctionLine
                | Work::ReplaceCompressor
                | Work::RepairLeak(_)
        )
    }

    /// Whether it removes a kind of fault. Faults of the charge are no part's: recovering, evacuating and weighing
    /// in removes them. What a fault of the filter leaves behind beside it ([`Plant::left_behind`]) takes work of its own.
    pub fn removes(self, kind: FaultKind) -> bool {
        kind.row().repaired_by.contains(&self)
    }

    /// The kinds of fault that it removes.
    pub fn repairs(self) -> Vec<FaultKind> {
        FaultKind::ALL.into_iter().filter(|kind| self.removes(*kind)).collect()
    }
}

/// The kinds of fault that leave something behind.
fn that_leaves(left: LeftBehind) -> impl Iterator<Item = FaultKind> {
    FaultKind::ALL.into_iter().filter(move |kind| kind.row().special.leaves == Some(left))
}

/// What came of a piece of work.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WorkOutcome {
    /// Refrigerant that escaped to the air because of the work, kg.
    pub vented_kg: f64,
    /// Kinds of fault that it removed, or of which it took away a part (empty: the part was sound).
    pub cleared: Vec<FaultKind>,
}

impl Plant {
    /// Do a piece of work at once (its minutes are the technician's business). Work on the circuit lets out
    /// what stands above atmospheric pressure and lets air in.
    pub fn apply(&mut self, work: Work) -> WorkOutcome {
        let vented_kg = if work.opens_circuit() { self.open_circuit() } else { 0.0 };
        let before = self.faults.clone();
        let mut cleared = self.work_on_air_way(work);
        self.faults.retain(|f| {
            let here = match work {
                Work::RepairLeak(place) => f.place == Some(place),
                _ => true,
            };
            !(here && work.removes(f.kind))
        });
        if matches!(work, Work::ReplaceDrier | Work::ReplaceMeteringDevice) {
            self.fit_new_drier();
        }
        if work == Work::ReplaceCompressor {
            self.wear = crate::Wear::default();
        }
        cleared.extend(before.iter().filter(|f| !self.faults.contains(f)).map(|f| f.kind));
        // A fuse that melted is no fault of its own, but the part was bad all the same.
        if work == Work::ReplaceControlFuse && self.control.electric.fuse.replace() {
            cleared.push(FaultKind::BlownControlFuse);
        }
        cleared.sort_unstable();
        cleared.dedup();
        self.refresh_readout();
        WorkOutcome { vented_kg, cleared }
    }

    /// Filter slot and coil face after a piece of work; the kinds of fault of which it took something away.
    fn work_on_air_way(&mut self, work: Work) -> Vec<FaultKind> {
        let effects = self.effects();
        self.filter.tear(&effects);
        let mut cleared = Vec::new();
        let is_empty = self.filter.in_slot(&effects) == InFilterSlot::Nothing;
        match work {
            Work::ReplaceFilter => {
                if is_empty {
                    cleared.extend(that_leaves(LeftBehind::EmptySlot));
                }
                self.filter.slot = Slot::Renewed;
            }
            Work::PeelFilterMedium | Work::CleanCoil => {
                if self.filter.on_coil > 0.0 {
                    cleared.extend(that_leaves(LeftBehind::MediumOnCoil));
                }
                self.filter.on_coil = 0.0;
                // Washing takes the fault away, the slot stays as it is.
                if is_empty {
                    self.filter.slot = Slot::Empty;
                }
            }
            _ => {}
        }
        cleared
    }

    /// Let everything above atmospheric pressure out and air in; returns what escaped, kg.
    fn open_circuit(&mut self) -> f64 {
        let fluid = self.system.refrigerant.tables();
        let volumes = self.system.volumes();
        let at_k = self.slow.room_k;
        let gas = fluid.at_pt_vapour(STANDARD_PRESSURE_PA, at_k);
        let before = self.circuit_kg();
        let stored_before_j = self.stored_energy_j();
        for (high_side, volume) in [(true, volumes.high_m3), (false, volumes.low_m3)] {
            let level = if high_side { &mut self.high } else { &mut self.low };
            let keep = (KEPT_ON_OPENING * gas.density_kg_m3 * volume).min(level.mass_kg);
            level.mass_kg = keep;
            let partial_pa = STANDARD_PRESSURE_PA * keep / (gas.density_kg_m3 * volume);
            let at = fluid.at_pt_vapour(partial_pa, at_k);
            level.energy_j = keep * at.internal_energy_j_kg();
            level.pressure_pa = partial_pa;
            self.service.gas.out_kg += level.air_kg;
            level.air_kg = (STANDARD_PRESSURE_PA - partial_pa) * volume / (AIR_GAS_CONSTANT * at_k);
            self.service.gas.in_kg += level.air_kg;
        }
        self.fill_with_humid_air();
        let keep = (KEPT_ON_OPENING * gas.density_kg_m3 * volumes.line_m3).min(self.line.mass_kg);
        self.line.mass_kg = keep;
        self.line.pressure_pa = STANDARD_PRESSURE_PA * KEPT_ON_OPENING;
        self.line.energy_j = keep * gas.enthalpy_j_kg - self.line.pressure_pa * volumes.line_m3;
        // Under the pressure of an opened circuit the oil foams out all but what that pressure holds.
        let held_kg = dissolved_kg(
            &self.system.compressor,
            STANDARD_PRESSURE_PA * KEPT_ON_OPENING,
            self.slow.oil_saturation_pa,
        );
        self.sump_kg = self.sump_kg.min(held_kg);
        let vented = before - self.circuit_kg();
        self.ledger.vented_kg += vented;
        self.energy.with_refrigerant_j += self.stored_energy_j() - stored_before_j;
        self.last = crate::state::Last {
            discharge_enthalpy_j_kg: gas.enthalpy_j_kg,
            suction_outdoor_k: at_k,
            evaporator_outlet_k: at_k,
            evaporator_outlet_enthalpy_j_kg: gas.enthalpy_j_kg,
            outlet_density_kg_m3: gas.density_kg_m3,
            outlet_enthalpy_j_kg: gas.enthalpy_j_kg,
            high_k: at_k,
            low_k: at_k,
            ..crate::state::Last::default()
        };
        vented
    }
}
