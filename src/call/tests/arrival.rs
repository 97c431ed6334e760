//! What the technician finds: ice where the complaint speaks of it, and none on a sound plant in the same house.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use call::{Call, Seeded, built_in, read, seed};
use plant::{Fault, Inputs, Plant, Readout, advance};

fn arrive(call: &Call, seeded: &Seeded, faults: &[Fault], charge_kg: f64) -> Readout {
    let mut plant = Plant::new(&call.system, seeded.room.clone(), seeded.weather.clone(), charge_kg, faults);
    let inputs = Inputs { thermostat: call.thermostat.clone(), ..Inputs::default() };
    advance(&mut plant, &inputs, call.history_s).unwrap();
    plant.readout().clone()
}

/// The mildest and the worst variant of a call in the house and weather of one seed.
fn extremes(call: &Call, seeded: &Seeded) -> [(Vec<Fault>, f64); 2] {
    let plate_kg = call.system.plate_charge_kg;
    let with = |severity: fn(&call::Range) -> f64, charge_share: f64| {
        let faults = seeded.faults.iter().zip(&call.faults);
        let faults = faults
            .map(|(fault, spec)| Fault { severity: severity(&spec.severity), ..fault.clone() })
            .collect();
        (faults, charge_share * plate_kg)
    };
    [with(|range| range.low, call.charge_share.high), with(|range| range.high, call.charge_share.low)]
}

#[test]
fn ice_is_there_on_arrival_in_every_variant_and_only_because_of_the_fault() {
    for (id, text) in built_in() {
        let call = read(text, &format!("scenarios/{id}.ron")).unwrap();
        for n in [1, 2] {
            let seeded = seed(&call, n);
            let sound = arrive(&call, &seeded, &[], call.system.plate_charge_kg);
            assert!(sound.frost_mass_kg < 0.01, "{id}, seed {n}, sound: {} kg of ice", sound.frost_mass_kg);
            for (faults, charge_kg) in extremes(&call, &seeded) {
                let found = arrive(&call, &seeded, &faults, charge_kg);
                let severity = faults[0].severity;
                assert!(
                    found.frost_mass_kg > 0.4,
                    "{id}, seed {n}, severity {severity}: only {} kg of ice",
                    found.frost_mass_kg
                );
                // It runs and does not get there.
                assert!(found.compressor_speed > 0.9, "{id}, seed {n}, severity {severity}: it stands");
                assert!(found.room_k > call.thermostat.set_point_k, "{id}, seed {n}, severity {severity}");
            }
        }
    }
}
