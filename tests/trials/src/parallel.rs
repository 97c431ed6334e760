//! Many visits at the same time.

use std::ops::Range;

use diagnosis::{Unwatched, parallel};
use plant::StepError;

/// Works on every number of a range on so many threads. Results come in the order of the numbers.
///
/// # Errors
/// The error of the first number that failed.
pub fn work_all<T: Send>(
    numbers: Range<u64>,
    threads: usize,
    work: impl Fn(u64) -> Result<T, StepError> + Sync,
) -> Result<Vec<T>, StepError> {
    let mut results: Vec<(u64, Option<T>)> = numbers.map(|number| (number, None)).collect();
    parallel::for_each(&mut results, threads, &Unwatched, |(number, result)| {
        *result = Some(work(*number)?);
        Ok(())
    })?;
    Ok(results.into_iter().filter_map(|(_, result)| result).collect())
}
