//! Figures of the plant: its course, its cycle, its future.

use media::units::{STANDARD_ATMOSPHERE_PA, kelvin_from_celsius};
use visit::{AirPoint, Bulb, Measured, Outcome, PipePoint, Port, Trust, Visit};

use crate::course::{Course, Sample};
use crate::cycle::{Corner, Cycles};
use crate::run_on::{FateSample, RunOn};
use words::{Units, Words};

use super::chart::{Axis, Chart, Curve, Foot, Mark, Pen, Shape};

/// The charts of the course, in order, each with its caption.
pub(super) fn course(visit: &Visit, course: &Course, words: Words) -> Vec<(String, &'static str)> {
    let charts = [
        (
            pressures(visit, course, words),
            "Pressures at the service ports. Curves: what was true. Dots: what you read, with the number of \
          the entry; hollow dots were in doubt.",
        ),
        (
            lines(visit, course, words),
            "Refrigerant lines at the outdoor unit and the surface of the indoor coil, with your readings of the \
          lines. Below freezing the coil gathers ice.",
        ),
        (air(visit, course, words), "Air indoors and out, with your readings."),
        (ice(course, words), "Ice on the indoor coil."),
        (charge(visit, course, words), "Refrigerant in the circuit."),
    ];
    charts.into_iter().map(|(chart, caption)| (chart.svg(), caption)).collect()
}

fn minutes(course: &Course) -> Axis {
    Axis::minutes(course.length_s() / 60.0)
}

fn curve(course: &Course, name: &str, pen: Pen, value: impl Fn(&Sample) -> f64) -> Curve {
    let points = course.samples.iter().map(|s| [s.since_arrival_s / 60.0, value(s)]).collect();
    Curve { name: name.to_owned(), pen, points }
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
        curve(course, "liquid", Pen::Solid, |s| words.units.pressure_number(s.liquid_gauge_pa)),
        curve(course, "suction", Pen::Dashed, |s| words.units.pressure_number(s.suction_gauge_pa)),
    ];
    let marks = marks(visit, |quantity, value| match quantity {
        Measured::GaugePressure(Port::Suction | Port::Liquid) => Some(words.units.pressure_number(value)),
        _ => None,
    });
    Chart {
        id: "pressure".to_owned(),
        title: "Pressures over the visit".to_owned(),
        about: ends_text(course, "Suction pressure", |s| words.units.gauge_pressure(s.suction_gauge_pa)),
        height: 230.0,
        x: minutes(course),
        y: over(&curves, &marks, format!("pressure, {}", words.units.pressure_unit()), Foot::Zero),
        curves,
        marks,
        levels: Vec::new(),
    }
}

fn lines(visit: &Visit, course: &Course, words: Words) -> Chart {
    let t = |kelvin: f64| words.units.temperature_number(kelvin);
    let curves = vec![
        curve(course, "liquid line", Pen::Solid, |s| t(s.liquid_line_k)),
        curve(course, "suction line", Pen::Dashed, |s| t(s.suction_line_k)),
        curve(course, "coil surface", Pen::Dotted, |s| t(s.coil_surface_k)),
    ];
    let marks = marks(visit, |quantity, value| match quantity {
        Measured::PipeTemperature(PipePoint::SuctionAtServiceValve | PipePoint::LiquidAtServiceValve) => {
            Some(t(value))
        }
        _ => None,
    });
    Chart {
        id: "lines".to_owned(),
        title: "Temperatures of lines and coil over the visit".to_owned(),
        about: ends_text(course, "Coil surface", |s| words.units.temperature(s.coil_surface_k)),
        height: 230.0,
        x: minutes(course),
        y: over(&curves, &marks, format!("temperature, {}", words.units.temperature_unit()), Foot::Lowest),
        curves,
        marks,
        levels: vec![(t(kelvin_from_celsius(0.0)), "water freezes".to_owned())],
    }
}

