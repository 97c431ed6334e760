//! Which screen is shown, and one frame of it.

use std::path::PathBuf;

use egui::Ui;
use report::{Review, ReviewFigures, Timeline};
use visit::Entry;

use crate::command::{Command, Speed};
use crate::hints::{HintLook, HintsTaken};
use crate::state::{Help, UiState};
use crate::trace::Trace;
use crate::view::View;
use crate::{
    clock, dialogs, help, hints, instruments, keys, moves, palette, places, review, site, start, tickets,
};

/// What the window is at.
pub enum Stage<'a> {
    /// The list of calls.
    Start {
        /// The calls that come with the program.
        calls: &'a [CallCard],
        /// Visits that were interrupted.
        left: &'a [LeftCard],
    },
    /// Something long is worked out.
    Preparing(&'a Preparing),
    /// At work.
    Visit {
        /// The visit.
        view: &'a View<'a>,
        /// The clock.
        clock: ClockLook,
        /// What the suspects say.
        hints: &'a HintLook,
    },
    /// Afterwards.
    Review(&'a ReviewLook<'a>),
}

/// One call in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct CallCard {
    /// Short name.
    pub id: String,
    /// One line.
    pub title: call::Text,
    /// What the customer says on the phone.
    pub complaint: call::Text,
    /// Time a sound visit needs, s.
    pub par_time_s: f64,
}

/// A visit that was interrupted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftCard {
    /// Title of its call; the call's id if it is not there.
    pub title: call::Text,
    /// Seed.
    pub seed: u64,
    /// Moves that were made.
    pub moves: usize,
    /// Where its journal lies.
    pub path: PathBuf,
}

/// Something long that is being worked out, with a way to stop it.
#[derive(Clone, Debug, PartialEq)]
pub struct Preparing {
    /// What, as a heading.
    pub title: String,
    /// What happens meanwhile, in a sentence.
    pub detail: String,
    /// Real time since it began, s.
    pub waited_s: f64,
    /// Share that is done, 0 to 1, where it is known.
    pub share: Option<f64>,
}

/// The clock as it is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ClockLook {
    /// Speed.
    pub speed: Speed,
    /// Whether it runs.
    pub pace: Pace,
}

/// Whether the clock runs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pace {
    /// Runs.
    #[default]
    Running,
    /// Stands.
    Paused,
}

/// A judged visit.
pub struct ReviewLook<'a> {
    /// The call.
    pub call: &'a call::Call,
    /// The review.
    pub review: &'a Review,
    /// The notebook.
    pub notebook: &'a [Entry],
    /// Plant time of arrival, s.
    pub arrival_s: f64,
    /// What the plant did.
    pub trace: &'a Trace,
    /// Moves and, once the evidence is weighed, suspects.
    pub timeline: &'a Timeline,
    /// Figures and facts beside the marks, once they are worked out.
    pub dossier: Option<&'a ReviewFigures>,
    /// How far the work on those is.
    pub figures: FiguresLook,
    /// How far the weighing of the evidence is.
    pub weighing: Weighing,
    /// How often hints were taken.
    pub hints: HintsTaken,
    /// How far the work on a sound path is.
    pub path: PathLook,
}

/// How far the work on a sound path is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PathLook {
    /// Done, or not asked for.
    #[default]
    Over,
    /// It begins once the rest of the review is there.
    ToCome,
    /// Under way, with the steps made so far.
    UnderWay(usize),
}

/// How far the work on figures and facts beside the marks is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum FiguresLook {
    /// Done, or it could not be done.
    #[default]
    Over,
    /// Under way, with the share that is done, 0 to 1.
    UnderWay(f32),
}

/// How far the weighing of the evidence is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Weighing {
    /// Done, or not asked for.
    #[default]
    Over,
    /// Under way, with the share that is done, 0 to 1.
    UnderWay(f32),
}

/// Draws one frame into the root of the window and returns what the person asked for.
pub fn show(ui: &mut Ui, state: &mut UiState, stage: Stage<'_>) -> Vec<Command> {
    let mut commands = Vec::new();
    if !palette::is_applied(ui.ctx()) {
        // Fonts come into force with the next frame.
        palette::apply(ui.ctx());
        ui.ctx().request_repaint();
        return commands;
    }
    keys::everywhere(ui.ctx(), state);
    match stage {
        Stage::Start { calls, left } => start::screen(ui, state, calls, left, &mut commands),
        Stage::Preparing(preparing) => start::preparing(ui, preparing, state.words, &mut commands),
        Stage::Visit { view, clock, hints } => visit_screen(ui, state, view, clock, hints, &mut commands),
        Stage::Review(look) => {
            keys::in_review(ui.ctx(), state, &mut commands);
            review::screen(ui, state, look, &mut commands);
        }
    }
    if state.help == Help::Open {
        help::overlay(ui.ctx(), state);
    }
    commands
}

fn visit_screen(
    ui: &mut Ui,
    state: &mut UiState,
    view: &View<'_>,
    clock: ClockLook,
    hints: &HintLook,
    commands: &mut Vec<Command>,
) {
    keys::in_visit(ui.ctx(), state, view, clock, commands);
    tickets::bar(ui, state, view, commands);
    clock::bar(ui, state, view, clock, hints, commands);
    places::panel(ui, state, view);
    egui::Panel::right("moves-and-notebook").resizable(false).exact_size(side_width(ui)).show(ui, |ui| {
        let notebook_height = (ui.available_height() * 0.38).max(180.0);
        egui::Panel::bottom("notebook")
            .resizable(true)
            .default_size(notebook_height)
            .min_size(120.0)
            .show(ui, |ui| hints::panel(ui, state, view, hints, commands));
        egui::CentralPanel::no_frame().show(ui, |ui| moves::panel(ui, state, view, commands));
    });
    instruments::strip(ui, state, view);
    let frame = egui::Frame::NONE;
    egui::CentralPanel::no_frame().frame(frame).show(ui, |ui| {
        if let Some(place) = site::draw(ui, view, state.words, state.motion) {
            state.go(place);
        }
    });
    dialogs::show(ui.ctx(), state, view, commands);
}

fn side_width(ui: &Ui) -> f32 {
    (ui.available_width() * 0.27).clamp(340.0, 460.0)
}
