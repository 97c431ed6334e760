//! The start screen, and the screen while something long is worked out.

use std::path::PathBuf;

use egui::{Button, Frame, Margin, RichText, ScrollArea, Sense, Shape, Stroke, TextEdit, Ui, vec2};

use crate::palette;
use crate::parts::{heading, primary, progress_bar, small, strong};
use crate::wish::{Wish, Wishes};
use crate::{notice, site, wording};
use session::{CallCard, CallChoice, Command, LeftCard, Notice, Preparing, Task};
use words::{Words, span};

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

    /// The seed, or the key of what is wrong with it.
    fn seed(&self) -> Result<u64, &'static str> {
        match self.seed.trim() {
            "" => Ok(1),
            text => text.parse().map_err(|_| "screen-start-seed-wrong"),
        }
    }
}

/// Height from which there is room for the drawing at the foot, px.
const ROOM_FOR_STREET_PX: f32 = 750.0;

/// The list of calls.
pub(crate) fn screen(
    ui: &mut Ui,
    form: &mut StartForm,
    calls: &[CallCard],
    interrupted: &[LeftCard],
    told: Option<&Notice>,
    words: Words,
    wishes: &mut Wishes,
) {
    if told.is_some() {
        egui::Panel::top("start-notice").show(ui, |ui| notice::show(ui, told, words, wishes));
    }
    if ui.available_height() > ROOM_FOR_STREET_PX {
        let foot = Frame::NONE.fill(palette::PAPER);
        let panel = egui::Panel::bottom("street").frame(foot).exact_size(104.0).show_separator_line(false);
        panel.show(ui, |ui| site::street(ui, ui.max_rect()));
    }
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(36, 18));
    egui::CentralPanel::no_frame().frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            ui.label(palette::bold(words.label("screen-start-name")).size(34.0).color(palette::ACCENT));
            crate::parts::from_right(ui, |ui| {
                if ui.button(words.label("screen-start-quit")).clicked() {
                    wishes.command(Command::Quit);
                }
                if ui.button(words.label("screen-help-open")).clicked() {
                    wishes.push(Wish::Help);
                }
                let switch = ui.button(words.units.label());
                if switch.on_hover_text(words.label("screen-units-change")).clicked() {
                    wishes.command(Command::SetUnits(words.units.other()));
                }
            });
        });
        ui.label(RichText::new(words.label("screen-start-purpose")).size(17.0));
        ui.add_space(12.0);
        let left = (ui.available_width() * 0.62).max(560.0);
        ui.horizontal_top(|ui| {
            ui.allocate_ui_with_layout(
                vec2(left, ui.available_height()),
                egui::Layout::top_down(egui::Align::Min),
                |ui| cards(ui, form, calls, words),
            );
            ui.add_space(24.0);
            ui.vertical(|ui| {
                ScrollArea::vertical().id_salt("start-side").show(ui, |ui| {
                    go_on(ui, interrupted, words, wishes);
                    arrive(ui, form, calls, words, wishes);
                    ui.add_space(16.0);
                    open(ui, form, words, wishes);
                    ui.add_space(16.0);
                    honesty(ui, words);
                });
            });
        });
    });
}

fn cards(ui: &mut Ui, form: &mut StartForm, calls: &[CallCard], words: Words) {
    heading(ui, &words.label("screen-start-calls"));
    ui.add_space(4.0);
    ScrollArea::vertical().id_salt("calls").auto_shrink(false).show(ui, |ui| {
        if calls.is_empty() {
            ui.label(words.label("screen-start-no-calls"));
        }
        for card in calls {
            let is_chosen = form.chosen.as_deref() == Some(card.id.as_str());
            if call_card(ui, card, is_chosen, words).clicked() {
                form.chosen = Some(card.id.clone());
            }
            ui.add_space(4.0);
        }
    });
}

/// A service ticket that can be picked.
fn call_card(ui: &mut Ui, card: &CallCard, is_chosen: bool, words: Words) -> egui::Response {
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
                let radio = ui.radio(is_chosen, palette::bold(words.own(&card.title)).size(17.0));
                crate::parts::from_right(ui, |ui| {
                    small(ui, words.fill("screen-start-par-time", &[("par", span(card.par_time_s))]));
                });
                radio
            })
            .inner;
        ui.horizontal_top(|ui| {
            ui.add_space(24.0);
            ui.add(egui::Label::new(wording::quoted(words.own(&card.complaint), words)).wrap());
        });
        radio
    });
    let ground = shown.response.interact(egui::Sense::CLICK).on_hover_cursor(egui::CursorIcon::PointingHand);
    shown.inner.union(ground)
}

