//! Metering device and the path to it: drier, liquid line, valve, solved as one monotone root.

use media::refrigerant::Refrigerant;

use crate::root::Bracket;
use crate::system::Metering;

/// Pressure difference below which flow laws go over to laminar, Pa: a square root has infinite slope at
/// zero, which no fixed step survives.
const LAMINAR_PA: f64 = 2.0e3;

/// Critical ratio of a short tube or piston: downstream pressure has no effect below this share of the
/// saturation pressure of the entering liquid (Kim & O'Neal 1994 found about 0.86; from memory).
const ORIFICE_CRITICAL_RATIO: f64 = 0.86;

/// Two-phase derating of the metering device: the flow goes with the density that enters to the power of half
/// this exponent. 1 is homogeneous flow without choking; a mixture that enters near saturation chokes well before
/// the evaporator pressure, so more than 1. Tuned on the capacity at 30 % undercharge of Cheung & Braun (NREL fy16osti/65030),
/// which is therefore no proof of it.
const TWO_PHASE_EXPONENT: f64 = 1.5;

/// The path from the condenser to the evaporator at one instant.
pub(crate) struct Path<'a> {
    pub fluid: &'a Refrigerant,
    /// Total pressure at the condenser outlet, Pa.
    pub condenser_pa: f64,
    /// Density at the condenser outlet, kg/m³.
    pub outlet_density_kg_m3: f64,
    /// Enthalpy of the liquid line, J/kg.
    pub line_enthalpy_j_kg: f64,
    /// Of a kink between the service valve and the drier.
    pub kink_resistance: f64,
    pub drier_resistance: f64,
    pub line_resistance: f64,
    /// Total pressure in the evaporator, Pa.
    pub evaporator_pa: f64,
    /// Open area, m².
    pub area_m2: f64,
    pub metering: &'a Metering,
}

/// How far the search for the flow goes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Search {
    pub steps: u32,
    pub tolerance_kg_s: f64,
}

impl Search {
    /// As far as a step needs, which starts from the flow of the last one.
    pub(crate) const STEP: Search = Search { steps: 7, tolerance_kg_s: 1.0e-7 };
    /// To rounding.
    pub(crate) const FINE: Search = Search { steps: 80, tolerance_kg_s: 1.0e-14 };
}

/// Solved flow.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Flow {
    pub flow_kg_s: f64,
    /// At the drier's inlet, behind a kink.
    pub after_kink_pa: f64,
    pub after_drier_pa: f64,
    pub valve_inlet_pa: f64,
    pub line_density_kg_m3: f64,
}

/// Density of the fluid of enthalpy `h` at a pressure: saturated liquid density when subcooled, homogeneous
/// mixture in the dome; also returns the quality and the saturated liquid density.
fn mixture(fluid: &Refrigerant, pressure_pa: f64, h: f64) -> (f64, f64, f64) {
    let s = fluid.saturation(pressure_pa);
    let x =
        ((h - s.liquid_enthalpy_j_kg) / (s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg)).clamp(0.0, 1.0);
    let density = 1.0 / ((1.0 - x) / s.liquid_density_kg_m3 + x / s.vapour_density_kg_m3);
    (density, x, s.liquid_density_kg_m3)
}

impl Path<'_> {
    /// Pressure behind the kink, Pa, and density there, kg/m³: what flashes in the kink is lighter in the drier.
    fn behind_kink(&self, m: f64) -> (f64, f64) {
        if self.kink_resistance <= 0.0 {
            return (self.condenser_pa, self.outlet_density_kg_m3);
        }
        let pressure_pa =
            (self.condenser_pa - self.kink_resistance * m * m / self.outlet_density_kg_m3).max(2.0e3);
        let (before, ..) = mixture(self.fluid, self.condenser_pa, self.line_enthalpy_j_kg);
        let (behind, ..) = mixture(self.fluid, pressure_pa, self.line_enthalpy_j_kg);
        (pressure_pa, self.outlet_density_kg_m3 * (behind / before).min(1.0))
    }

    /// Flow that the valve passes, and the state before it, if `m` flowed through drier and line.
    fn valve_flow(&self, m: f64) -> (f64, Flow) {
        let (after_kink, drier_density) = self.behind_kink(m);
        let after_drier = (after_kink - self.drier_resistance * m * m / drier_density).max(2.0e3);
        let (density1, _, _) = mixture(self.fluid, after_drier, self.line_enthalpy_j_kg);
        let inlet = (after_drier - self.line_resistance * m * m / density1).max(2.0e3);
        let s = self.fluid.saturation(inlet);
        let h = self.line_enthalpy_j_kg;
        let x = ((h - s.liquid_enthalpy_j_kg) / (s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg))
            .clamp(0.0, 1.0);
        let density = 1.0 / ((1.0 - x) / s.liquid_density_kg_m3 + x / s.vapour_density_kg_m3);
        let downstream = match self.metering {
            Metering::Txv { .. } => self.evaporator_pa,
            Metering::Orifice { .. } => {
                let subcooling = ((s.liquid_enthalpy_j_kg - h) / s.liquid_cp_j_kg_k).max(0.0);
                let saturation = if subcooling > 0.0 {
                    self.fluid.bubble_pressure_pa(s.bubble_k - subcooling)
                } else {
                    inlet
                };
                self.evaporator_pa.max(ORIFICE_CRITICAL_RATIO * saturation)
            }
        };
        let dp = inlet - downstream;
        let derated =
            s.liquid_density_kg_m3 * libm::pow(density / s.liquid_density_kg_m3, TWO_PHASE_EXPONENT);
        let flow = self.area_m2 * libm::sqrt(2.0 * derated) * dp / libm::sqrt(dp.abs() + LAMINAR_PA);
        let state = Flow {
            flow_kg_s: flow,
            after_kink_pa: after_kink,
            after_drier_pa: after_drier,
            valve_inlet_pa: inlet,
            line_density_kg_m3: 0.5 * (density1 + density),
        };
        (flow, state)
    }

    /// The flow at which path and valve agree, kg/s; negative (from the evaporator back) when the
    /// evaporator stands higher. `last_kg_s` starts the search.
    pub(crate) fn solve(&self, last_kg_s: f64, search: Search) -> Flow {
        let (open, state) = self.valve_flow(0.0);
        if open <= 0.0 || self.area_m2 <= 0.0 {
            return state;
        }
        // valve(m) - m falls; it is positive at 0 and negative at `open`.
        let (top, top_state) = self.valve_flow(open);
        let Ok(bracket) = Bracket::of((0.0, open), (open, top - open)) else { return top_state };
        let start = last_kg_s.clamp(0.02 * open, 0.98 * open);
        let mut at_root = top_state;
        bracket.root(start, search.steps, search.tolerance_kg_s, |m| {
            let (flow, state) = self.valve_flow(m);
            at_root = Flow { flow_kg_s: m, ..state };
            flow - m
        });
        at_root
    }
}

/// Opening of an expansion valve, 0 to 1, before any fault.
pub(crate) fn txv_opening(metering: &Metering, bulb_pressure_pa: f64, evaporator_pa: f64) -> f64 {
    match metering {
        Metering::Txv { spring_pa, gradient_pa, bleed, .. } => {
            ((bulb_pressure_pa - evaporator_pa - spring_pa) / gradient_pa).clamp(*bleed, 1.0)
        }
        Metering::Orifice { .. } => 1.0,
    }
}
