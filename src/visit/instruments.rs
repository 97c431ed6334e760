//! Instruments: accuracy, resolution, settling, and what they show.
//!
//! All figures are typical of their class, from memory, no source. An instrument's error has a part that stays
//! for the whole visit (its calibration) and a small part for each reading. Both follow from the seed alone.
//! A live display and a reading take the same way, so looking changes nothing.

pub(crate) mod bag;
mod reading;

use plant::{Readout, Weather};

use crate::measured::{Measured, Piece, instrument};
use crate::place::{AirPoint, Bulb, PipePoint, Port};
use crate::random::normal;
use crate::tick::TICK_S;
use crate::truth::{air_k, gauge_pressure_pa, pipe_k};

pub use bag::{Instrument, InstrumentKind};
pub use reading::LiveReading;

use bag::{CLAMP, DRY_BULB, GAUGE, MICRON, WET_BULB};

/// Pipe clamps in the bag.
const CLAMPS: usize = 4;
/// Air probes in the bag.
const PROBES: usize = 2;

/// Everything in the bag, with what it is attached to. Displays are sent to the learner's hand by radio, so an
/// instrument in place can be read from anywhere.
#[derive(Clone, Debug)]
pub(crate) struct InstrumentBag {
    seed: u64,
    weather_dew_point_k: f64,
    pressures: Option<[f64; 2]>,
    clamps: [Option<Attached<PipePoint>>; CLAMPS],
    probes: [Option<Attached<AirPoint>>; PROBES],
    vacuum: Option<f64>,
    scale: Option<ScaleUse>,
    uses: u64,
    shares: Shares,
    errors: Errors,
}

/// Whether the instruments are those of the trade or those of thought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Errors {
    /// With calibration, noise and the steps of a display.
    Rated,
    /// What they have settled to.
    None,
}

/// A thermometer in place.
#[derive(Clone, Copy, Debug)]
struct Attached<P> {
    point: P,
    dry_k: f64,
    wet_k: f64,
    last_use: u64,
}

/// A scale under a cylinder: what it counts, and from where.
#[derive(Clone, Copy, Debug)]
struct ScaleUse {
    quantity: Measured,
    total_before_kg: f64,
}

/// What an instrument gains on its target in one step.
#[derive(Clone, Debug)]
struct Shares {
    step_s: f64,
    gauge: f64,
    clamp: f64,
    dry: f64,
    wet: f64,
    micron: f64,
}

impl Shares {
    fn in_a_step(step_s: f64) -> Shares {
        let share = |class: &Instrument| 1.0 - libm::exp(-step_s / class.settling_s);
        Shares {
            step_s,
            gauge: share(&GAUGE),
            clamp: share(&CLAMP),
            dry: share(&DRY_BULB),
            wet: share(&WET_BULB),
            micron: share(&MICRON),
        }
    }
}

impl InstrumentBag {
    pub(crate) fn new(seed: u64, weather: &Weather) -> InstrumentBag {
        InstrumentBag::with(seed, weather, Errors::Rated)
    }

    /// Instruments that show what they have settled to.
    pub(crate) fn without_error(weather: &Weather) -> InstrumentBag {
        InstrumentBag::with(0, weather, Errors::None)
    }

    fn with(seed: u64, weather: &Weather, errors: Errors) -> InstrumentBag {
        InstrumentBag {
            errors,
            seed,
            weather_dew_point_k: weather.dew_point_k,
            pressures: None,
            clamps: [None; CLAMPS],
            probes: [None; PROBES],
            vacuum: None,
            scale: None,
            uses: 0,
            shares: Shares::in_a_step(TICK_S),
        }
    }

