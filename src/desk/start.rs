//! The start screen, and the screen while something long is worked out.

use std::path::PathBuf;

use egui::{Button, Frame, Margin, RichText, ScrollArea, Sense, Shape, Stroke, TextEdit, Ui, vec2};

use crate::command::{CallChoice, Command};
use crate::desk::Desk;
use crate::palette;
use crate::parts::{heading, primary, progress_bar, small, strong};
use crate::stage::{CallCard, LeftCard, Preparing};
use crate::{site, tickets};
use words::span;

/// Fields of the start screen.
#[derive(Default)]
pub struct StartForm {
    chosen: Option<String>,
    seed: String,
    path: String,
}

impl StartForm {
    /// Puts a call and a seed in.
    pub fn prefill(&mut self, call_id: Option<&str>, seed: Option<u64>) {
        if let Some(id) = call_id {
            self.chosen = Some(id.to_owned());
        }
        if let Some(seed) = seed {
            self.seed = seed.to_string();
        }
    }

    fn seed(&self) -> Result<u64, &'static str> {
        match self.seed.trim() {
            "" => Ok(1),
            text => text.parse().map_err(|_| "A seed is a whole number, 0 or more."),
        }
    }
}

/// Height from which there is room for the drawing at the foot, px.
const ROOM_FOR_STREET_PX: f32 = 750.0;

/// The list of calls.
pub fn screen(
    ui: &mut Ui,
    desk: &mut Desk,
    calls: &[CallCard],
    interrupted: &[LeftCard],
    commands: &mut Vec<Command>,
) {
    if desk.notice.is_some() {
        egui::Panel::top("start notice").show(ui, |ui| tickets::notice(ui, desk));
    }
    if ui.available_height() > ROOM_FOR_STREET_PX {
        let foot = Frame::NONE.fill(palette::PAPER);
        let panel = egui::Panel::bottom("street").frame(foot).exact_size(104.0).show_separator_line(false);
        panel.show(ui, |ui| site::street(ui, ui.max_rect()));
    }
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(36, 18));
    egui::CentralPanel::no_frame().frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(palette::bold("Rimebench").size(34.0).color(palette::ACCENT));
            crate::parts::from_right(ui, |ui| {
                if ui.button("Quit").clicked() {
                    commands.push(Command::Quit);
                }
                if ui.button("Help  F1").clicked() {
                    desk.help.toggle();
                }
                if ui.button(desk.words.units.label()).on_hover_text("Change the units").clicked() {
                    desk.words.units = desk.words.units.other();
                }
            });
        });
        ui.label(
            RichText::new(
                "Work a service call on an air conditioner that is freezing up: find the cause, prove it, repair it.",
            )
            .size(17.0),
        );
        ui.add_space(12.0);
        let left = (ui.available_width() * 0.62).max(560.0);
        ui.horizontal_top(|ui| {
            ui.allocate_ui_with_layout(
                vec2(left, ui.available_height()),
                egui::Layout::top_down(egui::Align::Min),
                |ui| cards(ui, desk, calls),
            );
            ui.add_space(24.0);
            ui.vertical(|ui| {
                ScrollArea::vertical().id_salt("start side").show(ui, |ui| {
                    go_on(ui, interrupted, commands);
                    arrive(ui, desk, calls, commands);
                    ui.add_space(16.0);
                    open(ui, desk, commands);
                    ui.add_space(16.0);
                    honesty(ui);
                });
            });
        });
    });
}

fn cards(ui: &mut Ui, desk: &mut Desk, calls: &[CallCard]) {
    heading(ui, "Calls waiting");
    ui.add_space(4.0);
    ScrollArea::vertical().id_salt("calls").auto_shrink(false).show(ui, |ui| {
        if calls.is_empty() {
            ui.label("No call came with this program. Open a call file on the right.");
        }
        for card in calls {
            let is_chosen = desk.start.chosen.as_deref() == Some(card.id.as_str());
            if call_card(ui, card, is_chosen).clicked() {
                desk.start.chosen = Some(card.id.clone());
            }
            ui.add_space(4.0);
        }
    });
}

/// A service ticket that can be picked.
fn call_card(ui: &mut Ui, card: &CallCard, is_chosen: bool) -> egui::Response {
    let (fill, stroke) = if is_chosen {
        (palette::ACCENT_WASH, Stroke::new(2.5, palette::ACCENT))
    } else {
        (palette::SHEET, Stroke::new(1.0, palette::PENCIL))
    };
    let frame =
        Frame::NONE.fill(fill).stroke(stroke).corner_radius(4.0).inner_margin(Margin::symmetric(14, 8));
    let shown = frame.show(ui, |ui| {
        ui.set_width(ui.available_width() - 4.0);
        // Text that can be selected would swallow the click that is meant for the card.
        ui.style_mut().interaction.selectable_labels = false;
        let radio = ui
            .horizontal(|ui| {
                let radio = ui.radio(is_chosen, palette::bold(&card.title).size(17.0));
                crate::parts::from_right(ui, |ui| {
                    small(ui, format!("a sound visit takes {}", span(card.par_time_s)));
                });
                radio
            })
            .inner;
        ui.horizontal_top(|ui| {
            ui.add_space(24.0);
            ui.add(egui::Label::new(format!("“{}”", card.complaint)).wrap());
        });
        radio
    });
    let ground = shown.response.interact(egui::Sense::CLICK).on_hover_cursor(egui::CursorIcon::PointingHand);
    shown.inner.union(ground)
}

