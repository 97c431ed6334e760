//! Dialogs that ask for a number or a setting.

use egui::{Button, ComboBox, DragValue, Ui, vec2};
use media::units::kg_from_oz;
use plant::{FanSetting, Mode, Terminal};
use visit::{Duration, Limited, Mass, Move, Temperature};

use super::answer::{Answer, buttons, cancel, perform};
use super::confirm::in_words;
use super::service::entered;
use crate::parts::{caution, heading, small};
use crate::view::View;
use crate::wording::suffix;
use words::{Units, Words};

/// How long to wait.
pub struct WaitForm {
    minutes: f64,
}

impl Default for WaitForm {
    fn default() -> Self {
        WaitForm { minutes: 15.0 }
    }
}

/// Spans offered at a press, min.
const SPANS_MIN: [f64; 8] = [1.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0];

impl WaitForm {
    pub(super) fn show(&mut self, ui: &mut Ui, words: Words) -> Answer {
        ui.set_width(400.0);
        heading(ui, &words.label("screen-wait"));
        small(ui, words.label("screen-wait-about"));
        let mut given = None;
        for row in SPANS_MIN.chunks(4) {
            ui.horizontal(|ui| {
                for &minutes in row {
                    if ui.add(Button::new(in_words(minutes)).min_size(vec2(90.0, 30.0))).clicked() {
                        given = Some(minutes);
                    }
                }
            });
        }
        ui.horizontal(|ui| {
            let label = ui.label(words.label("screen-wait-or"));
            let unit = suffix(words.label("screen-unit-minutes"), words);
            ui.add(
                DragValue::new(&mut self.minutes)
                    .range(entered(Limited::Wait, words))
                    .speed(1.0)
                    .suffix(unit),
            )
            .labelled_by(label.id);
            if ui.button(words.label("screen-wait-go")).clicked() {
                given = Some(self.minutes);
            }
        });
        ui.add_space(6.0);
        if cancel(ui, words) {
            return Answer::Cancelled;
        }
        given.map_or(Answer::Open, |minutes| perform(Move::Wait(Duration::Minutes(minutes))))
    }
}

/// Thermostat settings.
pub struct ThermostatForm {
    mode: Mode,
    fan: FanSetting,
    set_point: f64,
    words: Words,
}

