//! What must hold for any moist air: inverses undo each other, and the order of dew point, wet bulb and dry bulb.

use media::moist_air::*;
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn inverses_undo_each_other(t_c in -40.0..70.0_f64, rh in 0.01..1.0_f64, p_pa in 60e3..110e3_f64) {
        let w = humidity_ratio_from_relative_humidity(t_c, rh, p_pa);
        prop_assert!((relative_humidity(t_c, w, p_pa) - rh).abs() < 1e-12);
        prop_assert!((saturation_humidity_ratio(dew_point_c(w, p_pa), p_pa) / w - 1.0).abs() < 1e-6
            || dew_point_c(w, p_pa).abs() < 0.02);
        prop_assert!((temperature_from_enthalpy_c(enthalpy_j_kg(t_c, w), w) - t_c).abs() < 1e-9);
        let wet_c = wet_bulb_c(t_c, w, p_pa);
        prop_assert!((humidity_ratio_from_wet_bulb(t_c, wet_c, p_pa) - w).abs() < 1e-9, "wet bulb {wet_c}");
    }

    #[test]
    fn dew_point_wet_bulb_dry_bulb_stand_in_order(t_c in -40.0..70.0_f64, rh in 0.0..1.0_f64, p_pa in 60e3..110e3_f64) {
        let w = humidity_ratio_from_relative_humidity(t_c, rh, p_pa);
        let (dew_c, wet_c) = (dew_point_c(w, p_pa), wet_bulb_c(t_c, w, p_pa));
        // Saturation changes from ice to liquid at 0.01 °C, the wick at 0 °C, so there the order may slip a little.
        prop_assert!(dew_c <= wet_c + 0.03 && wet_c <= t_c + 1e-9, "{dew_c} {wet_c} {t_c}");
    }

    #[test]
    fn more_water_raises_what_it_should(t_c in -30.0..60.0_f64, rh in 0.02..0.9_f64, more in 0.001..0.09_f64) {
        let p_pa = STANDARD_PRESSURE_PA;
        let dry = humidity_ratio_from_relative_humidity(t_c, rh, p_pa);
        let moist = humidity_ratio_from_relative_humidity(t_c, rh + more, p_pa);
        prop_assert!(moist > dry);
        prop_assert!(dew_point_c(moist, p_pa) > dew_point_c(dry, p_pa));
        prop_assert!(enthalpy_j_kg(t_c, moist) > enthalpy_j_kg(t_c, dry));
        prop_assert!(specific_volume_m3_kg(t_c, moist, p_pa) > specific_volume_m3_kg(t_c, dry, p_pa));
        prop_assert!(density_kg_m3(t_c, moist, p_pa) < density_kg_m3(t_c, dry, p_pa));
        prop_assert!(wet_bulb_c(t_c, moist, p_pa) > wet_bulb_c(t_c, dry, p_pa));
    }

    #[test]
    fn nothing_is_non_finite(t_c in -100.0..200.0_f64, w in 0.0..0.5_f64, p_pa in 50e3..120e3_f64) {
        for number in [
            saturation_pressure_pa(t_c), relative_humidity(t_c, w, p_pa), dew_point_c(w, p_pa),
            enthalpy_j_kg(t_c, w), temperature_from_enthalpy_c(1e3 * t_c, w), specific_volume_m3_kg(t_c, w, p_pa),
            density_kg_m3(t_c, w, p_pa), cp_j_kg_k(w),
        ] {
            prop_assert!(number.is_finite());
        }
        if t_c < 80.0 {
            prop_assert!(wet_bulb_c(t_c, w, p_pa).is_finite());
        }
    }
}

#[test]
fn dry_air_has_answers() {
    assert_eq!(dew_point_c(0.0, STANDARD_PRESSURE_PA), -100.0);
    let wet_c = wet_bulb_c(30.0, 0.0, STANDARD_PRESSURE_PA);
    assert!((0.0..30.0).contains(&wet_c), "{wet_c}");
    assert_eq!(humidity_ratio_from_wet_bulb(40.0, -20.0, STANDARD_PRESSURE_PA), 0.0);
}
