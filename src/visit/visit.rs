//! The visit itself: plant, site, instruments and notebook, and the move that is being made. What moves them on stands in files
//! above: `arrival.rs`, `clock.rs`, `perform.rs`.

use std::collections::VecDeque;

use call::{Call, Milestone, Seeded};
use plant::{Inputs, Plant, Readout, Strides};

use crate::action::Move;
use crate::cycle::Cycle;
use crate::event::{Timed, Wrong};
use crate::hazard::Hazard;
use crate::instruments::InstrumentBag;
use crate::note::Note;
use crate::notebook::{Entry, Outcome};
use crate::running::{Running, compressor_runs};
use crate::sight::Observation;
use crate::site::Site;
use crate::tick::TICK_S;
use crate::trend::Trend;

/// Speeds of the fans a tick ago, 0 to 1 of their running speeds: a fan that gains or loses speed is not slow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spin {
    pub blower: f64,
    pub outdoor_fan: f64,
}

impl Spin {
    pub(crate) fn of(truth: &Readout) -> Spin {
        Spin { blower: truth.blower_speed, outdoor_fan: truth.outdoor_fan_speed }
    }
}

/// How the plant is led under the visit's ticks.
#[derive(Clone, Debug)]
pub(crate) enum Pace {
    /// Each tick is a step.
    EveryTick,
    /// Long strides where nothing happens, for plants that nobody looks at closely. A stride is made once all its ticks have passed, so that
    /// in whatever slices the time comes, the strides are the same; whoever looks at the plant before has it `catch_up`.
    Strides {
        strides: Box<Strides>,
        /// Ticks that have passed and that the plant has still to go.
        owed: u64,
        /// Ticks of the next stride; 0 where it is not known yet.
        next: u64,
    },
}

impl Pace {
    pub(crate) fn strides() -> Pace {
        Pace::Strides { strides: Box::default(), owed: 0, next: 0 }
    }
}

/// One learner's work on one call.
#[derive(Clone, Debug)]
pub struct Visit {
    pub(crate) plant: Plant,
    pub(crate) inputs: Inputs,
    pub(crate) site: Site,
    pub(crate) kit: InstrumentBag,
    pub(crate) trend: Trend,
    pub(crate) notebook: Vec<Entry>,
    pub(crate) milestones: Vec<(Milestone, u32)>,
    pub(crate) hazards: Vec<(Hazard, u32)>,
    pub(crate) timed: Vec<Timed>,
    pub(crate) wrong: Vec<Wrong>,
    pub(crate) paused: bool,
    pub(crate) task: Option<Task>,
    pub(crate) queue: VecDeque<Move>,
    pub(crate) spin_before: Spin,
    pub(crate) running: Running,
    pub(crate) pace: Pace,
    pub(crate) cycle: Option<Cycle>,
    pub(crate) credit_s: f64,
    pub(crate) arrival_s: f64,
    pub(crate) call: Call,
    pub(crate) seeded: Seeded,
    pub(crate) seed: u64,
}

impl Visit {
    /// Plant time, s. Arrival is at the end of the call's history.
    pub fn time_s(&self) -> f64 {
        self.plant.time_s()
    }

    /// Plant time of the arrival, s.
    pub fn arrival_s(&self) -> f64 {
        self.arrival_s
    }

    /// Steps and leaps that the plant of a shadow has made; `None` for a real one.
    pub fn strides_made(&self) -> Option<plant::Made> {
        match &self.pace {
            Pace::EveryTick => None,
            Pace::Strides { strides, .. } => Some(strides.made()),
        }
    }

    /// What runs now, and for how long it has been so.
    pub fn running(&self) -> &Running {
        &self.running
    }

    /// How it has cycled lately; shadows alone keep it.
    pub fn cycle(&self) -> Option<&Cycle> {
        self.cycle.as_ref()
    }

    /// Whether it is a shadow, which predicts and reads nothing.
    pub(crate) fn is_shadow(&self) -> bool {
        self.cycle.is_some()
    }

    /// Time since arrival, min.
    pub fn clock_minutes(&self) -> f64 {
        (self.time_s() - self.arrival_s) / 60.0
    }

    /// Hour of the day on the site, h (0 to 24).
    pub fn hour_of_day(&self) -> f64 {
        self.seeded.weather.hour_of_day(self.time_s())
    }

    /// Every entry so far, in order.
    pub fn notebook(&self) -> &[Entry] {
        &self.notebook
    }

    /// The call.
    pub fn call(&self) -> &Call {
        &self.call
    }

    /// The seed.
    pub fn seed(&self) -> u64 {
        self.seed
    }

    /// The call with its ranges closed, as it was on arrival: what is wrong is asked of [`Visit::wrong`].
    pub fn seeded(&self) -> &Seeded {
        &self.seeded
    }

    /// State of the site.
    pub fn site(&self) -> &Site {
        &self.site
    }

    /// What is set from outside the plant.
    pub fn inputs(&self) -> &Inputs {
        &self.inputs
    }

    /// The plant, for marks, reviews and drawings.
    pub fn plant(&self) -> &Plant {
        &self.plant
    }