fn arrive(ui: &mut Ui, form: &mut StartForm, calls: &[CallCard], words: Words, wishes: &mut Wishes) {
    heading(ui, &words.label("screen-start-go"));
    ui.horizontal(|ui| {
        let label = ui.label(words.label("screen-start-seed"));
        let field = TextEdit::singleline(&mut form.seed)
            .hint_text(words.label("screen-start-seed-example"))
            .desired_width(110.0);
        ui.add(field).labelled_by(label.id);
        let next = ui.button(words.label("screen-start-next-seed"));
        if next.on_hover_text(words.label("screen-start-next-seed-about")).clicked() {
            let next = form.seed().map_or(1, |seed| seed.wrapping_add(1));
            form.seed = next.to_string();
        }
    });
    small(ui, words.label("screen-start-seed-about"));
    ui.add_space(4.0);
    let chosen = calls.iter().find(|card| Some(&card.id) == form.chosen.as_ref());
    let seed = form.seed();
    let hindrance = match (&chosen, &seed) {
        (None, _) => Some(words.label("screen-start-choose-first")),
        (_, Err(reason)) => Some(words.label(reason)),
        _ => None,
    };
    let enter =
        hindrance.is_none() && chosen.is_some() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    let arrive = words.label("screen-start-arrive");
    let pressed = primary(ui, &arrive, hindrance.as_deref()).clicked()
        || (enter && ui.memory(|m| m.focused().is_none()));
    if let (true, Some(card), Ok(seed)) = (pressed, chosen, seed) {
        wishes.command(Command::Arrive { call: CallChoice::BuiltIn(card.id.clone()), seed });
    }
}

fn open(ui: &mut Ui, form: &mut StartForm, words: Words, wishes: &mut Wishes) {
    heading(ui, &words.label("screen-start-open"));
    let label = ui.label(words.label("screen-start-path"));
    let field = ui
        .add(
            TextEdit::singleline(&mut form.path)
                .hint_text(words.label("screen-start-path-example"))
                .desired_width(ui.available_width() - 8.0),
        )
        .labelled_by(label.id);
    let path = form.path.trim().to_owned();
    let is_given = !path.is_empty();
    if field.changed() {
        wishes.command(Command::LookAhead(PathBuf::from(&path)));
    }
    let seed = form.seed();
    ui.horizontal(|ui| {
        let call =
            ui.add_enabled(is_given && seed.is_ok(), Button::new(words.label("screen-start-open-call")));
        if let (true, Ok(seed)) = (call.clicked(), seed) {
            wishes.command(Command::Arrive { call: CallChoice::File(PathBuf::from(&path)), seed });
        }
        if ui.add_enabled(is_given, Button::new(words.label("screen-start-open-record"))).clicked() {
            wishes.command(Command::OpenRecord(PathBuf::from(&path)));
        }
    });
}

/// Visits that were interrupted: the program was closed by force, or the power went.
fn go_on(ui: &mut Ui, left: &[LeftCard], words: Words, wishes: &mut Wishes) {
    if left.is_empty() {
        return;
    }
    heading(ui, &words.label("screen-start-interrupted"));
    for card in left {
        let told = words.count(
            "screen-start-interrupted-visit",
            card.moves,
            &[("title", words.own(&card.title)), ("seed", card.seed.to_string())],
        );
        ui.add(egui::Label::new(told).wrap());
        if ui.button(words.label("screen-start-resume")).clicked() {
            wishes.command(Command::GoOn(card.path.clone()));
        }
        ui.add_space(4.0);
    }
    ui.add_space(12.0);
}

fn honesty(ui: &mut Ui, words: Words) {
    Frame::NONE
        .fill(palette::SHEET)
        .stroke(Stroke::new(1.0, palette::RULE))
        .corner_radius(4.0)
        .inner_margin(Margin::same(12))
        .show(ui, |ui| {
            strong(ui, words.label("screen-start-honesty"));
            ui.label(words.label("screen-start-honesty-text"));
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
pub(crate) fn preparing(ui: &mut Ui, preparing: &Preparing, words: Words, wishes: &mut Wishes) {
    let frame = Frame::NONE.fill(palette::PAPER);
    egui::CentralPanel::no_frame().frame(frame).show(ui, |ui| {
        ui.vertical_centered(|ui| {
            ui.add_space(ui.available_height() * 0.32);
            turning(ui, preparing.waited_s);
            ui.add_space(10.0);
            let (title, detail) = task(&preparing.task, words);
            ui.label(palette::bold(title).size(21.0));
            ui.label(detail);
            if let Some(share) = preparing.share {
                progress_bar(ui, share as f32, 360.0, words::share(share));
            }
            small(ui, words.fill("screen-preparing-so-far", &[("span", span(preparing.waited_s))]));
            ui.add_space(10.0);
            let cancelled = ui.button(words.label("screen-cancel")).clicked();
            if cancelled || ui.input(|input| input.key_pressed(egui::Key::Escape)) {
                wishes.command(Command::CancelArrival);
            }
        });
    });
}

/// What is worked out, and what happens meanwhile.
fn task(task: &Task, words: Words) -> (String, String) {
    match task {
        Task::Arriving => (words.label("screen-work-arriving"), words.label("screen-work-arriving-about")),
        Task::Opening(path) => (
            words.label("screen-work-opening"),
            words.fill("screen-work-opening-about", &[("path", path.display().to_string())]),
        ),
        Task::Marking => (words.label("screen-work-marking"), words.label("screen-work-marking-about")),
    }
}
