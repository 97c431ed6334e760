//! Help: keys and vocabulary over the screen.

use egui::{Context, Grid, ScrollArea, vec2};

use crate::desk::{Desk, Help};
use crate::palette;
use crate::parts::{heading, key_cap, modal, small};

const KEYS: [(&str, &str); 16] = [
    ("F1  ?", "open and close this page"),
    ("A to L", "go to a place"),
    ("1 to 0", "make a move of the place"),
    ("Tab  arrows", "go from button to button"),
    ("Enter", "press the button that has the keyboard"),
    ("Space", "pause, go on"),
    (",  .", "slower, faster"),
    ("W", "wait"),
    ("Q", "ask the customer"),
    ("X", "declare the cause"),
    ("V", "run it and verify the repair"),
    ("T", "close the ticket"),
    ("N", "next test, back to the notebook"),
    ("U", "change the units"),
    ("S", "save the visit record"),
    ("P", "in the review: save it as a page"),
];

const WORDS: [(&str, &str); 12] = [
    ("Call", "what the customer wants, with the equipment, the house and what is wrong."),
    ("Visit", "your work on one call, from arrival to closed ticket."),
    ("Move", "one thing you do. Every move takes minutes; parts cost money."),
    (
        "Reading",
        "a number from an instrument, with its unit and how far it can be off (±, one standard deviation).",
    ),
    ("Notebook", "everything you did and saw. Tick an entry to cite it as evidence."),
    ("Superheat", "suction line temperature less the dew point at suction pressure."),
    ("Subcooling", "bubble point at liquid pressure less liquid line temperature."),
    ("Temperature split", "return air less supply air, dry bulb."),
    (
        "Settled",
        "an instrument that has stopped moving. A reading on an iced coil or a stopped compressor is marked.",
    ),
    ("Thaw", "the coil free of ice. Compressor off and blower on melts it soonest."),
    ("Rival", "another fault that could show the same signs. Good evidence rules it out."),
    ("Review", "what your marks rest on, move by move, and what was wrong."),
];

/// The page over the screen.
pub fn overlay(ctx: &Context, desk: &mut Desk) {
    let room = ctx.content_rect().size();
    let response = modal("help").show(ctx, |ui| {
        ui.set_width((room.x * 0.8).min(900.0));
        heading(ui, "How to work here");
        ui.label(
            "Choose a place in the drawing or in the list. Its moves stand on the right. Moves that the site \
             forbids can be tried: you are told why, and the minutes are spent.",
        );
        ui.separator();
        // A fixed height: a page that grows with its contents never stands still.
        let height = (room.y * 0.62).min(560.0);
        ScrollArea::vertical().max_height(height).min_scrolled_height(height).auto_shrink(false).show(ui, |ui| {
            ui.horizontal_top(|ui| {
                Grid::new("keys").num_columns(2).spacing(vec2(12.0, 4.0)).show(ui, |ui| {
                    for (keys, what) in KEYS {
                        ui.horizontal(|ui| {
                            for key in keys.split("  ") {
                                key_cap(ui, key);
                            }
                        });
                        ui.label(what);
                        ui.end_row();
                    }
                });
                ui.add_space(16.0);
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 1.0;
                    for (word, meaning) in WORDS {
                        ui.label(palette::bold(word).color(palette::ACCENT));
                        ui.add(egui::Label::new(meaning).wrap());
                        ui.add_space(5.0);
                    }
                });
            });
        });
        ui.separator();
        ui.horizontal(|ui| {
            if ui.button("Close").clicked() {
                ui.close();
            }
            small(
                ui,
                "Rimebench teaches a way of thinking; licensed practice, the maker’s instructions and local codes decide.",
            );
        });
    });
    if response.should_close() {
        desk.help = Help::Closed;
    }
}
