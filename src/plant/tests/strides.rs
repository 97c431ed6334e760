//! Long strides do what ordinary steps do: they settle where those settle, every event falls on an ordinary step, and what is conserved is
//! conserved.

mod common;

use common::{cooling_to_f, fault, humidity_ratio_f, new_plant};
use media::units::kelvin_from_fahrenheit;
use plant::{
    Fault, FaultKind, HouseModel, Inputs, Plant, PortConnection, Protection, Room, Strides, System, Weather,
    step,
};

const FAULTS: [(FaultKind, f64); 8] = [
    (FaultKind::LoadedFilter, 0.0),
    (FaultKind::Undercharged, 0.2),
    (FaultKind::Undercharged, 0.4),
    (FaultKind::RefrigerantLeak, 0.5),
    (FaultKind::PluggedDrier, 0.8),
    (FaultKind::LoadedFilter, 0.8),
    (FaultKind::FouledCondenser, 0.6),
    (FaultKind::BulbLoose, 0.5),
];

/// Means over the last of some hours: liquid and suction pressure, Pa, discharge line, superheat and supply air, K.
#[derive(Clone, Copy, Debug, Default)]
struct Means([f64; 5]);

impl Means {
    fn add(&mut self, plant: &Plant, share: f64) {
        let r = plant.readout();
        let now =
            [r.liquid_pressure_pa, r.suction_pressure_pa, r.discharge_k, r.superheat_k, r.supply_dry_bulb_k];
        for (sum, value) in self.0.iter_mut().zip(now) {
            *sum += value * share;
        }
    }
}

const RUN_S: f64 = 7200.0;
const MEAN_S: f64 = 600.0;

fn stepped(mut plant: Plant, inputs: &Inputs) -> Means {
    let mut means = Means::default();
    while plant.time_s() < RUN_S {
        step(&mut plant, inputs, 0.25).expect("finite");
        if plant.time_s() > RUN_S - MEAN_S {
            means.add(&plant, 0.25 / MEAN_S);
        }
    }
    means
}

fn strode(mut plant: Plant, inputs: &Inputs) -> Means {
    let mut means = Means::default();
    let mut strides = Strides::default();
    while plant.time_s() < RUN_S {
        let begins_s = RUN_S - MEAN_S;
        let to_s = if plant.time_s() < begins_s { begins_s } else { RUN_S };
        let left_s = to_s - plant.time_s();
        let went_s = strides.go(&mut plant, inputs, left_s).expect("finite");
        if plant.time_s() > begins_s {
            means.add(&plant, went_s / MEAN_S);
        }
    }
    means
}

/// Two hours at rating point A. Real visits go by a quarter of a second, and readings are taken of them.
#[test]
fn strides_settle_where_steps_settle() {
    let checked = |name: &str| -> Vec<String> {
        let system = System::built_in(name).expect("built in");
        let inputs = cooling_to_f(40.0);
        let off = |(kind, severity): (FaultKind, f64)| {
            let plant = new_plant(&system, 95.0, 80.0, 67.0, &[fault(kind, severity)]);
            let (strode, stepped) = (strode(plant.clone(), &inputs), stepped(plant, &inputs));
            let off = [0, 1, 2, 3, 4].map(|at| strode.0[at] - stepped.0[at]);
            // A plant that leaks never settles: within ten minutes its readings go further than the bounds.
            let wider = if kind == FaultKind::RefrigerantLeak { 2.0 } else { 1.0 };
            let bounds = [1000.0, 500.0, 0.1, 0.1, 0.1].map(|bound| wider * bound);
            let is_off = off.iter().zip(bounds).any(|(off, bound)| off.abs() > bound);
            is_off.then(|| format!("{name} {kind:?} {severity}: {off:.2?}"))
        };
        FAULTS.into_iter().filter_map(off).collect()
    };
    let names = System::names();
    let off: Vec<String> = std::thread::scope(|scope| {
        let threads = [0, 1].map(|first| {
            let names = names.into_iter().skip(first).step_by(2);
            scope.spawn(move || names.flat_map(checked).collect::<Vec<String>>())
        });
        threads.into_iter().flat_map(|thread| thread.join().expect("no panic")).collect()
    });
    assert!(off.is_empty(), "{}", off.join("\n"));
}

