//! Seeding: closing every range of a call with one value.
//!
//! Each quantity draws from its own stream of ChaCha with 8 rounds. Key: the seed as eight bytes, lowest
//! first, then the 24 bytes [`KEY_TAIL`]. Stream: the 64-bit FNV-1a hash of the quantity's name. So a key that
//! is added to the format leaves the values of all others as they were. The first 64 bits of the stream, less
//! the lowest 11, over 2^53 give a number from 0 up to but not including 1, on every machine the same.

use crate::digest::fnv1a_64;
use media::moist_air::humidity_ratio_from_relative_humidity;
use media::units::{STANDARD_ATMOSPHERE_PA, celsius_from_kelvin};
use plant::{Fault, FaultKind, LeakPlace, Room, Weather};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};

use crate::spec::{Call, Range, Seeded};

/// Keeps these streams apart from others that may be drawn from the same seed.
const KEY_TAIL: &[u8; 24] = b"rimebench call ranges v1";

/// Closes every range of a call. The same call and seed give the same bits on every machine.
///
/// The structure of the house starts at the temperature of its air.
#[must_use]
pub fn seed(call: &Call, seed: u64) -> Seeded {
    let draw = Draw { seed };
    let (room, weather) = surroundings(
        call,
        draw.uniform("house.air", call.house.air_k),
        draw.uniform("house.relative_humidity", call.house.relative_humidity),
        draw.uniform("weather.mean", call.weather.mean_k),
    );
    let charge_share = draw.uniform("charge_share", call.charge_share);
    Seeded {
        seed,
        room,
        weather,
        charge_kg: charge_share * call.system.plate_charge_kg,
        faults: draw.faults(call),
    }
}

/// House and weather of a call as far as its file tells them, for who does not know what a seed made of it: each range
/// at a share of its width, 0 (lowest) to 1; at 0.5 its middle.
#[must_use]
pub fn surroundings_at(call: &Call, shares: SurroundingShares) -> (Room, Weather) {
    let at = |range: Range, share: f64| range.low + share * (range.high - range.low);
    surroundings(
        call,
        at(call.house.air_k, shares.house_air),
        at(call.house.relative_humidity, shares.house_humidity),
        at(call.weather.mean_k, shares.weather_mean),
    )
}

/// Where within its range of the call file each quantity of house and weather lies, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurroundingShares {
    /// Air of the house.
    pub house_air: f64,
    /// Its relative humidity.
    pub house_humidity: f64,
    /// Mean of the day outdoors.
    pub weather_mean: f64,
}

impl SurroundingShares {
    /// Everything in the middle of its range.
    pub const MIDDLE: SurroundingShares =
        SurroundingShares { house_air: 0.5, house_humidity: 0.5, weather_mean: 0.5 };
}

fn surroundings(call: &Call, air_k: f64, relative_humidity: f64, mean_k: f64) -> (Room, Weather) {
    let humidity_ratio = humidity_ratio_from_relative_humidity(
        celsius_from_kelvin(air_k),
        relative_humidity,
        STANDARD_ATMOSPHERE_PA,
    );
    let room = Room::House { model: call.house.model.clone(), air_k, structure_k: air_k, humidity_ratio };
    let weather = Weather {
        mean_k,
        swing_k: call.weather.swing_k,
        dew_point_k: call.weather.dew_point_k,
        start_hour: call.weather.start_hour,
        solar_peak_w_m2: call.weather.solar_peak_w_m2,
    };
    (room, weather)
}

struct Draw {
    seed: u64,
}

impl Draw {
    /// A number from 0 up to but not including 1.
    fn unit(&self, name: &str) -> f64 {
        let mut key = [0_u8; 32];
        key[..8].copy_from_slice(&self.seed.to_le_bytes());
        key[8..].copy_from_slice(KEY_TAIL);
        let mut stream = ChaCha8Rng::from_seed(key);
        stream.set_stream(fnv1a_64(name.as_bytes()));
        const STEPS: f64 = (1_u64 << 53) as f64;
        (stream.next_u64() >> 11) as f64 / STEPS
    }

    fn uniform(&self, name: &str, range: Range) -> f64 {
        (range.low + self.unit(name) * (range.high - range.low)).clamp(range.low, range.high)
    }

    /// Faults draw under the first name of their kind and their rank among those of the same kind.
    fn faults(&self, call: &Call) -> Vec<Fault> {
        let mut kinds: Vec<FaultKind> = Vec::new();
        let mut faults = Vec::new();
        for spec in &call.faults {
            let rank = kinds.iter().filter(|kind| **kind == spec.kind).count();
            kinds.push(spec.kind);
            let name = format!("faults.{}.{rank}", spec.kind.first_name());
            faults.push(Fault {
                kind: spec.kind,
                place: self.place(&format!("{name}.places"), &spec.places),
                severity: self.uniform(&format!("{name}.severity"), spec.severity),
                onset_s: self.uniform(&format!("{name}.onset"), spec.onset_s),
            });
        }
        faults
    }

    fn place(&self, name: &str, places: &[LeakPlace]) -> Option<LeakPlace> {
        let index = (self.unit(name) * places.len() as f64) as usize;
        places.get(index).copied()
    }
}
