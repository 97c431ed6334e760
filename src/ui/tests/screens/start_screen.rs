//! The start screen.

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use session::{CallCard, CallChoice, Command, Preparing, Stage, Task};
use ui::{Shown, UiState};
use words::Words;

const SIZE: [f32; 2] = [1366.0, 768.0];

struct Start {
    state: UiState,
    commands: Vec<Command>,
}

fn shown(stage: Stage<'_>) -> Shown<'_> {
    Shown { stage, notice: None, words: Words::default(), turn: 0 }
}

fn start() -> Harness<'static, Start> {
    let cards: Vec<CallCard> = ["maple-lane", "dock-road"]
        .map(|id| CallCard {
            id: id.to_owned(),
            title: call::Text::english(format!("Ice at {id}")),
            complaint: call::Text::english("It is warm in here."),
            par_time_s: 9_000.0,
        })
        .to_vec();
    let state = Start { state: UiState::default(), commands: Vec::new() };
    let mut harness = Harness::builder().with_size(SIZE).build_ui_state(
        move |ui, start: &mut Start| {
            let shown = shown(Stage::List { calls: &cards, left: &[] });
            start.commands.extend(ui::show(ui, &mut start.state, shown));
        },
        state,
    );
    harness.run_steps(4);
    harness
}

#[test]
fn a_call_is_chosen_and_arrived_at_with_its_seed() {
    let mut harness = start();
    assert!(harness.query_by_label("Choose a call first.").is_some());
    harness.get_by_label("Arrive").click();
    harness.run_steps(3);
    assert!(harness.state().commands.is_empty());

    harness.get_by_label("Ice at dock-road").click();
    harness.run_steps(3);
    harness.get_by_label("Seed").click();
    harness.run_steps(3);
    harness.get_by_label("Seed").type_text("42");
    harness.run_steps(3);
    harness.get_by_label("Arrive").click();
    harness.run_steps(3);
    assert_eq!(
        harness.state().commands,
        [Command::Arrive { call: CallChoice::BuiltIn("dock-road".to_owned()), seed: 42 }]
    );
}

#[test]
fn a_seed_that_is_no_number_is_refused_with_a_reason() {
    let mut harness = start();
    harness.get_by_label("Ice at maple-lane").click();
    harness.get_by_label("Seed").click();
    harness.run_steps(3);
    harness.get_by_label("Seed").type_text("-3");
    harness.run_steps(3);
    assert!(harness.query_by_label("A seed is a whole number, 0 or more.").is_some());
    harness.get_by_label("Arrive").click();
    harness.run_steps(3);
    assert!(harness.state().commands.is_empty());
}

#[test]
fn a_record_is_opened_by_its_path() {
    let mut harness = start();
    harness.get_by_label("Path of a call file or a visit record").click();
    harness.run_steps(3);
    harness.get_by_label("Path of a call file or a visit record").type_text("mine.visit.ron");
    harness.run_steps(3);
    harness.get_by_label("Open this record").click();
    harness.run_steps(3);
    let path = || "mine.visit.ron".into();
    // The work on it may begin while the pointer is on its way to the button.
    assert_eq!(harness.state().commands, [Command::LookAhead(path()), Command::OpenRecord(path())]);
}

/// The whole card takes the click, its text too.
#[test]
fn a_click_on_the_words_of_the_customer_chooses_the_call() {
    let mut harness = start();
    let words = harness.query_all_by_label_contains("It is warm in here.").next().expect("a complaint");
    let place = words.rect().center();
    harness.hover_at(place);
    harness.run_steps(2);
    harness.drag_at(place);
    harness.run_steps(2);
    harness.drop_at(place);
    harness.run_steps(3);
    harness.get_by_label("Arrive").click();
    harness.run_steps(3);
    assert_eq!(
        harness.state().commands,
        [Command::Arrive { call: CallChoice::BuiltIn("maple-lane".to_owned()), seed: 1 }]
    );
}

#[test]
fn the_start_screen_says_what_it_is_not() {
    let harness = start();
    assert!(harness.query_by_label_contains("licensed practice").is_some());
}

#[test]
fn long_work_can_be_cancelled() {
    let state = Start { state: UiState::default(), commands: Vec::new() };
    let mut harness = Harness::builder().with_size(SIZE).build_ui_state(
        |ui, start: &mut Start| {
            let preparing = Preparing { task: Task::Marking, waited_s: 3.0, share: Some(0.25) };
            start.commands.extend(ui::show(ui, &mut start.state, shown(Stage::Preparing(preparing))));
        },
        state,
    );
    harness.run_steps(4);
    harness.get_by_label("Cancel").click();
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::CancelArrival]);
}
