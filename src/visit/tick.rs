//! The tick of a visit, and how many there can be.

/// One tick, s: the plant's own step. Everything in a visit happens on a tick, so how the window slices the
/// time never shows in the results.
pub(crate) const TICK_S: f64 = plant::BASE_STEP_S;

/// Longest visit, s: a week. After that the clock stands; no call needs a tenth of it.
pub const VISIT_LIMIT_S: f64 = 7.0 * 24.0 * 3600.0;

/// Ticks that will pass before anything can be done to the plant, where nobody knows of any.
pub(crate) const NO_END: u64 = u64::MAX / 2;

/// Whole ticks in a time.
pub(crate) fn whole_ticks(seconds: f64) -> u64 {
    (seconds / TICK_S) as u64
}
