//! Hints beside the notebook.

use crate::bench::{Bench, at_work_with, visit_after};
use call::Hints;
use diagnosis::{Bundle, Hypothesis, Posterior, Test, When};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use session::{Command, HintLook, HintsTaken, TestsLook};
use visit::{Duration, Move, Place, Port, Visit};
use words::Words;

const SIZE: [f32; 2] = [1366.0, 768.0];

/// The visit on arrival with another policy of hints.
fn visit_with(hints: Hints) -> Visit {
    let (id, text) = call::built_in()[0];
    let mut call = call::read(text, id).expect("a built-in call is valid");
    call.hints = hints;
    call.history_s = 600.0;
    Visit::start(&call, 1).expect("the plant stays finite")
}

fn chance(kind: plant::FaultKind, probability: f64) -> Posterior {
    Posterior { suspect: Hypothesis::single(kind, None), probability, amounts: vec![(0.5, 0.1)] }
}

fn look(tests: TestsLook) -> HintLook {
    HintLook {
        arrived_share: 1.0,
        followed_s: Some(1.0e9),
        weighed: 0,
        standing: vec![
            chance(plant::FaultKind::PluggedDrier, 0.75),
            chance(plant::FaultKind::LoadedFilter, 0.2),
        ],
        tests,
        failed: None,
    }
}

fn gauge_test() -> (Test, Vec<Move>) {
    let test = Test {
        action: Move::ReadGauge(Port::Suction),
        first: vec![Move::ConnectGauges],
        when: When::Now,
        gain_bits: 0.61,
        minutes: 4.0,
        cost: 1.0,
        bundle: Some(Bundle {
            others: vec![Move::ReadGauge(Port::Liquid)],
            gain_bits: 0.94,
            minutes: 5.0,
            cost: 1.0,
        }),
    };
    let way = vec![Move::ConnectGauges, Move::ReadGauge(Port::Suction)];
    (test, way)
}

fn coil_test() -> (Test, Vec<Move>) {
    let test = Test {
        action: Move::ReadGauge(Port::Liquid),
        first: vec![Move::ConnectGauges],
        when: When::RunningClear,
        gain_bits: 1.4,
        minutes: 60.0,
        cost: 1.0,
        bundle: None,
    };
    (test, vec![Move::Look(Place::IndoorCoil)])
}

fn next_test(hints: HintLook, policy: Hints) -> Harness<'static, Bench> {
    let mut harness = at_work_with(visit_with(policy), hints, SIZE);
    harness.key_press(Key::N);
    harness.run_steps(4);
    harness
}

#[test]
fn without_hints_there_is_nothing_to_ask() {
    let ready = look(TestsLook::Ready(vec![gauge_test()]));
    let harness = next_test(ready, Hints::Off);
    for text in ["Next test  N", "Which test would tell the most?", "What is still possible?"] {
        assert!(harness.query_by_label(text).is_none(), "{text}");
    }
    assert!(harness.query_by_label("Notebook").is_some());
}

#[test]
fn on_request_a_press_asks() {
    let mut harness = next_test(look(TestsLook::NotAsked), Hints::OnRequest);
    harness.get_by_label("Which test would tell the most?").click();
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::AskTests]);
}

#[test]
fn a_test_says_what_it_is_worth_and_what_comes_first_and_is_made_by_a_press() {
    let ready = look(TestsLook::Ready(vec![gauge_test(), coil_test()]));
    let mut harness = next_test(ready, Hints::OnRequest);
    for told in [
        "Useful.",
        "First: “Connect the gauges”.",
        "With the same setup: “Read the liquid gauge”.",
        "Very useful.",
        "Needs a running system and a clear coil. Next for that: “Look at the indoor coil”.",
    ] {
        assert!(harness.query_by_label(told).is_some(), "{told}");
    }
    assert!(harness.query_all_by_label_contains("Caution: ").next().is_some(), "gauges need a caution");
    harness.get_by_label_contains("Read the suction gauge").click();
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::PerformAll(gauge_test().1)]);
}

#[test]
fn what_still_stands_is_shown_on_request_and_counted() {
    let mut harness = next_test(look(TestsLook::NotAsked), Hints::Always);
    assert!(harness.query_by_label("Filter drier plugged").is_none());
    harness.get_by_label("What is still possible?").click();
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::LookAtStanding]);
    harness.run_steps(3);
    let names = ["Filter drier plugged", "All others together"];
    for (name, percent) in names.into_iter().zip(["75\u{a0}%", "5.0\u{a0}%"]) {
        assert!(harness.query_by_label(name).is_some(), "{name}");
        let rect = harness.get_by_label(percent).rect();
        assert!(rect.right() <= SIZE[0], "{percent} at {rect:?}");
    }
}

#[test]
fn the_keyboard_alone_asks() {
    let mut harness = next_test(look(TestsLook::NotAsked), Hints::OnRequest);
    for _ in 0..120 {
        if harness.get_by_label("Which test would tell the most?").accesskit_node().is_focused() {
            break;
        }
        harness.key_press(Key::Tab);
        harness.run_steps(2);
    }
    harness.key_press(Key::Enter);
    harness.run_steps(3);
    assert_eq!(harness.state().commands, [Command::AskTests]);
}

#[test]
fn a_wait_shows_how_far_the_weighing_is() {
    let mut visit = visit_after(&[]);
    let began_s = visit.time_s();
    visit.begin(&Move::Wait(Duration::Hours(2.0)));
    visit.work(3600.0).expect("the plant stays finite");
    let behind = |seconds: f64| HintLook { followed_s: Some(began_s + seconds), ..look(TestsLook::NotAsked) };
    let harness = at_work_with(visit.clone(), behind(1800.0), SIZE);
    assert!(harness.query_by_label_contains("1 h of 2 h, evidence worked out for 30 min").is_some());
    while visit.busy().is_some() {
        visit.work(3600.0).expect("the plant stays finite");
    }
    let harness = at_work_with(visit.clone(), behind(3600.0), SIZE);
    assert!(harness.query_by_label_contains("The evidence is 1 h behind the clock").is_some());
    let harness = at_work_with(visit, behind(7200.0), SIZE);
    assert!(harness.query_by_label_contains("behind the clock").is_none());
}

#[test]
fn the_review_tells_what_was_asked() {
    let none = HintsTaken::default();
    let words = Words::default();
    assert!(ui::hints_taken(none, words).is_empty());
    let some = HintsTaken { policy: Hints::OnRequest, tests: 2, standing: 1 };
    assert_eq!(
        ui::hints_taken(some, words),
        ["Hints: you asked for the next test twice.", "Hints: you looked at what was still possible once.",]
    );
    let often = HintsTaken { tests: 5, standing: 0, ..some };
    assert_eq!(ui::hints_taken(often, words), ["Hints: you asked for the next test 5 times."]);
    let always = HintsTaken { policy: Hints::Always, ..none };
    assert_eq!(ui::hints_taken(always, words), ["Hints: the next test was shown all the time."]);
}
