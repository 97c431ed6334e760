//! The compressor alone against the open map, over the map's whole range.
//!
//! Air around it: 95 °F.

use crate::chamber::valve;
use crate::check::{Check, Print, Published, Topic};
use crate::map;
use crate::picture::{Chart, Series, Style};
use crate::tuned::SCROLL;
use media::refrigerant::Refrigerant;
use media::units::kelvin_from_fahrenheit;
use plant::{System, compressor_rating};

/// Where ours is scaled to the map's size, °F: near rating A. Displacement is the only thing that the two need not share.
const SCALED_AT: (f64, f64) = (45.0, 115.0);

/// The points that displacement, clearance, friction, losses and built-in ratio were fitted to, °F; they count for nothing.
const FITTED: [(f64, f64); 3] = [(45.0, 130.0), (50.0, 90.0), (0.0, 120.0)];

/// Uncertainty that the standard allows a map (AHRI 540, from memory), as a root mean square over the grid.
const RMS_PERCENT: f64 = 4.0;
/// No single point of the grid further off, %: three times what the standard allows.
const WORST_PERCENT: f64 = 15.0;

/// Every point of the grid -10 to 55 °F evaporating, 80 to 150 °F condensing, that is physical.
fn grid() -> Vec<(f64, f64)> {
    let mut points = Vec::new();
    for e in 0..14 {
        for c in 0..8 {
            let (evaporating_f, condensing_f) = (-10.0 + 5.0 * f64::from(e), 80.0 + 10.0 * f64::from(c));
            if map::is_physical(evaporating_f, condensing_f)
                && !FITTED.contains(&(evaporating_f, condensing_f))
            {
                points.push((evaporating_f, condensing_f));
            }
        }
    }
    points
}

/// Isentropic efficiency of the map: ideal power from the suction port on, over electric power.
fn map_efficiency(evaporating_f: f64, condensing_f: f64) -> f64 {
    let fluid = Refrigerant::r410a();
    ideal_j_kg(fluid, evaporating_f, condensing_f, kelvin_from_fahrenheit(evaporating_f + map::SUPERHEAT_F))
        * map::flow_kg_s(evaporating_f, condensing_f)
        / map::power_w(evaporating_f, condensing_f)
}

/// Ideal work, J/kg, between two dew temperatures from a suction temperature on.
fn ideal_j_kg(fluid: &Refrigerant, evaporating_f: f64, condensing_f: f64, suction_k: f64) -> f64 {
    let suction = fluid.at_pt_vapour(fluid.dew_pressure_pa(kelvin_from_fahrenheit(evaporating_f)), suction_k);
    let discharge_pa = fluid.dew_pressure_pa(kelvin_from_fahrenheit(condensing_f));
    fluid.at_ps_vapour(discharge_pa, suction.entropy_j_kg_k).enthalpy_j_kg - suction.enthalpy_j_kg
}

