//! What becomes of a plant after the visit.

mod common;

use report::{OutlookLine, OutlookValue, Projection};
use visit::ICED_KG;
use visit::{Move, Visit};

fn run_on(visit: &Visit, hours: f64) -> Projection {
    Projection::of(visit, hours).expect("the plants stay finite")
}

#[test]
fn a_stuck_filter_ices_on_and_a_cured_plant_does_not() {
    let visit = common::visit_after(&common::call(), &[Move::CloseTicket]);
    let charge_kg = visit.truth().charge_total_kg;
    let run_on = run_on(&visit, 8.0);
    assert!(run_on.as_left.ice_at_end_kg > ICED_KG, "{} kg", run_on.as_left.ice_at_end_kg);
    assert!(run_on.as_left.iced_s > 4.0 * 3600.0);
    assert!(run_on.repaired.first_iced_s.is_none(), "{:?}", run_on.repaired.first_iced_s);
    assert!(run_on.repaired.most_ice_kg < ICED_KG);
    assert!(run_on.repaired.too_warm_s < run_on.as_left.too_warm_s);
    // No refrigerant appears or vanishes.
    for (fate, start_kg) in
        [(&run_on.as_left, charge_kg), (&run_on.repaired, visit.call().system.plate_charge_kg)]
    {
        assert!((fate.charge_at_end_kg + fate.lost_kg - start_kg).abs() < 1.0e-6);
        assert_eq!(fate.samples.last().map(|sample| sample.since_start_s), Some(8.0 * 3600.0));
        assert!(fate.samples.iter().all(|sample| (0.0..=1.0).contains(&sample.running_share)));
    }
    let facts = run_on.facts();
    let coil = facts.iter().find(|fact| fact.line == OutlookLine::CoilIced).expect("the fact");
    assert_eq!((coil.as_left, coil.repaired), (OutlookValue::FromTheStart, OutlookValue::Never));
}

#[test]
fn after_a_sound_visit_the_plant_does_what_a_cured_one_does() {
    let visit = common::visit_after(&common::call(), &common::moves("tannery-lane-sound.ron"));
    assert!(visit.is_closed());
    let run_on = run_on(&visit, 8.0);
    assert!(run_on.as_left.most_ice_kg < ICED_KG, "{} kg", run_on.as_left.most_ice_kg);
    assert!((run_on.as_left.room_at_end_k - run_on.repaired.room_at_end_k).abs() < 1.0);
    let (left_h, cured_h) = (run_on.as_left.ran_s / 3600.0, run_on.repaired.ran_s / 3600.0);
    assert!((left_h - cured_h).abs() < 1.0, "{left_h} h and {cured_h} h");
}

#[test]
fn a_plant_left_switched_off_stands() {
    let visit = common::visit_after(
        &common::call(),
        &[Move::OutdoorDisconnect(plant::Switch::Open), Move::CloseTicket],
    );
    let run_on = run_on(&visit, 2.0);
    assert!(run_on.as_left.ran_s < 60.0, "{} s", run_on.as_left.ran_s);
    assert!(run_on.repaired.ran_s > 600.0, "{} s", run_on.repaired.ran_s);
}
