//! Seeds: same seed, same bits; every value inside its range; streams that do not disturb one another.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use call::{Call, Range, Seeded, built_in, read, seed};
use plant::Room;
use proptest::prelude::*;

fn calls() -> Vec<Call> {
    built_in().iter().map(|(id, text)| read(text, &format!("scenarios/{id}.ron")).unwrap()).collect()
}

fn house(seeded: &Seeded) -> (f64, f64, f64) {
    match seeded.room {
        Room::House { air_k, structure_k, humidity_ratio, .. } => (air_k, structure_k, humidity_ratio),
        Room::Held { .. } => panic!("a call has a house"),
    }
}

fn share(value: f64, range: Range) -> f64 {
    (value - range.low) / (range.high - range.low)
}

/// Where the values of one seed lie in their ranges, against a second implementation of the documented scheme
/// (ChaCha with 8 rounds and FNV-1a, written in another language for this test).
#[test]
fn values_of_one_seed() {
    let mut call = calls().remove(3);
    call.house.air_k = Range { low: 290.0, high: 300.0 };
    let seeded = seed(&call, 7);
    for (name, found, expected) in [
        ("house.air", share(house(&seeded).0, call.house.air_k), GOLDEN_AIR),
        ("weather.mean", share(seeded.weather.mean_k, call.weather.mean_k), GOLDEN_MEAN),
        (
            "charge_share",
            share(seeded.charge_kg / call.system.plate_charge_kg, call.charge_share),
            GOLDEN_CHARGE,
        ),
        ("severity", share(seeded.faults[0].severity, call.faults[0].severity), GOLDEN_SEVERITY),
    ] {
        assert!((found - expected).abs() < 1.0e-10, "{name}: {found} against {expected}");
    }
}

const GOLDEN_AIR: f64 = 0.338_103_451_582_985_7;
const GOLDEN_MEAN: f64 = 0.712_776_428_998_690_5;
const GOLDEN_CHARGE: f64 = 0.827_540_391_274_926_4;
const GOLDEN_SEVERITY: f64 = 0.162_939_025_170_709_46;

#[test]
fn seeds_differ_and_spread() {
    let call = calls().remove(0);
    let shares: Vec<f64> =
        (0..400).map(|n| share(seed(&call, n).faults[0].severity, call.faults[0].severity)).collect();
    let mean = shares.iter().sum::<f64>() / 400.0;
    // The mean of 400 uniform numbers has a standard deviation of 0.0144: four of them either side.
    assert!((mean - 0.5).abs() < 0.058, "mean {mean}");
    for tenth in 0..10 {
        let low = f64::from(tenth) / 10.0;
        assert!(shares.iter().any(|share| (low..low + 0.1).contains(share)), "nothing from {low}");
    }
}

#[test]
fn one_more_fault_leaves_the_other_values_as_they_were() {
    let call = calls().remove(0);
    let other = calls().remove(3);
    let mut more = call.clone();
    more.faults.insert(0, other.faults[0].clone());
    let (alone, both) = (seed(&call, 11), seed(&more, 11));
    assert_eq!(alone.faults[0], both.faults[1]);
    assert_eq!((alone.room, alone.weather, alone.charge_kg), (both.room, both.weather, both.charge_kg));
}

#[test]
fn each_place_of_a_leak_is_drawn() {
    let mut call = calls().remove(3);
    call.faults[0].places = plant::LeakPlace::ALL.to_vec();
    for place in plant::LeakPlace::ALL {
        assert!((0..60).any(|n| seed(&call, n).faults[0].place == Some(place)), "{place:?} never drawn");
    }
}

fn within(value: f64, range: Range) -> bool {
    (range.low..=range.high).contains(&value)
}

fn assert_in_range(call: &Call, seeded: &Seeded) {
    let (air_k, structure_k, humidity_ratio) = house(seeded);
    assert!(within(air_k, call.house.air_k));
    assert_eq!(air_k, structure_k);
    let relative_humidity = media::moist_air::relative_humidity(
        media::units::celsius_from_kelvin(air_k),
        humidity_ratio,
        media::units::STANDARD_ATMOSPHERE_PA,
    );
    let allowed = call.house.relative_humidity;
    assert!(within(relative_humidity, Range { low: allowed.low - 1.0e-9, high: allowed.high + 1.0e-9 }));
    assert!(within(seeded.weather.mean_k, call.weather.mean_k));
    let charge_share = seeded.charge_kg / call.system.plate_charge_kg;
    let allowed = call.charge_share;
    assert!(within(charge_share, Range { low: allowed.low - 1.0e-12, high: allowed.high + 1.0e-12 }));
    assert_eq!(seeded.faults.len(), call.faults.len());
    for (fault, spec) in seeded.faults.iter().zip(&call.faults) {
        assert_eq!(fault.kind, spec.kind);
        assert!(within(fault.severity, spec.severity));
        assert!(within(fault.onset_s, spec.onset_s));
        match fault.place {
            Some(place) => assert!(spec.places.contains(&place)),
            None => assert!(spec.places.is_empty()),
        }
    }
}

#[test]
fn two_hundred_seeds_of_each_call_stay_in_range() {
    for call in calls() {
        for n in 0..200 {
            assert_in_range(&call, &seed(&call, n));
        }
    }
}

proptest! {
    #[test]
    fn any_seed_stays_in_range_and_repeats(n in any::<u64>(), index in 0_usize..4) {
        let call = &calls()[index];
        let seeded = seed(call, n);
        assert_in_range(call, &seeded);
        prop_assert_eq!(&seeded, &seed(call, n));
    }

    #[test]
    fn any_range_is_respected(n in any::<u64>(), low in -1.0e3_f64..1.0e3, width in 0.0_f64..1.0e3) {
        let mut call = calls().remove(1);
        call.weather.mean_k = Range { low, high: low + width };
        prop_assert!(within(seed(&call, n).weather.mean_k, call.weather.mean_k));
    }
}
