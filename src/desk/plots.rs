//! Plots of the review: what the plant did while the learner worked.

use egui::{Color32, Shape, Stroke, Ui, pos2, vec2};
use egui_plot::{AxisHints, GridMark, HLine, Line, LineStyle, Plot, PlotPoints, VLine};
use visit::Entry;

use crate::palette;
use crate::parts::{small, strong};
use crate::trace::{Sample, Trace};
use crate::units::{OnScreen, Units};

/// Pressures, temperatures and ice over the visit, with a line at each move.
pub fn show(ui: &mut Ui, trace: &Trace, notebook: &[Entry], arrival_s: f64, units: Units) {
    if trace.samples().len() < 2 {
        small(ui, "This visit was too short for plots.");
        return;
    }
    let height = ((ui.available_height() - 134.0) / 3.0).clamp(110.0, 260.0);
    let moves_min: Vec<f64> = notebook.iter().map(|entry| (entry.started_s - arrival_s) / 60.0).collect();
    let pressure = |pick: fn(&Sample) -> f64| points(trace, |sample| units.pressure_number(pick(sample)));
    let temperature =
        |pick: fn(&Sample) -> f64| points(trace, |sample| units.temperature_number(pick(sample)));
    let figures = [
        Figure {
            title: format!("Pressure, {}", units.pressure_unit()),
            mark: None,
            foot: Foot::Zero,
            curves: vec![
                Curve { name: "liquid", pen: Pen::Solid, points: pressure(|sample| sample.liquid_gauge_pa) },
                Curve {
                    name: "suction",
                    pen: Pen::Dashed,
                    points: pressure(|sample| sample.suction_gauge_pa),
                },
            ],
        },
        Figure {
            title: format!("Temperature, {}", units.temperature_unit()),
            mark: Some(units.temperature_number(FREEZING_K)),
            foot: Foot::Lowest,
            curves: vec![
                Curve { name: "room air", pen: Pen::Dotted, points: temperature(|sample| sample.room_k) },
                Curve { name: "supply air", pen: Pen::Solid, points: temperature(|sample| sample.supply_k) },
                Curve {
                    name: "coil surface",
                    pen: Pen::Dashed,
                    points: temperature(|sample| sample.coil_surface_k),
                },
            ],
        },
        Figure {
            title: format!("Ice on the coil, {}", units.small_mass_unit()),
            mark: None,
            foot: Foot::Zero,
            curves: vec![Curve {
                name: "ice",
                pen: Pen::Solid,
                points: points(trace, |sample| units.small_mass_number(sample.frost_mass_kg)),
            }],
        },
    ];
    let last_min = trace.samples().last().map_or(1.0, |sample| sample.since_arrival_s / 60.0);
    for figure in figures {
        figure.show(ui, height, &moves_min, last_min);
    }
    small(
        ui,
        "Along the bottom: minutes since arrival. Upright lines: your moves. Level line among the temperatures: freezing point of water.",
    );
}

const FREEZING_K: f64 = 273.15;

struct Figure {
    title: String,
    /// A level line.
    mark: Option<f64>,
    foot: Foot,
    curves: Vec<Curve>,
}

/// Where the upright axis begins.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Foot {
    /// At zero.
    Zero,
    /// At the lowest value.
    Lowest,
}

struct Curve {
    name: &'static str,
    pen: Pen,
    points: Vec<[f64; 2]>,
}

/// How a curve is drawn; the caption shows the same.
#[derive(Clone, Copy)]
enum Pen {
    Solid,
    Dashed,
    Dotted,
}

impl Pen {
    fn colour(self) -> Color32 {
        match self {
            Pen::Solid => palette::BRICK,
            Pen::Dashed => palette::ACCENT,
            Pen::Dotted => palette::INK,
        }
    }

    fn style(self) -> LineStyle {
        match self {
            Pen::Solid => LineStyle::Solid,
            Pen::Dashed => LineStyle::Dashed { length: 7.0 },
            Pen::Dotted => LineStyle::Dotted { spacing: 6.0 },
        }
    }

    /// A piece of the line for the caption.
    fn sample(self, ui: &mut Ui) {
        let (rect, _) = ui.allocate_exact_size(vec2(34.0, 14.0), egui::Sense::hover());
        let ends = [pos2(rect.left(), rect.center().y), pos2(rect.right(), rect.center().y)];
        let stroke = Stroke::new(2.0, self.colour());
        let shapes = match self {
            Pen::Solid => vec![Shape::line_segment(ends, stroke)],
            Pen::Dashed => Shape::dashed_line(&ends, stroke, 7.0, 4.0),
            Pen::Dotted => Shape::dotted_line(&ends, self.colour(), 6.0, 1.6),
        };
        ui.painter().extend(shapes);
    }
}

impl Figure {
    fn show(self, ui: &mut Ui, height: f32, moves_min: &[f64], last_min: f64) {
        ui.horizontal(|ui| {
            strong(ui, &self.title);
            for curve in &self.curves {
                ui.add_space(8.0);
                curve.pen.sample(ui);
                small(ui, curve.name);
            }
        });
        let step_min = step_min(last_min);
        let mut plot = Plot::new(self.title)
            .height(height)
            .allow_zoom(false)
            .allow_scroll(false)
            .allow_drag(false)
            .allow_boxed_zoom(false)
            .allow_double_click_reset(false)
            .grid_color(palette::RULE)
            .custom_y_axes(vec![
                AxisHints::new_y().min_thickness(44.0).label_spacing(egui::Rangef::new(16.0, 28.0)),
            ])
            .x_grid_spacer(move |input| {
                let (from, to) = input.bounds;
                let first = (from / step_min).ceil() as i64;
                let last = (to / step_min).floor() as i64;
                (first..=last).map(|n| GridMark { value: n as f64 * step_min, step_size: step_min }).collect()
            })
            .link_axis("review", [true, false])
            .link_cursor("review", [true, false]);
        if self.foot == Foot::Zero {
            plot = plot.include_y(0.0);
        }
        plot.show(ui, |plot| {
            for &minute in moves_min {
                let line = VLine::new("a move", minute).color(palette::FIELD_HOVERED).width(1.0);
                plot.vline(line.allow_hover(false));
            }
            if let Some(level) = self.mark {
                plot.hline(
                    HLine::new("freezing", level).color(palette::ICE_EDGE).width(1.5).allow_hover(false),
                );
            }
            for curve in self.curves {
                plot.line(
                    Line::new(curve.name, PlotPoints::from(curve.points))
                        .color(curve.pen.colour())
                        .style(curve.pen.style())
                        .width(1.8),
                );
            }
        });
    }
}

/// Minutes between two upright lines of the grid: a span that people count in.
fn step_min(last_min: f64) -> f64 {
    [1.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0]
        .into_iter()
        .find(|step| last_min / step <= 7.0)
        .unwrap_or(1440.0)
}

fn points(trace: &Trace, value: impl Fn(&Sample) -> f64) -> Vec<[f64; 2]> {
    trace.samples().iter().map(|sample| [sample.since_arrival_s / 60.0, value(sample)]).collect()
}
