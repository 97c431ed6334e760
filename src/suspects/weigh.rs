//! How likely an outcome is if a suspect is true.
//!
//! A reading is held against what the suspect's shadows gave: normal, with the instrument's accuracy as its class
//! states it and with what the model itself may be off by. Calibration and model error stay for a visit, so a second
//! reading of the same quantity adds little: each keeps a standing offset that is estimated along the way (a scalar
//! Kalman filter; Kalman 1960). A small share of outliers keeps one odd reading from deciding a visit. What was
//! seen is weighed in `sight`.

use plant::{Conductor, Terminal};
use visit::{Entry, Measured, Move, Outcome, Place, Reading, Running, Trust, instrument};

use crate::sight::of_sight;
use crate::suspect::Suspect;

/// Share of readings that mean nothing: a slipped clamp, a misread display (engineering value).
const OUTLIERS: f64 = 0.003;
/// Between two shadows, a value may be off the straight line by this share of their difference.
const BEND: f64 = 0.6;
/// Share of the model's error by which the offset of one quantity may change from one reading to the next.
const OFFSET_DRIFT: f64 = 0.5;

/// Estimated standing offset of one quantity.
#[derive(Clone, Copy, Debug)]
struct Offset {
    quantity: Measured,
    mean: f64,
    variance: f64,
}

/// Standing offsets of all quantities read so far, if a suspect is true.
#[derive(Clone, Debug, Default)]
pub(crate) struct Offsets {
    known: Vec<Offset>,
}

/// Whether an outcome says anything about what is wrong.
pub(crate) fn is_evidence(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Read(_) => true,
        Outcome::Seen(seen) => !seen.is_empty(),
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => false,
    }
}

/// A plant that has started or stopped within this time may as well be in the other phase of its cycle, s.
const SAME_PHASE_S: f64 = 1500.0;

/// Current below which a clamp shows none, A.
const NO_CURRENT_A: f64 = 0.3;

/// What a shadow gave for an entry.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Gave<'a> {
    /// How near the shadow's severity is.
    pub weight: f64,
    pub entry: &'a Entry,
    /// What it gave when the same look was made the last time.
    pub before: Option<&'a Entry>,
}

