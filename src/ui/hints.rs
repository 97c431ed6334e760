//! What the suspects say, beside the notebook: the tests that would tell most, and what still stands.

use call::Hints;
use diagnosis::{Test, When};
use egui::{Button, RichText, ScrollArea, Ui, vec2};
use session::{Command, HintLook, HintsTaken, TestsLook};
use visit::Move;

use words::{Words, share};

use crate::notebook::Notebook;
use crate::parts::{from_right, heading, progress_bar, score_bar, small};
use crate::units::cost_in_minutes;
use crate::view::View;
use crate::wish::Wishes;
use crate::{notebook, palette, wording};

/// How often hints were taken, in sentences; none if nothing was taken.
pub fn taken(hints: HintsTaken, words: Words) -> Vec<String> {
    let mut told = Vec::new();
    if hints.policy == Hints::Always {
        told.push(words.label("screen-review-hints-always"));
    } else if hints.tests > 0 {
        told.push(words.count("screen-review-hints-tests", hints.tests as usize, &[]));
    }
    if hints.standing > 0 {
        told.push(words.count("screen-review-hints-possible", hints.standing as usize, &[]));
    }
    told
}

/// What lies beside the moves.
#[derive(Default)]
pub(crate) struct Beside {
    side: Side,
    standing: Standing,
    pub(crate) notebook: Notebook,
}

impl Beside {
    /// The other page.
    pub(crate) fn turn(&mut self) {
        self.side = match self.side {
            Side::Notebook => Side::NextTest,
            Side::NextTest => Side::Notebook,
        };
    }
}

/// Which page lies beside the moves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Side {
    #[default]
    Notebook,
    NextTest,
}

/// Whether the suspects that still stand are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Standing {
    #[default]
    Hidden,
    Shown,
}

/// Hypotheses that are listed at most.
const LISTED: usize = 8;
/// Probability below which a suspect is not listed.
const LISTED_FROM: f64 = 0.005;

/// Notebook and, if the call allows hints, the next test.
pub(crate) fn panel(
    ui: &mut Ui,
    beside: &mut Beside,
    view: &View<'_>,
    hints: &HintLook,
    wishes: &mut Wishes,
) {
    ui.add_space(2.0);
    if view.call.hints == Hints::Off {
        ui.horizontal(|ui| {
            heading(ui, &view.words.label("screen-notebook"));
            from_right(ui, |ui| notebook::cited(ui, &beside.notebook, view.words));
        });
        notebook::entries(ui, &mut beside.notebook, view);
        return;
    }
    ui.horizontal(|ui| {
        for (side, name) in [(Side::Notebook, "screen-notebook"), (Side::NextTest, "screen-hints-tab")] {
            let text = palette::bold(view.words.label(name));
            let tab = Button::selectable(beside.side == side, text).frame_when_inactive(true);
            if ui.add(tab).clicked() {
                beside.side = side;
            }
        }
        if beside.side == Side::Notebook {
            from_right(ui, |ui| notebook::cited(ui, &beside.notebook, view.words));
        }
    });
    match beside.side {
        Side::Notebook => notebook::entries(ui, &mut beside.notebook, view),
        Side::NextTest => {
            ScrollArea::vertical().id_salt("hints").auto_shrink(false).show(ui, |ui| {
                next_test(ui, view, hints, wishes);
                ui.add_space(4.0);
                standing(ui, beside, view, hints, wishes);
            });
        }
    }
}

fn next_test(ui: &mut Ui, view: &View<'_>, hints: &HintLook, wishes: &mut Wishes) {
    let words = view.words;
    if let Some(reason) = &hints.failed {
        ui.label(words.fill("screen-hints-failed", &[("reason", reason.clone())]));
        return;
    }
    if hints.followed_s.is_none() {
        let done = share(f64::from(hints.arrived_share));
        progress(ui, words.fill("screen-hints-arriving", &[("share", done)]), hints.arrived_share);
    }
    match &hints.tests {
        TestsLook::UnderWay(_) if hints.followed_s.is_none() => {
            small(ui, words.label("screen-hints-after-arrival"));
        }
        TestsLook::UnderWay(compared) => {
            let done = share(f64::from(*compared));
            progress(ui, words.fill("screen-hints-comparing", &[("share", done)]), *compared);
        }
        TestsLook::Ready(tests) if tests.is_empty() => {
            ui.label(words.label("screen-hints-no-test"));
        }
        TestsLook::Ready(tests) => {
            for (test, way) in tests {
                row(ui, view, test, way, wishes);
            }
        }
        TestsLook::NotAsked if view.call.hints == Hints::Always => {
            small(ui, words.label("screen-hints-when-idle"));
        }
        TestsLook::NotAsked => {
            let button =
                Button::new(words.label("screen-hints-ask")).min_size(vec2(ui.available_width(), 28.0));
            if ui.add_enabled(view.busy.is_none(), button).clicked() {
                wishes.command(Command::AskTests);
            }
            small(ui, words.label("screen-hints-counted"));
        }
    }
}

