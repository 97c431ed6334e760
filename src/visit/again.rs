//! A visit made again under the eyes of whoever has something to note: one way through it serves them all.

use plant::StepError;

use crate::moves::Move;
use crate::notebook::Entry;
use crate::visit::{VISIT_LIMIT_S, Visit};

/// Someone who looks on while a visit is made again. How often is its own affair: in whatever slices the time passes, the visit is the same.
///
/// A visit made again is a row of stretches: the time without a move, and each move from its begin to its end.
pub trait Onlooker {
    /// The visit has arrived; it will go on until plant time `until_s`.
    fn arrives(&mut self, visit: &Visit, until_s: f64);

    /// Plant time between two looks within a stretch, s; asked once, after the arrival.
    fn interval_s(&self) -> f64;

    /// A stretch without a move begins.
    fn rests(&mut self, _visit: &Visit) {}

    /// A move is about to begin.
    fn comes_to_move(&mut self, _visit: &Visit) {}

    /// A move has begun.
    fn begins_move(&mut self, _visit: &Visit) {}

    /// Within a stretch an interval has passed since the last look or since its begin, or the stretch is at its end.
    fn looks(&mut self, visit: &Visit);

    /// A move is done, and this is its entry.
    fn ends_move(&mut self, _visit: &Visit, _entry: &Entry) {}

    /// The visit is at its end.
    fn leaves(&mut self, _visit: &Visit) {}
}

/// Who looks on, with the interval of each, s.
pub(crate) struct Onlookers<'a, 'b> {
    all: &'a mut [&'b mut dyn Onlooker],
    intervals_s: Vec<f64>,
}

impl<'a, 'b> Onlookers<'a, 'b> {
    /// Lets them see an arrival.
    pub(crate) fn arrive(
        all: &'a mut [&'b mut dyn Onlooker],
        visit: &Visit,
        until_s: f64,
    ) -> Onlookers<'a, 'b> {
        let mut intervals_s = Vec::with_capacity(all.len());
        for one in all.iter_mut() {
            one.arrives(visit, until_s);
            intervals_s.push(one.interval_s());
        }
        Onlookers { all, intervals_s }
    }

    /// Lets time pass without a move up to a plant time, or until none passes any more.
    pub(crate) fn rest_until(&mut self, visit: &mut Visit, until_s: f64) -> Result<(), StepError> {
        let mut left_s = until_s - visit.time_s();
        if left_s <= 0.0 {
            return Ok(());
        }
        self.tell(|one| one.rests(visit));
        self.go_through(visit, |visit, most_s| {
            let before_s = visit.time_s();
            let slice_s = left_s.min(most_s);
            left_s -= slice_s;
            visit.let_time_pass(slice_s)?;
            Ok(if left_s > 0.0 && visit.time_s() > before_s { Stretch::GoesOn } else { Stretch::Ends })
        })
    }

    /// Makes a move from its begin to its end.
    pub(crate) fn make(&mut self, visit: &mut Visit, action: &Move) -> Result<(), StepError> {
        self.tell(|one| one.comes_to_move(visit));
        visit.begin(action);
        self.tell(|one| one.begins_move(visit));
        if visit.busy().is_some() {
            self.go_through(visit, |visit, most_s| {
                visit.work(most_s)?;
                Ok(if visit.busy().is_some() { Stretch::GoesOn } else { Stretch::Ends })
            })?;
        }
        if let Some(entry) = visit.notebook().last() {
            self.tell(|one| one.ends_move(visit, entry));
        }
        Ok(())
    }

    /// Nothing more comes.
    pub(crate) fn leave(&mut self, visit: &Visit) {
        self.tell(|one| one.leaves(visit));
    }

    fn tell(&mut self, mut told: impl FnMut(&mut dyn Onlooker)) {
        for one in self.all.iter_mut() {
            told(&mut **one);
        }
    }

    /// Goes through a stretch by slices that end where the next look of anybody is due.
    fn go_through(
        &mut self,
        visit: &mut Visit,
        mut go_on: impl FnMut(&mut Visit, f64) -> Result<Stretch, StepError>,
    ) -> Result<(), StepError> {
        let began_s = visit.time_s();
        let mut due_s: Vec<f64> = self.intervals_s.clone();
        let mut passed_s = 0.0;
        loop {
            let next_s = due_s.iter().copied().fold(VISIT_LIMIT_S + passed_s, f64::min);
            let stretch = go_on(visit, next_s - passed_s)?;
            passed_s = visit.time_s() - began_s;
            for ((one, due_s), interval_s) in self.all.iter_mut().zip(&mut due_s).zip(&self.intervals_s) {
                if passed_s >= *due_s || stretch == Stretch::Ends {
                    one.looks(visit);
                    *due_s = passed_s + interval_s;
                }
            }
            if stretch == Stretch::Ends {
                return Ok(());
            }
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Stretch {
    GoesOn,
    Ends,
}

/// Makes a visit again from its call, its seed and its moves.
///
/// # Errors
/// If the plant leaves the finite numbers.
pub fn make_again(visit: &Visit, onlookers: &mut [&mut dyn Onlooker]) -> Result<(), StepError> {
    let mut again = Visit::start(visit.call(), visit.seed())?;
    let mut onlookers = Onlookers::arrive(onlookers, &again, visit.time_s());
    for entry in visit.notebook() {
        onlookers.rest_until(&mut again, entry.started_s)?;
        onlookers.make(&mut again, &entry.action)?;
    }
    onlookers.rest_until(&mut again, visit.time_s())?;
    onlookers.leave(&again);
    Ok(())
}