    /// True values of the plant.
    pub fn truth(&self) -> &Readout {
        self.plant.readout()
    }

    /// Every milestone with the number of the entry that reached it, in order, repeats included.
    pub fn milestones(&self) -> &[(Milestone, u32)] {
        &self.milestones
    }

    /// What was done in an unsafe way, with the number of the entry, in order.
    pub fn hazards(&self) -> &[(Hazard, u32)] {
        &self.hazards
    }

    /// Whether the ticket is closed.
    pub fn is_closed(&self) -> bool {
        self.site.closed
    }

    /// Parts and refrigerant used, in the money of the price list.
    pub fn cost(&self) -> f64 {
        self.site.cost
    }

    /// Whether the outdoor unit could start: disconnect in and low voltage present.
    pub(crate) fn has_power(&self) -> bool {
        self.inputs.outdoor_disconnect == plant::Switch::Closed
            && self.inputs.indoor_service_switch == plant::Switch::Closed
    }

    pub(crate) fn compressor_runs(&self) -> bool {
        compressor_runs(self.truth())
    }

    /// Sets the thermostat, on the wall and in the site's view of it.
    pub(crate) fn set_thermostat(&mut self, settings: plant::ThermostatSettings) {
        self.inputs.thermostat = settings.clone();
        self.site.thermostat = settings;
    }
}

/// Something done at an instant.
pub(crate) type Act = fn(&mut Visit, &mut Task);
/// Whether waiting is over; asked after every tick.
pub(crate) type Goal = fn(&mut Visit, &mut Task) -> bool;

/// One step of a plan.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Step {
    /// Time passes.
    Pass { ticks: u64 },
    /// Something is done.
    Act(Act),
    /// Time passes until the goal is met or the ticks are used up.
    Until { goal: Goal, ticks: u64 },
}

/// A move that is being made.
#[derive(Clone, Debug)]
pub(crate) struct Task {
    pub(crate) action: Move,
    pub(crate) number: u32,
    pub(crate) started_s: f64,
    pub(crate) steps: VecDeque<Step>,
    pub(crate) ticks_in_step: u64,
    pub(crate) ticks_done: u64,
    pub(crate) outcome: Outcome,
    pub(crate) notes: Vec<Note>,
    pub(crate) reached: Vec<Milestone>,
    pub(crate) hazards: Vec<Hazard>,
    pub(crate) memo: Memo,
    /// When the move ends at the latest, and what is done then.
    pub(crate) limit: Option<Limit>,
}

/// The latest end of a move.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Limit {
    pub(crate) ticks: u64,
    pub(crate) end: Act,
}

/// What a move remembers from one of its steps to the next.
#[derive(Clone, Debug, Default)]
pub(crate) struct Memo {
    /// A mass at the start of what is being weighed, kg.
    pub mass_before_kg: f64,
    /// The mass a minute ago, kg, and when that was looked at, in ticks of the step.
    pub mass_a_minute_ago_kg: f64,
    pub mass_looked_at_tick: u64,
    /// For how many ticks a goal has held.
    pub held_ticks: u64,
    /// Whether the goal of a wait was met before its limit.
    pub goal_met: GoalMet,
    /// A pressure before something was done, Pa gauge, and the highest since.
    pub pressure_before_pa: Option<f64>,
    pub pressure_peak_pa: f64,
    pub pressure_least_pa: f64,
    /// Thermostat to go back to.
    pub thermostat_before: Option<plant::ThermostatSettings>,
    /// Ice on the coil before a wait, kg.
    pub frost_before_kg: f64,
    /// What stood on a thermometer at the start, K.
    pub temperature_before_k: f64,
    /// Refrigerant that went in or came out before, by the scales, kg.
    pub recovered_before_kg: f64,
    /// What the next step of charging moves: in (positive) or out, kg.
    pub step_kg: f64,
    /// How many steps of charging were made, or how often the recovery machine was started.
    pub steps_made: u32,
}

/// Whether a wait ended by its goal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum GoalMet {
    /// The limit came first, or there was no wait.
    #[default]
    No,
    /// The goal was met.
    Yes,
}

impl Task {
    /// Whole ticks in a time, at least one.
    pub(crate) fn ticks(seconds: f64) -> u64 {
        (libm::round(seconds / TICK_S) as u64).max(1)
    }

    pub(crate) fn note(&mut self, note: impl Into<Note>) {
        self.notes.push(note.into());
    }

    pub(crate) fn see(&mut self, observations: Vec<Observation>) {
        self.outcome = Outcome::Seen(observations);
    }

    /// Ticks done in the present step.
    pub(crate) fn ticks_in_step(&self) -> u64 {
        self.ticks_in_step
    }
}

/// Time passes.
pub(crate) fn pass(seconds: f64) -> Step {
    Step::Pass { ticks: Task::ticks(seconds) }
}

/// Something is done.
pub(crate) fn act(act: Act) -> Step {
    Step::Act(act)
}

/// Time passes until a goal is met, at most so long.
pub(crate) fn until(goal: Goal, limit_s: f64) -> Step {
    Step::Until { goal, ticks: Task::ticks(limit_s) }
}
