//! Simulated seconds per second of one plant on one core, and memory per plant.
//!
//! Run with `cargo bench -p bench`. Each row is the best and the median of seven runs of a simulated day, by the time on a
//! core (on the wall where the system does not tell).

use std::time::Instant;

use bench::{house_plant, on_core_s};
use plant::{Inputs, Plant, advance};

fn measure(what: &str, make: impl Fn() -> (Plant, Inputs)) {
    const DAY_S: f64 = 86_400.0;
    let mut speeds: Vec<f64> = (0..7)
        .map(|_| {
            let (mut plant, inputs) = make();
            let (start, on_core_before_s) = (Instant::now(), on_core_s());
            advance(&mut plant, &inputs, DAY_S).expect("a finite plant");
            let wall_s = start.elapsed().as_secs_f64();
            DAY_S / on_core_before_s.zip(on_core_s()).map_or(wall_s, |(before_s, after_s)| after_s - before_s)
        })
        .collect();
    speeds.sort_by(f64::total_cmp);
    println!("{what:44} best {:>9.0}  median {:>9.0} simulated seconds per second", speeds[6], speeds[3]);
}

fn main() {
    measure("valve, healthy, cycling on the thermostat", || house_plant("split-3-ton-r410a-txv", 0.0));
    measure("valve, filter 0.90, freezing to a block", || house_plant("split-3-ton-r410a-txv", 0.90));
    measure("orifice, healthy, cycling on the thermostat", || house_plant("split-3-ton-r410a-orifice", 0.0));
    measure("valve, running without a stop", || {
        let (plant, mut inputs) = house_plant("split-3-ton-r410a-txv", 0.0);
        inputs.thermostat.set_point_k = 250.0;
        (plant, inputs)
    });
    println!("memory of one plant: {} bytes on the stack, plus its list of faults", size_of::<Plant>());
}
