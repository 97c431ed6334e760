//! Dialogs: what a move still needs before it can be made.

mod answer;
mod confirm;
mod declare;
mod entry;
mod service;

use std::collections::BTreeSet;

use call::Question;
use egui::{Button, Context, RichText, Ui, vec2};
use session::Command;
use visit::Move;

use crate::parts::{self, heading};
use crate::units::cost_in_minutes;
use crate::view::View;
use crate::wish::{Ask, Wish, Wishes};
use crate::{palette, wording};
use words::Words;

use answer::{Answer, cancel};
use declare::DeclareForm;
use entry::{MassForm, ThermostatForm, VoltageForm, WaitForm};
use service::ServiceForm;

/// The open dialog.
enum Dialog {
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

impl Dialog {
    /// What a move still needs; `None` for one that needs nothing.
    fn for_move(action: &Move, words: Words, cited: &BTreeSet<u32>) -> Option<Dialog> {
        match action {
            Move::WeighIn(_) | Move::AddRefrigerant(_) | Move::AddVapor(_) | Move::RemoveRefrigerant(_) => {
                Some(Dialog::Mass(MassForm::for_move(action)))
            }
            Move::Wait(_) => Some(Dialog::Wait(WaitForm::default())),
            Move::Declare(_) => Some(Dialog::Declare(DeclareForm::with(cited))),
            Move::CloseTicket | Move::Verify => Some(Dialog::Confirm(action.clone())),
            other => ServiceForm::for_move(other, words).map(Dialog::Service),
        }
    }

    fn of(ask: Ask, view: &View<'_>, cited: &BTreeSet<u32>) -> Dialog {
        match ask {
            Ask::Question => Dialog::Ask,
            Ask::Wait => Dialog::Wait(WaitForm::default()),
            Ask::Thermostat => Dialog::Thermostat(ThermostatForm::of(view, view.words)),
            Ask::Voltage => Dialog::Voltage(VoltageForm::default()),
            Ask::Declare => Dialog::Declare(DeclareForm::with(cited)),
            Ask::Confirm(action) => Dialog::Confirm(action),
            Ask::Leave => Dialog::Leave,
        }
    }
}

/// The dialog over the screen.
#[derive(Default)]
pub(crate) struct Dialogs {
    open: Option<Dialog>,
}

impl Dialogs {
    /// Whether one is open.
    pub(crate) fn is_open(&self) -> bool {
        self.open.is_some()
    }

    /// Opens one, with the entries that are cited.
    pub(crate) fn ask(&mut self, ask: Ask, view: &View<'_>, cited: &BTreeSet<u32>) {
        self.open = Some(Dialog::of(ask, view, cited));
    }

    /// Opens the dialog that asks for what a move still needs; a move that needs nothing is given back to be made.
    pub(crate) fn choose(&mut self, action: Move, words: Words, cited: &BTreeSet<u32>) -> Option<Command> {
        self.open = Dialog::for_move(&action, words, cited);
        self.open.is_none().then_some(Command::Perform(action))
    }

    /// Shows the open dialog, if any, and carries its answer on.
    pub(crate) fn show(&mut self, ctx: &Context, view: &View<'_>, wishes: &mut Wishes) {
        let Some(mut dialog) = self.open.take() else { return };
        let words = view.words;
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
            wishes.push(Wish::Cite(form.evidence.clone()));
        }
        let is_dismissed = modal.should_close();
        match modal.inner {
            Answer::Given(given) => given.into_iter().for_each(|command| wishes.command(command)),
            Answer::Cancelled => {}
            Answer::Open if is_dismissed => {}
            Answer::Open => self.open = Some(dialog),
        }
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
