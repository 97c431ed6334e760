//! The way of the air: static pressures along it, what a collapsed filter leaves on the coil, and the slot without a filter.

mod common;

use common::{conditions, cooling_to_f, fault, new_plant, solve_steady_state, txv};
use plant::{
    Fault, FaultKind, FilterSlot, InFilterSlot, Inputs, LeftBehind, Mode, Plant, Readout, SteadyConditions,
    System, Work, advance,
};

/// A value has changed when it is off by more than this share.
const CHANGED: f64 = 0.03;
/// A drop below this share of the sound one is none at all.
const NONE: f64 = 0.02;

/// `-`, `0` or `+` against the sound system, `n` for none at all.
fn sign(now: f64, sound: f64) -> char {
    let share = now / sound;
    match share {
        _ if share.abs() < NONE => 'n',
        _ if share < 1.0 - CHANGED => '-',
        _ if share > 1.0 + CHANGED => '+',
        _ => '0',
    }
}

/// Airflow, depth of the return static, drop over filter and coil, supply static, total external static, speed of the wheel.
fn signs(now: &Readout, sound: &Readout) -> String {
    let values = |r: &Readout| {
        [
            r.airflow_m3_s,
            -r.return_static_pa,
            r.filter_drop_pa(),
            r.coil_drop_pa(),
            r.supply_static_pa,
            r.external_static_pa(),
            r.blower_speed,
        ]
    };
    values(now).into_iter().zip(values(sound)).map(|(now, sound)| sign(now, sound)).collect()
}

fn at(system: &System, weather: &SteadyConditions, faults: &[Fault]) -> Readout {
    solve_steady_state(
        system,
        &SteadyConditions { faults: faults.to_vec(), time_max_s: 7200.0, ..weather.clone() },
    )
    .readout
}

/// Each fault of the air side has its own pattern at the taps of a manometer, so that they can be told apart. The directions
/// follow from where the resistance sits: more drop over what is shut, less over everything else that the smaller flow passes.
#[test]
fn each_fault_of_the_air_side_has_its_own_pattern() {
    let system = txv();
    let warm = conditions(85.0, 78.0, 65.0);
    let sound = at(&system, &warm, &[]);
    let table = [
        (FaultKind::LoadedFilter, 0.6, "--+--+0"),
        (FaultKind::FouledEvaporator, 0.6, "--n+--0"),
        (FaultKind::CollapsedReturnDuct, 0.7, "-+---+0"),
        (FaultKind::ClosedRegisters, 0.7, "----++0"),
        (FaultKind::DirtyBlowerWheel, 0.8, "------0"),
        (FaultKind::WrongSpeedTap, 0.8, "-------"),
    ];
    let mut patterns: Vec<(String, String)> = table
        .into_iter()
        .map(|(kind, severity, expected)| {
            let pattern = signs(&at(&system, &warm, &[fault(kind, severity)]), &sound);
            assert_eq!(pattern, expected, "{kind:?}");
            (format!("{kind:?}"), pattern)
        })
        .collect();
    // Ice: a throttled valve in a cool house. The valve alone would leave the air as it is.
    let cool = conditions(72.0, 68.0, 61.0);
    let iced = at(&system, &cool, &[fault(FaultKind::MeteringRestricted, 0.62)]);
    assert!(iced.frost_mass_kg > 0.3, "{} kg of ice", iced.frost_mass_kg);
    let iced = signs(&iced, &at(&system, &cool, &[]));
    assert_eq!(iced, "---+--0");
    patterns.push(("ice".to_owned(), iced));
    for (index, (one, pattern)) in patterns.iter().enumerate() {
        for (other, same) in &patterns[index + 1..] {
            assert_ne!(pattern, same, "{one} and {other}");
        }
    }
}

/// What the wheel builds up is what the air loses on its way: the curve of the wheel at the flow that is there.
#[test]
fn the_rise_over_the_blower_is_the_sum_of_the_drops() {
    for faults in
        [vec![], vec![fault(FaultKind::LoadedFilter, 0.95)], vec![fault(FaultKind::FouledEvaporator, 0.5)]]
    {
        let system = txv();
        let r = at(&system, &conditions(85.0, 78.0, 65.0), &faults);
        let air = &system.air;
        let rise = r.supply_static_pa - r.coil_outlet_static_pa;
        let curve = air.blower_shutoff_pa
            * (r.blower_speed.powi(2) - (r.airflow_m3_s / air.blower_free_m3_s).powi(2));
        // Means over ten minutes, in which the flow of a coil that ices falls a little.
        assert!((rise - curve).abs() < 1.0e-4 * curve, "{rise} and {curve}");
        assert!(r.return_static_pa < 0.0 && r.coil_inlet_static_pa <= r.return_static_pa);
        assert!(r.coil_outlet_static_pa < r.coil_inlet_static_pa && r.supply_static_pa > 0.0);
    }
}

fn running(faults: &[Fault]) -> Plant {
    let mut plant = new_plant(&txv(), 85.0, 78.0, 65.0, faults);
    advance(&mut plant, &cooling_to_f(60.0), 300.0).expect("finite");
    plant
}

