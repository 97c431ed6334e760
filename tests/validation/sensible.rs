//! Sensible share, apparatus dew point, temperature split.

use crate::chamber::{A, Point, sound, valve};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
use media::moist_air::{
    STANDARD_PRESSURE_PA, enthalpy_j_kg, humidity_ratio_from_wet_bulb, saturation_humidity_ratio,
};
use media::units::{celsius_from_kelvin, cfm_from_m3_s, tons_of_refrigeration_from_w};
use plant::{Readout, System};

/// Sensible heat ratio of a residential split system: correlation of the California residential compliance manual, as
/// coded in the open California Simulation Engine (`CoolingSHR`). °F, and cfm of standard air for a ton.
fn published_ratio(at: Point, cfm_ton: f64) -> f64 {
    let ratio =
        0.024_202_0 * at.dry_f - 0.059_215_3 * at.wet_f + 0.001_265_1 * at.outdoor_f + 0.001_637_5 * cfm_ton
            - 0.000_016_5 * at.wet_f * cfm_ton
            + 0.000_202_1 * at.wet_f * at.wet_f
            + 1.508_528_5;
    ratio.clamp(0.5, 1.0)
}

fn cfm_ton(system: &System, r: &Readout) -> f64 {
    cfm_from_m3_s(r.airflow_m3_s) / tons_of_refrigeration_from_w(system.plate.nominal_capacity_w)
}

/// Bypass factor: what is left of the way from entering air to the apparatus dew point, on the line through entering and
/// leaving state on the chart (ASHRAE Systems and Equipment, air-cooling coils).
fn bypass_factor(r: &Readout) -> f64 {
    let (t_in, wet_in) = (celsius_from_kelvin(r.return_dry_bulb_k), celsius_from_kelvin(r.return_wet_bulb_k));
    let w_in = humidity_ratio_from_wet_bulb(t_in, wet_in, STANDARD_PRESSURE_PA);
    let mass_kg_s =
        r.airflow_m3_s / media::moist_air::specific_volume_m3_kg(t_in, w_in, STANDARD_PRESSURE_PA);
    // Leaving the coil, before the blower's heat.
    let t_out = t_in - r.sensible_cooling_w / (mass_kg_s * media::moist_air::cp_j_kg_k(w_in));
    let w_out = w_in - (r.gross_cooling_w - r.sensible_cooling_w) / (mass_kg_s * 2.50e6);
    let slope = (w_in - w_out) / (t_in - t_out);
    // Where the line meets saturation, by bisection: the line lies above saturation left of it.
    let (mut low, mut high) = (t_out - 15.0, t_out);
    for _ in 0..60 {
        let mid = 0.5 * (low + high);
        let line = w_out - slope * (t_out - mid);
        if line > saturation_humidity_ratio(mid, STANDARD_PRESSURE_PA) { low = mid } else { high = mid }
    }
    let h = |t: f64, w: f64| enthalpy_j_kg(t, w);
    let h_dew = h(low, saturation_humidity_ratio(low, STANDARD_PRESSURE_PA));
    (h(t_out, w_out) - h_dew) / (h(t_in, w_in) - h_dew)
}

pub fn topic() -> Topic {
    let system = valve();
    let wet_bulbs = [62.0, 64.0, 67.0, 70.0, 72.0];
    let mut checks = Vec::new();
    let mut lines = Vec::new();
    for outdoor_f in [82.0, 95.0, 115.0] {
        let mut line = Vec::new();
        for wet_f in wet_bulbs {
            let at = Point { outdoor_f, wet_f, ..A };
            let r = sound(&system, at);
            let ours = r.sensible_cooling_w / r.gross_cooling_w;
            let published = published_ratio(at, cfm_ton(&system, &r));
            if [62.0, 67.0, 72.0].contains(&wet_f) {
                let what = format!("sensible heat ratio, {outdoor_f:.0} °F out, 80/{wet_f:.0} °F in");
                checks.push(Check::ratio(what, published, 0.05, ours));
            }
            line.push((wet_f, published, ours));
        }
        lines.push(line);
    }
    // Rating point C has a dry coil (AHRI 210/240).
    let dry = sound(&system, crate::chamber::C);
    checks.push(Check::ratio(
        "sensible heat ratio at C, 82 °F out, 80/57 °F in (dry coil)",
        1.0,
        0.001,
        dry.sensible_cooling_w / dry.gross_cooling_w,
    ));
    checks.push(Check::new(
        "bypass factor at A (three to four rows, textbooks, from memory)",
        "",
        2,
        Published::Between { low: 0.05, high: 0.30 },
        bypass_factor(&sound(&system, A)),
    ));
    // California Title 24 RA3.2, target temperature split at 76 °F return (from memory); tolerance of the same place.
    for (wet_f, split_f) in [(58.0, 22.0), (62.0, 19.8), (66.0, 16.9)] {
        let r = sound(&system, Point { outdoor_f: 90.0, dry_f: 76.0, wet_f });
        checks.push(Check::new(
            format!("temperature split, 76/{wet_f:.0} °F return, 90 °F out"),
            "°F",
            1,
            Published::Near { value: split_f, band: 3.0 },
            1.8 * (r.return_dry_bulb_k - r.supply_dry_bulb_k),
        ));
    }
    let pick = |i: usize, ours: fn(&(f64, f64, f64)) -> f64| {
        lines[i].iter().map(|p| (p.0, ours(p))).collect::<Vec<_>>()
    };
    Topic {
        name: "sensible",
        source: "Valve, 80 °F indoors. Sensible heat ratio: correlation of the California residential compliance manual, as coded in the open \
                 California Simulation Engine, with our airflow for a nominal ton. Temperature split: California Title 24 RA3.2 (2008), \
                 targets from memory, tolerance 3 °F; ours after the blower's heat.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![Chart {
            file: "sensible-ratio",
            title: "Sensible heat ratio against entering wet bulb, 80 °F indoors".to_owned(),
            x: "entering wet bulb, °F".to_owned(),
            y: "sensible over gross capacity".to_owned(),
            series: vec![
                Series::new("California manual, 95 °F out, band 0.05", Style::Published, pick(1, |p| p.1))
                    .band(0.05),
                Series::new("California manual, 115 °F out", Style::PublishedSecond, pick(2, |p| p.1)),
                Series::new("ours, 95 °F out", Style::Ours, pick(1, |p| p.2)),
                Series::new("ours, 115 °F out", Style::OursSecond, pick(2, |p| p.2)),
            ],
        }],
    }
}
