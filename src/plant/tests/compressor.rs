//! What goes on inside the compressor's shell.

mod common;

use common::{cooling_to_f, fault, new_plant, txv};
use media::units::kelvin_from_fahrenheit;
use plant::{FaultKind, Inputs, Plant, System, Weather, advance};

/// Gas that leaks back inside the compressor gives its heat to the shell, and through it to the overload. It does not warm
/// a coil that is upstream of it: with next to no refrigerant and no air, the coil gets no warmer than it does
/// from a hot shell that stands, some 10 K above the room.
#[test]
fn a_leak_inside_warms_the_shell_and_not_the_coil() {
    let faults = [fault(FaultKind::CompressorInternalLeak, 1.0), fault(FaultKind::ThermostatNoG, 1.0)];
    for charge_kg in [0.03, 0.1, 0.5] {
        let mut plant = Plant::new(
            &txv(),
            common::held_room(80.0, 67.0),
            Weather::held(kelvin_from_fahrenheit(95.0)),
            charge_kg,
            &faults,
        );
        let inputs = cooling_to_f(60.0);
        let mut hottest_winding_k: f64 = 0.0;
        for minute in 0..120 {
            advance(&mut plant, &inputs, 60.0).expect("finite");
            let r = plant.readout();
            hottest_winding_k = hottest_winding_k.max(r.winding_k);
            assert!(
                r.coil_surface_k < kelvin_from_fahrenheit(110.0),
                "{charge_kg} kg, minute {minute}: {}",
                r.coil_surface_k
            );
        }
        assert!(hottest_winding_k > kelvin_from_fahrenheit(140.0), "{charge_kg} kg: {hottest_winding_k}");
    }
}

/// A welded contactor passes the high-pressure switch by. With the outdoor fan dead, what the internal relief lets out over
/// the motor opens the overload; without a relief it would run on and on. The thermal disc, which would open before on gas as hot
/// as this, is out of reach here.
#[test]
fn the_internal_relief_trips_the_overload() {
    let faults = [fault(FaultKind::WeldedContactor, 1.0), fault(FaultKind::DeadFanMotor, 1.0)];
    let mut system = txv();
    system.compressor.disc_opens_k = 1000.0;
    let mut most = |relief_opens_pa: f64| {
        system.compressor.relief_opens_pa = relief_opens_pa;
        let mut plant = new_plant(&system, 105.0, 80.0, 67.0, &faults);
        let (mut difference_pa, mut ran_s): (f64, f64) = (0.0, 0.0);
        for second in 0..3600 {
            advance(&mut plant, &cooling_to_f(60.0), 1.0).expect("finite");
            let r = plant.readout();
            difference_pa = difference_pa.max(r.liquid_pressure_pa - r.suction_pressure_pa);
            if second > 60 && !plant.compressor_runs() {
                break;
            }
            ran_s += 1.0;
        }
        (difference_pa, ran_s)
    };
    let (with, without) = (most(2.7e6), most(1.0e9));
    println!("{with:?} with it, {without:?} without");
    assert!(with.0 < without.0 && with.1 < 1200.0 && without.1 >= 3600.0, "{with:?}, {without:?}");
}

/// Worn scrolls recompress what leaked: at the same suction and head the discharge is hotter, the flow less, the efficiency
/// worse (second law; directions of Rossi & Braun 1997, from memory).
#[test]
fn worn_scrolls_run_hotter() {
    let rate = |worn: f64| {
        let mut data = txv().compressor;
        data.internal_leak = worn;
        plant::compressor_rating(&data, plant::RefrigerantName::R410A, 280.0, 320.0, 8.0, 308.0)
    };
    let mut last = rate(0.0);
    for worn in [0.1, 0.2, 0.3, 0.4, 0.5] {
        let now = rate(worn);
        assert!(now.port_k > last.port_k + 2.0, "{worn}: {now:?} after {last:?}");
        assert!(
            now.flow_kg_s < last.flow_kg_s && now.power_w / now.flow_kg_s > last.power_w / last.flow_kg_s
        );
        last = now;
    }
}

/// Gas takes no more from the motor than to its temperature, and gives no more to the dome: at every flow, down to a trickle.
#[test]
fn heat_inside_the_shell_keeps_the_second_law() {
    let data = txv().compressor;
    for evaporating_k in [225.0, 240.0, 255.0, 270.0, 283.0] {
        for condensing_k in [300.0, 315.0, 330.0] {
            let r = plant::compressor_rating(
                &data,
                plant::RefrigerantName::R410A,
                evaporating_k,
                condensing_k,
                10.0,
                308.0,
            );
            assert!(r.winding_k > evaporating_k + 10.0 && r.discharge_k <= r.port_k + 1.0e-6, "{r:?}");
        }
    }
}

