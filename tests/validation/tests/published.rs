//! Every published value against ours, and the document against both.

use std::sync::OnceLock;

use validation::check::{Kind, Topic};
use validation::tuned::TUNINGS;
use validation::{all, document, names};

fn topics() -> &'static [Topic] {
    static TOPICS: OnceLock<Vec<Topic>> = OnceLock::new();
    TOPICS.get_or_init(all)
}

fn holds(name: &str) {
    let topic = topics().iter().find(|topic| topic.name == name).expect("a topic of that name");
    assert!(!topic.checks.is_empty(), "{name} checks nothing");
    let complaints: Vec<String> = topic.checks.iter().filter_map(|check| check.complaint()).collect();
    assert!(complaints.is_empty(), "{name}:\n{}", complaints.join("\n"));
}

macro_rules! each {
    ($($test:ident: $name:literal,)*) => {
        $(#[test] fn $test() { holds($name); })*

        #[test]
        fn no_topic_is_left_out() {
            let mut tested = [$($name),*];
            let mut listed = names();
            tested.sort_unstable();
            listed.sort_unstable();
            assert_eq!(tested, listed);
        }
    };
}

each! {
    charge: "charge",
    low_charge: "low charge",
    airflow: "airflow",
    condenser: "condenser",
    restriction: "restriction",
    non_condensables: "non-condensables",
    weather: "weather",
    pressures: "pressures",
    sensible: "sensible",
    compressor: "compressor",
    compressor_alone: "compressor alone",
    protection: "protection",
    field: "field",
    superheat: "superheat",
    orifice_flow: "orifice flow",
    directions: "directions",
    cycling: "cycling",
    frost: "frost",
    properties: "properties",
    electric: "electric",
}

/// A value that tuned something says what, and each parameter that was tuned is held against a value of the plant that tuned nothing.
#[test]
fn whatever_was_tuned_is_held_against_something_else() {
    for check in topics().iter().flat_map(|topic| &topic.checks) {
        if let Kind::Tuned(parameter) = check.kind {
            assert!(TUNINGS.iter().any(|t| t.parameter == parameter), "{}: {parameter}", check.what);
        }
    }
    for tuning in &TUNINGS {
        for (topic, words) in tuning.against {
            let held = topics().iter().any(|t| {
                t.name == *topic && t.checks.iter().any(|c| c.kind == Kind::Plant && c.what.contains(words))
            });
            assert!(held, "{}: no check of the plant in {topic} with {words}", tuning.parameter);
        }
    }
}

/// `cargo run --release -p validation -- docs` mends it.
#[test]
fn the_document_says_what_the_plant_does() {
    let stale = document::stale(topics()).expect("document and pictures can be read");
    assert!(stale.is_empty(), "{}", stale.join("\n"));
}
