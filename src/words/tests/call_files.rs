//! What is said of each mistake in a call file. That each is found at its place is tested in `call`.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use call::{CallProblems, read};
use words::Words;

/// A sound call. Each test spoils one place of it.
const SOUND: &str = r#"(
    version: 1,
    title: "Ice",
    complaint: "There is ice.",
    answers: [
        (WhenItStarted, "Monday."),
        (NoisesAndWater, "None."),
    ],
    system: "split-3-ton-r410a-txv",
    house: (
        air: (Fahrenheit(74), Fahrenheit(76)),
        relative_humidity: (0.5, 0.6),
        model: (internal_gain_w: 700),
    ),
    weather: (
        mean: (Celsius(22), Celsius(24)),
        swing: FahrenheitDifference(9),
        dew_point: Celsius(15),
        start_hour: 20,
        solar_peak_w_m2: 600,
    ),
    thermostat: (mode: Cool, fan: Auto, set_point: Fahrenheit(69)),
    charge_share: (0.98, 1.02),
    faults: [
        (kind: LoadedFilter, severity: (0.8, 0.9), onset: (Hours(0), Hours(1))),
        (kind: RefrigerantLeak, places: [IndoorCoil], severity: (0.1, 0.2), onset: (Hours(0), Hours(0))),
    ],
    history: Hours(10),
    prerequisites: [
        (before: CoilThawed, one_of: [CompressorStopped], why: "Stop it first."),
        (before: GaugesConnected, one_of: [CoilThawed, FilterInspected], why: "Thaw first."),
    ],
    rivals: [MeteringRestricted],
    solved: (
        cleared: [LoadedFilter, RefrigerantLeak],
        charge_share: (0.95, 1.05),
        frost_mass_max: Grams(20),
        proven_for: Minutes(15),
    ),
    par_time: Minutes(180),
)
"#;

fn spoiled(edits: &[(&str, &str)]) -> CallProblems {
    let mut text = SOUND.to_owned();
    for (from, to) in edits {
        assert_eq!(text.matches(from).count(), 1, "{from} must be there once");
        text = text.replace(from, to);
    }
    read(&text, "calls/ice.ron").unwrap_err()
}

/// Spoils one place and expects one problem there, whose line on screen contains all of `says`.
#[track_caller]
fn rejects(from: &str, to: &str, at: (usize, usize), says: &[&str]) {
    let shown = Words::default().problems(&spoiled(&[(from, to)]));
    assert_eq!(shown.len(), 1, "{shown:#?}");
    let place = format!("calls/ice.ron:{}:{}: ", at.0, at.1);
    assert!(shown[0].starts_with(&place), "{} is not at {place}", shown[0]);
    for part in says {
        assert!(shown[0].contains(part), "{} lacks {part}", shown[0]);
    }
}

#[test]
fn three_mistakes_of_different_sorts_are_told_at_once() {
    let problems = spoiled(&[
        ("relative_humidity: (0.5, 0.6)", "relativ_humidity: (0.5, 0.6)"),
        ("kind: LoadedFilter", "kind: LodedFilter"),
        ("severity: (0.8, 0.9)", "severity: (0.8, 1.4)"),
    ]);
    let shown = Words::default().problems(&problems);
    assert_eq!(
        shown,
        [
            "calls/ice.ron:12:9: there is no key `relativ_humidity` in `house`: keys air, relative_humidity and model; \
             hint: did you mean `relative_humidity`?",
            &format!(
                "calls/ice.ron:25:16: `LodedFilter` is not known here: one of {}; hint: did you mean `LoadedFilter`?",
                plant::FaultKind::ALL
                    .map(|kind| format!("{kind:?}"))
                    .join(", ")
                    .replace(", CompressorInternalLeak, ", ", CompressorInternalLeak or ")
            ),
            "calls/ice.ron:25:45: severity 1.4 is not allowed: 0 to 1 (share of the filter's open area lost); \
             hint: lower it",
        ]
    );
}

#[test]
fn unknown_keys_are_refused() {
    rejects(
        "    history:",
        "    banana: 3,\n    history:",
        (28, 5),
        &["no key `banana` in the file", "take it out"],
    );
}

#[test]
fn keys_stand_once() {
    rejects("start_hour: 20,", "start_hour: 20, start_hour: 21,", (19, 25), &["`start_hour` is here twice"]);
}

#[test]
fn the_version_is_one() {
    rejects("version: 1", "version: 2", (2, 14), &["version 2 is not allowed", ": 1;"]);
}

