//! Dialogs: what a move still needs before it can be made.

mod confirm;
mod declare;
mod entry;
mod service;

use std::collections::BTreeSet;

use call::Question;
use egui::{Button, Context, RichText, Ui, vec2};
use visit::Move;

use crate::command::Command;
use crate::parts::{self, heading};
use crate::state::UiState;
use crate::units::cost_in_minutes;
use crate::view::View;
use crate::{palette, wording};
use words::Words;

use declare::DeclareForm;
use entry::{MassForm, ThermostatForm, VoltageForm, WaitForm};
use service::ServiceForm;

/// The open dialog.
pub enum Dialog {
    /// A question for the customer.
    Ask,
    /// How long to wait.
    Wait(WaitForm),
    /// Thermostat settings.
    Thermostat(ThermostatForm),
    /// How much refrigerant.
    Mass(MassForm),
    /// Pressures, times and targets of service on the circuit.
    Service(ServiceForm),
    /// Between which terminals.
    Voltage(VoltageForm),
    /// The cause with its evidence.
    Declare(DeclareForm),
    /// A move that is asked for once more.
    Confirm(Move),
    /// Leaving the visit.
    Leave,
}

/// What a dialog ended with.
pub(crate) enum Answer {
    Open,
    Cancelled,
    Given(Vec<Command>),
}

impl Dialog {
    /// Questions for the customer.
    pub fn ask() -> Dialog {
        Dialog::Ask
    }

    /// How long to wait.
    pub fn wait() -> Dialog {
        Dialog::Wait(WaitForm::default())
    }

    /// Thermostat as it is set.
    pub fn thermostat(view: &View<'_>, words: Words) -> Dialog {
        Dialog::Thermostat(ThermostatForm::of(view, words))
    }

    /// What a service move still needs; `None` for one that needs nothing.
    pub fn service(action: &Move, words: Words) -> Option<Dialog> {
        ServiceForm::for_move(action, words).map(Dialog::Service)
    }

    /// How much refrigerant, for the moves that put some in or draw some off.
    pub fn mass(action: &Move) -> Dialog {
        Dialog::Mass(MassForm::for_move(action))
    }

    /// Between which terminals.
    pub fn voltage() -> Dialog {
        Dialog::Voltage(VoltageForm::default())
    }

    /// The cause, with the entries that are ticked in the notebook.
    pub fn declare(cited: &BTreeSet<u32>) -> Dialog {
        Dialog::Declare(DeclareForm::with(cited))
    }

    /// A move that is asked for once more.
    pub fn confirm(action: Move) -> Dialog {
        Dialog::Confirm(action)
    }
}

/// Shows the open dialog, if any, and carries its answer on.
pub fn show(ctx: &Context, state: &mut UiState, view: &View<'_>, commands: &mut Vec<Command>) {
    let Some(mut dialog) = state.dialog.take() else { return };
    let words = state.words;
    let modal = parts::modal("dialog").show(ctx, |ui| match &mut dialog {
        Dialog::Ask => ask(ui, view),
        Dialog::Wait(form) => form.show(ui, words),
        Dialog::Thermostat(form) => form.show(ui, view),
        Dialog::Mass(form) => form.show(ui, view, words),
        Dialog::Service(form) => form.show(ui, view),
        Dialog::Voltage(form) => form.show(ui, view),
        Dialog::Declare(form) => form.show(ui, view, words),
        Dialog::Confirm(action) => confirm::action(ui, action, view),
        Dialog::Leave => confirm::leave(ui, words),
    });
    if let Dialog::Declare(form) = &dialog {
        state.cited = form.evidence.clone();
    }
    let is_dismissed = modal.should_close();
    match modal.inner {
        Answer::Given(given) => commands.extend(given),
        Answer::Cancelled => {}
        Answer::Open if is_dismissed => {}
        Answer::Open => state.dialog = Some(dialog),
    }
}

fn ask(ui: &mut Ui, view: &View<'_>) -> Answer {
    ui.set_width(460.0);
    heading(ui, &view.words.label("screen-ask"));
    ui.add(egui::Label::new(wording::quoted(view.words.own(&view.call.complaint), view.words)).wrap());
    ui.add_space(4.0);
    let mut answer = Answer::Open;
    for question in Question::ALL {
        let minutes = cost_in_minutes(view.offer(&Move::Ask(question)).minutes, view.words);
        let minutes = RichText::new(minutes).size(palette::SMALL_PX).color(palette::PENCIL);
        let button = Button::new(view.words.say(&question))
            .right_text(minutes)
            .min_size(vec2(ui.available_width(), 28.0));
        if ui.add(button).clicked() {
            answer = Answer::Given(vec![Command::Perform(Move::Ask(question))]);
        }
    }
    if cancel(ui, view.words) { Answer::Cancelled } else { answer }
}

/// The way out of every dialog.
fn cancel(ui: &mut Ui, words: Words) -> bool {
    ui.add(Button::new(words.label("screen-cancel")).min_size(vec2(90.0, 30.0))).clicked()
}
