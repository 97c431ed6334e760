//! The notebook: what was done and what came of it, with check boxes that cite an entry as evidence.

use std::collections::BTreeSet;

use call::Call;
use egui::{RichText, ScrollArea, Ui};
use visit::{Entry, Outcome};

use crate::parts::small;
use crate::units::since_arrival;
use crate::view::View;
use crate::{palette, wording};
use words::Words;

/// The entries that are ticked as evidence.
#[derive(Default)]
pub(crate) struct Notebook {
    pub(crate) cited: BTreeSet<u32>,
}

/// How many entries are cited, for the heading.
pub(crate) fn cited(ui: &mut Ui, notebook: &Notebook, words: Words) {
    let text = match notebook.cited.len() {
        0 => words.label("screen-notebook-tick"),
        cited => words.count("screen-notebook-cited", cited, &[]),
    };
    small(ui, text);
}

/// The entries, newest in sight.
pub(crate) fn entries(ui: &mut Ui, notebook: &mut Notebook, view: &View<'_>) {
    ScrollArea::vertical().stick_to_bottom(true).auto_shrink(false).show(ui, |ui| {
        if view.notebook.is_empty() {
            small(ui, view.words.label("screen-notebook-empty"));
        }
        for entry in view.notebook {
            row(ui, notebook, view, entry);
            ui.separator();
        }
    });
}

fn row(ui: &mut Ui, notebook: &mut Notebook, view: &View<'_>, entry: &Entry) {
    ui.horizontal_top(|ui| {
        let mut is_cited = notebook.cited.contains(&entry.number);
        let box_label = format!("{}", entry.number);
        let cite = view.words.label("screen-notebook-cite");
        let changed = ui.checkbox(&mut is_cited, box_label).on_hover_text(cite).changed();
        if changed {
            if is_cited {
                notebook.cited.insert(entry.number);
            } else {
                notebook.cited.remove(&entry.number);
            }
        }
        small(ui, since_arrival(entry.started_s - view.arrival_s));
        ui.vertical(|ui| text(ui, entry, wording::entry_doubt(entry, view.words), view.call, view.words));
    });
}

/// An entry in words: the move, what came of it, and why it cannot be relied on: during the visit as far as it could be
/// told, in the review by the truth.
pub fn text(ui: &mut Ui, entry: &Entry, doubt: Option<String>, call: &Call, words: Words) {
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.add(egui::Label::new(palette::bold(words.say(&entry.action))).wrap());
    let refused = matches!(entry.outcome, Outcome::Refused(_));
    for line in wording::outcome(entry, call, words) {
        let colour = if refused { palette::BRICK } else { palette::INK };
        ui.add(egui::Label::new(RichText::new(line).color(colour)).wrap());
    }
    if let Some(doubt) = doubt {
        let text = words.fill("screen-notebook-doubt", &[("doubt", doubt)]);
        ui.label(RichText::new(text).size(palette::SMALL_PX).color(palette::BRICK));
    }
}
