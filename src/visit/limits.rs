//! Bounds of what things on a site can do, used by the site's rules and by moves files alike.

use media::units::STANDARD_ATMOSPHERE_PA as ATMOSPHERE_PA;
use quantity::Bounds;

/// Coldest set point of the thermostat on the wall, K: 50 °F.
pub(crate) const SET_POINT_MIN_K: f64 = 283.15;
/// Warmest set point, K: 90 °F.
pub(crate) const SET_POINT_MAX_K: f64 = 305.372_222_222_222_2;
/// What a full cylinder of refrigerant holds, kg: 25 lb.
pub(crate) const CYLINDER_KG: f64 = 11.339_809_25;
/// Least that a charging scale tells from nothing, kg: its accuracy (typ. of its class).
pub(crate) const SCALE_TELLS_KG: f64 = 0.005;
/// Longest single wait, s: 12 h.
pub(crate) const WAIT_LIMIT_S: f64 = 12.0 * 3600.0;
/// Rounding that a conversion of units may bring to a temperature, K.
const ROUNDING_K: f64 = 1.0e-6;

/// What the thermostat can be set to, K.
pub(crate) const SET_POINT_K: Bounds = Bounds::new(SET_POINT_MIN_K, SET_POINT_MAX_K);
/// Single waits: more than nothing, s.
pub(crate) const WAIT_S: Bounds = Bounds::new(0.0, WAIT_LIMIT_S);
/// Pressures of nitrogen: more than that of the atmosphere, Pa absolute.
pub(crate) const TEST_PRESSURE_PA: Bounds = Bounds::new(ATMOSPHERE_PA, ATMOSPHERE_PA + REGULATOR_PA);
/// To what refrigerant is recovered, Pa absolute: 28 inHg and 0 inHg below the atmosphere.
pub(crate) const RECOVERY_PA: Bounds = Bounds::new(6_506.0, ATMOSPHERE_PA);
/// To what the circuit is evacuated, Pa absolute.
pub(crate) const VACUUM_PA: Bounds = Bounds::new(DEEPEST_PA, ATMOSPHERE_PA);
/// Superheat or subcooling to which a charge is adjusted, K.
pub(crate) const CHARGE_TARGET_K: Bounds = Bounds::new(0.5, 40.0);

/// Whether the thermostat can be set to so much.
pub(crate) fn is_set_point(set_point_k: f64) -> bool {
    (SET_POINT_MIN_K - ROUNDING_K..=SET_POINT_MAX_K + ROUNDING_K).contains(&set_point_k)
}

/// Whether so much can be weighed out of a cylinder or into one.
pub(crate) fn is_cylinder_mass(mass_kg: f64) -> bool {
    scale_tells(mass_kg) && mass_kg <= CYLINDER_KG
}

/// Whether a charging scale tells so much from nothing, kg.
pub fn scale_tells(mass_kg: f64) -> bool {
    mass_kg >= SCALE_TELLS_KG
}

/// Whether so long a wait can be made at once.
pub(crate) fn is_wait(seconds: f64) -> bool {
    seconds > 0.0 && seconds <= WAIT_LIMIT_S
}

/// Highest pressure that the nitrogen regulator can be set to, Pa gauge: 650 psi (typ.).
const REGULATOR_PA: f64 = 4.5e6;
/// Deepest vacuum that anything on the site can be asked for, Pa.
const DEEPEST_PA: f64 = 3.0;

/// Whether the regulator can be set to so much.
pub(crate) fn is_test_pressure(gauge_pa: f64) -> bool {
    gauge_pa > 0.0 && gauge_pa <= REGULATOR_PA
}

/// Whether a recovery can be asked to go so deep: to atmospheric pressure and below.
pub(crate) fn is_recovery_depth(absolute_pa: f64) -> bool {
    (5.0e3..=ATMOSPHERE_PA + 1.0).contains(&absolute_pa)
}

/// Whether a pump can be asked for such a vacuum.
pub(crate) fn is_vacuum(absolute_pa: f64) -> bool {
    (DEEPEST_PA..ATMOSPHERE_PA).contains(&absolute_pa)
}

/// Whether a charge can be adjusted to so much superheat or subcooling, K.
pub(crate) fn is_charge_target(difference_k: f64) -> bool {
    (CHARGE_TARGET_K.low..=CHARGE_TARGET_K.high).contains(&difference_k)
}
