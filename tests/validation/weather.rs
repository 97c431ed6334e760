//! Capacity and power over the weather.

use crate::chamber::{A, Point, outdoor_power_w, sound, valve};
use crate::check::{Check, Print, Topic};
use crate::picture::{Chart, Series, Style};
use crate::published::biquadratic;

/// Cutler et al. 2013 (NREL fy13osti/56354), single-speed air conditioner, as coded in OpenStudio-HPXML: gross capacity over the
/// rated one from entering wet bulb and outdoor dry bulb, °F.
const CAPACITY: [f64; 6] =
    [3.670_270_705, -0.098_652_414, 0.000_955_906, 0.006_552_414, -0.000_015_6, -0.000_131_877];
/// Same source: energy input ratio (outdoor unit's power over gross capacity) over the rated one.
const ENERGY_INPUT: [f64; 6] =
    [-3.302_695_861, 0.137_871_531, -0.001_056_996, -0.012_573_945, 0.000_214_638, -0.000_145_054];

fn published(coefficients: [f64; 6], at: Point) -> f64 {
    biquadratic(coefficients, at.wet_f, at.outdoor_f) / biquadratic(coefficients, A.wet_f, A.outdoor_f)
}

const OUTDOORS_F: [f64; 5] = [75.0, 82.0, 95.0, 105.0, 115.0];
const WET_BULBS_F: [f64; 3] = [62.0, 67.0, 72.0];

const HUMID: &str = "Capacity at 72 °F wet bulb and 75 °F outdoors: the valve is wide open there (it stands at 0.84 at A), head is too low to push more through, and superheat \
                     is up at 20 °F; the published curve goes on rising. A larger valve would follow it further.";

/// Name, published coefficients, band, ours.
type Kind = (&'static str, [f64; 6], f64, fn(&Run) -> f64);

struct Run {
    at: Point,
    capacity: f64,
    input: f64,
}

pub fn topic() -> Topic {
    let system = valve();
    let rated = sound(&system, A);
    let input = |r: &plant::Readout| outdoor_power_w(r) / r.gross_cooling_w;
    let mut runs = Vec::new();
    for wet_f in WET_BULBS_F {
        for outdoor_f in OUTDOORS_F {
            let at = Point { outdoor_f, wet_f, ..A };
            let r = sound(&system, at);
            runs.push(Run {
                at,
                capacity: r.gross_cooling_w / rated.gross_cooling_w,
                input: input(&r) / input(&rated),
            });
        }
    }
    let mut checks = Vec::new();
    let mut tables = String::new();
    let kinds: [Kind; 2] = [
        ("gross capacity", CAPACITY, 0.05, |r| r.capacity),
        ("outdoor unit's power over capacity", ENERGY_INPUT, 0.06, |r| r.input),
    ];
    for (name, coefficients, band, value) in kinds {
        tables += &format!("Ratio of {name} to that at A, band {band}: ours (published).\n\n| wet bulb |");
        for outdoor_f in OUTDOORS_F {
            tables += &format!(" {outdoor_f:.0} °F out |");
        }
        tables += &format!("\n|---|{}\n", "---|".repeat(OUTDOORS_F.len()));
        for wet_f in WET_BULBS_F {
            tables += &format!("| {wet_f:.0} °F |");
            for run in runs.iter().filter(|r| (r.at.wet_f - wet_f).abs() < 1e-9) {
                let from = published(coefficients, run.at);
                let mut check = Check::ratio(
                    format!("{name}, {:.0} °F out, 80/{wet_f:.0} °F in", run.at.outdoor_f),
                    from,
                    band,
                    value(run),
                );
                if (name, wet_f as u32, run.at.outdoor_f as u32) == ("gross capacity", 72, 75) {
                    check = check.known(1.150, 1.172, HUMID);
                }
                let mark = if check.agrees() { "" } else { "**" };
                tables += &format!(" {mark}{:.3}{mark} ({from:.3}) |", value(run));
                checks.push(check);
            }
            tables += "\n";
        }
        tables += "\n";
    }
    let over = |wet_f: f64, value: &dyn Fn(&Run) -> f64| {
        runs.iter()
            .filter(|r| (r.at.wet_f - wet_f).abs() < 1e-9)
            .map(|r| (r.at.outdoor_f, value(r)))
            .collect::<Vec<_>>()
    };
    let chart =
        |file, title: &str, y: &str, coefficients: [f64; 6], band: f64, value: fn(&Run) -> f64| Chart {
            file,
            title: title.to_owned(),
            x: "outdoor dry bulb, °F".to_owned(),
            y: y.to_owned(),
            series: vec![
                Series::new(
                    &format!("Cutler et al., 67 °F wet bulb, band {band}"),
                    Style::Published,
                    over(67.0, &|r| published(coefficients, r.at)),
                )
                .band(band),
                Series::new(
                    "Cutler et al., 72 °F wet bulb",
                    Style::PublishedSecond,
                    over(72.0, &|r| published(coefficients, r.at)),
                ),
                Series::new("ours, 67 °F wet bulb", Style::Ours, over(67.0, &value)),
                Series::new("ours, 72 °F wet bulb", Style::OursSecond, over(72.0, &value)),
            ],
        };
    Topic {
        name: "weather",
        source: "Valve, 80 °F indoors. Cutler et al. 2013 (NREL fy13osti/56354), single-speed air conditioner, curves as coded in \
                 OpenStudio-HPXML, over their own value at A. Wet bulbs at which the coil is wet: the curves are for wet coils.",
        checks,
        print: Print::OwnTables,
        tables,
        charts: vec![
            chart(
                "weather-capacity",
                "Gross capacity against outdoor temperature, 80 °F indoors",
                "capacity over that at A",
                CAPACITY,
                0.05,
                |r| r.capacity,
            ),
            chart(
                "weather-input",
                "Outdoor unit's power over capacity against outdoor temperature",
                "energy input ratio over that at A",
                ENERGY_INPUT,
                0.06,
                |r| r.input,
            ),
        ],
    }
}
