//! Long work beside the window: arriving (the plant's history), replaying a record, marking (`marking`).

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Instant;

use call::{Call, Problem};
use desk::{CallChoice, Preparing, Trace};
use judge::Arrivals;
use report::{Chances, Dossier, Review};
use session::calls;
use suspects::Suspects;
use visit::{Record, ReplayError, Visit};

use crate::weighing::Weighing;
use crate::{files, marking};

/// Longest slice between two samples of the trace, s.
pub const SLICE_S: f64 = 10.0;

/// What a job brings: one after another for a closed visit, else one alone.
pub enum Outcome {
    /// Arrived, or a record whose ticket is still open.
    AtWork(Box<AtWork>),
    /// A closed visit with its marks. What is shown beside them follows.
    Marked(Box<Marked>),
    /// What the plant did, its cycle, and what would have come next.
    Figures(Box<Dossier>),
    /// What the readings made of the suspects.
    Evidence(Box<Chances>),
    /// Nothing more comes; the suspects on arrival, for a sound path.
    Over(Option<Box<Suspects>>),
    /// It did not work; what and why, a line each.
    Failed(Vec<String>),
}

/// A visit that can be worked.
pub struct AtWork {
    /// The visit.
    pub visit: Visit,
    /// What the plant did.
    pub trace: Trace,
    /// The file of its call, if it is not a built-in one.
    pub call_file: Option<PathBuf>,
}

/// A closed visit and its marks.
pub struct Marked {
    /// The visit.
    pub visit: Visit,
    /// What the plant did.
    pub trace: Trace,
    /// Marks.
    pub review: Review,
}

/// How far a job is, and whether it is to go on.
#[derive(Debug, Default)]
pub(crate) struct Watch {
    /// Of the arrival, or of the marks.
    first: Share,
    /// Of the figures, once the marks are there.
    pub(crate) figures: Share,
    /// Of the evidence, once the marks are there.
    pub(crate) evidence: Share,
    stop: AtomicBool,
}

/// A share that is done, per mille.
#[derive(Debug, Default)]
pub(crate) struct Share(AtomicU64);

impl Share {
    pub(crate) fn set(&self, share: f64) {
        self.0.store((share.clamp(0.0, 1.0) * 1000.0) as u64, Ordering::Relaxed);
    }

    fn get(&self) -> f64 {
        self.0.load(Ordering::Relaxed) as f64 / 1000.0
    }
}

impl Watch {
    /// Takes in how far the first stage is, and says whether to go on.
    pub(crate) fn goes_on(&self, share: f64) -> bool {
        self.first.set(share);
        !self.is_stopped()
    }

    /// Whether nobody waits any more.
    pub(crate) fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

/// Where a job leaves what it brings before it ends.
pub(crate) type Leave<'a> = dyn Fn(Outcome) + Sync + 'a;

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
    fn start(
        title: &str,
        detail: String,
        work: impl FnOnce(&Watch, &Leave<'_>) -> Outcome + Send + 'static,
    ) -> Job {
        let (sender, receiver) = channel();
        let watch = Arc::new(Watch::default());
        let spawned = thread::Builder::new().name("rimebench work".to_owned()).spawn({
            let (sender, watch) = (sender.clone(), Arc::clone(&watch));
            move || {
                // Nobody listens any more after a cancel.
                let leave = |outcome| drop(sender.send(outcome));
                leave(work(&watch, &leave));
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
        Job::start("On the way to the call", detail, move |_, _| arrive(&choice, seed))
    }

    /// Makes the visit of a record again, and marks it if its ticket is closed, with the suspects on arrival that are kept.
    pub fn open(path: PathBuf, call_file: Option<PathBuf>, arrivals: Arc<Arrivals>) -> Job {
        let detail = format!("Every move of {} is made again.", path.display());
        Job::start("Opening the record", detail, move |watch, leave| {
            open(&path, call_file, &arrivals, watch, leave)
        })
    }

    /// Judges a closed visit, with the suspects that have followed it.
    pub fn judge(visit: Visit, trace: Trace, weighing: Weighing) -> Job {
        let detail =
            "Rival faults are worked through your moves, to see what your readings tell apart.".to_owned();
        Job::start("Working out the marks", detail, move |watch, leave| {
            marking::of_visit(visit, trace, weighing, watch, leave)
        })
    }

    /// The same job, waited for from now on.
    pub fn asked_for(self) -> Job {
        let mut job = self;
        job.began = Instant::now();
        job
    }

    /// What it has brought since it was asked the last time.
    pub fn poll(&self) -> Option<Outcome> {
        let receiver = self.receiver.lock().ok()?;
        match receiver.try_recv() {
            Ok(outcome) => Some(outcome),
            Err(TryRecvError::Empty) => None,
            // What it brings last was taken before, or never came.
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
            share: Some(self.watch.first.get()).filter(|share| *share > 0.0),
        }
    }

    /// Shares of the figures and of the evidence that are done, once the marks are there.
    pub fn beside(&self) -> (f64, f64) {
        (self.watch.figures.get(), self.watch.evidence.get())
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
        CallChoice::BuiltIn(id) => calls::call(id),
        CallChoice::File(path) => calls::call_file(path),
    }
    .map_err(|error| error.to_string().lines().map(str::to_owned).collect())
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
            let call_file = match choice {
                CallChoice::File(path) => Some(path.clone()),
                CallChoice::BuiltIn(_) => None,
            };
            Outcome::AtWork(Box::new(AtWork { visit, trace, call_file }))
        }
        Err(error) => Outcome::Failed(vec![error.to_string()]),
    }
}

fn open(
    path: &Path,
    call_file: Option<PathBuf>,
    arrivals: &Arrivals,
    watch: &Watch,
    leave: &Leave<'_>,
) -> Outcome {
    let text = match files::read(path) {
        Ok(text) => text,
        Err(told) => return Outcome::Failed(told),
    };
    let record = match Record::from_text(&text, &path.display().to_string()) {
        Ok(record) => record,
        Err(problems) => return Outcome::Failed(lines(&problems)),
    };
    let call = match calls::call_of(&record.call, path.parent(), call_file.as_deref()) {
        Ok(call) => call,
        Err(error) => return Outcome::Failed(error.to_string().lines().map(str::to_owned).collect()),
    };
    if record.closed {
        return marking::of_record(&record, &call, arrivals, watch, leave);
    }
    let mut trace = Trace::default();
    match visit::replay_before(&record, &call, &mut [&mut trace]) {
        Ok(visit) => Outcome::AtWork(Box::new(AtWork { visit, trace, call_file })),
        Err(error) => Outcome::Failed(told_of(&error)),
    }
}

/// What is wrong with a record, a line each.
pub(crate) fn told_of(error: &ReplayError) -> Vec<String> {
    error.to_string().lines().map(str::to_owned).collect()
}
