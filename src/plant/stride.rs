//! Long strides where nothing happens: a leap, and short steps that say whether it was right.
//!
//! A plant that runs evenly, or stands, changes by nearly the same amount each second. So a stride takes all of it on in a straight line
//! (see [`crate::leap`]) and then goes some ordinary steps. They let pressures and walls come back to where the flows want them, and they
//! measure the rates anew: rates that turn out to be others than those of the leap tell by how much it missed. The next leap is as long as
//! that allows. A leap that missed by far, or after which a switch moves, is taken back, and what it skipped is gone step by step. So the
//! plant settles where the ordinary step settles, and every event falls on an ordinary step.

use crate::air::FilterState;
use crate::event::{Event, StepError};
use crate::leap::{States, clear_s, leap, miss, rates_between, values};
use crate::state::Plant;
use crate::step::step;
use crate::{Fault, Inputs};

/// Step of what is not leapt over, s.
const STEP_S: f64 = 0.5;
/// Parts of an ordinary step while a compressor starts, and how long it does, s.
const START_PARTS: u32 = 2;
const STARTS_S: f64 = 180.0;
/// Steps after a leap before the rates are measured, at least and at most: what rings between pressures and walls goes by half in each. Where
/// leaps have to be short, a valve and its bulb swing around their balance as a rule, and come to rest in steps only: there are
/// more of them then.
const SETTLING_STEPS: (u32, u32) = (2, 10);
/// Steps over which rates are measured: whole seconds, since house and air move once a second.
const MEASURED_STEPS: u32 = 2;
const MEASURED_S: f64 = STEP_S * MEASURED_STEPS as f64;
/// Shortest leap that is worth its steps, longest, and longest of the first one after an event, s.
const LEAST_S: f64 = 2.0;
const MOST_S: f64 = 60.0;
const FIRST_S: f64 = 5.0;
/// What a leap aims to miss by, over what it may.
const AIMED_AT: f64 = 0.64;
/// By how many times as much it may miss while the compressor stands: the pressures ring by some tens of pascals then, and nobody
/// judges a plant at rest by them.
const AT_REST: f64 = 3.0;
/// By how much a leap may miss, in what it may miss, before it is taken back.
const TAKEN_BACK_FROM: f64 = 4.0;
/// How much of a new measurement rates take over that are followed in several ways, and the weights of their misses: those are used whose
/// weighted miss is least. A straight line drives out what swings, a valve and its bulb around their balance, unless it goes
/// along the mean of many strides; what creeps in one direction is better foretold by the last one. So quick rates have to be clearly better.
const FOLLOWED: [(f64, f64); 3] = [(0.08, 1.0), (0.25, 1.3), (0.7, 2.0)];
/// Share of the newest miss in the mean miss of each.
const MISS_SHARE: f64 = 0.3;

/// Rates that are followed in one way, and by how much they missed lately.
#[derive(Clone, Debug)]
struct Rates {
    states: States,
    missed: f64,
}

/// What is known of how a plant moves: kept from stride to stride.
#[derive(Clone, Debug)]
struct Known {
    /// As in [`FOLLOWED`].
    rates: [Rates; FOLLOWED.len()],
    leap_s: f64,
    settling_steps: u32,
}

impl Known {
    fn of(found: States) -> Known {
        Known {
            rates: FOLLOWED.map(|_| Rates { states: found, missed: 0.0 }),
            leap_s: 0.0,
            settling_steps: SETTLING_STEPS.0,
        }
    }

    /// Length of the next leap and the steps after it by how far this one missed.
    fn adapt(&mut self, leap_s: f64, missed: f64) {
        let grows = libm::sqrt(AIMED_AT / missed.max(1.0e-3)).clamp(0.3, 1.5);
        // A leap that was cut short says little about a long one.
        self.leap_s = (leap_s.max(0.5 * self.leap_s) * grows).min(MOST_S);
        let (least, most) = SETTLING_STEPS;
        if grows < 1.0 {
            self.settling_steps = (self.settling_steps + 2).min(most);
        } else if grows > 1.2 {
            self.settling_steps = (self.settling_steps - 2).max(least);
        }
    }

    /// The rates to leap with.
    fn best(&self) -> &States {
        let weighted = |at: &usize| self.rates[*at].missed * FOLLOWED[*at].1;
        let best =
            (1..FOLLOWED.len()).fold(0, |best, at| if weighted(&at) < weighted(&best) { at } else { best });
        &self.rates[best].states
    }

