//! Operating pressures over the weather, as the makers print them for the technician.
//!
//! Makers print what the gauges ought to show, with a tolerance. How high a pressure stands depends on the generation of the
//! equipment; how it moves with the weather hardly does. So the movement is compared on every system, and the level only where a
//! system of that generation is asked for.

use crate::chamber::{A, Point, named, sound};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
use media::refrigerant::Refrigerant;
use media::units::{STANDARD_ATMOSPHERE_PA, fahrenheit_from_kelvin, pa_from_psig};
use plant::System;

/// Tolerance of a movement of condensing temperature, °F: the makers print ±10 psig of liquid pressure, which is 2 °F at 95 °F outdoors with R-410A
/// and 3 °F with R-22; a difference of two readings of one gauge is allowed a little more than one.
const HEAD_BAND_F: f64 = 3.0;
/// The same of evaporating temperature: ±5 psig of suction pressure is 2 °F with R-410A, 3 °F with R-22.
const SUCTION_BAND_F: f64 = 3.0;

/// Printed pressures of one family of units: outdoor temperature, °F, liquid and suction pressure of each size, psig.
struct Printed {
    name: &'static str,
    fluid: fn() -> &'static Refrigerant,
    rows: &'static [(f64, &'static [f64], &'static [f64])],
}

/// R-410A, 13 SEER split, valve, 3 to 5 tons: installation instructions, "normal operating pressures (±10 and ±5 psig)", 2008; read.
const SPLIT_410A: Printed = Printed {
    name: "13 SEER split, valve",
    fluid: Refrigerant::r410a,
    rows: &[
        (65.0, &[238.0, 236.0, 238.0, 239.0], &[132.0, 138.0, 136.0, 133.0]),
        (75.0, &[273.0, 273.0, 277.0, 278.0], &[138.0, 141.0, 139.0, 136.0]),
        (85.0, &[316.0, 318.0, 320.0, 323.0], &[142.0, 143.0, 139.0, 138.0]),
        (95.0, &[366.0, 366.0, 369.0, 370.0], &[144.0, 146.0, 141.0, 140.0]),
        (105.0, &[420.0, 417.0, 422.0, 415.0], &[147.0, 148.0, 144.0, 143.0]),
        (115.0, &[480.0, 475.0, 481.0, 476.0], &[149.0, 151.0, 148.0, 147.0]),
    ],
};

/// R-410A, 14 SEER in one cabinet, 2 to 5 tons, 80/67 °F return air: installation instructions, table of cooling performance; read.
const PACKAGE_410A: Printed = Printed {
    name: "14 SEER package",
    fluid: Refrigerant::r410a,
    rows: &[
        (65.0, &[250.0, 247.0, 250.0, 248.0, 265.0, 256.0], &[135.0, 135.0, 135.0, 129.0, 132.0, 130.0]),
        (75.0, &[282.0, 292.0, 301.0, 293.0, 308.0, 296.0], &[137.0, 140.0, 140.0, 135.0, 139.0, 133.0]),
        (85.0, &[318.0, 336.0, 351.0, 339.0, 352.0, 340.0], &[141.0, 145.0, 144.0, 141.0, 145.0, 136.0]),
        (95.0, &[363.0, 380.0, 399.0, 385.0, 400.0, 386.0], &[146.0, 150.0, 149.0, 145.0, 147.0, 141.0]),
        (105.0, &[413.0, 432.0, 446.0, 436.0, 455.0, 438.0], &[150.0, 154.0, 152.0, 147.0, 151.0, 146.0]),
        (115.0, &[463.0, 483.0, 493.0, 487.0, 509.0, 503.0], &[154.0, 157.0, 155.0, 149.0, 154.0, 152.0]),
    ],
};

/// R-22, 10 SEER split, valve, 1 to 5 tons: installation instructions, table of normal operating pressures; read.
const VALVE_22: Printed = Printed {
    name: "10 SEER split, valve",
    fluid: Refrigerant::r22,
    rows: &[
        (
            65.0,
            &[140.0, 159.0, 164.0, 173.0, 179.0, 157.0, 158.0, 142.0, 151.0],
            &[79.0, 73.0, 71.0, 71.0, 68.0, 71.0, 70.0, 73.0, 69.0],
        ),
        (
            75.0,
            &[161.0, 183.0, 189.0, 199.0, 205.0, 187.0, 182.0, 168.0, 179.0],
            &[80.0, 75.0, 73.0, 73.0, 70.0, 73.0, 72.0, 75.0, 71.0],
        ),
        (
            85.0,
            &[189.0, 209.0, 217.0, 228.0, 235.0, 217.0, 205.0, 202.0, 211.0],
            &[81.0, 77.0, 75.0, 75.0, 72.0, 74.0, 73.0, 76.0, 73.0],
        ),
        (
            95.0,
            &[220.0, 238.0, 247.0, 258.0, 266.0, 255.0, 246.0, 245.0, 249.0],
            &[83.0, 80.0, 78.0, 78.0, 74.0, 76.0, 76.0, 77.0, 74.0],
        ),
        (
            105.0,
            &[254.0, 269.0, 279.0, 292.0, 299.0, 289.0, 280.0, 280.0, 286.0],
            &[84.0, 82.0, 80.0, 79.0, 77.0, 77.0, 79.0, 78.0, 75.0],
        ),
    ],
};

