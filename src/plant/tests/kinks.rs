//! Restrictions in the lines, told apart by where pressure and temperature fall.

mod common;

use common::{at_a, conditions, cooling_to_f, fault, new_plant, orifice, solve_steady_state, txv};
use plant::{Event, FaultKind, Metering, Readout, SteadyConditions, System, step};

fn with(system: &System, kind: FaultKind, severity: f64) -> Readout {
    let conditions = SteadyConditions { faults: vec![fault(kind, severity)], ..conditions(95.0, 80.0, 67.0) };
    solve_steady_state(system, &conditions).readout
}

/// Temperature drops of the liquid line, K: service valve to drier inlet, over the drier.
fn drops_k(r: &Readout) -> (f64, f64) {
    (r.liquid_service_valve_k - r.liquid_before_drier_k, r.liquid_before_drier_k - r.liquid_after_drier_k)
}

/// A clamp between kink and drier tells them apart: each drops temperature over itself once its liquid flashes.
#[test]
fn a_clamp_at_the_driers_inlet_tells_kink_from_drier() {
    for system in [txv(), orifice()] {
        let (kink, drier) = drops_k(&with(&system, FaultKind::KinkedLiquidLine, 0.95));
        assert!(kink > 2.0 && drier < 0.3 * kink, "{}: kink {kink:.2} K, drier {drier:.2} K", system.name);
        let (kink, drier) = drops_k(&with(&system, FaultKind::PluggedDrier, 0.95));
        assert!(kink.abs() < 1.0e-6 && drier > 2.0, "{}: kink {kink:.2} K, drier {drier:.2} K", system.name);
        let (kink, drier) = drops_k(&at_a(&system));
        assert!(kink.abs() < 1.0e-6 && drier.abs() < 0.1, "{}: {kink} K, {drier} K", system.name);
    }
}

/// Isenthalpic: while the liquid is subcooled behind it a kink leaves the temperature as it is; below saturation it is that of
/// saturation, colder the lower the pressure.
#[test]
fn temperature_falls_with_pressure_only_where_it_flashes() {
    let mild = with(&txv(), FaultKind::KinkedLiquidLine, 0.5);
    assert!(drops_k(&mild).0.abs() < 0.2, "{:?}", drops_k(&mild));
    let severe: Vec<f64> = [0.9, 0.93, 0.96]
        .into_iter()
        .map(|s| drops_k(&with(&txv(), FaultKind::KinkedLiquidLine, s)).0)
        .collect();
    assert!(severe.windows(2).all(|pair| pair[1] > pair[0] + 0.5), "{severe:?}");
}

/// A kinked suction line: the port outdoors stands below the coil, the coil boils warmer than the gauge says, and the
/// compressor finds thin gas.
#[test]
fn a_kinked_suction_line_parts_the_port_from_the_coil() {
    for system in [txv(), orifice()] {
        let sound = at_a(&system);
        let drop = |r: &Readout| r.evaporator_pressure_pa - r.suction_pressure_pa;
        let mut last = drop(&sound);
        for severity in [0.5, 0.7, 0.8, 0.9, 0.95] {
            let r = with(&system, FaultKind::KinkedSuctionLine, severity);
            println!(
                "{} {severity}: coil {:.0} kPa, port {:.0} kPa, {:.3} kg/s, superheat {:.1} K, {:.0} W, head {:.0} kPa",
                system.name,
                r.evaporator_pressure_pa / 1e3,
                r.suction_pressure_pa / 1e3,
                r.compressor_flow_kg_s,
                r.superheat_k,
                r.gross_cooling_w,
                r.liquid_pressure_pa / 1e3,
            );
            assert!(drop(&r) > last, "{severity}: {} after {last}", drop(&r));
            last = drop(&r);
        }
        let r = with(&system, FaultKind::KinkedSuctionLine, 0.93);
        assert!(r.suction_pressure_pa < sound.suction_pressure_pa - 100.0e3);
        assert!(r.evaporator_pressure_pa > sound.evaporator_pressure_pa, "the coil backs up");
        // An orifice floods its coil behind the kink, and wet gas is dense: it takes a kink that is nearly shut to cost it flow.
        let nearly_shut = with(&system, FaultKind::KinkedSuctionLine, 0.95);
        assert!(nearly_shut.compressor_flow_kg_s < 0.9 * sound.compressor_flow_kg_s);
        assert!(r.liquid_pressure_pa < sound.liquid_pressure_pa);
        let fluid = system.refrigerant.tables();
        let apart_k = fluid.dew_k(r.evaporator_pressure_pa) - fluid.dew_k(r.suction_pressure_pa);
        assert!(apart_k > 5.0, "{apart_k}");
        // Gas that is throttled keeps its heat: the line hardly cools, so superheat by the gauge outdoors rises. An orifice
        // goes on feeding the coil and floods it; what comes then is wet, and as cold as its pressure says.
        if matches!(system.metering, Metering::Txv { .. }) {
            assert!(r.suction_line_outdoor_k > r.suction_line_indoor_k - 6.0);
            assert!(r.superheat_k > sound.superheat_k + 1.0);
        }
    }
}