#[test]
fn title_and_complaint_say_something() {
    rejects("\"Ice\"", "\" \"", (3, 12), &["title is empty"]);
    rejects("\"There is ice.\"", "\"\"", (4, 16), &["complaint is empty"]);
    rejects("\"Ice\"", &format!("\"{}\"", "x".repeat(81)), (3, 12), &["81 characters", "at most 80"]);
}

#[test]
fn each_question_is_answered_once_and_with_words() {
    rejects("NoisesAndWater", "WhenItStarted", (7, 9), &["WhenItStarted is answered twice"]);
    rejects("\"Monday.\"", "\"\"", (6, 25), &["answers is empty"]);
}

#[test]
fn the_system_is_a_known_one() {
    let hint = "did you mean one of split-3-ton-r410a-txv, ";
    rejects("split-3-ton-r410a-txv", "split-3-ton-r410a-tvx", (9, 13), &[hint, "split-3-ton-r410a-orifice"]);
}

#[test]
fn house_values_are_physical() {
    rejects("(Fahrenheit(74),", "(Fahrenheit(40),", (11, 15), &["air 40", "50 to 104 °F", "raise it"]);
    rejects("Fahrenheit(76))", "Celsius(26))", (11, 31), &["two units"]);
    rejects("(Fahrenheit(74),", "(Fahrenheit(77),", (11, 14), &["higher value first"]);
    rejects(
        "(0.5, 0.6)",
        "(0.5, 60)",
        (12, 34),
        &["relative_humidity 60", "0.1 to 0.95", "not percent: write 0.6"],
    );
    rejects("internal_gain_w: 700", "internal_gain_w: -1", (13, 34), &["-1", "0 to 10000 W"]);
}

#[test]
fn every_parameter_of_the_house_model_is_held() {
    for (name, value) in [
        ("air_to_outdoors_w_k", "1"),
        ("air_to_structure_w_k", "1"),
        ("structure_to_outdoors_w_k", "1"),
        ("air_capacity_j_k", "1"),
        ("structure_capacity_j_k", "1"),
        ("internal_moisture_kg_s", "1"),
        ("infiltration_kg_s", "2"),
        ("moisture_capacity_kg", "1"),
        ("solar_aperture_m2", "60"),
    ] {
        let column = 17 + name.len() + 2;
        rejects("internal_gain_w: 700", &format!("{name}: {value}"), (13, column), &[name, "is not allowed"]);
    }
}

#[test]
fn weather_values_are_physical() {
    rejects("(Celsius(22), Celsius(24))", "(Celsius(22), Celsius(50))", (16, 29), &["50", "-10 to 45 °C"]);
    rejects("FahrenheitDifference(9)", "FahrenheitDifference(-1)", (17, 16), &["0 to 27 °F of difference"]);
    rejects("FahrenheitDifference(9)", "CelsiusDifference(20)", (17, 16), &["0 to 15 °C of difference"]);
    rejects("dew_point: Celsius(15)", "dew_point: Celsius(-30)", (18, 20), &["-20 to 30 °C"]);
    rejects(
        "dew_point: Celsius(15)",
        "dew_point: Celsius(18)",
        (18, 20),
        &["18 °C lies above", "at most 17 °C"],
    );
    rejects("start_hour: 20", "start_hour: 25", (19, 21), &["start_hour 25", "0 to 24 h"]);
    rejects("solar_peak_w_m2: 600", "solar_peak_w_m2: 6000", (20, 26), &["0 to 1100 W/m²"]);
}

#[test]
fn the_set_point_is_one_of_a_thermostat() {
    rejects("set_point: Fahrenheit(69)", "set_point: Celsius(69)", (22, 52), &["69", "10 to 35 °C"]);
}

#[test]
fn charge_is_a_share() {
    rejects("charge_share: (0.98, 1.02)", "charge_share: (0.2, 1.02)", (23, 20), &["0.2", "0.3 to 1.5"]);
    rejects("charge_share: (0.98, 1.02)", "charge_share: (0.98, 102)", (23, 26), &["102", "0.3 to 1.5"]);
    rejects("charge_share: (0.95, 1.05)", "charge_share: (0.1, 1.05)", (36, 24), &["0.1", "0.5 to 1.5"]);
}