/// A starved compressor ends on its thermal disc, with a hot shell, and comes back after half an hour to two hours: nothing else
/// stops it, and without the disc it would run on (complaint of every low charge: short cycling on the internal protector; times
/// of reset: common practice, no source).
#[test]
fn a_starved_compressor_cycles_on_its_disc() {
    let mut plant = Plant::new(
        &txv(),
        common::held_room(80.0, 67.0),
        Weather::held(kelvin_from_fahrenheit(105.0)),
        0.2 * txv().plate_charge_kg,
        &[],
    );
    let inputs = cooling_to_f(60.0);
    let (mut tripped_s, mut back_s, mut hottest_k): (Option<f64>, Option<f64>, f64) = (None, None, 0.0);
    for second in 0..6 * 3600 {
        advance(&mut plant, &inputs, 1.0).expect("finite");
        hottest_k = hottest_k.max(plant.readout().discharge_k);
        match (tripped_s, back_s) {
            (None, _) if second > 30 && !plant.compressor_runs() => tripped_s = Some(f64::from(second)),
            (Some(_), None) if plant.compressor_runs() => back_s = Some(f64::from(second)),
            _ => {}
        }
    }
    let (tripped_s, back_s) = (tripped_s.expect("it trips"), back_s.expect("it comes back"));
    println!("trips after {tripped_s} s, back after {} s, hottest line {hottest_k} K", back_s - tripped_s);
    assert!(hottest_k < kelvin_from_fahrenheit(330.0), "{hottest_k}");
    assert!((1800.0..7200.0).contains(&(back_s - tripped_s)), "{}", back_s - tripped_s);
}

/// Liquid that a rested coil throws over at a start goes to the sump and boils off over two to five minutes.
#[test]
fn a_flooded_start_boils_off_over_minutes() {
    let mut plant = new_plant(&common::orifice(), 95.0, 80.0, 67.0, &[]);
    let resting = Inputs {
        thermostat: plant::ThermostatSettings { mode: plant::Mode::Off, ..Inputs::default().thermostat },
        ..Inputs::default()
    };
    advance(&mut plant, &cooling_to_f(60.0), 1800.0).expect("finite");
    let running_kg = plant.sump_kg();
    advance(&mut plant, &resting, 1800.0).expect("finite");
    let mut most_kg: f64 = 0.0;
    let mut settled_s = 0.0;
    for second in 0..1200 {
        advance(&mut plant, &cooling_to_f(60.0), 1.0).expect("finite");
        most_kg = most_kg.max(plant.sump_kg());
        if plant.sump_kg() > running_kg + 0.1 * (most_kg - running_kg) {
            settled_s = f64::from(second);
        }
    }
    println!("sump {running_kg} kg running, {most_kg} kg at most, {settled_s} s");
    assert!(most_kg > running_kg + 0.1, "{most_kg} {running_kg}");
    assert!((90.0..600.0).contains(&settled_s), "{settled_s}");
}

/// The floating seal lifts from a ratio of 15 on, and at 20 nothing is delivered any more: a scroll that is starved of gas
/// draws no deeper vacuum than that against its head, and what turns inside leaves the books closed.
#[test]
fn a_starved_scroll_stops_pumping_at_twenty_to_one() {
    for name in ["split-3-ton-r410a-txv", "split-3-ton-r22-txv"] {
        let system = System::built_in(name).expect("a built-in system");
        let mut plant = new_plant(&system, 82.0, 80.0, 67.0, &[fault(FaultKind::MeteringRestricted, 1.0)]);
        advance(&mut plant, &cooling_to_f(40.0), 900.0).expect("finite");
        for minute in 15..60 {
            advance(&mut plant, &cooling_to_f(40.0), 60.0).expect("finite");
            let r = plant.readout();
            let ratio = r.liquid_pressure_pa / r.suction_pressure_pa;
            assert!(
                plant.compressor_runs() && ratio > 15.0 && ratio < 20.5,
                "{name}, minute {minute}: {ratio}"
            );
        }
        let (e, gap_j) = (plant.energy(), plant.energy_gap_j());
        assert!(gap_j.abs() < 1.0e-9 * (e.initial_j + e.compressor_j), "{name}: {gap_j} J");
    }
}
