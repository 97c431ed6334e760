//! One rejecting test for each rule of a call file, each with line and column.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use call::{CallMistake, Hints, read};
use plant::FaultKind;
use ron_file::{Mistake, Problem};

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

fn spoiled(edits: &[(&str, &str)]) -> Vec<Problem<CallMistake>> {
    let mut text = SOUND.to_owned();
    for (from, to) in edits {
        assert_eq!(text.matches(from).count(), 1, "{from} must be there once");
        text = text.replace(from, to);
    }
    read(&text, "calls/ice.ron").unwrap_err().told
}

/// Spoils one place and expects one problem there, which as a fact reads as said.
#[track_caller]
fn rejects(from: &str, to: &str, at: (usize, usize), fact: &str) {
    let problems = spoiled(&[(from, to)]);
    assert_eq!(problems.len(), 1, "{problems:#?}");
    let Problem { place, kind } = &problems[0];
    assert_eq!((place.line, place.column), at, "{problems:#?}");
    let told = format!("{kind:?}");
    assert!(told.starts_with(fact), "{told}");
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
    let places: Vec<(usize, usize)> =
        problems.iter().map(|problem| (problem.place.line, problem.place.column)).collect();
    assert_eq!(places, [(12, 9), (25, 16), (25, 45)], "{problems:#?}");
    assert!(
        matches!(&problems[0].kind, CallMistake::Written(Mistake::UnknownKey { key, .. }) if key == "relativ_humidity")
    );
    assert!(
        matches!(&problems[1].kind, CallMistake::Written(Mistake::UnknownName { name, .. }) if name == "LodedFilter")
    );
    assert!(matches!(&problems[2].kind, CallMistake::OutOfBounds { amount, .. } if amount.written == 1.4));
    assert_eq!(problems[2].place.path, "faults[0].severity[1]");
}

#[test]
fn a_missing_key_hides_no_other_mistake() {
    let problems = spoiled(&[
        ("        dew_point: Celsius(15),\n", ""),
        ("set_point: Fahrenheit(69)", "set_point: 69"),
        ("history: Hours(10)", "history: Hours(100)"),
    ]);
    let places: Vec<(usize, usize)> =
        problems.iter().map(|problem| (problem.place.line, problem.place.column)).collect();
    assert_eq!(places, [(15, 14), (21, 52), (27, 14)], "{problems:#?}");
    for (problem, hint) in problems.iter().zip(["dew_point: Fahrenheit(60)", "set_point: Fahrenheit(69)"]) {
        assert!(format!("{:?}", problem.kind).contains(hint), "{problem:?}");
    }
}

#[test]
fn unknown_keys_are_refused() {
    rejects(
        "    history:",
        "    banana: 3,\n    history:",
        (28, 5),
        r#"Written(UnknownKey { key: "banana", inside: File, nearest: None"#,
    );
}

#[test]
fn keys_stand_once() {
    rejects(
        "start_hour: 20,",
        "start_hour: 20, start_hour: 21,",
        (19, 25),
        r#"Written(DoubledKey { key: "start_hour" })"#,
    );
}

#[test]
fn the_version_is_one() {
    rejects("version: 1", "version: 2", (2, 14), "Version { version: 2, read: 1 }");
}

#[test]
fn the_file_name_is_an_id() {
    let problems = read(SOUND, "calls/Ice Cold.ron").unwrap_err().told;
    assert_eq!((problems.len(), problems[0].place.line, problems[0].place.column), (1, 1, 1));
    assert_eq!(problems[0].kind, CallMistake::FileName { id: "Ice Cold".to_owned() });
}

