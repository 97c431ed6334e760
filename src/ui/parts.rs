//! Small parts that several panels use.

use egui::{
    Align, Button, Color32, Frame, Layout, Margin, ProgressBar, Response, RichText, Shape, Stroke, Ui, vec2,
};

use words::Words;

use crate::palette;

/// A heading of a panel.
pub fn heading(ui: &mut Ui, text: &str) {
    ui.label(palette::bold(text).size(16.5).color(palette::ACCENT));
}

/// Second-rank text.
pub fn small(ui: &mut Ui, text: impl Into<String>) -> Response {
    ui.label(RichText::new(text).size(palette::SMALL_PX).color(palette::PENCIL))
}

/// The one button of a screen or dialog that goes on; disabled with its reason beside it.
pub fn primary(ui: &mut Ui, text: &str, hindrance: Option<&str>) -> Response {
    let size = vec2(120.0, 30.0);
    match hindrance {
        None => {
            let text = palette::bold(text).color(Color32::WHITE);
            ui.scope(|ui| {
                // White text needs dark ground under the pointer and with the keyboard, too.
                let widgets = &mut ui.visuals_mut().widgets;
                widgets.inactive.weak_bg_fill = palette::ACCENT;
                widgets.hovered.weak_bg_fill = palette::ACCENT_DARK;
                widgets.active.weak_bg_fill = palette::ACCENT_DARK;
                widgets.active.bg_stroke = Stroke::new(3.0, palette::INK);
                ui.add_sized(size, Button::new(text))
            })
            .inner
        }
        Some(reason) => {
            ui.horizontal(|ui| {
                let response =
                    ui.add_enabled_ui(false, |ui| ui.add_sized(size, Button::new(palette::bold(text)))).inner;
                let response = response.on_disabled_hover_text(reason);
                small(ui, reason);
                response
            })
            .inner
        }
    }
}

/// A dialog over the screen.
pub fn modal(name: &str) -> egui::Modal {
    let frame = Frame::NONE
        .fill(palette::SHEET)
        .stroke(Stroke::new(1.5, palette::INK))
        .corner_radius(4.0)
        .inner_margin(Margin::symmetric(20, 16));
    egui::Modal::new(egui::Id::new(name)).frame(frame)
}

/// A caution: boxed, striped edge, a sign and the word; then what belongs under it.
pub fn caution<R>(ui: &mut Ui, text: &str, words: Words, contents: impl FnOnce(&mut Ui) -> R) -> R {
    let shown = Frame::NONE
        .fill(palette::BRICK_WASH)
        .stroke(Stroke::new(1.5, palette::BRICK))
        .corner_radius(3.0)
        .inner_margin(Margin { left: 16, right: 7, top: 6, bottom: 7 })
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.horizontal_top(|ui| {
                warning_sign(ui);
                ui.vertical(|ui| {
                    ui.spacing_mut().item_spacing.y = 1.0;
                    ui.label(palette::bold(words.label("screen-caution")).color(palette::BRICK));
                    ui.add(egui::Label::new(RichText::new(text).size(palette::SMALL_PX)).wrap());
                });
            });
            contents(ui)
        });
    stripes(ui, shown.response.rect);
    shown.inner
}

fn warning_sign(ui: &mut Ui) {
    let (rect, _) = ui.allocate_exact_size(vec2(18.0, 17.0), egui::Sense::hover());
    let painter = ui.painter();
    painter.add(Shape::convex_polygon(
        vec![rect.center_top(), rect.right_bottom(), rect.left_bottom()],
        Color32::WHITE,
        Stroke::new(1.8, palette::BRICK),
    ));
    let foot = rect.center_bottom();
    painter.line_segment([foot - vec2(0.0, 11.0), foot - vec2(0.0, 6.0)], Stroke::new(2.0, palette::BRICK));
    painter.circle_filled(foot - vec2(0.0, 3.2), 1.3, palette::BRICK);
}

fn stripes(ui: &Ui, rect: egui::Rect) {
    let edge = egui::Rect::from_min_max(rect.min, egui::pos2(rect.left() + 9.0, rect.bottom())).shrink(1.0);
    let painter = ui.painter().with_clip_rect(edge.intersect(ui.clip_rect()));
    let mut y = edge.top() - 10.0;
    while y < edge.bottom() + 10.0 {
        painter.line_segment(
            [egui::pos2(edge.left() - 1.0, y + 9.0), egui::pos2(edge.right() + 1.0, y)],
            Stroke::new(3.4, palette::BRICK),
        );
        y += 9.0;
    }
}

/// A line in bold.
pub fn strong(ui: &mut Ui, text: impl Into<String>) -> Response {
    ui.label(palette::bold(text))
}

/// A bar from 0 to `of` with its numbers written beside it.
pub fn score_bar(ui: &mut Ui, points: f64, of: f64, width: f32) {
    let (rect, _) = ui.allocate_exact_size(vec2(width, 14.0), egui::Sense::hover());
    let share = if of > 0.0 { (points / of).clamp(0.0, 1.0) as f32 } else { 0.0 };
    let painter = ui.painter();
    painter.rect_filled(rect, 2.0, palette::FIELD);
    let mut filled = rect;
    filled.set_width(rect.width() * share);
    painter.rect_filled(filled, 2.0, palette::ACCENT);
    painter.rect_stroke(rect, 2.0, Stroke::new(1.0, palette::INK), egui::StrokeKind::Inside);
}

/// How far something is, 0 to 1, with words on the bar. Its edge shows where the end lies.
pub fn progress_bar(ui: &mut Ui, share: f32, width: f32, text: String) -> Response {
    let bar = ProgressBar::new(share.clamp(0.0, 1.0))
        .desired_width(width)
        .fill(palette::ACCENT_WASH)
        .corner_radius(3.0)
        .text(RichText::new(text).color(palette::INK));
    let response = ui.add(bar);
    let edge = Stroke::new(1.0, palette::PENCIL);
    ui.painter().rect_stroke(response.rect, 3.0, edge, egui::StrokeKind::Inside);
    response
}

/// Lays the rest of a row out from the right.
pub fn from_right<R>(ui: &mut Ui, contents: impl FnOnce(&mut Ui) -> R) -> R {
    ui.with_layout(Layout::right_to_left(Align::Center), contents).inner
}

/// Small caps of a key: "F1" in a frame.
pub fn key_cap(ui: &mut Ui, key: &str) {
    Frame::NONE
        .fill(palette::PAPER)
        .stroke(Stroke::new(1.0, palette::PENCIL))
        .corner_radius(3.0)
        .inner_margin(Margin::symmetric(5, 0))
        .show(ui, |ui| ui.label(RichText::new(key).size(palette::SMALL_PX)));
}
