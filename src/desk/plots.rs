//! Plots of the review: what the plant did while the learner worked.

use egui::{Color32, Ui};
use egui_plot::{Corner, Legend, Line, LineStyle, Plot, PlotPoints, VLine};
use visit::Entry;

use crate::palette;
use crate::parts::small;
use crate::trace::{Sample, Trace};
use crate::units::{OnScreen, Units};

/// Pressures, temperatures and ice over the visit, with a line at each move.
pub fn show(ui: &mut Ui, trace: &Trace, notebook: &[Entry], arrival_s: f64, units: Units) {
    if trace.samples().len() < 2 {
        small(ui, "This visit was too short for plots.");
        return;
    }
    let height = ((ui.available_height() - 80.0) / 3.0).clamp(110.0, 260.0);
    let moves_min: Vec<f64> = notebook.iter().map(|entry| (entry.started_s - arrival_s) / 60.0).collect();
    let one = |ui: &mut Ui, id: &str, title: String, lines: Vec<Curve>| {
        small(ui, title);
        plot(ui, id, height, &moves_min, lines);
    };
    let pressure = |pick: fn(&Sample) -> f64| points(trace, |sample| units.pressure_number(pick(sample)));
    let temperature =
        |pick: fn(&Sample) -> f64| points(trace, |sample| units.temperature_number(pick(sample)));
    one(
        ui,
        "pressures",
        format!("Pressures, {}, over minutes since arrival", units.pressure_unit()),
        vec![
            Curve::new("liquid", pressure(|sample| sample.liquid_gauge_pa), Ink::Brick, LineStyle::Solid),
            Curve::new(
                "suction",
                pressure(|sample| sample.suction_gauge_pa),
                Ink::Accent,
                LineStyle::dashed_dense(),
            ),
        ],
    );
    one(
        ui,
        "temperatures",
        format!("Temperatures, {}", units.temperature_unit()),
        vec![
            Curve::new(
                "room air",
                temperature(|sample| sample.room_k),
                Ink::Pencil,
                LineStyle::dotted_loose(),
            ),
            Curve::new("supply air", temperature(|sample| sample.supply_k), Ink::Brick, LineStyle::Solid),
            Curve::new(
                "coil surface",
                temperature(|sample| sample.coil_surface_k),
                Ink::Accent,
                LineStyle::dashed_dense(),
            ),
        ],
    );
    one(
        ui,
        "ice",
        format!("Ice on the coil, {}", units.small_mass_unit()),
        vec![Curve::new(
            "ice",
            points(trace, |sample| units.small_mass_number(sample.frost_mass_kg)),
            Ink::Accent,
            LineStyle::Solid,
        )],
    );
    small(ui, "Thin upright lines: the beginnings of your moves.");
}

struct Curve {
    name: &'static str,
    points: Vec<[f64; 2]>,
    ink: Ink,
    style: LineStyle,
}

impl Curve {
    fn new(name: &'static str, points: Vec<[f64; 2]>, ink: Ink, style: LineStyle) -> Curve {
        Curve { name, points, ink, style }
    }
}

#[derive(Clone, Copy)]
enum Ink {
    Accent,
    Brick,
    Pencil,
}

impl Ink {
    fn colour(self) -> Color32 {
        match self {
            Ink::Accent => palette::ACCENT,
            Ink::Brick => palette::BRICK,
            Ink::Pencil => palette::PENCIL,
        }
    }
}

fn points(trace: &Trace, value: impl Fn(&Sample) -> f64) -> Vec<[f64; 2]> {
    trace.samples().iter().map(|sample| [sample.since_arrival_s / 60.0, value(sample)]).collect()
}

fn plot(ui: &mut Ui, id: &str, height: f32, moves_min: &[f64], curves: Vec<Curve>) {
    Plot::new(id)
        .height(height)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_drag(false)
        .allow_boxed_zoom(false)
        .y_axis_min_width(44.0)
        .link_axis("review", [true, false])
        .link_cursor("review", [true, false])
        .legend(Legend::default().position(Corner::RightTop))
        .show(ui, |plot| {
            for &minute in moves_min {
                plot.vline(VLine::new("", minute).color(palette::RULE).width(1.0).allow_hover(false));
            }
            for curve in curves {
                plot.line(
                    Line::new(curve.name, PlotPoints::from(curve.points))
                        .color(curve.ink.colour())
                        .style(curve.style)
                        .width(1.8),
                );
            }
        });
}
