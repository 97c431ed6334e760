//! The drawing: the house in section with the equipment in place, ink on paper.
//!
//! World coordinates run 1000 by 600, x to the right, y down; [`pen::Pen`] puts them on screen. Each place has a
//! hit area in [`places::area`] and a lettered balloon that the list of places repeats.

mod house;
mod indoor;
mod labels;
mod lines;
mod outdoor;
mod pen;
mod places;

use egui::{CursorIcon, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, vec2};
use visit::Place;

use crate::view::View;
use crate::wording;
use crate::{palette, parts};
use labels::Labels;
use pen::{Choice, Pen};
use words::Words;

pub use labels::Motion;
pub use places::area;

/// Draws the site into the space that is left; returns the place that was clicked.
pub fn draw(ui: &mut Ui, view: &View<'_>, words: Words, motion: Motion) -> Option<Place> {
    let rect = ui.available_rect_before_wrap();
    let response = ui.allocate_rect(rect, Sense::hover());
    response.widget_info(|| {
        let told = words.fill("screen-site-picture", &[("seen", view.site.in_words(words))]);
        WidgetInfo::labeled(WidgetType::Image, true, told)
    });
    let pen = Pen::new(ui.painter_at(rect), rect);
    let labels = Labels { view, words };
    house::sky(&pen, &view.site);
    house::grid(&pen, rect);
    house::section(&pen, &view.site, &labels);
    house::title_block(&pen, view.seed, words);
    indoor::ducts(&pen, &view.site, &labels, motion);
    indoor::air_handler(&pen, &view.site, &labels, motion);
    lines::line_set(&pen, &view.site, &labels);
    outdoor::unit(&pen, &view.site, &labels, motion);
    outdoor::disconnect(&pen, &view.site, &labels);
    lines::gauges(&pen, view, &labels);
    choose(ui, &pen, view)
}

/// A row of houses along the foot of a screen, in the manner of the drawing.
pub fn street(ui: &Ui, rect: egui::Rect) {
    house::street(&ui.painter_at(rect), rect);
}

/// Balloons, highlight and clicks.
fn choose(ui: &Ui, pen: &Pen, view: &View<'_>) -> Option<Place> {
    let mut chosen = None;
    for place in Place::ALL {
        let hit = hit_rect(pen, place);
        let response = ui.interact(hit, ui.id().with(("place-in-drawing", place)), Sense::CLICK);
        response.widget_info(|| {
            WidgetInfo::labeled(
                WidgetType::Button,
                true,
                view.words.fill("in-the-drawing", &[("place", view.words.say(&place))]),
            )
        });
        let is_here = place == view.place;
        if response.hovered() || is_here {
            let width = if response.hovered() { 2.5 } else { 2.0 };
            pen.painter().rect_stroke(
                hit.expand(3.0),
                4.0,
                Stroke::new(width, palette::ACCENT),
                StrokeKind::Outside,
            );
        }
        let choice = if is_here { Choice::Here } else { Choice::Elsewhere };
        pen.balloon(places::balloon(place), wording::letter(place), choice);
        let response = response.on_hover_cursor(CursorIcon::PointingHand).on_hover_ui(|ui| {
            parts::strong(ui, wording::lettered(place, view.words));
            ui.label(wording::place_note(place, view.words));
        });
        if response.clicked() {
            chosen = Some(place);
        }
    }
    chosen
}

/// Area of a place on screen, never smaller than a finger.
fn hit_rect(pen: &Pen, place: Place) -> Rect {
    let rect = pen.rect(area(place));
    let grow = vec2((26.0 - rect.width()).max(0.0), (24.0 - rect.height()).max(0.0)) / 2.0;
    rect.expand2(grow)
}