/// The drop is that of the law at the flow that is there: friction by Darcy and Weisbach (factor 0.013, half the length
/// again for fittings) and the kink's velocity heads, each m²/(2 ρ A²).
#[test]
fn the_suction_drop_obeys_its_law() {
    let system = txv();
    let fluid = system.refrigerant.tables();
    let lines = &system.lines;
    let area_m2 = std::f64::consts::PI / 4.0 * lines.suction_bore_m.powi(2);
    let head = 1.0 / (2.0 * area_m2.powi(2));
    let friction = 0.013 * 1.5 * lines.length_m / lines.suction_bore_m * head;
    for (severity, heads) in [(0.0, 0.0), (0.8, 47.63), (0.9, 220.9)] {
        let r = with(&system, FaultKind::KinkedSuctionLine, severity);
        let density = fluid.saturation(r.evaporator_pressure_pa).vapour_density_kg_m3;
        let expected = (friction + heads * head) * r.compressor_flow_kg_s.powi(2) / density;
        let drop = r.evaporator_pressure_pa - r.suction_pressure_pa;
        assert!((drop / expected - 1.0).abs() < 0.02, "{severity}: {drop:.0} against {expected:.0} Pa");
    }
}

/// A start behind a coil full of liquid: what comes is dense and loses little in the line, so the low-pressure switch stays shut.
#[test]
fn a_flooded_start_does_not_open_the_low_pressure_switch() {
    for (name, outdoor_f) in [
        ("split-2-ton-r32-txv", 100.0),
        ("split-5-ton-r454b-txv-ecm", 90.0),
        ("split-5-ton-r410a-txv-ecm", 115.0),
    ] {
        let system = System::built_in(name).expect("built in");
        let mut plant = new_plant(&system, outdoor_f, 50.0, 42.0, &[]);
        for _ in 0..1200 {
            let events = step(&mut plant, &cooling_to_f(40.0), 0.25).expect("finite");
            assert!(
                !events.iter().any(|e| e == Event::LowPressureSwitchOpened),
                "{name} at {} s",
                plant.time_s()
            );
        }
    }
}

/// The tighter the kink, the less it cools and the lower the port, to the last: with a sump that boils as much as the scrolls
/// draw, too, where the stream in the line is what is left between them.
#[test]
fn a_tighter_kink_never_cools_more() {
    for (name, outdoor_f) in [
        ("split-3-ton-r22-orifice", 95.0),
        ("split-3-ton-r22-orifice", 105.0),
        ("split-3-ton-r410a-orifice", 105.0),
        ("split-3-ton-r410a-txv", 110.0),
    ] {
        let system = System::built_in(name).expect("built in");
        let mut last = (f64::INFINITY, f64::INFINITY);
        for severity in [0.95, 0.97, 0.975, 0.98, 0.985, 0.99] {
            let mut plant =
                new_plant(&system, outdoor_f, 75.0, 65.0, &[fault(FaultKind::KinkedSuctionLine, severity)]);
            // Before a protection acts, on the mean over four minutes.
            plant::advance(&mut plant, &cooling_to_f(40.0), 240.0).expect("finite");
            let (mut cooling_w, mut port_pa) = (0.0, 0.0);
            for _ in 0..240 {
                plant::advance(&mut plant, &cooling_to_f(40.0), 1.0).expect("finite");
                cooling_w += plant.readout().gross_cooling_w / 240.0;
                port_pa += plant.readout().suction_pressure_pa / 240.0;
            }
            println!("{name} {outdoor_f} {severity}: {cooling_w:.0} W, {port_pa:.0} Pa");
            assert!(cooling_w < last.0 && port_pa < last.1, "{name} {severity}: {cooling_w} W, {port_pa} Pa");
            last = (cooling_w, port_pa);
        }
    }
}

/// Line and shell hold gas: behind a kink the port comes down in seconds, not in one step, and a low-pressure switch opens then.
#[test]
fn the_port_behind_a_kink_comes_down_in_seconds() {
    let system = System::built_in("split-2-ton-r32-txv").expect("built in");
    let mut plant = new_plant(&system, 105.0, 75.0, 70.0, &[fault(FaultKind::KinkedSuctionLine, 0.99)]);
    let standing_pa = plant.readout().suction_pressure_pa;
    let mut half_s = None;
    let mut opened_s = None;
    for _ in 0..4 * 300 {
        let events = step(&mut plant, &cooling_to_f(40.0), 0.25).expect("finite");
        if half_s.is_none() && plant.readout().suction_pressure_pa < 0.5 * standing_pa {
            half_s = Some(plant.time_s());
        }
        if opened_s.is_none() && events.iter().any(|e| e == Event::LowPressureSwitchOpened) {
            opened_s = Some(plant.time_s());
        }
    }
    println!("half at {half_s:?} s, switch at {opened_s:?} s");
    assert!(half_s.is_some_and(|s| (1.0..20.0).contains(&s)), "{half_s:?}");
    assert!(opened_s.is_some_and(|s| s > 5.0), "{opened_s:?}");
}
