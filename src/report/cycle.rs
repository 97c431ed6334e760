//! The refrigerant's cycle on a chart of pressure over enthalpy.
//!
//! Corners follow from what a technician could measure: pressures at the ports and temperatures of the lines, with the
//! properties of the refrigerant. A line with liquid and vapour in it has one temperature whatever their shares, so
//! wet suction vapour shows as saturated, and flash gas in the liquid line as saturated liquid.

use media::moist_air;
use media::refrigerant::Refrigerant;
use media::units::{STANDARD_ATMOSPHERE_PA, celsius_from_kelvin};
use plant::{Readout, RefrigerantName, SteadyConditions, StepError, System, solve_steady_state};
use serde::{Deserialize, Serialize};
use visit::{Declaration, Entry, Measured, Move, Outcome, Trust, Visit, compressor_runs};

use crate::course::Course;
use crate::ruled::is_refrigerant_side;
use words::Words;

/// Flow below which nothing goes round, kg/s (a hundredth of a small system's).
const LEAST_FLOW_KG_S: f64 = 5.0e-4;
/// Superheat below which liquid may come back to the compressor, K (engineering value).
const DRY_K: f64 = 1.0;
/// Longest plant time that a sound system is given to settle, s; without a fault it needs about half an hour.
const SETTLE_S: f64 = 5400.0;
/// Steps along each side of the dome.
const DOME_STEPS: u32 = 60;
/// Lowest temperature of the dome on the chart, K.
const DOME_FROM_K: f64 = 233.15;

/// A state on the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Corner {
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Specific enthalpy, J/kg (IIR reference: 200 kJ/kg for saturated liquid at 0 °C).
    pub enthalpy_j_kg: f64,
}

/// Which moment a cycle is of.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum CycleMoment {
    /// A first reading of the refrigerant side.
    FirstReading {
        /// Number of its entry.
        entry: u32,
    },
    /// The declaration of the cause.
    Declaration {
        /// Number of its entry.
        entry: u32,
    },
    /// The end of the visit.
    End,
    /// The last instant at which the compressor ran.
    LastRunning {
        /// Time since arrival, s.
        since_arrival_s: f64,
    },
    /// The same system without a fault.
    Sound,
}

/// The cycle at one moment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cycle {
    /// Which moment.
    pub moment: CycleMoment,
    /// Corners: evaporator inlet, evaporator outlet, compressor inlet, compressor outlet, condenser outlet.
    pub corners: [Corner; 5],
    /// Superheat at the outdoor suction service valve, K.
    pub superheat_k: f64,
    /// Subcooling at the liquid service valve, K.
    pub subcooling_k: f64,
    /// Refrigerant flow through the compressor, kg/s.
    pub flow_kg_s: f64,
    /// Dew temperature in the evaporator, K.
    pub evaporating_k: f64,
    /// Dew temperature in the condenser, K.
    pub condensing_k: f64,
    /// Net cooling, W.
    pub net_cooling_w: f64,
}

impl Cycle {
    /// The cycle that a readout stands for; `None` when nothing goes round.
    pub fn of(moment: CycleMoment, fluid: &Refrigerant, truth: &Readout) -> Option<Cycle> {
        if !compressor_runs(truth) || truth.compressor_flow_kg_s < LEAST_FLOW_KG_S {
            return None;
        }
        let vapour = |pressure_pa: f64, temperature_k: f64| Corner {
            pressure_pa,
            enthalpy_j_kg: fluid.at_pt_vapour(pressure_pa, temperature_k).enthalpy_j_kg,
        };
        let high_pa = truth.liquid_pressure_pa;
        // A circuit that is all but empty has no liquid there, only warm vapour.
        let leaves_condenser = if truth.liquid_service_valve_k > fluid.dew_k(high_pa) + DRY_K {
            vapour(high_pa, truth.liquid_service_valve_k)
        } else {
            let liquid = fluid.at_pt_liquid(high_pa, truth.liquid_service_valve_k);
            Corner { pressure_pa: high_pa, enthalpy_j_kg: liquid.enthalpy_j_kg }
        };
        // Drier, line and metering device throttle; the line's own heat is a thousandth of the cooling.
        let enters_evaporator = Corner {
            pressure_pa: truth.evaporator_pressure_pa,
            enthalpy_j_kg: leaves_condenser.enthalpy_j_kg,
        };
        Some(Cycle {
            moment,
            corners: [
                enters_evaporator,
                vapour(truth.evaporator_pressure_pa, truth.suction_line_indoor_k),
                vapour(truth.suction_pressure_pa, truth.suction_line_outdoor_k),
                vapour(high_pa, truth.discharge_k),
                leaves_condenser,
            ],
            superheat_k: truth.superheat_k,
            subcooling_k: truth.subcooling_k,
            flow_kg_s: truth.compressor_flow_kg_s,
            evaporating_k: truth.evaporating_k,
            condensing_k: truth.condensing_k,
            net_cooling_w: truth.net_cooling_w,
        })
    }