fn in_a_house(name: &str, faults: &[Fault]) -> Plant {
    let system = System::built_in(name).expect("built in");
    let room = Room::House {
        model: HouseModel::default(),
        air_k: kelvin_from_fahrenheit(82.0),
        structure_k: kelvin_from_fahrenheit(80.0),
        humidity_ratio: humidity_ratio_f(80.0, 67.0),
    };
    let weather = Weather {
        mean_k: kelvin_from_fahrenheit(85.0),
        swing_k: 6.0,
        dew_point_k: kelvin_from_fahrenheit(65.0),
        start_hour: 9.0,
        solar_peak_w_m2: 700.0,
    };
    Plant::new(&system, room, weather, system.plate_charge_kg, faults)
}

/// What is switched: thermostat, compressor, protections.
fn switches(plant: &Plant) -> Vec<bool> {
    let protections = Protection::ALL.map(|protection| plant.is_open(protection));
    [plant.thermostat_calls(), plant.compressor_runs()].into_iter().chain(protections).collect()
}

/// Machines that thermostat, pressure switches, overload and fan protectors start and stop. No switch moves in a long stride, a compressor
/// rests for no less than its timer, and strides are long all the same.
#[test]
fn every_event_falls_on_an_ordinary_step() {
    let cases: [(&str, Vec<Fault>, f64); 6] = [
        ("split-3-ton-r410a-txv", vec![], 78.0),
        ("split-3-ton-r22-orifice", vec![], 76.0),
        ("split-3-ton-r410a-orifice", vec![fault(FaultKind::MeteringRestricted, 0.9)], 70.0),
        ("split-3-ton-r410a-txv", vec![fault(FaultKind::MeteringRestricted, 0.95)], 70.0),
        ("split-3-ton-r32-txv-ecm", vec![fault(FaultKind::FouledCondenser, 0.97)], 70.0),
        ("split-2-ton-r410a-orifice", vec![fault(FaultKind::Undercharged, 0.8)], 70.0),
    ];
    let mut count = 0.0;
    for (name, faults, set_point_f) in cases {
        let mut plant = in_a_house(name, &faults);
        let inputs = cooling_to_f(set_point_f);
        let rest_s = plant.system().controls.off_time_min_s;
        let mut strides = Strides::default();
        let (mut events, mut stopped_s) = (0, None::<f64>);
        let mut before = switches(&plant);
        while plant.time_s() < 6.0 * 3600.0 {
            let left_s = 6.0 * 3600.0 - plant.time_s();
            let went_s = strides.go(&mut plant, &inputs, left_s).expect("finite");
            count += 1.0;
            let now = switches(&plant);
            if now != before {
                events += 1;
                assert!(went_s <= 0.5, "{name} {faults:?} at {}: {before:?} {now:?}", plant.time_s());
            }
            match (before[1], now[1]) {
                (true, false) => stopped_s = Some(plant.time_s()),
                (false, true) => {
                    if let Some(stopped_s) = stopped_s {
                        let rested_s = plant.time_s() - stopped_s;
                        assert!(rested_s >= rest_s - 0.5, "{name} {faults:?}: rested {rested_s} s");
                    }
                }
                _ => {}
            }
            before = now;
        }
        assert!(events >= 2, "{name} {faults:?}: {events} events");
    }
    let mean_s = 6.0 * 6.0 * 3600.0 / count;
    assert!(mean_s > 1.5, "strides of {mean_s} s");
}

