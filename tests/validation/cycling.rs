//! Starts, cycles and the season.

use crate::chamber::{B, C, Point, at_rest, calling, gross_cop, off, orifice, sound, valve};
use crate::check::{Check, Print, Published, Topic};
use crate::picture::{Chart, Series, Style};
use media::units::btu_h_from_w;
use plant::{BASE_STEP_S, Inputs, Plant, System, step};

/// What one stretch of time gave and took, J.
#[derive(Clone, Copy, Debug, Default)]
struct Balance {
    /// Net cooling of the room air while the blower ran.
    cooling_j: f64,
    /// Compressor, fan and blower.
    input_j: f64,
}

impl Balance {
    fn efficiency(self) -> f64 {
        self.cooling_j / self.input_j
    }
}

/// Run for a time, adding up second by second.
fn run(plant: &mut Plant, inputs: &Inputs, seconds: f64, sum: &mut Balance) {
    let steps = libm::round(seconds / BASE_STEP_S) as u64;
    for _ in 0..steps {
        step(plant, inputs, BASE_STEP_S).expect("finite");
        let r = plant.readout();
        if r.blower_speed > 0.5 {
            sum.cooling_j += BASE_STEP_S * r.net_cooling_w;
        }
        sum.input_j += BASE_STEP_S * (r.compressor_power_w + r.outdoor_fan_power_w + r.blower_power_w);
    }
}

/// Test D of AHRI 210/240: C in cycles; the last of four counts. Blower with the compressor.
fn cycle(system: &System, on_s: f64, off_s: f64) -> Balance {
    let mut plant = at_rest(system, C);
    let mut last = Balance::default();
    for _ in 0..4 {
        last = Balance::default();
        run(&mut plant, &calling(), on_s, &mut last);
        run(&mut plant, &off(), off_s, &mut last);
    }
    last
}

/// Coefficient of degradation: (1 - EER in cycles over EER steady) / (1 - cooling load factor), AHRI 210/240.
struct Degradation {
    coefficient: f64,
    part_load_factor: f64,
    load_factor: f64,
}

fn degradation(system: &System, on_s: f64, off_s: f64) -> Degradation {
    let steady = sound(system, C);
    let steady_efficiency = steady.net_cooling_w / crate::chamber::total_power_w(&steady);
    let cyclic = cycle(system, on_s, off_s);
    let load_factor = cyclic.cooling_j / (steady.net_cooling_w * (on_s + off_s));
    let part_load_factor = cyclic.efficiency() / steady_efficiency;
    Degradation { coefficient: (1.0 - part_load_factor) / (1.0 - load_factor), part_load_factor, load_factor }
}

/// Share of the settled cooling that the house gets after a start, by time; the start follows a settled run and half an hour of
/// rest.
fn start_curve(system: &System, at: Point) -> Vec<(f64, f64)> {
    let mut plant = at_rest(system, at);
    let mut unused = Balance::default();
    run(&mut plant, &calling(), 2400.0, &mut unused);
    let settled_w = plant.readout().net_cooling_w;
    run(&mut plant, &off(), 1800.0, &mut unused);
    let mut curve = vec![(0.0, 0.0)];
    for quarter_minute in 1..=32 {
        run(&mut plant, &calling(), 15.0, &mut unused);
        curve.push((0.25 * f64::from(quarter_minute), plant.readout().net_cooling_w / settled_w));
    }
    curve
}

/// How the charge moves when the compressor starts and stops.
struct Moves {
    /// Time until nine tenths of the move into the condenser are done, min.
    start_min: f64,
    /// Share of the move of half an hour's rest that the first minute does.
    first_minute_after_stop: f64,
}

impl Moves {
    /// At A, as the source's tests: a settled run, half an hour of rest, a start.
    fn of(system: &System) -> Moves {
        let mut plant = at_rest(system, crate::chamber::A);
        let mut unused = Balance::default();
        run(&mut plant, &calling(), 2400.0, &mut unused);
        let settled_kg = plant.readout().charge_condenser_kg;
        run(&mut plant, &off(), 60.0, &mut unused);
        let minute_kg = plant.readout().charge_condenser_kg;
        run(&mut plant, &off(), 1740.0, &mut unused);
        let rest_kg = plant.readout().charge_condenser_kg;
        let nearly = 0.1 * (settled_kg - rest_kg).abs();
        let mut start_min = f64::NAN;
        // The last time that it is further off than a tenth, so that an overshoot counts.
        for second in 1..=1200_u32 {
            run(&mut plant, &calling(), 1.0, &mut unused);
            if (plant.readout().charge_condenser_kg - settled_kg).abs() > nearly {
                start_min = f64::from(second) / 60.0;
            }
        }
        Moves { start_min, first_minute_after_stop: (settled_kg - minute_kg) / (settled_kg - rest_kg) }
    }
}

/// Winkler 2011 (NREL), as coded in open building programs: share of full capacity, minutes after a start.
fn winkler(coefficient: f64, minutes: f64) -> f64 {
    let full_min = 20.0 * coefficient + 0.4;
    (1.025 - 1.025 * libm::exp(-3.799_36 * minutes / full_min)).clamp(0.0, 1.0)
}

/// When a curve passes a share for good.
fn when(curve: &[(f64, f64)], share: f64) -> f64 {
    curve
        .windows(2)
        .rfind(|pair| pair[0].1 < share && pair[1].1 >= share)
        .map_or(f64::NAN, |p| p[0].0 + (p[1].0 - p[0].0) * (share - p[0].1) / (p[1].1 - p[0].1))
}