#[test]
fn leaks_have_places_and_others_have_none() {
    rejects(
        "places: [IndoorCoil], ",
        "",
        (26, 9),
        &["RefrigerantLeak needs a place", "IndoorCoil, SuctionServiceValve"],
    );
    rejects("[IndoorCoil]", "[]", (26, 41), &["needs a place"]);
    rejects("kind: LoadedFilter,", "kind: LoadedFilter, places: [LiquidLine],", (25, 38), &["has no places"]);
    rejects("[IndoorCoil]", "[IndoorCoil, IndoorCoil]", (26, 41), &["a place is here twice"]);
}

#[test]
fn a_fault_stands_once() {
    let twice =
        "(kind: LoadedFilter, severity: (0.1, 0.2), onset: (Hours(0), Hours(0))),\n    ],\n    history";
    rejects("    ],\n    history", &format!("        {twice}"), (27, 9), &["LoadedFilter is here twice"]);
}

#[test]
fn severity_runs_from_zero_to_one() {
    rejects("severity: (0.8, 0.9)", "severity: (-0.1, 0.9)", (25, 41), &["severity -0.1", "0 to 1"]);
    rejects(
        "severity: (0.1, 0.2)",
        "severity: (0.1, 20)",
        (26, 71),
        &["severity 20", "0 to 1 (0.02 mm to 1 mm"],
    );
    rejects("severity: (0.8, 0.9)", "severity: (0.9, 0.8)", (25, 40), &["higher value first"]);
}

#[test]
fn onset_lies_in_the_time_that_can_be_simulated() {
    rejects("Hours(1))", "Hours(80))", (25, 70), &["onset 80 h", "0 to 72 h"]);
    rejects("Hours(1))", "Minutes(60))", (25, 70), &["two units"]);
}

#[test]
fn history_and_par_time_have_bounds() {
    rejects("history: Hours(10)", "history: Hours(73)", (28, 14), &["history 73 h", "0 to 72 h"]);
    rejects("history: Hours(10)", "history: Minutes(-1)", (28, 14), &["history -1 min", "0 to 4320 min"]);
    rejects("par_time: Minutes(180)", "par_time: Seconds(1)", (40, 15), &["par_time 1 s", "300 to 86400 s"]);
}

#[test]
fn a_prerequisite_has_a_reason_and_a_way() {
    rejects("\"Stop it first.\"", "\"\"", (30, 64), &["why is empty"]);
    rejects("one_of: [CompressorStopped]", "one_of: []", (30, 38), &["one_of is empty"]);
}

#[test]
fn nothing_comes_before_itself() {
    let to = "one_of: [CompressorStopped, CoilThawed]";
    rejects("one_of: [CompressorStopped]", to, (30, 38), &["CoilThawed cannot come before itself"]);
}

#[test]
fn a_prerequisite_stands_once() {
    let again =
        "        (before: CoilThawed, one_of: [CompressorStopped], why: \"Again.\"),\n    ],\n    rivals";
    rejects("    ],\n    rivals", again, (32, 9), &["same prerequisite"]);
}

#[test]
fn rivals_are_not_faults_and_stand_once() {
    rejects("[MeteringRestricted]", "[LoadedFilter]", (33, 14), &["LoadedFilter is a fault of this call"]);
    let twice = "[MeteringRestricted, MeteringRestricted]";
    rejects("[MeteringRestricted]", twice, (33, 34), &["here twice"]);
}

#[test]
fn solved_names_the_faults() {
    let from = "cleared: [LoadedFilter, RefrigerantLeak]";
    rejects(from, "cleared: [LoadedFilter]", (35, 18), &["LoadedFilter and RefrigerantLeak"]);
}

#[test]
fn solved_has_bounds() {
    rejects("Grams(20)", "Pounds(20)", (37, 25), &["frost_mass_max 20", "0 to 2.205 lb"]);
    rejects("Minutes(15)", "Minutes(0.5)", (38, 21), &["proven_for 0.5 min", "1 to 120 min"]);
}

#[test]
fn values_of_the_wrong_sort_are_refused() {
    rejects("start_hour: 20", "start_hour: \"late\"", (19, 21), &["a number belongs here", "for example"]);
    rejects("\"Ice\"", "Ice", (3, 12), &["a text in double quotes"]);
    rejects("history: Hours(10)", "history: 10", (28, 14), &["a name belongs here, not `10`", "Hours(10)"]);
    rejects("mode: Cool", "mode: Heat", (22, 24), &["`Heat` is not known here", "one of Off or Cool"]);
    rejects(
        "(0.98, 1.02)",
        "(0.98, 1.02, 3)",
        (23, 32),
        &["2 values belong in these brackets, and there are 3"],
    );
}