fn arrive(ui: &mut Ui, desk: &mut Desk, calls: &[CallCard], commands: &mut Vec<Command>) {
    heading(ui, "Go to the call");
    ui.horizontal(|ui| {
        let label = ui.label("Seed");
        ui.add(TextEdit::singleline(&mut desk.start.seed).hint_text("1").desired_width(110.0))
            .labelled_by(label.id);
        if ui.button("Next seed").on_hover_text("The same call with other details").clicked() {
            let next = desk.start.seed().map_or(1, |seed| seed.wrapping_add(1));
            desk.start.seed = next.to_string();
        }
    });
    small(
        ui,
        "The same seed gives the same visit; another seed changes weather, house and how bad the fault is.",
    );
    ui.add_space(4.0);
    let chosen = calls.iter().find(|card| Some(&card.id) == desk.start.chosen.as_ref());
    let seed = desk.start.seed();
    let hindrance = match (&chosen, &seed) {
        (None, _) => Some("Choose a call first."),
        (_, Err(reason)) => Some(*reason),
        _ => None,
    };
    let enter =
        hindrance.is_none() && chosen.is_some() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    let pressed =
        primary(ui, "Arrive", hindrance).clicked() || (enter && ui.memory(|m| m.focused().is_none()));
    if let (true, Some(card), Ok(seed)) = (pressed, chosen, seed) {
        commands.push(Command::Arrive { call: CallChoice::BuiltIn(card.id.clone()), seed });
    }
}

fn open(ui: &mut Ui, desk: &mut Desk, commands: &mut Vec<Command>) {
    heading(ui, "Open a file");
    let label = ui.label("Path of a call file or a visit record");
    let field = ui
        .add(
            TextEdit::singleline(&mut desk.start.path)
                .hint_text("scenarios/my-call.ron")
                .desired_width(ui.available_width() - 8.0),
        )
        .labelled_by(label.id);
    let path = desk.start.path.trim().to_owned();
    let is_given = !path.is_empty();
    if field.changed() {
        commands.push(Command::LookAhead(PathBuf::from(&path)));
    }
    let seed = desk.start.seed();
    ui.horizontal(|ui| {
        let call = ui.add_enabled(is_given && seed.is_ok(), Button::new("Arrive at this call"));
        if let (true, Ok(seed)) = (call.clicked(), seed) {
            commands.push(Command::Arrive { call: CallChoice::File(PathBuf::from(&path)), seed });
        }
        if ui.add_enabled(is_given, Button::new("Open this record")).clicked() {
            commands.push(Command::OpenRecord(PathBuf::from(&path)));
        }
    });
}

/// Visits that were interrupted: the program was closed by force, or the power went.
fn go_on(ui: &mut Ui, left: &[LeftCard], commands: &mut Vec<Command>) {
    if left.is_empty() {
        return;
    }
    heading(ui, "Interrupted visits");
    for card in left {
        let moves = if card.moves == 1 { "1 move".to_owned() } else { format!("{} moves", card.moves) };
        ui.add(egui::Label::new(format!("{}, seed {}: {moves}", card.title, card.seed)).wrap());
        if ui.button("Go on with this visit").clicked() {
            commands.push(Command::GoOn(card.path.clone()));
        }
        ui.add_space(4.0);
    }
    ui.add_space(12.0);
}

fn honesty(ui: &mut Ui) {
    Frame::NONE
        .fill(palette::SHEET)
        .stroke(Stroke::new(1.0, palette::RULE))
        .corner_radius(4.0)
        .inner_margin(Margin::same(12))
        .show(ui, |ui| {
            strong(ui, "What this is, and is not");
            ui.label(
                "Rimebench teaches a way of thinking. On real equipment, licensed practice, the equipment maker’s \
                 instructions and local codes decide.",
            );
        });
}

/// A quarter of a ring that goes on by an eighth of a turn at each second's fifth: it shows life at few frames, which leave the cores to the work.
fn turning(ui: &mut Ui, waited_s: f64) {
    const RADIUS: f32 = 15.0;
    const POINTS: u8 = 12;
    let (rect, _) = ui.allocate_exact_size(vec2(34.0, 34.0), Sense::hover());
    let begin = (waited_s * 5.0).floor() as f32 * std::f32::consts::FRAC_PI_4;
    let on_ring = |point: u8| {
        let along = f32::from(point) / f32::from(POINTS) * std::f32::consts::FRAC_PI_2;
        rect.center() + RADIUS * egui::Vec2::angled(begin + along)
    };
    let stroke = Stroke::new(3.0, palette::ACCENT);
    ui.painter().circle_stroke(rect.center(), RADIUS, Stroke::new(1.0, palette::RULE));
    ui.painter().add(Shape::line((0..=POINTS).map(on_ring).collect(), stroke));
}

/// The screen while something long is worked out.
pub fn preparing(ui: &mut Ui, preparing: &Preparing, commands: &mut Vec<Command>) {
    let frame = Frame::NONE.fill(palette::PAPER);
    egui::CentralPanel::no_frame().frame(frame).show(ui, |ui| {
        ui.vertical_centered(|ui| {
            ui.add_space(ui.available_height() * 0.32);
            turning(ui, preparing.waited_s);
            ui.add_space(10.0);
            ui.label(palette::bold(&preparing.title).size(21.0));
            ui.label(&preparing.detail);
            if let Some(share) = preparing.share {
                progress_bar(ui, share as f32, 360.0, format!("{:.0} %", 100.0 * share));
            }
            small(ui, format!("{} so far", span(preparing.waited_s)));
            ui.add_space(10.0);
            if ui.button("Cancel").clicked() || ui.input(|input| input.key_pressed(egui::Key::Escape)) {
                commands.push(Command::CancelArrival);
            }
        });
    });
}
