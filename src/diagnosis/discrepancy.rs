//! What a shadow at the true severity is off by, measured.
//!
//! A shadow takes longer steps than the real plant. How much that makes of a settled plant stands in the row of each quantity
//! ([`visit::Measured::row`]), with how it was measured.

use visit::{Measured, Trust};

/// One standard deviation, in the quantity's SI unit: what stays all visit long, and what is off at the moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Discrepancy {
    /// What stays.
    pub standing: f64,
    /// What passes.
    pub passing: f64,
}

/// Discrepancy of a quantity at a value, for a reading that could be relied on so far.
pub(crate) fn discrepancy(quantity: Measured, value: f64, trust: Trust) -> Discrepancy {
    let [standing, passing] = (quantity.row().off)(quantity, value, trust);
    Discrepancy { standing, passing }
}