    fn learn(&mut self, found: &States) {
        for (rates, (follow, _)) in self.rates.iter_mut().zip(FOLLOWED) {
            rates.missed += MISS_SHARE * (miss(&rates.states, found, 1.0) - rates.missed);
            for (rate, found) in rates.states.iter_mut().zip(found) {
                *rate += follow * (found - *rate);
            }
        }
    }
}

/// A second that is being measured.
#[derive(Clone, Debug)]
struct Measuring {
    from: States,
    steps: u32,
}

/// Steps and leaps that were made, for figures of what strides save.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Made {
    /// Ordinary steps, those with taken back leaps too.
    pub steps: u64,
    /// Leaps that were right.
    pub leaps: u64,
    /// Leaps that were taken back.
    pub taken_back: u64,
}

/// The plant and its inputs as the last stride left them.
#[derive(Clone, Debug)]
struct Left {
    states: States,
    time_s: f64,
    faults: Vec<Fault>,
    filter: FilterState,
    inputs: Inputs,
}

/// Leads one plant in strides. A plant that something else has moved or changed since, or other inputs, are noticed: what was known is
/// forgotten then, and it goes by ordinary steps until there are new rates.
#[derive(Clone, Debug, Default)]
pub struct Strides {
    known: Option<Known>,
    measuring: Option<Measuring>,
    left: Option<Left>,
    made: Made,
}

impl Strides {
    /// What it has made since it began.
    pub fn made(&self) -> Made {
        self.made
    }

    fn forget(&mut self) {
        self.known = None;
        self.measuring = None;
    }

    /// Length of the stride that [`Strides::go`] tries next, s. Where it has to take a leap back it goes less far.
    pub fn next_s(&mut self, plant: &mut Plant, inputs: &Inputs, at_most_s: f64) -> f64 {
        self.look(plant, inputs);
        match self.next_leap(plant, inputs, at_most_s) {
            Some(leap) => leap.length_s(),
            None => STEP_S.min(at_most_s),
        }
    }

    /// Forgets what it knows of another plant.
    fn look(&mut self, plant: &mut Plant, inputs: &Inputs) {
        let is_known = self.left.as_ref().is_some_and(|left| {
            left.time_s == plant.time_s
                && left.states == values(plant)
                && left.inputs == *inputs
                && left.faults == plant.faults
                && left.filter == plant.filter
        });
        if !is_known {
            self.forget();
        }
    }

    /// Remembers how it leaves the plant.
    fn leave(&mut self, plant: &mut Plant, inputs: &Inputs) {
        let states = values(plant);
        match &mut self.left {
            Some(left) => {
                (left.states, left.time_s, left.filter) = (states, plant.time_s, plant.filter);
                if left.inputs != *inputs {
                    left.inputs.clone_from(inputs);
                }
                if left.faults != plant.faults {
                    left.faults.clone_from(&plant.faults);
                }
            }
            None => {
                self.left = Some(Left {
                    states,
                    time_s: plant.time_s,
                    faults: plant.faults.clone(),
                    filter: plant.filter,
                    inputs: inputs.clone(),
                });
            }
        }
    }

    /// Moves the plant on by one stride, at most by `at_most_s` (above 0), and returns by how much, s. The readout is new at its end.
    ///
    /// # Errors
    /// As of [`step`](crate::step()).
    pub fn go(&mut self, plant: &mut Plant, inputs: &Inputs, at_most_s: f64) -> Result<f64, StepError> {
        self.look(plant, inputs);
        let went_s = self.stride(plant, inputs, at_most_s)?;
        self.leave(plant, inputs);
        Ok(went_s)
    }

    fn stride(&mut self, plant: &mut Plant, inputs: &Inputs, at_most_s: f64) -> Result<f64, StepError> {
        if let Some(went_s) = self.leap(plant, inputs, at_most_s) {
            return Ok(went_s);
        }
        let step_s = STEP_S.min(at_most_s);
        let mut measuring =
            self.measuring.take().unwrap_or_else(|| Measuring { from: values(plant), steps: 0 });
        self.made.steps += 1;
        let course = even_step(plant, inputs, step_s)?;
        if course == Course::Changed {
            self.forget();
            return Ok(step_s);
        }
        if step_s < STEP_S {
            return Ok(step_s);
        }
        measuring.steps += 1;
        if measuring.steps < MEASURED_STEPS {
            self.measuring = Some(measuring);
            return Ok(step_s);
        }
        let found = rates_between(&measuring.from, &values(plant), MEASURED_S);
        if let Some(known) = &mut self.known {
            // Rates that change evenly miss by half of their change over the leap.
            let misses = known.rates.iter().map(|rates| miss(&rates.states, &found, 1.0) / MEASURED_S);
            known.leap_s = libm::sqrt(1.0 / misses.fold(f64::INFINITY, f64::min).max(1.0e-6)).min(FIRST_S);
            known.learn(&found);
        } else {
            self.known = Some(Known::of(found));
        }
        Ok(step_s)
    }

