//! A sound path through the call of a closed visit, worked out beside its review.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::sync::{Arc, Mutex};
use std::thread;

use call::Call;
use diagnosis::Hypotheses;
use report::SoundPath;

/// Running work on a path. It stops soon after this is dropped.
pub struct PathWork {
    // A receiver must not be shared between threads; the engine's resources may be.
    receiver: Mutex<Receiver<Option<SoundPath>>>,
    steps: Arc<AtomicUsize>,
    stop: Arc<AtomicBool>,
}

/// What came of it so far.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// It is still worked on.
    NotYet,
    /// A path, or none if a plant could not go it.
    Done(Option<SoundPath>),
}

impl PathWork {
    /// Begins, from the suspects on arrival.
    pub fn start(call: &Call, seed: u64, arrived: Hypotheses) -> PathWork {
        let (sender, receiver) = channel();
        let (steps, stop) = (Arc::new(AtomicUsize::new(0)), Arc::new(AtomicBool::new(false)));
        let spawned = thread::Builder::new().name("rimebench-path".to_owned()).spawn({
            let (call, steps, stop) = (call.clone(), Arc::clone(&steps), Arc::clone(&stop));
            move || {
                let watch = |made: usize| {
                    steps.store(made, Ordering::Relaxed);
                    !stop.load(Ordering::Relaxed)
                };
                let path = SoundPath::work_out(&call, seed, arrived, &watch).ok().flatten();
                // Nobody listens any more after the review was left.
                let _ = sender.send(path);
            }
        });
        // Without a thread the sender is gone, which counts as no path.
        drop(spawned);
        PathWork { receiver: Mutex::new(receiver), steps, stop }
    }

    /// What came of it so far.
    pub fn poll(&self) -> Found {
        let Ok(receiver) = self.receiver.lock() else { return Found::Done(None) };
        match receiver.try_recv() {
            Ok(path) => Found::Done(path),
            Err(TryRecvError::Empty) => Found::NotYet,
            Err(TryRecvError::Disconnected) => Found::Done(None),
        }
    }

    /// Steps made so far.
    pub fn steps(&self) -> usize {
        self.steps.load(Ordering::Relaxed)
    }
}

impl Drop for PathWork {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}
