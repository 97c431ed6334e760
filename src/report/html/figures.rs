//! Figures of the plant: its course, its cycle, its future.

use chart::{Axis, Chart, Curve, Foot, Mark, Pen, Shape};
use maud::Markup;
use media::units::{STANDARD_ATMOSPHERE_PA, kelvin_from_celsius};
use visit::{AirPoint, Bulb, Measured, Outcome, PipePoint, Port, Sample, Trust, Visit};

use crate::course::Course;
use crate::cycle::{Corner, Cycle, Cycles};
use crate::run_on::{FateSample, Projection};
use words::{Units, Words};

use super::axes;

/// The charts of the course, in order, each with its caption.
pub(super) fn course(visit: &Visit, course: &Course, words: Words) -> Vec<(Markup, String)> {
    [
        (pressures(visit, course, words), "page-pressures-caption"),
        (lines(visit, course, words), "page-lines-caption"),
        (air(visit, course, words), "page-air-caption"),
        (ice(course, words), "page-ice-caption"),
        (charge(visit, course, words), "page-charge-caption"),
    ]
    .map(|(chart, caption)| (chart.svg(), words.label(caption)))
    .into()
}

fn minutes(course: &Course, words: Words) -> Axis {
    axes::minutes(words.label("page-axis-minutes"), course.length_s() / 60.0)
}

fn curve(course: &Course, name: String, pen: Pen, value: impl Fn(&Sample) -> f64) -> Curve {
    let points = course.samples.iter().map(|s| [s.since_arrival_s / 60.0, value(s)]).collect();
    Curve::new(name, pen, points)
}

/// Readings that a function finds a value for.
fn marks(visit: &Visit, value: impl Fn(Measured, f64) -> Option<f64>) -> Vec<Mark> {
    visit
        .notebook()
        .iter()
        .filter_map(|entry| {
            let Outcome::Read(reading) = &entry.outcome else { return None };
            let value = value(reading.quantity, reading.value)?;
            Some(Mark {
                at: [(entry.finished_s - visit.arrival_s()) / 60.0, value],
                shape: if reading.trust == Trust::Sound { Shape::Full } else { Shape::Hollow },
                label: entry.number.to_string(),
            })
        })
        .collect()
}

fn over(curves: &[Curve], marks: &[Mark], label: String, foot: Foot) -> Axis {
    let values = curves.iter().flat_map(|curve| curve.points.iter().map(|point| point[1]));
    Axis::over(label, values.chain(marks.iter().map(|mark| mark.at[1])), foot)
}

fn pressures(visit: &Visit, course: &Course, words: Words) -> Chart {
    let curves = vec![
        curve(course, words.label("page-curve-liquid"), Pen::Solid, |s| {
            words.units.pressure_number(s.liquid_gauge_pa)
        }),
        curve(course, words.label("page-curve-suction"), Pen::Dashed, |s| {
            words.units.pressure_number(s.suction_gauge_pa)
        }),
    ];
    let marks = marks(visit, |quantity, value| match quantity {
        Measured::GaugePressure(Port::Suction | Port::Liquid) => Some(words.units.pressure_number(value)),
        _ => None,
    });
    Chart {
        id: "pressure".to_owned(),
        title: words.label("page-pressures-title"),
        about: ends(course, |s| words.units.gauge_pressure(s.suction_gauge_pa))
            .map_or_else(String::new, |[first, last]| {
                words.fill("page-pressures-about", &[("first", first), ("last", last)])
            }),
        height: 230.0,
        x: minutes(course, words),
        y: over(
            &curves,
            &marks,
            words.fill("page-axis-pressure", &[("unit", words.units.pressure_unit().to_owned())]),
            Foot::Zero,
        ),
        curves,
        marks,
        levels: Vec::new(),
    }
}

fn lines(visit: &Visit, course: &Course, words: Words) -> Chart {
    let t = |kelvin: f64| words.units.temperature_number(kelvin);
    let curves = vec![
        curve(course, words.label("page-curve-liquid-line"), Pen::Solid, |s| t(s.liquid_line_k)),
        curve(course, words.label("page-curve-suction-line"), Pen::Dashed, |s| t(s.suction_line_k)),
        curve(course, words.label("page-curve-coil"), Pen::Dotted, |s| t(s.coil_surface_k)),
    ];
    let marks = marks(visit, |quantity, value| match quantity {
        Measured::PipeTemperature(PipePoint::SuctionAtServiceValve | PipePoint::LiquidAtServiceValve) => {
            Some(t(value))
        }
        _ => None,
    });
    Chart {
        id: "lines".to_owned(),
        title: words.label("page-lines-title"),
        about: ends(course, |s| words.units.temperature(s.coil_surface_k))
            .map_or_else(String::new, |[first, last]| {
                words.fill("page-lines-about", &[("first", first), ("last", last)])
            }),
        height: 230.0,
        x: minutes(course, words),
        y: over(
            &curves,
            &marks,
            words.fill("page-axis-temperature", &[("unit", words.units.temperature_unit().to_owned())]),
            Foot::Lowest,
        ),
        curves,
        marks,
        levels: vec![(t(kelvin_from_celsius(0.0)), words.label("page-water-freezes"))],
    }
}

