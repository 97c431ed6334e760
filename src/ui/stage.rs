//! One frame of whatever the session is at: the only place that knows every panel.

use egui::Ui;
use session::{Command, HintLook, Notice, Stage};
use visit::Place;
use words::Words;

use crate::dialogs::Dialogs;
use crate::help::Help;
use crate::hints::Beside;
use crate::keys::Reach;
use crate::moves::Focus;
use crate::review::Pages;
use crate::site::Motion;
use crate::start::StartForm;
use crate::view::View;
use crate::wish::{Wish, Wishes};
use crate::{clock, help, hints, instruments, keys, moves, palette, places, review, site, start, tickets};

/// What only the screen knows: the state of each panel.
#[derive(Default)]
pub struct UiState {
    /// Movement of the drawing.
    pub motion: Motion,
    /// Which turn of the session the panels of a visit belong to.
    turn: u64,
    place: Here,
    focus: Focus,
    beside: Beside,
    dialogs: Dialogs,
    pages: Pages,
    help: Help,
    start: StartForm,
}

/// The chosen place; the thermostat at first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Here(Place);

impl Default for Here {
    fn default() -> Self {
        Here(Place::Thermostat)
    }
}

/// What a session shows.
pub struct Shown<'a> {
    /// What it is at.
    pub stage: Stage<'a>,
    /// What it tells.
    pub notice: Option<&'a Notice>,
    /// Language and units.
    pub words: Words,
    /// Its turn: with each one the panels of a visit begin anew.
    pub turn: u64,
}

impl UiState {
    /// Puts a call and a seed into the start form.
    pub fn prefill(&mut self, call_id: Option<&str>, seed: Option<u64>) {
        self.start.prefill(call_id, seed);
    }

    /// Where the learner looks.
    pub fn place(&self) -> Place {
        self.place.0
    }

    /// Another visit or none: only the start form stays.
    fn come_to(&mut self, turn: u64) {
        if self.turn != turn {
            let start = std::mem::take(&mut self.start);
            *self = UiState { turn, start, ..UiState::default() };
        }
    }

    fn reach(&self) -> Reach {
        if self.dialogs.is_open() || self.help == Help::Open { Reach::Clock } else { Reach::Screen }
    }

    /// Carries out what concerns panels and hands on the rest.
    fn carry_out(&mut self, wishes: &mut Wishes, view: Option<&View<'_>>, commands: &mut Vec<Command>) {
        for wish in wishes.take() {
            let cited = &self.beside.notebook.cited;
            match (wish, view) {
                (Wish::Do(command), _) => commands.push(command),
                (Wish::Choose(action), Some(view)) => {
                    commands.extend(self.dialogs.choose(action, view.words, cited));
                }
                (Wish::Open(ask), Some(view)) => self.dialogs.ask(ask, view, cited),
                (Wish::Go(place), _) => {
                    self.place = Here(place);
                    self.focus = Focus::FirstMove;
                }
                (Wish::Cite(entries), _) => self.beside.notebook.cited = entries,
                (Wish::Help, _) => self.help.toggle(),
                (Wish::Turn, _) => self.beside.turn(),
                // Both are of a visit.
                (Wish::Choose(_) | Wish::Open(_), None) => {}
            }
        }
    }
}

/// Draws one frame into the root of the window and returns what the person asked for.
pub fn show(ui: &mut Ui, state: &mut UiState, shown: Shown<'_>) -> Vec<Command> {
    let mut commands = Vec::new();
    if !palette::is_applied(ui.ctx()) {
        // Fonts come into force with the next frame.
        palette::apply(ui.ctx());
        ui.ctx().request_repaint();
        return commands;
    }
    let Shown { stage, notice, words, turn } = shown;
    state.come_to(turn);
    let mut wishes = Wishes::default();
    keys::everywhere(ui.ctx(), state.help, &mut wishes);
    state.carry_out(&mut wishes, None, &mut commands);
    match stage {
        Stage::List { calls, left } => {
            start::screen(ui, &mut state.start, calls, left, notice, words, &mut wishes);
        }
        Stage::Preparing(preparing) => start::preparing(ui, &preparing, words, &mut wishes),
        Stage::Working { visit, clock, hints } => {
            let view = View::of(visit, state.place.0, words);
            keys::in_visit(ui.ctx(), state.reach(), &view, clock, &mut wishes);
            state.carry_out(&mut wishes, Some(&view), &mut commands);
            tickets::bar(ui, &view, notice, &mut wishes);
            clock::bar(ui, &view, clock, &hints, &mut wishes);
            places::panel(ui, &view, &mut wishes);
            side(ui, state, &view, &hints, &mut wishes);
            instruments::strip(ui, &view);
            let frame = egui::Frame::NONE;
            egui::CentralPanel::no_frame().frame(frame).show(ui, |ui| {
                if let Some(place) = site::draw(ui, &view, words, state.motion) {
                    wishes.push(Wish::Go(place));
                }
            });
            state.carry_out(&mut wishes, Some(&view), &mut commands);
            state.dialogs.show(ui.ctx(), &view, &mut wishes);
        }
        Stage::Reviewing(look) => {
            keys::in_review(ui.ctx(), state.reach(), words, &mut wishes);
            review::screen(ui, &mut state.pages, &look, notice, words, &mut wishes);
        }
    }
    state.carry_out(&mut wishes, None, &mut commands);
    if state.help == Help::Open {
        help::overlay(ui.ctx(), &mut state.help, words);
    }
    commands
}

/// Moves, and below them what lies beside them.
fn side(ui: &mut Ui, state: &mut UiState, view: &View<'_>, hints: &HintLook, wishes: &mut Wishes) {
    let width = (ui.available_width() * 0.27).clamp(340.0, 460.0);
    egui::Panel::right("moves-and-notebook").resizable(false).exact_size(width).show(ui, |ui| {
        let notebook_height = (ui.available_height() * 0.38).max(180.0);
        egui::Panel::bottom("notebook")
            .resizable(true)
            .default_size(notebook_height)
            .min_size(120.0)
            .show(ui, |ui| hints::panel(ui, &mut state.beside, view, hints, wishes));
        egui::CentralPanel::no_frame().show(ui, |ui| moves::panel(ui, &mut state.focus, view, wishes));
    });
}
