//! Where flow laws go over to laminar.

/// Flow laws near no difference of pressure.
pub(super) struct Laminar;

impl Laminar {
    /// Pressure difference below which flow laws go over to laminar, Pa: a square root has infinite slope at zero, which no
    /// fixed step survives.
    pub(super) const BELOW_PA: f64 = 2.0e3;

    /// Root of a pressure difference with its sign, Pa^(1/2).
    pub(super) fn root(difference_pa: f64) -> f64 {
        difference_pa / libm::sqrt(difference_pa.abs() + Self::BELOW_PA)
    }
}
