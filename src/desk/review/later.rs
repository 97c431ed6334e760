//! The refrigerant's cycle, what would have come next, and a sound path.

use egui::{Grid, ScrollArea, Ui, vec2};
use egui_plot::{GridMark, Line, Plot, PlotPoints};
use report::{Corner, Cycle, Cycles, FateSample, RunOn, SoundPath};

use crate::parts::{heading, small, strong};
use crate::plots::{Curve, Figure, Foot, Pen, round_marks, round_text};
use crate::stage::PathLook;
use crate::units::cost_in_minutes;
use crate::{palette, wording};
use words::{Units, Words, span};

const PENS: [Pen; 3] = [Pen::Solid, Pen::Dashed, Pen::Dotted];
/// Pressures that the axis of the chart names, in the unit of the reader.
const PRESSURES_IP: [f64; 9] = [10.0, 20.0, 50.0, 100.0, 200.0, 300.0, 400.0, 600.0, 800.0];
const PRESSURES_SI: [f64; 8] = [50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 3000.0, 5000.0];

/// The cycle on a chart of pressure over enthalpy, and in numbers.
pub(super) fn cycle(ui: &mut Ui, cycles: &Cycles, words: Words) {
    if cycles.cycles.is_empty() {
        small(ui, "The compressor did not run while anything was read, so there is no cycle to show.");
        return;
    }
    // All of the page is seen at once where the window has the height.
    let lines = 2 * cycles.cycles.len() + 5;
    let room = (ui.available_height() - 28.0 * lines as f32).clamp(200.0, 420.0);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for (cycle, pen) in cycles.cycles.iter().zip(PENS) {
            ui.horizontal(|ui| {
                pen.sample(ui);
                small(ui, format!("at {}", cycle.title));
            });
        }
        if let Some(sound) = &cycles.sound {
            small(
                ui,
                format!("Thin line: {}. Thick grey line: saturated {}.", sound.title, cycles.refrigerant),
            );
        }
        chart(ui, cycles, room, words);
        numbers(ui, cycles, words);
        if cycles.cycles.iter().any(Cycle::may_flood_back) {
            ui.label("Where no superheat is left, liquid may come back to the compressor.");
        }
        small(ui, "Corners follow from pressures and line temperatures; wet vapour shows as saturated.");
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
        Units::Ip => "psia",
        Units::Si => "kPa absolute",
    };
    strong(ui, format!("Pressure, {unit}, over enthalpy, {}", words.units.enthalpy_unit()));
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
            plot.line(Line::new("saturation", PlotPoints::from(dome)).color(palette::METAL_DARK).width(3.5));
            if let Some(sound) = &cycles.sound {
                let line = Line::new("sound system", PlotPoints::from(closed(sound)));
                plot.line(line.color(palette::PENCIL).width(1.0));
            }
            for (cycle, pen) in cycles.cycles.iter().zip(PENS) {
                let line = Line::new(cycle.title.as_str(), PlotPoints::from(closed(cycle)));
                plot.line(line.color(pen.colour()).style(pen.style()).width(1.9));
            }
        });
}

fn numbers(ui: &mut Ui, cycles: &Cycles, words: Words) {
    Grid::new("cycles").num_columns(6).striped(true).spacing(vec2(12.0, 4.0)).show(ui, |ui| {
        for name in ["", "Evaporating", "Condensing", "Superheat", "Subcooling", "Net cooling"] {
            strong(ui, name);
        }
        ui.end_row();
        for cycle in cycles.cycles.iter().chain(&cycles.sound) {
            small(ui, cycle.title.as_str());
            ui.label(words.units.temperature(cycle.evaporating_k));
            ui.label(words.units.temperature(cycle.condensing_k));
            ui.label(cycle.superheat_text(words));
            ui.label(cycle.subcooling_text(words));
            ui.label(words.units.heat_rate(cycle.net_cooling_w));
            ui.end_row();
        }
    });
}

/// The plant after the visit beside a cured one.
pub(super) fn run_on(ui: &mut Ui, run_on: &RunOn, words: Words) {
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        small(
            ui,
            format!(
                "{:.0} h more in the same weather, the customer's settings back on the thermostat (set point {}). Beside \
                 it: the same house with a plant that has no fault, the data plate's charge and no ice.",
                run_on.hours,
                words.units.temperature(run_on.set_point_k)
            ),
        );
        Grid::new("later").num_columns(3).striped(true).spacing(vec2(24.0, 3.0)).show(ui, |ui| {
            for name in ["", "As you left it", "Cured"] {
                strong(ui, name);
            }
            ui.end_row();
            for fact in run_on.facts(words) {
                ui.label(fact.name);
                ui.label(fact.as_left);
                ui.label(fact.cured);
                ui.end_row();
            }
        });
        ui.add_space(6.0);
        let figure = |title: String, foot: Foot, mark: Option<f64>, value: &dyn Fn(&FateSample) -> f64| {
            let curve = |name: &'static str, pen: Pen, samples: &[FateSample]| Curve {
                name,
                pen,
                points: samples.iter().map(|s| [s.since_start_s / 3600.0, value(s)]).collect(),
            };
            Figure {
                title,
                mark,
                foot,
                curves: vec![
                    curve("as you left it", Pen::Solid, &run_on.as_left.samples),
                    curve("cured", Pen::Dashed, &run_on.cured.samples),
                ],
                readings: Vec::new(),
            }
        };
        let room = figure(
            format!("Room, {}", words.units.temperature_unit()),
            Foot::Lowest,
            Some(words.units.temperature_number(run_on.set_point_k)),
            &|sample| words.units.temperature_number(sample.room_k),
        );
        let ice = figure(format!("Ice, {}", words.units.small_mass_unit()), Foot::Zero, None, &|sample| {
            words.units.small_mass_number(sample.frost_mass_kg)
        });
        for figure in [room, ice] {
            figure.show(ui, 120.0, "later", &[], run_on.hours);
        }
        small(ui, "Along the bottom: hours after the visit. Level line in the room's plot: the set point.");
    });
}

/// A sound path, step by step.
pub(super) fn path(ui: &mut Ui, path: Option<&SoundPath>, work: PathLook, call: &call::Call, words: Words) {
    let Some(path) = path else {
        match work {
            PathLook::UnderWay(steps) => {
                strong(ui, "A sound path is being worked out");
                ui.label(format!("{steps} moves so far. You can leave at any time."));
            }
            PathLook::ToCome => {
                strong(ui, "A sound path will be worked out");
                ui.label("It begins once the rest of the review is there.");
            }
            PathLook::Over => {
                small(ui, "No sound path was worked out for this call.");
            }
        }
        return;
    };
    heading(ui, &format!("{}, {}", path.count_text(), span(path.minutes() * 60.0)));
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for (step, number) in path.steps.iter().zip(1_u32..) {
            strong(ui, format!("{number}. {} ({})", words.say(&step.action), cost_in_minutes(step.minutes)));
            if let Some(entry) = &step.entry {
                for line in wording::outcome(entry, call, words) {
                    ui.add(egui::Label::new(line).wrap());
                }
            }
            ui.add(egui::Label::new(egui::RichText::new(&step.why).color(palette::PENCIL)).wrap());
            ui.separator();
        }
    });
}