impl ThermostatForm {
    pub(super) fn of(view: &View<'_>, words: Words) -> ThermostatForm {
        ThermostatForm {
            mode: view.site.mode,
            fan: view.site.fan,
            set_point: words.units.temperature_number(view.site.set_point_k).round(),
            words,
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, view: &View<'_>) -> Answer {
        ui.set_width(380.0);
        let words = self.words;
        heading(ui, &words.label("screen-thermostat"));
        ui.horizontal(|ui| {
            ui.label(words.label("screen-thermostat-system"));
            ui.selectable_value(&mut self.mode, Mode::Off, words.label("screen-thermostat-off"));
            ui.selectable_value(&mut self.mode, Mode::Cool, words.label("screen-thermostat-cool"));
        });
        ui.horizontal(|ui| {
            ui.label(words.label("screen-thermostat-fan"));
            ui.selectable_value(&mut self.fan, FanSetting::Auto, words.label("screen-thermostat-fan-auto"));
            ui.selectable_value(&mut self.fan, FanSetting::On, words.label("screen-thermostat-fan-on"));
        });
        let range = entered(Limited::SetPoint, words);
        let unit = suffix(words.units.temperature_unit(), words);
        ui.horizontal(|ui| {
            let label = ui.label(words.label("screen-thermostat-cool-to"));
            if ui.add(Button::new(words.label("screen-thermostat-less")).min_size(vec2(28.0, 28.0))).clicked()
            {
                self.set_point = (self.set_point - 1.0).max(*range.start());
            }
            ui.add(
                DragValue::new(&mut self.set_point)
                    .range(range.clone())
                    .speed(0.2)
                    .max_decimals(1)
                    .suffix(unit),
            )
            .labelled_by(label.id);
            if ui.add(Button::new(words.label("screen-thermostat-more")).min_size(vec2(28.0, 28.0))).clicked()
            {
                self.set_point = (self.set_point + 1.0).min(*range.end());
            }
        });
        ui.add_space(6.0);
        let set_point = match self.words.units {
            Units::Ip => Temperature::Fahrenheit(self.set_point),
            Units::Si => Temperature::Celsius(self.set_point),
        };
        let action = Move::SetThermostat { mode: self.mode, fan: self.fan, set_point };
        buttons(ui, view, &words.label("screen-thermostat-go"), action, None)
    }
}

/// How much refrigerant.
pub struct MassForm {
    purpose: MassUse,
    pounds: f64,
    ounces: f64,
    kilograms: f64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum MassUse {
    WeighIn,
    Add,
    AddVapor,
    Remove,
}

impl MassForm {
    /// Nothing is filled in: the plate's charge is the learner's to read.
    pub(super) fn for_move(action: &Move) -> MassForm {
        let purpose = match action {
            Move::WeighIn(_) => MassUse::WeighIn,
            Move::AddVapor(_) => MassUse::AddVapor,
            Move::RemoveRefrigerant(_) => MassUse::Remove,
            _ => MassUse::Add,
        };
        MassForm { purpose, pounds: 0.0, ounces: 0.0, kilograms: 0.0 }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, view: &View<'_>, words: Words) -> Answer {
        ui.set_width(420.0);
        let (title, go) = match self.purpose {
            MassUse::WeighIn => ("screen-mass-weigh-in", "screen-mass-weigh-in-go"),
            MassUse::Add => ("screen-mass-add", "screen-mass-add-go"),
            MassUse::AddVapor => ("screen-mass-add-vapor", "screen-mass-add-go"),
            MassUse::Remove => ("screen-mass-remove", "screen-mass-remove-go"),
        };
        heading(ui, &words.label(title));
        let mass = match words.units {
            Units::Ip => {
                ui.horizontal(|ui| {
                    let label = ui.label(words.label("screen-mass-amount"));
                    ui.add(
                        DragValue::new(&mut self.pounds)
                            .range(0.0..=30.0)
                            .speed(0.1)
                            .max_decimals(0)
                            .suffix(suffix(words.label("screen-unit-pounds"), words)),
                    )
                    .labelled_by(label.id);
                    ui.add(
                        DragValue::new(&mut self.ounces)
                            .range(0.0..=480.0)
                            .speed(0.2)
                            .max_decimals(1)
                            .suffix(suffix(words.label("screen-unit-ounces"), words)),
                    )
                    .labelled_by(label.id);
                });
                Mass::Ounces(self.pounds.round() * 16.0 + self.ounces)
            }
            Units::Si => {
                ui.horizontal(|ui| {
                    let label = ui.label(words.label("screen-mass-amount"));
                    ui.add(
                        DragValue::new(&mut self.kilograms)
                            .range(0.0..=14.0)
                            .speed(0.01)
                            .max_decimals(3)
                            .suffix(suffix(words.label("screen-unit-kilograms"), words)),
                    )
                    .labelled_by(label.id);
                });
                Mass::Kilograms(self.kilograms)
            }
        };
        let action = match self.purpose {
            MassUse::WeighIn => Move::WeighIn(mass),
            MassUse::Add => Move::AddRefrigerant(mass),
            MassUse::AddVapor => Move::AddVapor(mass),
            MassUse::Remove => Move::RemoveRefrigerant(mass),
        };
        if let Some(one) = visit::caution(&action) {
            caution(ui, &view.words.say(&one), view.words, |_| ());
        }
        let is_nothing = mass.kilograms() < kg_from_oz(0.05);
        buttons(ui, view, &words.label(go), action, is_nothing.then_some("screen-mass-none"))
    }
}

/// Between which terminals.
pub struct VoltageForm {
    from: Terminal,
    to: Terminal,
}

impl Default for VoltageForm {
    fn default() -> Self {
        VoltageForm { from: Terminal::R, to: Terminal::C }
    }
}

impl VoltageForm {
    pub(super) fn show(&mut self, ui: &mut Ui, view: &View<'_>) -> Answer {
        ui.set_width(420.0);
        heading(ui, &view.words.label("screen-voltage"));
        terminal(ui, view, "screen-voltage-from", &mut self.from);
        terminal(ui, view, "screen-voltage-to", &mut self.to);
        let action = Move::MeasureVoltage { from: self.from, to: self.to };
        if let Some(one) = visit::caution(&action) {
            caution(ui, &view.words.say(&one), view.words, |_| ());
        }
        let is_same = self.from == self.to;
        let go = view.words.label("screen-voltage-go");
        buttons(ui, view, &go, action, is_same.then_some("screen-voltage-same"))
    }
}

/// Every terminal of the system that a voltage can be read at, low voltage first.
fn terminal(ui: &mut Ui, view: &View<'_>, label: &str, chosen: &mut Terminal) {
    let words = view.words;
    let list = ComboBox::from_label(words.label(label)).width(240.0).selected_text(words.heading(chosen));
    list.show_ui(ui, |ui| {
        for one in view.terminals().filter(|one| !one.is_ecm_phase()) {
            ui.selectable_value(chosen, one, words.heading(&one));
        }
    });
}