/// Log-likelihood (natural) of an entry, given what shadows on both sides of a severity gave; `seen_before` is the same
/// look made the last time. Learns the offset of the quantity on the way. `None` if the shadows say nothing: the move was not possible
/// on them, or a plant that cycles was in another phase of its cycle.
pub(crate) fn log_likelihood(
    taken: &Entry,
    gave: &[Gave<'_>],
    seen_before: Option<&Entry>,
    suspect: &Suspect,
    offsets: &mut Offsets,
) -> Option<f64> {
    let telling: Vec<&Gave<'_>> = gave.iter().filter(|gave| says_something(taken, gave.entry)).collect();
    let total: f64 = telling.iter().map(|gave| gave.weight).sum();
    if total <= 0.0 {
        return None;
    }
    let likelihood = match &taken.outcome {
        Outcome::Read(reading) => {
            let apart = telling.iter().any(|gave| apart_in_cycle(&taken.running, &gave.entry.running));
            let outcomes: Vec<(f64, &Outcome)> =
                telling.iter().map(|gave| (gave.weight / total, &gave.entry.outcome)).collect();
            of_reading(reading, &outcomes, doubt(reading, apart), offsets)
        }
        Outcome::Seen(_) => telling
            .iter()
            .map(|gave| {
                let before = seen_before.zip(gave.before).map(|(here, there)| [here, there]);
                gave.weight / total * of_sight(taken, gave.entry, before, suspect)
            })
            .sum(),
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => 1.0,
    };
    Some(libm::log(likelihood.max(1.0e-12)))
}

fn says_something(taken: &Entry, gave: &Entry) -> bool {
    let answers = match (&taken.outcome, &gave.outcome) {
        (_, Outcome::Refused(_) | Outcome::Verified(_)) | (Outcome::Read(_), Outcome::Done) => false,
        (Outcome::Read(taken), Outcome::Read(gave)) => taken.quantity == gave.quantity,
        _ => true,
    };
    answers && in_phase(&taken.action, &taken.running, &gave.running) && !waits_for_its_protector(taken, gave)
}

/// Whether two plants are in the same phase of their cycles, as far as it matters for what a move gives. A cycle's phase
/// hangs on small things: what it says is said once both are in the same one.
pub(crate) fn in_phase(action: &Move, here: &Running, there: &Running) -> bool {
    let cycles = |differs: bool, for_s: f64| differs && for_s < SAME_PHASE_S;
    let called = cycles(here.called != there.called, there.called_for_s);
    let blower = cycles(here.blower != there.blower, there.blower_for_s);
    // With no call on either side nothing cycles: what still runs says something.
    let may_run = here.called || there.called;
    let compressor = may_run && cycles(here.compressor != there.compressor, there.compressor_for_s);
    match hangs_on(action) {
        Phase::None => true,
        Phase::Call => !called && !blower,
        Phase::Compressor => !called && !blower && !compressor,
    }
}

/// Whether the same runs at two times, as far as it matters for what a move gives.
pub(crate) fn runs_alike(action: &Move, one: &Running, other: &Running) -> bool {
    let call = (one.called, one.blower) == (other.called, other.blower);
    match hangs_on(action) {
        Phase::None => true,
        Phase::Call => call,
        Phase::Compressor => call && one.compressor == other.compressor,
    }
}

/// A motor that stands draws its locked-rotor current or, while its protector is open, none: which of them a clamp
/// meets says nothing.
fn waits_for_its_protector(taken: &Entry, gave: &Entry) -> bool {
    let (Outcome::Read(here), Outcome::Read(there)) = (&taken.outcome, &gave.outcome) else { return false };
    let Measured::Current(conductor) = here.quantity else { return false };
    let stands = match conductor {
        Conductor::BlowerLine | Conductor::BlowerReturn | Conductor::BlowerStart | Conductor::RelayFeed => {
            !taken.running.blower && !gave.running.blower
        }
        _ => !taken.running.compressor && !gave.running.compressor,
    };
    stands && (here.value > NO_CURRENT_A) != (there.value > NO_CURRENT_A)
}

/// Which part of a cycle decides what a move gives.
enum Phase {
    /// None.
    None,
    /// Whether the thermostat calls: control circuit up to the outdoor unit, and the blower with its air.
    Call,
    /// Whether the compressor runs as well.
    Compressor,
}

fn hangs_on(action: &Move) -> Phase {
    match action {
        Move::InspectFilter
        | Move::MeasureResistance { .. }
        | Move::MeasureCapacitance { .. }
        | Move::SearchLeak(..)
        | Move::Look(Place::FilterSlot) => Phase::None,
        Move::Look(Place::ReturnGrille | Place::SupplyRegister | Place::Blower) => Phase::Call,
        Move::MeasureVoltage { from, to } if is_indoors(*from) && is_indoors(*to) => Phase::Call,
        Move::ClampCurrent(
            Conductor::IndoorLeg1
            | Conductor::IndoorLeg2
            | Conductor::RelayFeed
            | Conductor::BlowerLine
            | Conductor::BlowerReturn
            | Conductor::BlowerStart
            | Conductor::ThermostatG
            | Conductor::EcmCommand
            | Conductor::EcmCommon,
        ) => Phase::Call,
        _ => Phase::Compressor,
    }
}

/// Terminals of thermostat and air handler, which no switch of the outdoor unit changes.
fn is_indoors(terminal: Terminal) -> bool {
    use Terminal::*;
    matches!(
        terminal,
        R | C
            | Y
            | G
            | ThermostatR
            | ThermostatY
            | ThermostatG
            | TransformerPrimary1
            | TransformerPrimary2
            | TransformerSecondary1
            | TransformerSecondary2
            | FuseSupply
            | FuseLoad
            | FloatSwitchIn
            | FloatSwitchOut
            | ServiceLine1
            | ServiceLine2
            | ServiceLoad1
            | ServiceLoad2
            | BlowerRelayCommon
            | BlowerRelayOut
            | BlowerRelayCoilG
            | BlowerRelayCoilC
            | BlowerMotor1
            | BlowerMotor2
            | BlowerMotorStart
            | BlowerCapacitor1
            | BlowerCapacitor2
            | EcmLine1
            | EcmLine2
            | EcmBoardCommand
            | EcmCommand
            | EcmCommon
    )
}

fn of_reading(taken: &Reading, gave: &[(f64, &Outcome)], doubt: f64, offsets: &mut Offsets) -> f64 {
    let flat = 1.0 / range(taken.quantity);
    let stands = |trust: Trust| trust == Trust::CompressorStopped;
    let read: Vec<(f64, &Reading)> = gave
        .iter()
        .filter_map(|(weight, outcome)| match outcome {
            Outcome::Read(reading) => Some((*weight, reading)),
            _ => None,
        })
        .collect();
    let alike = read.len() == gave.len()
        && read.windows(2).all(|pair| stands(pair[0].1.trust) == stands(pair[1].1.trust));
    if alike {
        let mean: f64 = read.iter().map(|(weight, reading)| weight * reading.value).sum();
        let around: f64 = read
            .iter()
            .map(|(weight, reading)| weight * (reading.value - mean) * (reading.value - mean))
            .sum();
        let swing: f64 = read.iter().map(|(weight, reading)| weight * reading.uncertainty).sum();
        let wide = libm::sqrt(BEND * BEND * around + swing * swing);
        return offsets.weigh(taken, mean, wide, doubt, flat);
    }
    // The plant runs on one side and stands on the other: no value lies between. The likelier side teaches the offset.
    let mut best: Option<(f64, Offsets)> = None;
    let mut sum = 0.0;
    for (weight, outcome) in gave {
        let part = match outcome {
            Outcome::Read(reading) => {
                let mut learnt = offsets.clone();
                let density = weight * learnt.weigh(taken, reading.value, reading.uncertainty, doubt, flat);
                if best.as_ref().is_none_or(|(most, _)| density > *most) {
                    best = Some((density, learnt));
                }
                density
            }
            // The meter shows a value here and nothing there.
            _ => weight * flat * OUTLIERS,
        };
        sum += part;
    }
    if let Some((_, learnt)) = best {
        *offsets = learnt;
    }
    sum
}

impl Offsets {
    /// Density of a reading around a predicted value, and what it teaches about the offset.
    fn weigh(&mut self, taken: &Reading, predicted: f64, wide: f64, doubt: f64, flat: f64) -> f64 {
        let class = instrument(taken.quantity);
        let model = model_error(taken.quantity, predicted);
        let index = match self.known.iter().position(|known| known.quantity == taken.quantity) {
            Some(index) => {
                self.known[index].variance += OFFSET_DRIFT * OFFSET_DRIFT * model * model;
                index
            }
            None => {
                let calibration = class.calibration_uncertainty_at(predicted);
                let variance = calibration * calibration + model * model;
                self.known.push(Offset { quantity: taken.quantity, mean: 0.0, variance });
                self.known.len() - 1
            }
        };
        let offset = &mut self.known[index];
        let repeat = class.repeat_uncertainty_at(predicted);
        let doubt = doubt * model;
        let spread = offset.variance + repeat * repeat + wide * wide + doubt * doubt;
        let off = taken.value - predicted - offset.mean;
        let normal = libm::exp(-0.5 * off * off / spread) / libm::sqrt(2.0 * core::f64::consts::PI * spread);
        let likelihood = (1.0 - OUTLIERS) * normal + OUTLIERS * flat;
        // An outlier teaches nothing about the offset.
        let believed = (1.0 - OUTLIERS) * normal / likelihood;
        let gain = believed * offset.variance / spread;
        offset.mean += gain * off;
        offset.variance *= 1.0 - gain;
        likelihood
    }
}

/// One standard deviation of a predicted reading: instrument, model, and doubt. `apart`: see [`apart_in_cycle`].
pub(crate) fn spread(predicted: &Reading, apart: bool) -> f64 {
    let class = instrument(predicted.quantity);
    let model = model_error(predicted.quantity, predicted.value);
    let doubt = doubt(predicted, apart) * model;
    let accuracy = class.uncertainty_at(predicted.value);
    let swing = predicted.uncertainty;
    libm::sqrt(accuracy * accuracy + model * model + doubt * doubt + swing * swing)
}

/// By how many times its model error a reading in doubt may be off beyond that (engineering values): how much ice
/// stands where, how far a plant has settled, or how far it is into its cycle, depends on things that nobody knows.
fn doubt(reading: &Reading, apart: bool) -> f64 {
    let of_trust = match reading.trust {
        Trust::Sound => 0.0,
        Trust::CompressorStopped => 1.0,
        Trust::Unsettled => 3.0,
        Trust::IceOnCoil => 6.0,
    };
    let settles = matches!(
        reading.quantity,
        Measured::GaugePressure(_) | Measured::PipeTemperature(_) | Measured::AirTemperature(..)
    );
    if apart && settles { f64::max(of_trust, 6.0) } else { of_trust }
}

/// Time after a start or a stop in which readings still follow it, s.
const FOLLOWS_S: f64 = 600.0;
/// Starts or stops that lie further apart than this have led to different readings, s.
const SAME_START_S: f64 = 30.0;

/// Whether two plants are so shortly after a start or a stop, and at so different times, that their readings can't be
/// compared as those of one state.
pub(crate) fn apart_in_cycle(here: &Running, there: &Running) -> bool {
    here.compressor_for_s.min(there.compressor_for_s) < FOLLOWS_S
        && (here.compressor_for_s - there.compressor_for_s).abs() > SAME_START_S
}

/// What the model itself may be off by, one standard deviation, in the quantity's SI unit. Engineering values: half a
/// needle's width on a gauge, a third of a kelvin, one percent of a voltage, three of an ohm or a current.
fn model_error(quantity: Measured, value: f64) -> f64 {
    match quantity {
        Measured::GaugePressure(_) => 6.0e3 + 0.003 * value.abs(),
        Measured::PipeTemperature(_) => 0.5,
        Measured::AirTemperature(..) => 0.3,
        Measured::Voltage(..) => 0.5 + 0.01 * value.abs(),
        Measured::Resistance(..) => 0.2 + 0.03 * value.abs(),
        Measured::Current(_) => 0.1 + 0.03 * value.abs(),
        Measured::Capacitance(..) => 2.0e-7 + 0.02 * value.abs(),
        Measured::RecoveredMass | Measured::AddedMass => 0.02 + 0.01 * value.abs(),
        Measured::Vacuum => 20.0 + 0.2 * value.abs(),
    }
}

/// Range over which a meaningless value may lie, in the quantity's SI unit.
fn range(quantity: Measured) -> f64 {
    match quantity {
        Measured::GaugePressure(_) => 3.0e6,
        Measured::PipeTemperature(_) => 100.0,
        Measured::AirTemperature(..) => 40.0,
        Measured::Voltage(..) => 250.0,
        Measured::Resistance(..) => 100.0,
        Measured::Current(_) => 60.0,
        Measured::Capacitance(..) => 100.0e-6,
        Measured::RecoveredMass | Measured::AddedMass => 5.0,
        Measured::Vacuum => 1.0e5,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plant::FaultKind;
    use visit::Port;

    const SUCTION: Measured = Measured::GaugePressure(Port::Suction);

    fn suction(value: f64, trust: Trust) -> Outcome {
        Outcome::Read(Reading { quantity: SUCTION, value, uncertainty: 4.0e3, trust, shown: trust })
    }

    fn entry(outcome: &Outcome) -> Entry {
        Entry {
            number: 1,
            action: Move::ReadGauge(Port::Suction),
            started_s: 0.0,
            finished_s: 15.0,
            running: visit::Running::default(),
            outcome: outcome.clone(),
            notes: Vec::new(),
        }
    }

    fn weigh(taken: &Outcome, gave: &[(f64, &Outcome)], offsets: &mut Offsets) -> f64 {
        let filter = Suspect::single(FaultKind::LoadedFilter, None);
        let entries: Vec<(f64, Entry)> =
            gave.iter().map(|(weight, outcome)| (*weight, entry(outcome))).collect();
        let gave: Vec<Gave<'_>> =
            entries.iter().map(|(weight, entry)| Gave { weight: *weight, entry, before: None }).collect();
        log_likelihood(&entry(taken), &gave, None, &filter, offsets).expect("an answer")
    }

    fn alone(entry: &Entry) -> Gave<'_> {
        Gave { weight: 1.0, entry, before: None }
    }

    #[test]
    fn a_plant_in_another_phase_of_its_cycle_says_nothing() {
        let filter = Suspect::single(FaultKind::LoadedFilter, None);
        let mut taken = entry(&suction(8.0e5, Trust::Sound));
        let mut there = entry(&suction(14.0e5, Trust::CompressorStopped));
        taken.running.called = true;
        there.running.called = true;
        there.running.compressor = true;
        there.running.compressor_for_s = 60.0;
        assert_eq!(log_likelihood(&taken, &[alone(&there)], None, &filter, &mut Offsets::default()), None);
        there.running.compressor_for_s = 10_000.0;
        assert!(log_likelihood(&taken, &[alone(&there)], None, &filter, &mut Offsets::default()).is_some());
    }

    #[test]
    fn phase_matters_as_far_as_a_move_hangs_on_it() {
        use plant::Terminal::{ContactorCoilC, ContactorCoilY, EcmCommand, EcmCommon};
        let here = Running { called: true, called_for_s: 3000.0, ..Running::default() };
        let there = Running { compressor: true, compressor_for_s: 60.0, ..here };
        let indoors = Move::MeasureVoltage { from: EcmCommand, to: EcmCommon };
        let outdoors = Move::MeasureVoltage { from: ContactorCoilY, to: ContactorCoilC };
        assert!(in_phase(&indoors, &here, &there) && !in_phase(&outdoors, &here, &there));
        // Another thermostat has just been satisfied: neither of them can be compared, the filter can.
        let satisfied = Running { called: false, called_for_s: 60.0, ..there };
        assert!(!in_phase(&indoors, &here, &satisfied) && in_phase(&Move::InspectFilter, &here, &satisfied));
        // With no call anywhere, what still runs is a finding.
        let rests = Running { called: false, ..here };
        let welded = Running { compressor: true, ..rests };
        assert!(in_phase(&Move::Look(Place::OutdoorUnit), &welded, &rests));
    }

    #[test]
    fn early_in_a_cycle_a_reading_tells_less() {
        let tells = |for_s: f64| {
            let filter = Suspect::single(FaultKind::LoadedFilter, None);
            let mut taken = entry(&suction(8.0e5, Trust::Sound));
            taken.running.compressor_for_s = for_s;
            let at = |value: f64| {
                let mut there = entry(&suction(value, Trust::Sound));
                there.running.compressor_for_s = 5000.0;
                log_likelihood(&taken, &[alone(&there)], None, &filter, &mut Offsets::default())
                    .expect("an answer")
            };
            at(8.0e5) - at(8.4e5)
        };
        assert!(tells(60.0) < 0.5 * tells(4000.0), "{} and {}", tells(60.0), tells(4000.0));
    }

    #[test]
    fn a_near_value_is_likelier_than_a_far_one_and_a_far_one_is_not_the_end() {
        let taken = suction(8.0e5, Trust::Sound);
        let at = |value| weigh(&taken, &[(1.0, &suction(value, Trust::Sound))], &mut Offsets::default());
        assert!(at(8.0e5) > at(8.1e5) && at(8.1e5) > at(8.3e5));
        assert!(at(8.0e5) - at(12.0e5) < 12.0, "an outlier costs no more than {}", at(8.0e5) - at(12.0e5));
        assert_eq!(at(12.0e5), at(20.0e5), "far is far");
    }

    #[test]
    fn a_second_reading_of_the_same_quantity_adds_little() {
        let taken = suction(8.0e5, Trust::Sound);
        let (near, off) = (suction(8.0e5, Trust::Sound), suction(8.15e5, Trust::Sound));
        let mut with = [Offsets::default(), Offsets::default()];
        let mut told = Vec::new();
        for _ in 0..3 {
            let first = weigh(&taken, &[(1.0, &near)], &mut with[0]);
            let second = weigh(&taken, &[(1.0, &off)], &mut with[1]);
            told.push(first - second);
        }
        assert!(told[0] > 0.5, "{told:?}");
        assert!(told[1] < 0.5 * told[0] && told[2] < 0.5 * told[0], "{told:?}");
    }

    #[test]
    fn a_reading_in_doubt_tells_less() {
        let tells = |trust| {
            let taken = suction(8.0e5, trust);
            let at = |value| weigh(&taken, &[(1.0, &suction(value, trust))], &mut Offsets::default());
            at(8.0e5) - at(8.3e5)
        };
        assert!(tells(Trust::Sound) > tells(Trust::Unsettled));
        assert!(tells(Trust::Unsettled) > tells(Trust::IceOnCoil));
    }

    #[test]
    fn between_two_shadows_a_value_is_expected_between() {
        let (low, high) = (suction(7.0e5, Trust::Sound), suction(9.0e5, Trust::Sound));
        let between =
            weigh(&suction(8.0e5, Trust::Sound), &[(0.5, &low), (0.5, &high)], &mut Offsets::default());
        let at_end = weigh(&suction(8.0e5, Trust::Sound), &[(1.0, &low)], &mut Offsets::default());
        assert!(between > at_end + 2.0);
        // A plant that stands at one end and runs at the other has nothing between.
        let stands = suction(9.0e5, Trust::CompressorStopped);
        let mixed =
            weigh(&suction(8.0e5, Trust::Sound), &[(0.5, &low), (0.5, &stands)], &mut Offsets::default());
        assert!(mixed < between - 2.0);
    }
}