    /// The next leap, if there is one to make.
    fn next_leap(&self, plant: &mut Plant, inputs: &Inputs, at_most_s: f64) -> Option<Leap> {
        let known = self.known.as_ref()?;
        let steps = known.settling_steps + MEASURED_STEPS;
        let longest_s = known.leap_s.min(at_most_s - STEP_S * f64::from(steps));
        if longest_s < LEAST_S {
            return None;
        }
        let rates = *known.best();
        let seconds = libm::floor(longest_s.min(clear_s(plant, inputs, &rates)));
        (seconds >= LEAST_S).then_some(Leap { rates, seconds, steps })
    }

    /// A leap with its steps, and how far it went, s; `None` if there is no leap to make, or it was taken back.
    fn leap(&mut self, plant: &mut Plant, inputs: &Inputs, at_most_s: f64) -> Option<f64> {
        let made = self.next_leap(plant, inputs, at_most_s)?;
        let before = plant.clone();
        self.measuring = None;
        self.made.steps += u64::from(made.steps);
        leap(plant, inputs, &made.rates, made.seconds);
        if let (Some(known), Ok((Course::Even, found))) =
            (&mut self.known, stepped(plant, inputs, made.steps))
        {
            let at_rest = if plant.compressor_runs() { 1.0 } else { AT_REST };
            let missed = miss(&made.rates, &found, made.seconds) / at_rest;
            if missed < TAKEN_BACK_FROM {
                self.made.leaps += 1;
                known.learn(&found);
                known.adapt(made.seconds, missed);
                return Some(made.length_s());
            }
        }
        self.made.taken_back += 1;
        *plant = before;
        self.forget();
        None
    }
}

/// A leap and the steps after it.
struct Leap {
    rates: States,
    seconds: f64,
    steps: u32,
}

impl Leap {
    fn length_s(&self) -> f64 {
        self.seconds + STEP_S * f64::from(self.steps)
    }
}

/// How a step went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Course {
    Even,
    /// Something was switched, runs up or down, or comes and goes.
    Changed,
}

/// The steps after a leap, and the rates of the last second.
fn stepped(plant: &mut Plant, inputs: &Inputs, steps: u32) -> Result<(Course, States), StepError> {
    let mut from = values(plant);
    for at in 0..steps {
        if at == steps - MEASURED_STEPS {
            from = values(plant);
        }
        if even_step(plant, inputs, STEP_S)? == Course::Changed {
            return Ok((Course::Changed, from));
        }
    }
    Ok((Course::Even, rates_between(&from, &values(plant), MEASURED_S)))
}

/// Whether the compressor has just started or may do so within a step. Whether it comes up against what stands in the suction side is
/// decided within a second, and a large one does not at twice the base step where it does at the base step.
fn may_start(plant: &Plant) -> bool {
    !plant.compressor_runs() || plant.compressor_on_for_s() < STARTS_S
}

/// One ordinary step.
fn even_step(plant: &mut Plant, inputs: &Inputs, step_s: f64) -> Result<Course, StepError> {
    let contacts = plant.control.contacts_solved();
    let (had_ice, faults) = (plant.frost.mass_kg > 0.0, plant.faults.len());
    let mut is_quiet = true;
    let parts = if may_start(plant) { START_PARTS } else { 1 };
    for _ in 0..parts {
        let events = step(plant, inputs, step_s / f64::from(parts))?;
        is_quiet &= events.iter().all(|event| event == Event::FloodBack);
    }
    let is_even = plant.control.contacts_solved() == contacts
        && plant.control.turns_evenly()
        && had_ice == (plant.frost.mass_kg > 0.0)
        && faults == plant.faults.len()
        && is_quiet;
    Ok(if is_even { Course::Even } else { Course::Changed })
}