const OIL: &str = "Valve, move of charge into the condenser: quick at first (half of it within a minute), then slow: 150 g are still dissolved in the oil after five minutes and come as the shell warms.";

pub fn topic() -> Topic {
    let mut checks = Vec::new();
    let mut starts = Vec::new();
    for (name, system) in [("valve", valve()), ("orifice", orifice())] {
        // D: 6 minutes on, 24 off.
        let d = degradation(&system, 360.0, 1440.0);
        let by_valve = name == "valve";
        checks.push(Check::new(
            format!("{name}: coefficient of degradation in test D"),
            "",
            3,
            Published::Between { low: 0.05, high: 0.25 },
            d.coefficient,
        ));
        // 10 on, 10 off: the line PLF = 1 - Cd (1 - PLR) with the coefficient of D.
        let half = degradation(&system, 600.0, 600.0);
        let line = 1.0 - d.coefficient * (1.0 - half.load_factor);
        checks.push(Check::ratio(
            format!("{name}: part load factor, 10 min on, 10 off, against the straight line through D"),
            line,
            0.03,
            half.part_load_factor,
        ));
        let curve = start_curve(&system, B);
        let nine_tenths =
            |coefficient: f64| -(20.0 * coefficient + 0.4) / 3.799_36 * libm::log(1.0 - 0.9 / 1.025);
        // An orifice lets the coil fill with liquid at rest: it starts with a surge and sags while the sump holds what came
        // over. What counts is when it is there for good.
        checks.push(Check::new(
            format!(
                "{name}: time from start to nine tenths of the cooling, curves for coefficients of 0.07 to 0.25"
            ),
            "min",
            1,
            Published::Between { low: nine_tenths(0.07), high: nine_tenths(0.25) },
            when(&curve, 0.9),
        ));
        let moves = Moves::of(&system);
        // "Rapidly within 300 s, gently after": nine tenths by then, and not in the first minute, in which nothing would be left to be gentle.
        let mut check = Check::new(
            format!(
                "{name}: time from start until nine tenths of the move of charge into the condenser are done"
            ),
            "min",
            1,
            Published::Between { low: 1.0, high: 5.0 },
            moves.start_min,
        );
        if by_valve {
            check = check.known(5.0, 8.0, OIL);
        }
        checks.push(check);
        if name == "orifice" {
            checks.push(Check::new(
                format!("{name}: share of the move of charge out of the condenser after a stop that the first minute does"),
                "",
                2,
                Published::AtLeast(0.5),
                moves.first_minute_after_stop,
            ));
        }
        starts.push((d.coefficient, curve));
        let seasonal = sound(&system, B).net_cooling_w / crate::chamber::total_power_w(&sound(&system, B))
            * (1.0 - 0.5 * d.coefficient);
        let (seer, eer) = (btu_h_from_w(seasonal), {
            let r = sound(&system, crate::chamber::A);
            btu_h_from_w(r.net_cooling_w / crate::chamber::total_power_w(&r))
        });
        let from_seer = -0.02 * seer * seer + 1.12 * seer;
        checks.push(Check::new(
            format!("{name}: EER at A, against that from its SEER of {seer:.1}"),
            "Btu/(W h)",
            1,
            Published::Near { value: from_seer, band: 0.06 * from_seer },
            eer,
        ));
    }
    checks.push(Check::ratio(
        "orifice and valve alike when settled: gross COP at A, orifice over valve",
        1.0,
        0.02,
        gross_cop(&sound(&orifice(), crate::chamber::A)) / gross_cop(&sound(&valve(), crate::chamber::A)),
    ));
    let minutes = |curve: &[(f64, f64)]| curve.iter().map(|p| p.0).collect::<Vec<_>>();
    let published = |coefficient: f64| {
        minutes(&starts[0].1).iter().map(|m| (*m, winkler(coefficient, *m))).collect::<Vec<_>>()
    };
    Topic {
        name: "cycling",
        source: "Coefficient of degradation and part load factor: AHRI 210/240, test D (6 min on, 24 off, dry coil); the range from 0.07 (NREL, good \
                 systems) over 0.20 to 0.25 (defaults of the standard over the years), measured values from 0.05 on (from memory). Start: \
                 Winkler 2011 (NREL), as coded in open building programs. EER from SEER: -0.02 SEER² + 1.12 SEER (Wassmer & Brandemuehl 2006), \
                 SEER = EER at B × (1 - 0.5 Cd), single speed (AHRI 210/240). Charge: measured by quick-closing valves on an R-410A split, abstract in Applied \
                 Thermal Engineering 2018: it moves rapidly within 300 s of a start and within 60 s of a stop, gently after.",
        checks,
        print: Print::Rows,
        tables: String::new(),
        charts: vec![Chart {
            file: "start",
            title: "Cooling after a start, B, half an hour of rest before".to_owned(),
            x: "minutes after the start".to_owned(),
            y: "share of the settled cooling".to_owned(),
            series: vec![
                Series::new("Winkler 2011, coefficient 0.07", Style::Published, published(0.07)),
                Series::new("Winkler 2011, coefficient 0.25", Style::PublishedSecond, published(0.25)),
                Series::new("ours, valve", Style::Ours, starts[0].1.clone()),
                Series::new("ours, orifice", Style::OursSecond, starts[1].1.clone()),
            ],
        }],
    }
}
