//! Long work beside the window: arriving (the plant's history), replaying a record, marking (`marking`).

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Instant;

use call::Call;
use diagnosis::Hypotheses;
use judge::Arrivals;
use report::{PosteriorHistory, Review, ReviewFigures};
use session::calls;
use ui::{CallChoice, Preparing, Trace};
use visit::{Record, Visit};
use words::Words;

use crate::failure::Failure;
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
    Figures(Box<ReviewFigures>),
    /// What the readings made of the suspects.
    Evidence(Box<PosteriorHistory>),
    /// Nothing more comes; the suspects on arrival, for a sound path.
    Over(Option<Box<Hypotheses>>),
    /// It did not work.
    Failed(Failure),
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

/// What a job is about.
enum Task {
    /// On the way to a call.
    Arriving,
    /// A record is opened.
    Opening(PathBuf),
    /// A closed visit is marked.
    Marking,
}

/// A running job. What can be stopped of it stops soon after this is dropped.
pub struct Job {
    task: Task,
    began: Instant,
    watch: Arc<Watch>,
    // A receiver must not be shared between threads; the engine's resources may be.
    receiver: Mutex<Receiver<Outcome>>,
}

impl Job {
    fn start(task: Task, work: impl FnOnce(&Watch, &Leave<'_>) -> Outcome + Send + 'static) -> Job {
        let (sender, receiver) = channel();
        let watch = Arc::new(Watch::default());
        let spawned = thread::Builder::new().name("rimebench-work".to_owned()).spawn({
            let (sender, watch) = (sender.clone(), Arc::clone(&watch));
            move || {
                // Nobody listens any more after a cancel.
                let leave = |outcome| drop(sender.send(outcome));
                leave(work(&watch, &leave));
            }
        });
        if let Err(reason) = spawned {
            let _ = sender.send(Outcome::Failed(Failure::NotBegun(reason.to_string())));
        }
        Job { task, began: Instant::now(), watch, receiver: Mutex::new(receiver) }
    }

    /// Drives to a call and arrives there.
    pub fn arrive(choice: CallChoice, seed: u64) -> Job {
        Job::start(Task::Arriving, move |_, _| arrive(&choice, seed))
    }

    /// Makes the visit of a record again, and marks it if its ticket is closed, with the suspects on arrival that are kept.
    pub fn open(path: PathBuf, call_file: Option<PathBuf>, arrivals: Arc<Arrivals>) -> Job {
        Job::start(Task::Opening(path.clone()), move |watch, leave| {
            open(&path, call_file, &arrivals, watch, leave)
        })
    }

    /// Judges a closed visit, with the suspects that have followed it.
    pub fn judge(visit: Visit, trace: Trace, weighing: Weighing) -> Job {
        Job::start(Task::Marking, move |watch, leave| marking::of_visit(visit, trace, weighing, watch, leave))
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
            Err(TryRecvError::Disconnected) => Some(Outcome::Failed(Failure::NoResult)),
        }
    }

    /// For the screen.
    pub fn look(&self, words: Words) -> Preparing {
        let (title, detail) = match &self.task {
            Task::Arriving => ("screen-work-arriving", words.label("screen-work-arriving-about")),
            Task::Opening(path) => (
                "screen-work-opening",
                words.fill("screen-work-opening-about", &[("path", path.display().to_string())]),
            ),
            Task::Marking => ("screen-work-marking", words.label("screen-work-marking-about")),
        };
        Preparing {
            title: words.label(title),
            detail,
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

fn read_call(choice: &CallChoice) -> Result<Call, Failure> {
    match choice {
        CallChoice::BuiltIn(id) => calls::call(id),
        CallChoice::File(path) => calls::call_file(path),
    }
    .map_err(Failure::from)
}

fn arrive(choice: &CallChoice, seed: u64) -> Outcome {
    let call = match read_call(choice) {
        Ok(call) => call,
        Err(failure) => return Outcome::Failed(failure),
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
        Err(error) => Outcome::Failed(Failure::from(error)),
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
        Err(failure) => return Outcome::Failed(failure),
    };
    let record = match Record::from_text(&text, &path.display().to_string()) {
        Ok(record) => record,
        Err(problems) => return Outcome::Failed(Failure::Record(problems)),
    };
    let call = match calls::call_of(&record.call, path.parent(), call_file.as_deref()) {
        Ok(call) => call,
        Err(error) => return Outcome::Failed(Failure::from(error)),
    };
    if record.closed {
        return marking::of_record(&record, &call, arrivals, watch, leave);
    }
    let mut trace = Trace::default();
    match visit::replay_before(&record, &call, &mut [&mut trace]) {
        Ok(visit) => Outcome::AtWork(Box::new(AtWork { visit, trace, call_file })),
        Err(error) => Outcome::Failed(Failure::from(error)),
    }
}
