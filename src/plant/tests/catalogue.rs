//! Every fault of the catalogue: it changes what a technician can measure, in the right direction, and the work that
//! cures it brings the plant back. Electrical faults are checked terminal by terminal in `electric.rs`.

mod common;

use common::{conditions, cooling_to_f, fault, new_plant, orifice, solve_steady_state, txv};
use plant::{FaultKind, Readout, SteadyConditions, System, Wear, Work, advance};

fn with(system: &System, kind: FaultKind, severity: f64) -> Readout {
    let c = SteadyConditions {
        faults: vec![fault(kind, severity)],
        time_max_s: 2700.0,
        ..conditions(95.0, 80.0, 67.0)
    };
    solve_steady_state(system, &c).readout
}

fn healthy(system: &System) -> Readout {
    solve_steady_state(system, &conditions(95.0, 80.0, 67.0)).readout
}

#[test]
fn faults_of_the_air_side_take_airflow() {
    let sound = healthy(&txv());
    for (kind, severity) in [
        (FaultKind::LoadedFilter, 0.6),
        (FaultKind::FouledEvaporator, 0.6),
        (FaultKind::CollapsedReturnDuct, 0.7),
        (FaultKind::ClosedRegisters, 0.7),
        (FaultKind::DirtyBlowerWheel, 0.8),
        (FaultKind::WrongSpeedTap, 0.8),
        (FaultKind::WeakBlowerCapacitor, 0.5),
    ] {
        let r = with(&txv(), kind, severity);
        println!("{kind:?}: {:.2} of the airflow", r.airflow_m3_s / sound.airflow_m3_s);
        assert!(r.airflow_m3_s < 0.93 * sound.airflow_m3_s, "{kind:?}: {}", r.airflow_m3_s);
        assert!(r.suction_pressure_pa < sound.suction_pressure_pa, "{kind:?}");
    }
}

/// Static pressures tell the air-side faults apart: a shut return deepens the suction before the blower, shut
/// supplies lift the pressure behind it.
#[test]
fn static_pressures_tell_return_from_supply() {
    let sound = healthy(&txv());
    let collapsed = with(&txv(), FaultKind::CollapsedReturnDuct, 0.7);
    let closed = with(&txv(), FaultKind::ClosedRegisters, 0.7);
    assert!(collapsed.return_static_pa < sound.return_static_pa - 20.0);
    assert!(collapsed.supply_static_pa < sound.supply_static_pa);
    assert!(closed.supply_static_pa > sound.supply_static_pa + 20.0);
    assert!(closed.coil_outlet_static_pa > sound.coil_outlet_static_pa);
}

#[test]
fn faults_of_the_charge_move_subcooling() {
    let sound = healthy(&txv());
    let under = with(&txv(), FaultKind::Undercharged, 0.2);
    let over = with(&txv(), FaultKind::Overcharged, 0.2);
    assert!(under.subcooling_k < sound.subcooling_k - 3.0);
    assert!(over.subcooling_k > sound.subcooling_k + 3.0);
    assert!(over.liquid_pressure_pa > sound.liquid_pressure_pa);
}

/// Air in the circuit lifts head above what the condensing refrigerant explains: subcooling by the gauge looks high.
#[test]
fn non_condensables_lift_head_and_apparent_subcooling() {
    let sound = healthy(&txv());
    let airy = with(&txv(), FaultKind::NonCondensables, 0.6);
    assert!(airy.liquid_pressure_pa > sound.liquid_pressure_pa + 60.0e3);
    assert!(airy.subcooling_k > sound.subcooling_k + 0.5);
    assert!(airy.compressor_power_w > sound.compressor_power_w);
}

#[test]
fn restrictions_starve_the_coil_and_drop_temperature_once_liquid_flashes() {
    for system in [txv(), orifice()] {
        let sound = healthy(&system);
        for kind in [FaultKind::PluggedDrier, FaultKind::KinkedLiquidLine] {
            let r = with(&system, kind, 0.95);
            let drop_k = r.liquid_service_valve_k - r.liquid_after_drier_k;
            println!("{} {kind:?}: drop {drop_k:.1} K, superheat {:.1} K", system.name, r.superheat_k);
            assert!(r.suction_pressure_pa < sound.suction_pressure_pa - 100.0e3, "{kind:?}");
            assert!(r.superheat_k > sound.superheat_k + 5.0, "{kind:?}");
            assert!(drop_k > 2.0, "{kind:?}: {drop_k}");
            let mild = with(&system, kind, 0.5);
            assert!(mild.liquid_service_valve_k - mild.liquid_after_drier_k < 1.0, "{kind:?}");
        }
    }
}

#[test]
fn faults_of_the_bulb_move_the_valve() {
    let sound = healthy(&txv());
    let loose = with(&txv(), FaultKind::BulbLoose, 0.6);
    assert!(loose.metering_opening > sound.metering_opening + 0.1);
    assert!(loose.superheat_k < sound.superheat_k - 3.0);
    let empty = with(&txv(), FaultKind::BulbChargeLost, 0.3);
    assert!(empty.metering_opening < sound.metering_opening - 0.1);
    assert!(empty.superheat_k > sound.superheat_k + 5.0);
}

