//! Sixty-four different plants side by side on two threads: systems, pairs of faults, weather and set points differ.
//!
//! Run with `cargo bench -p bench --bench fleet`. A thread steps its plants in turn, a minute each. Beside the time on the
//! wall stands the time that each thread was on a core (Linux: /proc/thread-self/schedstat), which other programs on the
//! machine change little. `-- one` runs one thread without a report, for a profile.

use std::fs;
use std::time::Instant;

use bench::on_core_s;
use bench::pairs::every_pair;
use media::units::{kelvin_from_celsius, kelvin_from_fahrenheit};
use plant::{Fault, HouseModel, Inputs, Plant, Room, System, Weather, advance};

const PLANTS: usize = 64;
const THREADS: usize = 2;
/// Plant time of a run, s.
const RUN_S: f64 = 3600.0;
/// Plant time of a turn, s.
const TURN_S: f64 = 60.0;
/// Runs, of which the best and the median are printed.
const RUNS: usize = 3;

fn plant(index: usize) -> (Plant, Inputs) {
    let names = System::names();
    let system = System::built_in(names[index % names.len()]).expect("a built-in system");
    let pairs = every_pair();
    let (first, second) = pairs[index * 379 % pairs.len()];
    let faults = [first, second].map(|suspect| Fault {
        kind: suspect.kind,
        place: suspect.place,
        severity: 0.2 + 0.6 * (index % 7) as f64 / 6.0,
        onset_s: 0.0,
    });
    let air_k = kelvin_from_celsius(22.0 + (index % 5) as f64);
    let room =
        Room::House { model: HouseModel::default(), air_k, structure_k: air_k, humidity_ratio: 0.0095 };
    let weather = Weather {
        mean_k: kelvin_from_fahrenheit(74.0 + (index % 9) as f64 * 2.0),
        swing_k: 6.0,
        dew_point_k: kelvin_from_fahrenheit(60.0),
        start_hour: (index % 24) as f64,
        solar_peak_w_m2: 700.0,
    };
    let mut inputs = Inputs::default();
    inputs.thermostat.set_point_k = kelvin_from_fahrenheit(68.0 + (index % 4) as f64 * 2.0);
    (Plant::new(&system, room, weather, system.plate_charge_kg, &faults), inputs)
}

/// Steps plants in turn; returns the time on the wall and on a core, s.
fn drive(plants: &mut [(Plant, Inputs)]) -> (f64, Option<f64>) {
    let (begun, on_core_before_s) = (Instant::now(), on_core_s());
    let mut passed_s = 0.0;
    while passed_s < RUN_S {
        for (plant, inputs) in plants.iter_mut() {
            advance(plant, inputs, TURN_S).expect("a finite plant");
        }
        passed_s += TURN_S;
    }
    let on_core_s = on_core_before_s.and_then(|before_s| on_core_s().map(|after_s| after_s - before_s));
    (begun.elapsed().as_secs_f64(), on_core_s)
}

/// Resident memory of this process, bytes.
fn resident_bytes() -> Option<f64> {
    let text = fs::read_to_string("/proc/self/status").ok()?;
    let line = text.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse::<f64>().ok().map(|kilobytes| kilobytes * 1024.0)
}

fn memory() {
    const COPIES: usize = 200;
    let models: Vec<(Plant, Inputs)> = (0..PLANTS).map(plant).collect();
    let before = resident_bytes();
    let copies: Vec<Vec<(Plant, Inputs)>> = (0..COPIES).map(|_| models.clone()).collect();
    let after = resident_bytes();
    let count = copies.iter().map(Vec::len).sum::<usize>() as f64;
    print!("memory: {} bytes of a plant itself", size_of::<Plant>());
    match before.zip(after) {
        Some((before, after)) => {
            println!(
                "; {:.0} bytes resident for each of {count} with lists and inputs",
                (after - before) / count
            );
        }
        None => println!("; this system does not tell what is resident"),
    }
}

fn main() {
    if std::env::args().any(|argument| argument == "one") {
        let mut plants: Vec<_> = (0..PLANTS).map(plant).collect();
        drive(&mut plants);
        return;
    }
    memory();
    let mut runs: Vec<(f64, f64, Vec<f64>)> = (0..RUNS)
        .map(|_| {
            let mut plants: Vec<_> = (0..PLANTS).map(plant).collect();
            let begun = Instant::now();
            let times: Vec<(f64, Option<f64>)> = std::thread::scope(|scope| {
                let workers: Vec<_> = plants
                    .chunks_mut(PLANTS / THREADS)
                    .map(|share| scope.spawn(move || drive(share)))
                    .collect();
                workers.into_iter().map(|worker| worker.join().expect("a finite plant")).collect()
            });
            let all_s = RUN_S * PLANTS as f64;
            let each_s = RUN_S * (PLANTS / THREADS) as f64;
            let on_core: Vec<f64> =
                times.iter().map(|(wall_s, core_s)| each_s / core_s.unwrap_or(*wall_s)).collect();
            (all_s / begun.elapsed().as_secs_f64(), on_core.iter().sum::<f64>(), on_core)
        })
        .collect();
    runs.sort_by(|a, b| a.1.total_cmp(&b.1));
    for (what, run) in [("best", &runs[RUNS - 1]), ("median", &runs[RUNS / 2])] {
        let each: Vec<String> = run.2.iter().map(|speed| format!("{speed:.0}")).collect();
        println!(
            "{PLANTS} plants on {THREADS} threads, {what:6}: {:.0} simulated seconds per second of the wall; by time on the \
             cores {:.0} ({} for each thread)",
            run.0,
            run.1,
            each.join(" and ")
        );
    }
}
