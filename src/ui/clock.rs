//! The clock bar: time, pause, speeds, waiting, and the progress of what is being done.

use egui::{Button, Frame, Margin, Ui, vec2};
use session::{ClockLook, Command, HintLook, Pace, Speed};
use visit::Move;

use crate::palette;
use crate::parts::{progress_bar, small};
use crate::units::time_of_day;
use crate::view::{Busy, View};
use crate::wish::{Ask, Wish, Wishes};
use words::span;

/// How far behind the shadow plants are said to be, s.
const WORTH_TELLING_S: f64 = 120.0;

/// The bar.
pub(crate) fn bar(ui: &mut Ui, view: &View<'_>, clock: ClockLook, hints: &HintLook, wishes: &mut Wishes) {
    let words = view.words;
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(10, 6));
    egui::Panel::bottom("clock").frame(frame).show(ui, |ui| {
        ui.horizontal(|ui| {
            let pause = match clock.pace {
                Pace::Running => "screen-clock-pause",
                Pace::Paused => "screen-clock-resume",
            };
            if ui.add(Button::new(palette::bold(words.label(pause))).min_size(vec2(112.0, 28.0))).clicked() {
                wishes.command(Command::TogglePause);
            }
            for speed in Speed::ALL {
                let button = Button::selectable(clock.speed == speed, label(speed))
                    .frame_when_inactive(true)
                    .min_size(vec2(42.0, 28.0));
                if ui.add(button).on_hover_text(words.label("screen-clock-speed-about")).clicked() {
                    wishes.command(Command::SetSpeed(speed));
                }
            }
            ui.separator();
            ui.label(palette::bold(time_of_day(view.hour_of_day)).size(20.0));
            let (elapsed, par) = (span(view.since_arrival_s), span(view.call.par_time_s));
            small(ui, words.fill("screen-clock-on-site", &[("elapsed", elapsed), ("par", par)]));
            if clock.pace == Pace::Paused {
                ui.label(palette::bold(words.label("screen-clock-paused")).color(palette::BRICK));
            }
            ui.separator();
            match &view.busy {
                None => {
                    if ui
                        .add(Button::new(words.label("screen-clock-wait")).min_size(vec2(0.0, 28.0)))
                        .clicked()
                    {
                        wishes.push(Wish::Open(Ask::Wait));
                    }
                    if let Some(behind_s) = behind_s(view, hints) {
                        let behind = span(behind_s);
                        small(ui, words.fill("screen-clock-evidence-behind", &[("span", behind)]));
                    }
                }
                Some(busy) => {
                    let share = if busy.total_s > 0.0 { (busy.done_s / busy.total_s) as f32 } else { 1.0 };
                    let waits = matches!(busy.action, Move::Wait(_));
                    let can_stop = busy.action.can_be_stopped();
                    let room = ui.available_width() - if can_stop { 130.0 } else { 0.0 };
                    let behind = waits.then(|| followed(view, busy, hints)).flatten();
                    let (action, done, total) = (busy.label.clone(), span(busy.done_s), span(busy.total_s));
                    let text = match behind.map(|share| span(f64::from(share) * busy.total_s)) {
                        None => words.fill(
                            "screen-clock-doing",
                            &[("move", action), ("done", done), ("total", total)],
                        ),
                        Some(followed) => words.fill(
                            "screen-clock-doing-with-evidence",
                            &[("move", action), ("done", done), ("total", total), ("followed", followed)],
                        ),
                    };
                    let bar = progress_bar(ui, share, room.max(80.0), text);
                    if let Some(share) = behind {
                        // How far the shadow plants are: a line at the foot of the bar.
                        let mut line = bar.rect;
                        line.set_top(line.bottom() - 3.0);
                        line.set_width(line.width() * share);
                        ui.painter().rect_filled(line, 0.0, palette::ACCENT);
                    }
                    let stop = if waits { "screen-clock-stop-waiting" } else { "screen-clock-stop" };
                    if can_stop && ui.button(words.label(stop)).clicked() {
                        wishes.command(Command::StopWaiting);
                    }
                }
            }
        });
    });
}

/// Plant time that the shadow plants have still to follow, s, once that is worth a word.
fn behind_s(view: &View<'_>, hints: &HintLook) -> Option<f64> {
    let behind_s = view.arrival_s + view.since_arrival_s - hints.followed_s?;
    (behind_s > WORTH_TELLING_S).then_some(behind_s)
}

/// Share of a running wait that the shadow plants have followed.
fn followed(view: &View<'_>, busy: &Busy, hints: &HintLook) -> Option<f32> {
    let began_s = view.arrival_s + view.since_arrival_s - busy.done_s;
    let followed_s = (hints.followed_s? - began_s).clamp(0.0, busy.total_s);
    (busy.total_s > 0.0).then(|| (followed_s / busy.total_s) as f32)
}

/// A speed, for a button.
fn label(speed: Speed) -> &'static str {
    match speed {
        Speed::Real => "1×",
        Speed::Ten => "10×",
        Speed::Sixty => "60×",
        Speed::ThreeHundred => "300×",
    }
}
