//! Plots of the review: what the plant did while the learner worked.

use egui::{Color32, Id, ScrollArea, Shape, Stroke, Ui, pos2, vec2};
use egui_plot::{AxisHints, GridMark, HLine, Line, LineStyle, Plot, PlotPoints, Points, VLine};
use report::Course;
use visit::{AirPoint, Bulb, Entry, Measured, Outcome, Sample, Trust};

use crate::palette;
use crate::parts::{small, strong};
use words::Words;

/// Pressures, temperatures and ice over the visit, with a line at each move.
pub fn show(ui: &mut Ui, course: &Course, notebook: &[Entry], arrival_s: f64, words: Words) {
    if course.samples.len() < 2 {
        small(ui, words.label("screen-plot-too-short"));
        return;
    }
    let height = ((ui.available_height() - 150.0) / 3.0).clamp(110.0, 260.0);
    let moves_min: Vec<f64> = notebook.iter().map(|entry| (entry.started_s - arrival_s) / 60.0).collect();
    let pressure =
        |pick: fn(&Sample) -> f64| points(course, |sample| words.units.pressure_number(pick(sample)));
    let temperature =
        |pick: fn(&Sample) -> f64| points(course, |sample| words.units.temperature_number(pick(sample)));
    let readings = |value: &dyn Fn(Measured, f64) -> Option<f64>| readings(notebook, arrival_s, value);
    let figures = [
        Figure {
            readings: readings(&|quantity, value| match quantity {
                Measured::GaugePressure(_) => Some(words.units.pressure_number(value)),
                _ => None,
            }),
            title: words.fill("screen-plot-pressure", &[("unit", words.units.pressure_unit().to_owned())]),
            mark: None,
            foot: Foot::Zero,
            curves: vec![
                Curve {
                    name: words.label("screen-plot-liquid"),
                    pen: Pen::Solid,
                    points: pressure(|sample| sample.liquid_gauge_pa),
                },
                Curve {
                    name: words.label("screen-plot-suction"),
                    pen: Pen::Dashed,
                    points: pressure(|sample| sample.suction_gauge_pa),
                },
            ],
        },
        Figure {
            readings: readings(&|quantity, value| match quantity {
                Measured::AirTemperature(AirPoint::Supply, Bulb::Dry) => {
                    Some(words.units.temperature_number(value))
                }
                _ => None,
            }),
            title: words
                .fill("screen-plot-temperature", &[("unit", words.units.temperature_unit().to_owned())]),
            mark: Some(words.units.temperature_number(FREEZING_K)),
            foot: Foot::Lowest,
            curves: vec![
                Curve {
                    name: words.label("screen-plot-room-air"),
                    pen: Pen::Dotted,
                    points: temperature(|sample| sample.room_k),
                },
                Curve {
                    name: words.label("screen-plot-supply-air"),
                    pen: Pen::Solid,
                    points: temperature(|sample| sample.supply_k),
                },
                Curve {
                    name: words.label("screen-plot-coil-surface"),
                    pen: Pen::Dashed,
                    points: temperature(|sample| sample.coil_surface_k),
                },
            ],
        },
        Figure {
            readings: Vec::new(),
            title: words.fill("screen-plot-ice", &[("unit", words.units.small_mass_unit().to_owned())]),
            mark: None,
            foot: Foot::Zero,
            curves: vec![Curve {
                name: words.label("screen-plot-ice-curve"),
                pen: Pen::Solid,
                points: points(course, |sample| words.units.small_mass_number(sample.frost_mass_kg)),
            }],
        },
    ];
    let last_min = course.samples.last().map_or(1.0, |sample| sample.since_arrival_s / 60.0);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for figure in figures {
            figure.show(
                ui,
                height,
                Axis { group: Id::new("review"), moves: &moves_min, last: last_min },
                words,
            );
        }
        small(ui, words.label("screen-plot-legend"));
    });
}

const FREEZING_K: f64 = 273.15;

/// A plot with its heading.
pub(crate) struct Figure {
    pub(crate) title: String,
    /// A level line.
    pub(crate) mark: Option<f64>,
    pub(crate) foot: Foot,
    pub(crate) curves: Vec<Curve>,
    /// Dots, each sound or in doubt.
    pub(crate) readings: Vec<([f64; 2], Trust)>,
}

/// The lower axis, which plots of a group share; its unit is up to the caller.
#[derive(Clone, Copy)]
pub(crate) struct Axis<'a> {
    pub(crate) group: Id,
    /// Where moves were begun.
    pub(crate) moves: &'a [f64],
    /// Where it ends.
    pub(crate) last: f64,
}

/// Where the upright axis begins.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Foot {
    /// At zero.
    Zero,
    /// At the lowest value.
    Lowest,
}

/// A curve of a plot.
pub(crate) struct Curve {
    pub(crate) name: String,
    pub(crate) pen: Pen,
    pub(crate) points: Vec<[f64; 2]>,
}

/// How a curve is drawn; the caption shows the same.
#[derive(Clone, Copy)]
pub(crate) enum Pen {
    Solid,
    Dashed,
    Dotted,
}

impl Pen {
    pub(crate) fn colour(self) -> Color32 {
        match self {
            Pen::Solid => palette::BRICK,
            Pen::Dashed => palette::ACCENT,
            Pen::Dotted => palette::INK,
        }
    }

    pub(crate) fn style(self) -> LineStyle {
        match self {
            Pen::Solid => LineStyle::Solid,
            Pen::Dashed => LineStyle::Dashed { length: 7.0 },
            Pen::Dotted => LineStyle::Dotted { spacing: 6.0 },
        }
    }

