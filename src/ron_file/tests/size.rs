//! Large files of nothing but mistakes are told in the time and the memory of one reading.
#![allow(clippy::unwrap_used, reason = "a test that meets an error has failed")]

use std::time::Instant;

use ron_file::{MOST_TOLD, Manner, Mistake, Reading};
use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Thing {
    #[serde(rename = "kind")]
    _kind: Kind,
    #[serde(rename = "severity")]
    _severity: (f64, f64),
}

#[derive(Debug, Deserialize)]
enum Kind {
    LoadedFilter,
    RefrigerantLeak,
}

const BYTES: usize = 16_000_000;
/// Seconds that one of them may take without optimisation on a busy machine; with it each takes a few tenths.
const LONGEST_S: f64 = 30.0;

/// How many problems a text has that repeats a part up to its size.
fn problems_of(before: &str, part: &str, after: &str) -> usize {
    let text = format!("{before}{}{after}", part.repeat(BYTES / part.len()));
    let begun = Instant::now();
    let mut reading = Reading::<Mistake>::new(&text);
    let things: Option<Vec<Thing>> = reading.value(&Manner::default());
    drop(things);
    let problems = reading.finish("x.ron").unwrap_err();
    let took_s = begun.elapsed().as_secs_f64();
    println!("{took_s:.3} s for {before}{part}{after}: {}", problems.told.len() + problems.more);
    assert!(took_s < LONGEST_S, "{took_s} s for {part}");
    assert!(problems.told.len() <= MOST_TOLD);
    problems.told.len() + problems.more
}

#[test]
fn no_file_of_mistakes_takes_long() {
    assert!(problems_of("[", "(kind: LodedFilter, severity: (0.8, 0.9)),\n", "]") > 300_000);
    assert!(problems_of("[", "(knid: LoadedFilter, severity: (0.8)),\n", "]") > 300_000);
    assert!(problems_of("[", "(kind: LoadedFilter),\n", "]") >= MOST_TOLD);
    assert_eq!(problems_of("[(", "x: 1, ", ")]"), 1, "more values than are read");
    assert!(problems_of("[", "1,", "]") >= 1);
    assert!(problems_of("[", "@", "]") >= 1_000_000);
    assert_eq!(problems_of("", "[", ""), 1);
    assert_eq!(problems_of("[(kind: ", "A", ", severity: (0, 1))]"), 1);
    assert_eq!(problems_of("[(kind: \"", "s", "\", severity: (0, 1))]"), 1);
    assert_eq!(problems_of("", "/*", ""), 1);
    assert!(problems_of("", "/* */", "") >= 1);
    assert!(problems_of("", "\n", "") >= 1);
    assert!(problems_of("[", "\u{202e}", "]") >= 1_000_000);
}
