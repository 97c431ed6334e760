//! Many pieces of work, a few cores.

use std::sync::{Mutex, PoisonError};

use crate::progress::{Done, Progress};

/// What came of work that can be stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Worked {
    /// All of it was done.
    Done,
    /// It was stopped.
    Stopped,
}

/// Works on every item on so many threads. Items are independent, so the result does not depend on how many.
///
/// # Errors
/// The first error of the first item in order that failed.
pub fn for_each<T: Send, E: Send>(
    items: &mut [T],
    threads: usize,
    progress: &dyn Progress,
    work: impl Fn(&mut T) -> Result<(), E> + Sync,
) -> Result<Worked, E> {
    struct State<'a, T, E> {
        left: std::iter::Enumerate<std::slice::IterMut<'a, T>>,
        done: usize,
        stopped: bool,
        failed: Option<(usize, E)>,
    }
    let count = items.len();
    if count == 0 {
        return Ok(Worked::Done);
    }
    let state =
        Mutex::new(State { left: items.iter_mut().enumerate(), done: 0, stopped: false, failed: None });
    let labour = || {
        loop {
            let next = {
                let mut state = state.lock().unwrap_or_else(PoisonError::into_inner);
                if state.stopped { None } else { state.left.next() }
            };
            let Some((index, item)) = next else { return };
            let result = work(item);
            let share = {
                let mut state = state.lock().unwrap_or_else(PoisonError::into_inner);
                state.done += 1;
                if let Err(error) = result
                    && state.failed.as_ref().is_none_or(|(earlier, _)| index < *earlier)
                {
                    state.failed = Some((index, error));
                }
                state.done as f64 / count as f64
            };
            if !progress.goes_on(Done::Share(share)) {
                state.lock().unwrap_or_else(PoisonError::into_inner).stopped = true;
            }
        }
    };
    let workers = threads.clamp(1, count);
    if workers == 1 {
        labour();
    } else {
        std::thread::scope(|scope| {
            for _ in 0..workers {
                scope.spawn(labour);
            }
        });
    }
    let state = state.into_inner().unwrap_or_else(PoisonError::into_inner);
    match state.failed {
        Some((_, error)) => Err(error),
        None if state.stopped && state.done < count => Ok(Worked::Stopped),
        None => Ok(Worked::Done),
    }
}

/// Threads that the machine runs at the same time.
pub fn cores() -> usize {
    std::thread::available_parallelism().map_or(1, |cores| cores.get())
}
