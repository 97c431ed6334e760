//! What only the screen knows.

use std::collections::BTreeSet;

use visit::Place;

use crate::dialogs::Dialog;
use crate::site::Motion;
use crate::start::StartForm;
use words::Words;

/// State of the screen that is no part of a visit.
#[derive(Default)]
pub struct UiState {
    /// Language and units on display.
    pub words: Words,
    /// Where the learner looks.
    pub place: Here,
    /// Movement of the drawing.
    pub motion: Motion,
    /// A message from the window: a file written, a file that could not be read.
    pub notice: Option<Notice>,
    /// Entries ticked as evidence.
    pub(crate) cited: BTreeSet<u32>,
    /// The open dialog.
    pub(crate) dialog: Option<Dialog>,
    /// Whether help lies over the screen.
    pub(crate) help: Help,
    /// Fields of the start screen.
    pub(crate) start: StartForm,
    /// Which page lies beside the moves.
    pub(crate) side: crate::hints::Side,
    /// Whether the suspects that still stand are shown.
    pub(crate) standing: crate::hints::Standing,
    /// Which page of the review is open.
    pub(crate) review_page: crate::review::Page,
    /// The move that a mark of the review led to.
    pub(crate) shown_move: Option<crate::review::ShownMove>,
    /// Whether the first move of the place should take the keyboard in the next frame.
    pub(crate) focus: FocusNext,
}

impl UiState {
    /// a fresh state for a new visit: keeps units and start form.
    pub fn clear_for_visit(&mut self) {
        let kept = std::mem::take(self);
        self.words = kept.words;
        self.start = kept.start;
    }

    /// Puts a call and a seed into the start form.
    pub fn prefill(&mut self, call_id: Option<&str>, seed: Option<u64>) {
        self.start.prefill(call_id, seed);
    }

    pub(crate) fn go(&mut self, place: Place) {
        self.place = Here(place);
        self.focus = FocusNext::FirstMove;
    }
}

/// The chosen place; the thermostat at first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Here(pub Place);

impl Default for Here {
    fn default() -> Self {
        Here(Place::Thermostat)
    }
}

/// Whether help is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Help {
    #[default]
    Closed,
    Open,
}

impl Help {
    pub(crate) fn toggle(&mut self) {
        *self = match self {
            Help::Closed => Help::Open,
            Help::Open => Help::Closed,
        };
    }
}

/// Which widget takes the keyboard next.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum FocusNext {
    #[default]
    Nothing,
    FirstMove,
}

/// A message from the window.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Notice {
    /// Something went as wished.
    Good(String),
    /// Something did not; what and what to do, a line each.
    Bad(Vec<String>),
}