fn air(visit: &Visit, course: &Course, words: Words) -> Chart {
    let t = |kelvin: f64| words.units.temperature_number(kelvin);
    let curves = vec![
        curve(course, "outdoor", Pen::DashDot, |s| t(s.outdoor_k)),
        curve(course, "room", Pen::Dotted, |s| t(s.room_k)),
        curve(course, "return", Pen::Dashed, |s| t(s.return_k)),
        curve(course, "supply", Pen::Solid, |s| t(s.supply_k)),
    ];
    let marks = marks(visit, |quantity, value| match quantity {
        Measured::AirTemperature(AirPoint::Return | AirPoint::Supply | AirPoint::Outdoor, Bulb::Dry) => {
            Some(t(value))
        }
        _ => None,
    });
    Chart {
        id: "air".to_owned(),
        title: "Air temperatures over the visit".to_owned(),
        about: ends_text(course, "Room air", |s| words.units.temperature(s.room_k)),
        height: 230.0,
        x: minutes(course),
        y: over(&curves, &marks, format!("dry bulb, {}", words.units.temperature_unit()), Foot::Lowest),
        curves,
        marks,
        levels: Vec::new(),
    }
}

fn ice(course: &Course, words: Words) -> Chart {
    let curves = vec![curve(course, "ice", Pen::Solid, |s| words.units.small_mass_number(s.frost_mass_kg))];
    Chart {
        id: "ice".to_owned(),
        title: "Ice on the coil over the visit".to_owned(),
        about: ends_text(course, "Ice", |s| words.units.mass(s.frost_mass_kg)),
        height: 170.0,
        x: minutes(course),
        y: over(&curves, &[], format!("ice, {}", words.units.small_mass_unit()), Foot::Zero),
        curves,
        marks: Vec::new(),
        levels: Vec::new(),
    }
}

fn charge(visit: &Visit, course: &Course, words: Words) -> Chart {
    let plate = words.units.small_mass_number(visit.call().system.plate_charge_kg);
    let mut curves =
        vec![curve(course, "in the circuit", Pen::Solid, |s| words.units.small_mass_number(s.charge_kg))];
    let y = {
        let ends = [[0.0, plate], [course.length_s() / 60.0, plate]];
        curves.push(Curve { name: "data plate".to_owned(), pen: Pen::Dashed, points: ends.to_vec() });
        over(&curves, &[], format!("refrigerant, {}", words.units.small_mass_unit()), Foot::Zero)
    };
    Chart {
        id: "charge".to_owned(),
        title: "Refrigerant in the circuit over the visit".to_owned(),
        about: ends_text(course, "Refrigerant", |s| words.units.mass(s.charge_kg)),
        height: 170.0,
        x: minutes(course),
        y,
        curves,
        marks: Vec::new(),
        levels: Vec::new(),
    }
}

/// What a curve does from end to end, for those who do not see it.
fn ends_text(course: &Course, name: &str, value: impl Fn(&Sample) -> String) -> String {
    match (course.samples.first(), course.samples.last()) {
        (Some(first), Some(last)) => {
            format!("{name}: {} on arrival, {} at the end.", value(first), value(last))
        }
        _ => String::new(),
    }
}

const CYCLE_PENS: [Pen; 3] = [Pen::Solid, Pen::Dashed, Pen::DashDot];

