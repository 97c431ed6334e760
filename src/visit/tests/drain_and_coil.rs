//! A plugged drain and a shorted contactor coil: found by eye and by meter, repaired, and proven.

mod common;

use call::Duration;
use common::{all, cool, fault, off, perform, reading, with};
use plant::{FaultKind, Switch, Terminal, Work};
use visit::{Move, Observation, Outcome, Panel, Place, Visit};

fn seen(visit: &mut Visit, place: Place) -> Vec<Observation> {
    match perform(visit, &Move::Look(place)).outcome {
        Outcome::Seen(observations) => observations,
        other => panic!("{place:?} should be seen, was {other:?}"),
    }
}

/// Humid air of the house as it is: the pan fills while the learner waits, the float stops the outdoor unit, and clearing the drain
/// brings it back.
#[test]
fn a_plugged_drain_is_seen_and_cleared() {
    let mut visit = with(4, &[fault(FaultKind::PluggedCondensateDrain, None, 1.0)]);
    all(&mut visit, &[cool(55.0), Move::OpenPanel(Panel::CoilCabinet)]);
    let mut hours = 0;
    while !seen(&mut visit, Place::IndoorCoil).contains(&Observation::FloatSwitchUp) {
        hours += 1;
        assert!(hours < 24, "the pan never fills: {} kg", visit.plant().pan_water_kg());
        all(&mut visit, &[Move::Wait(Duration::Hours(1.0))]);
    }
    let look = seen(&mut visit, Place::IndoorCoil);
    assert!(look.contains(&Observation::WaterInPan), "{look:?}");
    assert!(seen(&mut visit, Place::OutdoorUnit).contains(&Observation::CompressorStill));
    let across = Move::MeasureVoltage { from: Terminal::FloatSwitchIn, to: Terminal::FloatSwitchOut };
    all(&mut visit, &[Move::OpenPanel(Panel::BlowerCompartment)]);
    assert!(reading(&mut visit, &across).value > 20.0);
    let entry = perform(&mut visit, &Move::Repair(Work::RestoreCondensateSwitch));
    let faulty = Observation::PartWasFaulty(FaultKind::PluggedCondensateDrain);
    assert_eq!(entry.outcome, Outcome::Seen(vec![faulty]));
    all(&mut visit, &[Move::Wait(Duration::Minutes(10.0))]);
    assert!(visit.plant().faults().is_empty() && visit.plant().compressor_runs());
    let after = seen(&mut visit, Place::IndoorCoil);
    assert!(!after.contains(&Observation::WaterInPan) && !after.contains(&Observation::FloatSwitchUp));
}

/// A float that is stuck stands over a dry pan.
#[test]
fn a_stuck_float_has_no_water_under_it() {
    let mut visit = with(4, &[fault(FaultKind::OpenCondensateSwitch, None, 1.0)]);
    all(&mut visit, &[Move::OpenPanel(Panel::CoilCabinet)]);
    let look = seen(&mut visit, Place::IndoorCoil);
    assert!(
        look.contains(&Observation::FloatSwitchUp) && !look.contains(&Observation::WaterInPan),
        "{look:?}"
    );
}

#[test]
fn a_shorted_coil_is_found_by_ohms_and_the_contactor_replaced() {
    let mut visit = with(4, &[fault(FaultKind::ShortedContactorCoil, None, 1.0)]);
    all(
        &mut visit,
        &[cool(55.0), Move::Wait(Duration::Minutes(6.0)), Move::OpenPanel(Panel::BlowerCompartment)],
    );
    assert!(seen(&mut visit, Place::ControlBoard).contains(&Observation::FuseBlown));
    all(
        &mut visit,
        &[
            off(),
            Move::IndoorServiceSwitch(Switch::Open),
            Move::OutdoorDisconnect(Switch::Open),
            Move::OpenPanel(Panel::OutdoorElectrical),
        ],
    );
    assert!(!seen(&mut visit, Place::OutdoorUnit).contains(&Observation::CableChafed));
    let coil = Move::MeasureResistance { from: Terminal::ContactorCoilY, to: Terminal::ContactorCoilC };
    let read = reading(&mut visit, &coil);
    assert!(read.value < 1.5, "{read:?}");
    let entry = perform(&mut visit, &Move::Repair(Work::ReplaceContactor));
    assert_eq!(
        entry.outcome,
        Outcome::Seen(vec![Observation::PartWasFaulty(FaultKind::ShortedContactorCoil)])
    );
    assert!(reading(&mut visit, &coil).value > 8.0);
    all(
        &mut visit,
        &[
            Move::Repair(Work::ReplaceControlFuse),
            Move::ClosePanel(Panel::BlowerCompartment),
            Move::OutdoorDisconnect(Switch::Closed),
            Move::IndoorServiceSwitch(Switch::Closed),
            cool(55.0),
            Move::Wait(Duration::Minutes(15.0)),
        ],
    );
    assert!(visit.plant().faults().is_empty() && !visit.plant().control_fuse_is_blown());
    assert!(visit.plant().compressor_runs());
}
