//! The refrigerant's cycle, what would have come next, and a sound path.

use egui::{Grid, Id, ScrollArea, Ui, vec2};
use egui_plot::{GridMark, Line, Plot, PlotPoints};
use report::{Corner, Cycle, Cycles, FateSample, Projection, SoundPath};

use crate::parts::{heading, small, strong};
use crate::plots::{Axis, Curve, Figure, Foot, Pen, round_marks, round_text};
use crate::units::cost_in_minutes;
use crate::{palette, wording};
use session::PathLook;
use words::{Units, Words, span};

const PENS: [Pen; 3] = [Pen::Solid, Pen::Dashed, Pen::Dotted];
/// Pressures that the axis of the chart names, in the unit of the reader.
const PRESSURES_IP: [f64; 9] = [10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 400.0, 600.0, 800.0];
const PRESSURES_SI: [f64; 8] = [50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 3000.0, 5000.0];

/// The cycle on a chart of pressure over enthalpy, and in numbers.
pub(super) fn cycle(ui: &mut Ui, cycles: &Cycles, words: Words) {
    if cycles.cycles.is_empty() {
        small(ui, words.label("screen-cycle-none"));
        return;
    }
    // All of the page is seen at once where the window has the height.
    let lines = 2 * cycles.cycles.len() + 5;
    let room = (ui.available_height() - 28.0 * lines as f32).clamp(200.0, 420.0);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for (cycle, pen) in cycles.cycles.iter().zip(PENS) {
            ui.horizontal(|ui| {
                pen.sample(ui);
                small(ui, words.fill("screen-cycle-at", &[("moment", words.say(&cycle.moment))]));
            });
        }
        if let Some(sound) = &cycles.sound {
            let (sound, refrigerant) = (words.say(&sound.moment), words.say(&cycles.refrigerant));
            small(ui, words.fill("screen-cycle-legend", &[("sound", sound), ("refrigerant", refrigerant)]));
        }
        chart(ui, cycles, room, words);
        numbers(ui, cycles, words);
        if cycles.cycles.iter().any(Cycle::may_flood_back) {
            ui.label(words.label("screen-cycle-flood-back"));
        }
        small(ui, words.label("screen-cycle-corners"));
    });
}

fn chart(ui: &mut Ui, cycles: &Cycles, height: f32, words: Words) {
    let point = |corner: &Corner| {
        let pressure = words.units.pressure_number(corner.pressure_pa);
        // The plot has no logarithmic axis: it gets logarithms, and its axis names what they stand for.
        [words.units.enthalpy_number(corner.enthalpy_j_kg), pressure.max(1.0).log2()]
    };
    let closed = |cycle: &Cycle| {
        let mut points: Vec<[f64; 2]> = cycle.corners.iter().map(point).collect();
        points.extend(points.first().copied());
        points
    };
    let named: &'static [f64] = match words.units {
        Units::Ip => &PRESSURES_IP,
        Units::Si => &PRESSURES_SI,
    };
    let unit = match words.units {
        Units::Ip => words.label("screen-cycle-psia"),
        Units::Si => words.label("screen-cycle-kilopascals"),
    };
    let axes = words.fill(
        "screen-cycle-axes",
        &[("pressure-unit", unit), ("enthalpy-unit", words.units.enthalpy_unit().to_owned())],
    );
    strong(ui, axes);
    Plot::new("cycle")
        .height(height)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_drag(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .show_x(false)
        .show_y(false)
        .grid_color(palette::RULE)
        .x_grid_spacer(|input| round_marks(input.bounds, 6.0))
        .x_axis_formatter(|mark, _| round_text(mark))
        .y_grid_spacer(move |input| {
            let (from, to) = input.bounds;
            named
                .iter()
                .map(|pressure| pressure.log2())
                .filter(|value| (from..=to).contains(value))
                .map(|value| GridMark { value, step_size: 1.0 })
                .collect()
        })
        .y_axis_formatter(|mark, _| format!("{:.0}", mark.value.exp2()))
        .show(ui, |plot| {
            let dome: Vec<[f64; 2]> = cycles.dome.iter().map(point).collect();
            let line = Line::new(words.label("screen-cycle-saturation"), PlotPoints::from(dome));
            plot.line(line.color(palette::METAL_DARK).width(3.5));
            if let Some(sound) = &cycles.sound {
                let line = Line::new(words.label("screen-cycle-sound"), PlotPoints::from(closed(sound)));
                plot.line(line.color(palette::PENCIL).width(1.0));
            }
            for (cycle, pen) in cycles.cycles.iter().zip(PENS) {
                let line = Line::new(words.say(&cycle.moment), PlotPoints::from(closed(cycle)));
                plot.line(line.color(pen.colour()).style(pen.style()).width(1.9));
            }
        });
}

