//! Work on the refrigerant circuit.

mod common;

use call::{Mass, Milestone};
use common::{all, cool, fault, off, perform, reading, sound, tells, with};
use plant::{FaultKind, LeakPlace, Switch};
use visit::{Circuit, Hazard, LeakNote, Measured, Move, Observation, Outcome, Panel, Trust, Visit};

const PLACE: LeakPlace = LeakPlace::SuctionServiceValve;

fn reached(visit: &Visit, wanted: Milestone) -> bool {
    visit.milestones().iter().any(|(milestone, _)| *milestone == wanted)
}

#[test]
fn a_leak_is_repaired_the_sound_way() {
    let mut visit = with(9, &[fault(FaultKind::RefrigerantLeak, Some(PLACE), 0.15)]);
    let plate_kg = visit.plant().system().plate_charge_kg;
    all(&mut visit, &[off(), Move::OutdoorDisconnect(Switch::Open), Move::ConnectGauges]);
    // What stands in the hoses is recovered with the rest.
    let before_kg = visit.plant().circuit_kg() + visit.plant().ledger().trapped_kg;
    let recovered = reading(&mut visit, &Move::Recover);
    assert_eq!(recovered.quantity, Measured::RecoveredMass);
    let left_kg = visit.plant().circuit_kg() + visit.plant().ledger().trapped_kg;
    assert!((recovered.value - (before_kg - left_kg)).abs() < 0.02, "{recovered:?}");
    assert!(left_kg < 0.03 * plate_kg, "at 0 psig hardly anything is left: {left_kg} kg");
    assert_eq!(visit.site().circuit, Circuit::Recovered);

    let entry = perform(&mut visit, &Move::RepairLeak(PLACE));
    assert_eq!(entry.outcome, Outcome::Seen(vec![Observation::PartWasFaulty(FaultKind::RefrigerantLeak)]));
    assert_eq!(visit.site().circuit, Circuit::Opened);
    assert!(!visit.plant().has(FaultKind::RefrigerantLeak));

    let vacuum = reading(&mut visit, &Move::Evacuate);
    // 500 micron and its decay test (common practice).
    assert!(vacuum.value < 133.3, "{vacuum:?}");
    assert_eq!(visit.site().circuit, Circuit::Evacuated);

    let weighed = reading(&mut visit, &Move::WeighIn(Mass::Kilograms(plate_kg)));
    assert!((weighed.value - plate_kg).abs() < 0.03, "{weighed:?}");
    assert!((visit.plant().circuit_kg() / plate_kg - 1.0).abs() < 0.02);
    assert_eq!(visit.site().circuit, Circuit::Charged);

    all(&mut visit, &[Move::OutdoorDisconnect(Switch::Closed), cool(60.0)]);
    let Outcome::Verified(found) = perform(&mut visit, &Move::Verify).outcome else { panic!("it verifies") };
    assert!(found.steady && found.faults_left.is_empty(), "{found:?}");
    assert!(found.ran_for_s >= 900.0);
    let order = [
        Milestone::Recovered,
        Milestone::PartReplaced,
        Milestone::Evacuated,
        Milestone::WeighedIn,
        Milestone::RepairVerified,
    ];
    let met: Vec<Milestone> =
        visit.milestones().iter().map(|(milestone, _)| *milestone).filter(|m| order.contains(m)).collect();
    assert_eq!(met, order);
    assert!(visit.hazards().is_empty(), "{:?}", visit.hazards());
    assert!(!reached(&visit, Milestone::RefrigerantAdded));
}

