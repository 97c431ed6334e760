//! The recording of a visit: what the plant did, and plant and site around every move. Marks, figures and plots read it.
//!
//! A [`Recorded`] visit fills it while it is worked; made again from its record, it is the same to the bit, in whatever slices the
//! time passed.

use call::Call;
use media::units::STANDARD_ATMOSPHERE_PA;
use plant::{Inputs, Ledger, Readout, StepError};
use serde::{Deserialize, Serialize};

use crate::action::Move;
use crate::again::{Onlooker, make_again};
use crate::notebook::Entry;
use crate::record::{Record, ReplayError, replay_before};
use crate::tick::TICK_S;
use crate::visit::Visit;

/// Ice above this takes a tenth of the airflow and more, does not melt in the next off cycle, and makes readings of the refrigerant
/// side meaningless, kg. Engineering value.
pub const ICED_KG: f64 = 0.3;
/// Speed above which a compressor counts as running, share of its running speed.
const RUNNING_SPEED: f64 = 0.5;
/// Plant time between two looks within a stretch, s: divides every interval at which looks are picked.
pub const LOOK_S: f64 = 5.0;
/// Looks between two at which it is asked whether the compressor runs on ice: a minute.
const LOOKS_OF_ICE: u32 = 12;

/// Whether there is so much ice on the coil that it counts as iced.
pub fn is_iced(truth: &Readout) -> bool {
    truth.frost_mass_kg > ICED_KG
}

/// Whether the compressor runs.
pub fn compressor_runs(truth: &Readout) -> bool {
    truth.compressor_speed > RUNNING_SPEED
}

/// What was seen of a visit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recording {
    looks: Vec<Look>,
    moments: Vec<Moment>,
    last_running: Option<(f64, Readout)>,
    stretch: Stretch,
    ice: OnIce,
    /// What the move that is being made began with: inputs, blower speed, charge.
    began: Option<(Inputs, f64, f64)>,
}

/// One look at the plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// What was seen.
    pub sample: Sample,
    /// Where in its stretch it was taken.
    pub at: At,
}

/// Where in a stretch, a move or the time between two, a look was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// After so many looks of [`LOOK_S`].
    Within(u32),
    /// At its end, or on arrival.
    End,
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

/// Plant and site around one notebook entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Number of the entry.
    pub entry: u32,
    /// When it was done, s since arrival.
    pub since_arrival_s: f64,
    /// What was set when the move began.
    pub inputs: Inputs,
    /// Blower speed when the move began, share of its running speed.
    pub blower_speed: f64,
    /// Refrigerant in the circuit when the move began, kg.
    pub charge_before_kg: f64,
    /// True values when the move was done.
    pub truth: Readout,
    /// Refrigerant balance after the move.
    pub ledger_after: Ledger,
    /// How long the compressor had run on ice since arrival, when the move was done, s.
    pub ran_on_ice_s: f64,
}

/// The stretch that goes on: since when, plant time, s, and how often it was looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Stretch {
    began_s: f64,
    looks: u32,
}

/// How long the compressor ran on ice.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct OnIce {
    ran_s: f64,
    /// Plant time of the last look at it, s, and whether it ran on ice then.
    looked_s: f64,
    is_on_ice: bool,
}

