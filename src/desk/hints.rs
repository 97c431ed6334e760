//! What the suspects say, beside the notebook: the tests that would tell most, and what still stands.

use call::Hints;
use egui::{Button, RichText, ScrollArea, Ui, vec2};
use report::percent;
use suspects::{Chance, Test, When};
use visit::Move;

use words::Words;

use crate::command::Command;
use crate::desk::Desk;
use crate::parts::{from_right, heading, progress_bar, score_bar, small};
use crate::units::cost_in_minutes;
use crate::view::View;
use crate::{notebook, palette, wording};

/// What is known of the suspects during a visit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HintLook {
    /// Share of the suspects' arrival that is done, 0 to 1.
    pub arrived_share: f32,
    /// Plant time up to which their plants have followed, s; none before they arrived.
    pub followed_s: Option<f64>,
    /// Number of the last entry that was weighed.
    pub weighed: u32,
    /// Suspects after it, the likeliest first.
    pub standing: Vec<Chance>,
    /// The tests that would tell most.
    pub tests: TestsLook,
    /// Why nothing is weighed any more.
    pub failed: Option<String>,
}

/// The tests that would tell most.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum TestsLook {
    /// Nobody asked, or something was done since.
    #[default]
    NotAsked,
    /// They are being worked out; share that is done, 0 to 1.
    UnderWay(f32),
    /// The best first, each with the moves that lead to it.
    Ready(Vec<(Test, Vec<Move>)>),
}

/// How often hints were taken in a visit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct HintsTaken {
    /// What the call allows.
    pub policy: Hints,
    /// How often the best tests were asked for.
    pub tests: u32,
    /// How often the standing suspects were looked at.
    pub standing: u32,
}

impl HintsTaken {
    /// In a sentence; none if nothing was taken.
    pub fn told(self) -> Option<String> {
        let mut parts = Vec::new();
        if self.policy == Hints::Always {
            parts.push("the next test stood there all the time".to_owned());
        } else if self.tests > 0 {
            parts.push(format!("the next test was asked for {}", times(self.tests)));
        }
        if self.standing > 0 {
            parts.push(format!("what still stands was looked at {}", times(self.standing)));
        }
        (!parts.is_empty()).then(|| format!("Hints: {}.", parts.join(", ")))
    }
}

fn times(count: u32) -> String {
    match count {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        more => format!("{more} times"),
    }
}

/// Which page lies beside the moves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Side {
    #[default]
    Notebook,
    NextTest,
}

impl Side {
    pub(crate) fn other(self) -> Side {
        match self {
            Side::Notebook => Side::NextTest,
            Side::NextTest => Side::Notebook,
        }
    }
}

/// Whether the suspects that still stand are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Standing {
    #[default]
    Hidden,
    Shown,
}

/// Suspects that are listed at most.
const LISTED: usize = 8;
/// Probability below which a suspect is not listed.
const LISTED_FROM: f64 = 0.005;

/// Notebook and, if the call allows hints, the next test.
pub fn panel(ui: &mut Ui, desk: &mut Desk, view: &View<'_>, hints: &HintLook, commands: &mut Vec<Command>) {
    ui.add_space(2.0);
    if view.call.hints == Hints::Off {
        ui.horizontal(|ui| {
            heading(ui, "Notebook");
            from_right(ui, |ui| notebook::cited(ui, desk));
        });
        notebook::entries(ui, desk, view);
        return;
    }
    ui.horizontal(|ui| {
        for (side, name) in [(Side::Notebook, "Notebook"), (Side::NextTest, "Next test  N")] {
            let text = palette::bold(name);
            let tab = Button::selectable(desk.side == side, text).frame_when_inactive(true);
            if ui.add(tab).clicked() {
                desk.side = side;
            }
        }
        if desk.side == Side::Notebook {
            from_right(ui, |ui| notebook::cited(ui, desk));
        }
    });
    match desk.side {
        Side::Notebook => notebook::entries(ui, desk, view),
        Side::NextTest => {
            ScrollArea::vertical().id_salt("hints").auto_shrink(false).show(ui, |ui| {
                next_test(ui, view, hints, commands);
                ui.add_space(4.0);
                standing(ui, desk, view, hints, commands);
            });
        }
    }
}

fn next_test(ui: &mut Ui, view: &View<'_>, hints: &HintLook, commands: &mut Vec<Command>) {
    if let Some(reason) = &hints.failed {
        ui.label(format!("No test can be worked out any more: {reason}"));
        return;
    }
    if hints.followed_s.is_none() {
        progress(ui, "The suspects are on their way", hints.arrived_share);
    }
    match &hints.tests {
        TestsLook::UnderWay(_) if hints.followed_s.is_none() => {
            small(ui, "The tests come as soon as they are there.");
        }
        TestsLook::UnderWay(share) => progress(ui, "Tests are being compared", *share),
        TestsLook::Ready(tests) if tests.is_empty() => {
            ui.label("No test is expected to tell anything more as things are.");
        }
        TestsLook::Ready(tests) => {
            for (test, way) in tests {
                row(ui, view, test, way, commands);
            }
        }
        TestsLook::NotAsked if view.call.hints == Hints::Always => {
            small(ui, "The tests are compared once nothing is being done.");
        }
        TestsLook::NotAsked => {
            let button =
                Button::new("Which test would tell most?").min_size(vec2(ui.available_width(), 28.0));
            if ui.add_enabled(view.busy.is_none(), button).clicked() {
                commands.push(Command::AskTests);
            }
            small(ui, "What you ask here is counted and told in the review.");
        }
    }
}