    /// Superheat in words: none where the suction line is colder than saturated vapour.
    pub fn superheat_text(&self, words: Words) -> String {
        if self.superheat_k < -DRY_K {
            words.label("review-none")
        } else {
            words.units.temperature_difference(self.superheat_k)
        }
    }

    /// Subcooling in words: none where the liquid line is warmer than saturated liquid.
    pub fn subcooling_text(&self, words: Words) -> String {
        if self.subcooling_k < -DRY_K {
            words.label("review-none")
        } else {
            words.units.temperature_difference(self.subcooling_k)
        }
    }

    /// Whether the suction vapour is so close to saturation that liquid may come back with it.
    pub fn may_flood_back(&self) -> bool {
        self.superheat_k < DRY_K
    }
}

/// Cycles of a visit and what they are drawn against.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cycles {
    /// The refrigerant.
    pub refrigerant: RefrigerantName,
    /// Saturated liquid and vapour: the dome's outline from cold liquid over the top to cold vapour.
    pub dome: Vec<Corner>,
    /// The cycles, in time; none if the compressor did not run at any of the moments.
    pub cycles: Vec<Cycle>,
    /// The same system without a fault, settled at the air that the first cycle had.
    pub sound: Option<Cycle>,
}

impl Cycles {
    /// The cycles of a visit: at the first sound reading of the refrigerant side (if none was sound, at the first of
    /// any kind), at the last declaration, and at the end, each if the compressor ran then.
    ///
    /// # Errors
    /// When the sound system reaches a state that is not finite.
    pub fn of(visit: &Visit, course: &Course) -> Result<Cycles, StepError> {
        let system = &visit.call().system;
        let fluid = system.refrigerant.tables();
        let mut cycles: Vec<Cycle> = Vec::new();
        let mut first_truth = None;
        let mut push = |moment: CycleMoment, truth: &Readout| {
            if let Some(cycle) = Cycle::of(moment, fluid, truth) {
                first_truth.get_or_insert_with(|| truth.clone());
                cycles.push(cycle);
            }
        };
        let first = first_reading(visit.notebook());
        if let Some(entry) = first
            && let Some(moment) = course.at(entry.number)
        {
            push(CycleMoment::FirstReading { entry: entry.number }, &moment.truth);
        }
        if let Some((number, _)) = declaration(visit.notebook())
            && Some(number) != first.map(|entry| entry.number)
            && let Some(moment) = course.at(number)
        {
            push(CycleMoment::Declaration { entry: number }, &moment.truth);
        }
        if compressor_runs(visit.truth()) {
            push(CycleMoment::End, visit.truth());
        } else if let Some((since_arrival_s, truth)) = &course.last_running {
            push(CycleMoment::LastRunning { since_arrival_s: *since_arrival_s }, truth);
        }
        let sound = match first_truth {
            Some(truth) => sound_cycle(system, fluid, &truth)?,
            None => None,
        };
        Ok(Cycles { refrigerant: system.refrigerant, dome: dome(fluid), cycles, sound })
    }
}

/// The first sound reading of the refrigerant side with the compressor running; if there is none, the first doubtful
/// one.
fn first_reading(notebook: &[Entry]) -> Option<&Entry> {
    let of_refrigerant = |entry: &&Entry, wanted: fn(Trust) -> bool| match &entry.outcome {
        Outcome::Read(reading) => {
            is_refrigerant_side(reading)
                && wanted(reading.trust)
                && !matches!(reading.quantity, Measured::Vacuum)
        }
        _ => false,
    };
    notebook.iter().find(|entry| of_refrigerant(entry, |trust| trust == Trust::Sound)).or_else(|| {
        notebook.iter().find(|entry| of_refrigerant(entry, |trust| trust != Trust::CompressorStopped))
    })
}

/// The last declaration that was made, with its entry.
pub(crate) fn declaration(notebook: &[Entry]) -> Option<(u32, &Declaration)> {
    notebook.iter().rev().find_map(|entry| match (&entry.action, &entry.outcome) {
        (_, Outcome::Refused(_)) => None,
        (Move::Declare(declaration), _) => Some((entry.number, declaration)),
        _ => None,
    })
}

/// The system without a fault at the air of a readout.
fn sound_cycle(system: &System, fluid: &Refrigerant, truth: &Readout) -> Result<Option<Cycle>, StepError> {
    let humidity_ratio = moist_air::humidity_ratio_from_wet_bulb(
        celsius_from_kelvin(truth.return_dry_bulb_k),
        celsius_from_kelvin(truth.return_wet_bulb_k),
        STANDARD_ATMOSPHERE_PA,
    );
    let settled = solve_steady_state(
        system,
        &SteadyConditions {
            outdoor_k: truth.outdoor_k,
            indoor_dry_bulb_k: truth.return_dry_bulb_k,
            indoor_humidity_ratio: humidity_ratio,
            charge_share: 1.0,
            faults: Vec::new(),
            time_max_s: SETTLE_S,
        },
    )?;
    Ok(Cycle::of(CycleMoment::Sound, fluid, &settled.readout))
}