fn numbers(ui: &mut Ui, cycles: &Cycles, words: Words) {
    Grid::new("cycles").num_columns(6).striped(true).spacing(vec2(12.0, 4.0)).show(ui, |ui| {
        ui.label("");
        for name in [
            "screen-cycle-evaporating",
            "screen-cycle-condensing",
            "screen-cycle-superheat",
            "screen-cycle-subcooling",
            "screen-cycle-net-cooling",
        ] {
            strong(ui, words.label(name));
        }
        ui.end_row();
        for cycle in cycles.cycles.iter().chain(&cycles.sound) {
            small(ui, words.heading(&cycle.moment));
            ui.label(words.units.temperature(cycle.evaporating_k));
            ui.label(words.units.temperature(cycle.condensing_k));
            ui.label(cycle.superheat_text(words));
            ui.label(cycle.subcooling_text(words));
            ui.label(words.units.heat_rate(cycle.net_cooling_w));
            ui.end_row();
        }
    });
}

/// The plant after the visit beside a repaired one.
pub(super) fn run_on(ui: &mut Ui, run_on: &Projection, words: Words) {
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        let (hours, set_point) =
            (format!("{:.0}", run_on.hours), words.units.temperature(run_on.set_point_k));
        small(ui, words.fill("screen-later-about", &[("hours", hours), ("set-point", set_point)]));
        Grid::new("later").num_columns(3).striped(true).spacing(vec2(24.0, 3.0)).show(ui, |ui| {
            ui.label("");
            for name in ["screen-later-as-left", "screen-later-repaired"] {
                strong(ui, words.label(name));
            }
            ui.end_row();
            for fact in run_on.facts() {
                ui.label(words.heading(&fact.line));
                ui.label(words.say(&fact.as_left));
                ui.label(words.say(&fact.repaired));
                ui.end_row();
            }
        });
        ui.add_space(6.0);
        let figure = |title: String, foot: Foot, mark: Option<f64>, value: &dyn Fn(&FateSample) -> f64| {
            let curve = |name: &str, pen: Pen, samples: &[FateSample]| Curve {
                name: words.label(name),
                pen,
                points: samples.iter().map(|s| [s.since_start_s / 3600.0, value(s)]).collect(),
            };
            Figure {
                title,
                mark,
                foot,
                curves: vec![
                    curve("screen-later-as-left-curve", Pen::Solid, &run_on.as_left.samples),
                    curve("screen-later-repaired-curve", Pen::Dashed, &run_on.repaired.samples),
                ],
                readings: Vec::new(),
            }
        };
        let room = figure(
            words.fill("screen-later-room", &[("unit", words.units.temperature_unit().to_owned())]),
            Foot::Lowest,
            Some(words.units.temperature_number(run_on.set_point_k)),
            &|sample| words.units.temperature_number(sample.room_k),
        );
        let title = words.fill("screen-later-ice", &[("unit", words.units.small_mass_unit().to_owned())]);
        let ice =
            figure(title, Foot::Zero, None, &|sample| words.units.small_mass_number(sample.frost_mass_kg));
        for figure in [room, ice] {
            figure.show(ui, 120.0, Axis { group: Id::new("later"), moves: &[], last: run_on.hours }, words);
        }
        small(ui, words.label("screen-later-legend"));
    });
}

/// A sound path, step by step.
pub(super) fn path(ui: &mut Ui, path: Option<&SoundPath>, work: PathLook, call: &call::Call, words: Words) {
    let Some(path) = path else {
        match work {
            PathLook::UnderWay(steps) => {
                strong(ui, words.label("screen-path-under-way"));
                ui.label(words.count("screen-path-moves-so-far", steps, &[]));
            }
            PathLook::ToCome => {
                strong(ui, words.label("screen-path-to-come"));
                ui.label(words.label("screen-path-to-come-about"));
            }
            PathLook::Over => {
                small(ui, words.label("screen-path-none"));
            }
        }
        return;
    };
    let length = span(path.minutes() * 60.0);
    heading(ui, &words.count("screen-path-length", path.steps.len(), &[("span", length)]));
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for (step, number) in path.steps.iter().zip(1_u32..) {
            let (action, time) = (words.say(&step.action), cost_in_minutes(step.minutes, words));
            let told = words.fill(
                "screen-path-step",
                &[("number", number.to_string()), ("move", action), ("time", time)],
            );
            strong(ui, told);
            if let Some(entry) = &step.entry {
                for line in wording::outcome(entry, call, words) {
                    ui.add(egui::Label::new(line).wrap());
                }
            }
            ui.add(
                egui::Label::new(egui::RichText::new(step.why(words).join(" ")).color(palette::PENCIL))
                    .wrap(),
            );
            ui.separator();
        }
    });
}
