//! A restriction in the liquid line.
//!
//! The fault level of Cheung & Braun is, in the words of the measure's documentation, the ratio of the increase of the
//! pressure difference between condenser outlet and evaporator inlet due to the restriction. That can be read in two ways, and
//! the metering device of the units behind the correlation is not known here. So both readings are looked at on both devices:
//! *own drop*: what the restriction itself drops, over the healthy difference; *whole difference*: by how much the difference
//! between condenser outlet and evaporator inlet has grown.

use crate::chamber::{A, fault, gross_cop, orifice, settled, sound, valve};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
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

const OPENS: &str = "Valve behind a restriction of 20 %: our valve has room to open and feeds the coil as before, so capacity holds until its stroke is used up, at a drop \
                     of 30 %, and is down by a tenth at a half.";
const CHOKED: &str = "Orifice behind a restriction of 20 and 25 %: a short tube is choked. It feels how far above saturation its liquid arrives, not the whole difference, and the liquid \
                      that it holds back subcools in the condenser by 2 to 3 K more; so it loses a third of what is published.";

const BAND: f64 = 0.06;

/// A severity at which the capacity is down to a share, by bisection, and the state there.
fn at_capacity(system: &System, kind: FaultKind, share: f64) -> Readout {
    let healthy = sound(system, A);
    let (mut low, mut high) = (0.3, 0.995);
    let mut r = healthy.clone();
    for _ in 0..10 {
        let mid = 0.5 * (low + high);
        r = settled(system, A, 1.0, &[fault(kind, mid)]).readout;
        if r.gross_cooling_w > share * healthy.gross_cooling_w { low = mid } else { high = mid }
    }
    r
}

/// What a technician reads of a restriction that costs a quarter of the capacity.
fn readings(checks: &mut Vec<Check>) {
    for (device, system) in [("valve", valve()), ("orifice", orifice())] {
        let healthy = sound(&system, A);
        for (place, kind) in [("drier", FaultKind::PluggedDrier), ("kink", FaultKind::KinkedLiquidLine)] {
            let r = at_capacity(&system, kind, 0.75);
            let name = format!("{device}, {place}, three quarters of the capacity");
            let change_f = |of: fn(&Readout) -> f64| 1.8 * (of(&r) - of(&healthy));
            let rows: [(&str, Published, f64); 4] = [
                ("evaporating", Published::Falls, change_f(|r| r.evaporating_k)),
                ("superheat", Published::Rises, change_f(|r| r.superheat_k)),
                // "High head is not typically an indicator of a restriction", "low to normal": two degrees, what a gauge shows.
                ("condensing, not up", Published::AtMost(2.0), change_f(|r| r.condensing_k)),
                // "Normal to a bit high": the 3 degrees of RA3.2 below normal are no longer normal.
                ("subcooling, normal to high", Published::AtLeast(-3.0), change_f(|r| r.subcooling_k)),
            ];
            for (what, published, ours) in rows {
                checks.push(Check::new(format!("{name}: {what}"), "°F", 1, published, ours));
            }
        }
        // "A local cool spot after a severe restriction": a clamp thermometer tells 3 °F.
        let severe = at_capacity(&system, FaultKind::PluggedDrier, 0.4);
        checks.push(Check::new(
            format!("{device}, drier, two fifths of the capacity: drop of temperature across it"),
            "°F",
            1,
            Published::AtLeast(3.0),
            1.8 * (severe.liquid_before_drier_k - severe.liquid_after_drier_k),
        ));
    }
}

pub fn topic() -> Topic {
    let (by_valve, by_orifice) = (runs(&valve()), runs(&orifice()));
    let mut checks = Vec::new();
    for (device, runs) in [("valve", &by_valve), ("orifice", &by_orifice)] {
        let (capacity, cop) = at_level(runs, 0.2);
        let of_capacity = Check::ratio(format!("{device}, drop of 20 %: capacity"), 0.889, BAND, capacity);
        let of_cop = Check::ratio(format!("{device}, drop of 20 %: COP"), 0.899, BAND, cop);
        checks.extend(if device == "valve" {
            [of_capacity.known(0.97, 1.01, OPENS), of_cop.known(0.97, 1.01, OPENS)]
        } else {
            [of_capacity.known(0.95, 0.985, CHOKED), of_cop]
        });
    }
    for level in [0.1, 0.25] {
        let (capacity, cop) = at_level(&by_orifice, level);
        let (from_capacity, from_cop) = RESTRICTION.at_a(level);
        let name = format!("orifice, drop of {:.0} %", 100.0 * level);
        let mut pair = [
            Check::ratio(format!("{name}: capacity"), from_capacity, BAND, capacity),
            Check::ratio(format!("{name}: COP"), from_cop, BAND, cop),
        ];
        if level > 0.2 {
            pair = pair.map(|check| check.known(0.92, 0.97, CHOKED));
        }
        checks.extend(pair);
    }
    readings(&mut checks);
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
         had is not known here; with either of ours the loss begins later and is then steeper.",
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
        source: "Rating A, a plugged drier. Cheung & Braun, NREL fy16osti/65030, coefficients as coded in the OpenStudio fault measures. \
                 Readings: two trade publications on liquid-line restrictions (ACHR News, 2019, and a training page), low suction, high superheat, low to normal head, normal to high \
                 subcooling, a cool spot after a severe one.",
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
