//! The marks of a closed visit, and then what is shown beside them.
//!
//! The visit is made once, while the suspects arrive; its recording serves marks, figures and plots. The marks are left as soon as
//! they are there. Entries that marks don't need are weighed afterwards, while the plant runs on.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, ScopedJoinHandle};

use diagnosis::{Done, Hypotheses, Portion, Progress, Stoppable};
use judge::Arrivals;
use plant::StepError;
use report::{PosteriorHistory, Review, ReviewFigures, SoundPath, USUAL_HOURS};
use visit::{Recorded, Recording, Visit};

use crate::background::{Stage, Watch};
use crate::brought::{Leave, Marked, Outcome};
use crate::failure::Failure;
use crate::opening::Opened;
use crate::weighing::{ARRIVAL_SHARE, Followed, Weighing};

/// The marks of a visit that was made, and nothing beside them. `None` if it was stopped.
///
/// # Errors
/// When a plant reached a state that is not finite.
pub fn graded(
    recorded: Recorded,
    arrivals: &Arrivals,
    progress: &dyn Progress,
) -> Stoppable<(Visit, Review)> {
    let (visit, recording) = recorded.into_parts();
    let Some(suspects) = judge::weigh(&visit, arrivals, progress)? else { return Ok(None) };
    let review = Review::new(&visit, &judge::judge_recorded(&visit, &recording, &suspects));
    Ok(Some((visit, review)))
}

/// A part of the work on a whole review.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The suspects arrive.
    Arriving,
    /// Entries are weighed.
    Weighing,
    /// The plant runs on.
    Figures,
    /// A sound path is looked for.
    Path,
}

/// What a whole review holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Hours that the plant runs on after the visit.
    pub hours: f64,
    /// Whether a sound path is looked for.
    pub path: PathWanted,
}

/// Whether a sound path is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathWanted {
    /// It takes by far the longest.
    Yes,
    /// It is left out.
    No,
}

/// Everything that a review shows, one after another; `begins` gives the progress of each part. `None` if it was stopped.
///
/// # Errors
/// When a plant reached a state that is not finite.
pub fn reviewed(
    recorded: Recorded,
    extent: Extent,
    begins: &dyn Fn(Part) -> Box<dyn Progress>,
) -> Stoppable<(Visit, Review, ReviewFigures)> {
    let (visit, recording) = recorded.into_parts();
    let call = visit.call();
    let Some(arrived) = Hypotheses::arrive(call, &judge::prior(call), &*begins(Part::Arriving))? else {
        return Ok(None);
    };
    // All entries are weighed once, for the marks and for the page.
    let weighed = judge::weigh_all(&visit, arrived.clone(), None, &*begins(Part::Weighing))?;
    let Some(weighed) = weighed else { return Ok(None) };
    let review = Review::new(&visit, &judge::judge_recorded(&visit, &recording, &weighed));
    let figures = ReviewFigures::of(&visit, &recording, extent.hours, &*begins(Part::Figures))?;
    let Some(mut figures) = figures else { return Ok(None) };
    figures.chances = Some(PosteriorHistory::of(&weighed));
    if extent.path == PathWanted::Yes {
        figures.path = SoundPath::work_out(call, visit.seed(), arrived, &*begins(Part::Path))?;
    }
    Ok(Some((visit, review, figures)))
}

/// Marks the visit of a record whose ticket is closed.
pub(crate) fn of_record(opened: &Opened, arrivals: &Arrivals, watch: &Watch, leave: &Leave<'_>) -> Outcome {
    let is_bad = AtomicBool::new(false);
    let (replayed, arrived) = thread::scope(|scope| {
        let replaying = scope.spawn(|| {
            let replayed = opened.replay();
            is_bad.store(replayed.is_err(), Ordering::Relaxed);
            replayed
        });
        // Nothing is marked of a bad record.
        let whole_way = Portion::of(watch, 0.0, ARRIVAL_SHARE);
        let arrived = arrivals.at(&opened.call, &UnlessBad { progress: &whole_way, is_bad: &is_bad });
        (whole(replaying), arrived)
    });
    let recorded = match replayed {
        Ok(recorded) => recorded,
        Err(error) => return Outcome::Failed(Failure::from(error)),
    };
    marked(arrived.and_then(|arrived| mark(recorded, arrived, None, watch, leave)))
}

/// Work on a record that may turn out to be a bad one.
struct UnlessBad<'a> {
    progress: &'a dyn Progress,
    is_bad: &'a AtomicBool,
}

impl Progress for UnlessBad<'_> {
    fn report(&self, done: Done) {
        self.progress.report(done);
    }

    fn is_cancelled(&self) -> bool {
        self.progress.is_cancelled() || self.is_bad.load(Ordering::Relaxed)
    }
}

