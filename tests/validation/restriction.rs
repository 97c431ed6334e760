//! A restriction in the liquid line.
//!
//! The fault level of Cheung & Braun is, in the words of the measure's documentation, the ratio of the increase of the
//! pressure difference between condenser outlet and evaporator inlet due to the restriction. That can be read in two ways, and
//! the metering device of the units behind the correlation is not known here. So both readings are run on both devices:
//! *own drop*: what the restriction itself drops, over the healthy difference; *whole difference*: by how much the difference
//! between condenser outlet and evaporator inlet has grown.

use crate::chamber::{A, fault, gross_cop, orifice, settled, sound, valve};
use crate::chart::{Chart, Series, Style};
use crate::check::{Check, Print, Topic};
use crate::published::RESTRICTION;
use plant::{FaultKind, Readout, System};

/// One severity of the drier.
struct Run {
    own_drop: f64,
    whole: f64,
    capacity: f64,
    cop: f64,
}

/// What the drier drops, Pa: the law of the plant, dp = K m^2 / rho, with the passage that is left.
fn drier_drop_pa(system: &System, r: &Readout, open_share: f64) -> f64 {
    let fluid = system.refrigerant.tables();
    let density = fluid.at_pt_liquid(r.liquid_pressure_pa, r.liquid_before_drier_k).density_kg_m3;
    system.lines.drier_resistance / (open_share * open_share) * r.metering_flow_kg_s * r.metering_flow_kg_s
        / density
}

fn runs(system: &System) -> Vec<Run> {
    let healthy = sound(system, A);
    let difference = |r: &Readout| r.liquid_pressure_pa - r.evaporator_pressure_pa;
    [0.0, 0.6, 0.7, 0.75, 0.8, 0.83, 0.86, 0.88, 0.9, 0.92, 0.94, 0.955, 0.97]
        .into_iter()
        .map(|severity| {
            let r = settled(system, A, 1.0, &[fault(FaultKind::PluggedDrier, severity)]).readout;
            let added = drier_drop_pa(system, &r, 1.0 - severity) - drier_drop_pa(system, &healthy, 1.0);
            Run {
                own_drop: added / difference(&healthy),
                whole: difference(&r) / difference(&healthy) - 1.0,
                capacity: r.gross_cooling_w / healthy.gross_cooling_w,
                cop: gross_cop(&r) / gross_cop(&healthy),
            }
        })
        .collect()
}

/// Where a level is first reached, capacity and COP there, by straight lines between the runs.
fn at_level(runs: &[Run], level: impl Fn(&Run) -> f64, wanted: f64) -> Option<(f64, f64)> {
    runs.windows(2).find_map(|pair| {
        let (a, b) = (level(&pair[0]), level(&pair[1]));
        let between = (a..b).contains(&wanted);
        between.then(|| {
            let t = (wanted - a) / (b - a);
            let mix = |x: f64, y: f64| x + t * (y - x);
            (mix(pair[0].capacity, pair[1].capacity), mix(pair[0].cop, pair[1].cop))
        })
    })
}

const BAND: f64 = 0.06;

pub fn topic() -> Topic {
    let (by_valve, by_orifice) = (runs(&valve()), runs(&orifice()));
    let mut checks = Vec::new();
    for (device, runs) in [("valve", &by_valve), ("orifice", &by_orifice)] {
        let readings: [(&str, fn(&Run) -> f64); 2] =
            [("own drop", |r| r.own_drop), ("whole difference", |r| r.whole)];
        for (reading, level) in readings {
            let (capacity, cop) = at_level(runs, level, 0.2).unwrap_or((f64::NAN, f64::NAN));
            checks.push(Check::ratio(format!("{device}, {reading} +20 %: capacity"), 0.889, BAND, capacity));
            checks.push(Check::ratio(format!("{device}, {reading} +20 %: COP"), 0.899, BAND, cop));
        }
    }
    let within = |runs: &[Run], level: fn(&Run) -> f64, value: fn(&Run) -> f64| {
        runs.iter().filter(|r| level(r) < 0.32).map(|r| (100.0 * level(r), value(r))).collect::<Vec<_>>()
    };
    let levels = [0.0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3];
    let published: Vec<(f64, f64)> = levels.map(|f| (100.0 * f, RESTRICTION.at_a(f).0)).to_vec();
    let published_cop: Vec<(f64, f64)> = levels.map(|f| (100.0 * f, RESTRICTION.at_a(f).1)).to_vec();
    let chart = |file, title: &str, y: &str, published, value: fn(&Run) -> f64| Chart {
        file,
        title: title.to_owned(),
        x: "drop of the restriction, % of the healthy difference condenser to evaporator".to_owned(),
        y: y.to_owned(),
        series: vec![
            Series::new("Cheung & Braun, band 0.06", Style::Published, published).band(BAND),
            Series::new("ours, valve, own drop", Style::Ours, within(&by_valve, |r| r.own_drop, value)),
            Series::new(
                "ours, orifice, own drop",
                Style::OursSecond,
                within(&by_orifice, |r| r.own_drop, value),
            ),
        ],
    };
    Topic {
        name: "restriction",
        source: "Rating A, a plugged drier. Cheung & Braun, NREL fy16osti/65030, coefficients as coded in the OpenStudio fault measures.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![
            chart(
                "restriction-capacity",
                "Gross capacity against a liquid-line restriction, rating A",
                "capacity over the healthy one",
                published,
                |r| r.capacity,
            ),
            chart(
                "restriction-cop",
                "Gross COP against a liquid-line restriction, rating A",
                "COP over the healthy one",
                published_cop,
                |r| r.cop,
            ),
        ],
    }
}
