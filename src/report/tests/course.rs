//! The course is what the plant really did.

mod common;

use plant::Readout;
use report::Course;
use visit::{Duration, Measured, Move, Outcome, Port, Recording, Trust, Visit};

#[test]
fn the_course_agrees_with_the_plant_at_every_entry() {
    let mut visit = Visit::start(&common::call(), 1).expect("a call starts");
    let mut truths: Vec<Readout> = Vec::new();
    for action in [
        Move::ConnectGauges,
        Move::ReadGauge(Port::Suction),
        Move::ReadGauge(Port::Liquid),
        Move::Wait(Duration::Minutes(7.0)),
        Move::DisconnectGauges,
    ] {
        // Time that passes between moves, as in the window, in pieces that are no multiple of the sampling.
        visit.let_time_pass(41.25).expect("the plant stays finite");
        visit.perform(&action).expect("the plant stays finite");
        truths.push(visit.truth().clone());
    }
    visit.let_time_pass(100.0).expect("the plant stays finite");
    let course = Course::of(&Recording::of(&visit).expect("the plant stays finite"));

    assert_eq!(course.moments.len(), truths.len());
    for (moment, truth) in course.moments.iter().zip(&truths) {
        assert_eq!(&moment.truth, truth, "entry {}", moment.entry);
    }
    let last = course.samples.last().expect("samples");
    assert_eq!(last.since_arrival_s, visit.time_s() - visit.arrival_s());
    assert_eq!(last.room_k, visit.truth().room_k);
    assert_eq!(last.charge_kg, visit.truth().charge_total_kg);
    assert_eq!(course.samples[0].since_arrival_s, 0.0);
    assert!(course.samples.windows(2).all(|pair| pair[0].since_arrival_s < pair[1].since_arrival_s));
}

/// A sound gauge reading and the curve under it differ by what the instrument may err, not by more.
#[test]
fn readings_lie_on_the_course_within_their_uncertainty() {
    let mut compared = 0;
    for id in ["ferry-steps", "orchard-court", "kiln-street"] {
        compared += compared_readings(id);
    }
    assert!(compared >= 2, "sound visits read both gauges");
}

/// Gauge readings of a sound visit, each held against the course.
fn compared_readings(id: &str) -> u32 {
    let visit = common::visit_after(&common::call_named(id), &common::moves(&format!("{id}-sound.ron")));
    let course = Course::of(&Recording::of(&visit).expect("the plant stays finite"));
    let mut compared = 0;
    for entry in visit.notebook() {
        let Outcome::Read(reading) = &entry.outcome else { continue };
        let Measured::GaugePressure(port) = reading.quantity else { continue };
        if reading.trust != Trust::Sound {
            continue;
        }
        let truth = &course.at(entry.number).expect("a moment for each entry").truth;
        let absolute_pa = match port {
            Port::Suction => truth.suction_pressure_pa,
            Port::Liquid => truth.liquid_pressure_pa,
        };
        let off_pa = reading.value - (absolute_pa - media::units::STANDARD_ATMOSPHERE_PA);
        // Four standard deviations, and what a settling gauge still lags in a plant that moves a little.
        assert!(off_pa.abs() < 4.0 * reading.uncertainty + 30.0e3, "entry {}: {off_pa} Pa", entry.number);
        compared += 1;
    }
    assert!(course.samples.len() <= 430, "{} samples are too many for a plot", course.samples.len());
    assert!(course.samples.len() >= 100);
    compared
}
