//! What goes on inside the compressor's shell.

mod common;

use common::{cooling_to_f, fault, new_plant, txv};
use media::units::kelvin_from_fahrenheit;
use plant::{FaultKind, Plant, Weather, advance};

/// Gas that leaks back inside the compressor gives its heat to the shell, and through it to the overload. It does not warm
/// a coil that is upstream of it: with next to no refrigerant and no air, the coil gets no warmer than it does
/// from a hot shell that stands, some 10 K above the room.
#[test]
fn a_leak_inside_warms_the_shell_and_not_the_coil() {
    let faults = [fault(FaultKind::LeakingCompressor, 1.0), fault(FaultKind::ThermostatNoG, 1.0)];
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
/// the motor opens the overload; without a relief it would run on and on.
#[test]
fn the_internal_relief_trips_the_overload() {
    let faults = [fault(FaultKind::WeldedContactor, 1.0), fault(FaultKind::DeadFanMotor, 1.0)];
    let mut system = txv();
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
