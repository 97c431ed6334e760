//! Holding one notebook entry against the same entry of a rival plant.

use visit::{Measured, Observation, Outcome, Reading, Trust};

/// Standard deviations of the difference of two readings beyond which they differ.
const DEVIATIONS: f64 = 3.0;

/// Whether an entry can exclude anything at all.
pub(crate) fn is_sound_evidence(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Read(reading) => reading.trust == Trust::Sound,
        Outcome::Seen(seen) => !seen.is_empty(),
        Outcome::Done | Outcome::Refused(_) | Outcome::Verified(_) => false,
    }
}

/// Whether what was taken on the real plant could not have been taken on the rival.
pub(crate) fn differ(taken: &Outcome, rival: &Outcome) -> bool {
    match (taken, rival) {
        (Outcome::Read(taken), Outcome::Read(rival)) => readings_differ(taken, rival),
        (Outcome::Seen(taken), Outcome::Seen(rival)) => observations_contradict(taken, rival),
        // The same meter shows a value here and nothing there.
        (Outcome::Read(reading), Outcome::Seen(seen)) | (Outcome::Seen(seen), Outcome::Read(reading)) => {
            shows_nothing(seen, reading.quantity)
        }
        // A move that the rival's site would not have allowed says nothing about a reading.
        _ => false,
    }
}

fn shows_nothing(seen: &[Observation], quantity: Measured) -> bool {
    seen.iter().any(|one| match (one, quantity) {
        (Observation::NoContinuity(a, b), Measured::Resistance(from, to))
        | (Observation::NoCapacitance(a, b), Measured::Capacitance(from, to)) => *a == from && *b == to,
        _ => false,
    })
}

fn readings_differ(taken: &Reading, rival: &Reading) -> bool {
    if taken.quantity != rival.quantity {
        return false;
    }
    let spread = (taken.uncertainty * taken.uncertainty + rival.uncertainty * rival.uncertainty).sqrt();
    (taken.value - rival.value).abs() > DEVIATIONS * spread + model_margin(taken.quantity)
}

/// What the model itself may be off by, in the quantity's SI unit. Engineering values: about a needle's width
/// on a gauge, half a kelvin, a volt, half an ohm, a microfarad, half an ampere, 20 g on the scale.
fn model_margin(quantity: Measured) -> f64 {
    match quantity {
        Measured::GaugePressure(_) => 7.0e3,
        Measured::PipeTemperature(_) | Measured::AirTemperature(..) => 0.5,
        Measured::Voltage(..) => 1.0,
        Measured::Resistance(..) | Measured::Current(_) => 0.5,
        Measured::Capacitance(..) => 1.0e-6,
        Measured::RecoveredMass | Measured::AddedMass => 0.02,
        Measured::Vacuum => 20.0,
    }
}

/// Both lists come from the same move: what stands out in one and is not in the other tells them apart, and so do two
/// different states of one subject.
fn observations_contradict(taken: &[Observation], rival: &[Observation]) -> bool {
    let stands_out_alone = |one: &[Observation], other: &[Observation]| {
        one.iter().any(|seen| subject(*seen) == Subject::Finding && !other.contains(seen))
    };
    let differs_in_state = taken.iter().any(|seen| {
        let subject = subject(*seen);
        let mut others = rival.iter().filter(|other| self::subject(**other) == subject).peekable();
        subject != Subject::Finding && others.peek().is_some() && others.all(|other| other != seen)
    });
    differs_in_state || stands_out_alone(taken, rival) || stands_out_alone(rival, taken)
}

/// What an observation is about; two different observations of one subject contradict each other.
#[derive(PartialEq)]
enum Subject {
    Ice,
    Filter,
    Blower,
    Wheel,
    Air,
    Compressor,
    OutdoorFan,
    BulbMounting,
    BulbAnswer,
    OilStain,
    LeakAt(plant::LeakPlace),
    Part,
    /// Something out of order that is only written down when it is there.
    Finding,
}