    /// A piece of the line for the caption.
    pub(crate) fn sample(self, ui: &mut Ui) {
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
    /// Draws it.
    pub(crate) fn show(self, ui: &mut Ui, height: f32, axis: Axis<'_>, words: Words) {
        ui.horizontal(|ui| {
            strong(ui, &self.title);
            for curve in &self.curves {
                ui.add_space(8.0);
                curve.pen.sample(ui);
                small(ui, &curve.name);
            }
        });
        let step_min = step_min(axis.last);
        let pieces = f64::from(height / 22.0).clamp(3.0, 8.0);
        let mut plot = Plot::new(self.title)
            .height(height)
            .allow_zoom(false)
            .allow_scroll(false)
            .allow_drag(false)
            .allow_boxed_zoom(false)
            .allow_double_click_reset(false)
            .grid_color(palette::RULE)
            .custom_y_axes(vec![
                AxisHints::new_y()
                    .min_thickness(44.0)
                    .label_spacing(egui::Rangef::new(6.0, 12.0))
                    .formatter(|mark, _| round_text(mark)),
            ])
            .y_grid_spacer(move |input| round_marks(input.bounds, pieces))
            .x_grid_spacer(move |input| {
                let (from, to) = input.bounds;
                let first = (from / step_min).ceil() as i64;
                let last = (to / step_min).floor() as i64;
                (first..=last).map(|n| GridMark { value: n as f64 * step_min, step_size: step_min }).collect()
            })
            .link_axis(axis.group, [true, false])
            .link_cursor(axis.group, [true, false]);
        if self.foot == Foot::Zero {
            plot = plot.include_y(0.0);
        }
        plot.show(ui, |plot| {
            for &minute in axis.moves {
                let line = VLine::new(words.label("screen-plot-move"), minute)
                    .color(palette::FIELD_HOVERED)
                    .width(1.0);
                plot.vline(line.allow_hover(false));
            }
            if let Some(level) = self.mark {
                let line = HLine::new(words.label("screen-plot-level"), level);
                plot.hline(line.color(palette::ICE_EDGE).width(1.5).allow_hover(false));
            }
            for curve in self.curves {
                plot.line(
                    Line::new(curve.name, PlotPoints::from(curve.points))
                        .color(curve.pen.colour())
                        .style(curve.pen.style())
                        .width(1.8),
                );
            }
            for (at, trust) in self.readings {
                let dot =
                    Points::new(words.label("screen-plot-reading"), vec![at]).color(palette::INK).radius(3.5);
                plot.points(dot.filled(trust == Trust::Sound));
            }
        });
    }
}

/// Readings that a function finds a value for, over minutes since arrival.
fn readings(
    notebook: &[Entry],
    arrival_s: f64,
    value: &dyn Fn(Measured, f64) -> Option<f64>,
) -> Vec<([f64; 2], Trust)> {
    notebook
        .iter()
        .filter_map(|entry| {
            let Outcome::Read(reading) = &entry.outcome else { return None };
            let value = value(reading.quantity, reading.value)?;
            Some(([(entry.finished_s - arrival_s) / 60.0, value], reading.trust))
        })
        .collect()
}

/// Marks at round numbers that cut a range into so many pieces at most.
pub(crate) fn round_marks((from, to): (f64, f64), pieces: f64) -> Vec<GridMark> {
    let finest = (to - from) / pieces;
    let mut steps = (-6..9).flat_map(|power| [1.0, 2.0, 5.0].map(|times| times * 10.0_f64.powi(power)));
    let step_size = steps.find(|step| *step >= finest).unwrap_or(1.0e9);
    let (first, last) = ((from / step_size).ceil() as i64, (to / step_size).floor() as i64);
    (first..=last).map(|n| GridMark { value: n as f64 * step_size, step_size }).collect()
}

/// The number at such a mark, with as many decimals as its step has.
pub(crate) fn round_text(mark: GridMark) -> String {
    let decimals = (0..6).find(|power| mark.step_size * 10.0_f64.powi(*power) >= 0.999).unwrap_or(6) as usize;
    format!("{:.decimals$}", mark.value)
}

/// Minutes between two upright lines of the grid: a span that people count in.
fn step_min(last_min: f64) -> f64 {
    [1.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0]
        .into_iter()
        .find(|step| last_min / step <= 7.0)
        .unwrap_or(1440.0)
}

fn points(course: &Course, value: impl Fn(&Sample) -> f64) -> Vec<[f64; 2]> {
    course.samples.iter().map(|sample| [sample.since_arrival_s / 60.0, value(sample)]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(from: f64, to: f64) -> Vec<String> {
        round_marks((from, to), 4.0).into_iter().map(round_text).collect()
    }

    #[test]
    fn an_axis_has_several_round_numbers_whatever_its_range() {
        assert_eq!(texts(-7.0, 75.0), ["0", "50"]);
        assert_eq!(texts(68.3, 79.2), ["70", "75"]);
        assert_eq!(texts(0.0, 87.0), ["0", "50"]);
        assert_eq!(texts(0.0, 1.6), ["0.0", "0.5", "1.0", "1.5"]);
        assert_eq!(texts(0.0, 230.0), ["0", "100", "200"]);
        assert_eq!(texts(-40.0, 160.0), ["0", "50", "100", "150"]);
        assert!(texts(5.0, 5.0).len() <= 1);
    }
}
