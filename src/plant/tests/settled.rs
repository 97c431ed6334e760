//! What is called steady stands still: no drift of readings, ice or charge, no protection that ends the run.

mod common;

use common::{conditions, cooling_to_f, fault, new_plant, orifice, solve_steady_state, txv};
use media::units::{fahrenheit_from_kelvin, kelvin_from_fahrenheit};
use plant::{FaultKind, Inputs, Mode, Plant, Protection, SteadyConditions, System, Weather, advance};

fn at_a_with(kind: FaultKind, severity: f64) -> SteadyConditions {
    SteadyConditions { faults: vec![fault(kind, severity)], ..conditions(95.0, 80.0, 67.0) }
}

/// Looks at a plant at rating point A every ten minutes from half an hour on, and counts how often it is called steady.
fn steady_looks(kind: FaultKind, severity: f64, looks: usize) -> usize {
    steady_looks_after(1800.0, kind, severity, looks)
}

/// The same from a later time on, s.
fn steady_looks_after(first_s: f64, kind: FaultKind, severity: f64, looks: usize) -> usize {
    let mut plant = new_plant(&txv(), 95.0, 80.0, 67.0, &[fault(kind, severity)]);
    let inputs = cooling_to_f(40.0);
    advance(&mut plant, &inputs, first_s - 600.0).expect("finite");
    (0..looks)
        .filter(|_| {
            advance(&mut plant, &inputs, 600.0).expect("finite");
            plant.is_steady()
        })
        .count()
}

/// Ice grows from half a kilogram to three in these three hours, and suction sinks by 1 % in some minutes.
#[test]
fn a_coil_that_goes_on_icing_is_never_steady() {
    assert_eq!(steady_looks(FaultKind::LoadedFilter, 0.9, 17), 0);
    assert!(!solve_steady_state(&txv(), &at_a_with(FaultKind::LoadedFilter, 0.9)).steady);
}

/// It loses some 9 g a minute; gauges follow within their bands.
#[test]
fn a_circuit_that_leaks_is_never_steady() {
    assert_eq!(steady_looks(FaultKind::RefrigerantLeak, 0.75, 17), 0);
    assert!(!solve_steady_state(&txv(), &at_a_with(FaultKind::RefrigerantLeak, 0.75)).steady);
}

/// Looks at what does not change are steady ones, once the oil has given off what it took up before the first start: that takes
/// the better part of an hour, in which subcooling creeps up.
#[test]
fn a_sound_system_is_steady_at_every_look() {
    assert_eq!(steady_looks_after(4200.0, FaultKind::LoadedFilter, 0.0, 6), 6);
}

/// It stands still until its thermal disc opens, in the very minutes that are averaged: gas that goes round inside is hot long
/// before the windings are.
#[test]
fn a_machine_that_its_disc_stops_is_not_steady() {
    let settled = solve_steady_state(&txv(), &at_a_with(FaultKind::CompressorInternalLeak, 0.85));
    assert!(!settled.steady);
    let course = &settled.course;
    assert_eq!(course.stopped_by(), Some(Protection::ThermalDisc));
    assert!(course.compressor.first_off_for_s.is_some_and(|s| s > 300.0), "{course:?}");
    let (suction_pa, liquid_pa) = course.resting_pa.expect("it rested");
    assert!(liquid_pa >= suction_pa && liquid_pa < 2.3e6, "{suction_pa} {liquid_pa}");
    // The averages are of the time that it runs: no means over on and off.
    assert!(settled.readout.compressor_power_w > 1000.0, "{}", settled.readout.compressor_power_w);
}

/// Without an opening to speak of the winding gets no gas to cool it.
#[test]
fn a_compressor_without_suction_gas_is_not_steady() {
    let settled = solve_steady_state(&orifice(), &at_a_with(FaultKind::OrificeTooSmall, 1.0));
    assert!(!settled.steady);
    assert!(settled.course.stopped_by().is_some(), "{:?}", settled.course);
}

/// Where no liquid is there is no saturation temperature to compare with, and at rest no superheat and no subcooling.
#[test]
fn without_liquid_or_at_rest_there_is_no_superheat_and_no_subcooling() {
    let sound = solve_steady_state(&txv(), &conditions(95.0, 80.0, 67.0)).saturated;
    assert!(sound.superheat_k.is_some_and(|k| k > 3.0) && sound.subcooling_k.is_some_and(|k| k > 3.0));
    let empty = solve_steady_state(&txv(), &at_a_with(FaultKind::Undercharged, 1.0)).saturated;
    assert_eq!(empty, plant::Saturated::default());
    let resting = solve_steady_state(&txv(), &at_a_with(FaultKind::OpenContactorCoil, 1.0));
    assert_eq!((resting.saturated.superheat_k, resting.saturated.subcooling_k), (None, None));
    assert!(resting.saturated.evaporating_k.is_some(), "liquid stands in the coil");
    assert_eq!((resting.course.started_s, resting.course.stopped_by()), (None, None));
}

/// A high-pressure switch lets the machine come back; its times on and off are told.
#[test]
fn a_machine_that_cycles_on_its_high_pressure_switch_tells_its_times() {
    let course = solve_steady_state(&txv(), &at_a_with(FaultKind::DeadFanMotor, 1.0)).course;
    assert_eq!(course.stopped_by(), Some(Protection::HighPressureSwitch));
    let first_s = course.compressor.first_off_s.expect("it stops") - course.started_s.expect("it starts");
    assert!(first_s < 600.0, "{first_s}");
    let on_s = course.compressor.mean_on_s().expect("it cycles");
    let off_s = course.compressor.mean_off_s().expect("it cycles");
    assert!(on_s > 5.0 && on_s < 600.0 && off_s > 60.0, "{on_s} {off_s}");
}

/// The last gas of a circuit at rest in the heat: one pressure all round, and no part of it warmer or colder than the air around
/// house and outdoor unit.
#[test]
fn the_last_gas_stands_still() {
    let mut off = Inputs::default();
    off.thermostat.mode = Mode::Off;
    for name in System::names() {
        let system = System::built_in(name).expect("built in");
        for (charge, outdoor_f, room_f) in [(0.05, 120.0, 100.0), (0.07, 130.0, 110.0), (0.08, 110.0, 100.0)]
        {
            let mut plant = Plant::new(
                &system,
                common::held_room(room_f, 0.7 * room_f),
                Weather::held(kelvin_from_fahrenheit(outdoor_f)),
                charge * system.plate_charge_kg,
                &[],
            );
            advance(&mut plant, &off, 3600.0).expect("finite");
            for _ in 0..10 {
                advance(&mut plant, &off, 1.25).expect("finite");
                let r = plant.readout();
                let at = format!("{name}, {charge}, {outdoor_f}/{room_f} °F");
                assert!((r.suction_pressure_pa - r.liquid_pressure_pa).abs() < 500.0, "{at}: {r:?}");
                for k in [r.liquid_service_valve_k, r.liquid_indoor_k] {
                    let f = fahrenheit_from_kelvin(k);
                    assert!((room_f - 2.0..outdoor_f + 2.0).contains(&f), "{at}: {f} °F");
                }
            }
        }
    }
}
