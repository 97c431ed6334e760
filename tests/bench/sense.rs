//! Sense: every fault at every severity on every system in a dozen weathers, and any number of random pairs. Once a machine
//! runs, each reading is one that real equipment shows, or a protection ends the run in the time that it would take.
//! `cargo run --release -p bench --bin sense` lives through them; each case is what `rimebench steady` does with the
//! arguments that are printed.

mod bounds;
mod case;
mod live;
mod tally;

pub use bounds::{BOUNDS, Bound, Reading};
pub use case::{Case, OneFault, random_pair, singles};
pub use live::{Breach, live};
pub use tally::Tally;

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Lives through cases on some threads and counts them; `seen` is told after each how many are done.
///
/// # Panics
/// When a plant leaves the finite numbers, which no fault may make it do.
#[must_use]
pub fn live_all(cases: &[Case], hours: f64, threads: usize, seen: impl Fn(usize) + Sync) -> Tally {
    let (next, done) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let tally = Mutex::new(Tally::default());
    std::thread::scope(|scope| {
        for _ in 0..threads.max(1) {
            scope.spawn(|| {
                while let Some(case) = cases.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let breaches = live(case, hours);
                    tally.lock().unwrap_or_else(std::sync::PoisonError::into_inner).count(case, &breaches);
                    seen(done.fetch_add(1, Ordering::Relaxed) + 1);
                }
            });
        }
    });
    let mut tally = tally.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    tally.sort();
    tally
}