fn subject(observation: Observation) -> Subject {
    match observation {
        Observation::NoIce | Observation::SomeIce | Observation::BlockOfIce => Subject::Ice,
        Observation::FilterClean
        | Observation::FilterDirty
        | Observation::FilterMatted
        | Observation::FilterCollapsed => Subject::Filter,
        Observation::BlowerTurning | Observation::BlowerStill => Subject::Blower,
        Observation::WheelTurnsFreely | Observation::WheelStuck => Subject::Wheel,
        Observation::AirStrong | Observation::AirWeak | Observation::AirNone => Subject::Air,
        Observation::CompressorRunning | Observation::CompressorStill => Subject::Compressor,
        Observation::OutdoorFanRunning | Observation::OutdoorFanStill => Subject::OutdoorFan,
        Observation::BulbInsulated | Observation::BulbBare => Subject::BulbMounting,
        Observation::BulbAnswered | Observation::BulbDidNotAnswer => Subject::BulbAnswer,
        Observation::OilStain(_) | Observation::NoOilStain => Subject::OilStain,
        Observation::LeakFound(place) | Observation::NoLeakFound(place) => Subject::LeakAt(place),
        Observation::PartWasFaulty(_) | Observation::PartWasSound => Subject::Part,
        Observation::RegistersClosed
        | Observation::ReturnDuctCollapsed
        | Observation::CoilFaceMatted
        | Observation::BlowerWheelDirty
        | Observation::BlowerSlow
        | Observation::BlowerHumming
        | Observation::OutdoorCoilDirty
        | Observation::LiquidLineKinked
        | Observation::OutdoorFanSlow
        | Observation::OutdoorFanHumming
        | Observation::CompressorHumming
        | Observation::FuseBlown
        | Observation::FloatSwitchUp
        | Observation::BulbLoose
        | Observation::ContactorInWithoutCall
        | Observation::NoContinuity(..)
        | Observation::NoCapacitance(..) => Subject::Finding,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plant::LeakPlace;
    use visit::Port;

    fn pressure(value: f64, trust: Trust) -> Outcome {
        Outcome::Read(Reading {
            quantity: Measured::GaugePressure(Port::Suction),
            value,
            uncertainty: 5.0e3,
            trust,
        })
    }

    #[test]
    fn readings_differ_beyond_three_deviations_and_the_margin() {
        // 3 * sqrt(2) * 5 kPa + 7 kPa = 28.2 kPa
        let taken = pressure(800.0e3, Trust::Sound);
        assert!(!differ(&taken, &pressure(828.0e3, Trust::Sound)));
        assert!(differ(&taken, &pressure(829.0e3, Trust::Sound)));
    }

    #[test]
    fn an_untrusted_reading_is_no_evidence() {
        assert!(is_sound_evidence(&pressure(1.0, Trust::Sound)));
        for trust in [Trust::Unsettled, Trust::CompressorStopped, Trust::IceOnCoil] {
            assert!(!is_sound_evidence(&pressure(1.0, trust)));
        }
        assert!(!is_sound_evidence(&Outcome::Seen(Vec::new())));
        assert!(!is_sound_evidence(&Outcome::Refused("The panel is closed.".to_owned())));
    }

    #[test]
    fn observations_of_one_subject_contradict() {
        let seen = |observations: &[Observation]| Outcome::Seen(observations.to_vec());
        let clean = seen(&[Observation::FilterClean, Observation::NoIce]);
        assert!(differ(&clean, &seen(&[Observation::FilterMatted])));
        // A finding is there or not: the same look without it contradicts.
        let shut = seen(&[Observation::AirWeak, Observation::RegistersClosed]);
        assert!(differ(&shut, &seen(&[Observation::AirWeak])));
        assert!(differ(&seen(&[Observation::AirWeak]), &shut));
        assert!(!differ(&shut, &shut));
        let (c, r) = (plant::Terminal::C, plant::Terminal::R);
        let ohms = Outcome::Read(Reading {
            quantity: Measured::Resistance(r, c),
            value: 12.0,
            uncertainty: 0.1,
            trust: Trust::Sound,
        });
        assert!(differ(&ohms, &seen(&[Observation::NoContinuity(r, c)])));
        assert!(!differ(&ohms, &seen(&[Observation::NoContinuity(c, r)])));
        assert!(!differ(&clean, &seen(&[Observation::BlowerStill])));
        assert!(!differ(&clean, &clean));
        let here = seen(&[Observation::LeakFound(LeakPlace::IndoorCoil)]);
        assert!(differ(&here, &seen(&[Observation::NoLeakFound(LeakPlace::IndoorCoil)])));
        assert!(!differ(&here, &seen(&[Observation::NoLeakFound(LeakPlace::LiquidLine)])));
    }
}
