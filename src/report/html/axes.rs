//! Axes of time.

use chart::Axis;

/// Minutes since arrival from 0 to a last one.
pub(super) fn minutes(label: String, last_min: f64) -> Axis {
    const STEPS: [f64; 9] = [1.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0];
    Axis::from_zero(label, last_min.max(1.0), 10.0, &STEPS)
}

/// Hours from 0 to a last one.
pub(super) fn hours(label: String, last_h: f64) -> Axis {
    const STEPS: [f64; 7] = [1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0];
    Axis::from_zero(label, last_h.max(0.1), 12.0, &STEPS)
}