/// Marks a closed visit, with the suspects that have followed it.
pub(crate) fn of_visit(
    recorded: Recorded,
    weighing: Weighing,
    watch: &Arc<Watch>,
    leave: &Leave<'_>,
) -> Outcome {
    let followed = weighing.hand_over(watch);
    marked(followed.and_then(|followed| {
        let (arrived, now) = match followed {
            Some(Followed { arrived, now }) => (Some(arrived), Some(now)),
            None => (None, None),
        };
        mark(recorded, arrived, now.as_ref(), watch, leave)
    }))
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
    recorded: Recorded,
    arrived: Option<Hypotheses>,
    followed: Option<&Hypotheses>,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Result<Option<Hypotheses>, StepError> {
    let (visit, recording) = recorded.into_parts();
    let weighed = match &arrived {
        Some(arrived) => {
            let weighing = Portion::of(watch, ARRIVAL_SHARE, 1.0);
            judge::weigh_arrived(&visit, arrived.clone(), followed, &weighing)?
        }
        None => None,
    };
    let marks = match &weighed {
        Some(suspects) => judge::judge_recorded(&visit, &recording, suspects),
        None if watch.is_cancelled() => return Ok(None),
        // The thread of the suspects broke down or could not be begun.
        None => judge::judge(&visit)?,
    };
    let review = Review::new(&visit, &marks);
    leave(Outcome::Marked(Box::new(Marked { visit: visit.clone(), recording: recording.clone(), review })));
    beside(&visit, &recording, weighed, watch, leave);
    Ok(arrived)
}

/// Works out figures and evidence. The marks count; what cannot be worked out is left out.
fn beside(
    visit: &Visit,
    recording: &Recording,
    weighed: Option<Hypotheses>,
    watch: &Watch,
    leave: &Leave<'_>,
) {
    thread::scope(|scope| {
        scope.spawn(|| {
            let figures = ReviewFigures::of(visit, recording, USUAL_HOURS, &watch.stage(Stage::Figures));
            if let Ok(Some(dossier)) = figures {
                leave(Outcome::Figures(Box::new(dossier)));
            }
        });
        let Some(mut suspects) = weighed else { return };
        let last = visit.notebook().last().map_or(0, |entry| entry.number);
        if let Ok(Some(())) = suspects.catch_up(visit, last, &watch.stage(Stage::Evidence)) {
            leave(Outcome::Evidence(Box::new(PosteriorHistory::of(&suspects))));
        }
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::PathBuf;

    use crate::job::Job;
    use crate::time::{Clock, HandClock};
    use diagnosis::Unwatched;
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

    fn open(path: &std::path::Path, call_file: &std::path::Path, arrivals: Arc<Arrivals>) -> Job {
        let clock: Arc<dyn Clock> = Arc::new(HandClock::default());
        Job::open(path.to_owned(), Some(call_file.to_owned()), arrivals, &clock)
    }

    #[test]
    fn the_marks_of_a_record_come_before_the_figures() {
        let (visit, path, call_file) = recorded("order");
        let arrivals = Arc::<Arrivals>::default();
        let job = open(&path, &call_file, Arc::clone(&arrivals));
        let Outcome::Marked(marked) = job.wait() else { panic!("the marks are not the first") };
        assert_eq!(marked.review, Review::new(&visit, &judge::judge(&visit).expect("finite")));
        assert_eq!(marked.recording, Recording::of(&visit).expect("finite"));
        let (mut figures, mut evidence) = (None, None);
        let arrived = loop {
            match job.wait() {
                Outcome::Figures(dossier) => figures = Some(dossier),
                Outcome::Evidence(chances) => evidence = Some(chances),
                Outcome::Over(arrived) => break arrived,
                _ => panic!("something else came after the marks"),
            }
        };
        // One way through the visit gives what a way for each gives.
        assert_eq!(
            figures.map(|dossier| *dossier),
            ReviewFigures::of(&visit, &marked.recording, USUAL_HOURS, &Unwatched).expect("finite")
        );
        let arrived = *arrived.expect("nobody stopped it");
        let all = judge::weigh_all(&visit, arrived, None, &Unwatched).expect("finite").expect("done");
        assert_eq!(evidence.map(|chances| *chances), Some(PosteriorHistory::of(&all)));
        // The same again from the suspects that are kept.
        let Outcome::Marked(again) = open(&path, &call_file, arrivals).wait() else { panic!("no marks") };
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
        let Outcome::Failed(failure) = open(&path, &call_file, Arc::default()).wait() else {
            panic!("no refusal")
        };
        assert!(matches!(failure, Failure::Replay(visit::ReplayError::Digest { .. })), "{failure:?}");
        std::fs::remove_file(path).expect("removed");
        std::fs::remove_file(call_file).expect("removed");
    }
}
