//! What can be seen of each fault, and that a plant without it shows none of it.

mod common;

use common::{all, cool, fault, off, perform, with};
use plant::{FaultKind, Switch};
use quantity::Duration;
use visit::{Move, Note, Observation, Outcome, Panel, Place, Sight, Visit};

fn seen(visit: &mut Visit, place: Place) -> (Vec<Observation>, Vec<Note>) {
    let entry = perform(visit, &Move::Look(place));
    match entry.outcome {
        Outcome::Seen(observations) => (observations, entry.notes),
        other => panic!("{place:?} should be seen, was {other:?}"),
    }
}

fn opened(kind: Option<FaultKind>, severity: f64) -> Visit {
    let faults: Vec<plant::Fault> = kind.into_iter().map(|kind| fault(kind, None, severity)).collect();
    let mut visit = with(4, &faults);
    all(
        &mut visit,
        &[
            Move::OpenPanel(Panel::BlowerCompartment),
            Move::OpenPanel(Panel::CoilCabinet),
            Move::OpenPanel(Panel::OutdoorElectrical),
        ],
    );
    visit
}

/// A mild degree is not seen; a clear one is, at its place and nowhere else; a sound plant shows it nowhere.
#[test]
fn every_sight_is_there_with_its_fault_alone() {
    use FaultKind as K;
    use Observation as O;
    // Kind, place, observation, mild and clear severity.
    let table = [
        (K::ClosedRegisters, Place::SupplyRegister, O::RegistersClosed, 0.1, 0.5),
        (K::CollapsedReturnDuct, Place::ReturnGrille, O::ReturnDuctCollapsed, 0.1, 0.5),
        (K::FouledEvaporator, Place::IndoorCoil, O::CoilFaceMatted, 0.1, 0.4),
        (K::DirtyBlowerWheel, Place::Blower, O::BlowerWheelDirty, 0.1, 0.5),
        (K::FouledCondenser, Place::OutdoorUnit, O::OutdoorCoilDirty, 0.1, 0.4),
        (K::LoadedFilter, Place::IndoorCoil, O::FilterOnCoil, 0.85, 0.95),
        (K::KinkedLiquidLine, Place::LineSet, O::LiquidLineKinked, 0.1, 0.6),
        (K::KinkedSuctionLine, Place::LineSet, O::SuctionLineKinked, 0.1, 0.6),
        (K::BlownControlFuse, Place::ControlBoard, O::FuseBlown, 0.0, 1.0),
        (K::ShortedYConductor, Place::OutdoorUnit, O::CableChafed, 0.0, 1.0),
        (K::OpenCondensateSwitch, Place::IndoorCoil, O::FloatSwitchUp, 0.0, 1.0),
        (K::BulbLoose, Place::MeteringDevice, O::BulbLoose, 0.1, 0.5),
        (K::WeldedContactor, Place::OutdoorUnit, O::ContactorInWithoutCall, 0.0, 1.0),
    ];
    let resting = [off(), Move::Wait(Duration::Minutes(3.0))];
    for (kind, place, expected, mild, clear) in table {
        for (severity, is_seen) in [(mild, false), (clear, true)] {
            let mut visit = opened(Some(kind), severity);
            all(&mut visit, &resting);
            for here in Place::ALL {
                let (observations, _) = seen(&mut visit, here);
                assert_eq!(
                    observations.contains(&expected),
                    is_seen && here == place,
                    "{kind:?} {severity} at {here:?}: {observations:?}"
                );
            }
        }
    }
    let news: Vec<Observation> = table.iter().map(|row| row.2).collect();
    let mut plain = opened(None, 0.0);
    all(&mut plain, &resting);
    for place in Place::ALL {
        let (observations, _) = seen(&mut plain, place);
        assert!(observations.iter().all(|one| !news.contains(one)), "{place:?}: {observations:?}");
    }
}

#[test]
fn weak_capacitors_slow_a_fan_and_then_leave_it_humming() {
    // Slow once the motor is hot.
    let run = [cool(55.0), Move::Wait(Duration::Minutes(15.0))];
    let looks = |kind, severity, place| {
        let mut visit = with(4, &[fault(kind, None, severity)]);
        all(&mut visit, &[Move::OpenPanel(Panel::BlowerCompartment)]);
        all(&mut visit, &run);
        seen(&mut visit, place).0
    };
    use FaultKind as K;
    use Observation as O;
    let fan = |severity| looks(K::WeakFanCapacitor, severity, Place::OutdoorUnit);
    assert!(fan(0.05).contains(&O::OutdoorFanRunning));
    assert!(fan(0.7).contains(&O::OutdoorFanSlow), "{:?}", fan(0.7));
    assert!(fan(1.0).contains(&O::OutdoorFanStill));
    let blower = |severity| looks(K::WeakBlowerCapacitor, severity, Place::Blower);
    assert_eq!(blower(0.05), [O::BlowerTurning]);
    assert_eq!(blower(0.6), [O::BlowerSlow]);
    // It hums until its protector opens, and again when that has cooled.
    let mut stuck = with(4, &[fault(K::WeakBlowerCapacitor, None, 0.95)]);
    all(&mut stuck, &[Move::OpenPanel(Panel::BlowerCompartment), cool(55.0)]);
    let minutes: Vec<Vec<O>> = (0..60).map(|_| seen(&mut stuck, Place::Blower).0).collect();
    assert!(
        minutes.contains(&vec![O::BlowerStill, O::BlowerHumming]) && minutes.contains(&vec![O::BlowerStill])
    );
    assert!(looks(K::OpenBlowerWinding, 1.0, Place::Blower).contains(&O::BlowerStill));
}

/// A fan that gains or loses speed on a sound plant is not called slow, at any moment of its start and stop.
#[test]
fn a_fan_that_starts_or_coasts_is_not_slow() {
    let mut visit = opened(None, 0.0);
    for action in [cool(55.0), off(), cool(55.0)] {
        all(&mut visit, &[action]);
        for _ in 0..40 {
            visit.let_time_pass(0.75).expect("the plant stays finite");
            // A look takes its minute; a copy of the visit is looked at a minute later each time.
            let mut copy = visit.clone();
            for place in [Place::Blower, Place::OutdoorUnit] {
                let (observations, _) = seen(&mut copy, place);
                assert!(
                    !observations.iter().any(|one| matches!(
                        one,
                        Observation::BlowerSlow
                            | Observation::OutdoorFanSlow
                            | Observation::BlowerHumming
                            | Observation::OutdoorFanHumming
                    )),
                    "{observations:?}"
                );
            }
        }
    }
}

#[test]
fn without_control_voltage_the_display_is_dark() {
    let dark = Note::Sight(Sight::DisplayDark);
    for kind in [FaultKind::BlownControlFuse, FaultKind::OpenTransformer] {
        let mut visit = with(4, &[fault(kind, None, 1.0)]);
        assert!(seen(&mut visit, Place::Thermostat).1.contains(&dark), "{kind:?}");
    }
    let mut sound = with(4, &[]);
    assert!(!seen(&mut sound, Place::Thermostat).1.contains(&dark));
    all(&mut sound, &[Move::IndoorServiceSwitch(Switch::Open)]);
    assert!(seen(&mut sound, Place::Thermostat).1.contains(&dark));
}
