//! Every conversion is undone by its twin, and one value of each is known from its definition.

use media::units::*;
use proptest::prelude::*;

type Convert = fn(f64) -> f64;

/// Name, there, back, and one known pair (argument, result).
///
/// Known pairs: freezing and boiling point of water; NIST SP 811 (2008), appendix B, for the rest.
const TWINS: &[(&str, Convert, Convert, (f64, f64))] = &[
    ("celsius, kelvin", kelvin_from_celsius, celsius_from_kelvin, (0.0, 273.15)),
    ("celsius, fahrenheit", fahrenheit_from_celsius, celsius_from_fahrenheit, (100.0, 212.0)),
    ("kelvin, fahrenheit", fahrenheit_from_kelvin, kelvin_from_fahrenheit, (273.15, 32.0)),
    (
        "difference",
        fahrenheit_difference_from_kelvin_difference,
        kelvin_difference_from_fahrenheit_difference,
        (10.0, 18.0),
    ),
    ("psi", pa_from_psi, psi_from_pa, (1.0, 6_894.757)),
    ("inch of water", pa_from_inches_of_water, inches_of_water_from_pa, (1.0, 249.0889)),
    ("inch of mercury", pa_from_inches_of_mercury, inches_of_mercury_from_pa, (1.0, 3_386.389)),
    ("micron", pa_from_micron, micron_from_pa, (1_000.0, 133.3224)),
    ("cfm", m3_s_from_cfm, cfm_from_m3_s, (1.0, 4.719_474e-4)),
    ("Btu/h", w_from_btu_h, btu_h_from_w, (1.0, 0.293_071_1)),
    ("ton", w_from_tons_of_refrigeration, tons_of_refrigeration_from_w, (1.0, 3_516.853)),
    ("lb", kg_from_lb, lb_from_kg, (1.0, 0.453_592_37)),
    ("oz", kg_from_oz, oz_from_kg, (1.0, 0.028_349_52)),
    ("ft", m_from_ft, ft_from_m, (1.0, 0.304_8)),
    ("inch", m_from_inches, inches_from_m, (1.0, 0.025_4)),
];

#[test]
fn known_values() {
    for (name, there, back, (argument, result)) in TWINS {
        assert!((there(*argument) / result - 1.0).abs() < 2e-7, "{name}: {}", there(*argument));
        assert!(
            (back(*result) - argument).abs() < 3e-7 * argument.abs().max(1.0),
            "{name}: {}",
            back(*result)
        );
    }
}

#[test]
fn gauge_pressure_counts_from_its_atmosphere() {
    // 14.696 psi is the standard atmosphere (NIST SP 811); a mile up it is less and the gauge shows more.
    assert!((psig_from_pa(STANDARD_ATMOSPHERE_PA, STANDARD_ATMOSPHERE_PA)).abs() < 1e-12);
    assert!((psi_from_pa(STANDARD_ATMOSPHERE_PA) - 14.696).abs() < 1e-4);
    assert!(psig_from_pa(500e3, 83e3) > psig_from_pa(500e3, STANDARD_ATMOSPHERE_PA));
    assert!(psig_from_pa(50e3, STANDARD_ATMOSPHERE_PA) < 0.0);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn there_and_back(value in -1e7..1e7_f64) {
        for (name, there, back, _) in TWINS {
            let tolerance = 1e-12 * value.abs() + 1e-12 * 1e3;
            prop_assert!((back(there(value)) - value).abs() < tolerance, "{name}: {value}");
            prop_assert!((there(back(value)) - value).abs() < tolerance, "{name}: {value}");
        }
    }

    #[test]
    fn gauge_there_and_back(pressure_pa in 0.0..1e7_f64, atmosphere_pa in 6e4..1.1e5_f64) {
        let psig = psig_from_pa(pressure_pa, atmosphere_pa);
        prop_assert!((pa_from_psig(psig, atmosphere_pa) - pressure_pa).abs() < 1e-7);
        let gauge_pa = gauge_pa_from_absolute_pa(pressure_pa, atmosphere_pa);
        prop_assert!((absolute_pa_from_gauge_pa(gauge_pa, atmosphere_pa) - pressure_pa).abs() < 1e-7);
    }
}
