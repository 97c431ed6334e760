//! The marks of a closed visit, and then what is shown beside them.
//!
//! The visit is made again once, while the suspects arrive; what comes of it serves marks and figures. The marks are left as soon as
//! they are there. Entries that marks don't need are weighed afterwards, while the plant runs on.

use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, ScopedJoinHandle};

use call::Call;
use diagnosis::Hypotheses;
use judge::{Arrivals, Tracker, Trail};
use plant::StepError;
use report::{Course, CourseTaker, PosteriorHistory, Review, ReviewFigures, USUAL_HOURS};
use ui::Trace;
use visit::{Record, Visit, make_again, replay_before};

use crate::failure::Failure;
use crate::job::{Leave, Marked, Outcome, Watch};
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
    call: &Call,
    arrivals: &Arrivals,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Outcome {
    let is_bad = AtomicBool::new(false);
    let (replayed, arrived) = thread::scope(|scope| {
        let replaying = scope.spawn(|| {
            let (mut tracker, mut taker, mut trace) =
                (Tracker::default(), CourseTaker::default(), Trace::default());
            let replayed = replay_before(record, call, &mut [&mut tracker, &mut taker, &mut trace]);
            is_bad.store(replayed.is_err(), Ordering::Relaxed);
            replayed.map(|visit| Closed { visit, trace, trail: tracker.trail(), course: taker.course() })
        });
        // Nothing is marked of a bad record.
        let arriving = |share: f64| watch.goes_on(ARRIVAL_SHARE * share) && !is_bad.load(Ordering::Relaxed);
        let arrived = arrivals.at(call, &arriving);
        (whole(replaying), arrived)
    });
    let closed = match replayed {
        Ok(closed) => closed,
        Err(error) => return Outcome::Failed(Failure::from(error)),
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

fn marked(marks: Result<Option<Hypotheses>, StepError>) -> Outcome {
    match marks {
        Ok(arrived) => Outcome::Over(arrived.map(Box::new)),
        Err(error) => Outcome::Failed(Failure::from(error)),
    }
}

/// Leaves the marks and then what goes beside them; the suspects on arrival are kept for a sound path.
fn mark(
    closed: Closed,
    arrived: Option<Hypotheses>,
    followed: Option<&Hypotheses>,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Result<Option<Hypotheses>, StepError> {
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
fn beside(visit: &Visit, course: Course, weighed: Option<Hypotheses>, watch: &Watch, leave: &Leave<'_>) {
    thread::scope(|scope| {
        scope.spawn(|| {
            let figures = |share: f64| {
                watch.figures.set(share);
                !watch.is_stopped()
            };
            if let Ok(Some(dossier)) = ReviewFigures::with(course, visit, USUAL_HOURS, &figures) {
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
            leave(Outcome::Evidence(Box::new(PosteriorHistory::of(&suspects))));
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;
    use std::sync::Arc;
    use std::time::{Duration, Instant};

    use crate::job::Job;
    use visit::{AirPoint, Bulb, Move};

    /// A closed visit to a call with a short history, where its record lies, and where its call.
    fn recorded(name: &str) -> (Visit, PathBuf, PathBuf) {
        let (_, text) = call::built_in().iter().find(|(id, _)| *id == "kiln-street").expect("built in");
        let text = text.replace("history: Hours(2.5)", "history: Minutes(20)");
        let call = call::read(&text, "short").expect("a valid call");
        assert_eq!(call.history_s, 1200.0);
        let mut visit = Visit::start(&call, 1).expect("finite");
        for action in [Move::ReadAir(AirPoint::Supply, Bulb::Dry), Move::ReadDataPlate, Move::CloseTicket] {
            visit.let_time_pass(41.25).expect("finite");
            visit.perform(&action).expect("finite");
        }
        let path = std::env::temp_dir().join(format!("rimebench-{name}-{}.visit.ron", std::process::id()));
        std::fs::write(&path, visit.record().to_text()).expect("written");
        let call_file = std::env::temp_dir().join(format!("rimebench-{name}-{}.ron", std::process::id()));
        std::fs::write(&call_file, text).expect("written");
        (visit, path, call_file)
    }

    /// The next thing that a job brings.
    fn next(job: &Job) -> Outcome {
        let limit = Instant::now() + Duration::from_secs(240);
        loop {
            if let Some(outcome) = job.poll() {
                return outcome;
            }
            assert!(Instant::now() < limit, "nothing comes");
            thread::sleep(Duration::from_millis(2));
        }
    }

    #[test]
    fn the_marks_of_a_record_come_before_the_figures() {
        let (visit, path, call_file) = recorded("order");
        let arrivals = Arc::<Arrivals>::default();
        let job = Job::open(path.clone(), Some(call_file.clone()), Arc::clone(&arrivals));
        let Outcome::Marked(marked) = next(&job) else { panic!("the marks are not the first") };
        assert_eq!(marked.review, Review::new(&visit, &judge::judge(&visit).expect("finite")));
        assert!(marked.trace.samples().len() > 5);
        let (mut figures, mut evidence) = (None, None);
        let arrived = loop {
            match next(&job) {
                Outcome::Figures(dossier) => figures = Some(dossier),
                Outcome::Evidence(chances) => evidence = Some(chances),
                Outcome::Over(arrived) => break arrived,
                _ => panic!("something else came after the marks"),
            }
        };
        // One way through the visit gives what a way for each gives.
        assert_eq!(
            figures.map(|dossier| *dossier),
            Some(ReviewFigures::of(&visit, USUAL_HOURS).expect("finite"))
        );
        let arrived = *arrived.expect("nobody stopped it");
        let all = judge::weigh_all(&visit, arrived, None, &|_| true).expect("finite").expect("done");
        assert_eq!(evidence.map(|chances| *chances), Some(PosteriorHistory::of(&all)));
        // The same again from the suspects that are kept.
        let Outcome::Marked(again) = next(&Job::open(path.clone(), Some(call_file.clone()), arrivals)) else {
            panic!("no marks")
        };
        assert_eq!(again.review, marked.review);
        std::fs::remove_file(path).expect("removed");
        std::fs::remove_file(call_file).expect("removed");
    }

    #[test]
    fn a_record_that_was_changed_is_told_and_not_marked() {
        let (visit, path, call_file) = recorded("changed");
        let mut record = visit.record();
        record.notebook_digest = "0".repeat(16);
        std::fs::write(&path, record.to_text()).expect("written");
        let Outcome::Failed(failure) =
            next(&Job::open(path.clone(), Some(call_file.clone()), Arc::default()))
        else {
            panic!("no refusal")
        };
        assert!(matches!(failure, Failure::Replay(visit::ReplayError::Digest { .. })), "{failure:?}");
        std::fs::remove_file(path).expect("removed");
        std::fs::remove_file(call_file).expect("removed");
    }
}
