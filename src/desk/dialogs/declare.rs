//! The declaration: cause, place, evidence from the notebook, rivals that it rules out.

use std::collections::BTreeSet;

use egui::{Align, Layout, RichText, ScrollArea, Ui, vec2};
use plant::{FaultKind, LeakPlace};
use visit::{Declaration, Entry, Move, Outcome};

use super::{Answer, cancel};
use crate::command::Command;
use crate::parts::{heading, primary, small, strong};
use crate::units::since_arrival;
use crate::view::View;
use crate::{palette, wording};
use words::Words;

/// What has been chosen so far.
pub struct DeclareForm {
    cause: Option<FaultKind>,
    place: Option<LeakPlace>,
    /// Entries cited, by number.
    pub evidence: BTreeSet<u32>,
    rules_out: BTreeSet<FaultKind>,
}

impl DeclareForm {
    pub(super) fn with(cited: &BTreeSet<u32>) -> DeclareForm {
        DeclareForm { cause: None, place: None, evidence: cited.clone(), rules_out: BTreeSet::new() }
    }

    /// Why it cannot be declared yet; `None` when it can.
    fn hindrance(&self) -> Option<&'static str> {
        match self.cause {
            None => Some("Choose a cause."),
            Some(kind) if kind.needs_place() && self.place.is_none() => Some("Choose where."),
            Some(_) if self.evidence.is_empty() => Some("Cite at least one entry."),
            Some(_) => None,
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, view: &View<'_>, words: Words) -> Answer {
        let room = ui.ctx().content_rect().size();
        ui.set_width((room.x * 0.86).min(1040.0));
        heading(ui, "Declare the cause");
        small(
            ui,
            "Say what is wrong, cite the entries that show it, and tick the rivals that they rule out.",
        );
        ui.separator();
        let height = (room.y - 250.0).clamp(260.0, 560.0);
        // A fixed height: a dialog that grows with its contents never stands still.
        let row = vec2(ui.available_width(), height);
        ui.allocate_ui_with_layout(row, Layout::left_to_right(Align::Min), |ui| {
            ui.allocate_ui_with_layout(vec2(330.0, height), Layout::top_down(Align::Min), |ui| {
                self.cause_and_rivals(ui, words, height);
            });
            ui.separator();
            ui.vertical(|ui| self.evidence_list(ui, view, words, height));
        });
        ui.separator();
        self.buttons(ui)
    }

    fn cause_and_rivals(&mut self, ui: &mut Ui, words: Words, height: f32) {
        let asks_where = self.cause.is_some_and(FaultKind::needs_place);
        let where_height = if asks_where { 118.0 } else { 0.0 };
        let list_height = (height - where_height - 58.0) / 2.0;
        strong(ui, "Cause");
        list(ui, "causes", list_height, |ui, kind| {
            if ui.radio(self.cause == Some(kind), kind.label()).clicked() {
                self.cause = Some(kind);
                self.rules_out.remove(&kind);
                if !kind.needs_place() {
                    self.place = None;
                }
            }
        });
        if asks_where {
            strong(ui, "Where");
            for place in LeakPlace::ALL {
                if ui.radio(self.place == Some(place), words.heading(&place)).clicked() {
                    self.place = Some(place);
                }
            }
        }
        strong(ui, format!("Ruled out by the evidence: {}", self.rules_out.len()));
        list(ui, "rivals", list_height, |ui, kind| {
            if Some(kind) == self.cause {
                return;
            }
            let mut is_ruled_out = self.rules_out.contains(&kind);
            let label = format!("Not: {}", wording::lower_first(kind.label()));
            if ui.checkbox(&mut is_ruled_out, label).changed() {
                toggle(&mut self.rules_out, kind, is_ruled_out.into());
            }
        });
    }

    fn evidence_list(&mut self, ui: &mut Ui, view: &View<'_>, words: Words, height: f32) {
        strong(ui, format!("Evidence from the notebook: {} cited", self.evidence.len()));
        ScrollArea::vertical()
            .max_height(height - 24.0)
            .min_scrolled_height(height - 24.0)
            .auto_shrink(false)
            .show(ui, |ui| {
                let mut any = false;
                for entry in view.notebook.iter().filter(|entry| can_be_cited(entry)) {
                    any = true;
                    let mut is_cited = self.evidence.contains(&entry.number);
                    ui.horizontal_top(|ui| {
                        let label = format!("No. {}", entry.number);
                        if ui.checkbox(&mut is_cited, label).changed() {
                            toggle(&mut self.evidence, entry.number, is_cited.into());
                        }
                        small(ui, since_arrival(entry.started_s - view.arrival_s));
                        ui.vertical(|ui| {
                            ui.spacing_mut().item_spacing.y = 1.0;
                            ui.add(egui::Label::new(palette::bold(words.say(&entry.action))).wrap());
                            for line in wording::outcome(entry, view.call, words) {
                                ui.add(egui::Label::new(line).wrap());
                            }
                            if let Some(doubt) = wording::entry_doubt(entry) {
                                let text = RichText::new(format!("! {doubt}")).size(palette::SMALL_PX);
                                ui.label(text.color(palette::BRICK));
                            }
                        });
                    });
                }
                if !any {
                    small(ui, "Nothing has been read or seen yet.");
                }
            });
    }

    fn buttons(&self, ui: &mut Ui) -> Answer {
        ui.horizontal(|ui| {
            let is_pressed = primary(ui, "Declare", self.hindrance()).clicked();
            if let (true, Some(cause)) = (is_pressed, self.cause) {
                let declaration = Declaration {
                    cause,
                    place: self.place,
                    evidence: self.evidence.iter().copied().collect(),
                    rules_out: self.rules_out.iter().copied().collect(),
                };
                return Answer::Given(vec![Command::Perform(Move::Declare(declaration))]);
            }
            if cancel(ui) { Answer::Cancelled } else { Answer::Open }
        })
        .inner
    }
}

/// Only what was read or seen is evidence.
fn can_be_cited(entry: &Entry) -> bool {
    match entry.outcome {
        Outcome::Refused(_) => false,
        Outcome::Done => !entry.notes.is_empty() && !matches!(entry.action, Move::Wait(_) | Move::Declare(_)),
        Outcome::Read(_) | Outcome::Seen(_) | Outcome::Verified(_) => true,
    }
}

enum Tick {
    On,
    Off,
}

impl From<bool> for Tick {
    fn from(is_on: bool) -> Self {
        if is_on { Tick::On } else { Tick::Off }
    }
}

fn toggle<T: Ord>(set: &mut BTreeSet<T>, item: T, tick: Tick) {
    match tick {
        Tick::On => {
            set.insert(item);
        }
        Tick::Off => {
            set.remove(&item);
        }
    }
}

/// All kinds of fault under the headings of their groups, in a list of a fixed height.
fn list(ui: &mut Ui, id: &str, height: f32, mut row: impl FnMut(&mut Ui, FaultKind)) {
    ScrollArea::vertical()
        .id_salt(id)
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink(false)
        .show(ui, |ui| {
            let mut group = "";
            for kind in FaultKind::ALL {
                if kind.group() != group {
                    group = kind.group();
                    small(ui, group);
                }
                row(ui, kind);
            }
        });
}
