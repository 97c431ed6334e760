//! The plant's true course over a visit: the visit worked again from its record, and sampled.

use media::units::STANDARD_ATMOSPHERE_PA;
use plant::{Readout, StepError};
use serde::{Deserialize, Serialize};
use visit::{Entry, Onlooker, Visit};

/// Shortest time between two samples, s.
const INTERVAL_MIN_S: f64 = 15.0;
/// Samples that are enough for a plot.
const SAMPLES: f64 = 400.0;
/// Speed above which a compressor counts as running, share of its running speed.
pub(crate) const RUNNING_SPEED: f64 = 0.5;

/// True values over a visit.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Course {
    /// Samples, oldest first: the first on arrival, the last at the end.
    pub samples: Vec<Sample>,
    /// The plant when each notebook entry was done, in order.
    pub moments: Vec<EntryMoment>,
    /// The plant at the last instant at which the compressor ran, if it ran at all, with that instant in s after
    /// arrival.
    pub last_running: Option<(f64, Readout)>,
}

/// True values at one instant.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sample {
    /// Time since arrival, s.
    pub since_arrival_s: f64,
    /// Suction pressure at the port, Pa gauge.
    pub suction_gauge_pa: f64,
    /// Liquid pressure at the port, Pa gauge.
    pub liquid_gauge_pa: f64,
    /// Suction line at the outdoor service valve, K.
    pub suction_line_k: f64,
    /// Liquid line at the outdoor service valve, K.
    pub liquid_line_k: f64,
    /// Mean coil surface, K.
    pub coil_surface_k: f64,
    /// Return air, K.
    pub return_k: f64,
    /// Supply air, K.
    pub supply_k: f64,
    /// Room air, K.
    pub room_k: f64,
    /// Outdoor air, K.
    pub outdoor_k: f64,
    /// Ice on the coil, kg.
    pub frost_mass_kg: f64,
    /// Refrigerant in the circuit, kg.
    pub charge_kg: f64,
    /// Compressor speed, 0 to 1 of its running speed.
    pub compressor_speed: f64,
}

/// The plant when a notebook entry was done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EntryMoment {
    /// Number of the entry.
    pub entry: u32,
    /// Time since arrival, s.
    pub since_arrival_s: f64,
    /// True values.
    pub truth: Readout,
}

impl Sample {
    pub(crate) fn of(truth: &Readout, since_arrival_s: f64) -> Sample {
        Sample {
            since_arrival_s,
            suction_gauge_pa: truth.suction_pressure_pa - STANDARD_ATMOSPHERE_PA,
            liquid_gauge_pa: truth.liquid_pressure_pa - STANDARD_ATMOSPHERE_PA,
            suction_line_k: truth.suction_line_outdoor_k,
            liquid_line_k: truth.liquid_service_valve_k,
            coil_surface_k: truth.coil_surface_k,
            return_k: truth.return_dry_bulb_k,
            supply_k: truth.supply_dry_bulb_k,
            room_k: truth.room_k,
            outdoor_k: truth.outdoor_k,
            frost_mass_kg: truth.frost_mass_kg,
            charge_kg: truth.charge_total_kg,
            compressor_speed: truth.compressor_speed,
        }
    }

    /// Whether the compressor ran.
    pub fn compressor_runs(&self) -> bool {
        self.compressor_speed > RUNNING_SPEED
    }
}

impl Course {
    /// Works a visit again and takes samples.
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn of(visit: &Visit) -> Result<Course, StepError> {
        let mut taker = CourseTaker::default();
        visit::make_again(visit, &mut [&mut taker])?;
        Ok(taker.course())
    }

    /// The plant when an entry was done.
    pub fn at(&self, entry: u32) -> Option<&EntryMoment> {
        self.moments.iter().find(|moment| moment.entry == entry)
    }

    /// Length of the visit, s.
    pub fn length_s(&self) -> f64 {
        self.samples.last().map_or(0.0, |sample| sample.since_arrival_s)
    }
}

/// Takes the samples while a visit is made again.
#[derive(Clone, Debug, Default)]
pub struct CourseTaker {
    interval_s: f64,
    due_s: f64,
    course: Course,
}

impl CourseTaker {
    /// What it has taken.
    pub fn course(self) -> Course {
        self.course
    }

    fn take_if_due(&mut self, visit: &Visit) {
        let now_s = since_arrival_s(visit);
        let truth = visit.truth();
        if truth.compressor_speed > RUNNING_SPEED {
            self.course.last_running = Some((now_s, truth.clone()));
        }
        if now_s + 1.0e-6 >= self.due_s {
            self.course.samples.push(Sample::of(truth, now_s));
            self.due_s = now_s + self.interval_s;
        }
    }
}

impl Onlooker for CourseTaker {
    fn arrives(&mut self, visit: &Visit, until_s: f64) {
        let length_s = until_s - visit.arrival_s();
        let interval_s = (length_s / SAMPLES / 5.0).ceil() * 5.0;
        *self = CourseTaker { interval_s: interval_s.max(INTERVAL_MIN_S), ..CourseTaker::default() };
        self.take_if_due(visit);
    }

    fn interval_s(&self) -> f64 {
        self.interval_s
    }

    fn looks(&mut self, visit: &Visit) {
        self.take_if_due(visit);
    }

    fn ends_move(&mut self, visit: &Visit, entry: &Entry) {
        self.course.moments.push(EntryMoment {
            entry: entry.number,
            since_arrival_s: since_arrival_s(visit),
            truth: visit.truth().clone(),
        });
    }

    fn leaves(&mut self, visit: &Visit) {
        let now_s = since_arrival_s(visit);
        let is_taken = self.course.samples.last().is_some_and(|last| last.since_arrival_s >= now_s - 1.0e-6);
        if !is_taken {
            self.course.samples.push(Sample::of(visit.truth(), now_s));
        }
    }
}

fn since_arrival_s(visit: &Visit) -> f64 {
    visit.time_s() - visit.arrival_s()
}
