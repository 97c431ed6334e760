//! A plugged drain and a shorted contactor coil: the next best test, again and again, ends at the part that is bad.

use call::Call;
use diagnosis::{Hypotheses, Hypothesis, Part, Prior, Unwatched, guide};
use plant::{Fault, FaultKind};
use visit::Visit;

/// A humid house, called in after some hours.
fn call() -> Call {
    let text = "(version: 1, title: \"Off\", complaint: \"It stopped cooling.\", system: \"split-3-ton-r410a-txv\", \
        house: (air: (Fahrenheit(80), Fahrenheit(80)), relative_humidity: (0.65, 0.65)), \
        weather: (mean: (Fahrenheit(88), Fahrenheit(88)), swing: FahrenheitDifference(8), \
        dew_point: Fahrenheit(74), start_hour: 10, solar_peak_w_m2: 600), \
        thermostat: (mode: Cool, fan: Auto, set_point: Fahrenheit(70)), charge_share: (1, 1), \
        faults: [(kind: PluggedCondensateDrain, severity: (1, 1), onset: (Hours(0), Hours(0)))], \
        history: Hours(3), prerequisites: [], rivals: [], \
        solved: (cleared: [PluggedCondensateDrain], charge_share: (0.9, 1.1), frost_mass_max: Grams(50), \
        proven_for: Minutes(15)), par_time: Minutes(90))";
    call::read(text, "drain.ron").unwrap_or_else(|problems| panic!("{problems:#?}"))
}

#[test]
fn the_next_best_tests_end_at_the_part() {
    let call = call();
    for kind in [FaultKind::PluggedCondensateDrain, FaultKind::ShortedContactorCoil] {
        let fault = Fault { kind, place: None, severity: 1.0, onset_s: 0.0 };
        let mut visit = Visit::start_with(&call, 5, &[fault], call.system.plate_charge_kg).expect("finite");
        let mut suspects =
            Hypotheses::arrive(&call, &Prior::Usual, &Unwatched).expect("finite").expect("nobody stops it");
        guide(&mut visit, &mut suspects, 300.0, &Unwatched).expect("finite").expect("nobody stops it");
        let (part, probability) = suspects.likeliest_part();
        let moves: Vec<_> = visit.notebook().iter().map(|entry| &entry.action).collect();
        println!("{kind:?}: {probability:.3} after {moves:?}");
        assert_eq!(part, Part::of(&Hypothesis::single(kind, None)), "{kind:?} after {moves:?}");
        assert!(probability > 0.8, "{kind:?}: {probability} after {moves:?}");
    }
}
