//! The declaration: cause, place, evidence from the notebook, rivals that it rules out.

use std::collections::BTreeSet;

use egui::{Align, Layout, RichText, ScrollArea, Ui, vec2};
use plant::{FaultKind, LeakPlace};
use visit::{Declaration, Entry, Move, Outcome};

use super::answer::{Answer, cancel};
use crate::parts::{heading, primary, small, strong};
use crate::units::since_arrival;
use crate::view::View;
use crate::{palette, wording};
use session::Command;
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

    /// Key of why it cannot be declared yet; `None` when it can.
    fn hindrance(&self) -> Option<&'static str> {
        match self.cause {
            None => Some("screen-declare-no-cause"),
            Some(kind) if kind.needs_place() && self.place.is_none() => Some("screen-declare-no-place"),
            Some(_) if self.evidence.is_empty() => Some("screen-declare-no-evidence"),
            Some(_) => None,
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, view: &View<'_>, words: Words) -> Answer {
        let room = ui.ctx().content_rect().size();
        ui.set_width((room.x * 0.86).min(1040.0));
        heading(ui, &words.label("screen-declare"));
        small(ui, words.label("screen-declare-about"));
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
        self.buttons(ui, words)
    }

    fn cause_and_rivals(&mut self, ui: &mut Ui, words: Words, height: f32) {
        let asks_where = self.cause.is_some_and(FaultKind::needs_place);
        let where_height = if asks_where { 118.0 } else { 0.0 };
        let list_height = (height - where_height - 58.0) / 2.0;
        strong(ui, words.label("screen-declare-cause"));
        list(ui, "causes", list_height, words, |ui, kind| {
            if ui.radio(self.cause == Some(kind), words.heading(&kind)).clicked() {
                self.cause = Some(kind);
                self.rules_out.remove(&kind);
                if !kind.needs_place() {
                    self.place = None;
                }
            }
        });
        if asks_where {
            strong(ui, words.label("screen-declare-where"));
            for place in LeakPlace::ALL {
                if ui.radio(self.place == Some(place), words.heading(&place)).clicked() {
                    self.place = Some(place);
                }
            }
        }
        strong(ui, words.count("screen-declare-ruled-out", self.rules_out.len(), &[]));
        list(ui, "rivals", list_height, words, |ui, kind| {
            if Some(kind) == self.cause {
                return;
            }
            let mut is_ruled_out = self.rules_out.contains(&kind);
            let label = words.fill("screen-declare-not", &[("fault", words.say(&kind))]);
            if ui.checkbox(&mut is_ruled_out, label).changed() {
                toggle(&mut self.rules_out, kind, is_ruled_out.into());
            }
        });
    }

    fn evidence_list(&mut self, ui: &mut Ui, view: &View<'_>, words: Words, height: f32) {
        strong(ui, words.count("screen-declare-evidence", self.evidence.len(), &[]));
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
                        let number = entry.number.to_string();
                        let label = words.fill("screen-declare-entry", &[("number", number)]);
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
                            if let Some(doubt) = wording::entry_doubt(entry, view.words) {
                                let text = words.fill("screen-doubt", &[("doubt", doubt)]);
                                let text = RichText::new(text).size(palette::SMALL_PX);
                                ui.label(text.color(palette::BRICK));
                            }
                        });
                    });
                }
                if !any {
                    small(ui, words.label("screen-declare-nothing-yet"));
                }
            });
    }

    fn buttons(&self, ui: &mut Ui, words: Words) -> Answer {
        ui.horizontal(|ui| {
            let hindrance = self.hindrance().map(|key| words.label(key));
            let is_pressed = primary(ui, &words.label("screen-declare-go"), hindrance.as_deref()).clicked();
            if let (true, Some(cause)) = (is_pressed, self.cause) {
                let declaration = Declaration {
                    cause,
                    place: self.place,
                    evidence: self.evidence.iter().copied().collect(),
                    rules_out: self.rules_out.iter().copied().collect(),
                };
                return Answer::Given(vec![Command::Perform(Move::Declare(declaration))]);
            }
            if cancel(ui, words) { Answer::Cancelled } else { Answer::Open }
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
fn list(ui: &mut Ui, id: &str, height: f32, words: Words, mut row: impl FnMut(&mut Ui, FaultKind)) {
    ScrollArea::vertical()
        .id_salt(id)
        .max_height(height)
        .min_scrolled_height(height)
        .auto_shrink(false)
        .show(ui, |ui| {
            let mut group = None;
            for kind in FaultKind::ALL {
                if group != Some(kind.row().group) {
                    group = Some(kind.row().group);
                    small(ui, words.heading(&kind.row().group));
                }
                row(ui, kind);
            }
        });
}
