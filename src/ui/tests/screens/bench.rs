//! A screen under test: a visit, the state of its panels, and the commands that were given.

use std::sync::LazyLock;

use egui_kittest::Harness;
use ui::{ClockLook, Command, HintLook, Pace, Speed, Stage, UiState, View};
use visit::{Move, Visit};

/// What the harness holds.
pub struct Bench {
    /// The screen's own state.
    pub state: UiState,
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
    let bench = Bench { state: UiState::default(), visit, hints, commands: Vec::new() };
    let mut harness = Harness::builder().with_size(size).with_max_steps(20).build_ui_state(
        |ui, bench: &mut Bench| {
            let view = View::of(&bench.visit, bench.state.place.0, bench.state.words);
            let clock = ClockLook { speed: Speed::Real, pace: Pace::Paused };
            let stage = Stage::Visit { view: &view, clock, hints: &bench.hints };
            bench.commands.extend(ui::show(ui, &mut bench.state, stage));
        },
        bench,
    );
    harness.run_steps(4);
    harness
}
