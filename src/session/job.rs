//! Long work of a session: arriving (the plant's history), making a record again, marking (`marking`).

use std::path::{Path, PathBuf};
use std::sync::Arc;

use judge::Arrivals;
use visit::Recorded;

use crate::background::{Background, Stage, Watch};
use crate::brought::{AtWork, Leave, Outcome};
use crate::command::CallChoice;
use crate::failure::Failure;
use crate::look::{Preparing, Task};
use crate::marking;
use crate::opening::{HeldAgainst, Opened};
use crate::time::Clock;
use crate::weighing::Weighing;
use store::calls;

/// A running job. What can be stopped of it stops soon after this is dropped.
pub(crate) struct Job {
    task: Task,
    asked_s: f64,
    clock: Arc<dyn Clock>,
    work: Background<Outcome>,
}

impl Job {
    fn start(
        task: Task,
        clock: &Arc<dyn Clock>,
        work: impl FnOnce(&Arc<Watch>, &Leave<'_>) -> Outcome + Send + 'static,
    ) -> Job {
        let work = Background::start("rimebench-work", move |watch, leave| leave(work(watch, leave)));
        Job { task, asked_s: clock.now_s(), clock: Arc::clone(clock), work }
    }

    /// Drives to a call and arrives there.
    pub(crate) fn arrive(choice: CallChoice, seed: u64, clock: &Arc<dyn Clock>) -> Job {
        Job::start(Task::Arriving, clock, move |_, _| arrive(&choice, seed))
    }

    /// Makes the visit of a record again, and marks it if its ticket is closed, with the suspects on arrival that are kept.
    pub(crate) fn open(
        path: PathBuf,
        call_file: Option<PathBuf>,
        arrivals: Arc<Arrivals>,
        clock: &Arc<dyn Clock>,
    ) -> Job {
        Job::start(Task::Opening(path.clone()), clock, move |watch, leave| {
            open(&path, call_file, &arrivals, watch, leave)
        })
    }

    /// Judges a closed visit, with the suspects that have followed it.
    pub(crate) fn judge(recorded: Recorded, weighing: Weighing, clock: &Arc<dyn Clock>) -> Job {
        Job::start(Task::Marking, clock, move |watch, leave| {
            marking::of_visit(recorded, weighing, watch, leave)
        })
    }

    /// The same job, waited for from now on.
    pub(crate) fn asked_for(self) -> Job {
        Job { asked_s: self.clock.now_s(), ..self }
    }

    /// What it has brought since it was asked the last time.
    pub(crate) fn poll(&self) -> Option<Outcome> {
        self.work.poll().map(outcome)
    }

    /// Waits for what it brings next.
    pub(crate) fn wait(&self) -> Outcome {
        outcome(self.work.wait())
    }

    /// How it is shown.
    pub(crate) fn look(&self) -> Preparing {
        Preparing {
            task: self.task.clone(),
            waited_s: self.clock.now_s() - self.asked_s,
            share: Some(self.work.watch().share(Stage::First)).filter(|share| *share > 0.0),
        }
    }

    /// Shares of the figures and of the evidence that are done, once the marks are there.
    pub(crate) fn beside(&self) -> (f64, f64) {
        let watch = self.work.watch();
        (watch.share(Stage::Figures), watch.share(Stage::Evidence))
    }
}

fn outcome(brought: Result<Outcome, Failure>) -> Outcome {
    brought.unwrap_or_else(Outcome::Failed)
}

fn arrive(choice: &CallChoice, seed: u64) -> Outcome {
    let (found, call_file) = match choice {
        CallChoice::BuiltIn(id) => (calls::call(id), None),
        CallChoice::File(path) => (calls::call_file(path), Some(path.clone())),
    };
    let call = match found {
        Ok(call) => call,
        Err(error) => return Outcome::Failed(Failure::from(error)),
    };
    match Recorded::start(&call, seed) {
        Ok(recorded) => Outcome::AtWork(Box::new(AtWork { recorded, call_file })),
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
    let held_against = HeldAgainst { call_file: call_file.clone(), ..HeldAgainst::default() };
    let opened = match Opened::read(path, &held_against) {
        Ok(opened) => opened,
        Err(error) => return Outcome::Failed(Failure::from(error)),
    };
    if opened.record.closed {
        return marking::of_record(&opened, arrivals, watch, leave);
    }
    match opened.replay() {
        Ok(recorded) => Outcome::AtWork(Box::new(AtWork { recorded, call_file })),
        Err(error) => Outcome::Failed(Failure::from(error)),
    }
}