/// A timer that runs out in a rest: the compressor starts on the step on which it starts when all is stepped.
#[test]
fn a_start_comes_when_its_timer_runs_out() {
    let system = System::built_in("split-3-ton-r410a-txv").expect("built in");
    let started_after_s = |strides: Option<Strides>| {
        let mut plant = new_plant(&system, 95.0, 80.0, 67.0, &[]);
        let mut inputs = cooling_to_f(70.0);
        plant::advance(&mut plant, &inputs, 900.0).expect("finite");
        inputs.thermostat = cooling_to_f(90.0).thermostat;
        plant::advance(&mut plant, &inputs, 10.0).expect("finite");
        assert!(!plant.compressor_runs());
        inputs.thermostat = cooling_to_f(70.0).thermostat;
        let from_s = plant.time_s();
        let mut strides = strides;
        while !plant.compressor_runs() && plant.time_s() < from_s + 3600.0 {
            match &mut strides {
                Some(strides) => {
                    strides.go(&mut plant, &inputs, 3600.0).expect("finite");
                }
                None => plant::advance(&mut plant, &inputs, 0.25).expect("finite"),
            }
        }
        plant.time_s() - from_s
    };
    let (strode_s, stepped_s) = (started_after_s(Some(Strides::default())), started_after_s(None));
    assert!(stepped_s > 100.0 && stepped_s < 3600.0, "{stepped_s}");
    assert!((strode_s - stepped_s).abs() <= 0.5, "{strode_s} {stepped_s}");
}

/// Mass, energy, gas and water through strides over a day's work: leak, ice, gas that does not condense, wet circuit, gauges on.
#[test]
fn ledgers_close_over_strides() {
    let cases: [Vec<Fault>; 4] = [
        vec![fault(FaultKind::RefrigerantLeak, 0.6)],
        vec![fault(FaultKind::MeteringRestricted, 0.7), fault(FaultKind::NonCondensables, 0.5)],
        vec![fault(FaultKind::LoadedFilter, 0.9)],
        vec![fault(FaultKind::SeizedBlowerMotor, 1.0)],
    ];
    for faults in cases {
        let mut plant = in_a_house("split-3-ton-r410a-txv", &faults);
        plant.wet_circuit(2.0e-3);
        let mut inputs = cooling_to_f(74.0);
        inputs.suction_port = PortConnection::Gauge;
        inputs.liquid_port = PortConnection::Gauge;
        let mut strides = Strides::default();
        while plant.time_s() < 8.0 * 3600.0 {
            strides.go(&mut plant, &inputs, 600.0).expect("finite");
        }
        assert!(strides.made().leaps > 100, "{faults:?}: {:?}", strides.made());
        let kg = plant.ledger_gap_kg();
        assert!(kg.abs() < 1.0e-10, "{faults:?}: {kg} kg");
        let moved_j = plant.energy().compressor_j.max(1.0e6);
        let j = plant.energy_gap_j();
        assert!(j.abs() < 1.0e-10 * moved_j, "{faults:?}: {j} J of {moved_j} J");
        let gas_kg = plant.gas_tally().balance_kg() - plant.air_in_circuit_kg();
        assert!(gas_kg.abs() < 1.0e-12, "{faults:?}: {gas_kg} kg of gas");
        let water = plant.coil_water();
        let water_kg = water.from_air_kg - water.ice_kg - water.held_kg - water.drained_kg;
        assert!(water_kg.abs() < 1.0e-9, "{faults:?}: {water_kg} kg of water");
    }
}

/// A plant that stands still is passed over in long strides, with its blower running or not.
#[test]
fn a_plant_that_stands_is_passed_over() {
    let system = System::built_in("split-3-ton-r410a-txv").expect("built in");
    for fan in [plant::FanSetting::Auto, plant::FanSetting::On] {
        let mut plant = new_plant(&system, 95.0, 80.0, 67.0, &[]);
        let mut inputs = cooling_to_f(90.0);
        inputs.thermostat.fan = fan;
        let mut strides = Strides::default();
        while plant.time_s() < 3.0 * 3600.0 {
            let left_s = 3.0 * 3600.0 - plant.time_s();
            strides.go(&mut plant, &inputs, left_s).expect("finite");
        }
        let mean_s = plant.time_s() / strides.made().steps as f64;
        assert!(mean_s > 4.5, "{fan:?}: {mean_s} s for a step, {:?}", strides.made());
        assert!(!plant.compressor_runs());
    }
}
