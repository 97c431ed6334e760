//! What must hold for any state: finite, monotone, continuous, and every inverse undone by its forward function.

use media::refrigerant::{Phase, Refrigerant, SOFTENED_LIQUID_BULK_MODULUS_PA};
use proptest::prelude::*;

fn all() -> impl Iterator<Item = &'static Refrigerant> {
    Refrigerant::names().iter().map(|name| fluid(name))
}

fn fluid(name: &str) -> &'static Refrigerant {
    Refrigerant::by_name(name).expect("a name of the list")
}

fn name() -> impl Strategy<Value = &'static str> {
    proptest::sample::select(Refrigerant::names())
}

/// Pressures of the table, evenly in the logarithm.
fn pressure_pa(f: &Refrigerant, share: f64) -> f64 {
    let (low, high) = f.pressure_range_pa();
    low * libm::pow(high / low, share)
}

fn share() -> impl Strategy<Value = f64> {
    0.0..1.0_f64
}

/// Colder than this, liquid nears the temperature below which nothing changes any more: half the table's width under the
/// coldest liquid of the table. Lowest temperatures: `docs/properties.md`.
fn coldest_k(f: &Refrigerant, pressure_pa: f64) -> f64 {
    let lowest_k = match f.name() {
        "R-410A" => 200.0,
        "R-454B" => 160.0,
        _ => 140.0,
    };
    let bubble_k = f.bubble_k(pressure_pa);
    let tabulated_k = (bubble_k - 110.0).max(lowest_k).min(bubble_k - 15.0);
    tabulated_k - 0.4 * (bubble_k - tabulated_k)
}