/// The same units with a fixed orifice; same place.
const ORIFICE_22: Printed = Printed {
    name: "10 SEER split, orifice",
    fluid: Refrigerant::r22,
    rows: &[
        (
            65.0,
            &[145.0, 155.0, 160.0, 168.0, 176.0, 162.0, 157.0, 153.0, 159.0],
            &[71.0, 65.0, 65.0, 63.0, 62.0, 68.0, 69.0, 66.0, 64.0],
        ),
        (
            75.0,
            &[167.0, 181.0, 188.0, 197.0, 203.0, 185.0, 182.0, 180.0, 188.0],
            &[77.0, 70.0, 70.0, 68.0, 66.0, 72.0, 72.0, 71.0, 68.0],
        ),
        (
            85.0,
            &[192.0, 208.0, 216.0, 227.0, 233.0, 210.0, 204.0, 210.0, 219.0],
            &[81.0, 75.0, 74.0, 73.0, 70.0, 73.0, 73.0, 74.0, 72.0],
        ),
        (
            95.0,
            &[221.0, 238.0, 247.0, 258.0, 266.0, 252.0, 244.0, 245.0, 253.0],
            &[84.0, 80.0, 78.0, 77.0, 74.0, 76.0, 76.0, 77.0, 75.0],
        ),
        (
            105.0,
            &[253.0, 270.0, 280.0, 292.0, 299.0, 287.0, 278.0, 279.0, 287.0],
            &[87.0, 84.0, 82.0, 80.0, 77.0, 79.0, 79.0, 79.0, 76.0],
        ),
    ],
};

/// Suction pressure, psig, of a 3-ton R-410A split with a valve by outdoor dry bulb (rows) and indoor wet bulb 59, 63, 67, 71 °F: installer's guide
/// of a third maker, system pressure table; read.
const SUCTION_BY_WET_BULB: [(f64, [f64; 4]); 4] = [
    (80.0, [127.0, 133.0, 141.0, 147.0]),
    (90.0, [129.0, 135.0, 143.0, 149.0]),
    (100.0, [132.0, 138.0, 145.0, 153.0]),
    (110.0, [135.0, 142.0, 150.0, 157.0]),
];
const WET_BULBS_F: [f64; 4] = [59.0, 63.0, 67.0, 71.0];

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

fn absolute_pa(psig: f64) -> f64 {
    pa_from_psig(psig, STANDARD_ATMOSPHERE_PA)
}

impl Printed {
    /// Condensing (bubble) temperature over outdoors and evaporating (dew) temperature, °F, of the mean unit.
    fn at(&self, outdoor_f: f64) -> (f64, f64) {
        let row = self.rows.iter().find(|row| (row.0 - outdoor_f).abs() < 1e-9).expect("a printed weather");
        let fluid = (self.fluid)();
        (
            fahrenheit_from_kelvin(fluid.bubble_k(absolute_pa(mean(row.1)))) - outdoor_f,
            fahrenheit_from_kelvin(fluid.dew_k(absolute_pa(mean(row.2)))),
        )
    }

    fn outdoors_f(&self) -> impl Iterator<Item = f64> + '_ {
        self.rows.iter().map(|row| row.0)
    }
}

/// What the gauges of a sound system read, as saturation temperatures: bubble over outdoors at the liquid port, dew at the suction port, °F.
fn gauges(system: &System, at: Point) -> (f64, f64) {
    let r = sound(system, at);
    let fluid = system.refrigerant.tables();
    (
        fahrenheit_from_kelvin(fluid.bubble_k(r.liquid_pressure_pa)) - at.outdoor_f,
        fahrenheit_from_kelvin(fluid.dew_k(r.suction_pressure_pa)),
    )
}

/// Our system, what it is held against.
const PAIRS: [(&str, &Printed); 7] = [
    ("split-3-ton-r410a-txv", &SPLIT_410A),
    ("split-3-ton-r410a-txv", &PACKAGE_410A),
    ("split-5-ton-r410a-txv-ecm", &SPLIT_410A),
    ("split-3-ton-r22-txv", &VALVE_22),
    ("split-3-ton-r22-orifice", &ORIFICE_22),
    ("split-3-ton-r410a-txv-ecm-high-efficiency", &SPLIT_410A),
    ("split-5-ton-r410a-txv-ecm-high-efficiency", &SPLIT_410A),
];

