//! What the plant and the site were like at each move: the visit worked again from seed and moves.

use plant::{Inputs, Ledger, StepError};
use visit::{Entry, Onlooker, Visit};

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
        let mut tracker = Tracker::default();
        visit::make_again(visit, &mut [&mut tracker])?;
        Ok(tracker.trail())
    }

    /// The moment of an entry.
    pub fn at(&self, entry: u32) -> Option<&Moment> {
        self.moments.iter().find(|moment| moment.entry == entry)
    }
}

/// Makes a trail while a visit is made again.
#[derive(Clone, Debug, Default)]
pub struct Tracker {
    moments: Vec<Moment>,
    ran_on_ice_s: f64,
    /// Plant time of the last look, s, and whether the compressor ran on ice then.
    looked_s: f64,
    on_ice: bool,
    /// What the move that is being made began with.
    began: Option<(Inputs, f64, f64)>,
}

impl Tracker {
    /// What it has seen.
    pub fn trail(self) -> Trail {
        Trail { moments: self.moments }
    }

    fn note(&mut self, visit: &Visit) {
        let truth = visit.truth();
        self.looked_s = visit.time_s();
        self.on_ice = truth.frost_mass_kg > ICE_KG && truth.compressor_speed > RUNNING_SPEED;
    }
}

impl Onlooker for Tracker {
    fn arrives(&mut self, _visit: &Visit, _until_s: f64) {
        *self = Tracker::default();
    }

    fn interval_s(&self) -> f64 {
        SLICE_S
    }

    fn rests(&mut self, visit: &Visit) {
        self.note(visit);
    }

    fn comes_to_move(&mut self, visit: &Visit) {
        let truth = visit.truth();
        self.began = Some((visit.inputs().clone(), truth.blower_speed, truth.charge_total_kg));
    }

    fn begins_move(&mut self, visit: &Visit) {
        self.note(visit);
    }

    fn looks(&mut self, visit: &Visit) {
        if self.on_ice {
            self.ran_on_ice_s += visit.time_s() - self.looked_s;
        }
        self.note(visit);
    }

    fn ends_move(&mut self, visit: &Visit, entry: &Entry) {
        let Some((inputs, blower_speed, charge_before_kg)) = self.began.take() else { return };
        self.moments.push(Moment {
            entry: entry.number,
            inputs,
            blower_speed,
            charge_before_kg,
            ledger_after: *visit.plant().ledger(),
            ran_on_ice_s: self.ran_on_ice_s,
        });
    }
}
