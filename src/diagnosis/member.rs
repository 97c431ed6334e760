//! One shadow plant: a suspect at one severity, worked through the learner's moves.

use call::{Call, SurroundingShares};
use plant::StepError;
use visit::{Entry, Move, ShadowPace, Visit};

use crate::hypothesis::Hypothesis;
use crate::phase::Fit;

/// A visit to the plant that would be there if a suspect were true.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// How bad, for each cause of the suspect.
    pub(crate) amounts: Vec<f64>,
    /// The visit.
    pub(crate) visit: Visit,
    /// Whether it still follows; one that is out of the question rests.
    pub(crate) follows: bool,
    /// Plant time of the real visit up to which it has followed, s.
    followed_s: f64,
    /// The move that it is making, with the time of the real visit at which that began, s.
    making: Option<(Move, f64)>,
    /// How its entries are to be held against the real ones.
    fits: Vec<Fit>,
}

impl Member {
    /// The shadow on arrival.
    pub(crate) fn arrive(
        call: &Call,
        suspect: &Hypothesis,
        amounts: Vec<f64>,
        onset_s: f64,
        pace: ShadowPace,
    ) -> Result<Member, StepError> {
        let (faults, charge_kg) = suspect.plant(&call.system, &amounts, onset_s);
        let visit = Visit::start_shadow(call, SurroundingShares::MIDDLE, &faults, charge_kg, pace)?;
        Ok(Member::new(visit, amounts))
    }

    /// A sound plant in other surroundings and with another charge, kg, on arrival.
    pub(crate) fn arrive_sound(
        call: &Call,
        shares: SurroundingShares,
        charge_kg: f64,
        pace: ShadowPace,
    ) -> Result<Member, StepError> {
        Ok(Member::new(Visit::start_shadow(call, shares, &[], charge_kg, pace)?, Vec::new()))
    }

    fn new(visit: Visit, amounts: Vec<f64>) -> Member {
        Member { amounts, followed_s: visit.time_s(), visit, follows: true, making: None, fits: Vec::new() }
    }

    /// Goes on to a time of the real visit, at which `running` is being made since `began_s`, if anything is.
    ///
    /// A move may take longer or shorter on the shadow; between moves the time is as long as it was in truth.
    pub(crate) fn go_on(&mut self, running: Option<(&Move, f64)>, to_s: f64) -> Result<(), StepError> {
        let Some((action, began_s)) = running else {
            return self.idle_until(to_s);
        };
        self.begin(action, began_s)?;
        if to_s > self.followed_s && self.visit.busy().is_some() {
            self.visit.work(to_s - self.followed_s)?;
        }
        self.followed_s = self.followed_s.max(to_s);
        Ok(())
    }

    /// Makes the move of an entry to its end, however much of it has been made, unless that is done. `arrival_s` is when the
    /// real visit began.
    pub(crate) fn finish(&mut self, entry: &Entry, arrival_s: f64) -> Result<(), StepError> {
        if self.fits.len() >= entry.number as usize {
            return Ok(());
        }
        self.begin(&entry.action, entry.started_s)?;
        if self.making.as_ref().is_some_and(|(action, _)| *action != entry.action) {
            // A wait that was cut short.
            let left_s = entry.finished_s - self.followed_s;
            if left_s > 0.0 && self.visit.busy().is_some() {
                self.visit.work(left_s)?;
            }
            self.visit.stop_waiting();
        }
        while self.visit.busy().is_some() {
            self.visit.work(3600.0)?;
        }
        self.making = None;
        self.followed_s = entry.finished_s;
        self.fits.push(Fit::of(entry, &self.visit, arrival_s));
        Ok(())
    }

    /// What it gave for the notebook entry of a number, with what ran then.
    pub(crate) fn gave(&self, number: u32) -> Option<&Entry> {
        let index = usize::try_from(number).ok()?.checked_sub(1)?;
        self.visit.notebook().get(index)
    }

    /// How that is to be held against the real entry.
    pub(crate) fn fit(&self, number: u32) -> Option<&Fit> {
        let index = usize::try_from(number).ok()?.checked_sub(1)?;
        self.fits.get(index)
    }

    fn begin(&mut self, action: &Move, began_s: f64) -> Result<(), StepError> {
        if self.making.is_none() {
            self.idle_until(began_s)?;
            self.visit.begin(action);
            self.making = Some((action.clone(), began_s));
        }
        Ok(())
    }

    fn idle_until(&mut self, to_s: f64) -> Result<(), StepError> {
        if to_s > self.followed_s {
            self.visit.let_time_pass(to_s - self.followed_s)?;
            self.followed_s = to_s;
        }
        Ok(())
    }
}
