//! R-410A against `CoolProp` 8.0.0 (equation of state of Lemmon 2003, doi 10.1023/A:1025048800563), on points drawn at
//! random over the whole table. Prints the largest error of every property in every region.

use std::collections::BTreeMap;

use media::refrigerant::{Fluid, Phase, Refrigerant};
use oracle::rows;

const POINTS: &str = include_str!("../data/coolprop_r410a.csv");

const LIQUID: u8 = 0;
const TWO_PHASE: u8 = 1;
const VAPOUR: u8 = 2;
const BUBBLE: u8 = 3;
const DEW: u8 = 4;

struct Point {
    region: u8,
    quality: f64,
    pressure_pa: f64,
    temperature_k: f64,
    density_kg_m3: f64,
    enthalpy_j_kg: f64,
    entropy_j_kg_k: f64,
    cp_j_kg_k: f64,
}

fn points() -> Vec<Point> {
    rows(POINTS)
        .iter()
        .map(|row| Point {
            region: row["region"] as u8,
            quality: row["quality"],
            pressure_pa: row["pressure_pa"],
            temperature_k: row["temperature_k"],
            density_kg_m3: row["density_kg_m3"],
            enthalpy_j_kg: row["enthalpy_j_kg"],
            entropy_j_kg_k: row["entropy_j_kg_k"],
            cp_j_kg_k: row["cp_j_kg_k"],
        })
        .collect()
}

/// Largest errors by name, each with the place where it was met.
#[derive(Default)]
struct Worst(BTreeMap<String, (f64, String)>);

impl Worst {
    fn note(&mut self, name: &str, error: f64, at: &Point) {
        assert!(error.is_finite(), "{name} at {} Pa, {} K", at.pressure_pa, at.temperature_k);
        let worst = self.0.entry(name.to_owned()).or_default();
        if error.abs() > worst.0.abs() {
            let place =
                format!("{:.1} kPa, {:.3} K, x {:.3}", at.pressure_pa / 1e3, at.temperature_k, at.quality);
            *worst = (error, place);
        }
    }

    fn print(&self) {
        for (name, (error, place)) in &self.0 {
            println!("{name:<46} {error:+.6} at {place}");
        }
    }

    /// Fails where a name that ends like this has a larger error.
    fn check(&self, ending: &str, bound: f64) {
        let mut checked = 0;
        for (name, (error, place)) in self.0.iter().filter(|(name, _)| name.ends_with(ending)) {
            assert!(error.abs() <= bound, "{name}: {error} at {place}, bound {bound}");
            checked += 1;
        }
        assert!(checked > 0, "nothing measured that ends with {ending}");
    }
}

fn check_phase(state: &Fluid, phase: Phase, at: &Point) {
    assert_eq!(
        state.phase, phase,
        "{} Pa, {} K, x {}: {state:?}",
        at.pressure_pa, at.temperature_k, at.quality
    );
}

fn percent(value: f64, reference: f64) -> f64 {
    (value / reference - 1.0) * 100.0
}