#[test]
fn a_wrong_orifice_moves_superheat() {
    let sound = healthy(&orifice());
    assert!(with(&orifice(), FaultKind::OrificeTooSmall, 0.2).superheat_k > sound.superheat_k + 5.0);
    assert!(with(&orifice(), FaultKind::OrificeTooLarge, 0.2).superheat_k < sound.superheat_k - 3.0);
    let valve = healthy(&txv());
    assert_eq!(with(&txv(), FaultKind::OrificeTooSmall, 0.5), valve, "a valve has no orifice");
}

#[test]
fn faults_outdoors_lift_head_or_lose_capacity() {
    let sound = healthy(&txv());
    let fouled = with(&txv(), FaultKind::FouledCondenser, 0.5);
    assert!(fouled.condensing_k > sound.condensing_k + 5.0);
    let weak_fan = with(&txv(), FaultKind::WeakFanCapacitor, 0.4);
    assert!(weak_fan.condensing_k > sound.condensing_k + 0.5, "{}", weak_fan.condensing_k);
    let leaking = with(&txv(), FaultKind::CompressorInternalLeak, 0.3);
    assert!(leaking.gross_cooling_w < 0.85 * sound.gross_cooling_w);
    assert!(leaking.suction_pressure_pa > sound.suction_pressure_pa + 50.0e3);
}

/// Work cures its kinds and no others, and every kind but those of the charge has its work.
#[test]
fn every_kind_has_its_work() {
    let all_work: Vec<Work> =
        Work::PARTS.into_iter().chain(plant::LeakPlace::ALL.into_iter().map(Work::RepairLeak)).collect();
    for kind in FaultKind::ALL {
        let cures: Vec<Work> = all_work.iter().copied().filter(|w| w.removes(kind)).collect();
        assert_eq!(cures.is_empty(), kind.holds_from_the_start(), "{kind:?}: {cures:?}");
        let Some(work) = cures.first() else { continue };
        let mut faults = vec![fault(kind, 0.5)];
        if kind != FaultKind::FouledCondenser {
            faults.push(fault(FaultKind::FouledCondenser, 0.3));
        }
        let mut plant = new_plant(&txv(), 85.0, 75.0, 63.0, &faults);
        advance(&mut plant, &cooling_to_f(60.0), 120.0).expect("finite");
        assert_eq!(plant.apply(*work).cleared, [kind], "{work:?}");
        assert_eq!(plant.faults().len(), faults.len() - 1);
    }
}

/// A charge fault is over when the circuit holds the right charge again.
#[test]
fn charge_faults_retire_with_the_charge() {
    let mut plant = new_plant(&txv(), 85.0, 75.0, 63.0, &[fault(FaultKind::Undercharged, 0.2)]);
    let mut inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 900.0).expect("finite");
    assert!(plant.has(FaultKind::Undercharged));
    inputs.suction_port = plant::PortConnection::Cylinder {
        phase: plant::CylinderPhase::Vapour,
        temperature_k: 303.15,
        opening: 1.0,
    };
    for _ in 0..3600 {
        if plant.circuit_kg() >= txv().plate_charge_kg {
            break;
        }
        advance(&mut plant, &inputs, 1.0).expect("finite");
    }
    inputs.suction_port = plant::PortConnection::Gauge;
    advance(&mut plant, &inputs, 5.0).expect("finite");
    assert!(!plant.has(FaultKind::Undercharged));
}

/// Flood-back and overheating wear the compressor; the wear shows later as lost capacity, and a new compressor has none. What a
/// valve that is stuck open lets through alone, the sump takes and the motor boils off; with too much charge it is more.
#[test]
fn wear_shows_up_later() {
    let faults = [fault(FaultKind::MeteringStuckOpen, 1.0), fault(FaultKind::Overcharged, 0.3)];
    let mut plant = new_plant(&txv(), 95.0, 80.0, 67.0, &faults);
    let inputs = cooling_to_f(60.0);
    advance(&mut plant, &inputs, 3600.0).expect("finite");
    let early = plant.readout().gross_cooling_w;
    let flooded = *plant.wear();
    assert!(flooded.liquid_kg > 0.5, "{flooded:?}");
    advance(&mut plant, &inputs, 40.0 * 3600.0).expect("finite");
    assert!(plant.wear().internal_leak() > flooded.internal_leak() + 0.01, "{:?}", plant.wear());
    assert!(plant.readout().gross_cooling_w < early, "{} against {early}", plant.readout().gross_cooling_w);
    let mut hot = new_plant(&txv(), 95.0, 80.0, 67.0, &[fault(FaultKind::MeteringRestricted, 0.85)]);
    advance(&mut hot, &inputs, 7200.0).expect("finite");
    assert!(hot.wear().overheated_k_s > 1000.0, "{:?}", hot.wear());
    hot.apply(Work::ReplaceCompressor);
    assert_eq!(*hot.wear(), Wear::default());
}

/// What the coil throws over at each start does no harm: a sound plant that cycles for a day wears nothing.
#[test]
fn a_sound_plant_does_not_wear_by_cycling() {
    let mut plant = new_plant(&txv(), 85.0, 75.0, 63.0, &[]);
    let (run, rest) = (cooling_to_f(60.0), cooling_to_f(85.0));
    for _ in 0..24 {
        advance(&mut plant, &run, 900.0).expect("finite");
        advance(&mut plant, &rest, 900.0).expect("finite");
    }
    assert_eq!(*plant.wear(), Wear::default());
}
