//! Which page of the review is shown, and what leads there.

use egui::{RichText, Ui};
use session::ReviewLook;

use crate::palette;
use crate::parts::{progress_bar, strong};
use words::Words;

/// What the review shows.
#[derive(Default)]
pub(crate) struct Pages {
    pub(super) page: Page,
    pub(super) shown_move: Option<ShownMove>,
}

impl Pages {
    /// Shows a move among what happened.
    pub(super) fn lead_to(&mut self, number: u32) {
        self.page = Page::Timeline;
        self.shown_move = Some(ShownMove { number, scroll: Scroll::Wanted });
    }
}

/// Page of the right half.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Page {
    /// Every move.
    #[default]
    Timeline,
    /// Moves and suspects, and what each reading ruled out.
    Evidence,
    /// Plots.
    Plant,
    /// The refrigerant's cycle.
    Cycle,
    /// What would have happened next.
    Later,
    /// A sound path.
    Path,
    /// Where the refrigerant went.
    Refrigerant,
}

impl Page {
    pub(super) const ALL: [Page; 7] = [
        Page::Timeline,
        Page::Evidence,
        Page::Plant,
        Page::Cycle,
        Page::Later,
        Page::Path,
        Page::Refrigerant,
    ];

    pub(super) fn name(self, words: Words) -> String {
        words.label(match self {
            Page::Timeline => "screen-review-timeline",
            Page::Evidence => "screen-review-evidence",
            Page::Plant => "screen-review-system",
            Page::Cycle => "screen-review-cycle",
            Page::Later => "screen-review-later",
            Page::Path => "screen-review-path",
            Page::Refrigerant => "screen-review-refrigerant",
        })
    }
}

/// The move that a mark led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct ShownMove {
    pub(super) number: u32,
    pub(super) scroll: Scroll,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Scroll {
    Wanted,
    Done,
}

/// The move that earned or lost a mark; a press shows it among what happened.
pub(super) fn move_link(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, number: u32, words: Words) {
    let told = match look.notebook.iter().find(|entry| entry.number == number) {
        Some(entry) => words.fill(
            "screen-review-move-named",
            &[("number", number.to_string()), ("move", words.say(&entry.action))],
        ),
        None => words.fill("screen-review-move", &[("number", number.to_string())]),
    };
    let text = RichText::new(told).size(palette::SMALL_PX);
    if ui.link(text).on_hover_text(words.label("screen-review-move-about")).clicked() {
        pages.lead_to(number);
    }
}

/// What is being worked out, and how far it is.
pub(super) fn under_way(ui: &mut Ui, what: String, share: f32) {
    strong(ui, what);
    progress_bar(ui, share, ui.available_width() - 8.0, words::share(f64::from(share)));
}
