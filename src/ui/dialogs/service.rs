//! Dialogs for service on the refrigerant circuit: pressures, times and targets.

use std::ops::RangeInclusive;

use egui::{DragValue, Ui};
use visit::{ChargeBy, Duration, Limited, Mass, Move, Pressure, TemperatureDifference};

use super::answer::{Answer, buttons};
use crate::parts::{caution, heading, small};
use crate::view::View;
use crate::wording::suffix;
use words::{Units, Words};

/// What a service move still needs: those of its values that the move has.
pub struct ServiceForm {
    kind: Kind,
    pressure: f64,
    minutes: f64,
    difference: f64,
    mass: f64,
    by: ChargeBy,
    words: Words,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Nitrogen,
    Stand,
    Recovery,
    Vacuum,
    Decay,
    Charge,
}

impl ServiceForm {
    /// The form of a move; `None` for a move that needs none. Values are common ones, not the plate's: those are the
    /// learner's to read.
    pub(super) fn for_move(action: &Move, words: Words) -> Option<ServiceForm> {
        let is_ip = words.units == Units::Ip;
        let of = |kind, ip: f64, si: f64, minutes: f64| ServiceForm {
            kind,
            pressure: if is_ip { ip } else { si },
            minutes,
            difference: 0.0,
            mass: if is_ip { 16.0 } else { 500.0 },
            by: ChargeBy::Subcooling,
            words,
        };
        Some(match action {
            Move::PressurizeWithNitrogen(_) => of(Kind::Nitrogen, 150.0, 1000.0, 0.0),
            Move::StandingTest(_) => of(Kind::Stand, 0.0, 0.0, 30.0),
            Move::RecoverTo(_) => of(Kind::Recovery, 10.0, 34.0, 0.0),
            Move::EvacuateTo { .. } => of(Kind::Vacuum, 500.0, 67.0, 60.0),
            Move::DecayTest(_) => of(Kind::Decay, 0.0, 0.0, 10.0),
            Move::ChargeTo { .. } => of(Kind::Charge, 0.0, 0.0, 120.0),
            _ => return None,
        })
    }

