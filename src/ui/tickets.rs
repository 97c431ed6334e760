//! The top bar: the ticket, and the moves that belong to no place.

use egui::{Button, Frame, Margin, RichText, Ui};
use session::{Command, Notice};
use visit::Move;

use crate::parts::from_right;
use crate::view::View;
use crate::wish::{Ask, Wish, Wishes};
use crate::{notice, palette};

/// The top bar.
pub(crate) fn bar(ui: &mut Ui, view: &View<'_>, told: Option<&Notice>, wishes: &mut Wishes) {
    let words = view.words;
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(10, 6));
    egui::Panel::top("ticket").frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            from_right(ui, |ui| {
                if ui
                    .button(words.label("screen-ticket-leave"))
                    .on_hover_text(words.label("screen-ticket-leave-about"))
                    .clicked()
                {
                    wishes.push(Wish::Open(Ask::Leave));
                }
                if ui.button(words.label("screen-help-open")).clicked() {
                    wishes.push(Wish::Help);
                }
                let switch = Button::new(words.units.label());
                if ui.add(switch).on_hover_text(words.label("screen-units-change")).clicked() {
                    wishes.command(Command::SetUnits(words.units.other()));
                }
                if ui
                    .button(words.label("screen-ticket-save"))
                    .on_hover_text(words.label("screen-ticket-save-about"))
                    .clicked()
                {
                    wishes.command(Command::SaveRecord);
                }
                ui.separator();
                let idle = view.busy.is_none();
                ui.add_enabled_ui(idle, |ui| {
                    if ui.button(words.label("screen-ticket-close")).clicked() {
                        wishes.push(Wish::Open(Ask::Confirm(Move::CloseTicket)));
                    }
                    if ui.button(words.label("screen-ticket-verify")).clicked() {
                        wishes.push(Wish::Open(Ask::Confirm(Move::Verify)));
                    }
                    if ui.button(words.label("screen-ticket-declare")).clicked() {
                        wishes.push(Wish::Open(Ask::Declare));
                    }
                    if ui.button(words.label("screen-ticket-ask")).clicked() {
                        wishes.push(Wish::Open(Ask::Question));
                    }
                });
                ui.separator();
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    let title = palette::bold(words.own(&view.call.title)).size(16.0);
                    ui.add(egui::Label::new(title).truncate()).on_hover_text(words.own(&view.call.complaint));
                });
            });
        });
        let complaint =
            words.fill("screen-ticket-customer", &[("complaint", words.own(&view.call.complaint))]);
        ui.add(egui::Label::new(RichText::new(complaint).size(palette::SMALL_PX)).truncate())
            .on_hover_text(words.own(&view.call.complaint));
        notice::show(ui, told, words, wishes);
    });
}
