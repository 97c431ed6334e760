//! Where the evidence led: moves over the minutes, suspects under them, and what each reading ruled out.

use egui::{Rect, ScrollArea, Sense, Shape, Stroke, Ui, pos2, vec2};
use report::{MovePoint, MoveSort, PosteriorRow, Timeline, doubt_text, number_places, rulings_of_evidence};

use super::pages::{Pages, move_link, under_way};
use crate::palette;
use crate::parts::{heading, small};
use session::{ReviewLook, WeighingLook};
use words::Words;

/// Room for names left of the bands, and for probabilities right of them, px.
const NAMES: f32 = 206.0;
const VALUES: f32 = 88.0;
/// Height of a band, px; a name that needs more lines gets them.
const BAND: f32 = 20.0;
/// Lines on which numbers of moves may stand.
const LINES: usize = 3;
const LINE: f32 = 13.0;
/// Height of the row of moves, px.
const MOVES: f32 = 14.0 + LINE * LINES as f32 + 18.0;

/// The page.
pub(super) fn page(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, words: Words) {
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        moves(ui, pages, look, words);
        match look.weighing {
            WeighingLook::UnderWay(share) => to_come(ui, share, words),
            WeighingLook::Over if look.timeline.rows.is_empty() => {
                small(ui, words.label("screen-evidence-none"));
            }
            WeighingLook::Over => {
                for row in &look.timeline.rows {
                    chances(ui, row, look.timeline.last_min, words);
                }
            }
        }
        axis(ui, look.timeline.last_min, words);
        small(ui, words.label("screen-evidence-legend"));
        breaks(ui, pages, look, words);
        rulings(ui, pages, look, words);
    });
}

/// Room for the suspects until the evidence is weighed, as high as they will be, so that what is read below stays where it is.
fn to_come(ui: &mut Ui, share: f32, words: Words) {
    let rows = Timeline::MOST_ROWS as f32;
    let row = BAND.max(ui.spacing().interact_size.y);
    let height = rows * row + (rows - 1.0) * ui.spacing().item_spacing.y;
    ui.allocate_ui(vec2(ui.available_width(), height), |ui| {
        ui.set_min_height(height);
        under_way(ui, words.label("screen-evidence-to-come"), share);
    });
}

/// The line of minutes beside the names.
fn place(rect: Rect, minute: f64, last_min: f64) -> f32 {
    rect.left() + rect.width() * (minute / last_min.max(1.0e-9)).clamp(0.0, 1.0) as f32
}

/// Numbered moves. The pointer on one tells what it was; a press shows it among what happened.
fn moves(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, words: Words) {
    let timeline: &Timeline = look.timeline;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width() - 4.0, MOVES), Sense::click());
    let bar =
        Rect::from_min_max(pos2(rect.left() + NAMES, rect.top()), pos2(rect.right() - VALUES, rect.bottom()));
    let y = rect.bottom() - 16.0;
    let painter = ui.painter();
    painter.text(
        pos2(rect.left() + 2.0, y),
        egui::Align2::LEFT_CENTER,
        words.label("screen-evidence-moves"),
        palette::small(),
        palette::INK,
    );
    painter.line_segment([pos2(bar.left(), y), pos2(bar.right(), y)], Stroke::new(1.0, palette::PENCIL));
    let shapes = timeline.moves.iter().map(|point| {
        let x = place(bar, point.minute, timeline.last_min);
        (f64::from(x), 7.2 * point.entry.to_string().len() as f64 + 3.0)
    });
    for (point, number) in timeline.moves.iter().zip(number_places(shapes, LINES)) {
        let x = place(bar, point.minute, timeline.last_min);
        let at = pos2(number.middle as f32, y - 12.0 - LINE * number.line as f32);
        painter.line_segment([pos2(x, y - 4.0), at + vec2(0.0, 5.0)], Stroke::new(0.8, palette::RULE));
        painter.text(
            at,
            egui::Align2::CENTER_CENTER,
            point.entry.to_string(),
            palette::small(),
            palette::INK,
        );
        shape(ui, point, x, y);
    }
    let nearest = response.hover_pos().or(response.interact_pointer_pos()).and_then(|pointer| {
        let off = |point: &&MovePoint| (place(bar, point.minute, timeline.last_min) - pointer.x).abs();
        timeline.moves.iter().filter(|point| off(point) < 7.0).min_by(|a, b| off(a).total_cmp(&off(b)))
    });
    let Some(point) = nearest else { return };
    if response.clicked() {
        pages.lead_to(point.entry);
    }
    if let Some(entry) = look.notebook.iter().find(|entry| entry.number == point.entry) {
        response.on_hover_text(words.fill(
            "screen-evidence-move-about",
            &[("number", entry.number.to_string()), ("move", words.say(&entry.action))],
        ));
    }
}

