//! Long work beside the window: arriving (the plant's history), replaying a record, judging.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Instant;

use call::{Call, Problem};
use desk::{CallChoice, Preparing, Trace};
use report::{Chances, Dossier, Review, USUAL_HOURS};
use suspects::Suspects;
use visit::{Record, Visit};

use crate::files;
use crate::weighing::{Followed, Weighing};

/// Longest slice between two samples of the trace, s.
pub const SLICE_S: f64 = 10.0;

/// What a job brings.
pub enum Outcome {
    /// Arrived, or a record whose ticket is still open.
    AtWork(Box<(Visit, Trace)>),
    /// A closed visit with its review.
    Judged(Box<Judged>),
    /// It did not work; what and why, a line each.
    Failed(Vec<String>),
}

/// A closed visit and what is shown of it.
pub struct Judged {
    /// The visit.
    pub visit: Visit,
    /// What the plant did.
    pub trace: Trace,
    /// Marks.
    pub review: Review,
    /// What is shown beside the marks.
    pub dossier: Option<Dossier>,
    /// The suspects on arrival, for a sound path.
    pub arrived: Option<Suspects>,
}

/// How far a job is, and whether it is to go on.
#[derive(Debug, Default)]
struct Watch {
    /// Share that is done, per mille; nothing is told before the first.
    permille: AtomicU64,
    stop: AtomicBool,
}

impl Watch {
    fn goes_on(&self, share: f64) -> bool {
        self.permille.store((share.clamp(0.0, 1.0) * 1000.0) as u64, Ordering::Relaxed);
        !self.stop.load(Ordering::Relaxed)
    }

    fn share(&self) -> Option<f64> {
        let permille = self.permille.load(Ordering::Relaxed);
        (permille > 0).then_some(permille as f64 / 1000.0)
    }
}

/// A running job. What can be stopped of it stops soon after this is dropped.
pub struct Job {
    title: String,
    detail: String,
    began: Instant,
    watch: Arc<Watch>,
    // A receiver must not be shared between threads; the engine's resources may be.
    receiver: Mutex<Receiver<Outcome>>,
}

impl Job {
    fn start(title: &str, detail: String, work: impl FnOnce(&Watch) -> Outcome + Send + 'static) -> Job {
        let (sender, receiver) = channel();
        let watch = Arc::new(Watch::default());
        let spawned = thread::Builder::new().name("rimebench work".to_owned()).spawn({
            let (sender, watch) = (sender.clone(), Arc::clone(&watch));
            move || {
                let outcome = work(&watch);
                // Nobody listens any more after a cancel.
                let _ = sender.send(outcome);
            }
        });
        if let Err(reason) = spawned {
            let _ = sender.send(Outcome::Failed(vec![format!("The work could not be begun: {reason}.")]));
        }
        Job { title: title.to_owned(), detail, began: Instant::now(), watch, receiver: Mutex::new(receiver) }
    }

    /// Drives to a call and arrives there.
    pub fn arrive(choice: CallChoice, seed: u64) -> Job {
        let detail = "The house and its air conditioner live through the hours before you arrive.".to_owned();
        Job::start("On the way to the call", detail, move |_| arrive(&choice, seed))
    }

    /// Makes the visit of a record again.
    pub fn open(path: PathBuf) -> Job {
        let detail = format!("Every move of {} is made again.", path.display());
        Job::start("Opening the record", detail, move |watch| open(&path, watch))
    }

    /// Judges a closed visit, with the suspects that have followed it.
    pub fn judge(visit: Visit, trace: Trace, weighing: Option<Weighing>) -> Job {
        let detail =
            "Rival faults are worked through your moves, to see what your readings tell apart.".to_owned();
        Job::start("Working out the review", detail, move |watch| judged(visit, trace, weighing, watch))
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
            share: self.watch.share(),
        }
    }
}

impl Drop for Job {
    fn drop(&mut self) {
        self.watch.stop.store(true, Ordering::Relaxed);
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

fn open(path: &Path, watch: &Watch) -> Outcome {
    let text = match files::read(path) {
        Ok(text) => text,
        Err(told) => return Outcome::Failed(told),
    };
    let record = match Record::from_text(&text, &path.display().to_string()) {
        Ok(record) => record,
        Err(problems) => return Outcome::Failed(lines(&problems)),
    };
    match replay(&record) {
        Ok((visit, trace)) if visit.is_closed() => judged(visit, trace, None, watch),
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

fn judged(visit: Visit, trace: Trace, weighing: Option<Weighing>, watch: &Watch) -> Outcome {
    match reviewed(&visit, weighing, watch) {
        Ok((review, dossier, arrived)) => {
            Outcome::Judged(Box::new(Judged { visit, trace, review, dossier, arrived }))
        }
        Err(error) => Outcome::Failed(vec![error.to_string()]),
    }
}

/// What comes of judging: marks, figures, and the suspects on arrival.
type Reviewed = (Review, Option<Dossier>, Option<Suspects>);

/// Weighs all entries once, for the marks and for the figures.
fn reviewed(visit: &Visit, weighing: Option<Weighing>, watch: &Watch) -> Result<Reviewed, plant::StepError> {
    let weighed = weighed(visit, weighing, watch)?;
    let marks = match &weighed {
        Some((_, suspects)) => judge::judge_weighed(visit, suspects)?,
        // It was stopped, and nobody looks at what comes of it any more; or the thread could not be begun.
        None if watch.stop.load(Ordering::Relaxed) => judge::Marks::of(Vec::new()),
        None => judge::judge(visit)?,
    };
    watch.goes_on(MARKED_SHARE);
    // The marks count; if a plant cannot run on, the figures are left out.
    let dossier = Dossier::of(visit, USUAL_HOURS).ok().map(|dossier| Dossier {
        chances: weighed.as_ref().map(|(_, suspects)| Chances::of(suspects)),
        ..dossier
    });
    Ok((Review::new(visit, &marks), dossier, weighed.map(|(arrived, _)| arrived)))
}

/// Where the bar stands when the suspects have arrived, when they have been through the entries, and when the marks are
/// there; the rest is for the figures.
const ARRIVAL_SHARE: f64 = 0.5;
const WEIGHED_SHARE: f64 = 0.85;
const MARKED_SHARE: f64 = 0.92;

/// The suspects on arrival and after all entries; those that followed the visit have little left to do.
fn weighed(
    visit: &Visit,
    weighing: Option<Weighing>,
    watch: &Watch,
) -> Result<Option<(Suspects, Suspects)>, plant::StepError> {
    let arriving = |share: f64| watch.goes_on(ARRIVAL_SHARE * share);
    let (arrived, followed) = match weighing {
        Some(weighing) => match weighing.hand_over(&arriving)? {
            Some(Followed { arrived, now }) => (Some(arrived), Some(now)),
            None => (None, None),
        },
        None => (Suspects::arrive(visit.call(), &judge::prior(visit.call()), &arriving)?, None),
    };
    let Some(arrived) = arrived else { return Ok(None) };
    let weighing = |share: f64| watch.goes_on(ARRIVAL_SHARE + (WEIGHED_SHARE - ARRIVAL_SHARE) * share);
    let weighed = judge::weigh_all(visit, arrived.clone(), followed.as_ref(), &weighing)?;
    Ok(weighed.map(|suspects| (arrived, suspects)))
}