fn airflow_after(plant: &Plant, works: &[Work]) -> f64 {
    let mut plant = plant.clone();
    for work in works {
        plant.apply(*work);
    }
    advance(&mut plant, &cooling_to_f(60.0), 120.0).expect("finite");
    plant.readout().airflow_m3_s
}

#[test]
fn the_medium_of_a_collapsed_filter_stays_on_the_coil() {
    let sound = running(&[]).readout().airflow_m3_s;
    let mut plant = running(&[fault(FaultKind::LoadedFilter, 0.96)]);
    let choked = plant.readout().airflow_m3_s;
    assert!(choked < 0.6 * sound, "{choked} of {sound}");
    assert!(plant.coil_covered_share() > 0.3);
    assert_eq!(plant.in_filter_slot(), InFilterSlot::Frame);
    // Nothing is left in the frame that could drop pressure; all of it stands over the coil.
    let r = plant.readout();
    assert!(r.filter_drop_pa().abs() < 1.0e-9 && r.coil_drop_pa() > 100.0, "{r:?}");
    // A new filter before the mat does not help, and is a filter more to pass.
    assert!(airflow_after(&plant, &[Work::ReplaceFilter]) <= choked);
    let both = airflow_after(&plant, &[Work::ReplaceFilter, Work::PeelFilterMedium]);
    assert!((both - sound).abs() < 0.01 * sound, "{both} of {sound}");
    let washed = airflow_after(&plant, &[Work::CleanCoil, Work::ReplaceFilter]);
    assert!((washed - both).abs() < 1.0e-3 * sound, "{washed} and {both}");

    assert_eq!(plant.apply(Work::ReplaceFilter).cleared, [FaultKind::LoadedFilter]);
    assert_eq!(plant.in_filter_slot(), InFilterSlot::Filter { loading: 0.0 });
    assert!(plant.has(FaultKind::LoadedFilter) && plant.coil_covered_share() > 0.3);
    assert_eq!(plant.left_behind(FaultKind::LoadedFilter), Some(LeftBehind::MediumOnCoil));
    assert_eq!(plant.apply(Work::PeelFilterMedium).cleared, [FaultKind::LoadedFilter]);
    assert!(!plant.has(FaultKind::LoadedFilter) && plant.coil_covered_share() == 0.0);
    assert!(plant.apply(Work::PeelFilterMedium).cleared.is_empty());
}

/// Taken off the coil first, the medium does not come back from a frame that has none.
#[test]
fn a_frame_without_medium_tears_no_second_time() {
    let mut plant = running(&[fault(FaultKind::LoadedFilter, 0.96)]);
    plant.apply(Work::PeelFilterMedium);
    advance(&mut plant, &cooling_to_f(60.0), 120.0).expect("finite");
    assert_eq!(plant.coil_covered_share(), 0.0);
    assert_eq!(plant.in_filter_slot(), InFilterSlot::Frame);
    assert!(plant.has(FaultKind::LoadedFilter), "no filter is in it yet");
    assert!(plant.readout().filter_drop_pa().abs() < 1.0e-9);
}

/// The whole resistance is the same a hair below and above the collapse; only where it stands changes.
#[test]
fn the_collapse_moves_the_resistance_and_keeps_it() {
    let (below, above) =
        (running(&[fault(FaultKind::LoadedFilter, 0.9)]), running(&[fault(FaultKind::LoadedFilter, 0.9001)]));
    let (b, a) = (below.readout(), above.readout());
    assert!((a.airflow_m3_s / b.airflow_m3_s - 1.0).abs() < 0.01);
    assert!(b.filter_drop_pa() > 100.0 && a.filter_drop_pa().abs() < 1.0e-9);
}

#[test]
fn a_missing_filter_is_missing_until_one_is_fitted() {
    let mut plant = running(&[fault(FaultKind::FouledEvaporator, 0.6)]);
    assert_eq!(plant.in_filter_slot(), InFilterSlot::Nothing);
    assert_eq!(plant.readout().filter_drop_pa(), 0.0);
    // Washing the coil fits no filter.
    assert_eq!(plant.apply(Work::CleanCoil).cleared, [FaultKind::FouledEvaporator]);
    assert_eq!(plant.in_filter_slot(), InFilterSlot::Nothing);
    assert!(plant.has(FaultKind::FouledEvaporator));
    assert_eq!(plant.left_behind(FaultKind::FouledEvaporator), Some(LeftBehind::EmptySlot));
    advance(&mut plant, &cooling_to_f(60.0), 60.0).expect("finite");
    assert_eq!(plant.readout().filter_drop_pa(), 0.0);
    assert_eq!(plant.apply(Work::ReplaceFilter).cleared, [FaultKind::FouledEvaporator]);
    assert!(!plant.has(FaultKind::FouledEvaporator));
    advance(&mut plant, &cooling_to_f(60.0), 60.0).expect("finite");
    assert!(plant.readout().filter_drop_pa() > 10.0);
    assert!(plant.apply(Work::ReplaceFilter).cleared.is_empty(), "the filter that was fitted is sound");
}