#[test]
fn cutting_into_a_charged_circuit_vents_it_and_says_so() {
    let mut visit = sound(9);
    all(&mut visit, &[off()]);
    let before_kg = visit.plant().circuit_kg();
    let entry = perform(&mut visit, &Move::RepairLeak(LeakPlace::LiquidLine));
    assert_eq!(entry.outcome, Outcome::Seen(vec![Observation::PartWasSound]));
    let vented_kg = visit.plant().ledger().vented_kg;
    assert!(tells(&entry, LeakNote::Vented { vented_kg }), "{vented_kg}: {:?}", entry.notes);
    assert!(vented_kg > 0.95 * before_kg);
    let hazards: Vec<Hazard> = visit.hazards().iter().map(|(hazard, _)| *hazard).collect();
    assert_eq!(hazards, [Hazard::CircuitWorkWithPowerOn, Hazard::RefrigerantVented]);
}

#[test]
fn a_vacuum_does_not_hold_on_a_hole() {
    let mut visit = with(9, &[fault(FaultKind::RefrigerantLeak, Some(LeakPlace::LiquidLine), 0.8)]);
    all(&mut visit, &[off(), Move::OutdoorDisconnect(Switch::Open), Move::ConnectGauges, Move::Recover]);
    perform(&mut visit, &Move::Evacuate);
    assert_ne!(visit.site().circuit, Circuit::Evacuated);
    assert!(!reached(&visit, Milestone::Evacuated));
}

#[test]
fn added_refrigerant_is_weighed_and_counts_as_a_top_up() {
    let mut visit = sound(9);
    all(&mut visit, &[cool(55.0), Move::ConnectGauges]);
    let before_kg = visit.plant().circuit_kg();
    let added = reading(&mut visit, &Move::AddRefrigerant(Mass::Ounces(8.0)));
    let gained_kg = visit.plant().circuit_kg() - before_kg;
    assert!((gained_kg - 8.0 * 0.028_349_523_125).abs() < 0.01, "{gained_kg}");
    // The scale's accuracy is 5 g.
    assert!((added.value - gained_kg).abs() <= 0.006, "{added:?} for {gained_kg}");
    assert_eq!(added.trust, Trust::Sound);
    assert!(reached(&visit, Milestone::RefrigerantAdded) && !reached(&visit, Milestone::WeighedIn));
}

#[test]
fn no_refrigerant_is_lost_track_of() {
    let mut visit = with(9, &[fault(FaultKind::RefrigerantLeak, Some(PLACE), 0.4)]);
    all(&mut visit, &[Move::ConnectGauges, Move::AddRefrigerant(Mass::Ounces(4.0)), off(), Move::Recover]);
    all(
        &mut visit,
        &[Move::RepairLeak(PLACE), Move::Evacuate, Move::WeighIn(Mass::Pounds(6.0)), Move::DisconnectGauges],
    );
    assert!(visit.plant().ledger_gap_kg().abs() < 1.0e-9, "{}", visit.plant().ledger_gap_kg());
}

#[test]
fn the_new_metering_device_frees_a_stuck_one() {
    let mut visit = with(9, &[fault(FaultKind::MeteringRestricted, None, 0.7)]);
    all(
        &mut visit,
        &[
            off(),
            Move::OutdoorDisconnect(Switch::Open),
            Move::OpenPanel(Panel::CoilCabinet),
            Move::ConnectGauges,
            Move::Recover,
        ],
    );
    let entry = perform(&mut visit, &Move::ReplaceMeteringDevice);
    assert_eq!(entry.outcome, Outcome::Seen(vec![Observation::PartWasFaulty(FaultKind::MeteringRestricted)]));
    assert!(visit.hazards().is_empty());
    assert!(!visit.plant().has(FaultKind::MeteringRestricted));
}

#[test]
fn a_compressor_left_running_on_an_empty_circuit_is_a_hazard() {
    let mut visit = sound(9);
    all(&mut visit, &[cool(55.0), Move::ConnectGauges]);
    perform(&mut visit, &Move::Recover);
    let ran = visit.plant().compressor_runs();
    let marked = visit.hazards().iter().any(|(hazard, _)| *hazard == Hazard::CompressorRunOnOpenCircuit);
    let emptied = visit.site().circuit != Circuit::Charged;
    assert!(ran && emptied, "the test needs a running compressor on an empty circuit");
    assert!(marked);
}
