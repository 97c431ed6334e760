//! Instruments: accuracy, resolution, settling, and what they show.
//!
//! All figures are typical of their class, from memory, no source. An instrument's error has a part that stays
//! for the whole visit (its calibration) and a small part for each reading. Both follow from the seed alone.
//! A live display and a reading take the same way, so looking changes nothing.

pub(crate) mod bag;

use plant::{Readout, Weather};

use crate::coil::CoilAsSeen;
use crate::measured::{Measured, Needs, Piece, Read};
use crate::moves::{AirPoint, Bulb, PipePoint, Port};
use crate::notebook::{Reading, Trust};
use crate::random::normal;
use crate::site::Gauges;
use crate::visit::{TICK_S, Visit};

pub use bag::{Instrument, InstrumentKind, instrument};

use bag::{CLAMP, DRY_BULB, GAUGE, MICRON, WET_BULB};

/// A plant that has run for less than this is still starting up, s (engineering value; a charge check waits 15
/// minutes by California Title 24 RA3.2, 2008).
pub const START_UP_S: f64 = 300.0;

/// A blower has come up, or run down, after so long, s (engineering value).
const RUNS_UP_S: f64 = 60.0;

/// An instrument that is attached now.
#[derive(Clone, Debug, PartialEq)]
pub struct LiveReading {
    /// What is measured and where.
    pub quantity: Measured,
    /// What the display shows, in `unit`, lagged and rounded as the instrument is.
    pub value: f64,
    /// SI unit.
    pub unit: &'static str,
    /// Whether the value can be relied on, as far as it can be told at this moment ([`Reading::shown`]).
    pub trust: Trust,
}

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

pub(crate) fn gauge_pressure_pa(truth: &Readout, port: Port) -> f64 {
    let absolute_pa = match port {
        Port::Suction => truth.suction_pressure_pa,
        Port::Liquid => truth.liquid_pressure_pa,
    };
    media::units::gauge_pa_from_absolute_pa(absolute_pa, media::units::STANDARD_ATMOSPHERE_PA)
}

pub(crate) fn pipe_k(truth: &Readout, point: PipePoint) -> f64 {
    match point {
        PipePoint::SuctionAtServiceValve => truth.suction_line_outdoor_k,
        PipePoint::SuctionAtBulb => truth.suction_line_indoor_k,
        PipePoint::LiquidAtServiceValve => truth.liquid_service_valve_k,
        PipePoint::LiquidBeforeDrier => truth.liquid_before_drier_k,
        PipePoint::LiquidAfterDrier => truth.liquid_after_drier_k,
        PipePoint::LiquidAtMeteringDevice => truth.liquid_indoor_k,
        PipePoint::Discharge => truth.discharge_k,
        PipePoint::SensingBulb => truth.bulb_k,
    }
}

pub(crate) fn air_k(truth: &Readout, dew_point_k: f64, point: AirPoint, bulb: Bulb) -> f64 {
    match (point, bulb) {
        (AirPoint::Return, Bulb::Dry) => truth.return_dry_bulb_k,
        (AirPoint::Return, Bulb::Wet) => truth.return_wet_bulb_k,
        (AirPoint::Supply, Bulb::Dry) => truth.supply_dry_bulb_k,
        (AirPoint::Supply, Bulb::Wet) => truth.supply_wet_bulb_k,
        (AirPoint::Outdoor, Bulb::Dry) => truth.outdoor_k,
        (AirPoint::Outdoor, Bulb::Wet) => outdoor_wet_bulb_k(truth.outdoor_k, dew_point_k),
    }
}

/// Wet bulb of outdoor air from its dew point; saturated air if it has cooled to the dew point.
fn outdoor_wet_bulb_k(outdoor_k: f64, dew_point_k: f64) -> f64 {
    let outdoor_c = media::units::celsius_from_kelvin(outdoor_k);
    let dew_point_c = media::units::celsius_from_kelvin(dew_point_k.min(outdoor_k));
    let pressure_pa = media::units::STANDARD_ATMOSPHERE_PA;
    let humidity_ratio = media::moist_air::saturation_humidity_ratio(dew_point_c, pressure_pa);
    let wet_bulb_c = media::moist_air::wet_bulb_c(outdoor_c, humidity_ratio, pressure_pa);
    media::units::kelvin_from_celsius(wet_bulb_c)
}

impl Visit {
    /// Instruments that are attached now, with what their displays show.
    pub fn live(&self) -> Vec<LiveReading> {
        self.kit
            .attached()
            .into_iter()
            .filter_map(|quantity| {
                let reading = self.read(quantity, self.next_entry_number())?;
                Some(LiveReading {
                    quantity,
                    value: reading.value,
                    unit: quantity.unit(),
                    trust: reading.shown,
                })
            })
            .collect()
    }

