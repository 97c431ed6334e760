//! One rejecting test for each rule of a call file, each with line and column.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use call::{Hints, Problem, read};
use plant::FaultKind;

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

fn spoiled(edits: &[(&str, &str)]) -> Vec<Problem> {
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
    let problems = spoiled(&[(from, to)]);
    let shown: Vec<String> = problems.iter().map(Problem::to_string).collect();
    assert_eq!(problems.len(), 1, "{shown:#?}");
    assert_eq!((problems[0].line, problems[0].column), at, "{shown:#?}");
    for part in says {
        assert!(shown[0].contains(part), "{} lacks {part}", shown[0]);
    }
}

#[test]
fn the_sound_call_is_read() {
    let call = read(SOUND, "calls/ice.ron").unwrap();
    assert_eq!(call.id, "ice");
    assert_eq!(call.source, SOUND);
    assert_eq!(call.answers.len(), 2);
    assert!((call.thermostat.set_point_k - 293.705_555_555).abs() < 1.0e-6);
    assert!((call.weather.swing_k - 5.0).abs() < 1.0e-12);
    assert_eq!(call.history_s, 36_000.0);
    assert_eq!(call.solved.proven_for_s, 900.0);
    assert!((call.solved.frost_mass_max_kg - 0.02).abs() < 1.0e-12);
}

#[test]
fn three_mistakes_of_different_sorts_are_told_at_once() {
    let problems = spoiled(&[
        ("relative_humidity: (0.5, 0.6)", "relativ_humidity: (0.5, 0.6)"),
        ("kind: LoadedFilter", "kind: LodedFilter"),
        ("severity: (0.8, 0.9)", "severity: (0.8, 1.4)"),
    ]);
    let shown: Vec<String> = problems.iter().map(Problem::to_string).collect();
    assert_eq!(
        shown,
        [
            "calls/ice.ron:12:9: there is no key `relativ_humidity` in house: keys air, relative_humidity, model; \
             hint: did you mean `relative_humidity`?",
            &format!(
                "calls/ice.ron:25:16: `LodedFilter` is not known here: one of {}; hint: did you mean `LoadedFilter`?",
                plant::FaultKind::ALL.map(|kind| format!("{kind:?}")).join(", ")
            ),
            "calls/ice.ron:25:45: severity 1.4 is not allowed: 0 to 1 (share of the filter's open area lost); \
             hint: lower it",
        ]
    );
    assert_eq!(problems[2].value, "1.4");
}

#[test]
fn a_missing_key_hides_no_other_mistake() {
    let problems = spoiled(&[
        ("        dew_point: Celsius(15),\n", ""),
        ("set_point: Fahrenheit(69)", "set_point: 69"),
        ("history: Hours(10)", "history: Hours(100)"),
    ]);
    let places: Vec<(usize, usize)> = problems.iter().map(|problem| (problem.line, problem.column)).collect();
    assert_eq!(places, [(15, 14), (21, 52), (27, 14)], "{problems:#?}");
    assert!(problems[0].hint.contains("dew_point: Fahrenheit(60)"), "{}", problems[0]);
    assert!(problems[1].hint.contains("set_point: Fahrenheit(69)"), "{}", problems[1]);
}