/// A curve of a chart.
type Curve = Vec<(f64, f64)>;

/// Compare one pair. The worst weather is one check, not each weather one, so that a table that agrees easily does not swell the count.
fn movements(name: &str, printed: &Printed, checks: &mut Vec<Check>, table: &mut String) -> (Curve, Curve) {
    let system = named(name);
    let at = |outdoor_f: f64| Point { outdoor_f, ..A };
    let (theirs_a, ours_a) = (printed.at(A.outdoor_f), gauges(&system, A));
    let label = format!("{name} against {}", printed.name);
    let (mut theirs, mut ours) = (Vec::new(), Vec::new());
    let (mut worst_head, mut worst_suction): (f64, f64) = (0.0, 0.0);
    let (mut head_row, mut suction_row) =
        (format!("| {label}: condensing over outdoors |"), format!("| {label}: evaporating |"));
    for outdoor_f in printed.outdoors_f() {
        let (published, now) = (printed.at(outdoor_f), gauges(&system, at(outdoor_f)));
        theirs.push((outdoor_f, published.0));
        ours.push((outdoor_f, now.0));
        let head = (now.0 - ours_a.0, published.0 - theirs_a.0);
        let suction = (now.1 - ours_a.1, published.1 - theirs_a.1);
        worst_head = worst_head.max((head.0 - head.1).abs());
        worst_suction = worst_suction.max((suction.0 - suction.1).abs());
        head_row += &format!(" {:+.1} ({:+.1}) |", head.0, head.1);
        suction_row += &format!(" {:+.1} ({:+.1}) |", suction.0, suction.1);
    }
    // Not every maker prints the hottest weathers.
    let rest = " - |".repeat(SPLIT_410A.rows.len() - printed.rows.len());
    *table += &format!("{head_row}{rest}\n{suction_row}{rest}\n");
    for (what, band, worst) in [
        ("condensing over outdoors", HEAD_BAND_F, worst_head),
        ("evaporating", SUCTION_BAND_F, worst_suction),
    ] {
        checks.push(Check::new(
            format!("{label}: change of {what} against 95 °F, furthest off of {} weathers", theirs.len() - 1),
            "°F",
            1,
            Published::AtMost(band),
            worst,
        ));
    }
    // From end to end, where a sag adds up.
    let (first, last) = (theirs[0], theirs[theirs.len() - 1]);
    checks.push(Check::new(
        format!("{label}: condensing over outdoors, whole change from {:.0} to {:.0} °F", first.0, last.0),
        "°F",
        1,
        Published::Near { value: last.1 - first.1, band: HEAD_BAND_F },
        ours[ours.len() - 1].1 - ours[0].1,
    ));
    (theirs, ours)
}

/// Evaporating temperature against indoor wet bulb and weather, valve.
fn wet_bulbs(checks: &mut Vec<Check>) -> String {
    let system = named("split-3-ton-r410a-txv");
    let fluid = Refrigerant::r410a();
    let dew_f = |psig: f64| fahrenheit_from_kelvin(fluid.dew_k(absolute_pa(psig)));
    let theirs_middle = dew_f(SUCTION_BY_WET_BULB[1].1[2]);
    let ours_middle = gauges(&system, Point { outdoor_f: 90.0, dry_f: 80.0, wet_f: 67.0 }).1;
    let mut worst: f64 = 0.0;
    let mut table = "Evaporating of split-3-ton-r410a-txv against 90 °F out and 67 °F wet bulb, °F: ours (printed).\n\n| out |".to_owned();
    for wet_f in WET_BULBS_F {
        table += &format!(" {wet_f:.0} °F wet bulb |");
    }
    table += &format!("\n|---|{}\n", "---|".repeat(WET_BULBS_F.len()));
    for (outdoor_f, pressures) in SUCTION_BY_WET_BULB {
        table += &format!("| {outdoor_f:.0} °F |");
        for (wet_f, psig) in WET_BULBS_F.into_iter().zip(pressures) {
            let ours = gauges(&system, Point { outdoor_f, dry_f: 80.0, wet_f }).1 - ours_middle;
            let published = dew_f(psig) - theirs_middle;
            worst = worst.max((ours - published).abs());
            table += &format!(" {ours:+.1} ({published:+.1}) |");
        }
        table += "\n";
    }
    checks.push(Check::new(
        "split-3-ton-r410a-txv: change of evaporating over 80 to 110 °F out and 59 to 71 °F wet bulb, furthest off of 15",
        "°F",
        1,
        Published::AtMost(SUCTION_BAND_F),
        worst,
    ));
    table
}

