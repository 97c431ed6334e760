//! Airflow lost at the condenser.

use crate::chamber::{A, fault, outdoor_power_w, settled, sound, valve};
use crate::check::{Check, Print, Topic};
use crate::picture::{Chart, Series, Style};
use crate::published::CONDENSER;
use plant::FaultKind;

pub fn topic() -> Topic {
    let system = valve();
    let healthy = sound(&system, A);
    let losses = [0.0, 0.1, 0.2, 0.3, 0.4, 0.5];
    let runs: Vec<(f64, f64, f64)> = losses
        .iter()
        .map(|lost| {
            let r = settled(&system, A, 1.0, &[fault(FaultKind::FouledCondenser, *lost)]).readout;
            (
                *lost,
                r.gross_cooling_w / healthy.gross_cooling_w,
                outdoor_power_w(&r) / outdoor_power_w(&healthy),
            )
        })
        .collect();
    let run = |lost: f64| *runs.iter().find(|r| (r.0 - lost).abs() < 1e-9).expect("a run");
    let (third, half) = (run(0.3), run(0.5));
    let published = |lost: f64| {
        let (capacity, cop) = CONDENSER.at_a(lost);
        (capacity, capacity / cop, cop)
    };
    let checks = vec![
        Check::ratio("30 % lost: power", 1.085, 0.06, third.2),
        Check::ratio("50 % lost: power", 1.222, 0.06, half.2),
        Check::ratio("50 % lost: capacity", 0.973, 0.05, half.1),
        Check::ratio("30 % lost: COP", published(0.3).2, 0.06, third.1 / third.2),
        Check::ratio("50 % lost: COP", published(0.5).2, 0.06, half.1 / half.2),
    ];
    let line = |of: &dyn Fn(f64) -> f64| losses.map(|l| (100.0 * l, of(l))).to_vec();
    let chart = |file, title: &str, y: &str, band, published, ours: Vec<(f64, f64)>| Chart {
        file,
        title: title.to_owned(),
        x: "condenser airflow lost, %".to_owned(),
        y: y.to_owned(),
        series: vec![
            Series::new(&format!("Cheung & Braun, band {band}"), Style::Published, published).band(band),
            Series::new("ours, valve", Style::Ours, ours),
        ],
    };
    Topic {
        name: "condenser",
        source: "Valve, rating A. Cheung & Braun, NREL fy16osti/65030, coefficients as coded in the OpenStudio fault measures. Power of \
                 compressor and outdoor fan (the fan's taken as constant); the source does not say whether the indoor blower is counted, \
                 with it the ratios are lower.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![
            chart(
                "condenser-power",
                "Power against lost condenser airflow, rating A",
                "power over the healthy one",
                0.06,
                line(&|l| published(l).1),
                runs.iter().map(|r| (100.0 * r.0, r.2)).collect(),
            ),
            chart(
                "condenser-capacity",
                "Gross capacity against lost condenser airflow, rating A",
                "capacity over the healthy one",
                0.05,
                line(&|l| published(l).0),
                runs.iter().map(|r| (100.0 * r.0, r.1)).collect(),
            ),
        ],
    }
}