#[test]
fn unknown_keys_are_refused() {
    rejects(
        "    history:",
        "    banana: 3,\n    history:",
        (28, 5),
        &["no key `banana` in the call", "take it out"],
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
fn the_file_name_is_an_id() {
    let problems = read(SOUND, "calls/Ice Cold.ron").unwrap_err();
    assert_eq!((problems.len(), problems[0].line, problems[0].column), (1, 1, 1));
    assert!(problems[0].message.contains("`Ice Cold`"));
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
    rejects("\"Monday.\"", "\"\"", (6, 25), &["answers[0][1] is empty"]);
}

#[test]
fn the_system_is_a_known_one() {
    let hint = "did you mean \"split-3-ton-r410a-txv\"?";
    rejects("split-3-ton-r410a-txv", "split-3-ton-r410a-tvx", (9, 13), &[hint, "split-3-ton-r410a-orifice"]);
}

#[test]
fn house_values_are_physical() {
    rejects("(Fahrenheit(74),", "(Fahrenheit(40),", (11, 15), &["air 40", "50 to 104 °F", "raise it"]);
    rejects("Fahrenheit(76))", "Celsius(26))", (11, 31), &["two units"]);
    rejects("(Fahrenheit(74),", "(Fahrenheit(77),", (11, 14), &["higher value first"]);
    rejects("(0.5, 0.6)", "(0.5, 60)", (12, 34), &["relative_humidity 60", "0.1 to 0.95", "60 % is 0.6"]);
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
        ("solar_aperture_m2", "NaN"),
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
fn something_is_wrong_with_the_plant() {
    let start = SOUND.find("    faults: [").unwrap();
    let end = SOUND.find("    history").unwrap();
    let text = format!("{}    faults: [],\n{}", &SOUND[..start], &SOUND[end..]);
    let text = text.replace("cleared: [LoadedFilter, RefrigerantLeak]", "cleared: []");
    let problems = read(&text, "ice.ron").unwrap_err();
    assert_eq!((problems.len(), problems[0].line, problems[0].column), (1, 24, 13), "{problems:#?}");
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
fn valve_faults_need_a_valve() {
    let problems = spoiled(&[
        ("split-3-ton-r410a-txv", "split-3-ton-r410a-orifice"),
        ("kind: LoadedFilter", "kind: MeteringStuckOpen"),
        ("cleared: [LoadedFilter", "cleared: [MeteringStuckOpen"),
    ]);
    assert_eq!((problems.len(), problems[0].line, problems[0].column), (1, 25, 16), "{problems:#?}");
}

#[test]
fn faults_of_the_charge_hold_from_the_start() {
    let problems = spoiled(&[
        ("kind: LoadedFilter", "kind: Overcharged"),
        ("cleared: [LoadedFilter", "cleared: [Overcharged"),
    ]);
    assert_eq!((problems.len(), problems[0].line, problems[0].column), (1, 25, 58), "{problems:#?}");
    assert!(problems[0].to_string().contains("Overcharged holds from the start"), "{problems:#?}");
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
fn the_order_does_not_run_in_a_circle() {
    let problems = spoiled(&[
        ("one_of: [CompressorStopped]", "one_of: [GaugesConnected]"),
        ("one_of: [CoilThawed, FilterInspected]", "one_of: [CoilThawed]"),
    ]);
    let places: Vec<(usize, usize)> = problems.iter().map(|problem| (problem.line, problem.column)).collect();
    assert_eq!(places, [(30, 38), (31, 43)], "{problems:#?}");
    assert!(problems[0].hint.contains("CoilThawed, GaugesConnected"), "{}", problems[0]);
    // With a way out of the circle the order is sound.
    let open = SOUND.replace("one_of: [CompressorStopped]", "one_of: [GaugesConnected]");
    assert!(read(&open, "ice.ron").is_ok());
}

#[test]
fn rivals_are_not_faults_and_stand_once() {
    rejects("[MeteringRestricted]", "[LoadedFilter]", (33, 14), &["LoadedFilter is a fault of this call"]);
    let twice = "[MeteringRestricted, MeteringRestricted]";
    rejects("[MeteringRestricted]", twice, (33, 34), &["here twice"]);
}

#[test]
fn priors_are_weights_and_stand_once() {
    let with = |priors: &str| format!("[MeteringRestricted],\n    priors: {priors}");
    rejects(
        "[MeteringRestricted]",
        &with("[(LoadedFilter, 0)]"),
        (34, 14),
        &["LoadedFilter is 0", "0.01 to 1000"],
    );
    let twice = with("[(LoadedFilter, 3), (LoadedFilter, 4)]");
    rejects("[MeteringRestricted]", &twice, (34, 33), &["here twice"]);
    let good = SOUND.replace("[MeteringRestricted]", &with("[(LoadedFilter, 3)],\n    hints: Always"));
    let call = read(&good, "ice.ron").expect("a good call");
    assert_eq!((call.priors, call.hints), (vec![(FaultKind::LoadedFilter, 3.0)], Hints::Always));
    let call = read(SOUND, "ice.ron").expect("a good call");
    assert_eq!((call.priors, call.hints), (vec![], Hints::OnRequest));
}

/// A text that clears a terminal or turns what stands after it around.
#[test]
fn characters_that_steer_are_refused() {
    for (spoilt, number) in [("\\u{1b}[2J", "U+001B"), ("\u{202e}", "U+202E"), ("\\u{0}", "U+0000")] {
        rejects("\"Ice\"", &format!("\"Ice{spoilt}\""), (3, 12), &["title", number]);
    }
    let shown = spoiled(&[("split-3-ton-r410a-txv", "split\u{202e}")])[0].to_string();
    assert!(shown.contains("U+202E") && !shown.contains('\u{202e}'), "{shown}");
}

#[test]
fn no_more_problems_are_told_than_are_read() {
    let many = "(WhenItStarted, \"Monday.\"),\n".repeat(2_000);
    let problems = spoiled(&[("(WhenItStarted, \"Monday.\"),", &many)]);
    assert!((10..=60).contains(&problems.len()), "{}", problems.len());
}

#[test]
fn solved_names_the_faults() {
    let from = "cleared: [LoadedFilter, RefrigerantLeak]";
    rejects(from, "cleared: [LoadedFilter]", (35, 18), &["[LoadedFilter, RefrigerantLeak]"]);
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
    rejects("mode: Cool", "mode: Heat", (22, 24), &["`Heat` is not known here", "Off, Cool"]);
    rejects("(0.98, 1.02)", "(0.98, 1.02, 3)", (23, 32), &["one value too many"]);
}
