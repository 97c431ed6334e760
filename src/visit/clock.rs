//! The clock of a visit: plant, trend, instruments and site move on together.

use plant::StepError;

use crate::coil::CLEAR_FROST_KG;
use crate::tick::{NO_END, TICK_S, VISIT_LIMIT_S, whole_ticks};
use crate::visit::{Pace, Spin, Visit};

impl Visit {
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
        if truth.frost_mass_kg > CLEAR_FROST_KG {
            self.site.coil_seen_clear = false;
        }
    }
}
