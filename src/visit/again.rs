//! A visit made again under the eyes of whoever has something to note: one way through it serves them all.

use plant::StepError;

use crate::action::Move;
use crate::event::{CannotHappen, Event, Happening, Timed};
use crate::notebook::Entry;
use crate::tick::VISIT_LIMIT_S;
use crate::visit::Visit;

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

    /// Makes events again, each at its time.
    pub(crate) fn make_all(&mut self, visit: &mut Visit, events: &[Timed]) -> Result<(), AgainError> {
        let mut next = 0;
        while let Some(timed) = events.get(next) {
            check_time(visit, timed.at_s, next + 1)?;
            self.rest_until(visit, timed.at_s)?;
            next += 1;
            match &timed.event {
                Event::Move(action) => {
                    // What happens meanwhile belongs to the move.
                    let meanwhile: Vec<(f64, &Happening)> = events[next..]
                        .iter()
                        .map_while(|timed| match &timed.event {
                            Event::Happening(happening) => Some((timed.at_s, happening)),
                            Event::Move(_) => None,
                        })
                        .collect();
                    // Each at its time or after the one before.
                    let mut before_s = timed.at_s;
                    for (index, (at_s, _)) in meanwhile.iter().enumerate() {
                        if !at_s.is_finite() || *at_s < before_s {
                            let number = next + index + 1;
                            return Err(AgainError::Time { number, at_s: *at_s, earliest_s: before_s });
                        }
                        before_s = *at_s;
                    }
                    next += self.make(visit, action, &meanwhile, next)?;
                }
                Event::Happening(happening) => happen(visit, happening, next)?,
            }
        }
        Ok(())
    }

    /// Makes a move from its begin to its end; returns how much of what was to happen meanwhile did.
    fn make(
        &mut self,
        visit: &mut Visit,
        action: &Move,
        meanwhile: &[(f64, &Happening)],
        number: usize,
    ) -> Result<usize, AgainError> {
        self.tell(|one| one.comes_to_move(visit));
        visit.begin(action);
        self.tell(|one| one.begins_move(visit));
        let mut happened = 0;
        if visit.busy().is_some() {
            let mut refused = Ok(());
            self.go_through(visit, |visit, most_s| {
                while let Some((at_s, happening)) = meanwhile.get(happened) {
                    if *at_s > visit.time_s() || refused.is_err() {
                        break;
                    }
                    happened += 1;
                    refused = happen(visit, happening, number + happened);
                }
                let to_next_s =
                    meanwhile.get(happened).map_or(f64::INFINITY, |(at_s, _)| at_s - visit.time_s());
                visit.work(most_s.min(to_next_s))?;
                let goes_on = visit.busy().is_some() && refused.is_ok();
                Ok(if goes_on { Stretch::GoesOn } else { Stretch::Ends })
            })?;
            refused?;
        }
        if let Some(entry) = visit.notebook().last() {
            self.tell(|one| one.ends_move(visit, entry));
        }
        Ok(happened)
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

/// Why events can't be made again.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum AgainError {
    /// An event begins at a time that cannot be.
    Time { number: usize, at_s: f64, earliest_s: f64 },
    /// Something can't happen.
    Happening { number: usize, why: CannotHappen },
    /// The plant left the finite numbers.
    Step(StepError),
}

impl From<StepError> for AgainError {
    fn from(error: StepError) -> Self {
        AgainError::Step(error)
    }
}

fn happen(visit: &mut Visit, happening: &Happening, number: usize) -> Result<(), AgainError> {
    visit.happen(happening.clone()).map_err(|why| AgainError::Happening { number, why })
}

/// Whether something can begin at a time of the record.
fn check_time(visit: &Visit, at_s: f64, number: usize) -> Result<(), AgainError> {
    match earliest_instead(visit, at_s) {
        Some(earliest_s) => Err(AgainError::Time { number, at_s, earliest_s }),
        None => Ok(()),
    }
}

/// For a time of the record at which nothing can begin, the earliest at which it could, s.
pub(crate) fn earliest_instead(visit: &Visit, at_s: f64) -> Option<f64> {
    let earliest_s = visit.time_s();
    let possible = at_s.is_finite() && at_s >= earliest_s && at_s - visit.arrival_s() <= VISIT_LIMIT_S;
    // After closing no time passes, so nothing can begin later.
    let is_wrong = !possible && at_s != earliest_s || visit.is_closed() && at_s > earliest_s;
    is_wrong.then_some(earliest_s)
}

/// Makes a visit again from its call, its seed and its events.
///
/// # Errors
/// If the plant leaves the finite numbers.
pub fn make_again(visit: &Visit, onlookers: &mut [&mut dyn Onlooker]) -> Result<(), StepError> {
    let mut again = Visit::start(visit.call(), visit.seed())?;
    let mut onlookers = Onlookers::arrive(onlookers, &again, visit.time_s());
    match onlookers.make_all(&mut again, visit.finished_events()) {
        Ok(()) => {}
        Err(AgainError::Step(error)) => return Err(error),
        // What has happened can happen again, at the time at which it did.
        Err(AgainError::Time { .. } | AgainError::Happening { .. }) => {
            unreachable!("the events are those of a visit")
        }
    }
    onlookers.rest_until(&mut again, visit.time_s())?;
    onlookers.leave(&again);
    Ok(())
}
