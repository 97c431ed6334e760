//! Target superheat of a fixed orifice.

use crate::chamber::{Point, named, sound};
use crate::chart::{Chart, Series, Style};
use crate::check::{Check, Print, Published, Topic};
use media::units::kelvin_from_fahrenheit;
use plant::System;

/// Held to the rule weather by weather.
const SYSTEMS: [&str; 2] = ["split-2-ton-r410a-orifice", "split-3-ton-r22-orifice"];
/// Held as a known disagreement, with its size.
const MISSES: &str = "split-3-ton-r410a-orifice";
const SISTER: &str = "split-3-ton-r410a-orifice lies low when it is cool outside or dry inside: it keeps the volumes of its sister with a valve and was \
                      tuned at rating A only. Volumes that follow the rule would turn the sign of subcooling under a fouled condenser (below).";
const WET_BULBS_F: [f64; 4] = [58.0, 62.0, 67.0, 72.0];
const OUTDOORS_F: [f64; 5] = [55.0, 65.0, 75.0, 85.0, 95.0];
/// What California Title 24 RA3.2 (2008) passes.
const BAND_F: f64 = 5.0;

/// (3 WB - 80 - OD) / 2 in °F, common practice, no source; zero where it asks for less.
fn rule_f(wet_f: f64, outdoor_f: f64) -> f64 {
    let target = System::target_superheat_k(kelvin_from_fahrenheit(wet_f), kelvin_from_fahrenheit(outdoor_f));
    1.8 * target.unwrap_or(0.0)
}

/// What would be printed as minus nothing without its sign.
fn unsigned(value_f: f64) -> f64 {
    if value_f.abs() < 0.05 { 0.0 } else { value_f }
}

/// A system over all weathers.
struct Grid {
    checks: Vec<Check>,
    /// The rule and ours, °F.
    points: Vec<(f64, f64)>,
    table: String,
}

impl Grid {
    fn of(name: &str) -> Grid {
        let system = named(name);
        let (mut checks, mut points, mut rows) = (Vec::new(), Vec::new(), String::new());
        for wet_f in WET_BULBS_F {
            rows += &format!("| {wet_f:.0} |");
            for outdoor_f in OUTDOORS_F {
                let ours = 1.8 * sound(&system, Point { outdoor_f, dry_f: 80.0, wet_f }).superheat_k;
                let rule = rule_f(wet_f, outdoor_f);
                let check = Check::new(
                    format!("{name}: superheat, {wet_f:.0} °F wet bulb, {outdoor_f:.0} °F out"),
                    "°F",
                    1,
                    Published::Near { value: rule, band: BAND_F },
                    ours,
                );
                let mark = if check.agrees() { "" } else { "**" };
                rows += &format!(" {mark}{:.1}{mark} ({:+.1}) |", unsigned(ours), unsigned(ours - rule));
                checks.push(check);
                points.push((rule, ours));
            }
            rows += "\n";
        }
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        let squares: f64 = points.iter().map(|(rule, ours)| (ours - rule) * (ours - rule)).sum();
        let root_mean_square = f64::sqrt(squares / points.len() as f64);
        let mut table = format!("{name}, root mean square {root_mean_square:.1} °F\n\n| wet bulb |");
        for outdoor_f in OUTDOORS_F {
            let out = if outdoor_f < 60.0 { " °F outdoors" } else { "" };
            table += &format!(" {outdoor_f:.0}{out} |");
        }
        table += &format!("\n|---|{}\n{rows}\n", "---|".repeat(OUTDOORS_F.len()));
        Grid { checks, points, table }
    }

    fn worst_f(&self) -> f64 {
        self.points.iter().map(|(rule, ours)| (ours - rule).abs()).fold(0.0, f64::max)
    }
}

pub fn topic() -> Topic {
    let followers = SYSTEMS.map(Grid::of);
    let misses = Grid::of(MISSES);
    let mut checks: Vec<Check> = followers.iter().flat_map(|grid| grid.checks.clone()).collect();
    let what = format!("{MISSES}: superheat off the rule, worst of 20 weathers");
    checks.push(
        Check::new(what, "°F", 1, Published::AtMost(BAND_F), misses.worst_f()).known(11.0, 13.0, SISTER),
    );
    let tables = followers.iter().chain([&misses]).map(|grid| grid.table.as_str()).collect();
    let [first, second] = followers;
    let rule = vec![(0.0, 0.0), (40.5, 40.5)];
    let series = vec![
        Series::new("the rule, band 5 °F", Style::Guide, rule).band(BAND_F),
        Series::new(SYSTEMS[0], Style::Ours, first.points).apart(),
        Series::new(SYSTEMS[1], Style::OursSecond, second.points).apart(),
    ];
    Topic {
        name: "superheat",
        source: "Superheat at the suction service valve, 80 °F indoors, in °F, with the gap to the rule in brackets.",
        checks,
        print: Print::OwnTables,
        tables,
        charts: vec![Chart {
            file: "superheat",
            title: "Superheat of a fixed orifice against the rule, 20 weathers each".to_owned(),
            x: "superheat by the rule, °F".to_owned(),
            y: "superheat of the settled system, °F".to_owned(),
            series,
        }],
    }
}
