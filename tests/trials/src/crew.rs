//! Many visits at the same time.

use std::ops::Range;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

use plant::StepError;

/// Works on every number of a range on so many threads. Results come in the order in which they were done.
///
/// # Errors
/// The first error met.
///
/// # Panics
/// If the work does.
pub fn work_all<T: Send>(
    numbers: Range<u64>,
    threads: usize,
    work: impl Fn(u64) -> Result<T, StepError> + Sync,
) -> Result<Vec<T>, StepError> {
    let next = AtomicU64::new(numbers.start);
    let results: Mutex<Vec<T>> = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..threads.max(1))
            .map(|_| {
                scope.spawn(|| -> Result<(), StepError> {
                    loop {
                        let number = next.fetch_add(1, Ordering::Relaxed);
                        if number >= numbers.end {
                            return Ok(());
                        }
                        let result = work(number)?;
                        results.lock().unwrap_or_else(PoisonError::into_inner).push(result);
                    }
                })
            })
            .collect();
        for worker in workers {
            match worker.join() {
                Ok(result) => result?,
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        Ok(())
    })?;
    Ok(results.into_inner().unwrap_or_else(PoisonError::into_inner))
}
