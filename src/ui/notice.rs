//! A message of the session, until it is put away.

use egui::{Frame, Margin, Ui};
use session::{Command, Notice};
use words::Words;

use crate::palette;
use crate::wish::Wishes;

/// The message, if there is one.
pub(crate) fn show(ui: &mut Ui, notice: Option<&Notice>, words: Words, wishes: &mut Wishes) {
    let Some(notice) = notice else { return };
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
                put_away = ui.button(words.label("screen-dismiss")).clicked();
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
        wishes.command(Command::DismissNotice);
    }
}
