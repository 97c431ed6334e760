//! Indoor airflow.

use crate::chamber::{A, fault, outdoor_power_w, settled, sound, valve};
use crate::check::{Check, Print, Topic};
use crate::picture::{Chart, Series, Style};
use plant::{FaultKind, Readout, System};

/// Cutler et al. 2013 (NREL fy13osti/56354), single speed, as coded in OpenStudio-HPXML: ratio of gross capacity over the
/// share of rated airflow.
pub fn capacity_ratio(share: f64) -> f64 {
    0.718_664_047 + 0.417_974_09 * share - 0.136_638_137 * share * share
}

/// Same source: ratio of energy input ratio (outdoor unit's power over gross capacity).
pub fn energy_input_ratio(share: f64) -> f64 {
    1.143_487_507 - 0.139_439_72 * share - 0.004_047_787 * share * share
}

/// The system behind a filter whose loading gives a share of the sound airflow, by bisection.
fn at_airflow(system: &System, healthy: &Readout, share: f64) -> Readout {
    let (mut low, mut high) = (0.0, 0.9);
    let mut r = healthy.clone();
    for _ in 0..12 {
        let mid = 0.5 * (low + high);
        r = settled(system, A, 1.0, &[fault(FaultKind::LoadedFilter, mid)]).readout;
        if r.airflow_m3_s > share * healthy.airflow_m3_s { low = mid } else { high = mid }
    }
    r
}

pub fn topic() -> Topic {
    let system = valve();
    let healthy = sound(&system, A);
    let input = |r: &Readout| outdoor_power_w(r) / r.gross_cooling_w;
    let shares = [0.5, 0.6, 0.7, 0.8, 0.9, 1.0];
    let runs: Vec<(f64, f64, f64)> = shares
        .iter()
        .map(|share| {
            let r = if *share < 1.0 { at_airflow(&system, &healthy, *share) } else { healthy.clone() };
            (*share, r.gross_cooling_w / healthy.gross_cooling_w, input(&r) / input(&healthy))
        })
        .collect();
    let mut checks = Vec::new();
    for (share, quoted) in [(0.8, 0.966), (0.7, 0.944), (0.6, 0.920)] {
        let run = runs.iter().find(|run| (run.0 - share).abs() < 1e-9).expect("a run");
        let name = format!("{:.0} % airflow", 100.0 * share);
        checks.push(Check::ratio(format!("{name}: gross capacity"), quoted, 0.04, run.1));
        checks.push(Check::ratio(
            format!("{name}: outdoor unit's power over capacity"),
            energy_input_ratio(share),
            0.04,
            run.2,
        ));
    }
    let line = |of: fn(f64) -> f64| shares.map(|s| (100.0 * s, of(s))).to_vec();
    let chart = |file, title: &str, y: &str, published, ours: Vec<(f64, f64)>| Chart {
        file,
        title: title.to_owned(),
        x: "indoor airflow, % of the rated".to_owned(),
        y: y.to_owned(),
        series: vec![
            Series::new("Cutler et al. 2013, band 0.04", Style::Published, published).band(0.04),
            Series::new("ours, valve", Style::Ours, ours),
        ],
    };
    Topic {
        name: "airflow",
        source: "Valve, rating A; the airflow is lost by a loaded filter. Cutler et al. 2013 (NREL fy13osti/56354), curves as coded in \
                 OpenStudio-HPXML. The power is that of compressor and outdoor fan.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![
            chart(
                "airflow-capacity",
                "Gross capacity against indoor airflow, rating A",
                "capacity over that at 100 %",
                line(capacity_ratio),
                runs.iter().map(|r| (100.0 * r.0, r.1)).collect(),
            ),
            chart(
                "airflow-input",
                "Power over capacity against indoor airflow, rating A",
                "energy input ratio over that at 100 %",
                line(energy_input_ratio),
                runs.iter().map(|r| (100.0 * r.0, r.2)).collect(),
            ),
        ],
    }
}
