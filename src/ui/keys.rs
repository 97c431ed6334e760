//! The keyboard.

use call::Hints;
use egui::{Context, Event, Key, Modifiers};
use visit::{Move, Place};

use crate::command::Command;
use crate::dialogs::Dialog;
use crate::stage::ClockLook;
use crate::state::{Help, UiState};
use crate::view::View;
use crate::{moves, wording};

/// Keys that work on every screen: help.
pub fn everywhere(ctx: &Context, state: &mut UiState) {
    let typed_question_mark = !ctx.text_edit_focused() && took_text(ctx, "?");
    if typed_question_mark || took(ctx, Key::F1) {
        state.help.toggle();
    }
    if state.help == Help::Open && took(ctx, Key::Escape) {
        state.help = Help::Closed;
    }
}

/// Keys of the visit: the clock always, the rest when neither a dialog is open nor text is entered.
pub fn in_visit(
    ctx: &Context,
    state: &mut UiState,
    view: &View<'_>,
    clock: ClockLook,
    commands: &mut Vec<Command>,
) {
    if ctx.text_edit_focused() {
        return;
    }
    // Space would also press the button that has the keyboard: the clock comes first, Enter presses.
    if took(ctx, Key::Space) {
        commands.push(Command::TogglePause);
    }
    if took(ctx, Key::Comma) {
        commands.push(Command::SetSpeed(clock.speed.slower()));
    }
    if took(ctx, Key::Period) {
        commands.push(Command::SetSpeed(clock.speed.faster()));
    }
    if took(ctx, Key::U) {
        state.words.units = state.words.units.other();
    }
    if state.dialog.is_some() || state.help == Help::Open {
        return;
    }
    if took(ctx, Key::S) {
        commands.push(Command::SaveRecord);
    }
    if view.call.hints != Hints::Off && took(ctx, Key::N) {
        state.side = state.side.other();
    }
    for place in Place::ALL {
        if let Some(key) = Key::from_name(&wording::letter(place).to_string())
            && took(ctx, key)
        {
            state.go(place);
        }
    }
    if view.busy.is_some() {
        return;
    }
    for (index, key) in DIGITS.into_iter().enumerate() {
        if took(ctx, key)
            && let Some(offer) = view.offers.get(index)
        {
            moves::choose(&offer.action, state, commands);
        }
    }
    if took(ctx, Key::Q) {
        state.dialog = Some(Dialog::ask());
    }
    if took(ctx, Key::W) {
        state.dialog = Some(Dialog::wait());
    }
    if took(ctx, Key::X) {
        state.dialog = Some(Dialog::declare(&state.cited));
    }
    if took(ctx, Key::V) {
        state.dialog = Some(Dialog::confirm(Move::Verify));
    }
    if took(ctx, Key::T) {
        state.dialog = Some(Dialog::confirm(Move::CloseTicket));
    }
}

/// Keys of the review.
pub fn in_review(ctx: &Context, state: &mut UiState, commands: &mut Vec<Command>) {
    if ctx.text_edit_focused() {
        return;
    }
    if took(ctx, Key::U) {
        state.words.units = state.words.units.other();
    }
    if state.help == Help::Open {
        return;
    }
    if took(ctx, Key::S) {
        commands.push(Command::SaveRecord);
    }
    if took(ctx, Key::P) {
        commands.push(Command::SavePage);
    }
}

/// Keys of the first ten moves at a place.
const DIGITS: [Key; 10] = [
    Key::Num1,
    Key::Num2,
    Key::Num3,
    Key::Num4,
    Key::Num5,
    Key::Num6,
    Key::Num7,
    Key::Num8,
    Key::Num9,
    Key::Num0,
];

/// Sign of the key of a move at a place, if it has one.
pub fn digit(index: usize) -> Option<&'static str> {
    DIGITS.get(index).map(|key| key.name())
}

fn took(ctx: &Context, key: Key) -> bool {
    ctx.input_mut(|input| input.consume_key(Modifiers::NONE, key))
}

fn took_text(ctx: &Context, text: &str) -> bool {
    ctx.input_mut(|input| {
        let before = input.events.len();
        input.events.retain(|event| !matches!(event, Event::Text(typed) if typed == text));
        input.events.len() != before
    })
}
