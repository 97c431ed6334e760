//! Tells when the plant has settled.

use crate::state::{Plant, SteadyWatch};

/// Samples the readout, a second old at most, and closes a mean each minute.
pub(crate) fn watch_step(plant: &mut Plant) {
    if !plant.compressor_runs() {
        plant.watch = SteadyWatch::default();
        return;
    }
    let r = &plant.readout;
    let sample = [
        r.suction_pressure_pa,
        r.liquid_pressure_pa,
        r.suction_line_outdoor_k,
        r.liquid_service_valve_k,
        r.supply_dry_bulb_k,
    ];
    let w = &mut plant.watch;
    for (sum, value) in w.sums.iter_mut().zip(sample) {
        *sum += value;
    }
    w.count += 1.0;
    if w.count < 60.0 {
        return;
    }
    let means = w.sums.map(|sum| sum / w.count);
    let bands = [0.01 * w.means[0], 0.01 * w.means[1], 0.5, 0.5, 0.3];
    let agrees = (0..5).all(|i| (means[i] - w.means[i]).abs() <= bands[i]);
    *w = SteadyWatch { sums: [0.0; 5], count: 0.0, means, agreeing: if agrees { w.agreeing + 1 } else { 0 } };
}
