//! A screen under test: a visit, the state of its panels, and the commands that were given.

use std::sync::LazyLock;

use egui_kittest::Harness;
use session::{ClockLook, Command, HintLook, Pace, Speed, Stage};
use ui::{Shown, UiState};
use visit::{Move, Visit};
use words::Words;

/// What the harness holds.
pub struct Bench {
    /// The screen's own state.
    pub state: UiState,
    /// Language and units, as a session keeps them.
    pub words: Words,
    /// The visit.
    pub visit: Visit,
    /// What the suspects say.
    pub hints: HintLook,
    /// Every command so far.
    pub commands: Vec<Command>,
}

/// The visit on arrival; its history runs once for all tests of a file.
static ARRIVED: LazyLock<Visit> = LazyLock::new(|| {
    let (id, text) = call::built_in()[0];
    let call = call::read(text, id).expect("a built-in call is valid");
    Visit::start(&call, 1).expect("the plant stays finite")
});

/// The visit after some moves.
pub fn visit_after(moves: &[Move]) -> Visit {
    let mut visit = ARRIVED.clone();
    for action in moves {
        visit.perform(action).expect("the plant stays finite");
    }
    visit
}

/// A screen at work on a visit, of a size in points.
pub fn at_work(visit: Visit, size: [f32; 2]) -> Harness<'static, Bench> {
    at_work_with(visit, HintLook::default(), size)
}

/// The same with what the suspects say.
pub fn at_work_with(visit: Visit, hints: HintLook, size: [f32; 2]) -> Harness<'static, Bench> {
    let bench =
        Bench { state: UiState::default(), words: Words::default(), visit, hints, commands: Vec::new() };
    let mut harness = Harness::builder().with_size(size).with_max_steps(20).build_ui_state(
        |ui, bench: &mut Bench| {
            let clock = ClockLook { speed: Speed::Real, pace: Pace::Paused };
            let stage = Stage::Working { visit: &bench.visit, clock, hints: bench.hints.clone() };
            let shown = Shown { stage, notice: None, words: bench.words, turn: 0 };
            let given = ui::show(ui, &mut bench.state, shown);
            take(&mut bench.words, &mut bench.commands, given);
        },
        bench,
    );
    harness.run_steps(4);
    harness
}

/// Carries out what concerns units, and keeps the rest to be looked at.
pub fn take(words: &mut Words, commands: &mut Vec<Command>, given: Vec<Command>) {
    for command in given {
        match command {
            Command::SetUnits(units) => words.units = units,
            other => commands.push(other),
        }
    }
}
