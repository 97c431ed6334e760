//! How a shadow cycles: when what runs has started and stopped lately, and what was to be read in each phase.
//!
//! A cycle's phase hangs on small things. So a plant that runs is held against the running phase of a shadow that happens
//! to stand at the moment, and how likely it was to meet it running is a question of its own.

use std::collections::VecDeque;

use plant::Plant;

use crate::measured::Measured;
use crate::running::Running;
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
/// The same of a call where the thermostat has called and left off in turn: in a house a little warmer or cooler its runs are longer
/// or shorter (of 143 runs so met, plants at the true severity had not shown two).
const LEAST_CHANCE_OF_A_CALL: f64 = 0.02;
/// Two plants that have started or stopped within this of each other are in step, s.
const IN_STEP_S: f64 = 30.0;
/// Times since a start that are as good as the same, as a share of them.
const ALIKE_SHARE: f64 = 0.3;
/// So many starts and stops within so long are short cycles, s.
const SHORT_RUNS: usize = 4;
const SHORT_WINDOW_S: f64 = 2400.0;
/// Time after a call begins by which every compressor that can run runs, s.
const LONGEST_DELAY_S: f64 = 400.0;
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

/// What a hand has set has happened within this, s.
const BY_HAND_S: f64 = 60.0;

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

    /// Whether a signal has been in a state at any time lately while the thermostat called or not, as `met` has it: what a
    /// compressor does without a call says nothing of one with a call.
    pub fn has_been(&self, signal: Signal, met: &Running) -> bool {
        let met = Running { called_for_s: 0.0, compressor_for_s: 0.0, blower_for_s: 0.0, ..*met };
        self.time_in(signal, &met).0 > 0.0
    }

    /// How likely it is to meet a signal as it was met, with the time for which it had been so: of a call how often it was so
    /// lately, of what follows the call how often it was so while the call was as it was met. Never less than five in ten
    /// thousand; and where the call itself was never so lately, 1: the call was charged for it. 1 as well for a call that is
    /// as it was met, `by_hand` where neither has changed since the thermostat was set.
    ///
    /// A thermostat that calls in turn is met at any place of its cycle, whichever place the shadow has come to: which plant
    /// happens to be in step with the real one says nothing.
    pub fn chance_of(&self, signal: Signal, met: &Running, by_hand: bool) -> f64 {
        let (is_on, for_s) = signal.of(met);
        let (now_on, now_for_s) = signal.of(&self.now);
        let (matched_s, all_s) = self.time_in(signal, met);
        if signal == Signal::Call && self.lately(Signal::Call).any(|run| run.is_on != now_on) {
            let share = matched_s / all_s.max(1.0);
            return if by_hand && now_on == is_on { 1.0 } else { share.clamp(LEAST_CHANCE_OF_A_CALL, 1.0) };
        }
        if all_s <= 0.0 || now_on == is_on && now_for_s + IN_STEP_S >= for_s {
            return 1.0;
        }
        (matched_s / all_s).clamp(LEAST_CHANCE, 1.0)
    }

    /// Runs of a signal in the window, the one that goes on with them.
    fn lately(&self, signal: Signal) -> impl Iterator<Item = Run> + '_ {
        let from_s = self.time_s - WINDOW_S;
        let (is_on, for_s) = signal.of(&self.now);
        let open = Run { is_on, began_s: self.time_s - for_s, ended_s: self.time_s };
        self.runs[signal.index()].iter().copied().chain([open]).filter(move |run| run.ended_s > from_s)
    }

    /// Time lately in which a signal had been as it was met for as long or longer, and all time in which it could have been,
    /// s: of what follows the call, that in which the call was as it was met for as long.
    fn time_in(&self, signal: Signal, met: &Running) -> (f64, f64) {
        let from_s = (self.time_s - WINDOW_S).max(0.0);
        let (is_on, for_s) = signal.of(met);
        let open_to = |began_s: f64, ended_s: f64| {
            self.lately(signal)
                .filter(|run| run.is_on == is_on)
                .map(|run| (run.ended_s.min(ended_s) - (run.began_s + for_s).max(began_s)).max(0.0))
                .sum::<f64>()
        };
        if signal == Signal::Call {
            return (open_to(from_s, self.time_s), self.time_s - from_s);
        }
        // What follows the call may have begun a moment before the call is as old as it was met.
        let called_for_s = (met.called_for_s - IN_STEP_S).max(0.0);
        let mut matched_s = 0.0;
        let mut all_s = 0.0;
        for call in self.lately(Signal::Call).filter(|call| call.is_on == met.called) {
            let began_s = (call.began_s + called_for_s).max(from_s);
            if call.ended_s > began_s {
                all_s += call.ended_s - began_s;
                matched_s += open_to(began_s, call.ended_s);
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

    /// The same without what a hand did, at times of this plant, s: a call obeys at once, a compressor starts after its delay.
    pub fn toggles_by_itself(&self, signal: Signal, by_hand_s: impl Iterator<Item = f64> + Clone) -> bool {
        let from_s = self.time_s - READINGS_WINDOW_S;
        let by_hand = |run: &&Run| {
            let obeys_s =
                if signal == Signal::Compressor && !run.is_on { LONGEST_DELAY_S } else { BY_HAND_S };
            by_hand_s.clone().any(|at_s| (-BY_HAND_S..obeys_s).contains(&(run.ended_s - at_s)))
        };
        self.runs[signal.index()].iter().filter(|run| run.ended_s > from_s).any(|run| !by_hand(&run))
    }

    /// Whether the compressor has stood lately while the thermostat had called for longer than any delay of a start.
    pub fn stood_under_call(&self) -> bool {
        let met = Running { called: true, called_for_s: LONGEST_DELAY_S, ..Running::default() };
        self.time_in(Signal::Compressor, &met).0 > 0.0
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

    fn met(compressor: bool, compressor_for_s: f64) -> Running {
        Running { called: true, called_for_s: 7000.0, compressor, compressor_for_s, ..Running::default() }
    }

    /// Off and on by hand is no cycling; a protector that opens after half an hour is.
    #[test]
    fn what_a_hand_did_is_not_done_by_itself() {
        let run = |is_on, began_s, ended_s| Run { is_on, began_s, ended_s };
        let mut cycle = Cycle { time_s: 4000.0, ..Cycle::default() };
        cycle.runs[Signal::Compressor.index()].extend([run(true, 0.0, 1000.0), run(false, 1000.0, 1330.0)]);
        let by_hand = [1000.0, 1020.0];
        let toggles = |cycle: &Cycle| cycle.toggles_by_itself(Signal::Compressor, by_hand.into_iter());
        assert!(cycle.toggles(Signal::Compressor) && !toggles(&cycle));
        cycle.runs[Signal::Compressor.index()].push_back(run(true, 1330.0, 3130.0));
        assert!(toggles(&cycle));
    }

    #[test]
    fn a_plant_that_runs_is_charged_to_one_that_short_cycles() {
        let short: Vec<(bool, f64)> =
            (0..10).flat_map(|_| [(true, 10.0), (false, 300.0)]).chain([(false, 20.0)]).collect();
        let short = cycle(&short);
        assert!(short.has_been(Signal::Compressor, &met(true, 0.0)));
        assert_eq!(short.chance_of(Signal::Compressor, &met(true, 2000.0), true), LEAST_CHANCE);
        let chance = short.chance_of(Signal::Compressor, &met(true, 0.0), true);
        assert!((chance - 0.032).abs() < 0.002, "on for 10 s of 310: {chance}");
        assert_eq!(short.chance_of(Signal::Compressor, &met(false, 0.0), true), 1.0, "it stands");
    }

    #[test]
    fn one_that_stands_has_never_run() {
        let stands = cycle(&[(false, 7000.0)]);
        assert!(!stands.has_been(Signal::Compressor, &met(true, 0.0)));
        assert_eq!(stands.chance_of(Signal::Compressor, &met(true, 0.0), true), LEAST_CHANCE);
        assert_eq!(stands.chance_of(Signal::Compressor, &met(false, 6000.0), true), 1.0);
    }

    /// A thermostat that calls for ten minutes in twenty, and a compressor that follows it; now both are off.
    fn calls_in_turn() -> Cycle {
        let mut cycle = Cycle::default();
        for start in 0..5 {
            let began_s = 1200.0 * f64::from(start);
            for signal in [Signal::Call, Signal::Compressor] {
                cycle.runs[signal.index()].push_back(Run { is_on: false, began_s, ended_s: began_s + 600.0 });
                let on = Run { is_on: true, began_s: began_s + 600.0, ended_s: began_s + 1200.0 };
                cycle.runs[signal.index()].push_back(on);
            }
        }
        cycle.time_s = 6100.0;
        cycle.now = Running { called_for_s: 100.0, compressor_for_s: 100.0, ..Running::default() };
        cycle
    }

    #[test]
    fn what_follows_the_call_is_not_charged_for_it() {
        let shadow = calls_in_turn();
        let met = |called_for_s, compressor| Running {
            called: true,
            called_for_s,
            compressor,
            compressor_for_s: called_for_s,
            ..Running::default()
        };
        let call = shadow.chance_of(Signal::Call, &met(100.0, true), false);
        assert!((call - 0.41).abs() < 0.01, "it calls for 500 s of 1,200 for so long: {call}");
        assert!(shadow.chance_of(Signal::Compressor, &met(100.0, true), false) > 0.9);
        assert_eq!(shadow.chance_of(Signal::Compressor, &met(400.0, false), false), LEAST_CHANCE);
        assert!(shadow.has_been(Signal::Compressor, &met(100.0, true)));
        // No call of its has lasted so long: that is charged once.
        assert_eq!(shadow.chance_of(Signal::Call, &met(1500.0, true), false), LEAST_CHANCE_OF_A_CALL);
        assert_eq!(shadow.chance_of(Signal::Compressor, &met(1500.0, true), false), 1.0);
    }

    #[test]
    fn which_place_of_its_cycle_a_shadow_has_come_to_says_nothing() {
        let (mut here, there) = (calls_in_turn(), calls_in_turn());
        here.runs[Signal::Call.index()].push_back(Run { is_on: false, began_s: 6000.0, ended_s: 6040.0 });
        here.now = Running { called: true, called_for_s: 60.0, ..Running::default() };
        let met = Running { called: true, called_for_s: 60.0, ..Running::default() };
        let (one, other) =
            (here.chance_of(Signal::Call, &met, false), there.chance_of(Signal::Call, &met, false));
        assert!((one - other).abs() < 0.02, "{one} {other}");
        assert_eq!(here.chance_of(Signal::Call, &met, true), 1.0, "set by hand, both obey");
    }

    #[test]
    fn a_start_together_is_in_step() {
        let started = cycle(&[(false, 600.0), (true, 60.0)]);
        assert_eq!(started.chance_of(Signal::Compressor, &met(true, 60.0), true), 1.0);
        assert!(started.chance_of(Signal::Compressor, &met(true, 600.0), true) < 0.01);
    }
}