/// Bounds of the design: pressure 0.1 %, density 0.5 %, enthalpy 0.3 kJ/kg of the oracle. Those of entropy,
/// 1 J/(kg K), temperature, 0.05 K, and heat capacity, 0.5 %, are our own.
#[test]
fn every_region_is_within_its_bounds() {
    let f = Refrigerant::r410a();
    let mut worst = Worst::default();
    for point in points() {
        let p = point.pressure_pa;
        let mut note = |name: &str, state: &Fluid| {
            worst.note(
                &format!("{name}: density, %"),
                percent(state.density_kg_m3, point.density_kg_m3),
                &point,
            );
            worst.note(
                &format!("{name}: enthalpy, kJ/kg"),
                (state.enthalpy_j_kg - point.enthalpy_j_kg) / 1e3,
                &point,
            );
            worst.note(
                &format!("{name}: entropy, J/(kg K)"),
                state.entropy_j_kg_k - point.entropy_j_kg_k,
                &point,
            );
            worst.note(&format!("{name}: temperature, K"), state.temperature_k - point.temperature_k, &point);
        };
        let by_enthalpy = f.at_ph(p, point.enthalpy_j_kg);
        match point.region {
            LIQUID => {
                check_phase(&by_enthalpy, Phase::Liquid, &point);
                note("liquid by p and h", &by_enthalpy);
                note("liquid by p and T", &f.at_pt_liquid(p, point.temperature_k));
            }
            TWO_PHASE => {
                check_phase(&by_enthalpy, Phase::TwoPhase, &point);
                note("two-phase by p and h", &by_enthalpy);
                note("two-phase by p and s", &f.at_ps_vapour(p, point.entropy_j_kg_k));
                note("two-phase by p and v", &f.at_pv(p, 1.0 / point.density_kg_m3));
                let u = point.enthalpy_j_kg - p / point.density_kg_m3;
                let flashed = f.flash_uv(u, 1.0 / point.density_kg_m3, 1e6);
                worst.note("two-phase by u and v: pressure, %", percent(flashed.pressure_pa, p), &point);
                worst.note(
                    "two-phase: quality by p and h, /10",
                    (by_enthalpy.quality - point.quality) / 10.0,
                    &point,
                );
            }
            VAPOUR => {
                check_phase(&by_enthalpy, Phase::Vapour, &point);
                note("vapour by p and h", &by_enthalpy);
                note("vapour by p and T", &f.at_pt_vapour(p, point.temperature_k));
                note("vapour by p and s", &f.at_ps_vapour(p, point.entropy_j_kg_k));
                let u = point.enthalpy_j_kg - p / point.density_kg_m3;
                let flashed = f.flash_uv(u, 1.0 / point.density_kg_m3, 1e6);
                worst.note("vapour by u and v: pressure, %", percent(flashed.pressure_pa, p), &point);
            }
            BUBBLE => {
                let s = f.saturation(p);
                note("bubble", &f.at_ph(p, s.liquid_enthalpy_j_kg));
                worst.note("bubble: heat capacity, %", percent(s.liquid_cp_j_kg_k, point.cp_j_kg_k), &point);
                worst.note(
                    "bubble: pressure, %",
                    percent(f.bubble_pressure_pa(point.temperature_k), p),
                    &point,
                );
            }
            DEW => {
                let s = f.saturation(p);
                note("dew", &f.at_ph(p, s.vapour_enthalpy_j_kg));
                worst.note("dew: heat capacity, %", percent(s.vapour_cp_j_kg_k, point.cp_j_kg_k), &point);
                worst.note("dew: pressure, %", percent(f.dew_pressure_pa(point.temperature_k), p), &point);
            }
            other => panic!("region {other}"),
        }
    }
    worst.print();
    worst.check("pressure, %", 0.1);
    worst.check("density, %", 0.5);
    worst.check("enthalpy, kJ/kg", 0.3);
    worst.check("entropy, J/(kg K)", 1.0);
    worst.check("temperature, K", 0.05);
    worst.check("heat capacity, %", 0.5);
}

/// `CoolProp` 8.0.0, at an atmosphere of 14.696 psi.
#[test]
fn dew_pressures_on_a_gauge() {
    let f = Refrigerant::r410a();
    for (t_f, psig) in [
        (20.0, 78.36),
        (32.0, 101.06),
        (40.0, 118.36),
        (70.0, 201.06),
        (95.0, 295.44),
        (110.0, 365.37),
        (130.0, 476.84),
    ] {
        let pressure_pa = f.dew_pressure_pa((t_f - 32.0) / 1.8 + 273.15);
        let read = pressure_pa / 6_894.757_293 - 14.696;
        assert!((read - psig).abs() < 0.01, "{t_f} F: {read} psig, reference {psig}");
    }
}

/// Reference state, from the definition of IIR: 200 kJ/kg and 1 kJ/(kg K) at 0 °C in saturated liquid.
#[test]
fn reference_state_is_iir() {
    let f = Refrigerant::r410a();
    let s = f.saturation(f.bubble_pressure_pa(273.15));
    assert!((s.liquid_enthalpy_j_kg - 200e3).abs() < 5.0, "{s:?}");
    assert!((s.liquid_entropy_j_kg_k - 1e3).abs() < 0.02, "{s:?}");
}

/// The Clapeyron equation ties three columns that were tabulated on their own; it holds for a pure fluid, and for this
/// nearly pure one within the difference between bubble and dew.
#[test]
fn saturation_obeys_clapeyron() {
    let f = Refrigerant::r410a();
    let mut worst: f64 = 0.0;
    for step in 1..200 {
        let p = 5e3 * 1.0348_f64.powi(step); // to 4.5 MPa
        let s = f.saturation(p);
        let slope = (f.dew_pressure_pa(s.dew_k + 0.1) - f.dew_pressure_pa(s.dew_k - 0.1)) / 0.2;
        let latent = s.vapour_enthalpy_j_kg - s.liquid_enthalpy_j_kg;
        let expansion = 1.0 / s.vapour_density_kg_m3 - 1.0 / s.liquid_density_kg_m3;
        let error = percent(s.dew_k * expansion * slope, latent);
        if error.abs() > worst.abs() {
            worst = error;
        }
    }
    println!("Clapeyron: largest misfit {worst:+.3} %");
    assert!(worst.abs() < 0.5, "{worst} %");
}

/// A table of another fluid or range under this name fails here.
#[test]
fn the_table_names_its_source() {
    let f = Refrigerant::r410a();
    assert_eq!(f.name(), "R-410A");
    assert!(f.source().contains("10.1023/A:1025048800563"), "{}", f.source());
    assert_eq!(f.pressure_range_pa(), (5e3, 4.85e6));
}
