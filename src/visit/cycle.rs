//! How a shadow cycles: when what runs has started and stopped lately, and what was to be read in each phase.
//!
//! A cycle's phase hangs on small things. So a plant that runs is held against the running phase of a shadow that happens
//! to stand at the moment, and how likely it was to meet it running is a question of its own.

use std::collections::VecDeque;

use plant::Plant;

use crate::notebook::{Measured, Running};
use crate::trend::{WATCHED, true_value};

/// How far back starts, stops and readings are kept, s.
const WINDOW_S: f64 = 7200.0;
const READINGS_WINDOW_S: f64 = 3600.0;
/// Time between two kept readings, s.
const EVERY_S: f64 = 15.0;
/// Starts and stops kept at most.
const MOST_RUNS: usize = 256;
/// Least probability of a phase that a shadow has not shown (engineering value).
const LEAST_CHANCE: f64 = 5.0e-4;
/// Two plants that have started or stopped within this of each other are in step, s.
const IN_STEP_S: f64 = 30.0;
/// Times since a start that are as good as the same, as a share of them.
const ALIKE_SHARE: f64 = 0.3;
/// So many starts and stops within so long are short cycles, s.
const SHORT_RUNS: usize = 4;
const SHORT_WINDOW_S: f64 = 2400.0;
/// Speed of a fan from which it turns, as a share of its running speed.
const TURNS: f64 = 0.2;

/// What starts and stops.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signal {
    /// The thermostat's call for cooling.
    Call,
    /// The blower.
    Blower,
    /// The compressor.
    Compressor,
}

impl Signal {
    /// All of them.
    pub const ALL: [Signal; 3] = [Signal::Call, Signal::Blower, Signal::Compressor];

    /// Whether it is on, and for how long it has been as it is, s.
    pub fn of(self, running: &Running) -> (bool, f64) {
        match self {
            Signal::Call => (running.called, running.called_for_s),
            Signal::Blower => (running.blower, running.blower_for_s),
            Signal::Compressor => (running.compressor, running.compressor_for_s),
        }
    }

    fn index(self) -> usize {
        match self {
            Signal::Call => 0,
            Signal::Blower => 1,
            Signal::Compressor => 2,
        }
    }
}

/// A time in one state that has ended.
#[derive(Clone, Copy, Debug)]
struct Run {
    is_on: bool,
    began_s: f64,
    ended_s: f64,
}

/// What was to be read at a time.
#[derive(Clone, Debug)]
struct Readings {
    time_s: f64,
    compressor: bool,
    compressor_for_s: f64,
    outdoor_fan_turns: bool,
    blower_turns: bool,
    values: [f64; WATCHED.len()],
}

/// Starts and stops of a shadow in the last two hours, and readings of the last one.
#[derive(Clone, Debug, Default)]
pub struct Cycle {
    runs: [VecDeque<Run>; 3],
    now: Running,
    time_s: f64,
    readings: VecDeque<Readings>,
}

impl Cycle {
    /// What ran until now and what runs now.
    pub(crate) fn follow(&mut self, running: &Running, plant: &Plant) {
        let time_s = plant.time_s();
        for (signal, runs) in Signal::ALL.into_iter().zip(&mut self.runs) {
            let (was_on, for_s) = signal.of(&self.now);
            if signal.of(running).0 != was_on && self.time_s > 0.0 {
                runs.push_back(Run { is_on: was_on, began_s: self.time_s - for_s, ended_s: self.time_s });
                if runs.len() > MOST_RUNS {
                    runs.pop_front();
                }
            }
            while runs.front().is_some_and(|run| run.ended_s < time_s - WINDOW_S) {
                runs.pop_front();
            }
        }
        self.now = *running;
        self.time_s = time_s;
        if self.readings.back().is_none_or(|last| time_s - last.time_s >= EVERY_S) {
            let truth = plant.readout();
            self.readings.push_back(Readings {
                time_s,
                compressor: running.compressor,
                compressor_for_s: running.compressor_for_s,
                outdoor_fan_turns: truth.outdoor_fan_speed > TURNS,
                blower_turns: truth.blower_speed > TURNS,
                values: WATCHED.map(|quantity| true_value(truth, quantity)),
            });
            if self.readings.front().is_some_and(|first| first.time_s < time_s - READINGS_WINDOW_S) {
                self.readings.pop_front();
            }
        }
    }

    /// Whether a signal has been in a state at any time lately. A compressor counts while the thermostat's call is as it
    /// is now: what it did before says nothing.
    pub fn has_been(&self, signal: Signal, is_on: bool) -> bool {
        signal.of(&self.now).0 == is_on || self.time_in(signal, is_on, 0.0).0 > 0.0
    }

    /// How likely it is to meet a signal in a state in which it has been for `for_s`: 1 where the shadow is in it for as
    /// long; else the share of the time lately at which that was so, and never less than five in ten thousand.
    pub fn chance_of(&self, signal: Signal, is_on: bool, for_s: f64) -> f64 {
        let (now_on, now_for_s) = signal.of(&self.now);
        if now_on == is_on && now_for_s + IN_STEP_S >= for_s {
            return 1.0;
        }
        let (matched_s, all_s) = self.time_in(signal, is_on, for_s);
        (matched_s / all_s.max(1.0)).clamp(LEAST_CHANCE, 1.0)
    }

