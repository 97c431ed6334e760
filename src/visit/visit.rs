//! The visit itself: plant, site, instruments and notebook, and the clock that moves them on together.

use std::collections::VecDeque;

use call::{Call, Milestone, Seeded};
use plant::{Inputs, Plant, Readout, StepError, Strides};

use crate::cycle::Cycle;
use crate::event::{Timed, Wrong};
use crate::hazard::Hazard;
use crate::instruments::InstrumentBag;
use crate::moves::Move;
use crate::notebook::{Entry, Running};
use crate::perform::Task;
use crate::site::Site;
use crate::trend::{Trend, compressor_runs};

/// One tick, s: the plant's own step. Everything in a visit happens on a tick, so how the window slices the
/// time never shows in the results.
pub(crate) const TICK_S: f64 = plant::BASE_STEP_S;

/// Longest visit, s: a week. After that the clock stands; no call needs a tenth of it.
pub const VISIT_LIMIT_S: f64 = 7.0 * 24.0 * 3600.0;

/// Speeds of the fans a tick ago, 0 to 1 of their running speeds: a fan that gains or loses speed is not slow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spin {
    pub blower: f64,
    pub outdoor_fan: f64,
}

impl Spin {
    fn of(truth: &Readout) -> Spin {
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
    fn strides() -> Pace {
        Pace::Strides { strides: Box::default(), owed: 0, next: 0 }
    }
}

/// Ticks that will pass before anything can be done to the plant, where nobody knows of any.
pub(crate) const NO_END: u64 = u64::MAX / 2;

/// How the plant of a shadow is stepped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShadowPace {
    /// In long strides where nothing happens.
    Strides,
    /// As the real plant: slow, to hold the other against.
    EveryTick,
}