    /// Follows what is true at the end of a step.
    pub(crate) fn tick(&mut self, truth: &Readout, step_s: f64) {
        if self.shares.step_s != step_s {
            self.shares = Shares::in_a_step(step_s);
        }
        if let Some(shown) = &mut self.pressures {
            for (value, port) in shown.iter_mut().zip([Port::Suction, Port::Liquid]) {
                *value += (gauge_pressure_pa(truth, port) - *value) * self.shares.gauge;
            }
        }
        for clamp in self.clamps.iter_mut().flatten() {
            clamp.dry_k += (pipe_k(truth, clamp.point) - clamp.dry_k) * self.shares.clamp;
        }
        for probe in self.probes.iter_mut().flatten() {
            let dry_k = air_k(truth, self.weather_dew_point_k, probe.point, Bulb::Dry);
            let wet_k = air_k(truth, self.weather_dew_point_k, probe.point, Bulb::Wet);
            probe.dry_k += (dry_k - probe.dry_k) * self.shares.dry;
            probe.wet_k += (wet_k - probe.wet_k) * self.shares.wet;
        }
        if let Some(shown) = &mut self.vacuum {
            *shown += (truth.suction_pressure_pa - *shown) * self.shares.micron;
        }
    }

    /// Everything attached comes to rest at once, as after a long look.
    pub(crate) fn settle(&mut self, truth: &Readout) {
        if let Some(shown) = &mut self.pressures {
            *shown = [Port::Suction, Port::Liquid].map(|port| gauge_pressure_pa(truth, port));
        }
        for clamp in self.clamps.iter_mut().flatten() {
            clamp.dry_k = pipe_k(truth, clamp.point);
        }
        for probe in self.probes.iter_mut().flatten() {
            probe.dry_k = air_k(truth, self.weather_dew_point_k, probe.point, Bulb::Dry);
            probe.wet_k = air_k(truth, self.weather_dew_point_k, probe.point, Bulb::Wet);
        }
        if let Some(shown) = &mut self.vacuum {
            *shown = truth.suction_pressure_pa;
        }
    }

    pub(crate) fn connect_gauges(&mut self) {
        self.pressures = Some([0.0; 2]);
    }

    pub(crate) fn disconnect_gauges(&mut self) {
        self.pressures = None;
    }

    pub(crate) fn has_clamp(&self, point: PipePoint) -> bool {
        self.clamps.iter().flatten().any(|clamp| clamp.point == point)
    }

    pub(crate) fn has_probe(&self, point: AirPoint) -> bool {
        self.probes.iter().flatten().any(|probe| probe.point == point)
    }

    /// Clamps a thermometer on; if all are in use, the one left alone for longest is moved.
    pub(crate) fn clamp(&mut self, point: PipePoint, around_k: f64) {
        self.uses += 1;
        attach(&mut self.clamps, point, [around_k, around_k], self.uses);
    }

    /// Puts an air probe in place; the same rule.
    pub(crate) fn probe(&mut self, point: AirPoint, around_k: [f64; 2]) {
        self.uses += 1;
        attach(&mut self.probes, point, around_k, self.uses);
    }

    pub(crate) fn start_micron_gauge(&mut self, truth: &Readout) {
        self.vacuum = Some(truth.suction_pressure_pa);
    }

    pub(crate) fn stop_micron_gauge(&mut self) {
        self.vacuum = None;
    }

    pub(crate) fn start_scale(&mut self, quantity: Measured, total_before_kg: f64) {
        self.scale = Some(ScaleUse { quantity, total_before_kg });
    }

    /// What the scale in use counts.
    pub(crate) fn scale_counts(&self) -> Option<Measured> {
        self.scale.map(|scale| scale.quantity)
    }

    pub(crate) fn stop_scale(&mut self) {
        self.scale = None;
    }

    pub(crate) fn pack(&mut self) {
        self.pressures = None;
        self.clamps = [None; CLAMPS];
        self.probes = [None; PROBES];
        self.vacuum = None;
        self.scale = None;
    }

    /// Standing error of one instrument on this visit, as a share of its accuracy: half an accuracy is one
    /// standard deviation, and none leaves the factory outside its accuracy.
    fn calibration(&self, piece: u64) -> f64 {
        (normal(self.seed, "instrument calibration", piece) / 2.0).clamp(-1.0, 1.0)
    }

