//! An electronically commutated blower.

use super::data::Ecm;
use crate::air::{AirPath, Passages, air_path, speed_at};
use crate::system::AirSide;

/// Where an electronically commutated blower settles: it turns as fast as its target airflow asks for, up to its fastest
/// speed and its largest power, then airflow collapses as with any wheel at a fixed speed. `ramp` is how far its
/// start has come, 0 to 1; `target_share` the airflow it is set to over the right one.
pub(crate) fn ecm_path(
    data: &AirSide,
    ecm: &Ecm,
    ramp: f64,
    target_share: f64,
    passages: &Passages,
) -> AirPath {
    if ramp < 1.0e-3 {
        return AirPath::default();
    }
    let target_m3_s = ecm.target_flow_m3_s * target_share * ramp;
    let fits = |path: &AirPath| path.flow_m3_s <= target_m3_s && path.blower_power_w <= ecm.power_max_w;
    let fastest = air_path(data, ecm.speed_max, passages);
    if fits(&fastest) {
        return fastest;
    }
    // The flow that it is set to, unless that takes too much.
    let at_target = air_path(data, speed_at(data, target_m3_s, passages).min(ecm.speed_max), passages);
    if at_target.blower_power_w <= ecm.power_max_w {
        return at_target;
    }
    let (mut low, mut high) = (0.0, ecm.speed_max);
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if fits(&air_path(data, middle, passages)) { low = middle } else { high = middle }
    }
    air_path(data, low, passages)
}
