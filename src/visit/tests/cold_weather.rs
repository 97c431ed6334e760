//! A charge is not judged by superheat or subcooling below 55 °F outdoors (California Title 24 RA3.2, 2008).

mod common;

use common::{call_text, cool, perform, tells};
use visit::{Move, VerifyNote, Visit};

/// Whether the proof of a sound system says that it is too cold to judge the charge, at a mean outdoor temperature.
fn warned_at(outdoor_f: f64) -> bool {
    let text = call_text("Minutes(20)")
        .replace(
            "mean: (Fahrenheit(72), Fahrenheit(75))",
            &format!("mean: (Fahrenheit({outdoor_f}), Fahrenheit({outdoor_f}))"),
        )
        .replace("swing: FahrenheitDifference(7)", "swing: FahrenheitDifference(0)")
        .replace("dew_point: Fahrenheit(63)", "dew_point: Fahrenheit(45)");
    let call = call::read(&text, "cold").expect("the call is valid");
    let charge_kg = call.system.plate_charge_kg;
    let mut visit = Visit::start_with(&call, 3, &[], charge_kg).expect("the history is finite");
    perform(&mut visit, &cool(60.0));
    let entry = perform(&mut visit, &Move::Verify);
    tells(&entry, VerifyNote::TooColdToJudgeCharge)
}

#[test]
fn the_proof_says_when_it_is_too_cold_to_judge_the_charge() {
    assert!(warned_at(50.0));
    assert!(!warned_at(60.0));
}