    pub(super) fn show(&mut self, ui: &mut Ui, view: &View<'_>) -> Answer {
        ui.set_width(440.0);
        let (title, go, told) = match self.kind {
            Kind::Nitrogen => {
                ("screen-service-nitrogen", "screen-service-nitrogen-go", "screen-service-nitrogen-about")
            }
            Kind::Stand => ("screen-service-stand", "screen-service-stand-go", "screen-service-stand-about"),
            Kind::Recovery => {
                ("screen-service-recovery", "screen-service-recovery-go", "screen-service-recovery-about")
            }
            Kind::Vacuum => {
                ("screen-service-vacuum", "screen-service-vacuum-go", "screen-service-vacuum-about")
            }
            Kind::Decay => ("screen-service-decay", "screen-service-decay-go", "screen-service-decay-about"),
            Kind::Charge => {
                ("screen-service-charge", "screen-service-charge-go", "screen-service-charge-about")
            }
        };
        let words = self.words;
        heading(ui, &words.label(title));
        small(ui, words.label(told));
        let is_ip = self.words.units == Units::Ip;
        match self.kind {
            Kind::Nitrogen => {
                let unit = suffix(words.units.pressure_unit(), words);
                let label = words.label("screen-service-regulator");
                number(ui, label, &mut self.pressure, entered(Limited::TestPressure, words), unit);
            }
            Kind::Recovery => {
                let unit = if is_ip { "screen-unit-vacuum-inches" } else { "screen-unit-vacuum-kilopascals" };
                let label = words.label("screen-service-down-to");
                let range = entered(Limited::RecoveryDepth, words);
                number(ui, label, &mut self.pressure, range, suffix(words.label(unit), words));
            }
            Kind::Vacuum => {
                let unit = if is_ip { "screen-unit-microns" } else { "screen-unit-pascals" };
                let range = entered(Limited::Vacuum, words);
                let label = words.label("screen-service-down-to");
                number(ui, label, &mut self.pressure, range, suffix(words.label(unit), words));
            }
            Kind::Charge => {
                ui.horizontal(|ui| {
                    ui.label(words.label("screen-service-by"));
                    for by in [ChargeBy::Subcooling, ChargeBy::Superheat] {
                        ui.selectable_value(&mut self.by, by, words.heading(&by));
                    }
                });
                let unit = if is_ip { "screen-unit-fahrenheit" } else { "screen-unit-kelvin" };
                let label = words.label("screen-service-target");
                // Nothing is filled in: from none on.
                let range = 0.0..=*entered(Limited::ChargeTarget, words).end();
                number(ui, label, &mut self.difference, range, suffix(words.label(unit), words));
                let most = if is_ip { 160.0 } else { 4500.0 };
                let unit = suffix(words.units.small_mass_unit(), words);
                number(ui, words.label("screen-service-at-most"), &mut self.mass, 1.0..=most, unit);
            }
            Kind::Stand | Kind::Decay => {}
        }
        if matches!(self.kind, Kind::Stand | Kind::Decay | Kind::Vacuum | Kind::Charge) {
            let label = match self.kind {
                Kind::Stand | Kind::Decay => "screen-service-for",
                _ => "screen-service-for-at-most",
            };
            let unit = suffix(words.label("screen-unit-minutes"), words);
            number(ui, words.label(label), &mut self.minutes, entered(Limited::Within, words), unit);
        }
        let action = self.action();
        if let Some(one) = visit::caution(&action) {
            caution(ui, &words.say(&one), words, |_| ());
        }
        let least = *entered(Limited::ChargeTarget, words).start();
        let no_target = self.kind == Kind::Charge && self.difference < least;
        buttons(ui, view, &words.label(go), action, no_target.then_some("screen-service-no-target"))
    }

    fn action(&self) -> Move {
        let is_ip = self.words.units == Units::Ip;
        let within = Duration::Minutes(self.minutes);
        match self.kind {
            Kind::Nitrogen => Move::PressurizeWithNitrogen(if is_ip {
                Pressure::PoundsGauge(self.pressure)
            } else {
                Pressure::KilopascalsGauge(self.pressure)
            }),
            Kind::Stand => Move::StandingTest(within),
            Kind::Recovery => Move::RecoverTo(if is_ip {
                Pressure::InchesOfVacuum(self.pressure)
            } else {
                Pressure::KilopascalsGauge(-self.pressure)
            }),
            Kind::Vacuum => Move::EvacuateTo {
                target: if is_ip {
                    Pressure::Microns(self.pressure)
                } else {
                    Pressure::PascalsAbsolute(self.pressure)
                },
                within,
            },
            Kind::Decay => Move::DecayTest(within),
            Kind::Charge => Move::ChargeTo {
                by: self.by,
                target: if is_ip {
                    TemperatureDifference::FahrenheitDifference(self.difference)
                } else {
                    TemperatureDifference::CelsiusDifference(self.difference)
                },
                at_most: if is_ip { Mass::Ounces(self.mass) } else { Mass::Grams(self.mass) },
                within,
            },
        }
    }
}

/// What can be entered of a quantity, in the reader's units.
pub(super) fn entered(of: Limited, words: Words) -> RangeInclusive<f64> {
    let limit = of.limit();
    match words.units {
        Units::Ip => limit.entered_ip,
        Units::Si => limit.entered_si,
    }
}

fn number(ui: &mut Ui, label: String, value: &mut f64, range: RangeInclusive<f64>, unit: String) {
    ui.horizontal(|ui| {
        let label = ui.label(label);
        ui.add(DragValue::new(value).range(range).speed(0.5).max_decimals(1).suffix(unit))
            .labelled_by(label.id);
    });
}