    /// The display: what the instrument has settled to, its errors, its steps.
    fn shown(&self, quantity: Measured, settled_to: f64, entry_number: u32) -> f64 {
        if self.errors == Errors::None {
            return settled_to;
        }
        let class = instrument(quantity);
        let id = u64::from(self.piece(quantity));
        let noise = normal(self.seed, "reading noise", (u64::from(entry_number) << 16) | id).clamp(-3.0, 3.0);
        let error = class.accuracy_at(settled_to) * self.calibration(id) + class.noise_at(settled_to) * noise;
        class.rounded(settled_to + error)
    }

    /// Which piece of the bag measures the quantity, for its calibration.
    fn piece(&self, quantity: Measured) -> u8 {
        match quantity.row().piece {
            Piece::Own(number) => number,
            Piece::Clamp(point) => 16 + slot_of(&self.clamps, point),
            Piece::Probe(point, first) => first + slot_of(&self.probes, point),
        }
    }

    /// What the attached instrument has settled to; `None` if none is attached there.
    fn settled_to(&self, quantity: Measured) -> Option<f64> {
        match quantity {
            Measured::GaugePressure(Port::Suction) => self.pressures.map(|shown| shown[0]),
            Measured::GaugePressure(Port::Liquid) => self.pressures.map(|shown| shown[1]),
            Measured::PipeTemperature(point) => {
                self.clamps.iter().flatten().find(|clamp| clamp.point == point).map(|clamp| clamp.dry_k)
            }
            Measured::AirTemperature(point, bulb) => {
                let probe = self.probes.iter().flatten().find(|probe| probe.point == point)?;
                Some(match bulb {
                    Bulb::Dry => probe.dry_k,
                    Bulb::Wet => probe.wet_k,
                })
            }
            Measured::Vacuum => self.vacuum,
            Measured::Voltage(..)
            | Measured::Resistance(..)
            | Measured::Capacitance(..)
            | Measured::Current(_)
            | Measured::RecoveredMass
            | Measured::AddedMass
            | Measured::StaticPressure(..) => None,
        }
    }

    /// Everything attached, in the order of the quantities.
    fn attached(&self) -> Vec<Measured> {
        let mut all = Vec::new();
        if self.pressures.is_some() {
            all.push(Measured::GaugePressure(Port::Suction));
            all.push(Measured::GaugePressure(Port::Liquid));
        }
        all.extend(self.clamps.iter().flatten().map(|clamp| Measured::PipeTemperature(clamp.point)));
        for probe in self.probes.iter().flatten() {
            all.push(Measured::AirTemperature(probe.point, Bulb::Dry));
            all.push(Measured::AirTemperature(probe.point, Bulb::Wet));
        }
        if self.vacuum.is_some() {
            all.push(Measured::Vacuum);
        }
        all.extend(self.scale.iter().map(|scale| scale.quantity));
        all.sort();
        all
    }
}

fn attach<P: Copy + PartialEq>(
    slots: &mut [Option<Attached<P>>],
    point: P,
    around_k: [f64; 2],
    last_use: u64,
) {
    if let Some(attached) = slots.iter_mut().flatten().find(|attached| attached.point == point) {
        attached.last_use = last_use;
        return;
    }
    // An empty slot sorts before every used one.
    let Some(slot) = slots.iter_mut().min_by_key(|slot| slot.as_ref().map(|attached| attached.last_use))
    else {
        return;
    };
    *slot = Some(Attached { point, dry_k: around_k[0], wet_k: around_k[1], last_use });
}

fn slot_of<P: PartialEq>(slots: &[Option<Attached<P>>], point: P) -> u8 {
    slots
        .iter()
        .position(|slot| slot.as_ref().is_some_and(|attached| attached.point == point))
        .map_or(slots.len() as u8, |index| index as u8)
}
