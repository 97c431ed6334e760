//! A coil whose blower stands: the cold air that falls out of it, and what it leaves as ice.

mod common;

use common::{cooling_to_f, fault, new_plant, orifice, txv};
use media::units::celsius_from_kelvin;
use plant::{FaultKind, Inputs, Mode, Plant, System, advance, step};

fn off() -> Inputs {
    let mut inputs = Inputs::default();
    inputs.thermostat.mode = Mode::Off;
    inputs
}

/// A plant whose blower never runs.
fn dead_blower(system: &System, outdoor_f: f64, dry_f: f64, wet_f: f64) -> Plant {
    new_plant(system, outdoor_f, dry_f, wet_f, &[fault(FaultKind::OpenBlowerRelay, 1.0)])
}

/// What a dead blower does in some hours: ice and running time, quarter by quarter.
fn course(plant: &mut Plant, hours: u32) -> Vec<f64> {
    let name = plant.system().name.clone();
    (1..=4 * hours)
        .map(|quarter| {
            let mut ran_s = 0;
            for _ in 0..900 {
                advance(plant, &cooling_to_f(40.0), 1.0).expect("finite");
                ran_s += u32::from(plant.compressor_runs());
            }
            let r = plant.readout();
            println!(
                "{name} {:.2} h: {:.2} kg, evaporating {:.1} °C, {:.0} W, open {:.3}, ran {ran_s} s, discharge {:.0} °C",
                0.25 * f64::from(quarter),
                r.frost_mass_kg,
                celsius_from_kelvin(r.evaporating_k),
                r.gross_cooling_w,
                r.open_share,
                celsius_from_kelvin(r.discharge_k),
            );
            r.frost_mass_kg
        })
        .collect()
}

/// Outdoors, indoors dry and wet bulb, °F: a hot day and a mild one.
const DAYS: [(f64, f64, f64); 2] = [(95.0, 80.0, 67.0), (80.0, 72.0, 60.0)];

/// A dead blower freezes the coil: the air that falls out of it brings the room's moisture, a kilogram or so an hour, until the ice is
/// in its way (shop experience, no source: a coil without its blower is ice within hours). On a valve the disc is kept from opening
/// here: what thaws in its rests belongs to the disc.
#[test]
fn a_dead_blower_freezes_the_coil() {
    let mut without_disc = txv();
    without_disc.compressor.disc_opens_k += 200.0;
    for system in [without_disc, orifice()] {
        for (outdoor_f, dry_f, wet_f) in DAYS {
            let mut plant = dead_blower(&system, outdoor_f, dry_f, wet_f);
            let after_kg = course(&mut plant, 4);
            let name = &system.name;
            assert!((0.6..1.5).contains(&after_kg[3]), "{name}: {:.2} kg after an hour", after_kg[3]);
            assert!(after_kg[15] > 1.5, "{name}: {:.2} kg after four hours", after_kg[15]);
            assert!(after_kg[15] - after_kg[11] < 0.5 * after_kg[3], "{name}: {after_kg:?}");
        }
    }
}

/// With its disc, which the hot gas of so little suction opens, a machine with a valve freezes half a kilogram and more in a run; what
/// the same draught leaves of it in a rest is another matter.
#[test]
fn a_valve_freezes_the_coil_in_a_run_between_two_rests() {
    for (outdoor_f, dry_f, wet_f) in DAYS {
        let mut plant = dead_blower(&txv(), outdoor_f, dry_f, wet_f);
        let most_kg = course(&mut plant, 4).into_iter().fold(0.0, f64::max);
        assert!(most_kg > 0.5, "{most_kg:.2} kg at most");
    }
}

/// Heat and water of the draught are the room's: the ledgers close, and nothing is colder than the refrigerant.
#[test]
fn the_draught_is_booked() {
    let mut plant = dead_blower(&orifice(), 95.0, 80.0, 67.0);
    for _ in 0..120 {
        advance(&mut plant, &cooling_to_f(40.0), 30.0).expect("finite");
        let r = plant.readout();
        assert!(
            r.coil_surface_k > r.evaporating_k - 1.0 && r.cabinet_air_k < r.return_dry_bulb_k + 0.1,
            "{r:?}"
        );
    }
    let water = plant.coil_water();
    let gap_kg = water.from_air_kg - water.ice_kg - water.held_kg - water.drained_kg;
    assert!(gap_kg.abs() < 1e-9 && water.ice_kg > 0.5, "{water:?}");
    assert!(plant.energy_gap_j().abs() < 1.0, "{}", plant.energy_gap_j());
}

/// The ice of an hour does not depend on the time step.
#[test]
fn the_draught_does_not_feel_the_step() {
    let ice_kg = |dt_s: f64| {
        let mut plant = dead_blower(&orifice(), 95.0, 80.0, 67.0);
        for _ in 0..(3600.0 / dt_s) as u32 {
            step(&mut plant, &cooling_to_f(40.0), dt_s).expect("finite");
        }
        (plant.readout().frost_mass_kg, plant.readout().evaporating_k)
    };
    let ((coarse_kg, coarse_k), (fine_kg, fine_k)) = (ice_kg(0.5), ice_kg(0.125));
    println!("{coarse_kg:.4} and {fine_kg:.4} kg, {coarse_k:.2} and {fine_k:.2} K");
    approx::assert_relative_eq!(coarse_kg, fine_kg, max_relative = 0.01);
    approx::assert_abs_diff_eq!(coarse_k, fine_k, epsilon = 0.1);
}

/// A wet coil dries slowly while the blower stands: more than half of its water is there after two hours, and next to none after a
/// day (an engineer's sense of it, no source).
#[test]
fn a_wet_coil_dries_in_a_day_of_rest() {
    for system in [txv(), orifice()] {
        for (outdoor_f, dry_f, wet_f) in [(95.0, 80.0, 67.0), (60.0, 75.0, 63.0)] {
            let mut plant = new_plant(&system, outdoor_f, dry_f, wet_f, &[]);
            advance(&mut plant, &cooling_to_f(40.0), 3600.0).expect("finite");
            let wet_kg = plant.coil_water().held_kg;
            let mut after = |hours: f64| {
                advance(&mut plant, &off(), 3600.0 * hours).expect("finite");
                plant.coil_water().held_kg / wet_kg
            };
            let (two_hours, a_day) = (after(2.0), after(22.0));
            println!(
                "{} {outdoor_f} {dry_f}/{wet_f}: {two_hours:.2}, {a_day:.3} of {wet_kg:.2} kg",
                system.name
            );
            assert!(wet_kg > 0.5 && (0.5..0.95).contains(&two_hours) && a_day < 0.05, "{}", system.name);
        }
    }
}