/// Who makes a visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Who {
    Learner,
    Member,
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
    /// Arrives at a call: closes its ranges by the seed and runs the plant's history with the customer's
    /// thermostat.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers during its history.
    pub fn start(call: &Call, seed: u64) -> Result<Visit, StepError> {
        let seeded = call::seed(call, seed);
        Visit::arrive(call, seeded, Pace::EveryTick, Who::Learner)
    }

    /// The same arrival (house, weather, history, instruments) with other faults and another charge in place
    /// of the seeded ones: a rival plant, to hold its readings against those taken.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers during its history.
    pub fn start_with(
        call: &Call,
        seed: u64,
        faults: &[plant::Fault],
        charge_kg: f64,
    ) -> Result<Visit, StepError> {
        Visit::arrive(call, with(call, seed, faults, charge_kg), Pace::EveryTick, Who::Learner)
    }

    /// The arrival of a shadow: what would be met if these faults and this charge were in place, in house and weather as
    /// the call's file tells them and not as a seed drew them. Its instruments show what they have settled to, without
    /// error and without steps of the display, and its plant goes in long strides where nothing happens. Its entries are predictions,
    /// not readings; their uncertainty is by how much the value has swung lately. A search on it finds what would be found
    /// if there were a leak: whether there is one is for who asks to say.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers during its history.
    pub fn start_shadow(
        call: &Call,
        shares: call::SurroundingShares,
        faults: &[plant::Fault],
        charge_kg: f64,
        pace: ShadowPace,
    ) -> Result<Visit, StepError> {
        let (room, weather) = call::surroundings_at(call, shares);
        let seeded = Seeded { seed: 0, room, weather, charge_kg, faults: faults.to_vec() };
        let pace = match pace {
            ShadowPace::Strides => Pace::strides(),
            ShadowPace::EveryTick => Pace::EveryTick,
        };
        Visit::arrive(call, seeded, pace, Who::Member)
    }

    fn arrive(call: &Call, seeded: Seeded, mut pace: Pace, who: Who) -> Result<Visit, StepError> {
        let mut plant = Plant::new(
            &call.system,
            seeded.room.clone(),
            seeded.weather.clone(),
            seeded.charge_kg,
            &seeded.faults,
        );
        let inputs = Inputs { thermostat: call.thermostat.clone(), ..Inputs::default() };
        let mut running = Running::default();
        let mut cycle = (who == Who::Member).then(Cycle::default);
        let mut left = libm::round(call.history_s / TICK_S) as u64;
        while left > 0 {
            let ticks = match &mut pace {
                Pace::EveryTick => {
                    plant::step(&mut plant, &inputs, TICK_S)?;
                    1
                }
                Pace::Strides { strides, .. } => {
                    whole_ticks(strides.go(&mut plant, &inputs, left as f64 * TICK_S)?)
                }
            };
            running.follow(&plant, ticks as f64 * TICK_S);
            left -= ticks;
            if let Some(cycle) = &mut cycle {
                cycle.follow(&running, &plant);
            }
        }
        let time_s = plant.time_s();
        let wrong = seeded.faults.iter().map(|fault| Wrong { fault: fault.clone(), until_s: None }).collect();
        let seed = seeded.seed;
        let kit = match who {
            Who::Learner => InstrumentBag::new(seed, &seeded.weather),
            Who::Member => InstrumentBag::without_error(&seeded.weather),
        };
        Ok(Visit {
            spin_before: Spin::of(plant.readout()),
            trend: Trend::new(plant.readout()),
            kit,
            running,
            pace,
            cycle,
            site: Site::on_arrival(inputs.thermostat.clone()),
            plant,
            inputs,
            notebook: Vec::new(),
            milestones: Vec::new(),
            hazards: Vec::new(),
            timed: Vec::new(),
            wrong,
            paused: false,
            task: None,
            queue: VecDeque::new(),
            credit_s: 0.0,
            arrival_s: time_s,
            call: call.clone(),
            seeded,
            seed,
        })
    }

    /// The clock runs without a move, as in the window at rest. The next move carries its start time, so the
    /// record knows. While a move runs, the time goes to that move; after the ticket is closed, none passes.
    ///
    /// # Errors
    /// If the plant leaves the finite numbers.
    pub fn let_time_pass(&mut self, seconds: f64) -> Result<(), StepError> {
        if !seconds.is_finite() || seconds <= 0.0 {
            return Ok(());
        }
        self.credit_s += seconds.min(VISIT_LIMIT_S);
        // The small allowance undoes rounding in sums of frame times.
        while self.credit_s + 1.0e-9 >= TICK_S && self.clock_runs() {
            let most = whole_ticks(self.credit_s + 1.0e-9).min(self.ticks_to_limit());
            let ticks =
                if self.task.is_some() { self.work_some_ticks(most)? } else { self.tick(most, NO_END)? };
            self.credit_s -= ticks as f64 * TICK_S;
        }
        if !self.clock_runs() {
            self.credit_s = 0.0;
        }
        Ok(())
    }

    /// Whether time can still pass: the ticket is open and the visit is not over its limit.
    pub(crate) fn clock_runs(&self) -> bool {
        !self.site.closed && self.time_s() - self.arrival_s < VISIT_LIMIT_S
    }

    /// Whole ticks until the visit's limit, at least one.
    fn ticks_to_limit(&self) -> u64 {
        whole_ticks(VISIT_LIMIT_S - (self.time_s() - self.arrival_s)).max(1)
    }

    /// At most so many ticks of plant, trend and instruments, and how many they were. For `ahead` ticks, these with them, nobody does
    /// anything to the plant.
    pub(crate) fn tick(&mut self, most: u64, ahead: u64) -> Result<u64, StepError> {
        let Pace::Strides { owed, .. } = &mut self.pace else {
            self.spin_before = Spin::of(self.truth());
            plant::step(&mut self.plant, &self.inputs, TICK_S)?;
            self.follow_plant(TICK_S);
            return Ok(1);
        };
        let free = *owed + ahead;
        *owed += most;
        self.make_strides(free)?;
        Ok(most)
    }

    /// Makes the strides whose ticks have passed, with so many ticks free from where the plant stands.
    fn make_strides(&mut self, mut free: u64) -> Result<(), StepError> {
        while let Pace::Strides { strides, owed, next } = &mut self.pace {
            if *next == 0 {
                *next = whole_ticks(strides.next_s(&mut self.plant, &self.inputs, free as f64 * TICK_S));
            }
            if *next > *owed {
                break;
            }
            let spin_before = Spin::of(self.plant.readout());
            let went_s = strides.go(&mut self.plant, &self.inputs, *next as f64 * TICK_S)?;
            let went = whole_ticks(went_s);
            *owed -= went;
            *next = 0;
            free -= went;
            self.spin_before = spin_before;
            self.follow_plant(went_s);
            if free == 0 {
                break;
            }
        }
        Ok(())
    }

    /// The plant of a shadow goes up to now.
    pub(crate) fn catch_up(&mut self) -> Result<(), StepError> {
        if let Pace::Strides { owed, next, .. } = &mut self.pace
            && *owed > 0
        {
            *next = 0;
            let free = *owed;
            self.make_strides(free)?;
        }
        Ok(())
    }

    /// The same where no error can be told: a plant that fails here fails again at its next step.
    pub(crate) fn catch_up_silently(&mut self) {
        drop(self.catch_up());
    }

    /// Trend, instruments and site after the plant has moved on.
    fn follow_plant(&mut self, step_s: f64) {
        let truth = self.plant.readout();
        self.trend.tick(truth, step_s);
        self.kit.tick(truth, step_s);
        self.running.follow(&self.plant, step_s);
        if let Some(cycle) = &mut self.cycle {
            cycle.follow(&self.running, &self.plant);
        }
        self.site.minutes = (self.plant.time_s() - self.arrival_s) / 60.0;
        if truth.frost_mass_kg > crate::observe::CLEAR_FROST_KG {
            self.site.coil_seen_clear = false;
        }
    }

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

/// Whole ticks in a time.
pub(crate) fn whole_ticks(seconds: f64) -> u64 {
    (seconds / TICK_S) as u64
}

/// A seeded call with other faults and another charge.
fn with(call: &Call, seed: u64, faults: &[plant::Fault], charge_kg: f64) -> Seeded {
    Seeded { faults: faults.to_vec(), charge_kg, ..call::seed(call, seed) }
}