    /// Reads an instrument; `None` if none is attached there.
    pub(crate) fn read(&self, quantity: Measured, entry_number: u32) -> Option<Reading> {
        let row = quantity.row();
        let settled_to = match row.read {
            Read::AtOnce(asked) => asked(self, quantity),
            Read::Scale => {
                let scale = self.kit.scale.filter(|scale| scale.quantity == quantity)?;
                self.scale_total_kg(quantity) - scale.total_before_kg
            }
            Read::Attached => self.kit.settled_to(quantity)?,
            Read::ByItsMove => return None,
        };
        let class = row.instrument;
        let value = self.kit.shown(quantity, settled_to, entry_number).max(row.shows_from);
        let uncertainty = match self.kit.errors {
            Errors::Rated => class.uncertainty_at(settled_to),
            Errors::None => self.trend.swing(quantity),
        };
        let seen_iced = CoilAsSeen::in_notebook(self.notebook()).is_iced();
        let [trust, shown] = [self.is_iced(), seen_iced].map(|iced| self.trust(quantity, settled_to, iced));
        Some(Reading { quantity, value, uncertainty, trust, shown, piece: self.kit.piece(quantity) })
    }

    /// What a hand-held meter shows of a true value; it shows no sign.
    pub(crate) fn metered(&self, quantity: Measured, truth: f64, entry_number: u32) -> Reading {
        Reading {
            quantity,
            value: self.kit.shown(quantity, truth, entry_number).max(0.0),
            uncertainty: match self.kit.errors {
                Errors::Rated => instrument(quantity).uncertainty_at(truth),
                Errors::None => 0.0,
            },
            trust: Trust::Sound,
            shown: Trust::Sound,
            piece: self.kit.piece(quantity),
        }
    }

    /// What has gone over the scale since the plant was new, kg.
    pub(crate) fn scale_total_kg(&self, quantity: Measured) -> f64 {
        let ledger = self.plant.ledger();
        match quantity {
            Measured::RecoveredMass => ledger.recovered_kg,
            _ => ledger.added_kg,
        }
    }

    /// Whether a value can be relied on, with the coil iced or not.
    fn trust(&self, quantity: Measured, settled_to: f64, iced: bool) -> Trust {
        let truth = self.truth();
        let needs = quantity.row().needs;
        if needs == Needs::Air {
            return if iced {
                Trust::IceOnCoil
            } else if self.running.blower_for_s < RUNS_UP_S {
                Trust::Unsettled
            } else {
                Trust::Sound
            };
        }
        if needs == Needs::RunningPlant {
            if !self.compressor_runs() {
                return Trust::CompressorStopped;
            }
            if iced {
                return Trust::IceOnCoil;
            }
            let too_early = self.plant.compressor_on_for_s() < START_UP_S;
            // With the bulb in a hand or a cup the valve does what the technician wants and not what the coil needs.
            let by_hand = self.site.bulb.is_off_the_line();
            if too_early || by_hand || !self.trend.is_still(truth, quantity) {
                return Trust::Unsettled;
            }
        }
        let target =
            quantity.truth(truth, self.seeded.weather.dew_point_k).filter(|_| needs != Needs::Nothing);
        match target {
            Some(target) if (target - settled_to).abs() > instrument(quantity).accuracy_at(settled_to) => {
                Trust::Unsettled
            }
            _ => Trust::Sound,
        }
    }

    /// Air around an instrument before it is attached, K: dry and wet.
    pub(crate) fn air_around_k(&self, location: crate::moves::Location) -> [f64; 2] {
        let truth = self.truth();
        let dew_point_k = self.seeded.weather.dew_point_k;
        let point = match location {
            crate::moves::Location::Indoors => AirPoint::Return,
            crate::moves::Location::Outdoors => AirPoint::Outdoor,
        };
        [Bulb::Dry, Bulb::Wet].map(|bulb| air_k(truth, dew_point_k, point, bulb))
    }
}

impl Visit {
    /// Whether a quantity can be read without attaching anything first.
    pub(crate) fn is_attached(&self, quantity: Measured) -> bool {
        match quantity {
            Measured::GaugePressure(_) => self.site.gauges == Gauges::On,
            Measured::PipeTemperature(point) => self.kit.has_clamp(point),
            Measured::AirTemperature(point, _) => self.kit.has_probe(point),
            _ => false,
        }
    }
}
