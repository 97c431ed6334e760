//! Asking once more.

use egui::{RichText, Ui};
use visit::Move;

use super::answer::{Answer, cancel};
use crate::palette;
use crate::parts::{caution, heading, primary};
use crate::units::cost_in_minutes;
use crate::view::View;
use session::Command;
use words::{Words, span};

/// A move with what it takes and its caution.
pub fn action(ui: &mut Ui, action: &Move, view: &View<'_>) -> Answer {
    let words = view.words;
    ui.set_width(440.0);
    heading(ui, &words.say(action));
    match action {
        Move::CloseTicket => {
            ui.label(words.label("screen-close-ticket-about"));
            let undone: Vec<&str> = [
                (
                    !view.notebook.iter().any(|entry| matches!(entry.action, Move::Declare(_))),
                    "screen-close-ticket-no-cause",
                ),
                (
                    !view.notebook.iter().any(|entry| entry.action == Move::Verify),
                    "screen-close-ticket-not-verified",
                ),
            ]
            .into_iter()
            .filter_map(|(is_missing, text)| is_missing.then_some(text))
            .collect();
            for text in undone {
                ui.label(RichText::new(words.label(text)).color(palette::BRICK));
            }
        }
        Move::Verify => {
            ui.label(words.label("screen-verify-about"));
        }
        _ => {}
    }
    let offer = view.offer(action);
    let time = cost_in_minutes(offer.minutes, words);
    ui.label(words.fill("screen-dialog-takes", &[("time", time)]));
    if let Some(reason) = &offer.refused {
        ui.label(
            RichText::new(words.fill("not-now", &[("reason", words.say(reason))])).color(palette::BRICK),
        );
    }
    if let Some(one) = offer.caution {
        caution(ui, &words.say(&one), words, |_| ());
    }
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if primary(ui, &words.label("screen-dialog-do"), None).clicked() {
            Answer::Given(vec![Command::Perform(action.clone())])
        } else if cancel(ui, words) {
            Answer::Cancelled
        } else {
            Answer::Open
        }
    })
    .inner
}

/// Leaving.
pub fn leave(ui: &mut Ui, words: Words) -> Answer {
    ui.set_width(420.0);
    heading(ui, &words.label("screen-leave"));
    ui.label(words.label("screen-leave-about"));
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        if primary(ui, &words.label("screen-leave-save"), None).clicked() {
            Answer::Given(vec![Command::SaveAndLeave])
        } else if ui.button(words.label("screen-leave-lose")).clicked() {
            Answer::Given(vec![Command::Leave])
        } else if cancel(ui, words) {
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
