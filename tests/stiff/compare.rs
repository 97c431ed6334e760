//! The marched plant beside the integrated one.

use plant::equations::Equations;
use plant::{Inputs, Plant, Readout, step};

use crate::{Effort, State, integrate};

/// Both solutions at one time.
#[derive(Clone, Debug)]
pub struct Sample {
    /// Plant time, s.
    pub time_s: f64,
    /// States and readings of the marching step.
    pub marched: (State, Readout),
    /// States and readings of the stiff solver.
    pub integrated: (State, Readout),
}

/// Two solutions that started in one state.
#[derive(Clone, Debug, Default)]
pub struct Run {
    /// Both solutions, a sample a second (or the period that was asked for).
    pub samples: Vec<Sample>,
    /// What the stiff solver did.
    pub effort: Effort,
}

/// How both solutions are made.
#[derive(Clone, Copy, Debug)]
pub struct Settings {
    /// Time between samples, s, a multiple of the marching step.
    pub period_s: f64,
    /// Step of the marching solution, s.
    pub march_step_s: f64,
    /// Tolerance of the stiff solver.
    pub tolerance: f64,
}

impl Default for Settings {
    /// A sample a second of the program's own step, and a tolerance that leaves the solver's own error far below it.
    fn default() -> Self {
        Settings { period_s: 1.0, march_step_s: plant::BASE_STEP_S, tolerance: 1.0e-7 }
    }
}

impl Run {
    /// Go on for `seconds` under `inputs` from `plants` (marched, integrated); each solution keeps its own state, and the
    /// solver starts anew at the times after a switch at which a motor reaches its speed.
    ///
    /// # Errors
    /// When either solution cannot go on.
    pub fn extend(
        &mut self,
        plants: &mut (Plant, Plant),
        inputs: &Inputs,
        seconds: f64,
        settings: &Settings,
    ) -> Result<(), String> {
        let Settings { period_s, march_step_s, tolerance } = *settings;
        let (marched, integrated) = plants;
        let mut equations = Equations::new(integrated, inputs);
        let start_s = integrated.time_s();
        let mut breaks = KINKS_S.to_vec();
        breaks.retain(|&kink_s| kink_s < seconds);
        breaks.push(seconds);
        let (mut from_s, mut state) = (0.0, Equations::state(integrated));
        for to_s in breaks {
            let mut times = vec![start_s + from_s];
            let first = (from_s / period_s).floor() as u64 + 1;
            times.extend(
                (first..).map(|n| n as f64 * period_s).take_while(|&t| t < to_s).map(|t| start_s + t),
            );
            times.push(start_s + to_s);
            let (states, effort) = integrate(&equations, &state, &times, tolerance)?;
            self.effort.steps += effort.steps;
            self.effort.evaluations += effort.evaluations;
            for (&time_s, &integrated_state) in times.iter().zip(&states).skip(1) {
                let steps = ((time_s - marched.time_s()) / march_step_s).round() as u64;
                for _ in 0..steps {
                    step(marched, inputs, march_step_s).map_err(|error| error.to_string())?;
                }
                // Both states are read in the same way.
                let marched_state = Equations::state(marched);
                let marched_readout = equations.readout(time_s, &marched_state);
                let integrated_readout = equations.readout(time_s, &integrated_state);
                self.samples.push(Sample {
                    time_s,
                    marched: (marched_state, marched_readout),
                    integrated: (integrated_state, integrated_readout),
                });
            }
            state = *states.last().unwrap_or(&state);
            from_s = to_s;
        }
        *integrated = equations.plant(start_s + seconds, &state);
        Ok(())
    }
}

/// Times after a switch at which a motor reaches its speed, s: compressor 0.5, outdoor fan 2 and 6, blower 3 and 12.
const KINKS_S: [f64; 5] = [0.5, 2.0, 3.0, 6.0, 12.0];

/// Part of a run.
#[derive(Clone, Copy, Debug)]
pub struct Window {
    /// From this plant time, s.
    pub from_s: f64,
    /// To this plant time, s.
    pub to_s: f64,
    /// How much earlier or later things may happen by themselves, s. The last liquid of a condenser leaves when a small difference
    /// of pressure says, and pressure then falls by 1 % a second: it is compared with what the other solution has within this time.
    pub early_or_late_s: f64,
}

/// How far the solutions stand apart in one quantity.
#[derive(Clone, Debug)]
pub struct Difference {
    /// Name and unit.
    pub name: &'static str,
    /// Largest difference, marched less integrated, by size.
    pub most: f64,
    /// When it was, s.
    pub at_s: f64,
    /// Root of the mean square.
    pub rms: f64,
}

type Quantity = (&'static str, fn(&(State, Readout)) -> f64, bool);

/// What is compared; true: as a share of the integrated value.
const QUANTITIES: [Quantity; 24] = [
    ("suction pressure, share", |s| s.1.suction_pressure_pa, true),
    ("liquid pressure, share", |s| s.1.liquid_pressure_pa, true),
    ("condenser charge, kg", |s| s.0[0], false),
    ("liquid line charge, kg", |s| s.0[2], false),
    ("low side charge, kg", |s| s.0[4], false),
    ("condenser wall, K", |s| s.0[6], false),
    ("coil wall, K", |s| s.0[7], false),
    ("winding, K", |s| s.0[8], false),
    ("bulb, K", |s| s.0[9], false),
    ("suction line outdoors, K", |s| s.1.suction_line_outdoor_k, false),
    ("discharge line, K", |s| s.1.discharge_k, false),
    ("superheat, K", |s| s.1.superheat_k, false),
    ("subcooling, K", |s| s.1.subcooling_k, false),
    ("supply air, K", |s| s.1.supply_dry_bulb_k, false),
    ("compressor power, W", |s| s.1.compressor_power_w, false),
    ("gross cooling, W", |s| s.1.gross_cooling_w, false),
    ("compressor energy, share", |s| s.0[16], true),
    ("heat from room air, share", |s| s.0[17], true),
    ("ice, kg", |s| s.0[10], false),
    ("iced share", |s| s.0[11], false),
    ("airflow, m³/s", |s| s.1.airflow_m3_s, false),
    ("room air, K", |s| s.0[13], false),
    ("room humidity ratio", |s| s.0[15], false),
    ("all refrigerant, kg", |s| s.1.charge_total_kg, false),
];

/// The differences of a run within a window, by quantity.
#[must_use]
pub fn differences(run: &Run, window: Window) -> Vec<Difference> {
    QUANTITIES
        .iter()
        .map(|&(name, value, as_share)| {
            let mut difference = Difference { name, most: 0.0, at_s: window.from_s, rms: 0.0 };
            let mut count = 0.0;
            for sample in &run.samples {
                if sample.time_s < window.from_s || sample.time_s > window.to_s {
                    continue;
                }
                let marched = value(&sample.marched);
                let near = run
                    .samples
                    .iter()
                    .filter(|other| (other.time_s - sample.time_s).abs() <= window.early_or_late_s)
                    .map(|other| value(&other.integrated));
                let (least, most) = near.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), now| {
                    (least.min(now), most.max(now))
                });
                let integrated = marched.clamp(least, most);
                let gap = (marched - integrated) / if as_share { integrated.abs().max(1.0e-9) } else { 1.0 };
                if gap.abs() > difference.most.abs() {
                    (difference.most, difference.at_s) = (gap, sample.time_s);
                }
                difference.rms += gap * gap;
                count += 1.0;
            }
            difference.rms = (difference.rms / f64::max(count, 1.0)).sqrt();
            difference
        })
        .collect()
}
