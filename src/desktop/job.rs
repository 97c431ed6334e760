//! Long work beside the window: arriving (the plant's history), replaying a record, judging.

use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;
use std::time::Instant;

use call::{Call, Problem};
use desk::{CallChoice, Preparing, Trace};
use report::{Chances, Dossier, Review, USUAL_HOURS};
use suspects::Suspects;
use visit::{Record, Visit};

use crate::files;

/// Longest slice between two samples of the trace, s.
pub const SLICE_S: f64 = 10.0;

/// What a job brings.
pub enum Outcome {
    /// Arrived, or a record whose ticket is still open.
    AtWork(Box<(Visit, Trace)>),
    /// A closed visit with its review, and what is shown beside the marks.
    Judged(Box<(Visit, Trace, Review, Option<Dossier>)>),
    /// It did not work; what and why, a line each.
    Failed(Vec<String>),
}

/// A running job.
pub struct Job {
    title: String,
    detail: String,
    began: Instant,
    // A receiver must not be shared between threads; the engine's resources may be.
    receiver: Mutex<Receiver<Outcome>>,
}

impl Job {
    fn start(title: &str, detail: String, work: impl FnOnce() -> Outcome + Send + 'static) -> Job {
        let (sender, receiver) = channel();
        let spawned = thread::Builder::new().name("rimebench work".to_owned()).spawn({
            let sender = sender.clone();
            move || {
                let outcome = work();
                // Nobody listens any more after a cancel.
                let _ = sender.send(outcome);
            }
        });
        if let Err(reason) = spawned {
            let _ = sender.send(Outcome::Failed(vec![format!("The work could not be begun: {reason}.")]));
        }
        Job { title: title.to_owned(), detail, began: Instant::now(), receiver: Mutex::new(receiver) }
    }

    /// Drives to a call and arrives there.
    pub fn arrive(choice: CallChoice, seed: u64) -> Job {
        let detail = "The house and its air conditioner live through the hours before you arrive.".to_owned();
        Job::start("On the way to the call", detail, move || arrive(&choice, seed))
    }

    /// Makes the visit of a record again.
    pub fn open(path: PathBuf) -> Job {
        let detail = format!("Every move of {} is made again.", path.display());
        Job::start("Opening the record", detail, move || open(&path))
    }

    /// Judges a closed visit.
    pub fn judge(visit: Visit, trace: Trace) -> Job {
        let detail =
            "Rival faults are worked through your moves, to see what your readings tell apart.".to_owned();
        Job::start("Working out the review", detail, move || judged(visit, trace))
    }

    /// What it brought, once it is done.
    pub fn poll(&self) -> Option<Outcome> {
        let receiver = self.receiver.lock().ok()?;
        match receiver.try_recv() {
            Ok(outcome) => Some(outcome),
            Err(TryRecvError::Empty) => None,
            Err(TryRecvError::Disconnected) => Some(Outcome::Failed(vec![
                "The work ended without a result. This is a defect of the program.".to_owned(),
            ])),
        }
    }

    /// For the screen.
    pub fn look(&self) -> Preparing {
        Preparing {
            title: self.title.clone(),
            detail: self.detail.clone(),
            waited_s: self.began.elapsed().as_secs_f64(),
        }
    }
}

fn lines(problems: &[Problem]) -> Vec<String> {
    problems.iter().map(ToString::to_string).collect()
}

fn read_call(choice: &CallChoice) -> Result<Call, Vec<String>> {
    match choice {
        CallChoice::BuiltIn(id) => {
            let (_, text) = call::built_in()
                .iter()
                .find(|(built_in, _)| built_in == id)
                .ok_or_else(|| vec![format!("No call named {id} came with this program.")])?;
            call::read(text, id).map_err(|problems| lines(&problems))
        }
        CallChoice::File(path) => {
            let text = files::read(path)?;
            call::read(&text, &path.display().to_string()).map_err(|problems| lines(&problems))
        }
    }
}

fn arrive(choice: &CallChoice, seed: u64) -> Outcome {
    let call = match read_call(choice) {
        Ok(call) => call,
        Err(problems) => return Outcome::Failed(problems),
    };
    match Visit::start(&call, seed) {
        Ok(visit) => {
            let mut trace = Trace::default();
            trace.sample(&visit);
            Outcome::AtWork(Box::new((visit, trace)))
        }
        Err(error) => Outcome::Failed(vec![error.to_string()]),
    }
}

fn open(path: &Path) -> Outcome {
    let text = match files::read(path) {
        Ok(text) => text,
        Err(told) => return Outcome::Failed(told),
    };
    let record = match Record::from_text(&text, &path.display().to_string()) {
        Ok(record) => record,
        Err(problems) => return Outcome::Failed(lines(&problems)),
    };
    match replay(&record) {
        Ok((visit, trace)) if visit.is_closed() => judged(visit, trace),
        Ok((visit, trace)) => Outcome::AtWork(Box::new((visit, trace))),
        Err(told) => Outcome::Failed(told),
    }
}

/// Replays a record, then once more with samples for the plots.
fn replay(record: &Record) -> Result<(Visit, Trace), Vec<String>> {
    let checked = visit::replay(record)
        .map_err(|error| error.to_string().lines().map(str::to_owned).collect::<Vec<_>>())?;
    let mut trace = Trace::default();
    let traced = retrace(record, checked.call(), &mut trace);
    // The checked visit counts; if the plots could not be made, they are left out.
    if traced.is_err() {
        trace = Trace::default();
    }
    Ok((checked, trace))
}

fn retrace(record: &Record, call: &Call, trace: &mut Trace) -> Result<(), plant::StepError> {
    let mut visit = Visit::start(call, record.seed)?;
    trace.sample(&visit);
    for timed in &record.moves {
        while visit.time_s() < timed.at_s && !visit.is_closed() {
            visit.let_time_pass((timed.at_s - visit.time_s()).min(SLICE_S))?;
            trace.sample(&visit);
        }
        visit.begin(&timed.action);
        while visit.busy().is_some() {
            visit.work(SLICE_S)?;
            trace.sample(&visit);
        }
    }
    Ok(())
}

fn judged(visit: Visit, trace: Trace) -> Outcome {
    match reviewed(&visit) {
        Ok((review, dossier)) => Outcome::Judged(Box::new((visit, trace, review, dossier))),
        Err(error) => Outcome::Failed(vec![error.to_string()]),
    }
}

/// Weighs all entries once, for the marks and for the figures.
fn reviewed(visit: &Visit) -> Result<(Review, Option<Dossier>), plant::StepError> {
    let last = visit.notebook().last().map_or(0, |entry| entry.number);
    let weighed = Suspects::of(visit, &judge::prior(visit.call()), last, &|_| true)?;
    let marks = match &weighed {
        Some(suspects) => judge::judge_weighed(visit, suspects)?,
        None => judge::judge(visit)?,
    };
    // The marks count; if a plant cannot run on, the figures are left out.
    let dossier = Dossier::of(visit, USUAL_HOURS)
        .ok()
        .map(|dossier| Dossier { chances: weighed.as_ref().map(Chances::of), ..dossier });
    Ok((Review::new(visit, &marks), dossier))
}