#[test]
fn title_and_complaint_say_something() {
    rejects("\"Ice\"", "\" \"", (3, 12), r#"Empty { key: "title" }"#);
    rejects("\"There is ice.\"", "\"\"", (4, 16), r#"Empty { key: "complaint" }"#);
    rejects(
        "\"Ice\"",
        &format!("\"{}\"", "x".repeat(81)),
        (3, 12),
        r#"TooLong { key: "title", characters: 81, most: 80 }"#,
    );
}

#[test]
fn each_question_is_answered_once_and_with_words() {
    rejects("NoisesAndWater", "WhenItStarted", (7, 9), r#"AnsweredTwice { question: "WhenItStarted" }"#);
    rejects("\"Monday.\"", "\"\"", (6, 25), r#"Empty { key: "answers" }"#);
}

#[test]
fn the_system_is_a_known_one() {
    rejects(
        "split-3-ton-r410a-txv",
        "split-3-ton-r410a-tvx",
        (9, 13),
        r#"UnknownSystem { name: "split-3-ton-r410a-tvx", nearest: Names { names: ["split-3-ton-r410a-txv", "split-3-ton-r454b-txv", "split-3-ton-r22-txv"] }"#,
    );
}

#[test]
fn house_values_are_physical() {
    rejects(
        "(Fahrenheit(74),",
        "(Fahrenheit(40),",
        (11, 15),
        r#"OutOfBounds { key: "air", amount: Amount { written: 40.0, unit: Fahrenheit }"#,
    );
    rejects("Fahrenheit(76))", "Celsius(26))", (11, 31), r#"TwoUnits { key: "air" }"#);
    rejects("(Fahrenheit(74),", "(Fahrenheit(77),", (11, 14), r#"HigherFirst { key: "air" }"#);
    rejects(
        "(0.5, 0.6)",
        "(0.5, 60)",
        (12, 34),
        r#"OutOfBounds { key: "relative_humidity", amount: Amount { written: 60.0, unit: Share }"#,
    );
    rejects(
        "internal_gain_w: 700",
        "internal_gain_w: -1",
        (13, 34),
        r#"OutOfBounds { key: "internal_gain_w", amount: Amount { written: -1.0, unit: Watt }"#,
    );
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
        let fact = match value {
            "NaN" => "Written(NotFinite".to_owned(),
            _ => format!("OutOfBounds {{ key: \"{name}\", "),
        };
        rejects("internal_gain_w: 700", &format!("{name}: {value}"), (13, column), &fact);
    }
}

#[test]
fn weather_values_are_physical() {
    rejects(
        "(Celsius(22), Celsius(24))",
        "(Celsius(22), Celsius(50))",
        (16, 29),
        r#"OutOfBounds { key: "mean", amount: Amount { written: 50.0, unit: Celsius }"#,
    );
    rejects(
        "FahrenheitDifference(9)",
        "FahrenheitDifference(-1)",
        (17, 16),
        r#"OutOfBounds { key: "swing", amount: Amount { written: -1.0, unit: FahrenheitDifference }"#,
    );
    rejects(
        "FahrenheitDifference(9)",
        "CelsiusDifference(20)",
        (17, 16),
        r#"OutOfBounds { key: "swing", amount: Amount { written: 20.0, unit: CelsiusDifference }"#,
    );
    rejects(
        "dew_point: Celsius(15)",
        "dew_point: Celsius(-30)",
        (18, 20),
        r#"OutOfBounds { key: "dew_point", amount: Amount { written: -30.0, unit: Celsius }"#,
    );
    rejects(
        "dew_point: Celsius(15)",
        "dew_point: Celsius(18)",
        (18, 20),
        "DewPoint { amount: Amount { written: 18.0, unit: Celsius }, high: Amount { written: 17.0, unit: Celsius } }",
    );
    rejects(
        "start_hour: 20",
        "start_hour: 25",
        (19, 21),
        r#"OutOfBounds { key: "start_hour", amount: Amount { written: 25.0, unit: Hour }"#,
    );
    rejects(
        "solar_peak_w_m2: 600",
        "solar_peak_w_m2: 6000",
        (20, 26),
        r#"OutOfBounds { key: "solar_peak_w_m2", amount: Amount { written: 6000.0, unit: WattPerSquareMeter }"#,
    );
}

#[test]
fn the_set_point_is_one_of_a_thermostat() {
    rejects(
        "set_point: Fahrenheit(69)",
        "set_point: Celsius(69)",
        (22, 52),
        r#"OutOfBounds { key: "set_point", amount: Amount { written: 69.0, unit: Celsius }"#,
    );
}

#[test]
fn charge_is_a_share() {
    rejects(
        "charge_share: (0.98, 1.02)",
        "charge_share: (0.2, 1.02)",
        (23, 20),
        r#"OutOfBounds { key: "charge_share", amount: Amount { written: 0.2, unit: Share }"#,
    );
    rejects(
        "charge_share: (0.98, 1.02)",
        "charge_share: (0.98, 102)",
        (23, 26),
        r#"OutOfBounds { key: "charge_share", amount: Amount { written: 102.0, unit: Share }"#,
    );
    rejects(
        "charge_share: (0.95, 1.05)",
        "charge_share: (0.1, 1.05)",
        (36, 24),
        r#"OutOfBounds { key: "charge_share", amount: Amount { written: 0.1, unit: Share }"#,
    );
}

#[test]
fn something_is_wrong_with_the_plant() {
    let start = SOUND.find("    faults: [").unwrap();
    let end = SOUND.find("    history").unwrap();
    let text = format!("{}    faults: [],\n{}", &SOUND[..start], &SOUND[end..]);
    let text = text.replace("cleared: [LoadedFilter, RefrigerantLeak]", "cleared: []");
    let problems = read(&text, "ice.ron").unwrap_err().told;
    assert_eq!(
        (problems.len(), problems[0].place.line, problems[0].place.column),
        (1, 24, 13),
        "{problems:#?}"
    );
}

#[test]
fn leaks_have_places_and_others_have_none() {
    rejects(
        "places: [IndoorCoil], ",
        "",
        (26, 9),
        r#"NeedsPlace { kind: "RefrigerantLeak", places: ["IndoorCoil", "SuctionServiceValve", "LiquidLine"] }"#,
    );
    rejects(
        "[IndoorCoil]",
        "[]",
        (26, 41),
        r#"NeedsPlace { kind: "RefrigerantLeak", places: ["IndoorCoil", "SuctionServiceValve", "LiquidLine"] }"#,
    );
    rejects(
        "kind: LoadedFilter,",
        "kind: LoadedFilter, places: [LiquidLine],",
        (25, 38),
        r#"HasNoPlaces { kind: "LoadedFilter", with: ["RefrigerantLeak"] }"#,
    );
    rejects("[IndoorCoil]", "[IndoorCoil, IndoorCoil]", (26, 41), "PlaceTwice");
}

#[test]
fn a_fault_stands_once() {
    let twice =
        "(kind: LoadedFilter, severity: (0.1, 0.2), onset: (Hours(0), Hours(0))),\n    ],\n    history";
    rejects(
        "    ],\n    history",
        &format!("        {twice}"),
        (27, 9),
        r#"FaultTwice { kind: "LoadedFilter" }"#,
    );
}

#[test]
fn valve_faults_need_a_valve() {
    let problems = spoiled(&[
        ("split-3-ton-r410a-txv", "split-3-ton-r410a-orifice"),
        ("kind: LoadedFilter", "kind: MeteringStuckOpen"),
        ("cleared: [LoadedFilter", "cleared: [MeteringStuckOpen"),
    ]);
    assert_eq!(
        (problems.len(), problems[0].place.line, problems[0].place.column),
        (1, 25, 16),
        "{problems:#?}"
    );
}

#[test]
fn faults_of_the_charge_hold_from_the_start() {
    let problems = spoiled(&[
        ("kind: LoadedFilter", "kind: Overcharged"),
        ("cleared: [LoadedFilter", "cleared: [Overcharged"),
    ]);
    assert_eq!(
        (problems.len(), problems[0].place.line, problems[0].place.column),
        (1, 25, 58),
        "{problems:#?}"
    );
    assert_eq!(problems[0].kind, CallMistake::HoldsFromTheStart { kind: "Overcharged".to_owned() });
}

#[test]
fn severity_runs_from_zero_to_one() {
    rejects(
        "severity: (0.8, 0.9)",
        "severity: (-0.1, 0.9)",
        (25, 41),
        r#"OutOfBounds { key: "severity", amount: Amount { written: -0.1, unit: Share }"#,
    );
    rejects(
        "severity: (0.1, 0.2)",
        "severity: (0.1, 20)",
        (26, 71),
        r#"OutOfBounds { key: "severity", amount: Amount { written: 20.0, unit: Share }"#,
    );
    rejects("severity: (0.8, 0.9)", "severity: (0.9, 0.8)", (25, 40), r#"HigherFirst { key: "severity" }"#);
}

#[test]
fn onset_lies_in_the_time_that_can_be_simulated() {
    rejects(
        "Hours(1))",
        "Hours(80))",
        (25, 70),
        r#"OutOfBounds { key: "onset", amount: Amount { written: 80.0, unit: Hour }"#,
    );
    rejects("Hours(1))", "Minutes(60))", (25, 70), r#"TwoUnits { key: "onset" }"#);
}

#[test]
fn history_and_par_time_have_bounds() {
    rejects(
        "history: Hours(10)",
        "history: Hours(73)",
        (28, 14),
        r#"OutOfBounds { key: "history", amount: Amount { written: 73.0, unit: Hour }"#,
    );
    rejects(
        "history: Hours(10)",
        "history: Minutes(-1)",
        (28, 14),
        r#"OutOfBounds { key: "history", amount: Amount { written: -1.0, unit: Minute }"#,
    );
    rejects(
        "par_time: Minutes(180)",
        "par_time: Seconds(1)",
        (40, 15),
        r#"OutOfBounds { key: "par_time", amount: Amount { written: 1.0, unit: Second }"#,
    );
}

#[test]
fn a_prerequisite_has_a_reason_and_a_way() {
    rejects("\"Stop it first.\"", "\"\"", (30, 64), r#"Empty { key: "why" }"#);
    rejects("one_of: [CompressorStopped]", "one_of: []", (30, 38), "NoWay");
}

#[test]
fn nothing_comes_before_itself() {
    let to = "one_of: [CompressorStopped, CoilThawed]";
    rejects("one_of: [CompressorStopped]", to, (30, 38), r#"BeforeItself { milestone: "CoilThawed" }"#);
}

#[test]
fn a_prerequisite_stands_once() {
    let again =
        "        (before: CoilThawed, one_of: [CompressorStopped], why: \"Again.\"),\n    ],\n    rivals";
    rejects("    ],\n    rivals", again, (32, 9), "PrerequisiteTwice");
}

#[test]
fn the_order_does_not_run_in_a_circle() {
    let problems = spoiled(&[
        ("one_of: [CompressorStopped]", "one_of: [GaugesConnected]"),
        ("one_of: [CoilThawed, FilterInspected]", "one_of: [CoilThawed]"),
    ]);
    let places: Vec<(usize, usize)> =
        problems.iter().map(|problem| (problem.place.line, problem.place.column)).collect();
    assert_eq!(places, [(30, 38), (31, 43)], "{problems:#?}");
    let waiting = ["CoilThawed", "GaugesConnected"].map(str::to_owned).to_vec();
    assert_eq!(problems[0].kind, CallMistake::Circle { milestone: "CoilThawed".to_owned(), waiting });
    // With a way out of the circle the order is sound.
    let open = SOUND.replace("one_of: [CompressorStopped]", "one_of: [GaugesConnected]");
    assert!(read(&open, "ice.ron").is_ok());
}

#[test]
fn rivals_are_not_faults_and_stand_once() {
    rejects("[MeteringRestricted]", "[LoadedFilter]", (33, 14), r#"RivalIsFault { kind: "LoadedFilter" }"#);
    let twice = "[MeteringRestricted, MeteringRestricted]";
    rejects("[MeteringRestricted]", twice, (33, 34), r#"KindTwice { kind: "MeteringRestricted" }"#);
}

#[test]
fn priors_are_weights_and_stand_once() {
    let with = |priors: &str| format!("[MeteringRestricted],\n    priors: {priors}");
    rejects(
        "[MeteringRestricted]",
        &with("[(LoadedFilter, 0)]"),
        (34, 14),
        r#"Weight { kind: "LoadedFilter", written: 0.0"#,
    );
    let twice = with("[(LoadedFilter, 3), (LoadedFilter, 4)]");
    rejects("[MeteringRestricted]", &twice, (34, 33), r#"KindTwice { kind: "LoadedFilter" }"#);
    let good = SOUND.replace("[MeteringRestricted]", &with("[(LoadedFilter, 3)],\n    hints: Always"));
    let call = read(&good, "ice.ron").expect("a good call");
    assert_eq!((call.priors, call.hints), (vec![(FaultKind::LoadedFilter, 3.0)], Hints::Always));
    let call = read(SOUND, "ice.ron").expect("a good call");
    assert_eq!((call.priors, call.hints), (vec![], Hints::OnRequest));
}

/// A text that clears a terminal or turns what stands after it around.
#[test]
fn characters_that_steer_are_refused() {
    for (spoilt, column, code) in
        [("\\u{1b}[2J", 12, "U+001B"), ("\u{202e}", 16, "U+202E"), ("\\u{0}", 12, "U+0000")]
    {
        let fact = format!(r#"Written(Hidden {{ code: "{code}" }})"#);
        rejects("\"Ice\"", &format!("\"Ice{spoilt}\""), (3, column), &fact);
    }
    let shown = format!("{:?}", spoiled(&[("split-3-ton-r410a-txv", "split\u{202e}")]));
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
    rejects(
        from,
        "cleared: [LoadedFilter]",
        (35, 18),
        r#"Cleared { kinds: ["LoadedFilter", "RefrigerantLeak"] }"#,
    );
}

#[test]
fn solved_has_bounds() {
    rejects(
        "Grams(20)",
        "Pounds(20)",
        (37, 25),
        r#"OutOfBounds { key: "frost_mass_max", amount: Amount { written: 20.0, unit: Pound }"#,
    );
    rejects(
        "Minutes(15)",
        "Minutes(0.5)",
        (38, 21),
        r#"OutOfBounds { key: "proven_for", amount: Amount { written: 0.5, unit: Minute }"#,
    );
}

#[test]
fn values_of_the_wrong_sort_are_refused() {
    rejects(
        "start_hour: 20",
        "start_hour: \"late\"",
        (19, 21),
        r#"Written(WrongSort { wanted: Number, written: "\"late\"""#,
    );
    rejects("\"Ice\"", "Ice", (3, 12), r#"Written(WrongSort { wanted: TextOrTexts, written: "Ice""#);
    rejects(
        "history: Hours(10)",
        "history: 10",
        (28, 14),
        r#"Written(WrongSort { wanted: Name, written: "10""#,
    );
    rejects("mode: Cool", "mode: Heat", (22, 24), r#"Written(UnknownName { name: "Heat", nearest: None"#);
    rejects("(0.98, 1.02)", "(0.98, 1.02, 3)", (23, 32), "Written(Count { wanted: 2, found: 3 })");
}