impl Sample {
    /// Of the plant at a time since arrival, s.
    pub fn of(truth: &Readout, since_arrival_s: f64) -> Sample {
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

impl Recording {
    /// Makes a visit again for its recording.
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn of(visit: &Visit) -> Result<Recording, StepError> {
        let mut recording = Recording::default();
        make_again(visit, &mut [&mut recording])?;
        Ok(recording)
    }

    /// Every look, oldest first: the first on arrival, the last at the end.
    pub fn looks(&self) -> &[Look] {
        &self.looks
    }

    /// One moment for each notebook entry, in order.
    pub fn moments(&self) -> &[Moment] {
        &self.moments
    }

    /// The moment of an entry.
    pub fn at(&self, entry: u32) -> Option<&Moment> {
        self.moments.iter().find(|moment| moment.entry == entry)
    }

    /// The plant at the last look at which the compressor ran, if it ran at all, with that instant in s after arrival.
    pub fn last_running(&self) -> Option<&(f64, Readout)> {
        self.last_running.as_ref()
    }

    /// How long it is, s.
    pub fn length_s(&self) -> f64 {
        self.looks.last().map_or(0.0, |look| look.sample.since_arrival_s)
    }

    /// The visit has arrived.
    fn begin(&mut self, visit: &Visit) {
        *self = Recording::default();
        self.look(visit, At::End);
        self.begin_stretch(visit);
    }

    fn begin_stretch(&mut self, visit: &Visit) {
        self.stretch = Stretch { began_s: visit.time_s(), looks: 0 };
        self.ice.note(visit);
    }

    /// A stretch is over: its last look stands for its end.
    fn end_stretch(&mut self, visit: &Visit) {
        let now_s = since_arrival_s(visit);
        match self.looks.last_mut() {
            Some(last) if last.sample.since_arrival_s >= now_s => last.at = At::End,
            _ => self.look(visit, At::End),
        }
        self.ice.look(visit);
    }

    fn comes_to(&mut self, visit: &Visit) {
        self.end_stretch(visit);
        let truth = visit.truth();
        self.began = Some((visit.inputs().clone(), truth.blower_speed, truth.charge_total_kg));
    }

    fn done(&mut self, visit: &Visit, entry: &Entry) {
        self.end_stretch(visit);
        let Some((inputs, blower_speed, charge_before_kg)) = self.began.take() else { return };
        self.moments.push(Moment {
            entry: entry.number,
            since_arrival_s: since_arrival_s(visit),
            inputs,
            blower_speed,
            charge_before_kg,
            truth: visit.truth().clone(),
            ledger_after: *visit.plant().ledger(),
            ran_on_ice_s: self.ice.ran_s,
        });
        self.begin_stretch(visit);
    }

    /// Plant time to the next look of the stretch, s.
    fn to_next_look_s(&self, visit: &Visit) -> f64 {
        self.stretch.began_s + f64::from(self.stretch.looks + 1) * LOOK_S - visit.time_s()
    }

    /// Looks if it is time for it.
    fn look_if_due(&mut self, visit: &Visit) {
        if self.to_next_look_s(visit) <= 0.0 {
            self.stretch.looks += 1;
            let looks = self.stretch.looks;
            self.look(visit, At::Within(looks));
            if looks.is_multiple_of(LOOKS_OF_ICE) {
                self.ice.look(visit);
            }
        }
    }

    fn look(&mut self, visit: &Visit, at: At) {
        let (truth, now_s) = (visit.truth(), since_arrival_s(visit));
        if compressor_runs(truth) {
            self.last_running = Some((now_s, truth.clone()));
        }
        self.looks.push(Look { sample: Sample::of(truth, now_s), at });
    }
}

impl OnIce {
    fn note(&mut self, visit: &Visit) {
        let truth = visit.truth();
        self.looked_s = visit.time_s();
        self.is_on_ice = is_iced(truth) && compressor_runs(truth);
    }

    fn look(&mut self, visit: &Visit) {
        if self.is_on_ice {
            self.ran_s += visit.time_s() - self.looked_s;
        }
        self.note(visit);
    }
}

impl Onlooker for Recording {
    fn arrives(&mut self, visit: &Visit, _until_s: f64) {
        self.begin(visit);
    }

    fn interval_s(&self) -> f64 {
        LOOK_S
    }

    fn rests(&mut self, visit: &Visit) {
        self.begin_stretch(visit);
    }

    fn comes_to_move(&mut self, visit: &Visit) {
        self.comes_to(visit);
    }

    fn begins_move(&mut self, visit: &Visit) {
        self.begin_stretch(visit);
    }

    fn looks(&mut self, visit: &Visit) {
        self.look_if_due(visit);
    }

    fn ends_move(&mut self, visit: &Visit, entry: &Entry) {
        self.done(visit, entry);
    }

    fn leaves(&mut self, visit: &Visit) {
        self.end_stretch(visit);
    }
}

fn since_arrival_s(visit: &Visit) -> f64 {
    visit.time_s() - visit.arrival_s()
}

/// A visit that is recorded while it is worked.
#[derive(Clone, Debug)]
pub struct Recorded {
    visit: Visit,
    recording: Recording,
}

impl Recorded {
    /// Arrives at a call.
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn start(call: &Call, seed: u64) -> Result<Recorded, StepError> {
        let visit = Visit::start(call, seed)?;
        let mut recording = Recording::default();
        recording.begin(&visit);
        Ok(Recorded { visit, recording })
    }

    /// Makes the visit of a record again; it can go on.
    ///
    /// # Errors
    /// If the record does not fit its call or its notebook.
    pub fn replay(record: &Record, call: &Call) -> Result<Recorded, ReplayError> {
        let mut recording = Recording::default();
        let visit = replay_before(record, call, &mut [&mut recording])?;
        recording.begin_stretch(&visit);
        Ok(Recorded { visit, recording })
    }

    /// The visit.
    pub fn visit(&self) -> &Visit {
        &self.visit
    }

    /// What was seen of it, up to the last look.
    pub fn recording(&self) -> &Recording {
        &self.recording
    }

    /// The visit, and what was seen of it up to now.
    pub fn into_parts(mut self) -> (Visit, Recording) {
        self.recording.end_stretch(&self.visit);
        (self.visit, self.recording)
    }

    /// Begins a move; see [`Visit::begin`]. While another one is made, nothing is begun.
    pub fn begin(&mut self, action: &Move) {
        if self.visit.busy().is_some() {
            return;
        }
        self.recording.comes_to(&self.visit);
        self.visit.begin(action);
        self.recording.begin_stretch(&self.visit);
        self.note_end();
    }

    /// Makes a move from its begin to its end and returns its entry; see [`Visit::perform`].
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn perform(&mut self, action: &Move) -> Result<Option<&Entry>, StepError> {
        self.begin(action);
        while self.visit.busy().is_some() {
            self.work(LOOK_S)?;
        }
        Ok(self.visit.notebook().last())
    }

    /// Ends the running wait; see [`Visit::stop_waiting`].
    pub fn stop_waiting(&mut self) {
        let was_busy = self.visit.busy().is_some();
        self.visit.stop_waiting();
        if was_busy {
            self.note_end();
        }
    }

    /// Works on the running move for so long, s of plant time; see [`Visit::work`].
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn work(&mut self, seconds: f64) -> Result<(), StepError> {
        let mut left_s = seconds.max(TICK_S);
        // Less than a tick is none, as the visit has it.
        while left_s >= TICK_S && self.visit.busy().is_some() {
            let slice_s = left_s.min(self.recording.to_next_look_s(&self.visit));
            left_s -= slice_s;
            self.visit.work(slice_s)?;
            self.recording.look_if_due(&self.visit);
            self.note_end();
        }
        Ok(())
    }

    /// Lets time pass without a move, s; see [`Visit::let_time_pass`].
    ///
    /// # Errors
    /// When the plant reaches a state that is not finite.
    pub fn let_time_pass(&mut self, seconds: f64) -> Result<(), StepError> {
        if self.visit.busy().is_some() {
            return self.work(seconds);
        }
        let mut left_s = seconds;
        while left_s > 0.0 && self.visit.clock_runs() {
            let slice_s = left_s.min(self.recording.to_next_look_s(&self.visit));
            left_s -= slice_s;
            self.visit.let_time_pass(slice_s)?;
            self.recording.look_if_due(&self.visit);
        }
        Ok(())
    }

    fn note_end(&mut self) {
        if self.visit.busy().is_none()
            && let Some(entry) = self.visit.notebook().last()
        {
            self.recording.done(&self.visit, entry);
        }
    }
}
