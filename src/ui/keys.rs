//! The keyboard.

use call::Hints;
use egui::{Context, Event, Key, Modifiers};
use session::{ClockLook, Command};
use visit::{Move, Place};

use crate::help::Help;
use crate::view::View;
use crate::wish::{Ask, Wish, Wishes};
use crate::wording;
use words::Words;

/// How far the keyboard reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Reach {
    /// Something lies over the screen: clock and units only.
    Clock,
    /// Everything.
    Screen,
}

/// Keys that work on every screen: help.
pub(crate) fn everywhere(ctx: &Context, help: Help, wishes: &mut Wishes) {
    let typed_question_mark = !ctx.text_edit_focused() && took_text(ctx, "?");
    if typed_question_mark || took(ctx, Key::F1) || help == Help::Open && took(ctx, Key::Escape) {
        wishes.push(Wish::Help);
    }
}

/// Keys of the visit: the clock always, the rest when neither a dialog is open nor text is entered.
pub(crate) fn in_visit(ctx: &Context, reach: Reach, view: &View<'_>, clock: ClockLook, wishes: &mut Wishes) {
    if ctx.text_edit_focused() {
        return;
    }
    // Space would also press the button that has the keyboard: the clock comes first, Enter presses.
    if took(ctx, Key::Space) {
        wishes.command(Command::TogglePause);
    }
    if took(ctx, Key::Comma) {
        wishes.command(Command::SetSpeed(clock.speed.slower()));
    }
    if took(ctx, Key::Period) {
        wishes.command(Command::SetSpeed(clock.speed.faster()));
    }
    if took(ctx, Key::U) {
        wishes.command(Command::SetUnits(view.words.units.other()));
    }
    if reach == Reach::Clock {
        return;
    }
    if took(ctx, Key::S) {
        wishes.command(Command::SaveRecord);
    }
    if view.call.hints != Hints::Off && took(ctx, Key::N) {
        wishes.push(Wish::Turn);
    }
    for place in Place::ALL {
        if let Some(key) = Key::from_name(&wording::letter(place).to_string())
            && took(ctx, key)
        {
            wishes.push(Wish::Go(place));
        }
    }
    if view.busy.is_some() {
        return;
    }
    for (index, key) in DIGITS.into_iter().enumerate() {
        if took(ctx, key)
            && let Some(offer) = view.offers.get(index)
        {
            wishes.push(Wish::Choose(offer.action.clone()));
        }
    }
    if took(ctx, Key::Q) {
        wishes.push(Wish::Open(Ask::Question));
    }
    if took(ctx, Key::W) {
        wishes.push(Wish::Open(Ask::Wait));
    }
    if took(ctx, Key::X) {
        wishes.push(Wish::Open(Ask::Declare));
    }
    if took(ctx, Key::V) {
        wishes.push(Wish::Open(Ask::Confirm(Move::Verify)));
    }
    if took(ctx, Key::T) {
        wishes.push(Wish::Open(Ask::Confirm(Move::CloseTicket)));
    }
}

/// Keys of the review.
pub(crate) fn in_review(ctx: &Context, reach: Reach, words: Words, wishes: &mut Wishes) {
    if ctx.text_edit_focused() {
        return;
    }
    if took(ctx, Key::U) {
        wishes.command(Command::SetUnits(words.units.other()));
    }
    if reach == Reach::Clock {
        return;
    }
    if took(ctx, Key::S) {
        wishes.command(Command::SaveRecord);
    }
    if took(ctx, Key::P) {
        wishes.command(Command::SavePage);
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