/// A quantity and its error at a point.
type Kind = (&'static str, fn(&Point) -> f64);

/// One point: map, ours scaled.
struct Point {
    evaporating_f: f64,
    condensing_f: f64,
    flow_error: f64,
    power_error: f64,
}

fn ours(system: &System, evaporating_f: f64, condensing_f: f64) -> (f64, f64) {
    let r = compressor_rating(
        &system.compressor,
        system.refrigerant,
        kelvin_from_fahrenheit(evaporating_f),
        kelvin_from_fahrenheit(condensing_f),
        map::SUPERHEAT_F / 1.8,
        kelvin_from_fahrenheit(95.0),
    );
    (r.flow_kg_s, r.power_w)
}

fn points(system: &System) -> Vec<Point> {
    let (e0, c0) = SCALED_AT;
    let (flow0, power0) = ours(system, e0, c0);
    let (flow_scale, power_scale) = (map::flow_kg_s(e0, c0) / flow0, map::power_w(e0, c0) / power0);
    grid()
        .into_iter()
        .map(|(e, c)| {
            let (flow, power) = ours(system, e, c);
            Point {
                evaporating_f: e,
                condensing_f: c,
                flow_error: flow_scale * flow / map::flow_kg_s(e, c) - 1.0,
                power_error: power_scale * power / map::power_w(e, c) - 1.0,
            }
        })
        .collect()
}

fn root_mean_square(points: &[Point], error: fn(&Point) -> f64) -> f64 {
    libm::sqrt(points.iter().map(|p| error(p) * error(p)).sum::<f64>() / points.len() as f64)
}

/// Isentropic efficiency of ours from the suction port on.
fn efficiency(system: &System, evaporating_f: f64, condensing_f: f64) -> f64 {
    let (flow, power) = ours(system, evaporating_f, condensing_f);
    let suction_k = kelvin_from_fahrenheit(evaporating_f + map::SUPERHEAT_F);
    flow * ideal_j_kg(Refrigerant::r410a(), evaporating_f, condensing_f, suction_k) / power
}

/// Pressure ratio at which the efficiency is best, at 45 °F evaporating.
fn best_ratio(efficiency: impl Fn(f64) -> f64) -> f64 {
    let fluid = Refrigerant::r410a();
    let pressure_pa = |f: f64| fluid.dew_pressure_pa(kelvin_from_fahrenheit(f));
    let best = (75..=150)
        .map(f64::from)
        .max_by(|a, b| efficiency(*a).total_cmp(&efficiency(*b)))
        .unwrap_or(f64::NAN);
    pressure_pa(best) / pressure_pa(45.0)
}

pub fn topic() -> Topic {
    let system = valve();
    let points = points(&system);
    let kinds: [Kind; 2] = [("flow", |p| p.flow_error), ("power", |p| p.power_error)];
    let mut checks = Vec::new();
    for (name, error) in kinds {
        checks.push(Check::new(
            format!(
                "{name}, root mean square over {} points, -10 to 55 °F evaporating, 80 to 150 °F condensing",
                points.len()
            ),
            "%",
            1,
            Published::AtMost(RMS_PERCENT),
            100.0 * root_mean_square(&points, error),
        ));
        let worst = points.iter().map(|p| error(p).abs()).fold(0.0, f64::max);
        checks.push(Check::new(
            format!("{name}, worst of them"),
            "%",
            1,
            Published::AtMost(WORST_PERCENT),
            100.0 * worst,
        ));
        // The corner that matters to a learner: starved coil and hot day.
        let corner: Vec<&Point> =
            points.iter().filter(|p| p.evaporating_f <= 20.0 && p.condensing_f >= 110.0).collect();
        let mean = corner.iter().map(|p| error(p)).sum::<f64>() / corner.len() as f64;
        checks.push(Check::new(
            format!("{name}, mean of the corner up to 20 °F evaporating, from 110 °F condensing"),
            "%",
            1,
            Published::Near { value: 0.0, band: 2.0 * RMS_PERCENT },
            100.0 * mean,
        ));
    }
    let theirs = best_ratio(|c| map_efficiency(45.0, c));
    checks.push(Check::new(
        "pressure ratio of best efficiency, 45 °F evaporating",
        "",
        2,
        Published::Near { value: theirs, band: 0.3 },
        best_ratio(|c| efficiency(&system, 45.0, c)),
    ));
    for (e, c) in [(45.0, 90.0), (45.0, 115.0), (45.0, 130.0), (45.0, 150.0), (20.0, 110.0), (0.0, 110.0)] {
        checks.push(Check::ratio(
            format!("isentropic efficiency, {e:.0} °F evaporating, {c:.0} °F condensing"),
            map_efficiency(e, c),
            0.05,
            efficiency(&system, e, c),
        ));
    }
    // What the fit was made to.
    for (e, c) in FITTED {
        let (flow, power) = ours(&system, e, c);
        let (e0, c0) = FITTED[0];
        let (flow0, power0) = ours(&system, e0, c0);
        for (name, published, value) in [
            ("flow", map::flow_kg_s(e, c) / map::flow_kg_s(e0, c0), flow / flow0),
            ("power", map::power_w(e, c) / map::power_w(e0, c0), power / power0),
        ] {
            let what = format!("{name} over that at 45/130 °F, {e:.0} °F evaporating, {c:.0} °F condensing");
            checks.push(Check::ratio(what, published, 0.05, value).tuned(SCROLL));
        }
    }
    let line = |of: &dyn Fn(f64) -> f64| {
        (8..=15).map(|c| 10.0 * f64::from(c)).map(|c| (c, of(c))).collect::<Vec<_>>()
    };
    Topic {
        name: "compressor alone",
        source: "The compressor alone, 20 °F of superheat, against the open 3-ton R-410A map of ACHP over its whole range where it is physical; ours scaled to its size at 45 and \
                 115 °F. Bands: 4 % as root mean square (AHRI 540 allows a map 5 %, from memory), 15 % for one point.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![Chart {
            file: "compressor-efficiency",
            title: "Isentropic efficiency against condensing temperature".to_owned(),
            x: "condensing dew temperature, °F".to_owned(),
            y: "ideal over electric power".to_owned(),
            series: vec![
                Series::new(
                    "open map, 45 °F evaporating",
                    Style::Published,
                    line(&|c| map_efficiency(45.0, c)),
                ),
                Series::new(
                    "open map, 30 °F evaporating",
                    Style::PublishedSecond,
                    line(&|c| map_efficiency(30.0, c)),
                ),
                Series::new("ours, 45 °F evaporating", Style::Ours, line(&|c| efficiency(&system, 45.0, c))),
                Series::new(
                    "ours, 30 °F evaporating",
                    Style::OursSecond,
                    line(&|c| efficiency(&system, 30.0, c)),
                ),
            ],
        }],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_map_is_a_compressor_wherever_it_is_compared() {
        let points = grid();
        assert!(points.len() > 70, "{}", points.len());
        for (e, c) in points {
            let efficiency = map_efficiency(e, c);
            assert!((0.35..0.75).contains(&efficiency), "{e} {c}: {efficiency}");
            assert!(map::flow_kg_s(e + 5.0, c) > map::flow_kg_s(e, c), "{e} {c}: flow");
            assert!(map::power_w(e, c + 10.0) > map::power_w(e, c), "{e} {c}: power");
        }
    }
}