/// In the other order: a filter before a matted coil is a filter, and the coil is as shut as before.
#[test]
fn a_filter_before_a_matted_coil_cleans_nothing() {
    let mut plant = running(&[fault(FaultKind::FouledEvaporator, 0.6)]);
    let without = plant.readout().airflow_m3_s;
    assert_eq!(plant.apply(Work::ReplaceFilter).cleared, [FaultKind::FouledEvaporator]);
    assert!(plant.has(FaultKind::FouledEvaporator));
    advance(&mut plant, &cooling_to_f(60.0), 60.0).expect("finite");
    assert!(plant.readout().airflow_m3_s < without);
    assert_eq!(plant.apply(Work::CleanCoil).cleared, [FaultKind::FouledEvaporator]);
    assert!(!plant.has(FaultKind::FouledEvaporator));
    assert_eq!(plant.in_filter_slot(), InFilterSlot::Filter { loading: 0.0 });
}

/// Pulled for a look, and put back, it is as it was: the slot is the plant's, not the hand's.
#[test]
fn a_look_at_the_slot_changes_nothing_in_it() {
    for faults in
        [vec![], vec![fault(FaultKind::LoadedFilter, 0.96)], vec![fault(FaultKind::FouledEvaporator, 0.6)]]
    {
        let mut plant = running(&faults);
        let found = plant.in_filter_slot();
        // The same plant that nobody touches; ice may build up on both.
        let mut left_alone = plant.clone();
        advance(&mut left_alone, &cooling_to_f(60.0), 60.0).expect("finite");
        let mut pulled = cooling_to_f(60.0);
        pulled.filter = FilterSlot::Removed;
        advance(&mut plant, &pulled, 60.0).expect("finite");
        assert_eq!(plant.in_filter_slot(), found);
        let is_filter = matches!(found, InFilterSlot::Filter { .. });
        let now = plant.readout().airflow_m3_s / left_alone.readout().airflow_m3_s;
        assert_eq!(now > 1.01, is_filter, "{faults:?}: {now}");
        advance(&mut plant, &cooling_to_f(60.0), 60.0).expect("finite");
        advance(&mut left_alone, &cooling_to_f(60.0), 60.0).expect("finite");
        let now = plant.readout().airflow_m3_s / left_alone.readout().airflow_m3_s;
        assert!((now - 1.0).abs() < 1.0e-3, "{faults:?}: {now}");
    }
}

/// The metal behind the coil is cooled at each start: what the coil takes out and the house does not get is the heat of the blower
/// and what that metal has given up, 7 kJ/K on three tons. It is nine tenths of the way after some six minutes, and what is read
/// then is what the coil gives.
#[test]
fn the_air_handler_itself_is_cooled_at_a_start() {
    let mut plant = new_plant(&txv(), 95.0, 80.0, 67.0, &[]);
    let (mut given_j, mut early_j) = (0.0, 0.0);
    for second in 0..1800 {
        advance(&mut plant, &cooling_to_f(40.0), 1.0).expect("finite");
        let r = plant.readout();
        given_j += r.gross_cooling_w - r.blower_power_w - r.net_cooling_w;
        if second == 360 {
            early_j = given_j;
        }
    }
    let r = plant.readout();
    let blown_k = r.return_dry_bulb_k - r.supply_dry_bulb_k;
    approx::assert_relative_eq!(given_j, 7000.0 * blown_k, max_relative = 0.02);
    assert!((0.8..0.97).contains(&(early_j / given_j)), "{early_j} of {given_j} J");
    approx::assert_relative_eq!(r.net_cooling_w, r.gross_cooling_w - r.blower_power_w, max_relative = 2e-3);
}

/// The blower runs down behind a coil whose face is shut: the last trickle of air and the draught that follows it take the heat
/// together, and neither leaves colder than the coil.
#[test]
fn a_blower_that_runs_down_blows_nothing_colder_than_the_coil() {
    for name in System::names() {
        let system = System::built_in(name).expect("built in");
        for (severity, minutes) in [(0.97, 60.0), (1.0, 5.0), (1.0, 10.0), (1.0, 60.0)] {
            let mut plant =
                new_plant(&system, 85.0, 78.0, 65.0, &[fault(FaultKind::FouledEvaporator, severity)]);
            advance(&mut plant, &cooling_to_f(50.0), 60.0 * minutes).expect("finite");
            let mut off = Inputs::default();
            off.thermostat.mode = Mode::Off;
            for quarter in 0..480 {
                plant::step(&mut plant, &off, 0.25)
                    .unwrap_or_else(|e| panic!("{name}, {severity}, {minutes} min, step {quarter}: {e}"));
                let r = plant.readout();
                assert!(
                    r.supply_dry_bulb_k > r.coil_surface_k - 0.5,
                    "{name}, {severity}, {minutes} min, step {quarter}: {} below {} K",
                    r.supply_dry_bulb_k,
                    r.coil_surface_k
                );
            }
        }
    }
}
