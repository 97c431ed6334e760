//! A restriction in the liquid line.
//!
//! The fault level of Cheung & Braun is, in the words of the measure's documentation, the ratio of the increase of the
//! pressure difference between condenser outlet and evaporator inlet due to the restriction. That can be read in two ways, and
//! the metering device of the units behind the correlation is not known here. So both readings are looked at on both devices:
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
    let density = fluid.at_pt_liquid(r.liquid_pressure_pa, r.liquid_service_valve_k).density_kg_m3;
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

/// Where a drop is first reached, capacity and COP there, by straight lines between the runs.
fn at_level(runs: &[Run], wanted: f64) -> (f64, f64) {
    let pair = runs.windows(2).find(|pair| (pair[0].own_drop..pair[1].own_drop).contains(&wanted));
    let [a, b] = pair.expect("the severities reach so far") else { unreachable!("pairs") };
    let t = (wanted - a.own_drop) / (b.own_drop - a.own_drop);
    let mix = |x: f64, y: f64| x + t * (y - x);
    (mix(a.capacity, b.capacity), mix(a.cop, b.cop))
}

const OPENS: &str = "Valve behind a restriction of 20 %: our valve has room to open and feeds the coil as before until the liquid flashes in front of it, so \
                     capacity holds until the drop takes more than two fifths of the difference.";

const BAND: f64 = 0.06;

pub fn topic() -> Topic {
    let (by_valve, by_orifice) = (runs(&valve()), runs(&orifice()));
    let mut checks = Vec::new();
    for (device, runs) in [("valve", &by_valve), ("orifice", &by_orifice)] {
        let (capacity, cop) = at_level(runs, 0.2);
        let mut pair = [
            Check::ratio(format!("{device}, drop of 20 %: capacity"), 0.889, BAND, capacity),
            Check::ratio(format!("{device}, drop of 20 %: COP"), 0.899, BAND, cop),
        ];
        if device == "valve" {
            pair = pair.map(|check| check.known(0.96, 1.02, OPENS));
        }
        checks.extend(pair);
    }
    for level in [0.1, 0.25] {
        let (capacity, cop) = at_level(&by_orifice, level);
        let (from_capacity, from_cop) = RESTRICTION.at_a(level);
        let name = format!("orifice, drop of {:.0} %", 100.0 * level);
        checks.push(Check::ratio(format!("{name}: capacity"), from_capacity, BAND, capacity));
        checks.push(Check::ratio(format!("{name}: COP"), from_cop, BAND, cop));
    }
    let growth = |runs: &[Run]| {
        let most = runs.iter().max_by(|a, b| a.whole.total_cmp(&b.whole)).expect("runs");
        (100.0 * most.whole, most.capacity)
    };
    let (of_valve, of_orifice) = (growth(&by_valve), growth(&by_orifice));
    let tables = format!(
        "The published level is the ratio of the increase of the pressure difference between condenser outlet and evaporator inlet due to \
         the restriction. Read as what the restriction itself drops, over the healthy difference, it gives the rows above. Read as the growth of \
         the whole difference it cannot be reached here: head falls with the flow almost as fast as suction, and the difference grows \
         by {:.0} % at most with the valve (capacity {:.2} there) and {:.0} % with the orifice ({:.2}). Which metering device the published units \
         had is not known here; the orifice answers like them, the valve does not.",
        of_valve.0, of_valve.1, of_orifice.0, of_orifice.1
    );
    let within = |runs: &[Run], level: fn(&Run) -> f64, value: fn(&Run) -> f64| {
        runs.iter().filter(|r| level(r) < 0.5).map(|r| (100.0 * level(r), value(r))).collect::<Vec<_>>()
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
            Series::new("ours, valve", Style::Ours, within(&by_valve, |r| r.own_drop, value)),
            Series::new("ours, orifice", Style::OursSecond, within(&by_orifice, |r| r.own_drop, value)),
        ],
    };
    Topic {
        name: "restriction",
        source: "Rating A, a plugged drier. Cheung & Braun, NREL fy16osti/65030, coefficients as coded in the OpenStudio fault measures.",
        checks,
        print: Print::Rows,
        tables,
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
