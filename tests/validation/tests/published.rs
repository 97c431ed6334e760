//! Every published value against ours, and the document against both.

use std::sync::OnceLock;

use validation::check::Topic;
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
    airflow: "airflow",
    condenser: "condenser",
    restriction: "restriction",
    non_condensables: "non-condensables",
    weather: "weather",
    sensible: "sensible",
    compressor: "compressor",
    field: "field",
    superheat: "superheat",
    directions: "directions",
    cycling: "cycling",
    frost: "frost",
    properties: "properties",
    electric: "electric",
}

/// `cargo run --release -p validation -- docs` mends it.
#[test]
fn the_document_says_what_the_plant_does() {
    let stale = document::stale(topics()).expect("document and pictures can be read");
    assert!(stale.is_empty(), "{}", stale.join("\n"));
}
