//! The list of places: twin of the drawing.

use egui::{AtomExt as _, Button, RichText, ScrollArea, Ui, vec2};
use visit::{Location, Place};

use crate::parts::{heading, small};
use crate::view::View;
use crate::wish::{Wish, Wishes};
use crate::{palette, wording};

/// The list, indoors first.
pub(crate) fn panel(ui: &mut Ui, view: &View<'_>, wishes: &mut Wishes) {
    egui::Panel::left("places").resizable(false).exact_size(188.0).show(ui, |ui| {
        ui.add_space(4.0);
        heading(ui, &view.words.label("screen-places"));
        ScrollArea::vertical().show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            for (location, name) in
                [(Location::Indoors, "screen-places-indoors"), (Location::Outdoors, "screen-places-outdoors")]
            {
                small(ui, view.words.label(name));
                for place in Place::ALL.into_iter().filter(|place| place.location() == location) {
                    entry(ui, view, place, wishes);
                }
                ui.add_space(4.0);
            }
            ui.separator();
            small(ui, view.words.label("screen-places-senses"));
            ui.label(RichText::new(view.site.in_words(view.words)).size(palette::SMALL_PX));
        });
    });
}

fn entry(ui: &mut Ui, view: &View<'_>, place: Place, wishes: &mut Wishes) {
    let letter = palette::bold(wording::letter(place).to_string());
    let is_here = view.place == place;
    // The name wraps, not the letter before it.
    let button = Button::selectable(is_here, (letter, view.words.heading(&place).atom_shrink(true)))
        .frame_when_inactive(true)
        .wrap()
        .min_size(vec2(ui.available_width(), 25.0));
    if ui.add(button).on_hover_text(wording::place_note(place, view.words)).clicked() {
        wishes.push(Wish::Go(place));
    }
}
