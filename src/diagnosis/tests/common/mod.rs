//! A call of our own for tests of the engine.

use call::Call;

/// A call about a system with one fault, as a call file writes it.
pub fn call(system: &str, fault: &str) -> Call {
    let kind = fault.trim_start_matches("(kind: ").split(',').next().unwrap_or_default();
    let text = format!(
        "(version: 1, title: \"A call\", complaint: \"It does not cool.\", system: \"{system}\", \
        house: (air: (Fahrenheit(77), Fahrenheit(79)), relative_humidity: (0.48, 0.54)), \
        weather: (mean: (Fahrenheit(80), Fahrenheit(83)), swing: FahrenheitDifference(8), \
        dew_point: Fahrenheit(60), start_hour: 11, solar_peak_w_m2: 500), \
        thermostat: (mode: Cool, fan: Auto, set_point: Fahrenheit(66)), charge_share: (0.98, 1.02), \
        faults: [{fault}], \
        history: Minutes(60), prerequisites: [], rivals: [], \
        solved: (cleared: [{kind}], charge_share: (0.9, 1.1), frost_mass_max: Grams(50), \
        proven_for: Minutes(15)), par_time: Minutes(90))"
    );
    call::read(&text, "call.ron").unwrap_or_else(|problems| panic!("{problems:#?}"))
}