/// Pressures of the table and far beyond both ends.
fn any_pressure_pa() -> impl Strategy<Value = f64> {
    (0.0..20.0_f64).prop_map(|exponent| libm::pow(10.0, exponent - 5.0))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn saturation_pressure_inverts_saturation_temperature(name in name(), at in share()) {
        let f = fluid(name);
        let p = pressure_pa(f, at);
        prop_assert!((f.dew_pressure_pa(f.dew_k(p)) / p - 1.0).abs() < 1e-9);
        prop_assert!((f.bubble_pressure_pa(f.bubble_k(p)) / p - 1.0).abs() < 1e-9);
    }

    #[test]
    fn saturation_temperature_inverts_saturation_pressure(name in name(), at in share()) {
        let f = fluid(name);
        let (low, high) = f.pressure_range_pa();
        let dew_k = f.dew_k(low) + at * (f.dew_k(high) - f.dew_k(low));
        let bubble_k = f.bubble_k(low) + at * (f.bubble_k(high) - f.bubble_k(low));
        prop_assert!((f.dew_k(f.dew_pressure_pa(dew_k)) - dew_k).abs() < 1e-8);
        prop_assert!((f.bubble_k(f.bubble_pressure_pa(bubble_k)) - bubble_k).abs() < 1e-8);
    }

    #[test]
    fn saturation_is_monotone_where_it_should_be(name in name(), at in share(), step in 1e-6..0.1_f64) {
        let f = fluid(name);
        let p = pressure_pa(f, at);
        let (a, b) = (f.saturation(p), f.saturation((p * (1.0 + step)).min(f.pressure_range_pa().1)));
        prop_assume!(b.pressure_pa > a.pressure_pa);
        prop_assert!(b.dew_k > a.dew_k && b.bubble_k > a.bubble_k);
        prop_assert!(b.liquid_density_kg_m3 < a.liquid_density_kg_m3);
        prop_assert!(b.vapour_density_kg_m3 > a.vapour_density_kg_m3);
        prop_assert!(b.liquid_enthalpy_j_kg > a.liquid_enthalpy_j_kg);
        prop_assert!(b.liquid_entropy_j_kg_k > a.liquid_entropy_j_kg_k);
        prop_assert!(b.vapour_entropy_j_kg_k < a.vapour_entropy_j_kg_k);
        let pure = matches!(name, "R-32" | "R-22");
        let glide_k = a.dew_k - a.bubble_k;
        prop_assert!((pure && glide_k.abs() < 1e-9) || (!pure && glide_k > 0.0), "{glide_k} K");
        prop_assert!(a.liquid_enthalpy_j_kg < a.vapour_enthalpy_j_kg);
    }

    #[test]
    fn heating_at_constant_pressure_warms_expands_and_raises_entropy(
        name in name(), at in share(), h in 60e3..750e3_f64, step in 1.0..20e3_f64,
    ) {
        let f = fluid(name);
        let p = pressure_pa(f, at);
        let (a, b) = (f.at_ph(p, h), f.at_ph(p, h + step));
        prop_assert!(b.temperature_k >= a.temperature_k, "{a:?} {b:?}");
        prop_assert!(b.density_kg_m3 <= a.density_kg_m3, "{a:?} {b:?}");
        prop_assert!(b.entropy_j_kg_k > a.entropy_j_kg_k || a.temperature_k < coldest_k(f, p), "{a:?} {b:?}");
        prop_assert!(b.quality >= a.quality);
    }

    #[test]
    fn properties_are_continuous_over_bubble_and_dew(name in name(), at in share()) {
        let f = fluid(name);
        let p = pressure_pa(f, at);
        let s = f.saturation(p);
        for (h, t_k, rho, entropy) in [
            (s.liquid_enthalpy_j_kg, s.bubble_k, s.liquid_density_kg_m3, s.liquid_entropy_j_kg_k),
            (s.vapour_enthalpy_j_kg, s.dew_k, s.vapour_density_kg_m3, s.vapour_entropy_j_kg_k),
        ] {
            for beside in [-1e-6, 0.0, 1e-6] {
                let state = f.at_ph(p, h + beside);
                prop_assert!((state.temperature_k - t_k).abs() < 1e-7, "{state:?}");
                prop_assert!((state.density_kg_m3 / rho - 1.0).abs() < 1e-7, "{state:?}");
                prop_assert!((state.entropy_j_kg_k - entropy).abs() < 1e-6, "{state:?}");
            }
        }
    }

    #[test]
    fn temperature_inputs_are_undone_by_enthalpy_inputs(name in name(), at in share(), rise_k in 1e-3..120.0_f64) {
        let f = fluid(name);
        let p = pressure_pa(f, at);
        let s = f.saturation(p);
        let vapour = f.at_pt_vapour(p, s.dew_k + rise_k);
        prop_assert!((vapour.temperature_k - s.dew_k - rise_k).abs() < 1e-6);
        prop_assert_eq!(vapour.phase, Phase::Vapour);
        let t_k = s.bubble_k - rise_k / 2.0;
        let liquid = f.at_pt_liquid(p, t_k);
        prop_assert!((liquid.temperature_k - t_k).abs() < 1e-6 || t_k < coldest_k(f, p));
        prop_assert_eq!(liquid.phase, Phase::Liquid);
    }

    #[test]
    fn temperatures_on_the_wrong_side_are_clamped_to_saturation(
        name in name(), at in share(), by_k in 0.0..100.0_f64,
    ) {
        let f = fluid(name);
        let p = pressure_pa(f, at);
        let s = f.saturation(p);
        let (vapour, liquid) = (f.at_pt_vapour(p, s.dew_k - by_k), f.at_pt_liquid(p, s.bubble_k + by_k));
        prop_assert!((vapour.enthalpy_j_kg - s.vapour_enthalpy_j_kg).abs() < 1e-6);
        prop_assert!((liquid.enthalpy_j_kg - s.liquid_enthalpy_j_kg).abs() < 1e-6);
    }

    #[test]
    fn entropy_and_volume_inputs_are_undone_by_enthalpy_inputs(
        name in name(), p in any_pressure_pa(), h in 100e3..650e3_f64,
    ) {
        let f = fluid(name);
        let state = f.at_ph(p, h);
        let frozen = state.temperature_k < coldest_k(f, p);
        let by_s = f.at_ps_vapour(p, state.entropy_j_kg_k);
        prop_assert!((by_s.enthalpy_j_kg - h).abs() < 1e-3 || frozen, "{state:?} {by_s:?}");
        let by_v = f.at_pv(p, 1.0 / state.density_kg_m3);
        prop_assert!((by_v.enthalpy_j_kg / h - 1.0).abs() < 1e-7 || frozen, "{state:?} {by_v:?}");
    }

    /// Volumes as thin as these and pressures as low lose no digits.
    #[test]
    fn mixtures_are_undone_all_the_way_from_bubble_to_dew(name in name(), at in share(), of_latent in share()) {
        let f = fluid(name);
        let s = f.saturation(pressure_pa(f, at));
        let h = s.liquid_enthalpy_j_kg + of_latent * (s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg);
        let state = f.at_ph(s.pressure_pa, h);
        prop_assume!(state.phase == Phase::TwoPhase);
        prop_assert!((f.at_ps_vapour(s.pressure_pa, state.entropy_j_kg_k).enthalpy_j_kg - h).abs() < 1e-3);
        prop_assert!((f.at_pv(s.pressure_pa, state.specific_volume_m3_kg()).enthalpy_j_kg - h).abs() < 1e-3);
        prop_assert!((s.bubble_k..=s.dew_k).contains(&state.temperature_k), "{state:?}");
        let off = state.quality - of_latent;
        // The vapour that boils off first is richer in R-32, whose latent heat is the larger.
        let least = if name == "R-454B" { -0.05 } else { -1e-9 };
        prop_assert!((least..1e-9).contains(&off), "{state:?}");
    }

    #[test]
    fn flash_returns_the_pressure_it_started_from(
        name in name(), p_exponent in -2.0..8.0_f64, over_bubble_j_kg in 1.0..550e3_f64, guess_pa in any_pressure_pa(),
    ) {
        let f = fluid(name);
        let p = libm::pow(10.0, p_exponent);
        let state = f.at_ph(p, f.saturation(p).liquid_enthalpy_j_kg + over_bubble_j_kg);
        prop_assert_ne!(state.phase, Phase::Liquid);
        let (u, v) = (state.internal_energy_j_kg(), state.specific_volume_m3_kg());
        let flashed = f.flash_uv(u, v, guess_pa);
        // u = h - p v loses digits where they nearly cancel, hence not 1e-12.
        // A last step of 1e-4 in ln p may have crossed a border of cells: a thousandth of it is left, some more near the critical point.
        let fine = if f.reduced_pressure(p) < 0.95 { 1e-6 } else { 1e-5 };
        prop_assert!((flashed.pressure_pa / state.pressure_pa - 1.0).abs() < fine, "{state:?} {flashed:?}");
        prop_assert!((flashed.temperature_k - state.temperature_k).abs() < 1e-4, "{state:?} {flashed:?}");
        prop_assert_eq!(flashed.phase, state.phase);
    }

    #[test]
    fn liquid_that_fills_a_volume_is_softened_as_documented(
        name in name(), p in 3e5..4.8e6_f64, fall_k in 0.5..60.0_f64, guess_pa in any_pressure_pa(),
    ) {
        let f = fluid(name);
        let state = f.at_pt_liquid(p, f.bubble_k(p) - fall_k);
        let (u, v) = (state.internal_energy_j_kg(), state.specific_volume_m3_kg());
        let flashed = f.flash_uv(u, v, guess_pa);
        let (mut low, mut high) = f.pressure_range_pa();
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            let above = f.saturation(middle).liquid_enthalpy_j_kg > flashed.enthalpy_j_kg;
            (low, high) = if above { (low, middle) } else { (middle, high) };
        }
        let over_bubble_pa = flashed.pressure_pa - low;
        let real = f.at_ph(flashed.pressure_pa, flashed.enthalpy_j_kg).specific_volume_m3_kg();
        let softened = real / (1.0 + over_bubble_pa / SOFTENED_LIQUID_BULK_MODULUS_PA);
        prop_assert!((softened / v - 1.0).abs() < 1e-7, "{} {state:?} {flashed:?}", softened / v - 1.0);
        prop_assert!(over_bubble_pa > 0.0);
    }

    #[test]
    fn softening_lowers_the_pressure_of_liquid_but_not_below_bubble(
        name in name(), p in 3e5..4.8e6_f64, fall_k in 0.5..60.0_f64,
    ) {
        let f = fluid(name);
        let state = f.at_pt_liquid(p, f.bubble_k(p) - fall_k);
        let (u, v) = (state.internal_energy_j_kg(), state.specific_volume_m3_kg());
        let flashed = f.flash_uv(u, v, p);
        prop_assert!(flashed.pressure_pa < p, "{state:?} {flashed:?}");
        prop_assert!(flashed.pressure_pa > f.bubble_pressure_pa(flashed.temperature_k) * 0.999, "{flashed:?}");
    }

    #[test]
    fn squeezing_or_heating_a_closed_volume_raises_its_pressure(
        name in name(), u in 150e3..500e3_f64, v in 7e-4..10.0_f64, guess_pa in any_pressure_pa(),
    ) {
        let f = fluid(name);
        let at = f.flash_uv(u, v, guess_pa);
        prop_assert!(f.flash_uv(u, v * 0.99, guess_pa).pressure_pa >= at.pressure_pa * (1.0 - 1e-9));
        prop_assert!(f.flash_uv(u + 500.0, v, guess_pa).pressure_pa >= at.pressure_pa * (1.0 - 1e-9));
    }

    #[test]
    fn a_closed_volume_has_one_pressure_whatever_the_guess(
        name in name(), u in 100e3..800e3_f64, v_exponent in -3.2..3.0_f64,
        a in any_pressure_pa(), b in any_pressure_pa(),
    ) {
        let f = fluid(name);
        let v = libm::pow(10.0, v_exponent);
        let (a, b) = (f.flash_uv(u, v, a), f.flash_uv(u, v, b));
        // Cold liquid squeezed by several percent near the table's top shows the kinks of the table, about once in a
        // million draws.
        let kinked = a.phase == Phase::Liquid && a.pressure_pa > 0.9 * f.pressure_range_pa().1;
        let tolerance = if kinked { 5e-3 } else { 1e-6 };
        prop_assert!((a.pressure_pa / b.pressure_pa - 1.0).abs() < tolerance, "{a:?} {b:?}");
    }

    #[test]
    fn flash_is_finite_whatever_it_is_given(
        name in name(), u in -1e9..1e9_f64, v_exponent in -30.0..30.0_f64, guess_pa in any::<f64>(),
    ) {
        let state = fluid(name).flash_uv(u, libm::pow(10.0, v_exponent), guess_pa);
        for number in [state.pressure_pa, state.temperature_k, state.density_kg_m3, state.enthalpy_j_kg, state.entropy_j_kg_k] {
            prop_assert!(number.is_finite(), "{state:?}");
        }
        prop_assert!(state.pressure_pa > 0.0 && state.density_kg_m3 > 0.0 && state.temperature_k > 0.0, "{state:?}");
        prop_assert!((0.0..=1.0).contains(&state.quality));
    }

    #[test]
    fn look_ups_are_finite_whatever_they_are_given(
        name in name(), p in -1e12..1e12_f64, x in -1e9..1e9_f64, t_k in -1e4..1e5_f64,
    ) {
        let f = fluid(name);
        for state in [
            f.at_ph(p, x), f.at_ph(p.abs().sqrt(), x / 1e3), f.at_pt_vapour(p, t_k), f.at_pt_liquid(p, t_k),
            f.at_ps_vapour(p, x), f.at_ps_vapour(p, t_k), f.at_pv(p, x), f.at_pv(p, x.abs() / 1e9),
        ] {
            prop_assert!(state.temperature_k.is_finite() && state.temperature_k > 0.0, "{state:?}");
            prop_assert!(state.density_kg_m3.is_finite() && state.density_kg_m3 > 0.0, "{state:?}");
            prop_assert!(state.enthalpy_j_kg.is_finite() && state.entropy_j_kg_k.is_finite(), "{state:?}");
        }
        let s = f.saturation(p);
        prop_assert!(s.dew_k.is_finite() && s.vapour_density_kg_m3 > 0.0);
        prop_assert!(f.dew_pressure_pa(t_k) > 0.0 && f.bubble_pressure_pa(t_k) > 0.0);
        prop_assert!(f.dew_k(p.abs()).is_finite() && f.bubble_k(p.abs()).is_finite());
    }
}

