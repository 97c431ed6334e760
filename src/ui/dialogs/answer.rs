//! What a dialog ends with, and the ways there.

use egui::{Button, RichText, Ui, vec2};
use session::Command;
use visit::Move;

use crate::palette;
use crate::parts::{primary, small};
use crate::units::cost_in_minutes;
use crate::view::View;
use words::Words;

/// What a dialog ended with.
pub(crate) enum Answer {
    Open,
    Cancelled,
    Given(Vec<Command>),
}

/// The way out of every dialog.
pub(super) fn cancel(ui: &mut Ui, words: Words) -> bool {
    ui.add(Button::new(words.label("screen-cancel")).min_size(vec2(90.0, 30.0))).clicked()
}

/// What a move takes, and the way to make it; a hindrance comes as the key of its message.
pub(super) fn buttons(
    ui: &mut Ui,
    view: &View<'_>,
    go: &str,
    action: Move,
    hindrance: Option<&str>,
) -> Answer {
    let hindrance = hindrance.map(|key| view.words.label(key));
    let offer = view.offer(&action);
    let time = cost_in_minutes(offer.minutes, view.words);
    small(ui, view.words.fill("screen-dialog-takes", &[("time", time)]));
    if let Some(reason) = &offer.refused {
        ui.label(
            RichText::new(view.words.fill("not-now", &[("reason", view.words.say(reason))]))
                .color(palette::BRICK),
        );
    }
    ui.horizontal(|ui| {
        if primary(ui, go, hindrance.as_deref()).clicked() {
            perform(action)
        } else if cancel(ui, view.words) {
            Answer::Cancelled
        } else {
            Answer::Open
        }
    })
    .inner
}

/// A move is to be made.
pub(super) fn perform(action: Move) -> Answer {
    Answer::Given(vec![Command::Perform(action)])
}
