//! The moves possible at the chosen place, with their minutes, reasons against, and cautions.

use egui::{Button, RichText, ScrollArea, Ui, vec2};
use visit::{Move, Offer, Place};

use crate::parts::{caution, heading, small};
use crate::units::cost_in_minutes;
use crate::view::View;
use crate::wish::{Ask, Wish, Wishes};
use crate::{keys, palette, wording};
use words::Words;

/// Which widget takes the keyboard in the next frame.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Focus {
    #[default]
    Nothing,
    FirstMove,
}

/// The panel.
pub(crate) fn panel(ui: &mut Ui, focus: &mut Focus, view: &View<'_>, wishes: &mut Wishes) {
    ui.add_space(4.0);
    heading(ui, &wording::lettered(view.place, view.words));
    small(ui, wording::place_note(view.place, view.words));
    ui.add_space(2.0);
    ScrollArea::vertical().id_salt(("moves", view.place)).auto_shrink(false).show(ui, |ui| {
        if view.offers.is_empty() {
            ui.label(view.words.label("screen-moves-none"));
        }
        let mut first = 0;
        let mut told = Vec::new();
        while first < view.offers.len() {
            let shared = view.offers[first].caution;
            let end = view.offers[first..]
                .iter()
                .position(|offer| offer.caution != shared)
                .map_or(view.offers.len(), |length| first + length);
            let group = first..end;
            let rows = |ui: &mut Ui| {
                for index in group {
                    row(ui, *focus, view, index, wishes);
                }
            };
            match shared {
                // A text that stands above already is not told again; its box and sign are.
                Some(one) if told.contains(&one) => {
                    caution(ui, &view.words.label("screen-caution-above"), view.words, rows);
                }
                Some(one) => {
                    told.push(one);
                    caution(ui, &view.words.say(&one), view.words, rows);
                }
                None => rows(ui),
            }
            first = end;
        }
        more(ui, view, wishes);
    });
    *focus = Focus::Nothing;
}

fn row(ui: &mut Ui, focus: Focus, view: &View<'_>, index: usize, wishes: &mut Wishes) {
    let offer = &view.offers[index];
    let colour = if offer.refused.is_some() { palette::PENCIL } else { palette::INK };
    let name = phrase(offer, view.words);
    let text = match keys::digit(index) {
        Some(key) => view.words.fill("screen-move-keyed", &[("key", key.to_owned()), ("move", name)]),
        None => view.words.fill("screen-move-unkeyed", &[("move", name)]),
    };
    let text = RichText::new(text).color(colour);
    let minutes = RichText::new(cost_in_minutes(offer.minutes, view.words))
        .size(palette::SMALL_PX)
        .color(palette::PENCIL);
    let button = Button::new(text).wrap().right_text(minutes).min_size(vec2(ui.available_width(), 26.0));
    let response = ui.add_enabled(view.busy.is_none(), button);
    let response = response.on_disabled_hover_text(view.words.label("screen-moves-busy"));
    if index == 0 && focus == Focus::FirstMove {
        response.request_focus();
    }
    if response.clicked() {
        wishes.push(Wish::Choose(offer.action.clone()));
    }
    if let Some(reason) = &offer.refused {
        ui.horizontal_top(|ui| {
            ui.add_space(8.0);
            let text = RichText::new(view.words.fill("not-now", &[("reason", view.words.say(reason))]))
                .size(palette::SMALL_PX)
                .color(palette::BRICK);
            ui.add(egui::Label::new(text).wrap());
        });
    }
}

fn phrase(offer: &Offer, words: Words) -> String {
    words.label(match offer.action {
        Move::WeighIn(_) => "screen-move-weigh-in",
        Move::AddRefrigerant(_) => "screen-move-add",
        Move::AddVapor(_) => "screen-move-add-vapor",
        Move::RemoveRefrigerant(_) => "screen-move-remove",
        Move::RecoverTo(_) => "screen-move-recover-to",
        Move::PressurizeWithNitrogen(_) => "screen-move-nitrogen",
        Move::StandingTest(_) => "screen-move-standing-test",
        Move::EvacuateTo { .. } => "screen-move-evacuate-to",
        Move::DecayTest(_) => "screen-move-decay-test",
        Move::ChargeTo { .. } => "screen-move-charge-to",
        Move::Wait(_) => "screen-move-wait",
        Move::Declare(_) => "screen-move-declare",
        _ => return words.say(&offer.action),
    })
}

/// What a place offers beyond the ready moves.
fn more(ui: &mut Ui, view: &View<'_>, wishes: &mut Wishes) {
    let (text, ask) = match view.place {
        Place::Thermostat => ("screen-move-thermostat", Ask::Thermostat),
        _ if view.offers.iter().any(|offer| matches!(offer.action, Move::MeasureVoltage { .. })) => {
            ("screen-move-voltage", Ask::Voltage)
        }
        _ => return,
    };
    let button = Button::new(view.words.label(text)).min_size(vec2(ui.available_width(), 26.0));
    if ui.add_enabled(view.busy.is_none(), button).clicked() {
        wishes.push(Wish::Open(ask));
    }
}
