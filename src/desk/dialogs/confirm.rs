//! Asking once more.

use egui::{RichText, Ui};
use visit::Move;

use super::{Answer, cancel};
use crate::command::Command;
use crate::palette;
use crate::parts::{caution, heading, primary};
use crate::units::cost_in_minutes;
use crate::view::View;
use words::span;

/// A move with what it takes and its caution.
pub fn action(ui: &mut Ui, action: &Move, view: &View<'_>) -> Answer {
    ui.set_width(440.0);
    heading(ui, &view.words.say(action));
    match action {
        Move::CloseTicket => {
            ui.label(
                "You tell the customer what was wrong and what was done, write the ticket and leave. After that \
                 nothing can be changed, and the review follows.",
            );
            let undone: Vec<&str> = [
                (
                    !view.notebook.iter().any(|entry| matches!(entry.action, Move::Declare(_))),
                    "No cause has been declared.",
                ),
                (
                    !view.notebook.iter().any(|entry| entry.action == Move::Verify),
                    "The repair has not been verified.",
                ),
            ]
            .into_iter()
            .filter_map(|(is_missing, text)| is_missing.then_some(text))
            .collect();
            for text in undone {
                ui.label(RichText::new(format!("! {text}")).color(palette::BRICK));
            }
        }
        Move::Verify => {
            ui.label("You let it run, watch it settle and take the readings that prove the repair.");
        }
        _ => {}
    }
    let offer = view.offer(action);
    ui.label(format!("Takes {}.", cost_in_minutes(offer.minutes)));
    if let Some(reason) = &offer.refused {
        ui.label(
            RichText::new(view.words.fill("not-now", &[("reason", view.words.say(reason))]))
                .color(palette::BRICK),
        );
    }
    if let Some(one) = offer.caution {
        caution(ui, &view.words.say(&one), |_| ());
    }
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if primary(ui, "Do it", None).clicked() {
            Answer::Given(vec![Command::Perform(action.clone())])
        } else if cancel(ui) {
            Answer::Cancelled
        } else {
            Answer::Open
        }
    })
    .inner
}

/// Leaving.
pub fn leave(ui: &mut Ui) -> Answer {
    ui.set_width(420.0);
    heading(ui, "Leave this visit");
    ui.label("A saved record can be opened again and the visit goes on from there.");
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if primary(ui, "Save and leave", None).clicked() {
            Answer::Given(vec![Command::SaveAndLeave])
        } else if ui.button("Leave without saving").clicked() {
            Answer::Given(vec![Command::Leave])
        } else if cancel(ui) {
            Answer::Cancelled
        } else {
            Answer::Open
        }
    })
    .inner
}

/// A span for sentences, from minutes.
pub fn in_words(minutes: f64) -> String {
    span(minutes * 60.0)
}
