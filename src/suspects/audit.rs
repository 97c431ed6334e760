//! The engine held against itself: what a shadow at the true severity is off by.

use plant::StepError;
use visit::{Measured, Outcome, ShadowPace, Trust, Visit};

use crate::shadow::Shadow;
use crate::surroundings::{Elsewhere, Surroundings};
use crate::suspect::Suspect;
use crate::suspects::onset_told_s;
use crate::unknowns::Unknowns;
use crate::weigh::{Gave, off};

/// What one reading is off the shadow at the true severity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Number of the entry.
    pub entry: u32,
    /// What was read.
    pub quantity: Measured,
    /// How far it could be relied on.
    pub trust: Trust,
    /// Real value less the shadow's, in the quantity's SI unit.
    pub off: f64,
    /// The same in standard deviations as the engine has them, with all that the entries before have taught: 1 r.m.s. if
    /// it knows what it doesn't know.
    pub z: f64,
}

/// Residuals of all readings of a visit, if its one suspect and amounts are the truth.
///
/// # Errors
/// If a shadow leaves the finite numbers.
pub fn residuals(visit: &Visit, suspect: &Suspect, amounts: &[f64]) -> Result<Vec<Residual>, StepError> {
    let call = visit.call();
    let stand = suspect.stands_behind(&call.system);
    let mut shadow = Shadow::arrive(call, &stand, amounts.to_vec(), onset_told_s(call), ShadowPace::Strides)?;
    let mut surroundings = Surroundings { shadows: Vec::new() };
    for elsewhere in Elsewhere::of(call) {
        surroundings.shadows.push(elsewhere.arrive(call, ShadowPace::Strides)?);
    }
    let mut unknowns = Unknowns::default();
    let mut all = Vec::new();
    for entry in visit.notebook() {
        for one in surroundings.shadows.iter_mut().chain([&mut shadow]) {
            one.finish(entry, visit.arrival_s())?;
        }
        let Outcome::Read(taken) = &entry.outcome else { continue };
        let Some((gave, fit)) = shadow.gave(entry.number).zip(shadow.fit(entry.number)) else { continue };
        let sensitivity = surroundings.sensitivity(entry);
        let gave = Gave { weight: 1.0, entry: gave, before: None, fit };
        if let Some((z, off)) = off(entry, taken, &gave, &sensitivity, &mut unknowns) {
            all.push(Residual { entry: entry.number, quantity: taken.quantity, trust: taken.trust, off, z });
        }
    }
    Ok(all)
}