fn air(visit: &Visit, course: &Course, words: Words) -> Chart {
    let t = |kelvin: f64| words.units.temperature_number(kelvin);
    let curves = vec![
        curve(course, words.label("page-curve-outdoor"), Pen::DashDot, |s| t(s.outdoor_k)),
        curve(course, words.label("page-curve-room"), Pen::Dotted, |s| t(s.room_k)),
        curve(course, words.label("page-curve-return"), Pen::Dashed, |s| t(s.return_k)),
        curve(course, words.label("page-curve-supply"), Pen::Solid, |s| t(s.supply_k)),
    ];
    let marks = marks(visit, |quantity, value| match quantity {
        Measured::AirTemperature(AirPoint::Return | AirPoint::Supply | AirPoint::Outdoor, Bulb::Dry) => {
            Some(t(value))
        }
        _ => None,
    });
    Chart {
        id: "air".to_owned(),
        title: words.label("page-air-title"),
        about: ends(course, |s| words.units.temperature(s.room_k))
            .map_or_else(String::new, |[first, last]| {
                words.fill("page-air-about", &[("first", first), ("last", last)])
            }),
        height: 230.0,
        x: minutes(course, words),
        y: over(
            &curves,
            &marks,
            words.fill("page-axis-dry-bulb", &[("unit", words.units.temperature_unit().to_owned())]),
            Foot::Lowest,
        ),
        curves,
        marks,
        levels: Vec::new(),
    }
}

fn ice(course: &Course, words: Words) -> Chart {
    let curves = vec![curve(course, words.label("page-curve-ice"), Pen::Solid, |s| {
        words.units.small_mass_number(s.frost_mass_kg)
    })];
    Chart {
        id: "ice".to_owned(),
        title: words.label("page-ice-title"),
        about: ends(course, |s| words.units.mass(s.frost_mass_kg))
            .map_or_else(String::new, |[first, last]| {
                words.fill("page-ice-about", &[("first", first), ("last", last)])
            }),
        height: 170.0,
        x: minutes(course, words),
        y: over(
            &curves,
            &[],
            words.fill("page-axis-ice", &[("unit", words.units.small_mass_unit().to_owned())]),
            Foot::Zero,
        ),
        curves,
        marks: Vec::new(),
        levels: Vec::new(),
    }
}

fn charge(visit: &Visit, course: &Course, words: Words) -> Chart {
    let plate = words.units.small_mass_number(visit.call().system.plate_charge_kg);
    let mut curves = vec![curve(course, words.label("page-curve-circuit"), Pen::Solid, |s| {
        words.units.small_mass_number(s.charge_kg)
    })];
    let y = {
        let ends = [[0.0, plate], [course.length_s() / 60.0, plate]];
        curves.push(Curve::new(words.label("page-curve-plate"), Pen::Dashed, ends.to_vec()));
        over(
            &curves,
            &[],
            words.fill("page-axis-refrigerant", &[("unit", words.units.small_mass_unit().to_owned())]),
            Foot::Zero,
        )
    };
    Chart {
        id: "charge".to_owned(),
        title: words.label("page-charge-title"),
        about: ends(course, |s| words.units.mass(s.charge_kg)).map_or_else(String::new, |[first, last]| {
            words.fill("page-charge-about", &[("first", first), ("last", last)])
        }),
        height: 170.0,
        x: minutes(course, words),
        y,
        curves,
        marks: Vec::new(),
        levels: Vec::new(),
    }
}

/// What a curve begins and ends with, for those who do not see it.
fn ends(course: &Course, value: impl Fn(&Sample) -> String) -> Option<[String; 2]> {
    Some([value(course.samples.first()?), value(course.samples.last()?)])
}

const CYCLE_PENS: [Pen; 3] = [Pen::Solid, Pen::Dashed, Pen::DashDot];

