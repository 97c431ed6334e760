//! Help: keys and vocabulary over the screen.

use egui::{Context, Grid, ScrollArea, vec2};

use crate::palette;
use words::Words;

use crate::parts::{heading, key_cap, modal, small};

/// A key as it is shown.
enum Cap {
    /// What is printed on it.
    Sign(&'static str),
    /// A name, by the key of its message.
    Name(&'static str),
}

use Cap::{Name, Sign};

/// Keys, and the key of the message that tells what they do.
const KEYS: [(&[Cap], &str); 16] = [
    (&[Sign("F1"), Sign("?")], "screen-key-does-help"),
    (&[Name("screen-key-letters")], "screen-key-does-place"),
    (&[Name("screen-key-digits")], "screen-key-does-move"),
    (&[Name("screen-key-tab"), Name("screen-key-arrows")], "screen-key-does-buttons"),
    (&[Name("screen-key-enter")], "screen-key-does-press"),
    (&[Name("screen-key-space")], "screen-key-does-pause"),
    (&[Sign(","), Sign(".")], "screen-key-does-speed"),
    (&[Sign("W")], "screen-key-does-wait"),
    (&[Sign("Q")], "screen-key-does-ask"),
    (&[Sign("X")], "screen-key-does-declare"),
    (&[Sign("V")], "screen-key-does-verify"),
    (&[Sign("T")], "screen-key-does-close"),
    (&[Sign("N")], "screen-key-does-hints"),
    (&[Sign("U")], "screen-key-does-units"),
    (&[Sign("S")], "screen-key-does-save"),
    (&[Sign("P")], "screen-key-does-page"),
];

/// Terms, and what they mean.
const TERMS: [(&str, &str); 12] = [
    ("screen-term-call", "screen-term-call-about"),
    ("screen-term-visit", "screen-term-visit-about"),
    ("screen-term-move", "screen-term-move-about"),
    ("screen-term-reading", "screen-term-reading-about"),
    ("screen-term-notebook", "screen-term-notebook-about"),
    ("screen-term-superheat", "screen-term-superheat-about"),
    ("screen-term-subcooling", "screen-term-subcooling-about"),
    ("screen-term-split", "screen-term-split-about"),
    ("screen-term-settled", "screen-term-settled-about"),
    ("screen-term-thaw", "screen-term-thaw-about"),
    ("screen-term-rival", "screen-term-rival-about"),
    ("screen-term-review", "screen-term-review-about"),
];

/// Whether help is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Help {
    #[default]
    Closed,
    Open,
}

impl Help {
    /// Opened or closed.
    pub(crate) fn toggle(&mut self) {
        *self = match self {
            Help::Closed => Help::Open,
            Help::Open => Help::Closed,
        };
    }
}

/// The page over the screen.
pub(crate) fn overlay(ctx: &Context, help: &mut Help, words: Words) {
    let room = ctx.content_rect().size();
    let response = modal("help").show(ctx, |ui| {
        ui.set_width((room.x * 0.8).min(900.0));
        heading(ui, &words.label("screen-help"));
        ui.label(words.label("screen-help-about"));
        ui.separator();
        // A fixed height: a page that grows with its contents never stands still.
        let height = (room.y * 0.62).min(560.0);
        ScrollArea::vertical().max_height(height).min_scrolled_height(height).auto_shrink(false).show(
            ui,
            |ui| {
                ui.horizontal_top(|ui| {
                    Grid::new("keys").num_columns(2).spacing(vec2(12.0, 4.0)).show(ui, |ui| {
                        for (caps, does) in KEYS {
                            ui.horizontal(|ui| {
                                for cap in caps {
                                    match cap {
                                        Sign(sign) => key_cap(ui, sign),
                                        Name(name) => key_cap(ui, &words.label(name)),
                                    }
                                }
                            });
                            ui.label(words.label(does));
                            ui.end_row();
                        }
                    });
                    ui.add_space(16.0);
                    ui.vertical(|ui| {
                        ui.spacing_mut().item_spacing.y = 1.0;
                        for (term, meaning) in TERMS {
                            ui.label(palette::bold(words.label(term)).color(palette::ACCENT));
                            ui.add(egui::Label::new(words.label(meaning)).wrap());
                            ui.add_space(5.0);
                        }
                    });
                });
            },
        );
        ui.separator();
        ui.horizontal(|ui| {
            if ui.button(words.label("screen-close")).clicked() {
                ui.close();
            }
            small(ui, words.label("screen-help-not-practice"));
        });
    });
    if response.should_close() {
        *help = Help::Closed;
    }
}