fn progress(ui: &mut Ui, told: String, share: f32) {
    let width = ui.available_width() - 8.0;
    progress_bar(ui, share, width, told);
}

/// A test as a button that makes it, with what it is worth and what comes first.
fn row(ui: &mut Ui, view: &View<'_>, test: &Test, way: &[Move], wishes: &mut Wishes) {
    let minutes = RichText::new(cost_in_minutes(test.minutes, view.words))
        .size(palette::SMALL_PX)
        .color(palette::PENCIL);
    let button = Button::new(view.words.say(&test.action))
        .wrap()
        .right_text(minutes)
        .min_size(vec2(ui.available_width() - 4.0, 26.0));
    if ui.add_enabled(view.busy.is_none(), button).clicked() {
        wishes.command(Command::PerformAll(way.to_vec()));
    }
    let worth = view.words.label(worth(test.gain_bits));
    let told = [Some(worth), before_it(test, way, view.words), with_it(test, view.words)];
    for line in told.into_iter().flatten() {
        ui.add(egui::Label::new(RichText::new(line).size(palette::SMALL_PX)).wrap());
    }
    if let Some(caution) = way.iter().find_map(visit::caution) {
        let text = view.words.fill("caution-before", &[("caution", view.words.say(&caution))]);
        let caution = RichText::new(text).size(palette::SMALL_PX).color(palette::BRICK);
        ui.add(egui::Label::new(caution).wrap());
    }
    ui.add_space(3.0);
}

/// What has to be done before a test, in words.
fn before_it(test: &Test, way: &[Move], words: Words) -> Option<String> {
    let moves = wording::moves(way.iter().take_while(|action| **action != test.action), words);
    if way.contains(&test.action) {
        return moves.map(|moves| words.fill("screen-hints-first", &[("moves", moves)]));
    }
    let moves = moves?;
    Some(match test.when {
        When::RunningClear => words.fill("screen-hints-next-running-clear", &[("moves", moves)]),
        _ => words.fill("screen-hints-next", &[("moves", moves)]),
    })
}

/// What the same set-up serves besides, in words.
fn with_it(test: &Test, words: Words) -> Option<String> {
    let moves = wording::moves(&test.bundle.as_ref()?.others, words)?;
    Some(words.fill("screen-hints-with-it", &[("moves", moves)]))
}

/// Key of what an expected gain is worth. One bit halves what is open.
fn worth(gain_bits: f64) -> &'static str {
    match gain_bits {
        gain if gain >= 1.0 => "screen-hints-worth-very-much",
        gain if gain >= 0.5 => "screen-hints-worth-much",
        gain if gain >= 0.2 => "screen-hints-worth-something",
        gain if gain >= 0.05 => "screen-hints-worth-little",
        _ => "screen-hints-worth-nothing",
    }
}

fn standing(ui: &mut Ui, beside: &mut Beside, view: &View<'_>, hints: &HintLook, wishes: &mut Wishes) {
    let text = match beside.standing {
        Standing::Hidden => "screen-hints-possible",
        Standing::Shown => "screen-hints-possible-hide",
    };
    let button = Button::new(view.words.label(text)).min_size(vec2(ui.available_width(), 28.0));
    if ui.add_enabled(hints.followed_s.is_some(), button).clicked() {
        beside.standing = match beside.standing {
            Standing::Hidden => {
                wishes.command(Command::LookAtStanding);
                Standing::Shown
            }
            Standing::Shown => Standing::Hidden,
        };
    }
    if beside.standing == Standing::Hidden {
        return;
    }
    let done = view.notebook.last().map_or(0, |entry| entry.number);
    if hints.weighed < done {
        small(ui, view.words.fill("screen-hints-as-of", &[("number", hints.weighed.to_string())]));
    }
    let listed = hints.standing.iter().filter(|chance| chance.probability >= LISTED_FROM).take(LISTED);
    let mut rest = 1.0;
    for chance in listed {
        rest -= chance.probability;
        chance_row(ui, &view.words.heading(&chance.suspect), chance.probability, view.words);
    }
    if rest >= LISTED_FROM {
        chance_row(ui, &view.words.label("screen-hints-others"), rest, view.words);
    }
}

/// Room for a name and for a probability, px.
const NAME: f32 = 168.0;
const PERCENT: f32 = 78.0;

fn chance_row(ui: &mut Ui, name: &str, probability: f64, words: Words) {
    ui.horizontal(|ui| {
        ui.allocate_ui(vec2(NAME, 18.0), |ui| {
            ui.set_min_width(NAME);
            ui.set_max_width(NAME);
            ui.add(egui::Label::new(RichText::new(name).size(palette::SMALL_PX)).wrap());
        });
        score_bar(ui, probability, 1.0, (ui.available_width() - PERCENT).max(40.0));
        small(ui, words.probability(probability));
    });
}
