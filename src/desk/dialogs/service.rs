//! Dialogs for service on the refrigerant circuit: pressures, times and targets.

use egui::{DragValue, Ui};
use visit::{ChargeBy, Duration, Mass, Move, Pressure, TemperatureDifference};

use super::Answer;
use super::entry::buttons;
use crate::parts::{caution, heading, small};
use crate::view::View;
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
                ("Put nitrogen on", "Put on", "Through the regulator, on both sides of the circuit.")
            }
            Kind::Stand => (
                "Let the nitrogen stand",
                "Stand",
                "The gauge and the thermometer are read at start and end.",
            ),
            Kind::Recovery => ("Recover deeper", "Recover", "The rule asks a small unit for 0 inHg only."),
            Kind::Vacuum => {
                ("Evacuate to a target", "Evacuate", "Until the micron gauge shows it, or for so long.")
            }
            Kind::Decay => ("Watch the vacuum", "Watch", "With the pump valved off."),
            Kind::Charge => (
                "Charge to a target",
                "Charge",
                "Small steps in or out of the running system, fifteen minutes of settling after each.",
            ),
        };
        heading(ui, title);
        small(ui, told);
        let is_ip = self.words.units == Units::Ip;
        match self.kind {
            Kind::Nitrogen => {
                let (most, suffix) = if is_ip { (650.0, " psig") } else { (4500.0, " kPa gauge") };
                number(ui, "Regulator at", &mut self.pressure, 1.0, most, suffix);
            }
            Kind::Recovery => {
                let (most, suffix) = if is_ip { (28.0, " inHg of vacuum") } else { (95.0, " kPa of vacuum") };
                number(ui, "Down to", &mut self.pressure, 0.0, most, suffix);
            }
            Kind::Vacuum => {
                let (least, most, suffix) =
                    if is_ip { (25.0, 20_000.0, " micron") } else { (3.0, 2600.0, " Pa") };
                number(ui, "Down to", &mut self.pressure, least, most, suffix);
            }
            Kind::Charge => {
                ui.horizontal(|ui| {
                    ui.label("By");
                    ui.selectable_value(&mut self.by, ChargeBy::Subcooling, "Subcooling");
                    ui.selectable_value(&mut self.by, ChargeBy::Superheat, "Superheat");
                });
                let (most, suffix) = if is_ip { (72.0, " °F") } else { (40.0, " K") };
                number(ui, "Target", &mut self.difference, 0.0, most, suffix);
                let (most, suffix) = if is_ip { (160.0, " oz") } else { (4500.0, " g") };
                number(ui, "Put in at most", &mut self.mass, 1.0, most, suffix);
            }
            Kind::Stand | Kind::Decay => {}
        }
        if matches!(self.kind, Kind::Stand | Kind::Decay | Kind::Vacuum | Kind::Charge) {
            let label = if matches!(self.kind, Kind::Stand | Kind::Decay) { "For" } else { "For at most" };
            number(ui, label, &mut self.minutes, 1.0, 720.0, " min");
        }
        let action = self.action();
        if let Some(one) = visit::caution(&action) {
            caution(ui, &view.words.say(&one), |_| ());
        }
        let no_target = self.kind == Kind::Charge && self.difference < 0.5;
        buttons(ui, view, go, action, no_target.then_some("Enter a target."))
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

fn number(ui: &mut Ui, label: &str, value: &mut f64, least: f64, most: f64, suffix: &str) {
    ui.horizontal(|ui| {
        let label = ui.label(label);
        ui.add(DragValue::new(value).range(least..=most).speed(0.5).max_decimals(1).suffix(suffix))
            .labelled_by(label.id);
    });
}
