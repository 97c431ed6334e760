//! Visits for the tests of the review.
#![allow(dead_code, reason = "each test file uses its part")]

use std::path::PathBuf;

use call::Call;
use visit::{Move, Visit, read_moves};

/// A built-in call.
pub fn call_named(name: &str) -> Call {
    let (_, text) = call::built_in().iter().find(|(id, _)| *id == name).expect("a built-in call");
    call::read(text, name).expect("a built-in call is valid")
}

/// The call about a loaded filter.
pub fn call() -> Call {
    call_named("tannery-lane")
}

/// The moves of a file in scenarios/visits.
pub fn moves(name: &str) -> Vec<Move> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../scenarios/visits").join(name);
    let text = std::fs::read_to_string(&path).expect("a file of moves");
    read_moves(&text, name).expect("good moves")
}

/// A visit after some moves.
pub fn visit_after(call: &Call, moves: &[Move]) -> Visit {
    let mut visit = Visit::start(call, 1).expect("a call starts");
    for action in moves {
        visit.perform(action).expect("the plant stays finite");
    }
    visit
}