fn progress(ui: &mut Ui, what: &str, share: f32) {
    let width = ui.available_width() - 8.0;
    progress_bar(ui, share, width, format!("{what}, {:.0} %", 100.0 * share));
}

/// A test as a button that makes it, with what it is worth and what comes first.
fn row(ui: &mut Ui, view: &View<'_>, test: &Test, way: &[Move], commands: &mut Vec<Command>) {
    let minutes = RichText::new(cost_in_minutes(test.minutes)).size(palette::SMALL_PX).color(palette::PENCIL);
    let button = Button::new(view.words.say(&test.action))
        .wrap()
        .right_text(minutes)
        .min_size(vec2(ui.available_width() - 4.0, 26.0));
    if ui.add_enabled(view.busy.is_none(), button).clicked() {
        commands.push(Command::PerformAll(way.to_vec()));
    }
    let gain = format!("Tells {} ({:.2} bit).", worth(test.gain_bits), test.gain_bits);
    let first = before_it(test, way, view.words);
    let after = after_it(test, view.words);
    ui.add(egui::Label::new(RichText::new(format!("{gain} {first} {after}")).size(palette::SMALL_PX)).wrap());
    if let Some(caution) = way.iter().find_map(visit::caution) {
        let text = view.words.fill("caution-before", &[("caution", view.words.say(&caution))]);
        let caution = RichText::new(text).size(palette::SMALL_PX).color(palette::BRICK);
        ui.add(egui::Label::new(caution).wrap());
    }
    ui.add_space(3.0);
}

/// What has to be done before a test, in words.
fn before_it(test: &Test, way: &[Move], words: Words) -> String {
    let others: Vec<String> = way
        .iter()
        .take_while(|action| **action != test.action)
        .map(|action| wording::lower_first(&words.say(action)))
        .collect();
    let leads_there = way.contains(&test.action);
    match (others.is_empty(), leads_there) {
        (true, true) => String::new(),
        (_, true) => format!("First: {}.", others.join("; ")),
        (_, false) if test.when == When::RunningClear => {
            format!("Needs a plant that runs with a clear coil. Next for that: {}.", others.join("; "))
        }
        (_, false) => format!("Next for that: {}.", others.join("; ")),
    }
}

/// What the same set-up serves besides, in words.
fn after_it(test: &Test, words: Words) -> String {
    let Some(bundle) = &test.bundle else { return String::new() };
    let others: Vec<String> =
        bundle.others.iter().map(|action| wording::lower_first(&words.say(action))).collect();
    format!("In the same go: {} ({:.2} bit together).", others.join("; "), bundle.gain_bits)
}

/// An expected gain in words. One bit halves what is open.
fn worth(gain_bits: f64) -> &'static str {
    match gain_bits {
        gain if gain >= 1.0 => "very much",
        gain if gain >= 0.5 => "much",
        gain if gain >= 0.2 => "something",
        gain if gain >= 0.05 => "a little",
        _ => "next to nothing",
    }
}

fn standing(ui: &mut Ui, desk: &mut Desk, view: &View<'_>, hints: &HintLook, commands: &mut Vec<Command>) {
    let text = match desk.standing {
        Standing::Hidden => "What still stands?",
        Standing::Shown => "Hide what still stands",
    };
    let button = Button::new(text).min_size(vec2(ui.available_width(), 28.0));
    if ui.add_enabled(hints.followed_s.is_some(), button).clicked() {
        desk.standing = match desk.standing {
            Standing::Hidden => {
                commands.push(Command::LookAtStanding);
                Standing::Shown
            }
            Standing::Shown => Standing::Hidden,
        };
    }
    if desk.standing == Standing::Hidden {
        return;
    }
    let done = view.notebook.last().map_or(0, |entry| entry.number);
    if hints.weighed < done {
        small(ui, format!("As it stood after move {}; later ones are being weighed.", hints.weighed));
    }
    let listed = hints.standing.iter().filter(|chance| chance.probability >= LISTED_FROM).take(LISTED);
    let mut rest = 1.0;
    for chance in listed {
        rest -= chance.probability;
        chance_row(ui, &chance.suspect.to_string(), chance.probability);
    }
    if rest >= LISTED_FROM {
        chance_row(ui, "All others together", rest);
    }
}

/// Room for a name and for a probability, px.
const NAME: f32 = 168.0;
const PERCENT: f32 = 78.0;

fn chance_row(ui: &mut Ui, name: &str, probability: f64) {
    ui.horizontal(|ui| {
        ui.allocate_ui(vec2(NAME, 18.0), |ui| {
            ui.set_min_width(NAME);
            ui.set_max_width(NAME);
            ui.add(egui::Label::new(RichText::new(name).size(palette::SMALL_PX)).wrap());
        });
        score_bar(ui, probability, 1.0, (ui.available_width() - PERCENT).max(40.0));
        small(ui, percent(probability));
    });
}
