//! What the tests of a visit share: a call with a short history, and arrivals with chosen faults.
#![allow(dead_code, reason = "every test file uses its own part")]

use call::{Call, Temperature};
use plant::{FanSetting, Fault, FaultKind, LeakPlace, Mode};
use visit::{Entry, Move, Note, Outcome, Reading, Refusal, Visit};

/// A built-in call, with its history cut short where a test needs no ice.
pub fn call_text(history: &str) -> String {
    let (_, text) = call::built_in()[0];
    let start = text.find("\n    history:").expect("a call has a history");
    let end = start + 1 + text[start + 1..].find('\n').expect("the key ends its line");
    format!("{}\n    history: {history},{}", &text[..start], &text[end..])
}

pub fn short_call() -> Call {
    call::read(&call_text("Minutes(20)"), "short").expect("the short call is valid")
}

/// A long night with the thermostat far down, so that a starved coil freezes.
pub fn long_call() -> Call {
    call::read(&call_text("Hours(9)"), "long").expect("the long call is valid")
}

pub fn fault(kind: FaultKind, place: Option<LeakPlace>, severity: f64) -> Fault {
    Fault { kind, place, severity, onset_s: 0.0 }
}

/// A sound plant, fully charged.
pub fn sound(seed: u64) -> Visit {
    with(seed, &[])
}

/// A plant with faults and its plate's charge.
pub fn with(seed: u64, faults: &[Fault]) -> Visit {
    let call = short_call();
    let charge_kg = call.system.plate_charge_kg;
    Visit::start_with(&call, seed, faults, charge_kg).expect("the history is finite")
}

/// A plant whose coil has frozen behind a filter that has collapsed.
pub fn frozen(seed: u64) -> Visit {
    let call = long_call();
    let charge_kg = call.system.plate_charge_kg;
    let faults = [fault(FaultKind::LoadedFilter, None, 0.95)];
    Visit::start_with(&call, seed, &faults, charge_kg).expect("the history is finite")
}

pub fn cool(set_point_f: f64) -> Move {
    Move::SetThermostat {
        mode: Mode::Cool,
        fan: FanSetting::Auto,
        set_point: Temperature::Fahrenheit(set_point_f),
    }
}

pub fn off() -> Move {
    Move::SetThermostat { mode: Mode::Off, fan: FanSetting::Auto, set_point: Temperature::Fahrenheit(70.0) }
}

pub fn perform(visit: &mut Visit, action: &Move) -> Entry {
    visit.perform(action).expect("the plant stays finite").clone()
}

pub fn all(visit: &mut Visit, actions: &[Move]) {
    for action in actions {
        let entry = perform(visit, action);
        assert!(!matches!(entry.outcome, Outcome::Refused(_)), "{:?}", entry);
    }
}

/// Whether an entry tells a fact, with its very numbers.
pub fn tells(entry: &Entry, fact: impl Into<Note>) -> bool {
    entry.notes.contains(&fact.into())
}

pub fn refusal(visit: &mut Visit, action: &Move) -> Refusal {
    match perform(visit, action).outcome {
        Outcome::Refused(reason) => reason,
        other => panic!("{action:?} should be refused, was {other:?}"),
    }
}

pub fn reading(visit: &mut Visit, action: &Move) -> Reading {
    match perform(visit, action).outcome {
        Outcome::Read(reading) => reading,
        other => panic!("{action:?} should read, was {other:?}"),
    }
}
