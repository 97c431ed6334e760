//! The marks of a closed visit, and then what is shown beside them.
//!
//! The visit is made again once, while the suspects arrive; what comes of it serves marks and figures. The marks are left as soon as
//! they are there. Entries that marks don't need are weighed afterwards, while the plant runs on.

use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, ScopedJoinHandle};

use desk::Trace;
use judge::{Arrivals, Tracker, Trail};
use plant::StepError;
use report::{Chances, Course, CourseTaker, Dossier, Review, USUAL_HOURS};
use suspects::Suspects;
use visit::{Record, Visit, make_again, replay_before};

use crate::job::{Leave, Marked, Outcome, Watch, told_of};
use crate::weighing::{Followed, Weighing};

/// Part of the way to the marks at which the suspects have arrived.
const ARRIVAL_SHARE: f64 = 0.5;

/// A closed visit and what was noted while it was made again.
struct Closed {
    visit: Visit,
    trace: Trace,
    trail: Trail,
    course: Course,
}

/// Marks the visit of a record whose ticket is closed.
pub(crate) fn of_record(
    record: &Record,
    arrivals: &Arrivals,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Outcome {
    let call = match record.call() {
        Ok(call) => call,
        Err(error) => return Outcome::Failed(told_of(&error)),
    };
    let is_bad = AtomicBool::new(false);
    let (replayed, arrived) = thread::scope(|scope| {
        let replaying = scope.spawn(|| {
            let (mut tracker, mut taker, mut trace) =
                (Tracker::default(), CourseTaker::default(), Trace::default());
            let replayed = replay_before(record, &mut [&mut tracker, &mut taker, &mut trace]);
            is_bad.store(replayed.is_err(), Ordering::Relaxed);
            replayed.map(|visit| Closed { visit, trace, trail: tracker.trail(), course: taker.course() })
        });
        // Nothing is marked of a bad record.
        let arriving =
            |share: f64| watch.goes_on(ARRIVAL_SHARE * share) && !is_bad.load(Ordering::Relaxed);
        let arrived = arrivals.at(&call, &arriving);
        (whole(replaying), arrived)
    });
    let closed = match replayed {
        Ok(closed) => closed,
        Err(error) => return Outcome::Failed(told_of(&error)),
    };
    marked(arrived.and_then(|arrived| mark(closed, arrived, None, watch, leave)))
}

/// Marks a closed visit, with the suspects that have followed it.
pub(crate) fn of_visit(
    visit: Visit,
    trace: Trace,
    weighing: Weighing,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Outcome {
    let (again, followed) = thread::scope(|scope| {
        let making = scope.spawn(|| {
            let (mut tracker, mut taker) = (Tracker::default(), CourseTaker::default());
            make_again(&visit, &mut [&mut tracker, &mut taker])?;
            Ok((tracker.trail(), taker.course()))
        });
        let followed = weighing.hand_over(&|share| watch.goes_on(ARRIVAL_SHARE * share));
        (whole(making), followed)
    });
    let marks = again.and_then(|(trail, course)| {
        let (arrived, now) = match followed? {
            Some(Followed { arrived, now }) => (Some(arrived), Some(now)),
            None => (None, None),
        };
        mark(Closed { visit, trace, trail, course }, arrived, now.as_ref(), watch, leave)
    });
    marked(marks)
}

/// What a thread came to. If it broke down, so does this one.
fn whole<T>(thread: ScopedJoinHandle<'_, T>) -> T {
    thread.join().unwrap_or_else(|reason| std::panic::resume_unwind(reason))
}

fn marked(marks: Result<Option<Suspects>, StepError>) -> Outcome {
    match marks {
        Ok(arrived) => Outcome::Over(arrived.map(Box::new)),
        Err(error) => Outcome::Failed(vec![error.to_string()]),
    }
}

/// Leaves the marks and then what goes beside them; the suspects on arrival are kept for a sound path.
fn mark(
    closed: Closed,
    arrived: Option<Suspects>,
    followed: Option<&Suspects>,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Result<Option<Suspects>, StepError> {
    let Closed { visit, trace, trail, course } = closed;
    let weighing = |share: f64| watch.goes_on(ARRIVAL_SHARE + (1.0 - ARRIVAL_SHARE) * share);
    let weighed = match &arrived {
        Some(arrived) => judge::weigh_arrived(&visit, arrived.clone(), followed, &weighing)?,
        None => None,
    };
    let marks = match &weighed {
        Some(suspects) => judge::judge_tracked(&visit, &trail, suspects),
        None if watch.is_stopped() => return Ok(None),
        // The thread of the suspects could not be begun.
        None => judge::judge(&visit)?,
    };
    let review = Review::new(&visit, &marks);
    leave(Outcome::Marked(Box::new(Marked { visit: visit.clone(), trace, review })));
    beside(&visit, course, weighed, watch, leave);
    Ok(arrived)
}

/// Works out figures and evidence. The marks count; what cannot be worked out is left out.
fn beside(visit: &Visit, course: Course, weighed: Option<Suspects>, watch: &Watch, leave: &Leave<'_>) {
    thread::scope(|scope| {
        scope.spawn(|| {
            let figures = |share: f64| {
                watch.figures.set(share);
                !watch.is_stopped()
            };
            if let Ok(Some(dossier)) = Dossier::with(course, visit, USUAL_HOURS, &figures) {
                leave(Outcome::Figures(Box::new(dossier)));
            }
        });
        let Some(mut suspects) = weighed else { return };
        let last = visit.notebook().last().map_or(0, |entry| entry.number);
        let evidence = |share: f64| {
            watch.evidence.set(share);
            !watch.is_stopped()
        };
        if let Ok(Some(())) = suspects.catch_up(visit, last, &evidence) {
            leave(Outcome::Evidence(Box::new(Chances::of(&suspects))));
        }
    });
}
