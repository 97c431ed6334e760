//! What the plant and the site were like at each move: the visit worked again from seed and moves.

use plant::{Inputs, Ledger, StepError};
use visit::Visit;

/// Longest stretch of plant time between two looks at the plant while a move is worked again, s.
const SLICE_S: f64 = 60.0;
/// Ice below this takes less than a tenth of the airflow and melts in the next off cycle, kg. Engineering value.
const ICE_KG: f64 = 0.3;
/// Speed above which a compressor counts as running, share of its running speed.
const RUNNING_SPEED: f64 = 0.5;

/// The visit, move by move.
#[derive(Clone, Debug)]
pub struct Trail {
    /// One moment for each notebook entry, in order.
    pub moments: Vec<Moment>,
}

/// Plant and site around one notebook entry.
#[derive(Clone, Debug)]
pub struct Moment {
    /// Number of the notebook entry.
    pub entry: u32,
    /// What was set when the move began.
    pub inputs: Inputs,
    /// Blower speed when the move began, share of its running speed.
    pub blower_speed: f64,
    /// Refrigerant in the circuit when the move began, kg.
    pub charge_before_kg: f64,
    /// Refrigerant balance after the move.
    pub ledger_after: Ledger,
    /// How long the compressor had run on ice since arrival, when the move was done, s.
    pub ran_on_ice_s: f64,
}

impl Trail {
    /// Works a visit again.
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn of(visit: &Visit) -> Result<Trail, StepError> {
        let mut again = Visit::start(visit.call(), visit.seed())?;
        let mut ran_on_ice_s = 0.0;
        let mut moments = Vec::with_capacity(visit.notebook().len());
        for entry in visit.notebook() {
            // Real time between moves, as in the window.
            while again.time_s() < entry.started_s {
                let slice_s = (entry.started_s - again.time_s()).min(SLICE_S);
                let before_s = again.time_s();
                ran_on_ice_s += on_ice_s(&again, slice_s);
                again.let_time_pass(slice_s)?;
                if again.time_s() <= before_s {
                    break;
                }
            }
            let inputs = again.inputs().clone();
            let blower_speed = again.truth().blower_speed;
            let charge_before_kg = again.truth().charge_total_kg;
            again.begin(&entry.action);
            while again.busy().is_some() {
                let before_s = again.time_s();
                let was_on_ice = on_ice_s(&again, 1.0);
                again.work(SLICE_S)?;
                ran_on_ice_s += was_on_ice * (again.time_s() - before_s);
            }
            moments.push(Moment {
                entry: entry.number,
                inputs,
                blower_speed,
                charge_before_kg,
                ledger_after: *again.plant().ledger(),
                ran_on_ice_s,
            });
        }
        Ok(Trail { moments })
    }

    /// The moment of an entry.
    pub fn at(&self, entry: u32) -> Option<&Moment> {
        self.moments.iter().find(|moment| moment.entry == entry)
    }
}

fn on_ice_s(visit: &Visit, seconds: f64) -> f64 {
    let truth = visit.truth();
    if truth.frost_mass_kg > ICE_KG && truth.compressor_speed > RUNNING_SPEED { seconds } else { 0.0 }
}