/// The outline of the dome within the table.
fn dome(fluid: &Refrigerant) -> Vec<Corner> {
    let (lowest_pa, highest_pa) = fluid.pressure_range_pa();
    let from_pa = fluid.dew_pressure_pa(DOME_FROM_K).max(lowest_pa);
    // Steps of the logarithm, as on the chart, that grow shorter towards the top, where the outline bends. The table's
    // top row is the last, a little under the critical point.
    let at = |step: u32| {
        let left = 1.0 - f64::from(step) / f64::from(DOME_STEPS);
        let share = 1.0 - left * left;
        fluid.saturation(from_pa * libm::pow(highest_pa / from_pa, share))
    };
    let liquid = (0..=DOME_STEPS).map(at).map(|saturation| Corner {
        pressure_pa: saturation.pressure_pa,
        enthalpy_j_kg: saturation.liquid_enthalpy_j_kg,
    });
    let vapour = (0..=DOME_STEPS).rev().map(at).map(|saturation| Corner {
        pressure_pa: saturation.pressure_pa,
        enthalpy_j_kg: saturation.vapour_enthalpy_j_kg,
    });
    liquid.chain(vapour).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn running() -> Readout {
        Readout {
            suction_pressure_pa: 9.0e5,
            evaporator_pressure_pa: 9.3e5,
            liquid_pressure_pa: 2.8e6,
            suction_line_indoor_k: 283.0,
            suction_line_outdoor_k: 287.0,
            discharge_k: 345.0,
            liquid_service_valve_k: 310.0,
            superheat_k: 8.0,
            compressor_speed: 1.0,
            compressor_flow_kg_s: 0.06,
            ..Readout::default()
        }
    }

    #[test]
    fn a_cycle_goes_round_the_right_way() {
        let fluid = Refrigerant::r410a();
        let cycle = Cycle::of(CycleMoment::End, fluid, &running()).expect("the compressor runs");
        let [inlet, outlet, suction, discharge, liquid] = cycle.corners;
        assert_eq!(inlet.enthalpy_j_kg, liquid.enthalpy_j_kg, "throttling keeps the enthalpy");
        assert!(inlet.enthalpy_j_kg < outlet.enthalpy_j_kg);
        assert!(outlet.enthalpy_j_kg < suction.enthalpy_j_kg, "the suction line warms the vapour");
        assert!(suction.enthalpy_j_kg < discharge.enthalpy_j_kg);
        assert!(suction.pressure_pa < inlet.pressure_pa, "the suction line costs pressure");
        assert!(!cycle.may_flood_back());
    }

    #[test]
    fn an_all_but_empty_circuit_holds_no_liquid() {
        let fluid = Refrigerant::r410a();
        let empty = Readout {
            suction_pressure_pa: 2.0e4,
            evaporator_pressure_pa: 2.1e4,
            liquid_pressure_pa: 2.0e5,
            subcooling_k: -59.0,
            ..running()
        };
        let cycle = Cycle::of(CycleMoment::End, fluid, &empty).expect("the compressor runs");
        let liquid = cycle.corners[4];
        assert!(liquid.enthalpy_j_kg > fluid.saturation(liquid.pressure_pa).vapour_enthalpy_j_kg);
        assert_eq!(cycle.subcooling_text(Words::in_units(words::Units::Si)), "none");
        let full = Cycle::of(CycleMoment::End, fluid, &Readout { subcooling_k: 5.0, ..running() });
        assert_eq!(
            full.map(|cycle| cycle.subcooling_text(Words::in_units(words::Units::Si))).as_deref(),
            Some("5.0 K")
        );
    }

    #[test]
    fn a_standing_compressor_has_no_cycle() {
        let fluid = Refrigerant::r410a();
        let standing = Readout { compressor_speed: 0.0, ..running() };
        assert!(Cycle::of(CycleMoment::End, fluid, &standing).is_none());
        let empty = Readout { compressor_flow_kg_s: 0.0, ..running() };
        assert!(Cycle::of(CycleMoment::End, fluid, &empty).is_none());
    }

    #[test]
    fn the_dome_rises_to_one_top_and_widens_below() {
        for name in Refrigerant::names() {
            let fluid = Refrigerant::by_name(name).expect("a listed refrigerant");
            let dome = dome(fluid);
            let half = dome.len() / 2;
            assert!(dome[..half].windows(2).all(|pair| pair[0].pressure_pa < pair[1].pressure_pa), "{name}");
            assert!(dome[half..].windows(2).all(|pair| pair[0].pressure_pa > pair[1].pressure_pa), "{name}");
            let width = |left: usize| dome[dome.len() - 1 - left].enthalpy_j_kg - dome[left].enthalpy_j_kg;
            assert!(width(0) > 1.5e5 && width(half - 1) < width(0), "{name}");
        }
    }
}