    /// Time lately in which a signal had been in a state for `for_s` or longer, and all time looked at, s.
    fn time_in(&self, signal: Signal, is_on: bool, for_s: f64) -> (f64, f64) {
        let mut from_s = self.time_s - WINDOW_S;
        if signal == Signal::Compressor {
            from_s = from_s.max(self.time_s - self.now.called_for_s);
        }
        let (now_on, now_for_s) = signal.of(&self.now);
        let open = Run { is_on: now_on, began_s: self.time_s - now_for_s, ended_s: self.time_s };
        let mut matched_s = 0.0;
        let mut all_s = 0.0;
        for run in self.runs[signal.index()].iter().chain([&open]) {
            let began_s = run.began_s.max(from_s);
            if run.ended_s <= began_s {
                continue;
            }
            all_s += run.ended_s - began_s;
            if run.is_on == is_on {
                matched_s += (run.ended_s - (run.began_s + for_s).max(began_s)).max(0.0);
            }
        }
        (matched_s, all_s)
    }

    /// What a quantity was lately with the compressor in a state for about `for_s`: mean and standard deviation; `None` if
    /// that has not been, or for what no compressor moves.
    pub fn in_phase(&self, quantity: Measured, compressor: bool, for_s: f64) -> Option<(f64, f64)> {
        let index = WATCHED.iter().position(|watched| *watched == quantity)?;
        let apart_s = |readings: &Readings| (readings.compressor_for_s - for_s).abs();
        let alike = |readings: &&Readings| readings.compressor == compressor;
        let nearest_s = self.readings.iter().filter(alike).map(apart_s).reduce(f64::min)?;
        let within_s = nearest_s.max(EVERY_S).max(ALIKE_SHARE * for_s);
        let values: Vec<f64> = self
            .readings
            .iter()
            .filter(alike)
            .filter(|readings| apart_s(readings) <= within_s)
            .map(|readings| readings.values[index])
            .collect();
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let variance = values.iter().map(|value| (value - mean) * (value - mean)).sum::<f64>() / count;
        Some((mean, libm::sqrt(variance)))
    }

    /// Whether a signal has gone on and off by itself in the last hour; where a learner's hand is on the thermostat it has not
    /// settled either.
    pub fn toggles(&self, signal: Signal) -> bool {
        let from_s = self.time_s - READINGS_WINDOW_S;
        self.runs[signal.index()].iter().any(|run| run.ended_s > from_s)
    }

    /// Whether the compressor starts and stops every few minutes while the thermostat calls: where in a cycle it is met
    /// is chance.
    pub fn is_short(&self) -> bool {
        let from_s = (self.time_s - SHORT_WINDOW_S).max(self.time_s - self.now.called_for_s);
        let starts = self.runs[Signal::Compressor.index()].iter().filter(|run| run.ended_s > from_s);
        starts.count() >= SHORT_RUNS
    }

    /// Whether the outdoor fan has turned lately, in a phase of the compressor.
    pub fn outdoor_fan_turned(&self, compressor: bool) -> bool {
        self.readings.iter().any(|readings| readings.compressor == compressor && readings.outdoor_fan_turns)
    }

    /// Whether the blower has turned lately.
    pub fn blower_turned(&self) -> bool {
        self.readings.iter().any(|readings| readings.blower_turns)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cycle(runs: &[(bool, f64)]) -> Cycle {
        let mut cycle = Cycle::default();
        let mut time_s = 0.0;
        for (is_on, length_s) in &runs[..runs.len() - 1] {
            cycle.runs[2].push_back(Run { is_on: *is_on, began_s: time_s, ended_s: time_s + length_s });
            time_s += length_s;
        }
        let (compressor, compressor_for_s) = runs[runs.len() - 1];
        cycle.time_s = time_s + compressor_for_s;
        cycle.now =
            Running { called: true, called_for_s: 1.0e6, compressor, compressor_for_s, ..Running::default() };
        cycle
    }

    #[test]
    fn a_plant_that_runs_is_charged_to_one_that_short_cycles() {
        let short: Vec<(bool, f64)> =
            (0..10).flat_map(|_| [(true, 10.0), (false, 300.0)]).chain([(false, 20.0)]).collect();
        let short = cycle(&short);
        assert!(short.has_been(Signal::Compressor, true));
        assert_eq!(short.chance_of(Signal::Compressor, true, 2000.0), LEAST_CHANCE);
        let met = short.chance_of(Signal::Compressor, true, 0.0);
        assert!((met - 0.032).abs() < 0.002, "on for 10 s of 310: {met}");
        assert_eq!(short.chance_of(Signal::Compressor, false, 0.0), 1.0, "it stands");
    }

    #[test]
    fn one_that_stands_has_never_run() {
        let stands = cycle(&[(false, 7000.0)]);
        assert!(!stands.has_been(Signal::Compressor, true));
        assert_eq!(stands.chance_of(Signal::Compressor, true, 0.0), LEAST_CHANCE);
        assert_eq!(stands.chance_of(Signal::Compressor, false, 6000.0), 1.0);
    }

    #[test]
    fn a_start_together_is_in_step() {
        let started = cycle(&[(false, 600.0), (true, 60.0)]);
        assert_eq!(started.chance_of(Signal::Compressor, true, 60.0), 1.0);
        assert!(started.chance_of(Signal::Compressor, true, 600.0) < 0.01);
    }
}
