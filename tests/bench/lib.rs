//! Benchmarks that anyone can run: `cargo bench -p bench`. No test depends on a time measured here.
//! Beside them [`pairs`]: any number of made-up visits, held to the laws after every move; [`sense`]: every fault on every
//! system, held to what real equipment shows; [`digests`]: random visits that come to the same in whatever manner they are made; and
//! [`mutations`]: files that are nearly right, read by their readers.
#![cfg_attr(test, allow(clippy::unwrap_used, reason = "a test that meets an error has failed"))]

pub mod digests;
pub mod mutations;
pub mod pairs;
pub mod sense;

use media::units::{kelvin_from_celsius, kelvin_from_fahrenheit};
use plant::{Fault, FaultKind, HouseModel, Inputs, Plant, Room, System, Weather};

/// A house on a summer's day with a loaded filter and a small leak: cycling, running, freezing and thawing all occur.
#[must_use]
pub fn house_plant(system_name: &str, filter_loading: f64) -> (Plant, Inputs) {
    let system = System::built_in(system_name).expect("a built-in system");
    let air_k = kelvin_from_celsius(23.0);
    let room = Room::House { model: HouseModel::default(), air_k, structure_k: air_k, humidity_ratio: 0.009 };
    let weather = Weather {
        mean_k: kelvin_from_fahrenheit(80.0),
        swing_k: 6.0,
        dew_point_k: kelvin_from_fahrenheit(62.0),
        start_hour: 8.0,
        solar_peak_w_m2: 700.0,
    };
    let faults =
        [Fault { kind: FaultKind::LoadedFilter, place: None, severity: filter_loading, onset_s: 0.0 }];
    let plant = Plant::new(&system, room, weather, system.plate_charge_kg, &faults);
    let mut inputs = Inputs::default();
    inputs.thermostat.set_point_k = kelvin_from_fahrenheit(70.0);
    (plant, inputs)
}

/// Time that the calling thread was on a core, s; `None` where the system does not tell. Other programs on the machine change
/// it little.
#[must_use]
pub fn on_core_s() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    text.split_whitespace().next()?.parse::<f64>().ok().map(|nanoseconds| nanoseconds * 1.0e-9)
}
