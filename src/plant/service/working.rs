//! What a piece of work changes.

use serde::{Deserialize, Serialize};

use super::work::Work;
use crate::air::{InFilterSlot, Slot};
use crate::level::AIR_GAS_CONSTANT;
use crate::state::Plant;
use crate::sump::dissolved_kg;
use crate::{FaultKind, LeftBehind};
use media::moist_air::STANDARD_PRESSURE_PA;

/// Share of the gas of an opened circuit that stays refrigerant; the rest is exchanged for air (typ.).
const KEPT_ON_OPENING: f64 = 0.3;

impl Work {
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
