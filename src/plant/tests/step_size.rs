//! Where the plant settles does not depend on the time step: half a second finds what an eighth of a second finds.
//!
//! A bound by what a step may move that acts in steady running, a search that hunts around its root from step to step, or a
//! term with the step in its fixed point would show here. Left out are machines that a pressure switch stops every few
//! seconds: where in a spell the sample falls is then another for every step.

mod common;

use common::{cooling_to_f, fault, new_plant};
use plant::{FaultKind, System, step};

/// Systems of every refrigerant, metering device, size and generation.
const SYSTEMS: [&str; 12] = [
    "split-3-ton-r410a-txv",
    "split-3-ton-r410a-orifice",
    "split-3-ton-r410a-txv-small-condenser",
    "split-3-ton-r454b-txv",
    "split-3-ton-r32-txv-ecm",
    "split-2-ton-r410a-orifice",
    "split-2-ton-r32-txv",
    "split-3-ton-r22-orifice",
    "split-2-ton-r454b-txv-ecm-high-efficiency",
    "split-3-ton-r410a-txv-ecm-high-efficiency",
    "split-3-ton-r410a-orifice-high-efficiency",
    "split-5-ton-r410a-txv-ecm-high-efficiency",
];

const FAULTS: [(FaultKind, f64); 6] = [
    (FaultKind::Undercharged, 0.2),
    (FaultKind::Undercharged, 0.4),
    (FaultKind::RefrigerantLeak, 0.7),
    (FaultKind::PluggedDrier, 0.85),
    (FaultKind::LoadedFilter, 0.6),
    (FaultKind::FouledCondenser, 0.5),
];

/// An hour and a half at rating point A, so that the oil has given off what a start left in it: how a start goes does depend on
/// the step. Means of the last ten minutes: liquid pressure, Pa, and discharge line, K.
fn means(system: &System, (kind, severity): (FaultKind, f64), dt_s: f64) -> [f64; 2] {
    let mut plant = new_plant(system, 95.0, 80.0, 67.0, &[fault(kind, severity)]);
    let inputs = cooling_to_f(40.0);
    let mut sums = [0.0; 2];
    for second in 0..5400 {
        for _ in 0..(1.0 / dt_s) as u32 {
            step(&mut plant, &inputs, dt_s).expect("finite");
        }
        if second >= 4800 {
            let r = plant.readout();
            sums[0] += r.liquid_pressure_pa / 600.0;
            sums[1] += r.discharge_k / 600.0;
        }
    }
    sums
}

#[test]
fn half_a_second_settles_where_an_eighth_of_a_second_settles() {
    let checked = |name: &str| -> Vec<String> {
        let system = System::built_in(name).expect("built in");
        let off = |at: (FaultKind, f64)| {
            let (coarse, fine) = (means(&system, at, 0.5), means(&system, at, 0.125));
            let [liquid_pa, discharge_k] = [coarse[0] - fine[0], coarse[1] - fine[1]];
            (liquid_pa.abs() > 1.0e3 || discharge_k.abs() > 0.1)
                .then(|| format!("{name} {at:?}: liquid {liquid_pa:.0} Pa, discharge {discharge_k:.2} K"))
        };
        FAULTS.into_iter().filter_map(off).collect()
    };
    let off: Vec<String> = std::thread::scope(|scope| {
        let halves = [&SYSTEMS[..6], &SYSTEMS[6..]];
        let threads = halves.map(|names| {
            scope.spawn(move || names.iter().flat_map(|name| checked(name)).collect::<Vec<String>>())
        });
        threads.into_iter().flat_map(|thread| thread.join().expect("no panic")).collect()
    });
    assert!(off.is_empty(), "{}", off.join("\n"));
}