fn shape(ui: &Ui, point: &MovePoint, x: f32, y: f32) {
    let painter = ui.painter();
    let at = pos2(x, y);
    match point.sort {
        MoveSort::SoundReading => {
            painter.circle_filled(at, 3.6, palette::INK);
        }
        MoveSort::DoubtfulReading => {
            painter.circle(at, 3.6, palette::SHEET, Stroke::new(1.4, palette::INK));
        }
        MoveSort::Sight => {
            painter.rect_filled(Rect::from_center_size(at, vec2(7.0, 7.0)), 0.0, palette::INK);
        }
        MoveSort::Deed => {
            painter.line_segment([at - vec2(0.0, 4.5), at + vec2(0.0, 4.5)], Stroke::new(1.6, palette::INK));
        }
        MoveSort::Refused => {
            painter.line_segment([at - vec2(4.5, 0.0), at + vec2(4.5, 0.0)], Stroke::new(2.0, palette::INK));
        }
    }
    if point.broke_order {
        let foot = at + vec2(0.0, 11.0);
        let stroke = Stroke::new(2.2, palette::BRICK);
        painter.line_segment([foot - vec2(4.0, 4.0), foot + vec2(4.0, 4.0)], stroke);
        painter.line_segment([foot + vec2(-4.0, 4.0), foot + vec2(4.0, -4.0)], stroke);
    }
}

/// One suspect: its name, its band, where it ended.
fn chances(ui: &mut Ui, row: &PosteriorRow, last_min: f64, words: Words) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        let suspect = words.heading(&row.who);
        let text = match (row.is_true, row.is_declared) {
            (true, true) => words.fill("screen-evidence-wrong-and-declared", &[("suspect", suspect)]),
            (true, false) => words.fill("screen-evidence-wrong", &[("suspect", suspect)]),
            (false, true) => words.fill("screen-evidence-declared", &[("suspect", suspect)]),
            (false, false) => suspect,
        };
        ui.allocate_ui(vec2(NAMES, BAND), |ui| {
            ui.set_min_width(NAMES);
            ui.set_max_width(NAMES - 6.0);
            let text = if row.is_true { palette::bold(text) } else { egui::RichText::new(text) };
            ui.add(egui::Label::new(text.size(palette::SMALL_PX)).wrap());
        });
        let width = (ui.available_width() - 4.0 - VALUES).max(40.0);
        let (band, _) = ui.allocate_exact_size(vec2(width, BAND), Sense::hover());
        draw_band(ui, row, band, last_min);
        ui.add_space(6.0);
        small(ui, words.probability(row.at_end()));
    });
}

fn draw_band(ui: &Ui, row: &PosteriorRow, band: Rect, last_min: f64) {
    let painter = ui.painter();
    let fill = if row.is_true { palette::ACCENT_WASH } else { palette::FIELD_HOVERED };
    let height = |probability: f64| band.bottom() - band.height() * probability.clamp(0.0, 1.0) as f32;
    let mut line = Vec::with_capacity(2 * row.steps.len());
    for pair in row.steps.windows(2) {
        let (from, to) = (place(band, pair[0][0], last_min), place(band, pair[1][0], last_min));
        let y = height(pair[0][1]);
        painter.rect_filled(Rect::from_min_max(pos2(from, y), pos2(to, band.bottom())), 0.0, fill);
        line.extend([pos2(from, y), pos2(to, y)]);
    }
    painter.add(Shape::line(line, Stroke::new(1.4, palette::INK)));
    painter.rect_stroke(band, 0.0, Stroke::new(1.0, palette::RULE), egui::StrokeKind::Inside);
}

/// Minutes under the bands.
fn axis(ui: &mut Ui, last_min: f64, words: Words) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width() - 4.0, 18.0), Sense::hover());
    let bar =
        Rect::from_min_max(pos2(rect.left() + NAMES, rect.top()), pos2(rect.right() - VALUES, rect.bottom()));
    let step = [1.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0]
        .into_iter()
        .find(|step| last_min / step <= 8.0)
        .unwrap_or(480.0);
    for n in 0..=(last_min / step).floor() as u32 {
        let minute = f64::from(n) * step;
        let x = place(bar, minute, last_min);
        let painter = ui.painter();
        painter.line_segment(
            [pos2(x, rect.top()), pos2(x, rect.top() + 3.0)],
            Stroke::new(1.0, palette::PENCIL),
        );
        painter.text(
            pos2(x, rect.top() + 10.0),
            egui::Align2::CENTER_CENTER,
            format!("{minute:.0}"),
            palette::small(),
            palette::PENCIL,
        );
    }
    let end = pos2(bar.right() + 8.0, rect.top() + 10.0);
    let unit = words.label("screen-unit-minutes");
    ui.painter().text(end, egui::Align2::LEFT_CENTER, unit, palette::small(), palette::PENCIL);
}

/// Where the order broke, each with its move.
fn breaks(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, words: Words) {
    let broken = look.review.order_breaks_by_entry();
    if broken.is_empty() {
        return;
    }
    ui.add_space(4.0);
    heading(ui, &words.label("screen-evidence-breaks"));
    for (entry, reasons) in broken {
        move_link(ui, pages, look, entry, words);
        for reason in reasons {
            ui.add(egui::Label::new(words.heading(reason)).wrap());
        }
    }
}

/// What each reading ruled out.
fn rulings(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, words: Words) {
    let Some(chances) = look.dossier.and_then(|dossier| dossier.chances.as_ref()) else { return };
    ui.add_space(4.0);
    heading(ui, &words.label("screen-evidence-rulings"));
    for ruling in rulings_of_evidence(look.notebook, chances) {
        move_link(ui, pages, look, ruling.entry, words);
        for effect in ruling.effects(chances) {
            ui.add(egui::Label::new(words.say(&effect)).wrap());
        }
        if let Some(told) = ruling.doubt.and_then(|doubt| doubt_text(doubt, words)) {
            small(ui, told);
        }
        ui.separator();
    }
}
