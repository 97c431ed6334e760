//! Long work on a thread of its own: the one way in which it is begun, watched, stopped and ended.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use diagnosis::{Done, Progress};

use crate::failure::Failure;

/// Work that was begun. It stops soon after this is dropped.
pub struct Background<T> {
    watch: Arc<Watch>,
    // A receiver must not be shared between threads; what holds this may be.
    receiver: Mutex<Receiver<Result<T, Failure>>>,
}

/// How far the work is, stage by stage, and whether it is still wanted. Of itself it is the progress of the first stage.
#[derive(Debug, Default)]
pub struct Watch {
    shares_bits: [AtomicU64; Stage::COUNT],
    steps: AtomicUsize,
    is_cancelled: AtomicBool,
}

/// A stage of work whose progress is shown apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// What is waited for.
    First,
    /// The figures beside the marks.
    Figures,
    /// The evidence beside the marks.
    Evidence,
}

impl Stage {
    const COUNT: usize = 3;
}

/// The progress of one stage.
pub struct OfStage<'a> {
    watch: &'a Watch,
    stage: Stage,
}

impl Watch {
    /// The progress of a stage.
    pub fn stage(&self, stage: Stage) -> OfStage<'_> {
        OfStage { watch: self, stage }
    }

    /// Share of a stage that is done, 0 to 1.
    pub fn share(&self, stage: Stage) -> f64 {
        f64::from_bits(self.shares_bits[stage as usize].load(Ordering::Relaxed))
    }

    /// Steps made so far.
    pub fn steps(&self) -> usize {
        self.steps.load(Ordering::Relaxed)
    }

    /// Nobody waits any more.
    pub fn cancel(&self) {
        self.is_cancelled.store(true, Ordering::Relaxed);
    }

    fn take(&self, stage: Stage, done: Done) {
        match done {
            Done::Share(share) => {
                self.shares_bits[stage as usize].store(share.clamp(0.0, 1.0).to_bits(), Ordering::Relaxed);
            }
            Done::Steps(steps) => self.steps.store(steps, Ordering::Relaxed),
        }
    }
}

impl Progress for Watch {
    fn report(&self, done: Done) {
        self.take(Stage::First, done);
    }

    fn is_cancelled(&self) -> bool {
        self.is_cancelled.load(Ordering::Relaxed)
    }
}

impl Progress for OfStage<'_> {
    fn report(&self, done: Done) {
        self.watch.take(self.stage, done);
    }

    fn is_cancelled(&self) -> bool {
        self.watch.is_cancelled()
    }
}

impl<T: Send + 'static> Background<T> {
    /// Begins. The work leaves what it brings, one thing after another, with its second argument; a panic is told as a failure.
    pub fn start(
        name: &str,
        work: impl FnOnce(&Arc<Watch>, &(dyn Fn(T) + Sync)) + Send + 'static,
    ) -> Background<T> {
        let (sender, receiver) = channel();
        let watch = Arc::new(Watch::default());
        let spawned = thread::Builder::new().name(name.to_owned()).spawn({
            let (sender, watch) = (sender.clone(), Arc::clone(&watch));
            move || {
                // Nobody listens any more after a cancel.
                let leave = |thing| drop(sender.send(Ok(thing)));
                // What the work has touched is dropped with it.
                if let Err(reason) = catch_unwind(AssertUnwindSafe(|| work(&watch, &leave))) {
                    drop(sender.send(Err(Failure::BrokeOff(panic_text(reason.as_ref())))));
                }
            }
        });
        if let Err(reason) = spawned {
            drop(sender.send(Err(Failure::NotBegun(reason.to_string()))));
        }
        Background { watch, receiver: Mutex::new(receiver) }
    }

    /// What it has brought since it was asked the last time. After its end it brings a failure.
    pub fn poll(&self) -> Option<Result<T, Failure>> {
        let receiver = self.receiver.lock().unwrap_or_else(PoisonError::into_inner);
        match receiver.try_recv() {
            Ok(thing) => Some(thing),
            Err(TryRecvError::Empty) => None,
            // What it brings last was taken before, or never came.
            Err(TryRecvError::Disconnected) => Some(Err(Failure::NoResult)),
        }
    }

    /// Waits for what it brings next.
    pub fn wait(&self) -> Result<T, Failure> {
        let receiver = self.receiver.lock().unwrap_or_else(PoisonError::into_inner);
        receiver.recv().unwrap_or(Err(Failure::NoResult))
    }

    /// How far it is.
    pub fn watch(&self) -> &Watch {
        &self.watch
    }
}

impl<T> Drop for Background<T> {
    fn drop(&mut self) {
        self.watch.cancel();
    }
}

/// What a panic says of itself; empty if it says nothing.
pub fn panic_text(reason: &(dyn Any + Send)) -> String {
    reason
        .downcast_ref::<String>()
        .cloned()
        .or_else(|| reason.downcast_ref::<&str>().map(|text| (*text).to_owned()))
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Barrier;

    #[test]
    fn things_come_in_order_and_then_no_more() {
        let work = Background::start("things", |watch, leave| {
            watch.report(Done::Share(0.5));
            watch.stage(Stage::Figures).report(Done::Share(0.25));
            watch.report(Done::Steps(7));
            leave(1);
            leave(2);
        });
        assert_eq!((work.wait(), work.wait()), (Ok(1), Ok(2)));
        assert_eq!(work.wait(), Err(Failure::NoResult));
        assert_eq!(work.poll(), Some(Err(Failure::NoResult)));
        let watch = work.watch();
        assert_eq!((watch.share(Stage::First), watch.share(Stage::Figures), watch.steps()), (0.5, 0.25, 7));
    }

    #[test]
    fn a_panic_is_told() {
        let work = Background::<()>::start("breaks", |_, _| panic!("meant to be seen"));
        assert_eq!(work.wait(), Err(Failure::BrokeOff("meant to be seen".to_owned())));
    }

    #[test]
    fn what_is_dropped_is_cancelled() {
        let (begun, ended) = (Arc::new(Barrier::new(2)), Arc::new(Barrier::new(2)));
        let work = Background::<()>::start("dropped", {
            let (begun, ended) = (Arc::clone(&begun), Arc::clone(&ended));
            move |watch, _| {
                begun.wait();
                while !watch.is_cancelled() {
                    thread::yield_now();
                }
                ended.wait();
            }
        });
        begun.wait();
        drop(work);
        ended.wait();
    }
}