/// The chart of pressure over enthalpy.
pub(super) fn cycle(cycles: &Cycles, words: Words) -> String {
    let absolute = |pressure_pa: f64| words.units.pressure_number(pressure_pa);
    let point = |corner: &Corner| {
        [words.units.enthalpy_number(corner.enthalpy_j_kg), libm::log10(absolute(corner.pressure_pa))]
    };
    let mut curves = vec![Curve {
        name: "saturation".to_owned(),
        pen: Pen::Ground,
        points: cycles.dome.iter().map(point).collect(),
    }];
    let closed = |corners: &[Corner; 5]| {
        let mut points: Vec<[f64; 2]> = corners.iter().map(point).collect();
        points.extend(points.first().copied());
        points
    };
    if let Some(sound) = &cycles.sound {
        curves.push(Curve {
            name: "sound system".to_owned(),
            pen: Pen::Dotted,
            points: closed(&sound.corners),
        });
    }
    let mut marks = Vec::new();
    for (index, cycle) in cycles.cycles.iter().enumerate() {
        let letter = char::from(b'A' + index as u8);
        let points = closed(&cycle.corners);
        if index == 0 {
            let numbered = points.iter().take(cycle.corners.len()).zip(1..);
            marks.extend(numbered.map(|(at, number): (_, u32)| Mark {
                at: *at,
                shape: Shape::Bare,
                label: number.to_string(),
            }));
        }
        curves.push(Curve {
            name: format!("{letter}: {}", cycle.title),
            pen: CYCLE_PENS[index % CYCLE_PENS.len()],
            points,
        });
    }
    let corners =
        || cycles.cycles.iter().chain(&cycles.sound).flat_map(|cycle| &cycle.corners).chain(&cycles.dome);
    let low_pa = corners().map(|corner| corner.pressure_pa).fold(f64::MAX, f64::min);
    let high_pa = corners().map(|corner| corner.pressure_pa).fold(STANDARD_ATMOSPHERE_PA, f64::max);
    let (unit, ticks): (&str, &[f64]) = match words.units {
        Units::Ip => ("psia", &[10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 400.0, 600.0, 800.0]),
        Units::Si => ("kPa absolute", &[50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 3000.0, 5000.0]),
    };
    let y = Axis {
        from: libm::log10(absolute(0.9 * low_pa)),
        to: libm::log10(absolute(1.15 * high_pa)),
        ticks: ticks
            .iter()
            .filter(|tick| **tick >= absolute(0.9 * low_pa) && **tick <= absolute(1.15 * high_pa))
            .map(|tick| (libm::log10(*tick), format!("{tick:.0}")))
            .collect(),
        label: format!("pressure, {unit}"),
    };
    let enthalpies = corners().map(|corner| words.units.enthalpy_number(corner.enthalpy_j_kg));
    let mut x = Axis::over(format!("enthalpy, {}", words.units.enthalpy_unit()), enthalpies, Foot::Lowest);
    x.label.push_str(match words.units {
        Units::Ip => " (86.0 for saturated liquid at 32 °F)",
        Units::Si => " (200 for saturated liquid at 0 °C)",
    });
    Chart {
        id: "cycle".to_owned(),
        title: "The cycle on a chart of pressure over enthalpy".to_owned(),
        about: format!(
            "The saturation dome of {} and {} cycles of this visit.",
            cycles.refrigerant,
            cycles.cycles.len()
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

/// Room and ice of the two plants that ran on.
pub(super) fn run_on(run_on: &RunOn, words: Words) -> Vec<(String, &'static str)> {
    let both = |value: &dyn Fn(&FateSample) -> f64| {
        [("as you left it", Pen::Solid, &run_on.as_left), ("cured", Pen::Dashed, &run_on.cured)]
            .map(|(name, pen, fate)| Curve {
                name: name.to_owned(),
                pen,
                points: fate.samples.iter().map(|s| [s.since_start_s / 3600.0, value(s)]).collect(),
            })
            .into_iter()
            .collect::<Vec<Curve>>()
    };
    let mut room = both(&|s| words.units.temperature_number(s.room_k));
    room.push(Curve {
        name: "outdoor".to_owned(),
        pen: Pen::DashDot,
        points: run_on
            .as_left
            .samples
            .iter()
            .map(|s| [s.since_start_s / 3600.0, words.units.temperature_number(s.outdoor_k)])
            .collect(),
    });
    let ice = both(&|s| words.units.small_mass_number(s.frost_mass_kg));
    let set_point = (words.units.temperature_number(run_on.set_point_k), "set point".to_owned());
    let chart = |id: &str, title: &str, label: String, foot, curves: Vec<Curve>, levels| {
        Chart {
            id: id.to_owned(),
            title: title.to_owned(),
            about: "Two curves over the hours after the visit: the plant as it was left, and a cured one."
                .to_owned(),
            height: 210.0,
            x: Axis::hours(run_on.hours),
            y: over(&curves, &[], label, foot),
            curves,
            marks: Vec::new(),
            levels,
        }
        .svg()
    };
    vec![
        (
            chart(
                "later-room",
                "Room temperature after the visit",
                format!("temperature, {}", words.units.temperature_unit()),
                Foot::Lowest,
                room,
                vec![set_point],
            ),
            "Room temperature in the hours after the visit, beside that with a cured plant.",
        ),
        (
            chart(
                "later-ice",
                "Ice after the visit",
                format!("ice, {}", words.units.small_mass_unit()),
                Foot::Zero,
                ice,
                Vec::new(),
            ),
            "Ice on the indoor coil in the hours after the visit, beside that with a cured plant.",
        ),
    ]
}
