//! The top bar: the ticket, and the moves that belong to no place.

use egui::{Button, Frame, Margin, RichText, Ui};
use visit::Move;

use crate::command::Command;
use crate::dialogs::Dialog;
use crate::palette;
use crate::parts::from_right;
use crate::state::{Notice, UiState};
use crate::view::View;

/// The top bar.
pub fn bar(ui: &mut Ui, state: &mut UiState, view: &View<'_>, commands: &mut Vec<Command>) {
    let words = state.words;
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(10, 6));
    egui::Panel::top("ticket").frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            from_right(ui, |ui| {
                if ui
                    .button(words.label("screen-ticket-leave"))
                    .on_hover_text(words.label("screen-ticket-leave-about"))
                    .clicked()
                {
                    state.dialog = Some(Dialog::Leave);
                }
                if ui.button(words.label("screen-help-open")).clicked() {
                    state.help.toggle();
                }
                let switch = Button::new(words.units.label());
                if ui.add(switch).on_hover_text(words.label("screen-units-change")).clicked() {
                    state.words.units = state.words.units.other();
                }
                if ui
                    .button(words.label("screen-ticket-save"))
                    .on_hover_text(words.label("screen-ticket-save-about"))
                    .clicked()
                {
                    commands.push(Command::SaveRecord);
                }
                ui.separator();
                let idle = view.busy.is_none();
                ui.add_enabled_ui(idle, |ui| {
                    if ui.button(words.label("screen-ticket-close")).clicked() {
                        state.dialog = Some(Dialog::confirm(Move::CloseTicket));
                    }
                    if ui.button(words.label("screen-ticket-verify")).clicked() {
                        state.dialog = Some(Dialog::confirm(Move::Verify));
                    }
                    if ui.button(words.label("screen-ticket-declare")).clicked() {
                        state.dialog = Some(Dialog::declare(&state.cited));
                    }
                    if ui.button(words.label("screen-ticket-ask")).clicked() {
                        state.dialog = Some(Dialog::ask());
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
        notice(ui, state);
    });
}

/// A message from the window, until it is put away.
pub fn notice(ui: &mut Ui, state: &mut UiState) {
    let Some(notice) = &state.notice else { return };
    let (ground, edge, lines): (_, _, &[String]) = match notice {
        Notice::Good(line) => (palette::ACCENT_WASH, palette::ACCENT, std::slice::from_ref(line)),
        Notice::Bad(lines) => (palette::BRICK_WASH, palette::BRICK, lines),
    };
    let mut put_away = false;
    Frame::NONE
        .fill(ground)
        .stroke(egui::Stroke::new(1.5, edge))
        .corner_radius(3.0)
        .inner_margin(Margin::symmetric(10, 5))
        .show(ui, |ui| {
            ui.horizontal(|ui| {
                put_away = ui.button(state.words.label("screen-dismiss")).clicked();
                if let [line] = lines {
                    ui.add(egui::Label::new(line).wrap());
                    return;
                }
                ui.vertical(|ui| {
                    egui::ScrollArea::vertical().max_height(160.0).show(ui, |ui| {
                        for line in lines {
                            ui.label(line);
                        }
                    });
                });
            });
        });
    if put_away {
        state.notice = None;
    }
}