/// Systems with R-410A and a valve, 3 to 5 tons, as the printed ones are, by generation.
const GENERATIONS: [(&str, &[&str]); 2] = [
    (
        "older",
        &["split-3-ton-r410a-txv", "split-3-ton-r410a-txv-small-condenser", "split-5-ton-r410a-txv-ecm"],
    ),
    (
        "high-efficiency",
        &["split-3-ton-r410a-txv-ecm-high-efficiency", "split-5-ton-r410a-txv-ecm-high-efficiency"],
    ),
];

/// Level at A: the mean of the generation that condenses nearest to the printed units, which are a mean of sizes too.
fn level(checks: &mut Vec<Check>) {
    let (published_head, published_suction) = SPLIT_410A.at(A.outdoor_f);
    let nearest = GENERATIONS
        .iter()
        .map(|(generation, names)| {
            let all: Vec<(f64, f64)> = names.iter().map(|name| gauges(&named(name), A)).collect();
            let of = |part: fn(&(f64, f64)) -> f64| mean(&all.iter().map(part).collect::<Vec<_>>());
            (*generation, of(|g| g.0), of(|g| g.1))
        })
        .min_by(|a, b| (a.1 - published_head).abs().total_cmp(&(b.1 - published_head).abs()));
    let Some((generation, head, suction)) = nearest else { unreachable!("there are generations") };
    for (what, band, published, ours) in [
        ("condensing over outdoors", HEAD_BAND_F, published_head, head),
        ("evaporating", SUCTION_BAND_F, published_suction, suction),
    ] {
        checks.push(Check::new(
            format!("{what} at A, mean of the {generation} systems with R-410A and a valve, against a 13 SEER split"),
            "°F",
            1,
            Published::Near { value: published, band },
            ours,
        ));
    }
}

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    let mut curves: Vec<(&str, Curve, Curve)> = Vec::new();
    let mut tables = "Against 95 °F outdoors, °F: ours (printed).\n\n| |".to_owned();
    for outdoor_f in SPLIT_410A.outdoors_f() {
        tables += &format!(" {outdoor_f:.0} °F out |");
    }
    tables += &format!("\n|---|{}\n", "---|".repeat(SPLIT_410A.rows.len()));
    for (name, printed) in PAIRS {
        let (theirs, ours) = movements(name, printed, &mut checks, &mut tables);
        curves.push((printed.name, theirs, ours));
    }
    tables += &format!("\n{}", wet_bulbs(&mut checks));
    level(&mut checks);
    let (split, package, old) = (&curves[0], &curves[1], &curves[4]);
    Topic {
        name: "pressures",
        source: "Operating pressures as printed in installation instructions of split and package units of three makers, mean of all sizes, as \
                 saturation temperatures by our tables; 80/67 °F indoors. Changes against 95 °F outdoors: level is a matter of generation, movement is not. Bands: the \
                 printed tolerances, ±10 psig of liquid and ±5 psig of suction pressure, 3 °F either way.",
        checks,
        print: Print::Rows,
        tables,
        charts: vec![Chart {
            file: "condensing-over-outdoors",
            title: "Condensing over outdoor temperature, 80/67 °F indoors".to_owned(),
            x: "outdoor dry bulb, °F".to_owned(),
            y: "saturation at the liquid port over outdoors, °F".to_owned(),
            series: vec![
                Series::new("R-410A, 13 SEER split, printed", Style::Published, split.1.clone()),
                Series::new("R-410A, 14 SEER package, printed", Style::Published, package.1.clone()),
                Series::new("R-22, 10 SEER split, printed", Style::PublishedSecond, old.1.clone()),
                Series::new("ours, 3-ton R-410A, valve", Style::Ours, split.2.clone()),
                Series::new("ours, 3-ton R-22, orifice", Style::OursSecond, old.2.clone()),
            ],
        }],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Typed in rightly: pressures rise along every column, and the tables are those of a sound unit.
    #[test]
    fn printed_pressures_rise_with_the_weather() {
        for printed in [&SPLIT_410A, &PACKAGE_410A, &VALVE_22, &ORIFICE_22] {
            for pair in printed.rows.windows(2) {
                let rises = |a: &[f64], b: &[f64]| a.len() == b.len() && a.iter().zip(b).all(|(a, b)| b >= a);
                assert!(rises(pair[0].1, pair[1].1) && rises(pair[0].2, pair[1].2), "{}", printed.name);
            }
            let (over_f, evaporating_f) = printed.at(95.0);
            assert!(
                (10.0..30.0).contains(&over_f) && (38.0..55.0).contains(&evaporating_f),
                "{}",
                printed.name
            );
        }
        for row in SUCTION_BY_WET_BULB {
            assert!(row.1.windows(2).all(|pair| pair[1] > pair[0]));
        }
    }
}