/// The chart of pressure over enthalpy.
pub(super) fn cycle(cycles: &Cycles, words: Words) -> Markup {
    let absolute = |pressure_pa: f64| words.units.pressure_number(pressure_pa);
    let point = |corner: &Corner| {
        [words.units.enthalpy_number(corner.enthalpy_j_kg), libm::log10(absolute(corner.pressure_pa))]
    };
    let mut curves = vec![Curve::new(
        words.label("page-curve-saturation"),
        Pen::Ground,
        cycles.dome.iter().map(point).collect(),
    )];
    let closed = |corners: &[Corner; 5]| {
        let mut points: Vec<[f64; 2]> = corners.iter().map(point).collect();
        points.extend(points.first().copied());
        points
    };
    if let Some(sound) = &cycles.sound {
        curves.push(Curve::new(words.label("page-curve-sound"), Pen::Dotted, closed(&sound.corners)));
    }
    let mut marks = Vec::new();
    for (index, cycle) in cycles.cycles.iter().enumerate() {
        let points = closed(&cycle.corners);
        if index == 0 {
            let numbered = points.iter().take(cycle.corners.len()).zip(1..);
            marks.extend(numbered.map(|(at, number): (_, u32)| Mark {
                at: *at,
                shape: Shape::Bare,
                label: number.to_string(),
            }));
        }
        curves.push(Curve::new(
            cycle_name(index, cycle, words),
            CYCLE_PENS[index % CYCLE_PENS.len()],
            points,
        ));
    }
    let corners =
        || cycles.cycles.iter().chain(&cycles.sound).flat_map(|cycle| &cycle.corners).chain(&cycles.dome);
    let low_pa = corners().map(|corner| corner.pressure_pa).fold(f64::MAX, f64::min);
    let high_pa = corners().map(|corner| corner.pressure_pa).fold(STANDARD_ATMOSPHERE_PA, f64::max);
    let (label, ticks): (&str, &[f64]) = match words.units {
        Units::Ip => {
            ("page-axis-absolute-psi", &[10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 400.0, 600.0, 800.0])
        }
        Units::Si => ("page-axis-absolute-kpa", &[50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 3000.0, 5000.0]),
    };
    let y = Axis {
        from: libm::log10(absolute(0.9 * low_pa)),
        to: libm::log10(absolute(1.15 * high_pa)),
        ticks: ticks
            .iter()
            .filter(|tick| **tick >= absolute(0.9 * low_pa) && **tick <= absolute(1.15 * high_pa))
            .map(|tick| (libm::log10(*tick), format!("{tick:.0}")))
            .collect(),
        label: words.label(label),
    };
    let enthalpies = corners().map(|corner| words.units.enthalpy_number(corner.enthalpy_j_kg));
    let enthalpy = match words.units {
        Units::Ip => "page-axis-enthalpy-btu",
        Units::Si => "page-axis-enthalpy-kj",
    };
    let x = Axis::over(words.label(enthalpy), enthalpies, Foot::Lowest);
    Chart {
        id: "cycle".to_owned(),
        title: words.label("page-cycle-title"),
        about: words.count(
            "page-cycle-about",
            cycles.cycles.len(),
            &[("refrigerant", words.say(&cycles.refrigerant))],
        ),
        height: 400.0,
        x,
        y,
        curves,
        marks,
        levels: Vec::new(),
    }
    .svg()
}

/// A cycle's name with its letter.
pub(super) fn cycle_name(index: usize, cycle: &Cycle, words: Words) -> String {
    let letter = char::from(b'A' + index as u8).to_string();
    words.fill("page-cycle-lettered", &[("letter", letter), ("moment", words.say(&cycle.moment))])
}

/// Room and ice of the two plants that ran on.
pub(super) fn run_on(run_on: &Projection, words: Words) -> Vec<(Markup, String)> {
    let both = |value: &dyn Fn(&FateSample) -> f64| {
        [
            ("page-curve-as-left", Pen::Solid, &run_on.as_left),
            ("page-curve-repaired", Pen::Dashed, &run_on.repaired),
        ]
        .map(|(name, pen, fate)| {
            Curve::new(
                words.label(name),
                pen,
                fate.samples.iter().map(|s| [s.since_start_s / 3600.0, value(s)]).collect(),
            )
        })
        .into_iter()
        .collect::<Vec<Curve>>()
    };
    let mut room = both(&|s| words.units.temperature_number(s.room_k));
    room.push(Curve::new(
        words.label("page-curve-outdoor"),
        Pen::DashDot,
        run_on
            .as_left
            .samples
            .iter()
            .map(|s| [s.since_start_s / 3600.0, words.units.temperature_number(s.outdoor_k)])
            .collect(),
    ));
    let ice = both(&|s| words.units.small_mass_number(s.frost_mass_kg));
    let set_point = (words.units.temperature_number(run_on.set_point_k), words.label("page-set-point"));
    let chart = |id: &str, title: &str, label: String, foot, curves: Vec<Curve>, levels| {
        Chart {
            id: id.to_owned(),
            title: words.label(title),
            about: words.label("page-later-about"),
            height: 210.0,
            x: axes::hours(words.label("page-axis-hours"), run_on.hours),
            y: over(&curves, &[], label, foot),
            curves,
            marks: Vec::new(),
            levels,
        }
        .svg()
    };
    let temperature =
        words.fill("page-axis-temperature", &[("unit", words.units.temperature_unit().to_owned())]);
    let mass = words.fill("page-axis-ice", &[("unit", words.units.small_mass_unit().to_owned())]);
    vec![
        (
            chart("later-room", "page-later-room-title", temperature, Foot::Lowest, room, vec![set_point]),
            words.label("page-later-room-caption"),
        ),
        (
            chart("later-ice", "page-later-ice-title", mass, Foot::Zero, ice, Vec::new()),
            words.label("page-later-ice-caption"),
        ),
    ]
}