#[test]
fn every_name_gives_its_refrigerant_and_no_other_does() {
    assert_eq!(Refrigerant::names(), ["R-410A", "R-32", "R-454B", "R-22"]);
    for f in all() {
        assert!(std::ptr::eq(f, fluid(f.name())), "{} is read once", f.name());
    }
    for (own, name) in [
        (Refrigerant::r410a(), "R-410A"),
        (Refrigerant::r32(), "R-32"),
        (Refrigerant::r454b(), "R-454B"),
        (Refrigerant::r22(), "R-22"),
    ] {
        assert!(std::ptr::eq(own, fluid(name)), "{name}");
    }
    for wrong in ["", "R-410", "r-410a", "R410A", " R-32", "R-134a"] {
        assert!(Refrigerant::by_name(wrong).is_none(), "{wrong}");
    }
}

#[test]
fn an_emptied_volume_keeps_thinning() {
    for f in all() {
        let warm = f.at_pt_vapour(5e3, 300.0);
        let mut pressure_pa = 5e3;
        for _ in 0..12 {
            let thinner = f.at_ph(pressure_pa / 2.0, warm.enthalpy_j_kg);
            let before = f.at_ph(pressure_pa, warm.enthalpy_j_kg);
            assert!((before.density_kg_m3 / thinner.density_kg_m3 - 2.0).abs() < 1e-9);
            assert!((before.temperature_k - thinner.temperature_k).abs() < 1e-9);
            pressure_pa /= 2.0;
        }
        assert!(pressure_pa < 2.0);
    }
}

#[test]
fn a_nan_is_not_hidden() {
    for f in all() {
        assert!(f.at_ph(f64::NAN, 300e3).density_kg_m3.is_nan());
        assert!(f.at_ph(1e6, f64::NAN).temperature_k.is_nan());
        assert!(f.flash_uv(f64::NAN, 0.01, 1e6).enthalpy_j_kg.is_nan());
        assert!(f.saturation(f64::NAN).dew_k.is_nan());
    }
}
